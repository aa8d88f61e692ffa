"""Edits of brackets, colons, commas, dashes and lines."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping

from builder.buildfile.edits import Edit
from builder.buildfile.leaves import Leaf, extent_of, place_of
from builder.buildfile.mending_marks import VALUE_START, value_start
from builder.buildfile.problems import BLANK, Problem

_CLOSING = {"[": "]", "{": "}"}


def _documents(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    line, _ = place_of(problem.origin)
    yield leaf.edit(((line, 0), (line, 3)), "", "take the three signs out")
    yield leaf.commented(line, len(leaf.lines) - 1)


def _space(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    line, column = place_of(problem.origin)
    colon = leaf.lines[line].find(":", column)
    if colon >= 0:
        yield leaf.insert((line, colon + 1), " ", "put a space behind the colon", sure=True)
    yield from leaf.quoted(line, column, column + problem.origin.length)


def _colon(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    line, column = place_of(problem.origin)
    text = leaf.lines[line]
    least = column + problem.origin.length
    marked = text[column:least]
    names = [hit.start() for hit in re.finditer(r",\s*(?=[^,:]+:(\s|$))", marked)]
    last = leaf.content_end(line)
    for hit in re.finditer(r"(?<=[^\s:,\[{])\s+(?=[\[{])", text[:least]):
        yield leaf.insert((line, hit.start()), ":", "write the colon")
    if names:
        whole = _whole_pair(text, column)
        rows = re.split(r",\s*(?=[^,:{}\[\]]+: )", text[whole:last])
        below = ("\n" + " " * whole).join(rows)
        yield leaf.edit(((line, whole), (line, last)), below, "write each name on its own line")
        yield leaf.edit(((line, whole), (line, last)), f"{{{text[whole:last]}}}", "put them in braces")
    for hit in re.finditer(r"\s+", marked):
        at = column + hit.start()
        yield leaf.insert((line, at), ",", "write the comma that is missing")
    yield from leaf.quoted(line, column, least)


def _whole_pair(text: str, column: int) -> int:
    """Return where the pair begins in whose value a column stands."""
    before = text[:column].rstrip().removesuffix(":")
    starts = [hit.end() for hit in VALUE_START.finditer(before)]
    return starts[-1] if starts else len(text) - len(text.lstrip(" "))


def _open_bracket(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    line, column = place_of(problem.origin)
    closing = _CLOSING.get(leaf.lines[line][column : column + 1], "")
    if not closing:
        return
    indent = len(leaf.lines[line]) - len(leaf.lines[line].lstrip(" "))
    for number in range(line, min(len(leaf.lines), line + 40)):
        text = leaf.lines[number]
        if number > line and text.strip() and len(text) - len(text.lstrip(" ")) <= indent:
            return
        end = leaf.content_end(number)
        if end:
            yield leaf.insert((number, end), closing, f"write {closing} here")
            yield leaf.insert((number, end), "]}" if closing == "}" else "}]", "close both brackets here")
        for at in range(len(text[:end]) - 1, column if number == line else 0, -1):
            if text[at] in "]}" or (number == line and text[at] == ","):
                yield leaf.insert((number, at), closing, f"write {closing} here")


def _wrong_bracket(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    line, column = place_of(problem.origin)
    right = "}" if leaf.lines[line][column : column + 1] == "]" else "]"
    yield leaf.edit(extent_of(problem.origin), right, f"write {right}", sure=True)
    yield leaf.insert((line, column), right, f"write {right} before it")
    yield leaf.edit(extent_of(problem.origin), "", "take it out")


def _comma(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    (line, column), (_, end) = extent_of(problem.origin)
    text = leaf.lines[line]
    yield leaf.insert((line, end), ",", "write the comma")
    gap = len(text[:column].rstrip())
    if gap:
        yield leaf.insert((line, gap), ",", "write the comma")
    for hit in re.finditer(r"\s+", text[column:end]):
        yield leaf.insert((line, column + hit.start()), ",", "write the comma")
    yield from leaf.quoted(line, value_start(leaf, line, column), end)


def _empty_item(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    line, column = place_of(problem.origin)
    text = leaf.lines[line]
    for at in (column, text.rfind(",", 0, column + 1), text.find(",", column)):
        if at >= 0 and text[at : at + 1] == ",":
            yield leaf.edit(((line, at), (line, at + 1)), "", "take the comma out")
    if text.strip() == "-":
        yield leaf.edit(((line, 0), (line + 1, 0)), "", "take the line out")
        yield leaf.insert((line, len(text.rstrip())), f" {BLANK}", "leave a blank")


def _dash(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    line, column = place_of(problem.origin)
    text = leaf.lines[line]
    at = text.find("-", column)
    if at < 0:
        return
    indent = len(text) - len(text.lstrip(" "))
    end = leaf.content_end(line)
    rest = text[at + 1 : end].strip()
    if text[:at].rstrip().endswith(":"):
        rows = text[:at].rstrip() + "\n" + " " * (indent + 2) + text[at:]
        yield leaf.edit(((line, 0), (line, len(text))), rows, "begin the item on a line of its own")
        yield leaf.edit(((line, at), (line, end)), f"[{rest}]", "write the list in brackets")
    gap = len(text[at + 1 :]) - len(text[at + 1 :].lstrip(" "))
    yield leaf.edit(((line, at), (line, at + 1 + gap)), "", "take the dash out")


def _no_dash(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    line, column = place_of(problem.origin)
    yield leaf.insert((line, column), "- ", "begin it with a dash")
    for above in range(line - 1, -1, -1):
        text = leaf.lines[above]
        if text.lstrip().startswith("- "):
            inner = text.index("- ") + 2
            extent = ((line, 0), (line, column))
            yield leaf.edit(extent, " " * inner, "set it in as far as the item above")
            yield leaf.edit(extent, " " * text.index("- ") + "- ", "begin it with a dash")
            return


def _no_colon(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    (line, _), (_, end) = extent_of(problem.origin)
    yield leaf.insert((line, end), f": {BLANK}", f"write a colon and leave a blank ({BLANK})")
    yield leaf.insert((line, leaf.content_end(line)), ":", "write the colon")
    column = problem.origin.column - 1
    hit = re.match(r"\S+", leaf.lines[line][column:])
    if hit:
        yield leaf.insert((line, column + hit.end()), ":", "write the colon")


def _no_name(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    line, column = place_of(problem.origin)
    colon = leaf.lines[line].find(":", column)
    if colon >= 0:
        yield leaf.insert((line, colon), BLANK, f"leave a blank ({BLANK}) for the name")
    yield leaf.edit(extent_of(problem.origin), BLANK, f"leave a blank ({BLANK}) for the name")


def _stray(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    yield leaf.edit(extent_of(problem.origin), "", "take it out", sure=problem.name == "two colons")


def _behind(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    line, column = place_of(problem.origin)
    text, end = leaf.lines[line], leaf.content_end(line)
    before = text[:column].rstrip()
    yield leaf.insert((line, column), "# ", "make it a comment")
    inner, closing = before[:-1], before[-1:]
    moved = f"{inner}{'' if text[column : column + 1] == ',' else ', '}{text[column:end]}{closing}"
    yield leaf.edit(((line, 0), (line, end)), moved, "put it inside the brackets")


def _empty(leaf: Leaf, _problem: Problem) -> Iterator[Edit]:
    last = len(leaf.lines) - 1
    start = "\n" if leaf.lines[last].strip() else ""
    text = f"{start}format: 1\nbuild:\n  name: {BLANK}\n"
    yield leaf.insert((last, len(leaf.lines[last])), text, "begin with these lines")


LAYOUT: Mapping[str, Callable[[Leaf, Problem], Iterator[Edit]]] = {
    "several documents": _documents,
    "missing space after colon": _space,
    "colon in a value": _colon,
    "bracket not closed": _open_bracket,
    "wrong bracket": _wrong_bracket,
    "missing comma": _comma,
    "empty item": _empty_item,
    "dash among names": _dash,
    "dash behind a name": _dash,
    "dash in brackets": _dash,
    "line among dashes": _no_dash,
    "missing colon": _no_colon,
    "missing name": _no_name,
    "stray sign": _stray,
    "two colons": _stray,
    "text behind brackets": _behind,
    "empty file": _empty,
}
"""What may be meant, by the name of the problem."""
