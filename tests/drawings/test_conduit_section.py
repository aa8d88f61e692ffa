"""Conduits cut across, read back from their SVG: bore and wires to one scale, none on another."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from itertools import combinations
from math import hypot

import pytest
from plan_build import PLAN_BUILD
from plan_reading import texts

from builder.drawings.conduit_section import Section, conduit_sections
from builder.pages.drawing_words import drawing_words
from builder.pages.verdict import judge_build
from builder.tables.wire_colours import screen_colour

SVG = "{http://www.w3.org/2000/svg}"
GXL_MM = {"18 AWG": 2.6, "16 AWG": 3.0, "14 AWG": 3.5, "12 AWG": 4.1, "10 AWG": 4.8, "8 AWG": 5.9}
"""Outside diameters of a data sheet (SAE J1128), written here once more."""


def sections(text: str) -> tuple[Section, ...]:
    verdict = judge_build(text.encode(), "trailer.yaml")
    assert verdict.judged is not None, verdict.problems
    return conduit_sections(verdict.judged.trailer, verdict.judged.figures, drawing_words("en"))


def read(svg: str) -> tuple[float, float, dict[str, tuple[float, float, float]]]:
    """Return pixels a millimetre, the bore in mm, and each wire's middle and radius in mm from the bore's middle."""
    root = ET.fromstring(svg)
    group = next(one for one in root if one.get("data-px"))
    px, x, y = (float(group.attrib[key]) for key in ("data-px", "data-x", "data-y"))
    bore = next(one for one in group if one.get("class") == "wd-bi")
    wires = {
        one.attrib["data-wire"]: (
            (float(one.attrib["cx"]) - x) / px,
            (float(one.attrib["cy"]) - y) / px,
            float(one.attrib["r"]) / px,
        )
        for one in group
        if "data-wire" in one.attrib
    }
    return px, 2 * float(bore.attrib["r"]) / px, wires


def test_each_conduit_holds_the_wires_of_its_run_to_scale() -> None:
    verdict = judge_build(PLAN_BUILD.encode(), "trailer.yaml").judged
    assert verdict is not None
    inside = verdict.figures.runs.inside
    sizes = {number: str(wire.size) for number, wire in verdict.figures.wires.items()}
    made = sections(PLAN_BUILD)
    assert [one.stretches[0].chase for one in made] == ["tongue conduit"] * 3 + ["bulkhead left"] * 2
    for section in made:
        px, bore, wires = read(section.svg)
        inches = {"tongue conduit": 1.0, "bulkhead left": 0.75}[section.stretches[0].chase]
        assert bore == pytest.approx(25.4 * inches, abs=0.2 / px)
        assert set(wires) == set(inside[section.stretches[0]])
        for number, (x, y, radius) in wires.items():
            assert hypot(x, y) + radius <= bore / 2 + 0.05 / px
            assert 2 * radius == pytest.approx(GXL_MM[sizes[number]], abs=0.02 / px)
        for (ax, ay, a), (bx, by, b) in combinations(wires.values(), 2):
            assert hypot(ax - bx, ay - by) >= a + b - 0.05 / px


def test_the_wires_take_the_share_of_the_bore_that_the_list_tells() -> None:
    judged = judge_build(PLAN_BUILD.encode(), "trailer.yaml").judged
    assert judged is not None
    told = {fill.stretch: fill.fill_percent for fill in judged.figures.fills}
    for section in sections(PLAN_BUILD):
        _, bore, wires = read(section.svg)
        drawn = 100 * sum(radius**2 for _, _, radius in wires.values()) / (bore / 2) ** 2
        assert drawn == pytest.approx(told[section.stretches[0]], rel=0.01)


def test_every_number_can_be_read_and_lies_on_no_other() -> None:
    narrow = PLAN_BUILD.replace("bore: 1 in", "bore: 2 in")
    for text in (PLAN_BUILD, narrow):
        for section in sections(text):
            _, _, wires = read(section.svg)
            found = list(texts(section.svg))
            said = [one.strip() for one, _, _ in found]
            assert set(wires) <= set(said)
            for (one, a, _), (other, b, _) in combinations(found, 2):
                apart = a[2] <= b[0] + 0.1 or b[2] <= a[0] + 0.1 or a[3] <= b[1] + 0.1 or b[3] <= a[1] + 0.1
                assert apart, (one, other)


def test_a_wire_shows_its_colour_and_its_tracer_and_is_named_besides() -> None:
    striped = PLAN_BUILD.replace("left reading: {path", "left reading: {color: orange with white, path")
    section = next(one for one in sections(striped) if one.end == "left reading lamp")
    assert f'style="fill:{screen_colour("orange").lower()}" data-wire="2A"' in section.svg
    assert f'<path style="fill:{screen_colour("white").lower()}"' in section.svg


def test_what_finds_no_room_is_told() -> None:
    tight = PLAN_BUILD.replace("kind: conduit, bore: 1 in", "kind: conduit, bore: 6 mm")
    judged = judge_build(tight.encode(), "trailer.yaml").judged
    assert judged is not None
    left = 0
    for section in sections(tight):
        _, _, wires = read(section.svg)
        root = ET.fromstring(section.svg)
        said = " ".join("".join(one.itertext()).strip() for one in root.iter(f"{SVG}text"))
        found = re.search(r"No room is left for these as they are drawn: ([^.]+)\.", said)
        missing = set(judged.figures.runs.inside[section.stretches[0]]) - set(wires)
        assert missing == (set(found[1].split(", ")) if found else set())
        left += len(missing)
    assert left


def test_a_conduit_without_a_bore_is_not_cut() -> None:
    assert sections(PLAN_BUILD.replace(", bore: 1 in", "").replace("    bore: 3/4 in\n", "")) == ()
