"""Edits of names and shapes: one name for two things, a list for a value, an entry in the wrong place."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence

from builder.buildfile.edits import Edit
from builder.buildfile.extents import Entry, around
from builder.buildfile.leaves import Leaf, extent_of
from builder.buildfile.problems import BLANK, Problem


def _renamed(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    first = leaf.entry(problem.also) if problem.also else None
    second = leaf.entry(problem.origin)
    if first is not None and second is not None and problem.origin.column == 1:
        line, end = second.start[0], second.end[0]
        yield from _moved(leaf, (line, end), leaf.lines[line + 1 : end + 1], first)
    plain = leaf.text(extent_of(problem.origin)).strip("\"'")
    yield leaf.edit(extent_of(problem.origin), f"{plain} 2", "give it a name of its own")


def _moved(leaf: Leaf, taken: tuple[int, int], lines: Sequence[str], into: Entry) -> Iterator[Edit]:
    """Yield the edit that puts lines to the end of a group further up, and takes out the lines where they stood."""
    last = into.end[0]
    if into.inside is None or into.inside.flow or last >= taken[0] or not lines:
        return
    between = leaf.lines[last + 1 : taken[0]]
    text = "".join("\n" + row for row in (*lines, *between))
    extent = ((last, len(leaf.lines[last])), (taken[1], len(leaf.lines[taken[1]])))
    yield leaf.edit(extent, text, f"move it to {leaf.text(into.name) if into.name else 'the list'} above")


def _part_as_heading(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    """Move what is written like a part under ``parts``."""
    entry = leaf.entry(problem.origin)
    parts = next((one for one in leaf.entries if one.name and leaf.text(one.name) == "parts"), None)
    if entry is None or parts is None or parts.inside is None or problem.origin.column > 1:
        return
    line, end = entry.start[0], entry.end[0]
    indent = " " * parts.inside.entries[0].start[1]
    yield from _moved(leaf, (line, end), [indent + text for text in leaf.lines[line : end + 1]], parts)


def _ends_as_list(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    """Write ``from: A`` and ``to: B`` of a chase as ``through: [A, B]``; one of them alone gets a blank beside it."""
    entry = leaf.entry(problem.origin)
    if entry is None or entry.name is None or leaf.text(entry.name) not in _ENDS:
        return
    mine = [one for one in entry.group.entries if one.name and leaf.text(one.name) in _ENDS]
    found = {leaf.text(one.name): leaf.text(one.value) for one in mine if one.name and one.value}
    places = entry.group.entries.index(mine[0]), entry.group.entries.index(mine[-1])
    if places[1] - places[0] < len(mine):
        text = f"through: [{', '.join(found.get(end, BLANK) for end in _ENDS)}]"
        yield leaf.edit((mine[0].start, mine[-1].end), text)


_ENDS = ("from", "to")


def _unknown_word(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    yield from _part_as_heading(leaf, problem)
    yield from _ends_as_list(leaf, problem)


def _blank_here(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    yield leaf.edit(extent_of(problem.origin), BLANK, f"leave a blank ({BLANK}) to be filled in")


def _other_shape(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    """Put brackets or braces around a value, or take them off."""
    entry = leaf.entry(problem.origin)
    if entry is not None and entry.name is None:
        entry = around(leaf.entries, entry)
    if entry is None or entry.value is None or entry.name is None:
        return
    text, name = leaf.text(entry.value), leaf.text(entry.name)
    if "\n" in text:
        return
    if text[:1] in "[{" and text[-1:] in "]}":
        inner = text[1:-1].strip()
        shapes = [f"{{path: {text}}}", f"[{text}]", *([inner] if inner else []), f"[{inner}]", f"{{{inner}}}"]
    elif name == "draws":
        shapes = [f"{{tail: {text}}}", f"{{tail: {BLANK}}}"]
    else:
        torn = re.fullmatch(r"(.*?)\s+(\d.*)", text)
        shapes = [*([f"[{torn[1]}: {torn[2]}]"] if torn else []), f"[{text}]", f"[{text}: {BLANK}]"]
        # under a heading such as places, kind would be the name of a place
        if entry.start[1] or name == "brakes":
            shapes += [f"{{kind: {text}}}", f"{{kind: {BLANK}}}"]
    yield from (leaf.edit(entry.value, shape) for shape in shapes)


def _item_form(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    """Write ``{name: step lamp, length: 6 ft}`` as one item, and two items in one as two."""
    entry = leaf.entry(problem.origin)
    if entry is None or not entry.group.pairs:
        return
    pairs = [leaf.text((one.start, one.end)) for one in entry.group.entries]
    named = {pair.partition(":")[0].strip(): pair.partition(":")[2].strip() for pair in pairs}
    name = named.pop("name", None)
    extent = (entry.group.entries[0].start, entry.group.entries[-1].end)
    if entry.group.flow and leaf.text(entry.group.extent)[:1] == "{":
        extent = entry.group.extent
    if name:
        rest = ", ".join(f"{word}: {value}" for word, value in named.items())
        length = named.get("length")
        yield leaf.edit(extent, f"{name}: {length}" if len(named) == 1 and length else f"{name}: {{{rest}}}")
    else:
        line, _ = entry.group.entries[0].start
        indent = leaf.lines[line].find("-")
        gap = ", " if entry.group.flow else "\n" + " " * max(indent, 0) + "- "
        yield leaf.edit(extent, gap.join(pairs), "write each item on its own")


SHAPES: Mapping[str, Callable[[Leaf, Problem], Iterator[Edit]]] = {
    "name written twice": _renamed,
    "same name": _renamed,
    "refers to itself": _blank_here,
    "wrong shape": _other_shape,
    "unknown word": _unknown_word,
    "name without a letter": _blank_here,
    "item in the wrong form": _item_form,
}
"""What may be meant, by the name of the problem."""
