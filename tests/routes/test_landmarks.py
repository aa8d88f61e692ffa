"""Where places are by edges that can be seen, and behind which walls ways run: against the measures themselves."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from lined_build import read
from plan_build import PLAN_BUILD

from builder.routes.landmarks import AT_SIDE_M, Landmark, landmarks
from builder.routes.near_walls import near_walls
from builder.routes.panels import DEEPEST_M
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
def test_no_edge_of_a_door_on_its_own_side_is_nearer(text: str) -> None:
    geometry = read(text)[0].geometry
    assert geometry.body is not None
    doors = [one for one in geometry.body.openings if one.wall in (Wall.LEFT, Wall.RIGHT)]
    compared = 0
    for place in geometry.places.values():
        if not 0 <= place.back_m <= 2.7:
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
