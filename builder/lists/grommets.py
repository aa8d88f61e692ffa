"""Grommets: one for every entry into a box, and one for every hole through skin or sheet metal."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from builder.electrics.box_sides import Side, comes_from
from builder.electrics.figures import Figures, every_size
from builder.lists.shopping import Item
from builder.routes.fill import least_hole_m
from builder.routes.passings import Passing
from builder.trailer.model import BATTERY, FRONT_BOX, SECOND_PLUG, TOW_PLUG, Trailer
from builder.trailer.spare_ends import thing_of
from builder.trailer.wires import Role, Wire

Entry = tuple[str, str, str]
"""A box, what enters it: a circuit, a plug's cable or a spare wire; and the name of that."""


@dataclass(frozen=True, slots=True)
class BoxEntry:
    """What enters a box at one place: the wires of a circuit, of a plug's cable, or a spare wire; ``name`` is its name.

    ``bore_m`` is the least hole for them in metres, None where a wire has no known diameter. ``sides`` are those from
    which they come to the box, as far as places tell it.
    """

    box: str
    name: str
    wires: tuple[str, ...]
    bore_m: float | None
    sides: tuple[tuple[Side, ...], ...]


def grommet_items(trailer: Trailer, figures: Figures) -> tuple[Item, ...]:
    """Return one grommet for every entry into a box: a circuit's wires, a plug's cable, or a spare wire by itself.

    Only the front box, and the battery's box where it has one, are known; holes in frame and skins are not in the file.
    What has the battery's place stands in the battery's box, as a fuse beside it does: a wire between the two enters
    nothing. Each is for a hole as wide as its wires ask for. Where the file has the holes of the front box it is one
    for each of them, by its bore; what is in stock has no size and is not taken for these.
    """
    return (*_box_grommets(trailer, figures), *_bored_grommets(trailer))


def _bored_grommets(trailer: Trailer) -> Iterator[Item]:
    """Yield the grommets for the holes of the front box that the file has, the widest first."""
    holes: dict[float, list[str]] = {}
    for hole in trailer.holes:
        holes.setdefault(hole.bore_m, []).append(hole.name)
    for bore_m in sorted(holes, reverse=True):
        names = tuple(f"{FRONT_BOX}: {name}" for name in holes[bore_m])
        id_ = f"grommet {bore_m * 1000:.6g} mm"
        yield Item(id_, "grommets", "grommet", used=len(names), bore_m=bore_m, names=names)


def _box_grommets(trailer: Trailer, figures: Figures) -> Iterator[Item]:
    """Yield the grommets of boxes without holes on record, by the least hole for their wires, the widest first."""
    found: dict[float | None, list[str]] = {}
    for entry in box_entries(trailer, figures):
        found.setdefault(entry.bore_m, []).append(f"{entry.box}: {entry.name}")
    left = trailer.stock.grommets
    for bore_m in sorted(found, key=lambda one: -(one or 0.0)):
        names, size = tuple(found[bore_m]), f" for {bore_m * 1000:.6g} mm" if bore_m else ""
        stock = min(len(names), left)
        left -= stock
        id_ = f"grommet{size}"
        place, used = "box" if bore_m else "", len(names)
        yield Item(
            id_, "grommets", "grommet", used=used, stock=stock, place=place, bore_m=bore_m, names=names
        )


def box_entries(trailer: Trailer, figures: Figures) -> tuple[BoxEntry, ...]:
    """Return the entries into boxes without holes on record, in the order of their wires."""
    size_of, stands = every_size(trailer, figures.wires), trailer.geometry.stands
    made = []
    for (box, _, name), wires in _box_entries(trailer).items():
        bore_m = least_hole_m([size_of[wire] for wire in wires], trailer.shelf, trailer.identity.units)
        runs = [figures.runs.runs[wire] for wire in wires if wire in figures.runs.runs]
        sides = {
            side: None
            for run in runs
            if box in stands
            for _, side in comes_from(trailer, run, stands[box].place)
        }
        made.append(BoxEntry(box, name, tuple(wires), bore_m, tuple(sides)))
    return tuple(made)


def _box_entries(trailer: Trailer) -> dict[Entry, list[str]]:
    """Return the wires of each entry into a box."""
    boxes = [(FRONT_BOX, {FRONT_BOX})] if trailer.front_box and not trailer.holes else []
    if trailer.battery and trailer.battery.box:
        boxes.append((BATTERY, _beside_battery(trailer)))
    entries: dict[Entry, list[str]] = {}
    for wire in (*trailer.wires, *trailer.spares):
        start, end = (
            thing_of(at.part) if wire.role is Role.SPARE else at.part for at in (wire.start, wire.end)
        )
        for box, names in boxes:
            inside = set(map(thing_of, names)) if wire.role is Role.SPARE else names
            if (start in inside) is not (end in inside):
                entries.setdefault((box, *_entry_of(trailer, wire)), []).append(wire.number)
    return entries


def _entry_of(trailer: Trailer, wire: Wire) -> tuple[str, str]:
    """Return what goes in at one place together with a wire: its plug's cable, its circuit, or the spare wire alone."""
    if wire.role is Role.SPARE:
        return "spare", wire.start.pin
    at_plug = next((at for at in (wire.start, wire.end) if at.part == TOW_PLUG), None)
    if at_plug is None or trailer.tow_plug is None:
        return "circuit", trailer.circuit(wire.circuit).name
    return "plug", SECOND_PLUG if trailer.tow_plug.pattern.contact(at_plug.pin).plug else TOW_PLUG


def _beside_battery(trailer: Trailer) -> set[str]:
    """Return the battery, and what has its place."""
    stands = trailer.geometry.stands
    if BATTERY not in stands:
        return {BATTERY}
    return {BATTERY, *(name for name, stand in stands.items() if stand.place == stands[BATTERY].place)}


def hole_items(trailer: Trailer, figures: Figures) -> tuple[Item, ...]:
    """Return one grommet or bushing for every hole through the body's skin or through sheet metal that wires pass.

    One that is there already, as the file says, is not bought. Of those in stock the boxes take theirs first.
    """
    holes = [
        " – ".join(hole.places)
        for hole in figures.laid.passings
        if fitted(trailer, hole, "grommets") is not True
    ]
    if not holes:
        return ()
    left = trailer.stock.grommets - sum(item.stock for item in grommet_items(trailer, figures))
    stock = min(len(holes), left)
    return (
        Item("hole grommet", "grommets", "hole grommet", used=len(holes), stock=stock, names=tuple(holes)),
    )


def fitted(trailer: Trailer, hole: Passing, word: str) -> bool | None:
    """Return what the file says of a fitting of a hole: False where one of its chases says no, None where none tells.

    ``word`` is one of `Fittings` that is yes or no.
    """
    chases = trailer.geometry.chases
    said = [told for name in hole.chases if (told := getattr(chases[name].fittings, word)) is not None]
    return all(said) if said else None
