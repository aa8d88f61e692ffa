"""A panel as it is seen from before it, with the bands in which wires may lie behind it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from html import escape
from math import atan2, degrees

from builder.drawings.plan_key import scale_bar
from builder.drawings.plan_labels import DOT, NAME_HEIGHT, Labels, Plate
from builder.drawings.rect import Rect
from builder.drawings.shapes import box, circle, line, number
from builder.drawings.sheet import whole
from builder.drawings.text_width import text_width
from builder.drawings.wording import Words
from builder.quantities.showing import System
from builder.routes.edges import edge_names, seen_from_before
from builder.routes.faces import Face
from builder.routes.network import Stretch
from builder.routes.panels import Behind, PanelView
from builder.routes.vectors import Vector, dot, scaled

ROOM, MARGIN, TALLEST = 316.0, 12.0, 420.0
"""The width of a phone without its margins, and the height at most, in CSS pixels."""
_UPRIGHT = 0.15
"""How far down an upright edge its name stands: most wires run through the middle."""
_SHARES = (0.5, 0.35, 0.65, 0.2, 0.8)
"""Where along a band its letter may stand, the first that is free."""
_LEAST_WIDE = 240.0
"""A drawing is no narrower than its scale bar with what is said of it, in CSS pixels."""


def panel_face(
    view: PanelView,
    prefix: str,
    words: Words,
    units: System,
    marks: tuple[Mapping[Stretch, str], Mapping[str, str]],
) -> str:
    """Return a panel to scale as one line of SVG; ``prefix`` begins its ids. Empty where it is not one flat piece.

    Each band is as wide as the wires of a stretch and twice what the measures may be off, and has the letter of its
    way by ``marks``; a dot with the number of its place stands where the wires of a part end.
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
    names = _names(face, [at(point) for point in face.outline], words)
    shapes += [said for said, _ in names]
    within = Rect(MARGIN, MARGIN, wide * scale, high * scale)
    labels = Labels(within, [room for _, room in names])
    labels.lines += [(at(one.part.start), at(one.part.end)) for one in view.behind]
    letters, numbers = marks
    spots = {numbers[part.place]: at(part.at) for part in view.parts}
    labels.taken += [Rect(x - DOT + 1, y - DOT + 1, 2 * DOT - 2, 2 * DOT - 2) for x, y in spots.values()]
    shapes += [circle(*spot, 4.2, "k") for spot in spots.values()]
    for one in view.behind:
        shapes += _letter(labels, letters[one.tube.stretch], at(one.part.start), at(one.part.end))
    for mark, spot in spots.items():
        shapes += _plate(labels.plate(spot, (mark,)), "pl")
    bar, y = scale_bar(max(room.bottom for room in (within, *labels.taken)) + 6, scale, units, words)
    size = max(2 * MARGIN + wide * scale, _LEAST_WIDE), y + MARGIN / 2
    shapes += bar
    return whole(shapes, size, prefix, words.panel_title)


def _letter(labels: Labels, mark: str, start: tuple[float, float], end: tuple[float, float]) -> list[str]:
    """Write the letter of a way on its band, or as near as there is room, joined to it by a line."""
    least, most = (labels.within.x, labels.within.y), (labels.within.right, labels.within.bottom)
    ends = [tuple(min(max(one[k], least[k]), most[k]) for k in range(2)) for one in (start, end)]
    points = [
        (ends[0][0] + (ends[1][0] - ends[0][0]) * share, ends[0][1] + (ends[1][1] - ends[0][1]) * share)
        for share in _SHARES
    ]
    return _plate(labels.on_line(points, (mark,)) or labels.plate(points[0], (mark,)), "pw")


def _plate(plate: Plate, name: str) -> list[str]:
    """Draw a plate with its one line of text, and the line to it."""
    room = plate.room
    middle = room.x + room.width / 2
    leader = [line(*plate.leader, middle, room.y + room.height / 2, "ld")] if plate.leader is not None else []
    return [
        *leader,
        box(room.x, room.y, room.width, room.height, name, 3),
        f'<text class="wd-nr" x="{number(middle)}" y="{number(room.y + 12.5)}" text-anchor="middle">'
        f"{escape(plate.lines[0])}</text> ",
    ]


def _names(face: Face, corners: Sequence[tuple[float, float]], words: Words) -> list[tuple[str, Rect]]:
    """Write beside each edge what the page calls it, with its room; nothing where edges have no names."""
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
            long = text_width(said, 11)
            left = x + dx - {"middle": long / 2, "start": 0.0, "end": long}[anchor]
            text = (
                f'<text class="wd-m" x="{number(x + dx)}" y="{number(y + dy)}" text-anchor="{anchor}">'
                f"{escape(said)}</text> "
            )
            found.append((text, Rect(left, y + dy - 11, long, NAME_HEIGHT)))
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
