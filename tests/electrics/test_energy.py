"""The battery's side by hand: what flows with everything off, a day's use, nights, weeks until half empty."""

from __future__ import annotations

import pytest

from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.electrics.figures import EnergyFigures

HEAD = """\
format: 1
build: {name: Test Row, country: US}
battery: {chemistry: agm, capacity: 100 Ah, path: [main fuse: 5 in, isolating switch: 1 ft, front box: 2 ft]}
front box: {fuse ways: 6}
wire: {on the shelf: [16 AWG, 14 AWG, 12 AWG, 10 AWG, 8 AWG, 6 AWG]}
"""
HOURS_A_MONTH = 365.25 / 12 * 24


def energy_of(rest: str) -> EnergyFigures:
    reading = read_build((HEAD + rest).encode())
    assert reading.trailer is not None, [(p.origin.line, p.message) for p in reading.problems]
    found = compute(reading.trailer).energy
    assert found is not None
    return found


def test_a_lamp_alone_takes_its_hours_a_day_and_nothing_when_off() -> None:
    found = energy_of("parts: {lamp: {kind: lamp, draws: 6 W}}\ncircuits:\n  lamp: {path: [lamp: 5 ft]}\n")
    # 6 W at 12 V is 0.5 A; a lamp is taken as lit 1, 3 or 5 h a day; half of 100 Ah is used
    assert found.day_ah == pytest.approx((0.5, 1.5, 2.5))
    assert found.nights == pytest.approx((50 / 2.5, 50 / 0.5))
    assert found.idle_a == 0


def test_the_loss_in_a_month_alone_empties_an_unused_battery() -> None:
    found = energy_of("assume: {self-discharge of a lead battery: 5 %}\n")
    weeks = 50 / (5 / HOURS_A_MONTH) / 168
    assert found.weeks_to_half == pytest.approx((weeks, weeks))
    assert found.day_ah == (0, 0, 0)


def test_weeks_span_what_is_assumed_of_idle_draw_and_loss_in_a_month() -> None:
    rest = (
        "parts: {alarm: {kind: alarm, draws: 80 mA}, sun: {kind: solar module, gives: 50 W},"
        " controller: {kind: charge controller}}\n"
        "circuits:\n  alarm: {from: main fuse, path: [alarm fuse: 4 in, alarm: 6 ft]}\n"
        "  sun: {from: sun, path: [controller: 6 ft, sun fuse: 1 ft, battery: 6 in]}\n"
    )
    found = energy_of(rest)
    # a controller is taken to draw 10 mA, a quarter of that or four times as much; a lead battery loses 1.5 to 6 %
    assert found.idle_range_a == pytest.approx((0.0825, 0.12))
    lost = tuple(100 * percent / 100 / HOURS_A_MONTH for percent in (1.5, 6))
    assert found.weeks_to_half == pytest.approx(
        (50 / ((0.12 + lost[1]) * 168), 50 / ((0.0825 + lost[0]) * 168))
    )
    given = energy_of(rest + "assume: {idle draw of controller: 20 mA}\n")
    assert given.idle_range_a == pytest.approx((0.1, 0.1))


@pytest.mark.parametrize(
    ("end", "off"), [("battery", 0.01), ("front box", 0.0)], ids=["at the battery", "in the front box"]
)
def test_a_charger_takes_its_idle_draw_from_where_it_charges(end: str, off: float) -> None:
    found = energy_of(
        "parts: {sun: {kind: solar module, gives: 50 W},"
        " controller: {kind: charge controller, draws when idle: 10 mA}}\n"
        f"circuits:\n  sun: {{from: sun, path: [controller: 6 ft, sun fuse: 1 ft, {end}: 6 in]}}\n"
    )
    assert found.idle_a == pytest.approx(0.01)
    assert found.off_a == pytest.approx(off)
    assert found.day_ah == pytest.approx((0.24, 0.24, 0.24))


@pytest.mark.parametrize(
    ("start", "off"), [("main fuse", 0.08), ("isolating switch", 0.0)], ids=["before", "behind"]
)
def test_an_alarm_counts_with_the_switch_off_only_where_it_starts_before_it(start: str, off: float) -> None:
    found = energy_of(
        "parts: {main fuse: {kind: fuse}, isolating switch: {kind: isolating switch},"
        " alarm: {kind: alarm, draws: 80 mA}}\n"
        f"circuits:\n  alarm: {{from: {start}, fuse: 2 A, path: [alarm: 5 ft]}}\n"
    )
    assert found.idle_a == pytest.approx(0.08)
    assert found.off_a == pytest.approx(off)


def test_a_converter_takes_its_load_with_its_loss_and_its_idle_draw_all_day() -> None:
    found = energy_of(
        "parts: {converter: {kind: converter, gives at: 5 V, efficiency: 80 %, draws when idle: 20 mA},"
        " socket: {kind: socket, draws: 10 W, at: 5 V}}\n"
        "circuits:\n  phone: {path: [converter: 5 ft, socket: 6 in]}\n"
    )
    # 10 W at 80 % are 12.5 W, at 12 V 1.0417 A, for 0.5, 2 or 4 h; and 20 mA for 24 h
    assert found.day_ah == pytest.approx(tuple(12.5 / 12 * hours + 0.02 * 24 for hours in (0.5, 2, 4)))
    assert found.idle_a == pytest.approx(0.02)


def test_what_the_car_feeds_takes_nothing_from_the_battery() -> None:
    found = energy_of(
        "tow plug: {pattern: 4-way flat, to front box: 7 ft}\n"
        "road lamps: {rear lamp: {shows: [tail, stop, turn], side: both, wire: 12 ft}}\n"
    )
    assert found.day_ah == (0, 0, 0)
    assert found.days == ()


RELAY = """\
parts:
  relay: {kind: relay}
  switch: {kind: switch}
  pump: {kind: pump, draws: 4 A}
circuits:
  water:
    path: [relay: 1 ft, pump: 6 ft]
    branches: [{from: fuse, path: [switch: 6 ft, relay: {length: 6 ft, as: coil}]}]
"""


def test_a_coil_is_on_as_long_as_what_it_switches() -> None:
    hours = {day.part: day.hours for day in energy_of(RELAY).days}
    assert hours["relay"] == hours["pump"]
    hours = {day.part: day.hours for day in energy_of(RELAY + "assume: {hours of relay: 2 h}\n").days}
    assert hours["relay"] == (2, 2, 2)


def test_a_coils_return_goes_from_where_its_relay_stands() -> None:
    reading = read_build((HEAD + RELAY).encode())
    assert reading.trailer is not None
    (coil,) = (w.length_m for w in reading.trailer.wires if w.start.pin == "coil −")
    (pump,) = (w.length_m for w in reading.trailer.wires if w.start.part == "pump")
    assert coil == pytest.approx(
        1 * 0.3048
    )  # the contact is 1 ft from the box; by the switch it would be 12 ft
    assert pump == pytest.approx(7 * 0.3048)


WAITING = """\
parts:
  near lamp: {kind: lamp, draws: 6 W}
  far lamp: {kind: lamp, draws: 12 W}
  gas alarm: {kind: alarm, draws: 80 mA}
  porch switch: {kind: switch}
  porch lamp: {kind: lamp, draws: 12 W}
circuits:
  lamps: {path: [near lamp: 5 ft, far lamp: 5 ft]}
  watch: {path: [gas alarm: 5 ft]}
  porch: {path: [porch switch: 3 ft, porch lamp: 3 ft]}
"""


def test_what_waits_takes_nothing_and_neither_does_what_hangs_on_it() -> None:
    """6 W are 0.5 A for 1, 3 or 5 h; with all there 0.5, 1 and 1 A, and 80 mA of the alarm for 24 h."""
    whole = energy_of(WAITING)
    assert whole.day_ah == pytest.approx((2.5 + 1.92, 7.5 + 1.92, 12.5 + 1.92))
    assert whole.waiting == ()
    found = energy_of(WAITING + "waiting: {far lamp: ordered, gas alarm: ordered, porch switch: ordered}\n")
    assert found.day_ah == pytest.approx((0.5, 1.5, 2.5))
    assert found.nights == pytest.approx((50 / 2.5, 50 / 0.5))
    assert found.idle_a == 0
    assert found.drains == ()
    assert found.waiting == ("far lamp", "gas alarm", "porch switch")


def test_the_wires_of_what_waits_are_sized_for_it() -> None:
    wired = WAITING.replace("draws: 12 W}\n  gas", "draws: 8 A}\n  gas")
    sizes = []
    for more in ("", "waiting: {far lamp: ordered}\n"):
        trailer = read_build((HEAD + wired + more).encode()).trailer
        assert trailer is not None
        figures = compute(trailer)
        sizes.append({number: str(wire.size) for number, wire in figures.wires.items()})
        assert figures.wires["1A"].current_a == pytest.approx(8.5)
    assert sizes[0] == sizes[1]


def test_a_day_of_each_part_and_its_share() -> None:
    found = energy_of(
        "parts: {lamp: {kind: lamp, draws: 6 W}, alarm: {kind: alarm, draws: 80 mA}}\n"
        "circuits:\n  lamp: {path: [lamp: 5 ft]}\n  alarm: {path: [alarm: 5 ft]}\n"
    )
    lamp, alarm = found.days
    assert (lamp.part, lamp.current_a, lamp.hours) == ("lamp", 0.5, (1, 3, 5))
    assert lamp.use_ah == pytest.approx((0.5, 1.5, 2.5))
    assert (alarm.part, alarm.current_a, alarm.hours) == ("alarm", 0.08, (24, 24, 24))
    assert alarm.use_ah == pytest.approx((1.92, 1.92, 1.92))


def test_what_a_part_takes_in_two_ways_counts_together() -> None:
    found = energy_of(
        "parts: {alarm: {kind: alarm, draws: 80 mA, draws when idle: 10 mA}}\n"
        "circuits: {alarm: {path: [alarm: 5 ft]}}\n"
    )
    assert [(one.part, round(one.current_a, 9)) for one in found.drains] == [("alarm", 0.09)]
