"""The lines that the reference shows for kinds of parts can be taken over as they stand."""

from __future__ import annotations

import re

import pytest

from builder.buildfile.kind_reference import kind_block, plug_text
from builder.buildfile.reference import word_text
from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.rules.registry import find
from builder.tables.part_kinds import part_kinds
from builder.tables.tow_plugs import plug_pattern, plug_patterns

PARTS = {
    "lamp": "kind: lamp",
    "other lamp": "kind: lamp",
    "pump": "kind: pump",
    "meter": "kind: meter",
    "socket": "kind: socket, draws: 10 W, at: 5 V",
    "tap switch": "kind: switch",
    "door switch": "kind: two-way switch",
    "bed switch": "kind: two-way switch",
    "middle switch": "kind: four-way switch",
    "charge controller": "kind: charge controller",
    "solar module": "kind: solar module",
    "brake splice": "kind: splice",
    "breakaway battery": "kind: breakaway battery",
    "breakaway switch": "kind: breakaway switch",
}
BATTERY = "chemistry: agm, capacity: 100 Ah"
SHORT = "path: [main fuse: 5 in, front box: 3 ft]"


def build_around(kind: str, block: str) -> str:
    """Return a build that holds the shown line, with the parts that it names."""
    shown = " ".join(block.split("as in: ")[1].split())
    line, _, more = (side.strip(" )") for side in shown.partition(" ("))
    parts = {
        name: words
        for name, words in PARTS.items()
        if re.search(rf"(?<!my )(?<=[\[ ]){name}:|from: {name},", line)
    }
    own = more.removeprefix("with ") if more.startswith("with ") else ""
    parts[f"my {kind}"] = f"kind: {kind}" + (f", {own}" if own else "")
    if "under battery" in more:
        return whole(f"{BATTERY}, {line}", {"lamp": "kind: lamp"}, "light: {path: [lamp: 6 ft]}")
    if f"my {kind}" not in line:
        parts.pop(f"my {kind}")
    return whole(f"{BATTERY}, {SHORT}", parts, line)


def whole(battery: str, parts: dict[str, str], circuit: str) -> str:
    listed = "".join(f"  {name}: {{{words}}}\n" for name, words in parts.items())
    return (
        "format: 1\nbuild: {name: Example, country: US}\n"
        f"battery: {{{battery}}}\nfront box: {{fuse ways: 4}}\n"
        "tow plug: {pattern: 7-way blade, to front box: 7 ft}\n"
        f"parts:\n{listed}circuits:\n  {circuit}\nmains: {{what: inlet, done by: licensed electrician}}\n"
    )


@pytest.mark.parametrize("kind", part_kinds())
def test_the_line_shown_for_a_kind_is_a_build_without_a_problem(kind: str) -> None:
    text = build_around(kind, kind_block(part_kinds()[kind]))
    reading = read_build(text.encode())
    assert reading.trailer is not None, [(p.message, p.help) for p in reading.problems] + [text]
    found = find(reading.trailer, compute(reading.trailer))
    assert not [finding.message for finding in found if finding.rule == "part not wired"], text


@pytest.mark.parametrize("name", plug_patterns())
def test_every_contact_of_a_plug_can_be_looked_up(name: str) -> None:
    told = word_text(name.upper()) or ""
    assert told == plug_text(name)
    for contact in plug_pattern(name).contacts:
        assert re.search(rf"^ +{contact.number} +{', '.join(contact.functions)}", told, re.MULTILINE)
    assert told in (word_text("tow plug") or "")
