"""Words and schema come from the one declaration: nothing is missing, every example reads, editors agree with us."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
import yaml
from generated_builds import GeneratedBuild, builds
from hypothesis import given, settings

from builder.buildfile import declared, declared_circuits, kind_reference, reference, reference_words, schema
from builder.buildfile.reading import read_build_text
from builder.buildfile.resolving import read_build
from builder.buildfile.validating import declare
from builder.tables.assumptions import defaults
from builder.tables.part_kinds import part_kinds

ROOT = Path(__file__).parents[2]
EXAMPLES = (ROOT / "example_build" / "trailer.yaml", ROOT / "example_build" / "smallest" / "trailer.yaml")
MODELS = (declared.BuildFileWords, *schema.models())
DECLARED = sorted(
    (model.__name__, info.alias or name)
    for model in MODELS
    for name, info in model.model_fields.items()
    if (model, name)
    != (declared_circuits.ItemWords, "name")  # stands before an item's colon, is no word of its own
)
SCHEMA = schema.build_schema()
WORDS = [word for group in reference_words.groups() for word in group.words]

_TYPES: dict[str, Any] = {
    "string": str,
    "boolean": bool,
    "object": dict,
    "array": list,
    "integer": int,
    "number": (int, float),
}


def accepts(rule: dict[str, Any], value: object) -> bool:
    """Whether a schema lets a value pass; a keyword that is not known here fails the test."""
    checks = {
        "type": lambda kinds: any(
            _is(value, kind) for kind in ([kinds] if isinstance(kinds, str) else kinds)
        ),
        "enum": lambda choices: any(value == choice and type(value) is type(choice) for choice in choices),
        "pattern": lambda pattern: not isinstance(value, str) or re.search(pattern, value) is not None,
        "minLength": lambda least: not isinstance(value, str) or len(value) >= least,
        "minProperties": lambda least: not isinstance(value, dict) or len(value) >= least,
        "maxProperties": lambda most: not isinstance(value, dict) or len(value) <= most,
        "required": lambda names: not isinstance(value, dict) or set(names) <= set(value),
        "items": lambda each: not isinstance(value, list) or all(accepts(each, item) for item in value),
        "anyOf": lambda some: any(accepts(each, value) for each in some),
        "oneOf": lambda some: sum(accepts(each, value) for each in some) == 1,
        "$ref": lambda name: accepts(SCHEMA["$defs"][name.removeprefix("#/$defs/")], value),
        "properties": lambda known: (
            not isinstance(value, dict)
            or all(accepts(known[name], value[name]) for name in known if name in value)
        ),
        "additionalProperties": lambda other: not isinstance(value, dict) or _others(rule, value, other),
    }
    silent = {"$schema", "$defs", "title", "description", "examples"}
    return all(checks[keyword](part) for keyword, part in rule.items() if keyword not in silent)


def _is(value: object, kind: str) -> bool:
    if isinstance(value, bool):
        return kind == "boolean"
    return isinstance(value, _TYPES[kind])


def _others(rule: dict[str, Any], value: dict[object, object], other: bool | dict[str, Any]) -> bool:
    rest = [each for name, each in value.items() if name not in rule.get("properties", {})]
    return not rest if other is False else all(accepts(dict(other), each) for each in rest)


def as_an_editor_reads(text: str) -> Any:
    return yaml.safe_load(text)


def test_every_declared_word_stands_in_the_reference_once() -> None:
    titles = {reference_words.TITLES[model]: model.__name__ for model in MODELS}
    told = sorted((titles[word.group], word.word) for word in WORDS if word.group in titles)
    assert told == DECLARED


@pytest.mark.parametrize("word", sorted({word for _, word in DECLARED}))
def test_the_printed_reference_and_the_page_of_a_word_tell_it(word: str) -> None:
    assert re.search(rf"^  {re.escape(word)} ", reference.reference_text(), re.MULTILINE)
    page = reference.word_text(word)
    assert page is not None
    places = [each for each in WORDS if each.word == word]
    for place in places:
        assert f"{word} (in {place.group})" in page
        assert f"as in: {place.example}" in page


def test_every_word_has_a_meaning_a_kind_of_value_and_an_example() -> None:
    for word in WORDS:
        assert word.meaning
        assert word.value
        assert word.example.startswith(f"{word.word}: ")


def test_lines_fit_a_terminal() -> None:
    longest = max(reference.reference_text().splitlines() + reference.kinds_text().splitlines(), key=len)
    assert len(longest) <= reference.WIDTH


_PATH = {"path": [{"fan": "2 ft"}]}
_INSIDE = {"width": "12 in", "height": "14 in"}
_PIECE = {"width": "4 in", "height": "1 in", "from left": "0 in", "from top": "0 in"}
_PROFILE = [{"back": "0 in", "up": "0 in"}, {"back": "8 ft", "up": "0 in"}, {"back": "8 ft", "up": "4 ft"}]
_PLACES: dict[str, tuple[tuple[str | int, ...], dict[str, Any]]] = {
    "headings": ((), {"format": "1", "build": {"name": "Quarry Bend"}}),
    "build": (("build",), {"name": "Quarry Bend"}),
    "trailer": (("trailer",), {}),
    "battery": (("battery",), {"chemistry": "agm", "capacity": "35 Ah"}),
    "front box": (("front box",), {"fuse ways": "8"}),
    "front box face": (("front box face",), {"inside": _INSIDE}),
    "front box face: inside": (("front box face", "inside"), _INSIDE),
    "front box face: supply bar": (("front box face", "supply bar"), _PIECE),
    "front box face: a piece with rows": (("front box face", "fuse block"), _PIECE),
    "terminal studs: each thing": (("terminal studs", "supply bar"), {}),
    "entry holes: each hole": (("entry holes", "left hole"), {"bore": "1 in"}),
    "second plug": (("second plug",), {"pattern": "7-pin 12S", "to front box": "2.6 m"}),
    "tow plug": (("tow plug",), {"pattern": "4-way flat", "to front box": "7 ft"}),
    "wire": (("wire",), {"on the shelf": ["16 AWG"]}),
    "parts: each part": (("parts", "fan"), {"kind": "fan"}),
    "circuits: each circuit": (("circuits", "fan"), _PATH),
    "road lamps: each lamp or pair": (("road lamps", "rear lamp"), {"shows": "tail"}),
    "reflectors: each one or pair": (("reflectors", "rear reflector"), {"at": "rear"}),
    "spares: each wire": (("spares", "rear"), {"from": "front box", "to": "rear wall", "wire": "21 ft"}),
    "closed bays: each bay that was closed": (("closed bays", "left wall"), {}),
    "changes: each change": (("changes", "fan"), {}),
    "options: each option": (("options", "second fan"), {}),
    "mains": (("mains",), {"what": "inlet"}),
    "in stock": (("in stock",), {}),
    "brakes": (("brakes",), {"kind": "electric"}),
    "places: each place": (("places", "galley"), {}),
    "chases: each chase": (("chases", "left groove"), {"through": ["front box", "galley"]}),
    "skins: each skin": (("skins", "left wall"), {"fasteners go in": "1 in"}),
    "panels: each panel": (("panels", "cover"), {"corners": ["left", "right", "galley"]}),
    "body": (("body",), {"profile": _PROFILE, "width": "5 ft"}),
    "profile: each point": (("body", "profile", 0), {"back": "0 in", "up": "0 in"}),
    "openings: each opening": (("openings", "door"), {"in": "left wall", "width": "26 in"}),
    "frames: each frame, or several alike": (("frames", "ribs"), {}),
    "backing blocks: each block": (("backing blocks", "rail"), {"in": "left wall", "width": "8 in"}),
    "path: each item": (("circuits", "fan", "path", 0, "fan"), {}),
    "return": (("circuits", "fan", "return"), {}),
    "branches: each branch": (("circuits", "fan", "branches", 0), {"from": "fan", **_PATH}),
    "road lamps: beside the names": (("road lamps",), {}),
}
"""Where the words of a group stand, and the words that are needed beside them."""


def build_with(word: reference_words.Word) -> dict[str, Any]:
    """Return a build file that holds a word's example in its place."""
    place, beside = _PLACES[word.group]
    value: Any = beside | yaml.load(word.example, yaml.BaseLoader)  # noqa: S506 - this loader makes texts only
    for step in reversed(place):
        value = [value] if isinstance(step, int) else {step: value}
    whole = {"format": "1", "build": {"name": "Quarry Bend"}} | value
    if place[:2] == ("circuits", "fan") and "path" not in whole["circuits"]["fan"]:
        whole["circuits"]["fan"] |= _PATH
    if place[:1] == ("body",):
        whole["body"] = {"width": "5 ft"} | whole["body"]
    if place[:1] == ("front box face",):
        whole["front box face"] = {"inside": _INSIDE} | whole["front box face"]
    return whole


@pytest.mark.parametrize("word", WORDS, ids=lambda word: f"{word.group}: {word.word}")
def test_every_example_reads_and_an_editor_takes_it(word: reference_words.Word) -> None:
    text = json.dumps(build_with(word), ensure_ascii=False)  # JSON is YAML too, without anchors
    reading = read_build_text(text.encode())
    assert reading.root is not None
    assert [*reading.problems, *declare(reading.root)[1]] == []
    assert accepts(SCHEMA, as_an_editor_reads(text))


def test_kinds_tell_what_is_assumed() -> None:
    text = reference.kinds_text()
    assert all(re.search(rf"^  {re.escape(kind)} - ", text, re.MULTILINE) for kind in part_kinds())
    low, usual, high = part_kinds()["fan"].draw or (0, 0, 0)
    assert f"draws {usual:g} A ({low:g} to {high:g})" in text


def test_a_word_may_also_be_a_kind_or_an_assumption() -> None:
    assert "feed and return take one way each" in str(reference.word_text("connector"))
    for row in defaults().values():
        assert f"{row.value:g} {row.unit}" in str(reference.word_text(row.id))


def test_capitals_dashes_and_blanks_do_not_count() -> None:
    assert (
        reference.word_text("Front_Box")
        == reference.word_text("front box")
        == reference.word_text(" front  box ")
    )


@pytest.mark.parametrize(
    ("asked", "near"), [("fuze", "fuse"), ("amps", "draws"), ("retrun", "return"), ("zzqq", None)]
)
def test_an_unknown_word_has_a_nearest_one(asked: str, near: str | None) -> None:
    assert reference.word_text(asked) is None
    assert reference.nearest_known(asked) == near


def test_every_declared_word_is_described_in_the_schema() -> None:
    groups = {"BuildFileWords": SCHEMA} | {
        model.__name__: _object_in(SCHEMA["$defs"][schema._name(model)]) for model in schema.models()
    }
    for model, word in DECLARED:
        assert groups[model]["properties"][word]["description"]
    assert sum(len(group["properties"]) for group in groups.values()) == len(DECLARED)


def _object_in(rule: dict[str, Any]) -> dict[str, Any]:
    """Return the rule for the longest form of a group: the one that has words."""
    if "properties" in rule:
        return rule
    other = rule.get("additionalProperties")
    inner = [*rule.get("oneOf", []), *([other] if isinstance(other, dict) else [])]
    return next((found for each in inner if (found := _object_in(each))), {})


def test_the_schema_names_its_draft_and_every_reference_leads_somewhere() -> None:
    assert SCHEMA["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    assert {name.removeprefix("#/$defs/") for name in _references(SCHEMA)} == set(SCHEMA["$defs"])
    for pattern in _values_of(SCHEMA, "pattern"):
        re.compile(pattern)


def _references(rule: object) -> list[str]:
    return [str(value) for value in _values_of(rule, "$ref")]


def _values_of(rule: object, keyword: str) -> list[Any]:
    if isinstance(rule, list):
        return [value for each in rule for value in _values_of(each, keyword)]
    if not isinstance(rule, dict):
        return []
    here = [rule[keyword]] if isinstance(rule.get(keyword), str) else []
    return here + [value for each in rule.values() for value in _values_of(each, keyword)]


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.parent.name)
def test_an_editor_takes_the_example_builds(path: Path) -> None:
    assert accepts(SCHEMA, as_an_editor_reads(path.read_text(encoding="utf-8")))


@given(builds())
@settings(max_examples=60, derandomize=True, deadline=None)
def test_an_editor_takes_what_the_reader_takes(build: GeneratedBuild) -> None:
    assert read_build(build.text.encode()).problems == ()
    assert accepts(SCHEMA, as_an_editor_reads(build.text))


@pytest.mark.parametrize(
    "line",
    [
        "circuits: {fan: {path: [fan: 12 ft, fuze: {colour: red}]}}",
        "circuits: {fan: {path: fan}}",
        "circuits: {fan: {path: [{fan: 12 ft, lamp: 2 ft}]}}",
        "circuits: {fan: {}}",
        "parts: {fan: {kind: fann}}",
        "parts: {fan: {kind: fan, draws: 3}}",
        "parts: {fan: {kind: fan, own switch: maybe}}",
        "parts: [fan]",
        "battery: {chemistry: agm}",
        "front box: {fuse ways: 8.5}",
        "heating: yes",
        "mains:",
    ],
)
def test_an_editor_marks_what_the_reader_refuses(line: str) -> None:
    text = f"format: 1\nbuild: {{name: Quarry Bend}}\n{line}\n"
    assert read_build(text.encode()).problems
    assert not accepts(SCHEMA, as_an_editor_reads(text))


@pytest.mark.parametrize(
    "line",
    [
        "parts: {fan: {kind: Fan, own switch: Yes}}",
        "battery: {chemistry: AGM, capacity: 35 Ah}",
        "battery: {chemistry: LiFePO4, capacity: 35 Ah}",
        "front box: {fuse ways: '8', fuses: blade}",
    ],
)
def test_other_capitals_and_spellings_pass_in_both(line: str) -> None:
    text = f"format: 1\nbuild: {{name: 12, number: 1.0}}\n{line}\n"
    root = read_build_text(text.encode()).root
    assert root is not None
    assert declare(root)[1] == ()
    assert accepts(SCHEMA, as_an_editor_reads(text))


def test_the_reference_is_laid_out_for_a_terminal() -> None:
    """No row is wider than 92, none ends inside a word with a hyphen, and what goes on below is set in."""
    words = [group.words[0].word for group in reference_words.groups()]
    texts = [reference.word_text(word) for word in words] + [kind_reference.kinds_text()]
    rows = [row for text in texts for row in text.splitlines() if "as in: " not in row]
    assert max(map(len, rows)) <= 92
    assert max(map(len, rows)) > 80
    assert not [row for row in rows if row.endswith("-") and not row.endswith(" -")]
    for kind in part_kinds().values():
        _, _, shown = kind_reference.kind_block(kind).partition("      as in: ")
        first, *more = shown.splitlines()
        assert len(first) + len("      as in: ") <= 92
        assert all(row.startswith("        ") and len(row) <= 92 for row in more)
        assert not first.endswith("-")


def test_a_value_of_a_closed_list_is_told_with_the_words_that_take_it_and_those_that_speak_of_it() -> None:
    loop = reference.word_text("hinge loop") or ""
    assert "as in: kind: hinge loop" in loop
    for word in ("slack", "hinge", "opens"):
        assert f"\n  {word}: " in loop
    assert "bore: inside diameter" in (reference.word_text("Conduit") or "")
    assert "as in: shows: fog" in (reference.word_text("fog") or "")
    # a kind of part and a word of the file are told as before, the value beside them
    assert "its functions" not in (reference.word_text("lamp") or "")
    assert "as in: side: left" in (reference.word_text("left") or "")
    assert "how far left of the middle" in (reference.word_text("left") or "")
    assert reference.word_text("yes") is None
