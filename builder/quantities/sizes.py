"""Wire sizes: ``16 AWG``, ``1/0 AWG``, ``2.5 mm²``.

Takes a text. Gives a size of one of the two series, or what is wrong: a size between two of them is answered
with its neighbours, never rounded. AWG numbers as in ASTM B258; metric sizes are nominal areas of IEC 60228
(both series from memory, as far as small trailers use them).
"""

import re
from dataclasses import dataclass
from fractions import Fraction

from builder.quantities.grammar import measure
from builder.quantities.lexing import plain_line
from builder.quantities.misread import CannotReadError, Misread, echo, settle, swapped
from builder.quantities.units import Wanted

AWG_SIZES = (
    "22", "20", "18", "16", "14", "12", "10", "8", "6", "4", "3", "2", "1", "1/0", "2/0", "3/0", "4/0",
)  # fmt: skip
METRIC_SIZES = ("0.5", "0.75", "1", "1.5", "2.5", "4", "6", "10", "16", "25", "35", "50", "70")
_WANTED = Wanted("a wire size", ("area", "gauge"), ("AWG", "mm²"), "16 AWG or 2.5 mm²", "mm²")
_NUMBER = r"\d+/\d+|\d+(?:\.\d+)?"
_GAUGE = re.compile(
    rf"(?:AWG|gauge|ga\.?)\s*[#-]?\s*(?P<behind>{_NUMBER})"
    rf"|\#?\s*(?P<before>{_NUMBER})\s*-?\s*(?:AWG|gauge|ga\.?)(?:\s+gauge)?"
    rf"|\#\s*(?P<signed>{_NUMBER})",
    re.IGNORECASE,
)
# 16/2: two wires of 16 AWG in one jacket, as cable is sold; 1/2 is a fraction
_CABLE = re.compile(r"(?<![\d./])([6-9]|1\d|2[0-4])/[2-5](?!\d)")


@dataclass(frozen=True, slots=True)
class SizeText:
    """A wire size as named: ``kind`` is ``AWG`` or ``mm2``, ``value`` such as ``16``, ``1/0``, ``2.5``."""

    kind: str
    value: str


def read_size(text: str) -> SizeText | Misread:
    """Read a wire size of the AWG or the metric series.

    >>> read_size("1/0 ga")
    SizeText(kind='AWG', value='1/0')
    >>> read_size("15 AWG").help
    'write 16 AWG or 14 AWG'
    """
    return settle(text, _size, _WANTED.general_help)


def _size(text: str) -> SizeText:
    line = plain_line(text, _WANTED.called)
    cable = _CABLE.search(line)
    if cable:
        message = f"{cable.group()} names a cable by its wires as well"
        sized = (swapped(line, cable.span(), cable[1]), f"{cable[1]} AWG")
        raise CannotReadError(cable.span(), message, sized)
    inner = line.strip()
    span = (line.index(inner), line.index(inner) + len(inner))
    gauge = _GAUGE.fullmatch(inner)
    if gauge:
        return SizeText("AWG", _of_awg(inner, next(filter(None, gauge.groups())), span))
    if re.fullmatch(_NUMBER, inner):
        fixes = tuple(f"{inner} {unit}" for unit in _WANTED.usual)
        raise CannotReadError(span, f"{echo(inner)} has no unit", fixes)
    measured = measure(text, _WANTED)
    if measured.unit.kind == "gauge":
        raise CannotReadError(span, _unknown(inner))
    return SizeText("mm2", _of_metric(inner, measured.value, span))


def _of_awg(words: str, number: str, span: tuple[int, int]) -> str:
    named = f"{len(number)}/0" if set(number) == {"0"} else number.lstrip("0")
    if named in AWG_SIZES:
        return named
    if not re.fullmatch(r"\d+|\d/0", named):
        raise CannotReadError(span, _unknown(words))
    place = _rank(named)
    thinner = [size for size in AWG_SIZES if _rank(size) > place][-1:]
    thicker = [size for size in AWG_SIZES if _rank(size) < place][:1]
    raise CannotReadError(span, _unknown(words), tuple(f"{size} AWG" for size in thinner + thicker))


def _of_metric(words: str, area: Fraction, span: tuple[int, int]) -> str:
    for size in METRIC_SIZES:
        if Fraction(size) == area:
            return size
    thinner = [size for size in METRIC_SIZES if Fraction(size) < area][-1:]
    thicker = [size for size in METRIC_SIZES if Fraction(size) > area][:1]
    raise CannotReadError(span, _unknown(words), tuple(f"{size} mm²" for size in thinner + thicker))


def _unknown(words: str) -> str:
    return f"{echo(words)} is not a wire size used here"


def _rank(size: str) -> int:
    """Count the gauge number as ASTM B258 counts on below 1: 0 for 1/0, -1 for 2/0 (formula: from memory)."""
    aughts, over, _ = size.partition("/")
    return 1 - int(aughts) if over else int(size)
