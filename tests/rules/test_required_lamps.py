"""What the lamp rule asks for is wired, or it is told: builds drawn by chance, and every limit of every row.

Sources: 49 CFR 571.108 (10-1-25 edition) Table I-b, as transcribed; UN R48 and British practice, partly from memory.
"""

from __future__ import annotations

import pytest
from hypothesis import event, given, settings
from hypothesis import strategies as st
from rule_builds import findings

from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.electrics.network import neighbours, reach
from builder.rules.finding import Finding
from builder.tables.lamp_rules import LampRule, lamp_rules
from builder.tables.tow_plugs import plug_patterns
from builder.trailer.model import TOW_PLUG, Trailer
from builder.trailer.parts import Terminal

RULES = ("FMVSS 108", "UN R48")
COUNTRY = {"FMVSS 108": "US", "UN R48": "DE"}
LAMPS = (
    "rear lamp: {shows: [tail, stop, turn], side: both, wire: 15 ft}",
    "tail lamp: {shows: tail, side: left, wire: 15 ft}",
    "stop lamp: {shows: stop, side: right, wire: 15 ft}",
    "turn lamp: {shows: turn, side: both, wire: 15 ft}",
    "plate lamp: {shows: plate, side: left, wire: 15 ft}",
    "front marker: {shows: marker, side: both, at: front, wire: 4 ft}",
    "marker: {shows: marker, side: both, wire: 9 ft}",
    "top bar: {shows: identification, at: rear, side: left, count: 3, wire: 17 ft}",
    "corner lamp: {shows: clearance, at: rear, side: both, wire: 16 ft}",
    "front lamp: {shows: front position, side: both, wire: 4 ft}",
    "fog lamp: {shows: fog, side: left, wire: 15 ft}",
    "reversing lamp: {shows: reverse, side: left, wire: 15 ft}",
)


def build(country: str, pattern: str, size: str, lamps: list[str]) -> str:
    return (
        f"format: 1\nbuild: {{name: Bean Row, country: {country}}}\ntrailer: {{{size}}}\n"
        f"tow plug: {{pattern: {pattern}, to front box: 7 ft}}\n"
        "wire: {on the shelf: [16 AWG, 14 AWG], feed: red, return: black}\n"
        "road lamps:\n  lamps: led\n" + "".join(f"  {lamp}\n" for lamp in lamps)
    )


def is_wired(trailer: Trailer, name: str, function: str) -> bool:
    """Tell whether wires lead to a function of a lamp from a contact that is for it, and from the lamp to a ground."""
    plug = trailer.tow_plug
    assert plug is not None
    (lamp,) = (one for one in trailer.road_lamps if one.name == name)
    pins = {pin for shown, pin in lamp.contacts if shown == function}
    graph = neighbours(trailer)
    ends = [end for wire in trailer.wires for end in (wire.start, wire.end) if end.part == name]
    fed = [end for end in ends if function in end.pin.split(", ")]
    return (
        bool(fed)
        and all(
            {plug.pattern.contact(at.pin).is_ground for at in reach(graph, end) if at.part == TOW_PLUG}
            == {ground}
            for end, ground in ((fed[0], False), (Terminal(name, "−"), True))
        )
        and all(Terminal(TOW_PLUG, pin) in reach(graph, fed[0]) for pin in pins)
    )


@settings(max_examples=60)
@given(
    st.sampled_from(RULES),
    st.sampled_from(plug_patterns()),
    st.floats(1.2, 2.5),
    st.floats(1.7, 11.0),
    st.floats(200, 3000),
    st.lists(st.sampled_from(LAMPS), min_size=1, unique=True),
)
def test_every_lamp_that_is_asked_for_has_wire_and_contact_or_is_told_of(
    rule: str, pattern: str, wide_m: float, long_m: float, heavy_kg: float, lamps: list[str]
) -> None:
    size = f"width: {wide_m:.3f} m, length: {long_m:.3f} m, gross weight: {heavy_kg:.1f} kg"
    text = build(COUNTRY[rule], pattern, size, lamps)
    reading = read_build(text.encode())
    if (
        reading.trailer is None
    ):  # a function that the plug has no contact for is a problem, told before all else
        assert all("contact" in problem.message for problem in reading.problems), text
        event("refused")
        return
    event("judged")
    trailer = reading.trailer
    asked = compute(trailer).lamps_required
    assert asked is not None
    told = [found.message for found in findings(text, "lamp missing")]
    for one in asked.required:
        if one.row.kind == "reflector":
            continue
        for name in one.have:
            assert is_wired(trailer, name, one.row.shows), (text, name)
        assert len(one.have) + one.missing >= one.row.count
        assert bool(one.missing) == any(f" {one.row.lamp}: " in f" {message}" for message in told), (
            text,
            told,
        )


def said_of(rule: str, row: LampRule, height_m: float) -> tuple[Finding, ...]:
    """Return what is found of heights where all that a row asks for sits at one."""
    wide = any(condition.measure == "width" and condition.sign[0] == ">" for condition in row.when)
    long = any(condition.measure == "length" and condition.sign[0] == ">" for condition in row.when)
    size = f"width: {'2.4 m' if wide else '1.5 m'}, length: {'9.2 m' if long and rule == 'FMVSS 108' else '6.5 m'}"
    size += ", gross weight: 900 kg"
    if row.kind == "lamp":
        at = f", at: {row.at}" if row.at in ("front", "middle", "rear") else ", at: front"
        count = ", count: 3" if row.count == 3 else ""
        lamps = [
            f"one: {{shows: {row.shows}, side: left{at}{count}, height: {height_m * 1000:.3f} mm, wire: 9 ft}}"
        ]
        text = build(
            COUNTRY[rule], "heavy 7-way" if row.shows not in ("fog", "reverse") else "13-pin", size, lamps
        )
    else:
        at = "middle side" if row.at == "side" else row.at
        text = build(COUNTRY[rule], "13-pin", size, ["plate lamp: {shows: plate, side: left, wire: 9 ft}"])
        triangle = ", triangle: yes" if "triangle" in row.lamp else ""
        text += f"reflectors:\n  one: {{at: {at}, side: left, height: {height_m * 1000:.3f} mm{triangle}}}\n"
    return tuple(found for found in findings(text, "lamp at wrong height") if row.lamp in found.message)


ROWS = [
    row
    for rule in RULES
    for row in lamp_rules(rule)
    if row.count and row.lowest_m is not None and all("<" not in one.sign for one in row.when)
]
"""Every row with limits of height, but those of trailers below a size, which the larger ones' repeat."""


@pytest.mark.parametrize(
    "row",
    [r for r in ROWS if all("<" not in c.sign for c in r.when)],
    ids=lambda row: f"{row.rule} {row.lamp}",
)
def test_a_height_exactly_at_a_limit_is_inside_and_a_millimetre_beyond_it_is_not(row: LampRule) -> None:
    for limit, way in ((row.lowest_m, -1), (row.highest_m, 1)):
        if limit is not None:
            assert said_of(row.rule, row, limit) == (), row
            assert said_of(row.rule, row, limit + way * 0.001) != (), row
