"""What whole builds are read as: every wire, part, load and assumption, with the place of its word in the file.

``read.txt`` holds it as rows. After changing on purpose what is read, write it anew with
``python tests/buildfile/test_whole_builds_read.py`` and read the difference.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import MISSING, fields, is_dataclass
from enum import Enum
from functools import cache
from pathlib import Path

import pytest

from builder.buildfile.resolving import read_build
from builder.tables.tow_plugs import PlugPattern
from builder.trailer.color import Color
from builder.trailer.origin import Origin
from builder.trailer.parts import Terminal
from builder.trailer.size import Size

HERE = Path(__file__).parent
READ = HERE / "read.txt"
WHOLE = {name: HERE / f"{name}.yaml" for name in ("bench_of_feet", "bench_of_forms", "bench_of_measures")}


def said(value: object) -> str:
    """Return a value as it stands in a row."""
    match value:
        case Origin():
            text = f"{value.line}:{value.column}+{value.length}"
        case Enum():
            text = str(value.value)
        case float():
            text = f"{value:.6g}"
        case PlugPattern():
            text = value.name
        case Color() | Size() | Terminal():
            text = str(value)
        case Mapping():
            text = f"{{{', '.join(f'{key}: {said(one)}' for key, one in value.items())}}}"
        case tuple():
            text = f"[{', '.join(map(said, value))}]"
        case _:
            text = f"({', '.join(words(value))})" if is_dataclass(value) else str(value)
    return text


def words(thing: object) -> Iterator[str]:
    """Say each field of a thing that is not as it is where the file is silent."""
    for field in fields(thing):  # type: ignore[arg-type]
        value = getattr(thing, field.name)
        silent = field.default if field.default_factory is MISSING else field.default_factory()
        if value != silent:
            yield f"{field.name} {said(value)}"


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
