"""The JSON Schema of the build file for editors, made from the declaration.

An editor reads YAML before it checks: it sees ``format: 1`` as a number and ``own switch: yes`` perhaps as a
truth value, where our reader takes the text. So the schema lets every scalar pass in each shape that an
editor may see, and holds the short forms of a path's items and of returns.
"""

from __future__ import annotations

import types
from collections.abc import Iterable
from typing import Annotated, Any, Union, get_args, get_origin

from pydantic import BaseModel, BeforeValidator, WithJsonSchema
from pydantic.fields import FieldInfo

from builder.buildfile import declared as words
from builder.buildfile import declared_circuits as circuits
from builder.buildfile.choices import listed, one_for_all
from builder.buildfile.value_words import OneOf
from builder.tables.assumptions import defaults

Json = dict[str, Any]

DRAFT = "https://json-schema.org/draft/2020-12/schema"
_SCALAR = ["string", "number", "boolean"]
_AS_AN_EDITOR_SEES: dict[str, Json] = {
    "a text": {"type": _SCALAR, "minLength": 1},
    "a name": {"type": _SCALAR, "minLength": 1},
    "a whole number": {"type": ["string", "integer"]},
}
LAMPS: Json = {
    "description": "led or filament: what all road lamps are, where their own draws do not say more",
    "enum": ["led", "filament"],
}
"""The one word that stands beside the names of road lamps."""


def build_schema() -> Json:
    """Return the schema of a whole build file (JSON Schema, draft 2020-12); the same on every call."""
    whole = _object_of(words.BuildFileWords)
    whole["properties"]["road lamps"]["properties"] = {"lamps": LAMPS}
    whole["properties"]["assume"]["properties"] = {
        row.id: {
            "type": _SCALAR,
            "description": f"{row.about} (assumed: {row.value:g} {row.unit})",
        }
        for row in defaults().values()
    }
    return {
        "$schema": DRAFT,
        "title": "Build file of a wiring manual",
        **whole,
        "$defs": {_name(model): _definition(model) for model in models()},
    }


def models() -> tuple[type[BaseModel], ...]:
    """Return every group of words below the headings, in the order of the build file."""
    found: dict[type[BaseModel], None] = {}
    waiting: list[type[BaseModel]] = [words.BuildFileWords]
    while waiting:
        model = waiting.pop(0)
        inner = [m for info in model.model_fields.values() for m in _models_in(info.annotation)]
        waiting += [m for m in dict.fromkeys(inner) if m not in found]
        found |= dict.fromkeys(inner)
    return tuple(found)


def value_schema(info: FieldInfo) -> Json:
    """Return the schema of one word's value; its ``description`` says what kind of value, in words."""
    return _schema(info.annotation, info.metadata)


def _name(model: type[BaseModel]) -> str:
    return model.__name__.removesuffix("Words").lower()


def _models_in(annotation: Any) -> list[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return [annotation]
    return [model for arg in get_args(annotation) for model in _models_in(arg)]


def _definition(model: type[BaseModel]) -> Json:
    if model is circuits.ItemWords:
        return _item()
    if model is circuits.ReturnWords:
        return {"oneOf": [{"type": "string", "minLength": 1}, _object_of(model)]}
    return _object_of(model)


def _item() -> Json:
    """Return an item of a path: a lone name, a name with a length, or a name with a group of words."""
    more = _object_of(circuits.ItemWords)
    del more["properties"]["name"], more["required"]
    length = value_schema(circuits.ItemWords.model_fields["length"])
    return {
        "oneOf": [
            {"type": _SCALAR, "description": "a part where the wire's length is known without it"},
            {
                "type": "object",
                "minProperties": 1,
                "maxProperties": 1,
                "additionalProperties": {"oneOf": [length, more]},
            },
        ]
    }


def _object_of(model: type[BaseModel]) -> Json:
    fields = {info.alias or name: info for name, info in model.model_fields.items()}
    needed = [word for word, info in fields.items() if info.is_required()]
    return {
        "type": "object",
        "description": (model.__doc__ or "").strip().splitlines()[0],
        "properties": {word: _property(info) for word, info in fields.items()},
        **({"required": needed} if needed else {}),
        "additionalProperties": False,
    }


def _property(info: FieldInfo) -> Json:
    value = value_schema(info)
    kind = value.get("description", "")
    meaning = info.description or ""
    return {**value, "description": f"{meaning} ({kind})" if kind and kind != meaning else meaning}


def _schema(annotation: Any, metadata: Iterable[Any] = ()) -> Json:
    metadata = list(metadata)
    leaf = _leaf(metadata)
    if leaf is not None:
        return leaf
    origin, args = get_origin(annotation), get_args(annotation)
    if origin is Annotated:
        return _schema(args[0], [*args[1:], *metadata])
    if origin in (Union, types.UnionType):
        kinds = [_schema(arg, metadata) for arg in args if arg is not type(None)]
        return kinds[0] if len(kinds) == 1 else {"anyOf": kinds}
    if origin is list:
        listed = {"type": "array", "items": _schema(args[0])}
        return {"anyOf": [_schema(args[0]), listed]} if _one_will_do(metadata) else listed
    if origin is dict:
        named = {"type": "object", "additionalProperties": _schema(args[1])}
        return {"anyOf": [_schema(args[1]), named]} if _one_will_do(metadata) else named
    return {"$ref": f"#/$defs/{_name(annotation)}"}


def _one_will_do(metadata: list[Any]) -> bool:
    """Whether the declaration also reads one value where a list, or names with a value each, is wanted."""
    return any(isinstance(mark, BeforeValidator) and mark.func in (listed, one_for_all) for mark in metadata)


def _leaf(metadata: list[Any]) -> Json | None:
    for mark in metadata:
        if isinstance(mark, OneOf):
            return _choices(mark.what, mark.words(), mark.also)
        if isinstance(mark, WithJsonSchema) and mark.json_schema is not None:
            return _as_an_editor_sees({**mark.json_schema})
    return None


def _as_an_editor_sees(value: Json) -> Json:
    kind = value["description"]
    if kind == "yes or no":
        answers = _choices(kind, ("yes", "no"), ("true", "false"))
        answers["anyOf"][0]["enum"] += [True, False]
        return answers
    kept = {key: part for key, part in value.items() if part != []}
    return {**kept, **_AS_AN_EDITOR_SEES.get(kind, {})}


def _choices(kind: str, choices: Iterable[str], also: Iterable[str]) -> Json:
    """Return a closed list; further spellings and other capitals pass, and an editor does not offer them."""
    listed = list(choices)
    numbers = [int(word) for word in listed if word.isdigit()]
    pattern = "|".join(map(_any_case, [*listed, *also]))
    return {
        "description": kind,
        "anyOf": [{"enum": [*listed, *numbers]}, {"type": "string", "pattern": f"^({pattern})$"}],
    }


def _any_case(word: str) -> str:
    """Return a pattern for a word in any capitals; JSON Schema has no switch for that."""
    return "".join(
        f"[{letter.upper()}{letter.lower()}]"
        if letter.isalpha()
        else (letter if letter.isalnum() or letter in " -" else f"[{letter}]")
        for letter in word
    )
