"""Words that a build file may hold: one of a closed list, a colour, a name, a free text."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Annotated

from pydantic import PlainValidator
from pydantic_core import CoreSchema, core_schema

from builder.buildfile.nodes import Text
from builder.buildfile.problems import instead
from builder.buildfile.suggesting import did_you_mean, near_words, sure_of
from builder.buildfile.value_reading import leaf, list_words, schema_of, trouble, within
from builder.buildfile.written import Written
from builder.tables.wire_colours import colour_words
from builder.trailer.color import Color


@dataclass(frozen=True, slots=True, eq=False)
class OneOf:
    """The type of a value from a closed list; ``also`` maps further spellings to its words.

    ``place`` names the list of synonyms that makers use there. ``several`` is true where a list of them may stand.
    ``refused`` has the help of words that are no slips, and are told of by themselves.
    """

    what: str
    words: Callable[[], Iterable[str]]
    also: Mapping[str, str] = field(default_factory=dict)
    place: str = ""
    several: bool = False
    refused: Mapping[str, str] = field(default_factory=dict)

    def __get_pydantic_core_schema__(self, _source: object, _handler: object) -> CoreSchema:
        """Let pydantic call :meth:`read`."""
        return core_schema.no_info_plain_validator_function(self.read)

    def __get_pydantic_json_schema__(self, _schema: object, _handler: object) -> dict[str, object]:
        """Return the closed list for editors."""
        return {"type": "string", "description": self.what, "enum": [*self.words(), *sorted(self.also)]}

    def read(self, value: object) -> Written[str]:
        """Return the word of the list that a text stands for; raises the problem otherwise."""
        text = leaf(value, self.what)
        known = list(self.words())
        folded = " ".join(text.value.casefold().split())
        by_fold = {word.casefold(): word for word in known} | dict(self.also)
        if folded in by_fold:
            return Written(by_fold[folded], text.value, text.origin)
        if self.several:
            _told_apart(text, folded, by_fold)
        near = tuple(dict.fromkeys(by_fold[one] for one in near_words(folded, by_fold)))
        near = near or near_words(folded, known, self.place)
        hint = f"{did_you_mean(near)} " if near else ""
        raise trouble(
            text.origin,
            "unknown choice",
            f"“{text.value}” is not {self.what} known here",
            self.refused[folded]
            if folded in self.refused
            else f"{hint}the choices are: {list_words(known, 40)}",
            instead(*near, sure=sure_of(folded, near)),
        )


def _told_apart(text: Text, folded: str, known: Iterable[str]) -> None:
    """Raise the problem of several words of a list that stand without its brackets: ``tail stop turn``."""
    word = "|".join(re.escape(one) for one in sorted(known, key=len, reverse=True))
    gap = r"(?:\s*[,/&+;]\s*|\s+and\s+|\s+)"
    if not re.fullmatch(f"(?:{word})(?:{gap}(?:{word}))+", folded):
        return
    row = ", ".join(re.findall(f"(?:{word})", folded))
    raise trouble(
        text.origin,
        "unknown choice",
        f"“{text.value}” is several words, and each counts by itself",
        f"put them in brackets, with commas: [{row}]",
        instead(f"[{row}]", row, at=text.origin),
    )


def _read_text(value: object) -> Written[str]:
    text = leaf(value, "a text")
    if not text.value.strip():
        raise trouble(
            text.origin, "empty value", "this text is empty", "write something, or take the line out"
        )
    return Written(text.value, text.value, text.origin)


FreeText = Annotated[Written[str], PlainValidator(_read_text), schema_of("a text")]


def _read_name(value: object) -> Written[str]:
    text = leaf(value, "a name")
    name = " ".join(text.value.split())
    if not any(letter.isalnum() for letter in name):
        raise trouble(
            text.origin,
            "name without a letter",
            f"“{text.value}” holds no letter or number",
            "give it a name you can say",
        )
    return Written(name, text.value, text.origin)


Name = Annotated[Written[str], PlainValidator(_read_name), schema_of("a name")]


def read_colour(value: object) -> Written[Color]:
    """Return the colour that a text names, base and tracer; raises the problem of an unknown one."""
    text = leaf(value, "a colour such as red, or yellow with black")
    words = " ".join(text.value.casefold().replace("/", " with ").replace(",", " with ").split())
    words = words.removesuffix(" tracer").removesuffix(" stripe").replace("gray", "grey")
    base, _, tracer = words.partition(" with ")
    known = colour_words()
    for word in filter(None, (base, tracer)):
        if word not in known:
            near = near_words(word, known, "colour")
            at = max(text.value.casefold().find(word), 0)
            raise trouble(
                within(text, at, len(word)),
                "unknown colour",
                f"“{word}” is not a wire colour known here",
                did_you_mean(near)
                or f"write one colour, or two as in “yellow with black”; the colours are: {list_words(known, 30)}",
                instead(*near, sure=sure_of(word, near)),
            )
    return Written(Color(base, tracer), text.value, text.origin)


ColourWords = Annotated[
    Written[Color], PlainValidator(read_colour), schema_of("a colour, or two", "red", "yellow with black")
]
