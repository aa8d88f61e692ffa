"""The lengths, sizes and masses of our examples in the units that the reader's own file is written in."""

from __future__ import annotations

import re

_BEHIND = re.compile(r"(?<=\b)(?:as in|write it as|such as|a length) ")
"""Words that an example of ours stands behind; what comes before them may be the user's own text."""

_VALUE_ENDS = r"(?=$|[\],;.)}]| or\b| under\b)"
"""What stands behind a value: a length inside a name, as in ``15 ft lamp``, is left alone."""

_FOOT = re.compile(
    r"(?:\b1\.5 W per ft\b|\b0\.35 USD per ft\b|(?<![\d/])(\d+) ft(?: (\d+) in)?\b|(?<![\d/])(\d+) in\b|\b(\d+) lb\b)"
    + _VALUE_ENDS
)
_GAUGE = re.compile(r"\b(\d+) AWG\b" + _VALUE_ENDS)
_NAMED = re.compile(r"\b(\d+) AWG(?=: )")
_INCHES = re.compile(r"(?:\b(\d+) )?\b(\d+)/(\d+) in\b(?=:|$|[\],;.)}]| or\b)")
_THIN_IN, _BROAD_IN = 0.25, 2.0
"""Inches below which tenths of a millimetre are told, and above which whole centimetres do."""
_STUDS = {"No. 8": "M4", "No. 10": "M5", "1/4 in": "M6", "5/16 in": "M8"}
_STUD = re.compile(r"(?<![\d/] )(?:\bNo\. 8\b|\bNo\. 10\b|\b1/4 in\b|\b5/16 in\b)")
"""Sizes of stud that our examples name, with the next one in millimetres; no piece of ours is as thin as that."""
_SIZES = {"16": "1.5", "14": "2.5", "12": "4", "8": "10"}
"""Next size of the trade in mm² for the gauges that our examples name."""
_ALIKE = re.compile(r"\b(\d\S* \S+) or \1(?=$|[\],;.)}])")


def in_metric(text: str) -> str:
    """Return a help with the values of its examples in metres, kilograms and mm², round as one would write them.

    Args:
        text: a sentence; what stands before its first example is left alone.

    """
    found = _BEHIND.search(text)
    if found is None:
        return text
    examples = _FOOT.sub(_metric, _INCHES.sub(_fraction, _GAUGE.sub(_area, text[found.end() :])))
    return text[: found.end()] + _ALIKE.sub(r"\1", examples)


def names_in_metric(text: str) -> str:
    """Return a help whose examples name wires by mm² and studs by their metric thread.

    For texts in whose examples no size of the user's own stands.
    """
    found = _BEHIND.search(text)
    if found is None:
        return text
    examples = _STUD.sub(lambda stud: _STUDS[stud.group()], text[found.end() :])
    return text[: found.end()] + _NAMED.sub(_area, examples)


def in_currency(text: str, currency: str) -> str:
    """Return a help with the amounts of its examples in another currency, by its three letters; amounts stay."""
    found = _BEHIND.search(text)
    if found is None or not currency:
        return text
    return text[: found.end()] + re.sub(r"(?<=\d )USD\b", currency, text[found.end() :])


def _area(found: re.Match[str]) -> str:
    return f"{_SIZES[found[1]]} mm²" if found[1] in _SIZES else found.group()


def _fraction(found: re.Match[str]) -> str:
    inches = int(found[1] or 0) + int(found[2]) / int(found[3])
    return (
        f"{round(inches * 2.54):g} cm"
        if inches > _BROAD_IN
        else f"{round(inches * 25.4, 1 if inches < _THIN_IN else 0):g} mm"
    )


def _metric(found: re.Match[str]) -> str:
    if "per ft" in found.group():
        return "5 W per m" if "W" in found.group() else "1.15 USD per m"
    feet, over, inches, pounds = found.groups()
    if pounds:
        return f"{round(int(pounds) * 0.4536, -1):g} kg"
    if inches:
        return f"{round(int(inches) * 2.54):g} cm"
    return f"{round((int(feet) + int(over or 0) / 12) * 0.3048, 1):g} m"


def written_in_metric(lines: tuple[str, ...]) -> bool:
    """Tell whether a file's lengths and sizes are mostly metric; its comments do not count."""
    text = " ".join(line.partition("#")[0] for line in lines)
    metric = len(re.findall(r"\d\s*(?:m|cm|mm|mm²|mm2)\b", text))
    return metric > len(re.findall(r"\d\s*(?:ft|in|AWG)\b|\d['\"]", text))
