"""Pieces of SVG that symbols are made of: lines, circles, boxes, letters; measures in CSS pixels."""

from __future__ import annotations

import re

_NUMBER = re.compile(r"-?\d+\.\d+")


def number(value: float) -> str:
    """Return a coordinate with one decimal at most, and no minus before a zero."""
    text = f"{value:.1f}"
    text = text.removesuffix(".0")
    return "0" if text == "-0" else text


def path(d: str, name: str = "s", extra: str = "") -> str:
    """Return a path with class ``wd-NAME``; the numbers of ``d`` are rounded to one decimal."""
    rounded = _NUMBER.sub(lambda found: number(float(found.group())), d)
    return f'<path class="wd-{name}" d="{rounded}"{extra}/>'


def line(x1: float, y1: float, x2: float, y2: float, name: str = "s") -> str:
    """Return a straight line as a path."""
    return path(f"M{number(x1)} {number(y1)}L{number(x2)} {number(y2)}", name)


def circle(x: float, y: float, radius: float, name: str = "f") -> str:
    """Return a circle; class ``wd-f`` is filled with the page and has a symbol's outline."""
    return f'<circle class="wd-{name}" cx="{number(x)}" cy="{number(y)}" r="{number(radius)}"/>'


def core(d: str, base: str, tracer: str = "") -> str:
    """Return the insulation of a wire along a path: its base colour, and its tracer dashed upon it (``#rrggbb``)."""
    found = f'<path class="wd-c" d="{d}" stroke="{base}"/>'
    return found + (f'<path class="wd-t" d="{d}" stroke="{tracer}"/>' if tracer else "")


def casing(d: str) -> str:
    """Return the edge of a wire along a path, which keeps a light or dark insulation apart from the page."""
    return f'<path class="wd-e" d="{d}"/>'


def box(x: float, y: float, width: float, height: float, name: str = "f", radius: float = 1.5) -> str:
    """Return a rectangle with slightly round corners."""
    return (
        f'<rect class="wd-{name}" x="{number(x)}" y="{number(y)}" width="{number(width)}"'
        f' height="{number(height)}" rx="{number(radius)}"/>'
    )


def letter(x: float, y: float, text: str, name: str = "l") -> str:
    """Return a letter of a symbol, centred on x, standing on the line y; ``text`` is ours, never the user's."""
    return f'<text class="wd-{name}" x="{number(x)}" y="{number(y)}" text-anchor="middle">{text}</text>'
