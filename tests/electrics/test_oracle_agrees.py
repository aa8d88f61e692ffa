"""The drop at every load against an oracle that was written without sight of the electrics room."""

from __future__ import annotations

from pathlib import Path

import pytest
from generated_builds import GeneratedBuild, builds
from hypothesis import HealthCheck, given, settings
from oracle import current_a, drops_v, fed_loads

from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.pages.record import record

ROOT = Path(__file__).parents[2]
EXAMPLES = ("example_build/trailer.yaml", "example_build/smallest/trailer.yaml")

CONVERTERS_IN_A_ROW = """
format: 1
build: {name: Two Steps Down, number: 1, country: DE, stage: walls open}
battery: {chemistry: lifepo4, capacity: 100 Ah, path: [main fuse: 0.2 m, front box: 1 m], return: 1.2 m}
front box: {fuse ways: 6, fuses: blade regular}
wire: {on the shelf: [1.5 mm², 4 mm², 10 mm²], sold as: single, feed: red, return: black}
parts:
  high: {kind: converter, gives at: 24 V, efficiency: 91 %}
  low: {kind: converter, gives at: 5 V, efficiency: 80 %}
  warm: {kind: heater, draws: 60 W, at: 24 V}
  stove: {kind: heater, draws: 2 A}
  fan: {kind: fan, draws: 12 W}
  lamp: {kind: lamp, draws: 1 A}
  telephone: {kind: socket, draws: 2 W, at: 5 V}
circuits:
  long: {path: [high: 3 m, warm: 2 m, fan: 1 m, lamp: 1 m, stove: 2 m, low: 2 m, telephone: 1 m]}
"""
FRAME_AND_STRANGER = """
format: 1
build: {name: Borrowed Return, number: 1, country: US, stage: walls open}
battery: {chemistry: agm, capacity: 50 Ah, path: [main fuse: 5 in, front box: 4 ft], return: 5 ft, frame bond: 8 AWG}
front box: {fuse ways: 6, fuses: blade regular}
tow plug: {pattern: 7-way blade, to front box: 7 ft}
wire: {on the shelf: [16 AWG, 14 AWG, 12 AWG, 8 AWG], sold as: single, feed: red, return: black}
parts:
  porch lamp: {kind: lamp, draws: 6 W, at: 13.2 V}
  shelf lamp: {kind: lamp, draws: 4 W}
  galley bar: {kind: bar}
  cooler: {kind: fridge, draws: 40 W}
circuits:
  porch: {path: [porch lamp: 9 ft], return: frame}
  galley: {path: [galley bar: 10 ft, cooler: 3 ft]}
  shelf: {path: [shelf lamp: 8 ft], return: {to: galley bar, length: 2 ft}}
road lamps:
  rear lamp: {shows: [tail, stop, turn], side: both, wire: 16 ft}
"""


def check(data: bytes) -> tuple[int, set[str]]:
    """Hold every load of a build's record against the oracle; return how many, and the parts never fed."""
    trailer = read_build(data).trailer
    assert trailer is not None
    made = record(trailer, compute(trailer), ())
    told = {
        (load["part"], load.get("what", ""), load["supply"]): (load["current_a"], load["drop_v"])
        for circuit in made["circuits"]
        for load in circuit["loads"]
    }
    for circuit in made["circuits"]:
        for load in circuit["loads"]:
            assert sum(step["drop_v"] for step in load["steps"]) == pytest.approx(load["drop_v"], rel=1e-9)
    drops = drops_v(trailer, {wire["number"]: wire["resistance_ohm"] for wire in made["wires"]})
    loads = fed_loads(trailer)
    own = {
        (load.part, load.what, load.section): (current_a(trailer, load), drop_v)
        for load, drop_v in zip(loads, drops, strict=True)
    }
    assert len(own) == len(loads)
    assert told.keys() == own.keys()
    for name, figures in own.items():
        assert told[name] == pytest.approx(figures, rel=1e-9, abs=1e-12), name
    return len(own), {load.part for load in trailer.loads} - {load.part for load in loads}


@given(build=builds())
@settings(max_examples=300, derandomize=True, deadline=None, suppress_health_check=list(HealthCheck))
def test_every_drop_of_a_generated_build_is_the_oracles(build: GeneratedBuild) -> None:
    _, never_fed = check(build.data)
    assert not never_fed, "both positions of a change-over count"


@pytest.mark.parametrize("file", EXAMPLES)
def test_every_drop_of_an_example_is_the_oracles(file: str) -> None:
    loads, never_fed = check((ROOT / file).read_bytes())
    assert loads > 10
    assert not never_fed


@pytest.mark.parametrize(("text", "loads"), [(CONVERTERS_IN_A_ROW, 9), (FRAME_AND_STRANGER, 7)])
def test_every_drop_of_an_odd_build_is_the_oracles(text: str, loads: int) -> None:
    assert check(text.encode()) == (loads, set())
