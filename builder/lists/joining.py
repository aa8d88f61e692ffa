"""What is put back between the readings of the test sheet, so that each finds joined what it needs.

The sheet begins with everything off and out. This walks along its lines, knows what is joined at each, and puts a
line before those that need more.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import groupby

from builder.electrics.figures import Figures, LoadFigures
from builder.electrics.fusing import fuse_spots
from builder.lists.needed import Needed
from builder.lists.testing import DEAD_GROUPS, Act, Group, Kind, Line, Step
from builder.lists.waiting import Waiting
from builder.trailer.model import BATTERY, FRONT_BOX, TOW_PLUG, Trailer
from builder.trailer.parts import BREAKAWAY_BATTERY, SHORE_CONVERTER, SOLAR_MODULE, SWITCHING, Form, Terminal


def with_steps(trailer: Trailer, figures: Figures, lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines of the sheet with what is done between them, and last what puts back all that is left."""
    walk = _Walk(trailer, figures)
    found: list[Line] = []
    for group, own in groupby(lines, key=lambda line: line.group):
        if group not in (Group.DEAD, Group.WIRES, Group.BARE):
            found += walk.parts(group)
        found += _of_group(walk, group, tuple(own))
    return tuple(_merged((*found, *walk.last())))


def _merged(lines: Iterable[Line]) -> Iterator[Line]:
    """Yield the lines with what is done between two of them in one, where both belong to one table."""
    held: Line | None = None
    for line in lines:
        if held is not None and line.kind is Kind.JOIN and _in_one_table(held, line):
            held = replace(line, steps=(*held.steps, *line.steps))
            continue
        if held is not None:
            yield held
        held = line if line.kind is Kind.JOIN else None
        if held is None:
            yield line
    if held is not None:
        yield held


def _in_one_table(one: Line, other: Line) -> bool:
    """Tell whether two lines of the sheet stand in one table: each circuit has its own, all that charges has one."""
    return one.group is other.group and (one.circuit == other.circuit or one.group is Group.CHARGING)


def _of_group(walk: _Walk, group: Group, lines: tuple[Line, ...]) -> Iterator[Line]:
    if group in DEAD_GROUPS:
        yield from lines
        bulbs = tuple(dict.fromkeys(name for line in lines for name in line.bulbs))
        yield from _join(group, None, [Step(Act.BULBS_IN, bulbs)] if bulbs else [])
    elif group is Group.BATTERY:
        yield from walk.battery(lines)
    elif group is Group.CHARGING:
        for (source, _), found in groupby(lines, key=lambda line: (line.kind is Kind.SOURCE, line.circuit)):
            one = tuple(found)
            yield from walk.source(one) if source else walk.charging(one)
    else:
        for _, own in groupby(
            lines, key=lambda line: (line.circuit, line.supply if not line.circuit else "")
        ):
            yield from walk.circuit(tuple(own))


def _named(act: Act, names: Iterable[str]) -> list[Step]:
    """Return one step about these names, none where there are none."""
    made = tuple(names)
    return [Step(act, made)] if made else []


def _join(group: Group, circuit: int | None, steps: Iterable[Step]) -> Iterator[Line]:
    made = tuple(steps)
    if made:
        yield Line(group, Kind.JOIN, circuit, steps=made)


class _Needs:
    """What stands between a load and its supplies: fuses, the one at the supply first, and isolating switches."""

    def __init__(self, trailer: Trailer, figures: Figures) -> None:
        self.trailer = trailer
        self.needed = Needed(trailer, figures)
        self.waits = Waiting(trailer, figures)
        spots = [
            one for one in fuse_spots(trailer) if one.device == "fuse" and one.name not in self.waits.parts
        ]
        self.fuses = {spot.terminal: spot.name for spot in spots}
        self.holders = frozenset(spot.name for spot in spots if spot.way is None)
        """Fuses in holders of their own, which may be live whatever is switched off."""
        line = trailer.battery_line
        self.of_line = tuple(
            spot.name for spot in spots if line is not None and spot.circuit.number == line.number
        )

    def _starts(self, load: LoadFigures) -> list[Terminal]:
        """Return where the wires begin that feed a load and all that it needs."""
        return [at for one in self.needed.whole(load) for at in self.needed.starts(one)]

    def fuses_of(self, load: LoadFigures) -> list[str]:
        """Return the fuses on the way of a load and of all that it needs."""
        return list(dict.fromkeys(self.fuses[at] for at in self._starts(load) if at in self.fuses))

    def switches_of(self, load: LoadFigures) -> list[str]:
        """Return the isolating switches on the way of a load and of all that it needs."""
        parts = (self.trailer.parts.get(at.part) for at in self._starts(load))
        return [part.name for part in parts if part is not None and part.kind == "isolating switch"]

    def roots_of(self, load: LoadFigures) -> list[str]:
        """Return the supplies that a load and its coils hang on, by the names of their sections."""
        return [self.needed.root(one) for one in self.needed.whole(load)]


class _Walk:
    """What is joined so far; every method yields lines and keeps that up to date."""

    def __init__(self, trailer: Trailer, figures: Figures) -> None:
        self.trailer = trailer
        self.needs = _Needs(trailer, figures)
        self.every = tuple(dict.fromkeys(self.needs.fuses.values()))
        self.fuses: set[str] = set()
        self.joined: set[str] = set()
        self.switched: set[str] = set()
        there = [part for part in trailer.parts.values() if not part.waiting]
        self.ready = [
            Step(Act.PARTS_ON),
            *_named(Act.MATE, (part.name for part in there if part.form is Form.THROUGH)),
            *_named(Act.BREAKERS_ON, (part.name for part in there if part.kind == "breaker")),
        ]
        line = trailer.battery_line
        stops = {stop.part for stop in line.stops} if line is not None else set()
        self.breakers = [part.name for part in there if part.kind == "breaker" and part.name in stops]
        self.dry = [part.name for part in there if part.kind == "pump"]

    def parts(self, group: Group) -> Iterator[Line]:
        """Yield once that all parts are joined, connectors mated and breakers on: all lines from here on need it."""
        steps, self.ready = self.ready, []
        yield from _join(group, None, steps)

    def battery(self, lines: tuple[Line, ...]) -> Iterator[Line]:
        """Yield the battery joined, its line's fuses in, and around the idle current all fuses in and out again."""
        self.joined.add(BATTERY)
        off = _named(Act.BREAKERS_OFF, self.breakers)
        yield from _join(Group.BATTERY, None, [*off, Step(Act.BATTERY_ON)])
        idle = [line for line in lines if line.kind in (Kind.IDLE, Kind.IDLE_OFF)]
        for line in lines:
            if line.kind in (Kind.ISOLATED, Kind.SUPPLIED):
                on, self.breakers = _named(Act.BREAKERS_ON, self.breakers), []
                yield from _join(Group.BATTERY, None, [*self._fuses_in(self.needs.of_line), *on])
            if idle and line is idle[0]:
                more = any(name not in self.fuses for name in self.every)
                steps = [Step(Act.MINUS_OFF), *self._water_in(self._with_no_switch())]
                steps += [Step(Act.ALL_IN)] if more else []
                yield from _join(Group.BATTERY, None, steps)
            yield line
            if line.kind is Kind.SUPPLIED:
                self.switched.add(line.part)
        after = self._after_idle(idle) if idle else _named(Act.BREAKERS_ON, self.breakers)
        yield from _join(Group.BATTERY, None, after)

    def _after_idle(self, idle: Sequence[Line]) -> Iterator[Step]:
        if any(name not in self.fuses for name in self.every):
            yield Step(Act.ALL_OUT, self.needs.of_line)
        yield Step(Act.MINUS_ON)
        if idle[-1].kind is Kind.IDLE_OFF:
            yield Step(Act.SWITCH_ON, (idle[-1].part,))

    def circuit(self, lines: tuple[Line, ...]) -> Iterator[Line]:
        """Yield the lines of one circuit, or of one supply: what it needs before them, what goes out after them."""
        first = lines[0]
        loads = self._loads(first.circuit)
        before = set(self.fuses)
        roots = [root for load in loads for root in self.needs.roots_of(load)] or [first.supply]
        # at the plug the lines themselves put 12 V on each contact
        used = [] if first.group is Group.ROAD else list(dict.fromkeys(root for root in roots if root))
        steps = [step for root in used for step in self._root_on(root)]
        steps = [*self._feeds_in(loads), *steps]
        steps = [*self._water_in(loads), *steps]
        yield from _join(first.group, first.circuit, steps)
        for line in lines:
            if line.kind is Kind.FUSE_OUT and not line.steps:
                self.fuses.discard(line.fuse)
            yield line
        left = tuple(n for n in self.every if n in self.fuses - before and n not in self.needs.of_line)
        self.fuses -= set(left)
        off = [step for root in used for step in self._root_off(root)]
        yield from _join(first.group, first.circuit, [*off, *([Step(Act.FUSES_OUT, left)] if left else [])])

    def _water_in(self, loads: Iterable[LoadFigures]) -> list[Step]:
        """Return that the tanks of the pumps among some loads are filled, once."""
        names = {load.load.part for load in loads}
        filled = [name for name in self.dry if name in names]
        self.dry = [name for name in self.dry if name not in names]
        return _named(Act.WATER_IN, filled)

    def _with_no_switch(self) -> Iterator[LoadFigures]:
        """Yield the loads that run as soon as their fuse is in."""
        parts = self.trailer.parts
        for load in self.needs.needed.loads:
            on_way = (parts.get(at.part) for at in self.needs.needed.starts(load))
            own = parts.get(load.load.part)
            switched = any(part is not None and part.kind in SWITCHING for part in on_way)
            if own is not None and not own.own_switch and not switched and not self.needs.waits(load):
                yield load

    def _loads(self, circuit: int | None) -> list[LoadFigures]:
        return [
            load
            for load in self.needs.needed.loads
            if load.load.circuit == circuit and not load.load.charged_from and not self.needs.waits(load)
        ]

    def source(self, lines: tuple[Line, ...]) -> Iterator[Line]:
        """Yield the reading of a source by itself: nothing of what it charges is joined to it yet."""
        first = lines[0]
        for line in lines:
            root = self._root_of((line,))
            acts = {
                SOLAR_MODULE: (Act.UNCOVER, Act.COVER),
                SHORE_CONVERTER: (Act.SHORE_IN, Act.SHORE_OUT),
            }.get(self._kind(root))
            yield from _join(first.group, first.circuit, [Step(acts[0], (root,))] if acts else [])
            yield line
            yield from _join(first.group, first.circuit, [Step(acts[1], (root,))] if acts else [])

    def charging(self, lines: tuple[Line, ...]) -> Iterator[Line]:
        """Yield the readings of a charger with all joined; before the first of them every fuse goes in.

        From then on no hand goes to a holder: the gas of a battery that charges meets no spark there.
        """
        first = lines[0]
        load = next(one for one in self.needs.needed.loads if self._is_charged(one, lines))
        root = self._root_of(lines)
        steps = [*self._all_in(), *self._charger_in(load, root)]
        yield from _join(first.group, first.circuit, steps)
        yield from lines
        yield from _join(first.group, first.circuit, self._root_off(root, car=True))

    def _root_of(self, lines: tuple[Line, ...]) -> str:
        """Return the supply that lines of charging are about, by the name of its section."""
        load = next(one for one in self.needs.needed.loads if self._is_charged(one, lines))
        return self.needs.roots_of(load)[0]

    def _all_in(self) -> Iterator[Step]:
        """Yield every fuse that is still out put in; the battery's minus is off while a hand is at a holder."""
        more = tuple(name for name in self.every if name not in self.fuses)
        if not more:
            return
        off = BATTERY in self.joined and not self.needs.holders.isdisjoint(more)
        self.fuses.update(more)
        if off:
            yield Step(Act.MINUS_OFF)
        yield Step(Act.FUSES_IN, more, dead=off or BATTERY not in self.joined)
        if off:
            yield Step(Act.MINUS_ON)

    def _is_charged(self, load: LoadFigures, lines: Sequence[Line]) -> bool:
        by = next((line.part for line in lines if line.kind is Kind.CHARGE), "")
        if not load.load.charged_from or load.load.circuit != lines[0].circuit:
            return False
        return not by or load.load.section == by

    def _charger_in(self, load: LoadFigures, root: str) -> Iterator[Step]:
        """Yield the steps that let a charger work: its battery's side is joined before what feeds it."""
        if load.load.part == FRONT_BOX:
            yield from self._fuses_in(self.needs.of_line)
        elif load.load.part != BATTERY:
            yield from self._root_on(load.load.part)
        yield from self._feeds_in([load], from_load=True)
        yield from self._root_on(root, car=True)

    def last(self) -> Iterator[Line]:
        """Yield what puts back all that is still off or out, and a look at the whole; nothing if there was nothing."""
        steps: list[Step] = []
        if self.trailer.battery is not None and BATTERY not in self.joined:
            steps.append(Step(Act.BATTERY_ON))
        steps = [*self._all_in(), *steps]
        for part in self.trailer.parts.values():
            if part.kind in (BREAKAWAY_BATTERY, SOLAR_MODULE) and not part.waiting:
                steps += self._root_on(part.name)
        yield from _join(Group.LAST, None, steps)
        if self.trailer.battery is not None or self.every or steps:
            yield Line(Group.LAST, Kind.DONE)

    def _feeds_in(self, loads: Sequence[LoadFigures], from_load: bool = False) -> Iterator[Step]:
        names = dict.fromkeys(name for load in loads for name in self.needs.fuses_of(load))
        yield from self._fuses_in(tuple(reversed(names)) if from_load else tuple(names))
        switches = dict.fromkeys(name for load in loads for name in self.needs.switches_of(load))
        for switch in (name for name in switches if name not in self.switched):
            self.switched.add(switch)
            yield Step(Act.SWITCH_ON, (switch,))

    def _fuses_in(self, names: Sequence[str]) -> Iterator[Step]:
        more = tuple(name for name in names if name not in self.fuses)
        if more:
            self.fuses.update(more)
            yield Step(Act.FUSES_IN, more)

    def _kind(self, root: str) -> str:
        part = self.trailer.parts.get(root)
        return part.kind if part else ""

    def _root_on(self, root: str, car: bool = False) -> Iterator[Step]:
        kind = self._kind(root)
        if root in self.joined:
            return
        self.joined.add(root)
        if root == BATTERY:
            yield Step(Act.BATTERY_ON)
        elif root.startswith(TOW_PLUG):
            yield Step(Act.CAR_IN) if car else Step(Act.TWELVE_ON, (root,))
        elif kind == SHORE_CONVERTER:
            yield Step(Act.SHORE_IN, (root,))
        elif kind == BREAKAWAY_BATTERY:
            yield Step(Act.LEADS_ON, (root,))
        elif kind == SOLAR_MODULE:
            yield from self._wires_on(root)
            yield Step(Act.UNCOVER, (root,))

    def _wires_on(self, module: str) -> Iterator[Step]:
        """Yield the wires of a module put back, once."""
        wires = tuple(w.number for w in self.trailer.wires if module in (w.start.part, w.end.part))
        key = f"wires of {module}"
        if wires and key not in self.joined:
            self.joined.add(key)
            yield Step(Act.WIRES_ON, (module,), wires)

    def _root_off(self, root: str, car: bool = False) -> Iterator[Step]:
        """Yield what parts a supply again; batteries stay joined."""
        kind = self._kind(root)
        if root not in self.joined or root == BATTERY or kind == BREAKAWAY_BATTERY:
            return
        self.joined.discard(root)
        if root.startswith(TOW_PLUG):
            yield Step(Act.CAR_OUT) if car else Step(Act.TWELVE_OFF, (root,))
        elif kind == SHORE_CONVERTER:
            yield Step(Act.SHORE_OUT, (root,))
        elif kind == SOLAR_MODULE:
            yield Step(Act.COVER, (root,))
