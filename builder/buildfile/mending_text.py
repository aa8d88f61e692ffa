"""Edits of the text itself, where YAML cannot read it or reads something else than was meant.

Each function below knows the problems of one kind and yields what may be meant, the likeliest first. They may be
wrong: `builder.buildfile.mending` tries each before it is offered.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence

from builder.buildfile.edits import Edit
from builder.buildfile.extents import Entry, around
from builder.buildfile.leaves import Leaf, extent_of, place_of
from builder.buildfile.problems import BLANK, Problem, in_quotes
from builder.buildfile.reading_characters import bad_bytes, refused, tab_column
from builder.buildfile.reading_names import in_latin
from builder.buildfile.reading_scalars import CURLY, LONGEST_NAME, LONGEST_VALUE

_VALUE_START = re.compile(r":\s+|(?:^|\s)-\s+|[\[{,]\s*")
_CLOSING = {"[": "]", "{": "}"}


def text_edits(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    """Yield what may mend a problem of the text."""
    yield from _BY_NAME.get(problem.name, _none)(leaf, problem)


def _none(_leaf: Leaf, _problem: Problem) -> Iterator[Edit]:
    return iter(())


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
    yield from leaf.quoted(line, _value_start(leaf, line, column), column + problem.origin.length, whole=True)
    yield leaf.insert((line, column + 1), " ", "put a space behind #: it is a comment")


def _value_start(leaf: Leaf, line: int, column: int) -> int:
    """Return where the value begins that ends before a column."""
    starts = [hit.end() for hit in _VALUE_START.finditer(leaf.lines[line], 0, column)]
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
    starts = [hit.end() for hit in _VALUE_START.finditer(before)]
    return starts[-1] if starts else len(text) - len(text.lstrip(" "))


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
    yield from leaf.quoted(line, _value_start(leaf, line, column), end)


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


def _latin(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    text = leaf.text(extent_of(problem.origin))
    yield leaf.edit(extent_of(problem.origin), in_latin(text), "write it in Latin letters", sure=True)


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


def _comma_in_text(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    (line, column), (_, end) = extent_of(problem.origin)
    text = leaf.lines[line]
    colon = text.rfind(": ", 0, column)
    if colon >= 0:
        yield from leaf.quoted(line, colon + 2, end)


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


def _empty(leaf: Leaf, _problem: Problem) -> Iterator[Edit]:
    last = len(leaf.lines) - 1
    start = "\n" if leaf.lines[last].strip() else ""
    text = f"{start}format: 1\nbuild:\n  name: {BLANK}\n"
    yield leaf.insert((last, len(leaf.lines[last])), text, "begin with these lines")


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


_BY_NAME: Mapping[str, Callable[[Leaf, Problem], Iterator[Edit]]] = {
    "tab": _tabs,
    "control character": _hidden,
    "invisible character": _hidden,
    "line separator": _hidden,
    "half a character": _hidden,
    "unreadable bytes": _bytes,
    "several documents": _documents,
    "missing space after colon": _space,
    "curly quotes": _curly,
    "comment in a value": _comment,
    "sign at the start": _sign,
    "tag": _sign,
    "anchor": _anchor,
    "backslash": _backslash,
    "colon in a value": _colon,
    "quote not closed": _open_quote,
    "mark inside quotes": _quotes_inside,
    "text behind quotes": _quotes_inside,
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
    "name too long": _shorter,
    "value too long": _shorter,
    "look-alike letter": _latin,
    "names look the same": _latin,
    "stray sign": _stray,
    "two colons": _stray,
    "text behind brackets": _behind,
    "comma in a text": _comma_in_text,
    "name written twice": _renamed,
    "same name": _renamed,
    "empty file": _empty,
    "refers to itself": _blank_here,
    "wrong shape": _other_shape,
    "unknown word": _part_as_heading,
    "name without a letter": _blank_here,
    "item in the wrong form": _item_form,
}
