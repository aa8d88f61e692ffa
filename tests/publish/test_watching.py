"""A change is told once, when it has come to rest; what changes no content tells nothing."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from builder.publish.watching import GONE, UNREADABLE, Watch, in_folder, look_at

SECOND_NS = 1_000_000_000


class Clock:
    """A clock that tests set; it begins long after any file was written."""

    def __init__(self) -> None:
        self.now_ns = 4_000_000_000 * SECOND_NS

    def __call__(self) -> int:
        return self.now_ns


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "trailer.yaml"
    path.write_bytes(b"one")
    return path


def told(watch: Watch, looks: int = 6) -> list[bool]:
    return [watch.changed() for _ in range(looks)]


def test_a_new_content_is_told_once_at_the_second_look(file: Path, clock: Clock) -> None:
    watch = Watch([file], clock)
    assert not any(told(watch))
    file.write_bytes(b"three")
    assert told(watch) == [False, True, False, False, False, False]


def test_a_change_that_goes_on_is_told_when_it_rests(file: Path, clock: Clock) -> None:
    watch = Watch([file], clock)
    for number in range(5):
        file.write_bytes(b"x" * number)
        assert not watch.changed()
    assert told(watch) == [True, False, False, False, False, False]


def test_eleven_changes_are_told_eleven_times(file: Path, clock: Clock) -> None:
    watch = Watch([file], clock)
    count = 0
    for number in range(11):
        file.write_bytes(b"%d lamps" % number)
        count += sum(told(watch))
    assert count == 11


def test_an_editor_that_empties_the_file_before_it_writes_is_waited_for(file: Path, clock: Clock) -> None:
    watch = Watch([file], clock)
    file.write_bytes(b"")
    assert not watch.changed()
    file.write_bytes(b"two!")
    assert told(watch) == [False, True, False, False, False, False]


def test_an_editor_that_renames_is_followed(file: Path, clock: Clock) -> None:
    watch = Watch([file], clock)
    for number in range(3):
        beside = file.with_name("beside")
        beside.write_bytes(b"new %d" % number)
        file.rename(file.with_name("trailer.yaml~"))
        assert not watch.changed()
        beside.rename(file)
        assert told(watch) == [False, True, False, False, False, False]


def test_touching_and_saving_unchanged_tell_nothing(file: Path, clock: Clock) -> None:
    watch = Watch([file], clock)
    os.utime(file, ns=(1, 1))
    assert not any(told(watch))
    beside = file.with_name("beside")
    beside.write_bytes(b"one")
    beside.replace(file)
    assert not any(told(watch))


def test_a_file_that_goes_and_comes_back_is_told_both_times(file: Path, clock: Clock) -> None:
    watch = Watch([file], clock)
    file.unlink()
    assert told(watch) == [False, True, False, False, False, False]
    file.write_bytes(b"one")
    assert told(watch) == [False, True, False, False, False, False]


def test_a_change_that_is_taken_back_before_it_rests_tells_nothing(file: Path, clock: Clock) -> None:
    watch = Watch([file], clock)
    file.write_bytes(b"two")
    assert not watch.changed()
    file.write_bytes(b"one")
    assert not any(told(watch))


def test_a_settled_file_is_not_read_again(file: Path, clock: Clock, monkeypatch: pytest.MonkeyPatch) -> None:
    look = look_at(file, None, clock())
    monkeypatch.setattr(Path, "open", None)
    assert look_at(file, look, clock()) is look


def test_two_writes_within_one_tick_of_a_coarse_clock_are_told_apart(file: Path) -> None:
    written_ns = file.stat().st_mtime_ns
    look = look_at(file, None, written_ns)
    file.write_bytes(b"two")
    os.utime(file, ns=(written_ns, written_ns))
    seen = look_at(file, look, written_ns + SECOND_NS)
    assert seen.content not in (look.content, GONE, UNREADABLE)


def test_what_cannot_be_read_is_seen_as_such_and_never_raises(tmp_path: Path) -> None:
    now = Clock()()
    os.mkfifo(tmp_path / "pipe")  # reading it would wait for ever
    (tmp_path / "loop").symlink_to("loop")
    (tmp_path / "file").write_bytes(b"")
    seen = {
        tmp_path: UNREADABLE,
        tmp_path / "pipe": UNREADABLE,
        tmp_path / "loop": UNREADABLE,
        tmp_path / "none": GONE,
        tmp_path / "file" / "inside": GONE,
        tmp_path / "n\0ul": UNREADABLE,
    }
    for path, content in seen.items():
        assert look_at(path, None, now).content == content, path


def test_a_link_that_is_turned_to_another_file_is_a_change(file: Path, tmp_path: Path, clock: Clock) -> None:
    other, link = tmp_path / "other", tmp_path / "link"
    other.write_bytes(b"other")
    link.symlink_to(file)
    watch = Watch([link], clock)
    link.unlink()
    link.symlink_to(other)
    assert told(watch) == [False, True, False, False, False, False]


def test_files_that_are_followed_later_count_from_then_on(file: Path, tmp_path: Path, clock: Clock) -> None:
    picture = tmp_path / "photo.jpg"
    picture.write_bytes(b"photo")
    watch = Watch([file], clock)
    watch.follow([file, picture])
    assert not any(told(watch))
    picture.write_bytes(b"other photo")
    assert told(watch) == [False, True, False, False, False, False]
    watch.follow([file])
    picture.write_bytes(b"a third one")
    assert not any(told(watch))


def test_following_forgets_no_change_of_the_files_it_had(file: Path, tmp_path: Path, clock: Clock) -> None:
    watch = Watch([file], clock)
    file.write_bytes(b"two")
    watch.follow([file, tmp_path / "photo.jpg"])
    assert told(watch) == [False, True, False, False, False, False]


def test_names_are_taken_from_the_build_s_folder(tmp_path: Path) -> None:
    names = ["a.jpg", "photos/b.jpg", "photos/../a.jpg"]
    assert in_folder(tmp_path, names) == (tmp_path / "a.jpg", tmp_path / "photos" / "b.jpg")
