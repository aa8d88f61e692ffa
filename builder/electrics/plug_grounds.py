"""What comes back through each ground contact of the tow plug, of everything that shares it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from builder.electrics.conductors import ampacity_a, resistance_ohm_per_m, voltage_drop_v, wire_resistance_ohm
from builder.electrics.groups import Basis
from builder.electrics.plug_states import STATES, ContactState
from builder.electrics.protection import fuse_ceiling, judged_against
from builder.tables.table import Known, NoRow
from builder.tables.tow_plugs import PlugContact
from builder.trailer.circuits import CircuitKind
from builder.trailer.model import TOW_PLUG, TowPlug, Trailer
from builder.trailer.parts import Terminal
from builder.trailer.size import Size


@dataclass(frozen=True, slots=True)
class PlugGround:
    """One ground contact of the tow plug that something comes back to.

    ``pin`` names it as a terminal does, ``serves`` the contacts in use that it is the way back for, ``wires`` those
    that land on it; ``dims_lamps`` tells that road lamps share it with what is no lamp. ``amps`` is what they bring
    together, in ampere, in each of `STATES`. ``size`` is the conductor that the plug's standard, or its use, gives
    this contact, ``bears_a`` what that carries, ``largest_fuse_a`` the largest fuse for it by the table that the
    build's fuses are judged by, and ``drop_v`` what is lost in each state on one such conductor of
    the cable's length; None and empty where no size is known.
    """

    pin: str
    serves: tuple[str, ...]
    wires: tuple[str, ...]
    dims_lamps: bool
    amps: Mapping[str, float]
    size: Size | None
    size_known: Known | None
    bears_a: float | None
    largest_fuse_a: float | None
    drop_v: Mapping[str, float]


def plug_grounds(trailer: Trailer, states: Sequence[ContactState], basis: Basis) -> tuple[PlugGround, ...]:
    """Return every ground contact of the tow plug in use, in contact order.

    A cable has one conductor for each contact: whatever comes back to one contact shares it from there to the car.
    Source: Kirchhoff's current law and Ohm's law; sizes of conductors as the table of plugs has them.
    """
    plug = trailer.tow_plug
    if plug is None:
        return ()
    used = {state.pin: state for state in states}
    return tuple(
        _ground(trailer, (plug, contact), used, basis)
        for contact in plug.pattern.contacts
        if contact.is_ground and contact.pin in used
    )


def _ground(
    trailer: Trailer, at: tuple[TowPlug, PlugContact], used: Mapping[str, ContactState], basis: Basis
) -> PlugGround:
    plug, contact = at
    here = Terminal(TOW_PLUG, contact.pin)
    serves = tuple(
        one.pin
        for one in plug.pattern.contacts
        if not one.is_ground and one.pin in used and plug.pattern.ground_of(one) == contact
    )
    amps = {state: used[contact.pin].amps[state] for state in STATES}
    size = Size(contact.size_unit, contact.size) if contact.size_unit else None
    ohm = bears = None
    if size is not None:
        try:
            bears = ampacity_a(size, basis.insulation_c, basis.ambient_c, basis.bundle).amps
            per_m = resistance_ohm_per_m(size, basis.copper_c).ohm_per_m
            ohm = wire_resistance_ohm(per_m, plug.half(contact).cable_length_m)
        except NoRow:
            size = None
    return PlugGround(
        pin=contact.pin,
        serves=serves,
        wires=tuple(wire.number for wire in trailer.wires if here in (wire.start, wire.end)),
        dims_lamps=_with_lamps(trailer, serves) and _with_circuits(trailer, serves),
        amps=amps,
        size=size,
        size_known=contact.size_known if size is not None else None,
        bears_a=bears if size is not None else None,
        largest_fuse_a=_largest_fuse_a(trailer, size, basis) if size is not None else None,
        drop_v={state: voltage_drop_v(amps[state], ohm) for state in STATES} if ohm is not None else {},
    )


def _largest_fuse_a(trailer: Trailer, size: Size, basis: Basis) -> float | None:
    """Return the largest fuse for a conductor by the build's table, in ampere; None where that has no row for it."""
    try:
        return fuse_ceiling(size, basis.insulation_c, judged_against(trailer)).amps
    except NoRow:
        return None


def _with_lamps(trailer: Trailer, serves: Sequence[str]) -> bool:
    return any(at in serves for lamp in trailer.road_lamps for _, at in lamp.contacts)


def _with_circuits(trailer: Trailer, serves: Sequence[str]) -> bool:
    return any(
        circuit.kind is CircuitKind.FROM and circuit.start.part == TOW_PLUG and circuit.start.pin in serves
        for circuit in trailer.circuits
    )
