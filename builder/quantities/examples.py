"""The lengths, sizes and masses of our examples in the units that the reader's own file is written in."""

from __future__ import annotations

import re

_BEHIND = re.compile(r"(?<=\b)(?:as in|write it as|such as|a length) ")
"""Words that an example of ours stands behind; what comes before them may be the user's own text."""

_VALUE_ENDS = r"(?=$|[\],;.)}]| or\b| under\b)"
"""What stands behind a value: a length inside a name, as in ``15 ft lamp``, is left alone."""

_FOOT = re.compile(
    r"(?:\b1\.5 W per ft\b|\b(\d+) ft(?: (\d+) in)?\b|\b(\d+) in\b|\b(\d+) lb\b|\b(\d+) AWG\b)" + _VALUE_ENDS
)
_SIZES = {"16": "1.5", "14": "2.5", "12": "4", "8": "10"}
"""Next size of the trade in mm² for the gauges that our examples name."""


def in_metric(text: str) -> str:
    """Return a help with the values of its examples in metres, kilograms and mm², round as one would write them.

    Args:
        text: a sentence; what stands before its first example is left alone.

    """
    found = _BEHIND.search(text)
    if found is None:
        return text
    return text[: found.end()] + _FOOT.sub(_metric, text[found.end() :])


def _metric(found: re.Match[str]) -> str:
    if found.group() == "1.5 W per ft":
        return "5 W per m"
    feet, over, inches, pounds, gauge = found.groups()
    if gauge:
        return f"{_SIZES[gauge]} mm²" if gauge in _SIZES else found.group()
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
