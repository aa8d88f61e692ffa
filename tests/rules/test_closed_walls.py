"""Once walls are closed: what is advised then, that it mends what was found, and that it leaves hidden wire alone."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from closed_ways import CLOSED_WAYS
from generated_builds import GeneratedBuild, builds
from hypothesis import HealthCheck, assume, given, settings
from rule_builds import FAN, HEATER, LAMP, MAIN_30, PUMP, THICK, Limit, build, changed, findings, read
from test_rule_limits import EVERY_LIMIT, LIMITS

from builder.buildfile.numbered import numbered_build
from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.rules import closed_walls
from builder.rules.finding import Level, Remark, Rule, WayOut
from builder.rules.page import page_of
from builder.rules.registry import RULES, find
from builder.trailer.model import Trailer
from builder.trailer.origin import NOWHERE

HIDDEN = re.compile(
    r"thicker|conduit|\bbore\b|deeper|through the chase|lead (?:it|them|some|the)|another way|a shorter way",
    re.IGNORECASE,
)
"""What nobody can do behind a closed wall."""
CHASES = re.compile(r"chases:.*?(?=\n\S|\Z)", re.DOTALL)


def closed(text: str) -> str:
    """Return a build with its walls closed."""
    if "stage: walls open" in text:
        return changed(text, "stage: walls open", "stage: walls closed")
    return changed(text, "build: {", "build: {stage: walls closed, ")


def ways_of(limit: Limit) -> list[tuple[str, tuple[tuple[str, str], ...]]]:
    """Return the ways out of a limit once walls are closed: its own, else those of open walls."""
    own = CLOSED_WAYS.get((limit.rule, limit.name))
    return list(own) if own else [(printed, ((old, new),)) for printed, old, new in limit.ways_out]


@EVERY_LIMIT
def test_closed_walls_hide_no_finding(limit: Limit) -> None:
    (open_,), (shut,) = findings(limit.outside, limit.rule), findings(closed(limit.outside), limit.rule)
    assert (shut.level, shut.message, shut.basis) == (open_.level, open_.message, open_.basis)


@EVERY_LIMIT
def test_another_way_out_is_printed_where_the_wall_hides_the_first(limit: Limit) -> None:
    (open_,), (shut,) = findings(limit.outside, limit.rule), findings(closed(limit.outside), limit.rule)
    assert (open_.help != shut.help) == ((limit.rule, limit.name) in CLOSED_WAYS)
    for printed, _ in ways_of(limit):
        assert printed in shut.help


@EVERY_LIMIT
def test_the_way_out_of_closed_walls_makes_it_silent(limit: Limit) -> None:
    for _, edits in ways_of(limit):
        text = closed(limit.outside)
        for old, new in edits:
            text = changed(text, old, new)
        assert findings(text, limit.rule) == ()


@EVERY_LIMIT
def test_no_way_out_of_closed_walls_touches_what_they_hide(limit: Limit) -> None:
    """A panel comes off: what lies behind it can be reached."""
    text = closed(limit.outside)
    (found,) = findings(text, limit.rule)
    assert not HIDDEN.search(found.help)
    if "skins:" in text:
        assert not [name for name in read(text)[0].geometry.chases if f"“{name}”" in found.help]


def test_every_closed_way_belongs_to_a_limit() -> None:
    assert set(CLOSED_WAYS) <= {(limit.rule, limit.name) for limit in LIMITS}


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_a_page_tells_both_stages_where_they_differ(rule: Rule) -> None:
    headings = [heading for heading, _ in page_of(rule).paragraphs]
    differs = any(name == rule.name for name, _ in CLOSED_WAYS) or rule.name == "fuse not sold"
    assert headings == ["What", "Why", "Limit", *(["Walls open", "Walls closed"] if differs else [])]
    assert not HIDDEN.search(dict(page_of(rule).paragraphs).get("Walls closed", ""))


def test_a_stage_left_out_is_one_of_open_walls() -> None:
    text = build(changed(FAN, "10 A", "15 A"))
    assert read(text)[0].identity.stage == ""
    assert "thicker" in findings(text, "fuse above wire")[0].help


@pytest.mark.parametrize("word", ["closed", "Finished", "in use", "walls closed", "Walls  Closed"])
def test_words_of_makers_for_closed_walls(word: str) -> None:
    text = build(LAMP, more=f"country: US, stage: {word}")
    assert read(text)[0].identity.walls_closed


def test_a_stage_that_is_none_is_told() -> None:
    reading = read_build(build(LAMP, more="country: US, stage: walls clsoed").encode())
    (problem,) = reading.problems
    assert problem.name == "unknown choice"
    assert "walls closed" in problem.help


# ---- figures ----


def test_a_spare_wire_that_is_thick_enough_is_named() -> None:
    spare = "spares:\n  rear spare: {from: front box, to: rear, wire: 9 ft, size: 14 AWG}\n"
    text = closed(
        build(changed(HEATER, "8 A", "12 A").replace("fuse: 10 A, ", "size: 16 AWG, ") + spare, battery=THICK)
    )
    assert (
        "or take the spare “rear spare” if it leads there, size: 14 AWG"
        in findings(text, "load above fuse")[0].help
    )
    thin = text.replace("9 ft, size: 14 AWG", "9 ft, size: 16 AWG")
    assert "rear spare" not in findings(thin, "load above fuse")[0].help


def test_a_load_that_the_smaller_fuse_of_its_own_does_not_carry() -> None:
    """16 AWG bears 10 A by the chart, four fifths of it for hours: 8 A."""
    text = closed(
        build(
            "parts: {heater: {kind: heater, draws: 12 A}}\ncircuits:\n"
            "  heater: {from: main fuse, size: 16 AWG, path: [heater: 3 ft]}\n",
            battery=MAIN_30,
        )
    )
    (found,) = findings(text, "no own fuse")
    assert (
        "fuse: 10 A; it needs more, so choose “heater” so that it takes less, draws: 8 A at most"
        in found.help
    )
    mended = changed(
        changed(text, "draws: 12 A", "draws: 8 A"), "from: main fuse", "from: main fuse, fuse: 10 A"
    )
    assert [f.rule for f in findings(mended) if f.level is not Level.WORTH] == []


def test_two_loads_of_which_none_can_make_up_for_it_alone() -> None:
    """20 A on 10 A of wire: none of ten loads of 2 A can take 12 A less."""
    names = [f"lamp {n}" for n in range(10)]
    parts = ", ".join(f"{name}: {{kind: lamp, draws: 2 A}}" for name in names)
    path = ", ".join(f"{name}: 1 in" for name in names)
    text = closed(
        build(
            f"parts: {{{parts}}}\ncircuits:\n  all: {{size: 16 AWG, fuse: 25 A, path: [{path}]}}\n",
            battery=THICK,
        )
    )
    (found,) = findings(text, "fuse above wire")
    assert "let what hangs on it take 12 A less" in found.help


def test_a_rating_that_is_not_sold_and_a_load_above_all_that_are() -> None:
    text = closed(
        build(
            "parts: {box fuse: {kind: fuse, rating: 11 A}, heater: {kind: heater, draws: 9 A}}\ncircuits:\n"
            "  heater: {from: main fuse, size: 16 AWG, path: [box fuse: 5 in, heater: 3 ft]}\n",
            battery=MAIN_30,
        )
    )
    (found,) = findings(text, "fuse not sold")
    assert (
        "rating: 10 A; the load needs more, so choose “heater” so that it takes less, draws: 8 A"
        in found.help
    )
    mended = changed(changed(text, "rating: 11 A", "rating: 10 A"), "draws: 9 A", "draws: 8 A")
    assert [f.rule for f in findings(mended) if f.level is not Level.WORTH] == []


def test_where_no_fastener_is_short_enough_the_wire_is_left_alone() -> None:
    """The line of the wires is 5.4 mm behind the face: no fastener holds in so little."""
    wall = next(one for one in LIMITS if one.name == "half of the thickest wire").inside
    text = closed(changed(wall.replace("right: 2 ft", "right: 655 mm"), "49.2 mm", "1/4 in"))
    (found,) = findings(text, "fastener reaches wire")
    assert "leave the wires there unused: lay new wire where it stays in sight" in found.help
    assert "“groove”" not in found.help


def test_of_nothing_that_helps_the_rest_is_advised() -> None:
    assert closed_walls.either("", "") == closed_walls.NOTHING_HELP
    assert closed_walls.either("a", "") == closed_walls.either("", "a") == "a"
    assert closed_walls.either("a", "b") == "a; or b"


def test_a_way_out_is_of_its_stage() -> None:
    way = WayOut("open", "shut")
    assert (way.at(walls_closed=False), way.at(walls_closed=True)) == ("open", "shut")
    assert Remark(NOWHERE, "said", way, "read", "basis").help is way


def test_the_draw_that_is_named_mends_it_under_changes() -> None:
    """Under parts it could bring thinner wire with it; under changes all wire stays as it is."""
    text = closed(build(changed(PUMP, "6 ft", "6 ft 8 in")))
    assert "draws: 3.9 A at most, and write it under changes" in findings(text, "drop above advice")[0].help
    trailer = numbered_build(read_build((text + "changes: {pump: {draws: 3.9 A}}\n").encode()), None).trailer
    assert trailer is not None
    assert [f.rule for f in find(trailer, compute(trailer)) if f.level is not Level.WORTH] == []


NAMED = re.compile(r"choose “([^”]+)” so that it takes less, draws: (?:\{([\w ]+): )?([\d.]+) (A|W)\b")


def _weaker(trailer: Trailer, part: str, what: str, value: float) -> Trailer:
    """Return a trailer as if the file's changes said so of a part, or of both lamps of a pair."""
    written_at = {load.origin for load in trailer.loads if load.part == part}
    road = {one.name for one in trailer.parts.values() if one.kind == "road lamp"}
    names = {load.part for load in trailer.loads if load.origin in written_at} & road | {part}
    return replace(
        trailer,
        loads=tuple(
            replace(load, draw=replace(load.draw, value=value, assumption=""))
            if load.part in names
            and load.draw is not None
            and load.what in (what, *(() if what else ("coil",)))
            else load
            for load in trailer.loads
        ),
    )


@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
@given(builds())
def test_the_draw_that_is_named_against_a_drop_mends_it_in_any_build(made: GeneratedBuild) -> None:
    assume(read_build(made.data).trailer is not None)  # that it reads is tried elsewhere
    trailer, figures = read(made.text)
    trailer = replace(trailer, identity=replace(trailer.identity, stage="walls closed"))
    for finding in find(trailer, figures):
        assert not HIDDEN.search(finding.help)
        named = NAMED.search(finding.help)
        if named is None or finding.rule not in ("drop above advice", "too low voltage"):
            continue
        mended = replace(_weaker(trailer, named[1], named[2] or "", float(named[3])), plan=trailer)
        left = [f for f in find(mended, compute(mended)) if f.rule == finding.rule]
        load = re.split(r" (?:loses|gets) ", finding.message)[0]
        assert [f.message for f in left if f.message.startswith(load)] == [], (finding.message, finding.help)
