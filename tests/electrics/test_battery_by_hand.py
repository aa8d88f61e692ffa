"""Nights, hours of charging, and what drains a battery: worked by hand for batteries of each kind."""

from __future__ import annotations

import pytest
from generated_builds import GeneratedBuild, builds
from hypothesis import HealthCheck, given, settings

from builder.buildfile.resolving import read_build
from builder.electrics.charging import charge_hours, charger_size_a, solar_yield_wh
from builder.electrics.computing import compute
from builder.electrics.energy import kind_figures
from builder.electrics.figures import EnergyFigures, Figures
from builder.tables import NoRow, batteries


def figures_of(data: bytes) -> Figures:
    reading = read_build(data)
    assert reading.trailer is not None, [(p.origin.line, p.message) for p in reading.problems]
    return compute(reading.trailer)


def energy_of(battery: str, rest: str) -> EnergyFigures:
    text = f"""\
format: 1
build: {{name: Test Row, country: US}}
battery: {{{battery}}}
front box: {{fuse ways: 6}}
wire: {{on the shelf: [16 AWG, 14 AWG, 12 AWG, 10 AWG, 8 AWG, 6 AWG]}}
{rest}"""
    found = figures_of(text.encode()).energy
    assert found is not None
    return found


SHORT = "to main fuse: 5 in, to front box: 4 ft"
SWITCHED = "path: [main fuse: 5 in, isolating switch: 1 ft, front box: 2 ft]"


# ------------------------------------------------------------------ nights of three batteries


def test_nights_of_a_small_agm_battery_with_two_lamps_and_a_fan() -> None:
    found = energy_of(
        f"chemistry: agm, capacity: 35 Ah, {SHORT}",
        "parts: {left lamp: {kind: lamp, draws: 3 W}, right lamp: {kind: lamp, draws: 6 W},"
        " fan: {kind: fan, draws: 3 A, own switch: yes}}\n"
        "circuits:\n  lamps: {path: [left lamp: 6 ft, right lamp: 3 ft]}\n  fan: {path: [fan: 12 ft]}\n",
    )
    # half of 35 Ah is used: 17.5 Ah. Lamps 9 W / 12 V = 0.75 A for 1 to 5 h; the fan 3 A for 1 to 10 h.
    # little: 0.75 · 1 + 3 · 1 = 3.75 Ah a day; much: 0.75 · 5 + 3 · 10 = 33.75 Ah a day
    assert found.usable_ah == pytest.approx(17.5)
    assert found.day_ah[0] == pytest.approx(3.75)
    assert found.day_ah[2] == pytest.approx(33.75)
    # 17.5 / 33.75 = 0.5185 nights at least, 17.5 / 3.75 = 4.6667 at most
    assert found.nights == pytest.approx((0.518519, 4.666667), rel=1e-5)


def test_nights_of_a_lithium_battery_with_an_alarm_and_a_pump() -> None:
    found = energy_of(
        f"chemistry: lithium, capacity: 100 Ah, {SHORT}",
        "parts: {co alarm: {kind: alarm, draws: 50 mA}, pump: {kind: pump, draws: 6 A, own switch: yes}}\n"
        "circuits:\n  alarm: {path: [co alarm: 6 ft]}\n  water: {path: [pump: 9 ft]}\n",
    )
    # four fifths of 100 Ah: 80 Ah. The alarm 0.05 A · 24 h = 1.2 Ah; the pump 6 A for 0.1 to 0.5 h: 0.6 to 3 Ah
    assert found.usable_ah == pytest.approx(80.0)
    assert found.day_ah == pytest.approx((1.8, 2.4, 4.2))
    assert found.nights == pytest.approx((80 / 4.2, 80 / 1.8))  # 19.05 to 44.44


def test_nights_of_a_wet_battery_with_a_fridge_behind_a_converter() -> None:
    found = energy_of(
        f"chemistry: flooded, capacity: 80 Ah, {SHORT}",
        "parts: {up: {kind: converter, gives at: 24 V, efficiency: 90 %, draws when idle: 0.1 A},"
        " cold box: {kind: fridge, draws: 43.2 W, at: 24 V}}\n"
        "circuits:\n  cold: {path: [up: 3 ft, cold box: 6 ft]}\n"
        "assume: {usable share of a lead battery: 40 %}\n",
    )
    # 40 % of 80 Ah: 32 Ah. 43.2 W / 0.9 / 12 V = 4 A for 6 to 14 h, and 0.1 A · 24 h = 2.4 Ah idle:
    # little 24 + 2.4 = 26.4 Ah, much 56 + 2.4 = 58.4 Ah
    assert found.usable_ah == pytest.approx(32.0)
    assert (found.day_ah[0], found.day_ah[2]) == pytest.approx((26.4, 58.4))
    assert found.nights == pytest.approx((32 / 58.4, 32 / 26.4))  # 0.548 to 1.212


# ------------------------------------------------------------------ hours of charging

CAR = "tow plug: {pattern: 7-way blade, to front box: 7 ft}\n"


def test_a_dc_charger_puts_half_back_in_its_hours() -> None:
    found = energy_of(
        f"chemistry: agm, capacity: 100 Ah, {SHORT}",
        CAR + "parts: {dc: {kind: dc charger, gives: 10 A}}\n"
        "circuits:\n  car: {from: tow plug battery, path: [dc: 6 ft, last fuse: 2 ft, battery: 4 in]}\n",
    )
    (one,) = found.charging
    # 50 Ah · 1.2 / 10 A = 6 h; 50 Ah · 1.6 / 10 A = 8 h, the handbook's own example
    assert (one.source, one.charger, one.into_box) == ("tow plug", "dc", False)
    assert one.current_a == pytest.approx((10.0, 10.0))
    assert one.hours == pytest.approx((6.0, 8.0))
    assert (one.day_ah, one.days) == (None, None)


def test_the_car_alone_gives_what_most_cars_give() -> None:
    found = energy_of(
        f"chemistry: agm, capacity: 60 Ah, {SHORT}",
        CAR + "circuits:\n  car: {from: tow plug battery, path: [last fuse: 6 ft, battery: 4 in]}\n",
    )
    (one,) = found.charging
    # 5 to 20 A: 30 Ah · 1.2 / 20 A = 1.8 h to 30 Ah · 1.6 / 5 A = 9.6 h
    assert one.charger == ""
    assert one.current_a == (5.0, 20.0)
    assert one.hours == pytest.approx((1.8, 9.6))


@pytest.mark.parametrize(("end", "into_box"), [("battery", False), ("front box", True)])
def test_a_converter_whose_label_is_not_known_has_a_range(end: str, into_box: bool) -> None:
    found = energy_of(
        f"chemistry: lithium, capacity: 50 Ah, {SHORT}",
        "parts: {shore: {kind: shore converter}}\n"
        f"circuits:\n  shore: {{from: shore, path: [last fuse: 1 ft, {end}: 6 in]}}\n",
    )
    (one,) = found.charging
    # 10 to 30 A is usual; 40 Ah · 1.02 / 30 A = 1.36 h to 40 Ah · 1.2 / 10 A = 4.8 h
    assert (one.source, one.into_box) == ("shore converter", into_box)
    assert one.current_a == pytest.approx((10.0, 30.0))
    assert one.hours == pytest.approx((1.36, 4.8))


SUN = (
    "parts: {{module: {{kind: solar module{gives}}}, controller: {{kind: charge controller{most}}}}}\n"
    "circuits:\n  sun: {{from: module, path: [controller: 6 ft, sun fuse: 1 ft, battery: 6 in]}}\n"
)


def test_the_sun_gives_its_days_in_the_dark_and_in_the_bright_month() -> None:
    found = energy_of(
        f"chemistry: agm, capacity: 100 Ah, {SHORT}", SUN.format(gives=", gives: 80 W", most="")
    )
    (one,) = found.charging
    # 80 W · 0.9 / 14.4 V = 5 A in full sun; 1.7 h less 40 %: 5.1 Ah a day; 7.1 h less 10 %: 31.95 Ah
    assert one.current_a == pytest.approx((5.0, 5.0))
    assert one.day_ah == pytest.approx((5.1, 31.95))
    # 50 Ah · 1.2 / 31.95 = 1.878 days to 50 Ah · 1.6 / 5.1 = 15.686 days
    assert one.days == pytest.approx((1.877934, 15.686275), rel=1e-5)
    assert one.hours is None


def test_a_controller_gives_no_more_than_its_label_and_no_more_than_the_module() -> None:
    battery = f"chemistry: agm, capacity: 100 Ah, {SHORT}"
    (small,) = energy_of(battery, SUN.format(gives=", gives: 160 W", most=", gives: 4 A")).charging
    (large,) = energy_of(battery, SUN.format(gives=", gives: 80 W", most=", gives: 20 A")).charging
    assert small.current_a == pytest.approx((4.0, 4.0))
    assert large.current_a == pytest.approx((5.0, 5.0))


def test_a_module_without_a_label_is_taken_as_30_to_200_watts() -> None:
    (one,) = energy_of(f"chemistry: agm, capacity: 100 Ah, {SHORT}", SUN.format(gives="", most="")).charging
    # 30 W · 0.9 / 14.4 V = 1.875 A; 200 W: 12.5 A
    assert one.current_a == pytest.approx((1.875, 12.5))


def test_a_figure_of_the_maker_closes_the_range() -> None:
    (one,) = energy_of(
        f"chemistry: agm, capacity: 100 Ah, {SHORT}",
        SUN.format(gives=", gives: 80 W", most="")
        + "assume: {full sun in a day: 4 h, solar losses: 20 %, extra charge of a lead battery: 50 %}\n",
    ).charging
    # 5 A · 4 h · 0.8 = 16 Ah a day; 50 Ah · 1.5 / 16 Ah = 4.6875 days
    assert one.day_ah == pytest.approx((16.0, 16.0))
    assert one.days == pytest.approx((4.6875, 4.6875))


def test_each_way_to_charge_is_told_in_the_order_of_the_circuits_and_nothing_where_there_is_none() -> None:
    battery = f"chemistry: agm, capacity: 100 Ah, {SHORT}"
    found = energy_of(
        battery,
        CAR + "parts: {dc: {kind: dc charger, gives: 10 A}, shore: {kind: shore converter, gives: 15 A}}\n"
        "circuits:\n  car: {from: tow plug battery, path: [dc: 6 ft, last fuse: 2 ft, battery: 4 in]}\n"
        "  shore: {from: shore, path: [box fuse: 1 ft, front box: 6 in]}\n",
    )
    assert [one.source for one in found.charging] == ["tow plug", "shore converter"]
    assert energy_of(battery, "").charging == ()


@pytest.mark.parametrize("waits", ["sun", "keeper", "last fuse"])
def test_what_is_still_to_be_built_in_charges_nothing(waits: str) -> None:
    rest = (
        "parts: {sun: {kind: solar module, gives: 100 W}, keeper: {kind: charge controller},"
        " last fuse: {kind: fuse, rating: 10 A}}\n"
        "circuits:\n  sun: {from: sun, path: [keeper: 6 ft, last fuse: 2 ft, battery: 4 in]}\n"
    )
    battery = f"chemistry: agm, capacity: 100 Ah, {SHORT}"
    assert [one.supply for one in energy_of(battery, rest).charging] == ["sun"]
    assert energy_of(battery, f"{rest}waiting: {{{waits}: ordered}}\n").charging == ()


def test_the_assumptions_of_charging_are_listed_where_something_charges_and_nowhere_else() -> None:
    def ids(rest: str) -> set[str]:
        head = (
            "format: 1\nbuild: {name: Test Row, country: US}\n"
            f"battery: {{chemistry: agm, capacity: 100 Ah, {SHORT}}}\nfront box: {{fuse ways: 2}}\n"
        )
        return {one.id for one in figures_of((head + rest).encode()).assumptions}

    sun = {"full sun in a day", "solar losses"}
    assert ids("") & {*sun, "extra charge of a lead battery"} == set()
    shore = (
        "parts: {shore: {kind: shore converter}}\n"
        "circuits:\n  shore: {from: shore, path: [last fuse: 1 ft, battery: 6 in]}\n"
    )
    assert ids(shore) & {*sun, "extra charge of a lead battery"} == {"extra charge of a lead battery"}
    assert sun <= ids(SUN.format(gives="", most=""))


# ------------------------------------------------------------------ with all off


@pytest.mark.parametrize(
    ("line", "stays"), [(SWITCHED, {"meter"}), (SHORT, {"meter"})], ids=["isolating switch", "main fuse"]
)
def test_what_starts_at_the_post_goes_on_taking_and_what_hangs_on_the_box_stops(
    line: str, stays: set[str]
) -> None:
    found = energy_of(
        f"chemistry: agm, capacity: 100 Ah, {line}",
        "parts: {receiver: {kind: receiver, outputs: 1, draws when idle: 12 mA}, lamp: {kind: lamp},"
        " meter: {kind: meter, draws: 10 mA}}\n"
        "circuits:\n  lamp: {path: [receiver: 2 ft, lamp: 5 ft]}\n"
        "  meter: {from: battery, fuse: 2 A, path: [meter: 8 ft]}\n",
    )
    assert [(one.part, one.current_a) for one in found.drains] == [
        ("receiver", pytest.approx(0.012)),
        ("meter", pytest.approx(0.01)),
    ]
    assert {one.part for one in found.drains if one.stays} == stays


# ------------------------------------------------------------------ what is known of a kind


def test_only_kinds_with_a_table_that_was_read_or_quoted_have_voltages_at_rest() -> None:
    # BCI table for wet lead batteries, quoted; AGM bands of a vehicle's owner manual, read
    flooded, agm = kind_figures("flooded", 100, 1.0), kind_figures("agm", 100, 1.0)
    assert flooded.rest == ((100, 12.65), (75, 12.45), (50, 12.24), (0, 11.89))
    assert agm.rest == ((100, 12.8), (75, 12.6), (50, pytest.approx(12.3)), (25, 12.0))
    assert kind_figures("gel", 100, 1.0).rest == kind_figures("lithium", 100, 1.0).rest == ()
    for chemistry in ("flooded", "agm"):
        assert {row.known for row in batteries.load_table("battery_rest_volts").rows} == {"read", "quoted"}
        with pytest.raises(NoRow):
            batteries.rest_voltage(chemistry, 101)
    with pytest.raises(NoRow):
        batteries.rest_voltage("gel", 50)


def test_a_meter_that_is_one_percent_off_leaves_some_15_percent_open() -> None:
    # mailing list note (quoted): a 1 % meter, 0.12 V, leaves about 15 % of charge uncertain
    # 12.24 V · 1.01 = 12.3624 V; 25 % of charge lie between 12.24 and 12.45 V: 0.1224 / 0.21 · 25 = 14.57
    assert kind_figures("flooded", 100, 1.0).unsure_percent == pytest.approx(14.5714, abs=1e-3)
    assert kind_figures("gel", 100, 1.0).unsure_percent is None


def test_cold_frost_and_chargers_follow_the_chemistry() -> None:
    lithium, gel, flooded = (kind_figures(one, 80, 1.0) for one in ("lithium", "gel", "flooded"))
    assert (lithium.charge_from_c, gel.charge_from_c) == ((0, 5), None)  # three makers' sheets, read
    assert (lithium.charger_a, gel.charger_a) == (None, (8, 24))  # 10 to 30 % of 80 Ah
    assert (lithium.store_months, gel.store_months, flooded.store_months) == (None, 6, 4)
    assert (lithium.cold_percent, gel.cold_percent) == (80, 84)
    assert [percent for percent, _ in flooded.freezes] == [100, 50, 25]
    assert gel.freezes == lithium.freezes == ()


def test_agm_keeps_between_its_rows_at_the_freezing_point() -> None:
    # 74 % at -10 °C and 90 % at 10 °C: 82 % half way
    assert kind_figures("agm", 80, 1.0).cold_percent == pytest.approx(82)


# ------------------------------------------------------------------ for every build


@given(build=builds())
@settings(suppress_health_check=list(HealthCheck))
def test_ranges_run_upwards_and_drains_add_up(build: GeneratedBuild) -> None:
    found = figures_of(build.data).energy
    if found is None:
        return
    assert found.nights[0] <= found.nights[1]
    assert sum(one.current_a for one in found.drains) == pytest.approx(found.idle_a)
    assert sorted({one.part for one in found.drains}) == sorted(set(found.idle_parts))
    if any(stop == "isolating switch" for stop in build.battery_reach_m):
        assert sum(one.current_a for one in found.drains if one.stays) == pytest.approx(found.off_a)
    for way in found.charging:
        assert way.current_a[0] <= way.current_a[1]
        for ends in (way.hours, way.day_ah, way.days):
            assert ends is None or 0 < ends[0] <= ends[1]
        assert (way.hours is None) == (way.source == "solar module")
    starts = {circuit.start for circuit in build.circuits}
    assert any(way.source == "tow plug" for way in found.charging) <= ("tow plug battery" in starts)


@pytest.mark.parametrize("factor", [1.0, 1.2, 1.6])
def test_twice_the_current_takes_half_the_hours(factor: float) -> None:
    assert charge_hours(100, 0.5, 20, factor) == pytest.approx(charge_hours(100, 0.5, 10, factor) / 2)
    assert solar_yield_wh(100, 4, 100) == 0
    assert charger_size_a(200, "max") == 2 * charger_size_a(100, "max")
