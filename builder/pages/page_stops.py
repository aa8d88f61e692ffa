"""If something stops working: what to do first, every symptom, and the guides that several circuits share."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from builder.guide.model import Cause, Guide, Suspect, Symptom, Thing
from builder.guide.shorts import without_guide
from builder.pages.guide_data import (
    INDEX,
    address_of,
    contact_data,
    fuse_data,
    guide_data,
    labels_data,
    page_of,
    thing_data,
    things_data,
    unplug_data,
)
from builder.pages.page_fuses import circuit_anchor
from builder.pages.page_start import has_mains
from builder.pages.view import View
from builder.trailer.circuits import Circuit, CircuitKind
from builder.trailer.model import BATTERY, TOW_PLUG
from builder.trailer.parts import Form

HOTTEST = 6
"""So many wires at most are named as those that carry most."""
SHARED_NAMES = 3
TELLING = (
    *(Cause.FUSE, Cause.BREAKER, Cause.HOUSING, Cause.PLUG, Cause.CAR, Cause.SWITCH, Cause.RELAY_CONTACT),
    *(Cause.CONVERTER, Cause.JOINT, Cause.CONTACT, Cause.WAY, Cause.LOAD, Cause.COIL, Cause.WIRE),
)
"""What tells an owner most of what is shared stands first."""


def stops_page(view: View) -> dict[str, Any]:
    """Return what the template of the first page is filled with."""
    shared = [guide for guide in view.guides if guide.circuit is None]
    whole = [guide for guide in shared if guide.id in ("dead-all", "dim-all")]
    lamps = next((guide for guide in shared if guide.symptom is Symptom.WRONG), None)
    return {
        **_has(view),
        "house": _links(view, Symptom.DEAD, road=False),
        "dim": _links(view, Symptom.DIM, road=None),
        "road": _links(view, Symptom.DEAD, road=True),
        "several": _several(view),
        "all": [guide_data(view, guide, INDEX) for guide in whole],
        "shared": [
            guide_data(view, guide, INDEX) for guide in shared if guide not in whole and guide is not lamps
        ],
        "fuses": _fuses(view),
        "left_out": [fuse_data(view, name) for name in without_guide(view.figures, view.guides)],
        "charges": [
            {"name": guide.things[0].part, "address": address_of(view, guide, INDEX)}
            for guide in view.guides
            if guide.symptom is Symptom.CHARGE
        ],
        "hot": _hottest(view),
        "wrong": guide_data(view, lamps, INDEX) if lamps else None,
        "functions": list(_functions(view, lamps)) if lamps else [],
    }


def stops_circuit_page(view: View, circuit: Circuit) -> dict[str, Any]:
    """Return what the template of one circuit's guides is filled with."""
    mine = guides_of(view, circuit)
    here = page_of(view, mine[0])
    order = list(Symptom)
    sorted_ = sorted(mine, key=lambda guide: (order.index(guide.symptom), -len(guide.things)))
    fuse = view.figures.circuits[circuit.number].fuse
    return {
        "circuit": circuit_anchor(view, circuit),
        "tow": circuit.kind is CircuitKind.TOW,
        "fuse": fuse_data(view, fuse.name) if fuse else None,
        "guides": [guide_data(view, guide, here) for guide in sorted_],
        "unplug": unplug_data(view, mine[0]),
        "alarms": _alarms(view) if any(s.kind == BATTERY for s in mine[0].unplug) else [],
    }


def guides_of(view: View, circuit: Circuit) -> list[Guide]:
    """Return the guides that stand on a circuit's own page."""
    return [guide for guide in view.guides if guide.circuit == circuit.number]


def _has(view: View) -> dict[str, Any]:
    trailer = view.trailer
    return {
        "has_battery": trailer.battery is not None,
        "lithium": trailer.battery is not None and trailer.battery.chemistry == "lithium",
        "has_fuses": bool(view.figures.fuses),
        "has_plug": trailer.tow_plug is not None,
        "has_mains": has_mains(trailer),
        "alarms": _alarms(view),
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
            found.append(thing_data(thing) | {"address": address_of(view, guide, INDEX)})
    return found


def _several(view: View) -> list[dict[str, Any]]:
    """Return what is dead together, and what these things share."""
    rows = [g for g in view.guides if g.symptom is Symptom.DEAD and len(g.things) > 1 and g.id != "dead-all"]
    return [
        {
            "things": things_data(guide.things),
            "shared": labels_data(view, _telling(guide)),
            "address": address_of(view, guide, INDEX),
        }
        for guide in rows
    ]


def _telling(guide: Guide) -> Sequence[Suspect]:
    """Return the suspects by which an owner knows what is shared: parts before wires, three at most."""
    known = [s for s in guide.suspects if s.cause in TELLING]
    return sorted(known, key=lambda s: TELLING.index(s.cause))[:SHARED_NAMES]


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
    """Return the parts with contacts in them that carry most, with the current of the wire that feeds each."""
    found: dict[str, tuple[float, str]] = {}
    for wire in view.trailer.wires:
        part = view.trailer.parts.get(wire.end.part)
        current_a = view.figures.wires[wire.number].current_a
        if part is None or part.waiting or part.form in (Form.LOAD, Form.SUPPLY) or current_a <= 0:
            continue
        found[part.name] = max(found.get(part.name, (0.0, "")), (current_a, wire.number))
    ranked = sorted(found.items(), key=lambda entry: (-entry[1][0], entry[0]))[:HOTTEST]
    return [
        {
            "part": name,
            "where": view.trailer.parts[name].where or "",
            "carries": view.fig(f"wires/{number}/current_a", "A"),
        }
        for name, (_, number) in ranked
    ]


def _functions(view: View, lamps: Guide) -> Iterator[dict[str, Any]]:
    """Yield every contact of the tow plug that feeds road lamps, with the lamps that must light with it."""
    for circuit in view.trailer.circuits:
        mine = [thing for thing in lamps.things if thing.circuit == circuit.number]
        if mine and circuit.start.part == TOW_PLUG:
            contact = contact_data(view, circuit.start.pin)
            plug = view.trailer.tow_plug
            words = plug.pattern.contact(int(circuit.start.pin)).functions if plug else ()
            yield {"contact": contact, "words": ", ".join(words), "lamps": things_data(mine)}
