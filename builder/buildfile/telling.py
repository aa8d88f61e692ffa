"""What is told of words that do not fit the declaration: unknown, missing, empty, or of another shape."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from pydantic import BaseModel
from pydantic_core import ErrorDetails

from builder.buildfile import declared as words
from builder.buildfile import declared_body as body
from builder.buildfile import declared_circuits as circuits
from builder.buildfile import declared_closing as closing
from builder.buildfile import declared_face as face
from builder.buildfile import declared_landings as landing
from builder.buildfile import declared_parts as parts
from builder.buildfile import declared_places as places
from builder.buildfile import declared_road as road
from builder.buildfile.nodes import Text
from builder.buildfile.problems import BLANK, Problem, add, instead
from builder.buildfile.reference_examples import SHOWN
from builder.buildfile.suggesting import did_you_mean, near_words, sure_of
from builder.buildfile.value_reading import list_words
from builder.buildfile.written import Key, Nothing, find_origin, fold
from builder.trailer.origin import Origin

_THIS: Mapping[type[BaseModel], str] = {
    words.BuildFileWords: "the build file",
    words.BuildWords: "the heading “build”",
    parts.BatteryWords: "the battery",
    parts.FrontBoxWords: "the front box",
    face.FrontBoxFaceWords: "the heading “front box face”",
    face.InsideWords: "the inside of the front box",
    face.PieceWords: "this piece of the front box",
    face.RowsWords: "this piece of the front box",
    landing.StudWords: "this entry of “terminal studs”",
    landing.EntryHoleWords: "this entry hole",
    road.TowPlugWords: "the tow plug",
    road.SecondPlugWords: "the second plug",
    words.TrailerWords: "the heading “trailer”",
    parts.WireWords: "the heading “wire”",
    words.MainsWords: "the heading “mains”",
    road.BrakesWords: "the heading “brakes”",
    road.ReflectorWords: "this reflector",
    parts.PartWords: "this part",
    circuits.CircuitWords: "this circuit",
    circuits.BranchWords: "this branch",
    circuits.ItemWords: "this item of the path",
    circuits.ReturnWords: "this return",
    road.RoadLampWords: "this road lamp",
    words.SpareWords: "this spare wire",
    words.OptionWords: "this option",
    words.StockWords: "the heading “in stock”",
    places.PlaceWords: "this place",
    places.ChaseWords: "this chase",
    places.SkinWords: "this skin",
    places.PanelWords: "this panel",
    body.BodyWords: "the heading “body”",
    body.CornerWords: "this point of the profile",
    body.OpeningWords: "this opening",
    body.FrameWords: "this frame",
    closing.ClosedBayWords: "this closed bay",
    body.BlockWords: "this backing block",
}

EXAMPLES = {
    "kind": "kind: lamp",
    "path": "path: [step switch: 14 ft, step lamp: 6 ft]",
    "capacity": "capacity: 35 Ah",
    "chemistry": "chemistry: agm",
    "fuse ways": "fuse ways: 8",
    "inside": "inside: {width: 12 in, height: 14 in}",
    "terminal studs": "terminal studs: {supply bar: {count: 2, size: 5/16 in}}",
    "entry holes": "entry holes: {left hole: {bore: 1 in, in: left wall}}",
    "rings": "rings: {16 AWG: [No. 8, No. 10]}",
    "bore": "bore: 1 in",
    "takes": "takes: [tow plug, battery]",
    "width": "width: 4 in",
    "height": "height: 6 1/2 in",
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
    "hinge": "hinge: [hinge left, hinge right]",
    "branches": "branches: [{from: fuse, path: [step lamp: 6 ft]}]",
    "fuses on the shelf": "fuses on the shelf: [3 A, 5 A]",
    "parts": "parts: {fan: {kind: fan, draws: 3 A}}",
    "circuits": "circuits: {fan: {path: [fan: 12 ft]}}",
    "road lamps": "road lamps: {plate lamp: {shows: plate, wire: 17 ft}}",
    "reflectors": "reflectors: {rear reflector: {at: rear, side: both, color: red, height: 20 in}}",
    "spares": "spares: {rear spare: {from: front box, to: rear wall, wire: 21 ft}}",
    "places": "places: {front box: {back: 10 in, right: 4 in, up: 14 in}}",
    "chases": "chases: {left groove: {through: [front box, left wall, galley], kind: groove}}",
    "skins": "skins: {left wall: {fasteners go in: 1 in, from: outside}}",
    "panels": "panels: {galley panel: {corners: [upper left, upper right, lower right, lower left]}}",
    "through": "through: [front box, left wall, galley]",
    "fasteners go in": "fasteners go in: 1 in",
    "corners": "corners: [upper left, upper right, lower right, lower left]",
    "profile": "profile: [{back: 0 in, up: 0 in}, {back: 8 ft, up: 0 in}, {back: 8 ft, up: 4 ft}]",
    "back": "back: 4 ft 6 in",
    "up": "up: 1 ft 2 in",
    "in": "in: left wall",
    "body": "body: {profile: [{back: 0 in, up: 0 in}, {back: 8 ft, up: 0 in}, {back: 8 ft, up: 4 ft}], width: 5 ft}",
    "openings": "openings: {left door: {in: left wall, back: 3 ft, up: 4 in, width: 26 in, height: 36 in}}",
    "frames": "frames: {left studs: {in: left wall, back: [16 in, 32 in], thick: 3/4 in}}",
    "backing blocks": "backing blocks: {shelf block: {in: left wall, back: 4 ft, up: 2 ft, width: 8 in, height: 3 in}}",
    "changes": "changes: {4A: {length: 15 ft, note: round the wheel well}}",
    "options": "options: {second fan: {parts: {bed fan: {kind: fan}}, circuits: {bed fan: {path: [bed fan: 9 ft]}}}}",
    "waiting": "waiting: {charging socket: its wire is coiled behind the panel}",
    "pulled": "pulled: {fan: 3 May}",
    "closed bays": "closed bays: {left wall bay 1: {photo: left-wall-bay-1.jpg}}",
    "prices": "prices: {red 16 AWG: 0.35 USD per ft, clip: 0.10 USD}",
    "in stock": "in stock: {wire: {red 16 AWG: 20 ft}, fuses: {5 A: 3}}",
    "assume": "assume: {surrounding temperature: 35 C}",
}

_EXAMPLES_THERE: Mapping[tuple[type[BaseModel], str], str] = {
    (road.BrakesWords, "kind"): "kind: electric",
    (road.ReflectorWords, "at"): "at: rear",
    (words.SpareWords, "from"): "from: front box",
    (body.BodyWords, "width"): "width: 5 ft",
    (body.OpeningWords, "width"): "width: 26 in",
    (body.BlockWords, "width"): "width: 8 in",
}
"""Words that mean something else there than elsewhere, or are larger."""

_GROUPS: Mapping[type[BaseModel], str] = {
    parts.PartWords: "fan: {kind: fan, draws: 3 A}",
    circuits.CircuitWords: "fan: {path: [fan: 12 ft]}",
    road.RoadLampWords: "plate lamp: {shows: plate, wire: 17 ft}",
    road.ReflectorWords: "rear reflector: {at: rear, side: both, color: red}",
    parts.BatteryWords: "battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}",
    parts.FrontBoxWords: "front box: {fuse ways: 8}",
    face.FrontBoxFaceWords: "front box face: {inside: {width: 12 in, height: 14 in}}",
    face.InsideWords: "inside: {width: 12 in, height: 14 in}",
    face.PieceWords: "supply bar: {width: 4 in, height: 1 in}",
    face.RowsWords: "fuse block: {width: 4 in, height: 6 1/2 in}",
    landing.StudWords: "supply bar: {count: 2, size: 5/16 in}",
    landing.EntryHoleWords: "left hole: {bore: 1 in, in: left wall}",
    road.TowPlugWords: "tow plug: {pattern: 4-way flat, to front box: 7 ft}",
    road.SecondPlugWords: "second plug: {pattern: 7-pin 12S, to front box: 7 ft}",
    parts.WireWords: "wire: {on the shelf: [16 AWG, 14 AWG]}",
    words.BuildWords: "build: {name: Quarry Bend, country: US}",
    words.TrailerWords: "trailer: {length: 12 ft, width: 5 ft}",
    words.SpareWords: "rear spare: {from: front box, to: rear wall, wire: 21 ft}",
    words.MainsWords: "mains: {what: inlet and one socket, done by: …}",
    road.BrakesWords: "brakes: {kind: electric, drum: 10 in, magnets: 2, breakaway battery: 5 Ah}",
    circuits.BranchWords: "branches: [{from: fuse, path: [step lamp: 6 ft]}]",
    words.StockWords: "in stock: {wire: {red 16 AWG: 20 ft}, fuses: {5 A: 3}}",
    places.PlaceWords: "roof fan: {back: 5 ft, left: 4 in, up: 6 ft}",
    places.ChaseWords: "left groove: {through: [front box, left wall, galley]}",
    places.SkinWords: "left wall: {fasteners go in: 1 in, from: outside}",
    places.PanelWords: "galley panel: {corners: [upper left, upper right, lower right, lower left]}",
    body.BodyWords: "body: {profile: [{back: 0 in, up: 0 in}, {back: 8 ft, up: 0 in}, {back: 8 ft, up: 4 ft}], "
    "width: 5 ft}",
    body.CornerWords: "{back: 2 ft, up: 4 ft, radius: 2 ft}",
    body.OpeningWords: "left door: {in: left wall, back: 3 ft, up: 4 in, width: 26 in, height: 36 in}",
    body.FrameWords: "left studs: {in: left wall, back: [16 in, 32 in], thick: 3/4 in}",
    closing.ClosedBayWords: "left wall bay 1: {photo: left-wall-bay-1.jpg}",
}

_BLANKS = {
    "path": f"path: [{BLANK}: {BLANK}]",
    "format": "format: 1",
    "build": f"build: {{name: {BLANK}}}",
    "shows": f"shows: [{BLANK}]",
    "through": f"through: [{BLANK}]",
    "corners": f"corners: [{BLANK}]",
    "profile": f"profile: [{{back: {BLANK}, up: {BLANK}}}]",
}
"""How a missing word is added where more than a blank belongs behind its colon."""

_ENDINGS = {"battery": "battery", "front box": "box"}
"""What the name of a second battery or box ends in."""

_HEADING_OF: Mapping[type[BaseModel], str] = {words.StockWords: "in stock", parts.WireWords: "wire"}
"""Headings with groups of their own, whose examples the reference of words shows."""

_IN_GROUP = {
    "wire": ("no length", "write how long each spool is, as in [20 ft, 6 ft], or take the line out"),
    "conduit": ("no length", "write how long each piece is, as in [20 ft, 6 ft], or take the line out"),
    "rings": (
        "no stud",
        "write the studs that these rings go on, as in [No. 8, No. 10], or take the line out",
    ),
}
"""What is missing in an empty list under a name in one of these groups, and the way out."""

_NOTHING = {
    "on the shelf": "no size",
    "path": "no item",
    "shows": "no function",
    "through": "no place",
    "takes": "no name",
    "rings": "no size",
    "corners": "no place",
    "profile": "no point",
}


PLACES: Mapping[type[BaseModel], str] = {
    words.BuildFileWords: "heading",
    words.BuildWords: "build",
    words.TrailerWords: "trailer",
    parts.BatteryWords: "battery",
    parts.FrontBoxWords: "front box",
    landing.StudWords: "studs",
    landing.EntryHoleWords: "hole",
    road.TowPlugWords: "tow plug",
    road.SecondPlugWords: "tow plug",
    parts.WireWords: "wire",
    parts.PartWords: "part",
    circuits.CircuitWords: "circuit",
    circuits.BranchWords: "branch",
    circuits.ItemWords: "item",
    circuits.ReturnWords: "return",
    road.RoadLampWords: "road lamp",
    words.SpareWords: "spare",
    words.MainsWords: "mains",
    words.StockWords: "stock",
    places.PlaceWords: "place",
    places.ChaseWords: "chase",
    places.SkinWords: "skin",
    places.PanelWords: "panel",
    body.BodyWords: "body",
    body.CornerWords: "corner",
    body.OpeningWords: "opening",
    body.FrameWords: "frame",
    body.BlockWords: "backing block",
}
"""The lists of synonyms that count among the words of each declaration."""


def problems_of(details: list[ErrorDetails], model: Any, value: object, key: Key) -> list[Problem]:
    """Return the problems behind the errors of one validation; ``key`` is the name of the value."""
    unknown = [detail for detail in details if detail["type"] == "extra_forbidden"]
    guesses = {
        (detail["loc"][:-1], near)
        for detail in unknown
        for near in nearest_words(str(detail["loc"][-1]), _model_at(model, detail["loc"][:-1]))
    }
    paths = [detail["loc"] for detail in details]
    lists = {path[:-2] for path in paths if len(path) > 1 and str(path[-2]).startswith("list[")}
    problems = []
    for detail in details:
        if isinstance(detail["input"], Nothing):
            continue  # that nothing stands there is told already
        if isinstance(detail["input"], list) and detail["loc"][:-1] in lists:
            continue  # a list may stand there: what is wrong in it is told
        if detail["type"] == "missing" and (detail["loc"][:-1], str(detail["loc"][-1])) in guesses:
            continue  # the misspelt word is the missing one: one cause, one message
        problems.append(_problem_of(detail, model, value, key))
    return list(dict.fromkeys(problems))


def _problem_of(detail: ErrorDetails, model: Any, value: object, name: Key) -> Problem:
    path, place = detail["loc"], name.origin
    if detail["type"] == "trouble":
        return ours(detail)
    if detail["type"] == "extra_forbidden":
        key = Key.of(str(path[-1]), find_origin(value, path))
        return _unknown(key, _model_at(model, path[:-1]), _siblings(value, path))
    here = find_origin(value, path[:-1]) if len(path) > 1 else place
    if detail["type"] == "missing":
        what = str(path[-1])
        owner = _model_at(model, path[:-1])
        example = _EXAMPLES_THERE.get((owner, what)) or EXAMPLES.get(what, f"{what}: …")
        return Problem(
            here,
            "missing word",
            f"{_THIS.get(owner, 'this')} has no “{what}”",
            f"add it, as in {example}",
            mends=add(_BLANKS.get(what, f"{what}: {BLANK}"), at=here),
        )
    here = find_origin(value, path) if path else place
    if detail["type"] == "too_short":
        steps = [str(step) for step in path if isinstance(step, str)]
        return _empty_list(here, steps[-1] if steps else "", steps[-2] if len(steps) > 1 else "")
    if detail["type"] == "list_type":
        last = next((str(step) for step in reversed(path) if isinstance(step, str)), "")
        return wrong_shape(here, last, "a list in square brackets", EXAMPLES.get(last, f"{last}: [ … ]"))
    owner = _model_at(model, path)
    what = next((str(step) for step in reversed(path) if isinstance(step, str)), str(name))
    example = SHOWN.get((_HEADING_OF.get(owner, ""), what)) or _GROUPS.get(owner, "")
    return wrong_shape(here, f"“{what}”", "a group in braces", example)


def _empty_list(here: Origin, last: str, group: str) -> Problem:
    """Return the problem of an empty list under a word, or under a name in the group of that word."""
    in_group = _IN_GROUP.get(group) if last not in EXAMPLES else None
    nothing = in_group[0] if in_group else _NOTHING.get(last, "nothing")
    return Problem(
        here,
        "empty list",
        f"“{last}” is an empty list: {nothing} stands in it",
        in_group[1] if in_group else f"write it as {EXAMPLES.get(last, f'{last}: …')}",
    )


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
        mends=instead("lamps"),
    )


def unknown_heading(key: Key, value: object, data: Mapping[Key, object]) -> Problem:
    """Return the problem of a heading that is not known, with the reason where it is refused on purpose.

    ``data`` are all headings of the file: a second battery is refused, the only one under a wrong name is not.
    """
    if isinstance(value, dict) and "kind" in value:
        return Problem(
            key.origin,
            "unknown word",
            f"“{key}” is written like a part, and stands as a heading",
            f"set it in under parts: {key}: {{kind: …}}",
        )
    meant = heading_meant(key, data)
    if meant is not None:
        return Problem(
            key.origin,
            "unknown word",
            f"“{key}” is not a word used in the build file",
            f"did you mean “{meant}”?",
            mends=instead(meant, sure=sure_of(key, (meant,))),
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


def heading_meant(key: Key, data: Mapping[Key, object]) -> str | None:
    """Return the heading that a wrong one most likely stands for; one that the file has as well is not meant."""
    ending = next(
        (word for word, end in _ENDINGS.items() if fold(key).endswith(end) and word not in data), None
    )
    near = ending or next(iter(nearest_words(key, words.BuildFileWords)), None)
    refused = any(fold(key).endswith(end) and near == word for word, end in _ENDINGS.items())
    return None if refused and near in data else near


def ours(detail: ErrorDetails) -> Problem:
    """Return the problem that a validator of ours sent through the validation; see `values.trouble`."""
    context = detail["ctx"]
    return Problem(
        Origin(context["line"], context["column"], context["length"]),
        context["name"],
        context["message"],
        context["help"],
        mends=context["mends"],
    )


def _model_at(model: Any, path: tuple[int | str, ...]) -> type[BaseModel]:
    """Return the declaration that a path of an error leads into."""
    by_step: dict[str, type[BaseModel]] = {
        "path": circuits.ItemWords,
        "branches": circuits.BranchWords,
        "return": circuits.ReturnWords,
    }
    if model is body.BodyWords:
        by_step = {"profile": body.CornerWords}
    if model is face.FrontBoxFaceWords:
        rows = dict.fromkeys(("fuse block", "strip", "ground bar"), face.RowsWords)
        by_step = {"inside": face.InsideWords, "supply bar": face.PieceWords, **rows}
    found = next((by_step[str(step)] for step in reversed(path) if str(step) in by_step), None)
    if found is not None:
        return found
    return model if isinstance(model, type) and issubclass(model, BaseModel) else words.BuildFileWords


def model_words(model: type[BaseModel]) -> tuple[str, ...]:
    """Return the words that a declaration knows, in its order."""
    return tuple(info.alias or name for name, info in model.model_fields.items())


def nearest_words(word: str, model: type[BaseModel]) -> tuple[str, ...]:
    """Return the words of a declaration that an unknown word may stand for, the likeliest first."""
    known = tuple(one for one in model_words(model) if not (model is circuits.ItemWords and one == "name"))
    return near_words(word, known, PLACES.get(model, ""))


def _siblings(value: object, path: tuple[int | str, ...]) -> frozenset[str]:
    """Return the words that stand beside the one that a path leads to."""
    for step in path[:-1]:
        if isinstance(value, dict):
            value = value.get(step)
        elif isinstance(value, list) and isinstance(step, int) and step < len(value):
            value = value[step]
    return frozenset(value) - {str(path[-1])} if isinstance(value, dict) else frozenset()


def _unknown(key: Key, model: type[BaseModel], beside: frozenset[str] = frozenset()) -> Problem:
    near = tuple(word for word in nearest_words(key, model) if word not in beside)
    known = [word for word in model_words(model) if not (model is circuits.ItemWords and word == "name")]
    help_ = did_you_mean(near) or f"the words here are: {list_words(known, 40)}"
    where = _THIS.get(model, "this place")
    if model is parts.BatteryWords and fold(key) in ("voltage", "volts"):
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
    message = f"“{key}” is not a word used in {where}"
    return Problem(key.origin, "unknown word", message, help_, mends=instead(*near, sure=sure_of(key, near)))


_HOMES: Mapping[str, type[BaseModel]] = {
    "build": words.BuildWords,
    "trailer": words.TrailerWords,
    "battery": parts.BatteryWords,
    "front box": parts.FrontBoxWords,
    "tow plug": road.TowPlugWords,
    "wire": parts.WireWords,
    "in stock": words.StockWords,
}


def other_model(home: str) -> type[BaseModel]:
    """Return the declaration of a single heading."""
    return _HOMES[home]
