"""Any bytes at all: the reader answers, in time, with every place inside the file."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.buildfile.nodes import Items, Node, Pairs, Text
from builder.buildfile.problems import render_brief, render_text, to_json
from builder.buildfile.reading import Reading, read_build_text
from builder.trailer.origin import Origin

# No deadline and no chance: a busy machine must not fail a test.
thorough = settings(max_examples=300, deadline=None, derandomize=True)

SAMPLE = """\
format: 1
build: {name: "Mill Lane", number: 3, country: US}   # demo
wire: {on the shelf: [16 AWG, 14 AWG], sold as: pair}
parts:
  step lamp: {kind: lamp, draws: 3 W}
  fan:
    kind: fan
    draws: 3 A
circuits:
  step light: {path: [step switch: 14 ft, step lamp: 6 ft]}
  pump:
    path:
      - pump relay: 3 ft
      - pump: 8 ft
    note: 'it hums'
log: |
  done
"""

# Signs that mean something to YAML or to a terminal, and some that only look like others.
SIGNS = "\n\t\r :,[]{}-?#&*!|>'\"%@`\\~=<0a.“”²é\u0430\u00a0\u200b\u200d\u202e\u2028\x07\x00\x85\ufeff\U0010ffff漢🔧"


def origins(node: Node | None) -> Iterator[Origin]:
    if node is None:
        return
    yield node.origin
    if isinstance(node, Items):
        for item in node.items:
            yield from origins(item)
    elif isinstance(node, Pairs):
        for pair in node.pairs:
            yield pair.key.origin
            yield from origins(pair.value)


def assert_inside(origin: Origin, lines: tuple[str, ...]) -> None:
    assert 1 <= origin.line <= len(lines)
    width = len(lines[origin.line - 1])
    assert 1 <= origin.column <= width + 1
    assert origin.length >= 1
    assert origin.column + origin.length - 1 <= max(width, origin.column)


def texts(node: Node | None) -> Iterator[Text]:
    if isinstance(node, Text):
        yield node
    elif isinstance(node, Items):
        for item in node.items:
            yield from texts(item)
    elif isinstance(node, Pairs):
        for pair in node.pairs:
            yield pair.key
            yield from texts(pair.value)


def assert_sound(data: bytes) -> Reading:
    reading = read_build_text(data)
    assert reading == read_build_text(data)
    assert reading.lines
    for problem in reading.problems:
        assert_inside(problem.origin, reading.lines)
        assert problem.message
        assert problem.help
    for origin in origins(reading.root):
        assert_inside(origin, reading.lines)
    for text in texts(reading.root):
        text.value.encode()
        assert "\U0010ffff" not in text.value
        assert "\u202e" not in text.value
        assert len(text.value) <= 2_000
    assert reading.root is not None or reading.problems
    told = render_text(reading.problems, "build.yaml", reading.lines) + render_brief(
        reading.problems, "build.yaml"
    )
    told.encode()
    assert not set(told) & set("\x00\x07\x1b\x85\r\t\u202e\u2066\u200b\u2028")
    assert len(to_json(reading.problems, "build.yaml")) == len(reading.problems)
    return reading


@thorough
@given(st.binary(max_size=200))
def test_any_bytes(data: bytes) -> None:
    assert_sound(data)


@thorough
@given(st.text(max_size=200))
def test_any_text(text: str) -> None:
    assert_sound(text.encode("utf-8", errors="surrogatepass"))


@thorough
@given(st.text(alphabet=SIGNS, max_size=60))
def test_any_row_of_signs(text: str) -> None:
    assert_sound(text.encode())


@thorough
@given(st.lists(st.sampled_from([*SAMPLE.splitlines(), *SIGNS, "  ", "- ", "a: ", "---", "b"]), max_size=12))
def test_any_row_of_pieces(pieces: list[str]) -> None:
    assert_sound("".join(pieces).encode())
    assert_sound("\n".join(pieces).encode())


edits = st.lists(
    st.tuples(st.integers(0, len(SAMPLE)), st.integers(0, 3), st.text(alphabet=SIGNS, max_size=3)),
    min_size=1,
    max_size=4,
)


@thorough
@given(edits)
def test_a_good_file_after_some_slips_of_the_hand(changes: list[tuple[int, int, str]]) -> None:
    text = SAMPLE
    for place, removed, added in changes:
        text = text[:place] + added + text[place + removed :]
    assert_sound(text.encode())


@thorough
@given(st.integers(0, len(SAMPLE) - 1), st.sampled_from(SIGNS))
def test_one_slip_leaves_the_other_headings(place: int, sign: str) -> None:
    reading = assert_sound((SAMPLE[:place] + sign + SAMPLE[place:]).encode())
    assert reading.root is not None
    # A slip spoils the heading that it is in, and at worst the one next to it.
    names = {pair.key.value for pair in reading.root.pairs}
    whole = {"format", "build", "wire", "parts", "circuits", "log"}
    second_document = any(problem.name == "several documents" for problem in reading.problems)
    assert second_document or len(whole - names) <= 2


def test_the_sample_is_well() -> None:
    reading = assert_sound(SAMPLE.encode())
    assert reading.problems == ()


def test_every_beginning_and_every_end_of_a_good_file() -> None:
    for cut in range(1, len(SAMPLE)):
        assert_sound(SAMPLE[:cut].encode())
        assert_sound(SAMPLE[cut:].encode())


def test_every_sign_left_out_or_doubled() -> None:
    for place, sign in enumerate(SAMPLE):
        if not sign.isalnum():
            assert_sound((SAMPLE[:place] + SAMPLE[place + 1 :]).encode())
            assert_sound((SAMPLE[:place] + sign + SAMPLE[place:]).encode())


# --- limits -----------------------------------------------------------------------------------------------


def only(data: bytes) -> tuple[str, str, Origin]:
    problems = assert_sound(data).problems
    assert len(problems) == 1, problems
    return problems[0].name, problems[0].message, problems[0].origin


def test_alias_bomb_is_refused_at_its_anchors() -> None:
    rows = ["a0: &a0 [x, x, x, x, x, x, x, x, x]"]
    rows += [f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]" for n in range(1, 10)]
    reading = assert_sound("\n".join(rows).encode())
    assert [problem.origin.line for problem in reading.problems] == list(range(1, 11))
    assert sum(1 for _ in texts(reading.root)) < 100


@pytest.mark.parametrize("sign", ["[", "{", "- ", "? ", "[{"])
def test_500_levels_are_refused_with_their_place(sign: str) -> None:
    name, message, origin = only((sign * 500).encode())
    assert name == "nested too deeply"
    assert "more than 40" in message
    assert origin.line == 1


def test_40_levels_pass_and_41_do_not() -> None:
    # The file itself is the first level.
    assert assert_sound(("a: " + "[" * 39 + "x" + "]" * 39).encode()).problems == ()
    name, _, origin = only(("a: " + "[" * 40 + "x" + "]" * 40 + "\nb: 1").encode())
    assert (name, origin) == ("nested too deeply", Origin(1, 43, 1))


def test_too_deep_a_heading_leaves_the_others() -> None:
    reading = assert_sound(("a: " + "[" * 500 + "\nb: 1\nc: x: y").encode())
    assert [problem.name for problem in reading.problems] == ["nested too deeply", "colon in a value"]
    assert reading.unread == ("a", "c")


def test_20_000_entries_pass_and_more_do_not() -> None:
    # The mapping, the name and the list are entries as well.
    assert assert_sound(b"a: [" + b"x," * 19_997 + b"]").problems == ()
    name, message, origin = only(b"a:\n" + b"- x\n" * 19_998)
    assert name == "too many entries"
    assert "20,000" in message
    assert origin == Origin(19_999, 3, 1)


def test_names_of_120_characters_pass_and_longer_ones_do_not() -> None:
    assert assert_sound(b"x" * 120 + b": 1").problems == ()
    for length in (121, 300, 1_500):
        name, message, origin = only(b"a: 1\n" + b"x" * length + b": 1\nb: 2")
        assert name == "name too long"
        assert "up to 120" in message
        assert origin == Origin(2, 1, length)


def test_values_of_2_000_characters_pass_and_longer_ones_do_not() -> None:
    assert assert_sound(b"a: " + b"x" * 2_000).problems == ()
    for value in (b"x" * 2_001, b"9" * 5_000, b'"' + b"x " * 3_000 + b'"', b"x" * 1_000_000):
        name, message, origin = only(b"b: 1\na: " + value)
        assert name == "value too long"
        assert "up to 2,000" in message
        assert origin == Origin(2, 4, len(value))


def test_files_over_2_mb_are_not_read() -> None:
    name, message, origin = only(b"a: b\n" * 400_001)
    assert (name, origin) == ("file too large", Origin(1, 1, 1))
    assert "2 MB" in message


def test_bytes_that_are_not_text() -> None:
    assert only("a: 1\nb: é".encode("latin-1")) == (
        "unreadable bytes",
        "this file is not UTF-8 (byte 8, 0xE9)",
        Origin(2, 4, 1),
    )
    assert only(b"\xff\xfea\x00:\x00 ")[0] == "unreadable bytes"
    assert only(b"a: \xed\xa0\x80")[0] == "unreadable bytes"
    assert only(b"\x89PNG\r\n\x1a\n\x00\x00")[2] == Origin(1, 1, 1)
