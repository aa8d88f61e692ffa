"""Colour words, codes and screen values."""

from __future__ import annotations

import re

import pytest

from builder.tables import NoRow
from builder.tables.table import load_table
from builder.tables.wire_colours import (
    colour_code,
    colour_of_code,
    colour_words,
    combination_allowed,
    combination_code,
    screen_colour,
    usual_word,
)

# IEC 60757:2021 Table 1, in its order (quoted)
TABLE_1 = "BK BN RD OG YE GN BU VT GY WH PK GD TQ SR GNYE".split()  # noqa: SIM905 - as the table prints it


def test_codes_stand_in_the_order_of_table_1() -> None:
    rows = sorted(
        (row for row in load_table("colours").rows if row.cells["code"]), key=lambda r: r.number("place")
    )
    assert [row.cells["code"] for row in rows] == TABLE_1


def test_every_code_leads_back_to_its_colour() -> None:
    for code in TABLE_1:
        assert colour_code(colour_of_code(code)) == code


@pytest.mark.parametrize(
    "word", ["tan", "light blue", "dark blue", "light green", "amber", "clear", "natural"]
)
def test_a_shade_has_no_code_and_says_so(word: str) -> None:
    with pytest.raises(NoRow, match=f"{word} has no code"):
        colour_code(word)


@pytest.mark.parametrize(("other", "usual"), [("purple", "violet"), ("gray", "grey"), ("violet", "violet")])
def test_other_words_for_a_colour(other: str, usual: str) -> None:
    assert usual_word(other) == usual
    assert screen_colour(other) == screen_colour(usual)


def test_every_word_can_be_drawn_and_told_from_the_others() -> None:
    screens = {usual_word(word): screen_colour(word) for word in colour_words()}
    assert all(re.fullmatch("#[0-9A-F]{6}", value) for value in screens.values())
    assert len(set(screens.values())) == len(screens)


def test_a_combination_does_not_tell_base_from_tracer() -> None:
    assert combination_code(["white", "red"]) == combination_code(["red", "white"]) == "RDWH"
    assert combination_code(["yellow", "green"]) == colour_code("green-and-yellow") == "GNYE"


@pytest.mark.parametrize(
    "words", [[], ["red", "red"], ["violet", "purple"], ["red", "tan"], ["red", "mauve"]]
)
def test_what_has_no_combination_code(words: list[str]) -> None:
    with pytest.raises(NoRow):
        combination_code(words)


@pytest.mark.parametrize(
    ("words", "use", "allowed"),
    [
        (["green", "yellow"], "protective_conductor", True),
        (["green-and-yellow"], "protective_conductor", True),
        (["green", "yellow"], "any", False),
        (["yellow", "red"], "any", False),
        (["brown", "yellow"], "protective_conductor", False),
        (["white", "green"], "any", False),
        (["white", "light green"], "any", False),
        (["green", "yellow", "red"], "protective_conductor", False),
        (["white", "red"], "any", True),
        (["green"], "any", True),
        (["green", "dark green"], "any", True),
    ],
)
def test_green_and_yellow_stand_together_only(words: list[str], use: str, allowed: bool) -> None:
    """IEC 60757:2021 5.1: together for a protective conductor, in no other combination."""
    assert combination_allowed(words, use) is allowed  # type: ignore[arg-type]
