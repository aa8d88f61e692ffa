"""What slips of the hand are told, as a maker sees it: the line, the mark under the word, the help.

``slips_told.txt`` holds the texts. After changing one on purpose, write it anew with
``python tests/buildfile/test_slips_told.py`` and read the difference.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest
from slips_of_makers import SLIPS, SOUND, build_with
from test_broken_told import mends

from builder.buildfile.problems import render_text
from builder.buildfile.resolving import read_build

TOLD = Path(__file__).parent / "slips_told.txt"


def told(slip: str) -> str:
    """Return what a slip is told."""
    reading = read_build(build_with(slip))
    rows = [slip]
    for problem in reading.problems:
        rows += [f"[{problem.name}]", render_text([problem], "build.yaml", reading.lines).rstrip("\n")]
        rows += mends(problem)
    return "\n".join(rows)


@cache
def in_file() -> dict[str, str]:
    """Return the file's paragraphs by their first line."""
    paragraphs = TOLD.read_text(encoding="utf-8").rstrip("\n").split("\n\n")
    return {paragraph.partition("\n")[0]: paragraph for paragraph in paragraphs}


def test_the_build_is_sound_without_them() -> None:
    assert read_build(SOUND.encode()).problems == ()


@pytest.mark.parametrize("name", SLIPS)
def test_a_slip_is_told_in_these_words(name: str) -> None:
    assert told(name) == in_file()[name]


def test_no_slip_stands_in_the_file_for_nothing() -> None:
    assert list(in_file()) == list(SLIPS)


if __name__ == "__main__":
    TOLD.write_text("\n\n".join(map(told, SLIPS)) + "\n", encoding="utf-8")
