"""Whether the wires of each hinge loop reach while the hinge opens, and how sharply they bend while it is shut."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import atan2, cos, pi, radians, sin

from builder.routes.network import Stretch
from builder.routes.runs import Runs
from builder.routes.tubes import known_diameter_mm
from builder.routes.vectors import Vector, cross, dot, length_of, minus, unit
from builder.tables.installation import bend_radius_multiple
from builder.tables.table import Fact
from builder.trailer.places import Chase, ChaseKind, Geometry
from builder.trailer.size import Size

ON_AXIS_M = 0.001
"""A hinge's two places are further apart than that."""


@dataclass(frozen=True, slots=True)
class HingeLoop:
    """One hinge loop, in metres.

    ``length_m`` is the wire between its two places, ``shut_m`` their distance while the hinge is shut. ``least_m``
    and ``most_m`` are their greatest distance on the way to open, if it opens to the one side and to the other,
    the smaller one first; None where the file does not give the hinge. ``bend_m`` is the widest bend that the loop
    can lie in while it is shut; None where it is straight. ``allowed_m`` is the least bend of the thickest wire by
    ``bend``; None where its diameter is not known, or where the loop is ``empty``: no wire is recorded in it.
    """

    chase: Chase
    length_m: float
    shut_m: float
    least_m: float | None
    most_m: float | None
    bend_m: float | None
    allowed_m: float | None
    thickest_mm: float | None
    bend: Fact
    empty: bool = False


def hinge_loops(
    geometry: Geometry, runs: Runs, sizes: Mapping[str, Size], measured_mm: Mapping[Size, float]
) -> tuple[HingeLoop, ...]:
    """Return every hinge loop in the order of the file.

    ``sizes`` are those of all wires by number, ``measured_mm`` the outside diameters that the maker measured.
    """

    def thick(chase: Chase) -> list[float | None]:
        wires = runs.inside.get(Stretch(chase.name, 0), ())
        return [known_diameter_mm(sizes[wire], measured_mm) for wire in wires]

    return tuple(
        _loop(geometry, chase, thick(chase))
        for chase in geometry.chases.values()
        if chase.kind is ChaseKind.HINGE
    )


def _loop(geometry: Geometry, chase: Chase, diameters: Sequence[float | None]) -> HingeLoop:
    one, other = (geometry.places[name].point_m for name in chase.through)
    shut_m = length_of(minus(other, one))
    length_m = shut_m + chase.slack_m
    reach: tuple[float | None, float | None] = None, None
    if len(chase.hinge) == 2 and chase.opens_deg is not None:
        axis = tuple(geometry.places[name].point_m for name in chase.hinge)
        if length_of(minus(axis[1], axis[0])) > ON_AXIS_M:
            ways = [farthest_m(one, other, (axis[0], axis[1]), sign * chase.opens_deg) for sign in (1, -1)]
            reach = min(ways), max(ways)
    bend = bend_radius_multiple("open wire or cable")
    known = [mm for mm in diameters if mm is not None]
    thickest = max(known) if known and len(known) == len(diameters) else None
    return HingeLoop(
        chase,
        length_m,
        shut_m,
        *reach,
        arc_radius_m(length_m, shut_m),
        None if thickest is None else thickest * bend.value / 1000,
        thickest,
        bend,
        empty=not diameters,
    )


def farthest_m(fixed: Vector, moving: Vector, axis: tuple[Vector, Vector], opens_deg: float) -> float:
    """Return the greatest distance in metres between two points while one turns round an axis.

    ``opens_deg`` is how far it turns in degrees, from where it is; below zero to the other side. The square of the
    distance goes with the cosine of the angle between both as seen along the axis, so it is greatest at one end of
    the turn, or where both lie opposite each other on the way.
    """
    line = unit(minus(axis[1], axis[0]))
    a, b = minus(fixed, axis[0]), minus(moving, axis[0])
    high = dot(a, line) - dot(b, line)
    a_out = minus(a, tuple(dot(a, line) * x for x in line))  # type: ignore[arg-type]
    b_out = minus(b, tuple(dot(b, line) * x for x in line))  # type: ignore[arg-type]
    even = high * high + dot(a_out, a_out) + dot(b_out, b_out)
    near, side = dot(a_out, b_out), dot(cross(b_out, a_out), line)
    turns = [0.0, radians(opens_deg)]
    if near or side:
        opposite = atan2(side, near) + pi
        turns += [turn for turn in (opposite, opposite - 2 * pi) if min(turns) < turn < max(turns)]
    squares = [even - 2 * (near * cos(turn) + side * sin(turn)) for turn in turns]
    return float(max(*squares, 0.0) ** 0.5)


def arc_radius_m(length_m: float, chord_m: float) -> float | None:
    """Return the radius in metres of the arc in which a wire lies between two points; None where it is straight.

    Of all ways to lay a wire of this length between both, none bends less at its sharpest place than the arc of one
    circle does; so a real loop bends more sharply. Found by halving; arithmetic on the measures.
    """
    if length_m <= chord_m * (1 + 1e-9):
        return None
    low, high = 1e-9, 2 * pi
    share = chord_m / length_m
    for _ in range(60):
        turn = (low + high) / 2
        if 2 * sin(turn / 2) / turn > share:
            low = turn
        else:
            high = turn
    return length_m / low
