"""How one value of a build file is read: its text, where it stands, and the problem of one that cannot be read."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TypeVar

from pydantic import PlainValidator, WithJsonSchema
from pydantic_core import PydanticCustomError

from builder.buildfile.nodes import Text
from builder.buildfile.problems import Mend, in_quotes, instead
from builder.buildfile.reading_scalars import curly_quotes
from builder.buildfile.written import Key, Written, origin_of
from builder.quantities import Misread
from builder.trailer.origin import Origin

T = TypeVar("T")


def trouble(
    origin: Origin, name: str, message: str, help_: str, mends: tuple[Mend, ...] = ()
) -> PydanticCustomError:
    """Return the error that carries one of our problems through the validation."""
    return PydanticCustomError(
        "trouble",
        "{message}",
        {
            "line": origin.line,
            "column": origin.column,
            "length": origin.length,
            "name": name,
            "message": message,
            "help": help_,
            "mends": mends,
        },
    )


def leaf(value: object, wanted: str, curly: bool = False) -> Text:
    """Return a value as a text; with ``curly`` it may stand in typographic quotes."""
    if isinstance(value, Text):
        if value.curly and not curly:
            told = curly_quotes(value.origin)
            raise trouble(told.origin, told.name, told.message, told.help)
        return value
    if isinstance(value, Key):
        return Text(str(value), value.origin, quoted=False)
    shape = "a list" if isinstance(value, list) else "a group of names and values"
    raise trouble(
        origin_of(value), "wrong shape", f"{shape} stands where {wanted} is wanted", f"write {wanted}"
    )


def within(text: Text, start: int, length: int) -> Origin:
    """Return where a part of a text stands; the text itself where that is beyond the line on which it begins."""
    shift = start + (1 if text.quoted or text.curly else 0)
    if shift > text.origin.length:
        return text.origin
    return Origin(text.origin.line, text.origin.column + shift, max(length, 1))


def quantity(read: Callable[[str], T | Misread], wanted: str) -> PlainValidator:
    """Return what reads a text by a reader of quantities; ``wanted`` says what should stand there."""

    def validate(value: object) -> Written[T]:
        text = leaf(value, wanted, curly=True)
        result = read(text.value)
        if isinstance(result, Misread):
            place = within(text, result.start, result.length)
            mends = instead(*(in_quotes(fix, text.quoted) for fix in result.fixes), at=text.origin)
            raise trouble(place, "misread value", result.message, result.help, mends)
        return Written(result, text.value, text.origin)

    return PlainValidator(validate)


def schema_of(description: str, *examples: str) -> WithJsonSchema:
    """Return the schema of a text that an editor is told of, with examples."""
    return WithJsonSchema({"type": "string", "description": description, "examples": list(examples)})


def list_words(words: Iterable[str], limit: int = 14) -> str:
    """Return words as a list in a sentence, cut after ``limit`` of them."""
    some = list(words)
    return ", ".join(some[:limit]) + (" …" if len(some) > limit else "")
