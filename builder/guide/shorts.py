"""A fuse that opens again: with everything unplugged, where the feed touches the ground."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from builder.electrics.braking import magnets_ohm
from builder.electrics.figures import Figures
from builder.electrics.network import HOME, OUT, neighbours, reach
from builder.guide.chains import Chain
from builder.guide.growing import Growing
from builder.guide.model import Cause, Guide, Outcome, Point, Reads, Step, StepKind, Suspect, Symptom, Thing
from builder.guide.shorts_of_brakes import away_switch, behind_switch, joined_to_brakes
from builder.guide.supplies import supplies_of
from builder.trailer.circuits import Circuit, CircuitKind
from builder.trailer.model import FRAME, TOW_PLUG, Trailer
from builder.trailer.parts import BREAKAWAY_SWITCH, CONTACTS, ELECTRONIC, Form, Terminal

POWERED = (*ELECTRONIC, "converter", "charge controller", "dc charger")
HIDDEN = "\0hidden"
"""Names what lies behind a part that lets nothing through while it has no supply: no meter sees it."""
BEFORE = "\0before"
ELSE = Suspect(Cause.ELSE)


def short_guides(trailer: Trailer, figures: Figures, things: Mapping[Thing, Chain]) -> Iterator[Guide]:
    """Yield a guide for every fuse and breaker with things behind it; the car's own fuse for the tow plug's.

    The battery's own line and what charges the battery have none: their fuses are no work for an owner, since the
    battery or a charger stands on both sides of them. See `without_guide`.
    """
    for circuit in trailer.circuits:
        if circuit.kind is CircuitKind.BATTERY:
            continue
        mine = tuple(thing for thing in things if thing.circuit == circuit.number)
        own = figures.circuits[circuit.number].fuse
        if mine and (own or circuit.kind is CircuitKind.TOW):
            yield _guide(trailer, circuit, (mine, things), own.name if own else "")
        others = [f.name for f in figures.fuses if f.circuit == circuit.number and f != own]
        for place, name in enumerate(others, start=2):
            behind = tuple(thing for thing in mine if _passes(things[thing], name))
            if behind:
                yield _guide(trailer, circuit, (behind, things), name, place)


def without_guide(figures: Figures, made: Iterable[Guide]) -> tuple[str, ...]:
    """Return the fuses and breakers that no guide of these is for: if one opens again, it is left out."""
    known = {guide.fuse for guide in made}
    return tuple(fuse.name for fuse in figures.fuses if fuse.name not in known)


def _passes(chain: Chain, fuse: str) -> bool:
    """Tell whether the current of a thing runs through a fuse or breaker that is a part."""
    return any(s.part == fuse for s in chain.suspects if s.cause in (Cause.FUSE, Cause.BREAKER))


def _guide(
    trailer: Trailer,
    circuit: Circuit,
    made: tuple[tuple[Thing, ...], Mapping[Thing, Chain]],
    fuse: str,
    place_on_circuit: int = 1,
) -> Guide:
    mine, things = made
    regions = dict(regions_of(trailer, circuit, fuse))
    hidden = regions.pop(HIDDEN, ())
    away = away_switch(trailer, circuit)
    order = tuple(dict.fromkeys([*(s for suspects in regions.values() for s in suspects), *hidden]))
    unnamed = (
        bool(away) or circuit.kind is CircuitKind.TOW
    )  # all reads open: it comes and goes, or is in the car
    order = (*order, ELSE) if unnamed else order
    growing = Growing((), order)
    unplug = supplies_of(trailer, (circuit.number,))
    red, *blacks = _points(trailer, circuit, things[mine[0]], fuse)
    checks = [(*region, black) for region in regions.items() for black in blacks]
    first = growing.take()
    names = [growing.take() for _ in checks]
    for place, (switch, suspects, black) in enumerate(checks):
        leaf = growing.leaf(suspects, place + 2, names[place])
        after = names[place + 1] if place + 1 < len(names) else ""
        if not after:
            loads = [s for s in order if s.cause in (Cause.LOAD, Cause.CONVERTER, Cause.COIL)]
            ends = {ELSE} if unnamed else {*loads, *hidden} or suspects
            after = growing.leaf(ends, place + 2, names[place])
        behind = switch == away != ""
        growing.steps[names[place]] = Step(
            names[place],
            StepKind.OHMS,
            (Outcome(Reads.NOTHING, after), Outcome(Reads.TOUCHING, leaf)),
            parts=(switch,) if switch else (),
            red=behind_switch(trailer, circuit, switch) if behind else red,
            black=black,
            normal_ohm=magnets_ohm(trailer, [one.part for one in suspects if one.part]) if behind else None,
            unplug=unplug,
        )
    growing.steps[first] = Step(
        first, StepKind.UNPLUG, (Outcome(Reads.DONE, names[0]),), fuse=fuse, unplug=unplug
    )
    return Guide(
        id=f"fuse-{circuit.number}" + (f"-{place_on_circuit}" if place_on_circuit > 1 else ""),
        symptom=Symptom.FUSE,
        circuit=circuit.number,
        things=mine,
        tried=None,
        suspects=order,
        steps=growing.done(),
        leaves=tuple(growing.leaves),
        unplug=unplug,
        longest=growing.longest,
        fuse=fuse,
    )


def _points(trailer: Trailer, circuit: Circuit, chain: Chain, fuse: str) -> tuple[Point, ...]:
    """Return where the probes go: behind the fuse's empty place, or on the pulled plug, and on the ground of it.

    With its plug pulled, a ground of the car's may hang on nothing else: then the frame is a second ground, which a
    chafed wire touches and through which, by the hitch, the car's fuse opens.
    """
    if circuit.kind is CircuitKind.TOW:
        plus, minus = (Terminal(TOW_PLUG, pin) for pin in (chain.own.feed[0].pin, chain.own.back[-1].pin))
        frame = () if _on_the_frame(trailer, minus) else (Point(Terminal(FRAME, ""), beyond=FRAME),)
        return Point(plus), Point(minus), *frame
    stage = next((one for one in chain.stages if one.load.circuit == circuit.number), chain.own)
    ground = stage.ground or stage.back_marks[-1]
    red = Terminal(fuse, "out") if fuse in trailer.parts else circuit.start
    wire = next((w.number for w in trailer.wires if w.start == red and w.role in OUT), "")
    return Point(red, wire), Point(ground.terminal, ground.wire)


def _on_the_frame(trailer: Trailer, ground: Terminal) -> bool:
    """Tell whether a ground contact of the tow plug is joined to the frame by wires of the trailer."""
    reached = reach(neighbours(trailer, HOME, lambda _: False), ground)  # by wires alone
    return any(terminal.part == FRAME for terminal in reached)


def regions_of(trailer: Trailer, circuit: Circuit, fuse: str) -> Mapping[str, tuple[Suspect, ...]]:
    """Return the feed of a circuit cut at its switches: what hangs before the first, then behind each in turn.

    Behind the switch of a breakaway hangs all that the car feeds as well: the brakes, and their wire from the plug.

    The key is the switch worked by hand that the region begins with, empty for the first, `HIDDEN` for what no
    meter reaches. Travellers belong to the
    first switch of their row. What lies before the ``fuse`` of a path is left out: it is not what opens it. A fuse
    in the front box stands before all of its circuit.
    """
    before = fuse in trailer.parts
    region: dict[Terminal, str] = {circuit.start: BEFORE if before else ""}
    found: dict[str, dict[Suspect, None]] = {"": {}}
    feeds = [w for w in trailer.wires if w.circuit == circuit.number and w.role in OUT]
    for wire in feeds:
        inside = "" if before and wire.start.part == fuse else _from_inside(trailer, region, wire.start)
        here = region.get(wire.start, inside)
        region[wire.end] = here
        found.setdefault(here, {})[Suspect(Cause.WIRE, "", "", (wire.number,))] = None
        end = _load(trailer, wire.end)
        if end is not None:
            found[here][end] = None
    if away := away_switch(trailer, circuit):
        found.setdefault(away, {}).update(dict.fromkeys(joined_to_brakes(trailer, circuit)))
    return {name: tuple(suspects) for name, suspects in found.items() if suspects and name != BEFORE}


def _from_inside(trailer: Trailer, region: Mapping[Terminal, str], terminal: Terminal) -> str:
    """Return the region behind a part: a new one behind a switch worked by hand, else the one it stands in.

    Behind what needs a supply to let current through, a closed relay contact too, all is hidden.
    """
    part = trailer.parts.get(terminal.part)
    into = next((name for end, name in region.items() if end.part == terminal.part), "")
    if into in (HIDDEN, BEFORE):
        return into
    if part is not None and (part.kind in POWERED or terminal.pin == "contact out"):
        return HIDDEN
    if part is None or part.kind not in (*CONTACTS, BREAKAWAY_SWITCH):
        return into
    between = part.kind == "four-way switch" or (part.kind == "two-way switch" and terminal.pin == "common")
    return into if between else part.name


def _load(trailer: Trailer, terminal: Terminal) -> Suspect | None:
    part = trailer.parts.get(terminal.part)
    if part is None or part.waiting:
        return None
    if terminal.pin == "coil +":
        return Suspect(Cause.COIL, part.name)
    if part.form is Form.SECTION:
        return Suspect(Cause.CONVERTER, part.name)
    if part.kind in POWERED:
        return Suspect(Cause.SWITCH, part.name)
    return Suspect(Cause.LOAD, part.name) if part.form is Form.LOAD else None
