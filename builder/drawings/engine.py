"""The layout engine: takes DOT, gives where each node stands; a failure is a value, with one word for why."""

from __future__ import annotations

import json
import shutil
import subprocess
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from importlib.metadata import PackageNotFoundError, files
from typing import Any, Literal

Layout = dict[str, tuple[float, float]]
"""Where the middle of each node is, by node name, in points from the lower left corner."""

Choice = Literal["embedded", "system", "either"]
"""The engine that comes with the package, the ``dot`` of the system, or the second where the first fails."""

Problem = Literal["", "missing", "slow", "not started", "failed", "unreadable", "left out"]
"""Why an engine gave nothing; empty when it gave something."""

_PACKAGE = "graphviz-pure"
_PATIENCE_S = 20.0


@dataclass(frozen=True, slots=True)
class Laid:
    """What an engine gave: one layout a graph in the order asked, or why there is none, in the system's words too."""

    layouts: tuple[Layout, ...]
    problem: Problem = ""
    detail: str = ""


Engine = Callable[[Sequence[str]], Laid]
"""Something that lays out several graphs in one call."""


def engine(choice: Choice = "either", *, patience_s: float = _PATIENCE_S) -> Engine:
    """Return an engine that lays out any number of DOT graphs in one process.

    ``patience_s`` is how long the process may take, in seconds. The engine raises nothing.
    """
    finders: dict[Choice, tuple[Callable[[], str | None], ...]] = {
        "embedded": (embedded_program,),
        "system": (system_program,),
        "either": (embedded_program, system_program),
    }

    def run(sources: Sequence[str]) -> Laid:
        if not sources:
            return Laid(())
        last = Laid((), "missing")
        for find in finders[choice]:
            program = find()
            if program is None:
                continue
            last = run_program(program, sources, patience_s)
            if not last.problem:
                break
        return last

    return run


def embedded_program() -> str | None:
    """Return the path of the engine that came as a package, found through the package's own list of files."""
    try:
        listed = files(_PACKAGE) or ()
    except PackageNotFoundError:
        return None
    for entry in listed:
        if entry.stem == _PACKAGE and entry.suffix in ("", ".exe"):
            return str(entry.locate())
    return None


def system_program() -> str | None:
    """Return the path of the system's ``dot``, or None."""
    return shutil.which("dot")


def run_program(program: str, sources: Sequence[str], patience_s: float) -> Laid:
    """Lay out graphs with one program; exit status, error text and output are all checked."""
    text = "\n".join(sources) + "\n"
    try:
        done = subprocess.run(  # noqa: S603  the program is ours or the system's dot
            [program, "-Kdot", "-Tjson0"],
            input=text.encode(),
            capture_output=True,
            timeout=patience_s,
            check=False,
        )
    except subprocess.TimeoutExpired:
        return Laid((), "slow", f"{patience_s:g}")
    except OSError as error:
        return Laid((), "not started", error.strerror or "?")
    said = done.stderr.decode(errors="replace").strip()
    if done.returncode != 0 or said:
        return Laid((), "failed", _first(said) or str(done.returncode))
    return _read(done.stdout.decode(errors="replace"), len(sources))


def _first(said: str) -> str:
    return said.splitlines()[0].rstrip(".")[:160] if said else ""


def _read(output: str, wanted: int) -> Laid:
    """Read JSON objects that follow one another."""
    decoder, layouts, place = json.JSONDecoder(), [], 0
    output = output.strip()
    try:
        while place < len(output):
            found, place = decoder.raw_decode(output, place)
            layouts.append(_positions(found))
            while place < len(output) and output[place].isspace():
                place += 1
    except (ValueError, KeyError, TypeError, AttributeError):
        return Laid((), "unreadable")
    if len(layouts) != wanted:
        return Laid((), "left out")
    return Laid(tuple(layouts))


def _positions(found: dict[str, Any]) -> Layout:
    places: Layout = {}
    for node in found.get("objects", ()):
        if "pos" in node:
            x, y = node["pos"].split(",")
            places[node["name"]] = (float(x), float(y))
    return places
