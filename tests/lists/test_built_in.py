"""What is built in round the wires: plates, strips, strings, bridges, bars and wood are bought."""

from __future__ import annotations

from collections import Counter

import pytest
from generated_builds import GeneratedBuild, builds
from hypothesis import given, settings
from listed import BUILDS, EXAMPLE, HEAD, ROAD_ONLY, Listed, listed
from placed_builds import placed

from builder.lists.built_in import to_count, to_measure
from builder.routes.network import lengths_of
from builder.trailer.already_in import already_in, piece_in
from builder.trailer.places import Chase, ChaseKind

FOOT_M = 0.3048
NEAR_M = 1.25 * 0.0254
"""NEC 300.4(A): what wood is left between a hole and an edge, else a steel plate lies over it."""
WALL = (
    HEAD
    + """parts: {lamp: {kind: lamp, draws: 1 W}, fan: {kind: fan, draws: 1 A}}
circuits: {light: {path: [lamp]}, air: {path: [fan]}}
places:
  front box: {back: 1 ft, left: 28 in, up: 1 ft}
  lamp: {back: 6 ft, left: 28 in, up: 1 ft}
  fan: {back: 6 ft, left: 28 in, up: 3 ft}
body:
  width: 5 ft
  profile: [{back: 0 in, up: 0 in}, {back: 9 ft, up: 0 in}, {back: 9 ft, up: 4 ft}, {back: 0 in, up: 4 ft}]
frames: {studs: {in: left wall, back: [2 ft, 4 ft]}}
chases:
  low way: {through: [front box, lamp] LOW}
  high way: {through: [lamp, fan] HIGH}
"""
)


def wall(low: str = "", high: str = "") -> Listed:
    """Return the lists of a build whose lower chase passes two studs."""
    return listed(WALL.replace(" LOW", low).replace(" HIGH", high))


def plates(build: Listed) -> list[tuple[str, int]]:
    return [(item.size, item.buy) for item in build.lists.shopping.section("plates")]


def by_length(build: Listed) -> dict[str, float]:
    return {
        item.id: item.used_m / FOOT_M for item in build.lists.shopping.ways if item.section == "by length"
    }


@pytest.mark.parametrize(
    ("low", "bought"),
    [
        (", holes: 1/2 in, from the edge: 3/4 in", [("1/16 in", 2)]),
        (", holes: 1/2 in, from the edge: 3/4 in, plate: 1/16 in", [("1/16 in", 2)]),
        (", holes: 1/2 in, plate: 3/32 in", [("1/8 in", 2)]),
        (", holes: 1/2 in, from the edge: 1 1/4 in", []),
        (", holes: 1/2 in", []),
        ("", []),
    ],
)
def test_each_hole_near_an_edge_gets_a_plate(low: str, bought: list[tuple[str, int]]) -> None:
    """The way passes two studs. 3/32 in is 1 1/2 sixteenths: plates are told in sixteenths, rounded up."""
    assert plates(wall(low)) == bought


def test_holes_of_which_the_file_does_not_tell_enough_are_named() -> None:
    unknown = wall()
    assert to_measure(unknown.trailer, unknown.figures) == ("low way",)
    no_frames = wall(high=", holes: 1/2 in, from the edge: 1/2 in")
    assert to_count(no_frames.trailer, no_frames.figures) == ("high way",)


def test_plates_without_holes_lie_along_the_whole_way() -> None:
    """5 ft along the wall, 2 ft up it: a strip over both."""
    build = wall(low=", plate: 1/16 in", high=", plate: 1/16 in")
    assert by_length(build) == {"flat steel 1/16 in": pytest.approx(7)}
    assert plates(build) == []


def test_string_stays_in_each_way_and_one_more_is_drawn_by() -> None:
    """5 ft and 2 ft stay, each with a tail of 6 in at both ends: 9 ft. The longest pull is 7 ft, with tails 8 ft."""
    build = wall(low=", kind: conduit, bore: 1 in", high=", pull string: yes")
    assert by_length(build) == {"pull string": pytest.approx(17)}
    assert by_length(wall()) == {}


def test_the_string_to_draw_by_is_as_long_as_the_longest_pull_of_the_plan_that_is_not_in() -> None:
    """Two tails of 6 in each. Once all is pulled, none is needed to draw by."""
    build = wall(low=", kind: conduit, bore: 1 in")
    longest_m = max(pull.way_m for pull in build.lists.pulls.pulls)
    stay_m = 5 * 0.3048 + 0.3048
    (item,) = (one for one in build.lists.shopping.ways if one.kind == "pull string")
    assert item.used_m == pytest.approx(stay_m + longest_m + 0.3048)
    done = listed(EXAMPLE)
    left = [
        pull.way_m
        for pull in done.lists.pulls.pulls
        if not all(piece_in(one.piece.wires, already_in(done.trailer)) for one in pull.drawn)
    ]
    (item,) = (one for one in done.lists.shopping.ways if one.kind == "pull string")
    stay_m = sum(long_m(done, done.trailer.geometry.chases[name]) + 0.3048 for name in item.names)
    assert item.used_m == pytest.approx(stay_m + max(left) + 0.3048)
    assert max(left) > max(pull.way_m for pull in done.lists.pulls.pulls if pull.strings)


def test_bridges_join_the_positions_of_a_group() -> None:
    """Tail, marker and plate feed five wires of the example: five positions, four bridges. Left and right need none."""
    (item,) = listed(EXAMPLE).lists.shopping.section("bridges")
    assert (item.buy, item.names) == (4, ("strip 1 to 5",))
    assert wall().lists.shopping.section("bridges") == ()


def test_wood_is_counted_by_its_size() -> None:
    blocks = EXAMPLE.replace(
        "width: 6 in, height: 3 in, thick: 3/4 in", "width: 3 in, height: 8 in, thick: 3/4 in"
    )
    items = listed(blocks).lists.shopping.section("blocks")
    inches = [
        [round((m or 0) / 0.0254, 3) for m in (item.wide_m, item.high_m, item.thick_m)] for item in items
    ]
    assert inches == [[8, 4, 0.75], [8, 3, 0.75]]
    assert [(item.buy, item.names) for item in items] == [
        (1, ("grip block",)),
        (2, ("table block", "hook block")),
    ]


def test_the_box_and_its_bars_are_bought_unless_they_are_there() -> None:
    def box(text: str) -> dict[str, tuple[int, int | None, int | None, str]]:
        items = listed(text).lists.shopping.section("box")
        return {item.kind: (item.buy, item.ways, item.ways_used, item.stud) for item in items}

    found = box(EXAMPLE)
    assert found["front box"] == (1, None, None, "")
    assert found["supply bar"] == (1, 2, 2, "1/4 in")
    assert found["ground bar"][3] == "No. 8"
    there = box(EXAMPLE.replace("parts: [battery, water pump]", "parts: [battery, front box]"))
    pieces = ("front box", "supply bar", "fuse block", "ground bar", "strip")
    assert [there[name][0] for name in pieces] == [0] * 5
    assert "front box" not in box(ROAD_ONLY)


def joined(build: Listed) -> int:
    """Return how many positions of the strip are joined to the one before."""
    pins = Counter(at.pin for at in build.figures.landings if at.place.startswith("strip "))
    return sum(count - 1 for count in pins.values())


def long_m(build: Listed, chase: Chase) -> float:
    return sum(length_m for _, _, length_m in lengths_of(build.trailer.geometry, chase))


def check_ways(build: Listed) -> None:
    """Hold what is bought by length, and the plates, against the chases that ask for them."""
    used = {stretch.chase for stretch in build.figures.runs.inside}
    chases = [chase for chase in build.trailer.geometry.chases.values() if chase.takes_wires]
    ways = build.lists.shopping.ways
    strings_m = sum(item.buy_m for item in ways if item.kind == "pull string")
    assert strings_m >= sum(
        long_m(build, one) for one in chases if one.kind is ChaseKind.CONDUIT or one.fittings.pull_string
    )
    over = Counter(one.chase for one in build.figures.laid.frames)
    near = {one.name for one in chases if (one.fittings.edge_m or NEAR_M) < NEAR_M - 1e-9}
    plated = {one.name for one in chases if one.plate_m is not None and one.kind is not ChaseKind.HINGE}
    strips = {name for item in ways if item.kind == "flat steel" for name in item.names}
    count = sum(item.buy for item in build.lists.shopping.section("plates"))
    assert count >= sum(over[name] for name in near)
    assert count >= sum(over[name] for name in plated - strips)
    in_strips = [one for one in chases if one.name in strips]
    bought_m = sum(item.buy_m for item in ways if item.kind == "flat steel")
    assert bought_m >= sum(long_m(build, one) for one in in_strips) - 1e-6
    bored = {one.name for one in chases if one.fittings.hole_m is not None or one.fittings.edge_m is not None}
    assert strips == (plated & used) - bored


def check(build: Listed) -> None:
    shopping = build.lists.shopping
    assert sum(item.buy for item in shopping.section("bridges")) >= joined(build)
    landed = {at.place.split()[0] for at in build.figures.landings if at.part == "front box"}
    kinds = {item.kind for item in shopping.section("box") if item.buy}
    named = {"supply": "supply bar", "way": "fuse block", "strip": "strip", "screw": "ground bar"}
    if build.trailer.front_box is not None and "front box" not in build.trailer.stock.parts:
        assert kinds >= {named[word] for word in landed}
        assert "front box" in kinds
    wood = sum(item.buy for item in shopping.section("blocks"))
    assert wood == len(build.trailer.geometry.blocks)
    check_ways(build)


@pytest.mark.parametrize("text", BUILDS.values(), ids=BUILDS)
def test_what_is_asked_for_is_bought(text: str) -> None:
    check(listed(text))


@given(builds())
@settings(max_examples=40)
def test_what_is_asked_for_in_any_build_is_bought(generated: GeneratedBuild) -> None:
    check(listed(placed(generated)))
