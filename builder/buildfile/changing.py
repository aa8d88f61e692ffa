"""A trailer with one thing otherwise than it was planned: a wire, a circuit, a part, or road lamps."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace

from builder import quantities
from builder.buildfile.declared_changes import WHOLE, ChangeWords
from builder.buildfile.written import Key, Written, fold
from builder.routes.legs import Finder, leg_length_m
from builder.routes.ways import NoWay
from builder.trailer.assumed import assumption
from builder.trailer.circuits import Circuit
from builder.trailer.model import Trailer
from builder.trailer.origin import Origin
from builder.trailer.parts import Draw
from builder.trailer.places import BOX_LOOP, Geometry
from builder.trailer.wires import Leg, Load, Role, Wire


def with_wire(trailer: Trailer, wire: Wire, key: Key, words: ChangeWords) -> Trailer:
    """Return a trailer in which a wire, as it was planned, is as it was laid."""
    new = next(one for one in (*trailer.wires, *trailer.spares) if one.number == wire.number)
    if words.through:
        new = rerouted(trailer, new, words.through, key.origin)
    if words.length is not None:
        new = replace(new, length_m=words.length.value, length_source="written", origin=key.origin)
    if words.size is not None:
        new = replace(new, size=words.size.value)
    if words.color is not None:
        new = replace(new, color=words.color.value)

    def changed(wires: tuple[Wire, ...]) -> tuple[Wire, ...]:
        return tuple(new if one.number == wire.number else one for one in wires)

    circuits = tuple(_stops_moved(c, wire, new) if c.number == wire.circuit else c for c in trailer.circuits)
    return replace(trailer, wires=changed(trailer.wires), spares=changed(trailer.spares), circuits=circuits)


def _stops_moved(circuit: Circuit, old: Wire, new: Wire) -> Circuit:
    """Return a circuit whose leg to the end of a feed is as long as that feed, where it was so long before."""
    if old.role is not Role.FEED or old.length_m == new.length_m:
        return circuit
    stops = tuple(
        replace(stop, length_m=new.length_m)
        if stop.part == old.end.part and abs(stop.length_m - old.length_m) < 1e-9
        else stop
        for stop in circuit.stops
    )
    return replace(circuit, stops=stops)


def with_circuit(trailer: Trailer, circuit: Circuit, words: ChangeWords) -> Trailer:
    """Return a trailer in which a circuit has the fuse and the size that it was built with; a bond keeps its own."""
    now = trailer.circuit(circuit.number)
    if words.fuse is not None:
        now = replace(now, given_fuse_a=words.fuse.value, fuse_origin=words.fuse.origin)
    wires, parts = trailer.wires, dict(trailer.parts)
    holder = parts.get(circuit.fuse_part)
    if words.fuse is not None and holder is not None and holder.rating_a is not None:
        parts[holder.name] = replace(holder, rating_a=words.fuse.value)
    if words.size is not None:
        size = words.size.value
        wires = tuple(
            replace(w, size=size)
            if w.circuit == now.number and w.size in (None, circuit.size) and w.role is not Role.BOND
            else w
            for w in wires
        )
        now = replace(now, size=size)
    circuits = tuple(now if one.number == now.number else one for one in trailer.circuits)
    return replace(trailer, circuits=circuits, wires=wires, parts=parts)


def with_part(trailer: Trailer, name: str, words: ChangeWords) -> Trailer:
    """Return a trailer in which a part draws what was fitted; it is stated now, and no longer assumed."""
    part = trailer.parts[name]
    written = next((value for key, value in words.draws.items() if key == WHOLE), None)
    if part.draw is None or written is None:
        return trailer
    takes = written.value
    value = takes.value * ((part.lit_length_m or 1.0) if takes.per_m else 1.0)
    draw = replace(part.draw, value=value, unit=takes.unit, assumption="")
    loads = tuple(
        replace(load, draw=draw) if load.part == name and load.draw == part.draw else load
        for load in trailer.loads
    )
    parts = {**trailer.parts, name: replace(part, draw=draw)}
    assumed = tuple(made for made in trailer.assumed if made.id != part.draw.assumption)
    return replace(trailer, parts=parts, loads=loads, assumed=assumed)


def with_lamps(trailer: Trailer, names: Collection[str], words: ChangeWords) -> Trailer:
    """Return a trailer in which road lamps draw what was fitted, for each function that is given.

    Stop and turn of one lead are one load as large as the larger of them: where only one is given, it gets no smaller.
    """
    given = {fold(function): written.value for function, written in words.draws.items()}
    loads = tuple(_lit(load, given) if load.part in names else load for load in trailer.loads)
    rest = {load.draw.assumption for load in loads if load.draw is not None}
    gone = {load.draw.assumption for load in trailer.loads if load.draw is not None} - rest
    return replace(trailer, loads=loads, assumed=tuple(one for one in trailer.assumed if one.id not in gone))


def _lit(load: Load, given: Mapping[str, quantities.Draw]) -> Load:
    shown = load.what.split(" and ")
    new = [
        replace(load.draw, value=given[one].value, unit=given[one].unit, assumption="")
        for one in shown
        if one in given and load.draw
    ]
    if not new or load.draw is None:
        return load
    of_two = set(shown) == {"stop", "turn"} and len(new) < len(shown)
    return replace(load, draw=max([*new, load.draw] if of_two else new, key=_amps))


def _amps(draw: Draw) -> float:
    return draw.value / draw.at_v if draw.unit == "W" else draw.value


def rerouted(trailer: Trailer, wire: Wire, through: Sequence[Written[str]], origin: Origin) -> Wire:
    """Return a wire that runs from its one end to the other past what is named, as long as that way is.

    Where nobody can tell its way, its length stays what was planned.
    """
    past = named_in(trailer.geometry, through)
    start, end = wire.legs[0].start, wire.legs[-1].end
    new = replace(
        wire, through=tuple(name.text for name in through), legs=(Leg(start, end, past),), origin=origin
    )
    stands = trailer.geometry.stands
    if start not in stands or end not in stands:
        return new
    way = Finder(trailer.geometry).way(stands[start].place, stands[end].place, past)
    if isinstance(way, NoWay):
        return new
    ends = (start, stands[start]), (end, stands[end])
    length_m = leg_length_m(way, ends, assumption(trailer, BOX_LOOP).value)
    return replace(new, length_m=length_m, length_source="worked out")


def named_in(geometry: Geometry, through: Sequence[Written[str]]) -> tuple[str, ...]:
    """Return the names of the places and chases that are meant, as the file has them there."""
    named = {fold(name): name for name in (*geometry.places, *geometry.chases)}
    return tuple(named[fold(name.value)] for name in through if fold(name.value) in named)
