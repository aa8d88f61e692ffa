"""The battery's own line: post, main fuse, isolating switch, front box, return and frame bond."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from builder.buildfile.assuming import Assumer
from builder.buildfile.declared_circuits import ItemWords
from builder.buildfile.declared_parts import BatteryWords
from builder.buildfile.loom import DraftWire, Loom, Thread, fixed_base
from builder.buildfile.nodes import Text
from builder.buildfile.problems import BLANK, add, instead
from builder.buildfile.resolving_circuits import one_rating
from builder.buildfile.walking import Walk, lay_out, walk_path
from builder.buildfile.weaving import Tip, leg, source_of
from builder.buildfile.written import Key, Written, fold
from builder.tables.assumptions import defaults
from builder.trailer.circuits import Circuit, CircuitKind, Stop
from builder.trailer.color import Color
from builder.trailer.model import (
    BATTERY,
    BATTERY_MINUS,
    BATTERY_PLUS,
    FRAME,
    FRONT_BOX,
    GROUND_BAR,
    SUPPLY_BAR,
    Assumption,
    Battery,
)
from builder.trailer.origin import Origin
from builder.trailer.parts import Form, Part, Terminal
from builder.trailer.wires import Leg, Role

MAIN_FUSE = "main fuse"


@dataclass(frozen=True, slots=True)
class BatteryLine:
    """The line's items, and how far along it each of its parts stands, in metres from the post."""

    items: tuple[ItemWords, ...]
    origin: Origin
    reach_m: dict[str, float] = field(default_factory=dict)


def battery_line(loom: Loom, words: BatteryWords, places: Mapping[str, Origin]) -> BatteryLine:
    """Return the line as items: its path, or the short form spelt out; ``places`` are those of the headings' words."""
    origin = places[BATTERY]
    items = list(words.path)
    short = words.to_main_fuse or words.to_front_box
    if items and short:
        loom.problem(
            short.origin,
            "said twice",
            "the battery's line is given as a path and in its short form",
            "keep the path, or the two lengths, not both",
        )
    if not items:
        items = _short_form(loom, words, places)
    items = _laid_out(loom, items)
    reach: dict[str, float] = {}
    far = 0.0
    for item in items:
        far += leg(item)
        reach[fold(item.name.value)] = far
    reach.pop(FRONT_BOX, None)
    return BatteryLine(tuple(items), origin, reach)


def _laid_out(loom: Loom, items: list[ItemWords]) -> list[ItemWords]:
    """Return the line's items with their lengths, each from the one before it."""
    starts = [BATTERY, *(item.name.value for item in items)]
    return [lay_out(loom, start, item, item.name.value) for start, item in zip(starts, items, strict=False)]


def _short_form(loom: Loom, words: BatteryWords, places: Mapping[str, Origin]) -> list[ItemWords]:
    items = []
    for name, length in ((MAIN_FUSE, words.to_main_fuse), (FRONT_BOX, words.to_front_box)):
        if length is None:
            if name == FRONT_BOX:
                loom.problem(
                    places[BATTERY],
                    "missing word",
                    "the battery has no line to the front box",
                    "add to main fuse: 5 in, to front box: 4 ft, or a path",
                    add(f"to front box: {BLANK}"),
                )
            continue
        items.append(_item(Key.of(name, places[f"{BATTERY}: to {name}"]), length))
    return items


def _item(name: Key, length: Written[float]) -> ItemWords:
    item: ItemWords = ItemWords.model_validate({name: Text(length.text, length.origin, quoted=False)})
    return item


def weave_battery(
    loom: Loom,
    words: BatteryWords,
    line: BatteryLine,
    number: int,
    colors: tuple[Color, Color],
    assumer: Assumer,
) -> Circuit:
    """Weave the battery's line as the circuit of this number: feeds, return, and the bond to the frame."""
    size = words.size.value if words.size else None
    thread = Thread(number, colors[0], colors[1], number, size)
    tip = Tip((BATTERY_PLUS,), fixed_base(BATTERY_MINUS), 0.0, BATTERY)
    walk = Walk(thread, frozenset())
    inner = [item for item in line.items if fold(item.name.value) != FRONT_BOX]
    walk_path(loom, walk, inner, tip, -1)
    if inner:
        tip = walk.tips.get(fold(inner[-1].name.value), (tip, -1))[0]
    last = next((item for item in line.items if fold(item.name.value) == FRONT_BOX), None)
    if last is None or line.items[-1] is not last:
        place = line.items[-1].name.origin if line.items else words.chemistry.origin
        if line.items:
            loom.problem(
                place,
                "item out of place",
                "the battery's path does not end at the front box",
                "let its last item be front box",
                instead(f"{line.items[-1].name.text}: {BLANK}, front box", FRONT_BOX),
            )
    else:
        _last_leg(loom, thread, tip, last)
        walk.stops.append(Stop(FRONT_BOX, len(walk.stops) - 1, leg(last), last.name.origin))
    _return_and_bond(loom, words, line, thread, assumer)
    fuse = next((stop.part for stop in walk.stops if _is_fuse(loom, stop.part)), "")
    one_rating(loom, words.fuse, loom.parts.get(fold(fuse)))
    return Circuit(
        number=number,
        name="battery line",
        kind=CircuitKind.BATTERY,
        start=BATTERY_PLUS,
        origin=line.origin,
        stops=tuple(walk.stops),
        given_fuse_a=words.fuse.value if words.fuse else None,
        fuse_origin=words.fuse.origin if words.fuse else None,
        fuse_part=fuse,
        size=size,
    )


def _is_fuse(loom: Loom, name: str) -> bool:
    part = loom.parts.get(fold(name))
    return part is not None and part.kind in {"fuse", "breaker"}


def _last_leg(loom: Loom, thread: Thread, tip: Tip, item: ItemWords) -> None:
    loom.feeds.append(
        DraftWire(
            circuit=thread.circuit,
            role=Role.FEED,
            start=tip.feeds[0],
            end=SUPPLY_BAR,
            length_m=leg(item),
            length_source=source_of(item),
            color=item.color.value if item.color else thread.feed_color,
            origin=item.name.origin,
            size=item.size.value if item.size else thread.size,
            through=tuple(place.value for place in item.through),
            legs=(Leg(tip.feeds[0].part, FRONT_BOX, loom.layout.past(item.through)),),
        )
    )


def _return_and_bond(
    loom: Loom, words: BatteryWords, line: BatteryLine, thread: Thread, assumer: Assumer
) -> None:
    given = words.return_.length if words.return_ else None
    total = sum(leg(item) for item in line.items)
    origin = given.origin if given else words.chemistry.origin
    source = "written" if given else "added up"
    length = given.value if given else total
    starts = [BATTERY, *(item.name.value for item in line.items)]
    legs = (
        ()
        if given
        else tuple(
            Leg(start, item.name.value, loom.layout.past(item.through))
            for start, item in zip(starts, line.items, strict=False)
        )
    )
    loom.returns.append(
        DraftWire(
            thread.circuit,
            Role.RETURN,
            GROUND_BAR,
            BATTERY_MINUS,
            length,
            source,
            thread.return_color,
            origin,
            thread.size,
            (),
            legs,
        )
    )
    if words.frame_bond is None:
        return
    row = defaults()["frame bond length"]
    bond_m = assumer.value(
        Assumption(row.id, row.about, row.value, row.unit, row.low, row.high, row.reason, row.known)
    )
    loom.returns.append(
        DraftWire(
            thread.circuit,
            Role.BOND,
            GROUND_BAR,
            Terminal(FRAME, "bolt"),
            bond_m,
            "assumed",
            thread.return_color,
            words.frame_bond.origin,
            words.frame_bond.value,
            (),
        )
    )


def resolve_battery(words: BatteryWords) -> Battery:
    """Return the battery itself."""
    return Battery(
        chemistry=words.chemistry.value,
        capacity_ah=words.capacity.value,
        origin=words.capacity.origin,
        where=words.where.value if words.where else "",
        box=words.box.value if words.box else "",
    )


def box_parts(origin: Origin) -> dict[str, Part]:
    """Return the parts that every path may name without declaring them."""
    return {
        BATTERY: Part(BATTERY, BATTERY, Form.SUPPLY, origin),
        FRONT_BOX: Part(FRONT_BOX, FRONT_BOX, Form.BOX, origin),
    }
