"""From plain values to declared words: every entry by itself, so that all problems are told at once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, TypeVar, get_args, get_origin

from pydantic import BaseModel, TypeAdapter, ValidationError
from pydantic_core import ErrorDetails

from builder.buildfile import declared as words
from builder.buildfile.nodes import Pairs, Text
from builder.buildfile.problems import Problem
from builder.buildfile.values import list_words, nearest
from builder.buildfile.written import Key, Written, find_origin, to_plain
from builder.trailer.origin import NOWHERE, Origin

M = TypeVar("M", bound=BaseModel)

_THIS: Mapping[type[BaseModel], str] = {
    words.BuildFileWords: "the build file",
    words.BuildWords: "the heading “build”",
    words.BatteryWords: "the battery",
    words.FrontBoxWords: "the front box",
    words.TowPlugWords: "the tow plug",
    words.TrailerWords: "the heading “trailer”",
    words.WireWords: "the heading “wire”",
    words.MainsWords: "the heading “mains”",
    words.PartWords: "this part",
    words.CircuitWords: "this circuit",
    words.BranchWords: "this branch",
    words.ItemWords: "this item of the path",
    words.ReturnWords: "this return",
    words.RoadLampWords: "this road lamp",
    words.SpareWords: "this spare wire",
}

EXAMPLES = {
    "kind": "kind: lamp",
    "path": "path: [step switch: 14 ft, step lamp: 6 ft]",
    "capacity": "capacity: 35 Ah",
    "chemistry": "chemistry: agm",
    "fuse ways": "fuse ways: 8",
    "pattern": "pattern: 4-way flat",
    "to front box": "to front box: 7 ft",
    "on the shelf": "on the shelf: [16 AWG, 14 AWG, 12 AWG]",
    "name": "name: Quarry Bend",
    "shows": "shows: [tail, stop, turn]",
    "from": "from: fuse",
    "to": "to: rear wall",
    "wire": "wire: 21 ft",
    "what": "what: inlet, breaker and one socket",
    "format": "format: 1",
    "build": "build: {name: Quarry Bend, number: 1, country: US}",
    "branches": "branches: [{from: fuse, path: [step lamp: 6 ft]}]",
    "fuses on the shelf": "fuses on the shelf: [3 A, 5 A]",
    "parts": "parts: {fan: {kind: fan, draws: 3 A}}",
    "circuits": "circuits: {fan: {path: [fan: 12 ft]}}",
    "road lamps": "road lamps: {plate lamp: {shows: plate, wire: 17 ft}}",
    "spares": "spares: {rear spare: {from: front box, to: rear wall, wire: 21 ft}}",
    "waiting": "waiting: {charging socket: its wire is coiled behind the panel}",
    "assume": "assume: {surrounding temperature: 35 C}",
}

_GROUPS: Mapping[type[BaseModel], str] = {
    words.PartWords: "fan: {kind: fan, draws: 3 A}",
    words.CircuitWords: "fan: {path: [fan: 12 ft]}",
    words.RoadLampWords: "plate lamp: {shows: plate, wire: 17 ft}",
    words.BatteryWords: "battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}",
    words.FrontBoxWords: "front box: {fuse ways: 8}",
    words.TowPlugWords: "tow plug: {pattern: 4-way flat, to front box: 7 ft}",
    words.WireWords: "wire: {on the shelf: [16 AWG, 14 AWG]}",
    words.BuildWords: "build: {name: Quarry Bend, country: US}",
    words.TrailerWords: "trailer: {length: 12 ft, width: 5 ft}",
    words.SpareWords: "rear spare: {from: front box, to: rear wall, wire: 21 ft}",
    words.MainsWords: "mains: {what: inlet and one socket, done by: …}",
    words.BranchWords: "branches: [{from: fuse, path: [step lamp: 6 ft]}]",
}

_NOTHING = {"on the shelf": "no size", "path": "no item", "shows": "no function"}

SYNONYMS = {
    "amps": "draws",
    "amp": "draws",
    "watts": "draws",
    "power": "draws",
    "current": "draws",
    "load": "draws",
    "type": "kind",
    "colour": "color",
    "gauge": "size",
    "awg": "size",
    "length": "path",
    "location": "where",
    "place": "where",
    "breaker": "fuse",
    "side": "side",
    "pins": "ways",
    "function": "shows",
    "functions": "shows",
    "route": "path",
    "voltage": "at",
}


@dataclass(frozen=True, slots=True)
class Declared:
    """What a build file declares: its single headings and its named entries, each already valid.

    ``broken`` holds the folded names of entries that were written but have problems of their own, so that
    nothing is said twice about them.
    """

    build: words.BuildWords | None = None
    trailer: words.TrailerWords | None = None
    battery: words.BatteryWords | None = None
    front_box: words.FrontBoxWords | None = None
    tow_plug: words.TowPlugWords | None = None
    wire: words.WireWords | None = None
    mains: words.MainsWords | None = None
    parts: Mapping[Key, words.PartWords] = field(default_factory=dict)
    circuits: Mapping[Key, words.CircuitWords] = field(default_factory=dict)
    road_lamps: Mapping[Key, words.RoadLampWords] = field(default_factory=dict)
    spares: Mapping[Key, words.SpareWords] = field(default_factory=dict)
    waiting: Mapping[Key, Written[str]] = field(default_factory=dict)
    assume: Mapping[Key, Written[str]] = field(default_factory=dict)
    lamps: Written[str] | None = None
    places: Mapping[str, Origin] = field(default_factory=dict)
    broken: frozenset[str] = frozenset()


def fold(name: str) -> str:
    """Return a name as names are compared: case and blanks do not count."""
    return " ".join(name.casefold().split())


def declare(root: Pairs, unread: tuple[str, ...] = ()) -> tuple[Declared, tuple[Problem, ...]]:
    """Check every heading and entry against the declaration; return what is valid, and all problems.

    ``unread`` are headings that stand in the file and could not be read: they count as written, and broken.
    """
    plain = to_plain(root)
    problems = list(plain.problems)
    data = plain.data if isinstance(plain.data, dict) else {}
    newer = _newer_format(data)
    if newer is not None:
        return Declared(), (newer,)
    found: dict[str, Any] = {"places": {str(key): key.origin for key in data}}
    broken: set[str] = {fold(name) for name in unread}
    fields = {info.alias or name: name for name, info in words.BuildFileWords.model_fields.items()}
    for key, value in data.items():
        if key not in fields:
            problems.append(unknown_heading(key, value))
            broken |= {nearest_word(key, words.BuildFileWords) or ""}
        elif key != "format":
            _heading(key, value, fields[key], (found, broken, problems))
    problems += _missing_headings(data, broken)
    return Declared(**found, broken=frozenset(broken)), tuple(problems)


def _newer_format(data: dict[Key, object]) -> Problem | None:
    value = next((value for key, value in data.items() if key == "format"), None)
    if isinstance(value, Text) and value.value.strip() != "1":
        return Problem(
            value.origin,
            "newer format",
            f"this file says format {value.value}: it is written for a newer version of this tool"
            if value.value.strip().isdigit() and value.value.strip() != "0"
            else f"format “{value.value}” is not known",
            "use the version it was written for, or write format: 1",
        )
    return None


def _missing_headings(data: dict[Key, object], broken: set[str]) -> list[Problem]:
    return [
        Problem(NOWHERE, "missing heading", f"the build file has no “{name}”", f"add the line {EXAMPLES[name]}")
        for name in ("format", "build")
        if name not in data and name not in broken
    ]


def _heading(
    key: Key, value: object, name: str, sink: tuple[dict[str, Any], set[str], list[Problem]]
) -> None:
    found, broken, problems = sink
    annotation = words.BuildFileWords.model_fields[name].annotation
    if get_origin(annotation) is dict:
        if not isinstance(value, dict):
            problems.append(
                wrong_shape(key.origin, key, "names, each with what belongs to it,", EXAMPLES.get(key, ""))
            )
            broken.add(fold(key))
            return
        entries = dict(value)
        if name == "road_lamps":
            lamps = next((k for k in entries if k == "lamps"), None)
            if lamps is not None and isinstance(entries[lamps], Text):
                found["lamps"] = _lamps(entries.pop(lamps), problems)
        found[name] = _entries(entries, get_args(annotation), broken, problems)
        return
    model = next(arg for arg in get_args(annotation) or (annotation,) if arg is not type(None))
    valid, more = validate(model, value, key)
    problems += more
    if valid is not None:
        found[name] = valid
    else:
        broken.add(fold(key))


def _lamps(value: Text, problems: list[Problem]) -> Written[str] | None:
    word = value.value.strip().casefold()
    if word in {"led", "filament"}:
        return Written(word, value.value, value.origin)
    problems.append(
        Problem(
            value.origin,
            "unknown choice",
            f"“{value.value}” is not a kind of lamp",
            "write lamps: led or lamps: filament",
        )
    )
    return None


def _entries(
    value: dict[Key, object], types: tuple[Any, ...], broken: set[str], problems: list[Problem]
) -> dict[Key, object]:
    entries: dict[Key, object] = {}
    for name, entry in value.items():
        key, trouble = _check_key(types[0], name)
        valid, more = validate(types[1], entry, name)
        if isinstance(entry, Text) and entry.value in ("led", "filament") and types[1] is words.RoadLampWords:
            more = [lamps_word(name, entry)]
        problems += trouble + more
        if valid is None or key is None:
            broken.add(fold(name))
        else:
            entries[key] = valid
    return entries


def _check_key(key_type: Any, name: Key) -> tuple[Key | None, list[Problem]]:
    try:
        return TypeAdapter(key_type).validate_python(name), []
    except ValidationError as error:
        return None, [_ours(detail, name, name.origin) for detail in error.errors()]


def validate(model: Any, value: object, key: Key) -> tuple[Any, list[Problem]]:
    """Return the valid model of a value, or None, with the problems; ``key`` is its name."""
    try:
        return TypeAdapter(model).validate_python(value), []
    except ValidationError as error:
        details = error.errors(include_url=False)
        return None, _problems_of(details, model, value, key)


def _problems_of(details: list[ErrorDetails], model: Any, value: object, key: Key) -> list[Problem]:
    unknown = [detail for detail in details if detail["type"] == "extra_forbidden"]
    guesses = {
        (detail["loc"][:-1], nearest_word(str(detail["loc"][-1]), _model_at(model, detail["loc"][:-1])))
        for detail in unknown
    }
    problems = []
    for detail in details:
        if detail["type"] == "missing" and (detail["loc"][:-1], str(detail["loc"][-1])) in guesses:
            continue  # the misspelt word is the missing one: one cause, one message
        problems.append(_problem_of(detail, model, value, key))
    return list(dict.fromkeys(problems))


def _problem_of(detail: ErrorDetails, model: Any, value: object, name: Key) -> Problem:
    path, place = detail["loc"], name.origin
    if detail["type"] == "trouble":
        return _ours(detail, value, place)
    if detail["type"] == "extra_forbidden":
        key = Key.of(str(path[-1]), find_origin(value, path))
        return _unknown(key, _model_at(model, path[:-1]))
    here = find_origin(value, path[:-1]) if len(path) > 1 else place
    if detail["type"] == "missing":
        what = str(path[-1])
        owner = _model_at(model, path[:-1])
        return Problem(
            here,
            "missing word",
            f"{_THIS.get(owner, 'this')} has no “{what}”",
            f"add it, as in {EXAMPLES.get(what, what + ': …')}",
        )
    here = find_origin(value, path) if path else place
    if detail["type"] == "too_short":
        last = next((str(step) for step in reversed(path) if isinstance(step, str)), "")
        return Problem(
            here,
            "empty list",
            f"“{last}” is an empty list: {_NOTHING.get(last, 'nothing')} stands in it",
            f"write it as {EXAMPLES.get(last, last)}",
        )
    if detail["type"] == "list_type":
        last = next((str(step) for step in reversed(path) if isinstance(step, str)), "")
        return wrong_shape(here, last, "a list in square brackets", EXAMPLES.get(last, f"{last}: [ … ]"))
    owner = _model_at(model, path)
    what = next((str(step) for step in reversed(path) if isinstance(step, str)), str(name))
    return wrong_shape(here, f"“{what}”", "a group in braces", _GROUPS.get(owner, ""))


def wrong_shape(place: Origin, what: str, wanted: str, example: str) -> Problem:
    """Return the problem of a value that has not the shape it should have."""
    return Problem(
        place,
        "wrong shape",
        f"{wanted} is wanted for {what}" if what else f"{wanted} is wanted here",
        f"write it as {example}" if example else "see `wiring-manual words` for how it is written",
    )


def lamps_word(name: Key, entry: Text) -> Problem:
    """Return the problem of a misspelt ``lamps:`` under road lamps."""
    return Problem(
        name.origin,
        "unknown word",
        f"“{name}” is no road lamp, and {entry.value} says what they all are",
        f"write lamps: {entry.value}",
    )


def unknown_heading(key: Key, value: object) -> Problem:
    """Return the problem of a heading that is not known, with the reason where it is refused on purpose."""
    if isinstance(value, dict) and "kind" in value:
        return Problem(
            key.origin,
            "unknown word",
            f"“{key}” is written like a part, and stands as a heading",
            f"set it in under parts: {key}: {{kind: …}}",
        )
    if fold(key).endswith("battery"):
        return Problem(
            key.origin,
            "one battery",
            "one battery is described here, and this would be a second",
            "give the capacity of both together where they stand in parallel, as in capacity: 70 Ah",
        )
    if fold(key).endswith("box"):
        return Problem(
            key.origin,
            "one box",
            f"one front box is described here, and “{key}” would be a second",
            "put a breaker or a fuse into the path of the circuit that runs there",
        )
    return _unknown(key, words.BuildFileWords)


def _ours(detail: ErrorDetails, value: object, place: Origin) -> Problem:
    context = detail.get("ctx", {})
    if "message" not in context:
        return wrong_shape(
            find_origin(value, detail["loc"]) if detail["loc"] else place, "", "another value", ""
        )
    return Problem(
        Origin(context["line"], context["column"], context["length"]),
        context["name"],
        context["message"],
        context["help"],
    )


def _model_at(model: Any, path: tuple[int | str, ...]) -> type[BaseModel]:
    """Return the declaration that a path of an error leads into."""
    by_step: dict[str, type[BaseModel]] = {
        "path": words.ItemWords,
        "branches": words.BranchWords,
        "return": words.ReturnWords,
    }
    found = next((by_step[str(step)] for step in reversed(path) if str(step) in by_step), None)
    if found is not None:
        return found
    return model if isinstance(model, type) and issubclass(model, BaseModel) else words.BuildFileWords


def model_words(model: type[BaseModel]) -> tuple[str, ...]:
    """Return the words that a declaration knows, in its order."""
    return tuple(info.alias or name for name, info in model.model_fields.items())


def nearest_word(word: str, model: type[BaseModel]) -> str | None:
    """Return the word of a declaration that an unknown word most likely stands for, or None."""
    known = model_words(model)
    synonym = SYNONYMS.get(word.casefold())
    return synonym if synonym in known else nearest(word, known)


def _unknown(key: Key, model: type[BaseModel]) -> Problem:
    near = nearest_word(key, model)
    known = [word for word in model_words(model) if not (model is words.ItemWords and word == "name")]
    help_ = f"did you mean “{near}”?" if near else f"the words here are: {list_words(known, 40)}"
    where = _THIS.get(model, "this place")
    if model is words.BatteryWords and fold(key) in ("voltage", "volts"):
        return Problem(
            key.origin,
            "unknown word",
            "the battery is a 12 V one here; other voltages are not worked out",
            "take the voltage out; for a 24 V system this tool is not made",
        )
    if not near:
        home = next((word for word, other in _HOMES.items() if key in model_words(other)), None)
        if home is not None and other_model(home) is not model:
            help_ = f"it belongs under {home}"
    return Problem(key.origin, "unknown word", f"“{key}” is not a word used in {where}", help_)


_HOMES: Mapping[str, type[BaseModel]] = {
    "build": words.BuildWords,
    "trailer": words.TrailerWords,
    "battery": words.BatteryWords,
    "front box": words.FrontBoxWords,
    "tow plug": words.TowPlugWords,
    "wire": words.WireWords,
}


def other_model(home: str) -> type[BaseModel]:
    """Return the declaration of a single heading."""
    return _HOMES[home]
