"""A bay was closed before it was ready.

What: a bay stands under ``closed bays``, and no photo of it is named, or wires in it are not pulled yet, or ends that
wait in it are not said to be insulated, or something lies in it that must be fixed.

Why: from then on nobody sees what is in it. A photo is all that is left to go by, and what is wrong in it stays wrong.

Limit: what the file says itself: ``closed bays``, ``pulled``, ``waiting`` and ``spares``, and the findings that must be
fixed. Wires count as not pulled only where the file tells under ``pulled`` which are; one that was measured is in. One
photo for two bays is *worth knowing*: it may show one of them alone.

Walls open: open it once more while that is easy, or write down what is missing in the file.

Walls closed: write down what is missing; what is wrong is put right with what stays in reach.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    places: {front box: {back: 1 ft, left: 26 in, up: 2 ft}, lamp: {back: 7 ft, left: 26 in, up: 2 ft}}
    chases: {groove: {through: [front box, lamp]}}
    body:
      width: 5 ft
      profile: [{back: 0 in, up: 0 in}, {back: 9 ft, up: 0 in}, {back: 9 ft, up: 4 ft}, {back: 0 in, up: 4 ft}]
    closed bays: {left wall: {date: 3 May}}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 8 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    places: {front box: {back: 1 ft, left: 26 in, up: 2 ft}, lamp: {back: 7 ft, left: 26 in, up: 2 ft}}
    chases: {groove: {through: [front box, lamp]}}
    body:
      width: 5 ft
      profile: [{back: 0 in, up: 0 in}, {back: 9 ft, up: 0 in}, {back: 9 ft, up: 4 ft}, {back: 0 in, up: 4 ft}]
    closed bays: {left wall: {date: 3 May, photo: left-wall.jpg}}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      lamp: {path: [lamp: 8 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from builder.electrics.figures import Figures
from builder.routes.bays_held import BayHeld
from builder.rules.finding import Finding, Level, Remark, WayOut
from builder.rules.wording import say
from builder.trailer.already_in import already_in
from builder.trailer.bays import ClosedBay, photo_name
from builder.trailer.model import Trailer
from builder.trailer.wires import Role

PHOTO_SAYS = "“{bay}” is closed, and no photo of it is named"
PHOTO_HELP = "write its name, as in photo: {photo}; where none was taken, open it once more and take one"
PHOTO_CLOSED_HELP = "write its name, as in photo: {photo}; where none was taken, write photo: none"
SAME_SAYS = "“{bay}” names the same photo as “{other}”: {photo}"
SAME_HELP = "name the photo of this bay, as in photo: {own}; where one shows both, leave it"
PULLED_SAYS = "“{bay}” is closed, and not all wires in it are pulled: {names}"
PULLED_HELP = "open it and pull them, then write under pulled: {line}"
PULLED_CLOSED_HELP = "if they are in, write under pulled: {line}; if not, lay them where they stay in sight"
ENDS_SAYS = "“{bay}” is closed, and nothing says that the ends that wait in it are insulated: {names}"
ENDS_HELP = "insulate each end by itself, and write ends insulated: yes"
ENDS_CLOSED_HELP = (
    "leave their fuse out until each end is insulated by itself, then write ends insulated: yes"
)
MUST_SAYS = "“{bay}” is closed over something that must be fixed: {message}"
MUST_HELP = "open it, put that right as its own finding says, and close it then"
MUST_CLOSED_HELP = "put that right as its own finding says, with what stays in reach"
CLOSED_BASIS = "what the file says of bays, of wires that are in, and of ends that wait"
_MOST = 8


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for each closed bay without a photo, with wires that are not in, or with ends that wait open."""
    first: dict[str, str] = {}
    for closed, held in _closed(trailer, figures):
        other = first.setdefault(closed.photo or closed.bay, closed.bay)
        if not closed.photo and not (closed.without_photo and trailer.identity.walls_closed):
            values = {"bay": closed.bay, "photo": f"{photo_name(closed.bay)}.jpg"}
            yield _remark(closed, say(PHOTO_SAYS, **values), (PHOTO_HELP, PHOTO_CLOSED_HELP), **values)
        elif closed.photo and other != closed.bay:
            message = say(SAME_SAYS, bay=closed.bay, other=other, photo=closed.photo)
            own = f"{photo_name(closed.bay)}.jpg"
            yield replace(_remark(closed, message, (SAME_HELP, SAME_HELP), own=own), level=Level.WORTH)
        names = not_pulled(trailer, held)
        if names:
            line = ", ".join(f"{_as_written(name)}: yes" for name in list(names)[:_MOST])
            told = [f"{name} ({', '.join(wires)})" for name, wires in names.items()]
            message = say(PULLED_SAYS, bay=closed.bay, names=_listed(told, "; "))
            yield _remark(closed, message, (PULLED_HELP, PULLED_CLOSED_HELP), line=line)
        if held.ends and not closed.insulated:
            message = say(ENDS_SAYS, bay=closed.bay, names=_listed([end.name for end in held.ends]))
            yield _remark(closed, message, (ENDS_HELP, ENDS_CLOSED_HELP))


def check_after(trailer: Trailer, figures: Figures, found: Sequence[Finding]) -> Iterator[Remark]:
    """Yield a remark for each closed bay and each finding that must be fixed and lies in it."""
    for closed, held in _closed(trailer, figures):
        for finding in lying_in(held, found):
            message = say(MUST_SAYS, bay=closed.bay, message=finding.message)
            yield _remark(closed, message, (MUST_HELP, MUST_CLOSED_HELP))


def lying_in(held: BayHeld, found: Sequence[Finding]) -> tuple[Finding, ...]:
    """Return the findings that must be fixed and are about wires in a bay.

    A fuse or a stud that is wrong is mended where it is, whatever wall its circuit runs in: such findings name no wire.
    """
    inside = frozenset(held.wires)
    return tuple(one for one in found if one.level is Level.MUST and not inside.isdisjoint(one.wires))


def not_pulled(trailer: Trailer, held: BayHeld) -> Mapping[str, Sequence[str]]:
    """Return the wires in a bay that are not on record as in, by circuit or spare wire; none where none is pulled."""
    if not trailer.pulled:
        return {}
    inside = frozenset(held.wires).difference(already_in(trailer))
    found: dict[str, list[str]] = {}
    for wire in (*trailer.wires, *trailer.spares):
        if wire.number in inside:
            name = wire.start.pin if wire.role is Role.SPARE else trailer.circuit(wire.circuit).name
            found.setdefault(name, []).append(wire.number)
    return found


def _as_written(name: str) -> str:
    """Return a name as it stands in braces: in quotes where a comma would end it."""
    return f'"{name}"' if "," in name and '"' not in name else name


def _closed(trailer: Trailer, figures: Figures) -> Iterator[tuple[ClosedBay, BayHeld]]:
    held = {one.bay.name: one for one in figures.bays}
    yield from ((closed, held[closed.bay]) for closed in trailer.closed_bays if held[closed.bay].holds)


def _listed(names: Sequence[str], between: str = ", ") -> str:
    told = tuple(dict.fromkeys(names))
    return between.join(told[:_MOST]) + (" …" if len(told) > _MOST else "")


def _remark(closed: ClosedBay, message: str, help_: tuple[str, str], **values: str) -> Remark:
    return Remark(
        origin=closed.origin,
        message=message,
        help=WayOut(*(say(sentence, **values) for sentence in help_)),
        known="file",
        basis=CLOSED_BASIS,
    )
