"""The lines of a drawing to scale: the body, the ways by their kind, and the marks of places.

Everything that was measured carries its name, so that a drawing can be read back.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from html import escape

from builder.drawings.plan_seen import Spot, Way
from builder.drawings.shapes import box, circle, number
from builder.trailer.model import BATTERY, FRONT_BOX, TOW_PLUG
from builder.trailer.places import ChaseKind
from builder.trailer.views import Trace

Point = tuple[float, float]
_THIN = 2.0
"""A frame thinner than this on the sheet is drawn as one line, in CSS pixels."""
_TRACES = {"outline": "s", "opening": "op", "edge": "eg", "frame": "fr", "block": "bk", "side": "d"}
BIG = (FRONT_BOX, BATTERY, TOW_PLUG)
"""What has a mark of its own form."""
KINDS = {
    ChaseKind.GROOVE: "v1",
    ChaseKind.CHANNEL: "v2",
    ChaseKind.CONDUIT: "v3",
    ChaseKind.BAY: "v4",
    ChaseKind.HINGE: "v5",
}
"""The class of each kind of chase: they differ in their dashes, not in a colour."""


def trace_shapes(trace: Trace, at: Callable[[Point], Point], px: float) -> list[str]:
    """Return a line of the body: a frame as thick as it is where that can be seen, a backing block crossed out."""
    told = f' data-{trace.what}="{escape(trace.name)}"'
    thick = (trace.thick_m or 0.0) * px
    start = at(trace.start)
    if trace.what == "frame" and thick >= _THIN:
        end = at(trace.steps[-1].to)
        x, y = min(start[0], end[0]), min(start[1], end[1])
        wide, high = abs(start[0] - end[0]), abs(start[1] - end[1])
        if wide < high:
            return [_with(box(x - thick / 2, y, thick, high, "fr", 0), told)]
        return [_with(box(x, y - thick / 2, wide, thick, "fr", 0), told)]
    d = "M" + _pair(start)
    for step in trace.steps:
        if step.radius_m:
            radius = number(step.radius_m * px)
            d += f"A{radius} {radius} 0 0 {int(step.clockwise)} {_pair(at(step.to))}"
        else:
            d += "L" + _pair(at(step.to))
    d += "Z" * trace.closed
    if trace.what == "block":
        one, two, three, four = (_pair(at(point)) for point in trace.points)
        d += f"M{one}L{three}M{two}L{four}"
    return [f'<path class="wd-{_TRACES[trace.what]}" d="{d}"{told}/>']


def panel_shape(name: str, ring: Sequence[Point]) -> str:
    """Return the outline of a panel that comes off."""
    points = " ".join(f"{number(x)},{number(y)}" for x, y in ring)
    return f'<polygon class="wd-pn" points="{points}" data-panel="{escape(name)}"/>'


def way_shapes(way: Way, start: Point, end: Point) -> str:
    """Return a stretch of a way; one that holds no wire is drawn lighter."""
    d = f"M{_pair(start)}L{_pair(end)}"
    empty = "" if way.bundle.wires or way.bundle.mains else " wd-em"
    drawn = f'<path class="wd-{KINDS[way.bundle.kind]}{empty}" d="{d}"{_told(way)}/>'
    return drawn + (f'<path class="wd-vi" d="{d}"/>' if way.bundle.kind is ChaseKind.CONDUIT else "")


def ring(way: Way, at: Point) -> str:
    """Return the mark of a stretch that runs towards the reader."""
    return _with(circle(*at, 8.5, "ri"), _told(way))


def _told(way: Way) -> str:
    return f' data-chase="{escape(way.stretch.chase)}" data-stretch="{way.stretch.number}"'


def place_dot(spot: Spot, at: Point) -> str:
    """Return the mark of a place: filled where a part stands, open where none does, or the form of one of `BIG`."""
    return mark_of(spot.parts, at, f' data-place="{escape(spot.name)}"')


def mark_of(parts: tuple[str, ...], at: Point, told: str = "") -> str:
    """Return the mark for what stands at a place; nothing stands there where ``parts`` is empty."""
    x, y = at
    if FRONT_BOX in parts:
        return _with(box(x - 6, y - 6, 12, 12, "f", 1), told) + circle(x, y, 1.8, "k")
    if BATTERY in parts:
        d = f"M{number(x - 4)} {number(y)}H{number(x + 4)}M{number(x)} {number(y - 3)}V{number(y + 3)}"
        return _with(box(x - 7.5, y - 5, 15, 10, "f", 1), told) + f'<path class="wd-h" d="{d}"/>'
    if TOW_PLUG in parts:
        return _with(circle(x, y, 6, "f"), told) + circle(x, y, 2, "k")
    return _with(circle(x, y, 4.2, "k") if parts else circle(x, y, 3, "f"), told)


def _with(shape: str, told: str) -> str:
    return shape.removesuffix("/>") + told + "/>" if told else shape


def _pair(point: Point) -> str:
    return f"{number(point[0])} {number(point[1])}"
