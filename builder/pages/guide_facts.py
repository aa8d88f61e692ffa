"""What is true of a guide, as its words need it: who feeds what it mends, what hangs there, where its probes go."""

from __future__ import annotations

from collections.abc import Sequence

from builder.guide.model import (
    Cause,
    Guide,
    StepKind,
    Suspect,
    Symptom,
    Thing,
)
from builder.pages.view import View
from builder.trailer.circuits import CircuitKind
from builder.trailer.model import BATTERY, FRONT_BOX, TOW_PLUG, Trailer
from builder.trailer.parts import BRAKE_MAGNET, Law
from builder.trailer.plug_functions import functions_here


def on_the_cars_line(trailer: Trailer, number: int) -> bool:
    """Tell whether a circuit is fed over the tow plug and is none of the road lamps'."""
    circuit = trailer.circuit(number)
    return circuit.start.part == TOW_PLUG and circuit.kind is CircuitKind.FROM


def at_battery(view: View, number: str) -> bool:
    """Tell whether a wire is of the battery's own line, or lands on one of its posts."""
    wire, line = view.wires[number], view.trailer.battery_line
    of_line = line is not None and wire.circuit == line.number
    return of_line or BATTERY in (wire.start.part, wire.end.part)


def charged_by(view: View, guide: Guide) -> str:
    """Return what a guide's circuit charges from: car, sun or shore; empty where it is none that charges."""
    if guide.symptom is not Symptom.CHARGE or guide.circuit is None:
        return ""
    start = view.trailer.circuit(guide.circuit).start.part
    if start == TOW_PLUG:
        return "car"
    part = view.trailer.parts.get(start)
    return "sun" if part is not None and part.kind == "solar module" else "shore"


def is_whole(view: View, guide: Guide) -> bool:
    """Tell whether a guide is for all that can be dead on its circuit."""
    if guide.circuit is None or guide.symptom not in (Symptom.DEAD, Symptom.DIM):
        return False
    same = (one for one in view.guides if one.symptom is Symptom.DEAD)
    return set(guide.things) >= {t for one in same for t in one.things if t.circuit == guide.circuit}


def fed_by_the_car(view: View, guide: Guide) -> bool:
    """Tell whether what is tried is a road lamp, which is switched on in the car."""
    tried = guide.tried
    return tried is not None and view.trailer.circuit(tried.circuit).kind is CircuitKind.TOW


def of_road_lamps(view: View, guide: Guide) -> bool:
    """Tell whether all that a guide mends are road lamps with no switch but the car's; none of them has a plug."""
    circuits = [view.trailer.circuit(thing.circuit) for thing in guide.things]
    parts = (view.trailer.parts.get(stop.part) for circuit in circuits for stop in circuit.stops)
    switched = any(part is not None and "switch" in part.kind for part in parts)
    return bool(circuits) and not switched and all(one.kind is CircuitKind.TOW for one in circuits)


def has_bulbs(view: View, guide: Guide) -> bool:
    """Tell whether filament bulbs of road lamps hang on a guide's circuit.

    Cold, a bulb has about a tenth of its resistance, and several beside each other pass for a short on a cheap meter
    (common practice).
    """
    if not of_road_lamps(view, guide):
        return False
    circuits = {thing.circuit for thing in guide.things}
    draws = (one.load.draw for number in circuits for one in view.figures.circuits[number].loads)
    return any(draw is not None and draw.law is Law.RESISTANCE for draw in draws)


def for_brakes(view: View, guide: Guide) -> bool:
    """Tell whether brakes are among what a guide mends, lamps beside them or not."""
    return any(is_magnet(view, thing) for thing in guide.things)


def kind_of_all(view: View, things: Sequence[Thing]) -> str:
    """Return the kind of part that things are, by which an owner sees that they get too little; empty if they differ.

    Road lamps are lamps.
    """
    parts = view.trailer.parts
    road = set(view.road_things)
    kinds = {parts[t.part].kind if t.part in parts and t not in road else "lamp" for t in things}
    return kinds.pop() if len(kinds) == 1 else ""


def is_magnet(view: View, thing: Thing) -> bool:
    """Tell whether a thing is a magnet of the brakes."""
    part = view.trailer.parts.get(thing.part)
    return part is not None and part.kind == BRAKE_MAGNET


def by_the_controller(view: View, guide: Guide) -> bool:
    """Tell whether what is tried are brakes that the car works over the plug: its brake controller feeds them."""
    brakes, tried = view.figures.brakes, guide.tried
    return brakes is not None and tried is not None and tried.circuit == brakes.circuit


def fed_beside_an_engine(view: View, guide: Guide) -> bool:
    """Tell whether what is tried hangs on a supply of the car's, which many cars give only while their engine runs."""
    tried = guide.tried
    if tried is None or guide.symptom is Symptom.CHARGE or by_the_controller(view, guide):
        return False
    return on_the_cars_line(view.trailer, tried.circuit) and not in_reverse_gear(view.trailer, tried.circuit)


def in_reverse_gear(trailer: Trailer, number: int) -> bool:
    """Tell whether the car feeds a circuit, none of the road lamps', over the contact of its reversing lamp.

    Such a contact is live while the key is on and the reverse gear is in, with no engine running (common practice).
    """
    plug, start = trailer.tow_plug, trailer.circuit(number).start
    if plug is None or not on_the_cars_line(trailer, number):
        return False
    return "reverse" in functions_here(trailer, plug.pattern.contact(start.pin))[0]


def is_brake_contact(view: View, suspect: Suspect) -> bool:
    """Tell whether a suspect is the car at the contact for electric brakes."""
    brakes = view.figures.brakes
    return brakes is not None and suspect.cause is Cause.CAR and suspect.pin == str(brakes.contact)


def near_battery(view: View, guide: Guide) -> bool:
    """Tell whether a probe of this guide goes to a part on the battery's own line, or to the battery.

    The step that reads the battery by itself warns by itself.
    """
    line = view.trailer.battery_line
    near = {BATTERY, *(stop.part for stop in line.stops if stop.part != FRONT_BOX)} if line else set()
    steps = (one for one in guide.steps if one.kind is not StepKind.BATTERY)
    points = [point for one in steps for point in (one.red, one.black) if point is not None]
    noted = any(one.least_of == BATTERY for one in guide.steps)
    return noted or any(point.terminal.part in near for point in points)
