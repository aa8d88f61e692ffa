"""Questions that pages ask of the wiring: what a circuit feeds, which switch works what, what goes dead."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from markupsafe import Markup

from builder.electrics.figures import Figures
from builder.guide.model import Supply
from builder.lists.ends import is_core
from builder.pages.view import View
from builder.trailer.circuits import Circuit, CircuitKind, Stop
from builder.trailer.model import BATTERY, FRONT_BOX, TOW_PLUG, Trailer
from builder.trailer.parts import HAND_WORKED, Form, Part
from builder.trailer.wires import Wire


def part_of(trailer: Trailer, stop: Stop) -> Part | None:
    """Return the part at a stop; None for the battery and the front box."""
    return trailer.parts.get(stop.part)


def below(circuit: Circuit, place: int) -> tuple[int, ...]:
    """Return the stops of a circuit that hang on one stop, in reading order."""
    inside = {place}
    found = []
    for index, stop in enumerate(circuit.stops):
        if stop.parent in inside:
            inside.add(index)
            found.append(index)
    return tuple(found)


def loads_at(trailer: Trailer, circuit: Circuit, places: Iterable[int]) -> tuple[str, ...]:
    """Return the names of the parts that use current at these stops, coils followed to what they switch."""
    names: dict[str, None] = {}
    for place in places:
        stop = circuit.stops[place]
        part = part_of(trailer, stop)
        if part is None:
            continue
        if stop.as_coil:
            names |= dict.fromkeys(relay_loads(trailer, part.name))
        elif part.form in (Form.LOAD, Form.SECTION):
            names[part.name] = None
    return tuple(names)


def relay_loads(trailer: Trailer, relay: str) -> tuple[str, ...]:
    """Return what the contact of a relay switches."""
    names: dict[str, None] = {}
    for circuit in trailer.circuits:
        for place, stop in enumerate(circuit.stops):
            if stop.part == relay and not stop.as_coil:
                hanging = [i for i in below(circuit, place) if not circuit.stops[i].as_coil]
                names |= dict.fromkeys(loads_at(trailer, circuit, hanging))
    return tuple(names)


def feeds(trailer: Trailer, circuit: Circuit) -> tuple[str, ...]:
    """Return what a circuit feeds: its loads in reading order, and what its relay coils switch elsewhere."""
    return loads_at(trailer, circuit, range(len(circuit.stops)))


def switches_of(trailer: Trailer, circuit: Circuit) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Return each switch of a circuit with what it works; a part with its own switch works itself."""
    found: list[tuple[str, tuple[str, ...]]] = []
    for place, stop in enumerate(circuit.stops):
        part = part_of(trailer, stop)
        if part is None:
            continue
        if part.kind in HAND_WORKED:
            works = loads_at(trailer, circuit, below(circuit, place))
            found.append((part.name, works))
        elif part.own_switch:
            found.append((part.name, (part.name,)))
    return tuple(found)


def switches_by_part(trailer: Trailer) -> Mapping[str, tuple[str, ...]]:
    """Return for every part the switches that work it, its own one included."""
    found: dict[str, dict[str, None]] = {}
    for circuit in trailer.circuits:
        for switch, works in switches_of(trailer, circuit):
            for part in works:
                found.setdefault(part, {})[switch] = None
    return {part: tuple(switches) for part, switches in found.items()}


def circuits_by_part(trailer: Trailer) -> Mapping[str, tuple[Circuit, ...]]:
    """Return for every part the circuits that pass it or have a wire on it, in number order."""
    found: dict[str, set[int]] = {}
    for circuit in trailer.circuits:
        for stop in circuit.stops:
            found.setdefault(stop.part, set()).add(circuit.number)
    for wire in trailer.wires:
        for part in (wire.start.part, wire.end.part):
            found.setdefault(part, set()).add(wire.circuit)
    return {part: tuple(c for c in trailer.circuits if c.number in on) for part, on in found.items()}


def fuses_before(trailer: Trailer, circuit: Circuit, part: str) -> tuple[str, ...]:
    """Return the fuses and breakers of its circuit that a part hangs on, nearest first; a fuse is its own.

    A charger hangs on those between it and the battery as well, which come first.

    ``way 3`` for a way of the front box; empty where the trailer has none (the car's fuse).
    """
    found = []
    place = next((i for i, stop in enumerate(circuit.stops) if stop.part == part), -1)
    mine = trailer.parts.get(part)
    if place >= 0 and mine is not None and mine.form is Form.SECTION:
        # what charges the battery needs the fuse towards it as well
        after = (part_of(trailer, circuit.stops[i]) for i in below(circuit, place))
        charging = any(circuit.stops[i].part in (BATTERY, FRONT_BOX) for i in below(circuit, place))
        found += [
            one.name for one in after if charging and one is not None and one.kind in ("fuse", "breaker")
        ]
    while place >= 0:
        here = part_of(trailer, circuit.stops[place])
        if here is not None and here.kind in ("fuse", "breaker"):
            found.append(here.name)
            if here.name == part:
                return (part,)
        place = circuit.stops[place].parent
    if circuit.way is not None:
        found.append(f"way {circuit.way}")
    line = trailer.battery_line
    on_line = line is not None and any(s.part == circuit.start.part for s in line.stops)
    if line is not None and line is not circuit and circuit.way is None and on_line:
        found += fuses_before(trailer, line, circuit.start.part)  # it hangs on the battery's own line
    return tuple(found)


def isolating_switch(trailer: Trailer) -> Part | None:
    """Return the isolating switch in the battery's line, or None."""
    for circuit in trailer.circuits:
        if circuit.kind is CircuitKind.BATTERY:
            for stop in circuit.stops:
                part = part_of(trailer, stop)
                if part is not None and part.kind == "isolating switch":
                    return part
    return None


def main_fuse(trailer: Trailer) -> Part | None:
    """Return the first fuse or breaker in the battery's line, or None."""
    for circuit in trailer.circuits:
        if circuit.kind is CircuitKind.BATTERY and circuit.fuse_part:
            return trailer.parts.get(circuit.fuse_part)
    return None


def stays_live(trailer: Trailer) -> tuple[Circuit, ...]:
    """Return the circuits from the battery that the isolating switch does not reach: they start before it."""
    line = trailer.battery_line
    isolator = isolating_switch(trailer)
    if line is None or isolator is None:
        return ()
    place = next(i for i, stop in enumerate(line.stops) if stop.part == isolator.name)
    dead = {isolator.name, *(line.stops[i].part for i in below(line, place))}
    return tuple(
        circuit
        for circuit in trailer.circuits
        if circuit.kind is CircuitKind.FROM
        and starts_at_battery(trailer, circuit)
        and circuit.start.part not in dead
    )


def lands_on_battery(trailer: Trailer) -> tuple[Circuit, ...]:
    """Return the circuits from elsewhere that end on the battery's post: they charge it, and it can feed them."""
    return tuple(
        circuit
        for circuit in trailer.circuits
        if circuit.kind is CircuitKind.FROM
        and not starts_at_battery(trailer, circuit)
        and any(stop.part == BATTERY for stop in circuit.stops)
    )


def lands_in_box(trailer: Trailer) -> tuple[Circuit, ...]:
    """Return the circuits from elsewhere that end in the front box: they feed the house without the battery."""
    return tuple(
        circuit
        for circuit in trailer.circuits
        if circuit.kind is CircuitKind.FROM
        and not starts_at_battery(trailer, circuit)
        and any(stop.part == FRONT_BOX for stop in circuit.stops)
    )


def starts_at_battery(trailer: Trailer, circuit: Circuit) -> bool:
    """Tell whether a circuit with ``from:`` starts at the battery or in its line."""
    if circuit.start.part == BATTERY:
        return True
    line = trailer.battery_line
    return line is not None and any(stop.part == circuit.start.part for stop in line.stops)


def has_post_studs(trailer: Trailer) -> bool:
    """Tell whether the file says that the battery's posts are studs: rings lie on them under a nut, and no clamp."""
    return BATTERY in trailer.studs


def clamp_comes_off(trailer: Trailer, fuse: str) -> bool:
    """Tell whether the battery's minus clamp comes off before a hand goes to a fuse or breaker: the one rule for it.

    So it is wherever the fuse is joined to the battery whatever is switched off: on the battery's own line, and on
    every circuit from or to its post with no charger or converter between. Common practice.
    """
    for circuit in trailer.circuits:
        place = next((i for i, stop in enumerate(circuit.stops) if stop.part == fuse), None)
        if place is None:
            continue
        if circuit.kind is CircuitKind.BATTERY:
            return True
        live = isolating_switch(trailer) is None or circuit in stays_live(trailer)
        from_it = circuit.kind is CircuitKind.FROM and live and starts_at_battery(trailer, circuit)
        if from_it and _back_to_a_section(trailer, circuit, place) is None:
            return True
        if _reaches_battery(trailer, circuit, place):
            return True
    return False


def _back_to_a_section(trailer: Trailer, circuit: Circuit, place: int) -> int | None:
    """Return the nearest charger or converter between a stop and the circuit's start; None where there is none."""
    while (place := circuit.stops[place].parent) >= 0:
        part = part_of(trailer, circuit.stops[place])
        if part is not None and part.form is Form.SECTION:
            return place
    return None


def _reaches_battery(trailer: Trailer, circuit: Circuit, place: int) -> bool:
    """Tell whether a stop is joined to the battery's post further on, with no charger or converter between."""
    posts = (i for i in below(circuit, place) if circuit.stops[i].part == BATTERY)
    return any((_back_to_a_section(trailer, circuit, post) or -1) < place for post in posts)


def is_ground_contact(trailer: Trailer, circuit: Circuit) -> bool:
    """Tell whether a circuit is a ground contact of the tow plug: it has no fuse, and nobody looks for one."""
    plug = trailer.tow_plug
    return (
        circuit.contact is not None and plug is not None and plug.pattern.contact(circuit.start.pin).is_ground
    )


def known_where(trailer: Trailer, name: str, pin: str = "") -> str:
    """Return the words of ``where:`` for a part, a box, the battery or the plug; empty when there are none.

    With the ``pin`` of a contact it is the one of two plugs that has that contact.
    """
    if name == FRONT_BOX:
        return trailer.front_box.where if trailer.front_box else ""
    if name == BATTERY:
        return trailer.battery.where if trailer.battery else ""
    if name == TOW_PLUG and trailer.tow_plug is not None:
        plug = trailer.tow_plug
        return plug.half(plug.pattern.contact(pin)).where if pin else plug.kept
    part = trailer.parts.get(name)
    return part.where if part else ""


def of_brakes(figures: Figures, circuit: int) -> bool:
    """Tell whether a circuit is one that feeds brakes which a breakaway feeds too."""
    brakes = figures.brakes
    return (
        brakes is not None and brakes.breakaway is not None and circuit in (brakes.breakaway, brakes.circuit)
    )


def supplies_data(trailer: Trailer, supplies: Iterable[Supply]) -> list[dict[str, str]]:
    """Return how each of these supplies is taken off, and where."""
    return [
        {
            "how": s.how,
            "kind": s.kind,
            "name": s.name,
            "where": known_where(trailer, s.name),
            "plugs": trailer.tow_plug.names if s.kind == TOW_PLUG and trailer.tow_plug else "",
        }
        for s in supplies
    ]


def cable_core(trailer: Trailer) -> Wire | None:
    """Return a core of the plug's cable that ends in the front box, the first there is; None where there is none."""
    return next((wire for wire in trailer.wires if is_core(wire, trailer)), None)


def cable_end(view: View) -> Markup | str:
    """Return how far from the plug its cable ends, where nobody wrote where the front box is; else nothing."""
    core = cable_core(view.trailer)
    plug = view.trailer.tow_plug
    if core is None or known_where(view.trailer, FRONT_BOX) or plug is None or plug.second is not None:
        return ""
    return view.fig(f"wires/{core.number}/length_m")
