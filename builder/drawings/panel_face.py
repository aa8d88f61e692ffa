"""A panel as it is seen from before it, with the bands in which wires may lie behind it."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape
from math import atan2, degrees

from builder.drawings.shapes import number
from builder.drawings.sheet import whole
from builder.drawings.wording import Words
from builder.routes.edges import edge_names, seen_from_before
from builder.routes.faces import Face
from builder.routes.panels import Behind, PanelView
from builder.routes.vectors import Vector, dot, scaled

ROOM, MARGIN, TALLEST = 316.0, 12.0, 420.0
"""The width of a phone without its margins, and the height at most, in CSS pixels."""
_UPRIGHT = 0.15
"""How far down an upright edge its name stands: most wires run through the middle."""


def panel_face(view: PanelView, prefix: str, words: Words) -> str:
    """Return a panel to scale as one line of SVG; ``prefix`` begins its ids. Empty where it is not one flat piece.

    Each band is as wide as the wires of a stretch and twice what the measures may be off.
    """
    if len(view.faces) != 1:
        return ""
    face = view.faces[0]
    axes = _axes(face)
    corners = [_turned(axes, point) for point in face.outline]
    low = min(x for x, _ in corners), max(y for _, y in corners)
    wide = max(x for x, _ in corners) - low[0]
    high = low[1] - min(y for _, y in corners)
    scale = min(ROOM / wide, TALLEST / high)

    def at(point: tuple[float, ...]) -> tuple[float, float]:
        x, y = _turned(axes, point)
        return MARGIN + (x - low[0]) * scale, MARGIN + (low[1] - y) * scale

    outline = " ".join(f"{number(x)},{number(y)}" for x, y in map(at, face.outline))
    clip = f"{prefix}-clip"
    shapes = [f'<clipPath id="{clip}"><polygon points="{outline}"/></clipPath>']
    shapes += [f'<polygon class="wd-p" points="{outline}"/>', f'<g clip-path="url(#{clip})">']
    shapes += [_band(one, at(one.part.start), at(one.part.end), scale) for one in view.behind]
    shapes += ["</g>", f'<polygon class="wd-h" points="{outline}"/>']
    shapes += _names(face, [at(point) for point in face.outline], words)
    size = 2 * MARGIN + wide * scale, 2 * MARGIN + high * scale
    return whole(shapes, size, prefix, words.panel_title)


def _names(face: Face, corners: Sequence[tuple[float, float]], words: Words) -> list[str]:
    """Write beside each edge what the page calls it; nothing where edges have no names."""
    middle = sum(x for x, _ in corners) / len(corners), sum(y for _, y in corners) / len(corners)
    found = []
    for i, name in enumerate(edge_names(face)):
        said = words.edge(name)
        (ax, ay), (bx, by) = corners[i], corners[(i + 1) % len(corners)]
        level = abs(bx - ax) >= abs(by - ay)
        share = 0.5 if level else _UPRIGHT if ay < by else 1 - _UPRIGHT
        x, y = ax + (bx - ax) * share, ay + (by - ay) * share
        anchor = "middle" if level else "start" if x < middle[0] else "end"
        dx = 0.0 if level else 5.0 if x < middle[0] else -5.0
        dy = 3.0 if not level else 13.0 if y < middle[1] else -5.0
        if said:
            found.append(
                f'<text class="wd-m" x="{number(x + dx)}" y="{number(y + dy)}" text-anchor="{anchor}">'
                f"{escape(said)}</text> "
            )
    return found


def _axes(face: Face) -> tuple[Vector, Vector, Face]:
    return (*seen_from_before(face), face)


def _turned(axes: tuple[Vector, Vector, Face], point: tuple[float, ...]) -> tuple[float, float]:
    right, up, face = axes
    one, other = scaled(face.across, point[0]), scaled(face.upwards, point[1])
    arrow = one[0] + other[0], one[1] + other[1], one[2] + other[2]
    return dot(arrow, right), dot(arrow, up)


def _band(one: Behind, start: tuple[float, float], end: tuple[float, float], scale: float) -> str:
    """Draw where the wires of a stretch may lie: a band with round ends, and their line dashed where none is known."""
    half = ((one.tube.radius_m or 0.0) + one.unsure_m) * scale
    long = ((end[0] - start[0]) ** 2 + (end[1] - start[1]) ** 2) ** 0.5
    turn = degrees(atan2(end[1] - start[1], end[0] - start[0]))
    return (
        f'<g transform="translate({number(start[0])} {number(start[1])}) rotate({number(turn)})">'
        f'<rect class="{"wd-o" if one.tube.radius_m is None else "wd-f"}" x="{number(-half)}" y="{number(-half)}" '
        f'width="{number(long + 2 * half)}" height="{number(2 * half)}" rx="{number(half)}"/>'
        f'<path class="wd-d" d="M0 0H{number(long)}"/></g>'
    )
