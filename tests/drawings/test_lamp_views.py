"""The views of the trailer: each lamp stands where its measures say, to one scale, and nothing is guessed."""

from __future__ import annotations

import re
from itertools import combinations
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from builder.buildfile.resolving import read_build
from builder.drawings.lamp_views import Sign, not_drawn, rear_view, side_view, signs_shown
from builder.pages.drawing_words import drawing_words
from builder.trailer.model import Trailer

EXAMPLES = Path(__file__).parents[2] / "example_build"
WORDS = drawing_words("en")
SVG = "{http://www.w3.org/2000/svg}"


def trailer(text: str) -> Trailer:
    reading = read_build(text.encode())
    assert reading.trailer is not None, [p.message for p in reading.problems]
    return reading.trailer


def build(lamps: str, size: str = "length: 4 m, width: 2 m", more: str = "") -> Trailer:
    return trailer(
        f"format: 1\nbuild: {{name: Example, country: DE}}\ntrailer: {{{size}}}\n"
        f"tow plug: {{pattern: 13-pin, to front box: 2 m}}\nroad lamps:\n{lamps}{more}"
    )


def lines(root: ET.Element, name: str) -> list[list[float]]:
    found = [one for one in root.iter(f"{SVG}path") if one.get("class") == f"wd-{name}"]
    return [[float(value) for value in re.findall(r"-?\d+\.?\d*", one.get("d") or "")] for one in found]


def measured(svg: str) -> tuple[float, float, list[tuple[float, float]]]:
    """Return the left and right end of the view in pixels, and each disc by its place from the left and the road."""
    root = ET.fromstring(svg)
    ends = sorted(found[0] for found in lines(root, "d"))
    road = lines(root, "d")[0][3]
    discs = [
        (float(one.get("cx") or 0) - ends[0], road - float(one.get("cy") or 0))
        for one in root.iter(f"{SVG}circle")
    ]
    return ends[0], ends[-1], discs


LAMPS = (
    "  rear lamp: {shows: [tail, stop, turn], side: both, height: 80 cm, in from the side: 25 cm, wire: 5 m}\n"
    "  plate lamp: {shows: plate, side: middle, height: 50 cm, wire: 5 m}\n"
)


def test_from_behind_each_lamp_stands_where_it_was_measured() -> None:
    left, right, discs = measured(rear_view(build(LAMPS), WORDS))
    scale = (right - left) / 2.0
    wanted = [(0.25, 0.8), (1.0, 0.5), (1.75, 0.8)]
    for (x, height), (x_m, height_m) in zip(sorted(discs), wanted, strict=True):
        assert x / scale == pytest.approx(x_m, abs=0.01)
        assert height / scale == pytest.approx(height_m, abs=0.01)


def test_from_the_side_lamps_stand_by_their_distance_from_the_front() -> None:
    lamps = "  marker: {shows: marker, side: both, height: 60 cm, back from the front: 1 m, wire: 2 m}\n"
    left, right, discs = measured(side_view(build(lamps), WORDS))
    scale = (right - left) / 4.0
    ((x, height),) = discs
    assert x / scale == pytest.approx(1.0, abs=0.02)
    assert height / scale == pytest.approx(0.6, abs=0.02)


def test_rigid_fenders_make_the_view_as_wide_as_they_are() -> None:
    wide = build(LAMPS, "length: 4 m, width: 1.5 m, width over fenders: 2 m")
    assert measured(rear_view(wide, WORDS)) == measured(rear_view(build(LAMPS), WORDS))


def test_what_was_not_measured_is_not_drawn() -> None:
    assert rear_view(build("  plate lamp: {shows: plate, side: left, wire: 5 m}\n"), WORDS) == ""
    assert rear_view(build(LAMPS, "length: 4 m"), WORDS) == ""
    assert side_view(build(LAMPS, "width: 2 m"), WORDS) == ""
    some = LAMPS + "  fog lamp: {shows: fog, side: left, height: 40 cm, wire: 5 m}\n"
    assert "fog lamp" not in rear_view(build(some), WORDS)


def test_the_list_says_each_height_and_numbers_do_not_touch() -> None:
    many = LAMPS + "".join(
        f"  lamp {n}: {{shows: tail, side: left, height: 90 cm, in from the side: {20 + n} cm, wire: 5 m}}\n"
        for n in range(6)
    )
    svg = rear_view(build(many), WORDS)
    root = ET.fromstring(svg)
    texts = ["".join(one.itertext()) for one in root.iter(f"{SVG}text")]
    assert texts.count("900 mm above the road") == 6
    assert {str(n) for n in range(1, 10)} <= set(texts)
    plates = [float(one.get("x") or 0) for one in root.iter(f"{SVG}rect") if one.get("height") == "22"]
    assert all(abs(a - b) >= 22 for a, b in combinations(plates, 2))


def squares(svg: str) -> list[tuple[float, float, bool]]:
    """Return each reflector's square: its middle from the left end and above the road, and if it has a colour."""
    root = ET.fromstring(svg)
    end, road = min(found[0] for found in lines(root, "d")), lines(root, "d")[0][3]
    found = []
    for one in root.iter(f"{SVG}rect"):
        x, y, wide, high = (float(one.get(key) or 0) for key in ("x", "y", "width", "height"))
        if one.get("class") == "wd-f" and wide == high:
            found.append((x + wide / 2 - end, road - y - high / 2, bool(one.get("style"))))
    return found


def triangles(svg: str) -> int:
    return len([one for one in lines(ET.fromstring(svg), "f") if len(one) == 6])


def test_a_lamp_of_two_colours_shows_both() -> None:
    two = (
        "  rear lamp: {shows: [tail, turn], side: left, shines: {tail: red, turn: amber}, height: 80 cm, "
        "in from the side: 25 cm, wire: 5 m}\n"
    )
    root = ET.fromstring(rear_view(build(two), WORDS))
    styles = {one.get("style") for one in root.iter() if (one.get("style") or "").startswith("fill:")}
    assert len(styles) == 2


@pytest.mark.parametrize(("form", "wanted"), [("", (1, 0)), (", triangle: yes", (0, 1))])
def test_a_reflector_is_a_square_and_a_triangle_where_it_is_one(form: str, wanted: tuple[int, int]) -> None:
    more = f"reflectors:\n  one: {{at: rear, side: right, height: 60 cm, in from the side: 20 cm{form}}}\n"
    svg = rear_view(build(LAMPS, more=more), WORDS)
    assert (len(squares(svg)), triangles(svg)) == wanted


def test_a_reflector_built_into_a_lamp_stands_around_it() -> None:
    with_one = LAMPS.replace("height: 80 cm", "height: 80 cm, reflector: yes")
    plain, framed = (rear_view(build(one), WORDS) for one in (LAMPS, with_one))
    assert not squares(plain)
    discs = measured(framed)[2]
    assert [(x, y) for x, y, _ in squares(framed)] == [
        at for at in discs if at[1] == max(y for _, y in discs)
    ]
    assert framed.count(WORDS.with_reflector) == 2


def test_what_reflects_to_the_side_is_seen_from_the_side_alone() -> None:
    lamps = LAMPS + (
        "  marker: {shows: marker, side: both, at: rear, reflector: yes, height: 60 cm, "
        "in from the side: 1 cm, back from the front: 3 m, wire: 2 m}\n"
    )
    more = (
        "reflectors:\n  amber one: {at: middle side, side: both, color: amber, height: 50 cm, "
        "back from the front: 2 m}\n"
    )
    one = build(lamps, more=more)
    assert not squares(rear_view(one, WORDS))
    side = side_view(one, WORDS)
    scale = (measured(side)[1] - measured(side)[0]) / 4.0
    found = sorted((round(x / scale, 1), round(y / scale, 1), colour) for x, y, colour in squares(side))
    assert found == [(2.0, 0.5, True), (3.0, 0.6, False)]
    assert signs_shown(one) == {Sign.LAMP, Sign.WITH_REFLECTOR, Sign.REFLECTOR}


def test_a_reflector_without_its_measures_is_named_as_not_drawn() -> None:
    more = (
        "reflectors:\n  amber one: {at: middle side, side: left, height: 50 cm}\n"
        "  red one: {at: rear, side: left, height: 50 cm, in from the side: 10 cm}\n"
    )
    assert not_drawn(build(LAMPS, more=more)) == ("amber one",)


@pytest.mark.parametrize("name", ["trailer.yaml", "road_lamps/trailer.yaml", "thirteen_pins/trailer.yaml"])
def test_the_examples_are_seen_from_behind(name: str) -> None:
    one = trailer((EXAMPLES / name).read_text(encoding="utf-8"))
    assert "rear lamp left" in rear_view(one, WORDS)
