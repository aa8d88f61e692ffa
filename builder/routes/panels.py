"""What lies behind each panel, and how long a screw may be that goes into it from where it is seen."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise
from math import floor

from builder.routes.behind import Part, parts_behind
from builder.routes.faces import Face, Unclear, laid_faces
from builder.routes.fits import misfits
from builder.routes.loose import reaches_m
from builder.routes.runs import Runs
from builder.routes.skins import tube_parts
from builder.routes.standing import (
    DEEPEST_M,
    Standing,
    ends_behind,
    holds,
    placed_parts,
    standing_behind,
)
from builder.routes.tubes import Tube
from builder.trailer.left import left_wires
from builder.trailer.model import Trailer
from builder.trailer.parts import BRAKE_MAGNET
from builder.trailer.places import ChaseKind, Geometry, Panel

STEPS_M = {"feet": 0.00635, "metric": 0.005}
"""Screws are sold by the quarter of an inch, or by 5 mm: what is printed is rounded down to it."""


class Open(StrEnum):
    """Why the record of what is behind a panel is not whole."""

    UNSAID = "the file does not say what runs behind it"
    NOT_LAID = "nobody can tell where the panel lies"
    NOT_NAMED = "a chase runs behind it that is not named there"
    NOT_THERE = "a chase is named there that does not run behind it"
    BEFORE = "a chase runs close before it, and the file does not say from which side it comes off"
    ALSO = "something else runs behind it"
    MAINS = "the trailer has mains, and the file does not say whether it runs behind it"
    MAINS_HERE = "a chase with mains in it runs behind it"
    NO_RUN = "nobody can tell where a wire runs"
    LEFT = "a wire that serves nothing any more may still lie behind it"
    NO_WIRES = "the file has no wires for something that has some"
    NO_FIT = "the written length of a wire does not fit its way, so that it may run another one"
    NO_DIAMETER = "the diameter of a wire is not known"
    LOOSE = "a wire goes on to its part outside the chases"
    PART = "a part stands behind it, and how much room it takes is not known"
    END = "an end of a spare wire waits behind it, and how it lies is not known"
    FREE = "an open bay is behind it, where wires may hang off their line"
    EMPTY = "a chase runs behind it in which no wire is recorded"
    BENT = "it is bent, and how it runs from corner to corner is not recorded"


NAMELESS = (Open.UNSAID, Open.MAINS, Open.BENT)
"""Reasons that concern nothing with a name."""


@dataclass(frozen=True, slots=True)
class Behind:
    """One part of a stretch behind a panel: on which of its faces, and between which ends there.

    ``screw_m`` is how long a screw may be that goes straight in anywhere near it, in metres from the panel's face:
    the wires widened by ``unsure_m`` are out of its reach. Nothing or less where no screw is short enough; None
    where the diameter of a wire is not known.
    """

    tube: Tube
    face: int
    part: Part
    unsure_m: float
    screw_m: float | None


@dataclass(frozen=True, slots=True)
class PanelView:
    """What is known of one panel: its faces, what lies behind them, and why that is not the whole of it.

    ``screw_m`` is the longest screw for the whole panel, None where the record is not whole or no wire is recorded
    behind it. ``missing`` has each reason with the names concerned, ``parts`` what stands behind it.
    """

    panel: Panel
    faces: tuple[Face, ...]
    behind: tuple[Behind, ...]
    missing: tuple[tuple[Open, tuple[str, ...]], ...]
    unclear: Unclear | None = None
    parts: tuple[Standing, ...] = ()

    @property
    def is_whole(self) -> bool:
        """Whether all that runs behind it is recorded."""
        return not self.missing

    @property
    def screw_m(self) -> float | None:
        """The longest screw that may go in anywhere on the panel, in metres; None where that is not known."""
        limits = [one.screw_m for one in self.behind if one.screw_m is not None]
        return min(limits) if limits and self.is_whole else None


def printed_screw_m(limit_m: float, units: str) -> float:
    """Return a limit for screws rounded down to a length that is sold, in metres; 0 where none is as short."""
    step_m = STEPS_M["feet" if units == "feet" else "metric"]
    return max(floor(limit_m / step_m + 1e-9), 0) * step_m


def panel_views(trailer: Trailer, runs: Runs, tubes: Sequence[Tube], tape_m: float) -> tuple[PanelView, ...]:
    """Return what is behind each panel, in the order of the file; ``tape_m`` is the tape's tolerance in metres."""
    return tuple(_view(trailer, runs, tubes, (panel, tape_m)) for panel in trailer.geometry.panels.values())


def _view(trailer: Trailer, runs: Runs, tubes: Sequence[Tube], asked: tuple[Panel, float]) -> PanelView:
    panel, tape_m = asked
    faces = laid_faces(trailer.geometry, panel.corners, tape_m, away=not panel.outside)
    if isinstance(faces, Unclear):
        return PanelView(panel, (), (), ((Open.NOT_LAID, ()),), faces)
    behind = tuple(
        _behind(face, (tube, number), part, tape_m)
        for number, face in enumerate(faces)
        for tube in tubes
        for part in tube_parts(face, tube, tape_m, DEEPEST_M)
    )
    parts = standing_behind(trailer.geometry, faces, placed_parts(trailer), tape_m)
    missing = {
        **_unsaid(trailer, panel, faces, tape_m),
        Open.NO_RUN: tuple(runs.unknown),
        Open.LEFT: tuple(wire.number for wire in left_wires(trailer)),
        Open.NO_WIRES: _without_wires(trailer),
        Open.NO_FIT: misfits(trailer, runs),
        Open.NO_DIAMETER: tuple(
            dict.fromkeys(one.tube.stretch.chase for one in behind if one.screw_m is None)
        ),
        Open.LOOSE: _loose(trailer, runs, faces, tape_m),
        Open.PART: tuple(one.name for one in parts),
        Open.END: ends_behind(trailer, faces, tape_m),
        **_held_badly(trailer.geometry, behind, (faces, tape_m)),
    }
    told = tuple((why, names) for why, names in missing.items() if names or why in NAMELESS)
    return PanelView(panel, faces, behind, told, parts=parts)


def _behind(face: Face, held: tuple[Tube, int], part: Part, tape_m: float) -> Behind:
    tube, number = held
    unsure_m = tape_m + face.bent_m
    screw_m = None if tube.radius_m is None else part.depth_m - tube.radius_m - unsure_m
    return Behind(tube, number, part, unsure_m, screw_m)


def _unsaid(
    trailer: Trailer, panel: Panel, faces: Sequence[Face], tape_m: float
) -> Mapping[Open, tuple[str, ...]]:
    """Return what the file leaves open of a panel: what it names there against what its measures say."""
    found: dict[Open, tuple[str, ...]] = {}
    there = chases_behind(trailer.geometry, faces, tape_m)
    if panel.behind is None:
        found[Open.UNSAID] = ()
    else:
        found[Open.NOT_NAMED] = tuple(name for name in there if name not in panel.behind)
        found[Open.NOT_THERE] = tuple(name for name in panel.behind if name not in there)
    if panel.outside is None:
        other = laid_faces(trailer.geometry, panel.corners, tape_m, away=False)
        before = () if isinstance(other, Unclear) else chases_behind(trailer.geometry, other, tape_m)
        found[Open.BEFORE] = tuple(name for name in before if name not in there)
    found[Open.MAINS_HERE] = tuple(name for name in there if trailer.geometry.chases[name].holds_mains)
    if panel.also_behind:
        found[Open.ALSO] = (panel.also_behind,)
    elif trailer.mains is not None and panel.also_behind is None:
        found[Open.MAINS] = ()
    return found


def chases_behind(geometry: Geometry, faces: Sequence[Face], tape_m: float) -> tuple[str, ...]:
    """Return the chases that run behind some faces by their names, with wires in them or without."""
    found = []
    for chase in geometry.chases.values():
        points = [geometry.places[name].point_m for name in chase.through]
        pieces = list(pairwise(points))
        wide_m = tape_m + (chase.bore_m or 0.0) / 2
        if any(parts_behind(face, piece, wide_m, DEEPEST_M + wide_m) for face in faces for piece in pieces):
            found.append(chase.name)
    return tuple(found)


def _without_wires(trailer: Trailer) -> tuple[str, ...]:
    """Return what has wires in the trailer and none in the file: parts on no path, and electric brakes."""
    magnets = any(part.kind == BRAKE_MAGNET for part in trailer.parts.values())
    brakes = trailer.brakes is not None and trailer.brakes.kind == "electric" and not magnets
    return (*trailer.unwired, *(("brakes",) if brakes else ()))


def _held_badly(
    geometry: Geometry, behind: Sequence[Behind], laid: tuple[Sequence[Face], float]
) -> Mapping[Open, tuple[str, ...]]:
    """Return what tells of no depth: wires that nothing holds, chases that hold none yet, and a bend of the panel.

    The true panel bulges towards the wires between its corners, by nobody knows how much.
    """
    faces, tape_m = laid
    held = {one.tube.stretch.chase for one in behind}
    there = chases_behind(geometry, faces, tape_m)
    found: dict[Open, tuple[str, ...]] = {
        Open.FREE: tuple(name for name in there if geometry.chases[name].kind is ChaseKind.BAY),
        Open.EMPTY: tuple(name for name in there if name not in held and geometry.chases[name].takes_wires),
    }
    if len(faces) > 1:
        found[Open.BENT] = ()
    return found


def _loose(trailer: Trailer, runs: Runs, faces: Sequence[Face], tape_m: float) -> tuple[str, ...]:
    """Return the parts to which a wire goes on outside the chases where it may do so behind the panel."""
    stands = trailer.geometry.stands
    return tuple(
        name
        for name, far_m in reaches_m(trailer, runs).items()
        if holds(faces, trailer.geometry.places[stands[name].place].point_m, far_m + tape_m)
    )
