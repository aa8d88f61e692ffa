"""Traps of layout: lines set in wrongly, lines without a colon, brackets that stay open."""

from __future__ import annotations

from collections.abc import Sequence

from builder.buildfile.problems import Mend, Problem
from builder.buildfile.reading_characters import comment_start, named
from builder.buildfile.reading_faults import Fault, indent_of
from builder.buildfile.reading_headings import is_blank
from builder.buildfile.reading_scalars import LONGEST_NAME, name_too_long


def set_in_wrongly(fault: Fault) -> Problem | None:
    """Tell of a line whose indent is that of no block above it."""
    line = fault.place[0]
    indent = indent_of(fault.line)
    levels = _levels(fault.lines, line)
    if not levels or not _between_names(fault):
        return None
    wanted = min(levels, key=lambda level: (abs(level - indent), -level))
    if wanted == indent:
        return None
    opener = _opener(fault.lines, line, wanted)
    first = _odd_one_above(fault.lines, line, wanted, opener)
    if first is not None:
        return _set_in(fault, first, indent, opener)
    return _set_in(fault, line, wanted, opener)


def _set_in(fault: Fault, line: int, wanted: int, opener: int | None) -> Problem:
    text = fault.lines[line]
    indent = indent_of(text)
    under, also = "", None
    if opener is not None:
        also = fault.origin(opener, indent_of(fault.lines[opener]))
        name = fault.lines[opener].strip().lstrip("- ").partition(":")[0]
        under = f" under {named(name)} (line {fault.number(opener)})"
    message = f"this line is set in by {_spaces(indent)}; the lines it belongs to{under} by {wanted}"
    help_ = f"set it in by {_spaces(wanted)}"
    if indent > wanted:
        help_ += "; if it belongs to the line above, that line may have no value of its own"
    origin = fault.origin(line, indent, len(text[indent:].split(" ")[0]))
    return Problem(origin, "line set in wrongly", message, help_, also, (Mend(" " * wanted, "indent"),))


def _spaces(count: int) -> str:
    return f"{count} space{'' if count == 1 else 's'}"


def _odd_one_above(lines: Sequence[str], line: int, wanted: int, opener: int | None) -> int | None:
    """Return the only line of its block above, if the line and its followers agree against it."""
    indent = indent_of(lines[line])
    if opener is None or indent <= indent_of(lines[opener]):
        return None
    above = [n for n in range(opener + 1, line) if not is_blank(lines[n]) and indent_of(lines[n]) == wanted]
    agree = 0
    for text in lines[line:]:
        if not is_blank(text):
            if indent_of(text) < indent:
                break
            agree += indent_of(text) == indent
    return above[0] if len(above) == 1 and agree > 1 else None


def endless_name(fault: Fault) -> Problem | None:
    """Tell of a name whose colon stands further off than the library looks (1,024 characters)."""
    line, column = fault.place[0], indent_of(fault.line)
    length = fault.place[1] - column
    if "mapping values" not in fault.what or length <= LONGEST_NAME or ": " in fault.line[: fault.place[1]]:
        return None
    return name_too_long(fault.origin(line, column), length)


def missing_colon(fault: Fault) -> Problem | None:
    """Tell of a line among names that has no colon, or whose name is longer than YAML can follow."""
    if "could not find expected ':'" in fault.what:
        line, column = fault.start
    elif _between_names(fault) and (token := fault.plain_over_lines()):
        line, column = token.start_mark.line, token.start_mark.column
        if fault.lines[line][:column].strip(" -"):
            return None
    else:
        return None
    text = fault.lines[line]
    name, colon, _ = text[column:].partition(": ")
    if (colon or text.endswith(":")) and len(name) > LONGEST_NAME:
        return name_too_long(fault.origin(line, column), len(name))
    if text[column : column + 1] in ("'", '"'):
        help_ = "close it at the end of the name, or leave the quotes off"
        return Problem(fault.word((line, column)), "quote not closed", "this quote is never closed", help_)
    return no_colon(fault, line, column)


def no_colon(fault: Fault, line: int, column: int) -> Problem:
    """Return the problem of a line without a colon."""
    text = fault.lines[line]
    length = len(text[column : comment_start(text)].rstrip())
    message = "this line has no colon; a name and a colon are wanted"
    help_ = "write `name: value`; if the line goes on with the text above, put that text in quotes"
    return Problem(fault.origin(line, column, length), "missing colon", message, help_)


def unclosed_bracket(fault: Fault) -> Problem | None:
    """Tell of a bracket that is still open where the next line of the same block begins, or at the end."""
    if "expected ',' or" not in fault.what and "expected the node content" not in fault.what:
        return None
    line, column = fault.start
    at_end = "<stream end>" in fault.what or "<document" in fault.what
    text = fault.line.lstrip(" -")
    next_line = fault.place[0] > line and indent_of(fault.line) <= indent_of(fault.lines[line])
    if not at_end and not (next_line and text[:1] not in ("]", "}")):
        return None
    if "expected ',' or" not in fault.what:
        line, column = _last_open(fault.lines)
    sign = fault.lines[line][column : column + 1]
    closing = {"[": "]", "{": "}"}.get(sign)
    if closing is None:
        return None
    message = f"the bracket {named(sign)} is never closed"
    help_ = f"write {named(closing)} where it ends"
    return Problem(fault.origin(line, column), "bracket not closed", message, help_)


def list_on_the_line(fault: Fault) -> Problem | None:
    """Tell of a dash that stands behind a name on its line."""
    if "sequence entries are not allowed" not in fault.what:
        return None
    message = "an item with a dash (-) may not stand behind a name"
    help_ = "begin each item on a line of its own, or write the list in brackets: [a, b]"
    return Problem(fault.word(fault.place), "dash behind a name", message, help_)


def dash_among_names(fault: Fault) -> Problem | None:
    """Tell of an item with a dash among names."""
    if "expected <block end>" not in fault.what or not fault.line[fault.place[1] :].startswith("-"):
        return None
    message = "an item with a dash (-) stands among names"
    help_ = "a place holds either names with colons or items with dashes: write a name, or take the dash out"
    return Problem(fault.word(fault.place), "dash among names", message, help_)


def name_among_dashes(fault: Fault) -> Problem | None:
    """Tell of a line without a dash among items with one."""
    item = fault.plain_over_lines() if "mapping values" in fault.what else None
    behind_dash = item and fault.lines[item.start_mark.line].lstrip().startswith("- ")
    if "block collection" not in fault.during and not behind_dash:
        return None
    message = "this line stands among items with a dash (-)"
    help_ = "begin it with a dash, or set it in as far as the line that it belongs to"
    place = (fault.place[0], indent_of(fault.line))
    return Problem(fault.word(place), "line among dashes", message, help_)


def text_behind(fault: Fault) -> Problem | None:
    """Tell of text behind a closing bracket on the same line."""
    line, column = fault.place
    before = fault.line[:column].rstrip()
    if not _between_names(fault) or before[-1:] not in ("]", "}") or is_blank(fault.line[column:]):
        return None
    message = "the brackets end before this, but the line goes on"
    help_ = "put it inside the brackets, or on a line of its own"
    return Problem(fault.word((line, column)), "text behind brackets", message, help_)


def _between_names(fault: Fault) -> bool:
    """Whether a name with a value was wanted."""
    return "<block" in fault.what or "mapping values" in fault.what


def _last_open(lines: Sequence[str]) -> tuple[int, int]:
    """Return the last opening bracket of some lines."""
    for number in range(len(lines) - 1, -1, -1):
        column = max(lines[number].rfind("["), lines[number].rfind("{"))
        if column >= 0:
            return number, column
    return 0, 0


def _levels(lines: Sequence[str], line: int) -> list[int]:
    """Return the indents of the blocks that are open above a line, deepest first."""
    levels: list[int] = []
    for number in range(line - 1, -1, -1):
        text = lines[number]
        if is_blank(text):
            continue
        indent = indent_of(text)
        inner = indent + len(text[indent:]) - len(text[indent:].lstrip("- "))
        for level in (inner, indent):
            if not levels or level < levels[-1]:
                levels.append(level)
        if levels[-1] == 0:
            break
    return levels


def _opener(lines: Sequence[str], line: int, wanted: int) -> int | None:
    """Return the line that opened the block whose lines are set in by ``wanted``."""
    for number in range(line - 1, -1, -1):
        if not is_blank(lines[number]) and indent_of(lines[number]) < wanted:
            return number
    return None
