"""Road lamps woven: one circuit a contact of the plug, wires and returns shared on the way."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from builder.buildfile.assuming import Assumer
from builder.buildfile.declared_circuits import ItemWords
from builder.buildfile.laying_out import is_worked_out
from builder.buildfile.loom import DraftWire, Loom, ReturnBase, Thread, fixed_base
from builder.buildfile.problems import add, instead
from builder.buildfile.resolving_road import Lamp, as_it_stands
from builder.buildfile.starting_at_plug import tow_section
from builder.buildfile.walking import find_part, too_long
from builder.buildfile.weaving import Tip, add_feed, add_return, leg, step
from builder.buildfile.written import fold
from builder.tables.bulbs import bulb_current_a, filament_for
from builder.tables.road_lamps import road_lamp_draw
from builder.tables.tow_plugs import PlugContact
from builder.trailer.circuits import Circuit, CircuitKind, Stop
from builder.trailer.color import Color
from builder.trailer.model import FRONT_BOX, GROUND_BAR, TOW_PLUG, Assumption, RoadLamp, TowPlug
from builder.trailer.origin import Origin
from builder.trailer.parts import Draw, Form, Law, Part, Terminal
from builder.trailer.plug_functions import among, line_of
from builder.trailer.size import Size
from builder.trailer.wires import Load, Role


@dataclass(slots=True)
class _Weave:
    """What is shared between the lamps while they are woven."""

    loom: Loom
    plug: TowPlug
    numbers: dict[str, int]
    technology: str
    assumer: Assumer
    does: dict[str, str]
    tips: dict[tuple[str, tuple[str, ...]], Tip] = field(default_factory=dict)
    bases: dict[tuple[str, ...], tuple[ReturnBase, float]] = field(default_factory=dict)
    lengths: dict[tuple[str, ...], tuple[float, ItemWords]] = field(default_factory=dict)
    returned: set[str] = field(default_factory=set)
    stops: dict[str, list[Stop]] = field(default_factory=dict)
    places: dict[tuple[str, tuple[str, ...]], int] = field(default_factory=dict)
    items: dict[tuple[str, ...], set[Origin]] = field(default_factory=dict)


def used_contacts(lamps: list[Lamp], plug: TowPlug) -> tuple[PlugContact, ...]:
    """Return the contacts that the lamps use, their ground contacts included, in contact order."""
    pins = {pin for lamp in lamps for pin, _ in lamp.by_contact}
    grounds = {plug.pattern.ground_of(plug.pattern.contact(pin)).pin for pin in pins}
    return tuple(c for c in plug.pattern.contacts if c.pin in pins or c.pin in grounds)


def weave_road_lamps(
    loom: Loom, lamps: list[Lamp], at: tuple[TowPlug, str], first_number: int, lighting: tuple[str, Assumer]
) -> tuple[list[Circuit], list[RoadLamp]]:
    """Weave all road lamps: one circuit a contact, numbered in contact order from ``first_number``.

    Lamps that pass the same parts share one wire a contact and one return up to there. ``at`` is the plug and the
    country, whose words name the circuits.
    """
    plug, country = at
    contacts = used_contacts(lamps, plug)
    numbers = {contact.pin: first_number + place for place, contact in enumerate(contacts)}
    does = {contact.pin: _does(lamps, contact, country) for contact in contacts}
    weave = _Weave(loom, plug, numbers, lighting[0], lighting[1], does)
    holds = [_way_holds(weave, lamp) for lamp in lamps]  # all of them, so that all problems are told
    if not all(holds):
        return [], []
    for contact in contacts:
        _cable(weave, contact)
        if not contact.is_ground:
            for lamp in lamps:
                for pin, functions in lamp.by_contact:
                    if pin == contact.pin:
                        _weave_lamp(weave, lamp, contact, functions)
    return [_circuit(weave, contact) for contact in contacts], [_record(lamp) for lamp in lamps]


def earth_or_ground(contact: PlugContact) -> str:
    """Return what a ground contact is called where its plug is used: earth outside America (common practice)."""
    european = contact.label in ("31", "earth", "second earth")
    return "earth" if european else "ground"


def _does(lamps: list[Lamp], contact: PlugContact, country: str) -> str:
    """Return what a contact does for these lamps, in the words of a country."""
    shown = {word for lamp in lamps for pin, words in lamp.by_contact if pin == contact.pin for word in words}
    return line_of(contact, among(contact, shown)[0], country)


def contact_name(contact: PlugContact, does: str = "") -> str:
    """Return what a contact's circuit is called: by what it does, or by all that it can do."""
    if contact.is_ground:
        return (
            f"road lamps, {contact.label}"
            if " for " in contact.label
            else f"road lamps, {earth_or_ground(contact)}"
        )
    return f"road lamps, {does or ', '.join(contact.functions)}"


def _circuit(weave: _Weave, contact: PlugContact) -> Circuit:
    return Circuit(
        number=weave.numbers[contact.pin],
        name=contact_name(contact, weave.does[contact.pin]),
        kind=CircuitKind.TOW,
        start=Terminal(TOW_PLUG, contact.pin),
        origin=weave.plug.half(contact).origin,
        stops=tuple(weave.stops.get(contact.pin, ())),
        contact=contact.number,
        contact_name=contact_name(contact),
    )


def _record(lamp: Lamp) -> RoadLamp:
    contacts = tuple((function, pin) for pin, functions in lamp.by_contact for function in functions)
    return RoadLamp(
        lamp.name,
        tuple(f for f, _ in contacts),
        lamp.side,
        contacts,
        lamp.key.origin,
        **as_it_stands(lamp.words),
    )


def _strip(weave: _Weave, contact: PlugContact) -> Terminal:
    """Return where a conductor of the plug's cable lands: grounds on the ground bar unless the plug has several.

    A plug with several grounds keeps them apart in the trailer (ISO 11446, quoted).
    """
    if contact.is_ground and not weave.plug.pattern.several_grounds(contact):
        return GROUND_BAR
    return Terminal(FRONT_BOX, f"strip: {contact.label if contact.is_ground else weave.does[contact.pin]}")


def _color(contact: PlugContact) -> Color:
    return Color(contact.base or "white", contact.tracer)


def _cable(weave: _Weave, contact: PlugContact) -> None:
    plug_end, box_end = Terminal(TOW_PLUG, contact.pin), _strip(weave, contact)
    half = weave.plug.half(contact)
    size = Size(contact.size_unit, contact.size) if contact.size_unit else None
    wires = weave.loom.returns if contact.is_ground else weave.loom.feeds
    start, end = (box_end, plug_end) if contact.is_ground else (plug_end, box_end)
    wires.append(
        DraftWire(
            weave.numbers[contact.pin],
            Role.RETURN if contact.is_ground else Role.FEED,
            start,
            end,
            half.cable_length_m,
            "written",
            _color(contact),
            half.origin,
            size,
            (),
        )
    )


def _thread(weave: _Weave, contact: PlugContact) -> Thread:
    ground = weave.plug.pattern.ground_of(contact)
    return Thread(weave.numbers[contact.pin], _color(contact), _color(ground), weave.numbers[ground.pin])


def _weave_lamp(weave: _Weave, lamp: Lamp, contact: PlugContact, functions: tuple[str, ...]) -> None:
    thread = _thread(weave, contact)
    way = _shared_way(weave, lamp, contact, thread)
    if way is None:
        return
    tip, parent = way
    plus = Terminal(lamp.name, ", ".join(functions))
    minus = Terminal(lamp.name, "−")
    item = lamp.items[-1]
    add_feed(weave.loom, thread, tip, item, (plus,))
    weave.stops.setdefault(contact.pin, []).append(Stop(lamp.name, parent, leg(item), item.name.origin))
    if lamp.name not in weave.returned:
        weave.returned.add(lamp.name)
        add_return(weave.loom, thread, minus, tip, item)
    section = tow_section(weave.plug, contact)
    weave.loom.sections[section.name] = section
    for what, draw in _draws(weave, lamp, functions):
        weave.loom.loads.append(
            Load(lamp.name, what, thread.circuit, plus, minus, section.name, draw, lamp.key.origin)
        )
    _add_part(weave.loom, lamp)


def _add_part(loom: Loom, lamp: Lamp) -> None:
    where = lamp.words.where.value if lamp.words.where else ""
    loom.parts.setdefault(
        fold(lamp.name), Part(lamp.name, "road lamp", Form.LOAD, lamp.key.origin, where=where)
    )
    loom.wired.setdefault(fold(lamp.name), lamp.key.origin)


def _shared_way(weave: _Weave, lamp: Lamp, contact: PlugContact, thread: Thread) -> tuple[Tip, int] | None:
    """Walk to the last item before the lamp, on wires that earlier lamps of the contact have drawn already."""
    own = (fold(lamp.name),) if lamp.words.own_wires and lamp.words.own_wires.value else ()
    path: tuple[str, ...] = own
    tip = _start_tip(weave, contact, path)
    parent = -1
    for item in lamp.items[:-1]:
        path = (*path, fold(item.name.value))
        part = find_part(weave.loom, item)
        if part is None:
            return None
        if (contact.pin, path) not in weave.tips:
            woven = step(weave.loom, thread, tip, _with_a_way_of_its_own(weave, path, item), part, coil=False)
            base, back = weave.bases.setdefault(path, (woven.base, woven.back_m))
            weave.tips[contact.pin, path] = replace(woven, base=base, back_m=back)
            stops = weave.stops.setdefault(contact.pin, [])
            stops.append(Stop(part.name, parent, leg(item), item.name.origin))
            weave.places[contact.pin, path] = len(stops) - 1
            weave.loom.wired.setdefault(fold(part.name), item.name.origin)
        tip, parent = weave.tips[contact.pin, path], weave.places[contact.pin, path]
    return tip, parent


def _start_tip(weave: _Weave, contact: PlugContact, path: tuple[str, ...]) -> Tip:
    ground = weave.plug.pattern.ground_of(contact)
    base, _ = weave.bases.setdefault((ground.pin, *path), (fixed_base(_strip(weave, ground)), 0.0))
    return Tip((_strip(weave, contact),), base, 0.0, tow_section(weave.plug, contact).name)


def _with_a_way_of_its_own(weave: _Weave, path: tuple[str, ...], item: ItemWords) -> ItemWords:
    """Return an item without the way that another contact of the lamps on this path has got already."""
    own = weave.items.setdefault(path, set())
    taken = {str(way) for (_, way), origin in weave.loom.way_origins.items() if origin in own}
    own.add(item.name.origin)
    asks_again = item.terminal is not None and item.terminal.value.strip() in taken
    return item.model_copy(update={"terminal": None}) if asks_again else item


def _way_holds(weave: _Weave, lamp: Lamp) -> bool:
    """Tell whether a lamp's way can be woven: not too long, only connectors on it, and shared wires of one length."""
    if too_long(weave.loom, lamp.items, "path"):
        return False
    own = (fold(lamp.name),) if lamp.words.own_wires and lamp.words.own_wires.value else ()
    path: tuple[str, ...] = own
    for item in lamp.items[:-1]:
        path = (*path, fold(item.name.value))
        part = find_part(weave.loom, item)
        if part is None:
            return False
        if part.form is not Form.THROUGH:
            weave.loom.problem(
                item.name.origin,
                "item out of place",
                f"“{part.name}” is a {part.kind}, and road lamps have only connectors on their way",
                "leave it out: lamps that pass the same connector are joined behind it by themselves",
            )
            return False
        if not _same_length(weave, lamp, path, item):
            return False
    return True


def _same_length(weave: _Weave, lamp: Lamp, path: tuple[str, ...], item: ItemWords) -> bool:
    length, first = weave.lengths.setdefault(path, (leg(item), item))
    if abs(length - leg(item)) < 1e-9 or item.length is None or first.length is None:
        return True
    if is_worked_out(item) or is_worked_out(first):
        return True  # the length that is written counts for all
    weave.loom.problem(
        item.length.origin,
        "shared wire",
        f"road lamps that pass “{item.name.value}” share one wire up to it, and line {first.length.origin.line} "
        f"gives it {first.length.text}, not {item.length.text}",
        f"write the same length in both, or own wires: yes for {lamp.key}",
        (*instead(first.length.text), *add("own wires: yes", at=lamp.key.origin)),
    )
    return False


def _draws(weave: _Weave, lamp: Lamp, functions: tuple[str, ...]) -> list[tuple[str, Draw]]:
    """Return the loads behind one lead: stop and turn on one contact are one filament, the rest add up.

    Functions that one filament of a bulb shows, such as tail and marker by a 1157, are one load too.
    """
    lit: dict[tuple[str, str], list[str]] = {}
    for function in functions:
        lit.setdefault(_filament(lamp, function) or ("", function), []).append(function)
    draws = [(" and ".join(same), _draw(weave, lamp, same[0])) for same in lit.values()]
    shared = [pair for pair in draws if pair[0] in ("stop", "turn")]
    if len(shared) > 1:
        largest = max(shared, key=lambda pair: pair[1].value)
        rest = [pair for pair in draws if pair not in shared]
        return [*rest, ("stop and turn", largest[1])]
    return draws


def _filament(lamp: Lamp, function: str) -> tuple[str, str] | None:
    """Return the bulb and the filament that show a function; None where what the lamp draws tells, or no bulb does."""
    if any(fold(key) == function for key in lamp.words.draws):
        return None
    named = {fold(key): written.value for key, written in lamp.words.bulb.items()}
    name = named.get(function, named.get("all", ""))
    return (name, filament_for(name, function).filament) if name else None


def _bulb(lamp: Lamp, function: str) -> Draw | None:
    """Return the draw of the bulb that the file names for a function; None where it names none.

    It counts at the figure to design with as though that were at nominal voltage, which is the cautious way.
    """
    for key, written in lamp.words.bulb.items():
        if fold(key) in (function, "all"):
            amps = bulb_current_a(filament_for(written.value, function))
            return Draw(amps * as_it_stands(lamp.words)["count"], "A", Law.RESISTANCE)
    return None


def _draw(weave: _Weave, lamp: Lamp, function: str) -> Draw:
    law = Law.RESISTANCE if weave.technology == "filament" else Law.CURRENT
    for key, written in lamp.words.draws.items():
        if fold(key) == function:
            return Draw(written.value.value, written.value.unit, law)
    lit = _bulb(lamp, function)
    if lit is not None:
        return lit
    row = road_lamp_draw(function, "filament" if weave.technology == "filament" else "led")
    id_ = f"draws of {function} lamps"
    kind = "an LED" if weave.technology == "led" else "a filament"
    about = f"what {kind} {function} lamp takes"
    value = weave.assumer.value(
        Assumption(
            id_,
            about,
            row.usual_a,
            "A",
            row.low_a,
            row.high_a,
            f"the file does not say; {row.source}",
            row.known,
        )
    )
    return Draw(value * as_it_stands(lamp.words)["count"], "A", law, assumption=id_)
