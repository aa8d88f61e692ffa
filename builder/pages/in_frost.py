"""What charges a lithium battery by itself, and how each of these ways is stopped before frost."""

from __future__ import annotations

from dataclasses import dataclass

from builder.electrics.charging import ChargingFigures
from builder.electrics.energy import is_lithium
from builder.pages.view import View
from builder.pages.wiring import clamp_comes_off, part_of
from builder.trailer.model import TOW_PLUG
from builder.trailer.parts import Part


@dataclass(frozen=True, slots=True)
class FrostWay:
    """One way in which the battery is charged with nobody near.

    ``source`` is the kind of its supply and ``supply`` its name. Of the car's way ``fuse`` comes out before a drive,
    when the plug has to be in; ``where`` tells its place, and ``clamp`` whether the minus clamp comes off for it.
    All empty where no fuse of that way is known.
    """

    source: str
    supply: str
    fuse: str = ""
    where: str = ""
    clamp: bool = False


def frost_ways(view: View) -> tuple[FrostWay, ...]:
    """Return the ways to stop before frost, in the order of the figures; none unless the battery is lithium.

    A charger does not know how cold the battery is, so whoever is near stops it (common practice). The fuse to
    take out is one on the way from the supply; one that needs no clamp off comes first.
    """
    energy = view.figures.energy
    if energy is None or not is_lithium(view.trailer):
        return ()
    return tuple(_way(view, one) for one in energy.charging)


def _way(view: View, one: ChargingFigures) -> FrostWay:
    circuit = view.trailer.circuit(one.circuit)
    known = {fuse.name for fuse in view.figures.fuses}
    parts = (part_of(view.trailer, stop) for stop in circuit.stops)
    fuses: list[Part] = [part for part in parts if part is not None and part.name in known]
    fuses.sort(key=lambda part: clamp_comes_off(view.trailer, part.name))
    if one.source != TOW_PLUG or not fuses:
        return FrostWay(one.source, one.supply)
    fuse = fuses[0]
    return FrostWay(one.source, one.supply, fuse.name, fuse.where, clamp_comes_off(view.trailer, fuse.name))
