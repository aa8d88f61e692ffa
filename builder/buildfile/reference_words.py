"""The words of the build file as the reference knows them, from the declaration: place, value, example."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from builder.buildfile import declared as words
from builder.buildfile import declared_body as body
from builder.buildfile import declared_changes as changes
from builder.buildfile import declared_circuits as circuits
from builder.buildfile import declared_closing as closing
from builder.buildfile import declared_face as face
from builder.buildfile import declared_landings as landing
from builder.buildfile import declared_parts as parts
from builder.buildfile import declared_places as places
from builder.buildfile import declared_road as road
from builder.buildfile.reference_examples import ANYWHERE, FACE, HEADINGS, SHOWN
from builder.buildfile.schema import LAMPS, models, value_schema
from builder.buildfile.telling_words import EXAMPLES
from builder.tables.assumptions import defaults

COLOUR = "a colour, or two"
_BESIDE = "road lamps: beside the names"
TITLES: Mapping[type[BaseModel], str] = {
    words.BuildFileWords: HEADINGS,
    words.BuildWords: "build",
    words.TrailerWords: "trailer",
    parts.BatteryWords: "battery",
    parts.FrontBoxWords: "front box",
    face.FrontBoxFaceWords: FACE,
    face.InsideWords: "front box face: inside",
    face.PieceWords: "front box face: supply bar",
    face.RowsWords: "front box face: a piece with rows",
    landing.StudWords: "terminal studs: each thing",
    landing.EntryHoleWords: "entry holes: each hole",
    road.TowPlugWords: "tow plug",
    road.SecondPlugWords: "second plug",
    parts.WireWords: "wire",
    parts.PartWords: "parts: each part",
    circuits.CircuitWords: "circuits: each circuit",
    road.RoadLampWords: "road lamps: each lamp or pair",
    road.ReflectorWords: "reflectors: each one or pair",
    words.SpareWords: "spares: each wire",
    closing.ClosedBayWords: "closed bays: each bay that was closed",
    changes.ChangeWords: "changes: each change",
    words.OptionWords: "options: each option",
    words.MainsWords: "mains",
    road.BrakesWords: "brakes",
    words.StockWords: "in stock",
    places.PlaceWords: "places: each place",
    places.ChaseWords: "chases: each chase",
    places.SkinWords: "skins: each skin",
    places.PanelWords: "panels: each panel",
    body.BodyWords: "body",
    body.CornerWords: "profile: each point",
    body.OpeningWords: "openings: each opening",
    body.FrameWords: "frames: each frame, or several alike",
    body.BlockWords: "backing blocks: each block",
    circuits.ItemWords: "path: each item",
    circuits.ReturnWords: "return",
    circuits.BranchWords: "branches: each branch",
}
_NOTES: dict[type[BaseModel], str] = {
    closing.ClosedBayWords: "by the name that the closing list gives it: a wall, or a bay of it between two frames "
    "(left wall bay 1), or a skin with corners",
    changes.ChangeWords: "by a wire's issued number (4A), or by the name of a circuit, a part or a road lamp; battery "
    "is its line; the plan stays",
    words.OptionWords: "second fan: {parts: {bed fan: {kind: fan}}, circuits: {bed fan: {path: [bed fan: 9 ft]}}}; "
    "no figure of today counts it, and check tells what it would need",
    circuits.ItemWords: "an item is a name, or a name and a length (step lamp: 6 ft), "
    "or a name and these words (step lamp: {length: 6 ft, size: 14 AWG})",
    circuits.ReturnWords: "a length (return: 4 ft), a name (return: frame), or these words",
    places.PlaceWords: "back or ahead, up or down, and left or right where it is not in the middle; each as measured, "
    "without a sign, from the middle of the body's front at its underside; left and right facing forward",
    places.ChaseWords: "left groove: {through: [front box, left wall, galley]}; wires run from one of its places to "
    "another along straight lines",
    body.BodyWords: "measured like places: from the middle of the body's front at its underside; it is drawn to scale",
    body.CornerWords: "{back: 2 ft, up: 4 ft} on a straight line from the point before, or on an arc of a radius; "
    "the last point is joined to the first",
    body.OpeningWords: "left door: {in: left wall, back: 3 ft, up: 4 in, width: 26 in, height: 36 in}; measured as the "
    "rectangle round it",
    body.FrameWords: "left studs: {in: left wall, back: [16 in, 32 in], thick: 3/4 in}; back for upright ones, up for "
    "level ones",
    circuits.BranchWords: "branches: [{from: water pump, path: [galley lamp: 4 ft]}]",
    face.FrontBoxFaceWords: "look at the box with its lid open and measure; what is measured is drawn to scale",
    face.InsideWords: "the room inside the box, without its walls",
    face.PieceWords: "its outer measures as it hangs there, and where its upper left corner sits",
    landing.StudWords: "supply bar, ground bar, battery, or a part's name; what rings go on, and how many wires",
    landing.EntryHoleWords: "left hole: {bore: 1 in, in: left wall, takes: tow plug}; without takes it has the rest",
    face.RowsWords: "outer measures as it hangs there, where its upper left corner sits, and how its places run",
}
_BY_KIND = ("draws", "draws when idle", "works from")
_ASSUMED = {
    ("wire", "insulation"): "insulation temperature",
    ("parts: each part", "efficiency"): "converter efficiency",
}
_GROUPS = {
    "#/$defs/return": "a length, a name, or words of its own",
    "#/$defs/item": "an item",
    "#/$defs/corner": "a point",
    "#/$defs/branch": "a branch",
}


@dataclass(frozen=True, slots=True)
class Word:
    """One word of the build file in one place.

    Attributes:
        word: as it is written.
        group: where it is used, such as ``parts: each part``.
        meaning: what it says.
        value: the kind of value that stands after its colon, with the choices if the list is closed.
        needed: whether it must be there.
        left_out: what counts where it is left out; empty when its meaning says that or nothing does.
        example: one line of a build file.

    """

    word: str
    group: str
    meaning: str
    value: str
    needed: bool
    left_out: str
    example: str


@dataclass(frozen=True, slots=True)
class Group:
    """The words that stand together in one place; ``note`` tells how the place itself is written."""

    title: str
    note: str
    words: tuple[Word, ...]


@cache
def groups() -> tuple[Group, ...]:
    """Return all words, the headings first, then below each heading, then what paths are made of."""
    every: list[type[BaseModel]] = [words.BuildFileWords, *sorted(models(), key=_place)]
    beside = Word(
        "lamps", _BESIDE, LAMPS["description"], "a kind of lamp: led, filament", False, "", "lamps: led"
    )
    return (*map(_group, every), Group(_BESIDE, "one word among the names", (beside,)))


def _place(model: type[BaseModel]) -> int:
    return list(TITLES).index(model)


def _group(model: type[BaseModel]) -> Group:
    title = TITLES[model]
    fields = {info.alias or name: info for name, info in model.model_fields.items()}
    if model is circuits.ItemWords:
        del fields["name"]  # it stands before the colon and is no word of its own
    doc = (model.__doc__ or "").strip().splitlines()[0].rstrip(".")
    note = _NOTES.get(model, doc[:1].lower() + doc[1:])
    return Group(title, note, tuple(_word(title, word, info) for word, info in fields.items()))


def _word(title: str, word: str, info: FieldInfo) -> Word:
    return Word(
        word,
        title,
        info.description or "",
        _value_words(value_schema(info)),
        info.is_required(),
        _left_out(title, word),
        _example(title, word, value_schema(info)),
    )


def _left_out(title: str, word: str) -> str:
    if word in _BY_KIND and title == TITLES[parts.PartWords]:
        return "by its kind where left out"
    if (title, word) in _ASSUMED:
        row = defaults()[_ASSUMED[title, word]]
        return f"{row.value:g} {row.unit} where left out"
    return ""


def _value_words(value: Mapping[str, Any]) -> str:
    """Say in words what a schema lets stand after the colon."""
    if "$ref" in value:
        return _GROUPS.get(value["$ref"], "words of its own")
    if "enum" in value.get("anyOf", ({},))[0]:
        return f"{value['description']}: {', '.join(_texts(value['anyOf'][0]['enum']))}"
    if "anyOf" in value:
        first, *rest = value["anyOf"]
        return _value_words(first) + _or_words(first, rest)
    if value["type"] == "array":
        return f"a list, each {_value_words(value['items'])}"
    if value["type"] == "object":
        return f"names, each with {_value_words(value['additionalProperties'])}"
    return str(value["description"])


def _or_words(first: Mapping[str, Any], rest: list[Mapping[str, Any]]) -> str:
    """Say in words what may stand instead of the first of several values."""
    if [each.get("items") for each in rest] == [first]:
        return "; or a list of these"
    if [each.get("additionalProperties") for each in rest] == [first]:
        return "; or names, each with one of these"
    return "".join(f", or {_value_words(each)}" for each in rest)


def _texts(choices: Iterable[object]) -> list[str]:
    return [choice for choice in choices if isinstance(choice, str)]


def _example(title: str, word: str, value: Mapping[str, Any]) -> str:
    shown = SHOWN.get((title, word)) or ANYWHERE.get(word) or EXAMPLES.get(word)
    return shown or f"{word}: {_example_value(value)}"


def _example_value(value: Mapping[str, Any]) -> str:
    if "anyOf" in value:
        return _example_value(value["anyOf"][0])
    if value.get("type") == "array":
        return f"[{_example_value(value['items'])}]"
    return str(value["enum"][0] if "enum" in value else value["examples"][0])
