"""Three circuits worked by hand, with a pencil and published values, against what the command prints.

Nothing of the program is imported: each build goes through `wiring-manual figures`, as a maker runs it.

Published values used, and where they stand:

- NEC (NFPA 70-2011) Chapter 9 Table 8, stranded uncoated copper at 75 °C, ohm per 1000 ft:
  16 AWG 4.99, 14 AWG 3.14, 8 AWG 0.778.
- IEC 60228, class 5 plain copper, greatest resistance at 20 °C, ohm per km: 2.5 mm² 7.98, 10 mm² 1.91;
  its factor from 75 °C to 20 °C is 250/(230 + 75), so that a 20 °C figure is multiplied by 305/250 = 1.22.
- 33 CFR 183.425 Table 5, 60 °C column, 30 °C round it: 16 AWG 15 A, 14 AWG 20 A. At 36 to 40 °C the
  60 °C column counts 0.82 (IRC 2021 Table E3705.2); fewer than 3 conductors need no bundle factor.
- FAA AC 43.13-1B Table 11-3, largest fuse by copper wire: 16 AWG 10 A, 14 AWG 15 A. 2.5 mm² is taken as
  14 AWG (2.08 mm²), the largest gauge that is not above it.
- NEC, older tables for recreational vehicles (from memory, so it only ever makes a choice more cautious):
  16 AWG 8 A, 14 AWG 15 A.
- Blade fuses, regular, as sold: 1, 2, 3, 4, 5, 7.5, 10, 15, 20 … A.
- Common practice: a fuse carries at most 80 % of its rating for hours; none smaller than 3 A is chosen; a
  pump starts at 2 times, a fan at 1.5 times what it takes while running.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sysconfig
from pathlib import Path
from typing import Any

import pytest

PLAIN_ASSUMPTIONS = """
assume:
  copper temperature: 75 °C
  surrounding temperature: 40 °C
  insulation temperature: 60 °C
  wires side by side: 2 wires
  fuse loading: 80 %
  smallest fuse: 3 A
"""

SWITCHED_LAMP = """
format: 1
build: {name: Pencil One, number: 1, country: US, stage: walls open}
battery: {chemistry: agm, capacity: 35 Ah, path: [main fuse: 6 in, front box: 3 ft 6 in], size: 8 AWG, return: 4 ft}
front box: {fuse ways: 4, fuses: blade regular}
wire: {on the shelf: [16 AWG, 8 AWG], sold as: pair, feed: red, return: black}
parts:
  step switch: {kind: switch}
  step lamp: {kind: lamp, draws: 3 W}
circuits:
  step light: {path: [step switch: 14 ft, step lamp: 6 ft]}
"""

ONE_BEHIND_THE_OTHER = """
format: 1
build: {name: Pencil Two, number: 2, country: US, stage: walls open}
battery: {chemistry: agm, capacity: 35 Ah, path: [main fuse: 6 in, front box: 3 ft 6 in], size: 8 AWG, return: 4 ft}
front box: {fuse ways: 4, fuses: blade regular}
wire: {on the shelf: [14 AWG, 8 AWG], sold as: pair, feed: red, return: black}
parts:
  shelf lamp: {kind: lamp, draws: 12 W}
  corner lamp: {kind: lamp, draws: 6 W}
  fan switch: {kind: switch}
  roof fan: {kind: fan, draws: 2 A}
circuits:
  cabin:
    path: [shelf lamp: 8 ft, corner lamp: 5 ft]
    branches: [{from: shelf lamp, path: [fan switch: 4 ft, roof fan: 2 ft]}]
"""

PUMP_WITH_RELAY = """
format: 1
build: {name: Pencil Three, number: 3, country: DE, stage: walls open}
battery: {chemistry: agm, capacity: 80 Ah, path: [main fuse: 0.15 m, front box: 1 m], size: 10 mm², return: 1.2 m}
front box: {fuse ways: 4, fuses: blade regular}
wire: {on the shelf: [2.5 mm², 10 mm²], sold as: single, feed: red, return: black}
parts:
  pump relay: {kind: relay, draws: 0.15 A}
  hinge plug: {kind: connector, ways: 4}
  pump switch: {kind: switch}
  water pump: {kind: pump, draws: 4 A}
circuits:
  water pump:
    path: [pump relay: 0.5 m, hinge plug: 2 m, water pump: 1.5 m]
    branches: [{from: fuse, path: [pump switch: 4 m, pump relay: 2.5 m]}]
"""

Figures = dict[str, Any]


def figures(text: str, folder: Path) -> Figures:
    """Return what the command prints for a build."""
    command = shutil.which(
        "wiring-manual", path=os.pathsep.join([sysconfig.get_path("scripts"), os.environ.get("PATH", "")])
    )
    assert command is not None, "wiring-manual is not installed"
    file = folder / "trailer.yaml"
    file.write_text(text + PLAIN_ASSUMPTIONS, encoding="utf-8")
    done = subprocess.run([command, "figures", str(file)], capture_output=True, timeout=60, check=False)
    assert done.returncode == 0, done.stdout.decode() + done.stderr.decode()
    made: Figures = json.loads(done.stdout)
    return made


@pytest.fixture(scope="module")
def lamp(tmp_path_factory: pytest.TempPathFactory) -> Figures:
    return figures(SWITCHED_LAMP, tmp_path_factory.mktemp("lamp"))


@pytest.fixture(scope="module")
def cabin(tmp_path_factory: pytest.TempPathFactory) -> Figures:
    return figures(ONE_BEHIND_THE_OTHER, tmp_path_factory.mktemp("cabin"))


@pytest.fixture(scope="module")
def pump(tmp_path_factory: pytest.TempPathFactory) -> Figures:
    return figures(PUMP_WITH_RELAY, tmp_path_factory.mktemp("pump"))


def wire(made: Figures, start: str, end: str, role: str) -> Figures:
    """Return the one wire of a role from a part to a part."""
    found = [
        w for w in made["wires"] if (w["from"]["part"], w["to"]["part"], w["role"]) == (start, end, role)
    ]
    assert len(found) == 1, f"{len(found)} wires from {start} to {end}"
    return found[0]


def check_wire(
    made: Figures, ends: tuple[str, str, str], size: str, ohm: float, amperes: float, drop_v: float
) -> None:
    """Hold one wire (from, to, role) against its size, resistance, current and drop as worked by hand."""
    found = wire(made, *ends)
    assert found["size"] == size
    assert found["resistance_ohm"] == pytest.approx(ohm, rel=1e-9)
    assert found["current_a"] == pytest.approx(amperes, rel=1e-9)
    assert found["drop_v"] == pytest.approx(drop_v, rel=1e-9)


def load(made: Figures, part: str) -> Figures:
    """Return the one load of a part."""
    found = [one for circuit in made["circuits"] for one in circuit["loads"] if one["part"] == part]
    assert len(found) == 1
    return found[0]


def fuse(made: Figures, circuit: int) -> Figures:
    """Return the fuse of a circuit."""
    found = [one for one in made["fuses"] if one["circuit"] == circuit]
    assert len(found) == 1
    return found[0]


# --- 1. A lamp behind a switch: 14 ft to the switch, 6 ft on to the lamp, 20 ft back; 16 AWG ---------------


def test_lamp_each_wire(lamp: Figures) -> None:
    # Current: 3 W / 12.0 V = 0.25 A, in every wire.
    # Feed to the switch:  14 ft x 4.99 / 1000 = 0.06986 ohm;  x 0.25 A = 0.017465 V
    check_wire(lamp, ("front box", "step switch", "feed"), "16 AWG", 0.06986, 0.25, 0.017465)
    # Feed to the lamp:     6 ft x 4.99 / 1000 = 0.02994 ohm;  x 0.25 A = 0.007485 V
    check_wire(lamp, ("step switch", "step lamp", "feed"), "16 AWG", 0.02994, 0.25, 0.007485)
    # Return, past the switch: 20 ft x 4.99 / 1000 = 0.0998 ohm;  x 0.25 A = 0.02495 V
    check_wire(lamp, ("step lamp", "front box", "return"), "16 AWG", 0.0998, 0.25, 0.02495)


def test_lamp_battery_line(lamp: Figures) -> None:
    # 8 AWG. Post to main fuse: 0.5 ft x 0.778 / 1000 = 0.000389 ohm;  x 0.25 A = 0.00009725 V
    check_wire(lamp, ("battery", "main fuse", "feed"), "8 AWG", 0.000389, 0.25, 0.00009725)
    # Main fuse to front box:   3.5 ft x 0.778 / 1000 = 0.002723 ohm;  x 0.25 A = 0.00068075 V
    check_wire(lamp, ("main fuse", "front box", "feed"), "8 AWG", 0.002723, 0.25, 0.00068075)
    # Return:                     4 ft x 0.778 / 1000 = 0.003112 ohm;  x 0.25 A = 0.000778 V
    check_wire(lamp, ("front box", "battery", "return"), "8 AWG", 0.003112, 0.25, 0.000778)


def test_lamp_drop(lamp: Figures) -> None:
    # Circuit: 0.017465 + 0.007485 + 0.02495 = 0.0499 V
    # Battery line: 0.00009725 + 0.00068075 + 0.000778 = 0.001556 V
    # From the post to the lamp and back: 0.0499 + 0.001556 = 0.051456 V; / 12 V = 0.4288 %
    found = load(lamp, "step lamp")
    assert found["current_a"] == pytest.approx(0.25, rel=1e-9)
    assert found["drop_v"] == pytest.approx(0.051456, rel=1e-9)
    assert found["circuit_drop_v"] == pytest.approx(0.0499, rel=1e-9)
    assert found["drop_percent"] == pytest.approx(0.4288, rel=1e-9)
    # A lead battery that is low stands at 11.5 V (common practice): 11.5 - 0.051456 = 11.448544 V are left.
    assert found["left_v"] == pytest.approx(11.448544, rel=1e-9)
    assert sum(step["drop_v"] for step in found["steps"]) == pytest.approx(0.051456, rel=1e-9)


def test_lamp_ampacity(lamp: Figures) -> None:
    # 16 AWG, 60 °C column: 15 A; 40 °C round it: x 0.82; a pair: x 1. 15 x 0.82 = 12.3 A. The printed
    # factor is rounded: sqrt((60 - 40) / (60 - 30)) = 0.8165, so within 0.0065 x 15 = 0.0975 A.
    found = wire(lamp, "front box", "step switch", "feed")
    assert found["ampacity_a"] == pytest.approx(12.3, abs=0.0975)


def test_lamp_fuse(lamp: Figures) -> None:
    # 0.25 A / 0.80 = 0.3125 A; the next rating sold is 1 A, but none below 3 A is chosen: 3 A.
    # 16 AWG allows 10 A by AC 43.13-1B; the most cautious table, from memory, allows 8 A: 3 A is below both.
    found = fuse(lamp, 1)
    assert found["load_a"] == pytest.approx(0.25, rel=1e-9)
    assert found["rating_a"] == 3
    assert found["given"] is False
    assert found["thinnest_size"] == "16 AWG"
    assert found["ceiling_a"] == 10
    assert "43.13-1B" in found["ceiling_source"]
    assert found["choice_ceiling_a"] == 8
    assert lamp["circuits"][0]["fuse_reason"] == found["reason"]
    assert found["reason"] == "smallest"


# --- 2. Two lamps one behind the other and a fan on a branch from the first; 14 AWG ------------------------


def test_cabin_feeds(cabin: Figures) -> None:
    # Currents: 12 W / 12 V = 1 A, 6 W / 12 V = 0.5 A, fan 2 A; together 3.5 A.
    # Box to shelf lamp, everything beyond it: 8 ft x 3.14 / 1000 = 0.02512 ohm;  x 3.5 A = 0.08792 V
    check_wire(cabin, ("front box", "shelf lamp", "feed"), "14 AWG", 0.02512, 3.5, 0.08792)
    # Shelf lamp to corner lamp:               5 ft x 3.14 / 1000 = 0.0157 ohm;   x 0.5 A = 0.00785 V
    check_wire(cabin, ("shelf lamp", "corner lamp", "feed"), "14 AWG", 0.0157, 0.5, 0.00785)
    # Branch, shelf lamp to fan switch:        4 ft x 3.14 / 1000 = 0.01256 ohm;  x 2 A = 0.02512 V
    check_wire(cabin, ("shelf lamp", "fan switch", "feed"), "14 AWG", 0.01256, 2, 0.02512)
    # Branch, fan switch to fan:               2 ft x 3.14 / 1000 = 0.00628 ohm;  x 2 A = 0.01256 V
    check_wire(cabin, ("fan switch", "roof fan", "feed"), "14 AWG", 0.00628, 2, 0.01256)


def test_cabin_returns(cabin: Figures) -> None:
    # Corner lamp to shelf lamp:               5 ft = 0.0157 ohm;   x 0.5 A = 0.00785 V
    check_wire(cabin, ("corner lamp", "shelf lamp", "return"), "14 AWG", 0.0157, 0.5, 0.00785)
    # Fan to shelf lamp, past the switch:      6 ft x 3.14 / 1000 = 0.01884 ohm;  x 2 A = 0.03768 V
    check_wire(cabin, ("roof fan", "shelf lamp", "return"), "14 AWG", 0.01884, 2, 0.03768)
    # Shelf lamp to box:                       8 ft = 0.02512 ohm;  x 3.5 A = 0.08792 V
    check_wire(cabin, ("shelf lamp", "front box", "return"), "14 AWG", 0.02512, 3.5, 0.08792)


@pytest.mark.parametrize(
    ("part", "amperes", "circuit_drop_v", "drop_v", "percent"),
    [
        # Battery line, 8 ft of 8 AWG: 8 x 0.778 / 1000 = 0.006224 ohm;  x 3.5 A = 0.021784 V, for all three.
        # Shelf lamp:  0.08792 + 0.08792 = 0.17584 V;  + 0.021784 = 0.197624 V;  / 12 V = 1.646867 %
        ("shelf lamp", 1, 0.17584, 0.197624, 0.197624 / 0.12),
        # Corner lamp: 0.17584 + 0.00785 + 0.00785 = 0.19154 V;  + 0.021784 = 0.213324 V;  / 12 V = 1.7777 %
        ("corner lamp", 0.5, 0.19154, 0.213324, 1.7777),
        # Fan: 0.17584 + 0.02512 + 0.01256 + 0.03768 = 0.2512 V;  + 0.021784 = 0.272984 V;  / 12 V = 2.274867 %
        ("roof fan", 2, 0.2512, 0.272984, 0.272984 / 0.12),
    ],
)
def test_cabin_drops(
    cabin: Figures, part: str, amperes: float, circuit_drop_v: float, drop_v: float, percent: float
) -> None:
    found = load(cabin, part)
    assert found["current_a"] == pytest.approx(amperes, rel=1e-9)
    assert found["circuit_drop_v"] == pytest.approx(circuit_drop_v, rel=1e-9)
    assert found["drop_v"] == pytest.approx(drop_v, rel=1e-9)
    assert found["drop_percent"] == pytest.approx(percent, rel=1e-9)


def test_cabin_worst_drop(cabin: Figures) -> None:
    # The fan is the worst of the three: 0.272984 V.
    assert cabin["circuits"][0]["drop_v"] == pytest.approx(0.272984, rel=1e-9)
    assert cabin["circuits"][0]["load_current_a"] == pytest.approx(3.5, rel=1e-9)


def test_cabin_fuse(cabin: Figures) -> None:
    # Load: 3.5 A / 0.80 = 4.375 A. Start: the fan at 1.5 x 2 A = 3 A beside 1.5 A of lamps: 4.5 A.
    # Neither fits a 4 A fuse; the next is 5 A. 14 AWG allows 15 A by AC 43.13-1B.
    found = fuse(cabin, 1)
    assert found["load_a"] == pytest.approx(3.5, rel=1e-9)
    assert found["starting_a"] == pytest.approx(4.5, rel=1e-9)
    assert found["rating_a"] == 5
    assert found["ceiling_a"] == 15
    assert found["choice_ceiling_a"] == 15


# --- 3. A water pump behind a hinge connector, its relay's contact and coil on one fuse; 2.5 mm² -----------


def test_pump_contact_wires(pump: Figures) -> None:
    # 2.5 mm² at 75 °C: 7.98 x 1.22 = 9.7356 ohm per km. The pump takes 4 A.
    # Fuse to the relay's contact: 0.5 m x 9.7356 / 1000 = 0.0048678 ohm;  x 4 A = 0.0194712 V
    (found,) = (w for w in pump["wires"] if w["to"] == {"part": "pump relay", "terminal": "contact in"})
    assert found["size"] == "2.5 mm²"
    assert found["resistance_ohm"] == pytest.approx(0.0048678, rel=1e-9)
    assert found["current_a"] == pytest.approx(4, rel=1e-9)
    assert found["drop_v"] == pytest.approx(0.0194712, rel=1e-9)
    # Contact to the hinge:        2 m = 0.0194712 ohm;  x 4 A = 0.0778848 V
    check_wire(pump, ("pump relay", "hinge plug", "feed"), "2.5 mm²", 0.0194712, 4, 0.0778848)
    # Hinge to the pump:           1.5 m = 0.0146034 ohm;  x 4 A = 0.0584136 V
    check_wire(pump, ("hinge plug", "water pump", "feed"), "2.5 mm²", 0.0146034, 4, 0.0584136)
    # Pump to the hinge:           1.5 m, the same
    check_wire(pump, ("water pump", "hinge plug", "return"), "2.5 mm²", 0.0146034, 4, 0.0584136)
    # Hinge to the box, past the relay: 0.5 m + 2 m = 2.5 m = 0.024339 ohm;  x 4 A = 0.097356 V
    check_wire(pump, ("hinge plug", "front box", "return"), "2.5 mm²", 0.024339, 4, 0.097356)


def test_pump_coil_wires(pump: Figures) -> None:
    # The coil takes 0.15 A at 12.0 V.
    # Fuse to the switch:  4 m x 9.7356 / 1000 = 0.0389424 ohm;  x 0.15 A = 0.00584136 V
    check_wire(pump, ("front box", "pump switch", "feed"), "2.5 mm²", 0.0389424, 0.15, 0.00584136)
    # Switch to the coil:  2.5 m = 0.024339 ohm;  x 0.15 A = 0.00365085 V
    check_wire(pump, ("pump switch", "pump relay", "feed"), "2.5 mm²", 0.024339, 0.15, 0.00365085)
    # Coil to the box, from where the relay stands: 0.5 m = 0.0048678 ohm;  x 0.15 A = 0.00073017 V
    check_wire(pump, ("pump relay", "front box", "return"), "2.5 mm²", 0.0048678, 0.15, 0.00073017)


def test_pump_battery_line(pump: Figures) -> None:
    # 10 mm² at 75 °C: 1.91 x 1.22 = 2.3302 ohm per km. 4 A + 0.15 A = 4.15 A in every wire of the line.
    # Post to main fuse: 0.15 m = 0.00034953 ohm;  x 4.15 A = 0.0014505495 V
    check_wire(pump, ("battery", "main fuse", "feed"), "10 mm²", 0.00034953, 4.15, 0.0014505495)
    # Main fuse to box:  1 m = 0.0023302 ohm;  x 4.15 A = 0.00967033 V
    check_wire(pump, ("main fuse", "front box", "feed"), "10 mm²", 0.0023302, 4.15, 0.00967033)
    # Return:            1.2 m = 0.00279624 ohm;  x 4.15 A = 0.011604396 V
    check_wire(pump, ("front box", "battery", "return"), "10 mm²", 0.00279624, 4.15, 0.011604396)


@pytest.mark.parametrize(
    ("part", "amperes", "circuit_drop_v", "drop_v"),
    [
        # Battery line: 0.0014505495 + 0.00967033 + 0.011604396 = 0.0227252755 V, for both.
        # Pump: 0.0194712 + 0.0778848 + 0.0584136 + 0.0584136 + 0.097356 = 0.3115392 V;
        #       + 0.0227252755 = 0.3342644755 V
        ("water pump", 4, 0.3115392, 0.3342644755),
        # Coil: 0.00584136 + 0.00365085 + 0.00073017 = 0.01022238 V;  + 0.0227252755 = 0.0329476555 V
        ("pump relay", 0.15, 0.01022238, 0.0329476555),
    ],
)
def test_pump_drops(pump: Figures, part: str, amperes: float, circuit_drop_v: float, drop_v: float) -> None:
    found = load(pump, part)
    assert found["current_a"] == pytest.approx(amperes, rel=1e-9)
    assert found["circuit_drop_v"] == pytest.approx(circuit_drop_v, rel=1e-9)
    assert found["drop_v"] == pytest.approx(drop_v, rel=1e-9)


def test_pump_stays_within_advice(pump: Figures) -> None:
    # 0.3342644755 V / 12 V = 2.785537 %; ABYC E-11 advises 3 % for pumps, so no finding speaks of a drop.
    assert load(pump, "water pump")["drop_percent"] == pytest.approx(2.785537, abs=5e-7)
    assert load(pump, "water pump")["advice_percent"] == 3
    assert not [one for one in pump["findings"] if one["rule"] == "drop above advice"]


def test_pump_fuse(pump: Figures) -> None:
    # Load: 4.15 A / 0.80 = 5.1875 A. Start: the pump at 2 x 4 A = 8 A beside the coil's 0.15 A: 8.15 A,
    # which is more than a 7.5 A fuse carries for ever; the next is 10 A. 2.5 mm², as 14 AWG, allows 15 A.
    found = fuse(pump, 1)
    assert found["load_a"] == pytest.approx(4.15, rel=1e-9)
    assert found["starting_a"] == pytest.approx(8.15, rel=1e-9)
    assert found["rating_a"] == 10
    assert found["thinnest_size"] == "2.5 mm²"
    assert found["ceiling_a"] == 15
    assert "43.13-1B" in found["ceiling_source"]
    assert found["reason"] == "start"
