"""The way of one thing's current, from its supply and back, as suspects in order with the places between them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from builder.electrics.figures import Figures, LoadFigures
from builder.electrics.network import LoadPath, load_paths, neighbours, reach, way_back
from builder.guide.model import Cause, Suspect
from builder.trailer.circuits import CircuitKind
from builder.trailer.model import (
    BATTERY,
    BATTERY_MINUS,
    BATTERY_PLUS,
    FRONT_BOX,
    GROUND_BAR,
    SUPPLY_BAR,
    TOW_PLUG,
    Trailer,
)
from builder.trailer.parts import ELECTRONIC, Form, Part, Terminal
from builder.trailer.wires import BREAKAWAY, Load, Role, Section, Wire

REST = "contact rest"
"""The terminal of a relay that is fed while its coil is not."""
OWN = ("idle", "own draw")
"""What a part that cuts the feed takes for itself; one that is electronic works by it."""
MANY = "out "
"""The outputs of a part that has several begin so; each can fail by itself."""
LAMPS_OF_CAR = Suspect(Cause.CAR)
"""What feeds all road lamps in the car, such as a fuse or a converter; without it they are dead together."""


@dataclass(frozen=True, slots=True)
class Mark:
    """A terminal that a probe can touch, with how much of its side lies before it.

    ``before`` counts the suspects of the side up to here, ``drop_v`` is what its wires lose up to here with
    everything on. ``wire`` is the number of the wire that lands here.
    """

    terminal: Terminal
    wire: str
    before: int
    drop_v: float


@dataclass(frozen=True, slots=True)
class Stage:
    """One section's part of a chain: feed, load and return.

    ``lowest_v`` is its supply when low. ``ground`` is the mark that readings are taken against, None where none can
    be touched; ``left_v`` is what reaches the load when the supply is low, ``home_v`` what all its return loses.
    ``currents_a`` flow in its wires and in those that share their terminals, all on.
    ``end`` is the part that uses the current; None for the input of a converter, which the next stage begins with,
    for what a dimmer takes itself, which the next stage passes, and for a battery that is charged.
    """

    load: Load
    feed: tuple[Suspect, ...]
    feed_marks: tuple[Mark, ...]
    back: tuple[Suspect, ...]
    back_marks: tuple[Mark, ...]
    ground: Mark | None
    lowest_v: float
    left_v: float
    home_v: float
    currents_a: Mapping[str, float]
    end: Suspect | None

    @property
    def suspects(self) -> tuple[Suspect, ...]:
        """All of it, in the order of the current."""
        return (*self.feed, *((self.end,) if self.end else ()), *self.back)


@dataclass(frozen=True, slots=True)
class Chain:
    """All that a thing hangs on, stage by stage, its own last.

    What a dimmer or a receiver on the way needs for itself is a stage as well.

    ``relays`` are those that must close for it; ``resting`` those that must not, each with what works its coil.
    """

    stages: tuple[Stage, ...]
    relays: tuple[str, ...]
    resting: Mapping[str, tuple[Stage, ...]]

    @property
    def own(self) -> Stage:
        """The stage of the thing itself."""
        return self.stages[-1]

    @property
    def suspects(self) -> tuple[Suspect, ...]:
        """Every suspect once, in the order of the current."""
        return tuple(dict.fromkeys(suspect for stage in self.stages for suspect in stage.suspects))


class Chains:
    """The chains of one build; what they share is looked up once."""

    def __init__(self, trailer: Trailer, figures: Figures) -> None:
        self.trailer = trailer
        self.paths: Mapping[Load, LoadPath] = {path.load: path for path in load_paths(trailer)}
        self.figures: Mapping[Load, LoadFigures] = {
            load.load: load for circuit in figures.circuits.values() for load in circuit.loads
        }
        self.sections: Mapping[str, Section] = {section.name: section for section in trailer.sections}
        steps = [step for load in self.figures.values() for step in load.steps]
        self.currents: Mapping[str, float] = {step.wire: step.current_a for step in steps}
        self.lamp_pins = _lamp_pins(trailer)
        self.ohms: Mapping[str, float] = {name: wire.resistance_ohm for name, wire in figures.wires.items()}

    def of(self, load: Load) -> Chain | None:
        """Return the chain of a load; None where no supply reaches it."""
        if load not in self.paths:
            return None
        stages, relays = self._stages(load, ())
        return Chain(tuple(stages), tuple(dict.fromkeys(relays)), self._resting(load))

    def _resting(self, load: Load) -> Mapping[str, tuple[Stage, ...]]:
        """Return the relays whose rest contact feeds a load, with the stages of their coils."""
        starts = [self.trailer.wires[index].start for index in self.paths[load].feeds]
        relays = dict.fromkeys(start.part for start in starts if start.pin == REST)
        coils = {one.part: path for one, path in self.paths.items() if one.what == "coil"}
        return {relay: (self._stage(coils[relay]),) for relay in relays if relay in coils}

    def _stages(self, load: Load, seen: tuple[Load, ...]) -> tuple[list[Stage], list[str]]:
        """Return the stages of a load; first those that feed it, close its relays or keep its dimmers at work."""
        stages: list[Stage] = []
        path = self.paths[load]
        relays = [
            self.trailer.wires[index].start.part
            for index in path.feeds
            if self.trailer.wires[index].start.pin == "contact out"
        ]
        wanted = [(self.sections[load.section].fed_by, "input"), *((relay, "coil") for relay in relays)]
        wanted += [(part, what) for part in self._electronic(path) for what in OWN]
        before = [one for want in wanted for one in self.paths if (one.part, one.what) == want]
        for one in before:
            if one not in (*seen, load):
                more, closing = self._stages(one, (*seen, load))
                stages += more
                relays += closing
        return [*stages, self._stage(path)], relays

    def _electronic(self, path: LoadPath) -> list[str]:
        """Return the parts on the feed of a path that let it through only while they have a supply themselves."""
        parts = dict.fromkeys(self.trailer.wires[index].start.part for index in path.feeds)
        return [name for name in parts if (p := self.trailer.parts.get(name)) and p.kind in ELECTRONIC]

    def _stage(self, path: LoadPath) -> Stage:
        load, figures = path.load, self.figures[path.load]
        drops = {step.wire: step.drop_v for step in figures.steps}
        currents_a = {step.wire: step.current_a for step in figures.steps}
        on, home = (
            self._between_box_and_battery() if load.charged_from and load.plus == SUPPLY_BAR else ((), ())
        )
        for wire in (*on, *home):
            currents_a[wire.number] = figures.current_a
            drops[wire.number] = figures.current_a * self.ohms.get(wire.number, 0.0)
        currents_a |= self._beside(path, currents_a)
        feeds, returns = ([self.trailer.wires[i] for i in side] for side in (path.feeds, path.returns))
        begin, finish = self._supply(self.sections[load.section])
        feed, feed_marks = self._walk((*feeds, *on), drops, begin)
        back, back_marks = self._walk((*home, *returns), drops, (), BATTERY_MINUS if home else None)
        return Stage(
            load=load,
            feed=feed,
            feed_marks=feed_marks,
            back=(*back, *finish),
            back_marks=back_marks,
            ground=self._ground(back_marks),
            lowest_v=figures.lowest_v,
            left_v=figures.left_v,
            home_v=sum(drops.get(wire.number, 0.0) for wire in (*home, *returns)),
            currents_a=currents_a,
            end=_end(load),
        )

    def _beside(self, path: LoadPath, known: Mapping[str, float]) -> dict[str, float]:
        """Return the currents of the wires beside those of a path, which share a terminal with it.

        On its feed they leave that, as to coil and contact; on its return they come to it.
        """
        starts = {self.trailer.wires[index].start for index in path.feeds}
        ends = {self.trailer.wires[index].end for index in path.returns}
        beside = (wire.number for wire in self.trailer.wires if wire.start in starts or wire.end in ends)
        return {number: self.currents.get(number, 0.0) for number in beside if number not in known}

    def _between_box_and_battery(self) -> tuple[tuple[Wire, ...], tuple[Wire, ...]]:
        """Return the wires on which a charge goes on from the front box to the battery, and those it comes back on.

        They are the battery's own line, met the other way round; none where it does not reach.
        """
        graph = neighbours(self.trailer)
        on = way_back(reach(graph, BATTERY_PLUS), SUPPLY_BAR) or ()
        home = (way_back(reach(graph, BATTERY_MINUS), GROUND_BAR) or ())[::-1]
        wires = self.trailer.wires
        return tuple(wires[index] for index in on), tuple(wires[index] for index in home)

    def _supply(self, section: Section) -> tuple[tuple[Suspect, ...], tuple[Suspect, ...]]:
        """Return the suspects before the first wire of a section and behind its last."""
        part = section.plus.part
        if part == TOW_PLUG:
            plug = Suspect(Cause.PLUG, TOW_PLUG)
            contacts = [Suspect(Cause.CONTACT, TOW_PLUG, pole.pin) for pole in (section.plus, section.minus)]
            shared = (LAMPS_OF_CAR,) if section.plus.pin in self.lamp_pins else ()
            return (Suspect(Cause.CAR, "", section.plus.pin), *shared, plug, contacts[0]), (
                contacts[1],
                Suspect(Cause.CAR_GROUND, "", section.minus.pin),
            )
        if part == BATTERY:
            return (Suspect(Cause.BATTERY, BATTERY),), ()
        return (Suspect(Cause.CONVERTER if section.fed_by else Cause.SUPPLY, part),), ()

    def _walk(
        self,
        wires: Sequence[Wire],
        drops: Mapping[str, float],
        begin: Iterable[Suspect],
        here: Terminal | None = None,
    ) -> tuple[tuple[Suspect, ...], tuple[Mark, ...]]:
        """Go along one side, from ``here`` where it is known; return its suspects, and the places between them."""
        suspects = dict.fromkeys(begin)
        marks: dict[tuple[Terminal, int], Mark] = {}
        drop_v = 0.0
        for wire in wires:
            start, end = _along(wire, here)
            if here is not None:
                suspects |= dict.fromkeys(self._inside(here, start))
            self._mark(marks, start, wire, (len(suspects), drop_v))
            suspects[self._wire(wire)] = None
            drop_v += drops.get(wire.number, 0.0)
            self._mark(marks, end, wire, (len(suspects), drop_v))
            here = end
        return tuple(suspects), tuple(marks.values())

    def _mark(
        self,
        marks: dict[tuple[Terminal, int], Mark],
        terminal: Terminal,
        wire: Wire,
        at: tuple[int, float],
    ) -> None:
        """Keep a terminal as a place for a probe, unless it lies inside the plug or between two-way switches."""
        if terminal.part != TOW_PLUG and wire.role is not Role.TRAVELLER:
            marks.setdefault((terminal, at[0]), Mark(terminal, wire.number, *at))

    def _wire(self, wire: Wire) -> Suspect:
        """Return a wire as a suspect; the two travellers of a pair are one."""
        if wire.role is not Role.TRAVELLER:
            return Suspect(Cause.WIRE, "", "", (wire.number,))
        pair = tuple(
            other.number
            for other in self.trailer.wires
            if other.role is Role.TRAVELLER
            and other.circuit == wire.circuit
            and (other.start.part, other.end.part) == (wire.start.part, wire.end.part)
        )
        return Suspect(Cause.TRAVELLERS, "", "", pair)

    def _inside(self, one: Terminal, other: Terminal) -> list[Suspect]:
        """Return what lies between two terminals of one part."""
        if other.part == FRONT_BOX:
            return _fuse(FRONT_BOX, other.pin) if other.pin.startswith("way ") else []
        part = self.trailer.parts.get(other.part)
        if part is None:
            return []
        if part.form is Form.THROUGH:
            number = other.pin.split()[1]
            return [Suspect(Cause.HOUSING, part.name), Suspect(Cause.WAY, part.name, number)]
        if part.form is Form.JOINT:
            return [Suspect(Cause.JOINT, part.name, other.pin)]
        return _contact(part, other.pin) if one != other else []

    def _ground(self, marks: Sequence[Mark]) -> Mark | None:
        """Return the place that readings are taken against: the box's own ground, else the end of the returns.

        A solar module is on the roof; there it is the near end.
        """
        for mark in marks:
            if mark.terminal == GROUND_BAR or mark.terminal.pin.startswith("strip: "):
                return mark
        if not marks:
            return None
        last = self.trailer.parts.get(marks[-1].terminal.part)
        return marks[0] if last is not None and last.kind == "solar module" else marks[-1]


def _lamp_pins(trailer: Trailer) -> frozenset[str]:
    """Return the contacts of the tow plug that feed road lamps; none where one contact feeds them all.

    Brakes are none: the car works them by a line of their own.
    """
    plug = trailer.tow_plug
    apart = {one.pin for one in plug.pattern.contacts if "brake" in one.functions} if plug else set()
    fed = {one.start.pin for one in trailer.circuits if one.kind is CircuitKind.TOW} - apart
    return frozenset(fed) if len(fed) > 1 else frozenset()


def _along(wire: Wire, here: Terminal | None) -> tuple[Terminal, Terminal]:
    """Return the ends of a wire as the current meets them; a bond is drawn from the bar, and carries back to it."""
    if here is not None and wire.start.part != here.part and wire.end.part == here.part:
        return wire.end, wire.start
    return wire.start, wire.end


def _end(load: Load) -> Suspect | None:
    if load.what == "input" or load.what in OWN or load.charged_from:
        return None
    if load.what == "coil":
        return Suspect(Cause.COIL, load.part)
    # whichever supply feeds a magnet, it is the same one
    return Suspect(Cause.LOAD, load.part, "" if load.what == BREAKAWAY else load.what)


def _contact(part: Part, out: str) -> list[Suspect]:
    """Return what cuts the feed inside a part, whose current leaves at a terminal; a rest contact is one by itself.

    One of several outputs can fail alone, and the part that they share can as well.
    """
    if part.kind in ("fuse", "breaker"):
        return _fuse(part.name, cause=Cause.FUSE if part.kind == "fuse" else Cause.BREAKER)
    causes = {Form.RELAY: Cause.RELAY_CONTACT, Form.GATE: Cause.SWITCH, Form.TRAVELLER: Cause.SWITCH}
    cause = causes.get(part.form)
    if cause is None:
        return []
    one = [Suspect(cause, part.name)] if out != REST else []
    return [*one, Suspect(cause, part.name, out)] if out == REST or out.startswith(MANY) else one


def _fuse(part: str, pin: str = "", cause: Cause = Cause.FUSE) -> list[Suspect]:
    return [Suspect(cause, part, pin), Suspect(Cause.HOLDER, part, pin)]
