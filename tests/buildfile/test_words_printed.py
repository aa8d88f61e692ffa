"""The reference of words, kinds, plugs and assumptions, and the schema for editors, word for word.

``words.txt`` holds what ``wiring-manual words`` and ``wiring-manual schema`` print. After changing a word on purpose,
write it anew with ``python tests/buildfile/test_words_printed.py`` and read the difference.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest

from builder.buildfile.kind_reference import kinds_text, plugs_text
from builder.buildfile.reference import assumptions_text, known_words, reference_text, word_text
from builder.buildfile.schema import build_schema

PRINTED = Path(__file__).parent / "words.txt"
PARTED = "\n=======\n"
ASKED = ("draws", "fuses", "Kind", "fan", "circuits", "return", "red", "7-way blade", "filament", "zeppelin")


def _of_single_words() -> str:
    return "\n".join(f"{word}? {word_text(word)}" for word in ASKED)


def _schema() -> str:
    """Return the schema with each definition and each heading on a line of its own."""
    schema = build_schema()
    rows = [
        f"{key}: {json.dumps(value, ensure_ascii=False)}" for key, value in schema.items() if key != "$defs"
    ]
    return "\n".join(
        rows + [f"{key}: {json.dumps(value, ensure_ascii=False)}" for key, value in schema["$defs"].items()]
    )


TEXTS: dict[str, Callable[[], str]] = {
    "words": reference_text,
    "single words": _of_single_words,
    "all that can be asked for": lambda: "\n".join(known_words()),
    "kinds": kinds_text,
    "plugs": plugs_text,
    "assumptions": assumptions_text,
    "schema": _schema,
}


def printed(name: str) -> str:
    """Return a text under its name, as it stands in the file."""
    return f"{name}\n" + "\n".join(row.rstrip() for row in TEXTS[name]().splitlines())


@cache
def in_file() -> dict[str, str]:
    """Return the texts of the file by their names."""
    texts = PRINTED.read_text(encoding="utf-8").rstrip("\n").split(PARTED)
    return {text.partition("\n")[0]: text for text in texts}


@pytest.mark.parametrize("name", TEXTS)
def test_a_text_is_printed_in_these_words(name: str) -> None:
    assert printed(name) == in_file()[name].rstrip()


def test_no_text_stands_in_the_file_for_nothing() -> None:
    assert list(in_file()) == list(TEXTS)


if __name__ == "__main__":
    PRINTED.write_text(PARTED.join(map(printed, TEXTS)) + "\n", encoding="utf-8")
