"""What lies behind each panel, and how long a screw may be that goes into it from where it is seen."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise

from builder.routes.behind import Part, parts_behind
from builder.routes.faces import Face, Unclear, laid_faces
from builder.routes.runs import Runs
from builder.routes.skins import tube_parts
from builder.routes.tubes import Tube
from builder.routes.vectors import Vector, from_outline
from builder.trailer.model import Trailer
from builder.trailer.places import Geometry, Panel

DEEPEST_M = 0.15
"""What lies deeper behind a panel is not told of: no screw for a trailer's lining is as long (common practice)."""


class Open(StrEnum):
    """Why the record of what is behind a panel is not whole."""

    UNSAID = "the file does not say what runs behind it"
    NOT_LAID = "nobody can tell where the panel lies"
    NOT_NAMED = "a chase runs behind it that is not named there"
    NOT_THERE = "a chase is named there that does not run behind it"
    BEFORE = "a chase runs close before it, and the file does not say from which side it comes off"
    ALSO = "something else runs behind it"
    MAINS = "the trailer has mains, and the file does not say whether it runs behind it"
    NO_RUN = "nobody can tell where a wire runs"
    NO_DIAMETER = "the diameter of a wire is not known"
    LOOSE = "a wire goes on to its part outside the chases"


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
    behind it. ``missing`` has each reason with the names concerned.
    """

    panel: Panel
    faces: tuple[Face, ...]
    behind: tuple[Behind, ...]
    missing: tuple[tuple[Open, tuple[str, ...]], ...]
    unclear: Unclear | None = None

    @property
    def is_whole(self) -> bool:
        """Whether all that runs behind it is recorded."""
        return not self.missing

    @property
    def screw_m(self) -> float | None:
        """The longest screw that may go in anywhere on the panel, in metres; None where that is not known."""
        limits = [one.screw_m for one in self.behind if one.screw_m is not None]
        return min(limits) if limits and self.is_whole else None


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
    missing = {
        **_unsaid(trailer, panel, faces, tape_m),
        Open.NO_RUN: tuple(runs.unknown),
        Open.NO_DIAMETER: tuple(
            dict.fromkeys(one.tube.stretch.chase for one in behind if one.screw_m is None)
        ),
        Open.LOOSE: _loose(trailer.geometry, faces, tape_m),
    }
    told = tuple((why, names) for why, names in missing.items() if names or why in (Open.UNSAID, Open.MAINS))
    return PanelView(panel, faces, behind, told)


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


def _loose(geometry: Geometry, faces: Sequence[Face], tape_m: float) -> tuple[str, ...]:
    """Return the parts to which a wire goes on outside the chases where it may do so behind the panel."""
    found = []
    for name, stand in geometry.stands.items():
        reach_m = stand.rise_m + tape_m
        if stand.rise_m > 0 and any(
            _holds(face, geometry.places[stand.place].point_m, reach_m) for face in faces
        ):
            found.append(name)
    return tuple(found)


def _holds(face: Face, point: Vector, reach_m: float) -> bool:
    x, y, depth = face.seen(point)
    return -reach_m <= depth <= DEEPEST_M + reach_m and from_outline((x, y), face.outline) <= reach_m
