"""Where places are by edges that can be seen, and behind which walls ways run: against the measures themselves."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from lined_build import read
from plan_build import PLAN_BUILD

from builder.routes.landmarks import AT_SIDE_M, Landmark, landmarks
from builder.routes.near_walls import near_walls
from builder.routes.standing import DEEPEST_M
from builder.trailer.body import Body, Opening, Wall
from builder.trailer.places import Geometry, Place

EXAMPLE = (Path(__file__).parents[2] / "example_build" / "trailer.yaml").read_text(encoding="utf-8")
INCH_M = 0.0254
BUILDS = pytest.mark.parametrize("text", [PLAN_BUILD, EXAMPLE], ids=["plan build", "example"])
SIGNS = {"at": 0, "ahead of": -1, "behind": 1, "below": -1, "above": 1, "left of": -1, "right of": 1}


def at_edge(body: Body, mark: Landmark) -> float:
    """Return where the edge of a landmark is on its axis, from the body's profile and openings alone."""
    backs = [corner.back_m for corner in body.profile]
    if mark.of:
        (opening,) = (one for one in body.openings if one.name == mark.of)
        begins, long = (
            (opening.along_m, opening.wide_m) if mark.axis == "along" else (opening.across_m, opening.high_m)
        )
        return begins + (long if mark.edge in ("rear edge", "upper edge") else 0.0)
    return {"front": min(backs), "rear": max(backs), "lower edge": 0.0, "middle": 0.0}[mark.edge]


@BUILDS
def test_every_place_is_found_again_from_what_can_be_seen(text: str) -> None:
    geometry = read(text)[0].geometry
    assert geometry.body is not None
    for place in geometry.places.values():
        for mark, wanted in zip(
            landmarks(geometry, place), place.point_m[::2] + place.point_m[1:2], strict=True
        ):
            if mark.side == "inside":
                side = 1 if mark.edge == "right wall" else -1
                assert side * (geometry.body.width_m / 2 - mark.far_m) == pytest.approx(wanted), place.name
                assert mark.far_m <= AT_SIDE_M
            else:
                found = at_edge(geometry.body, mark) + SIGNS[mark.side] * mark.far_m
                assert found == pytest.approx(wanted, abs=5.1e-4), (place.name, mark)


@BUILDS
def test_at_a_side_no_edge_of_a_door_there_is_nearer(text: str) -> None:
    geometry = read(text)[0].geometry
    assert geometry.body is not None
    doors = [one for one in geometry.body.openings if one.wall in (Wall.LEFT, Wall.RIGHT)]
    compared = 0
    for place in geometry.places.values():
        inside_m = geometry.body.width_m / 2 - abs(place.right_m)
        rear_m = max(corner.back_m for corner in geometry.body.profile) - place.back_m
        if place.back_m < 0 or not 0 <= inside_m <= min(AT_SIDE_M, rear_m):
            continue
        along, up, _ = landmarks(geometry, place)
        for door in doors:
            if (place.right_m < 0) == (door.wall is Wall.LEFT) and place.right_m:
                for edge_m in (door.along_m, door.along_m + door.wide_m):
                    assert along.far_m <= abs(place.back_m - edge_m) + 1e-3
                for edge_m in (door.across_m, door.across_m + door.high_m):
                    assert up.far_m <= abs(place.up_m - edge_m) + 1e-3
                compared += 1
    assert compared > 10


def test_a_switch_beside_the_door_is_measured_from_the_door() -> None:
    """By hand: 2 ft 10 in back and 2 ft up; the door begins 3 ft back and 6 in up, the body is 5 ft 2 in wide."""
    geometry = read(EXAMPLE)[0].geometry
    assert landmarks(geometry, geometry.places["left step switch"]) == (
        Landmark("along", "ahead of", "front edge", "left door", pytest.approx(2 * INCH_M)),
        Landmark("up", "above", "lower edge", "left door", pytest.approx(18 * INCH_M)),
        Landmark("across", "inside", "left wall", "", pytest.approx(2 * INCH_M)),
    )


@pytest.mark.parametrize(
    "name", ["hatch switch", "hatch lamp", "plate lamp", "rear lamp left", "rear lamp right"]
)
def test_what_is_in_the_hatch_is_measured_from_the_hatch(name: str) -> None:
    """Its upper edge is 53 in up, its lower one 2 in; the doors are round the corner."""
    geometry = read(EXAMPLE)[0].geometry
    _, up, _ = landmarks(geometry, geometry.places[name])
    assert up.of == "hatch"
    high_m = geometry.places[name].up_m
    assert up.far_m == pytest.approx(min(53 * INCH_M - high_m, high_m - 2 * INCH_M))


@pytest.mark.parametrize(
    ("name", "side", "edge", "inches"),
    [("cabin lamp", "ahead of", "front edge", 9), ("roof fan", "behind", "front edge", 7)],
)
def test_what_is_in_the_roof_is_measured_from_the_opening_there(
    name: str, side: str, edge: str, inches: float
) -> None:
    """By hand: the fan's opening begins 4 ft 11 in back; the left door, nearer to the fan, is in another wall."""
    geometry = read(EXAMPLE)[0].geometry
    along, _, _ = landmarks(geometry, geometry.places[name])
    assert (along.side, along.edge, along.of) == (side, edge, "fan opening")
    assert along.far_m == pytest.approx(inches * INCH_M)


def test_what_is_outside_on_a_side_is_measured_from_its_door() -> None:
    """The awning strip is 5 ft back, the right door ends 5 ft 2 in back; the fan's edge an inch off is in the roof."""
    geometry = read(EXAMPLE)[0].geometry
    along, _, _ = landmarks(geometry, geometry.places["awning strip"])
    assert (along.side, along.edge, along.of) == ("ahead of", "rear edge", "right door")
    assert along.far_m == pytest.approx(2 * INCH_M)


def test_what_is_on_the_tongue_is_measured_from_the_front_of_the_body_alone() -> None:
    geometry = read(EXAMPLE)[0].geometry
    along, up, across = landmarks(geometry, geometry.places["tow plug"])
    assert (along.side, along.edge, along.of) == ("ahead of", "front", "")
    assert (up.edge, up.of) == ("lower edge", "")
    assert (across.side, across.edge) == ("right of", "middle")


def test_without_an_outline_a_place_is_where_it_was_measured() -> None:
    geometry = replace(read(PLAN_BUILD)[0].geometry, body=None)
    for place in geometry.places.values():
        along, up, across = landmarks(geometry, place)
        assert {along.edge, up.edge, across.edge} == {"front", "lower edge", "middle"}
        assert [along.far_m, up.far_m, across.far_m] == pytest.approx(
            [abs(place.back_m), abs(place.up_m), abs(place.right_m)]
        )
    assert near_walls(geometry, 0.01) == ()


def mirrored(geometry: Geometry) -> Geometry:
    """Return a trailer whose left is the other's right."""
    assert geometry.body is not None
    sides = {Wall.LEFT: Wall.RIGHT, Wall.RIGHT: Wall.LEFT}

    def other(one: Opening) -> Opening:
        flipped = replace(one, wall=sides.get(one.wall, one.wall))
        if one.wall in (Wall.ROOF, Wall.FLOOR):
            return replace(flipped, across_m=-one.across_m - one.high_m)
        return (
            replace(flipped, along_m=-one.along_m - one.wide_m)
            if one.wall in (Wall.FRONT, Wall.REAR)
            else flipped
        )

    return replace(
        geometry,
        places={name: replace(place, right_m=-place.right_m) for name, place in geometry.places.items()},
        body=replace(geometry.body, openings=tuple(map(other, geometry.body.openings))),
    )


@BUILDS
def test_a_mirrored_trailer_has_the_same_ways_behind_its_other_walls(text: str) -> None:
    geometry = read(text)[0].geometry
    names = {Wall.LEFT: Wall.RIGHT, Wall.RIGHT: Wall.LEFT}
    here = {(one.stretch, names.get(one.wall, one.wall)): one.depth_m for one in near_walls(geometry, 0.01)}
    there = {(one.stretch, one.wall): one.depth_m for one in near_walls(mirrored(geometry), 0.01)}
    assert here.keys() == there.keys()
    assert there == pytest.approx(here)


@BUILDS
def test_a_way_is_behind_a_side_wall_where_a_ruler_says_so(text: str) -> None:
    geometry = read(text)[0].geometry
    assert geometry.body is not None
    half_m = geometry.body.width_m / 2
    found = {
        (one.stretch.chase, one.stretch.number): one.depth_m
        for one in near_walls(geometry, 0.01, [Wall.LEFT])
    }
    assert len(found) > 5
    for chase in geometry.chases.values():
        for number in range(len(chase.through) - 1):
            ends: list[Place] = [geometry.places[name] for name in chase.through[number : number + 2]]
            inside = all(0.05 < end.back_m < 2.2 and 0 < end.up_m < 0.4 for end in ends)
            depth_m = min(half_m + end.right_m for end in ends)
            if inside and depth_m < DEEPEST_M:
                assert found[chase.name, number] == pytest.approx(max(depth_m, 0.0)), chase.name
            elif depth_m > DEEPEST_M + 0.001:
                assert (chase.name, number) not in found
