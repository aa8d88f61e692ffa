"""Read a finished drawing back from its SVG alone: coordinates and text."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import pairwise

from builder.drawings.text_width import text_width

NAME = "{http://www.w3.org/2000/svg}"
Point = tuple[float, float]
Rect = tuple[float, float, float, float]
TERMINAL_RADIUS = "4.5"
_NUMBERS = re.compile(r"-?\d+(?:\.\d+)?")
_SIZES = {"wd-n": (12.0, True), "wd-m": (11.0, False), "wd-w": (10.5, False)}


@dataclass
class Part:
    """A part: what a finger hits, its texts with their places, where its symbol stands, the ends of its leads."""

    target: Rect
    texts: list[tuple[str, Rect]]
    address: str
    leads: list[Point]
    title: str
    drawn: bool
    id: str


@dataclass
class Strip:
    """All that a strip shows."""

    width: float
    height: float
    wires: list[list[Point]] = field(default_factory=list)
    tags: list[tuple[str, Rect]] = field(default_factory=list)
    parts: list[Part] = field(default_factory=list)
    bars: list[list[Point]] = field(default_factory=list)
    leads: list[list[Point]] = field(default_factory=list)
    notes: list[Part] = field(default_factory=list)
    joints: list[Point] = field(default_factory=list)


def parsed(svg: str) -> ET.Element:
    """Parse a text of ours."""
    return ET.fromstring(svg)


def read_strip(svg: str) -> Strip:
    """Read one strip."""
    root = parsed(svg)
    _, _, width, height = (float(x) for x in root.attrib["viewBox"].split())
    strip = Strip(width, height)
    for element in root:
        name = element.get("class", "")
        if name == "wd-e":
            strip.wires.append(corners(element.attrib["d"]))
        elif name == "wd-b":
            strip.bars.append(corners(element.attrib["d"]))
        elif name == "wd-s":
            strip.leads.append(corners(element.attrib["d"]))
        elif name == "wd-j":
            strip.joints.append((float(element.attrib["cx"]), float(element.attrib["cy"])))
        elif name == "wd-tag":
            strip.tags.append((_said(element), _rect(element[0])))
        elif name == "wd-on":
            strip.notes.append(_part(element))
        elif "wd-part" in name:
            strip.parts.append(_part(element))
            if any(circle.get("r") == TERMINAL_RADIUS for circle in element.iter(f"{NAME}circle")):
                ends = sorted(strip.parts[-1].leads, key=lambda point: point[1])
                strip.leads.append([ends[0], ends[-1]])  # wires on an open circle are joined
    return strip


def corners(d: str) -> list[Point]:
    """The corners of a path of ours: its first and last point and the middles of its bends."""
    found: list[Point] = []
    pieces = re.findall(r"([MLQ])([^MLQ]*)", d)
    for place, (letter, rest) in enumerate(pieces):
        numbers = [float(x) for x in _NUMBERS.findall(rest)]
        if letter in "MQ" or place == len(pieces) - 1:
            found.append((numbers[0], numbers[1]))
    return found


def _said(element: ET.Element) -> str:
    text = next(element.iter(f"{NAME}text"))
    return " ".join("".join(text.itertext()).split())


def _rect(element: ET.Element) -> Rect:
    x, y, w, h = (float(element.attrib[key]) for key in ("x", "y", "width", "height"))
    return (x, y, x + w, y + h)


def _part(element: ET.Element) -> Part:
    target = next(e for e in element if e.get("class") == "wd-h0")
    texts = []
    for text in (e for e in element if e.tag == f"{NAME}text"):
        size, bold = _SIZES[text.attrib["class"].split()[0]]
        x, y, said = float(text.attrib["x"]), float(text.attrib["y"]), text.text or ""
        texts.append((said, (x, y - 0.75 * size, x + text_width(said, size, bold=bold), y + 0.2 * size)))
    sign = next((e for e in element if e.tag == f"{NAME}g"), None)
    title = (element[0].text or "") if element[0].tag == f"{NAME}title" else ""
    leads = list(_ends(sign)) if sign is not None else []
    return Part(
        _rect(target), texts, element.get("href", ""), leads, title, sign is not None, element.get("id", "")
    )


def _ends(sign: ET.Element) -> Iterator[Point]:
    """The ends of the straight lines of a symbol, where wires may begin."""
    dx, dy = (float(x) for x in _NUMBERS.findall(sign.attrib["transform"]))
    for path in sign.iter(f"{NAME}path"):
        straight = re.fullmatch(r"M(-?[\d.]+) (-?[\d.]+)L(-?[\d.]+) (-?[\d.]+)", path.attrib["d"])
        if straight:
            x1, y1, x2, y2 = (float(x) for x in straight.groups())
            yield x1 + dx, y1 + dy
            yield x2 + dx, y2 + dy


def meet(a: Rect, b: Rect, slack: float = 0.5) -> bool:
    """Whether two rectangles overlap by more than a slack."""
    return a[0] + slack < b[2] and b[0] + slack < a[2] and a[1] + slack < b[3] and b[1] + slack < a[3]


def pieces(line: list[Point], half: float) -> Iterator[Rect]:
    """The rectangles that a line of a half width covers."""
    for (x1, y1), (x2, y2) in pairwise(line):
        across, along = (half, 0.0) if abs(x1 - x2) < 0.05 else (0.0, half)
        yield (min(x1, x2) - across, min(y1, y2) - along, max(x1, x2) + across, max(y1, y2) + along)


def touches(point: Point, line: list[Point], slack: float = 0.7) -> bool:
    """Whether a point lies on a line."""
    return any(
        a - slack <= point[0] <= c + slack and b - slack <= point[1] <= d + slack
        for a, b, c, d in pieces(line, 0.0)
    )


def copper(strip: Strip) -> set[frozenset[str]]:
    """The groups of wires, by number, that the drawing joins: an end of one lies on another, or a bar or lead."""
    lines = [*strip.wires, *strip.bars, *strip.leads]
    group = list(range(len(lines)))
    for i, a in enumerate(lines):
        for j, b in enumerate(lines):
            if i != j and any(touches(end, b) for end in (a[0], a[-1])):
                old, new = group[j], group[i]
                group = [new if g == old else g for g in group]
    found: dict[int, set[str]] = {}
    for place, wire in enumerate(strip.wires):
        found.setdefault(group[place], set()).add(number_on(strip, wire))
    return {frozenset(names) for names in found.values()}


def number_on(strip: Strip, wire: list[Point]) -> str:
    """The number on the one tag that a wire runs through."""
    tags = tags_on(strip, wire)
    assert len(tags) == 1, (wire, tags)
    return tags[0].split()[0]


def tags_on(strip: Strip, wire: list[Point]) -> list[str]:
    """What is written on the tags that a wire runs through, 10 px from their left edge."""
    found = []
    for said, (x1, y1, _, y2) in strip.tags:
        for (ax, ay), (bx, by) in pairwise(wire):
            if abs(ax - bx) < 0.05 and abs(ax - x1 - 10) < 0.6 and min(ay, by) < y1 and max(ay, by) > y2:
                found.append(said)
    return found
