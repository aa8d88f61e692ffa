"""What each rule tells, word for word: one finding for each limit that is tried just outside.

``told.txt`` holds the sentences as an owner reads them. After changing one on purpose, write it anew with
``python tests/rules/test_rules_told.py`` and read the difference.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from limits_of_colours import COLOUR_LIMITS
from limits_of_covers import COVER_LIMITS
from limits_of_fuses import FUSE_LIMITS
from limits_of_lamps import LAMP_LIMITS
from limits_of_parts import PART_LIMITS
from limits_of_values import VALUE_LIMITS
from limits_of_ways import WAY_LIMITS
from limits_of_wiring import WIRING_LIMITS
from rule_builds import Limit, findings

TOLD = Path(__file__).parent / "told.txt"
LIMITS = (
    *COLOUR_LIMITS,
    *COVER_LIMITS,
    *FUSE_LIMITS,
    *LAMP_LIMITS,
    *PART_LIMITS,
    *VALUE_LIMITS,
    *WAY_LIMITS,
    *WIRING_LIMITS,
)


def told(limit: Limit) -> str:
    """Return what the rule tells of a limit's build, laid out for reading."""
    lines = [f"{limit.rule}: {limit.name}"]
    for one in findings(limit.outside, limit.rule):
        place = f"line {one.origin.line}, column {one.origin.column}"
        circuit = f", circuit {one.circuit}" if one.circuit is not None else ""
        lines += [f"  {one.level} at {place}{circuit}", f"  {one.message}", f"  {one.help}"]
        lines += [f"  {one.basis} ({one.known})"]
    return "\n".join(lines)


def in_file() -> dict[str, str]:
    """Return the file's paragraphs by their first line."""
    paragraphs = TOLD.read_text(encoding="utf-8").rstrip("\n").split("\n\n")
    return {paragraph.partition("\n")[0]: paragraph for paragraph in paragraphs}


@pytest.mark.parametrize("limit", LIMITS, ids=lambda limit: f"{limit.rule}: {limit.name}")
def test_a_rule_tells_it_in_these_words(limit: Limit) -> None:
    assert told(limit) == in_file()[f"{limit.rule}: {limit.name}"]


def test_no_sentence_stands_in_the_file_for_nothing() -> None:
    assert list(in_file()) == [f"{limit.rule}: {limit.name}" for limit in LIMITS]


if __name__ == "__main__":
    TOLD.write_text("\n\n".join(map(told, LIMITS)) + "\n", encoding="utf-8")
