"""The reference of words: every heading, word, kind and assumption of the build file, from the declaration."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from builder.buildfile import declared as words
from builder.buildfile import declared_body as body
from builder.buildfile import declared_changes as changes
from builder.buildfile import declared_face as face
from builder.buildfile import declared_places as places
from builder.buildfile.kind_reference import WIDTH, hanging, kind_block, kinds_text, plug_text, plugs_text
from builder.buildfile.schema import LAMPS, models, value_schema
from builder.buildfile.suggesting import nearest
from builder.buildfile.synonyms import meant_anywhere
from builder.buildfile.telling import EXAMPLES
from builder.tables.assumptions import Default, defaults
from builder.tables.part_kinds import part_kinds
from builder.tables.tow_plugs import plug_patterns, second_patterns
from builder.tables.wire_colours import colour_words

_INDENT = 22
_COLOUR = "a colour, or two"
_INTRO = """\
The headings of a build file and the words below each. What is not needed may be left out.
One word with an example: wiring-manual words WORD. All kinds: wiring-manual words kind.
"""
_HEADINGS = "headings"
_FACE = "front box face"
_BESIDE = "road lamps: beside the names"
_TITLES: Mapping[type[BaseModel], str] = {
    words.BuildFileWords: _HEADINGS,
    words.BuildWords: "build",
    words.TrailerWords: "trailer",
    words.BatteryWords: "battery",
    words.FrontBoxWords: "front box",
    face.FrontBoxFaceWords: _FACE,
    face.InsideWords: "front box face: inside",
    face.PieceWords: "front box face: supply bar",
    face.RowsWords: "front box face: a piece with rows",
    words.TowPlugWords: "tow plug",
    words.SecondPlugWords: "second plug",
    words.WireWords: "wire",
    words.PartWords: "parts: each part",
    words.CircuitWords: "circuits: each circuit",
    words.RoadLampWords: "road lamps: each lamp or pair",
    words.ReflectorWords: "reflectors: each one or pair",
    words.SpareWords: "spares: each wire",
    changes.ChangeWords: "changes: each change",
    words.MainsWords: "mains",
    words.BrakesWords: "brakes",
    words.StockWords: "in stock",
    places.PlaceWords: "places: each place",
    places.ChaseWords: "chases: each chase",
    places.SkinWords: "skins: each skin",
    places.PanelWords: "panels: each panel",
    body.BodyWords: "body",
    body.CornerWords: "profile: each point",
    body.OpeningWords: "openings: each opening",
    body.FrameWords: "frames: each frame, or several alike",
    words.ItemWords: "path: each item",
    words.ReturnWords: "return",
    words.BranchWords: "branches: each branch",
}
_NOTES: dict[type[BaseModel], str] = {
    changes.ChangeWords: "by a wire's issued number (4A), or by the name of a circuit or a part; the plan stays",
    words.ItemWords: "an item is a name, or a name and a length (step lamp: 6 ft), "
    "or a name and these words (step lamp: {length: 6 ft, size: 14 AWG})",
    words.ReturnWords: "a length (return: 4 ft), a name (return: frame), or these words",
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
    words.BranchWords: "branches: [{from: water pump, path: [galley lamp: 4 ft]}]",
    face.FrontBoxFaceWords: "look at the box with its lid open and measure; what is measured is drawn to scale",
    face.InsideWords: "the room inside the box, without its walls",
    face.PieceWords: "its outer measures as it hangs there, and where its upper left corner sits",
    face.RowsWords: "outer measures as it hangs there, where its upper left corner sits, and how its places run",
}
_BY_KIND = ("draws", "draws when idle", "works from")
_ASSUMED = {
    ("wire", "insulation"): "insulation temperature",
    ("parts: each part", "efficiency"): "converter efficiency",
}
_SHOWN = {
    ("build", "number"): "number: 3",
    ("build", "stage"): "stage: walls open",
    ("build", "description"): "description: Two berths, galley at the back.",
    ("build", "address"): "address: https://example.org/mill-lane-3",
    ("build", "manual kept"): "manual kept: in the drawer under the bed",
    ("build", "ask"): "ask: the maker, at the number on the first sheet",
    ("battery", "path"): "path: [main fuse: 5 in, isolating switch: 1 ft, front box: 3 ft]",
    ("battery", "box"): "box: own box, vented outside",
    ("battery", "return"): "return: 4 ft",
    ("wire", "return"): "return: black",
    ("wire", "label length"): "label length: 2 1/2 in",
    ("wire", "outside diameters"): "outside diameters: {16 AWG: 3.1 mm, 6 AWG: 7.4 mm}",
    ("parts: each part", "outputs"): "outputs: 2",
    ("parts: each part", "leads come out"): "leads come out: left side",
    ("parts: each part", "opening"): "opening: fan opening",
    ("road lamps: each lamp or pair", "path"): "path: [hatch plug: 17 ft, rear lamp: 3 ft]",
    ("road lamps: each lamp or pair", "draws"): "draws: {tail: 0.6 A, stop: 2.1 A}",
    ("road lamps: each lamp or pair", "at"): "at: front",
    ("road lamps: each lamp or pair", "shines"): "shines: {tail: red, turn: amber}",
    ("road lamps: each lamp or pair", "bulb"): "bulb: {tail: R5W, stop: P21W}",
    ("road lamps: each lamp or pair", "count"): "count: 3",
    ("parts: each part", "at"): "at: 5 V",
    ("reflectors: each one or pair", "at"): "at: rear side",
    ("spares: each wire", "from"): "from: front box",
    ("spares: each wire", "where"): "where: tied to the left of the box",
    ("circuits: each circuit", "from"): "from: tow plug battery",
    ("circuits: each circuit", "branches"): "branches: [{from: fuse, path: [pump switch: 9 ft]}]",
    ("circuits: each circuit", "return"): "return: frame",
    ("branches: each branch", "return"): "return: ground bar",
    ("branches: each branch", "output"): "output: 2",
    ("brakes", "kind"): "kind: electric",
    ("brakes", "done by"): "done by: axle shop; paper in the document folder",
    ("mains", "done by"): "done by: licensed electrician; test sheet in the document folder",
    ("in stock", "wire"): "wire: {red 16 AWG: 20 ft, pair 16 AWG: 30 ft}",
    ("in stock", "fuses"): "fuses: {5 A: 3, 40 A blade maxi: 1}",
    ("in stock", "terminals"): "terminals: {ring 16 AWG: 20, push-on 16 AWG: 12}",
    ("in stock", "bulbs"): "bulbs: {1157: 2, 194: 4}",
    ("in stock", "labels"): "labels: 50",
    ("in stock", "parts"): "parts: [water pump, roof fan]",
    ("second plug", "pattern"): "pattern: 7-pin 12S",
    ("path: each item", "through"): "through: [front wall, left wall]",
    ("path: each item", "terminal"): "terminal: 3",
    ("return", "to"): "to: ground bar",
    ("places: each place", "left"): "left: 2 ft 4 in",
    ("places: each place", "right"): "right: 2 ft 4 in",
    ("chases: each chase", "through"): "through: [front box, left wall, galley]",
    ("chases: each chase", "kind"): "kind: conduit",
    ("chases: each chase", "hinge"): "hinge: [hinge left, hinge right]",
    ("chases: each chase", "passes sheet at"): "passes sheet at: [left wall]",
    ("chases: each chase", "carries"): "carries: both",
    ("chases: each chase", "near heat"): "near heat: flue of the heater",
    ("skins: each skin", "corners"): "corners: [upper left, upper right, lower right, lower left]",
    ("skins: each skin", "from"): "from: outside",
    ("skins: each skin", "lies on"): "lies on: [front wall, roof]",
    ("panels: each panel", "corners"): "corners: [upper left, upper right, lower right, lower left]",
    ("panels: each panel", "held by"): "held by: 6 screws",
    ("panels: each panel", "behind"): "behind: [left groove, hatch conduit]",
    ("panels: each panel", "also behind"): "also behind: gas pipe to the stove",
    ("panels: each panel", "from"): "from: outside",
    ("body", "profile"): "profile: [{back: 0 in, up: 0 in}, {back: 8 ft, up: 0 in}, {back: 8 ft, up: 4 ft}]",
    ("body", "width"): "width: 5 ft",
    ("openings: each opening", "in"): "in: left wall",
    ("openings: each opening", "width"): "width: 26 in",
    ("openings: each opening", "height"): "height: 36 in",
    ("frames: each frame, or several alike", "in"): "in: [left wall, right wall]",
    ("frames: each frame, or several alike", "back"): "back: [16 in, 32 in]",
    ("frames: each frame, or several alike", "up"): "up: 20 in",
    (
        _HEADINGS,
        "body",
    ): "body: {profile: [{back: 0 in, up: 0 in}, {back: 8 ft, up: 0 in}, {back: 8 ft, up: 4 ft}], "
    "width: 5 ft}",
    (
        _HEADINGS,
        "openings",
    ): "openings: {left door: {in: left wall, back: 3 ft, up: 4 in, width: 26 in, height: 36 in}}",
    (_HEADINGS, "frames"): "frames: {left studs: {in: left wall, back: [16 in, 32 in], thick: 3/4 in}}",
    (_HEADINGS, "places"): "places: {front box: {back: 10 in, right: 4 in, up: 14 in}}",
    (_HEADINGS, "chases"): "chases: {left groove: {through: [front box, left wall, galley]}}",
    (_HEADINGS, "skins"): "skins: {left wall: {fasteners go in: 1 in, from: outside}}",
    (
        _HEADINGS,
        "panels",
    ): "panels: {galley panel: {corners: [upper left, upper right, lower right, lower left]}}",
    (_HEADINGS, "trailer"): "trailer: {length: 12 ft 4 in, width: 5 ft 2 in, gross weight: 1400 lb}",
    (
        _HEADINGS,
        "battery",
    ): "battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}",
    (_HEADINGS, "front box"): "front box: {fuse ways: 8, fuses: blade}",
    (_HEADINGS, "front box face"): "front box face: {inside: {width: 12 in, height: 14 in}}",
    (_FACE, "inside"): "inside: {width: 12 in, height: 14 in}",
    (
        _FACE,
        "fuse block",
    ): "fuse block: {width: 4 in, height: 6 1/2 in, from left: 1 in, from top: 3 in, rows: 2}",
    (_FACE, "supply bar"): "supply bar: {width: 4 in, height: 1 in, from left: 1 in, from top: 1 in}",
    (_FACE, "strip"): "strip: {width: 1 1/2 in, height: 6 in, from left: 7 in, from top: 3 in}",
    (_FACE, "ground bar"): "ground bar: {width: 10 in, height: 1/2 in, from left: 1 in, from top: 12 in}",
    (_HEADINGS, "tow plug"): "tow plug: {pattern: 4-way flat, to front box: 7 ft}",
    (_HEADINGS, "second plug"): "second plug: {pattern: 7-pin 12S, to front box: 2.6 m}",
    (_HEADINGS, "wire"): "wire: {on the shelf: [16 AWG, 14 AWG], sold as: pair}",
    (_HEADINGS, "parts"): "parts: {fan: {kind: fan, draws: 3 A, own switch: yes}}",
    (_HEADINGS, "circuits"): "circuits: {fan: {path: [fan: 12 ft]}}",
    (_HEADINGS, "road lamps"): "road lamps: {plate lamp: {shows: plate, wire: 17 ft}}",
    (_HEADINGS, "spares"): "spares: {rear spare: {from: front box, to: rear wall, wire: 21 ft}}",
    (_HEADINGS, "changes"): "changes: {4A: {length: 15 ft, note: round the wheel well}}",
    ("changes: each change", "note"): "note: the wheel well was in the way",
    ("changes: each change", "date"): "date: 3 May",
    ("changes: each change", "fuse"): "fuse: 5 A",
    (_HEADINGS, "waiting"): "waiting: {fan: comes in spring}",
    (_HEADINGS, "brakes"): "brakes: {kind: electric, drum: 10 in, magnets: 2, breakaway battery: 5 Ah}",
    (_HEADINGS, "mains"): "mains: {what: inlet and one socket, done by: licensed electrician}",
    (_HEADINGS, "in stock"): "in stock: {wire: {red 16 AWG: 20 ft}, fuses: {5 A: 3}}",
    (_HEADINGS, "assume"): "assume: {surrounding temperature: 50 C}",
}
_ANYWHERE = {
    "where": "where: under the front bunk",
    "note": "note: white cover",
    "place": "place: front cabinet",
    "rise": "rise: 14 in",
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


def reference_text() -> str:
    """Return every word with its kind of value, meaning and what counts where it is left out."""
    return "\n".join([_INTRO, *(_group_text(group) for group in groups())])


def word_text(asked: str) -> str | None:
    """Return what there is to say of a word, a listed value, a kind or an assumption; None for an unknown one."""
    wanted = _folded(asked)
    found = [word for group in groups() for word in group.words if _folded(word.word) == wanted]
    blocks = [_word_block(word) for word in found]
    if any(word.value == _COLOUR for word in found):
        blocks.append(_filled(f"the colours: {', '.join(colour_words())}", "") + "\n")
    blocks += [
        _group_text(group)
        for group in groups()
        if _folded(group.title.partition(":")[0]) == wanted and group.title != _HEADINGS
    ]
    if wanted == "kind":
        blocks.append(kinds_text())
    if wanted == "tow plug":
        blocks.append(plugs_text())
    if wanted == "second plug":
        blocks += [plug_text(name) for name in second_patterns()]
    blocks += [plug_text(name) for name in (*plug_patterns(), *second_patterns()) if _folded(name) == wanted]
    if wanted == "assume":
        blocks.append(assumptions_text())
    blocks += [kind_block(kind) for kind in part_kinds().values() if _folded(kind.word) == wanted]
    blocks += [_assumption_text(row) for row in defaults().values() if _folded(row.id) == wanted]
    if wanted not in map(_folded, (*part_kinds(), *plug_patterns(), *second_patterns(), "yes", "no")):
        blocks += [
            _choice_block(word, wanted, group) for group in groups() for word in _taking(group, wanted)
        ]
    return "\n".join(blocks) or None


def _taking(group: Group, wanted: str) -> list[Word]:
    """Return the words of a group whose closed list of values holds a folded one."""
    return [word for word in group.words if wanted in map(_folded, _choices(word))]


def _choices(word: Word) -> list[str]:
    listed = word.value.partition(";")[0].partition(": ")[2]
    return listed.split(", ") if listed else []


def _choice_block(word: Word, wanted: str, group: Group) -> str:
    """Say of a value where it is written, and which words beside it speak of it."""
    value = next(choice for choice in _choices(word) if _folded(choice) == wanted)
    heading = word.value.partition(":")[0]
    lines = [
        f"{value} ({heading}; in {group.title})",
        _filled(f"{word.word}: {word.meaning}", "  "),
        f"  as in: {word.word}: {value}",
    ]
    lines += [
        _filled(f"{other.word}: {other.meaning}", "  ")
        for other in group.words
        if other is not word and re.search(rf"\b{re.escape(value)}\b", other.meaning)
    ]
    return "\n".join(lines) + "\n"


def nearest_known(asked: str) -> str | None:
    """Return the known word that an unknown one most likely stands for, or None."""
    known = {_folded(word): word for word in known_words()}
    wanted = _folded(asked)
    near = nearest(wanted, known)
    return meant_anywhere(wanted) or (known[near] if near else None)


def known_words() -> tuple[str, ...]:
    """Return everything that ``word_text`` knows, each once: words, kinds, tow plugs, assumptions."""
    all_words = [word.word for group in groups() for word in group.words]
    return tuple(
        dict.fromkeys([*all_words, *part_kinds(), *plug_patterns(), *second_patterns(), *defaults()])
    )


def assumptions_text() -> str:
    """Return every general assumption with its value, its range, and the reason."""
    head = "What is assumed where the file is silent; assume: puts your own value in its place\n"
    return head + "".join(_assumption_text(row) for row in defaults().values())


def _folded(word: str) -> str:
    return " ".join(word.casefold().replace("-", " ").replace("_", " ").split())


def _place(model: type[BaseModel]) -> int:
    return list(_TITLES).index(model)


def _group(model: type[BaseModel]) -> Group:
    title = _TITLES[model]
    fields = {info.alias or name: info for name, info in model.model_fields.items()}
    if model is words.ItemWords:
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
    if word in _BY_KIND and title == _TITLES[words.PartWords]:
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
    shown = _SHOWN.get((title, word)) or _ANYWHERE.get(word) or EXAMPLES.get(word)
    return shown or f"{word}: {_example_value(value)}"


def _example_value(value: Mapping[str, Any]) -> str:
    if "anyOf" in value:
        return _example_value(value["anyOf"][0])
    if value.get("type") == "array":
        return f"[{_example_value(value['items'])}]"
    return str(value["enum"][0] if "enum" in value else value["examples"][0])


def _group_text(group: Group) -> str:
    head = textwrap.fill(f"{group.title} - {group.note}", WIDTH, subsequent_indent="  ")
    return head + "\n" + "".join(_row(word) for word in group.words)


def _row(word: Word) -> str:
    status = [*(["needed"] if word.needed else []), word.value, *([word.left_out] if word.left_out else [])]
    margin = " " * (_INDENT + 2)
    meaning = textwrap.fill(
        word.meaning, WIDTH, initial_indent=f"  {word.word:<{_INDENT - 1}} ", subsequent_indent=margin
    )
    return meaning + "\n" + _filled("; ".join(status), margin) + "\n"


def _word_block(word: Word) -> str:
    status = "needed" if word.needed else word.left_out or "may be left out"
    return (
        f"{word.word} (in {word.group})\n"
        + _filled(f"{word.meaning}", "  ")
        + "\n"
        + _filled(f"{word.value}; {status}", "  ")
        + f"\n  as in: {word.example}\n"
    )


def _filled(text: str, margin: str) -> str:
    return textwrap.fill(text, WIDTH, initial_indent=margin, subsequent_indent=margin, break_on_hyphens=False)


def _assumption_text(row: Default) -> str:
    value = f"{row.value:g} {row.unit} ({row.low:g} to {row.high:g})"
    return hanging(row.id, f"{value}: {row.about}; {row.reason} [{row.known}]")
