"""One fault at a time put into a trailer, and what its owner would then see, hear and measure.

A plain picture of the wiring of its own: terminals as points, wires and closed contacts as joins. A terminal is live
when a join leads to its supply, grounded when one leads to the supply's minus; a thing works when it is both. A relay
closes when its coil is both; a dimmer or a receiver with a return of its own lets current through when it is both.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from builder.guide.model import Cause, Guide, Outcome, Point, Reads, Step, StepKind, Suspect, Thing
from builder.trailer.circuits import CircuitKind
from builder.trailer.model import BATTERY, BATTERY_MINUS, BATTERY_PLUS, FRONT_BOX, TOW_PLUG, Trailer
from builder.trailer.parts import Terminal
from builder.trailer.wires import BREAKAWAY, Link, Load, Role, Section

DEAD_ENDS = (Cause.ELSE, Cause.MIXED, Cause.JOINT, Cause.SUPPLY)
"""What is no break in one place."""


@dataclass
class Broken:
    """A trailer with one suspect at fault.

    ``off`` are the things that are dead because they are switched off. ``cut`` are joins inside parts that are open,
    whatever a guide would call that. ``charging`` puts the shore lead in, lets the engine run and the sun shine.
    """

    trailer: Trailer
    fault: Suspect
    off: tuple[Thing, ...] = ()
    cut: tuple[Link, ...] = ()
    charging: bool = False
    joins: dict[Terminal, list[Terminal]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        for wire in self.trailer.wires:
            if wire.role is not Role.SPARE and wire.number not in self.fault.wires:
                self._join(wire.start, wire.end)
        for link in self.trailer.links:
            if link not in self.cut and not self._open(link.a, link.b):
                self._join(link.a, link.b)

    def _join(self, a: Terminal, b: Terminal) -> None:
        self.joins.setdefault(a, []).append(b)
        self.joins.setdefault(b, []).append(a)

    def _open(self, a: Terminal, b: Terminal) -> bool:
        fault, part = self.fault, a.part
        if part == FRONT_BOX:
            return fault.cause in (Cause.FUSE, Cause.HOLDER) and fault.pin in (a.pin, b.pin)
        if fault.part != part:
            return False
        if fault.cause is Cause.RELAY_CONTACT:
            return (fault.pin or "contact out") in (a.pin, b.pin)
        if fault.cause is Cause.SWITCH and fault.pin:
            return fault.pin in (a.pin, b.pin)
        if fault.cause is Cause.WAY:
            return a.pin.split()[1] == fault.pin
        return fault.cause in (*(Cause.FUSE, Cause.HOLDER, Cause.BREAKER, Cause.SWITCH, Cause.HOUSING),)

    def reached(
        self,
        start: Terminal,
        open_relays: frozenset[str] = frozenset(),
        asleep: frozenset[str] = frozenset(),
    ) -> set[Terminal]:
        """All that is joined to a terminal; a contact of the tow plug may be what is broken.

        Parts that are ``asleep`` join nothing inside.
        """
        fault = self.fault
        at_plug = (Cause.CONTACT, Cause.CAR_GROUND)
        dead = fault.cause is Cause.PLUG or (fault.cause in at_plug and fault.pin == start.pin)
        if start.part == TOW_PLUG and dead:
            return {start}
        seen: set[Terminal] = set()
        ahead = [start]
        while ahead:
            here = ahead.pop()
            if here not in seen:
                seen.add(here)
                made = {Terminal(here.part, f"contact {end}") for end in ("in", "out")}
                stuck = here.part in open_relays and here in made  # the rest contact stays as it is
                closed = here.part in asleep
                ahead += [
                    t
                    for t in self.joins.get(here, [])
                    if not (stuck and t in made) and not (closed and t.part == here.part)
                ]
        return seen

    @cached_property
    def settled(self) -> tuple[Mapping[str, set[Terminal]], frozenset[str]]:
        """The live terminals of every section and the relays that close, worked out until nothing changes.

        What is electronic is asleep until its input is live and its own return grounded.
        """
        own = {
            load.part: load
            for load in self.trailer.loads
            if load.part in self.trailer.parts
            and self.trailer.parts[load.part].kind in ("dimmer", "receiver")
        }
        awake: frozenset[str] = frozenset()
        relays = frozenset(part.name for part in self.trailer.parts.values() if part.kind == "relay")
        closed: frozenset[str] = frozenset()
        fed: frozenset[str] = frozenset()
        while True:
            live = {
                one.name: self.reached(one.plus, relays - closed, frozenset(own) - awake)
                for one in self.trailer.sections
                if not self._is_dead(one) and (not one.fed_by or one.fed_by in fed)
            }
            on = [load for load in self.trailer.loads if self._between(load, live)]
            fed_now = frozenset(load.part for load in on if load.what == "input") - {
                self._gone(Cause.CONVERTER)
            }
            closed_now = frozenset(load.part for load in on if load.what == "coil") - {self._gone(Cause.COIL)}
            awake_now = frozenset(
                name
                for name, load in own.items()
                if Terminal(name, "in") in live.get(load.section, set())
                and load.minus in self.grounded(load.section)
            )
            if (fed_now, closed_now, awake_now) == (fed, closed, awake):
                return live, closed
            fed, closed, awake = fed_now, closed_now, awake_now

    @property
    def _charging(self) -> set[str]:
        """Sections that only charge the battery: neither sun nor car nor shore lead is there while things are dead."""
        return {load.charged_from for load in self.trailer.loads if load.charged_from and not self.charging}

    def charges(self, load: Load) -> bool:
        """Whether a charge goes on to the battery's posts and comes back from them, through the front box as well."""
        section = next(one for one in self.trailer.sections if one.name == load.charged_from)
        there = BATTERY_PLUS in self.settled[0].get(section.name, set())
        return there and BATTERY_MINUS in self.reached(section.minus)

    def _gone(self, cause: Cause) -> str:
        return self.fault.part if self.fault.cause is cause else ""

    def _is_dead(self, section: Section) -> bool:
        if self.fault.cause is Cause.CAR:
            return section.plus in self._from_car()
        return section.name == BATTERY and self.fault.cause is Cause.BATTERY

    def _from_car(self) -> set[Terminal]:
        """The contacts that get nothing: one, or without a name those of all road lamps, never that of the brakes."""
        if self.fault.pin:
            return {Terminal(TOW_PLUG, self.fault.pin)}
        plug = self.trailer.tow_plug
        apart = [str(one.number) for one in plug.pattern.contacts if "brake" in one.functions] if plug else []
        tow = (one.start for one in self.trailer.circuits if one.kind is CircuitKind.TOW)
        return {start for start in tow if start.pin not in apart}

    def _between(self, load: Load, live: Mapping[str, set[Terminal]]) -> bool:
        return load.plus in live.get(load.section, set()) and load.minus in self.grounded(load.section)

    def relay_closed(self, relay: str) -> bool:
        return relay in self.settled[1]

    def grounded(self, section: str) -> set[Terminal]:
        found = next(one for one in self.trailer.sections if one.name == section)
        return self.reached(found.minus)

    def has_volts(self, load: Load) -> bool:
        return self._between(load, self.settled[0])

    def works(self, thing: Thing) -> bool:
        if self.fault.cause is Cause.OFF:
            return thing not in self.off
        loads = loads_of(self.trailer, thing)
        ended = (self.fault.cause, self.fault.part) == (Cause.LOAD, thing.part) and self.fault.pin in {
            "" if load.what == BREAKAWAY else load.what  # it is one magnet, whichever supply feeds it
            for load in loads
        }
        return not ended and all(self.has_volts(load) for load in loads)

    def reads(self, step: Step, guide: Guide) -> Reads:
        """How a step ends for its owner, who has the thing of the guide turned on."""
        first, second = (outcome.reads for outcome in step.outcomes[:2])
        same = {
            StepKind.FUSE: (Cause.FUSE, step.fuse),
            StepKind.BREAKER: (Cause.BREAKER, step.fuse),
            StepKind.SWITCH: (Cause.OFF, ""),
        }
        if step.kind in same:
            cause, name = same[step.kind]
            hit = self.fault.cause is cause and name in ("", self.fault.pin or self.fault.part)
            return second if hit else first
        if step.kind is StepKind.PUSH:
            hit = self.fault.cause in (Cause.HOUSING, Cause.PLUG) and self.fault.part in step.parts
            return Reads.WORKS if hit else Reads.DEAD
        if step.kind is StepKind.CLICK:
            return Reads.CLICKS if self.relay_closed(step.parts[0]) else Reads.SILENT
        assert step.red is not None
        assert step.black is not None
        if step.kind in (StepKind.VOLTS, StepKind.BATTERY):
            return Reads.ENOUGH if self._volts(step.red, step.black) else Reads.LESS
        if step.kind is StepKind.RISE:
            return Reads.RISES if self._gives(step.red, step.black) else Reads.STAYS
        assert step.kind is StepKind.DROP, (guide.id, step)
        return Reads.WITHIN if self._joined(step.red, step.black) else Reads.ABOVE

    def _volts(self, red: Point, black: Point) -> bool:
        if red.beyond == "socket":
            ground = black.beyond == "socket"  # and not bare metal of the car
            lost = ground and self.fault.cause is Cause.CAR_GROUND and self.fault.pin == black.terminal.pin
            return not lost and (self.fault.cause is not Cause.CAR or red.terminal not in self._from_car())
        return any(
            red.terminal in self.settled[0].get(one.name, set()) and black.terminal in self.grounded(one.name)
            for one in self.trailer.sections
            if one.name not in self._charging
        )

    def _gives(self, red: Point, black: Point) -> bool:
        """Whether what charges gives its voltage at its own output."""
        section = next(one for one in self.trailer.sections if one.plus == red.terminal)
        return section.minus == black.terminal and section.name in self.settled[0]

    def _joined(self, red: Point, black: Point) -> bool:
        if black.beyond == "car":
            grounds = {one.minus for one in self.trailer.sections if one.plus.part == TOW_PLUG}
            return any(red.terminal in self.reached(ground) for ground in grounds)
        return black.terminal in self.reached(red.terminal)


def loads_of(trailer: Trailer, thing: Thing) -> list[Load]:
    """The loads that are one thing for its owner."""
    idle = ("idle", "own draw")
    return [
        load
        for load in trailer.loads
        if (load.part, load.circuit) == (thing.part, thing.circuit) and load.what not in idle
    ]


def walk(broken: Broken, guides: Iterable[Guide], thing: Thing) -> tuple[tuple[Suspect, ...], int]:
    """Follow the guides as an owner does who finds one thing dead; return where they end, and after how many steps."""
    known = {guide.id: guide for guide in guides}
    mine = [guide for guide in known.values() if guide.symptom.value == "dead" and thing in guide.things]
    guide = min(mine, key=lambda one: len(one.things))
    everything = {t for one in known.values() if one.symptom.value == "dead" for t in one.things}
    dead = {one for one in everything if not broken.works(one)}
    place = guide.steps[0].id if guide.steps else guide.leaves[0].id
    for count in range(200):
        steps = {step.id: step for step in guide.steps}
        if place not in steps:
            return next(leaf.suspects for leaf in guide.leaves if leaf.id == place), count
        to = _outcome(broken, guide, steps[place], dead, known).to
        if to in known:
            guide = known[to]
            to = guide.steps[0].id if guide.steps else guide.leaves[0].id
        place = to
    raise AssertionError("the guides go round in a circle")


def walk_alone(broken: Broken, guide: Guide) -> tuple[Suspect, ...]:
    """Follow one guide whose things, and nothing else, are dim; return where it ends."""
    leaves = {leaf.id: leaf.suspects for leaf in guide.leaves}
    steps = {step.id: step for step in guide.steps}
    place = guide.steps[0].id if guide.steps else guide.leaves[0].id
    while place not in leaves:
        step = steps[place]
        if step.kind is StepKind.OTHERS:
            lit = any(broken.works(thing) for outcome in step.outcomes for thing in outcome.things)
            among = (Reads.ONLY, Reads.WORKS if lit else Reads.DEAD)
        else:
            among = (broken.reads(step, guide),)
        place = next(outcome.to for outcome in step.outcomes if outcome.reads in among)
    return leaves[place]


def _outcome(broken: Broken, guide: Guide, step: Step, dead: set[Thing], known: dict[str, Guide]) -> Outcome:
    if step.kind is StepKind.OTHERS:
        for outcome in step.outcomes:
            things = outcome.things or (known[outcome.to].things if outcome.to in known else ())
            if outcome.reads is Reads.ALSO and dead.issuperset(things):
                return outcome
            if outcome.reads is Reads.ONLY:
                return outcome
            if outcome.reads in (Reads.WORKS, Reads.DEAD):
                wanted = Reads.DEAD if dead.issuperset(outcome.things) else Reads.WORKS
                return next(one for one in step.outcomes if one.reads is wanted)
    wanted = broken.reads(step, guide)
    return next(outcome for outcome in step.outcomes if outcome.reads is wanted)


def starts_of(broken: Broken, guides: Iterable[Guide]) -> list[Thing]:
    """Everything dead that an owner can begin with."""
    named = {thing for guide in guides if guide.symptom.value == "dead" for thing in guide.things}
    return sorted(thing for thing in named if not broken.works(thing))


def judged_by(step: Step, volts: float, battery_v: float) -> Reads:
    """How a step ends for an owner who reads a number, minus sign and all, from the meter."""
    if step.kind is StepKind.DROP:
        assert step.most_v is not None
        return Reads.WITHIN if abs(volts) <= step.most_v else Reads.ABOVE
    least_v = battery_v if step.least_of else step.least_v
    assert least_v is not None
    return Reads.ENOUGH if volts >= least_v else Reads.LESS


def faults_of(guides: Iterable[Guide], symptom: str = "dead") -> list[tuple[Suspect, Guide]]:
    """Every suspect of the guides for a symptom that is a fault in one place, with its guide."""
    return [
        (suspect, guide)
        for guide in guides
        if guide.symptom.value == symptom
        for suspect in guide.suspects
        if suspect.cause not in DEAD_ENDS
    ]
