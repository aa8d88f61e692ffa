"""The chases of a trailer as a network: which places they join, and how long each stretch of them is."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise

from builder.trailer.places import Chase, ChaseKind, Geometry, Place

SAME_PLACE_M = 0.001
"""Places that are closer than this are one point: a millimetre, finer than any tape measure."""


@dataclass(frozen=True, slots=True, order=True)
class Stretch:
    """A piece of a chase between two places that follow each other in it: ``number`` counts from 0 along the chase."""

    chase: str
    number: int


@dataclass(frozen=True, slots=True)
class Joint:
    """What leads from one point to another: the stretch, the point it leads to, and its length in metres.

    ``slack_m`` is the part of its length that is a hinge loop's slack.
    """

    stretch: Stretch
    to: int
    length_m: float
    slack_m: float


@dataclass(frozen=True, slots=True)
class Network:
    """Points and what joins them. ``point_of`` tells by the name of a place its point; ``near`` what leads from it."""

    geometry: Geometry
    point_of: Mapping[str, int]
    names: tuple[str, ...]
    near: tuple[tuple[Joint, ...], ...]


def network_of(geometry: Geometry) -> Network:
    """Return the network of all chases: wires get from stretch to stretch at named places and nowhere else.

    A chase that carries mains alone is no way for them.
    """
    point_of, names = _points(geometry)
    near: list[list[Joint]] = [[] for _ in names]
    for chase in geometry.chases.values():
        if not chase.takes_wires:
            continue
        for number, (one, other, length_m) in enumerate(lengths_of(geometry, chase)):
            slack_m = chase.slack_m if chase.kind is ChaseKind.HINGE else 0.0
            a, b = point_of[one], point_of[other]
            stretch = Stretch(chase.name, number)
            near[a].append(Joint(stretch, b, length_m, slack_m))
            near[b].append(Joint(stretch, a, length_m, slack_m))
    return Network(geometry, point_of, tuple(names), tuple(tuple(joints) for joints in near))


def lengths_of(geometry: Geometry, chase: Chase) -> tuple[tuple[str, str, float], ...]:
    """Return the stretches of a chase: the names of their two places, and their length in metres with any slack."""
    slack_m = chase.slack_m if chase.kind is ChaseKind.HINGE else 0.0
    places = [geometry.places[name] for name in chase.through]
    return tuple((one.name, other.name, one.distance_m(other) + slack_m) for one, other in pairwise(places))


def _points(geometry: Geometry) -> tuple[dict[str, int], list[str]]:
    """Return the point of each place, and the name of the first place at each point.

    Places of one point are found in boxes of `SAME_PLACE_M`, so that thousands of places take no time.
    """
    boxes: dict[tuple[int, int, int], list[Place]] = {}
    point_of: dict[str, int] = {}
    names: list[str] = []
    for place in geometry.places.values():
        box = _box(place)
        around = (
            other
            for dx in (-1, 0, 1)
            for dy in (-1, 0, 1)
            for dz in (-1, 0, 1)
            for other in boxes.get((box[0] + dx, box[1] + dy, box[2] + dz), ())
        )
        same = next((other for other in around if other.distance_m(place) < SAME_PLACE_M), None)
        if same is not None:
            point_of[place.name] = point_of[same.name]
            continue
        boxes.setdefault(box, []).append(place)
        point_of[place.name] = len(names)
        names.append(place.name)
    return point_of, names


def _box(place: Place) -> tuple[int, int, int]:
    back, right, up = (round(measure / SAME_PLACE_M) for measure in place.point_m)
    return back, right, up
