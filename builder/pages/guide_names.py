"""What the guides call the things they speak of: each once, the functions of one lamp together."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Any

from builder.guide.model import Thing
from builder.pages.view import View

FEWEST_OF_ALL = 3
"""Fewer road lamps than this are named, even where they are all that there are."""
MOST_NAMES = 12
"""So many names at most stand in one line; how many more there are is said."""


def thing_data(view: View, thing: Thing) -> dict[str, str]:
    """Return a thing for the template that names it; a lamp that has one function only goes by its name."""
    by = braked_by(view, [thing])
    alone = view.functions_of.get(thing.part, ()) == (thing.what,)
    return {"part": thing.part, "what": "" if alone or by else thing.what, "by": by}


def braked_by(view: View, things: Sequence[Thing]) -> str:
    """Return from what supply brakes that two supplies work are dead: ``pedal`` (the car), ``pin``, or ``both``.

    Empty for other things, and where one supply alone works the brakes.
    """
    brakes = view.figures.brakes
    if brakes is None or brakes.circuit is None or brakes.breakaway is None:
        return ""
    on = {thing.circuit for thing in things}
    if not on <= {brakes.circuit, brakes.breakaway}:
        return ""
    return "both" if len(on) > 1 else "pedal" if brakes.circuit in on else "pin"


LIGHTS = {"tail", "marker", "plate", "clearance", "identification", "front position"}
"""What burns with the lamps of the car, under no switch of its own."""


def driver_turns_on(view: View, thing: Thing) -> tuple[str, ...]:
    """Return the words for what a driver turns on, one after the other, to light a road lamp by its contact.

    They are lights, brake, left turn, right turn, turn, fog and reverse; the brake, which does not flash, stands
    before a turn signal on the same contact. Empty for what is no road lamp.
    """
    lamp = next((lamp for lamp in view.trailer.road_lamps if lamp.name == thing.part), None)
    if lamp is None:
        return ()
    pin = view.trailer.circuit(thing.circuit).start.pin
    shown = {word for told, at in lamp.contacts if at == pin for word in told.split(", ")}
    turn = f"{lamp.side} turn" if lamp.side in ("left", "right") else "turn"
    said = {"stop": "brake", "turn": turn, "fog": "fog", "reverse": "reverse"}
    found = [word for function, word in said.items() if function in shown]
    return (*(["lights"] if shown & LIGHTS else []), *found)


def shared_by_brake(view: View) -> tuple[str, ...]:
    """Return the contacts of the tow plug that the brake pedal feeds together and a turn signal one by one.

    Empty where brake lamps have a contact of their own.
    """
    on: dict[str, set[str]] = {}
    for lamp in view.trailer.road_lamps:
        for told, pin in lamp.contacts:
            on.setdefault(pin, set()).update(told.split(", "))
    found = tuple(pin for pin, words in on.items() if {"stop", "turn"} <= words)
    return found if len(found) > 1 else ()


def things_data(view: View, things: Sequence[Thing], beside: Sequence[Thing] = ()) -> dict[str, Any]:
    """Return things for a line of names: the first of them, and how many more there are.

    The functions of one lamp stand behind its name once, and not at all where these are all that it has. ``every``
    is a word where things are all road lamps: ``all``, or ``other`` with those ``beside`` them.
    """
    by_part: dict[str, list[Thing]] = {}
    for thing in things:
        by_part.setdefault(thing.part, []).append(thing)
    names = [
        {"part": part, "what": _functions(view, mine), "by": braked_by(view, mine)}
        for part, mine in by_part.items()
    ]
    for name, after in pairwise(names):
        if name["by"] == after["by"]:
            name["by"] = ""  # said once, behind the last of them
    return {
        "names": names[:MOST_NAMES],
        "more": max(0, len(names) - MOST_NAMES),
        "every": _every(view, things, beside) if len(names) >= FEWEST_OF_ALL else "",
    }


def _functions(view: View, things: Sequence[Thing]) -> str:
    whats = [thing.what for thing in things]
    whole = set(whats) >= set(view.functions_of.get(things[0].part, ())) or braked_by(view, things)
    return "" if whole else ", ".join(whats)


def _every(view: View, things: Sequence[Thing], beside: Sequence[Thing]) -> str:
    """Return a word where things are all road lamps, alone or with others; empty where they are not."""
    road = set(view.road_things)
    if not road.issuperset(things):
        return ""
    return "all" if road.issubset(things) else "other" if road.issubset({*things, *beside}) else ""
