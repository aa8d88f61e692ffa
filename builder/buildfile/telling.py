"""What is told of words that do not fit the declaration: unknown, missing, empty, or of another shape."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from pydantic import BaseModel
from pydantic_core import ErrorDetails

from builder.buildfile import declared as words
from builder.buildfile import declared_body as body
from builder.buildfile import declared_circuits as circuits
from builder.buildfile import declared_face as face
from builder.buildfile import declared_parts as parts
from builder.buildfile.nodes import Text
from builder.buildfile.problems import BLANK, Problem, add, instead
from builder.buildfile.reference_examples import SHOWN
from builder.buildfile.suggesting import did_you_mean, near_words, sure_of
from builder.buildfile.telling_words import (
    BLANK_OF,
    CALLED,
    EMPTY_IN_GROUP,
    ENDINGS,
    EXAMPLES,
    EXAMPLES_THERE,
    GROUPS,
    HEADING_OF,
    HOMES,
    NOTHING_IN,
    PLACES,
)
from builder.buildfile.value_reading import list_words
from builder.buildfile.written import Key, Nothing, find_origin, fold
from builder.trailer.origin import Origin


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
        example = EXAMPLES_THERE.get((owner, what)) or EXAMPLES.get(what, f"{what}: …")
        return Problem(
            here,
            "missing word",
            f"{CALLED.get(owner, 'this')} has no “{what}”",
            f"add it, as in {example}",
            mends=add(BLANK_OF.get(what, f"{what}: {BLANK}"), at=here),
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
    example = SHOWN.get((HEADING_OF.get(owner, ""), what)) or GROUPS.get(owner, "")
    return wrong_shape(here, f"“{what}”", "a group in braces", example)


def _empty_list(here: Origin, last: str, group: str) -> Problem:
    """Return the problem of an empty list under a word, or under a name in the group of that word."""
    in_group = EMPTY_IN_GROUP.get(group) if last not in EXAMPLES else None
    nothing = in_group[0] if in_group else NOTHING_IN.get(last, "nothing")
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
        (word for word, end in ENDINGS.items() if fold(key).endswith(end) and word not in data), None
    )
    near = ending or next(iter(nearest_words(key, words.BuildFileWords)), None)
    refused = any(fold(key).endswith(end) and near == word for word, end in ENDINGS.items())
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
    where = CALLED.get(model, "this place")
    if model is parts.BatteryWords and fold(key) in ("voltage", "volts"):
        return Problem(
            key.origin,
            "unknown word",
            "the battery is a 12 V one here; other voltages are not worked out",
            "take the voltage out; for a 24 V system this tool is not made",
        )
    if not near:
        home = next((word for word, other in HOMES.items() if key in model_words(other)), None)
        if home is not None and other_model(home) is not model:
            help_ = f"it belongs under {home}"
    message = f"“{key}” is not a word used in {where}"
    return Problem(key.origin, "unknown word", message, help_, mends=instead(*near, sure=sure_of(key, near)))


def other_model(home: str) -> type[BaseModel]:
    """Return the declaration of a single heading."""
    return HOMES[home]
