"""Which ways lead across an opening: short builds with a fan in the roof, a window, and a hatch with a hinge loop."""

from __future__ import annotations

import pytest

from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute

HEAD = """format: 1
build: {name: Example, country: US}
battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft}
front box: {fuse ways: 4}
body: {width: 4 ft, profile: [{back: 0 in, up: 0 in}, {back: 8 ft, up: 0 in}, {back: 8 ft, up: 4 ft}, {back: 0 in, up: 4 ft}]}
parts: {lamp: {kind: lamp, draws: 3 W}, fan: {kind: fan, draws: 1 A}}
circuits: {lamp: {path: [lamp]}, fan: {path: [fan: 9 ft]}}
"""  # noqa: E501 - a line of a build file
ROOF = HEAD + "openings: {hole: {in: roof, back: 4 ft, length: 14 in, width: 14 in}}\n"
ROOF_PLACES = {
    "front box": "{back: 1 ft, up: 46 in}",
    "lamp": "{back: 7 ft, up: 46 in}",
}


def crossed(head: str, places: dict[str, str], chases: str) -> list[tuple[str, str, int]]:
    """Return each opening, the chase across it, and how many wires cross it there."""
    text = head + "places: {" + ", ".join(f"{name}: {at}" for name, at in places.items()) + "}\n"
    trailer = read_build((text + "chases: {" + chases + "}\n").encode()).trailer
    assert trailer is not None
    found = compute(trailer).laid.openings
    return [(one.opening.name, one.chase, len(one.wires)) for one in found]


def test_a_straight_way_over_a_roof_fan_crosses_it_with_all_its_wires() -> None:
    assert crossed(ROOF, ROOF_PLACES, "way: {through: [front box, lamp]}") == [("hole", "way", 2)]


def test_a_way_round_its_corners_does_not() -> None:
    places = ROOF_PLACES | {
        "one": "{back: 46 in, left: 8 in, up: 46 in}",
        "two": "{back: 64 in, left: 8 in, up: 46 in}",
    }
    assert crossed(ROOF, places, "way: {through: [front box, one, two, lamp]}") == []
    cut = places | {"two": "{back: 56 in, left: 8 in, up: 46 in}"}
    assert crossed(ROOF, cut, "way: {through: [front box, one, two, lamp]}") == [("hole", "way", 2)]


def test_what_ends_in_the_opening_does_not_cross_it_and_what_goes_on_does() -> None:
    places = {
        "front box": "{back: 1 ft, up: 46 in}",
        "fan": "{back: 55 in, up: 46 in}",
        "lamp": "{back: 7 ft, up: 46 in}",
    }
    to_the_fan = "way: {through: [front box, fan]}, around: {through: [front box, lamp], kind: open bay}"
    low = places | {"lamp": "{back: 7 ft, up: 2 ft}"}
    assert crossed(ROOF, low, to_the_fan) == []
    assert crossed(ROOF, places, "way: {through: [front box, fan, lamp]}") == [("hole", "way", 2)]
    both = "one: {through: [front box, fan]}, other: {through: [fan, lamp]}"
    assert crossed(ROOF, places, both) == [("hole", "one", 2), ("hole", "other", 2)]


@pytest.mark.parametrize(("deep", "meets"), [("5.8 in", True), ("6 in", False)])
def test_a_way_counts_within_six_inches_of_the_wall(deep: str, meets: bool) -> None:
    up = f"{48 - float(deep.removesuffix(' in')):g} in"
    places = {"front box": f"{{back: 1 ft, up: {up}}}", "lamp": f"{{back: 7 ft, up: {up}}}"}
    assert bool(crossed(ROOF, places, "way: {through: [front box, lamp]}")) is meets


def test_a_chase_without_wires_is_judged_as_well() -> None:
    places = ROOF_PLACES | {"one": "{back: 1 ft, left: 2 in, up: 46 in}", "two": "{back: 7 ft, up: 45 in}"}
    short = {"lamp": "{back: 3 ft, up: 46 in}"}
    found = crossed(ROOF, places | short, "way: {through: [front box, lamp]}, string: {through: [one, two]}")
    assert found == [("hole", "string", 0)]


HATCH = HEAD + "openings: {hatch: {in: rear wall, up: 4 in, width: 40 in, height: 40 in}}\n"
HATCH_PLACES = {
    "front box": "{back: 1 ft, up: 46 in}",
    "hinge": "{back: 94 in, up: 46 in}",
    "edge": "{back: 95 in, up: 42 in}",
    "left": "{back: 95 in, left: 23 in, up: 2 ft}",
    "lamp": "{back: 95 in, right: 23 in, up: 2 ft}",
}


def test_what_lies_on_a_leaf_moves_with_it() -> None:
    """Behind a hinge loop the wires cross their own leaf; the same ways without a loop hang over the opening."""
    hung = "way: {through: [front box, hinge]}, loop: {through: [hinge, edge], kind: KIND}, leaf: {through: [edge, left, lamp]}"  # noqa: E501
    assert crossed(HATCH, HATCH_PLACES, hung.replace("KIND", "hinge loop")) == []
    assert crossed(HATCH, HATCH_PLACES, hung.replace("KIND", "groove")) == [
        ("hatch", "loop", 2),
        ("hatch", "leaf", 2),
    ]


def test_without_openings_or_outline_nothing_is_crossed() -> None:
    assert crossed(HEAD, ROOF_PLACES, "way: {through: [front box, lamp]}") == []
