"""What is computed of whole builds: every figure, to six digits, as it was when it was last read by eye.

Whether figures are right is shown elsewhere (published values, another simulator, an oracle, by hand); here none may
change unnoticed. ``figures.txt`` holds them as rows. After changing on purpose what is computed, write it anew with
``python tests/electrics/test_figures_told.py`` and read the difference.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass
from functools import cache
from pathlib import Path

import pytest

from builder.buildfile.resolving import read_build
from builder.electrics.adapters import other_sockets
from builder.electrics.assumed_order import ordered_assumptions
from builder.electrics.braking import breakaway_line, fed_by_breakaway, magnets_ohm
from builder.electrics.charging import held_in_check
from builder.electrics.computing import compute
from builder.electrics.figures import Figures
from builder.electrics.lamps_required import shows_for
from builder.electrics.landings import ground_screws, strip_positions
from builder.electrics.pairs import paired
from builder.electrics.ways_back import grounds_met, ways_back
from builder.trailer.model import Trailer

HERE = Path(__file__).parent
sys.path.insert(0, str(HERE.parent / "buildfile"))
from said_in_rows import said, words  # noqa: E402 - says what is read as well

TOLD = HERE / "figures.txt"
EXAMPLES = HERE.parents[1] / "example_build"
BENCHES = HERE.parent / "buildfile"
BUILDS = {
    "braked": EXAMPLES / "braked" / "trailer.yaml",
    "two plugs": EXAMPLES / "two_plugs" / "trailer.yaml",
    "bench of forms": BENCHES / "bench_of_forms.yaml",
    "bench of feet": BENCHES / "bench_of_feet.yaml",
}
LAID = ("runs", "fills", "clearances", "panels", "hinges", "laid", "tubes", "near_walls")
"""Figures of where wires run, which have their own room."""


def asked(trailer: Trailer, figures: Figures) -> Iterator[tuple[str, object]]:
    """Yield what others ask beside the figures themselves, each with a name."""
    yield from (("other socket", one) for one in other_sockets(trailer))
    for one in ordered_assumptions(trailer, figures):
        yield "ordered", (one.assumption.id, one.changes, one.swing)
    yield "paired", tuple(sorted(paired(trailer, figures)))
    yield "ground screws and strip", (ground_screws(figures.landings), strip_positions(figures.landings))
    line = breakaway_line(trailer)
    yield "breakaway", (line.number if line else "none", fed_by_breakaway(trailer))
    yield "magnets", magnets_ohm(trailer, list(trailer.parts)) or "none"
    yield from (("held", (load.part, held_in_check(trailer, load))) for load in trailer.loads)
    yield "grounds met", grounds_met(trailer)
    yield from (
        ("ways back", (wire.number, ways_back(trailer, wire.start, wires=(wire.number,))))
        for wire in trailer.wires
        if "tow plug" in (wire.start.part, wire.end.part)
    )
    for asking in figures.lamps_required.required if figures.lamps_required else ():
        lamps = tuple(lamp.name for lamp in trailer.road_lamps if shows_for(asking.row, lamp))
        yield "shown by", (asking.row.shows, asking.row.at, lamps)


def rows(name: str) -> Iterator[str]:
    """Yield the name of a build, and a row for each thing that is computed of it."""
    yield name
    trailer = read_build(BUILDS[name].read_bytes()).trailer
    assert trailer is not None
    figures = compute(trailer)
    for field in fields(figures):
        if field.name in LAID:
            continue
        value = getattr(figures, field.name)
        things = (
            value.values() if isinstance(value, Mapping) else value if isinstance(value, tuple) else [value]
        )
        for one in things:
            yield f"  {field.name}: {', '.join(words(one)) if is_dataclass(one) else said(one)}"
    for word, one in asked(trailer, figures):
        yield f"  {word}: {', '.join(words(one)) if is_dataclass(one) else said(one)}"


@cache
def kept() -> dict[str, list[str]]:
    """Return the rows that are kept, by build."""
    found: dict[str, list[str]] = {}
    for row in TOLD.read_text("utf-8").splitlines():
        if row.startswith("  "):
            found[list(found)[-1]].append(row)
        else:
            found[row] = [row]
    return found


@pytest.mark.parametrize("name", BUILDS)
def test_figures_are_those_that_are_kept(name: str) -> None:
    assert list(rows(name)) == kept()[name]


if __name__ == "__main__":
    TOLD.write_text("".join(f"{row}\n" for name in BUILDS for row in rows(name)), "utf-8")
