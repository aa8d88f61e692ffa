"""What is left on a circuit: by hand, and by adding that much to generated builds and computing them anew."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from generated_builds import GeneratedBuild, builds
from hypothesis import HealthCheck, Phase, event, given, settings
from hypothesis import strategies as st

from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.electrics.figures import Figures, HeadroomFigures
from builder.electrics.headroom import two_figures_down
from builder.rules.finding import Finding, Level
from builder.rules.registry import find
from builder.trailer.assumed import assumption
from builder.trailer.model import BATTERY, Trailer
from builder.trailer.origin import NOWHERE
from builder.trailer.parts import Draw, Form, Law, Part
from builder.trailer.wires import Load

HAND = """\
format: 1
build: {{name: By Hand, country: US}}
battery: {{chemistry: agm, capacity: 100 Ah, to main fuse: 1 ft, to front box: 1 ft, fuse: 40 A, size: 8 AWG}}
front box: {{fuse ways: 4, fuses: blade regular}}
wire: {{on the shelf: [16 AWG, 14 AWG, 8 AWG], sold as: pair, insulation: 60 C}}
parts:
  switch: {{kind: switch{switch}}}
  lamp: {{kind: lamp, draws: 6 W}}
  far lamp: {{kind: lamp, draws: 6 W}}
  gas alarm: {{kind: alarm, draws: 80 mA}}
circuits:
  light: {{path: [switch: {length}, lamp: 1 ft, far lamp: 1 ft], fuse: {fuse}, size: 16 AWG}}
  watch: {{path: [gas alarm: 3 ft]}}
"""


def read(text: str) -> tuple[Trailer, Figures]:
    reading = read_build(text.encode())
    assert reading.trailer is not None, reading.problems
    return reading.trailer, compute(reading.trailer)


def by_hand(length: str = "3 ft", fuse: str = "5 A", switch: str = "") -> HeadroomFigures:
    (made,) = read(HAND.format(length=length, fuse=fuse, switch=switch))[1].headroom
    return made


def test_a_fuse_leaves_four_fifths_of_its_rating_less_what_flows() -> None:
    # 0.8 × 5 A − 2 × 6 W / 12 V = 3 A, and 3 A × 12 V = 36 W
    made = by_hand()
    assert (made.fuse_w, made.fuse) == (36.0, "way 1")
    assert (made.left_w, made.limit) == (36.0, "fuse")


def test_a_wire_leaves_what_it_bears_less_what_flows() -> None:
    made = by_hand(fuse="15 A")
    # 33 CFR 183.425 Table 5, 16 AWG at 60 °C: 15 A; × sqrt((60 − 40) / 30) for the surroundings; two wires
    assert made.wire_w == two_figures_down((15 * (20 / 30) ** 0.5 - 1.0) * 12)


def test_a_long_wire_leaves_what_may_still_be_lost_at_the_far_end() -> None:
    # NEC Chapter 9 Table 8, 16 AWG stranded: 4.99 ohm / 1000 ft; 8 AWG: 0.778. All copper at 75 °C.
    r16, r8 = 4.99 / 1000, 0.778 / 1000
    line = 4 * r8  # 2 ft out and 2 ft back
    near, far = 40 + 1 + 41, 2  # out through the switch and back to the first lamp; on to the far one
    alarm = 0.08  # on a circuit of its own, over the same line
    drop = (1.0 + alarm) * line + 1.0 * near * r16 + 0.5 * far * r16
    left = (0.03 * 12 - drop) / (line + near * r16 + far * r16)
    made = by_hand(length="40 ft")
    assert (made.part, made.limit) == ("far lamp", "drop")
    assert made.drop_w == pytest.approx(two_figures_down(left * 12))


def test_a_switch_leaves_its_rating_less_what_flows() -> None:
    made = by_hand(switch=", rating: 2 A")
    # 2 A − 1 A, × 12 V
    assert (made.switch_w, made.left_w, made.limit) == (12.0, 12.0, "switch")
    assert by_hand().switch_w is None


def test_nothing_is_left_beside_an_alarm() -> None:
    assert by_hand().circuit == 1  # and the alarm's circuit has no figure


def test_a_circuit_that_is_full_has_nothing_left() -> None:
    made = by_hand(fuse="1 A")
    assert (made.fuse_w, made.left_w, made.limit) == (0.0, 0.0, "fuse")


@given(st.floats(1e-3, 1e5))
def test_two_figures_are_cut_never_raised(value: float) -> None:
    cut = two_figures_down(value)
    assert cut <= value * (1 + 2e-9)
    assert cut > value * 0.9
    assert len(Decimal(f"{cut:g}").normalize().as_tuple().digits) <= 2


# ------------------------------------------------------------------ adding it


def as_built(trailer: Trailer, figures: Figures) -> Trailer:
    """Return the trailer with every size and fuse fixed as it was chosen: nothing grows with a new load."""
    by_way = {fuse.way: fuse.rating_a for fuse in figures.fuses if fuse.way is not None}
    by_part = {fuse.name: fuse.rating_a for fuse in figures.fuses if fuse.way is None}
    return replace(
        trailer,
        wires=tuple(replace(w, size=figures.wires[w.number].size) for w in trailer.wires),
        circuits=tuple(
            replace(c, given_fuse_a=by_way[c.way] or c.given_fuse_a) if c.way in by_way else c
            for c in trailer.circuits
        ),
        parts={
            name: replace(part, rating_a=by_part.get(name) or part.rating_a)
            for name, part in trailer.parts.items()
        },
    )


def rated(trailer: Trailer, figures: Figures) -> Trailer:
    """Return the trailer with a rating for each connector: 1 A more than flows at its busiest end of a way."""
    flows: dict[tuple[str, str], float] = {}
    for wire in trailer.wires:
        for end in (wire.start, wire.end):
            key = end.part, end.pin
            flows[key] = flows.get(key, 0.0) + figures.wires[wire.number].current_a
    busiest = {part: max(a for (of, _), a in flows.items() if of == part) for part, _ in flows}
    return replace(
        trailer,
        parts={
            name: replace(part, rating_a=busiest.get(name, 0.0) + 1.0) if part.form is Form.THROUGH else part
            for name, part in trailer.parts.items()
        },
    )


def added(trailer: Trailer, at: Load, watts: float) -> Trailer:
    """Return the trailer with one more lamp on the terminals of a load."""
    name = "one more lamp"
    lamp = Part(name, "lamp", Form.LOAD, NOWHERE)
    draw = Draw(watts, "W", Law.POWER)
    load = Load(name, "", at.circuit, at.plus, at.minus, at.section, draw, NOWHERE)
    return replace(trailer, parts={**trailer.parts, name: lamp}, loads=(*trailer.loads, load))


Key = tuple[str, Level, int | None]


def keys(found: tuple[Finding, ...], circuit: int) -> set[Key]:
    """Return which rules find something, how grave and where; advice on what is lost only on the circuit itself."""
    told = (f for f in found if f.rule != "part not wired")
    advice = {("drop above advice", level) for level in Level} | {("strip too long", Level.WORTH)}
    return {
        (f.rule, f.level, f.circuit) for f in told if (f.rule, f.level) not in advice or f.circuit == circuit
    }


def grave(found: set[Key]) -> set[Key]:
    return {key for key in found if key[1] in (Level.MUST, Level.SHOULD)}


def joints(trailer: Trailer, figures: Figures, one: HeadroomFigures) -> list[Load]:
    """Return the loads of a circuit that a lamp could be joined to, the one where the least is left first."""
    loads = [made.load for made in figures.circuits[one.circuit].loads]
    loads = [load for load in loads if load.section == BATTERY and load.what in ("", "input")]
    return sorted(loads, key=lambda load: load.part != one.part)


RULES = {
    "fuse": {"load above fuse"},
    "wire": {"wire overloaded"},
    "switch": {"switch too small", "connector overloaded"},
    "drop": {"drop above advice", "too low voltage", "strip too long"},
}


def breaks(much: Trailer, one: HeadroomFigures, kind: str, was: set[Key]) -> bool:
    """Tell whether a limit of one kind is passed in a trailer with one more lamp."""
    figures = compute(much)
    found = keys(find(much, figures), one.circuit)
    new = {rule for rule, *_ in found - was}
    if new & RULES[kind]:
        return True
    if kind == "drop":
        aim_v = assumption(much, "drop aimed at").value / 100 * 12
        lamp = next(m for m in figures.circuits[one.circuit].loads if m.load.part == "one more lamp")
        return lamp.drop_v > aim_v * (1 + 1e-9)
    fuses = [fuse for fuse in figures.fuses if fuse.name == one.fuse]
    return kind == "fuse" and any(fuse.starting_a > (fuse.rating_a or 0) * (1 + 1e-9) for fuse in fuses)


def told_before(was: set[Key], kind: str) -> bool:
    """Tell whether the trailer passes a limit of this kind as it stands."""
    return any(rule in RULES[kind] for rule, *_ in was)


@settings(
    max_examples=30,
    deadline=None,
    derandomize=True,
    suppress_health_check=list(HealthCheck),
    phases=(Phase.explicit, Phase.generate),
)
@given(build=builds())
def test_a_lamp_of_what_is_left_breaks_nothing_and_clearly_more_does(build: GeneratedBuild) -> None:
    trailer = rated(*read(build.text))
    chosen = compute(trailer)
    built = as_built(trailer, chosen)
    figures = compute(built)
    assert figures.headroom == chosen.headroom  # fixing what was chosen changes nothing
    before = find(built, figures)
    for one in figures.headroom:
        event(one.limit)
        was = keys(before, one.circuit)
        places = joints(built, figures, one)
        for at in places[:3] if one.left_w > 0 else []:
            more = added(built, at, one.left_w)
            now = keys(find(more, compute(more)), one.circuit)
            assert grave(now) <= grave(was), (one, at)
            assert {k for k in now if k[0] == "load above fuse"} <= was, (one, at)
        watts = {"fuse": one.fuse_w, "wire": one.wire_w, "drop": one.drop_w, "switch": one.switch_w}
        for kind, left_w in watts.items():
            if left_w is None:
                continue
            if left_w > 0:
                assert not breaks(added(built, places[0], left_w), one, kind, was), (one, kind)
            much_w = (left_w * 1.12 + 0.5) * 1.02  # two figures cut off a tenth at most
            assert told_before(was, kind) or any(
                breaks(added(built, at, much_w), one, kind, was) for at in places
            ), (one, kind)


def test_the_far_end_of_a_strip_bounds_what_may_still_be_lost_on_its_wires() -> None:
    """18 W are 1.5 A; along 5 m at 2 % of 12 V for 1 A and 1 m the far end loses 1.5 / 2 × 5 × 0.24 V = 0.9 V.

    A lamp may lose 10 % of 12 V (ABYC E-11 11.14.2.6): 0.3 V are left for the wires, less what they lose already.
    """
    text = HAND.format(length="3 ft", fuse="15 A", switch="")
    plain, strip = (
        read(text.replace("far lamp: {kind: lamp, draws: 6 W}", f"far lamp: {{kind: lamp, {draws}}}"))[1]
        for draws in ("draws: 18 W", "draws: 3.6 W per m, lit length: 5 m")
    )
    far = next(load for load in strip.circuits[1].loads if load.load.part == "far lamp")
    ohm = sum(step.resistance_ohm for step in far.steps)
    (one,) = strip.headroom
    left_w = (1.2 - 0.9 - far.drop_v) / ohm * 12
    assert one.part == "far lamp"
    assert left_w * 0.9 <= one.drop_w <= left_w
    assert plain.headroom[0].drop_w > left_w * 1.2


def test_every_kind_of_limit_is_met_by_builds_of_our_own() -> None:
    met = {
        by_hand().limit,
        by_hand(length="40 ft").limit,
        by_hand(switch=", rating: 2 A").limit,
        by_hand(length="2 in", fuse="30 A").limit,
    }
    assert met == {"fuse", "drop", "switch", "wire"}


def test_a_connector_leaves_what_its_own_way_bears() -> None:
    """3 A a way: 3.0 − 0.5 A of a 6 W lamp leave 2.5 A, 30 W; the other way's 2.9 A have no say."""
    text = """\
format: 1
build: {name: By Hand, country: US}
battery: {chemistry: agm, capacity: 100 Ah, to main fuse: 1 ft, to front box: 1 ft, fuse: 40 A, size: 8 AWG}
front box: {fuse ways: 4, fuses: blade regular}
wire: {on the shelf: [10 AWG, 8 AWG], sold as: pair, insulation: 60 C}
parts:
  plug: {kind: connector, ways: 4, rating: 3 A}
  small: {kind: lamp, draws: 6 W}
  large: {kind: lamp, draws: 2.9 A}
circuits:
  one: {path: [plug: 1 ft, small: 1 ft], fuse: 10 A}
  two: {path: [plug: 1 ft, large: 1 ft], fuse: 10 A}
"""
    trailer = read_build(text.encode()).trailer
    assert trailer is not None
    one, two = compute(trailer).headroom
    assert (one.limit, one.switch, one.switch_w) == ("switch", "plug", pytest.approx(30.0))
    assert two.switch_w == pytest.approx(1.2)


def test_every_rated_part_of_a_circuit_has_its_say() -> None:
    """6 W at 12 V is 0.5 A: a connector of 2 A leaves 1.5 A, 18 W, a switch behind it of 1.5 A leaves 1 A, 12 W."""
    text = """\
format: 1
build: {name: By Hand, country: US}
battery: {chemistry: agm, capacity: 100 Ah, to main fuse: 1 ft, to front box: 1 ft, fuse: 40 A, size: 8 AWG}
front box: {fuse ways: 4, fuses: blade regular}
wire: {on the shelf: [10 AWG, 8 AWG], sold as: pair, insulation: 60 C}
parts:
  lamp: {kind: lamp, draws: 6 W}
  other lamp: {kind: lamp, draws: 6 W}
  plug: {kind: connector, ways: 2, rating: 2 A}
  last switch: {kind: switch, rating: 1.5 A}
  other switch: {kind: switch, rating: 1.25 A}
circuits:
  one: {path: [plug: 1 ft, last switch: 1 ft, lamp: 1 ft], fuse: 10 A}
  two: {path: [other switch: 1 ft, other lamp: 1 ft], fuse: 10 A}
"""
    one, two = read(text)[1].headroom
    assert (one.limit, one.switch, one.switch_w) == ("switch", "last switch", pytest.approx(12.0))
    assert (two.limit, two.switch, two.switch_w) == ("switch", "other switch", pytest.approx(9.0))
    one, _ = read(text.replace("rating: 1.5 A", "rating: 9 A"))[1].headroom
    assert (one.switch, one.switch_w) == ("plug", pytest.approx(18.0))


def test_a_switch_of_a_motor_and_an_isolating_switch_have_their_say() -> None:
    """AC 43.13-1B Table 11-4: a switch needs twice a motor's current: 2.5 A − 2 × 1 A leave 0.5 A, 6 W.

    The isolating switch carries 1 A of the fan and 0.5 A of the lamp: of its 2.2 A it leaves 0.7 A, 8.4 W.
    """
    text = """\
format: 1
build: {name: By Hand, country: US}
battery:
  {chemistry: agm, capacity: 100 Ah, path: [main fuse: 1 ft, isolating switch: 1 ft, front box: 1 ft], size: 8 AWG}
front box: {fuse ways: 4, fuses: blade regular}
wire: {on the shelf: [10 AWG, 8 AWG], sold as: pair, insulation: 60 C}
parts:
  fan switch: {kind: switch, rating: 2.5 A}
  isolating switch: {kind: isolating switch, rating: 2.2 A}
  fan: {kind: fan, draws: 1 A}
  lamp: {kind: lamp, draws: 6 W}
  plug: {kind: connector, ways: 2, rating: 9 A}
circuits:
  air: {path: [fan switch: 1 ft, fan: 1 ft], fuse: 10 A}
  light: {path: [plug: 1 ft, lamp: 1 ft], fuse: 10 A}
"""
    air, light = read(text)[1].headroom
    assert (air.switch, air.switch_w) == ("fan switch", pytest.approx(6.0))
    assert (light.switch, light.switch_w) == ("isolating switch", pytest.approx(8.4))


SHARED_BACK = """\
format: 1
build: {{name: By Hand, country: US}}
battery: {{chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft}}
front box: {{fuse ways: 4, ground bar: 30}}
parts:
  hinge: {{kind: connector, ways: 8, rating: 5 A}}
  lamp: {{kind: lamp, draws: {lamp} W}}
  other lamp: {{kind: lamp, draws: {other} W}}
  switch: {{kind: switch}}
  splice: {{kind: splice}}
circuits:
  light:
    path: [hinge: 6 ft, splice: 1 ft, lamp: 1 ft]
    branches:
      - {{from: fuse, path: [switch: 1 ft, hinge: 6 ft, other lamp: 2 ft], return: {{to: splice, length: 1 ft}}}}
    fuse: 15 A
    size: 10 AWG
"""


@pytest.mark.parametrize("lamp", ["lamp", "other"])
def test_a_way_that_several_parts_share_back_bounds_each_of_them(lamp: str) -> None:
    """24 W are 2 A: each lamp has a way out of its own, and the way back from the splice carries 4 A of its 5 A.

    1 A is left, 12 W; with that much more at either lamp the way carries 5 A, and with 1 W more it is overloaded.
    """
    watts = {"lamp": 24, "other": 24}
    (one,) = read(SHARED_BACK.format(**watts))[1].headroom
    assert (one.limit, one.switch, one.switch_w, one.left_w) == ("switch", "hinge", 12.0, 12.0)
    for more_w, told in ((12, False), (13, True)):
        trailer, figures = read(SHARED_BACK.format(**{**watts, lamp: 24 + more_w}))
        rules = {finding.rule for finding in find(trailer, figures)}
        assert ("connector overloaded" in rules) is told, more_w
