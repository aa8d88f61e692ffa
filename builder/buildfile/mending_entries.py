"""Edits of whole entries: words written instead, names added, blanks left, entries taken out."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from builder.buildfile.edits import Edit
from builder.buildfile.extents import Entry, Group, around
from builder.buildfile.leaves import Leaf, extent_of, place_of
from builder.buildfile.problems import BLANK, Mend, Problem, quote
from builder.buildfile.reading_headings import is_blank

_OF_A_VALUE = {
    "misread value", "out of reach", "unknown choice", "unknown colour", "empty value", "empty list", "wrong shape",
    "unknown start", "unknown return", "no such contact", "unknown part",
}  # fmt: skip
"""Problems where a value that its maker has yet to find is a way out."""

_TOP = ("format:", "build:")


TAKE = "take"
"""What the words of an edit that takes an entry out begin with."""


def written(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    """Yield the edits that the teller of a problem knows."""
    for mend in problem.mends:
        at = mend.at or problem.origin
        if mend.how == "instead":
            yield leaf.edit(extent_of(at), mend.text, sure=mend.sure)
        elif mend.how == "heading":
            yield _heading(leaf, mend)
        elif mend.how == "indent":
            yield from _indented(leaf, problem, len(mend.text))
        elif mend.how in ("comment", "out"):
            entry = leaf.entry(at)
            if entry is not None:
                yield from _without(leaf, entry, comment=mend.how == "comment")
            outer = around(leaf.entries, entry) if entry else None
            if outer is not None and outer.start[1] == 0 and _is_alone(outer):
                yield from _without(leaf, outer, comment=True)


def added(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    """Yield the edits that add a name with its value to the group that a problem speaks of."""
    for mend in problem.mends:
        entry = leaf.entry(mend.at or problem.origin)
        if entry is None or mend.how not in ("add", "beside"):
            continue
        inside = entry.inside if mend.how == "add" else None
        yield from _added(leaf, inside if inside and inside.pairs else entry.group, mend.text)


def blanks(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    """Yield the edits that leave a blank in place of the value at a problem."""
    entry = leaf.entry(problem.origin) if problem.name in _OF_A_VALUE else None
    if entry is None or (problem.name == "no such contact" and _is_start(leaf, entry)):
        return
    if entry.value is not None:
        yield leaf.edit(entry.value, BLANK, f"leave a blank ({BLANK}) to be filled in")
    elif entry.name is not None:
        line, column = entry.name[1]
        colon = leaf.lines[line].find(":", column)
        if colon >= 0:
            yield leaf.insert((line, colon + 1), f" {BLANK}", f"leave a blank ({BLANK}) to be filled in")


def taken_out(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    """Yield the edits that take the entry at a problem out."""
    entry = leaf.entry(problem.origin)
    outer = around(leaf.entries, entry) if entry and len(entry.group.entries) == 1 else None
    if outer is not None and outer.name is None:
        entry = outer  # the item of a list, such as ``fan: 12 ft`` in a path
    if entry is not None and not _is_start(leaf, entry):
        yield from _without(leaf, entry)


def _is_alone(heading: Entry) -> bool:
    """Tell whether a heading holds a single entry, so that nothing of it would be left."""
    return heading.inside is not None and len(heading.inside.entries) == 1


def _is_start(leaf: Leaf, entry: Entry) -> bool:
    """Tell whether an entry says where a circuit starts: without it the circuit would hang on the house battery."""
    return entry.name is not None and leaf.text(entry.name) == "from"


def taken_out_with(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    """Yield the edits that take out what holds the entry at a problem: the nearest first."""
    entry = leaf.entry(problem.origin)
    for _ in range(5):
        entry = around(leaf.entries, entry) if entry else None
        if entry is None or (entry.start[1] == 0 and not _is_alone(entry)):
            return  # a heading with neighbours in it is more than the entry that the problem stands in
        yield from _without(leaf, entry)


def comments(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    """Yield the edits that turn the line of a problem, or the entry that it stands in, into comments.

    They go no further than that entry: never to a heading, unless the problem is the heading's own, nor to a
    neighbour.
    """
    line = place_of(problem.origin)[0]
    indent = _indent(leaf, line)
    if indent or problem.origin.column == 1:
        last = _end_of(leaf, line)
        yield leaf.commented(line, line)
        yield leaf.commented(line, last)
        first = line
        while indent and first > 0 and (is_blank(leaf.lines[first]) or _indent(leaf, first) >= indent):
            first -= 1
            if not is_blank(leaf.lines[first]) and 0 < _indent(leaf, first) < indent:
                indent = _indent(leaf, first)
                yield leaf.commented(first, max(last, _end_of(leaf, first)))
    yield leaf.edit(
        ((line, 0), (line + 1, 0)), "", "take the line out"
    )  # a hidden character counts in comments, too


def _end_of(leaf: Leaf, line: int) -> int:
    """Return the last line of the entry that begins on a line: what is set in further below it."""
    indent = _indent(leaf, line)
    last = line
    for number in range(line + 1, len(leaf.lines)):
        if is_blank(leaf.lines[number]):
            continue
        if _indent(leaf, number) <= indent:
            break
        last = number
    return last


def _heading(leaf: Leaf, mend: Mend) -> Edit:
    if mend.text.startswith(_TOP):
        first = next((n for n, text in enumerate(leaf.lines) if not is_blank(text)), len(leaf.lines) - 1)
        return leaf.insert((first, 0), mend.text + "\n", "add the line")
    last = len(leaf.lines) - 1
    return leaf.insert((last, len(leaf.lines[last])), "\n" + mend.text, "add it at the end, with blanks")


def _indented(leaf: Leaf, problem: Problem, wanted: int) -> Iterator[Edit]:
    """Yield the edits that set a line in as wanted: alone, and with the lines that stand with or below it."""
    line = place_of(problem.origin)[0]
    indent = _indent(leaf, line)
    last = line
    while last + 1 < len(leaf.lines) and (
        is_blank(leaf.lines[last + 1]) or _indent(leaf, last + 1) >= indent
    ):
        last += 1
    below = line
    while below + 1 < len(leaf.lines) and _indent(leaf, below + 1) > indent:
        below += 1
    for end in dict.fromkeys((line, below, last)):
        rows = [_shifted(text, wanted - indent) for text in leaf.lines[line : end + 1]]
        what = f"set it in by {wanted} space{'' if wanted == 1 else 's'}"
        yield leaf.edit(((line, 0), (end, len(leaf.lines[end]))), "\n".join(rows), what, sure=end == line)


def _shifted(text: str, by: int) -> str:
    indent = len(text) - len(text.lstrip(" "))
    return " " * max(0, indent + by) + text[indent:] if text.strip() else text


def _added(leaf: Leaf, group: Group, text: str) -> Iterator[Edit]:
    if not group.pairs:
        return
    what = "add it, with a blank to be filled in" if BLANK in text else "add it"
    if not group.flow:
        last = group.entries[-1].end[0]
        indent = group.entries[0].start[1]
        yield leaf.insert((last, len(leaf.lines[last])), "\n" + " " * indent + text, what)
    elif group.entries:
        yield leaf.insert(group.entries[-1].end, ", " + text, what)
    else:
        line, column = group.extent[0]
        yield leaf.insert((line, column + 1), text, what)


def _without(leaf: Leaf, entry: Entry, comment: bool = False) -> Iterator[Edit]:
    name = leaf.text(entry.name) if entry.name else ""
    # of a list or a group that stands as a name only the bracket is the name's extent
    what = f"{TAKE} {quote(name if name.strip('[{') else leaf.text((entry.start, entry.end)))} out"
    siblings = entry.group.entries
    place = siblings.index(entry)
    after = siblings[place + 1] if place + 1 < len(siblings) else None
    if entry.group.flow:
        if after is not None:
            yield leaf.edit((entry.start, after.start), "", what)
        elif place:
            yield leaf.edit((siblings[place - 1].end, entry.end), "", what)
        else:
            yield leaf.edit((entry.start, entry.end), "", what)
        return
    line, column = entry.start
    before = leaf.lines[line][:column].strip()
    if before == "-" and entry.group.pairs:
        if after is not None:
            yield leaf.edit((entry.start, after.start), "", what)
    elif before in ("", "-") and (comment or entry.end[0] > line):
        # Several lines are much to lose: as comments they can be taken back.
        commented = leaf.commented(line, entry.end[0])
        yield replace(commented, what=f"{what}, as a comment")
    elif before in ("", "-"):
        yield leaf.edit(((line, 0), (entry.end[0] + 1, 0)), "", what)


def _indent(leaf: Leaf, line: int) -> int:
    text = leaf.lines[line]
    return len(text) - len(text.lstrip(" "))
