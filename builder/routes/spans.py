"""Written lengths of lines past parts without a place, held against the places at both ends."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from builder.routes.fits import MORE_M, SHARE, TAPE_M, is_written
from builder.routes.legs import Finder
from builder.routes.ways import NoWay
from builder.trailer.assumed import assumption
from builder.trailer.model import FRONT_BOX, Trailer
from builder.trailer.places import BOX_LOOP
from builder.trailer.wires import Role, Wire

_NOISE = 1e-9
_OUT = (Role.FEED, Role.TRAVELLER)


@dataclass(frozen=True, slots=True)
class Span:
    """Wires that follow each other from a part with a place to the next one with a place, their lengths written.

    ``least_m`` is the least wire that gets from end to end, in metres: by the way through the chases, else in a
    straight line. ``whole_m`` is that way with all that is added to it, None where no chase leads there. ``chases`` are
    those of the way.
    """

    wires: tuple[Wire, ...]
    start: str
    end: str
    least_m: float
    whole_m: float | None
    chases: tuple[str, ...]

    @property
    def written_m(self) -> float:
        """What the file gives for all of them together, in metres."""
        return sum(wire.length_m for wire in self.wires)

    @property
    def is_short(self) -> bool:
        """Whether they are written shorter than their way, an inch left for the tape measure."""
        return self.least_m - TAPE_M > self.written_m + _NOISE

    @property
    def is_long(self) -> bool:
        """Whether they are written so much longer than their way that they may run another one."""
        return bool(self.chases) and self.written_m > SHARE * (self.whole_m or 0.0) + MORE_M + _NOISE


def spans(trailer: Trailer) -> tuple[Span, ...]:
    """Return the spans that the runs of single wires leave out, in the order of the wires.

    A wire whose both ends have a place is one only where no chase leads from end to end: then nothing but the straight
    distance can be held against it.
    """
    if not trailer.geometry:
        return ()
    finder = Finder(trailer.geometry)
    after: dict[tuple[int, str], list[Wire]] = {}
    for wire in trailer.wires:
        if wire.role in _OUT and is_written(wire):
            after.setdefault((wire.circuit, wire.start.part), []).append(wire)
    stands = trailer.geometry.stands
    firsts = (wire for found in after.values() for wire in found if wire.start.part in stands)
    found = (_span(trailer, finder, line) for first in firsts for line in _lines(after, stands, (first,)))
    return tuple(one for one in found if one is not None)


def _lines(
    after: Mapping[tuple[int, str], list[Wire]], stands: Mapping[str, object], line: tuple[Wire, ...]
) -> Iterator[tuple[Wire, ...]]:
    """Yield the lines that begin so, each as far as the next part with a place; none where there is no such part."""
    last = line[-1]
    if last.end.part in stands:
        yield line
        return
    passed = {wire.start.part for wire in line}
    for wire in after.get((last.circuit, last.end.part), ()):
        if wire.end.part not in passed:
            yield from _lines(after, stands, (*line, wire))


def _span(trailer: Trailer, finder: Finder, line: tuple[Wire, ...]) -> Span | None:
    stands = trailer.geometry.stands
    start, end = line[0].start.part, line[-1].end.part
    here, there = stands[start], stands[end]
    past = tuple(name for wire in line for leg in wire.legs for name in leg.past)
    way = finder.way(here.place, there.place, past)
    rise_m = here.rise_m + there.rise_m
    if isinstance(way, NoWay):
        places = trailer.geometry.places
        straight_m = places[here.place].distance_m(places[there.place])
        return Span(line, start, end, straight_m + rise_m, None, ())
    if len(line) == 1:
        return None
    chases = trailer.geometry.chases
    given_m = sum(step.slack_m for step in way.steps if chases[step.stretch.chase].slack_given)
    loops_m = assumption(trailer, BOX_LOOP).value * (start, end).count(FRONT_BOX)
    return Span(
        line,
        start,
        end,
        way.length_m - way.slack_m + rise_m + given_m,
        way.length_m + rise_m + loops_m,
        tuple(dict.fromkeys(step.stretch.chase for step in way.steps)),
    )
