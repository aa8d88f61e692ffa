"""If something stops working: what to do first, every symptom, and the pages of the guides that it leads to."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import Any

from builder.guide.model import Cause, Guide, Suspect, Symptom, Thing
from builder.guide.odd_lamps import odd_lamps
from builder.guide.shorts import without_guide
from builder.pages.guide_data import (
    address_of,
    contact_data,
    fuse_data,
    guide_data,
    labels_data,
    title_data,
    unplug_data,
)
from builder.pages.guide_facts import charged_by, in_reverse_gear
from builder.pages.guide_names import braked_by, shared_by_brake, thing_data, things_data
from builder.pages.guide_places import ALL, INDEX, TOGETHER, WRONG, pages_of_group
from builder.pages.page_fuses import circuit_anchor
from builder.pages.view import View, step
from builder.pages.wiring import isolating_switch, of_brakes
from builder.trailer.circuits import Circuit, CircuitKind
from builder.trailer.mains import has_mains
from builder.trailer.model import BATTERY, TOW_PLUG
from builder.trailer.parts import BRAKE_MAGNET
from builder.trailer.plug_functions import functions_here

HOTTEST = 6
"""So many parts at most are named as those that carry most, beside the tow plug."""
SHARED_NAMES = 3
TELLING = (
    *(Cause.FUSE, Cause.BREAKER, Cause.HOUSING, Cause.CAR, Cause.PLUG, Cause.SWITCH, Cause.RELAY_CONTACT),
    *(Cause.CONVERTER, Cause.JOINT, Cause.CONTACT, Cause.WAY, Cause.LOAD, Cause.COIL, Cause.WIRE),
    Cause.CAR_GROUND,
)
"""What tells an owner most of what is shared stands first."""


def stops_page(view: View) -> dict[str, Any]:
    """Return what the template of the first page is filled with: every symptom, with where to go on."""
    shared = {guide.id: guide for guide in view.guides if guide.circuit is None}
    lamps = next((guide for guide in shared.values() if guide.symptom is Symptom.WRONG), None)
    return {
        **_has(view),
        "house": _links(view, Symptom.DEAD, road=False),
        "dim": _links(view, Symptom.DIM, road=None),
        "road": _links(view, Symptom.DEAD, road=True),
        "plugs": view.trailer.tow_plug.names if view.trailer.tow_plug else "",
        "several": f"{TOGETHER}.html" if TOGETHER in view.guide_pages else "",
        "all": _whole_link(view, shared.get("dead-all")),
        "all_dim": _whole_link(view, shared.get("dim-all")),
        "fuses": _fuses(view),
        "left_out": [fuse_data(view, name) for name in without_guide(view.figures, view.guides)],
        "car_lines": [
            circuit.name
            for circuit in view.trailer.circuits
            if circuit.start.part == TOW_PLUG and circuit.kind is CircuitKind.FROM
        ],
        "charges": [
            {
                "name": guide.things[0].part,
                "address": address_of(view, guide, INDEX),
                "by": charged_by(view, guide),
            }
            for guide in view.guides
            if guide.symptom is Symptom.CHARGE
        ],
        "hot": _hottest(view),
        "wrong": f"{WRONG}.html" if lamps else "",
        "no_braking": _no_braking(view),
    }


def _no_braking(view: View) -> str:
    """Return where to begin if the brakes do nothing: by what still works them, else the guide for most of them."""
    if _brake_cases(view, TOGETHER):
        return f"{TOGETHER}.html#brakes"
    parts = view.trailer.parts
    mine = [
        guide
        for guide in view.guides
        if guide.symptom is Symptom.DEAD
        and all(t.part in parts and parts[t.part].kind == BRAKE_MAGNET for t in guide.things)
    ]
    return address_of(view, max(mine, key=lambda guide: len(guide.things)), INDEX) if mine else ""


def _whole_link(view: View, guide: Guide | None) -> dict[str, Any] | None:
    if guide is None:
        return None
    return {
        "address": address_of(view, guide, INDEX),
        "longest": guide.longest,
        "step_count": len(guide.steps),
    }


def guides_title(view: View, path: str, say: Callable[[str], str]) -> str:
    """Return the title of a page of guides; ``path`` is its address without ending, ``say`` asks the catalogue."""
    stem, _, number = path.rpartition("-")
    first = stem if stem in view.guide_pages and number.isdigit() else path
    mine = view.guide_pages[path]
    if mine and mine[0].circuit is not None:
        name = view.trailer.circuit(mine[0].circuit).name
        title = say("%(name)s: find the fault") % {"name": name[:1].upper() + name[1:]}
    elif first == ALL:
        title = say("All is dead or dim")
    elif first == WRONG:
        title = say("The wrong road lamp lights")
    else:
        title = say("Several things are dead")
    return title if first == path else f"{title} ({number})"


def guides_page(view: View, path: str) -> tuple[str, dict[str, Any]]:
    """Return the template of a page of guides and what it is filled with; ``path`` is the page's, without ending."""
    mine = view.guide_pages[path]
    if mine and mine[0].circuit is not None:
        return "stops_circuit", _circuit_guides(view, view.trailer.circuit(mine[0].circuit), path)
    return "stops_shared", _shared_guides(view, path)


def _circuit_guides(view: View, circuit: Circuit, here: str) -> dict[str, Any]:
    paths = pages_of_group(view.guide_pages, circuit.number)
    every = [guide for path in paths for guide in view.guide_pages[path]]
    fuse = view.figures.circuits[circuit.number].fuse
    return {
        "circuit": circuit_anchor(view, circuit),
        "tow": circuit.kind is CircuitKind.TOW,
        "fuse": fuse_data(view, fuse.name) if fuse else None,
        "list": [title_data(view, guide, here) for guide in view.guide_pages[here]],
        "others": [
            (number, title_data(view, view.guide_pages[path][0], here))
            for number, path in enumerate(paths, start=1)
            if path != here
        ],
        "guides": [guide_data(view, guide, here) for guide in view.guide_pages[here]],
        "breakaway": of_brakes(view.figures, circuit.number),
        "on_by_pin": view.figures.brakes is not None and view.figures.brakes.breakaway == circuit.number,
        "stands": _stands(view, view.guide_pages[here]),
        "unplug": unplug_data(view, every[0]),
        "alarms": _alarms(view) if any(s.kind == BATTERY for s in every[0].unplug) else [],
    }


def _shared_guides(view: View, here: str) -> dict[str, Any]:
    mine = view.guide_pages[here]
    lamps = next((guide for guide in mine if guide.symptom is Symptom.WRONG), None)
    house = any(s.kind == BATTERY for guide in mine for s in guide.unplug)
    return {
        "kind": "wrong" if lamps else "all" if here == ALL else "together",
        "several": _several(view, here) if here == TOGETHER else [],
        "brake_cases": _brake_cases(view, here) if here == TOGETHER else [],
        "road": bool(view.trailer.road_lamps),
        "stands": _stands(view, mine),
        "list": [title_data(view, guide, here) for guide in mine],
        "guides": [guide_data(view, guide, here) for guide in mine],
        "alarms": _alarms(view) if house and here == ALL else [],
        "functions": list(_functions(view, lamps)) if lamps else [],
        "second_way": (lamps is not None or here == TOGETHER) and _second_way(view),
    }


def _stands(view: View, made: Sequence[Guide]) -> dict[str, bool]:
    """Tell what a page's guides measure at while the trailer is held: road lamps, on the hatch, brakes and by what.

    What works by the reverse gear is measured as road lamps are: engine off, brake set, wheels chocked.
    """
    things = {thing for guide in made for thing in guide.things}
    parts, hatch = view.trailer.parts, {lamp.name for lamp in view.trailer.road_lamps if lamp.on_hatch}
    magnets = [t for t in things if t.part in parts and parts[t.part].kind == BRAKE_MAGNET]
    by_pin = [thing for thing in magnets if braked_by(view, [thing]) == "pin"]
    return {
        "road": not things.isdisjoint(view.road_things)
        or any(in_reverse_gear(view.trailer, thing.circuit) for thing in things),
        "hatch": any(thing.part in hatch for thing in things),
        "brakes": bool(magnets),
        "by_pin": bool(by_pin),
        "by_car": len(by_pin) < len(magnets),
    }


def _second_way(view: View) -> bool:
    """Tell whether a ground that lamps share can be lost while their current still comes back on another way."""
    return any(ground.ways for ground in odd_lamps(view.trailer, view.figures).grounds)


def _has(view: View) -> dict[str, Any]:
    trailer = view.trailer
    return {
        "has_battery": trailer.battery is not None,
        "isolator": isolating_switch(trailer) is not None,
        "lithium": trailer.battery is not None and trailer.battery.chemistry == "lithium",
        "has_fuses": bool(view.figures.fuses),
        "has_plug": trailer.tow_plug is not None,
        "has_mains": has_mains(trailer),
        "has_box": trailer.front_box is not None,
        "alarms": _alarms(view),
        "brakes": trailer.brakes is not None,
        "surge": trailer.brakes is not None and trailer.brakes.kind == "surge",
        "breakaway": view.figures.brakes is not None and view.figures.brakes.breakaway is not None,
    }


def _alarms(view: View) -> list[str]:
    return [part.name for part in view.trailer.parts.values() if part.kind == "alarm"]


def own_guide(view: View, thing: Thing, symptom: Symptom) -> Guide | None:
    """Return the guide for one thing alone; where it has none of its own, the one for the fewest things with it."""
    found = [guide for guide in view.guides if guide.symptom is symptom and thing in guide.things]
    return min(found, key=lambda guide: len(guide.things), default=None)


def _things(view: View) -> list[Thing]:
    found = {t for guide in view.guides if guide.symptom is Symptom.DEAD for t in guide.things}
    return sorted(found, key=lambda thing: (thing.part.casefold(), thing.what, thing.circuit))


def _links(view: View, symptom: Symptom, *, road: bool | None) -> list[dict[str, Any]]:
    """Return every thing with the address of its guide, in alphabet; road lamps, the others, or both."""
    tow = {c.number for c in view.trailer.circuits if c.kind is CircuitKind.TOW}
    found = []
    for thing in _things(view):
        guide = own_guide(view, thing, symptom)
        if guide is not None and (road is None or road == (thing.circuit in tow)):
            found.append(thing_data(view, thing) | {"address": address_of(view, guide, INDEX)})
    return found


def _several(view: View, here: str) -> list[dict[str, Any]]:
    """Return what is dead together, and what these things share."""
    rows = [g for g in view.guides if g.symptom is Symptom.DEAD and len(g.things) > 1 and g.id != "dead-all"]
    return [
        {
            "things": things_data(view, guide.things),
            "shared": labels_data(view, _telling(guide, by_supply=bool(braked_by(view, guide.things)))),
            "address": address_of(view, guide, here),
        }
        for guide in rows
    ]


def _telling(guide: Guide, *, by_supply: bool) -> Sequence[Suspect]:
    """Return the suspects by which an owner knows what is shared: parts before wires, three at most.

    All of them for brakes that two supplies work, ``by_supply``: there the wires tell one row from another.
    """
    known = sorted((s for s in guide.suspects if s.cause in TELLING), key=lambda s: TELLING.index(s.cause))
    return known if by_supply else known[:SHARED_NAMES]


def _brake_cases(view: View, here: str) -> list[dict[str, Any]]:
    """Return what brakes that two supplies work can show, each case with its guide.

    ``pedal`` and ``pin`` tell whether they brake from the car, and from the breakaway. Empty where one supply alone
    works them.
    """
    dead = [guide for guide in view.guides if guide.symptom is Symptom.DEAD]
    things = {thing for guide in dead for thing in guide.things}
    on = {by: frozenset(t for t in things if braked_by(view, [t]) == by) for by in ("pedal", "pin")}
    cases = ((False, True, on["pedal"]), (True, False, on["pin"]), (False, False, on["pedal"] | on["pin"]))
    found = []
    for pedal, pin, mine in cases if all(on.values()) else ():
        guide = next((one for one in dead if set(one.things) == mine), None)
        if guide is not None:
            shared = labels_data(view, _telling(guide, by_supply=True))
            found.append(
                {"pedal": pedal, "pin": pin, "shared": shared, "address": address_of(view, guide, here)}
            )
    return found


def _fuses(view: View) -> list[dict[str, Any]]:
    return [
        {
            "fuse": fuse_data(view, guide.fuse),
            "circuit": view.trailer.circuit(guide.circuit).name if guide.circuit else "",
            "address": address_of(view, guide, INDEX),
        }
        for guide in view.guides
        if guide.symptom is Symptom.FUSE
    ]


def _hottest(view: View) -> list[dict[str, Any]]:
    """Return what passes most current on, with what flows through all of it: parts, and the plug's fullest contact."""
    found = [
        (
            one.current_a,
            one.part,
            view.trailer.parts[one.part].where,
            f"carried/{step(one.part)}/current_a",
            "",
        )
        for one in sorted(view.figures.carried, key=lambda one: (-one.current_a, one.part))[:HOTTEST]
    ]
    plug, states = view.trailer.tow_plug, view.figures.plug_states
    if plug is not None and states:
        one = max(states, key=lambda state: state.amps["everything"])
        path, at = f"plug_states/{one.pin}/everything_a", plug.pattern.contact(one.pin)
        found.append((one.amps["everything"], TOW_PLUG, plug.half(at).where, path, at.said))
    ranked = sorted(found, key=lambda row: (-row[0], row[1]))
    return [
        {"part": part, "where": where, "carries": view.fig(path, "A"), "contact": contact}
        for _, part, where, path, contact in ranked
    ]


def _functions(view: View, lamps: Guide) -> Iterator[dict[str, Any]]:
    """Yield every contact of the tow plug that feeds road lamps, with the lamps that must light with it.

    Contacts that the brake pedal feeds together stand by their turn signal; a row of their own tells of the pedal.
    """
    shared = shared_by_brake(view)
    together: list[Thing] = []
    for circuit in view.trailer.circuits:
        mine = [thing for thing in lamps.things if thing.circuit == circuit.number]
        if mine and circuit.start.part == TOW_PLUG:
            contact = contact_data(view, circuit.start.pin)
            plug = view.trailer.tow_plug
            at = plug.pattern.contact(circuit.start.pin) if plug else None
            words = functions_here(view.trailer, at)[0] if at else ()
            if circuit.start.pin in shared:
                together += mine
                words = tuple(word for word in words if not word.endswith("stop"))
            yield {"contacts": [contact], "functions": words, "lamps": things_data(view, mine)}
    if together:
        contacts = [contact_data(view, pin) for pin in shared]
        yield {"contacts": contacts, "functions": ("stop",), "lamps": things_data(view, together)}
