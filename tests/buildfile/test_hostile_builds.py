"""Broken builds, broken further at random: each is read to a trailer or to problems that stand in the file."""

from __future__ import annotations

import random
import re
from pathlib import Path

import pytest

from builder.buildfile.resolving import read_build

ROOT = Path(__file__).parents[2]
SOURCES = [
    path.read_text(encoding="utf-8", errors="replace")
    for path in (
        *sorted((ROOT / "example_build").rglob("trailer.yaml")),
        *sorted((ROOT / "tests" / "broken").glob("*.yaml")),
    )
]
WORDS = sorted({word for text in SOURCES for word in re.findall(r"[\w.½]+(?: \w+)?", text)})


def changed(lines: list[str], rng: random.Random) -> list[str]:
    """Return the lines with one of them taken out, doubled, or changed in a word or a sign."""
    place = rng.randrange(len(lines))
    before, line, after = lines[:place], lines[place], lines[place + 1 :]
    pieces = re.findall(r"[\w.½]+|\W", line) or [""]
    piece = rng.randrange(len(pieces))
    sign = rng.choice("[]{}:,-#\"' &*")
    return rng.choice(
        [
            [*before, *after] or [""],
            [*before, line, rng.choice(lines), *after],
            [*before, "".join([*pieces[:piece], rng.choice(WORDS), *pieces[piece + 1 :]]), *after],
            [*before, "".join([*pieces[:piece], sign, *pieces[piece:]]), *after],
            [*before, "".join([*pieces[:piece], *pieces[piece + 1 :]]), *after],
            [*before, line + rng.choice(lines).strip(), *after],
        ]
    )


@pytest.mark.parametrize("seed", range(20))
def test_a_changed_build_is_read_or_its_problems_are_told(seed: int) -> None:
    rng = random.Random(seed)  # noqa: S311  the same changes on every run
    for _ in range(40):
        lines = rng.choice(SOURCES).split("\n")
        for _ in range(rng.randint(1, 4)):
            lines = changed(lines, rng)
        reading = read_build("\n".join(lines).encode())
        assert (reading.trailer is None) == bool(reading.problems)
        for problem in reading.problems:
            assert 1 <= problem.origin.line <= len(reading.lines)
            assert problem.message
            assert problem.help
