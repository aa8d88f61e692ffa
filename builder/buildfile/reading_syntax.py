"""Why YAML gives up, in a maker's words.

Each function below knows one trap; the first that recognises its own tells of it. The library's words are
only used to tell the cases apart.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from builder.buildfile.problems import Problem
from builder.buildfile.reading_characters import comment_start, named
from builder.buildfile.reading_faults import Fault
from builder.buildfile.reading_layout import (
    dash_among_names,
    endless_name,
    list_on_the_line,
    missing_colon,
    name_among_dashes,
    set_in_wrongly,
    text_behind,
    unclosed_bracket,
)
from builder.buildfile.reading_scalars import (
    backslash,
    comment_problem,
    curly_quotes,
    missing_space,
    missing_space_problem,
    starts_curly,
)

_HUGE_ESCAPE = re.compile(r"\\U[0-9A-Fa-f]{8}")
_COMMENT = re.compile(r"\s(#\w[^\s:,\]}]*)")
_NAME_AHEAD = re.compile(r"[^:,{}\[\]]*:(\s|$)")
_ALIAS_BEFORE = re.compile(r"(?:^|[\s\[{,])(\*\w[^\s,\]}]*)\s+$")
_SIGNS = {"anchor": "&", "alias": "*", "tag": "!", "directive": "%", "block scalar": ""}


def explain(fault: Fault) -> Problem:
    """Return the one problem that best says why these lines cannot be read."""
    for diagnosis in _DIAGNOSES:
        problem = diagnosis(fault)
        if problem:
            return problem
    message = "this cannot be read from here on"
    help_ = "compare this line and the one above with their neighbours: spaces, colons, quotes, brackets"
    return Problem(fault.word(fault.place), "not readable", message, help_)


def _escape(fault: Fault) -> Problem | None:
    if "escape" in fault.what and "quoted" in fault.during:
        line, column = fault.place
        at = max(0, fault.line[: column + 1].rfind("\\"))
        return backslash(fault.origin(line, at, 2), fault.line[at : at + 2])
    if fault.during or not ("chr()" in fault.what or "too large" in fault.what):
        return None
    hits = ((number, hit) for number, text in enumerate(fault.lines) for hit in _HUGE_ESCAPE.finditer(text))
    for number, hit in hits:
        if int(hit.group().removeprefix("\\U"), 16) > 0x10FFFF:
            return backslash(fault.origin(number, hit.start(), 10), hit.group())
    return None


def _curly(fault: Fault) -> Problem | None:
    token = fault.before()
    if token is None or not token.plain or not starts_curly(token.value):
        return None
    line, column = token.start_mark.line, token.start_mark.column
    return curly_quotes(fault.origin(line, column, len(fault.lines[line].rstrip()) - column))


def _space_after_colon(fault: Fault) -> Problem | None:
    token = fault.plain_over_lines()
    suspects = [fault.place[0], fault.start[0], *([token.start_mark.line] if token else [])]
    for number in sorted(set(suspects)):
        text = fault.lines[number][: comment_start(fault.lines[number])].rstrip()
        indent = len(text) - len(text.lstrip(" -"))
        hit = missing_space(text[indent:])
        if hit:
            return missing_space_problem(hit, fault.number(number), indent + 1)
    return None


def _swallowed(fault: Fault) -> Problem | None:
    """Tell of a comment that took a bracket or a colon with it."""
    token = fault.before()
    for number in (fault.start[0], token.start_mark.line if token else fault.place[0]):
        line = fault.lines[number]
        hit = _COMMENT.search(line, max(0, (comment_start(line) or len(line)) - 1))
        if hit and re.search(r"[\]}]|:(\s|$)", line[hit.start() :]):
            return comment_problem(fault.number(number), hit.start(1) + 1, hit.group(1))
    return None


def _quote_open_at_end(fault: Fault) -> Problem | None:
    """Tell of a quote that has no partner up to the end."""
    if "unexpected end of stream" not in fault.what:
        return None
    line, column = fault.start
    before = fault.lines[line][:column].rstrip()
    if before[-1:] not in ("'", '"'):
        return _unclosed_quote(fault, line, column)
    # ``"14' 6""``: the second of the two quotes seems to begin a new text.
    return _mark_inside(fault, line, max(0, before.rfind(before[-1], 0, len(before) - 1)))


def _quote_too_early(fault: Fault) -> Problem | None:
    """Tell of quotes that end before the value does, or only on a later line."""
    token = fault.before()
    if token is None or token.style not in ("'", '"') or "mapping values" in fault.what:
        return None
    line, column = token.start_mark.line, token.start_mark.column
    if token.end_mark.line > line:
        return _unclosed_quote(fault, line, column)
    rest = fault.lines[line][token.end_mark.column :].partition(",")[0]
    if fault.place[0] != line or not re.match(r"\s*[^\s:\]}]", rest):
        return None
    if token.style not in rest and "expected ',' or" in fault.what and _NAME_AHEAD.match(rest):
        return None
    if token.style in rest or token.value[-1:].isdigit():
        return _mark_inside(fault, line, column)
    message = "the quotes end here, but the line goes on"
    help_ = "put the whole value in one pair of quotes, or leave the quotes off"
    origin = fault.origin(line, column, token.end_mark.column - column)
    return Problem(origin, "text behind quotes", message, help_)


def _unclosed_quote(fault: Fault, line: int, column: int) -> Problem:
    word = fault.word((line, column))
    help_ = "close it at the end of the value, or leave the quotes off"
    return Problem(word, "quote not closed", "this quote is never closed", help_)


def _mark_inside(fault: Fault, line: int, column: int) -> Problem:
    text = fault.lines[line]
    comma = text.find(",", column)
    stop = max(text.rfind(text[column], column, comma if comma > 0 else None), column)
    origin = fault.origin(line, column, stop + 1 - column)
    if re.search(r"\d[\"']", text[column : stop + 1]):
        message = "an inch or foot mark inside quotes ends the text"
        help_ = "leave the outer quotes off, or write 3/4 in instead of the mark"
    else:
        message = "a quote inside quotes ends the text"
        help_ = "use the other kind of quotes around the whole text, or none"
    return Problem(origin, "mark inside quotes", message, help_)


def _sign_at_start(fault: Fault) -> Problem | None:
    """Tell of a value that begins with a sign which YAML keeps for itself."""
    place, sign = fault.place, ""
    at = fault.line[place[1] : place[1] + 1]
    if "cannot start any token" in fault.what or ("expected the node content" in fault.what and at in "&*!"):
        sign = at
    elif hit := _ALIAS_BEFORE.search(fault.line[: place[1]]):
        place, sign = (place[0], hit.start(1)), "*"
    elif "tag handle" in fault.what:
        place, sign = _behind(fault, "!"), "!"
    elif "mapping values" in fault.what or "<block" in fault.what:
        marks = (number for number in range(place[0], -1, -1) if fault.lines[number].lstrip(" -")[:1] == "!")
        number = next(marks, None)
        place, sign = (place, "") if number is None else ((number, fault.lines[number].index("!")), "!")
    for what, known in _SIGNS.items():
        if fault.during.endswith(what):
            place = fault.start
            sign = known or fault.lines[place[0]][place[1] : place[1] + 1]
            sign = sign if sign.strip() else "|"
    if not sign.strip():
        return None
    message = f"a value may not start with {sign}"
    return Problem(fault.word(place), "sign at the start", message, "put the value in quotes")


def _behind(fault: Fault, sign: str) -> tuple[int, int]:
    return fault.place[0], max(fault.place[1], fault.line.find(sign, fault.place[1]))


def _second_colon(fault: Fault) -> Problem | None:
    """``note: see: page 3``, in a line or in brackets."""
    in_brackets = "expected ',' or" in fault.what and fault.what.endswith("got ':'")
    token = fault.before()
    same_line = token is not None and token.start_mark.line == fault.place[0]
    if token is None or not same_line or not ("mapping values" in fault.what or in_brackets):
        return None
    line, column = fault.place[0], token.start_mark.column
    if not fault.line[:column].strip(" -"):
        return None
    origin = fault.origin(line, column, fault.place[1] + 1 - column)
    message = "a colon followed by a space starts a new value"
    if "," in token.value and not in_brackets:
        help_ = "write each name on its own line, or put them all in braces: {a: 1, b: 2}"
    elif in_brackets:
        help_ = "put the text in quotes, or write the comma that is missing before the name"
    else:
        help_ = "put the text in quotes"
    return Problem(origin, "colon in a value", message, help_)


def _between_brackets(fault: Fault) -> Problem | None:
    """Tell of a missing comma, an empty item, or the wrong closing bracket."""
    line, column = fault.place
    sign = fault.line[column : column + 1]
    if "expected the node content" in fault.what or "expected ',' or" in fault.what:
        if sign == ",":
            help_ = "write what is missing, or take one comma out"
            return Problem(
                fault.origin(line, column), "empty item", "nothing stands before this comma", help_
            )
        if sign == "-":
            help_ = "part the items by commas: [a, b]"
            message = "an item with a dash (-) may not stand in brackets"
            return Problem(fault.origin(line, column), "dash in brackets", message, help_)
        if sign and sign in "]}" and "expected ',' or" in fault.what:
            opened = fault.lines[fault.start[0]][fault.start[1]]
            message = (
                f"{named(sign)} closes what {named(opened)} at line {fault.number(fault.start[0])} opened"
            )
            help_ = f"write {'}' if opened == '{' else ']'} here, or look for a bracket that is not closed"
            also = fault.origin(*fault.start)
            return Problem(fault.origin(line, column), "wrong bracket", message, help_, also)
    if "expected ',' or" not in fault.what:
        return None
    token = fault.plain_over_lines()
    if token:
        line, column = token.start_mark.line, token.start_mark.column
        length = len(fault.lines[line][: comment_start(fault.lines[line])].rstrip()) - column
        return _missing_comma(fault, line, column, length, "after")
    return _missing_comma(fault, line, column, len(fault.line[column:].split(" ")[0]), "before")


def _missing_comma(fault: Fault, line: int, column: int, length: int, side: str) -> Problem:
    message = f"a comma is missing {side} this"
    help_ = "a comma parts what stands in brackets; look also for a bracket that is not closed"
    return Problem(fault.origin(line, column, length), "missing comma", message, help_)


def _stray_sign(fault: Fault) -> Problem | None:
    """Tell of a comma, a closing bracket or a colon that belongs to nothing."""
    line, column = fault.place
    sign = fault.line[column : column + 1]
    if not sign or (sign == ":" and fault.line[:column].rstrip()[-1:] not in ("", "-", "{", "[", ",", ":")):
        return None
    if sign not in "]},:?" or ("expected" not in fault.what and "not allowed" not in fault.what):
        return None
    if sign == ":" and fault.line[:column].rstrip().endswith(":"):
        return Problem(fault.origin(line, column), "two colons", "there are two colons here", "take one out")
    if sign == ":":
        help_ = "write the name, or take the line out"
        return Problem(
            fault.origin(line, column), "missing name", "a name is missing before the colon", help_
        )
    message = f"{named(sign)} stands here without an opening bracket"
    if sign in ",?":
        message = f"{named(sign)} may not stand here"
    help_ = "take it out, or write the opening bracket"
    return Problem(fault.origin(line, column), "stray sign", message, help_)


_DIAGNOSES: tuple[Callable[[Fault], Problem | None], ...] = (
    _escape,
    _curly,
    _space_after_colon,
    _swallowed,
    _quote_open_at_end,
    _quote_too_early,
    _sign_at_start,
    _second_colon,
    list_on_the_line,
    endless_name,
    name_among_dashes,
    missing_colon,
    unclosed_bracket,
    _between_brackets,
    _stray_sign,
    dash_among_names,
    text_behind,
    set_in_wrongly,
)
