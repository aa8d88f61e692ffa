"""The numbers of the example for tests that read it by its bytes: its changes go by issued numbers."""

from __future__ import annotations

from pathlib import Path

from builder.buildfile.numbered import NumbersFile
from builder.numbers_beside import numbers_beside

EXAMPLE = Path(__file__).parents[1] / "example_build" / "trailer.yaml"


def numbers_of(data: bytes) -> NumbersFile | None:
    """Return the file of numbers for the example, or for what a test made of it; None for any other build.

    Where its changes were taken out, all its numbers are drafts again.
    """
    changed = b"\nchanges:" in data and b"name: Plum Ladder" in data
    return numbers_beside(EXAMPLE) if changed else None


def as_planned(data: bytes) -> bytes:
    """Return the example without what was done otherwise."""
    before, _, after = data.partition(b"\nchanges:\n")
    return before + b"\n" + after[after.index(b"\n\n") :] if after else data
