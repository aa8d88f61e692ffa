"""What works and what is lost when the trailer meets a car with another socket."""

from __future__ import annotations

from dataclasses import dataclass

from builder.tables.plug_limits import met_on_contact
from builder.tables.tow_plugs import PlugPattern, plug_pattern, plug_patterns
from builder.trailer.circuits import CircuitKind
from builder.trailer.model import TOW_PLUG, Trailer
from builder.trailer.plug_functions import functions_here

ORDER = (
    "tail", "marker", "plate", "clearance", "identification", "front position", "turn", "stop", "fog", "reverse",
    "brake", "battery", "switched supply",
)  # fmt: skip
"""The functions in the order in which they are told."""


@dataclass(frozen=True, slots=True)
class Doubt:
    """A function of the trailer, the socket's contact for it, and what else some cars have there (common practice)."""

    function: str
    contact: str
    instead: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class OtherSocket:
    """One other socket: functions of this trailer that it feeds, and those for which it has no contact.

    ``doubts`` are those whose contact may be wired for something else in the car: they work only once it is measured.
    ``converter`` is ``apart`` where the car has stop and turn on wires of their own and the trailer has them on
    one a side, ``together`` the other way round, ``first plug`` where it takes the first of two plugs as it is, and
    empty where a plain adapter does.
    """

    pattern: str
    works: tuple[str, ...]
    lost: tuple[str, ...]
    converter: str
    doubts: tuple[Doubt, ...] = ()


def used_functions(trailer: Trailer) -> tuple[str, ...]:
    """Return what the trailer takes from its plug, in the order of `ORDER`: lamp functions and supplies."""
    used = {function for lamp in trailer.road_lamps for function in lamp.shows}
    plug = trailer.tow_plug
    for circuit in trailer.circuits:
        if plug and circuit.kind is CircuitKind.FROM and circuit.start.part == TOW_PLUG:
            used |= set(functions_here(trailer, plug.pattern.contact(circuit.start.pin))[0])
    return tuple(function for function in ORDER if function in used)


def other_sockets(trailer: Trailer) -> tuple[OtherSocket, ...]:
    """Return every other socket that is met in the countries of this plug, in the order of the table."""
    if trailer.tow_plug is None:
        return ()
    own = trailer.tow_plug.pattern
    used = used_functions(trailer)
    patterns = (plug_pattern(name) for name in plug_patterns() if name != own.name)
    return tuple(_meets(own, one, used) for one in patterns if set(one.countries) & set(own.countries))


def own_doubts(trailer: Trailer) -> tuple[Doubt, ...]:
    """Return what the trailer takes from contacts that cars wire differently behind a socket of its own form."""
    plug = trailer.tow_plug
    return _doubts(plug.pattern, used_functions(trailer)) if plug else ()


def _meets(own: PlugPattern, socket: PlugPattern, used: tuple[str, ...]) -> OtherSocket:
    fed = tuple(function for function in used if socket.contact_for(function, "left") is not None)
    doubts = _doubts(socket, fed)
    works = tuple(function for function in fed if function not in {one.function for one in doubts})
    signals = {"stop", "turn"} & set(used)
    converter = ""
    if signals and own.has_combined_signals != socket.has_combined_signals:
        converter = "apart" if own.has_combined_signals else "together"
    if own.second is not None and own.second.beside == socket.name:
        converter = "first plug"
    return OtherSocket(socket.name, works, tuple(f for f in used if f not in fed), converter, doubts)


def _doubts(socket: PlugPattern, functions: tuple[str, ...]) -> tuple[Doubt, ...]:
    """Return the functions whose contact on a socket is not the same in every car."""
    contacts = ((function, socket.contact_for(function, "left")) for function in functions)
    met = ((f, one.pin, met_on_contact(socket.name, one.pin)) for f, one in contacts if one is not None)
    return tuple(Doubt(f, pin, tuple(o for o in may if o != f)) for f, pin, may in met if f in may)
