"""Each rule at its limit: silent just inside, speaking just outside at the right word, cured by what it prints."""

from __future__ import annotations

import pytest
from limits_of_bays import BAY_LIMITS
from limits_of_chases import CHASE_LIMITS
from limits_of_colours import COLOUR_LIMITS
from limits_of_covers import COVER_LIMITS, WALL
from limits_of_fuses import FUSE_LIMITS
from limits_of_lamps import LAMP_LIMITS
from limits_of_landings import LANDING_LIMITS
from limits_of_options import OPTION_LIMITS
from limits_of_parts import PART_LIMITS
from limits_of_stock import STOCK_LIMITS
from limits_of_values import VALUE_LIMITS
from limits_of_ways import WAY_LIMITS
from limits_of_wiring import WIRING_LIMITS
from rule_builds import BATTERY, LAMP, TWO, Limit, build, changed, findings, line_of, marked

from builder.buildfile.issuing import issue
from builder.buildfile.ledger_text import ledger_text
from builder.buildfile.numbered import NumbersFile, numbered_build
from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.rules.finding import Level
from builder.rules.registry import RULES, find

LIMITS = (
    *BAY_LIMITS,
    *COLOUR_LIMITS,
    *COVER_LIMITS,
    *CHASE_LIMITS,
    *FUSE_LIMITS,
    *LAMP_LIMITS,
    *OPTION_LIMITS,
    *LANDING_LIMITS,
    *PART_LIMITS,
    *STOCK_LIMITS,
    *VALUE_LIMITS,
    *WAY_LIMITS,
    *WIRING_LIMITS,
)
EVERY_LIMIT = pytest.mark.parametrize("limit", LIMITS, ids=lambda limit: f"{limit.rule}: {limit.name}")


@EVERY_LIMIT
def test_it_is_silent_just_inside(limit: Limit) -> None:
    """Or says no more than what is worth knowing, where its limit for more is tried."""
    order = list(Level)
    found = findings(limit.inside, limit.rule)
    assert [f.message for f in found if order.index(f.level) <= order.index(limit.level)] == []


@EVERY_LIMIT
def test_it_speaks_just_outside_at_the_right_word(limit: Limit) -> None:
    (finding,) = findings(limit.outside, limit.rule)
    start, word = limit.at
    assert marked(limit.outside, finding) == (line_of(limit.outside, start), word)
    assert finding.level is limit.level
    for words in limit.says:
        assert words in finding.message
    for printed, _, _ in limit.ways_out:
        assert printed in finding.help


@EVERY_LIMIT
def test_the_printed_way_out_makes_it_silent(limit: Limit) -> None:
    assert limit.ways_out
    for _, old, new in limit.ways_out:
        assert findings(changed(limit.outside, old, new), limit.rule) == ()


@pytest.mark.parametrize(
    ("far", "level"),
    [
        ("7 in", None),
        ("7.5 in", Level.WORTH),
        ("18 in", Level.WORTH),
        ("18.5 in", Level.SHOULD),
        ("72 in", Level.SHOULD),
        ("73 in", Level.MUST),
    ],
)
def test_the_distance_to_the_main_fuse(far: str, level: Level | None) -> None:
    """33 CFR 183.455(b)(1) 7 in, NEC 552.10(E)(4) 18 in, ABYC E-11.10.1.1 72 in."""
    found = findings(build(LAMP, battery=changed(BATTERY, "5 in", far)), "battery fuse")
    assert [finding.level for finding in found] == ([] if level is None else [level])


def test_a_metric_build_is_told_in_millimetres() -> None:
    text = build(LAMP, battery=changed(BATTERY, "5 in", "20 cm"), shelf="2.5 mm²", more="country: DE")
    (finding,) = findings(text, "battery fuse")
    assert (
        finding.message == "the fuse of “battery line” is 200 mm of wire from the battery: 178 mm is the most"
    )
    assert "to main fuse: 12 cm" in finding.help


def test_a_metric_build_writes_its_steel_plates_in_millimetres() -> None:
    """NEC 300.4(A) asks for 1/16 in, which is 1.5875 mm: the plate that is printed must be as thick."""
    text = changed(changed(WALL, "GO", "44 mm"), "country: US", "country: DE")
    for go, rule in (("44 mm", "fastener near wire"), ("50 mm", "fastener reaches wire")):
        outside = changed(text, "44 mm", go)
        (finding,) = findings(outside, rule)
        assert "write plate: 1.6 mm under" in finding.help
        assert findings(changed(outside, "lamp]}", "lamp], plate: 1.6 mm}"), rule) == ()


def test_a_metric_build_writes_the_plates_over_its_holes_in_millimetres() -> None:
    (limit,) = (one for one in LIMITS if one.name == "a plate of 1/16 in")
    metric = changed(changed(limit.inside, "country: US", "country: DE"), "1/16 in", "1.6 mm")
    assert findings(metric, limit.rule) == ()
    (finding,) = findings(changed(metric, "1.6 mm", "1.5 mm"), limit.rule)
    assert "thinner than 1.6 mm" in finding.message
    assert "write plate: 1.6 mm" in finding.help


def test_every_rule_has_its_limit_tried() -> None:
    assert {limit.rule for limit in LIMITS} == {rule.name for rule in RULES}


def test_a_fuse_on_the_far_side_of_a_charger_does_not_guard_the_battery() -> None:
    car = (
        "tow plug: {pattern: 7-way blade, to front box: 7 ft}\nparts: {charger: {kind: dc charger, gives: 10 A}}\n"
        "circuits:\n  charge: {from: tow plug battery, size: 10 AWG, "
        "path: [line fuse: 1 in, charger: 2 in, battery fuse: 5 in, battery: 5 in]}\n"
    )
    assert findings(build(car), "battery fuse") == ()
    (finding,) = findings(build(changed(car, "battery fuse: 5 in, ", "")), "battery fuse")
    assert finding.message == "no fuse protects “charge” at the battery"
    assert finding.level is Level.MUST


def test_a_circuit_whose_fuse_only_the_most_cautious_table_refuses_has_one() -> None:
    """16 AWG: 10 A by the chart it is judged by, 8 A by an older table; better a fuse that is told than none."""
    heater = "parts: {heater: {kind: heater, draws: 6.5 A}}\ncircuits:\n  heater: {path: [heater: 2 ft]}\n"
    found = findings(build(heater), "load above fuse")
    assert {finding.level for finding in found} == {Level.SHOULD}
    assert "needs a 10 A fuse" in found[0].message


def test_what_is_new_and_what_is_gone_of_the_numbers_stands_in_one_sentence() -> None:
    before = read_build(build(TWO).encode()).trailer
    assert before is not None
    text = ledger_text(issue(before).ledger)
    after = changed(build(TWO), "fan: {path: [fan: 6 ft]}", "fan: {path: [fan splice: 3 ft, fan: 3 ft]}")
    after = changed(after, "parts: {", "parts: {fan splice: {kind: splice}, ").replace(
        "  light: {path: [lamp: 6 ft]}\n", ""
    )
    reading = numbered_build(read_build(after.encode()), NumbersFile("trailer.numbers.csv", text.encode()))
    assert reading.trailer is not None
    (finding,) = (
        f for f in find(reading.trailer, compute(reading.trailer)) if f.rule == "numbers not issued"
    )
    new, gone = finding.message.split("; ")
    assert "drafts" in new
    assert gone.startswith("issued, and on no wire of this file: ")
