"""The grammar of quantities: number and unit, feet with inches, a power for each foot.

Takes a text and what is wanted. Gives its exact value in the base unit, or ends the reading at the words that
are wrong. Inside, numbers are fractions, so that ``6 1/2 in`` and ``165.1 mm`` are the same length.
"""

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import NoReturn

from builder.quantities.lexing import Token, plain_line, tokens_of
from builder.quantities.misread import CannotReadError, echo, swapped
from builder.quantities.numbers import number_of
from builder.quantities.units import (
    KIND_NAMES,
    PAIRS,
    Unit,
    Wanted,
    find_unit,
    milli_or_mega,
    nearest_unit,
    often_meant,
)

_RANGE_WORDS = ("-", "to", "till", "or")

LITHIUM_V = 12.8
"""The voltage on the label of a lithium iron phosphate battery of four cells, whose capacity is often told in Wh."""


@dataclass(frozen=True, slots=True)
class Measured:
    """A value in the base unit; ``unit`` as written; ``per_length`` says that it counts for each metre."""

    value: Fraction
    unit: Unit
    per_length: bool = False


@dataclass(frozen=True, slots=True)
class _Part:
    number: Fraction
    unit: Unit
    start: int
    end: int
    per: Unit | None = None


@dataclass(frozen=True, slots=True)
class _Line:
    """The line being read, its tokens, and what is wanted of it."""

    text: str
    tokens: tuple[Token, ...]
    wanted: Wanted

    def at(self, place: int) -> Token | None:
        return self.tokens[place] if place < len(self.tokens) else None

    def words(self, part: _Part) -> str:
        return echo(self.text[part.start : part.end])

    def says(self, place: int, *words: str) -> bool:
        token = self.at(place)
        return token is not None and token.text.casefold() in words

    def is_number(self, place: int) -> bool:
        token = self.at(place)
        return token is not None and token.kind == "number"


def measure(text: str, wanted: Wanted) -> Measured:
    """Give the exact value of a text in the base unit of what is wanted.

    Ends the reading (CannotReadError) where the text is wrong.
    """
    plain = plain_line(text, wanted.called)
    line = _Line(plain, tokens_of(plain), wanted)
    parts = _parts(line)
    for part in parts:
        _check_kind(line, part)
    measured = _joined(line, parts)
    _check_bounds(line, measured, (parts[0].start, parts[-1].end))
    return measured


def _parts(line: _Line) -> list[_Part]:
    parts: list[_Part] = []
    place = 0
    while place < len(line.tokens):
        if parts and line.says(place, "-", ",", "&", "and") and line.is_number(place + 1):
            place += 1
        part, place = _part(line, place, parts)
        parts.append(part)
    return parts


def _part(line: _Line, place: int, before: list[_Part]) -> tuple[_Part, int]:
    """Read the number at ``place`` with its unit; give them and the place behind both."""
    first = line.tokens[place]
    below_zero = not before and line.says(place, "-") and line.is_number(place + 1)
    place += below_zero
    token = line.tokens[place]
    if token.kind != "number":
        _refuse_not_a_number(line, place, before)
    if below_zero and not line.wanted.signed:
        raise CannotReadError(
            (first.start, token.end),
            f"-{token.text} is below zero",
            (swapped(line.text, (first.start, first.end), ""),),
        )
    number = number_of(token)
    unit, end, behind = _unit(line, place, before)
    per, behind = _per(line, behind)
    if per:
        end = line.tokens[behind - 1].end
    return _Part(-number if below_zero else number, unit, first.start, end, per), behind


def _refuse_not_a_number(line: _Line, place: int, before: list[_Part]) -> NoReturn:
    token = line.tokens[place]
    span = (token.start, token.end)
    if not any(each.kind == "number" for each in line.tokens):
        last = line.tokens[-1]
        raise CannotReadError(
            (line.tokens[0].start, last.end),
            f"there is no number in {echo(line.text)}; {line.wanted.called} is wanted",
        )
    if before and line.says(place, *_RANGE_WORDS) and line.is_number(place + 1):
        whole = (before[0].start, line.tokens[-1].end)
        ends = (line.text[: token.start].strip(), line.text[token.end :].strip())
        raise CannotReadError(whole, _range_message(line, whole, place), ends)
    if not before and line.is_number(place + 1) and find_unit(token.text):
        number = line.tokens[place + 1]
        turned = swapped(line.text, (token.start, number.end), f"{number.text} {token.text}")
        raise CannotReadError((token.start, number.end), f"{token.text} stands before its number", (turned,))
    left = (swapped(line.text, span, ""), line.text[: token.start].strip())
    raise CannotReadError(span, f"{echo(token.text)} is not part of {line.wanted.called}", left)


def _range_message(line: _Line, span: tuple[int, int], place: int) -> str:
    words = echo(line.text[span[0] : span[1]])
    return f"{words} is a choice" if line.says(place, "or") else f"{words} is a range"


def _unit(line: _Line, place: int, before: list[_Part]) -> tuple[Unit, int, int]:
    """Read the unit behind the number at ``place``; give it, the end of its word, and the place behind."""
    number = line.tokens[place]
    place += 1
    hyphen = line.says(place, "-")
    token = line.at(place + hyphen)
    if (
        token is not None
        and token.kind in ("word", "mark")
        and not line.says(place, *_RANGE_WORDS[1:], "and")
    ):
        return _known_unit(line, token), token.end, place + hyphen + 1
    if line.says(place, *_RANGE_WORDS) and line.is_number(place + 1):
        upper = line.tokens[place + 1]
        span = (number.start, upper.end)
        ends = tuple(swapped(line.text, span, each.text) for each in (number, upper))
        raise CannotReadError(span, _range_message(line, span, place), ends)
    raise _no_unit(line, number, before)


def _no_unit(line: _Line, number: Token, before: list[_Part]) -> CannotReadError:
    units = line.wanted.usual
    partner = next((small for large, small in PAIRS if before and before[-1].unit.symbol == large), None)
    if partner:
        units = (partner,)
    digits = str(int(number_of(number))) if number_of(number).denominator == 1 else number.text
    span = (number.start, number.end)
    fixes = tuple(swapped(line.text, span, f"{digits} {unit}") for unit in units)
    return CannotReadError(span, f"{echo(number.text)} has no unit", fixes)


def _known_unit(line: _Line, token: Token) -> Unit:
    word, span = token.text, (token.start, token.end)
    if milli_or_mega(word):
        raise CannotReadError(
            span, f"the M in {word} can mean milli or mega", (swapped(line.text, span, "m" + word[1:]),)
        )
    unit = find_unit(word)
    if word == "°" and "temperature" in line.wanted.kinds:
        raise CannotReadError(
            span,
            "the ° does not say which degrees",
            tuple(swapped(line.text, span, each) for each in ("°C", "°F")),
        )
    if unit is not None:
        return unit
    near = nearest_unit(word, line.wanted.kinds)
    fixes = (swapped(line.text, span, f" {near}"),) if near else ()
    raise CannotReadError(span, f"{echo(word)} is not a unit used for {line.wanted.called}", fixes)


def _per(line: _Line, place: int) -> tuple[Unit | None, int]:
    """Read the length for each of which the value counts, if any; give it and the place behind."""
    if not line.says(place, "per", "/"):
        return None, place
    start, token = line.tokens[place].start, line.at(place + 1)
    unit = find_unit(token.text) if token and token.kind in ("word", "mark") else None
    if token is None or unit is None or unit.kind != "length":
        end = token.end if token else line.tokens[place].end
        words = echo(line.text[start:end])
        raise CannotReadError(
            (start, end), f"{words} does not name one unit of length", _each_metre(line, place)
        )
    if not line.wanted.per_length:
        raise CannotReadError(
            (start, token.end),
            f"{echo(line.text[start : token.end])} is one length's share; the whole is wanted here",
            (swapped(line.text, (start, token.end), ""),),
            " for the whole of it",
        )
    return unit, place + 2


def _each_metre(line: _Line, place: int) -> tuple[str, ...]:
    """Work out ``24 W per 5 m`` for one metre."""
    count, unit = line.at(place + 1), line.at(place + 2)
    if place != 2 or count is None or unit is None or count.kind != "number" or not number_of(count):
        return ()
    each = float(number_of(line.tokens[0]) / number_of(count))
    return (f"{each:.6g} {line.tokens[1].text} per {unit.text}",)


def _check_kind(line: _Line, part: _Part) -> None:
    if part.unit.kind in line.wanted.kinds:
        return
    if part.unit.kind == "energy" and "capacity" in line.wanted.kinds:
        hours = float(part.number * part.unit.factor) / LITHIUM_V
        raise CannotReadError(
            (part.start, part.end),
            f"{line.words(part)} is {KIND_NAMES[part.unit.kind]}; {line.wanted.called} is wanted here",
            (f"{hours:.3g} Ah",),
            f", if its voltage is {LITHIUM_V:g} V: watt-hours over volts",
        )
    meant = often_meant(line.wanted.kinds, part.unit)
    written = re.sub(r"\D+$", "", line.text[part.start : part.end])
    if part.unit.symbol.startswith("mm"):
        written = re.sub(r"\s*mm.*$", "", line.text[part.start : part.end], flags=re.IGNORECASE)
    fixes = (swapped(line.text, (part.start, part.end), f"{written} {meant}"),) if meant else ()
    raise CannotReadError(
        (part.start, part.end),
        f"{line.words(part)} is {KIND_NAMES[part.unit.kind]}; {line.wanted.called} is wanted here",
        fixes,
        f", if {meant} is meant" if fixes else "",
    )


def _joined(line: _Line, parts: list[_Part]) -> Measured:
    """Make one value of one part, or of a larger and a smaller unit."""
    first, last = parts[0], parts[-1]
    if len(parts) == 1:
        value = (first.number - first.unit.zero) * first.unit.factor
        return Measured(value / first.per.factor if first.per else value, first.unit, first.per is not None)
    limit = PAIRS.get((first.unit.symbol, parts[1].unit.symbol))
    if len(parts) > 2 or limit is None or any(part.per for part in parts):
        raise _second_value(line, parts, limit is not None)
    if first.number.denominator != 1:
        raise CannotReadError(
            (first.start, first.end), f"{line.words(first)} is not whole, yet {line.words(last)} follows"
        )
    if last.number >= limit:
        raise _too_many(line, first, last, limit)
    return Measured(first.number * first.unit.factor + last.number * last.unit.factor, first.unit)


def _second_value(line: _Line, parts: list[_Part], paired: bool) -> CannotReadError:
    good, wrong = (parts[:2], parts[2:]) if paired else (parts[:1], parts[1:])
    fixes = tuple(echo(line.text[each[0].start : each[-1].end]) for each in (good, wrong))
    if (wrong[0].unit.symbol, good[0].unit.symbol) in PAIRS:
        fixes = (" ".join(reversed(fixes)),)
    span = (wrong[0].start, wrong[0].end)
    return CannotReadError(span, f"{line.words(wrong[0])} is a second value; one is wanted here", fixes)


def _too_many(line: _Line, first: _Part, last: _Part, limit: int) -> CannotReadError:
    more, rest = divmod(last.number, limit)
    carried = f"{first.number + more} {first.unit.symbol}"
    if rest.denominator == 1 and rest:
        carried += f" {rest} {last.unit.symbol}"
    return CannotReadError(
        (last.start, last.end),
        f"{line.words(last)} is {limit} {last.unit.symbol} or more behind {line.words(first)}",
        (carried,) if rest.denominator == 1 else (),
    )


def _check_bounds(line: _Line, measured: Measured, span: tuple[int, int]) -> None:
    wanted, written = line.wanted, echo(line.text[span[0] : span[1]])
    if not measured.value and Fraction(wanted.least) > 0:
        raise CannotReadError(
            span, f"{written} is zero; {wanted.called} above zero is wanted", (), ", or leave the line out"
        )
    if measured.value and measured.value < Fraction(wanted.least):
        raise CannotReadError(
            span, f"{written} is below the least that is read, {wanted.least} {wanted.base}"
        )
    if measured.value > Fraction(wanted.most):
        raise CannotReadError(span, f"{written} is above the most that is read, {wanted.most} {wanted.base}")
