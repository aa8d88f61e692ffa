"""From plain values to declared words: every entry by itself, so that all problems are told at once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import Any, TypeVar, get_args, get_origin

from pydantic import BaseModel, TypeAdapter, ValidationError

from builder.buildfile import declared as words
from builder.buildfile import declared_body as body_words
from builder.buildfile import declared_changes as change_words
from builder.buildfile import declared_circuits as circuits
from builder.buildfile import declared_closing as closing_words
from builder.buildfile import declared_face as face
from builder.buildfile import declared_landings as landing_words
from builder.buildfile import declared_parts as parts
from builder.buildfile import declared_places as place_words
from builder.buildfile import declared_road as road
from builder.buildfile.nodes import Pairs, Text
from builder.buildfile.problems import BLANK, Problem, heading, instead
from builder.buildfile.telling import (
    heading_meant,
    lamps_word,
    ours,
    problems_of,
    unknown_heading,
    wrong_shape,
)
from builder.buildfile.telling_words import EXAMPLES
from builder.buildfile.unwoven import names_on_paths
from builder.buildfile.written import Key, Written, fold, to_plain
from builder.trailer.origin import NOWHERE, Origin
from builder.trailer.prices import Amount

M = TypeVar("M", bound=BaseModel)
_GEOMETRY = ("places", "chases")


@dataclass(frozen=True, slots=True)
class Declared:
    """What a build file declares: its single headings and its named entries, each already valid.

    ``broken`` holds the folded names of entries that were written but have problems of their own, so that
    nothing is said twice about them, ``unwoven`` the names on their paths. ``written_at`` tells where each heading
    stands, and each word of a single one.
    ``geometry_is_whole`` tells whether every place and chase could be read.
    """

    build: words.BuildWords | None = None
    trailer: words.TrailerWords | None = None
    battery: parts.BatteryWords | None = None
    front_box: parts.FrontBoxWords | None = None
    front_box_face: face.FrontBoxFaceWords | None = None
    terminal_studs: Mapping[Key, landing_words.StudWords] = field(default_factory=dict)
    entry_holes: Mapping[Key, landing_words.EntryHoleWords] = field(default_factory=dict)
    tow_plug: road.TowPlugWords | None = None
    second_plug: road.SecondPlugWords | None = None
    wire: parts.WireWords | None = None
    mains: words.MainsWords | None = None
    brakes: road.BrakesWords | None = None
    in_stock: words.StockWords | None = None
    parts: Mapping[Key, parts.PartWords] = field(default_factory=dict)
    circuits: Mapping[Key, circuits.CircuitWords] = field(default_factory=dict)
    road_lamps: Mapping[Key, road.RoadLampWords] = field(default_factory=dict)
    reflectors: Mapping[Key, road.ReflectorWords] = field(default_factory=dict)
    spares: Mapping[Key, words.SpareWords] = field(default_factory=dict)
    places: Mapping[Key, place_words.PlaceWords] = field(default_factory=dict)
    chases: Mapping[Key, place_words.ChaseWords] = field(default_factory=dict)
    skins: Mapping[Key, place_words.SkinWords] = field(default_factory=dict)
    panels: Mapping[Key, place_words.PanelWords] = field(default_factory=dict)
    body: body_words.BodyWords | None = None
    openings: Mapping[Key, body_words.OpeningWords] = field(default_factory=dict)
    frames: Mapping[Key, body_words.FrameWords] = field(default_factory=dict)
    backing_blocks: Mapping[Key, body_words.BlockWords] = field(default_factory=dict)
    waiting: Mapping[Key, Written[str]] = field(default_factory=dict)
    pulled: Mapping[Key, Written[str]] = field(default_factory=dict)
    closed_bays: Mapping[Key, closing_words.ClosedBayWords] = field(default_factory=dict)
    changes: Mapping[Key, change_words.ChangeWords] = field(default_factory=dict)
    options: Mapping[Key, words.OptionWords] = field(default_factory=dict)
    prices: Mapping[Key, Written[Amount]] = field(default_factory=dict)
    assume: Mapping[Key, Written[str]] = field(default_factory=dict)
    lamps: Written[str] | None = None
    written_at: Mapping[str, Origin] = field(default_factory=dict)
    broken: frozenset[str] = frozenset()
    unwoven: tuple[str, ...] = ()
    geometry_is_whole: bool = True


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
    found: dict[str, Any] = {"written_at": {str(key): key.origin for key in data}}
    broken: set[str] = {fold(name) for name in unread}
    found["geometry_is_whole"] = broken.isdisjoint(_GEOMETRY)
    fields = {info.alias or name: name for name, info in words.BuildFileWords.model_fields.items()}
    for key, value in data.items():
        if key not in fields:
            problems.append(unknown_heading(key, value, data))
            meant = heading_meant(key, data) or ""
            broken.add(meant)
            found["geometry_is_whole"] = found["geometry_is_whole"] and meant not in _GEOMETRY
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
            mends=instead("1"),
        )
    return None


def _missing_headings(data: dict[Key, object], broken: set[str]) -> list[Problem]:
    return [
        Problem(
            NOWHERE,
            "missing heading",
            f"the build file has no “{name}”",
            f"add the line {EXAMPLES[name]}",
            mends=heading("format: 1" if name == "format" else f"build: {{name: {BLANK}}}"),
        )
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
            found["geometry_is_whole"] = found["geometry_is_whole"] and name not in _GEOMETRY
            return
        entries = dict(value)
        if name == "road_lamps":
            lamps = next((k for k in entries if k == "lamps"), None)
            if lamps is not None and isinstance(entries[lamps], Text):
                found["lamps"] = _lamps(entries.pop(lamps), problems)
        found[name] = _entries(entries, get_args(annotation), broken, problems)
        failed = [entry for key, entry in entries.items() if key not in found[name]]
        unwoven = [one for entry in failed for one in names_on_paths(entry)]
        found["unwoven"] = (*found.get("unwoven", ()), *unwoven)
        if name in _GEOMETRY and len(found[name]) < len(entries):
            found["geometry_is_whole"] = False
        return
    if isinstance(value, dict):
        found["written_at"] |= {f"{key}: {word}": word.origin for word in value}
    model = next(arg for arg in get_args(annotation) or (annotation,) if arg is not type(None))
    valid, more = validate(model, value, key)
    problems += more
    if valid is not None:
        found[name] = valid
    else:
        broken.add(fold(key))
        found["unwoven"] = (*found.get("unwoven", ()), *names_on_paths(value))


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
            mends=instead("led", "filament"),
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
        if isinstance(entry, Text) and entry.value in ("led", "filament") and types[1] is road.RoadLampWords:
            more = [lamps_word(name, entry)]
        problems += trouble + more
        if valid is None or key is None:
            broken.add(fold(name))
        else:
            entries[key] = valid
    return entries


def _check_key(key_type: Any, name: Key) -> tuple[Key | None, list[Problem]]:
    try:
        return _adapter(key_type).validate_python(name), []
    except ValidationError as error:
        return None, [ours(detail) for detail in error.errors()]


@cache
def _adapter(annotation: Any) -> TypeAdapter[Any]:
    """Return what validates an annotation; building it takes far longer than using it."""
    return TypeAdapter(annotation)


def validate(model: Any, value: object, key: Key) -> tuple[Any, list[Problem]]:
    """Return the valid model of a value, or None, with the problems; ``key`` is its name."""
    try:
        return _adapter(model).validate_python(value), []
    except ValidationError as error:
        details = error.errors(include_url=False)
        return None, problems_of(details, model, value, key)
