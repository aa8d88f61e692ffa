"""What flows through a part: all its ways together, by hand."""

from __future__ import annotations

import pytest

from builder.pages.verdict import answer_text, judge_build

BUILD = """\
format: 1
build: {name: Sum Wren, country: US}
battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}
front box: {fuse ways: 4, fuses: blade}
wire: {on the shelf: [16 AWG, 14 AWG, 8 AWG], sold as: pair, feed: red, return: black}
parts:
  hatch plug: {kind: connector, ways: 8}
  lamp: {kind: lamp, draws: 12 W}
  fan: {kind: fan, draws: 3 A, own switch: yes}
  front switch: {kind: two-way switch}
  rear switch: {kind: two-way switch}
  rear lamp: {kind: lamp, draws: 24 W}
  pump relay: {kind: relay, draws: 0.15 A}
  pump switch: {kind: switch}
  pump: {kind: pump, draws: 4 A}
circuits:
  light: {path: [hatch plug: 8 ft, lamp: 2 ft]}
  fan: {path: [hatch plug: 8 ft, fan: 2 ft]}
  both ends: {path: [front switch: 3 ft, hatch plug: 8 ft, rear switch: 2 ft, rear lamp: 2 ft]}
  water:
    path: [pump relay: 1 ft, pump: 9 ft]
    branches: [{from: fuse, path: [pump switch: 6 ft, pump relay: {length: 6 ft, as: coil}]}]
"""


def test_a_connector_carries_the_sum_of_its_ways_and_a_relay_no_coil() -> None:
    """12 W and 24 W at 12 V are 1 A and 2 A; with 3 A of the fan the plug carries 6 A, one traveller at a time."""
    verdict = judge_build(BUILD.encode(), "trailer.yaml")
    assert verdict.judged is not None, answer_text(verdict)
    judged = verdict.judged
    carried = {one.part: one.current_a for one in judged.figures.carried}
    assert carried["hatch plug"] == pytest.approx(1.0 + 3.0 + 2.0)
    assert carried["front switch"] == carried["rear switch"] == pytest.approx(2.0)
    assert carried["pump relay"] == pytest.approx(4.0)
    assert carried["pump switch"] == pytest.approx(0.15)
    assert {"lamp", "fan", "pump"}.isdisjoint(carried)
