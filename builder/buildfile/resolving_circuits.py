"""House circuits and circuits that start at another part."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from builder.buildfile.breaking_away import has_breakaway_switch
from builder.buildfile.declared_circuits import CircuitWords, ItemWords
from builder.buildfile.loom import Loom, Thread, fixed_base
from builder.buildfile.nodes import Text
from builder.buildfile.problems import BLANK, heading, instead
from builder.buildfile.starting_at_plug import Asked, plug_start
from builder.buildfile.suggesting import did_you_mean, near_words
from builder.buildfile.walking import MOST_OFFERED, find_part, walk_circuit
from builder.buildfile.weaving import Tip
from builder.buildfile.written import Key, Written, fold
from builder.trailer.circuits import Circuit, CircuitKind, Stop
from builder.trailer.color import Color
from builder.trailer.model import (
    BATTERY,
    BATTERY_MINUS,
    BATTERY_PLUS,
    FRONT_BOX,
    GROUND_BAR,
    SECOND_PLUG,
    SUPPLY_BAR,
    TOW_PLUG,
    TowPlug,
)
from builder.trailer.origin import Origin
from builder.trailer.parts import Draw, Form, Law, Part, Terminal
from builder.trailer.wires import Leg, Section

FUSE_LEAD_M = 0.15
"""Wire from a source to the fuse that ``fuse:`` of a circuit puts there: a hand's breadth, common practice."""


@dataclass(frozen=True, slots=True)
class Setting:
    """What circuits are resolved against: colours, the plug, the battery's line, the ways of the fuse block."""

    feed: Color
    ground: Color
    plug: TowPlug | None
    has_battery: bool
    battery_stops: Mapping[str, float]
    fuse_ways: int


def house_circuits(loom: Loom, circuits: Mapping[Key, CircuitWords], setting: Setting) -> list[Circuit]:
    """Weave the circuits as they are written; those with ``from:`` take the numbers after all others."""
    plain = [(key, words) for key, words in circuits.items() if words.from_ is None]
    others = [(key, words) for key, words in circuits.items() if words.from_ is not None]
    ways = _ways(loom, plain)
    done = [
        _house(loom, (number, key, words), ways[number], setting)
        for number, (key, words) in enumerate(plain, start=1)
    ]
    numbered = [(number, key, words) for number, (key, words) in enumerate(others, start=len(plain) + 1)]
    # a breakaway ends on the brakes' own circuit, wherever that stands in the file
    for entry in sorted(numbered, key=lambda one: has_breakaway_switch(loom, one[2].path)):
        circuit = _from(loom, entry, setting)
        if circuit is not None:
            done.append(circuit)
    return sorted(done, key=lambda circuit: circuit.number)


def _ways(loom: Loom, circuits: list[tuple[Key, CircuitWords]]) -> dict[int, int]:
    """Give each circuit its fuse way: the one it asks for, else its own number, else the next free one."""
    ways: dict[int, int] = {}
    taken: dict[int, Key] = {}
    for number, (key, words) in enumerate(circuits, start=1):
        if words.way is None:
            continue
        way = words.way.value
        if way in taken:
            loom.problem(
                words.way.origin,
                "way taken",
                f"fuse way {way} is already taken by “{taken[way]}”",
                "give it another way",
            )
            continue
        taken[way] = key
        ways[number] = way
    for number, (key, _) in enumerate(circuits, start=1):
        if number not in ways:
            way = number
            while way in taken:
                way += 1
            taken[way] = key
            ways[number] = way
    return ways


def _thread(number: int, words: CircuitWords, setting: Setting) -> Thread:
    back = words.return_
    return Thread(
        circuit=number,
        feed_color=words.color.value if words.color else setting.feed,
        return_color=words.return_color.value if words.return_color else setting.ground,
        return_circuit=number,
        size=words.size.value if words.size else None,
        return_to=back.to.value if back and back.to else "",
        return_length_m=back.length.value if back and back.length else None,
        return_origin=back.to.origin if back and back.to else None,
    )


def _house(loom: Loom, entry: tuple[int, Key, CircuitWords], way: int, setting: Setting) -> Circuit:
    number, key, words = entry
    start = Terminal(FRONT_BOX, f"way {way}")
    loom.link(SUPPLY_BAR, start)
    tip = Tip((start,), fixed_base(GROUND_BAR), 0.0, BATTERY)
    if not setting.has_battery and number == 1 and not loom.broken & {BATTERY, FRONT_BOX}:
        loom.problem(
            key.origin,
            "no supply",
            f"“{key}” starts at a fuse in the front box, and nothing feeds the front box",
            "describe the battery and the front box, or say where it starts, as in from: tow plug battery",
            heading(*_supply(loom)),
        )
    stops = walk_circuit(loom, words, _thread(number, words, setting), tip)
    return _circuit(entry, CircuitKind.HOUSE, start, stops, way=way)


def _supply(loom: Loom) -> tuple[str, ...]:
    """Return the headings that feed the front box, as far as they are missing, with blanks."""
    lines = {
        BATTERY: f"battery: {{chemistry: {BLANK}, capacity: {BLANK}, to main fuse: {BLANK}, to front box: {BLANK}}}",
        FRONT_BOX: f"front box: {{fuse ways: {BLANK}}}",
    }
    return tuple(line for name, line in lines.items() if name not in loom.headings)


def _circuit(
    entry: tuple[int, Key, CircuitWords],
    kind: CircuitKind,
    start: Terminal,
    stops: tuple[Stop, ...],
    way: int | None = None,
    fuse_part: str = "",
) -> Circuit:
    number, key, words = entry
    return Circuit(
        number=number,
        name=str(key),
        kind=kind,
        start=start,
        origin=key.origin,
        stops=stops,
        way=way,
        given_fuse_a=words.fuse.value if words.fuse else None,
        fuse_origin=words.fuse.origin if words.fuse else None,
        fuse_part=fuse_part,
        size=words.size.value if words.size else None,
        note=words.note.value if words.note else "",
        way_origin=words.way.origin if words.way else None,
    )


def _from(loom: Loom, entry: tuple[int, Key, CircuitWords], setting: Setting) -> Circuit | None:
    number, key, words = entry
    if words.way is not None:
        loom.problem(
            words.way.origin,
            "word does not fit",
            f"“{key}” does not start in the front box, so it takes no way there",
            "take “way” out; its fuse stands in its path",
        )
    tip = _start(loom, key, words, setting)
    if tip is None:
        return None
    start = tip.feeds[0]
    if words.fuse is not None and not _fuse_in(loom, words):
        words = _with_fuse(loom, key, words, words.fuse.origin)
    one_rating(loom, words.fuse, loom.parts.get(fold(words.path[0].name.value)))
    stops = walk_circuit(loom, words, _thread(number, words, setting), tip)
    fuses = [stop.part for stop in stops if loom.parts[fold(stop.part)].kind in {"fuse", "breaker"}]
    entry = (number, key, words)
    return _circuit(entry, CircuitKind.FROM, start, stops, fuse_part=fuses[0] if fuses else "")


def _with_fuse(loom: Loom, key: Key, words: CircuitWords, origin: Origin) -> CircuitWords:
    """Put the fuse that ``fuse:`` stands for at the start of a path; what branches ``from: fuse`` leaves behind it."""
    item = _fuse_item(loom, key, origin)
    branches = [
        branch.model_copy(update={"from_": item.name}) if fold(branch.from_.value) == "fuse" else branch
        for branch in words.branches
    ]
    return words.model_copy(update={"path": [item, *words.path], "branches": branches})


def one_rating(loom: Loom, fuse: Written[float] | None, first: Part | None) -> None:
    """Keep a problem where ``fuse:`` and the part that is this fuse give two ratings."""
    if fuse is not None and first is not None and first.rating_a not in (None, fuse.value):
        loom.problem(
            fuse.origin,
            "said twice",
            f"“{first.name}” is rated {first.rating_a:g} A where it is described",
            "keep one of the two ratings",
            instead(f"{first.rating_a:g} A"),
        )


def _fuse_in(loom: Loom, words: CircuitWords) -> bool:
    first = find_part(loom, words.path[0]) if words.path else None
    return first is not None and first.kind in {"fuse", "breaker"}


def _fuse_item(loom: Loom, key: Key, origin: Origin) -> ItemWords:
    name = f"{key} fuse"
    item: ItemWords = ItemWords.model_validate(
        {Key.of(name, origin): Text(f"{FUSE_LEAD_M} m", origin, quoted=False)}
    )
    find_part(loom, item)
    return item


def _start(loom: Loom, key: Key, words: CircuitWords, setting: Setting) -> Tip | None:
    """Return the tip at which a circuit with ``from:`` starts; None, with a problem kept, when it cannot."""
    written = words.from_
    if written is None:
        return None
    name = fold(written.value)
    for plug in (TOW_PLUG, SECOND_PLUG):
        if name.startswith(plug) and name not in loom.parts:
            asked = Asked(plug, name.removeprefix(plug).strip(), key, written.origin)
            return plug_start(loom, asked, words, setting.plug)
    if name == BATTERY and setting.has_battery:
        return Tip((BATTERY_PLUS,), fixed_base(BATTERY_MINUS), 0.0, BATTERY)
    if name in setting.battery_stops:
        part = loom.parts[name]
        return Tip(
            (Terminal(part.name, "out"),),
            fixed_base(BATTERY_MINUS),
            setting.battery_stops[name],
            BATTERY,
            back=(Leg(BATTERY, part.name),),
        )
    found = loom.parts.get(name)
    if found is not None and found.form is Form.SUPPLY:
        plus, minus = Terminal(found.name, "+"), Terminal(found.name, "−")
        volts = found.gives_v or 12.0
        loom.sections[found.name] = Section(found.name, plus, minus, volts)
        loom.wired.setdefault(name, written.origin)
        gives = Draw(found.gives_w, "W", Law.POWER) if found.gives_w else None
        if found.gives_a:
            gives = Draw(found.gives_a, "A", Law.CURRENT)
        return Tip((plus,), fixed_base(minus), 0.0, found.name, gives)
    _unknown_start(loom, written.value, written.origin, setting)
    return None


def _unknown_start(loom: Loom, name: str, origin: Origin, setting: Setting) -> None:
    if fold(name) in loom.broken or loom.broken & {BATTERY, "parts"}:
        return
    known = [loom.parts[key].name for key in setting.battery_stops]
    known += [
        part.name
        for part in loom.parts.values()
        if part.form is Form.SUPPLY and fold(part.name) not in (BATTERY, TOW_PLUG)
    ]
    known += [BATTERY] if setting.has_battery else []
    feeds = setting.plug is not None and setting.plug.pattern.contact_for(BATTERY) is not None
    known += [f"{TOW_PLUG} {BATTERY}"] if feeds else []
    near = near_words(name, known)
    loom.problem(
        origin,
        "unknown start",
        f"a circuit cannot start from “{name}”",
        (f"{did_you_mean(near)} " if near else "")
        + (
            "it can start from: " + ", ".join(known)
            if known
            else "describe a battery, a tow plug or a supply first"
        ),
        instead(*(near or known[:MOST_OFFERED])),
    )
