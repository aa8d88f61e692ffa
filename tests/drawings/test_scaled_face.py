"""The front box to scale, read back from its SVG and held against the measures in the build file."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from functools import cache
from itertools import combinations

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from svg_reading import Rect, meet

from builder.drawings.scaled_face import WIDE, ScaledFace, scaled_face
from builder.drawings.sheet import WIDTH
from builder.drawings.text_width import text_width
from builder.electrics.figures import Figures
from builder.pages.drawing_words import drawing_words
from builder.pages.verdict import judge_build
from builder.tables.wire_colours import screen_colour
from builder.trailer.box_face import BoxFace, Piece
from builder.trailer.model import Trailer

SVG = "{http://www.w3.org/2000/svg}"
INCH_M = 0.0254
FORMS = (WIDTH, WIDE)
BUILD = """\
format: 1
build: {{name: Reed, country: {country}}}
battery: {{chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}}
front box: {{fuse ways: 6, fuses: blade, ground bar: 8, strip: 6}}
tow plug: {{pattern: 4-way flat, to front box: 7 ft}}
wire: {{on the shelf: [16 AWG, 14 AWG, 12 AWG, 10 AWG]}}
parts:
  fan: {{kind: fan, draws: 3 A}}
  lamp: {{kind: lamp, draws: 3 W}}
circuits:
  fan: {{path: [fan: 12 ft], fuse: 5 A}}
  lamp: {{path: [lamp: 9 ft], fuse: 3 A, way: 4}}
road lamps:
  rear lamp: {{shows: [tail, stop, turn], side: both, wire: 14 ft}}
"""
FACE = """\
front box face:
  inside: {width: 12 in, height: 9 in}
  fuse block: {width: 4 in, height: 5 in, from left: 1 in, from top: 2 in, rows: 2}
  strip: {width: 1 in, height: 5 in, from left: 7 in, from top: 1 in}
  ground bar: {width: 8 in, height: 1/2 in, from left: 1 in, from top: 8 in}
"""


def drawn(face: str, width: float = WIDTH, country: str = "US") -> tuple[ScaledFace, ET.Element]:
    judged = judge_build((BUILD.format(country=country) + face).encode(), "reed.yaml").judged
    assert judged is not None
    made = scaled_face(judged.trailer, judged.figures, drawing_words("en"), width)
    assert made is not None
    return made, ET.fromstring(made.svg)


def rects(root: ET.Element, *classes: str) -> list[Rect]:
    """The rectangles of some classes, the box itself first; the plates of wires, 20 high, are left out."""
    found = []
    for rect in root.iter(f"{SVG}rect"):
        if rect.get("class") in classes and rect.get("height") != "20":
            x, y, w, h = (float(rect.attrib[key]) for key in ("x", "y", "width", "height"))
            found.append((x, y, x + w, y + h))
    return found


def texts(root: ET.Element) -> list[tuple[str, Rect]]:
    found = []
    for text in root.iter(f"{SVG}text"):
        bold = text.attrib["class"] != "wd-m"
        width = text_width(text.text or "", 12 if text.attrib["class"] == "wd-n" else 11, bold=bold)
        x, y = float(text.attrib["x"]), float(text.attrib["y"])
        x -= width * {"middle": 0.5, "end": 1.0}.get(text.get("text-anchor", ""), 0.0)
        found.append((text.text or "", (x, y - 8.5, x + width, y + 2)))
    return found


@pytest.mark.parametrize("width", FORMS)
def test_each_piece_lies_where_the_tape_says_as_large_as_it_says(width: float) -> None:
    _, root = drawn(FACE, width)
    box, block, strip, bar = rects(root, "wd-p")
    inch = (box[2] - box[0]) / 12
    assert box[3] - box[1] == pytest.approx(9 * inch, abs=0.2)
    measured = {block: (1, 2, 4, 5), strip: (7, 1, 1, 5), bar: (1, 8, 8, 0.5)}
    for piece, (left, top, wide, high) in measured.items():
        wanted = [box[0] + left * inch, box[1] + top * inch, wide * inch, high * inch]
        assert [piece[0], piece[1], piece[2] - piece[0], piece[3] - piece[1]] == pytest.approx(
            wanted, abs=0.2
        )


@pytest.mark.parametrize("country", ["US", "DE"])
@pytest.mark.parametrize("width", FORMS)
def test_the_line_to_measure_by_is_as_long_as_it_says(width: float, country: str) -> None:
    _, root = drawn(FACE, width, country)
    box = rects(root, "wd-p")[0]
    (said,) = (text for text, _ in texts(root) if text.startswith("This line is"))
    length, unit = re.findall(r"This line is ([\d/]+) (in|mm)\.", said)[0]
    metres = float(length) * (INCH_M if unit == "in" else 0.001)
    lines = [p.attrib["d"] for p in root.iter(f"{SVG}path") if p.get("class") == "wd-s"]
    ends = [[float(number) for number in re.findall(r"-?[\d.]+", line)] for line in lines]
    longest = max(abs(x2 - x1) for x1, _, x2, _ in ends)
    assert longest / (box[2] - box[0]) == pytest.approx(metres / (12 * INCH_M), rel=0.01)
    inside = {"US": "12 in by 9 in", "DE": "305 mm by 229 mm"}[country]
    assert inside in said


def ways_in_order(root: ET.Element) -> dict[str, tuple[float, float]]:
    """Where each way's number stands inside the fuse block."""
    block = rects(root, "wd-p", "wd-o")[1]
    return {
        said: (rect[0], rect[1])
        for said, rect in texts(root)
        if said.isdigit() and block[0] <= rect[0] and rect[2] <= block[2] and block[1] <= rect[1] <= block[3]
    }


@pytest.mark.parametrize(
    ("more", "wanted"),
    [
        ("rows: 2", ["1 4", "2 5", "3 6"]),
        ("rows: 2, numbered: across", ["1 2", "3 4", "5 6"]),
        ("rows: 1", ["1", "2", "3", "4", "5", "6"]),
        ("rows: 3", ["1 3 5", "2 4 6"]),
    ],
)
def test_ways_run_as_the_build_file_says(more: str, wanted: list[str]) -> None:
    _, root = drawn(FACE.replace("rows: 2", more), WIDE)
    rows: dict[int, list[tuple[float, str]]] = {}
    for said, (x, y) in ways_in_order(root).items():
        rows.setdefault(round(y), []).append((x, said))
    assert [" ".join(said for _, said in sorted(rows[y])) for y in sorted(rows)] == wanted


@pytest.mark.parametrize("width", FORMS)
def test_a_fuse_has_its_colour_and_rating_beside_its_number(width: float) -> None:
    """Colours of ISO 8820-3: 5 A tan, 3 A violet; the other ways are empty and dashed."""
    _, root = drawn(FACE, width)
    block = rects(root, "wd-p")[1]
    ratings = {said: rect for said, rect in texts(root) if said.endswith(" A")}
    assert set(ratings) == {"5 A", "3 A"}
    ways = ways_in_order(root)
    fills = {"5 A": ("1", screen_colour("tan")), "3 A": ("4", screen_colour("violet"))}
    for rating, (way, fill) in fills.items():
        (body,) = (r for r in root.iter(f"{SVG}rect") if r.get("fill") == fill)
        x, y = float(body.attrib["x"]), float(body.attrib["y"])
        assert x <= ratings[rating][0] + 1
        assert ratings[rating][2] <= x + float(body.attrib["width"]) + 1
        assert abs(y - ways[way][1]) < 12
        assert 0 < x - ways[way][0] < 30
    empty = [r for r in root.iter(f"{SVG}rect") if r.get("class") == "wd-o"]
    assert len(empty) == 4
    assert all(block[0] < float(r.attrib["x"]) < block[2] for r in empty)


def test_the_wide_form_names_every_circuit_and_its_wires() -> None:
    _, root = drawn(FACE, WIDE)
    said = [text for text, _ in texts(root)]
    assert {"fan", "lamp", "1A", "2A"} <= set(said)


@pytest.mark.parametrize("width", FORMS)
def test_a_dot_is_filled_where_a_wire_lands(width: float) -> None:
    _, root = drawn(FACE, width)
    _, _, strip, bar = rects(root, "wd-p")
    judged = judge_build((BUILD.format(country="US") + FACE).encode(), "reed.yaml").judged
    assert judged is not None
    landed = [at.place for at in judged.figures.landings if at.part == "front box"]
    for piece, place, count in ((strip, "strip ", 6), (bar, "screw ", 8)):
        dots = [c for c in root.iter(f"{SVG}circle") if inside(c, piece)]
        assert len(dots) == count
        filled = [c.get("class") == "wd-k" for c in dots]
        used = sum(name.startswith(place) for name in landed)
        assert filled == [True] * used + [False] * (count - used)


def inside(circle: ET.Element, rect: Rect) -> bool:
    x, y = float(circle.attrib["cx"]), float(circle.attrib["cy"])
    return rect[0] < x < rect[2] and rect[1] < y < rect[3]


def test_a_piece_without_a_place_is_dashed_and_told_and_one_without_a_size_is_left_out() -> None:
    made, root = drawn(
        FACE.replace(", from left: 7 in, from top: 1 in", "").replace("ground bar", "supply bar")
    )
    assert made.loose == ("strip",)
    assert made.unmeasured == ("ground bar",)
    box = rects(root, "wd-p")[0]
    (dashed,) = (
        r for r in rects(root, "wd-o") if r[3] - r[1] == pytest.approx((box[2] - box[0]) / 12 * 5, abs=0.2)
    )
    assert dashed[2] - dashed[0] == pytest.approx((box[2] - box[0]) / 12, abs=0.2)
    assert not any(meet(dashed, piece) for piece in rects(root, "wd-p")[1:])
    assert "ground bar" not in {said for said, _ in texts(root)}


def test_without_measures_of_a_piece_there_is_no_picture() -> None:
    for face in ("", "front box face:\n  inside: {width: 12 in, height: 9 in}\n"):
        judged = judge_build((BUILD.format(country="US") + face).encode(), "reed.yaml").judged
        assert judged is not None
        assert scaled_face(judged.trailer, judged.figures, drawing_words("en")) is None


@cache
def built() -> tuple[Trailer, Figures]:
    judged = judge_build((BUILD.format(country="US")).encode(), "reed.yaml").judged
    assert judged is not None
    return judged.trailer, judged.figures


@st.composite
def faces(draw: st.DrawFn) -> BoxFace:
    """Measures that do not contradict each other: pieces in bands from above, some without a place."""
    width, height = draw(st.floats(0.05, 1.5)), draw(st.floats(0.05, 1.5))
    pieces = {}
    top = 0.0
    for name in draw(st.permutations(["supply bar", "fuse block", "strip", "ground bar"])):
        gap, high = draw(st.floats(0, height / 8)), draw(st.floats(0.003, height / 8))
        wide = draw(st.floats(0.003, width))
        left = draw(st.floats(0, width - wide))
        placed = draw(st.booleans())
        rows, across = draw(st.integers(1, 6)), draw(st.booleans())
        where = (left, top + gap) if placed else (None, None)
        pieces[name] = Piece(wide, high, *where, rows=rows, across=across)
        top += gap + high
    return BoxFace(width, height, pieces)


LOOSE_BELOW = BoxFace(
    0.125,
    0.5,
    {
        "supply bar": Piece(0.125, 0.0625, None, None, rows=1, across=False),
        "strip": Piece(0.125, 0.0625, None, None, rows=2, across=False),
        "fuse block": Piece(0.0625, 0.0625, None, None, rows=1, across=False),
        "ground bar": Piece(0.0625, 0.0625, None, None, rows=1, across=False),
    },
)
"""Pieces as wide as the box and without a place: they lie below it, and their numbers keep off the scale."""


@settings(max_examples=40)
@example(LOOSE_BELOW, 340.0)
@given(faces(), st.sampled_from(FORMS))
def test_no_text_leaves_the_picture_or_runs_into_another(face: BoxFace, width: float) -> None:
    trailer, figures = built()
    fields = {name: getattr(trailer, name) for name in Trailer.__dataclass_fields__} | {"box_face": face}
    made = scaled_face(Trailer(**fields), figures, drawing_words("en"), width)
    assert made is not None
    root = ET.fromstring(made.svg)
    _, _, wide, high = (float(x) for x in root.attrib["viewBox"].split())
    assert wide == width
    for said, rect in texts(root):
        assert rect[0] >= 0, said
        assert rect[1] >= 0, said
        assert rect[2] <= wide, said
        assert rect[3] <= high, said
    for (one, first), (other, second) in combinations(texts(root), 2):
        assert not meet(first, second), (one, other)


HOLES = """\
entry holes:
  left one: {bore: 1 in, in: left wall, from top: 2 in, takes: fan}
  right one: {bore: 1 1/2 in, in: right wall, from top: 6 in, takes: battery}
  upper one: {bore: 1/2 in, in: upper wall, from left: 10 in, takes: lamp}
  lower one: {bore: 3/4 in, in: lower wall, from left: 5 in, takes: tow plug}
  back one: {bore: 2 in, in: back wall, from left: 10 in, from top: 4 in, takes: frame}
  unmeasured: {bore: 1 in, in: back wall}
"""


@pytest.mark.parametrize("width", FORMS)
def test_each_hole_is_in_its_wall_as_wide_as_it_is_bored(width: float) -> None:
    _, root = drawn(FACE + HOLES, width)
    box = rects(root, "wd-p")[0]
    inch = (box[2] - box[0]) / 12
    marks = {one.attrib["data-hole"]: one for one in root.iter() if "data-hole" in one.attrib}
    assert set(marks) == {"left one", "right one", "upper one", "lower one", "back one"}

    def of(name: str, *keys: str) -> list[float]:
        return [float(marks[name].attrib[key]) for key in keys]

    y, high, x, wide = of("left one", "y", "height", "x", "width")
    assert [y - box[1], high, x + wide / 2] == pytest.approx([1.5 * inch, inch, box[0]], abs=0.2)
    y, high, x, wide = of("right one", "y", "height", "x", "width")
    assert [y - box[1], high, x + wide / 2] == pytest.approx([5.25 * inch, 1.5 * inch, box[2]], abs=0.2)
    x, wide, y, high = of("upper one", "x", "width", "y", "height")
    assert [x - box[0], wide, y + high / 2] == pytest.approx([9.75 * inch, 0.5 * inch, box[1]], abs=0.2)
    x, wide, y, high = of("lower one", "x", "width", "y", "height")
    assert [x - box[0], wide, y + high / 2] == pytest.approx([4.625 * inch, 0.75 * inch, box[3]], abs=0.2)
    assert of("back one", "cx", "cy", "r") == pytest.approx(
        [box[0] + 10 * inch, box[1] + 4 * inch, inch], abs=0.2
    )


@pytest.mark.parametrize("width", FORMS)
def test_the_name_of_each_hole_is_in_the_box_or_told_below_it(width: float) -> None:
    _, root = drawn(FACE + HOLES, width)
    said = [text for text, _ in texts(root)]
    below = " ".join(said[said.index(next(t for t in said if t.startswith("This line is"))) :])
    for name in ("left one", "right one", "upper one", "lower one", "back one"):
        assert name in said or name in below
    spots = [rect for _, rect in texts(root)]
    assert [pair for pair in combinations(spots, 2) if meet(*pair)] == []
