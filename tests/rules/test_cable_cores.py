"""A core of the plug's cable that carries too much: its size stays, and what can be written or chosen is named."""

from __future__ import annotations

import pytest
from rule_builds import build, changed, findings

from builder.rules.finding import Finding

RULE = "wire overloaded"
LAMPS = """tow plug: {pattern: 13-pin, to front box: 7 ft}
road lamps:
  rear lamp: {shows: [tail, stop, turn], side: both, wire: 9 ft}
  fog lamp: {shows: fog, side: both, wire: 9 ft}
  reverse lamp: {shows: reverse, side: both, wire: 9 ft}
"""
FILAMENTS = build(LAMPS, more="country: GB", shelf="2.5 mm²")
OWN = "wire: 9 ft, draws: {tail: 2.5 A, stop: 2.5 A, turn: 2.5 A}"


def overloaded(text: str) -> list[Finding]:
    """Return what is told of wires at the plug."""
    return [one for one in findings(text, RULE) if "earth for 1 to 8" in one.message]


def test_filaments_that_are_assumed_are_told_with_their_current() -> None:
    """Two rear lamps take 1 + 2 + 2 A, fog and reverse lamps 2 A each: 18 A."""
    (finding,) = overloaded(FILAMENTS)
    assert "a core of the plug's cable, which fixes its size" in finding.help
    assert (
        "is assumed for filament lamps: where they are LEDs, write lamps: led under road lamps"
        in finding.help
    )
    assert "carries 18 A" in finding.message
    assert "and 18 A of this is assumed" in finding.help
    assert overloaded(changed(FILAMENTS, "road lamps:\n", "road lamps:\n  lamps: led\n")) == []


def test_draws_that_are_written_are_no_longer_called_assumed() -> None:
    led = changed(FILAMENTS, "road lamps:\n", "road lamps:\n  lamps: led\n")
    (finding,) = overloaded(changed(led, "wire: 9 ft", OWN))
    assert "write what each lamp takes, from its sheet, as in draws: {" in finding.help
    assert "lamps: led" not in finding.help


@pytest.mark.parametrize(
    ("stage", "words"), [("open", "ask for a cable that is thicker"), ("closed", "take 4.7 A less")]
)
def test_where_all_is_written_the_lamps_must_take_less(stage: str, words: str) -> None:
    lamps = LAMPS[: LAMPS.index("  fog")].replace("wire: 9 ft", OWN.replace("2.5", "3.5"))
    text = build(lamps, more=f"country: GB, stage: walls {stage}", shelf="2.5 mm²")
    (finding,) = overloaded(text)
    assert words in finding.help
    assert "assumed" not in finding.help
    assert "thicker wire" not in finding.help
