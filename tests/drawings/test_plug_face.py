"""The contacts of the tow plug as drawn, read back from the SVG."""

from __future__ import annotations

import xml.etree.ElementTree as ET

import pytest

from builder.drawings.plug_face import plug_face
from builder.drawings.text_width import text_width
from builder.pages.drawing_words import drawing_words
from builder.pages.verdict import Judgement, judge_build
from builder.tables.tow_plugs import plug_pattern, plug_patterns

SVG = "{http://www.w3.org/2000/svg}"
BUILD = """\
format: 1
build: {{name: Reed, country: US}}
tow plug: {{pattern: {}, to front box: 7 ft}}
front box: {{fuse ways: 4, fuses: blade, ground bar: 12, strip: 12}}
wire: {{on the shelf: [16 AWG, 14 AWG, 12 AWG, 10 AWG], feed: red, return: black}}
road lamps:
  rear lamp: {{shows: [tail, stop, turn], side: both, wire: 14 ft}}
"""


def _judged(pattern: str) -> Judgement:
    judged = judge_build(BUILD.format(pattern).encode(), "reed.yaml").judged
    assert judged is not None
    return judged


def _rows(svg: str) -> dict[str, list[str]]:
    """Return the texts that stand on the line of each ring, by the number in the ring."""
    root = ET.fromstring(svg)
    texts = [(float(t.attrib["x"]), float(t.attrib["y"]), t.text or "") for t in root.iter(f"{SVG}text")]
    rows = {}
    for ring in root.iter(f"{SVG}circle"):
        line = sorted(text for text in texts if abs(text[1] - float(ring.attrib["cy"]) - 5) < 3)
        rows[line[0][2]] = [said for _, _, said in line[1:]]
    return rows


@pytest.mark.parametrize("pattern", plug_patterns())
def test_every_contact_shows_its_wires_and_what_it_is_for(pattern: str) -> None:
    judged = _judged(pattern)
    rows = _rows(plug_face(judged.trailer, judged.figures, drawing_words("en")))
    landed: dict[str, set[str]] = {}
    for wire in judged.trailer.wires:
        for end in (wire.start, wire.end):
            if end.part == "tow plug":
                landed.setdefault(end.pin, set()).add(wire.number)
    assert landed
    for contact in plug_pattern(pattern).contacts:
        said = rows.pop(str(contact.number))
        assert landed.get(str(contact.number), set()) == {
            text for text in said if text in judged.figures.wires
        }
        assert any(contact.functions[0] in text or text == contact.label for text in said)
        assert any(text.startswith("not used") for text in said) == (str(contact.number) not in landed)
    assert rows == {}


@pytest.mark.parametrize("pattern", plug_patterns())
def test_every_text_stays_inside(pattern: str) -> None:
    judged = _judged(pattern)
    root = ET.fromstring(plug_face(judged.trailer, judged.figures, drawing_words("en")))
    width = float(root.attrib["viewBox"].split()[2])
    for text in root.iter(f"{SVG}text"):
        assert float(text.attrib["x"]) + text_width(text.text or "", 12) <= width


def test_a_trailer_without_a_plug_has_no_face_of_one() -> None:
    judged = judge_build(b"format: 1\nbuild: {name: Reed, country: US}\n", "reed.yaml").judged
    assert judged is not None
    assert plug_face(judged.trailer, judged.figures, drawing_words("en")) == ""
