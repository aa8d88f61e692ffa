"""What each broken build is told, word for word.

``told.txt`` holds the sentences as a maker reads them. After changing one on purpose, write it anew with
``python tests/buildfile/test_broken_told.py`` and read the difference.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from builder.buildfile.problems import Problem
from builder.buildfile.resolving import read_build

TOLD = Path(__file__).parent / "told.txt"
BROKEN = sorted(Path(__file__).parents[1].joinpath("broken").glob("*.yaml"))


def mends(problem: Problem) -> Iterator[str]:
    """Say what may be written to mend a problem, as far as the one who tells of it knows."""
    for mend in problem.mends:
        at = f" at {mend.at.line}:{mend.at.column}, {mend.at.length} long" if mend.at else ""
        yield f"{mend.how}{at}: {mend.text!a}{', surely' if mend.sure else ''}"


def told(path: Path) -> str:
    """Return what a broken build is told, with the places that are marked."""
    lines = [path.stem]
    for one in read_build(path.read_bytes()).problems:
        at, also = one.origin, one.also
        beside = f", with {also.line}:{also.column}, {also.length} long" if also else ""
        lines += [
            f"  {one.name} at {at.line}:{at.column}, {at.length} long{beside}",
            f"  {one.message}",
            f"  {one.help}",
            *(f"  {mend}" for mend in mends(one)),
        ]
    return "\n".join(lines)


@cache
def in_file() -> dict[str, str]:
    """Return the file's paragraphs by their first line."""
    paragraphs = TOLD.read_text(encoding="utf-8").rstrip("\n").split("\n\n")
    return {paragraph.partition("\n")[0]: paragraph for paragraph in paragraphs}


@pytest.mark.parametrize("path", BROKEN, ids=lambda path: path.stem)
def test_a_broken_build_is_told_in_these_words(path: Path) -> None:
    assert told(path) == in_file()[path.stem]


def test_no_sentence_stands_in_the_file_for_nothing() -> None:
    assert list(in_file()) == [path.stem for path in BROKEN]


if __name__ == "__main__":
    TOLD.write_text("\n\n".join(map(told, BROKEN)) + "\n", encoding="utf-8")
