"""A placed strip as SVG: casings, cores and tracers, joints, tags, symbols and texts, in this order."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from html import escape

from builder.drawings.measure import DETAIL_SIZE, NOTE_LINE, TAG_LEFT, TAG_LINE
from builder.drawings.placed import Placed, PlacedNode, PlacedTag, Point, Route
from builder.drawings.shapes import box, casing, circle, core, line, number
from builder.drawings.text_width import text_width

BEND = 7.0
Link = Callable[[str], str]


@dataclass(frozen=True, slots=True)
class Heading:
    """What a screen reader says of a strip: ``prefix`` makes its ids its own on the page.

    ``ids`` names the nodes that other strips lead to, ``leads`` gives the id that a node leads to, by node key.
    """

    prefix: str
    title: str
    description: str
    ids: Mapping[str, str] = field(default_factory=dict)
    leads: Mapping[str, str] = field(default_factory=dict)


def paint(strip: Placed, heading: Heading, link: Link) -> str:
    """Return a strip as one line of SVG.

    ``link`` gives the address of a part by its name, such as ``#part-fan``; an empty one makes no link. Every
    text that comes from the file is escaped.
    """
    ids = f"{heading.prefix}-title {heading.prefix}-desc"
    width, height = number(strip.width), number(strip.height)
    inside = (
        f'<title id="{heading.prefix}-title">{escape(heading.title)}</title>'
        f'<desc id="{heading.prefix}-desc">{escape(heading.description)}</desc>'
        + _wires(strip)
        + "".join(line(*a, *b, "s") for a, b in strip.leads)
        + "".join(line(*a, *b, "b") for a, b in strip.bars)
        + _bridges(strip)
        + "".join(circle(x, y, 5.0, "j") for x, y in strip.joints)
        + "".join(_tag(tag) for tag in strip.tags.values())
        + "".join(_node(node, heading, link) for node in strip.nodes)
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="wd" viewBox="0 0 {width} {height}" role="group"'
        f' aria-labelledby="{ids}" style="width:100%;max-width:{number(strip.width * 1.25)}px;height:auto">'
        f"{inside}</svg>"
    )


def _wires(strip: Placed) -> str:
    by_leg = {route.leg.id: route for route in strip.routes}
    parts = []
    for group in strip.groups:
        routes = [by_leg[name] for name in group]
        wires = [route for route in routes if route.leg.tag]
        parts += [_thin(route) for route in routes if not route.leg.tag]
        parts += [casing(_curve(route.points)) for route in wires]
        parts += [_core(route) for route in wires]
    return "".join(parts)


def _thin(route: Route) -> str:
    return f'<path class="wd-{"d" if route.leg.kind == "tie" else "s"}" d="{_curve(route.points)}"/>'


def _core(route: Route) -> str:
    tag = route.leg.tag
    if tag is None:
        return ""
    return core(_curve(route.points), tag.base, tag.tracer)


def _curve(points: tuple[Point, ...]) -> str:
    """Return the path through the corners, each rounded as far as its sides allow."""
    parts = [f"M{_at(points[0])}"]
    for before, corner, after in zip(points, points[1:], points[2:], strict=False):
        radius = min(BEND, _length(before, corner) / 2, _length(corner, after) / 2)
        into, out = _towards(corner, before, radius), _towards(corner, after, radius)
        parts.append(f"L{_at(into)}Q{_at(corner)} {_at(out)}")
    return "".join([*parts, f"L{_at(points[-1])}"])


def _at(point: Point) -> str:
    return f"{number(point[0])} {number(point[1])}"


def _length(a: Point, b: Point) -> float:
    return abs(a[0] - b[0]) + abs(a[1] - b[1])


def _towards(start: Point, goal: Point, distance: float) -> Point:
    length = _length(start, goal) or 1.0
    return (
        start[0] + (goal[0] - start[0]) * distance / length,
        start[1] + (goal[1] - start[1]) * distance / length,
    )


def _bridges(strip: Placed) -> str:
    """Lead the later of two crossing wires over the earlier one, with a gap of page on both sides."""
    by_leg = {route.leg.id: route.leg for route in strip.routes}
    found = []
    for name, (x, y), upright in strip.crossings:
        dx, dy = (0.0, 7.0) if upright else (7.0, 0.0)
        d = f"M{_at((x - dx, y - dy))}L{_at((x + dx, y + dy))}"
        tag = by_leg[name].tag
        piece = f'<path class="wd-g" d="{d}"/>'
        if tag is None:
            piece += f'<path class="wd-s" d="{d}"/>'
        else:
            piece += casing(d) + core(d, tag.base, tag.tracer)
        found.append(f'<g class="wd-bridge">{piece}</g>')
    return "".join(found)


def _tag(tag: PlacedTag) -> str:
    left, top = tag.x - TAG_LEFT, tag.middle - tag.flag.height / 2
    spans = []
    for place, (bold, rest) in enumerate(tag.flag.lines):
        at = f' x="{number(left + 5.5)}" y="{number(top + 12.5 + TAG_LINE * place)}"'
        strong = f'<tspan class="wd-nr"{at}>{escape(bold)}</tspan> ' if bold else ""
        place_of_rest = ' dx="1.5"' if bold else at
        spans.append(f"{strong}<tspan{place_of_rest}>{escape(rest)}</tspan>")
    plate = box(left, top, tag.flag.width, tag.flag.height, "p", 3)
    return f'<g class="wd-tag">{plate}<text class="wd-w">{" ".join(spans)}</text> </g>'


def _node(placed: PlacedNode, heading: Heading, link: Link) -> str:
    room = placed.box
    node = room.node
    shapes = room.symbol.shapes
    sign = f'<g transform="translate({number(placed.x)} {number(placed.top)})">{shapes}</g>' if shapes else ""
    top = placed.middle + room.text_top
    texts = "".join(  # a blank after each, so that two lines stay two words to who hears or copies them
        f'<text class="wd-{one.name}" x="{number(placed.text_x)}" y="{number(top + one.base)}">'
        f"{escape(one.text)}</text> "
        for one in room.lines
        if one.name != "x"
    )
    said = ", ".join([node.name, *node.details])
    title = f"<title>{escape(said + (f' ({node.where})' if node.where else ''))}</title>"
    classes = (
        "wd-part"
        + (" wd-waiting" if node.waiting else "")
        + (" wd-again" if node.repeat or node.elsewhere else "")
    )
    inside = title + _target(placed) + sign + texts
    goal = heading.leads.get(node.key, "")
    address = f"#{goal}" if goal and node.repeat else link(node.part)
    mark = f' id="{heading.ids[node.key]}"' if node.key in heading.ids else ""
    on = _leads_on(placed, goal) if goal and node.note else ""
    if not address:
        return f'<g class="{classes}"{mark}>{inside}</g>{on}'
    return f'<a class="{classes}"{mark} href="{escape(address)}" aria-label="{escape(said)}">{inside}</a>{on}'


def _leads_on(placed: PlacedNode, goal: str) -> str:
    """Return the line under a part that leads to where it goes on, 24 high for a finger."""
    note = placed.box.lines[-1]
    y = placed.middle + placed.box.text_top + note.base
    width = text_width(note.text, DETAIL_SIZE) + 8
    text = f'<text class="wd-m wd-x" x="{number(placed.text_x)}" y="{number(y)}">{escape(note.text)}</text> '
    said = escape(f"{placed.box.node.name}, {note.text}")
    target = box(placed.text_x - 4, y - 12.5, width, NOTE_LINE, "h0", 3)
    return f'<a class="wd-on" href="#{goal}" aria-label="{said}">{target}{text}</a>'


def _target(placed: PlacedNode) -> str:
    """Return the invisible rectangle that a finger hits, at least 24 high."""
    room = placed.box
    text = room.lines and room.text_top
    own = [one for one in room.lines if one.name != "x"]
    height = (own[-1].base + 4) if own else 0.0
    top = min(-room.symbol.height / 2, text or 0.0)
    bottom = max(room.symbol.height / 2, (text or 0.0) + height)
    if room.node.note:  # the line that leads on has a target of its own
        note = room.text_top + room.lines[-1].base - 12.5
        over = note < -room.symbol.height / 2
        top, bottom = (-room.symbol.height / 2, bottom) if over else (min(top, note - 24.5), note)
    spare = max(0.0, 24.5 - (bottom - top)) / 2
    return box(
        placed.x - room.left,
        placed.middle + top - spare,
        room.left + room.right,
        bottom - top + 2 * spare,
        "h0",
        3,
    )
