"""What each rule tells, word for word: for each limit that is tried just outside, and for some builds more.

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
from more_builds import MORE_BUILDS
from rule_builds import findings

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


TRIED = {
    f"{rule}: {name}": (rule, text)
    for rule, name, text in (*((one.rule, one.name, one.outside) for one in LIMITS), *MORE_BUILDS)
}


def told(tried: str) -> str:
    """Return what the rule tells of a build, laid out for reading."""
    rule, text = TRIED[tried]
    lines = [tried]
    for one in findings(text, rule):
        place = f"line {one.origin.line}, column {one.origin.column}"
        circuit = f", circuit {one.circuit}" if one.circuit is not None else ""
        lines += [f"  {one.level} at {place}{circuit}", f"  {one.message}", f"  {one.help}"]
        lines += [f"  {one.basis} ({one.known})"]
    return "\n".join(lines)


def in_file() -> dict[str, str]:
    """Return the file's paragraphs by their first line."""
    paragraphs = TOLD.read_text(encoding="utf-8").rstrip("\n").split("\n\n")
    return {paragraph.partition("\n")[0]: paragraph for paragraph in paragraphs}


@pytest.mark.parametrize("tried", TRIED)
def test_a_rule_tells_it_in_these_words(tried: str) -> None:
    assert told(tried) == in_file()[tried]


def test_no_sentence_stands_in_the_file_for_nothing() -> None:
    assert list(in_file()) == list(TRIED)


if __name__ == "__main__":
    TOLD.write_text("\n\n".join(map(told, TRIED)) + "\n", encoding="utf-8")
