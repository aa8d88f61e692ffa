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
from builder.buildfile.written import Key, Written, find_origin, origin_of, to_plain
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

_EXAMPLES = {
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
}

_SYNONYMS = {
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


def declare(root: Pairs) -> tuple[Declared, tuple[Problem, ...]]:
    """Check every heading and entry against the declaration; return what is valid, and all problems."""
    plain = to_plain(root)
    problems = list(plain.problems)
    data = plain.data if isinstance(plain.data, dict) else {}
    newer = _newer_format(data)
    if newer is not None:
        return Declared(), (newer,)
    found: dict[str, Any] = {"places": {str(key): key.origin for key in data}}
    broken: set[str] = set()
    fields = {info.alias or name: name for name, info in words.BuildFileWords.model_fields.items()}
    for key, value in data.items():
        if key not in fields:
            problems.append(_unknown(key, words.BuildFileWords))
        elif key != "format":
            _heading(key, value, fields[key], (found, broken, problems))
    problems += _missing_headings(data)
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


def _missing_headings(data: dict[Key, object]) -> list[Problem]:
    missing = []
    for name in ("format", "build"):
        if name not in data:
            missing.append(
                Problem(
                    NOWHERE,
                    "missing heading",
                    f"the build file has no “{name}”",
                    f"add the line {_EXAMPLES[name]}",
                )
            )
    return missing


def _heading(
    key: Key, value: object, name: str, sink: tuple[dict[str, Any], set[str], list[Problem]]
) -> None:
    found, broken, problems = sink
    annotation = words.BuildFileWords.model_fields[name].annotation
    if get_origin(annotation) is dict:
        if not isinstance(value, dict):
            problems.append(_shape(key.origin, f"names stand under “{key}”, each with what belongs to it"))
            return
        entries = dict(value)
        if name == "road_lamps":
            lamps = next((k for k in entries if k == "lamps"), None)
            if lamps is not None and isinstance(entries[lamps], Text):
                found["lamps"] = _lamps(entries.pop(lamps), problems)
        found[name] = _entries(entries, get_args(annotation), broken, problems)
        return
    model = next(arg for arg in get_args(annotation) or (annotation,) if arg is not type(None))
    valid, more = validate(model, value, key.origin)
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
        valid, more = validate(types[1], entry, name.origin)
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


def validate(model: Any, value: object, place: Origin) -> tuple[Any, list[Problem]]:
    """Return the valid model of a value, or None, with the problems; ``place`` is that of its name."""
    try:
        return TypeAdapter(model).validate_python(value), []
    except ValidationError as error:
        details = error.errors(include_url=False)
        return None, _problems_of(details, model, value, place)


def _problems_of(details: list[ErrorDetails], model: Any, value: object, place: Origin) -> list[Problem]:
    unknown = [detail for detail in details if detail["type"] == "extra_forbidden"]
    guesses = {
        (detail["loc"][:-1], nearest_word(str(detail["loc"][-1]), _model_at(model, detail["loc"][:-1])))
        for detail in unknown
    }
    problems = []
    for detail in details:
        if detail["type"] == "missing" and (detail["loc"][:-1], str(detail["loc"][-1])) in guesses:
            continue  # the misspelt word is the missing one: one cause, one message
        problems.append(_problem_of(detail, model, value, place))
    return list(dict.fromkeys(problems))


def _problem_of(detail: ErrorDetails, model: Any, value: object, place: Origin) -> Problem:
    path = detail["loc"]
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
            f"add it, as in {_EXAMPLES.get(what, what + ': …')}",
        )
    wanted = "a list in square brackets, as in [step switch: 14 ft, step lamp: 6 ft]"
    if detail["type"] != "list_type":
        wanted = "a group of names and values"
    return _shape(find_origin(value, path) if path else place, f"{wanted} is wanted here")


def _shape(place: Origin, message: str) -> Problem:
    return Problem(place, "wrong shape", message, "see `wiring-manual words` for how it is written")


def _ours(detail: ErrorDetails, value: object, place: Origin) -> Problem:
    context = detail.get("ctx", {})
    if "message" not in context:
        return _shape(find_origin(value, detail["loc"]) if detail["loc"] else place, str(detail["msg"]))
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
    synonym = _SYNONYMS.get(word.casefold())
    return synonym if synonym in known else nearest(word, known)


def _unknown(key: Key, model: type[BaseModel]) -> Problem:
    near = nearest_word(key, model)
    known = [word for word in model_words(model) if not (model is words.ItemWords and word == "name")]
    help_ = f"did you mean “{near}”?" if near else f"the words here are: {list_words(known, 40)}"
    where = _THIS.get(model, "this place")
    return Problem(key.origin, "unknown word", f"“{key}” is not a word used in {where}", help_)


def place_of(value: object) -> Origin:
    """Return where a plain or written value stands."""
    return origin_of(value)
