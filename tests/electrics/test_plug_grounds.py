"""What comes back to each ground contact: the sum of all that shares it, and what its one conductor loses."""

from __future__ import annotations

import pytest

from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.electrics.figures import Figures
from builder.electrics.plug_states import STATES
from builder.trailer.model import Trailer

BUILD = """
format: 1
build: {name: Stone Row, country: US}
tow plug: {pattern: 7-way blade, to front box: 7 ft}
parts:
  heater: {kind: heater, draws: 20 A}
  left brake: {kind: brake magnet, draws: 3.75 A}
  right brake: {kind: brake magnet, draws: 3.75 A}
circuits:
  heater: {from: tow plug battery, path: [line fuse: 5 in, heater: 2 ft]}
  brakes: {from: tow plug brake, path: [left brake: 12 ft, right brake: 5 ft]}
road lamps:
  lamps: led
  rear lamp: {shows: [tail, stop, turn], side: both, wire: 12 ft, draws: {tail: 0.1 A, stop: 0.4 A, turn: 0.4 A}}
"""


def worked(text: str) -> tuple[Trailer, Figures]:
    trailer = read_build(text.encode()).trailer
    assert trailer is not None
    return trailer, compute(trailer)


def test_lamps_supply_and_brakes_are_added_up_in_each_state() -> None:
    _, figures = worked(BUILD)
    (ground,) = figures.plug_grounds
    assert ground.serves == ("2", "3", "4", "5", "6")
    # lights: two tails; braking in a left turn: and two stop lamps (one of them flashes) and both magnets
    by_hand = {STATES[0]: 0.2, STATES[1]: 0.2 + 0.8 + 7.5, STATES[2]: 0.2 + 0.8 + 7.5 + 20.0}
    assert dict(ground.amps) == pytest.approx(by_hand)
    assert len(ground.wires) == 3


def test_one_conductor_loses_by_ohm_s_law() -> None:
    trailer, figures = worked(BUILD)
    (ground,) = figures.plug_grounds
    cable = next(w for w in trailer.wires if w.number in ground.wires and w.size is not None)
    assert str(cable.size) == str(ground.size) == "10 AWG"
    for state in STATES:
        assert ground.drop_v[state] == pytest.approx(
            ground.amps[state] * figures.wires[cable.number].resistance_ohm
        )
    assert ground.bears_a == pytest.approx(figures.wires[cable.number].ampacity_a)


def test_only_lamps_beside_something_else_are_dimmed_by_it() -> None:
    assert worked(BUILD)[1].plug_grounds[0].dims_lamps
    lamps_alone = BUILD[: BUILD.index("parts:")] + BUILD[BUILD.index("road lamps:") :]
    no_lamps = BUILD[: BUILD.index("road lamps:")]
    assert not worked(lamps_alone)[1].plug_grounds[0].dims_lamps
    assert not worked(no_lamps)[1].plug_grounds[0].dims_lamps


def test_a_plug_with_returns_of_their_own_keeps_the_supply_off_the_lamps() -> None:
    text = BUILD.replace("7-way blade", "13-pin").replace("US", "GB")
    text = "\n".join(line for line in text.splitlines() if "brake" not in line) + "\n"
    by_pin = {one.pin: one for one in worked(text)[1].plug_grounds}
    assert by_pin["13"].serves == ("9",)
    assert by_pin["13"].amps[STATES[2]] == pytest.approx(20.0)
    assert by_pin["3"].amps[STATES[2]] < 3
    assert not by_pin["3"].dims_lamps
    assert not by_pin["13"].dims_lamps


def test_no_size_is_made_up_where_none_is_known() -> None:
    text = BUILD.replace("7-way blade", "7-pin Australian").replace("US", "AU")
    text = "\n".join(line for line in text.splitlines() if "heater" not in line) + "\n"
    (ground,) = worked(text)[1].plug_grounds
    assert ground.size is None
    assert ground.bears_a is None
    assert ground.drop_v == {}
