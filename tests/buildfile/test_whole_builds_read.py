"""What whole builds are read as: every wire, part, load and assumption, with the place of its word in the file.

``read.txt`` holds it as rows. After changing on purpose what is read, write it anew with
``python tests/buildfile/test_whole_builds_read.py`` and read the difference.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from functools import cache
from pathlib import Path

import pytest
from said_in_rows import said, words

from builder.buildfile.resolving import read_build

HERE = Path(__file__).parent
READ = HERE / "read.txt"
WHOLE = {name: HERE / f"{name}.yaml" for name in ("bench_of_feet", "bench_of_forms", "bench_of_measures")}


def rows(name: str) -> Iterator[str]:
    """Yield the name of a build, and a row for each thing in it."""
    yield name
    trailer = read_build(WHOLE[name].read_bytes()).trailer
    assert trailer is not None
    for field in fields(trailer):
        value = getattr(trailer, field.name)
        for one in (
            value.values() if field.name == "parts" else value if isinstance(value, tuple) else [value]
        ):
            yield f"  {field.name}: {', '.join(words(one)) if is_dataclass(one) else said(one)}"


@cache
def in_file() -> dict[str, list[str]]:
    """Return the rows of each build in the file."""
    paragraphs = READ.read_text(encoding="utf-8").rstrip("\n").split("\n\n")
    return {paragraph.partition("\n")[0]: paragraph.splitlines() for paragraph in paragraphs}


@pytest.mark.parametrize("name", WHOLE)
def test_a_whole_build_is_read_as_these_rows(name: str) -> None:
    assert list(rows(name)) == in_file()[name]


def test_no_build_stands_in_the_file_for_nothing() -> None:
    assert list(in_file()) == list(WHOLE)


if __name__ == "__main__":
    READ.write_text("\n\n".join("\n".join(rows(name)) for name in WHOLE) + "\n", encoding="utf-8")
