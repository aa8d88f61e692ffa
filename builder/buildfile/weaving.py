"""One item of a path at a time: what each kind of part does to the feed and to the return."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from builder.buildfile.declared_circuits import ItemWords
from builder.buildfile.laying_out import is_worked_out
from builder.buildfile.loom import DraftWire, Loom, ReturnBase, Thread
from builder.buildfile.problems import instead
from builder.buildfile.written import fold
from builder.trailer.model import (
    BATTERY,
    BATTERY_MINUS,
    BATTERY_PLUS,
    FRAME,
    FRONT_BOX,
    GROUND_BAR,
    SUPPLY_BAR,
)
from builder.trailer.origin import Origin
from builder.trailer.parts import CHARGE_LIMITER, Draw, Form, Law, Part, Terminal
from builder.trailer.wires import CHARGED, Leg, Load, Role, Section


@dataclass(frozen=True, slots=True)
class Tip:
    """How far a path has come.

    ``feeds`` are the terminals that the next feed starts from: one, or two between two-way switches.
    ``base`` is where returns from here go, ``back_m`` how far back it is. ``section`` is the electrical
    section; ``gives`` what its charger or supply delivers, where it has one. ``back`` are the legs that a return
    from here goes back along.
    """

    feeds: tuple[Terminal, ...]
    base: ReturnBase
    back_m: float
    section: str
    gives: Draw | None = None
    outputs: tuple[tuple[str, Terminal], ...] = ()
    back: tuple[Leg, ...] = ()


def add_feed(loom: Loom, thread: Thread, tip: Tip, item: ItemWords, ends: tuple[Terminal, ...]) -> None:
    """Draw the feeds from the tip to the terminals of the next item."""
    role = Role.TRAVELLER if len(tip.feeds) > 1 else Role.FEED
    for start, end in zip(tip.feeds, ends, strict=True):
        loom.feeds.append(
            DraftWire(
                circuit=thread.circuit,
                role=role,
                start=start,
                end=end,
                length_m=leg(item),
                length_source=source_of(item),
                color=item.color.value if item.color else thread.feed_color,
                origin=item.name.origin,
                size=item.size.value if item.size else thread.size,
                through=tuple(place.value for place in item.through),
                legs=(Leg(start.part, end.part, loom.layout.past(item.through)),),
            )
        )


def source_of(item: ItemWords) -> str:
    """Return where the length of a wire to an item comes from: written, or worked out from its way."""
    return "worked out" if is_worked_out(item) else "written"


def past_gate(loom: Loom, tip: Tip, item: ItemWords, part: str) -> tuple[Leg, ...]:
    """Return the legs that a return goes back along from a part which it passes by unbroken."""
    return (*tip.back, Leg(tip.feeds[0].part, part, loom.layout.past(item.through)))


def leg(item: ItemWords) -> float:
    """Return the written length of the leg to an item, in metres; 0 where it is missing."""
    return item.length.value if item.length else 0.0


def add_return(loom: Loom, thread: Thread, start: Terminal, tip: Tip, item: ItemWords) -> None:
    """Draw the return from a terminal back to the base of the tip, past what only cuts the feed."""
    length = tip.back_m + leg(item)
    source = source_of(item) if tip.back_m == 0 else "added up"
    legs = past_gate(loom, tip, item, start.part)
    end = None
    if tip.base.is_start and thread.return_length_m is not None:
        length, source, legs = thread.return_length_m, "written", ()
    if tip.base.is_start and thread.return_to:
        end = _named_return(loom, thread)
        end = (
            None if end == start else end
        )  # a splice that the circuit itself runs to goes back on its own way
        source = source if thread.return_length_m is not None else "assumed"
        legs = () if end is not None else legs
    loom.returns.append(
        DraftWire(
            circuit=thread.return_circuit,
            role=Role.RETURN,
            start=start,
            end=end or tip.base.land(),
            length_m=length,
            length_source=source,
            color=thread.return_color,
            origin=item.name.origin,
            size=item.size.value if item.size else thread.size,
            through=(),
            legs=legs,
        )
    )


def _named_return(loom: Loom, thread: Thread) -> Terminal:
    name = fold(thread.return_to)
    if name == FRAME:
        return Terminal(FRAME, "bolt")
    if name == "ground bar":
        return GROUND_BAR
    part = loom.parts.get(name)
    loom.named_returns.append((name, thread.return_origin or Origin(1, 1)))
    return Terminal(part.name if part else thread.return_to, "return")


def step(loom: Loom, thread: Thread, tip: Tip, item: ItemWords, part: Part, *, coil: bool) -> Tip:
    """Weave one item; return the tip behind it."""
    return _FORMS[part.form](loom, thread, tip, item, replace_coil(part, coil=coil))


def replace_coil(part: Part, *, coil: bool) -> Part:
    """Return a relay as what it is here: a coil is woven like a load, a contact like a gate."""
    if part.form is not Form.RELAY:
        return part
    return replace(part, form=Form.LOAD if coil else Form.GATE)


def _relay(loom: Loom, thread: Thread, tip: Tip, item: ItemWords, part: Part) -> Tip:
    return (
        _load(loom, thread, tip, item, part)
        if part.form is Form.LOAD
        else _gate(loom, thread, tip, item, part)
    )


def _gate(loom: Loom, thread: Thread, tip: Tip, item: ItemWords, part: Part) -> Tip:
    relay = part.kind == "relay"
    into = Terminal(part.name, "contact in" if relay else "in")
    outs: tuple[Terminal, ...]
    if relay:
        outs = (Terminal(part.name, "contact out"), Terminal(part.name, "contact rest"))
        names: tuple[str, ...] = ("made", "rest")
    else:
        outs = tuple(Terminal(part.name, f"out {n}") for n in part.outputs) or (Terminal(part.name, "out"),)
        names = part.outputs or ("out",)
    add_feed(loom, thread, tip, item, (into,))
    if relay and tip.base.is_start:
        key = fold(part.name), tip.base.land()
        reach = tip.back_m + leg(item), past_gate(loom, tip, item, part.name)
        loom.reach[key] = min(reach, loom.reach.get(key, reach), key=lambda one: one[0])
    for out in outs:  # both positions of a change-over count: whichever is on must be borne
        loom.link(into, out)
    if not relay and (part.draw or part.idle_a):
        _own_draw(loom, thread, tip, item, part)
    outputs = tuple(zip(names, outs, strict=True))
    back = past_gate(loom, tip, item, part.name)
    gives = tip.gives
    if part.kind == CHARGE_LIMITER and part.rating_a is not None:
        gives = Draw(part.rating_a, "A", Law.CURRENT)
    back_m = tip.back_m + leg(item)
    return replace(tip, feeds=outs[:1], back_m=back_m, outputs=outputs, gives=gives, back=back)


def _own_draw(loom: Loom, thread: Thread, tip: Tip, item: ItemWords, part: Part) -> None:
    """Give a part that cuts the feed and draws something itself a return of its own."""
    minus = Terminal(part.name, "−")
    add_return(loom, thread, minus, tip, item)
    first_out = Terminal(part.name, f"out {part.outputs[0]}" if part.outputs else "out")
    if part.draw:
        _add_load(loom, thread, tip, item, (part.name, "own draw", first_out, minus, part.draw))
    if part.idle_a:
        idle = Draw(part.idle_a, "A", Law.CURRENT, assumption=part.idle_assumption)
        _add_load(loom, thread, tip, item, (part.name, "idle", Terminal(part.name, "in"), minus, idle))


def _add_load(
    loom: Loom,
    thread: Thread,
    tip: Tip,
    item: ItemWords,
    load: tuple[str, str, Terminal, Terminal, Draw | None],
) -> None:
    part, what, plus, minus, draw = load
    loom.loads.append(Load(part, what, thread.circuit, plus, minus, tip.section, draw, item.name.origin))


def _load(loom: Loom, thread: Thread, tip: Tip, item: ItemWords, part: Part) -> Tip:
    coil = part.kind == "relay"
    plus = Terminal(part.name, "coil +" if coil else "+")
    minus = Terminal(part.name, "coil −" if coil else "−")
    add_feed(loom, thread, tip, item, (plus,))
    add_return(loom, thread, minus, tip, item)
    _add_load(loom, thread, tip, item, (part.name, "coil" if coil else "", plus, minus, part.draw))
    if part.idle_a and not coil:
        idle = Draw(part.idle_a, "A", Law.CURRENT, assumption=part.idle_assumption)
        _add_load(loom, thread, tip, item, (part.name, "idle", plus, minus, idle))
    return Tip((plus,), ReturnBase(make=lambda: minus), 0.0, tip.section, tip.gives)


def _traveller(loom: Loom, thread: Thread, tip: Tip, item: ItemWords, part: Part) -> Tip:
    name = part.name
    if part.kind == "four-way switch":
        ins, outs = (tuple(Terminal(name, f"{way} {n}") for n in (1, 2)) for way in ("in", "out"))
        add_feed(loom, thread, tip, item, ins)
        for a, b in zip(ins, outs, strict=True):
            loom.link(a, b)
        back = past_gate(loom, tip, item, name)
        return replace(tip, feeds=outs, back_m=tip.back_m + leg(item), back=back)
    common = Terminal(name, "common")
    travellers: tuple[Terminal, ...] = (Terminal(name, "traveller 1"), Terminal(name, "traveller 2"))
    loom.link(common, travellers[0])
    first = len(tip.feeds) == 1
    add_feed(loom, thread, tip, item, (common,) if first else travellers)
    back = past_gate(loom, tip, item, name)
    feeds = travellers if first else (common,)
    return replace(tip, feeds=feeds, back_m=tip.back_m + leg(item), back=back)


def _through(loom: Loom, thread: Thread, tip: Tip, item: ItemWords, part: Part) -> Tip:
    wanted = _wanted_way(loom, item, part)
    ins: list[Terminal] = []
    outs: list[Terminal] = []
    for _ in tip.feeds:
        way = loom.take_way(part, wanted, "feed", item.name.origin)
        ins.append(Terminal(part.name, f"way {way} in"))
        outs.append(Terminal(part.name, f"way {way} out"))
        loom.link(ins[-1], outs[-1])
    add_feed(loom, thread, tip, item, tuple(ins))

    def make() -> Terminal:
        way = loom.take_way(part, "", "return", item.name.origin)
        near, far = Terminal(part.name, f"way {way} in"), Terminal(part.name, f"way {way} out")
        loom.link(near, far)
        add_return(loom, thread, near, tip, item)
        return far

    return replace(tip, feeds=tuple(outs), base=ReturnBase(make=make), back_m=0.0, back=())


def _wanted_way(loom: Loom, item: ItemWords, part: Part) -> str:
    """Return the way that ``terminal:`` asks for; empty, with a problem kept, where it cannot be had."""
    if item.terminal is None:
        return ""
    wanted = item.terminal.value.strip()
    if not (wanted.isascii() and wanted.isdigit() and 0 < int(wanted[:6]) <= 200):
        loom.problem(
            item.terminal.origin,
            "no such way",
            f"“{item.terminal.value}” is not the number of a way of “{part.name}”",
            "write its number, as in terminal: 1",
            instead(*_free_ways(loom, part)),
        )
        return ""
    if part.ways is not None and int(wanted) > part.ways:
        loom.problem(
            item.terminal.origin,
            "no such way",
            f"“{part.name}” has {part.ways} ways, and none of them is number {wanted}",
            f"write a number up to {part.ways}, or more ways where the connector is described",
            instead(*_free_ways(loom, part)),
        )
        return ""
    owner = loom.way_origins.get((fold(part.name), int(wanted)))
    if owner is not None and owner != item.name.origin:
        loom.problem(
            item.terminal.origin,
            "no such way",
            f"way {wanted} of “{part.name}” is taken already",
            "choose another way, or leave terminal out",
            instead(*_free_ways(loom, part)),
        )
        return ""
    return wanted


def _free_ways(loom: Loom, part: Part) -> list[str]:
    """Return the first ways of a connector that nobody asks for."""
    asked = loom.reserved.get(fold(part.name), set())
    taken = {way for name, way in loom.way_origins if name == fold(part.name)}
    most = part.ways or max([*asked, *taken], default=0) + 1
    return [str(way) for way in range(1, most + 1) if way not in asked | taken][:2]


def _joint(loom: Loom, thread: Thread, tip: Tip, item: ItemWords, part: Part) -> Tip:
    feed, back = Terminal(part.name, "feed"), Terminal(part.name, "return")
    add_feed(loom, thread, tip, item, (feed,))

    def make() -> Terminal:
        add_return(loom, thread, back, tip, item)
        return back

    base = loom.joints.setdefault(fold(part.name), ReturnBase(make=make))
    return replace(tip, feeds=(feed,), base=base, back_m=0.0, back=())


def _section(loom: Loom, thread: Thread, tip: Tip, item: ItemWords, part: Part) -> Tip:
    ins = Terminal(part.name, "in +"), Terminal(part.name, "in −")
    outs = Terminal(part.name, "out +"), Terminal(part.name, "out −")
    add_feed(loom, thread, tip, item, ins[:1])
    add_return(loom, thread, ins[1], tip, item)
    _add_load(loom, thread, tip, item, (part.name, "input", *ins, None))
    if part.idle_a and part.kind == "converter":
        idle = Draw(part.idle_a, "A", Law.CURRENT, assumption=part.idle_assumption)
        _add_load(loom, thread, tip, item, (part.name, "idle", *ins, idle))
    volts = part.gives_v or 12.0
    loom.sections[part.name] = Section(part.name, outs[0], outs[1], volts, fed_by=part.name)
    gives = None
    if part.kind != "converter":
        gives = _charge(part, tip, volts)
    return Tip(outs[:1], ReturnBase(make=lambda: outs[1]), 0.0, part.name, gives)


def _charge(part: Part, tip: Tip, volts: float) -> Draw | None:
    """Return what a charger delivers: its own figure, else what the solar module behind it can give."""
    if part.gives_a:
        return Draw(part.gives_a, "A", Law.CURRENT)
    if part.gives_w:
        return Draw(part.gives_w / volts, "A", Law.CURRENT)
    if tip.gives and tip.gives.unit == "W":
        return Draw(
            tip.gives.value * part.efficiency / volts, "A", Law.CURRENT, assumption=tip.gives.assumption
        )
    return tip.gives


def _supply(loom: Loom, thread: Thread, tip: Tip, item: ItemWords, part: Part) -> Tip:
    """End a path at the battery or at the front box: what charges it flows in there."""
    if tip.section == BATTERY and fold(part.name) in (BATTERY, FRONT_BOX):
        loom.problem(
            item.name.origin,
            "item out of place",
            f"this path starts at the house battery or its front box, and “{part.name}” joins both ends of the feed",
            "let the path end at its last part; what charges the battery starts elsewhere, as in from: solar module",
        )
        return tip
    if fold(part.name) == BATTERY:
        plus, minus = BATTERY_PLUS, BATTERY_MINUS
    elif fold(part.name) == FRONT_BOX:
        plus, minus = SUPPLY_BAR, GROUND_BAR
    else:
        loom.problem(
            item.name.origin,
            "item out of place",
            f"“{part.name}” is a supply: a path can start from it, not run to it",
            f"write from: {part.name} and let the path end at battery or front box",
        )
        return tip
    add_feed(loom, thread, tip, item, (plus,))
    add_return(loom, thread, minus, tip, item)
    gives = tip.gives or Draw(loom.default_of("charging without a charger"), "A", Law.CURRENT)
    _add_load(loom, thread, tip, item, (part.name, f"{CHARGED}{tip.section}", plus, minus, gives))
    _charger_idle(loom, tip, loom.loads[-1])
    return Tip((plus,), ReturnBase(make=lambda: minus), 0.0, BATTERY)


def _charger_idle(loom: Loom, tip: Tip, load: Load) -> None:
    """Let a charger take its idle draw where it charges: at night nothing else feeds it."""
    charger = loom.parts.get(fold(tip.section))
    if charger is None or charger.form is not Form.SECTION or not charger.idle_a:
        return
    idle = Draw(charger.idle_a, "A", Law.CURRENT, assumption=charger.idle_assumption)
    loom.loads.append(replace(load, part=charger.name, what="idle", section=BATTERY, draw=idle))


_FORMS: dict[Form, Callable[[Loom, Thread, Tip, ItemWords, Part], Tip]] = {
    Form.LOAD: _load,
    Form.GATE: _gate,
    Form.RELAY: _relay,
    Form.TRAVELLER: _traveller,
    Form.THROUGH: _through,
    Form.JOINT: _joint,
    Form.SECTION: _section,
    Form.SUPPLY: _supply,
    Form.BOX: _supply,
}
