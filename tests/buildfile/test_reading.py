"""The text-first reader: what a build file says, and the traps of YAML, each told at its very word."""

from __future__ import annotations

from dataclasses import dataclass

import pytest

from builder.buildfile import reading
from builder.buildfile.nodes import Items, Node, Pairs, Text
from builder.buildfile.problems import Problem
from builder.buildfile.reading import Reading, read_build_text
from builder.buildfile.reading_compose import Budget
from builder.trailer.origin import Origin


def read(text: str) -> Reading:
    return read_build_text(text.encode())


def plain(node: Node | None) -> object:
    """The tree as lists of pairs, lists and strings."""
    if isinstance(node, Pairs):
        return {pair.key.value: plain(pair.value) for pair in node.pairs}
    if isinstance(node, Items):
        return [plain(item) for item in node.items]
    return node.value if node else None


def only(text: str) -> Problem:
    problems = read(text).problems
    assert len(problems) == 1, problems
    return problems[0]


def marked(text: str, problem: Problem) -> str:
    line = read(text).lines[problem.origin.line - 1]
    start = problem.origin.column - 1
    return line[start : start + problem.origin.length]


# --- texts as written -------------------------------------------------------------------------------------

AS_WRITTEN = [
    "NO", "off", "on", "yes", "12:30", "1:30:15", "010", "089", "007", "7E2", "1e3", "1.10", "2026-13-01",
    "01-05-2026", "1,000 Ah", "2,5 mm²", ".inf", ".nan", "-1 mm²", "0x1F", "1_000", '3/4" conduit', "9' 6\"",
    "14’ 6”", "µA", "true", "=", "R&B", "50% off", "a*b", "C:/photos", "see http://x.example/y",
]  # fmt: skip


@pytest.mark.parametrize("text", AS_WRITTEN)
def test_a_scalar_is_the_text_that_was_written(text: str) -> None:
    reading = read(f"where: {text}\n")
    assert plain(reading.root) == {"where": text}
    assert reading.problems == ()


@pytest.mark.parametrize("key", ["on", "no", "y", "n", "1", "010", "null", "1.10", "12:30", "4-way flat"])
def test_a_name_is_the_text_that_was_written(key: str) -> None:
    reading = read(f"{key}: 3 A\n")
    assert plain(reading.root) == {key: "3 A"}
    assert reading.problems == ()


@pytest.mark.parametrize("written", ["", " ~", " null", " NULL"])
def test_nothing_behind_a_colon_is_none_whatever_the_spelling(written: str) -> None:
    reading = read(f"maker:{written}\nparts:\n  fan:{written}\n")
    assert plain(reading.root) == {"maker": None, "parts": {"fan": None}}
    assert reading.problems == ()


def test_the_forms_of_a_build_file() -> None:
    reading = read(
        "build: {name: Mill Lane, number: 3}   # a comment\n"
        "circuits:\n"
        "  step light: {path: [step switch: 14 ft, step lamp: 6 ft]}\n"
        "  pump: {path: [fan, pump: 8 ft],\n"
        "         branches: [{from: fuse, path: [pump switch: 9 ft]}]}\n"
        "log: |\n"
        "  first line\n"
        "  second: line\n"
    )
    assert reading.problems == ()
    assert plain(reading.root) == {
        "build": {"name": "Mill Lane", "number": "3"},
        "circuits": {
            "step light": {"path": [{"step switch": "14 ft"}, {"step lamp": "6 ft"}]},
            "pump": {
                "path": ["fan", {"pump": "8 ft"}],
                "branches": [{"from": "fuse", "path": [{"pump switch": "9 ft"}]}],
            },
        },
        "log": "first line\nsecond: line",
    }


def test_every_text_knows_its_very_word() -> None:
    reading = read('format: 1\nwire:\n  feed: "dark red"\n  sizes: [16 AWG, 14 AWG]\n')
    root = reading.root
    assert root is not None
    assert [pair.key.origin for pair in root.pairs] == [Origin(1, 1, 6), Origin(2, 1, 4)]
    wire = root.pairs[1].value
    assert isinstance(wire, Pairs)
    assert not wire.flow
    assert wire.pairs[0].value == Text("dark red", Origin(3, 9, 10), quoted=True)
    sizes = wire.pairs[1].value
    assert isinstance(sizes, Items)
    assert sizes.origin == Origin(4, 10, 16)
    assert sizes.items[1] == Text("14 AWG", Origin(4, 19, 6))


def test_pairs_in_brackets_say_so() -> None:
    root = read("a: {b: c}\npath: [fan: 3 ft]\n").root
    assert root is not None
    first, second = (pair.value for pair in root.pairs)
    assert isinstance(first, Pairs)
    assert first.flow
    assert isinstance(second, Items)
    assert isinstance(second.items[0], Pairs)
    assert second.items[0].flow


@pytest.mark.parametrize("space", ["\u00a0", "\u202f", "\u2009", "\u3000"])
def test_wide_narrow_and_no_break_spaces_are_spaces(space: str) -> None:
    reading = read(f"step{space}lamp: 3{space}A\n{space}\n")
    assert plain(reading.root) == {"step lamp": "3 A"}
    assert reading.problems == ()


def test_names_and_values_are_composed() -> None:
    assert plain(read("cafe\u0301: cre\u0300me\n").root) == {"café": "crème"}


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_line_ends_of_every_kind_give_the_right_line(end: str) -> None:
    text = end.join(["a: 1", "# note", "b:", "  c: 2", "  c: 3", ""])
    assert read(text).problems[0].origin == Origin(5, 3, 1)
    assert read(text).lines == ("a: 1", "# note", "b:", "  c: 2", "  c: 3")


def test_mixed_line_ends_give_the_right_line() -> None:
    reading = read("a: 1\r\nb: 2\rc: 3\na: 4\r\n")
    assert reading.lines == ("a: 1", "b: 2", "c: 3", "a: 4")
    assert reading.problems[0].origin == Origin(4, 1, 1)


@pytest.mark.parametrize("codec", ["utf-8", "utf-8-sig", "utf-16", "utf-32"])
def test_encodings_that_say_what_they_are_are_read(codec: str) -> None:
    reading = read_build_text("size: 2.5 mm²\n".encode(codec))
    assert plain(reading.root) == {"size": "2.5 mm²"}
    assert reading.problems == ()
    assert reading.lines == ("size: 2.5 mm²",)


@pytest.mark.parametrize(
    "text", ["---\na: b\n", "%YAML 1.2\n---\na: b\n...\n", "# top\n--- # one\na: b\n---\n"]
)
def test_marks_of_a_single_document_do_no_harm(text: str) -> None:
    reading = read(text)
    assert plain(reading.root) == {"a": "b"}
    assert reading.problems == ()


@pytest.mark.parametrize(
    "text",
    ["a: b   # tail, left", "a: b #", "a: b # 4", "a: b #! x", 'a: "b" #4', "a: {b: c} #4", "a: b#4",
     "a: #house\n  b: c", "a: b  #4"],
)  # fmt: skip
def test_comments_that_are_meant_are_comments(text: str) -> None:
    assert read(text).problems == ()


def test_emoji_and_scripts_that_need_joiners_pass() -> None:
    name = "👩\u200d🔧 ⚠\ufe0f 1\ufe0f\u20e3 می\u200cخواهم"
    reading = read(f"{name}: 3 A\n")
    assert plain(reading.root) == {name: "3 A"}
    assert reading.problems == ()


def test_two_escapes_for_one_character_are_joined() -> None:
    assert plain(read(r'a: "\ud83d\ude00 \u00b2 14\" / \\"').root) == {"a": '😀 ² 14" / \\'}


# --- traps ------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Trap:
    """A text, and where and how its one problem must be told."""

    text: str
    line: int
    column: int
    word: str
    says: str
    help: str


TRAPS = {
    "comment in a value": Trap("note: wire #4", 1, 12, "#4", "everything after # is a comment", "in quotes"),
    "comment as a value": Trap("colour: #FF0000", 1, 9, "#FF0000", "after # is a comment", "in quotes"),
    "comment takes a bracket": Trap("a: {note: wire #4}\nb: 1", 1, 16, "#4", "is a comment", "in quotes"),
    "comment takes a colon": Trap("a:\n  wire #4: 2\n  c: 3", 2, 8, "#4", "is a comment", "in quotes"),
    "second colon": Trap("note: see: page 3", 1, 7, "see:", "a colon followed by a space", "in quotes"),
    "second colon in braces": Trap("a: {b: c: d}", 1, 8, "c:", "a colon followed by a space", "comma"),
    "two names on a line": Trap(
        "length: 12 ft, width: 5 ft", 1, 9, "12 ft, width:", "starts a new value", "braces"
    ),
    "no space, line before": Trap(
        "circuits:\n  fan:\n    fuse:3 A\n    path: [fan: 2 ft]",
        3,
        5,
        "fuse:3",
        "a space after the colon",
        "`fuse: 3 A`",
    ),
    "no space, alone": Trap(
        "circuits:\n  fan:\n    fuse:3 A", 3, 5, "fuse:3", "a space after the colon", "`fuse: 3 A`"
    ),
    "no space at the top": Trap(
        "format:1\nbuild: {a: b}", 1, 1, "format:1", "space after the colon", "`format: 1`"
    ),
    "no space, whole file": Trap("format:1", 1, 1, "format:1", "space after the colon", "`format: 1`"),
    "no space in braces": Trap(
        "w: {size:16 AWG, a: b}", 1, 5, "size:16", "space after the colon", "`size: 16 AWG`"
    ),
    "no space in a list": Trap(
        "path: [to fan:12 ft]", 1, 8, "to fan:12", "space after the colon", "`to fan: 12 ft`"
    ),
    "no space before a brace": Trap(
        "wire:{a: [b], c: d}", 1, 1, "wire:{a:", "space after the colon", "wire: {a"
    ),
    "name twice": Trap(
        "a:\n  fuse: 1\n  b: 2\n  fuse: 3", 4, 3, "fuse", "`fuse` is written twice, first at line 2", "keep"
    ),
    "name twice in braces": Trap(
        "a: {b: 1, b: 2}", 1, 11, "b", "written twice, first in column 5", "keep one"
    ),
    "name twice but for quotes": Trap(
        '1: a\n"1": b', 2, 1, '"1"', "`1` is written twice, first at line 1", "keep"
    ),
    "name twice but for case": Trap("Step: 1\nstep: 2", 2, 1, "step", "first at line 1 as `Step`", "keep"),
    "name twice but for blanks": Trap(
        "a  b: 1\na b: 2", 2, 1, "a b", "written twice, first at line 1", "keep"
    ),
    "name twice but for accents": Trap(
        "caf\u00e9: 1\ncafe\u0301: 2", 2, 1, "cafe\u0301", "is written twice", "keep"
    ),
    "tab for indenting": Trap("parts:\n\tfan: 3", 2, 1, "\t", "there is a tab here", "use spaces"),
    "tab after the colon": Trap("fuse:\t3 A", 1, 6, "\t", "there is a tab here", "use spaces"),
    "tabs on neighbouring lines": Trap(
        "a:\n\tb: 1\n\tc: 2\n\td: 3", 2, 1, "\t", "and in the 2 lines below it", "spaces"
    ),
    "indent one short": Trap(
        "parts:\n  fan: {a: b}\n lamp: {a: b}",
        3,
        2,
        "lamp:",
        "set in by 1 space; the lines it belongs to under `parts` (line 1) by 2",
        "by 2",
    ),
    "indent one short, deeper": Trap(
        "parts:\n  fan:\n    a: b\n   c: d",
        4,
        4,
        "c:",
        "set in by 3 spaces; the lines it belongs to under `fan` (line 2) by 4",
        "by 4",
    ),
    "indent one too far": Trap(
        "parts:\n  fan: 3 A\n   lamp: 4 A", 3, 4, "lamp:", "set in by 3 spaces", "set it in by 2"
    ),
    "indent after braces": Trap(
        "parts:\n  fan: {a: b}\n   lamp: {a: b}", 3, 4, "lamp:", "under `parts` (line 1) by 2", "by 2"
    ),
    "indent of the first line": Trap(
        "parts:\n   a: {x: y}\n  b: {x: y}\n  c: 1",
        2,
        4,
        "a:",
        "set in by 3 spaces; the lines it belongs to",
        "by 2",
    ),
    "starts with ! before a colon": Trap(
        "fan:\n  !kind: fan\n  draws: 3 A", 2, 3, "!kind:", "a value may not start with !", "in quotes"
    ),
    "two colons": Trap("a: {b: :c}", 1, 8, ":", "there are two colons here", "take one out"),
    "line among dashes": Trap(
        "a:\n  - b\n  c: d", 3, 3, "c:", "stands among items with a dash", "begin it with"
    ),
    "brackets before a colon": Trap(
        "a: {b}: c", 1, 7, ":", "the brackets end before this", "inside the brackets"
    ),
    "heading set in": Trap(
        "format: 1\n build: {a: b}", 2, 2, "build:", "set in by 1 space", "set it in by 0"
    ),
    "first heading set in": Trap("  a: 1\nb: 2", 1, 3, "a:", "headings begin in column 1", "take the spaces"),
    "inch mark inside quotes": Trap(
        'a: "3/4" conduit"', 1, 4, '"3/4" conduit"', "an inch or foot mark", "3/4 in"
    ),
    "foot mark inside quotes": Trap(
        "a: '9' 6\"'", 1, 4, "'9' 6\"'", "an inch or foot mark", "leave the outer quotes off"
    ),
    "inch mark at the end": Trap(
        'a: "14\' 6""', 1, 4, '"14\' 6""', "an inch or foot mark", "leave the outer"
    ),
    "inch mark in braces": Trap(
        'a: {x: "3/4" pipe", y: 2}', 1, 8, '"3/4" pipe"', "an inch or foot mark", "3/4 in"
    ),
    "apostrophe inside quotes": Trap("a: 'it's'", 1, 4, "'it's'", "a quote inside quotes", "the other kind"),
    "curly quotes around a name": Trap(
        "“a”: 3 A", 1, 1, "“a”", "these are curly quotes (column 1)", "straight quotes"
    ),
    "curly quotes and a colon": Trap(
        "a: “see: x”", 1, 4, "“see: x”", "these are curly quotes", "straight quotes"
    ),
    "line separator": Trap(
        "a: b\u2028c", 1, 5, "\u2028", "there is a line separator here (U+2028)", "delete it"
    ),
    "merge": Trap("a: {<<: 3}", 1, 5, "<<", "`<<` (merging) is not used here", "write the values out"),
    "anchor": Trap(
        "a: &base 3 A\nb: *base", 1, 4, "&base", "`&base`, referred to in line 2", "write the value out"
    ),
    "anchor of a mapping": Trap(
        "a: &b {c: d}\ne: *b\nf: *b", 1, 4, "&b", "in lines 2, 3", "write the value out"
    ),
    "refers to itself": Trap("a: &a [*a]", 1, 8, "*a", "refers to the very thing that it stands in", "write"),
    "tag": Trap(
        "a: !!python/object/apply:os.getcwd []",
        1,
        4,
        "!!python/object/apply:os.getcwd",
        "tags are not used",
        "leave",
    ),
    "binary": Trap("a: !!binary aGVsbG8=", 1, 4, "!!binary", "tags are not used here", "leave the tag out"),
    "backslash": Trap(r'a: "C:\photos\new"', 1, 7, r"\p", "a backslash starts an escape", "write /"),
    "backslash that YAML knows": Trap(r'a: "C:\new"', 1, 7, r"\n", "a backslash starts an escape", "write /"),
    "backslash and no character": Trap(
        r'a: "\U99999999"', 1, 5, r"\U99999999", "a backslash starts", "write /"
    ),
    "starts with @": Trap("a: @home", 1, 4, "@home", "a value may not start with @", "in quotes"),
    "starts with a backquote": Trap("a: `x", 1, 4, "`x", "a value may not start with `", "in quotes"),
    "starts with %": Trap("a: %5", 1, 4, "%5", "a value may not start with %", "in quotes"),
    "starts with *": Trap("a: *bold*", 1, 4, "*bold*", "a value may not start with *", "in quotes"),
    "starts with * alone": Trap("a: *bold", 1, 4, "*bold", "a value may not start with *", "in quotes"),
    "starts with &": Trap("a: & b", 1, 4, "&", "a value may not start with &", "in quotes"),
    "starts with & and a word": Trap("a: &b c", 1, 4, "&b", "a value may not start with &", "in quotes"),
    "starts with !": Trap("a: !important", 1, 4, "!important", "a value may not start with !", "in quotes"),
    "starts with ! and a handle": Trap(
        "a: !e!x y", 1, 4, "!e!x", "a value may not start with !", "in quotes"
    ),
    "starts with |": Trap("a: | x", 1, 4, "|", "a value may not start with |", "in quotes"),
    "starts with >": Trap("a: > 3", 1, 4, ">", "a value may not start with >", "in quotes"),
    "line starts with %": Trap("%foo\na: b", 1, 1, "%", "a line may not start with %", "in quotes"),
    "two documents": Trap(
        "a: 1\n---\nb: 2", 2, 1, "---", "two documents; the second starts at line 2", "one trailer"
    ),
    "two documents, dots": Trap(
        "a: 1\n...\n\nb: 2", 2, 1, "...", "the second starts at line 2", "one trailer"
    ),
    "empty": Trap("", 1, 1, "", "this file is empty", "wiring-manual begin FOLDER"),
    "only blank lines": Trap("\n  \n", 1, 1, "", "this file is empty", "wiring-manual begin FOLDER"),
    "only comments": Trap("# a\n\n# b\n", 1, 1, "#", "only comments", "wiring-manual begin FOLDER"),
    "only empty braces": Trap("{}", 1, 1, "{", "only comments", "wiring-manual begin FOLDER"),
    "larger than may be": Trap(
        "#" * 2_000_001, 1, 1, "", "this file is larger than 2 MB", "name photos and other files in it"
    ),
    "list at the top": Trap(
        "- a\n- b", 1, 1, "-", "a list stands where a heading", "wiring-manual begin FOLDER"
    ),
    "text at the top": Trap("just text", 1, 1, "just text", "a text stands where a heading", "begin FOLDER"),
    "control character": Trap("a: b\x07c", 1, 5, "\x07", "a control character here (U+0007)", "delete it"),
    "nul": Trap("a: b\0\0\nc: d", 1, 5, "\0", "(U+0000), and 1 more on this line", "delete it"),
    "zero width space": Trap(
        "f\u200buse: 3 A", 1, 2, "\u200b", "invisible character here (U+200B, zero width space)", "delete"
    ),
    "word joiner": Trap("a: b\u2060c", 1, 5, "\u2060", "(U+2060, word joiner)", "delete it"),
    "soft hyphen": Trap("a: b\u00adc", 1, 5, "\u00ad", "(U+00AD, soft hyphen)", "delete it"),
    "direction override": Trap(
        "a: b\u202ec", 1, 5, "\u202e", "(U+202E, right-to-left override)", "delete it"
    ),
    "direction isolate": Trap("a: b\u2066c", 1, 5, "\u2066", "(U+2066, left-to-right isolate)", "delete it"),
    "mark inside": Trap("a: b\ufeffc", 1, 5, "\ufeff", "(U+FEFF", "delete it"),
    "no character": Trap("a: b\uffffc", 1, 5, "\uffff", "(U+FFFF)", "delete it"),
    "half a character": Trap(
        r'a: "\ud800"', 1, 5, r"\ud800", "half of a character (U+D800)", "write the character"
    ),
    "hidden by an escape": Trap(r'a: "x\u202ey"', 1, 6, r"\u202e", "(U+202E, right-to-left", "delete it"),
    "bell by an escape": Trap(r'a: "\x07"', 1, 5, r"\x07", "control character here (U+0007)", "delete it"),
    "names look the same": Trap(
        "fan: 1\nf\u0430n: 2", 2, 1, "f\u0430n", "the name at line 1 look the same", "same letters"
    ),
    "alphabets mixed": Trap(
        "f\u0430n: 1", 1, 1, "f\u0430n", "(U+0430) looks like the Latin letter a", "one alphabet"
    ),
    "bracket not closed": Trap(
        "build: {name: x\nparts: {a: b}", 1, 8, "{", "the bracket `{` is never closed", "`}`"
    ),
    "bracket not closed inside": Trap(
        "parts:\n  a: {kind: lamp\n  b: {kind: fan}", 2, 6, "{", "`{` is never closed", "`}`"
    ),
    "bracket not closed, comma": Trap(
        "parts:\n  a: {kind: lamp,\n  b: {kind: fan}\n  c: 3", 2, 6, "{", "never closed", "`}`"
    ),
    "list not closed": Trap("path: [a: 2 ft, b", 1, 7, "[", "the bracket `[` is never closed", "`]`"),
    "inner bracket not closed": Trap("a: {b: {c: 1}", 1, 4, "{", "the bracket `{` is never closed", "`}`"),
    "wrong bracket": Trap("a: [b, c}", 1, 9, "}", "`}` closes what `[` at line 1 opened", "write ]"),
    "stray bracket": Trap("a: ]", 1, 4, "]", "without an opening bracket", "take it out"),
    "missing comma": Trap("a: {x: 1\n  y: 2}", 1, 8, "1", "a comma is missing after this", "a comma parts"),
    "missing comma after quotes": Trap(
        'a: {x: "1" y: 2}', 1, 12, "y:", "a comma is missing before this", "comma"
    ),
    "two commas": Trap("a: [x, , y]", 1, 8, ",", "nothing stands before this comma", "take one comma out"),
    "empty item": Trap("a:\n  -\n  - b", 2, 3, "-", "this item of the list is empty", "write the item"),
    "dash behind a name": Trap("a: - x", 1, 4, "-", "may not stand behind a name", "a line of its own"),
    "dash among names": Trap("a:\n  b: 1\n  - c", 3, 3, "-", "stands among names", "take the dash out"),
    "dash in brackets": Trap("a: [\n  - b]", 2, 3, "-", "may not stand in brackets", "commas"),
    "quote not closed": Trap('a: "abc\nb: 3', 1, 4, '"abc', "this quote is never closed", "close it"),
    "quote closed by another": Trap(
        'a:\n  b: "x y\n  c: "z"', 2, 6, '"x', "this quote is never closed", "close it"
    ),
    "text behind quotes": Trap('a: "x" y', 1, 4, '"x"', "the quotes end here", "one pair of quotes"),
    "text behind brackets": Trap(
        "a: {b: 1} c", 1, 11, "c", "the brackets end before this", "inside the brackets"
    ),
    "no colon": Trap("a:\n  garbage in\n  b: 3", 2, 3, "garbage in", "this line has no colon", "name: value"),
    "no colon at the top": Trap(
        "format: 1\ngarbage\nb: 3", 2, 1, "garbage", "this line has no colon", "name: value"
    ),
    "no name": Trap(": 3", 1, 1, ":", "a name is missing before the colon", "write the name"),
    "no name in quotes": Trap(
        'a: 1\n"": 3', 2, 1, '""', "a name is missing before the colon", "write the name"
    ),
    "no name in braces": Trap("a: {: 3}", 1, 5, ":", "a name is missing before the colon", "write the name"),
    "list as a name": Trap("a: 1\n[b]: 3", 2, 1, "[", "a name is wanted before the colon", "plain name"),
}


@pytest.mark.parametrize("trap", TRAPS.values(), ids=TRAPS.keys())
def test_a_trap_is_told_once_at_its_very_word(trap: Trap) -> None:
    problem = only(trap.text)
    assert (problem.origin.line, problem.origin.column) == (trap.line, trap.column)
    assert marked(trap.text, problem) == trap.word
    assert trap.says in problem.message
    assert trap.help in problem.help
    assert problem.name


def test_no_message_uses_words_of_the_library() -> None:
    for trap in TRAPS.values():
        problem = only(trap.text)
        told = (problem.message + problem.help).lower()
        assert not any(
            word in told for word in ("illegal", "<block", "token", "mapping", "scalar", "yaml error")
        )


def test_a_file_is_read_up_to_the_last_entry_that_it_may_have(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(reading, "Budget", lambda: Budget(3))
    (problem,) = read_build_text(b"a: b\nc: d\n").problems
    assert (problem.name, problem.origin) == ("too many entries", Origin(2, 1, 1))


def test_a_second_place_is_named() -> None:
    assert only("a: 1\nb: 2\nA: 3").also == Origin(1, 1, 1)
    assert only("parts:\n  fan: {a: b}\n lamp: {a: b}").also == Origin(1, 1, 1)


# --- what is returned in spite of a problem ---------------------------------------------------------------


def test_what_lacks_a_space_is_read_as_it_was_meant() -> None:
    assert plain(read("w: {size:16 AWG, b: c}\n").root) == {"w": {"size": "16 AWG", "b": "c"}}
    assert plain(read("fan:\n  fuse:3 A\n").root) == {"fan": {"fuse": "3 A"}}
    assert plain(read("path: [fan:2 ft, x]\n").root) == {"path": [{"fan": "2 ft"}, "x"]}
    assert plain(read("fan:\n  fuse:3 A\n  size:16 AWG\n").root) == {"fan": {"fuse": "3 A", "size": "16 AWG"}}


def test_a_hidden_character_is_left_out_of_what_is_read() -> None:
    assert plain(read("f\u200bu\u202ese: 3\x07 A\n").root) == {"fuse": "3 A"}


def test_tabs_are_read_as_spaces() -> None:
    assert plain(read("parts:\n\tfan:\t3 A\n\tlamp: 2 A\n").root) == {"parts": {"fan": "3 A", "lamp": "2 A"}}


def test_curly_quotes_are_left_out_of_what_is_read() -> None:
    assert plain(read("a: “3 A”\n").root) == {"a": "3 A"}


def test_of_equal_names_the_first_is_kept() -> None:
    assert plain(read("a: {b: 1, B: 2}\nA: 3\n").root) == {"a": {"b": "1"}}


def test_a_text_that_is_referred_to_is_filled_in_and_a_list_is_not() -> None:
    assert plain(read("a: &x 3 A\nb: *x\n").root) == {"a": "3 A", "b": "3 A"}
    assert plain(read("a: &x [1]\nb: *x\n").root) == {"a": ["1"]}


# --- all problems at once ---------------------------------------------------------------------------------

MANY = """\
format: 1
build: {name: Mill Lane
trailer: {length: 12 ft 4 in}
battery: {chemistry: agm, note: see: page 3}
parts:
  fan: {kind: fan}
  Fan: {kind: lamp}
circuits:
  fan:
    fuse:3 A
    path: [fan: 12 ft]
wire: {feed: red, feed: blue}
note: "C:\\photos"
road lamps:
  plate lamp: {shows: plate}
 rear lamp: {shows: tail}
log: done
"""


def test_after_a_syntax_error_reading_goes_on_at_the_next_heading() -> None:
    reading = read(MANY)
    assert [(problem.origin.line, problem.name) for problem in reading.problems] == [
        (2, "bracket not closed"),
        (4, "colon in a value"),
        (7, "name written twice"),
        (10, "missing space after colon"),
        (12, "name written twice"),
        (13, "backslash"),
        (16, "line set in wrongly"),
    ]
    assert plain(reading.root) == {
        "format": "1",
        "trailer": {"length": "12 ft 4 in"},
        "parts": {"fan": {"kind": "fan"}},
        "wire": {"feed": "red"},
        "log": "done",
    }
    assert reading.unread == ("build", "battery", "circuits", "note", "road lamps")


def test_each_line_mended_takes_its_own_problem_away() -> None:
    mended = {
        2: "build: {name: Mill Lane}",
        4: "battery: {chemistry: agm, note: 'see: page 3'}",
        7: "  lamp: {kind: lamp}",
        10: "    fuse: 3 A",
        12: "wire: {feed: red, return: blue}",
        13: 'note: "C:/photos"',
        16: "  rear lamp: {shows: tail}",
    }
    lines = MANY.splitlines()
    left = sorted(mended)
    for number, line in mended.items():
        lines[number - 1] = line
        left.remove(number)
        assert [problem.origin.line for problem in read("\n".join(lines)).problems] == left


def test_equal_headings_are_told_after_a_syntax_error_too() -> None:
    reading = read("a: 1\nb: [\nA: 2\n")
    assert [(problem.origin.line, problem.name) for problem in reading.problems] == [
        (2, "bracket not closed"),
        (3, "name written twice"),
    ]


def test_brackets_over_lines_in_column_1_stay_with_their_heading() -> None:
    text = "sizes: [\n16 AWG,\n14 AWG\n]\nwire: {\na: b,\nc: d\n}\nnote: x: y\n"
    reading = read(text)
    assert [problem.origin.line for problem in reading.problems] == [9]
    assert plain(reading.root) == {"sizes": ["16 AWG", "14 AWG"], "wire": {"a": "b", "c": "d"}}


def test_a_list_in_column_1_stays_with_its_heading() -> None:
    reading = read("sizes:\n- 16 AWG\n- 14 AWG\nnote: x: y\n")
    assert [problem.origin.line for problem in reading.problems] == [4]
    assert plain(reading.root) == {"sizes": ["16 AWG", "14 AWG"]}


def test_a_tab_that_breaks_the_layout_is_the_only_problem() -> None:
    reading = read("parts:\n    fan: 3 A\n\tlamp: 2 A\nlog: x\n")
    assert [problem.name for problem in reading.problems] == ["tab"]
    assert plain(reading.root) == {"log": "x"}
    assert reading.unread == ("parts",)


def test_a_file_that_is_well_has_no_unread_heading() -> None:
    assert read("a: 1\nb: 2\n").unread == ()
