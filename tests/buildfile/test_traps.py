"""Thirty traps of YAML and what a maker is told: line, column, the whole sentence and the whole help.

Where the right answer is acceptance, the value arrives as it was written. Sources: YAML 1.2.2 (https://yaml.org/spec/1.2.2)
by chapter beside the trap; "1.1" marks what YAML 1.1 (2005) made of a word, from memory.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field

import pytest

from builder.buildfile.edits import apply_edits
from builder.buildfile.mending import UNREADABLE, edits_of
from builder.buildfile.nodes import Node, Pairs, Text
from builder.buildfile.reading import read_build_text
from builder.buildfile.resolving import read_build

FORMAT = "format: 1\n"
BUILD = "build: {name: Bean Row, country: US}\n"
BATTERY = "battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}\n"
BOX = "front box: {fuse ways: 6}\n"
FAN = "  fan: {kind: fan, draws: 3 A}\n"
CIRCUITS = "circuits:\n  fan: {path: [fan: 12 ft]}\n"
SOUND = FORMAT + BUILD + BATTERY + BOX + "parts:\n" + FAN + CIRCUITS

LENGTH = "write a length, such as 14 ft 6 in or 4.4 m"
SMALLEST = "`wiring-manual begin FOLDER` writes the smallest build file, to be changed to your own trailer"
BLOCK_FAN = "  fan:\n    kind: fan\n    draws: 3 A\n"


def with_(old: str, new: str) -> str:
    """The sound build with one thing changed."""
    assert SOUND.count(old) == 1 or old == "fan: 12 ft"
    return SOUND.replace(old, new, 1)


def noted(value: str) -> str:
    """The sound build with a note at the fan, in braces."""
    return with_("draws: 3 A}", f"draws: 3 A, note: {value}}}")


def below(value: str) -> str:
    """The sound build with a note at the fan, on a line of its own: line 9."""
    return with_(FAN, f"{BLOCK_FAN}    note: {value}\n")


def circuit(*rows: str) -> str:
    """The sound build with the words of its circuit on lines of their own: from line 9 on."""
    return with_("  fan: {path: [fan: 12 ft]}\n", "".join(f"    {row}\n" for row in ("", *rows))).replace(
        "circuits:\n    \n", "circuits:\n  fan:\n"
    )


@dataclass(frozen=True)
class Trap:
    """One trap: what is written; then either what is told, or which text arrives at a path of names."""

    number: int
    text: str
    told: tuple[tuple[int, int, str, str, str], ...] = ()
    arrives: tuple[tuple[tuple[str, ...], str], ...] = ()
    encoding: str = "utf-8"
    source: str = field(default="", compare=False)


def tells(number: int, text: str, *told: tuple[int, int, str, str, str], source: str = "") -> Trap:
    return Trap(number, text, told=told, source=source)


def takes(
    number: int, text: str, *arrives: tuple[tuple[str, ...], str], encoding: str = "utf-8", source: str = ""
) -> Trap:
    return Trap(number, text, arrives=arrives, encoding=encoding, source=source)


NOTE, NUMBER = ("parts", "fan", "note"), ("build", "number")
OUR_BOOLEANS = "10.3.2: only true and false are booleans; yes and no are text"
INT = "10.3.2: 0o17 is octal, 017 is the decimal 17; neither counts here"
COMMENT = "6.6: comments begin with # after white space"
PLAIN_COLON = "7.3.3: a plain text may not hold a colon followed by white space"
INDENT = "6.1: indentation is by spaces, never by tabs"
INDICATORS = "5.3: a plain text may not start with most indicators; @ and ` are reserved"
UNIQUE = "3.2.1.3: the names of a mapping are unique"
STARTS = "put the value in quotes"


def _may_not_start(sign: str, length: int) -> Trap:
    return tells(
        29,
        noted(sign + "now"[: length - 1]),
        (6, 38, "sign at the start", f"a value may not start with {sign}", STARTS),
        source=INDICATORS,
    )


TRAPS = {
    "country NO": takes(
        1, with_("country: US", "country: NO"), (("build", "country"), "NO"), source=OUR_BOOLEANS
    ),
    "yes or no in capitals": takes(
        1, with_("draws: 3 A}", "draws: 3 A, own switch: NO}"), (("parts", "fan", "own switch"), "NO")
    ),
    "off where yes or no is wanted": tells(
        1,
        with_("draws: 3 A}", "draws: 3 A, own switch: off}"),
        (6, 44, "misread value", "off is not yes or no", "write no"),
    ),
    "on as a name": tells(
        2,
        with_("draws: 3 A}", "on: 3 A}"),
        (
            6,
            20,
            "unknown word",
            "“on” is not a word used in this part",
            "the words here are: kind, draws, at, lit length, draws when idle, own switch, outputs, ways, works from, "
            "rating, gives, gives at, efficiency, leads, leads come out, opening, where, place, rise, note",
        ),
        source="1.1 read it as true",
    ),
    "off as a value": takes(3, noted("off"), (NOTE, "off"), source=OUR_BOOLEANS),
    "n and y as names": takes(
        4,
        with_(FAN, "  n: {kind: fan, draws: 3 A}\n  y: {kind: lamp, draws: 3 W}\n").replace(
            "[fan: 12 ft]", "[n: 12 ft, y: 3 ft]"
        ),
        (("parts", "n", "kind"), "fan"),
        (("parts", "y", "kind"), "lamp"),
        source="1.1 lists them as booleans",
    ),
    "a clock time": tells(
        5,
        with_("fan: 12 ft", "fan: 12:30"),
        (8, 21, "misread value", "12:30 looks like a clock time; a length is wanted here", LENGTH),
        source="1.1 read it as the number 750, to base 60",
    ),
    "a ratio of three": tells(
        6,
        with_("fan: 12 ft", "fan: 1:30:15"),
        (8, 21, "misread value", "1:30:15 looks like a clock time; a length is wanted here", LENGTH),
        source="1.1 read it as the number 5415, to base 60",
    ),
    "a number that begins with 0": takes(
        7, with_("Bean Row", "Bean Row, number: 010"), (NUMBER, "010"), source=INT
    ),
    "089 and 007": takes(
        8,
        with_("draws: 3 A}", "draws: 3 A, note: 089, where: 007}"),
        (NOTE, "089"),
        (("parts", "fan", "where"), "007"),
        source=INT,
    ),
    "a power of ten in a text": takes(9, with_("Bean Row", "Bean Row, number: 7E2"), (NUMBER, "7E2")),
    "a power of ten without a unit": tells(
        10,
        with_("draws: 3 A", "draws: 1e3"),
        (6, 27, "misread value", "1e3 has no unit", "write 1000 W or 1000 A"),
        source="10.3.2: 1e3 is a number",
    ),
    "a version": takes(11, with_("Bean Row", "Bean Row, number: 1.10"), (NUMBER, "1.10")),
    "a comma for thousands": tells(
        12,
        SOUND.replace(BATTERY, "battery:\n  chemistry: agm\n  capacity: 1,000 Ah\n  to front box: 4 ft\n"),
        (5, 13, "misread value", "the comma inside 1,000 can mean two things", "write 1000 Ah or 1 Ah"),
    ),
    "a comma for a point": tells(
        12,
        circuit("path: [fan: 12 ft]", "size: 2,5 mm²"),
        (10, 11, "misread value", "the comma inside 2,5 can mean two things", "write 2.5 mm²"),
    ),
    "a comma for a point in brackets": tells(
        13,
        SOUND + "wire: {on the shelf: [16 AWG, 2,5 mm²]}\n",
        (
            9,
            31,
            "comma in a number",
            "the comma in 2,5 mm² parts two things here",
            "write 2.5 mm², with a point",
        ),
        source="7.4: a comma parts the entries of a flow collection",
    ),
    "null": tells(
        14,
        below("null"),
        (
            9,
            5,
            "empty value",
            "“note” has a colon and nothing after it",
            "write a value after the colon, or take the line out",
        ),
        source="10.3.2: null, ~ and nothing are null",
    ),
    "a tilde in braces": tells(
        14,
        noted("~"),
        (
            6,
            32,
            "empty value",
            "“note” has a colon and nothing after it",
            "write a value after the colon, or take the line out",
        ),
    ),
    "nothing": tells(
        14,
        below("").replace("note: \n", "note:\n"),
        (
            9,
            5,
            "empty value",
            "“note” has a colon and nothing after it",
            "write a value after the colon, or take the line out",
        ),
    ),
    "a day that there is not": takes(
        15, noted("2026-13-01"), (NOTE, "2026-13-01"), source="no word here takes a date: it is a text"
    ),
    "a day of two readings": takes(16, noted("01-05-2026"), (NOTE, "01-05-2026")),
    "a sign of a number in a note": tells(
        17,
        below("wire #4"),
        (
            9,
            16,
            "comment in a value",
            "everything after # is a comment",
            "if `#4` belongs to the value, put the value in quotes; if not, write a space after #",
        ),
        source=COMMENT,
    ),
    "a colour of the web": tells(
        18,
        circuit("path: [fan: 12 ft]", "color: #FF0000"),
        (
            10,
            12,
            "comment in a value",
            "everything after # is a comment",
            "if `#FF0000` belongs to the value, put the value in quotes; if not, write a space after #",
        ),
        source=COMMENT,
    ),
    "a sign of a number in brackets": tells(
        17,
        with_("fan: 12 ft", "fan: 12 ft #4"),
        (
            8,
            27,
            "comment in a value",
            "everything after # is a comment",
            "if `#4` belongs to the value, put the value in quotes; if not, write a space after #",
        ),
        source=COMMENT,
    ),
    "a colon in a note": tells(
        19,
        below("see: page 3"),
        (
            9,
            11,
            "colon in a value",
            "a colon followed by a space starts a new value",
            "put the text in quotes",
        ),
        source=PLAIN_COLON,
    ),
    "no space after a colon": tells(
        20,
        circuit("path: [fan: 12 ft]", "fuse:3 A"),
        (
            10,
            5,
            "missing space after colon",
            "there must be a space after the colon",
            "write `fuse: 3 A`; a text that holds a colon goes in quotes",
        ),
        source=PLAIN_COLON,
    ),
    "no space after a colon, and a line below": tells(
        20,
        circuit("fuse:3 A", "path: [fan: 12 ft]"),
        (
            9,
            5,
            "missing space after colon",
            "there must be a space after the colon",
            "write `fuse: 3 A`; a text that holds a colon goes in quotes",
        ),
    ),
    "no space after a colon in brackets": tells(
        20,
        with_("fan: 12 ft", "fan:14 ft"),
        (
            8,
            16,
            "missing space after colon",
            "there must be a space after the colon",
            "write `fan: 14 ft`; a text that holds a colon goes in quotes",
        ),
    ),
    "no space after a colon in braces": tells(
        21,
        with_("fan: 12 ft", "fan: {length: 12 ft, size:16 AWG}"),
        (
            8,
            37,
            "missing space after colon",
            "there must be a space after the colon",
            "write `size: 16 AWG`; a text that holds a colon goes in quotes",
        ),
    ),
    "a name twice": tells(
        22,
        circuit("fuse: 3 A", "path: [fan: 12 ft]", "fuse: 5 A"),
        (
            11,
            5,
            "name written twice",
            "`fuse` is written twice, first at line 9",
            "keep one of the two, or give one another name",
        ),
        source=UNIQUE,
    ),
    "a name twice, once in quotes": tells(
        23,
        with_(FAN, '  1: {kind: fan, draws: 3 A}\n  "1": {kind: lamp}\n').replace(
            "[fan: 12 ft]", "[1: 12 ft]"
        ),
        (
            7,
            3,
            "name written twice",
            "`1` is written twice, first at line 6",
            "keep one of the two, or give one another name",
        ),
    ),
    "a tab that sets in": tells(
        24,
        with_(FAN, FAN.replace("  fan", "\tfan")),
        (
            6,
            1,
            "tab",
            "there is a tab here",
            "use spaces; most editors can turn all tabs into spaces at once",
        ),
        source=INDENT,
    ),
    "a tab after a colon": tells(
        24,
        with_("build: {", "build:\t{"),
        (
            2,
            7,
            "tab",
            "there is a tab here",
            "use spaces; most editors can turn all tabs into spaces at once",
        ),
    ),
    "set in by one less": tells(
        25,
        with_(FAN, "  fan:\n    kind: fan\n   draws: 3 A\n"),
        (
            8,
            4,
            "line set in wrongly",
            "this line is set in by 3 spaces; the lines it belongs to under `fan` (line 6) by 4",
            "set it in by 4 spaces",
        ),
        source=INDENT,
    ),
    "inches in quotes": tells(
        26,
        with_("draws: 3 A}", 'draws: 3 A, where: "3/4" conduit"}'),
        (
            6,
            39,
            "mark inside quotes",
            "an inch or foot mark inside quotes ends the text",
            "leave the outer quotes off, or write 3/4 in instead of the mark",
        ),
        source="7.3.1",
    ),
    "feet in quotes": tells(
        26,
        with_("fan: 12 ft", "fan: '9' 6\"'"),
        (
            8,
            21,
            "mark inside quotes",
            "an inch or foot mark inside quotes ends the text",
            "leave the outer quotes off, or write 3/4 in instead of the mark",
        ),
    ),
    "inches without quotes": takes(26, noted('3/4" conduit'), (NOTE, '3/4" conduit')),
    "feet without quotes": takes(
        26, with_("fan: 12 ft", "fan: 9' 6\""), (("circuits", "fan", "path", "fan"), "9' 6\"")
    ),
    "curly quotes around a quantity": takes(
        27, with_("draws: 3 A", "draws: “3 A”"), (("parts", "fan", "draws"), "3 A")
    ),
    "curly quotes around a text": tells(
        27,
        noted("“white”"),
        (6, 38, "curly quotes", "these are curly quotes (column 38)", 'use straight quotes (") or none'),
    ),
    "a no-break space in a quantity": takes(
        27, with_("draws: 3 A", "draws: 3\u00a0A"), (("parts", "fan", "draws"), "3 A")
    ),
    "a line separator": tells(
        27,
        noted("a\u2028b"),
        (
            6,
            39,
            "line separator",
            "there is a line separator here (U+2028)",
            "delete it and press Enter where a new line is meant",
        ),
        source="5.4: U+2028 is no line break in 1.2",
    ),
    "merging twice": tells(
        28,
        with_(FAN, "  base: &base {kind: fan, draws: 3 A}\n  fan:\n    <<: *base\n    <<: *base\n"),
        (
            6,
            9,
            "anchor",
            "anchors and aliases are not used here: `&base`, referred to in lines 8, 9",
            "write the value out in each place where it is wanted",
        ),
        (
            8,
            5,
            "merge key",
            "`<<` (merging) is not used here",
            "write the values out in each place where they are wanted",
        ),
        (
            9,
            5,
            "merge key",
            "`<<` (merging) is not used here",
            "write the values out in each place where they are wanted",
        ),
        source="a type of 1.1, gone from 1.2",
    ),
    "an alias": tells(
        28,
        with_(FAN, "  base: &base {kind: fan, draws: 3 A}\n  fan: *base\n"),
        (
            6,
            9,
            "anchor",
            "anchors and aliases are not used here: `&base`, referred to in line 7",
            "write the value out in each place where it is wanted",
        ),
    ),
    "a backslash in double quotes": tells(
        29,
        noted(r'"C:\photos\new"'),
        (
            6,
            41,
            "backslash",
            r"a backslash starts an escape inside double quotes: `\p`",
            "write / between folders, or leave the quotes off",
        ),
        source="5.7",
    ),
    "@ at the start": _may_not_start("@", 4),
    "` at the start": _may_not_start("`", 4),
    "% at the start": _may_not_start("%", 3),
    "* at the start": _may_not_start("*", 4),
    "& at the start": _may_not_start("&", 4),
    "! at the start": tells(
        29,
        noted("!now"),
        (6, 38, "sign at the start", "a value may not start with !", STARTS),
        source=INDICATORS,
    ),
    "two documents": tells(
        30,
        SOUND + "---\nformat: 1\n",
        (
            9,
            1,
            "several documents",
            "this file holds two documents; the second starts at line 9",
            "keep one trailer in a file: take out the line of three signs (--- or ...), or move the rest",
        ),
        source="9.1.2",
    ),
    "an empty file": tells(30, "", (1, 1, "empty file", "this file is empty", SMALLEST)),
    "only comments": tells(
        30, "# nothing yet\n", (1, 1, "empty file", "this file holds only comments", SMALLEST)
    ),
    "a list at the top": tells(
        30,
        "- format: 1\n",
        (
            1,
            1,
            "list at the top",
            "a list stands where a heading such as `parts:` is wanted",
            f"begin with headings in column 1; {SMALLEST}",
        ),
    ),
    "a text at the top": tells(
        30,
        "just text\n",
        (
            1,
            1,
            "text at the top",
            "a text stands where a heading such as `parts:` is wanted",
            f"begin with headings in column 1; {SMALLEST}",
        ),
    ),
    "UTF-16": takes(30, SOUND, (("build", "name"), "Bean Row"), encoding="utf-16", source="5.2"),
    "a byte-order mark": takes(
        30, SOUND, (("build", "name"), "Bean Row"), encoding="utf-8-sig", source="5.2"
    ),
}


def value_at(node: Node | None, path: tuple[str, ...]) -> str:
    """The text at a path of names; a list is searched for the item of that name."""
    if isinstance(node, Text):
        assert path == ()
        return node.value
    assert node is not None
    pairs = (
        node.pairs
        if isinstance(node, Pairs)
        else [pair for item in node.items if isinstance(item, Pairs) for pair in item.pairs]
    )
    return value_at(next(pair.value for pair in pairs if pair.key.value == path[0]), path[1:])


def test_all_thirty_traps_are_here() -> None:
    assert {trap.number for trap in TRAPS.values()} == set(range(1, 31))


def test_the_build_that_the_traps_stand_in_is_read() -> None:
    assert read_build(SOUND.encode()).problems == ()


@pytest.mark.parametrize("name", [name for name, trap in TRAPS.items() if trap.told])
def test_a_trap_is_told_in_the_very_place_and_words(name: str) -> None:
    problems = read_build(TRAPS[name].text.encode()).problems
    assert [
        (one.origin.line, one.origin.column, one.name, one.message, one.help) for one in problems
    ] == list(TRAPS[name].told)


@pytest.mark.parametrize("name", [name for name, trap in TRAPS.items() if trap.arrives])
def test_what_is_no_trap_here_arrives_as_it_was_written(name: str) -> None:
    trap = TRAPS[name]
    data = trap.text.encode(trap.encoding)
    reading = read_build(data)
    assert reading.problems == ()
    assert reading.trailer is not None
    root = read_build_text(data).root
    assert {path: value_at(root, path) for path, _ in trap.arrives} == dict(trap.arrives)


def test_a_quantity_arrives_as_its_value() -> None:
    for name in ("curly quotes around a quantity", "a no-break space in a quantity"):
        trailer = read_build(TRAPS[name].text.encode()).trailer
        assert trailer is not None
        draw = trailer.parts["fan"].draw
        assert draw is not None
        assert (draw.value, draw.unit) == (3.0, "A")


@pytest.mark.parametrize("name", [name for name, trap in TRAPS.items() if trap.told])
def test_each_edit_of_a_trap_removes_its_problem(name: str) -> None:
    data = TRAPS[name].text.encode()
    reading = read_build(data)
    before = [(one.name, one.message) for one in reading.problems]
    for problem, edits in zip(reading.problems, edits_of(data, reading.lines, reading.problems), strict=True):
        assert edits
        for edit in edits:
            after = [(one.name, one.message) for one in read_build(apply_edits(data, [edit])).problems]
            told = (problem.name, problem.message)
            assert after.count(told) < before.count(told), (edit, after)
            more = Counter(name for name, _ in after) - Counter(name for name, _ in before)
            assert UNREADABLE.isdisjoint(more), (edit, after)


# All at once

TEN = """\
format: 1
build: {name: Bean Row, country: America}
battery: {chemistry: lithuim, capacity: 35, to main fuse: 5 in, to front box: 4 ft}
front box: {fuse way: 6}
wire: {feed: scarlet}
parts:
  fan: {kind: fann, draws: 3 A}
  lamp: {kind: lamp, draws: 3 ft}
  pump: {kind: pump, rating: 4 A}
circuits:
  fan: {path: [fan: 12:30]}
  lamp: {path: [lamp: 3 ft], fuze: 3 A}
"""


def test_ten_faults_under_sound_headings_are_told_in_one_run() -> None:
    told = [(one.origin.line, one.origin.column, one.name) for one in read_build(TEN.encode()).problems]
    assert told == [
        (2, 34, "unknown choice"),
        (3, 22, "unknown choice"),
        (3, 41, "misread value"),
        (4, 13, "unknown word"),
        (5, 14, "unknown colour"),
        (7, 15, "unknown choice"),
        (8, 29, "misread value"),
        (9, 30, "word does not fit"),
        (11, 21, "misread value"),
        (12, 30, "unknown word"),
    ]
