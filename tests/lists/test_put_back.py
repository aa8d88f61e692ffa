"""What is off or out at each line of the test sheet: each reading finds what it needs, and at the end all is back."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from generated_builds import GeneratedBuild, builds
from hypothesis import given, settings
from listed import BUILDS, EXAMPLE, HEAD, NO_BATTERY, ROAD_ONLY, ROOT, SMALLEST, Listed, listed

from builder.electrics.figures import LoadFigures
from builder.lists.testing import DEAD_GROUPS, Act, Group, Kind, Line, Step
from builder.trailer.model import BATTERY, TOW_PLUG
from builder.trailer.parts import SWITCHING
from builder.trailer.wires import Role

BESIDES = {
    name: (ROOT / "example_build" / name / "trailer.yaml").read_text(encoding="utf-8")
    for name in ("braked", "road_lamps", "thirteen_pins", "two_plugs")
}
CHAIN = """\
format: 1
build: {name: Bean Row, country: US}
battery: {chemistry: lithium, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}
front box: {fuse ways: 6}
parts:
  fan relay: {kind: relay}
  coil switch: {kind: switch}
  fan: {kind: fan, draws: 3 A}
circuits:
  air: {path: [fan relay: 5 ft, fan fuse: 1 ft, fan: 1 ft]}
  coil: {path: [coil switch: 5 ft, fan relay: {length: 4 ft, as: coil}]}
"""
SUN_ALONE = """\
format: 1
build: {name: Bean Row, country: US}
parts:
  module: {kind: solar module, gives: 50 W}
  pump: {kind: pump, draws: 1 A}
circuits: {water: {from: module, path: [pump fuse: 1 ft, pump: 6 ft]}}
"""
CHARGED = (
    HEAD
    + """\
tow plug: {pattern: 7-way blade, to front box: 7 ft}
parts:
  shore converter: {kind: shore converter}
  module: {kind: solar module}
  controller: {kind: charge controller}
circuits:
  shore: {from: shore converter, path: [converter fuse: 1 ft, front box: 6 in]}
  sun: {from: module, path: [module fuse: 1 ft, controller: 5 ft, controller fuse: 2 ft, battery: 6 in]}
  car: {from: tow plug battery, path: [car fuse: 7 ft, battery: 6 in]}
"""
)
ALL = {**BUILDS, **BESIDES, "chain": CHAIN, "sun alone": SUN_ALONE, "charged": CHARGED}


class Bench:
    """The trailer on the bench: what is on and in, and what a hand may do to it."""

    def __init__(self, build: Listed) -> None:
        self.build = build
        there = {name for name, part in build.trailer.parts.items() if not part.waiting}
        ways = {fuse.name for fuse in build.figures.fuses if fuse.way is not None}
        self.every = {
            fuse.name for fuse in build.figures.fuses if fuse.device == "fuse" and fuse.name in there | ways
        }
        self.fuses: set[str] = set()
        self.on: set[str] = set()
        parts = build.trailer.parts.values()
        self.covered = {part.name for part in parts if part.kind == "solar module" and not part.waiting}
        self.bulbs_out: set[str] = set()
        self.parts = False
        self.connectors = {part.name for part in parts if part.kind == "connector" and not part.waiting}
        self.breakers = {part.name for part in parts if part.kind == "breaker" and not part.waiting}
        self.mated: set[str] = set()
        self.set_on: set[str] = set()
        self.dry = {part.name for part in parts if part.kind == "pump" and not part.waiting}
        self.gassing = False
        kinds = {name: part.kind for name, part in build.trailer.parts.items()}
        behind = [{stop.part for stop in circuit.stops} for circuit in build.trailer.circuits]
        worked = [some for some in behind if any(kinds.get(name) in SWITCHING for name in some)]
        self.switched_off = {part.name for part in parts if part.own_switch}.union(*worked)

    def do(self, step: Step) -> None:
        """Do one step; what is off cannot be taken off, nor put back what is on."""
        names = set(step.names)
        switched = {
            Act.BATTERY_ON: ({BATTERY, "minus"}, True),
            Act.MINUS_OFF: ({"minus"}, False),
            Act.MINUS_ON: ({"minus"}, True),
            Act.SWITCH_ON: (names, True),
            Act.LEADS_ON: (names, True),
            Act.WIRES_ON: (names, True),
            Act.SHORE_IN: (names, True),
            Act.SHORE_OUT: (names, False),
            Act.CAR_IN: ({"car"}, True),
            Act.CAR_OUT: ({"car"}, False),
            Act.TWELVE_ON: (names, True),
            Act.TWELVE_OFF: (names, False),
        }
        if step.act in switched:
            things, on = switched[step.act]
            assert things.isdisjoint(self.on) if on else things <= self.on, step
            self.on = self.on | things if on else self.on - things
            assert not (self.gassing and step.act in (Act.MINUS_OFF, Act.MINUS_ON)), step
        elif step.act is Act.PARTS_ON:
            assert not self.parts, step
            self.parts = True
        elif step.act is Act.MATE:
            assert names <= self.connectors - self.mated, step
            self.mated |= names
        elif step.act in (Act.BREAKERS_ON, Act.BREAKERS_OFF):
            on = step.act is Act.BREAKERS_ON
            assert names <= (self.breakers - self.set_on if on else self.set_on), step
            self.set_on = self.set_on | names if on else self.set_on - names
        elif step.act is Act.WATER_IN:
            assert names <= self.dry, step
            self.dry -= names
        elif step.act in (Act.FUSES_IN, Act.ALL_IN):
            self._at_holders(step)
            new = names or self.every - self.fuses
            assert new <= self.every - self.fuses, step
            self.fuses |= new
        elif step.act in (Act.FUSES_OUT, Act.ALL_OUT):
            self._at_holders(step)
            out = names if step.act is Act.FUSES_OUT else self.fuses - names
            assert out <= self.fuses, step
            self.fuses -= out
        elif step.act is Act.COVER:
            assert not names & self.covered, step
            self.covered |= names
        elif step.act is Act.UNCOVER:
            assert names <= self.covered, step
            self.covered -= names
        else:
            assert (step.act, names) == (Act.BULBS_IN, self.bulbs_out)
            self.bulbs_out = set()

    def _at_holders(self, step: Step) -> None:
        """Hold what a step says of the holders against what is on: no spark near a battery that was just charged."""
        assert not self.gassing, step
        if step.dead:
            kept = {p.name for p in self.build.trailer.parts.values() if p.kind == "breakaway battery"}
            sun = {
                p.name for p in self.build.trailer.parts.values() if p.kind == "solar module"
            } - self.covered
            held = {p.name for p in self.build.trailer.parts.values() if p.kind == "isolating switch"}
            assert not (self.on - kept - held - {BATTERY} - self.covered), (step, self.on)
            assert BATTERY not in self.on or "minus" not in self.on, step
            assert not sun & self.on, step

    def is_fed(self, load_part: str, circuit: int, what: str = "") -> bool:
        """Tell whether current can come to a part of a circuit, by the wires from it back to its supply."""
        loads = [
            load
            for load in self.build.figures.circuits[circuit].loads
            if load.load.part == load_part and load.load.what == what
        ]
        return all(self.comes(load) for load in loads)

    def comes(self, load: LoadFigures) -> bool:
        """Tell whether nothing on a load's way is out or off, and its supply is on."""
        trailer = self.build.trailer
        starts = {wire.number: wire.start for wire in trailer.wires if wire.role is not Role.RETURN}
        passed = [starts[step.wire] for step in load.steps if step.wire in starts]
        for at in passed:
            way = at.pin if at.part == "front box" and at.pin.startswith("way ") else at.part
            if way in self.every and way not in self.fuses:
                return False
            part = trailer.parts.get(at.part)
            if part is None:
                continue
            if part.kind == "breaker" and at.part not in self.set_on:
                return False
            if part.kind == "connector" and at.part not in self.mated:
                return False
            if part.kind == "isolating switch" and at.part not in self.on:
                return False
            if part.kind == "relay" and at.pin == "contact out" and not self._pulls(at.part):
                return False
        return self.gives(load.load.section)

    def _pulls(self, relay: str) -> bool:
        circuits = self.build.figures.circuits.items()
        fed = (
            n for n, one in circuits if any((o.load.part, o.load.what) == (relay, "coil") for o in one.loads)
        )
        return all(self.is_fed(relay, n, "coil") for n in fed)

    def gives(self, name: str) -> bool:
        """Tell whether a section has its voltage: its supply joined, or what makes it fed."""
        trailer = self.build.trailer
        section = next(one for one in trailer.sections if one.name == name)
        if section.fed_by:
            inputs = [load for load in trailer.loads if load.part == section.fed_by and load.what == "input"]
            return all(self.is_fed(load.part, load.circuit, "input") for load in inputs)
        if name == BATTERY:
            return {BATTERY, "minus"} <= self.on
        if name.startswith(TOW_PLUG):
            return bool({name, "car"} & self.on)
        wired = any(name in (wire.start.part, wire.end.part) for wire in trailer.wires)
        module = trailer.parts[name].kind == "solar module"
        return name not in self.covered and (not wired or name in self.on) if module else name in self.on


def walked(build: Listed) -> Iterator[tuple[Line, Bench]]:
    """Yield each line with the bench as it is while it is read."""
    bench = Bench(build)
    for line in build.lists.tests.lines:
        bench.bulbs_out |= set(line.bulbs)
        if line.kind is Kind.JOIN:
            for step in line.steps:
                bench.do(step)
        if line.kind is Kind.SUPPLIED and line.part:
            bench.on.add(line.part)
        if line.kind is Kind.IDLE_OFF:
            bench.on.discard(line.part)
        yield line, bench
        bench.gassing = bench.gassing or line.kind in (Kind.CHARGE, Kind.RISES)
        if line.kind is Kind.FUSE_OUT:
            bench.fuses.remove(line.fuse)
            for step in line.steps:
                bench.do(step)


def check(build: Listed) -> None:
    bench = Bench(build)
    for line, at_line in walked(build):
        bench = at_line
        finds(build, line, bench)
        finds_charging(build, line, bench)
    if build.lists.tests.lines and build.lists.tests.lines[-1].kind is Kind.DONE:
        all_is_back(build, bench)


def finds(build: Listed, line: Line, bench: Bench) -> None:
    """Hold one line against the bench: a dead test finds all off, a live one what it reads."""
    told = (line, sorted(bench.on), sorted(bench.fuses))
    early = line.group in (Group.DEAD, Group.WIRES, Group.BARE)
    assert bench.parts is not early, told
    assert bench.mated == (set() if early else bench.connectors), told
    if line.group in DEAD_GROUPS:
        assert not (bench.on | bench.fuses), told
        assert bench.set_on == (set() if early else bench.breakers), told
    elif line.kind in (Kind.IDLE, Kind.IDLE_OFF):
        assert bench.fuses == bench.every, told
        assert "minus" not in bench.on, told
    elif line.red is not None and line.red.part == BATTERY:
        assert {BATTERY, "minus"} <= bench.on, told
    elif line.kind is Kind.SUPPLY:
        assert bench.gives(line.supply), told
    elif line.kind is Kind.FUSE_OUT:
        assert line.fuse in bench.fuses, told
    if line.group not in DEAD_GROUPS:
        off = bench.switched_off if line.kind in (Kind.IDLE, Kind.IDLE_OFF) else set()
        assert not {line.part, *line.parts} & (bench.dry - off), told
    if line.kind in (Kind.VOLTAGE, Kind.FEED_DROP, Kind.RETURN_DROP) and line.group is Group.CIRCUIT:
        for what in ("", "input", "breakaway", "coil"):
            assert bench.is_fed(line.part, line.circuit or 0, what), told


def finds_charging(build: Listed, line: Line, bench: Bench) -> None:
    """Hold a line of what charges: its source alone is on, and its current comes to the battery."""
    told = (line, sorted(bench.on), sorted(bench.fuses))
    if line.kind in (Kind.CHARGE, Kind.RISES):
        loads = build.figures.circuits[line.circuit or 0].loads
        charged = [load for load in loads if load.load.charged_from == line.part]
        assert charged, told
        assert all(bench.comes(load) for load in charged), told
    if line.kind is Kind.SOURCE:
        mains = {p.name for p in build.trailer.parts.values() if p.kind == "shore converter"}
        assert not (bench.on - {line.part}) & (mains | {"car"}), told
        assert line.part not in bench.covered, told


def all_is_back(build: Listed, bench: Bench) -> None:
    assert bench.fuses == bench.every
    assert bench.set_on == bench.breakers
    assert not bench.covered
    assert not bench.bulbs_out
    assert "car" not in bench.on
    if build.trailer.battery is not None:
        assert {BATTERY, "minus"} <= bench.on
    for part in build.trailer.parts.values():
        wired = not part.waiting and any(
            part.name in (wire.start.part, wire.end.part) for wire in build.trailer.wires
        )
        if part.kind in ("solar module", "breakaway battery") and wired:
            assert part.name in bench.on


@pytest.mark.parametrize("text", ALL.values(), ids=ALL)
def test_each_reading_finds_what_it_needs_and_all_is_put_back(text: str) -> None:
    check(listed(text))


@given(builds())
@settings(max_examples=40)
def test_of_every_build_each_reading_finds_what_it_needs(generated: GeneratedBuild) -> None:
    check(listed(generated.text))


def steps_before(build: Listed, kind: Kind, part: str) -> list[tuple[Act, tuple[str, ...]]]:
    lines = build.lists.tests.lines
    index = next(n for n, line in enumerate(lines) if line.kind is kind and line.part == part)
    assert lines[index - 1].kind is Kind.JOIN
    return [(step.act, step.names) for step in lines[index - 1].steps]


def test_a_charge_controller_finds_the_battery_before_the_module() -> None:
    """No light on it until its wires are on, and they come after all fuses up to the battery."""
    assert steps_before(listed(CHARGED), Kind.CHARGE, "controller") == [
        (Act.SHORE_OUT, ("shore converter",)),
        (Act.WIRES_ON, ("module",)),
        (Act.UNCOVER, ("module",)),
    ]
    (wires,) = [
        step.wires
        for line in listed(EXAMPLE).lists.tests.lines
        for step in line.steps
        if step.act is Act.WIRES_ON
    ]
    assert wires == ("15A", "15D")


def test_all_fuses_go_in_with_the_minus_off_before_the_first_charge() -> None:
    """A spark at a holder can set off the gas of a battery that was charged: from there on none is touched."""
    fuses = ("converter fuse", "module fuse", "controller fuse", "car fuse")
    assert steps_before(listed(CHARGED), Kind.CHARGE, "shore converter") == [
        (Act.MINUS_OFF, ()),
        (Act.FUSES_IN, fuses),
        (Act.MINUS_ON, ()),
        (Act.SHORE_IN, ("shore converter",)),
    ]
    kinds = [line.kind for line in listed(CHARGED).lists.tests.lines if line.group is Group.CHARGING]
    assert kinds.index(Kind.CHARGE) > max(n for n, kind in enumerate(kinds) if kind is Kind.SOURCE)


@pytest.mark.parametrize(("own", "before"), [("no", Kind.IDLE), ("yes", Kind.WORKS)])
def test_a_pump_has_water_before_it_can_run(own: str, before: Kind) -> None:
    """With no switch it runs as soon as all fuses are in, for the current at rest."""
    text = HEAD + f"parts: {{pump: {{kind: pump, draws: 2 A, own switch: {own}}}}}\n"
    lines = listed(text + "circuits: {water: {path: [pump: 5 ft]}}\n").lists.tests.lines
    (filled,) = (n for n, line in enumerate(lines) for step in line.steps if step.act is Act.WATER_IN)
    assert lines[filled + 1].kind is before


BREAKER_FIRST = """\
format: 1
build: {name: Bean Row, country: US}
battery: {chemistry: agm, capacity: 35 Ah, path: [main breaker: 5 in, front box: 4 ft]}
front box: {fuse ways: 6}
parts: {main breaker: {kind: breaker}, fan breaker: {kind: breaker}, fan: {kind: fan, draws: 1 A}}
circuits: {air: {path: [fan breaker: 1 ft, fan: 5 ft]}}
"""


def test_a_main_breaker_is_off_while_the_battery_is_joined() -> None:
    build = listed(BREAKER_FIRST)
    check(build)
    at = [
        (step.act, step.names)
        for line in build.lists.tests.lines
        for step in line.steps
        if step.act in (Act.BREAKERS_ON, Act.BREAKERS_OFF, Act.BATTERY_ON)
    ]
    assert at == [
        (Act.BREAKERS_ON, ("main breaker", "fan breaker")),
        (Act.BREAKERS_OFF, ("main breaker",)),
        (Act.BATTERY_ON, ()),
        (Act.BREAKERS_ON, ("main breaker",)),
    ]


def test_the_fuses_go_in_for_the_idle_current_while_the_battery_is_off() -> None:
    lines = listed(SMALLEST).lists.tests.lines
    index = next(n for n, line in enumerate(lines) if line.kind is Kind.IDLE)
    assert [step.act for step in lines[index - 1].steps] == [Act.MINUS_OFF, Act.ALL_IN]
    assert [step.act for step in lines[index + 1].steps] == [Act.ALL_OUT, Act.MINUS_ON]


def test_where_nothing_was_taken_off_nothing_is_put_back() -> None:
    groups = {line.group for line in listed(ROAD_ONLY).lists.tests.lines}
    assert Group.LAST not in groups
    assert listed(NO_BATTERY).lists.tests.lines[-1].kind is Kind.DONE
