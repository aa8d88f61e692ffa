"""Which lamps a trailer must have: no rule asks less of a larger one, and at a limit it reads as written.

Sources: 49 CFR 571.108 (10-1-25 edition) Table I-b, as transcribed; UN R48 and the guide to the British lighting
regulations of 1989, partly from memory.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.electrics.lamps_required import (
    LampsRequired,
    Measures,
    required_count,
    required_total,
    rows_for,
)
from builder.tables.lamp_rules import LampRule, lamp_rules

RULES = ("FMVSS 108", "UN R48")
IN, FT, LB = 0.0254, 0.3048, 0.45359237

widths = st.floats(0.3, 3.0)
lengths = st.floats(1.0, 12.0)
masses = st.floats(100.0, 3500.0)


def counts(rule: str, measures: Measures) -> dict[str, int]:
    return {row.lamp: row.count for row, _ in rows_for(rule, measures)}


@given(st.sampled_from(RULES), widths, lengths, masses, st.floats(0, 3), st.floats(0, 12), st.floats(0, 3000))
def test_a_larger_trailer_never_needs_fewer(
    rule: str, wide: float, long: float, heavy: float, more_w: float, more_l: float, more_kg: float
) -> None:
    small = counts(rule, Measures(wide, long, heavy))
    large = counts(rule, Measures(wide + more_w, long + more_l, heavy + more_kg))
    assert all(large.get(lamp, 0) >= count for lamp, count in small.items())


@given(st.sampled_from(RULES), widths, lengths, masses)
def test_each_lamp_has_one_row_where_all_is_known(rule: str, wide: float, long: float, heavy: float) -> None:
    measures = Measures(wide, long, heavy)
    holding = [row.lamp for row in lamp_rules(rule) if row.count and _holds(row.when, measures)]
    assert len(holding) == len(set(holding))
    assert all(not lacking for _, lacking in rows_for(rule, measures))


def _holds(when: Any, measures: Measures) -> bool:
    values = {"width": measures.width_m, "length": measures.length_m, "mass": measures.mass_kg}
    return all(condition.holds(values[condition.measure]) for condition in when)


@pytest.mark.parametrize(
    ("width_in", "length_ft", "lamps", "reflectors"),
    [(60, 12, 11, 6), (80, 16, 18, 6), (84, 30, 20, 8), (48, 5.5, 9, 4), (79.9, 29.9, 11, 6)],
)
def test_totals_of_the_us_table(width_in: float, length_ft: float, lamps: int, reflectors: int) -> None:
    """Totals that follow from Table I-b; under 6 ft the front side reflectors fall away from memory."""
    measures = Measures(width_in * IN, length_ft * FT, 2000 * LB)
    assert required_total("FMVSS 108", "lamp", measures) == lamps
    assert required_total("FMVSS 108", "reflector", measures) == reflectors


@pytest.mark.parametrize(
    ("rule", "lamp", "at", "below"),
    [
        ("FMVSS 108", "front clearance lamps", Measures(80 * IN, 4, 900), Measures(79.99 * IN, 4, 900)),
        ("FMVSS 108", "middle side markers", Measures(1.5, 30 * FT, 900), Measures(1.5, 29.99 * FT, 900)),
        ("FMVSS 108", "front side markers", Measures(1.5, 6 * FT, 900), Measures(1.5, 5.99 * FT, 900)),
        ("UN R48", "side markers", Measures(1.5, 6.001, 900), Measures(1.5, 6.0, 900)),
        ("UN R48", "front position lamps", Measures(1.601, 4, 900), Measures(1.6, 4, 900)),
        ("UN R48", "rear clearance lamps", Measures(2.101, 4, 900), Measures(2.1, 4, 900)),
        ("UN R48", "reversing lamps", Measures(1.5, 4, 750.1), Measures(1.5, 4, 750)),
    ],
)
def test_exactly_at_a_limit_the_rule_reads_as_written(
    rule: str, lamp: str, at: Measures, below: Measures
) -> None:
    """FMVSS 108 says "or more", so the limit itself counts; UN R48 says "over", so it does not."""
    assert required_count(rule, lamp, at) == 2 - (lamp == "reversing lamps")
    assert required_count(rule, lamp, below) == 0


CONDITIONAL = [row for rule in RULES for row in lamp_rules(rule) if row.count and row.when]
KEYS = {"width": "width_m", "length": "length_m", "mass": "mass_kg"}
HAIR = 1e-3
"""A millimetre, or a gram."""


@pytest.mark.parametrize(
    ("row", "measure"),
    [(row, one.measure) for row in CONDITIONAL for one in row.when],
    ids=lambda value: value if isinstance(value, str) else f"{value.rule} {value.lamp} {value.count}",
)
def test_each_row_begins_and_ends_at_its_limit_as_its_rule_says(row: LampRule, measure: str) -> None:
    """FMVSS 108: "or more" and "less than"; UN R48 and British practice: "over" and "up to"."""
    (limit,) = (one.limit for one in row.when if one.measure == measure)
    (more,) = (one.sign[0] == ">" for one in row.when if one.measure == measure)
    inclusive = more == (row.rule == "FMVSS 108")
    others = {KEYS[one.measure]: one.limit * (1.1 if one.sign[0] == ">" else 0.9) for one in row.when}

    def holds(value: float) -> bool:
        measures = replace(Measures(1.0, 5.0, 900.0), **others | {KEYS[measure]: value})
        return any(one == row for one, _ in rows_for(row.rule, measures))

    assert holds(limit) == inclusive
    assert holds(limit + HAIR) == more
    assert holds(limit - HAIR) == (not more)


def test_a_narrow_trailer_needs_one_tail_lamp() -> None:
    assert required_count("FMVSS 108", "tail lamps", Measures(29.9 * IN, 2, 300)) == 1
    assert required_count("FMVSS 108", "tail lamps", Measures(30 * IN, 2, 300)) == 2


def test_what_cannot_be_judged_is_named_and_the_rest_is_judged() -> None:
    rows = {row.lamp: lacking for row, lacking in rows_for("FMVSS 108", Measures(None, 4.0, None))}
    assert rows["front clearance lamps"] == ("width",)
    assert rows["front side markers"] == ()
    assert "middle side markers" not in rows
    with pytest.raises(ValueError, match="width"):
        required_count("FMVSS 108", "front clearance lamps", Measures(None, 4.0, None))
    with pytest.raises(ValueError, match="does not speak"):
        required_count("FMVSS 108", "disco lamps", Measures(2.0, 4.0, None))


def asked(lamps: str, head: str = "country: US", size: str = "length: 12 ft, width: 5 ft") -> LampsRequired:
    text = (
        f"format: 1\nbuild: {{name: Example, {head}}}\ntrailer: {{{size}}}\n"
        f"tow plug: {{pattern: 7-way blade, to front box: 7 ft}}\n{lamps}"
    )
    reading = read_build(text.encode())
    assert reading.trailer is not None, [p.message for p in reading.problems]
    found = compute(reading.trailer).lamps_required
    assert found is not None
    return found


def missing(found: LampsRequired) -> dict[str, int]:
    return {one.row.lamp: one.missing for one in found.required if one.missing}


def test_markers_of_no_place_are_counted_where_one_is_wanted_and_named() -> None:
    two = asked("road lamps:\n  marker: {shows: marker, side: both, wire: 9 ft}\n")
    assert missing(two)["rear side markers"] == 2
    assert "front side markers" not in missing(two)
    assert set(two.unplaced) == {"marker left", "marker right"}


def test_a_housing_of_three_counts_three_times() -> None:
    wide = "length: 12 ft, width: 81 in"
    bar = "road lamps:\n  top bar: {shows: identification, count: %d, wire: 9 ft}\n"
    assert missing(asked(bar % 3, size=wide)).get("rear identification lamps", 0) == 0
    assert missing(asked(bar % 2, size=wide))["rear identification lamps"] == 1


def test_reflectors_count_by_themselves_and_built_into_lamps() -> None:
    lamps = "road lamps:\n  marker: {shows: marker, side: both, at: rear, reflector: yes, wire: 9 ft}\n"
    plain = "reflectors:\n  rear reflector: {at: rear, side: both, color: red, height: 20 in}\n"
    found = missing(asked(lamps + plain))
    assert "rear side reflectors" not in found
    assert "rear reflectors" not in found
    assert found["front side reflectors"] == 2


def test_a_country_without_a_rule_is_not_held_against_one() -> None:
    found = asked("road lamps:\n  plate: {shows: plate, wire: 9 ft}\n", head="country: other")
    assert found.rule == ""
    assert found.required == ()


def test_rows_from_memory_stay_from_memory() -> None:
    canada = asked("road lamps:\n  plate: {shows: plate, wire: 9 ft}\n", head="country: CA")
    assert {one.known for one in canada.required} == {"memory"}


def test_a_european_rear_wants_triangles_and_a_round_one_is_none() -> None:
    """UN R48 6.15 as a guide to the British regulations quotes it: two red triangles, on trailers only."""
    lamps = "road lamps:\n  tail: {shows: tail, side: both, reflector: yes, wire: 9 ft}\n"
    plain = "reflectors:\n  rear reflector: {at: rear, side: both, color: red}\n"
    for more, lacking in ((plain, 2), (plain.replace("red}", "red, triangle: yes}"), None)):
        found = asked(
            lamps.replace("9 ft", "3 m") + more, head="country: DE", size="length: 4 m, width: 1.5 m"
        )
        assert missing(found).get("rear triangle reflectors") == lacking


def test_what_the_file_measures_stands_beside_what_is_asked() -> None:
    lamps = (
        "road lamps:\n  tail: {shows: tail, side: both, in from the side: 12 cm, height: 85 cm, wire: 3 m}\n"
    )
    found = asked(lamps, head="country: DE", size="length: 4 m, width: 1.82 m")
    (tail,) = (one for one in found.required if one.row.lamp == "tail lamps")
    assert (tail.heights_m, tail.ins_m) == ((0.85,), (0.12,))
    assert tail.middles_apart_m == pytest.approx(1.82 - 2 * 0.12)
    alone = asked(lamps.replace("both", "left"), head="country: DE", size="length: 4 m, width: 1.82 m")
    assert [one.middles_apart_m for one in alone.required if one.row.lamp == "tail lamps"] == [None]


def test_a_guide_that_stands_in_for_the_rule_is_named_as_what_asks() -> None:
    rows = {row.lamp: row.authority for row in lamp_rules("UN R48")}
    assert rows["tail lamps"] == "UN R48"
    assert rows["rear turn lamps"].startswith("the guide to the British")
    assert {row.authority for row in lamp_rules("FMVSS 108") if row.known == "quoted"} == {"FMVSS 108"}


def test_a_reflector_built_into_a_lamp_is_told_of_as_well() -> None:
    """Whoever has written one down has thought of reflectors: then those that are missing are missed."""
    rear = "road lamps:\n  rear lamp: {{shows: [tail, stop, turn], side: both, {more}wire: 9 ft}}\n"
    assert not asked(rear.format(more="")).reflectors_told
    assert asked(rear.format(more="reflector: yes, ")).reflectors_told
