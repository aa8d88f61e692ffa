"""The body in a build file: what agrees with the rest of the file, and how far something may stand off it."""

from __future__ import annotations

from pathlib import Path

import pytest
from plan_build import PLAN_BUILD

from builder.buildfile.problems import Problem
from builder.buildfile.resolving import read_build
from builder.trailer.body import Body, Wall
from builder.trailer.outline import extents, outside_by_m, pieces_of, points_of
from builder.trailer.places import Geometry

EXAMPLE = (Path(__file__).parents[2] / "example_build" / "trailer.yaml").read_text(encoding="utf-8")
INCH_M = 0.0254


def geometry_of(text: str) -> Geometry:
    trailer = read_build(text.encode()).trailer
    assert trailer is not None
    return trailer.geometry


def body_of(text: str) -> Body:
    body = geometry_of(text).body
    assert body is not None
    return body


def problems_of(text: str) -> tuple[Problem, ...]:
    return read_build(text.encode()).problems


def test_the_example_s_body_agrees_with_its_sizes_and_its_places() -> None:
    """Tongue and body together are no longer than the trailer, and every place lies in the body or hangs on it."""
    trailer = read_build(EXAMPLE.encode()).trailer
    assert trailer is not None
    body = body_of(EXAMPLE)
    points = points_of(pieces_of(body.profile))
    front, rear, under, top = extents(points)
    assert (front, under) == pytest.approx((0, 0), abs=1e-6)
    foremost = min(place.back_m for place in trailer.geometry.places.values())
    assert trailer.identity.length_m is not None
    assert trailer.identity.width_m is not None
    assert rear - foremost <= trailer.identity.length_m
    assert body.width_m <= trailer.identity.width_m
    assert 1.3 < top < 1.6
    for place in trailer.geometry.places.values():
        if place.back_m >= 0:
            assert outside_by_m(points, (place.back_m, place.up_m)) < 0.1, place.name
            assert abs(place.right_m) <= body.width_m / 2 + 0.03, place.name
    fan = next(one for one in body.openings if one.wall is Wall.ROOF)
    at = trailer.geometry.places["roof fan"]
    assert fan.along_m < at.back_m < fan.along_m + fan.wide_m
    assert fan.across_m - 3 * INCH_M < at.right_m < fan.across_m, (
        "its wires come out at the left of the opening"
    )


def test_openings_begin_where_they_were_measured() -> None:
    body = body_of(PLAN_BUILD)
    openings = {one.name: one for one in body.openings}
    hatch, fan, door = openings["hatch"], openings["roof fan"], openings["left door"]
    assert (hatch.along_m, hatch.across_m) == pytest.approx((-28 * INCH_M, 1 * INCH_M))
    assert (fan.along_m, fan.across_m, fan.wide_m) == pytest.approx((53 * INCH_M, -7 * INCH_M, 14 * INCH_M))
    assert (door.along_m, door.high_m, door.radius_m) == pytest.approx((30 * INCH_M, 36 * INCH_M, 5 * INCH_M))
    beside = body_of(
        PLAN_BUILD.replace("length: 14 in, width: 14 in", "left: 6 in, length: 14 in, width: 14 in")
    )
    assert next(one for one in beside.openings if one.name == "roof fan").across_m == pytest.approx(
        -13 * INCH_M
    )


def test_frames_stand_in_all_walls_unless_the_file_names_some() -> None:
    ribs, rails = body_of(PLAN_BUILD).frames
    assert set(ribs.walls) == set(Wall)
    assert rails.walls == (Wall.LEFT, Wall.RIGHT)
    assert ribs.back_m == pytest.approx([1 * INCH_M, 28 * INCH_M, 58 * INCH_M, 74 * INCH_M])
    assert (rails.back_m, rails.thick_m) == ((), pytest.approx(1.5 * INCH_M))


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("back: 60 in, up: 53 in", False),  # 5 in over the roof: a module stands off it
        ("back: 60 in, up: 57 in", True),
        ("back: 115 in, up: 4 in", False),
        ("back: 118 in, up: 4 in", True),
        ("back: 118 in, up: 0 in", False),  # at the underside: on the frame
        ("back: 118 in, down: 5 in", False),
        ("ahead: 30 in, up: 40 in", False),  # on the tongue
        ("back: 60 in, left: 32 in, up: 20 in", False),
    ],
)
def test_a_place_may_stand_off_the_body_as_far_as_what_is_screwed_to_it(words: str, told: bool) -> None:
    text = PLAN_BUILD.replace("chases:\n", f"  far thing: {{{words}}}\nchases:\n", 1)
    found = [problem for problem in problems_of(text) if problem.name == "outside the body"]
    assert bool(found) is told
    assert all("far thing" in problem.message for problem in found)


def test_lengths_are_worked_out_whatever_is_wrong_with_the_body() -> None:
    """One problem about the body, and none about lengths that the ways give."""
    text = PLAN_BUILD.replace("radius: 20 ft", "radius: 2 in")
    assert [problem.name for problem in problems_of(text)] == ["profile that cannot be"]


def test_a_body_that_cannot_be_read_is_told_of_once() -> None:
    text = PLAN_BUILD.replace("  width: 5 ft\n", "  width: 5 lb\n")
    assert [problem.name for problem in problems_of(text)] == ["misread value"]


def test_a_radius_a_hair_too_small_is_half_the_way_between_its_points() -> None:
    """From 36 in back and 48 in up to 0 in and 20 in it is 45.6 in: half of it is 22.8 in."""

    def told(radius: str) -> bool:
        text = PLAN_BUILD.replace("up: 20 in, radius: 3 ft 6 in", f"up: 20 in, radius: {radius}, hollow: yes")
        return "no arc of" in " ".join(problem.message for problem in problems_of(text))

    assert not told("23 in")
    assert not told("22 3/4 in")
    assert told("22 1/2 in")


@pytest.mark.parametrize(("back", "told"), [("102 in", False), ("102 1/4 in", True)])
def test_6_in_is_as_far_as_the_page_of_the_problem_says(back: str, told: bool) -> None:
    text = (
        "format: 1\nbuild: {name: Example, country: US}\n"
        "body: {profile: [{back: 0 in, up: 0 in}, {back: 8 ft, up: 0 in}, {back: 8 ft, up: 4 ft}, "
        "{back: 0 in, up: 4 ft}], width: 5 ft}\n"
        f"places: {{lamp: {{back: {back}, up: 2 ft}}}}\n"
    )
    assert ("outside the body" in {one.name for one in problems_of(text)}) is told
