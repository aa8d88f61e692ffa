"""How problems are told: sorted, merged, marked under the very word, with nothing that moves a terminal."""

from __future__ import annotations

import json
import unicodedata
from pathlib import Path

import pytest

from builder.buildfile.problems import (
    LINE_WIDTH,
    Problem,
    quote,
    render_brief,
    render_text,
    sort_and_merge,
    to_json,
    visible,
)
from builder.buildfile.resolving import read_build
from builder.trailer.origin import Origin


def problem(line: int, column: int, length: int = 1, name: str = "unknown word", **more: object) -> Problem:
    also = more.get("also")
    return Problem(
        Origin(line, column, length),
        name,
        str(more.get("message", "this is wrong")),
        "mend it",
        also if isinstance(also, Origin) else None,
    )


def source_and_mark(text: str) -> tuple[str, str]:
    rows = text.splitlines()
    return rows[1].partition(" | ")[2], rows[2].partition(" | ")[2]


def cells(text: str) -> int:
    """Columns of a terminal: an oracle that knows only wide and combining characters."""
    wide = sum(unicodedata.east_asian_width(char) in "WF" for char in text)
    return len(text) + wide - sum(unicodedata.combining(char) > 0 for char in text)


def test_the_anatomy_of_a_problem() -> None:
    lines = ["circuits:", "  step light left:", "    fuze: 3 A"]
    told = render_text(
        [
            Problem(
                Origin(3, 5, 4),
                "unknown word",
                "this is not a word used in a circuit",
                'did you mean "fuse"?',
            )
        ],
        "trailer.yaml",
        lines,
    )
    assert told == (
        "trailer.yaml:3:5: this is not a word used in a circuit\n"
        "   3 |     fuze: 3 A\n"
        "     |     ^^^^\n"
        '     help: did you mean "fuse"?\n'
    )


def test_a_second_place_is_shown_in_the_order_of_the_file() -> None:
    lines = ["a: 1", "b: 2", "c: 3", "a: 4"]
    assert render_text([problem(4, 1, also=Origin(1, 1))], "f", lines).splitlines()[1:5] == [
        "   1 | a: 1",
        "     …",
        "   4 | a: 4",
        "     | ^",
    ]
    assert render_text([problem(1, 1, also=Origin(2, 1))], "f", lines).splitlines()[1:4] == [
        "   1 | a: 1",
        "     | ^",
        "   2 | b: 2",
    ]
    assert render_text([problem(1, 1, also=Origin(1, 4))], "f", lines) == render_text(
        [problem(1, 1)], "f", lines
    )


def test_the_gutter_grows_with_the_number() -> None:
    rows = render_text([problem(12345, 1)], "f", ["x"] * 12345).splitlines()
    assert rows[1:3] == ["12345 | x", "      | ^"]


@pytest.mark.parametrize(
    ("line", "column", "length", "before", "under"),
    [
        ("漢字: fuze", 5, 4, 6, 4),
        ("a: 漢字 b", 4, 2, 3, 4),
        ("cafe\u0301: fuze", 8, 4, 6, 4),
        ("a: e\u0301\u0301x b", 4, 4, 3, 2),
        ("🔧: fuze", 4, 4, 4, 4),
        ("a:\tfuze", 4, 4, 3, 4),
        ("a: e\u0301", 5, 1, 4, 1),
    ],
)
def test_the_mark_stands_under_the_word(line: str, column: int, length: int, before: int, under: int) -> None:
    source, mark = source_and_mark(render_text([problem(1, column, length)], "f", [line]))
    assert mark == " " * before + "^" * under
    assert cells(source.partition(line[column - 1])[0].rstrip("\n")) == before or "\u0301" in line


def test_hidden_characters_are_shown_by_their_code_point() -> None:
    line = "a\x1b[31m: \u202eb\u200b\x00\x85\u2028c\ud800"
    told = render_text([problem(1, 9, 1, message=f"bad {line}")], f"x\x1b{chr(0x202E)}.yaml", [line])
    source, mark = source_and_mark(told)
    assert source == "a<U+001B>[31m: <U+202E>b<U+200B><U+0000><U+0085><U+2028>c<U+D800>"
    assert mark == " " * 15 + "^" * 8
    assert told.isascii()
    assert told.replace("\n", "").isprintable()
    brief = render_brief([problem(1, 1, message=line)], "x\x1b.yaml")
    assert brief.startswith("x<U+001B>.yaml:1:1: a<U+001B>[31m: <U+202E>b")
    assert brief.count("\n") == 1


def test_a_long_line_is_cut_around_the_mark() -> None:
    line = "x" * 5_000 + " fuze " + "y" * 5_000
    source, mark = source_and_mark(render_text([problem(1, 5_002, 4)], "f", [line]))
    assert len(source) <= 110
    assert source[0] == source[-1] == "…"
    start = mark.index("^")
    assert source[start : start + 4] == "fuze"
    assert mark.count("^") == 4


@pytest.mark.parametrize(
    ("column", "begins", "ends"), [(1, "x", "…"), (10_000, "…", "x"), (10_001, "…", "x")]
)
def test_a_long_line_is_cut_at_the_far_end_only(column: int, begins: str, ends: str) -> None:
    source, mark = source_and_mark(render_text([problem(1, column)], "f", ["x" * 10_000]))
    assert (source[0], source[-1]) == (begins, ends)
    assert 90 <= len(source) <= 110
    assert mark.count("^") == 1


def test_a_mark_longer_than_the_room_is_cut() -> None:
    source, mark = source_and_mark(render_text([problem(1, 4, 9_000)], "f", ["a: " + "漢" * 9_000]))
    assert cells(mark) <= 110
    assert cells(source) <= 110
    assert mark.startswith("   ^^^")


def test_a_line_that_fits_is_not_cut() -> None:
    line = "a: " + "x" * 90
    assert source_and_mark(render_text([problem(1, 80)], "f", [line]))[0] == line


def test_the_first_fifty_are_shown_and_the_rest_counted() -> None:
    many = [problem(line, 1) for line in range(1, 63)]
    lines = ["x"] * 62
    told = render_text(many, "f", lines)
    assert told.count("help:") == 50
    assert told.endswith("\n… and 12 more problems.\n")
    assert render_text(many[:51], "f", lines).endswith("\n… and 1 more problem.\n")
    assert "more problem" not in render_text(many[:50], "f", lines)
    assert render_text(many, "f", lines, limit=None).count("help:") == 62


def test_nothing_is_said_of_no_problem() -> None:
    assert render_text([], "f", ["a"]) == ""
    assert render_brief([], "f") == ""
    assert to_json([], "f") == []


def test_one_line_a_problem() -> None:
    assert render_brief([problem(3, 5), problem(4, 1, message="so\nis this")], "t.yaml") == (
        "t.yaml:3:5: this is wrong\nt.yaml:4:1: so is this\n"
    )


def test_json_holds_every_field() -> None:
    assert json.loads(json.dumps(to_json([problem(3, 5, 4)], "t.yaml"))) == [
        {
            "file": "t.yaml",
            "line": 3,
            "column": 5,
            "length": 4,
            "name": "unknown word",
            "message": "this is wrong",
            "help": "mend it",
            "page": "wiring-manual explain unknown word",
        }
    ]


def test_problems_are_sorted_by_place() -> None:
    mixed = [problem(2, 1), problem(1, 9), problem(1, 2, name="b"), problem(1, 2, name="a")]
    assert [(p.origin.line, p.origin.column, p.name) for p in sort_and_merge(mixed)] == [
        (1, 2, "a"),
        (1, 2, "b"),
        (1, 9, "unknown word"),
        (2, 1, "unknown word"),
    ]


def test_one_cause_is_told_once() -> None:
    twice = [
        problem(1, 1),
        problem(1, 1),
        problem(1, 1, 3, message="and so is this"),
        problem(1, 1, name="other"),
    ]
    assert [p.name for p in sort_and_merge(twice)] == ["other", "unknown word"]
    assert sort_and_merge(twice) == sort_and_merge(reversed(twice))


def test_a_place_outside_the_file_is_shown_all_the_same() -> None:
    assert "help: mend it" in render_text([problem(9, 9)], "f", ["a"])
    assert source_and_mark(render_text([problem(1, 7)], "f", ["ab"])) == ("ab", "  ^")


def test_words_in_sentences_are_short_and_visible() -> None:
    assert quote("fuze") == "`fuze`"
    assert quote("a\n b\u202e") == "`a b<U+202E>`"
    assert len(quote("x" * 300)) == 42
    assert visible("e\u0301 ²\t") == "e\u0301 ² "


def test_a_start_is_offered_only_where_the_plug_has_the_contact() -> None:
    text = (Path(__file__).parents[1] / "broken" / "start_at_another_plug.yaml").read_bytes()
    (problem,) = [one for one in read_build(text).problems if one.name == "unknown start"]
    assert "tow plug battery" not in problem.help
    (problem,) = [
        one
        for one in read_build(text.replace(b"7-pin Australian", b"7-way blade")).problems
        if one.name == "unknown start"
    ]
    assert "tow plug battery" in problem.help


def test_places_that_a_hinge_names_are_not_unknown_where_no_place_can_be_read() -> None:
    text = (Path(__file__).parents[1] / "broken" / "hinge_of_three_places.yaml").read_text(encoding="utf-8")
    start, end = text.index("places:\n"), text.index("chases:\n")
    unread = f"{text[:start]}places: on the plan\n{text[end:]}".replace("[lamp]", "[lamp: 4 ft]")
    assert [one.name for one in read_build(unread.encode()).problems] == ["wrong shape"]


def test_only_a_hundred_unknown_names_are_compared_with_the_parts() -> None:
    parts = "".join(f"  lamp {letter}: {{kind: lamp}}\n" for letter in "abc")
    paths = "".join(f"  light {number}: {{path: [lamp d: {number} ft]}}\n" for number in range(1, 121))
    head = "format: 1\nbuild: {name: Bean Row, country: US}\nfront box: {fuse ways: 150}\n"
    text = f"{head}parts:\n{parts}circuits:\n{paths}"
    told = [one for one in read_build(text.encode()).problems if one.name == "unknown part"]
    assert len(told) == 120
    asked = ["did you mean" in one.help for one in told]
    assert asked == [True] * 100 + [False] * 20


def test_of_letters_without_a_width_no_more_than_a_line_is_shown() -> None:
    line = "a" + "\u0301" * 300 + "fuze" + " x" * 200
    source, _ = source_and_mark(render_text([problem(1, 302, 4)], "trailer.yaml", [line]))
    assert source.count("\u0301") == LINE_WIDTH


@pytest.mark.parametrize(
    ("before", "columns"),
    [
        ("plain", 5),
        ("ＦＵＬＬ", 8),  # full-width letters take two columns
        ("灯", 2),
        ("e\u0301", 1),  # an accent over its letter takes none
        ("a\u20dd", 1),  # nor does a ring around it
        ("ﾗﾝﾌﾟ", 4),  # half-width letters take one
    ],
)
def test_the_mark_stands_under_its_word_whatever_stands_before(before: str, columns: int) -> None:
    told = render_text([problem(1, len(before) + 2, 4)], "trailer.yaml", [f"{before} fuze"])
    _, mark = source_and_mark(told)
    assert mark == " " * (columns + 1) + "^^^^"


@pytest.mark.parametrize("gap", ["\n   ", "\r", "\r\n     "])
@pytest.mark.parametrize(("quote", "length"), [("", 2), ('"', 3)])
def test_what_stands_on_a_later_line_of_a_text_is_marked_where_the_text_begins(
    gap: str, quote: str, length: int
) -> None:
    """The place is always one that the file has."""
    leads = f"leads: {quote}10{gap}yards and more{quote}"
    text = f"format: 1\nbuild: {{name: Sloe Bank}}\nparts: {{fan: {{kind: fan, {leads}}}}}\n"
    (found,) = (one for one in read_build(text.encode()).problems if "length" in one.message)
    assert (found.origin.line, found.origin.column, found.origin.length) == (3, 33, length)
