"""A folder is replaced whole or not at all, whatever fails and whenever the process is killed."""

from __future__ import annotations

import errno
import io
import itertools
import operator
import os
import random
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any

import pytest
from sample_manual import ROOT, names_in, site_files

from builder.publish import exchange
from builder.publish.errors import PublishError
from builder.publish.exchange import MARKER, heal, replace_folder

FILES = ("index.html", "a/one.html", "a/two.html", "b/three.svg")


def write(word: str) -> Callable[[Path], None]:
    def fill(new: Path) -> None:
        for name in FILES:
            (new / name).parent.mkdir(exist_ok=True)
            (new / name).write_text(word, encoding="utf-8")

    return fill


def no_room(_new: Path) -> None:
    raise OSError(errno.ENOSPC, "no room")


def word_of(folder: Path) -> str:
    """The one word that all files of a whole folder hold."""
    files = site_files(folder)
    assert sorted(files) == sorted((*FILES, MARKER))
    words = {content.decode() for name, content in files.items() if name != MARKER}
    assert len(words) == 1
    return words.pop()


@pytest.fixture(autouse=True)
def _no_waiting_for_the_disk(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "fsync", lambda _handle: None)


@pytest.fixture(params=["exchange", "two renames"])
def way(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> str:
    """Both ways of putting the new folder in place; the second as on a system without the first."""
    if request.param == "two renames":
        monkeypatch.setattr(exchange, "exchange_names", lambda _one, _other: False)
    return str(request.param)


@pytest.mark.usefixtures("way")
class TestReplace:
    def test_a_new_folder_with_its_parents(self, tmp_path: Path) -> None:
        replace_folder(tmp_path / "x/y/site", "site", write("new"))
        assert word_of(tmp_path / "x/y/site") == "new"
        assert names_in(tmp_path / "x/y") == ["site"]

    def test_an_empty_folder(self, tmp_path: Path) -> None:
        (tmp_path / "site").mkdir()
        replace_folder(tmp_path / "site", "site", write("new"))
        assert word_of(tmp_path / "site") == "new"

    def test_a_folder_we_made(self, tmp_path: Path) -> None:
        replace_folder(tmp_path / "site", "site", write("old"))
        (tmp_path / "site/left over.html").write_text("old", encoding="utf-8")
        replace_folder(tmp_path / "site", "site", write("new"))
        assert word_of(tmp_path / "site") == "new"
        assert names_in(tmp_path) == ["site"]

    def test_a_link_to_a_folder_stays_a_link(self, tmp_path: Path) -> None:
        replace_folder(tmp_path / "real", "site", write("old"))
        (tmp_path / "link").symlink_to(tmp_path / "real")
        replace_folder(tmp_path / "link", "site", write("new"))
        assert (tmp_path / "link").is_symlink()
        assert word_of(tmp_path / "real") == "new"

    def test_each_operation_failing_once(self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        self._fail_each(tmp_path, monkeypatch, operator.eq)

    def test_each_operation_failing_from_then_on(
        self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        self._fail_each(tmp_path, monkeypatch, operator.le)

    def _fail_each(
        self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, fails_at: Callable[[int, int], bool]
    ) -> None:
        outcomes = set()
        for number in itertools.count(1):
            place = tmp_path / str(number)
            replace_folder(place / "site", "site", write("old"))
            with monkeypatch.context() as patch:
                count = break_files(patch, partial(fails_at, number))
                try:
                    replace_folder(place / "site", "site", write("new"))
                    told = "done"
                except PublishError:
                    told = "refused"
            heal(place / "site")
            outcomes.add((told, word_of(place / "site")))
            assert names_in(place) == ["site"]
            if count() < number:
                break
        assert ("done", "old") not in outcomes
        assert ("refused", "new") not in outcomes
        assert {("refused", "old"), ("done", "new")} <= outcomes
        assert number > 30

    @pytest.mark.skipif(sys.platform == "win32", reason="forks")
    @pytest.mark.parametrize("next_command", ["heal", "publish", "a publish that fails"])
    def test_a_crash_at_each_operation(self, next_command: str, tmp_path: Path) -> None:
        left = set()
        for number in itertools.count(1):
            place = tmp_path / str(number)
            replace_folder(place / "site", "site", write("old"))
            crashed = crash_at(number, place / "site")
            left.add(word_of(place / "site") if (place / "site").exists() else "nothing yet")
            if next_command == "publish":
                replace_folder(place / "site", "site", write("next"))
                assert word_of(place / "site") == "next"
            else:
                if next_command == "heal":
                    heal(place / "site")
                else:
                    with pytest.raises(PublishError):
                        replace_folder(place / "site", "site", no_room)
                assert word_of(place / "site") in ("old", "new")
            assert names_in(place) == ["site"]
            if not crashed:
                break
        assert {"old", "new"} <= left

    def test_everything_is_written_through_before_it_is_put_in_place(
        self, way: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        replace_folder(tmp_path / "site", "site", write("old"))
        through: list[str] = []
        put_in_place = exchange.__dict__["_put_in_place"]

        def note(path: Path) -> None:
            through.append(path.relative_to(tmp_path).as_posix())

        def put(new: Path, target: Path, work: Path) -> None:
            through.append("now")
            put_in_place(new, target, work)

        monkeypatch.setattr(exchange, "write_through", note)
        monkeypatch.setattr(exchange, "_put_in_place", put)
        replace_folder(tmp_path / "site", "site", write("new"))
        before, after = through[: through.index("now")], through[through.index("now") + 1 :]
        work = f".site{MARKER}"
        expected = {f"{work}/new/{name}" for name in (*FILES, MARKER, "a", "b")} | {f"{work}/new"}
        assert set(before) == expected
        assert before[-1] == f"{work}/new"
        journal = [f"{work}/journal", work] if way == "two renames" else []
        assert after == [*journal, "."]

    def test_an_error_of_the_filler_leaves_the_old_folder(self, tmp_path: Path) -> None:
        replace_folder(tmp_path / "site", "site", write("old"))

        def interrupted(new: Path) -> None:
            write("new")(new)
            raise KeyboardInterrupt

        with pytest.raises(KeyboardInterrupt):
            replace_folder(tmp_path / "site", "site", interrupted)
        assert word_of(tmp_path / "site") == "old"
        assert names_in(tmp_path) == ["site"]


def break_files(patch: pytest.MonkeyPatch, fails: Callable[[int], bool]) -> Callable[[], int]:
    """Make every file operation ask ``fails`` with its running number; gives the count so far."""
    numbers = itertools.count(1)
    last = 0

    def watched(call: Callable[..., Any]) -> Callable[..., Any]:
        def instead(*args: Any, **kwargs: Any) -> Any:
            nonlocal last
            last = next(numbers)
            if fails(last):
                raise OSError(errno.ENOSPC, "no room")
            return call(*args, **kwargs)

        return instead

    for name in ("open", "write", "mkdir", "rename", "unlink", "rmdir", "scandir", "listdir", "ftruncate"):
        patch.setattr(os, name, watched(getattr(os, name)))
    patch.setattr(os, "fsync", watched(lambda _handle: None))
    patch.setattr(io, "open", watched(io.open))
    patch.setattr(exchange, "exchange_names", watched(vars(exchange)["exchange_names"]))
    return lambda: last


def crash_at(number: int, target: Path) -> bool:
    """Replace the target in a process that ends on the spot at its operation of this number, if it has one."""
    process = os.fork()
    if process == 0:

        def ends(operation: int) -> bool:
            if operation == number:
                os._exit(9)
            return False

        break_files(pytest.MonkeyPatch(), ends)
        replace_folder(target, "site", write("new"))
        os._exit(0)
    return os.waitstatus_to_exitcode(os.waitpid(process, 0)[1]) == 9


class TestRefused:
    def test_a_folder_of_somebody_else(self, tmp_path: Path) -> None:
        (tmp_path / "photos").mkdir()
        (tmp_path / "photos/one.jpg").write_bytes(b"x")
        with pytest.raises(PublishError, match="did not make"):
            replace_folder(tmp_path / "photos", "site", write("new"))
        assert site_files(tmp_path) == {"photos/one.jpg": b"x"}

    def test_a_folder_we_made_for_something_else(self, tmp_path: Path) -> None:
        replace_folder(tmp_path / "x", "source", write("source"))
        with pytest.raises(PublishError, match="not as a published manual"):
            replace_folder(tmp_path / "x", "site", write("new"))
        assert word_of(tmp_path / "x") == "source"

    def test_a_file_in_its_place(self, tmp_path: Path) -> None:
        (tmp_path / "site").write_text("mine", encoding="utf-8")
        with pytest.raises(PublishError, match="is a file"):
            replace_folder(tmp_path / "site", "site", write("new"))
        assert site_files(tmp_path) == {"site": b"mine"}

    def test_a_file_on_the_way_to_it(self, tmp_path: Path) -> None:
        (tmp_path / "note").write_text("mine", encoding="utf-8")
        with pytest.raises(PublishError, match=r"is a file, not a folder|could not be written"):
            replace_folder(tmp_path / "note/site", "site", write("new"))

    @pytest.mark.parametrize("target", [".", "..", "../.."])
    def test_the_folder_of_the_build_file_or_one_above(self, target: str, tmp_path: Path) -> None:
        build = tmp_path / "a/b/trailer.yaml"
        build.parent.mkdir(parents=True)
        build.write_text("format: 1\n", encoding="utf-8")
        with pytest.raises(PublishError, match="holds the build file itself"):
            replace_folder(build.parent / target, "site", write("new"), keep=build)
        assert site_files(tmp_path) == {"a/b/trailer.yaml": b"format: 1\n"}

    def test_the_build_file_in_a_folder_we_made(self, tmp_path: Path) -> None:
        replace_folder(tmp_path / "site", "site", write("old"))
        (tmp_path / "site/trailer.yaml").write_text("format: 1\n", encoding="utf-8")
        with pytest.raises(PublishError, match="holds the build file itself"):
            replace_folder(tmp_path / "site", "site", write("new"), keep=tmp_path / "site/trailer.yaml")

    def test_the_whole_disk(self) -> None:
        with pytest.raises(PublishError, match="whole disk"):
            replace_folder(Path("/"), "site", write("new"))

    def test_while_another_publish_is_at_it(self, tmp_path: Path) -> None:
        def meanwhile(new: Path) -> None:
            with pytest.raises(PublishError, match=f"process {os.getpid()}"):
                replace_folder(tmp_path / "site", "site", write("second"))
            heal(tmp_path / "site")
            write("first")(new)

        replace_folder(tmp_path / "site", "site", meanwhile)
        assert word_of(tmp_path / "site") == "first"

    @pytest.mark.parametrize(
        ("number", "words"),
        [
            (errno.ENOSPC, "no room left"),
            (errno.EROFS, "can only be read"),
            (errno.EACCES, "may not be written to"),
            (errno.EXDEV, "a disk of its own"),
            (errno.EIO, "could not be written"),
        ],
    )
    def test_in_plain_words(
        self, number: int, words: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        replace_folder(tmp_path / "site", "site", write("old"))

        def refuse(_one: Path, _other: Path) -> bool:
            raise OSError(number, os.strerror(number))

        monkeypatch.setattr(exchange, "exchange_names", refuse)
        with pytest.raises(PublishError, match=words) as told:
            replace_folder(tmp_path / "site", "site", write("new"))
        assert str(told.value).endswith("What was there before is untouched.")
        assert word_of(tmp_path / "site") == "old"
        assert names_in(tmp_path) == ["site"]


CHILD = """
import sys
sys.path[:0] = sys.argv[3:]
from functools import partial
from pathlib import Path
from builder.publish import exchange
from test_exchange import write
if sys.argv[2] == "two renames":
    exchange.exchange_names = lambda one, other: False
for number in range(100000):
    exchange.replace_folder(Path(sys.argv[1]), "site", write(f"word {number}"))
    print(number, flush=True)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="kills with a signal")
@pytest.mark.parametrize("way", ["exchange", "two renames"])
def test_killed_at_any_moment(way: str, tmp_path: Path) -> None:
    moments = random.Random(12)  # noqa: S311 - not a secret
    target = tmp_path / "site"
    for _ in range(6):
        arguments = [str(target), way, str(ROOT), str(Path(__file__).parent)]
        with subprocess.Popen(
            [sys.executable, "-c", CHILD, *arguments], stdout=subprocess.PIPE, text=True
        ) as child:
            assert child.stdout is not None
            assert child.stdout.readline() == "0\n"
            time.sleep(moments.uniform(0, 0.03))
            child.send_signal(signal.SIGKILL)
        if way == "exchange":
            assert word_of(target).startswith("word ")
        heal(target)
        assert word_of(target).startswith("word ")
        assert names_in(tmp_path) == ["site"]


CROWD = """
import sys
sys.path[:0] = sys.argv[2:]
from pathlib import Path
from builder.publish.errors import PublishError
from builder.publish.exchange import replace_folder
from test_exchange import write
done = 0
while done < 20:
    try:
        replace_folder(Path(sys.argv[1]), "site", write("whole"))
        done += 1
    except PublishError as error:
        assert "Another wiring-manual" in str(error), error
"""


def test_a_crowd_of_publishers_take_turns(tmp_path: Path) -> None:
    command = [sys.executable, "-c", CROWD, str(tmp_path / "site"), str(ROOT), str(Path(__file__).parent)]
    crowd = [subprocess.Popen(command, stderr=subprocess.PIPE, text=True) for _ in range(3)]
    assert [child.communicate()[1] for child in crowd] == [""] * 3
    assert word_of(tmp_path / "site") == "whole"
    assert names_in(tmp_path) == ["site"]
