"""What can be wrong with a guide, checked against the wires and figures of its build by ways of its own."""

from __future__ import annotations

from collections.abc import Iterable

from builder.guide.model import Cause, Guide, Reads, Step, StepKind, Symptom
from builder.pages.verdict import Judgement
from builder.trailer.parts import Terminal

METER = (StepKind.BATTERY, StepKind.VOLTS, StepKind.DROP, StepKind.OHMS, StepKind.RISE)
PAIRS = {
    StepKind.BATTERY: {Reads.ENOUGH, Reads.LESS},
    StepKind.VOLTS: {Reads.ENOUGH, Reads.LESS},
    StepKind.DROP: {Reads.WITHIN, Reads.ABOVE},
    StepKind.RISE: {Reads.RISES, Reads.STAYS},
    StepKind.OHMS: {Reads.NOTHING, Reads.TOUCHING},
}


def wires_behind(build: Judgement, guide: Guide) -> set[str]:
    """The wires that the figures reckon for a guide: of its loads, and of what is worked or converted before them."""
    loads = [load for circuit in build.figures.circuits.values() for load in circuit.loads]
    wanted = {(thing.part, thing.circuit) for thing in guide.things}
    names = {thing.part for thing in guide.things if guide.symptom is Symptom.CHARGE}
    open_ = [
        load
        for load in loads
        if (load.load.part, load.load.circuit) in wanted
        or build.trailer.circuit(load.load.circuit).name in names
        or (guide.symptom is Symptom.FUSE and load.load.circuit == guide.circuit)
    ]
    found: set[str] = set()
    seen = set()
    while open_:
        load = open_.pop()
        if load.load in seen:
            continue
        seen.add(load.load)
        numbers = {step.wire for step in load.steps}
        found |= numbers
        parts = {load.load.section, *(w.start.part for w in build.trailer.wires if w.number in numbers)}
        electronic = {
            name for name, part in build.trailer.parts.items() if part.kind in ("dimmer", "receiver")
        }
        open_ += [
            one
            for one in loads
            if (one.load.part in parts and one.load.what in ("input", "coil"))
            or (one.load.part in parts & electronic and one.load.what in ("idle", "own draw"))
        ]
    line = build.trailer.battery_line
    in_box = any(one.plus.part == "front box" and one.circuit == guide.circuit for one in build.trailer.loads)
    if guide.symptom is Symptom.CHARGE and in_box and line is not None:
        found |= {wire.number for wire in build.trailer.wires if wire.circuit == line.number}
    return found


def faults_in(build: Judgement, guide: Guide, known: set[str]) -> Iterable[str]:
    """Yield what is wrong with one guide."""
    trailer = build.trailer
    behind = wires_behind(build, guide)
    ends = {end for w in trailer.wires if w.number in behind for end in (w.start, w.end)}
    parts = {end.part for end in ends} | {"", "tow plug" if trailer.tow_plug else "front box"}
    for step in guide.steps:
        yield from (f"{step.id}: {name} is not on it" for name in step.parts if name not in parts)
        yield from (f"{step.id}: {fault}" for fault in reading_faults(build, step, ends))
    for suspect in guide.suspects:
        numbers = set(suspect.wires) - behind
        whole = suspect.cause is Cause.TRAVELLERS or guide.symptom is Symptom.FUSE
        if suspect.part not in parts or (numbers and not whole):
            yield f"{suspect} is not on it"
    yield from paths_in(guide, known)


def reading_faults(build: Judgement, step: Step, ends: set[Terminal]) -> Iterable[str]:
    """Yield what is wrong with where the meter is held in one step, and with what it must read."""
    landing = {(end, w.number) for w in build.trailer.wires for end in (w.start, w.end)}
    if (step.kind in METER) != (step.red is not None and step.black is not None):
        yield "not both points"
    if step.kind in METER and (
        step.red == step.black or {o.reads for o in step.outcomes} != PAIRS[step.kind]
    ):
        yield "no reading"
    for point in (step.red, step.black):
        if point is None or point.beyond:
            continue
        if point.terminal not in ends:
            yield f"{point.terminal} is not on it"
        if point.wire and (point.terminal, point.wire) not in landing:
            yield f"{point.wire} does not land on {point.terminal}"
    most, least = step.most_v, step.least_v
    if most is not None and (most <= 0 or float(f"{most:.2g}") != most):
        yield f"{most} is no limit"
    if least is not None and (least <= 0 or round(least, 1) != least):
        yield f"{least} is no limit"
    if (step.kind in (StepKind.VOLTS, StepKind.BATTERY)) != ((least is not None) != bool(step.least_of)):
        yield "no least voltage, or two"


def paths_in(guide: Guide, known: set[str]) -> Iterable[str]:
    """Yield what is wrong with the paths of a guide: each ends at a leaf or another guide, and each leaf is reached."""
    steps = {step.id: step for step in guide.steps}
    leaves = {leaf.id for leaf in guide.leaves}
    reached: set[str] = set()
    deepest = 0
    ahead = [(guide.steps[0].id if guide.steps else guide.leaves[0].id, 0)]
    while ahead:
        place, depth = ahead.pop()
        if depth > len(steps):
            yield "goes round in a circle"
            return
        if place in leaves:
            deepest = max(deepest, depth)
        if place in steps:
            ahead += [(outcome.to, depth + 1) for outcome in steps[place].outcomes]
        elif place not in leaves | known:
            yield f"{place} leads nowhere"
        reached.add(place)
    if not leaves | set(steps) <= reached:
        yield f"never reached: {leaves | set(steps) - reached}"
    if deepest != guide.longest:
        yield f"longest is {deepest}, not {guide.longest}"
    named = [suspect for leaf in guide.leaves for suspect in leaf.suspects]
    if set(named) != set(guide.suspects):
        yield f"leaves and suspects differ: {set(named) ^ set(guide.suspects)}"
    if any(leaf.retest and leaf.retest not in steps for leaf in guide.leaves):
        yield "a retest that is no step"


def all_faults(build: Judgement, made: Iterable[Guide]) -> list[str]:
    made = tuple(made)
    known = {guide.id for guide in made}
    assert len(known) == len(made)
    wrong = [f"{guide.id}: {fault}" for guide in made for fault in faults_in(build, guide, known)]
    return wrong + [f"{guide.id}: {fault}" for guide in made for fault in unplug_faults(build, guide)]


def unplug_faults(build: Judgement, guide: Guide) -> Iterable[str]:
    """Yield where what is to be unplugged is not what feeds the guide's circuits, found by going the wires again."""
    suspected = {number for suspect in guide.suspects for number in suspect.wires}
    circuits = {thing.circuit for thing in guide.things}
    circuits |= {wire.circuit for wire in build.trailer.wires if wire.number in suspected}
    found = feeders(build, circuits)
    switches = {supply.name for supply in guide.unplug if supply.how == "isolating switch"}
    if switches:
        found = feeders(build, circuits, off=switches)
        if "battery" in found:
            yield f"{switches} do not part it from the battery"
        found.add("battery")
    kinds = {part.name: part.kind for part in build.trailer.parts.values()}
    told = {s.kind if s.kind in ("battery", "tow plug") else s.name for s in guide.unplug}
    if told != found:
        yield f"to unplug are {told}, and {found} feed it"
    order = [{"cover": 0, "pull": 1}.get(supply.how, 2) for supply in guide.unplug]
    if order != sorted(order):
        yield f"{guide.unplug} leaves a module in the light without its battery"
    for supply in guide.unplug:
        if supply.how == "cover" and kinds[supply.name] != "solar module":
            yield f"{supply} cannot be covered"


def feeders(build: Judgement, circuits: set[int], off: Iterable[str] = ()) -> set[str]:
    """Return battery, tow plug, modules and shore converters that reach circuits, with some switches ``off``."""
    trailer = build.trailer
    groups: list[set[str]] = []

    def join(*names: str) -> None:
        touched = [group for group in groups if group & set(names)]
        groups[:] = [group for group in groups if group not in touched] + [set().union(names, *touched)]

    for wire in trailer.wires:
        if wire.role.value in ("feed", "traveller"):
            join(str(wire.start), str(wire.end))
    for link in trailer.links:
        if link.a.part in off:
            continue
        join(str(link.a), str(link.b))
    ends = {
        str(end)
        for wire in trailer.wires
        if wire.circuit in circuits and wire.role.value in ("feed", "traveller")
        for end in (wire.start, wire.end)
    }
    reached: set[str] = set().union(*(group for group in groups if group & ends))
    chargers = [part.name for part in trailer.parts.values() if part.form.value == "section"]
    for _ in chargers:
        ins = {f"{name}: in +" for name in chargers if f"{name}: out +" in reached}
        reached = reached.union(ins, *(group for group in groups if group & ins))
    supplies = {part.name for part in trailer.parts.values() if part.form.value == "supply"}
    found = {name for name in supplies if f"{name}: +" in reached}
    if any(end.startswith("tow plug: ") for end in reached):
        found.add("tow plug")
    return found | ({"battery"} if "battery: +" in reached and trailer.battery else set())
