"""Edits of signs and quotes: what cannot be seen, what is taken for something else, what ends a text too early."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping

from builder.buildfile.edits import Edit
from builder.buildfile.leaves import Leaf, extent_of, place_of
from builder.buildfile.problems import Problem, in_quotes
from builder.buildfile.reading_characters import bad_bytes, refused, tab_column
from builder.buildfile.reading_names import in_latin
from builder.buildfile.reading_scalars import CURLY, LONGEST_NAME, LONGEST_VALUE

VALUE_START = re.compile(r":\s+|(?:^|\s)-\s+|[\[{,]\s*")


def _tabs(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    first = last = place_of(problem.origin)[0]
    while last + 1 < len(leaf.lines) and tab_column(leaf.lines[last + 1]):
        last += 1
    for width in (2, 4, 8, 1):
        rows = [_spaced(text, width) for text in leaf.lines[first : last + 1]]
        yield leaf.edit(
            ((first, 0), (last, len(leaf.lines[last]))), "\n".join(rows), "write spaces for tabs", sure=True
        )


def _spaced(text: str, width: int) -> str:
    rest = text.lstrip(" \t")
    indent = text[: len(text) - len(rest)].replace("\t", " " * width)
    while column := tab_column(rest):
        rest = f"{rest[: column - 1]} {rest[column:]}"
    return indent + rest


def _hidden(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    line, column = place_of(problem.origin)
    text = leaf.lines[line]
    char = text[column : column + 1]
    if char == "\\":
        yield leaf.edit(extent_of(problem.origin), "", "delete it", sure=True)
        return
    places = [at for at in range(column, len(text)) if text[at] == char and refused(text, at)]
    if places:
        kept = "".join(
            sign for at, sign in enumerate(text[: places[-1] + 1]) if at >= column and at not in places
        )
        yield leaf.edit(((line, column), (line, places[-1] + 1)), kept, "delete it", sure=True)


def _bytes(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    """Yield the letters that the bytes are in the older code that most such files are written in."""
    found = bad_bytes(leaf.data)
    if found is None:
        return
    line, column = place_of(problem.origin)
    try:
        meant = found.decode("cp1252")
    except UnicodeDecodeError:
        return
    rows = meant.split("\n")
    end = (line, column + len(found.decode("utf-8", "surrogateescape")))
    if len(rows) > 1:
        last = found.rpartition(b"\n")[2].decode("utf-8", "surrogateescape")
        end = (line + len(rows) - 1, len(last))
    yield leaf.edit(
        (place_of(problem.origin), end), meant.replace("\r\n", "\n"), "save these letters as UTF-8"
    )


def _curly(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    (line, start), _ = extent_of(problem.origin)
    text = leaf.lines[line]
    curly = [at for at in range(start, len(text)) if text[at] in CURLY]
    for end in (curly[-1:] or [start])[:1] + curly[1:2]:
        inner = text[start : end + 1].strip(CURLY)
        extent = ((line, start), (line, end + 1))
        yield leaf.edit(extent, in_quotes(inner), "write straight quotes", sure=True)
        yield leaf.edit(extent, inner, "leave the quotes off", sure=True)


def _comment(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    line, column = place_of(problem.origin)
    yield from leaf.quoted(line, value_start(leaf, line, column), column + problem.origin.length, whole=True)
    yield leaf.insert((line, column + 1), " ", "put a space behind #: it is a comment")


def value_start(leaf: Leaf, line: int, column: int) -> int:
    """Return where the value begins that ends before a column."""
    starts = [hit.end() for hit in VALUE_START.finditer(leaf.lines[line], 0, column)]
    return starts[-1] if starts else column


def _sign(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    line, column = place_of(problem.origin)
    text = leaf.lines[line]
    colon = text.find(": ", column)
    if column == 0 and colon > 0:
        yield leaf.edit(((line, 0), (line, colon)), in_quotes(text[:colon]), "put it in quotes")
    yield from leaf.quoted(line, column, column + 1)
    gap = text.find(" ", column)
    if gap > 0:
        yield leaf.edit(((line, column), (line, gap + 1)), "", "take the sign and its word out")
    yield leaf.edit(((line, column), (line, column + 1)), "", "take the sign out")


def _anchor(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    """Write the value out in each place where it is wanted."""
    line, column = place_of(problem.origin)
    sign = leaf.text(extent_of(problem.origin))
    entry = leaf.entry(problem.origin)
    uses = [
        (number, at)
        for number, text in enumerate(leaf.lines)
        for at in _finds(text, "*" + sign[1:])
        if (number, at) > (line, column)
    ]
    if entry is None or entry.value is None or not uses:
        return
    value = leaf.text(entry.value).removeprefix(sign).strip()
    if not value:
        return
    last = (uses[-1][0], uses[-1][1] + len(sign))
    between = leaf.text(((line, column + len(sign)), last)).lstrip(" ")
    pattern = re.escape("*" + sign[1:]) + r"(?![\w-])"
    text = re.sub(pattern, lambda _: value, between)
    yield leaf.edit(((line, column), last), text, "write the value out wherever it is wanted")


def _finds(text: str, word: str) -> list[int]:
    return [hit.start() for hit in re.finditer(re.escape(word) + r"(?![\w-])", text)]


def _backslash(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    line, column = place_of(problem.origin)
    text = leaf.lines[line]
    start, end = text.rfind('"', 0, column), text.find('"', column)
    if 0 <= start < end:
        inner = text[start + 1 : end]
        extent = ((line, start), (line, end + 1))
        yield leaf.edit(extent, f'"{inner.replace(chr(92), "/")}"', "write / for every backslash")
        yield leaf.edit(
            extent, "'" + inner.replace("'", "''") + "'", "use single quotes, which keep backslashes"
        )
    yield leaf.edit(((line, column), (line, column + 1)), "/", "write /")


def _open_quote(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    line, column = place_of(problem.origin)
    sign = leaf.lines[line][column : column + 1]
    for end in (
        leaf.ends(line, column + 1)[::-1] if "{" in leaf.lines[line][:column] else leaf.ends(line, column + 1)
    ):
        yield leaf.insert((line, end), sign, "close the quote")
    end = len(leaf.lines[line].rstrip())
    for at in (end, len(leaf.lines[line].rstrip(" ]}"))):
        yield leaf.insert((line, at), sign, "close the quote")
    colon = leaf.lines[line].find(":", column)
    if colon > 0:
        yield leaf.insert((line, colon), sign, "close the quote")
    yield leaf.edit(((line, column), (line, column + 1)), "", "take the quote out")


def _quotes_inside(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    line, column = place_of(problem.origin)
    text = leaf.lines[line]
    sign = text[column : column + 1]
    ends = dict.fromkeys((column + problem.origin.length, *leaf.ends(line, column + problem.origin.length)))
    for end in ends:
        inner = text[column + 1 : end].rstrip()
        extent = ((line, column), (line, column + 1 + len(inner)))
        outside = inner.removesuffix(sign)
        yield leaf.edit(extent, outside, "leave the outer quotes off")
        yield leaf.edit(extent, in_quotes(outside), "put the whole in one pair of quotes")
        plain = outside.replace(sign, "", 1)
        yield leaf.edit(extent, in_quotes(plain), "put the whole in one pair of quotes")


def _comma_in_text(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    (line, column), (_, end) = extent_of(problem.origin)
    text = leaf.lines[line]
    colon = text.rfind(": ", 0, column)
    if colon >= 0:
        yield from leaf.quoted(line, colon + 2, end)


def _latin(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    text = leaf.text(extent_of(problem.origin))
    yield leaf.edit(extent_of(problem.origin), in_latin(text), "write it in Latin letters", sure=True)


def _shorter(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    most = LONGEST_NAME if problem.name == "name too long" else LONGEST_VALUE
    (line, column), _ = extent_of(problem.origin)
    text = leaf.lines[line][column:]
    sign = text[:1] if text[:1] in "\"'" else ""
    name, _, _ = text[len(sign) :].partition(sign or ": ")
    short = name[: most - 20].rpartition(" ")[0] or name[: most - 20]
    extent = ((line, column), (line, column + len(name) + 2 * len(sign)))
    yield leaf.edit(extent, sign + short + sign, "cut it")
    yield leaf.edit(extent_of(problem.origin), short, "cut it")


MARKS: Mapping[str, Callable[[Leaf, Problem], Iterator[Edit]]] = {
    "tab": _tabs,
    "control character": _hidden,
    "invisible character": _hidden,
    "line separator": _hidden,
    "half a character": _hidden,
    "unreadable bytes": _bytes,
    "curly quotes": _curly,
    "comment in a value": _comment,
    "sign at the start": _sign,
    "tag": _sign,
    "anchor": _anchor,
    "backslash": _backslash,
    "quote not closed": _open_quote,
    "mark inside quotes": _quotes_inside,
    "text behind quotes": _quotes_inside,
    "name too long": _shorter,
    "value too long": _shorter,
    "look-alike letter": _latin,
    "names look the same": _latin,
    "comma in a text": _comma_in_text,
}
"""What may be meant, by the name of the problem."""
