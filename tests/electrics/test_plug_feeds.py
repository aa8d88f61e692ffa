"""The largest fuse that the car may have before each contact of the plug: by its wires, and by a usual core."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.electrics.plug_feeds import PlugFeed

EXAMPLES = Path(__file__).parents[2] / "example_build"
BUILD = """
format: 1
build: {name: Stone Row, country: US}
front box: {fuse ways: 2}
tow plug: {pattern: 7-way blade, to front box: 7 ft}
wire: {on the shelf: [16 AWG, 12 AWG, 10 AWG]}
parts:
  heater: {kind: heater, draws: 12 A}
  line fuse: {kind: fuse, rating: 15 A}
circuits:
  heater: {from: tow plug battery, size: 12 AWG, path: [line fuse: 5 in, heater: 2 ft]}
road lamps:
  lamps: led
  rear lamp: {shows: [tail, stop, turn], side: both, wire: 12 ft}
"""


def feeds(text: str) -> dict[str, PlugFeed]:
    trailer = read_build(text.encode()).trailer
    assert trailer is not None
    return {one.pin: one for one in compute(trailer).plug_feeds}


def test_lamp_wires_of_16_awg_bear_10_a_before_which_cars_have_up_to_20() -> None:
    """FAA AC 43.13-1B Table 11-3: 16 AWG, a fuse of 10 A. The car's usual fuse is common practice."""
    found = feeds(BUILD)
    assert {pin: one.largest_fuse_a for pin, one in found.items() if pin != "4"} == {
        "3": 10.0,
        "5": 10.0,
        "6": 10.0,
    }
    assert found["3"].usual_fuse_a == (10.0, 20.0)
    assert all(one.may_be_too_large and one.core is None for pin, one in found.items() if pin != "4")


def test_a_line_of_the_trailer_counts_as_far_as_its_own_fuse_and_its_usual_core_beside_it() -> None:
    """FAA AC 43.13-1B Table 11-3: 12 AWG, a fuse of 20 A; 10 AWG, 30 A."""
    line = feeds(BUILD)["4"]
    assert (line.wire, str(line.size), line.wires_fuse_a) == ("1A", "12 AWG", 20.0)
    assert (str(line.core), line.core_fuse_a) == ("10 AWG", 30.0)
    assert line.largest_fuse_a == 20.0
    # behind its own fuse a line may be thinner
    thin = BUILD.replace("heater: 2 ft]", "heater: {length: 2 ft, size: 16 AWG}]").replace("15 A", "10 A")
    assert feeds(thin)["4"].largest_fuse_a == 20.0
    # without one the whole way counts, that back as well
    bare = BUILD.replace("line fuse: 5 in, ", "").replace("  line fuse: {kind: fuse, rating: 15 A}\n", "")
    assert feeds(bare)["4"].largest_fuse_a == 20.0


def test_a_usual_core_of_the_charge_line_bears_less_than_cars_have() -> None:
    """FAA AC 43.13-1B Table 11-3 by 14 AWG, the largest size not above 2.5 mm²: a fuse of 15 A."""
    line = feeds((EXAMPLES / "thirteen_pins" / "trailer.yaml").read_text(encoding="utf-8"))["9"]
    assert (str(line.size), str(line.core)) == ("6 mm²", "2.5 mm²")
    assert (line.wires_fuse_a, line.core_fuse_a, line.largest_fuse_a) == (30.0, 15.0, 15.0)
    assert line.usual_fuse_a == (15.0, 20.0)
    assert line.may_be_too_large
    # 10 A at 14.4 V through a charger of 90 %: 13.3 A at 12 V; a fuse carries 80 % of its rating for hours
    assert line.needed_a == pytest.approx(10 * 14.4 / 0.9 / 12 / 0.8)
    assert line.starves


def test_nothing_is_too_large_where_no_usual_fuse_is_known() -> None:
    found = feeds((EXAMPLES / "road_lamps" / "trailer.yaml").read_text(encoding="utf-8"))
    assert set(found) == {"2", "3", "4"}
    assert not any(one.may_be_too_large or one.usual_fuse_a for one in found.values())


def test_another_table_gives_another_fuse() -> None:
    """33 CFR 183.425 Table 5: 16 AWG at 60 °C, 10 A; half as much again by 183.455(c)(1)."""
    boat = BUILD.replace("fuse ways: 2", "fuse ways: 2, check against: boat rule")
    assert feeds(boat)["5"].largest_fuse_a > feeds(BUILD)["5"].largest_fuse_a


@pytest.mark.parametrize(
    ("needed_a", "wires_a", "fits"),
    [(22.0, 28.0, 25.0), (22.0, 24.0, None), (5.0, 40.0, 20.0), (32.0, 40.0, None)],
)
def test_a_fuse_between_the_usual_ones_fits_too(needed_a: float, wires_a: float, fits: float | None) -> None:
    """Usual are 20 to 30 A; blade fuses are sold of 20, 25 and 30 A between."""
    line = replace(feeds(BUILD)["4"], usual_fuse_a=(20.0, 30.0), needed_a=needed_a, wires_fuse_a=wires_a)
    assert line.fitting_fuse_a == fits
