"""Plans and elevations, read back by their coordinates and held against what the build file measured."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator
from functools import cache
from itertools import combinations, pairwise
from math import hypot
from pathlib import Path

import pytest
from example_numbers import numbers_of
from plan_build import PLAN_BUILD
from plan_reading import Point, Sheet, read_sheet, texts
from plan_reading import Rect as Room

from builder.drawings.plan_labels import clipped
from builder.drawings.plan_seen import letter_marks
from builder.drawings.plans import Plan, Plans, plans
from builder.drawings.rect import Rect
from builder.pages.drawing_words import drawing_words
from builder.pages.verdict import Judgement, judge_build
from builder.trailer.outline import pieces_of, points_of

EXAMPLE = (Path(__file__).parents[2] / "example_build" / "trailer.yaml").read_text(encoding="utf-8")
INCH_M = 0.0254
PLACE = re.compile(r"^  ([\w -]+): \{(?=(?:back|ahead): )(.*)\}$", re.MULTILINE)
FORMS = ("narrow", "wide")


def _metres(text: str) -> float:
    """Read feet and inches, ``3 ft 6 in``, as the builds of these tests write them."""
    feet, inches = re.search(r"(\d+) ft", text), re.search(r"(\d+) in", text)
    return (12 * int(feet[1] if feet else 0) + int(inches[1] if inches else 0)) * INCH_M


def measured(text: str) -> dict[str, tuple[float, float, float]]:
    """Return back, right and up of every place from the text of a build file, without its reader."""
    found = {}
    for name, words in PLACE.findall(text.partition("\nplaces:\n")[2].partition("\nchases:\n")[0]):
        at = {key: _metres(value) for key, value in re.findall(r"(\w+): ([\w ]+)", words)}
        found[name] = (
            at.get("back", 0.0) - at.get("ahead", 0.0),
            at.get("right", 0.0) - at.get("left", 0.0),
            at.get("up", 0.0) - at.get("down", 0.0),
        )
    return found


def marked(text: str) -> dict[str, tuple[float, float, float]]:
    """Return the places that have a mark: not the example's corners of panels and linings, nor ends of its hinge."""
    bare = re.compile(
        r"(?:right |left )?(?:panel|bed|lining) (?:low|high) (?:front|rear)|hinge (?:left|right)"
    )
    return {name: at for name, at in measured(text).items() if not bare.fullmatch(name)}


def in_view(view: str, at: tuple[float, float, float]) -> tuple[float, float]:
    back, right, up = at
    return {
        "above": (right, back),
        "along": (back, -right),
        "left": (back, -up),
        "right": (-back, -up),
        "rear": (right, -up),
        "front": (-right, -up),
    }[view]


@cache
def judged(text: str) -> Judgement:
    verdict = judge_build(text.encode(), "trailer.yaml", numbers_of(text.encode()))
    assert verdict.judged is not None, verdict.problems
    return verdict.judged


@cache
def drawn(text: str) -> Plans:
    made = plans(judged(text).trailer, judged(text).figures, drawing_words("en"))
    assert made is not None
    return made


def sheets(text: str, form: str) -> Iterator[tuple[Plan, Sheet]]:
    for plan in drawn(text).views:
        for svg in getattr(plan, form):
            sheet = read_sheet(svg)
            if sheet is not None:
                yield plan, sheet


def every_svg(made: Plans) -> list[str]:
    return [svg for plan in (*made.views, made.signs) for svg in (*plan.narrow, *plan.wide)]


def rounding(sheet: Sheet) -> float:
    """A coordinate has one decimal: a twentieth of a pixel either way."""
    return 0.06 / sheet.px


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("text", [PLAN_BUILD, EXAMPLE], ids=["plan build", "example"])
def test_every_place_stands_where_the_tape_measure_says(text: str, form: str) -> None:
    places = marked(text)
    assert len(places) > 20
    seen: set[str] = set()
    for plan, sheet in sheets(text, form):
        for name, at in sheet.places.items():
            assert at == pytest.approx(in_view(sheet.view, places[name]), abs=rounding(sheet)), name
        seen |= set(sheet.places) if plan.name == "above" else set()
    assert seen == set(places)


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("text", [PLAN_BUILD, EXAMPLE], ids=["plan build", "example"])
def test_a_side_shows_its_places_in_one_of_its_parts_and_none_of_the_other_side(text: str, form: str) -> None:
    places = marked(text)
    for view, sign in (("left", 1), ("right", -1)):
        parts = [sheet for plan, sheet in sheets(text, form) if plan.name == view]
        shown = [name for sheet in parts for name in sheet.places]
        wanted = [name for name, at in places.items() if at[0] < 0 or at[1] * sign <= 0.02]
        assert sorted(shown) == sorted(wanted)


@pytest.mark.parametrize("form", FORMS)
def test_panels_lie_where_their_corners_were_measured_with_the_screws_of_their_pages(form: str) -> None:
    """Each in the elevation of its own side; three quarters of an inch is what the page of the bed's panel prints."""
    corners = [
        f"{edge} {end}"
        for edge, ends in (("low", ("front", "rear")), ("high", ("rear", "front")))
        for end in ends
    ]
    wanted = {
        "left": {"left kitchen panel": "panel", "bed panel": "bed"},
        "right": {"right kitchen panel": "right panel"},
    }
    places = measured(EXAMPLE)
    screws = {"bed panel": "screws: 3/4 in at most"}
    for plan, sheet in sheets(EXAMPLE, form):
        assert form == "narrow" or set(sheet.panels) == set(wanted.get(plan.name, ())), plan.name
        for name, ring in sheet.panels.items():
            at = [in_view(sheet.view, places[f"{wanted[plan.name][name]} {corner}"]) for corner in corners]
            assert ring == [pytest.approx(point, abs=rounding(sheet)) for point in at]
            if form == "wide":
                assert name in sheet.plates
                assert sheet.plates[sheet.plates.index(name) + 1] == screws.get(name, "no screw length here")


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("text", [PLAN_BUILD, EXAMPLE], ids=["plan build", "example"])
def test_every_stretch_of_every_chase_runs_between_its_two_places(text: str, form: str) -> None:
    """Cut off where a part of a side ends, a way lies on the line between its two places all the same."""
    places = measured(text)
    chases = judged(text).trailer.geometry.chases
    above: set[tuple[str, int]] = set()
    for plan, sheet in sheets(text, form):
        whole = [s for p, s in sheets(text, form) if p.name == plan.name]
        for (name, number), drawn_ends in sheet.ways.items():
            names = chases[name].through[number : number + 2]
            ends = [in_view(sheet.view, places[end]) for end in names]
            if len(whole) == 1:
                assert drawn_ends[0] == pytest.approx(ends[0], abs=rounding(sheet))
                assert drawn_ends[1] == pytest.approx(ends[1], abs=rounding(sheet))
            for x, y in drawn_ends:
                (ax, ay), (bx, by) = ends
                long = ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5
                off = abs((bx - ax) * (ay - y) - (ax - x) * (by - ay)) / long
                assert off < 2 * rounding(sheet)
        for (name, number), at in sheet.rings.items():
            start = places[chases[name].through[number]]
            assert at == pytest.approx(in_view(sheet.view, start), abs=rounding(sheet))
        above |= {*sheet.ways, *sheet.rings} if plan.name == "above" else set()
    assert above == {(name, n) for name, chase in chases.items() for n in range(len(chase.through) - 1)}


@pytest.mark.parametrize("form", FORMS)
def test_the_outline_is_the_profile_with_its_radii_and_the_width(form: str) -> None:
    """The points and radii of the build file, written here once more, in inches."""
    profile = [(0, 0), (110, 0), (109, 14), (80, 46), (36, 48), (0, 20)]
    seen = set()
    for plan, sheet in sheets(PLAN_BUILD, form):
        near = rounding(sheet)
        if plan.name in ("left", "right"):
            mirror = 1 if plan.name == "left" else -1
            wanted = [(mirror * back * INCH_M, -up * INCH_M) for back, up in [*profile, profile[0]]]
            assert sheet.radii == pytest.approx([48 * INCH_M, 240 * INCH_M, 42 * INCH_M], abs=near)
            for at, point in zip(sheet.outline, wanted, strict=True):
                assert at == pytest.approx(point, abs=near)
        elif plan.name == "above":
            width = 60 * INCH_M
            reach = [
                max(at[axis] for at in sheet.outline) - min(at[axis] for at in sheet.outline)
                for axis in (0, 1)
            ]
            long = 110 * INCH_M
            assert sorted(reach) == pytest.approx([width, long], abs=2 * near)
        seen.add(plan.name)
    assert seen == {"above", "left", "right", "rear", "front"}


def test_doors_and_frames_are_as_large_as_they_are() -> None:
    left = next(sheet for plan, sheet in sheets(PLAN_BUILD, "wide") if plan.name == "left")
    door = left.openings["left door"]
    assert "right door" not in left.openings
    assert min(x for x, _ in door) == pytest.approx(30 * INCH_M, abs=rounding(left))
    assert max(x for x, _ in door) == pytest.approx(56 * INCH_M, abs=rounding(left))
    assert [min(y for _, y in door), max(y for _, y in door)] == pytest.approx(
        [-40 * INCH_M, -4 * INCH_M], abs=rounding(left)
    )
    ribs = left.frames["ribs"]
    assert len(ribs) == 4
    middles = [(one[0] + other[0]) / 2 for one, other in ribs]
    assert middles == pytest.approx([1 * INCH_M, 28 * INCH_M, 58 * INCH_M, 74 * INCH_M], abs=rounding(left))
    fan = left.openings["roof fan"]
    assert [fan[0][0], fan[-1][0]] == pytest.approx([53 * INCH_M, 67 * INCH_M], abs=rounding(left))
    assert all(44 * INCH_M < -y < 50 * INCH_M for _, y in fan)


def test_every_bundle_tells_its_wires_and_every_number_is_explained() -> None:
    runs = judged(PLAN_BUILD).figures.runs
    made = drawn(PLAN_BUILD)
    held = {(b.chase, n.number): b.wires for b in made.bundles for n in b.stretches}
    assert held == {
        (chase.name, n): next(
            (w for s, w in runs.inside.items() if (s.chase, s.number) == (chase.name, n)), ()
        )
        for chase in judged(PLAN_BUILD).trailer.geometry.chases.values()
        for n in range(len(chase.through) - 1)
    }
    assert [bundle.spares for bundle in made.bundles if bundle.chase == "left wall groove"] == [("S1",)] * 3
    places = list(measured(PLAN_BUILD))
    for svg in (svg for plan in made.views for svg in plan.wide):
        said = [one for one, _, _ in texts(svg)]
        sheet = read_sheet(svg)
        assert sheet is not None
        numbers = {n for plate in sheet.plates for n in re.findall(r"^[\d, ]+$", plate)}
        for number in {n for row in numbers for n in row.split(", ")}:
            assert places[int(number) - 1] in " ".join(said), number
        letters = {bundle.mark: bundle for bundle in made.bundles}
        for plate in sheet.plates:
            mark, _, wires = plate.partition(": ")
            if mark in letters and wires.endswith(" wires"):
                assert int(wires.split()[0]) == len(letters[mark].wires)
            elif mark in letters and wires:
                assert tuple(wires.split()) == letters[mark].wires


def test_the_scale_bar_is_as_long_as_it_says() -> None:
    for svg in every_svg(drawn(PLAN_BUILD)):
        bars = re.findall(r'd="M([\d.]+) [\d.]+L([\d.]+) [\d.]+" data-metres="([\d.]+)"', svg)
        said = re.findall(r"This line is (\d+) ft", svg)
        sheet = read_sheet(svg)
        assert len(bars) == len(said) == (sheet is not None)
        for start, end, metres in bars:
            assert sheet is not None
            assert float(metres) == pytest.approx(int(said[0]) * 0.3048, abs=1e-4)
            assert (float(end) - float(start)) / sheet.px == pytest.approx(
                float(metres), abs=2 * rounding(sheet)
            )


def crowded() -> str:
    """A build with 65 wires and 44 places, most of them near each other, all of them through one channel."""
    lamps = range(31)
    parts = "".join(f"  lamp {n}: {{kind: lamp, draws: 1 W}}\n" for n in lamps)
    circuits = "".join(f"  light {n}: {{path: [lamp {n}]}}\n" for n in lamps)
    places = "".join(
        f"  lamp {n}: {{back: {40 + 2 * n} in, left: {20 + n % 5} in, up: {20 + n % 3} in}}\n" for n in lamps
    )
    corners = "".join(f"  corner {n}: {{back: {20 + n} in, right: {n} in, up: 10 in}}\n" for n in range(12))
    trunk = ", ".join(["front box", *(f"lamp {n}" for n in lamps)])
    return (
        "format: 1\nbuild: {name: Crowd, country: US}\n"
        "battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}\n"
        "front box: {fuse ways: 31}\nwire: {on the shelf: [16 AWG, 14 AWG, 12 AWG, 10 AWG, 8 AWG]}\n"
        f"parts:\n{parts}circuits:\n{circuits}places:\n  front box: {{back: 10 in, up: 20 in}}\n{places}{corners}"
        f"chases:\n  trunk: {{through: [{trunk}], kind: channel}}\n"
        "body: {width: 5 ft, profile: [{back: 0 in, up: 0 in}, {back: 9 ft, up: 0 in}, {back: 9 ft, up: 4 ft}, "
        "{back: 0 in, up: 4 ft}]}\n"
    )


HOSTILE = PLAN_BUILD
for _old, _new in (
    ("left galley", "</text><script>alert(1)</script> & a very long name of a place that goes on and on"),
    ("hatch hinge", "<b>bold</b> 🚐 שלום"),
    ("roof groove", "{{ x }} %s &amp; \\\\d"),
    ("right bulkhead", "x" * 80),
):
    HOSTILE = HOSTILE.replace(_old, f'"{_new}"')


@pytest.mark.parametrize(
    "text", [PLAN_BUILD, EXAMPLE, crowded(), HOSTILE], ids=["plan build", "example", "crowded", "hostile"]
)
def test_no_text_lies_on_another_and_none_outside_and_none_is_small(text: str) -> None:
    for svg in every_svg(drawn(text)):
        _, _, width, height = (float(x) for x in ET.fromstring(svg).attrib["viewBox"].split())
        found = list(texts(svg))
        for said, (left, top, right, bottom), size in found:
            assert left >= 0, said
            assert right <= width, said
            assert top >= 0, said
            assert bottom <= height, said
            assert size >= 11, said
        for (one, a, _), (other, b, _) in combinations(found, 2):
            apart = a[2] <= b[0] + 0.1 or b[2] <= a[0] + 0.1 or a[3] <= b[1] + 0.1 or b[3] <= a[1] + 0.1
            assert apart, (one, other)


def seen_px(leader: tuple[Point, Point], rooms: list[Room]) -> tuple[float, float]:
    """Return how long the line to a plate is up to that plate, and how much of it can be seen, in steps of a pixel."""
    (ax, ay), (bx, by) = leader

    def hides(room: Room, x: float, y: float) -> bool:
        return room[0] <= x <= room[2] and room[1] <= y <= room[3]

    own = next(room for room in rooms if hides(room, bx, by))
    steps = max(int(hypot(bx - ax, by - ay)), 1)
    points = [(ax + (bx - ax) * n / steps, ay + (by - ay) * n / steps) for n in range(steps)]
    outside = [(x, y) for x, y in points if not hides(own, x, y)]
    return len(outside), sum(not any(hides(room, x, y) for room in rooms) for x, y in outside)


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("text", [PLAN_BUILD, EXAMPLE], ids=["plan build", "example"])
def test_the_line_from_a_plate_to_what_it_stands_for_can_be_seen(text: str, form: str) -> None:
    """Lines shorter than a plate is high need not be followed."""
    count = 0
    for plan, sheet in sheets(text, form):
        for leader in sheet.leaders:
            long, shown = seen_px(leader, sheet.plate_rooms)
            count += 1
            assert long <= 17 or shown >= 0.4 * long, (plan.name, leader)
    assert count > 20


def from_line(point: Point, a: Point, b: Point) -> float:
    along = b[0] - a[0], b[1] - a[1]
    square = along[0] ** 2 + along[1] ** 2
    share = ((point[0] - a[0]) * along[0] + (point[1] - a[1]) * along[1]) / square if square else 0.0
    share = min(max(share, 0.0), 1.0)
    return hypot(point[0] - a[0] - share * along[0], point[1] - a[1] - share * along[1])


@pytest.mark.parametrize("form", FORMS)
def test_no_name_is_written_across_the_round_roof(form: str) -> None:
    """The roof of the example is three arcs; a name of a place stands clear of them and of all straight outlines."""
    names = 0
    for plan, sheet in sheets(EXAMPLE, form):
        if plan.name not in ("left", "right"):
            continue
        body = judged(EXAMPLE).trailer.geometry.body
        assert body is not None
        ring = [in_view(plan.name, (back, 0.0, up)) for back, up in points_of(pieces_of(body.profile))]
        svg = next(one for one in getattr(plan, form) if read_sheet(one) == sheet)
        for said, (left, top, right, bottom), _ in texts(svg):
            if said.strip() not in sheet.places:
                continue
            names += 1
            for step in range(11):
                x, y = left + (right - left) * step / 10, (top + bottom) / 2
                at = (x - sheet.zero[0]) / sheet.px, (y - sheet.zero[1]) / sheet.px
                off = min(from_line(at, a, b) for a, b in pairwise([*ring, ring[0]]))
                assert off * sheet.px > 3, said
    assert names > 4


def test_a_list_goes_on_upon_another_sheet_only_where_it_is_long() -> None:
    """Each of the lists of this build has room beneath its drawing: no row stands alone on a sheet of its own."""
    assert [len(plan.wide) for plan in drawn(PLAN_BUILD).views] == [1, 1, 1, 1, 1]


def test_a_crowded_build_names_all_that_it_has() -> None:
    wires = len(judged(crowded()).trailer.wires)
    assert wires >= 60
    assert len(measured(crowded())) == 44
    said = " ".join(
        one for plan in drawn(crowded()).views[:1] for svg in plan.wide for one, _, _ in texts(svg)
    )
    for n, name in enumerate(measured(crowded()), start=1):
        assert name in said or f"{n} " in said, name
    assert max(len(bundle.wires) for bundle in drawn(crowded()).bundles) >= 56


@pytest.mark.parametrize("text", [EXAMPLE, HOSTILE], ids=["example", "hostile"])
def test_what_is_drawn_is_well_formed_with_ids_of_its_own_and_no_script(text: str) -> None:
    ids: list[str] = []
    for svg in every_svg(drawn(text)):
        assert "\n" not in svg
        root = ET.fromstring(svg)
        assert not [one for one in root.iter() if one.tag.endswith(("script", "image", "use", "b"))]
        assert not re.search(r"https?://(?!www\.w3\.org/2000/svg)", svg)
        ids += [one.attrib["id"] for one in root.iter() if "id" in one.attrib]
        title, *_ = root
        assert title.text
        assert root.attrib["aria-labelledby"] == title.attrib["id"]
    assert len(ids) == len(set(ids))


def test_a_drawing_is_told_in_sentences() -> None:
    left = next(plan for plan in drawn(PLAN_BUILD).views if plan.name == "left")
    about = ET.fromstring(left.wide[0])[1]
    assert about.tag.endswith("desc")
    assert about.text is not None
    assert about.text.startswith(
        "You look at the trailer's left side, left as seen facing forward: the front is at the left."
    )
    assert "left door groove (groove), step switch to step lamp: 1B, 1C." in about.text


def test_without_an_outline_only_what_was_measured_is_drawn() -> None:
    bare = PLAN_BUILD.partition("\nbody:\n")[0] + "\n"
    for plan, sheet in sheets(bare, "wide"):
        assert sheet.outline == []
        assert sheet.openings == {}
        (svg,) = (svg for svg in plan.wide if read_sheet(svg))
        sides = re.findall(r'class="wd-d" d="M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)" data-side', svg)
        assert len(sides) == (0 if plan.name in ("left", "right") else 2)
        if plan.name == "above":
            y = [float(side[1]) for side in sides]
            assert abs(y[0] - y[1]) / sheet.px == pytest.approx(64 * INCH_M, abs=2 * rounding(sheet))
        assert "outline of the body is not written down" in " ".join(one for one, _, _ in texts(svg)).replace(
            "  ", " "
        )


def test_an_end_is_drawn_only_where_something_is() -> None:
    build = (
        "format: 1\nbuild: {name: Middle, country: US}\nparts: {}\n"
        "places: {shelf: {back: 50 in, up: 20 in}, lamp: {back: 60 in, up: 20 in}}\n"
        "chases: {rail: {through: [shelf, lamp]}}\n"
        "body: {width: 5 ft, profile: [{back: 0 in, up: 0 in}, {back: 9 ft, up: 0 in}, {back: 9 ft, up: 4 ft}]}\n"
    )
    assert [plan.name for plan in drawn(build).views] == ["above", "left", "right"]
    assert (
        plans(
            judged(build.split("places:", maxsplit=1)[0]).trailer, judged(build).figures, drawing_words("en")
        )
        is None
    )


def test_the_same_build_gives_the_same_bytes() -> None:
    one, other = (
        judge_build(EXAMPLE.encode(), "trailer.yaml", numbers_of(EXAMPLE.encode())).judged for _ in range(2)
    )
    assert one is not None
    assert other is not None
    words = drawing_words("en")
    assert plans(one.trailer, one.figures, words) == plans(other.trailer, other.figures, words)


def test_letters_leave_out_what_looks_like_a_number() -> None:
    marks = letter_marks(60)
    assert marks[:3] == ("A", "B", "C")
    assert marks[23:27] == ("Z", "AA", "AB", "AC")
    assert not any(set(mark) & {"I", "O"} for mark in marks)
    assert len(set(marks)) == 60


def test_a_line_is_cut_where_its_part_ends() -> None:
    room = Rect(0, 0, 10, 10)
    assert clipped((-5, 5), (5, 5), room) == ((0, 5), (5, 5))
    assert clipped((2, 2), (8, 3), room) == ((2, 2), (8, 3))
    assert clipped((-5, 5), (5, -6), room) is None
    assert clipped((3, -4), (3, 40), room) == ((3, 0), (3, 10))
    assert [round(b[0] - a[0], 9) for a, b in pairwise(clipped((0, 0), (20, 20), room) or ())] == [10]


@pytest.mark.parametrize("form", FORMS)
def test_a_part_that_is_not_there_yet_is_an_open_place_and_its_list_says_so(form: str) -> None:
    """The example's kitchen socket waits; the pump switch a few inches on is there."""
    marks: dict[str, set[str]] = {"kitchen socket": set(), "pump switch": set()}
    told = []
    for svg in every_svg(drawn(EXAMPLE)):
        root = ET.fromstring(svg)
        for one in root.iter():
            if one.get("data-place") in marks:
                marks[one.attrib["data-place"]].add(one.attrib["class"])
        words = " ".join("".join(root.itertext()).split())
        told += re.findall(r"\d ?kitchen socket ?(\S*)", words)
    assert marks == {"kitchen socket": {"wd-f"}, "pump switch": {"wd-k"}}
    assert set(told) == {"(waiting:"}


@pytest.mark.parametrize("form", FORMS)
def test_where_a_spare_wire_ends_no_part_stands(form: str) -> None:
    """The kitchen's corner is the end of a spare: its dot stays open, and its row names nothing that stands there."""
    spare = EXAMPLE.replace("to: kitchen socket, size: 14 AWG", "to: kitchen left, size: 14 AWG")
    spare = spare.partition("\noptions:\n")[0] + "\n"
    for text in (EXAMPLE, spare):
        marks = {
            one.attrib["class"]
            for plan in drawn(text).views
            for svg in getattr(plan, form)
            for one in ET.fromstring(svg).iter()
            if one.get("data-place") == "kitchen left"
        }
        assert marks == {"wd-f"}
