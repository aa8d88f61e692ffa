"""Skins on the walls of the body: which pieces are a wall's, and distances against true arcs, measured every 2 mm."""

from __future__ import annotations

import random
from dataclasses import replace
from math import atan2, ceil, cos, dist, hypot, pi, radians, sin

import pytest
from lined_build import read

from builder.routes.network import Stretch
from builder.routes.runs import Runs
from builder.routes.skins import BEYOND_M, clearances
from builder.routes.tubes import tubes_of
from builder.routes.wall_faces import SAGITTA_M, faces_on, wall_of
from builder.trailer.body import Body, Corner, Wall
from builder.trailer.origin import NOWHERE
from builder.trailer.outline import pieces_of
from builder.trailer.places import Chase, ChaseKind, Geometry, Place, Skin
from builder.trailer.size import Size

TAPE_M = 0.01
WITHIN_M = 0.001
SIZE = Size("AWG", "16")
Point = tuple[float, float, float]


def corner(back_m: float, up_m: float, radius_m: float | None = None) -> Corner:
    return Corner(back_m, up_m, radius_m, hollow=False, origin=NOWHERE)


HALF_ROUND = Body((corner(0, 0), corner(3, 0), corner(1.5, 1.5, 1.5), corner(0, 0, 1.5)), 1.6)
"""A floor of 3 m, and over it one half circle round (1.5, 0): half of it faces the rear, half the front."""
HOUSE = Body((corner(0, 0), corner(3, 0), corner(3, 1), corner(2, 1.5), corner(0, 1.2)), 1.5)


def test_a_piece_is_of_the_wall_that_it_faces_most() -> None:
    """Floor, rear, the roof behind (26 degrees from level), the roof, the front; the other way round the same."""
    walls = [Wall.FLOOR, Wall.REAR, Wall.ROOF, Wall.ROOF, Wall.FRONT]
    assert [wall_of(piece, to_up=True) for piece in pieces_of(HOUSE.profile)] == walls
    turned = pieces_of(HOUSE.profile[::-1])
    assert sorted(wall_of(piece, to_up=False) for piece in turned) == sorted(walls)


@pytest.mark.parametrize("wall", list(Wall))
def test_every_face_of_a_wall_looks_into_the_body(wall: Wall) -> None:
    for body in (HOUSE, replace(HOUSE, profile=HOUSE.profile[::-1])):
        faces = faces_on(body, [wall])
        assert len(faces) == (2 if wall is Wall.ROOF else 1)
        for face in faces:
            assert face.seen((1.5, 0.0, 0.7))[2] > 0
            assert face.bent_m == pytest.approx(0, abs=1e-9)


def one_wire(body: Body, walls: tuple[Wall, ...], piece: tuple[Point, Point], go_m: float) -> Geometry:
    places = {name: Place(name, *point, NOWHERE) for name, point in zip("ab", piece, strict=True)}
    chase = Chase("chase", ("a", "b"), ChaseKind.GROOVE, NOWHERE)
    skin = Skin("skin", go_m, outside=True, corners=(), origin=NOWHERE, on=walls)
    return Geometry(places, {"chase": chase}, {"skin": skin}, body=body)


def left_m(geometry: Geometry) -> float | None:
    """Return what is left to the surface of the wire; None where it is not behind the skin."""
    runs = Runs(inside={Stretch("chase", 0): ("1A",)})
    found = clearances(geometry, tubes_of(geometry, runs, {"1A": SIZE}), TAPE_M).found
    return found[0].left_m if found else None


def from_round_roof(point: tuple[float, ...], go_m: float) -> float:
    """Return how far a point is from all fasteners that go straight into the half circle, as they truly stand."""
    back, right, up = point[0] - 1.5, point[1], point[2]
    angle, far = atan2(up, back), hypot(back, up)
    beside = max(abs(right) - HALF_ROUND.width_m / 2, 0.0)
    held = min(max(angle, 0.0), pi) if angle > -pi / 2 else pi
    reach = min(max(far, 1.5 - go_m), 1.5)
    return dist((back, up, beside), (reach * cos(held), reach * sin(held), 0.0))


def test_what_is_left_under_a_round_roof_is_what_its_true_circle_leaves() -> None:
    """The skin lies on front, roof and rear at once: no straight piece of it is a millimetre beside its circle."""
    rng = random.Random(7)  # noqa: S311 - it draws wires
    radius_m = 0.0015
    compared = 0
    for _ in range(150):
        angle, out = rng.uniform(0.1, pi - 0.1), rng.uniform(1.36, 1.5)
        start = 1.5 + out * cos(angle), rng.uniform(-0.75, 0.75), out * sin(angle)
        turn, out = angle + rng.uniform(-0.2, 0.2), rng.uniform(1.36, 1.5)
        end = 1.5 + out * cos(turn), rng.uniform(-0.75, 0.75), max(out * sin(turn), 0.05)
        go_m = rng.uniform(0.01, 0.03)
        found = left_m(one_wire(HALF_ROUND, (Wall.FRONT, Wall.ROOF, Wall.REAR), (start, end), go_m))
        steps = ceil(dist(start, end) / 0.002)
        line = [
            tuple(a + (b - a) * i / steps for a, b in zip(start, end, strict=True)) for i in range(steps + 1)
        ]
        true_m = min(from_round_roof(point, go_m) for point in line) - radius_m
        if true_m > BEYOND_M - 0.005:
            continue
        assert found is not None
        if true_m > 0.001:
            assert found == pytest.approx(true_m, abs=SAGITTA_M + WITHIN_M)
            compared += 1
        else:
            assert found < 0.004
    assert compared > 60


def test_what_is_left_under_a_side_wall_is_its_depth_less_fastener_and_wire() -> None:
    piece = ((0.5, -0.70, 0.5), (2.0, -0.70, 0.5))
    left = left_m(one_wire(HOUSE, (Wall.LEFT,), piece, 0.02))
    radius_m = tubes_of(
        one_wire(HOUSE, (Wall.LEFT,), piece, 0.02),
        Runs(inside={Stretch("chase", 0): ("1A",)}),
        {"1A": SIZE},
    )[0].radius_m
    assert radius_m is not None
    assert left == pytest.approx(0.05 - 0.02 - radius_m)
    mirrored = tuple((x, -y, z) for x, y, z in piece)
    assert left_m(one_wire(HOUSE, (Wall.RIGHT,), mirrored, 0.02)) == pytest.approx(left)  # type: ignore[arg-type]
    assert left_m(one_wire(HOUSE, (Wall.RIGHT,), piece, 0.02)) is None


BUILD = """format: 1
build: {name: Example, country: US}
battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
front box: {fuse ways: 4}
wire: {on the shelf: [16 AWG, 10 AWG]}
places:
  front box: {back: 10 in, up: 2 ft}
  corner: {back: 10 in, left: 2 ft, up: 2 ft}
  lamp: LAMP
chases: {cross: {through: [front box, corner]}, out: {through: [corner, lamp]}}
body:
  profile: [{back: 0 in, up: 0 in}, {back: 8 ft, up: 0 in}, {back: 8 ft, up: 4 ft}, {back: 0 in, up: 4 ft}]
  width: 5 ft
skins: {left side: {lies on: left wall, fasteners go in: 3/4 in}}
parts: {lamp: {kind: lamp, draws: 3 W}}
circuits: {lamp: {path: [lamp: 9 ft]}}
"""


def test_a_wire_that_goes_out_through_a_skin_is_no_fault_and_has_a_hole_to_keep_clear_of() -> None:
    """Six inches straight out: fastener, half of two wires of 16 AWG and the tape count once from the hole's middle."""
    _, figures = read(BUILD.replace("LAMP", "{back: 10 in, left: 2 ft 6 in, up: 2 ft}"))
    (one,) = (one for one in figures.clearances.found if one.tube.stretch.chase == "out")
    assert one.tube.radius_m is not None
    assert one.through_m == pytest.approx(one.tube.radius_m + 0.01)
    assert not one.reaches
    assert not one.is_near


@pytest.mark.parametrize(
    ("lamp", "reaches"),
    [("{back: 3 ft, left: 2 ft 6 in, up: 2 ft}", True), ("{back: 12 in, left: 2 ft 6 in, up: 2 ft}", False)],
)
def test_a_wire_that_runs_along_a_skin_to_its_face_is_reached(lamp: str, reaches: bool) -> None:
    """26 inches along for 6 inches out runs along; 2 inches along goes out through it."""
    _, figures = read(BUILD.replace("LAMP", lamp))
    assert any(one.reaches for one in figures.clearances.found) is reaches


def test_one_hole_is_kept_clear_of_by_one_figure_however_the_wires_come_to_it() -> None:
    """Straight out inside and on a slant outside: the larger one holds for both, as for the slanting one alone."""
    straight = BUILD.replace("LAMP", "{back: 10 in, left: 2 ft 6 in, up: 2 ft}")
    beyond = straight.replace("chases:", "  beyond: {back: 16 in, left: 3 ft, up: 2 ft}\nchases:").replace(
        "out: {through: [corner, lamp]}", "out: {through: [corner, lamp, beyond]}"
    )
    beyond = beyond.replace("lamp: {kind: lamp, draws: 3 W}", "lamp: {kind: lamp, draws: 3 W, place: beyond}")
    _, figures = read(beyond)
    inner, outer = (one for one in figures.clearances.found if one.tube.stretch.chase == "out")
    wide_m = (inner.tube.radius_m or 0) + 0.01
    slanting_m = (0.75 * 0.0254 + wide_m) + wide_m
    assert (inner.through_m, outer.through_m) == (pytest.approx(slanting_m), pytest.approx(slanting_m))


def test_the_hole_of_a_slanting_wire_is_kept_clear_as_far_as_fasteners_reach_it() -> None:
    _, figures = read(BUILD.replace("LAMP", "{back: 16 in, left: 2 ft 6 in, up: 2 ft}"))
    (one,) = (one for one in figures.clearances.found if one.tube.stretch.chase == "out")
    wide_m = (one.tube.radius_m or 0) + 0.01
    assert one.through_m == pytest.approx(
        (0.75 * 0.0254 + wide_m) * sin(radians(45)) / cos(radians(45)) + wide_m
    )
