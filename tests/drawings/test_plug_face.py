"""The contacts of the tow plug as drawn, read back from the SVG."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from itertools import combinations
from math import atan2, dist, pi

import pytest
from svg_reading import meet

from builder.drawings.plug_face import plug_face
from builder.drawings.text_width import text_width
from builder.pages.drawing_words import drawing_words
from builder.pages.verdict import Judgement, judge_build
from builder.tables.tow_plugs import plug_pattern, plug_patterns
from builder.trailer.plug_functions import functions_here

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
CROWDED = BUILD.replace(
    "road lamps:",
    """parts:
  first lamp: {{kind: lamp, draws: 3 W}}
  second lamp: {{kind: lamp, draws: 3 W}}
circuits:
  first: {{from: tow plug battery, path: [first lamp: 4 ft]}}
  second: {{from: tow plug battery, path: [second lamp: 4 ft]}}
road lamps:""",
)
"""Several wires on one contact, on a plug that has power from the car."""
FACED = [name for name in plug_patterns() if plug_pattern(name).face is not None]
LISTED = [name for name in plug_patterns() if name not in FACED]


def _rows(svg: str) -> dict[str, list[str]]:
    """Return the texts that stand on the line of each ring, by the number in the ring."""
    root = ET.fromstring(svg)
    texts = [(float(t.attrib["x"]), float(t.attrib["y"]), t.text or "") for t in root.iter(f"{SVG}text")]
    rows = {}
    for ring in root.iter(f"{SVG}circle"):
        line = sorted(text for text in texts if abs(text[1] - float(ring.attrib["cy"]) - 5) < 3)
        rows[line[0][2]] = [said for _, _, said in line[1:]]
    return rows


def _face(pattern: str, build: str = BUILD) -> tuple[Judgement, ET.Element]:
    judged = judge_build(build.format(pattern).encode(), "reed.yaml").judged
    assert judged is not None
    return judged, ET.fromstring(plug_face(judged.trailer, judged.figures, drawing_words("en")))


def _landed(judged: Judgement) -> dict[str, set[str]]:
    found: dict[str, set[str]] = {}
    for wire in judged.trailer.wires:
        for end in (wire.start, wire.end):
            if end.part == "tow plug":
                found.setdefault(end.pin, set()).add(wire.number)
    return found


def _box(text: ET.Element) -> tuple[float, float, float, float]:
    """Return the room of a text as it is measured without a font: left, top, right, bottom."""
    size = 11 if text.attrib["class"] == "wd-m" else 12
    width = text_width(text.text or "", size, bold=text.attrib["class"] != "wd-m")
    share = {"middle": 0.5, "end": 1.0}.get(text.get("text-anchor", ""), 0.0)
    x, y = float(text.attrib["x"]) - share * width, float(text.attrib["y"])
    return (x, y - 8.5, x + width, y + 2)


def _contacts(root: ET.Element) -> dict[str, tuple[float, float]]:
    """Return where the contacts stand, by the number that is written in the middle of each."""
    texts = [t for t in root.iter(f"{SVG}text") if (t.text or "").isdigit()]
    rings = [(float(c.attrib["cx"]), float(c.attrib["cy"])) for c in root.iter(f"{SVG}circle")]
    return {
        t.text or "": (x, y)
        for t in texts
        for x, y in rings
        if abs(float(t.attrib["x"]) - x) < 1 and abs(float(t.attrib["y"]) - y) < 6
    }


@pytest.mark.parametrize("pattern", LISTED)
def test_every_contact_shows_its_wires_and_what_it_is_for(pattern: str) -> None:
    judged, root = _face(pattern)
    rows = _rows(ET.tostring(root, encoding="unicode"))
    landed = _landed(judged)
    assert landed
    for contact in plug_pattern(pattern).contacts:
        said = rows.pop(str(contact.number))
        assert landed.get(str(contact.number), set()) == {
            text for text in said if text in judged.figures.wires
        }
        first = drawing_words("en").functions(functions_here(judged.trailer, contact)[0]).split()[0]
        assert any(first in text or contact.label in text for text in said)
        assert any(text.startswith("not used") for text in said) == (str(contact.number) not in landed)
    assert rows == {}


@pytest.mark.parametrize(("pattern", "build"), [(name, BUILD) for name in FACED] + [("7-way blade", CROWDED)])
def test_every_wire_stands_beside_its_contact(pattern: str, build: str) -> None:
    judged, root = _face(pattern, build)
    contacts = _contacts(root)
    assert sorted(contacts, key=int) == [str(c.number) for c in plug_pattern(pattern).contacts]
    beside: dict[str, set[str]] = {}
    for text in root.iter(f"{SVG}text"):
        if text.text in judged.figures.wires:
            left, top, right, bottom = _box(text)
            middle = ((left + right) / 2, (top + bottom) / 2)
            nearest = min(contacts, key=lambda number: dist(contacts[number], middle))
            beside.setdefault(nearest, set()).add(text.text or "")
    assert beside == _landed(judged)


def test_the_7_way_stands_as_its_source_tells() -> None:
    """A how-to article on wiring a camper plug, quoted: seen from the back, clockwise from the top black, green,
    blue, white, yellow, brown, purple in the middle. Purple is violet in the words of IEC 60757."""
    contacts = _contacts(_face("7-way blade")[1])
    plug = plug_pattern("7-way blade")
    (centre,) = (n for n in contacts if plug.contact(int(n)).base == "violet")
    x, y = contacts.pop(centre)
    angles = {n: atan2(at[0] - x, y - at[1]) % (2 * pi) for n, at in contacts.items()}
    clockwise = [plug.contact(int(n)).base for n in sorted(angles, key=lambda n: angles[n])]
    assert clockwise == ["black", "green", "blue", "white", "yellow", "brown"]
    assert min(angles.values()) == pytest.approx(0, abs=0.01)


def test_the_row_of_the_4_way_begins_with_its_ground() -> None:
    contacts = _contacts(_face("4-way flat")[1])
    assert len({y for _, y in contacts.values()}) == 1
    assert sorted(contacts, key=lambda number: contacts[number][0]) == ["1", "2", "3", "4"]
    assert plug_pattern("4-way flat").contact(1).is_ground


@pytest.mark.parametrize(
    ("pattern", "build"),
    [(name, BUILD) for name in plug_patterns()] + [("7-way blade", CROWDED), ("13-pin", CROWDED)],
)
def test_every_text_stays_inside_and_apart(pattern: str, build: str) -> None:
    _, root = _face(pattern, build)
    _, _, width, height = (float(x) for x in root.attrib["viewBox"].split())
    texts = [(text.text or "", _box(text)) for text in root.iter(f"{SVG}text") if text.text]
    for said, (left, top, right, bottom) in texts:
        assert left >= 0, said
        assert right <= width, said
        assert top >= 0, said
        assert bottom <= height - 4, said
    for (one, first), (other, second) in combinations(texts, 2):
        assert not meet(first, second), (one, other)


def test_a_contact_says_what_it_does_on_this_trailer_in_the_words_of_the_table_beside_it() -> None:
    """The pattern's contact 5 may feed side markers too; of this trailer's lamps only the tail lamp hangs on it."""
    judged, _ = _face("13-pin")
    for language, left in (("en", "left turn lamp"), ("en-GB", "left indicator")):
        svg = plug_face(judged.trailer, judged.figures, drawing_words(language))
        texts = " ".join(text.text or "" for text in ET.fromstring(svg).iter(f"{SVG}text")).split("  ")
        said = " ".join(texts)
        assert left in said
        assert "right tail lamp" in said
        assert "side markers" not in said
        assert ("indicator" in said) == (language == "en-GB")


def test_a_trailer_without_a_plug_has_no_face_of_one() -> None:
    judged = judge_build(b"format: 1\nbuild: {name: Reed, country: US}\n", "reed.yaml").judged
    assert judged is not None
    assert plug_face(judged.trailer, judged.figures, drawing_words("en")) == ""
