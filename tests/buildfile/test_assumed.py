"""What is assumed where a file is silent: each assumption names itself, its range and its reason."""

from __future__ import annotations

from dataclasses import replace

import pytest

from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.tables.assumptions import defaults
from builder.trailer.model import Assumption, Trailer

TEXT = """\
format: 1
build: {name: Bean Row, country: US}
battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}
front box: {fuse ways: 6}
parts:
  sun: {kind: solar module, gives: 50 W}
  controller: {kind: charge controller}
  quiet: {kind: converter, gives: 3 A, gives at: 5 V, draws when idle: 7 mA}
  loud: {kind: converter, gives: 3 A, gives at: 5 V}
  fan: {kind: fan}
circuits:
  sun: {from: sun, path: [controller: 6 ft, sun fuse: 1 ft, battery: 6 in]}
  cool: {path: [quiet: 3 ft, loud: 3 ft, fan: 3 ft]}
"""
GENERAL = ("solar voltage", "charging voltage", "converter efficiency")


def trailer() -> Trailer:
    reading = read_build(TEXT.encode())
    assert reading.trailer is not None, [(p.origin.line, p.message) for p in reading.problems]
    return reading.trailer


def test_every_part_has_its_idle_draw_from_the_file_or_from_its_kind() -> None:
    drawn = {name: (part.idle_a, part.idle_assumption) for name, part in trailer().parts.items()}
    assert drawn["quiet"] == (0.007, "")
    assert drawn["loud"] == (0.02, "idle draw of loud")
    assert drawn["controller"] == (0.01, "idle draw of controller")
    assert drawn["fan"] == (0.0, "")


@pytest.mark.parametrize(
    ("id_", "about", "value", "unit", "reason"),
    [
        ("idle draw of loud", "what loud takes all the time", 0.02, "A", "usual for a converter"),
        (
            "idle draw of controller",
            "what controller takes all the time",
            0.01,
            "A",
            "usual for a charge controller",
        ),
        ("draws of fan", "what fan takes at 12.0 V", 1.5, "A", "usual for a fan"),
    ],
)
def test_what_is_assumed_of_a_part(id_: str, about: str, value: float, unit: str, reason: str) -> None:
    """An idle draw may be a quarter or four times what is usual: common practice."""
    (made,) = (one for one in trailer().assumed if one.id == id_)
    low, high = (value / 4, value * 4) if id_.startswith("idle") else (made.low, made.high)
    why = f"the file does not say; {reason}"
    assert made == Assumption(id_, about, value, unit, low, high, why, "practice")


@pytest.mark.parametrize("id_", GENERAL)
def test_what_is_assumed_of_a_kind_comes_whole_from_its_table(id_: str) -> None:
    (made,) = (one for one in trailer().assumed if one.id == id_)
    row = defaults()[id_]
    whole = Assumption(row.id, row.about, row.value, row.unit, row.low, row.high, row.reason, row.known)
    assert replace(made, origin=None, replaced=False) == whole


@pytest.mark.parametrize(
    ("id_", "feet_in", "metric_mm"),
    [("tail at each end", 6, 150), ("loop at the front box", 12, 300), ("slack of a hinge loop", 8, 200)],
)
def test_a_length_that_is_assumed_is_round_in_the_units_of_the_build(
    id_: str, feet_in: int, metric_mm: int
) -> None:
    row = defaults()[id_]
    assert row.at(metric=False) == pytest.approx(feet_in * 0.0254)
    assert row.at(metric=True) == pytest.approx(metric_mm / 1000)


@pytest.mark.parametrize(("units", "tail_m", "loop_m"), [("feet", 0.1524, 0.3048), ("metric", 0.15, 0.3)])
def test_a_build_counts_with_the_round_lengths_of_its_units(units: str, tail_m: float, loop_m: float) -> None:
    text = (
        f"format: 1\nbuild: {{name: Example, country: DE, units: {units}}}\n"
        "battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 15 cm, to front box: 60 cm}\n"
        "front box: {fuse ways: 4}\n"
        "places: {front box: {back: 30 cm, up: 60 cm}, lamp: {back: 230 cm, up: 60 cm}}\n"
        "chases: {groove: {through: [front box, lamp]}}\n"
        "parts: {lamp: {kind: lamp, draws: 3 W}}\ncircuits: {lamp: {path: [lamp]}}\n"
    )
    made = read_build(text.encode()).trailer
    assert made is not None
    (feed, _) = (wire for wire in made.wires if wire.circuit == 1)
    assert feed.length_m == pytest.approx(2.0 + loop_m)
    assert next(one.value for one in compute(made).assumptions if one.id == "tail at each end") == tail_m
