"""What gets in the way of a publish ends it with one sentence, and nothing is lost."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from sample_manual import ROOT, names_in, sample_manual, site_files

from builder import cli
from builder.publish import exchange, system_calls
from builder.publish.errors import PublishError
from builder.publish.exchange import MARKER, replace_folder
from builder.publish.preview import BuildFile, Preview
from builder.publish.site import publish_site

resource = pytest.importorskip("resource")

BUILD = """format: 1
build: {name: Quarry Bend, country: US}
trailer: {length: 10 ft, width: 5 ft, gross weight: 1200 lb}
battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}
front box: {fuse ways: 6, fuses: blade}
wire: {on the shelf: [16 AWG, 14 AWG, 12 AWG], sold as: pair, feed: red, return: black}
parts:
  fan: {kind: fan, draws: 3 A, own switch: yes}
circuits:
  roof vent: {path: [fan: 12 ft]}
"""
UNTOUCHED = "What was there before is untouched."
PATIENCE_S = 120.0
posix = pytest.mark.skipif(sys.platform == "win32", reason="signals and limits of another kind")


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with a build file and, published before, an old manual; it is the current one."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "trailer.yaml").write_text(BUILD, encoding="utf-8")
    replace_folder(tmp_path / "manual", "site", old)
    return tmp_path


def old(new: Path) -> None:
    (new / "index.html").write_text("the old one", encoding="utf-8")


def command(*arguments: str, most_bytes: int | None = None) -> subprocess.Popen[str]:
    """Start a command; with ``most_bytes`` the system lets it write no larger file."""

    def limit() -> None:
        if most_bytes is not None:
            resource.setrlimit(resource.RLIMIT_FSIZE, (most_bytes, most_bytes))

    return subprocess.Popen(
        [sys.executable, "-m", "builder.cli", *arguments],
        env={**os.environ, "PYTHONPATH": str(ROOT), "PYTHONDONTWRITEBYTECODE": "1"},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        preexec_fn=limit,  # noqa: PLW1509 - no thread is about
    )


@contextmanager
def at_work(folder: Path) -> Iterator[subprocess.Popen[str]]:
    """A publish that stands still in the midst of its work, its staging folder half full."""
    with command("publish", "trailer.yaml", "--into", "manual") as process:
        end = time.monotonic() + PATIENCE_S
        while not (folder / f".manual{MARKER}/new/assets").exists():
            assert process.poll() is None, "it ended before it was looked at"
            assert time.monotonic() < end
            time.sleep(0.002)
        process.send_signal(signal.SIGSTOP)
        try:
            yield process
        finally:
            if process.poll() is None:
                process.kill()


@posix
class TestAtOnce:
    def test_a_second_publish_names_the_first_which_goes_on(self, here: Path) -> None:
        before = site_files(here / "manual")
        with at_work(here) as first:
            told = CliRunner().invoke(cli.main, ["publish", "trailer.yaml", "--into", "manual"])
            assert (told.exit_code, told.stdout) == (2, "")
            assert f"Another wiring-manual (process {first.pid}) is writing" in told.stderr
            assert told.stderr.count("\n") == 1
            assert site_files(here / "manual") == before
            first.send_signal(signal.SIGCONT)
            assert first.communicate(timeout=PATIENCE_S)[1] == ""
            assert first.returncode == 0
        assert site_files(here / "manual") != before
        assert names_in(here) == ["manual", "trailer.yaml"]

    @pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM, signal.SIGHUP])
    def test_asked_to_end_it_clears_up_and_says_so(self, number: signal.Signals, here: Path) -> None:
        before = site_files(here / "manual")
        with at_work(here) as process:
            process.send_signal(number)
            process.send_signal(signal.SIGCONT)
            out, err = process.communicate(timeout=PATIENCE_S)
        assert (process.returncode, out, err) == (128 + number, "", f"Stopped. {UNTOUCHED}\n")
        assert site_files(here / "manual") == before
        assert names_in(here) == ["manual", "trailer.yaml"]

    def test_killed_it_leaves_the_old_site_and_the_next_publish_heals(self, here: Path) -> None:
        before = site_files(here / "manual")
        with at_work(here) as process:
            process.kill()
        assert site_files(here / "manual") == before
        assert names_in(here) == [f".manual{MARKER}", "manual", "trailer.yaml"]
        assert CliRunner().invoke(cli.main, ["publish", ".", "--into", "manual"]).exit_code == 0
        assert site_files(here / "manual") != before
        assert names_in(here) == ["manual", "trailer.yaml"]


def test_a_lock_that_nobody_holds_keeps_nobody_out(here: Path) -> None:
    work = here / f".manual{MARKER}"
    (work / "new").mkdir(parents=True)
    (work / "new/half").write_text("left", encoding="utf-8")
    (work / "lock").write_text(f"process {os.getpid()}", encoding="utf-8")
    publish_site(sample_manual(), here / "manual")
    assert names_in(here) == ["manual", "trailer.yaml"]


def test_an_end_that_is_asked_for_while_the_folders_change_places_finds_the_new_one(
    here: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    exchange_names = vars(exchange)["exchange_names"]

    def interrupted(one: Path, other: Path) -> bool:
        os.kill(os.getpid(), signal.SIGINT)
        return bool(exchange_names(one, other))

    monkeypatch.setattr(exchange, "exchange_names", interrupted)
    told = CliRunner().invoke(cli.main, ["source", "trailer.yaml", "--into", "source"])
    assert told.exit_code == 0
    told = CliRunner().invoke(cli.main, ["source", "trailer.yaml", "--into", "source", "--plain"])
    assert (told.exit_code, told.stderr) == (130, "Stopped. source holds the new one all the same.\n")
    assert "builder" not in (here / "source/mkdocs.yml").read_text(encoding="utf-8")
    assert names_in(here) == ["manual", "source", "trailer.yaml"]


def test_what_asks_to_end_waits_though_another_thread_runs() -> None:
    """A signal to the process may be taken by any of its threads."""
    done = threading.Event()
    other = threading.Thread(target=done.wait)
    other.start()
    reached = []

    def asked_to_end() -> None:
        with system_calls.without_interruption():
            for turn in range(3):
                os.kill(os.getpid(), signal.SIGINT)
                time.sleep(0.01)
                reached.append(turn)

    try:
        with pytest.raises(KeyboardInterrupt):
            asked_to_end()
    finally:
        done.set()
        other.join()
    assert reached == [0, 1, 2]
    assert signal.getsignal(signal.SIGINT) is signal.default_int_handler


def links_in_a_circle(folder: Path) -> str:
    (folder / "one").symlink_to(folder / "other")
    (folder / "other").symlink_to(folder / "one")
    return "one"


def a_file(folder: Path) -> str:
    (folder / "note").write_text("mine", encoding="utf-8")
    return "note"


def a_folder_of_others(folder: Path) -> str:
    (folder / "photos").mkdir()
    (folder / "photos/one.jpg").write_text("mine", encoding="utf-8")
    return "photos"


UNFIT: dict[str, tuple[Callable[[Path], str], str]] = {
    "a file in its place": (a_file, "is a file. Name a folder."),
    "a file on the way to it": (lambda folder: a_file(folder) + "/manual", "is a file, not a folder."),
    "the folder of the build": (lambda _: ".", "holds the build file itself"),
    "the folder above it": (lambda _: "..", "holds the build file itself"),
    "a folder of others": (a_folder_of_others, "did not make"),
    "links in a circle": (links_in_a_circle, "goes round in a circle of links."),
    "a disk of its own": (lambda _: "/proc", "/proc begins a disk of its own"),
}


@pytest.mark.parametrize("what", UNFIT)
@pytest.mark.parametrize("name", ["publish", "source"])
def test_a_folder_that_is_not_fit_is_refused_in_one_line(name: str, what: str, here: Path) -> None:
    if what == "a disk of its own" and not Path("/proc").is_mount():
        pytest.skip("no such disk here")
    make, words = UNFIT[what]
    target = make(here)
    before, names = site_files(here), names_in(here)
    told = CliRunner().invoke(cli.main, [name, "trailer.yaml", "--into", target])
    assert (told.exit_code, told.stdout) == (2, "")
    assert words in told.stderr
    assert told.stderr.count("\n") == 1
    assert (site_files(here), names_in(here)) == (before, names)


def test_a_folder_on_another_disk_is_published_there(here: Path) -> None:
    elsewhere = Path("/dev/shm")  # noqa: S108 - only to have another disk
    if not elsewhere.is_dir() or elsewhere.stat().st_dev == here.stat().st_dev:
        pytest.skip("there is but one disk")
    target = elsewhere / f"{here.parent.name}-{here.name}-{os.getpid()}" / "manual"
    (here / "link").symlink_to(target)
    try:
        for word in ("First", "Second"):
            publish_site(sample_manual(word), here / "link")
            assert word in (target / "index.html").read_text(encoding="utf-8")
            assert names_in(target.parent) == ["manual"]
    finally:
        subprocess.run(["rm", "-r", target.parent], check=True)
    assert names_in(here) == ["link", "manual", "trailer.yaml"]


def test_folders_made_on_the_way_go_again_when_it_fails(tmp_path: Path) -> None:
    def fail(_new: Path) -> None:
        raise OSError("no")

    with pytest.raises(PublishError):
        replace_folder(tmp_path / "a/b/site", "site", fail)
    assert names_in(tmp_path) == []


@posix
class TestNoRoom:
    """A limit of the system on the size of a file stands in for a full disk; ``/dev/full`` is one."""

    @pytest.mark.parametrize(
        "arguments",
        [
            ("begin", "new"),
            ("source", "trailer.yaml", "--into", "new"),
            ("publish", "trailer.yaml", "--into", "manual"),
        ],
        ids=lambda arguments: arguments[0],
    )
    def test_nothing_half_written_is_left(self, arguments: tuple[str, ...], here: Path) -> None:
        before = site_files(here)
        with command(*arguments, most_bytes=500) as process:
            out, err = process.communicate(timeout=PATIENCE_S)
        assert (process.returncode, out) == (2, "")
        assert "could not be written (File too large)" in err
        assert err.count("\n") == 1
        assert (site_files(here), names_in(here)) == (before, ["manual", "trailer.yaml"])

    def test_the_preview_keeps_its_last_manual(self, here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        (here / "passing").mkdir()
        monkeypatch.setattr("tempfile.tempdir", str(here / "passing"))
        build = here / "trailer.yaml"
        preview = Preview(BuildFile("trailer.yaml", build, build.read_bytes))
        preview.renew(nobody)
        manual = preview.shown.manual
        assert manual
        build.write_text(BUILD.replace("Quarry Bend", "Mill Lane"), encoding="utf-8")
        soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
        resource.setrlimit(resource.RLIMIT_FSIZE, (500, hard))
        try:
            line = preview.renew(nobody)
        finally:
            resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))
        assert "could not be written (File too large)" in line
        assert line.endswith("(the last good manual stays)\n")
        assert preview.shown.manual is manual
        assert names_in(here / "passing") == []
        preview.renew(nobody)
        assert preview.shown.manual != manual


def nobody(_words: str) -> Any:
    """Nobody looks how far the work is."""
