"""Few kinds of wire, new fuses, supplies: worked by hand."""

from __future__ import annotations

import pytest

from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.electrics.figures import Figures
from builder.electrics.sizing import fewest_kinds
from builder.trailer.size import Size

THIN, USUAL, THICK = Size("mm2", "1.5"), Size("mm2", "2.5"), Size("mm2", "6")


@pytest.mark.parametrize(
    ("needs", "worth", "taken"),
    [
        # 10 m each of 1.5 and 2.5 mm²: 40 as two kinds, 50 as one; one kind wins from (1 + worth) = 1.25 on
        ([(THIN, 10), (USUAL, 10)], 0.2, (THIN, USUAL)),
        ([(THIN, 10), (USUAL, 10)], 0.25, (USUAL, USUAL)),
        ([(THIN, 10), (USUAL, 10)], 0.3, (USUAL, USUAL)),
        ([(USUAL, 0.5), (THIN, 0.5)], 0.3, (USUAL, USUAL)),
        ([(THIN, 10), (USUAL, 10)], 0.0, (THIN, USUAL)),
        # 1.5 × 1 m, 2.5 × 10 m, 6 × 10 m: three kinds 86.5 × 1.331, two 87.5 × 1.21, one 126 × 1.1
        ([(THIN, 1), (USUAL, 10), (THICK, 10)], 0.1, (USUAL, USUAL, THICK)),
        ([(THICK, 10), (THIN, 1), (USUAL, 10)], 0.01, (THICK, THIN, USUAL)),
        # one kind would weigh 66 × 1.5 against 16.5 × 2.25, and be four times the copper that the thin one needs
        ([(THIN, 1), (THICK, 10)], 5.0, (THIN, THICK)),
        # what has no length takes no part: it neither counts nor gives its size
        ([(THIN, 10), (USUAL, 10), (THIN, 0)], 0.3, (USUAL, USUAL, THIN)),
        ([(USUAL, 10), (THICK, 0)], 2.0, (USUAL, THICK)),
        ([(THIN, 0)], 0.3, (THIN,)),
        ([(THIN, 3)], 0.3, (THIN,)),
        ([], 0.3, ()),
    ],
)
def test_copper_is_weighed_against_kinds_of_wire(
    needs: list[tuple[Size, float]], worth: float, taken: tuple[Size, ...]
) -> None:
    assert fewest_kinds(needs, worth) == taken


BUILD = """\
format: 1
build: {name: By Hand, country: US}
battery: {chemistry: agm, capacity: 100 Ah, to main fuse: 5 in, to front box: 2 ft}
FRONT
wire: {on the shelf: [SHELF]}
tow plug: {pattern: 7-way blade, to front box: 7 ft}
assume: {tow supply voltage: 11 V}
parts:
  converter: {kind: converter, gives: 3 A, gives at: 5 V}
  socket: {kind: socket, draws: 10 W, at: 5 V}
  lamp: {kind: lamp, draws: 6 W}
circuits:
  phone: {path: [converter: 6 ft, socket: 8 in]}
  light: {path: [lamp: 6 ft]}
  car light: {from: tow plug battery, path: [car lamp: 6 ft]}
"""


def figures(
    front: str = "front box: {fuse ways: 6}", shelf: str = "16 AWG, 14 AWG", main: str = ""
) -> Figures:
    text = BUILD.replace("FRONT", front).replace("SHELF", shelf)
    if main:
        text = text.replace("  lamp: {", f"  main fuse: {{kind: fuse, rating: {main}}}\n  lamp: {{")
    text = text.replace("  lamp: {", "  car lamp: {kind: lamp, draws: 12 W}\n  lamp: {")
    reading = read_build(text.encode())
    assert reading.trailer is not None, [(p.origin.line, p.message) for p in reading.problems]
    return compute(reading.trailer)


def test_what_each_supply_gives_and_carries() -> None:
    """The battery is taken at 11.5 V, the car at what is assumed; a converter holds its voltage."""
    found = {one.name: one for one in figures().supplies}
    battery, converter, car = found["battery"], found["converter"], found["tow plug 4"]
    assert (battery.nominal_v, battery.lowest_v) == (12, 11.5)
    assert (converter.nominal_v, converter.lowest_v, converter.current_a) == (5, 5, 2)
    assert (car.nominal_v, car.lowest_v) == (12, 11)
    assert car.current_a == pytest.approx(1)
    # 6 W at 12 V, and 10 W through a converter of some loss
    assert 0.5 + 10 / 12 < battery.current_a < 0.5 + 10 / 12 / 0.7


@pytest.mark.parametrize(
    ("shelf", "fuses"),
    [
        # the lowest ceiling of all tables: 18 AWG 6 A, 16 AWG 8 A, 14 AWG 15 A
        ("16 AWG, 14 AWG", [(3, "16"), (4, "16"), (5, "16"), (7.5, "16"), (10, "14"), (15, "14")]),
        ("14 AWG, 16 AWG, 12 AWG", [(3, "16"), (4, "16"), (5, "16"), (7.5, "16"), (10, "14"), (15, "14")]),
        ("16 AWG", [(3, "16"), (4, "16"), (5, "16"), (7.5, "16")]),
        ("12 AWG", [(3, "12"), (4, "12"), (5, "12"), (7.5, "12"), (10, "12"), (15, "12")]),
    ],
)
def test_fuses_for_a_new_circuit_and_the_thinnest_wire_they_protect(
    shelf: str, fuses: list[tuple[float, str]]
) -> None:
    assert [(one.rating_a, one.size.value) for one in figures(shelf=shelf, main="30 A").new_fuses] == fuses
    # half of the main fuse at most: Electrical Installation Work p. 333, mixed devices
    below = [(rating, size) for rating, size in fuses if rating <= 5]
    assert [(one.rating_a, one.size.value) for one in figures(shelf=shelf, main="10 A").new_fuses] == below


def test_a_new_circuit_takes_a_fuse_that_is_at_hand() -> None:
    front = "front box: {fuse ways: 6, fuses on the shelf: [20 A, 10 A, 5 A, 2 A]}"
    made = figures(front, main="30 A").new_fuses
    assert [(one.rating_a, one.size.value) for one in made] == [(5, "16"), (10, "14")]


def test_a_fuse_guards_the_return_that_its_circuit_shares_with_another() -> None:
    """FAA AC 43.13-1B Table 11-3: 10 A for 18 AWG, as thick as the return on which the fan's current goes back."""
    text = (
        "format: 1\nbuild: {name: By Hand, country: US}\nfront box: {fuse ways: 4}\n"
        "battery: {chemistry: agm, capacity: 100 Ah, to main fuse: 5 in, to front box: 2 ft, size: 8 AWG}\n"
        "parts: {bar: {kind: bar}, lamp: {kind: lamp, draws: 2 W}, fan: {kind: fan, draws: 8 A}}\ncircuits:\n"
        "  lamp: {size: 18 AWG, path: [bar: 6 ft, lamp: 2 ft]}\n"
        "  fan: {fuse: 15 A, size: 14 AWG, path: [fan: 6 ft], return: {to: bar, length: 2 ft}}\n"
    )
    trailer = read_build(text.encode()).trailer
    assert trailer is not None
    fuses = {fuse.name: fuse for fuse in compute(trailer).fuses}
    way = fuses[f"way {trailer.circuits[1].way}"]
    assert (way.thinnest_wire, str(way.thinnest), way.ceiling_a) == ("1C", "18 AWG", 10)
    assert fuses["main fuse"].thinnest_wire.startswith("3")
    trailer = read_build(text.replace("18 AWG", "14 AWG").encode()).trailer
    assert trailer is not None
    assert {fuse.name: fuse.thinnest_wire for fuse in compute(trailer).fuses}[way.name] == "2A"


THICK_LINE = """\
format: 1
build: {name: Thick Line, country: DE}
battery: {chemistry: lithium, capacity: 50 Ah, to main fuse: 15 cm, to front box: 70 cm}
front box: {fuse ways: 8}
tow plug: {pattern: 13-pin, to front box: 2.5 m}
wire: {on the shelf: [1.5 mm², 2.5 mm², 4 mm², 6 mm²], sold as: single}
parts:
  water pump: {kind: pump, draws: 4 A}
  box: {kind: appliance, draws: 7.6 A}
  booster: {kind: dc charger, gives: 15 A}
  booster fuse: {kind: fuse}
circuits:
  pump: {path: [water pump: 5.7 m]}
  box: {path: [box: 50 cm]}
CHARGE
"""
CHARGE = "  charge line: {from: tow plug battery, path: [booster: 3 m, booster fuse: 50 cm, battery: 12 cm]}"
OHM_PER_M = {"1.5 mm²": 0.016226, "2.5 mm²": 0.0097356, "4 mm²": 0.006039, "6 mm²": 0.004026}
"""IEC 60228 class 5 at 20 °C (13.3, 7.98, 4.95 and 3.30 Ω a km) times 1.22, for copper at 75 °C."""


@pytest.mark.parametrize("charge", [CHARGE, ""])
def test_what_is_said_of_the_next_smaller_size_holds_with_the_battery_line_that_is_told(charge: str) -> None:
    """By hand: 85 cm of line there and back at 11.6 A, 5.7 m of pump there and back at 4 A; 0.36 V are aimed at."""
    reading = read_build(THICK_LINE.replace("CHARGE", charge).encode())
    assert reading.trailer is not None, [(p.origin.line, p.message) for p in reading.problems]
    found = compute(reading.trailer)
    assert reading.trailer.battery_line is not None
    line, pump = found.circuits[reading.trailer.battery_line.number], found.circuits[1]
    line_v = 11.6 * 1.7 * OHM_PER_M[str(line.size.chosen)]

    def lost_v(size: object) -> float:
        return line_v + 4.0 * 11.4 * OHM_PER_M[str(size)]

    assert pump.size.worst_drop_v == pytest.approx(lost_v(pump.size.chosen), rel=1e-3)
    assert lost_v(pump.size.smallest) <= 0.36
    assert pump.size.next_smaller_drop_v == pytest.approx(lost_v(pump.size.next_smaller), rel=1e-3)
    assert lost_v(pump.size.next_smaller) > 0.36
    assert (pump.size.reason == "kinds") == (pump.size.chosen != pump.size.smallest)
