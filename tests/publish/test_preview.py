"""The preview as a maker runs it: saved, broken, mended, deleted, two at once, ended."""

from __future__ import annotations

import http.client
import os
import queue
import re
import signal
import socket
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import Self, TypeVar

import pytest
from bs4 import BeautifulSoup, Tag
from sample_manual import ROOT, sample_manual, site_files

from builder.pages.manual import content_number, manual_source
from builder.pages.verdict import judge_build
from builder.publish import preview as module
from builder.publish.errors import PublishError
from builder.publish.exchange import MARKER
from builder.publish.preview import BuildFile, Preview
from builder.publish.serving import FIRST_PORT, served
from builder.publish.showing import Answer, Request, Shown, answer
from builder.publish.site import publish_site, published_files

sys.path.insert(0, str(ROOT / "tests"))
from browser_driver import Browser

PATIENCE_S = 60.0
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
BROKEN = BUILD.replace("path: [fan: 12 ft]}", "path: [fan: 12 ft], fuze: 3 A}")
UNWIRED = BUILD.replace("circuits:", "  lonely lamp: {kind: lamp, draws: 3 W}\ncircuits:")
VENT = "circuit-01-roof-vent.html"
_Found = TypeVar("_Found")


def until(ask: Callable[[], _Found]) -> _Found:
    """Ask until the answer is true."""
    end = time.monotonic() + PATIENCE_S
    while not (found := ask()):
        assert time.monotonic() < end, "it did not happen in time"
        time.sleep(0.02)
    return found


class Running:
    """A preview in a process of its own, whose passing folders lie right beside its build file."""

    def __init__(self, folder: Path, text: str, *arguments: str, **environ: str) -> None:
        folder.mkdir(exist_ok=True)
        self.folder, self.file, self.passing = folder, folder / "trailer.yaml", folder / "passing"
        self.passing.mkdir(exist_ok=True)
        self.file.write_text(text, encoding="utf-8")
        self.process = subprocess.Popen(
            [sys.executable, "-m", "builder.cli", "preview", "trailer.yaml", *arguments],
            cwd=folder,
            env={**os.environ, "PYTHONPATH": str(ROOT), "TMPDIR": str(self.passing), **environ},
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        )
        self.lines: list[str] = []
        self._new: queue.Queue[str] = queue.Queue()
        self._reader = threading.Thread(target=self._read, daemon=True)
        self._reader.start()

    def __enter__(self) -> Self:
        self.address = re.findall(r"http://127\.0\.0\.1:\d+/", self.line())[0]
        return self

    def __exit__(self, *_: object) -> None:
        if self.process.poll() is None:
            self.process.kill()
        self.process.wait()
        self._reader.join()
        for stream in (self.process.stdout, self.process.stderr):
            assert stream is not None
            stream.close()

    def _read(self) -> None:
        assert self.process.stdout is not None
        for line in self.process.stdout:
            self._new.put(line)

    def line(self) -> str:
        """Wait for the next line on the terminal."""
        self.lines.append(self._new.get(timeout=PATIENCE_S))
        return self.lines[-1]

    @property
    def told(self) -> bool:
        """Whether there is a line that nobody waited for yet."""
        return not self._new.empty()

    def save(self, text: str) -> str:
        """Save the file; gives the line that tells how it went."""
        self.file.write_text(text, encoding="utf-8")
        return self.line()

    def get(self, target: str, method: str = "GET", **headers: str) -> tuple[int, str]:
        port = int(self.address.rstrip("/").rpartition(":")[2])
        connection = http.client.HTTPConnection("127.0.0.1", port, timeout=PATIENCE_S)
        try:
            connection.request(method, target, headers=headers)
            answered = connection.getresponse()
            return answered.status, answered.read().decode("utf-8")
        finally:
            connection.close()

    def page(self, name: str = "index.html") -> BeautifulSoup:
        return BeautifulSoup(self.get(f"/{name}")[1], "html.parser")

    def end(self, number: int) -> tuple[int, str, list[str]]:
        """Send a signal; gives the exit code, what was on stderr, and what is left in the passing folder."""
        self.process.send_signal(number)
        assert self.process.stderr is not None
        told = self.process.stderr.read()
        code = self.process.wait(PATIENCE_S)
        return code, told, sorted(path.name for path in self.passing.iterdir())


@pytest.fixture(scope="module")
def running(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Running]:
    """One preview for several tests; each saves what it needs first."""
    with Running(tmp_path_factory.mktemp("preview") / "my trailer", BUILD, "--port", "0") as preview:
        preview.line()
        yield preview
        assert preview.end(signal.SIGTERM) == (0, "", [])


def renamed(preview: Running, name: str) -> str:
    """Give the trailer a name that no test used before; every page then differs."""
    return preview.save(BUILD.replace("Quarry Bend", name))


def test_a_saved_change_arrives_on_the_page(running: Running) -> None:
    line = renamed(running, "Mill Lane")
    assert line == "trailer.yaml: 2 circuits and 5 wires read, their numbers drafts; 1 worth knowing.\n"
    assert "Mill Lane" in running.page().get_text()
    assert not running.page().select(".preview-banner")


def test_a_broken_file_keeps_the_last_good_page_under_a_banner_until_it_is_mended(running: Running) -> None:
    renamed(running, "Ford House")
    line = running.save(BROKEN)
    assert line.startswith("trailer.yaml:10:35: “fuze” is not a word")
    assert "(1 problem; the last good manual stays)" in line
    for name in ("index.html", VENT):
        page = running.page(name)
        (banner,) = page.select(".preview-banner")
        assert "trailer.yaml:10:35" in banner.get_text()
        assert "did you mean “fuse”?" in banner.get_text()
        assert isinstance(page.article, Tag)
        assert "Ford House" in page.article.get_text()
    renamed(running, "Ford House again")
    assert not running.page().select(".preview-banner")
    assert "Ford House again" in running.page().get_text()


def test_findings_stand_beside_their_page_and_are_counted_on_the_terminal(running: Running) -> None:
    renamed(running, "Kiln Yard")
    assert running.save(UNWIRED).endswith("; 1 should fix, 1 worth knowing.\n")
    (panel,) = running.page().select("article .preview-findings")
    assert "lonely lamp" in panel.get_text()
    assert not running.page(VENT).select(".preview-findings")
    running.save(UNWIRED.replace("12 ft", "95 ft"))
    (panel,) = running.page(VENT).select("article .preview-findings")
    assert "95 ft" in panel.get_text()


def test_what_the_preview_lays_over_is_never_published(running: Running, tmp_path: Path) -> None:
    renamed(running, "Weir Cottage")
    running.save(UNWIRED)
    data = running.file.read_bytes()
    judged = judge_build(data, "trailer.yaml").judged
    assert judged is not None
    publish_site(manual_source(judged, content_number(data), "workshop"), tmp_path / "site")
    published = site_files(tmp_path / "site")
    assert not [path for path, content in published.items() if re.search(rb"~preview|preview-", content)]
    for path in ("assets/manual.css", "data/figures.json", "data/wires.csv"):
        assert running.get(f"/{path}")[1].encode() == published[path]
    for path in ("index.html", "findings.html", VENT):
        page = running.get(f"/{path}")[1]
        page = re.sub(r'<link rel="stylesheet" href="/~preview/.*?</script>\n', "", page, flags=re.DOTALL)
        page = re.sub(r'<div class="preview-findings".*?</details></div>\n', "", page, flags=re.DOTALL)
        assert page.encode() == published[path]


def test_a_publish_beside_the_preview_hinders_neither(running: Running) -> None:
    renamed(running, "Sand Pit")
    command = [sys.executable, "-m", "builder.cli", "publish", "trailer.yaml", "--into", "manual"]
    with subprocess.Popen(
        command, cwd=running.folder, env={**os.environ, "PYTHONPATH": str(ROOT)}, stderr=subprocess.PIPE
    ) as publish:
        until((running.folder / f".manual{MARKER}").exists)
        assert " drafts; " in renamed(running, "Sand Pit Lane")
        assert publish.communicate(timeout=PATIENCE_S)[1] == b""
    assert publish.returncode == 0
    assert "Sand Pit Lane" in running.page().get_text()
    assert "Sand Pit" in (running.folder / "manual/index.html").read_text(encoding="utf-8")
    assert not (running.folder / f".manual{MARKER}").exists()


def test_a_deleted_file_is_told_and_goes_on_when_it_returns(running: Running) -> None:
    renamed(running, "Toll Gate")
    running.file.unlink()
    assert running.line().startswith("trailer.yaml is not there now; ")
    (banner,) = running.page().select(".preview-banner")
    assert "trailer.yaml is not there now." in banner.get_text()
    assert "Toll Gate" in running.page().get_text()
    running.file.mkdir()
    assert "(the last good manual stays)" in running.line()
    assert "cannot be read now" in running.page().get_text()
    running.file.rmdir()
    running.line()
    assert renamed(running, "Toll Gate").startswith("trailer.yaml: 2 circuits")
    assert not running.page().select(".preview-banner")


def test_an_editor_that_saves_by_renaming_is_followed(running: Running) -> None:
    for number in range(2):
        beside = running.folder / "trailer.yaml.new"
        beside.write_text(BUILD.replace("Quarry Bend", f"Renamed {number}"), encoding="utf-8")
        beside.replace(running.file)
        assert running.line().startswith("trailer.yaml: 2 circuits")
        assert f"Renamed {number}" in running.page().get_text()


def test_eleven_rebuilds_are_eleven_lines_and_end(running: Running) -> None:
    renamed(running, "Before the eleven")
    before = len(running.lines)
    for number in range(11):
        text = BROKEN if number % 3 else BUILD
        line = running.save(text.replace("Quarry Bend", f"Number {number}"))
        assert ("1 problem" in line) is bool(number % 3)
    assert "Number 9" in running.page().get_text()
    number = running.get("/~preview/number")
    # touching the file tells nothing: the next line belongs to the save after it
    os.utime(running.file)
    (running.folder / "notes.txt").write_text("beside it", encoding="utf-8")
    assert "1 worth knowing" in running.save(BUILD)
    assert len(running.lines) == before + 12
    assert running.get("/~preview/number") != number
    assert list(running.passing.iterdir()) == []


def test_it_answers_to_this_machine_s_names_alone(running: Running) -> None:
    port = running.address.rpartition(":")[2].rstrip("/")
    assert running.get("/", Host=f"localhost:{port}")[0] == 200
    assert running.get("/", Host=f"evil.example:{port}")[0] == 403
    assert running.get("/../trailer.yaml")[0] == 400
    assert running.get("//trailer.yaml")[0] == 404
    assert running.get("/", method="POST")[0] == 405
    assert running.get("/", method="HEAD") == (200, "")
    assert running.get("/", method="BREW")[0] == 501
    assert "Traceback" not in "".join(running.lines)


def test_the_port_is_open_on_loopback_alone(running: Running) -> None:
    port = int(running.address.rpartition(":")[2].rstrip("/"))
    with socket.socket() as taken:
        taken.bind(("127.0.0.2", port))  # would be refused if the preview had taken every address


def refused(*arguments: str | Path) -> str:
    """Run a preview that cannot begin; gives its sentence."""
    done = subprocess.run(
        [sys.executable, "-m", "builder.cli", "preview", *map(str, arguments)],
        capture_output=True,
        text=True,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        check=False,
        timeout=PATIENCE_S,
    )
    assert (done.returncode, done.stdout) == (2, "")
    return done.stderr


def test_what_cannot_begin_is_told_in_one_sentence(running: Running, tmp_path: Path) -> None:
    port = running.address.rpartition(":")[2].rstrip("/")
    told = refused(running.file, "--port", port)
    assert (
        told == f"Port {port} is taken by another program. Name another with --port, or leave --port out.\n"
    )
    assert refused("-").startswith("A preview follows a file")
    assert refused(tmp_path).startswith("There is no file")


def test_two_previews_of_one_file_do_not_meet_and_a_broken_first_file_is_shown_at_once(
    tmp_path: Path,
) -> None:
    with (
        Running(tmp_path, BROKEN, FORCE_COLOR="1", NO_COLOR="") as one,
        Running(tmp_path, BROKEN, FORCE_COLOR="1", NO_COLOR="1") as other,
    ):
        assert one.address != other.address
        assert "\x1b[1mtrailer.yaml:10:35:\x1b[0m" in one.line()
        assert "\x1b" not in other.line()
        for preview in (one, other):
            status, page = preview.get("/wires.html")
            assert status == 503
            assert "trailer.yaml:10:35" in page
            assert "There is no manual to show yet." in page
        one.save(BUILD)
        other.line()
        for preview in (one, other):
            assert not preview.page("wires.html").select(".preview-banner")
            assert "Quarry Bend" in preview.page("wires.html").get_text()
        assert one.end(signal.SIGINT) == (0, "", [])
        assert "Quarry Bend" in other.page().get_text()
        assert other.end(signal.SIGTERM) == (0, "", [])


def test_the_end_while_a_manual_is_being_made_leaves_nothing(tmp_path: Path) -> None:
    with Running(tmp_path, BUILD, "--port", "0") as preview:
        until(lambda: list(preview.passing.iterdir()) or preview.told)
        assert preview.end(signal.SIGTERM) == (0, "", [])


# in this process


def followed(folder: Path, text: str = BUILD) -> BuildFile:
    path = folder / "trailer.yaml"
    path.write_text(text, encoding="utf-8")

    def read() -> bytes:
        try:
            return path.read_bytes()
        except OSError as error:
            raise PublishError(f"{path.name} could not be read.") from error

    return BuildFile("trailer.yaml", path, read)


def nobody(_words: str) -> None:
    pass


def test_the_usual_port_gives_way_to_the_next_free_one() -> None:
    with (
        served(None, lambda request: answer(Shown(), request)) as one,
        served(None, lambda request: answer(Shown(), request)) as other,
    ):
        ports = [int(address.rstrip("/").rpartition(":")[2]) for address in (one, other)]
    assert FIRST_PORT <= ports[0] < ports[1] < FIRST_PORT + 20


def test_a_change_during_a_build_makes_exactly_one_more(tmp_path: Path) -> None:
    file = followed(tmp_path)
    preview = Preview(file)
    saved: list[str] = []

    def save(words: str) -> None:
        saved.append(words)
        file.path.write_text(BUILD.replace("Quarry Bend", f"Word {len(saved)}"), encoding="utf-8")

    preview.renew(save)
    assert len(saved) > 1
    assert [preview.changed() for _ in range(4)] == [False, True, False, False]
    preview.renew(nobody)
    assert f"Word {len(saved)}".encode() in preview.shown.manual["index.html"]
    assert not any(preview.changed() for _ in range(4))


def test_pages_are_answered_while_a_manual_is_being_made(tmp_path: Path) -> None:
    file = followed(tmp_path)
    preview = Preview(file)
    preview.renew(nobody)
    file.path.write_text(BUILD.replace("Quarry Bend", "Mill Lane"), encoding="utf-8")
    seen: list[str] = []
    with served(0, lambda request: answer(preview.shown, request)) as address:
        port = int(address.rstrip("/").rpartition(":")[2])

        def look(_words: str) -> None:
            connection = http.client.HTTPConnection("127.0.0.1", port, timeout=PATIENCE_S)
            connection.request("GET", "/")
            seen.append(connection.getresponse().read().decode("utf-8"))
            connection.close()

        preview.renew(look)
        look("done")
    *during, after = ["Mill Lane" in page for page in seen]
    assert len(during) > 3
    assert not any(during)
    assert after


def test_a_file_that_the_manual_takes_in_is_followed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = followed(tmp_path)
    made = manual_source

    def with_photo(*arguments: object) -> object:
        return replace(made(*arguments), taken_in=("photos/front box.jpg",))  # type: ignore[arg-type]

    monkeypatch.setattr(module, "manual_source", with_photo)
    (tmp_path / "photos").mkdir()
    photo = tmp_path / "photos" / "front box.jpg"
    photo.write_bytes(b"one")
    (tmp_path / "photos" / "other.jpg").write_bytes(b"one")
    preview = Preview(file)
    preview.renew(nobody)
    assert not any(preview.changed() for _ in range(3))
    (tmp_path / "photos" / "other.jpg").write_bytes(b"two")
    assert not any(preview.changed() for _ in range(3))
    photo.write_bytes(b"two")
    assert [preview.changed() for _ in range(3)] == [False, True, False]


@pytest.mark.parametrize(
    ("fault", "sentence"),
    [
        (PublishError("There is no room left on the disk that holds /tmp."), "There is no room left"),
        (KeyError("wire"), "This is a fault of wiring-manual, not of the file (KeyError: 'wire')."),
    ],
)
def test_whatever_goes_wrong_the_last_good_manual_stays_and_the_next_save_is_tried(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, fault: Exception, sentence: str
) -> None:
    preview = Preview(followed(tmp_path))
    preview.renew(nobody)
    manual = preview.shown.manual

    def fail(*_: object) -> None:
        raise fault

    with monkeypatch.context() as patch:
        patch.setattr(module, "published_files", fail)
        line = preview.renew(nobody)
    assert sentence in line
    assert line.count("\n") == 1
    assert preview.shown.manual is manual
    assert sentence in BeautifulSoup(preview.shown.banner, "html.parser").get_text()
    preview.renew(nobody)
    assert preview.shown.banner == ""


def test_what_is_published_into_memory_is_what_is_published_into_a_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "passing").mkdir()
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path / "passing"))
    publish_site(sample_manual(), tmp_path / "site")
    in_folder = site_files(tmp_path / "site")
    del in_folder[MARKER]
    assert published_files(sample_manual()) == in_folder
    assert list((tmp_path / "passing").iterdir()) == []


# in a browser

MARK = "return document.documentElement.dataset.mark || ''"
PLACES = """
const all = [...document.querySelectorAll("article [id]")].map((one) => [one.id, one.getBoundingClientRect().top]);
return all.filter((one) => one[1] < 300);
"""
STOOD = "return document.getElementById(arguments[0])?.getBoundingClientRect().top ?? -1"
ASKED = "return performance.getEntriesByName(location.origin + '/~preview/number').length"


def follow_in(browser: Browser, running: Running, text: str, down: int = 900) -> None:
    """Save a text and wait until the page has followed, with what stood in sight where it stood."""
    browser.wait(lambda: browser.run(ASKED))  # it asks first when the page is whole
    browser.run("scrollTo({top: arguments[0], behavior: 'instant'})", down)
    assert browser.run("document.documentElement.dataset.mark = 'old'; return scrollY") == down
    name, top = browser.run(PLACES)[-1]
    running.save(text)
    browser.wait(lambda: browser.run(MARK) == "")
    browser.arrive()
    if down:
        browser.wait(lambda: abs(browser.run(STOOD, name) - top) < 2)


@pytest.mark.browser
def test_the_browser_follows_by_itself_keeps_its_place_and_tells_the_end(tmp_path: Path) -> None:
    with Running(tmp_path, BUILD, "--port", "0") as running, Browser(390, 600) as browser:
        running.line()
        browser.visit(running.address + "worked.html")
        follow_in(browser, running, BROKEN)
        assert browser.text(".preview-banner li .preview-place") == "trailer.yaml:10:35"
        follow_in(browser, running, BUILD)
        assert browser.run("return document.querySelector('.preview-banner')") is None
        follow_in(browser, running, BROKEN, 0)
        browser.run("document.documentElement.dataset.mark = 'still'")
        asked = browser.run(ASKED)
        browser.wait(lambda: browser.run(ASKED) >= asked + 4)
        assert browser.run("return scrollY") == 0
        assert browser.run(MARK) == "still"
        assert running.end(signal.SIGINT) == (0, "", [])
        browser.wait(lambda: browser.run("return !!document.querySelector('.preview-ended')"))
        assert "The preview has ended" in browser.text(".preview-ended")
        assert browser.run(MARK) == "still"


@pytest.mark.browser
def test_a_page_that_a_reload_does_not_renew_is_reloaded_once() -> None:
    asked: list[str] = []

    def stale(request: Request) -> Answer:
        """Tell of something new for ever, and never show it."""
        asked.append(request.target)
        made = answer(Shown(), request)
        return replace(made, body=b"other") if request.target == "/~preview/number" else made

    with served(0, stale) as address, Browser() as browser:
        browser.visit(address)
        browser.wait(lambda: asked.count("/~preview/number") > 6)
    assert asked.count("/") == 2
