"""Is it the car or the trailer: a test at the socket and one at the plug; and the page for a garage."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from builder.electrics.plug_states import ContactState
from builder.pages.guide_names import driver_turns_on, shared_by_brake
from builder.pages.page_towing import mark_of, marked, numbering
from builder.pages.view import View
from builder.tables.tow_plugs import PRACTICE, PlugContact, PlugPattern
from builder.trailer.plug_functions import functions_here

NEVER_FED = ("battery", "switched supply", "brake")
"""Contacts that nobody puts a test supply on: they lead to a battery, to a charger or to the brakes."""

TEST_FUSES_A = (3.0, 5.0, 7.5, 10.0, 15.0)
"""Fuses for a test lead; 3 A is what the trade takes for it (quoted), more only where the lamps take more."""

SPARE = 1.25
"""How far a fuse's rating is above what flows for long (common practice)."""


def has_road_lamps(view: View) -> bool:
    """Tell whether the trailer has road lamps that could be dead."""
    return bool(view.trailer.road_lamps)


def car_or_trailer_page(view: View) -> dict[str, Any]:
    """Return what the template of Is it the car or the trailer? is filled with."""
    plug = view.trailer.tow_plug
    if plug is None:
        raise ValueError("without a tow plug there is no such page")
    states = {state.pin: state for state in view.figures.plug_states}
    contacts = [one for one in plug.pattern.contacts if one.pin in states]
    lit = [_tested(view, plug.pattern, one, states[one.pin]) for one in contacts if _lamps_on(view, one)]
    tested = {one.said for one in contacts if _is_lamp(view, one)}
    return {
        "pattern": plug.pattern.name,
        **numbering(plug.pattern),
        "practice": plug.pattern.standard == PRACTICE,
        "marked": any(mark_of(one) for one in plug.pattern.contacts),
        "where": plug.kept,
        "second": plug.second.pattern.name if plug.second else "",
        "lit": lit + (by_pedal := _by_the_pedal(view, plug.pattern, lit)),
        "by_pedal": bool(by_pedal),
        "some_alone": any(len(one["lamps"]) == 1 for one in lit),
        "some_together": any(len(one["lamps"]) > 1 for one in lit),
        "lamps": [one for one in lit if one["number"] in tested],
        "grounds": _lamp_grounds(view, plug.pattern, contacts),
        "never": [
            {"number": one.said, "functions": one.functions}
            for one in plug.pattern.contacts
            if set(one.functions).intersection(NEVER_FED)
        ],
        "risks": {word for one in plug.pattern.contacts for word in one.functions if word in NEVER_FED},
        "test_fuse": max((_test_fuse(state) for state in states.values() if state.estimate_a), default=3.0),
    }


def _by_the_pedal(view: View, pattern: PlugPattern, lit: Sequence[dict[str, Any]]) -> list[dict[str, Any]]:
    """Return the row of the contacts that the brake pedal feeds together; of them each stands by its turn signal."""
    contacts = [pattern.contact(pin) for pin in shared_by_brake(view)]
    numbers = [one.said for one in contacts]
    mine = [one for one in lit if one["number"] in numbers]
    if not mine:
        return []
    lamps = list(dict.fromkeys(name for one in mine for name in one["lamps"]))
    told = ", ".join(marked(one) for one in contacts)
    return [{"contact": told, "turn_on_alone": ["brake"], "lamps": lamps}]


def _is_lamp(view: View, contact: PlugContact) -> bool:
    """Tell whether a contact feeds road lamps, and nothing that a test supply could harm or set off."""
    return not set(contact.functions).intersection(NEVER_FED) and bool(_lamps_on(view, contact))


def _lamps_on(view: View, contact: PlugContact) -> list[str]:
    """Return the names of the road lamps that a contact feeds."""
    return [
        lamp.name for lamp in view.trailer.road_lamps if any(at == contact.pin for _, at in lamp.contacts)
    ]


def _lamp_grounds(view: View, pattern: PlugPattern, contacts: Iterable[PlugContact]) -> list[str]:
    """Return the ground contacts by which the current of road lamps comes back, in the order of the contacts."""
    serving = {pattern.ground_of(one).pin for one in contacts if _is_lamp(view, one)}
    return [one.said for one in pattern.contacts if one.pin in serving]


def _test_fuse(state: ContactState) -> float:
    """Return the smallest fuse for a test lead that carries a contact's lamps, in ampere."""
    wanted = state.amps["everything"] * SPARE
    return next((rating for rating in TEST_FUSES_A if rating >= wanted), TEST_FUSES_A[-1])


def _tested(view: View, pattern: PlugPattern, contact: PlugContact, state: ContactState) -> dict[str, Any]:
    """Return a row: the contact, what must light when it is fed, and its way back."""
    number, shared = contact.pin, shared_by_brake(view)
    return {
        "number": contact.said,
        "contact": marked(contact),
        "functions": functions_here(view.trailer, contact)[0],
        "ground": marked(pattern.ground_of(contact)),
        "turn_on": (turned_on := _turned_on(view, number)),
        "turn_on_alone": [word for word in turned_on if number not in shared or word != "brake"],
        "least": _least_at_socket(view, number),
        "lamps": _lamps_on(view, contact),
        "amps": view.fig(f"plug_states/{state.pin}/everything_a", "A"),
    }


def _least_at_socket(view: View, pin: str) -> Any:
    """Return the least voltage at the car's socket that the guides take for good; empty where none is read there.

    A guide reads the contact itself, or another one: all are fed by the same car.
    """
    found = [
        (one.red.terminal.pin != pin, f"guide/{guide.id}/steps/{place}/least_v")
        for guide in view.guides
        for place, one in enumerate(guide.steps)
        if one.red is not None and one.red.beyond == "socket" and one.least_v is not None
    ]
    own = (path for is_other, path in found if not is_other)
    return view.fig(next(own, found[0][1]), "V") if found else ""


def _turned_on(view: View, pin: str) -> list[str]:
    """Return the words for what a driver turns on to feed a contact, each once."""
    things = (one for one in view.road_things if view.trailer.circuit(one.circuit).start.pin == pin)
    return list(dict.fromkeys(word for one in things for word in driver_turns_on(view, one)))
