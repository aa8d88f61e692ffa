"""Guides as data for their templates: steps with both points of the meter, where each outcome leads, and leaves."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from builder.buildfile.loom import letter
from builder.electrics.energy import is_lithium
from builder.guide.model import (
    Cause,
    Guide,
    Leaf,
    Outcome,
    Point,
    Reads,
    Step,
    StepKind,
    Suspect,
    Symptom,
    Thing,
)
from builder.pages.guide_facts import (
    at_battery,
    by_the_controller,
    charged_by,
    fed_beside_an_engine,
    fed_by_the_car,
    for_brakes,
    has_bulbs,
    in_reverse_gear,
    is_brake_contact,
    is_magnet,
    is_whole,
    kind_of_all,
    near_battery,
    of_road_lamps,
    on_the_cars_line,
)
from builder.pages.guide_names import braked_by, driver_turns_on, thing_data, things_data
from builder.pages.guide_places import pages_of_group
from builder.pages.page_fuses import wire_link
from builder.pages.terminals import end_data
from builder.pages.view import View, step
from builder.pages.wiring import clamp_comes_off, known_where, supplies_data
from builder.trailer.circuits import Circuit
from builder.trailer.model import FRONT_BOX, TOW_PLUG
from builder.trailer.parts import Terminal
from builder.trailer.plug_functions import contact_mark


def stops_link(view: View, circuit: Circuit) -> str:
    """Return the address of a circuit's first page of guides; empty where it has none."""
    mine = pages_of_group(view.guide_pages, circuit.number)
    return f"{mine[0]}.html" if mine else ""


def address_of(view: View, guide: Guide, here: str) -> str:
    """Return the address of a guide, seen from a page."""
    page = view.page_of_guide[guide.id]
    return f"#{guide.id}" if page == here else f"{page}.html#{guide.id}"


def guide_data(view: View, guide: Guide, here: str) -> dict[str, Any]:
    """Return one guide for its template, as it stands on the page ``here``."""
    numbers = {one.id: place for place, one in enumerate(guide.steps, start=1)}
    letters = {leaf.id: letter(place) for place, leaf in enumerate(guide.leaves)}
    places = numbers, letters, here
    return _named(view, guide) | {
        "tried": thing_data(view, guide.tried) if guide.tried else None,
        "steps": [_step(view, guide, place, places) for place in range(len(guide.steps))],
        "leaves": [_leaf(view, guide, leaf, places) for leaf in guide.leaves],
        "off": [_part(view, name) for name in guide.off],
        "tow": fed_by_the_car(view, guide),
        "road": of_road_lamps(view, guide),
        "bulbs": guide.symptom is Symptom.FUSE and has_bulbs(view, guide),
        "controller": by_the_controller(view, guide),
        "cars_line": fed_beside_an_engine(view, guide),
        "by_gear": guide.tried is not None and in_reverse_gear(view.trailer, guide.tried.circuit),
        "on_by_pin": guide.tried is not None and braked_by(view, [guide.tried]) == "pin",
        "brakes": for_brakes(view, guide),
        "hatch": any(
            lamp.on_hatch and any(t.part == lamp.name for t in guide.things)
            for lamp in view.trailer.road_lamps
        ),
        "pin": view.figures.brakes is not None and view.figures.brakes.breakaway is not None,
        "driver": next(iter(driver_turns_on(view, guide.tried)), "") if guide.tried else "",
        "plugs": view.trailer.tow_plug.names if view.trailer.tow_plug else "",
        "charged_by": charged_by(view, guide),
        "charges": {charged_by(view, one) for one in view.guides} - {""},
        "at_rest": view.figures.energy is not None and bool(view.figures.energy.kind.rest),
        "alarms": ", ".join(guide.alarms),
        "unplug": unplug_data(view, guide),
        "near_battery": near_battery(view, guide),
        "unplugs": any(one.unplug for one in guide.steps),
    }


def title_data(view: View, guide: Guide, here: str) -> dict[str, Any]:
    """Return a guide for a line of a list that leads to it from the page ``here``."""
    return _named(view, guide) | {"address": address_of(view, guide, here)}


def _named(view: View, guide: Guide) -> dict[str, Any]:
    return {
        "id": guide.id,
        "symptom": guide.symptom.value,
        "things": things_data(view, guide.things),
        "count": len(guide.things),
        "whole": len(guide.things) > 1 and is_whole(view, guide),
        "longest": guide.longest,
        "step_count": len(guide.steps),
        "fuse": guide.fuse,
        "inner": _is_inner(view, guide),
        "breaker": _is_breaker(view, guide.fuse),
        "weak": kind_of_all(view, guide.things),
        "magnets": all(is_magnet(view, thing) for thing in guide.things),
    }


Places = tuple[Mapping[str, int], Mapping[str, str], str]


def _step(view: View, guide: Guide, place: int, places: Places) -> dict[str, Any]:
    one = guide.steps[place]
    path = f"guide/{guide.id}/steps/{place}"
    branches = [_branch(view, guide, outcome, places) for outcome in one.outcomes]
    unseen = _with_the_plug_in(guide, one, branches)
    return {
        "id": f"{guide.id}-{one.id}",
        "number": place + 1,
        "kind": one.kind.value,
        "again": any(before.kind in (StepKind.VOLTS, StepKind.DROP) for before in guide.steps[:place]),
        "parts": [_part(view, name) for name in one.parts if name != FRONT_BOX],
        "off": [_part(view, name) for name in one.off],
        "fuse": fuse_data(view, one.fuse),
        "red": spot_data(view, one.red),
        "black": spot_data(view, one.black),
        "least": view.fig(f"{path}/least_v", "V") if one.least_v is not None else "",
        "least_of": one.least_of,
        "most": view.fig(f"{path}/most_v", "V") if one.most_v is not None else "",
        "load": view.fig(f"{path}/load_a", "A") if one.load_a else "",
        "normal": view.fig(f"{path}/normal_ohm", "Ω") if one.normal_ohm is not None else "",
        "unplug": unplug_data(view, one),
        "branches": branches + unseen,
        "unseen": bool(unseen),
    }


def _with_the_plug_in(guide: Guide, one: Step, branches: Sequence[dict[str, Any]]) -> list[dict[str, Any]]:
    """Return where a reading in the car's socket goes on in a car that feeds it only when it sees a trailer.

    It goes on as if the reading were well, where that is a reading with the plug in; else there is no such branch.
    """
    if one.red is None or one.red.beyond != "socket":
        return []
    plugged = {s.id for s in guide.steps if s.red is not None and s.red.beyond != "socket"}
    good = {outcome.to for outcome in one.outcomes if outcome.reads is Reads.ENOUGH} & plugged
    found = [b for b, outcome in zip(branches, one.outcomes, strict=True) if outcome.to in good]
    return [branch | {"reads": "unseen"} for branch in found]


def _part(view: View, name: str) -> dict[str, Any]:
    part = view.trailer.parts.get(name)
    own = part is not None and part.own_switch
    return {
        "name": name,
        "where": known_where(view.trailer, name),
        "own": own,
        "kind": part.kind if part else "",
    }


def fuse_data(view: View, name: str) -> dict[str, Any] | None:
    """Return a fuse with its way, its chip and its place; None where there is none in the trailer."""
    fuse = next((one for one in view.figures.fuses if one.name == name), None)
    if fuse is None:
        return None
    where = known_where(view.trailer, FRONT_BOX if fuse.way is not None else fuse.name)
    return {
        "name": fuse.name,
        "way": fuse.way,
        "chip": view.fuse_words(fuse.name),
        "where": where,
        "device": fuse.device,
        "clamp": clamp_comes_off(view.trailer, fuse.name),
        "plug": on_the_cars_line(view.trailer, fuse.circuit),
    }


def spot_data(view: View, point: Point | None) -> dict[str, Any] | None:
    """Return where a probe goes: part, terminal, the wire there with its colour, and the place."""
    if point is None:
        return None
    if point.beyond in ("car", "frame"):
        return {"kind": point.beyond, "part": "", "wire": "", "chip": None, "where": ""}
    spot = _terminal(view, point.terminal)
    wire = view.wires.get(point.wire)
    chip = view.wire_chip(wire.color) if wire else None
    where = "" if point.beyond else known_where(view.trailer, point.terminal.part, point.terminal.pin)
    kind = "socket" if point.beyond else spot["kind"]
    return spot | {
        "kind": kind,
        "wire": wire_link(point.wire) if wire else "",
        "chip": chip,
        "where": where,
    }


def _terminal(view: View, terminal: Terminal) -> dict[str, Any]:
    if terminal.part == FRONT_BOX:
        return dict(end_data(view.trailer, terminal))
    if terminal.part == TOW_PLUG:
        return contact_data(view, terminal.pin)
    return {"kind": "terminal", "part": terminal.part, "pin": terminal.pin}


def contact_data(view: View, number: str) -> dict[str, Any]:
    """Return a contact of the tow plug: its number and its mark."""
    plug = view.trailer.tow_plug
    if plug is None or not number:
        return {"kind": "plug", "part": TOW_PLUG, "n": number, "label": ""}
    contact = plug.pattern.contact(number)
    return {"kind": "plug", "part": TOW_PLUG, "n": contact.said, "label": contact_mark(view.trailer, contact)}


def unplug_data(view: View, one: Step | Guide) -> list[dict[str, str]]:
    """Return the supplies to take off, each with how and where."""
    return supplies_data(view.trailer, one.unplug)


def _branch(view: View, guide: Guide, outcome: Outcome, places: Places) -> dict[str, Any]:
    numbers, letters, here = places
    kind, number, address = "guide", "", ""
    things: Sequence[Thing] = outcome.things
    if outcome.to in numbers:
        kind, number = "step", str(numbers[outcome.to])
    elif outcome.to in letters:
        kind, number = "leaf", letters[outcome.to]
    if kind == "guide":
        other = next(one for one in view.guides if one.id == outcome.to)
        address = address_of(view, other, here)
        things = [thing for thing in other.things if thing not in guide.things] if outcome.things else ()
    else:
        address = f"#{guide.id}-{outcome.to}"
    return {
        "reads": outcome.reads.value,
        "kind": kind,
        "number": number,
        "address": address,
        "things": things_data(view, things, guide.things),
        "suspects": _ends(view, guide, outcome.to),
    }


def _ends(view: View, guide: Guide, to: str) -> list[dict[str, Any]]:
    """Return the suspects that a branch ends at; nothing where it goes on."""
    found = (one for leaf in guide.leaves if leaf.id == to for one in labels_data(view, leaf.suspects))
    return [one | {"symptom": guide.symptom.value} for one in found]


def _leaf(view: View, guide: Guide, leaf: Leaf, places: Places) -> dict[str, Any]:
    numbers, letters, here = places
    fuses = _fuses(leaf)
    again = next((one for one in view.guides if one.symptom is Symptom.FUSE and one.fuse in fuses), None)
    return {
        "id": f"{guide.id}-{leaf.id}",
        "letter": letters[leaf.id],
        "suspects": [
            suspect_data(view, suspect, guide) | {"again": again_, "symptom": guide.symptom.value}
            for suspect, again_ in zip(leaf.suspects, repeats(leaf.suspects), strict=True)
        ],
        "off": _off_before_any(view, leaf.suspects),
        "retest": numbers.get(leaf.retest, 0),
        "again": address_of(view, again, here) if again else "",
        "leave_out": bool(fuses) and again is None,
        "breaker": _is_breaker(view, guide.fuse),
        "symptom": guide.symptom.value,
    }


def _fuses(leaf: Leaf) -> set[str]:
    return {s.pin or s.part for s in leaf.suspects if s.cause in (Cause.FUSE, Cause.BREAKER)}


def _is_inner(view: View, guide: Guide) -> bool:
    """Tell whether the fuse of a guide stands further on in a circuit that has one of its own."""
    own = view.figures.circuits[guide.circuit].fuse if guide.circuit is not None else None
    return own is not None and guide.fuse not in ("", own.name)


def _is_breaker(view: View, fuse: str) -> bool:
    return any(one.name == fuse and one.device == "breaker" for one in view.figures.fuses)


def labels_data(view: View, suspects: Sequence[Suspect]) -> list[dict[str, Any]]:
    """Return suspects for a line that names them: one of the same part as the one before does not name it again."""
    return [
        label_data(view, suspect) | {"again": again}
        for suspect, again in zip(suspects, repeats(suspects), strict=True)
    ]


def repeats(suspects: Sequence[Suspect]) -> list[bool]:
    """Tell for each suspect whether it is a piece of the part that the one before it named; a fuse has its own name."""
    fuses = (Cause.FUSE, Cause.HOLDER, Cause.BREAKER)
    pairs = zip((None, *suspects), suspects, strict=False)
    return [
        before is not None and bool(one.part) and before.part == one.part and one.cause not in fuses
        for before, one in pairs
    ]


def label_data(view: View, suspect: Suspect) -> dict[str, Any]:
    """Return a suspect for a line that only names it."""
    made: dict[str, Any] = {"cause": suspect.cause.value, "part": suspect.part, "pin": suspect.pin}
    made |= {"numbers": suspect.wires, "fuse": None}
    if suspect.cause in (Cause.FUSE, Cause.HOLDER, Cause.BREAKER):
        return made | {"fuse": fuse_data(view, suspect.pin or suspect.part)}
    return made | (contact_data(view, suspect.pin) if _names_contact(suspect) else {})


def _names_contact(suspect: Suspect) -> bool:
    """Tell whether a suspect is of one contact of the tow plug; the car can fail for all of them."""
    return suspect.cause in (Cause.CONTACT, Cause.CAR_GROUND) or (
        suspect.cause is Cause.CAR and bool(suspect.pin)
    )


def suspect_data(view: View, suspect: Suspect, guide: Guide) -> dict[str, Any]:
    """Return a suspect for the template that names it, with its place and the spare to use."""
    made: dict[str, Any] = {
        "cause": suspect.cause.value,
        "part": suspect.part,
        "pin": suspect.pin,
        "kind": view.trailer.parts[suspect.part].kind if suspect.part in view.trailer.parts else "",
        "brake": is_brake_contact(view, suspect),
        "where": known_where(view.trailer, suspect.part, suspect.pin),
        "fuse": None,
        "numbers": suspect.wires,
        "wires": [wire_data(view, number) for number in suspect.wires],
        "spare": "",
        "lithium": suspect.cause is Cause.BATTERY and is_lithium(view.trailer),
        "alarm": suspect.cause is Cause.LOAD and suspect.part in guide.alarms,
        **off_before(view, suspect),
    }
    if suspect.cause in (Cause.FUSE, Cause.HOLDER, Cause.BREAKER):
        made["fuse"] = fuse_data(view, suspect.pin or suspect.part)
    if _names_contact(suspect):
        made |= contact_data(view, suspect.pin)
    if suspect.cause is Cause.SWITCH and any(one.name == suspect.part for one in view.figures.switches):
        made["spare"] = view.fig(f"switches/{step(suspect.part)}/least_rating_a", "A")
    if suspect.cause is Cause.LOAD:
        made["spare"] = _takes(view, suspect, guide)
    return made


def _takes(view: View, suspect: Suspect, guide: Guide) -> Any:
    """Return what a part takes, so that another of the same kind can be bought; empty where it is not known."""
    for thing in guide.things:
        for place, load in enumerate(view.figures.circuits[thing.circuit].loads):
            if (load.load.part, load.load.what) == (suspect.part, suspect.pin):
                return view.fig(f"circuits/{thing.circuit}/loads/{place}/current_a", "A")
    return ""


def wire_data(view: View, number: str) -> dict[str, Any]:
    """Return a wire with its colour and size, and both its ends with their places."""
    wire = view.wires[number]
    return {
        "number": wire_link(number),
        "chip": view.wire_chip(wire.color, str(view.figures.wires[number].size)),
        "ends": [
            end_data(view.trailer, end) | {"where": known_where(view.trailer, end.part, end.pin)}
            for end in (wire.start, wire.end)
        ],
    }


def off_before(view: View, suspect: Suspect) -> dict[str, bool]:
    """Return what comes off before a hand goes to a suspect: the battery's minus ``clamp``, the tow ``plug``.

    A road lamp's feed is dead while nothing is on in the car, and each page says that the plug comes out first. A
    line that the car feeds by itself is live whenever the plug is in, so that it is said beside each suspect.
    """
    part = suspect.part if suspect.part in view.trailer.parts else ""
    own = {circuit.number for circuit in view.trailer.circuits for stop in circuit.stops if part == stop.part}
    on = own | {view.wires[number].circuit for number in suspect.wires}
    return {
        "clamp": any(at_battery(view, number) for number in suspect.wires)
        or (bool(part) and clamp_comes_off(view.trailer, part)),
        "plug": any(on_the_cars_line(view.trailer, number) for number in on),
    }


def _off_before_any(view: View, suspects: Sequence[Suspect]) -> dict[str, bool]:
    found = [off_before(view, suspect) for suspect in suspects]
    return {key: any(one[key] for one in found) for key in ("clamp", "plug")}
