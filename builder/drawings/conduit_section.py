"""A conduit cut across: its bore and the wires in it, to scale by their outside diameters.

How the wires lie is one arrangement of many: nobody knows how they turn in a real conduit.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from html import escape
from math import hypot, pi, sin

from builder.drawings.circuit_wires import GREY, tag_of, wires_shown
from builder.drawings.graph import Tag
from builder.drawings.packing import Round, packed
from builder.drawings.plan_labels import Labels
from builder.drawings.rect import Rect
from builder.drawings.shapes import box, circle, line, number
from builder.drawings.sheet import EDGE, WIDTH, whole
from builder.drawings.text_width import text_width, wrapped
from builder.drawings.wording import Words
from builder.electrics.figures import Figures, every_size
from builder.quantities.showing import System, show_measure
from builder.routes.fill import StretchFill, wire_diameter_mm
from builder.routes.network import Stretch
from builder.trailer.model import Trailer

_SMALL, _LARGE = 180.0, 290.0
"""How wide a bore is drawn whose wires have room for their numbers at that size, and any other, in CSS pixels."""
_BORE_PX = 24.0
"""Room round the bore for the numbers of thin wires."""
_HIGH, _WITHIN = 11.0, 0.92
"""How high a number is, and how near the edge of its wire its corners may come."""
_CORE = 0.7
"""How much of a wire's radius its number may take; what is round it shows the colour and is no measure."""


@dataclass(frozen=True, slots=True)
class Section:
    """One conduit cut across: the stretches that it stands for, which hold the same wires, and its one line of SVG."""

    stretches: tuple[Stretch, ...]
    start: str
    end: str
    svg: str


def conduit_sections(trailer: Trailer, figures: Figures, words: Words) -> tuple[Section, ...]:
    """Return each conduit with a bore whose wires all have a known diameter, once for stretches that hold the same."""
    tags = wires_shown(trailer, figures) | {wire.number: tag_of(wire, figures) for wire in trailer.spares}
    found: list[list[StretchFill]] = []
    for fill in figures.fills:
        if fill.fill_percent is None or not fill.wires:
            continue
        last = found[-1][-1] if found else None
        if (
            last is not None
            and last.stretch.chase == fill.stretch.chase
            and sorted(last.laid) == sorted(fill.laid)
        ):
            found[-1].append(fill)
        else:
            found.append([fill])
    return tuple(
        _section(trailer, figures, run, (words, tags, place)) for place, run in enumerate(found, start=1)
    )


def _section(
    trailer: Trailer,
    figures: Figures,
    run: Sequence[StretchFill],
    told: tuple[Words, Mapping[str, Tag], int],
) -> Section:
    words, tags, place = told
    first = run[0]
    chase = trailer.geometry.chases[first.stretch.chase]
    start, end = chase.through[first.stretch.number], chase.through[run[-1].stretch.number + 1]
    units: System = "metric" if trailer.identity.units == "metric" else "feet"
    title = words.section.format(chase.name, start, end)
    shapes: list[str] = []
    y = EDGE
    for said, name, size in (
        (title, "n", 12.0),
        (words.section_bore.format(show_measure(first.bore_mm / 1000, units)), "m", 11.0),
    ):
        for part in wrapped(said, WIDTH - 2 * EDGE, size, bold=name == "n", most=4):
            y += 15
            shapes.append(
                f'<text class="wd-{name}" x="{number(EDGE)}" y="{number(y)}">{escape(part)}</text> '
            )
    sizes = every_size(trailer, figures.wires)
    known = (wire_diameter_mm(sizes[wire], trailer.shelf) for wire in first.laid)
    diameters = [diameter for diameter in known if diameter is not None]
    drawn = _Bore(first, diameters, tags, y + _BORE_PX)
    shapes += drawn.shapes()
    y = drawn.bottom
    if drawn.left:
        said = words.section_left.format(", ".join(first.laid[n] for n in drawn.left))
        for part in wrapped(said, WIDTH - 2 * EDGE, 11, most=12):
            y += 15
            shapes.append(f'<text class="wd-m" x="{number(EDGE)}" y="{number(y)}">{escape(part)}</text> ')
    svg = whole(shapes, (WIDTH, y + EDGE), f"section-{place}", title)
    return Section(tuple(one.stretch for one in run), start, end, svg)


def _fits(wire: str, radius: float) -> bool:
    """Tell whether the number of a wire goes into it as it is drawn, with its radius in CSS pixels."""
    half = text_width(wire, 11, bold=True) / 2
    return half <= radius * _CORE and hypot(half, _HIGH / 2) <= radius * _WITHIN


class _Bore:
    """The bore with its wires on the sheet, its upper edge at ``y``."""

    def __init__(
        self, fill: StretchFill, diameters: Sequence[float], tags: Mapping[str, Tag], y: float
    ) -> None:
        self.fill, self.tags = fill, tags
        wide = _LARGE
        if all(
            _fits(wire, mm * _SMALL / fill.bore_mm / 2) for wire, mm in zip(fill.laid, diameters, strict=True)
        ):
            wide = _SMALL
        self.px = wide / fill.bore_mm
        self.x, self.y, self.half = WIDTH / 2, y + wide / 2, wide / 2
        laid = packed(diameters, fill.bore_mm)
        self.inside, self.left = laid.inside, laid.left
        self.labels = Labels(Rect(4, y - _BORE_PX, WIDTH - 8, wide + 2 * _BORE_PX))
        self.bottom = y + wide + _BORE_PX / 2

    def shapes(self) -> list[str]:
        """Return the bore, then every wire, then the numbers that have no room in their wires."""
        edge = circle(self.x, self.y, self.half + 3, "bo") + circle(self.x, self.y, self.half, "bi")
        drawn, texts, outside = [edge], [], []
        for one in self.inside:
            drawn.append(self._wire(one))
            wire = self.fill.laid[one.wire]
            room = self._inner(one, wire)
            half = one.radius * self.px
            x, y = self.x + one.x * self.px, self.y + one.y * self.px
            self.labels.taken.append(Rect(x - half, y - half, 2 * half, 2 * half))
            if room is None:
                outside.append((one, wire))
            else:
                texts.append(self._number(room, wire))
        for one, wire in outside:
            at = self.x + one.x * self.px, self.y + one.y * self.px
            plate = self.labels.plate(at, (wire,))
            room = plate.room
            middle = room.x + room.width / 2, room.y + room.height / 2
            drawn.append(line(*at, *middle, "ld"))
            texts += [box(room.x, room.y, room.width, room.height, "pl", 3), self._number(room, wire)]
            self.bottom = max(self.bottom, room.bottom + 4)
        told = f'data-px="{self.px:.6f}" data-x="{self.x:.6f}" data-y="{self.y:.6f}"'
        return [f"<g {told}>", *drawn, *texts, "</g>"]

    def _inner(self, one: Round, wire: str) -> Rect | None:
        """Return the room of a number inside its wire; None where it does not fit."""
        if not _fits(wire, one.radius * self.px):
            return None
        width = text_width(wire, 11, bold=True)
        x, y = self.x + one.x * self.px, self.y + one.y * self.px
        return Rect(x - width / 2, y - _HIGH / 2, width, _HIGH)

    def _wire(self, one: Round) -> str:
        """Return a wire: its insulation in its colour, with its tracer, round a middle that is left for its number."""
        wire = self.fill.laid[one.wire]
        tag = self.tags.get(wire)
        base, tracer = (tag.base, tag.tracer) if tag else (GREY, "")
        x, y, r = self.x + one.x * self.px, self.y + one.y * self.px, one.radius * self.px
        at = f'cx="{x:.2f}" cy="{y:.2f}"'
        shown = f'<circle class="wd-wi" {at} r="{r:.2f}" style="fill:{base}" data-wire="{escape(wire)}"/>'
        if tracer:
            reach = r * sin(pi / 6)
            high = r * (1 - (1 - sin(pi / 6) ** 2) ** 0.5)
            top = y - r + high
            shown += (
                f'<path style="fill:{tracer}" d="M{x:.2f} {y:.2f}L{x - reach:.2f} {top:.2f}'
                f'A{r:.2f} {r:.2f} 0 0 1 {x + reach:.2f} {top:.2f}Z"/>'
            )
        return shown + f'<circle class="wd-wc" {at} r="{r * _CORE:.2f}"/>'

    def _number(self, room: Rect, wire: str) -> str:
        x, y = room.x + room.width / 2, room.y + room.height / 2 + 4
        return (
            f'<text class="wd-nr" x="{number(x)}" y="{number(y)}" text-anchor="middle">{escape(wire)}</text> '
        )
