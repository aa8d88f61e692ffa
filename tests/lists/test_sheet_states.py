"""What is on while the test sheet switches one thing on, found again by opening and closing the switches."""

from __future__ import annotations

import pytest
from generated_builds import GeneratedBuild, builds
from hypothesis import given, settings
from listed import BUILDS, HEAD, Listed, listed

from builder.electrics.figures import LoadFigures
from builder.lists.testing import Kind, Line
from builder.trailer.parts import Terminal
from builder.trailer.wires import Link, Role

HAND = ("switch", "two-way switch", "four-way switch", "dimmer", "receiver")
FEED_OHM_PER_FT = 4.99 / 1000
"""16 AWG stranded copper at 75 °C, NEC Chapter 9 Table 8 (quoted)."""


def voltage_lines(build: Listed) -> dict[str, Line]:
    return {line.part: line for line in build.lists.tests.lines if line.kind is Kind.VOLTAGE}


def there(build: Listed) -> list[LoadFigures]:
    loads = [load for circuit in build.figures.circuits.values() for load in circuit.loads]
    to_come = {part.name for part in build.trailer.parts.values() if part.waiting}
    return [
        load
        for load in loads
        if not load.load.charged_from
        and not to_come & {load.load.part, *(end.part for end in passed(build, load))}
    ]


def passed(build: Listed, load: LoadFigures) -> list[Terminal]:
    """Where the feeds of a load start: what its current leaves through."""
    out = {w.number: w.start for w in build.trailer.wires if w.role in (Role.FEED, Role.TRAVELLER)}
    return [out[step.wire] for step in load.steps if step.wire in out]


def turned_on(build: Listed, load: LoadFigures) -> set[str]:
    """The switches, and outputs of a receiver, on the way to a load and to the coils that it needs."""
    found: set[str] = set()
    ahead, seen = [load], set()
    while ahead:
        here = ahead.pop()
        if here.load in seen:
            continue
        seen.add(here.load)
        parts = build.trailer.parts
        ends = passed(build, here)
        found |= {str(t) if parts[t.part].outputs else t.part for t in ends if t.part in parts}
        if here.load.what == "":
            found.add(f"own {here.load.part}")
        ahead += [
            one
            for one in there(build)
            if one.load.what == "coil" and Terminal(one.load.part, "contact out") in ends
        ]
        if here.load.what == "input":
            ahead += [one for one in there(build) if one.load.section == here.load.part]
    return found


def is_shut(build: Listed, link: Link, on: set[str], closed: set[str]) -> bool:
    """Whether a link inside a part is open: its switch is off, or its relay stands the other way."""
    part = build.trailer.parts.get(link.a.part)
    ends = {str(link.a), str(link.b)}
    if part is not None and part.kind in HAND:
        return not ends & on if part.outputs else part.name not in on
    if part is not None and part.kind == "relay":
        return ("contact rest" if part.name in closed else "contact out") in (link.a.pin, link.b.pin)
    return False


def live(build: Listed, on: set[str]) -> list[LoadFigures]:
    """All loads that have a voltage with some switches on and all others off: gone from terminal to terminal."""
    closed: set[str] = set()
    while True:
        joins: dict[Terminal, set[Terminal]] = {}
        pairs = [(w.start, w.end) for w in build.trailer.wires if w.role in (Role.FEED, Role.TRAVELLER)]
        pairs += [(one.a, one.b) for one in build.trailer.links if not is_shut(build, one, on, closed)]
        for a, b in pairs:
            joins.setdefault(a, set()).add(b)
            joins.setdefault(b, set()).add(a)
        reached: set[Terminal] = set()
        ahead = [section.plus for section in build.trailer.sections]
        while ahead:
            here = ahead.pop()
            if here not in reached:
                reached.add(here)
                ahead += joins.get(here, ())
        fed = [load for load in there(build) if load.load.plus in reached]
        coils = {load.load.part for load in fed if load.load.what == "coil"}
        if coils <= closed:
            return fed
        closed |= coils


def draws(build: Listed, load: LoadFigures, on: set[str]) -> bool:
    """Whether what is live takes its current: a part with its own switch or a socket only when that is wanted."""
    part = build.trailer.parts.get(load.load.part)
    if load.load.what == "input":
        behind = [
            one
            for one in there(build)
            if one.load.section == load.load.part and one.load.what in ("", "input")
        ]
        return all(draws(build, one, on) for one in behind)
    wanted = part is not None and load.load.what == "" and (part.own_switch or part.kind == "socket")
    return not wanted or f"own {load.load.part}" in on


def lost_v(build: Listed, load: LoadFigures) -> float:
    """What the wires of a load lose with it switched on, by Ohm's and Kirchhoff's laws over what then is live."""
    on = turned_on(build, load)
    coils = {
        Terminal(one.load.part, "contact out"): one.load.circuit
        for one in there(build)
        if one.load.what == "coil"
    }
    circuits = {load.load.circuit, *(coils[t] for t in passed(build, load) if t in coils)}
    flowing = [
        one
        for one in live(build, on)
        if one is load or (one.load.circuit in circuits and draws(build, one, on))
    ]
    return sum(
        step.resistance_ohm * one.current_a
        for step in load.steps
        for one in flowing
        if step.wire in {other.wire for other in one.steps}
    )


def wrong_limits(build: Listed) -> list[str]:
    wrong = []
    loads = {
        (one.load.plus, one.load.minus): one for one in there(build) if one.load.what in ("", "input", "coil")
    }
    for line in build.lists.tests.lines:
        if line.kind is not Kind.VOLTAGE:
            continue
        assert line.red is not None
        assert line.black is not None
        load = loads[line.red, line.black]
        if not any(one is load for one in live(build, turned_on(build, load))):
            # nobody can turn it on: it hangs on a rest contact whose coil has the same switch, or needs a coil to come
            ends = passed(build, load)
            assert any(end.pin.startswith("contact") for end in ends), line.part
            continue
        by_joints = (line.below or 0.0) - lost_v(build, load)
        # 0.3 V where a switch or a fuse lies in the feed, 0.2 V without, and 0.1 V for the return: the guide's own
        if min(abs(by_joints - allowed) for allowed in (0.3, 0.4)) > 1e-6:
            wrong.append(f"{line.part}: {by_joints} beside {lost_v(build, load)}")
    return wrong


@pytest.mark.parametrize("text", BUILDS.values(), ids=BUILDS)
def test_a_voltage_is_bound_by_what_is_on_while_it_is_read(text: str) -> None:
    assert wrong_limits(listed(text)) == []


@given(builds())
@settings(max_examples=25)
def test_so_it_is_in_every_generated_build(generated: GeneratedBuild) -> None:
    assert wrong_limits(listed(generated.text)) == []


def test_two_lamps_with_a_switch_each_are_read_one_by_one_by_hand() -> None:
    """NEC Chapter 9 Table 8 (quoted). 36 W take 3 A at 12 V; the bar's 10 ft carry what is switched on."""
    text = (
        HEAD + "parts: {bar: {kind: bar}, one: {kind: switch}, left: {kind: heater, draws: 36 W},\n"
        "  right: {kind: heater, draws: 36 W, own switch: %s}}\n"
        "circuits: {light: {path: [bar: 10 ft, one: 1 ft, left: 1 ft], size: 16 AWG,\n"
        "  branches: [{from: bar, path: [right: 1 ft]}]}}\n"
    )
    apart, together = (voltage_lines(listed(text % own)) for own in ("yes", "no"))
    line_v = 3.0 * sum(
        wire.resistance_ohm
        for wire in listed(text % "yes").figures.wires.values()
        if wire.number.startswith("2")
    )
    alone_v = 3.0 * 24 * FEED_OHM_PER_FT + 0.4  # 12 ft there and 12 ft back
    assert (apart["left"].below or 0.0) - line_v == pytest.approx(alone_v, rel=0.02)
    assert apart["left"].parts == ()
    # without a switch of its own the right one is always on: the left one is read with both
    both_v = 3.0 * 24 * FEED_OHM_PER_FT + 3.0 * 20 * FEED_OHM_PER_FT + 0.4
    assert (together["left"].below or 0.0) - 2 * line_v == pytest.approx(both_v, rel=0.02)
    assert together["left"].parts == ("right",)
    assert together["right"].parts == ()


def test_the_allowance_for_joints_is_the_guides_own() -> None:
    text = HEAD + "parts: {fan: {kind: fan, draws: 1 A}}\ncircuits: {fan: {path: [fan: 12 ft]}}\n"
    more = text + "assume: {drop allowed at a switch: 0.4 V, drop allowed in a return: 0.2 V}\n"
    before, after = (voltage_lines(listed(one))["fan"].below or 0.0 for one in (text, more))
    assert after - before == pytest.approx(0.2)
    for kind in (Kind.FEED_DROP, Kind.RETURN_DROP):
        one, other = (
            next(line for line in listed(t).lists.tests.lines if line.kind is kind) for t in (text, more)
        )
        assert (other.most or 0.0) - (one.most or 0.0) == pytest.approx(0.1)


def test_what_hangs_on_a_part_to_come_is_not_asked_for() -> None:
    text = (
        HEAD
        + "parts: {one: {kind: switch}, left: {kind: lamp, draws: 3 W}, right: {kind: lamp, draws: 3 W}}\n"
        "circuits: {light: {path: [right: 3 ft, one: 3 ft, left: 3 ft]}}\n"
    )
    assert set(voltage_lines(listed(text))) == {"left", "right"}
    told = listed(text + "waiting: {one: ordered}\n").lists.tests.lines
    asked = [line for line in told if line.kind in (Kind.VOLTAGE, Kind.WORKS, Kind.FUSE_OUT, Kind.FEED_DROP)]
    assert asked
    assert not [line for line in asked if {"one", "left"} & {line.part, *line.parts}]
