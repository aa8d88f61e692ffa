"""Builds for the tests of lists, and their lists."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from builder.buildfile.problems import render_text
from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.electrics.figures import Figures
from builder.lists.making import Lists, make_lists
from builder.trailer.model import Trailer

ROOT = Path(__file__).parents[2]
EXAMPLE = (ROOT / "example_build" / "trailer.yaml").read_text(encoding="utf-8")
SMALLEST = (ROOT / "example_build" / "smallest" / "trailer.yaml").read_text(encoding="utf-8")
HEAD = """\
format: 1
build: {name: Bean Row, country: US}
battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}
front box: {fuse ways: 6}
"""
ROAD_ONLY = """\
format: 1
build: {name: Bean Row, country: US}
tow plug: {pattern: 4-way flat, to front box: 7 ft}
road lamps:
  rear lamp: {shows: [tail, stop, turn], side: both, wire: 14 ft}
"""
NO_BATTERY = """\
format: 1
build: {name: Bean Row, country: US}
tow plug: {pattern: 7-way blade, to front box: 7 ft}
parts:
  shore converter: {kind: shore converter, gives: 10 A}
  lamp: {kind: lamp, draws: 3 W, own switch: yes}
  fan: {kind: fan, draws: 1 A}
circuits:
  light: {from: shore converter, path: [lamp fuse: 1 ft, lamp: 6 ft]}
  fan: {from: tow plug battery, path: [fan fuse: 1 ft, fan: 6 ft]}
"""
METRIC = """\
format: 1
build: {name: Bean Row, country: DE}
battery: {chemistry: lithium, capacity: 35 Ah, to main fuse: 10 cm, to front box: 1.2 m}
front box: {fuse ways: 6}
tow plug: {pattern: 13-pin, to front box: 2 m}
parts:
  fan: {kind: fan, draws: 3 A}
circuits:
  fan: {path: [fan: 3 m]}
road lamps:
  rear lamp: {shows: [tail, stop, turn], side: both, wire: 4 m}
"""
EMPTY = "format: 1\nbuild: {name: Bean Row}\n"
MANY = (
    "format: 1\nbuild: {name: Bean Row}\n"
    "battery: {chemistry: agm, capacity: 200 Ah, to main fuse: 5 in, to front box: 4 ft}\n"
    "front box: {fuse ways: 6}\nparts:\n"
    + "".join(f"  lamp {n}: {{kind: lamp, draws: 1 W}}\n" for n in range(60))
    + "circuits:\n  lights: {path: ["
    + ", ".join(f"lamp {n}: 1 ft" for n in range(60))
    + "]}\n"
)
BUILDS = {
    "example": EXAMPLE,
    "smallest": SMALLEST,
    "road lamps only": ROAD_ONLY,
    "no battery": NO_BATTERY,
    "metric": METRIC,
    "empty": EMPTY,
    "60 loads": MANY,
}


@dataclass(frozen=True)
class Listed:
    """A build with its figures and its lists."""

    trailer: Trailer
    figures: Figures
    lists: Lists


def listed(text: str) -> Listed:
    """Return the lists of a build that is meant to be without a problem."""
    reading = read_build(text.encode())
    assert reading.trailer is not None, render_text(reading.problems, "trailer.yaml", reading.lines)
    figures = compute(reading.trailer)
    return Listed(reading.trailer, figures, make_lists(reading.trailer, figures))
