"""What small words of a build file come to in the trailer that is read from it."""

from __future__ import annotations

import pytest

from builder.buildfile.resolving import read_build
from builder.trailer.color import Color
from builder.trailer.model import Trailer
from builder.trailer.size import Size
from builder.trailer.stock import FusesInStock, Stock, TerminalsInStock, WireInStock
from builder.trailer.wires import Role

HEAD = """\
format: 1
build: {name: Bean Row, country: %s}
battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}
front box: {fuse ways: 6}
"""


def trailer(text: str, country: str = "US") -> Trailer:
    reading = read_build((HEAD % country + text).encode())
    assert reading.problems == ()
    assert reading.trailer is not None
    return reading.trailer


@pytest.mark.parametrize(
    ("written", "metres"),
    [(".5 m", 0.5), ("½ ft", 0.1524), ("1/2 ft", 0.1524), ("9 ft", 2.7432), ("50 cm", 0.5)],
)
def test_a_return_that_is_a_length_is_one(written: str, metres: float) -> None:
    read = trailer(
        f"parts: {{fan: {{kind: fan, draws: 3 A}}}}\ncircuits: {{fan: {{path: [fan: 12 ft], return: {written}}}}}\n"
    )
    returns = [wire for wire in read.wires if wire.role is Role.RETURN and wire.circuit == 1]
    assert [wire.length_m for wire in returns] == [pytest.approx(metres)]


def test_a_return_may_go_to_a_splice_whose_name_begins_with_a_number() -> None:
    read = trailer(
        "parts: {3rd splice: {kind: splice}, fan: {kind: fan, draws: 3 A}, lamp: {kind: lamp, draws: 3 W}}\n"
        "circuits:\n"
        "  lamp: {path: [3rd splice: 5 ft, lamp: 2 ft]}\n"
        "  fan: {path: [fan: 4 ft], return: 3rd splice}\n"
    )
    assert [w.end.part for w in read.wires if w.role is Role.RETURN and w.circuit == 2] == ["3rd splice"]


@pytest.mark.parametrize(
    ("socket", "gives_at", "limit"),
    [
        ("kind: socket, draws: 10 W", "5 V", None),  # the limit of the kind is one for 12 V
        ("kind: socket, draws: 10 W, at: 5 V", "5 V", None),
        ("kind: socket, draws: 10 W, works from: 4.7 V", "5 V", 4.7),
        ("kind: socket, draws: 10 W", "12 V", 9.0),  # the table of kinds
    ],
)
def test_a_part_behind_a_converter_is_not_judged_by_the_limit_of_its_kind(
    socket: str, gives_at: str, limit: float | None
) -> None:
    read = trailer(
        f"parts: {{converter: {{kind: converter, gives at: {gives_at}}}, socket: {{{socket}}}}}\n"
        "circuits: {phone: {path: [converter: 5 ft, socket: 1 ft]}}\n"
    )
    assert read.parts["socket"].works_from_v == limit
    assumed = [one.id for one in read.assumed if one.id == "lowest voltage of a socket"]
    assert bool(assumed) == (limit == 9.0)


@pytest.mark.parametrize(("country", "first"), [("US", "16"), ("DE", "1.5")])
def test_wire_may_leave_out_its_sizes(country: str, first: str) -> None:
    shelf = trailer("wire: {sold as: single, feed: blue}\n", country).shelf
    assert shelf.sizes[0].value == first
    assert (shelf.sold_as, str(shelf.feed.base)) == ("single", "blue")


def test_the_ways_that_are_asked_for_are_kept_for_those_who_ask() -> None:
    read = trailer(
        "parts:\n"
        "  hatch plug: {kind: connector, ways: 8}\n"
        "  fan: {kind: fan, draws: 3 A}\n"
        "  lamp: {kind: lamp, draws: 3 W}\n"
        "circuits:\n"
        "  fan: {path: [hatch plug: 9 ft, fan: 3 ft]}\n"
        "  lamp: {path: [hatch plug: {length: 9 ft, terminal: 1}, lamp: 3 ft]}\n"
    )
    ways = {
        wire.circuit: wire.end.pin
        for wire in read.wires
        if wire.end.part == "hatch plug" and wire.role is Role.FEED
    }
    assert ways == {1: "way 2 in", 2: "way 1 in"}


def test_an_assumption_within_reach_is_taken() -> None:
    read = trailer("assume: {frame bond length: 90 cm}\n")
    assert read.assume["frame bond length"][0] == pytest.approx(0.9)


def test_what_is_in_stock_is_read_by_colour_size_rating_and_kind() -> None:
    read = trailer(
        "parts: {fan: {kind: fan, draws: 3 A}}\n"
        "circuits: {fan: {path: [fan: 9 ft]}}\n"
        "in stock:\n"
        "  wire: {red 16 AWG: 20 ft, Yellow with Black 2.5 mm²: 3 m, pair 14 gauge: 150 m}\n"
        "  fuses: {7.5 A: 3, 40 A maxi: 1}\n"
        "  terminals: {Ring 16 AWG: 12, push-on 1/0 AWG: 3}\n"
        "  labels: 40\n"
        "  parts: [FAN, battery]\n"
    )
    awg_16, awg_14 = Size("AWG", "16"), Size("AWG", "14")
    assert read.stock == Stock(
        wire=(
            WireInStock(Color("red"), awg_16, pytest.approx(6.096)),
            WireInStock(Color("yellow", "black"), Size("mm2", "2.5"), 3.0),
            WireInStock(None, awg_14, 150.0),
        ),
        fuses=(FusesInStock(7.5, "", 3), FusesInStock(40.0, "blade maxi", 1)),
        terminals=(
            TerminalsInStock("ring", awg_16, 12),
            TerminalsInStock("push-on", Size("AWG", "1/0"), 3),
        ),
        labels=40,
        parts=("fan", "battery"),
    )


def test_without_a_heading_nothing_is_in_stock() -> None:
    assert trailer("").stock == Stock()


@pytest.mark.parametrize("parts", ["[fan]", "fan"])
def test_one_part_in_stock_needs_no_list(parts: str) -> None:
    read = trailer(
        "parts: {fan: {kind: fan, draws: 3 A}}\n"
        f"circuits: {{fan: {{path: [fan: 9 ft]}}}}\nin stock: {{parts: {parts}}}\n"
    )
    assert read.stock.parts == ("fan",)


@pytest.mark.parametrize(
    ("said", "units", "paper", "thinnest"),
    [
        ("country: US", "feet", "letter", "16 AWG"),
        ("country: CA", "metric", "letter", "16 AWG"),
        ("country: DE", "metric", "A4", "1.5 mm²"),
        ("country: GB, units: feet", "feet", "A4", "1.5 mm²"),
        ("country: US, units: metric, paper: A5", "metric", "A5", "16 AWG"),
        ("stage: walls open", "feet", "letter", "16 AWG"),
    ],
)
def test_the_country_decides_units_paper_and_wire_where_the_file_is_silent(
    said: str, units: str, paper: str, thinnest: str
) -> None:
    build = (
        HEAD.replace("country: %s", said)
        + "parts: {fan: {kind: fan}}\ncircuits: {fan: {path: [fan: 9 ft]}}\n"
    )
    read = read_build(build.encode()).trailer
    assert read is not None
    assert (read.identity.units, read.identity.paper, str(read.shelf.sizes[0])) == (units, paper, thinnest)
    assert (str(read.shelf.feed), str(read.shelf.ground), read.shelf.sold_as) == ("red", "black", "pair")


def test_more_wires_than_letters_go_on_with_two() -> None:
    lamps = [f"lamp {n}" for n in range(1, 14)]
    parts = ", ".join(f"{lamp}: {{kind: lamp}}" for lamp in lamps)
    path = ", ".join(f"{lamp}: 1 ft" for lamp in lamps)
    read = trailer(f"parts: {{{parts}}}\ncircuits: {{row: {{path: [{path}]}}}}\n")
    numbers = [wire.number for wire in read.wires if wire.circuit == 1]
    assert "".join(numbers[:24]) == "".join(f"1{letter}" for letter in "ABCDEFGHJKLMNPQRSTUVWXYZ")
    assert numbers[24:] == ["1AA", "1AB"]
