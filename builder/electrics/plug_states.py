"""What each contact of the tow plug carries in each state of the car: lights on, braking in a turn, everything."""

from __future__ import annotations

from collections.abc import Container, Iterable, Mapping, Sequence
from dataclasses import dataclass

from builder.electrics.network import LoadPath
from builder.tables.road_lamps import road_lamp_draw
from builder.trailer.model import TOW_PLUG, RoadLamp, Trailer
from builder.trailer.parts import BRAKE_MAGNET

LIGHTS = ("tail", "marker", "plate", "clearance", "identification", "front position")
"""What burns whenever the car's lamps are on (49 CFR 571.108, quoted; UN R48 5.11, memory)."""

STATES = ("lights", "brake and left turn", "everything")
"""Lights on; lights on, foot on the brake and left turn; all that the plug feeds at once."""


@dataclass(frozen=True, slots=True)
class ContactState:
    """One contact: amperes in each of `STATES`, and what the trade's estimate gives for the same lamps.

    ``estimate_a`` is for filament lamps with everything on; None where the contact feeds no road lamp.
    """

    number: int
    amps: Mapping[str, float]
    estimate_a: float | None
    plug: str = ""

    @property
    def pin(self) -> str:
        """How a terminal names the contact: see `PlugContact.pin`."""
        return f"{self.plug} {self.number}".strip()


def circuit_current_a(lamps: Iterable[tuple[int, float]]) -> float:
    """Return the current in amperes of lamps on one contact: how many of each, and what one takes.

    Source: Kirchhoff's current law.
    """
    return sum(count * amps for count, amps in lamps)


def estimated_a(functions: Mapping[str, int]) -> float:
    """Return the current in amperes that the trade estimates for filament lamps: how many lamps of each function.

    A lamp that stops and turns on one contact counts once. Source: the estimating rule of the trailer trade
    (quoted): 2 A each stop or turn lamp, 1 A each tail lamp, 0.5 A each clearance or marker lamp.
    """
    return circuit_current_a(
        (count, road_lamp_draw(function, "filament").usual_a) for function, count in functions.items()
    )


def plug_states(
    trailer: Trailer, paths: Sequence[LoadPath], currents: Sequence[float]
) -> tuple[ContactState, ...]:
    """Return every contact of the tow plug that something hangs on, grounds included, in contact order.

    ``paths`` and ``currents`` are the loads and what each takes in amperes at nominal voltage.
    """
    plug = trailer.tow_plug
    if plug is None:
        return ()
    fed = _by_contact(paths, currents)
    left = {lamp.name for lamp in trailer.road_lamps if lamp.side == "left"}
    left |= {part.name for part in trailer.parts.values() if part.kind == BRAKE_MAGNET}
    amps = {pin: {state: _sum(loads, state, left) for state in STATES} for pin, loads in fed.items()}
    for pin in list(amps):
        ground = plug.pattern.ground_of(plug.pattern.contact(pin)).pin
        into = amps.setdefault(ground, dict.fromkeys(STATES, 0.0))
        for state in STATES:
            into[state] += amps[pin][state]
    return tuple(
        ContactState(one.number, amps[one.pin], _estimate(trailer, one.pin), one.plug)
        for one in plug.pattern.contacts
        if one.pin in amps
    )


def _by_contact(
    paths: Sequence[LoadPath], currents: Sequence[float]
) -> dict[str, list[tuple[LoadPath, float]]]:
    fed: dict[str, list[tuple[LoadPath, float]]] = {}
    for path, amps in zip(paths, currents, strict=True):
        section = path.load.section
        if section.startswith(f"{TOW_PLUG} "):
            fed.setdefault(section.removeprefix(f"{TOW_PLUG} "), []).append((path, amps))
    return fed


def _sum(loads: Sequence[tuple[LoadPath, float]], state: str, left: Container[str]) -> float:
    return circuit_current_a((1, amps) for path, amps in loads if _is_on(path, state, left))


def _is_on(path: LoadPath, state: str, left: Container[str]) -> bool:
    """Tell whether a load takes current in a state: what is neither lamp nor brake does so with everything on alone.

    ``left`` holds the names of the lamps on the left and of the brakes' magnets. A lamp that stops and turns on one
    contact is lit in either way.
    """
    what = path.load.what
    if state == "everything" or set(what.split(" and ")) <= set(LIGHTS):
        return True
    braking = what in ("stop", "stop and turn") or (what in ("turn", "") and path.load.part in left)
    return state == STATES[1] and braking


def _estimate(trailer: Trailer, pin: str) -> float | None:
    """Return the trade's estimate for the lamps on a contact; None where there are none."""
    counts: dict[str, int] = {}
    for lamp in trailer.road_lamps:
        for function in _counted(lamp, pin):
            counts[function] = counts.get(function, 0) + lamp.count
    return estimated_a(counts) if counts else None


def _counted(lamp: RoadLamp, pin: str) -> tuple[str, ...]:
    """Return the functions of a lamp on a contact; stop and turn on one contact are one filament."""
    here = [function for function, at in lamp.contacts if at == pin]
    return tuple(f for f in here if not (f == "turn" and "stop" in here))
