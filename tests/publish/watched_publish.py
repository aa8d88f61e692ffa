"""Publish a small build in forks of one process, and have the file calls of each fork asked about first."""

from __future__ import annotations

import gc
import os
import shutil
import socket
import sys
import traceback
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import jinja2
from kernel_watch import Answer, FileCall, be_watched, watch
from mkdocs.config.defaults import MkDocsConfig
from sample_manual import site_files

from builder import cli
from builder.pages import manual, verdict
from builder.publish import site
from builder.publish.exchange import MARKER, replace_folder

TARGET = "manual"
BUILD_FILE = "trailer.yaml"
BUILD = b"""format: 1
build: {name: Quarry Bend, country: US}
trailer: {length: 10 ft, width: 5 ft, gross weight: 1200 lb}
battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}
front box: {fuse ways: 6, fuses: blade}
wire: {on the shelf: [16 AWG, 14 AWG, 12 AWG], sold as: pair, feed: red, return: black}
parts:
  fan: {kind: fan, draws: 3 A, own switch: yes}
  step lamp: {kind: lamp, draws: 3 W, own switch: yes}
circuits:
  roof vent: {path: [fan: 12 ft]}
  step light: {path: [step lamp: 14 ft]}
"""
_OLD = {"index.html": b"the old one", "circuits/fan.html": b"the old one"}
_PUBLISH = ("publish", BUILD_FILE, "--into", TARGET)


@dataclass(frozen=True, slots=True)
class Ended:
    """How a command ended: its exit code, negative for a signal, and what it said."""

    code: int
    out: str
    err: str


class Publishing:
    """A small build, read and worked out once in this process; each command about it runs in a fork.

    ``old`` and ``new`` hold the files of the target before and after a publish. What is worked out before the
    first file call is kept: the figures, the pages' Markdown, the compiled templates.
    """

    def __init__(self, room: Path) -> None:
        """``room`` is an empty folder for all that follows."""
        self._room = room
        self._runs = 0
        judged = verdict.judge_build(BUILD, BUILD_FILE)
        assert judged.judged is not None
        source = manual.manual_source(judged.judged, manual.content_number(BUILD), "workshop")
        verdict.judge_build = lambda *_: judged
        manual.manual_source = lambda *_: source
        jinja2.Environment.compile = _kept(jinja2.Environment.compile)  # type: ignore[method-assign]
        site.publish_site(source, room / "new")
        self.new = site_files(room / "new")
        replace_folder(room / "old", "site", _writer(_OLD))
        self.old = site_files(room / "old")
        self._real_build = site.build
        gc.collect()
        gc.freeze()  # a fork that collects would copy everything

    def fresh(self) -> Path:
        """A new folder that holds the build file and, published before, the old site."""
        self._runs += 1
        around = self._room / f"run {self._runs}"
        shutil.copytree(self._room / "old", around / TARGET)
        (around / BUILD_FILE).write_bytes(BUILD)
        return around

    def publish(
        self, around: Path, answer: Callable[[FileCall], Answer] | None = None, real: bool = False
    ) -> Ended:
        """Run the publish command in a folder.

        Arguments: ``around``, from ``fresh``; ``answer``, asked about each file call, or None to let all pass;
        ``real`` has the pages rendered, else files that were rendered before are written in their place.
        Returns how it ended.
        """
        here, there = socket.socketpair()
        with here, there:
            process = os.fork()
            if process == 0:
                self._in_the_fork(around, there if answer is not None else None, real)
            if answer is None:
                code = os.waitstatus_to_exitcode(os.waitpid(process, 0)[1])
            else:
                code = watch(process, here, answer)
        return Ended(code, *((self._room / name).read_text() for name in ("out", "err")))

    def _in_the_fork(self, around: Path, channel: socket.socket | None, real: bool) -> None:
        code = 1
        try:
            for number, name in ((1, "out"), (2, "err")):
                os.dup2(os.open(self._room / name, os.O_WRONLY | os.O_CREAT | os.O_TRUNC), number)
            os.chdir(around)
            if not real:
                vars(site)["build"] = self._write_what_was_built
            if channel is not None:
                be_watched(channel)
            code = _exit_code(_PUBLISH)
        finally:
            os._exit(code)

    def _write_what_was_built(self, config: MkDocsConfig) -> None:
        _writer(self.new)(Path(config.site_dir))


def _exit_code(arguments: tuple[str, ...]) -> int:
    """What the system would see of a command."""
    try:
        cli.main(list(arguments), prog_name="wiring-manual")
    except SystemExit as end:
        return end.code if isinstance(end.code, int) else int(end.code is not None)
    except BaseException:
        traceback.print_exc()
        return 1
    finally:
        sys.stdout.flush()
    return 0


def _writer(files: dict[str, bytes]) -> Callable[[Path], None]:
    def fill(new: Path) -> None:
        for path, content in files.items():
            if path != MARKER:
                (new / path).parent.mkdir(parents=True, exist_ok=True)
                (new / path).write_bytes(content)

    return fill


def _kept(compiled: Callable[..., Any]) -> Callable[..., Any]:
    """Remember what each template compiles to; it is the same each time."""
    known: dict[tuple[Any, ...], Any] = {}

    def instead(self: jinja2.Environment, text: str, *rest: Any, **named: Any) -> Any:
        key = (text, rest, tuple(named.items()))
        if key not in known:
            known[key] = compiled(self, text, *rest, **named)
        return known[key]

    return instead
