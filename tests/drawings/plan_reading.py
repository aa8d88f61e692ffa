"""Read a drawing to scale back from its SVG alone: metres from coordinates, and the room of every text."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator
from dataclasses import dataclass, field

from builder.drawings.text_width import text_width

SVG = "{http://www.w3.org/2000/svg}"
Point = tuple[float, float]
Rect = tuple[float, float, float, float]
_NUMBERS = re.compile(r"-?\d+(?:\.\d+)?")
_SIZES = {"wd-n": (12.0, True), "wd-m": (11.0, False), "wd-nr": (11.0, True)}


@dataclass
class Sheet:
    """One sheet: how metres become its pixels, and all that is on it, in metres of its view."""

    view: str
    px: float
    zero: Point
    size: Point
    places: dict[str, Point] = field(default_factory=dict)
    ways: dict[tuple[str, int], tuple[Point, Point]] = field(default_factory=dict)
    rings: dict[tuple[str, int], Point] = field(default_factory=dict)
    outline: list[Point] = field(default_factory=list)
    radii: list[float] = field(default_factory=list)
    openings: dict[str, list[Point]] = field(default_factory=dict)
    panels: dict[str, list[Point]] = field(default_factory=dict)
    frames: dict[str, list[list[Point]]] = field(default_factory=dict)
    plates: list[str] = field(default_factory=list)
    plate_rooms: list[Rect] = field(default_factory=list)
    """In pixels, as the lines to the plates."""
    leaders: list[tuple[Point, Point]] = field(default_factory=list)


def read_sheet(svg: str) -> Sheet | None:
    """Read a sheet; None for one that holds a list only."""
    root = ET.fromstring(svg)
    group = next((one for one in root if one.tag == f"{SVG}g" and one.get("data-view")), None)
    if group is None:
        return None
    _, _, width, height = (float(x) for x in root.attrib["viewBox"].split())
    zero = float(group.attrib["data-x"]), float(group.attrib["data-y"])
    sheet = Sheet(group.attrib["data-view"], float(group.attrib["data-px"]), zero, (width, height))
    for element in group.iter():
        _read(sheet, element)
    return sheet


def _read(sheet: Sheet, element: ET.Element) -> None:
    told = element.attrib
    if "data-place" in told:
        sheet.places[told["data-place"]] = _metres(sheet, _middle(element))
    elif "data-chase" in told:
        key = told["data-chase"], int(told["data-stretch"])
        if element.tag == f"{SVG}circle":
            sheet.rings[key] = _metres(sheet, _middle(element))
        else:
            start, end = (_metres(sheet, point) for point in _points(told["d"]))
            sheet.ways[key] = start, end
    elif "data-outline" in told:
        sheet.outline = [_metres(sheet, point) for point in _points(told["d"])]
        sheet.radii = [float(r) / sheet.px for r in re.findall(r"A([\d.]+) ", told["d"])]
    elif "data-opening" in told or "data-edge" in told:
        name = told.get("data-opening") or told["data-edge"]
        sheet.openings[name] = [_metres(sheet, point) for point in _points(told["d"])]
    elif "data-panel" in told:
        points = (pair.split(",") for pair in told["points"].split())
        sheet.panels[told["data-panel"]] = [_metres(sheet, (float(x), float(y))) for x, y in points]
    elif "data-frame" in told:
        sheet.frames.setdefault(told["data-frame"], []).append(
            [_metres(sheet, point) for point in _frame(element)]
        )
    else:
        _read_plate(sheet, element)


def _read_plate(sheet: Sheet, element: ET.Element) -> None:
    told = element.attrib
    if told.get("class") in ("wd-pl", "wd-pw"):
        x, y, width, height = (float(told[key]) for key in ("x", "y", "width", "height"))
        sheet.plate_rooms.append((x, y, x + width, y + height))
    elif told.get("class") == "wd-ld":
        start, end = _points(told["d"])
        sheet.leaders.append((start, end))
    elif told.get("class") == "wd-nr":
        sheet.plates.append("".join(element.itertext()))


def _metres(sheet: Sheet, at: Point) -> Point:
    return (at[0] - sheet.zero[0]) / sheet.px, (at[1] - sheet.zero[1]) / sheet.px


def _middle(element: ET.Element) -> Point:
    if element.tag == f"{SVG}circle":
        return float(element.attrib["cx"]), float(element.attrib["cy"])
    x, y, width, height = (float(element.attrib[key]) for key in ("x", "y", "width", "height"))
    return x + width / 2, y + height / 2


def _frame(element: ET.Element) -> list[Point]:
    if element.tag == f"{SVG}path":
        return _points(element.attrib["d"])
    x, y, width, height = (float(element.attrib[key]) for key in ("x", "y", "width", "height"))
    return [(x, y), (x + width, y + height)]


def _points(d: str) -> list[Point]:
    """Return every point that a path leads to; of an arc its end."""
    found = []
    for command in re.findall(r"[MLA][^MLAZ]*", d):
        numbers = [float(n) for n in _NUMBERS.findall(command)]
        found.append((numbers[-2], numbers[-1]))
    return found


def texts(svg: str) -> Iterator[tuple[str, Rect, float]]:
    """Yield every text of a sheet with its room on it and its letter size, as the style sheet has it."""
    yield from _texts(ET.fromstring(svg), (0.0, 0.0))


def _texts(element: ET.Element, moved: Point) -> Iterator[tuple[str, Rect, float]]:
    for child in element:
        shift = moved
        if child.tag == f"{SVG}g" and "transform" in child.attrib:
            dx, dy = (float(n) for n in _NUMBERS.findall(child.attrib["transform"]))
            shift = moved[0] + dx, moved[1] + dy
        if child.tag == f"{SVG}text":
            yield _text(child, shift)
        elif child.tag not in (f"{SVG}title", f"{SVG}desc"):
            yield from _texts(child, shift)


def _text(element: ET.Element, moved: Point) -> tuple[str, Rect, float]:
    said = "".join(element.itertext())
    size, bold = _SIZES[element.attrib["class"].split()[0]]
    width = text_width(said, size, bold=bold)
    x, y = float(element.attrib["x"]) + moved[0], float(element.attrib["y"]) + moved[1]
    left = x - width / 2 if element.get("text-anchor") == "middle" else x
    return said, (left, y - size * 0.76, left + width, y + size * 0.22), size
