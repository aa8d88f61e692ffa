"""The one table of symbols: which symbol stands for which kind, for drawings, overview and legend alike."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from builder.drawings import symbols_contact as contact
from builder.drawings import symbols_load as load
from builder.drawings.symbol import Symbol

Draw = Callable[[tuple[str, ...], tuple[str, ...]], Symbol]

SYMBOLS: Mapping[str, Draw] = {
    "lamp": load.lamp,
    "road lamp": load.lamp,
    "fan": load.fan,
    "pump": load.pump,
    "motor": load.motor,
    "socket": load.socket,
    "heater": load.heater,
    "brake magnet": load.brake_magnet,
    "air heater": load.air_heater,
    "fridge": load.fridge,
    "alarm": load.alarm,
    "meter": load.meter,
    "radio": load.radio,
    "appliance": load.appliance,
    "relay coil": load.coil,
    "relay contact": contact.relay_contact,
    "switch": contact.hand_switch,
    "breakaway switch": contact.breakaway_switch,
    "dimmer": contact.dimmer,
    "receiver": contact.receiver,
    "isolating switch": contact.isolating_switch,
    "fuse": contact.fuse,
    "fuse way": contact.fuse_way,
    "breaker": contact.breaker,
    "two-way switch": contact.two_way,
    "four-way switch": contact.four_way,
    "connector": contact.contact_pair,
    "tow plug contact": contact.tow_contact,
    "splice": load.joint,
    "bar": load.joint,
    "converter": load.converter,
    "charge controller": load.charge_controller,
    "charge limiter": contact.charge_limiter,
    "dc charger": load.charger,
    "solar module": load.solar_module,
    "shore converter": load.shore_converter,
    "battery": load.battery,
    "breakaway battery": load.battery,
    "battery post": load.post,
    "terminal": load.terminal,
    "frame": load.frame,
    "drawn elsewhere": load.again,
    "circuit": load.appliance,
    "other circuits": load.appliance,
    "lamp fed elsewhere": load.lamp_above,
}
"""Every symbol by its kind: the words of the part kinds, and our own for ends and places."""


def symbol(kind: str, tops: tuple[str, ...] = ("in",), bottoms: tuple[str, ...] = ("out",)) -> Symbol:
    """Return the symbol of a kind with the pins that are wired on its upper and lower edge.

    A kind without a symbol of its own is drawn as an appliance: a box with its name beside it. Source: the
    manner of IEC 60617, proportions from memory.
    """
    return SYMBOLS.get(kind, load.appliance)(tops, bottoms)
