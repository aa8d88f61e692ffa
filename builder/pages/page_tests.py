"""The test sheet: what to measure, between which points, what to expect, and a blank for what was read."""

from __future__ import annotations

from typing import Any

from markupsafe import Markup

from builder.lists.dead_tests import is_toggle
from builder.lists.testing import DEAD_GROUPS, Act, Group, Kind, Line, Step, Touch
from builder.pages.csv_files import csv_text
from builder.pages.page_fuses import wire_link
from builder.pages.rounding import Reader, sheet_figure
from builder.pages.terminals import end_data
from builder.pages.view import View, joined
from builder.pages.wiring import clamp_comes_off, has_post_studs, isolating_switch, lands_in_box, main_fuse
from builder.trailer.model import BATTERY, BATTERY_MINUS, TOW_PLUG, Trailer
from builder.trailer.parts import BREAKAWAY_BATTERY, SHORE_CONVERTER, SOLAR_MODULE, Terminal
from builder.trailer.size import Size
from builder.trailer.wires import Wire

_KEYS = ("least", "most", "about", "below")
_SUFFIX = {"V": "v", "A": "a", "ohm": "ohm"}
_PRINTED = {"V": "V", "A": "A", "ohm": "Ω"}


def tests_page(view: View) -> dict[str, Any]:
    """Return what the template of the test sheet is filled with."""
    sheet, trailer = view.lists.tests, view.trailer
    isolator, fuse = isolating_switch(trailer), main_fuse(trailer)
    post = trailer.studs.get(BATTERY)
    live = _live_holders(view)
    shore = [name for name in sheet.unplug if _kind(view, name) == SHORE_CONVERTER]
    looked_up = _LookedUp(view)
    rows = [(line, _row(view, looked_up, number, line)) for number, line in enumerate(sheet.lines, start=1)]
    return {
        "box": trailer.front_box is not None,
        "battery": BATTERY in sheet.unplug,
        "lithium": trailer.battery is not None and trailer.battery.chemistry == "lithium",
        "plug": TOW_PLUG in sheet.unplug,
        "plugs": trailer.tow_plug.names if trailer.tow_plug else "",
        "solar": [
            {"part": name, "wires": joined(_wires_on(trailer, name))}
            for name in sheet.unplug
            if _kind(view, name) == SOLAR_MODULE
        ],
        "shore": shore,
        "breakaway": [name for name in sheet.unplug if _kind(view, name) == BREAKAWAY_BATTERY],
        "shore_feeds": any(line.supply in shore for _, line in sheet.group(Group.CIRCUIT)),
        "shore_charges": any(line.part in shore for _, line in sheet.group(Group.CHARGING)),
        "coil_apart": _coil_apart(trailer),
        "fuses_out": sheet.fuses_out,
        "isolator": isolator.name if isolator else "",
        "main_fuse": fuse.name if fuse and fuse.kind == "fuse" else "",
        "live": live,
        "live_switched": _live_switched(view, live),
        "toggles": ", ".join(name for name in trailer.parts if is_toggle(trailer, name)),
        "needs": _needs(view),
        "sockets": any(part.kind == "socket" for part in trailer.parts.values()),
        "studs": has_post_studs(trailer),
        "stud": str(post.size) if post and post.size else "",
        "clamp": any(line.black == BATTERY_MINUS for _, line in sheet.group(Group.SHORTS)),
        "plug_most": view.fig("plug_test/most_current_a", "A") if sheet.plug_supply else "",
        "plug_fuse": view.fig("plug_test/fuse_a", "A") if sheet.plug_supply else "",
        "groups": {group.value: [row for line, row in rows if line.group is group] for group in Group},
        "tables": _circuit_tables(view, rows),
    }


class _LookedUp:
    """What each line of the sheet asks of the trailer by name, looked up once."""

    def __init__(self, view: View) -> None:
        self.spares = {wire.number: wire for wire in view.trailer.spares}
        self.ways = {fuse.name for fuse in view.figures.fuses if fuse.way is not None}
        self.sections = {section.name: section for section in view.trailer.sections}


def _live_holders(view: View) -> tuple[str, ...]:
    """Return the fuses whose holders the battery keeps live; first those that a line puts in or takes out so."""
    touched = [name for line in view.lists.tests.lines for step in line.steps for name in _touched_live(step)]
    if not any(step.act is Act.BATTERY_ON for line in view.lists.tests.lines for step in line.steps):
        return ()
    there = [fuse.name for fuse in view.figures.fuses if not _waits(view, fuse.name)]
    return tuple(name for name in dict.fromkeys((*touched, *there)) if clamp_comes_off(view.trailer, name))


def _live_switched(view: View, live: tuple[str, ...]) -> str:
    """Return the holders on the way from a converter to the supply bar: the bar feeds them from their far side."""
    ending = {stop.part for circuit in lands_in_box(view.trailer) for stop in circuit.stops}
    found = (fuse.name for fuse in view.figures.fuses if fuse.name in ending and fuse.name not in live)
    return ", ".join(name for name in found if live and not _waits(view, name))


def _is_live(trailer: Trailer, fuse: str) -> bool:
    """Tell whether a battery feeds the holder of a fuse while it goes in or out."""
    return clamp_comes_off(trailer, fuse) or _on_breakaway(trailer, fuse)


def _on_breakaway(trailer: Trailer, fuse: str) -> bool:
    """Tell whether a fuse hangs on the breakaway's own battery, which no minus clamp of the other one parts."""
    return any(
        _is_breakaway(trailer, circuit.start.part) and any(stop.part == fuse for stop in circuit.stops)
        for circuit in trailer.circuits
    )


def _is_breakaway(trailer: Trailer, name: str) -> bool:
    return name in trailer.parts and trailer.parts[name].kind == BREAKAWAY_BATTERY


def _touched_live(step: Step) -> tuple[str, ...]:
    """Return the fuses of a step at whose holders a hand is while a supply may be there."""
    return step.names if step.act in (Act.FUSES_IN, Act.FUSES_OUT) and not step.dead else ()


def _needs(view: View) -> dict[str, bool]:
    """Return what the lines of this sheet need: ranges of the meter, other tools, and what stands for a supply."""
    sheet = view.lists.tests
    lines = sheet.lines
    kinds = {line.kind for line in lines}
    acts = {step.act for line in lines for step in line.steps}
    modules = {name for name in sheet.unplug if _kind(view, name) == SOLAR_MODULE}
    return {
        "volts": any(line.unit == "V" for line in lines),
        "more_volts": any(
            line.kind in (Kind.SOURCE, Kind.SUPPLY, Kind.VOLTAGE) and modules & {line.part, line.supply}
            for line in lines
        ),
        "ohms": bool(kinds & {Kind.WIRE, Kind.BARE, Kind.OPEN, Kind.NO_SHORT, Kind.BOND}),
        "amps": Kind.IDLE in kinds,
        "clamp_meter": Kind.CHARGE in kinds,
        "far": bool(kinds & {Kind.WIRE, Kind.BARE, Kind.FEED_DROP, Kind.RETURN_DROP}),
        "twelve": Kind.LAMPS in kinds or Act.TWELVE_ON in acts,
        "other_contacts": Act.TWELVE_ON in acts,
        "fuses": bool(acts & {Act.FUSES_IN, Act.ALL_IN}),
        "insulation": Kind.INSULATED in kinds,
        "cover": bool(modules),
        "car": Act.CAR_IN in acts,
        "shore": Act.SHORE_IN in acts,
    }


def _kind(view: View, name: str) -> str:
    part = view.trailer.parts.get(name)
    return part.kind if part else ""


def _wires_on(trailer: Trailer, part: str) -> list[Markup]:
    return [wire_link(wire.number) for wire in trailer.wires if part in (wire.start.part, wire.end.part)]


def _waits(view: View, name: str) -> bool:
    part = view.trailer.parts.get(name)
    return part is not None and bool(part.waiting)


def _coil_apart(trailer: Trailer) -> bool:
    """Tell whether the coil of a relay is in another circuit than its contact."""
    stops = [(stop, circuit.number) for circuit in trailer.circuits for stop in circuit.stops]
    coils = {(stop.part, number) for stop, number in stops if stop.as_coil}
    relays = {part for part, _ in coils}
    return any(stop.part in relays and not stop.as_coil and (stop.part, n) not in coils for stop, n in stops)


def _circuit_tables(view: View, rows: list[tuple[Line, dict[str, Any]]]) -> list[dict[str, Any]]:
    """Return the circuits that are tested one by one, in their order, each with its rows."""
    found: dict[int, list[dict[str, Any]]] = {}
    for line, row in rows:
        if line.group is Group.CIRCUIT and line.circuit is not None:
            found.setdefault(line.circuit, []).append(row)
    breakaway = view.figures.brakes.breakaway if view.figures.brakes is not None else None
    return [
        {
            "number": number,
            "name": view.trailer.circuit(number).name,
            "breakaway": breakaway == number,
            "rows": own,
        }
        for number, own in found.items()
    ]


def _row(view: View, looked_up: _LookedUp, number: int, line: Line) -> dict[str, Any]:
    """Return one line: its numbers are figures, its points and parts are data for the sentences."""
    path = f"test_sheet/{number}"
    suffix = _SUFFIX.get(line.unit, "")
    numbers = {
        key: view.fig(f"{path}/{key}_{suffix}", _PRINTED[line.unit]) if getattr(line, key) is not None else ""
        for key in _KEYS
    }
    wire = view.wires.get(line.wire) or looked_up.spares.get(line.wire)
    touches = [_touch(view, looked_up, line, touch) for touch in line.touches]
    return {
        "number": number,
        "group": line.group.value,
        "kind": line.kind.value,
        "circuit": view.trailer.circuit(line.circuit).name if line.circuit else "",
        "red": touches[0]["end"] if touches else _end(view, looked_up, line, line.red),
        "black": _end(view, looked_up, line, line.black),
        "current": view.fig(f"{path}/current_a", "A") if line.current_a is not None else "",
        "wire": wire_link(line.wire) if line.wire else "",
        "chip": view.wire_chip(wire.color, str(_size(view, wire))) if wire else None,
        "part": line.part,
        "waits": _waits(view, line.part),
        "part_kind": _kind(view, line.part),
        "charger": _supply(view, looked_up, line.part),
        "parts": ", ".join(line.parts),
        "bulbs": ", ".join(line.bulbs),
        "toggles": ", ".join(line.toggles),
        "switches": ", ".join(line.switches),
        "behind": ", ".join(line.behind),
        "touches": touches,
        "steps": [_step(view, looked_up, step) for step in line.steps],
        "live": line.fuse if _is_live(view.trailer, line.fuse) else "",
        "fuse": _fuse(looked_up, line.fuse),
        "supply": _supply(view, looked_up, line.supply),
        **numbers,
    }


def _step(view: View, looked_up: _LookedUp, step: Step) -> dict[str, Any]:
    """Return one thing to do: its fuses by their ways and names, a contact of the plug by its two ends."""
    fuses = [_fuse(looked_up, name) for name in step.names]
    held = _touched_live(step)
    into = step.names if step.act in (Act.FUSES_IN, Act.FUSES_OUT) else ()
    touched = [name for name in into if name in held or _on_breakaway(view.trailer, name)]
    ways = sorted(int(fuse["way"]) for fuse in fuses if fuse["way"])
    section = next((looked_up.sections[n] for n in step.names if n in looked_up.sections), None)
    return {
        "act": step.act.value,
        "part": ", ".join(step.names),
        "ways": ", ".join(str(way) for way in ways),
        "one_way": len(ways) == 1,
        "others": ", ".join(fuse["name"] for fuse in fuses if not fuse["way"]),
        "live": ", ".join(name for name in touched if _is_live(view.trailer, name)),
        "wires": joined([wire_link(number) for number in step.wires]),
        "plus": end_data(view.trailer, section.plus) if section else None,
        "minus": end_data(view.trailer, section.minus) if section else None,
        "plugs": view.trailer.tow_plug.names if view.trailer.tow_plug else "",
    }


def _touch(view: View, looked_up: _LookedUp, line: Line, touch: Touch) -> dict[str, Any]:
    """Return one end to touch while no part is joined: all wires that it reaches, and where it is."""
    taken_off = _taken_off(view, line, touch.at)
    end: dict[str, Any]
    if touch.wires[0] in looked_up.spares:
        end = {"kind": "plain", "part": touch.at.part, "n": ""}
    elif taken_off:
        end = {"kind": taken_off, "part": touch.at.part, "n": touch.at.pin}
    else:
        end = end_data(view.trailer, touch.at)
    return {"wires": joined([wire_link(number) for number in touch.wires]), "end": end}


def _end(view: View, looked_up: _LookedUp, line: Line, at: Terminal | None) -> dict[str, Any] | None:
    """Return where a probe goes; in a dead test to what was taken off a supply, not to the supply itself.

    The end of a spare wire lies at its place and lands on nothing there; at a part that waits it is the wire's end.
    A fuse has two contacts: that one is meant on which the wire of the test lands, or would land.
    """
    if at is None:
        return None
    if line.wire in looked_up.spares:
        return {"kind": "plain", "part": at.part, "n": ""}
    taken_off = _taken_off(view, line, at)
    if taken_off:
        return {"kind": taken_off, "part": at.part, "n": at.pin}
    end = end_data(view.trailer, at)
    contact = line.wire and line.kind in (Kind.OPEN, Kind.NO_SHORT, Kind.FEED_DROP) and at == line.red
    if _waits(view, at.part):
        return {"kind": "waits", "end": end, "wire": wire_link(line.wire) if contact else ""}
    if contact:
        return {"kind": "contact", "end": end, "wire": wire_link(line.wire)}
    if line.kind is Kind.SOURCE and at.part.startswith(TOW_PLUG):
        end = {"kind": "car socket", "end": end}
    place = view.box_places.get((at, line.wire)) if line.kind is Kind.WIRE else None
    return {"kind": "place", "end": end, "place": place} if place else end


def _taken_off(view: View, line: Line, at: Terminal) -> str:
    """Return the word for what was taken off a supply: clamp, rings, cable; empty where it is still joined."""
    if line.group not in DEAD_GROUPS or _waits(view, at.part):
        return ""
    if at.part == BATTERY:
        return "rings" if has_post_studs(view.trailer) else "clamp"
    return "cable" if _kind(view, at.part) in (SOLAR_MODULE, BREAKAWAY_BATTERY) else ""


def _size(view: View, wire: Wire) -> Size | None:
    made = view.figures.wires.get(wire.number)
    return made.size if made else wire.size


def _fuse(looked_up: _LookedUp, name: str) -> dict[str, str]:
    """Return a fuse by its way, or by its own name where it stands elsewhere."""
    return {"way": name.removeprefix("way ") if name in looked_up.ways else "", "name": name}


def _supply(view: View, looked_up: _LookedUp, name: str) -> Any:
    """Return the name of a supply for a sentence: a contact of the tow plug is told as the plug."""
    section = looked_up.sections.get(name)
    if section is None or not name.startswith(TOW_PLUG):
        return name
    return end_data(view.trailer, section.plus)


def tests_csv(view: View) -> str:
    """Return the test sheet, with empty columns for what was read, when and by whom."""
    head = (
        "number", "group", "test", "do", "circuit", "wire", "part", "fuse", "parts", "bulbs out",
        "red", "red terminal", "black", "black terminal", "unit", "least", "most", "about", "at most below",
        "current a", "reading", "date", "initials",
    )  # fmt: skip
    rows = [
        (
            number,
            line.group.value,
            line.kind.value,
            "; ".join(_told(step) for step in line.steps),
            view.trailer.circuit(line.circuit).name if line.circuit else "",
            line.wire or "; ".join(", ".join(touch.wires) for touch in line.touches),
            line.part,
            line.fuse,
            "; ".join(line.parts),
            "; ".join(line.bulbs),
            *_point(view, line, line.red),
            *_point(view, line, line.black),
            line.unit,
            *(_number(f"{key}_{_SUFFIX.get(line.unit, '')}", getattr(line, key)) for key in _KEYS),
            _number("current_a", line.current_a),
            "",
            "",
            "",
        )
        for number, line in enumerate(view.lists.tests.lines, start=1)
    ]
    return csv_text([head, *rows])


def _told(step: Step) -> str:
    names = ", ".join(step.wires or step.names)
    return f"{step.act.value}: {names}" if names else step.act.value


def _point(view: View, line: Line, at: Terminal | None) -> tuple[str, str]:
    return (at.part, f"{at.pin} {_taken_off(view, line, at)}".rstrip()) if at else ("", "")


def _number(key: str, value: float | None) -> str:
    return "" if value is None else sheet_figure(key, value, Reader.WORKSHOP)
