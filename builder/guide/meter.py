"""Where a meter can be held along a chain, what it must read there, and whom another reading accuses."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import replace
from itertools import islice

from builder.guide.chains import OWN, Chain, Mark, Stage
from builder.guide.model import Cause, Point, Reads, StepKind, Suspect
from builder.guide.probes import LOOK, METER, Probe, at_least, at_most
from builder.trailer.assumed import assumption
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
from builder.trailer.parts import BRAKE_MAGNET, Form, Terminal

SPREAD = 0.05
"""Share of its nominal voltage that a converter, a charger or a car may show below it; common practice.

A battery has none: its lowest voltage is known, and a reading below it finds it empty.
"""
CONTROLLER_FIRST = 2.5
"""The trouble of reading the car's contact for brakes, as a look: after a plug was pushed home, before all else.

What works brakes is a controller in the car, which may be missing, off or set too low (common practice).
"""
PAST_ITS_GROUND = 0.2
"""How much more trouble bare metal of the car is than the ground contact of its socket."""
AFTER_WIRES = 4.5
"""The trouble of reading a charger's output: more than any reading of the wires behind it."""
AFTER_SWITCH = 1.5
"""The trouble of reading the battery, as a look: more than to turn a switch, less than to pull a plug or a fuse."""
MOST_LOST = 0.5
"""However much a wire is worked out to lose, less than half of the supply counts as a break; common practice."""
CAR_METAL = Point(Terminal(TOW_PLUG, ""), beyond="car")


def _point(mark: Mark) -> Point:
    """Return a mark as a point for a probe; on a bar of the box any screw will do."""
    return Point(mark.terminal, "" if mark.terminal in (SUPPLY_BAR, GROUND_BAR) else mark.wire)


def _in_the_box(mark: Mark) -> bool:
    return mark.terminal.part == FRONT_BOX


class Meter:
    """Where a meter can be held along the stages of one chain, and what it must read there."""

    def __init__(self, trailer: Trailer, chain: Chain) -> None:
        self.trailer, self.chain = trailer, chain
        self.feed_v = assumption(trailer, "drop allowed in a feed").value
        self.back_v = assumption(trailer, "drop allowed in a return").value
        self.switch_v = assumption(trailer, "drop allowed at a switch").value

    def dead(self) -> Iterator[Probe]:
        """Yield the readings that find a break."""
        supply = self.supply()
        if supply is not None:
            yield supply
        yield from self._socket()
        yield from self._car_metal()
        for stage in self.chain.stages:
            yield from self.across(stage)
            for black in self._grounds(stage):
                yield from self._feed(stage, black)
            yield from self._back(stage)

    def dim(self, suspects: Collection[Suspect]) -> Iterator[Probe]:
        """Yield the readings that find a bad joint among these: from the place before them on, with the thing on."""
        for stage in self.chain.stages:
            yield from self._along(stage, (stage.feed, stage.feed_marks, self.feed_v), suspects)
            yield from self._along(stage, (stage.back, stage.back_marks, self.back_v), suspects)
        yield from self._car_metal()

    def coming(self) -> Iterator[Probe]:
        """Yield the reading where the car's feed is first met, with the thing on: what comes may be too little."""
        for stage in self.chain.stages:
            if stage.feed[0].cause is Cause.CAR and stage.ground is not None:
                yield from islice(self._feed(stage, stage.ground), 1)

    def _along(
        self,
        stage: Stage,
        part: tuple[tuple[Suspect, ...], tuple[Mark, ...], float],
        suspects: Collection[Suspect],
    ) -> Iterator[Probe]:
        side, marks, plain_v = part
        met = [place for place, suspect in enumerate(side) if suspect in suspects]
        near = [mark for mark in marks if self._cost(mark) is not None]
        if not met or not near:
            return
        start = max((m for m in near if m.before <= met[0]), key=lambda m: m.before, default=near[0])
        end = min((m for m in near if m.before > met[-1]), key=lambda m: m.before, default=near[-1])
        for mark in near:
            between = side[start.before : mark.before]
            if between and mark.before <= end.before:
                yield self._drop(stage, (start, mark), between, plain_v)

    def supply(self) -> Probe | None:
        """Return the reading that tells a low battery from a bad joint; None where the battery does not feed this.

        It comes before any fuse is pulled: a low battery is commoner than an open fuse (common practice).
        """
        accused = frozenset({Suspect(Cause.BATTERY, BATTERY)})
        for stage in self.chain.stages:
            plus = [m for m in stage.feed_marks if m.terminal == BATTERY_PLUS]
            minus = [m for m in stage.back_marks if m.terminal == BATTERY_MINUS]
            if plus and minus:
                reading = self._volts(stage, plus[0], minus[0], accused, 0.0)
                return replace(reading, kind=StepKind.BATTERY, rank=LOOK, cost=AFTER_SWITCH)
        return None

    def _socket(self) -> Iterator[Probe]:
        """Yield the readings in the car's own socket, at the contact's mate: against its ground, and past that."""
        for stage in self.chain.stages:
            if stage.feed[0].cause is not Cause.CAR:
                continue
            poles = stage.feed[0].pin, stage.back[-1].pin
            red, black = (Point(Terminal(TOW_PLUG, pin), beyond="socket") for pin in poles)
            load = self.trailer.parts.get(stage.load.part)
            brakes = load is not None and load.kind == BRAKE_MAGNET
            feed = frozenset(s for s in stage.feed if s.cause is Cause.CAR)
            ground = frozenset(s for s in stage.back if s.cause is Cause.CAR_GROUND)
            whole = Probe(
                StepKind.VOLTS,
                feed | ground,
                Reads.ENOUGH,
                Reads.LESS,
                LOOK if brakes else METER,
                CONTROLLER_FIRST if brakes else 1.0,
                red=red,
                black=black,
                least_v=at_least(stage.lowest_v * (1 - SPREAD)),
            )
            yield whole
            yield replace(whole, accuses=feed, cost=whole.cost + PAST_ITS_GROUND, black=CAR_METAL)

    def _car_metal(self) -> Iterator[Probe]:
        """Yield the reading from the box's ground to bare metal of the car: it bridges the cable and its contact."""
        stage = self.chain.own
        if stage.feed[0].cause is Cause.CAR and stage.ground is not None and _in_the_box(stage.ground):
            drop_v = stage.home_v - stage.ground.drop_v
            between = stage.back[stage.ground.before :]
            yield Probe(
                StepKind.DROP,
                frozenset(between),
                Reads.WITHIN,
                Reads.ABOVE,
                METER,
                1.5,
                red=_point(stage.ground),
                black=CAR_METAL,
                most_v=at_most(max(0.0, drop_v) + self.back_v),
                load_a=max(
                    (stage.currents_a.get(n, 0.0) for suspect in between for n in suspect.wires), default=0.0
                ),
            )

    def across(self, stage: Stage) -> Iterator[Probe]:
        """Yield the reading across the load of a stage, which accuses all that feeds it."""
        red, black = stage.feed_marks[-1:], stage.back_marks[:1]
        if not red or not black or self._cost(red[0]) is None or stage.load.charged_from:
            return
        accused = {*stage.feed, *stage.back, *self._before(stage.feed)}
        yield self._volts(stage, red[0], black[0], frozenset(accused), stage.lowest_v - stage.left_v)

    def _grounds(self, stage: Stage) -> list[Mark]:
        """Return what readings of a stage are taken against: its ground, and the battery's minus."""
        found = [stage.ground] if stage.ground else []
        return found + [m for m in stage.back_marks if m.terminal == BATTERY_MINUS and m != stage.ground]

    def rise(self) -> Iterator[Probe]:
        """Yield the reading at the output of what charges: against the battery's voltage, which is there as well.

        It comes after the wires behind it were read: many chargers give nothing while they meet no battery.
        """
        stage = self.chain.own
        if stage.feed[0].cause is not Cause.CONVERTER or not stage.feed_marks or not stage.back_marks:
            return
        red, black = stage.feed_marks[0], stage.back_marks[-1]
        if red.terminal.part == black.terminal.part == stage.feed[0].part:
            accused = frozenset({stage.feed[0], *self._before(stage.feed[:1])})
            points = _point(red), _point(black)
            yield Probe(
                StepKind.RISE,
                accused,
                Reads.RISES,
                Reads.STAYS,
                METER,
                AFTER_WIRES,
                red=points[0],
                black=points[1],
            )

    def _feed(self, stage: Stage, black: Mark) -> Iterator[Probe]:
        """Yield the readings along the feed against one ground; the last of them is the load's own plus."""
        if stage.load.charged_from:
            return
        beyond = stage.back[black.before :]
        total_v = stage.lowest_v - stage.left_v
        for mark in stage.feed_marks:
            if self._cost(mark) is None or (
                black.terminal == BATTERY_MINUS and not self._on_the_line(mark, stage)
            ):
                continue
            passed = stage.feed[: mark.before]
            accused = frozenset({*passed, *beyond, *self._before(passed)})
            back_v = (stage.back_marks[-1].drop_v - black.drop_v) if stage.back_marks else 0.0
            yield self._volts(stage, mark, black, accused, min(total_v, mark.drop_v + back_v))

    def _on_the_line(self, mark: Mark, stage: Stage) -> bool:
        """Tell whether a place lies on the battery's own line, where its minus is at hand."""
        if stage.ground is not None and stage.ground.terminal == BATTERY_MINUS:
            return True
        line = self.trailer.battery_line
        names = {stop.part for stop in line.stops if stop.part != FRONT_BOX} if line else set()
        return mark.terminal.part in {BATTERY, *names} or mark.terminal == Terminal(FRONT_BOX, "supply")

    def _back(self, stage: Stage) -> Iterator[Probe]:
        """Yield the readings along the return: what is left there of the current's way back must be next to nothing."""
        near = [mark for mark in stage.back_marks if self._cost(mark) is not None]
        for place, one in enumerate(near):
            for other in near[place + 1 :]:
                between = stage.back[one.before : other.before]
                if between and stage.ground in {one, other}:
                    yield self._drop(stage, (one, other), between, self.back_v)

    def _before(self, passed: tuple[Suspect, ...]) -> set[Suspect]:
        """Return all that must work before there is a voltage behind these: supplies of converters, relays, dimmers."""
        found: set[Suspect] = set()
        ahead = list(passed)
        while ahead:
            more = {s for stage in self._needed(ahead.pop()) for s in stage.suspects} - found
            found |= more
            ahead += more.difference(passed)
        return found

    def _needed(self, suspect: Suspect) -> list[Stage]:
        """Return the stages that must be well for a suspect to let current through."""
        if suspect.cause is Cause.CONVERTER:
            return self._named(suspect.part, "input")
        if suspect.cause is Cause.RELAY_CONTACT and not suspect.pin:
            return self._named(suspect.part, "coil")
        own = [stage for what in OWN for stage in self._named(suspect.part, what)]
        return own if suspect.cause is Cause.SWITCH else []

    def _named(self, part: str, what: str) -> list[Stage]:
        return [one for one in self.chain.stages if (one.load.part, one.load.what) == (part, what)]

    def _volts(
        self, stage: Stage, red: Mark, black: Mark, accused: frozenset[Suspect], drop_v: float
    ) -> Probe:
        low_v = stage.lowest_v if stage.feed[0].cause is Cause.BATTERY else stage.lowest_v * (1 - SPREAD)
        sun = self._is_solar(stage)
        of_battery = sun and self.trailer.battery is not None
        least_v = at_least(low_v - (low_v * MOST_LOST if sun else min(drop_v, low_v * MOST_LOST)))
        return Probe(
            StepKind.VOLTS,
            accused,
            Reads.ENOUGH,
            Reads.LESS,
            METER,
            max(self._cost(red) or 4.0, self._cost(black) or 4.0)
            + (0.5 if red.terminal.part != black.terminal.part else 0.0),
            red=_point(red),
            black=_point(black),
            least_v=None if of_battery else least_v,
            least_of=BATTERY if of_battery else "",
        )

    def _is_solar(self, stage: Stage) -> bool:
        """Tell whether a solar module feeds a stage.

        What it shows depends on the sun, and a simple controller holds it next to the battery's voltage. A module
        that is well shows no less than the battery does; one that is not shows next to nothing (common practice).
        """
        part = self.trailer.parts.get(stage.feed[0].part)
        return part is not None and part.kind == "solar module"

    def _drop(
        self, stage: Stage, ends: tuple[Mark, Mark], between: tuple[Suspect, ...], plain_v: float
    ) -> Probe:
        one, other = ends
        contacts = {Cause.SWITCH, Cause.FUSE, Cause.BREAKER, Cause.RELAY_CONTACT, Cause.TRAVELLERS}
        allowed_v = self.switch_v if any(s.cause in contacts for s in between) else plain_v
        cost = max(self._cost(one) or 4.0, self._cost(other) or 4.0)
        return Probe(
            StepKind.DROP,
            frozenset(between),
            Reads.WITHIN,
            Reads.ABOVE,
            METER,
            cost + (0.5 if one.terminal.part != other.terminal.part else 0.0),
            red=_point(one),
            black=_point(other),
            most_v=at_most(other.drop_v - one.drop_v + allowed_v),
            load_a=self._flowing(stage, between, ends),
        )

    def _flowing(self, stage: Stage, between: tuple[Suspect, ...], ends: tuple[Mark, Mark]) -> float:
        """Return the most that flows through a stretch with everything on, in amperes.

        A contact has no wire of its own: the lesser of the currents at its two sides flows through it, for one side
        may be a bar that feeds more. Behind it all wires count that leave it, and on the way back all that come to it.
        """
        numbers = [number for suspect in between for number in suspect.wires]
        if numbers:
            return max(stage.currents_a.get(number, 0.0) for number in numbers)
        one, other = ends
        coming, leaving = [one.wire], [other.wire]
        if one.terminal != other.terminal and other in stage.feed_marks:
            leaving = [wire.number for wire in self.trailer.wires if wire.start == other.terminal]
        elif one.terminal != other.terminal and one in stage.back_marks:
            coming = [wire.number for wire in self.trailer.wires if wire.end == one.terminal]
        sides = [[n for n in side if n in stage.currents_a] for side in (coming, leaving)]
        return min((sum(stage.currents_a[n] for n in side) for side in sides if side), default=0.0)

    def _cost(self, mark: Mark) -> float | None:
        """Return the trouble of holding a probe to a terminal; None where no owner gets at it (common practice)."""
        if mark.terminal.part == FRONT_BOX:
            return 1.0
        part = self.trailer.parts.get(mark.terminal.part)
        if part is None:
            return 1.5 if mark.terminal.part == BATTERY else 4.0
        if part.kind in ("solar module", BRAKE_MAGNET):
            return None  # on a roof, or in a drum that nobody opens
        if part.kind in ("fuse", "breaker") or part.form in (Form.LOAD, Form.SECTION):
            return 2.0
        return 4.0 if part.form is Form.JOINT else 3.0
