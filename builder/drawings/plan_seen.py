"""What one view of the trailer shows: places, ways with the wires in them, and how far all of it reaches."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from builder.drawings.plan_panels import PanelSeen, only_corners, panels_seen
from builder.electrics.figures import Figures
from builder.quantities.showing import System
from builder.routes.network import Stretch
from builder.routes.panels import PanelView
from builder.routes.standing import placed_parts
from builder.trailer.model import Trailer
from builder.trailer.outline import Point, extents, pieces_of, points_of
from builder.trailer.places import ChaseKind, Geometry, Place
from builder.trailer.views import Step, Trace, View, seen, traces_of

MIDDLE_M = 0.02
"""Up to so far past the middle something still counts as in the middle, and stands in both elevations.

What is ahead of the body, on the tongue, stands in both as well.
"""
_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"
END_M: dict[System, float] = {"feet": 0.6096, "metric": 0.6}
"""How deep a view from an end looks into the body: two feet, in the reader's units."""


@dataclass(frozen=True, slots=True)
class Bundle:
    """Stretches of one chase, one after the other, with the same wires in them; ``mark`` is its letter.

    ``string`` tells that a pull string lies in them, ``mains`` that mains does. ``again`` counts the wires that lie in
    them once more, there and back.
    """

    mark: str
    chase: str
    kind: ChaseKind
    places: tuple[str, ...]
    first: int
    wires: tuple[str, ...]
    spares: tuple[str, ...] = ()
    string: bool = False
    mains: bool = False
    again: int = 0

    @property
    def stretches(self) -> tuple[Stretch, ...]:
        """The stretches in it."""
        return tuple(Stretch(self.chase, self.first + n) for n in range(len(self.places) - 1))


@dataclass(frozen=True, slots=True)
class Spot:
    """A place in a view: ``mark`` is its number, ``parts`` are the names of what stands there.

    ``waiting`` are the names of what is to stand there and is not there yet.
    """

    mark: str
    name: str
    at: Point
    parts: tuple[str, ...]
    waiting: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Way:
    """One stretch of a bundle in a view, from one of its places to the next."""

    bundle: Bundle
    stretch: Stretch
    start: Point
    end: Point


@dataclass(frozen=True, slots=True)
class Seen:
    """All that a view shows, in metres as `builder.trailer.views` has them.

    ``traces`` are the lines of the body; where its outline is not known, the two sides of the trailer's overall width.
    ``reach`` is the least and the most to the right, and the least and the most down.
    """

    view: View
    traces: tuple[Trace, ...]
    ways: tuple[Way, ...]
    spots: tuple[Spot, ...]
    reach: tuple[float, float, float, float]
    panels: tuple[PanelSeen, ...] = ()


def bundles_of(trailer: Trailer, figures: Figures) -> tuple[Bundle, ...]:
    """Return the ways of the whole trailer in the order of the file, with their letters."""
    geometry = trailer.geometry
    inside: Mapping[Stretch, tuple[str, ...]] = figures.runs.inside
    spares = {wire.number for wire in trailer.spares}
    found: list[tuple[str, list[str], int, tuple[str, ...]]] = []
    before: list[str] = []
    for chase in geometry.chases.values():
        for number, (one, other) in enumerate(pairwise(chase.through)):
            wires = inside.get(Stretch(chase.name, number), ())
            last = found[-1] if found else None
            laid = sorted(figures.runs.laid(Stretch(chase.name, number)))
            if last is not None and last[0] == chase.name and before == laid:
                last[1].append(other)
            else:
                found.append((chase.name, [one, other], number, wires))
            before = laid
    return tuple(
        Bundle(
            mark,
            name,
            geometry.chases[name].kind,
            tuple(places),
            first,
            wires,
            tuple(wire for wire in wires if wire in spares),
            geometry.chases[name].fittings.pull_string,
            geometry.chases[name].holds_mains,
            len(figures.runs.again.get(Stretch(name, first), ())),
        )
        for mark, (name, places, first, wires) in zip(letter_marks(len(found)), found, strict=True)
    )


def marks_of(trailer: Trailer, figures: Figures) -> dict[Stretch, str]:
    """Return the letter of each stretch, that of the bundle it belongs to."""
    return {stretch: bundle.mark for bundle in bundles_of(trailer, figures) for stretch in bundle.stretches}


def place_marks(geometry: Geometry) -> dict[str, str]:
    """Return the number of each place, by its name."""
    return {name: str(n) for n, name in enumerate(geometry.places, start=1)}


def seen_in(
    trailer: Trailer, bundles: Sequence[Bundle], view: View, panels: Sequence[PanelView] = ()
) -> Seen | None:
    """Return what a view shows, with the ``panels`` that one looks at; None where it would be empty."""
    geometry = trailer.geometry
    body = geometry.body
    end_m = END_M["metric" if trailer.identity.units == "metric" else "feet"]
    at_the_rear = _rear_m(geometry) - end_m

    def shown(place: Place) -> bool:
        return {
            View.LEFT: place.back_m < 0 or place.right_m <= MIDDLE_M,
            View.RIGHT: place.back_m < 0 or place.right_m >= -MIDDLE_M,
            View.REAR: place.back_m >= at_the_rear,
            View.FRONT: place.back_m <= end_m,
        }.get(view, True)

    standing = [place for place in geometry.places.values() if shown(place)]
    bare = only_corners(geometry)
    spots = _spots(trailer, view, [place for place in standing if place.name not in bare])
    if not spots:
        return None
    ways = []
    for bundle in bundles:
        for stretch, (one, other) in zip(bundle.stretches, pairwise(bundle.places), strict=True):
            ends = geometry.places[one], geometry.places[other]
            wanted = all if view in (View.REAR, View.FRONT) else any
            if wanted(map(shown, ends)):
                ways.append(Way(bundle, stretch, *(seen(view, end.point_m) for end in ends)))
    every = [spot.at for spot in spots] + [end for way in ways for end in (way.start, way.end)]
    every += _corners_of(geometry, view)
    traces = (
        traces_of(body, view, geometry.blocks.values())
        if body
        else _sides(trailer.identity.width_m, view, extents(every))
    )
    every += [point for trace in traces for point in trace.points]
    faced = tuple(panels_seen(geometry, panels, view, standing, trailer.identity.units))
    every += [point for one in faced for point in one.ring]
    return Seen(view, traces, tuple(ways), tuple(spots), extents(every), faced)


def _sides(width_m: float | None, view: View, reach: tuple[float, float, float, float]) -> tuple[Trace, ...]:
    """Return the two sides of the trailer's overall width, as far as the places of a view reach."""
    if width_m is None or view in (View.LEFT, View.RIGHT):
        return ()
    left, right, top, bottom = reach
    halves = (-width_m / 2, width_m / 2)
    if view is View.ALONG:
        return tuple(Trace("side", "", (left, half), (Step((right, half)),)) for half in halves)
    return tuple(Trace("side", "", (half, top), (Step((half, bottom)),)) for half in halves)


def letter_marks(count: int) -> tuple[str, ...]:
    """Return so many marks: A to Z without I and O, which look like numbers, then AA and AB."""
    found = []
    for n in range(count):
        first, last = divmod(n, len(_LETTERS))
        found.append((_LETTERS[first - 1] if first else "") + _LETTERS[last])
    return tuple(found)


def _rear_m(geometry: Geometry) -> float:
    """Return how far back the body reaches, or the hindmost place where that is not known."""
    if geometry.body is not None:
        return extents(points_of(pieces_of(geometry.body.profile)))[1]
    return max(place.back_m for place in geometry.places.values())


def _corners_of(geometry: Geometry, view: View) -> list[Point]:
    body = geometry.body
    if body is None:
        return []
    front, rear, under, top = extents(points_of(pieces_of(body.profile)))
    half = body.width_m / 2
    return [
        seen(view, (back, right, up))
        for back in (front, rear)
        for right in (-half, half)
        for up in (under, top)
    ]


def _spots(trailer: Trailer, view: View, places: Sequence[Place]) -> list[Spot]:
    geometry = trailer.geometry
    marks = place_marks(geometry)
    waiting = {part.name for part in trailer.parts.values() if part.waiting}
    here: dict[str, list[str]] = {}
    for part in placed_parts(trailer):
        here.setdefault(geometry.stands[part].place, []).append(part)
    return [
        Spot(
            marks[place.name],
            place.name,
            seen(view, place.point_m),
            tuple(part for part in here.get(place.name, ()) if part not in waiting),
            tuple(part for part in here.get(place.name, ()) if part in waiting),
        )
        for place in places
    ]
