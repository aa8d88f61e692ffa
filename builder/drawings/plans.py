"""The trailer drawn to scale by what a tape measure says: from above, from both sides, from behind and from ahead.

Nothing is guessed: without an outline of the body there are only the places, the ways between them, and the width
that the trailer has over everything.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from html import escape
from math import ceil

from builder.drawings.plan_key import EDGE, LINE, Row, listed_rows, rows_of, scale_bar, sentence, signs_shown
from builder.drawings.plan_seen import END_M, Bundle, Seen, bundles_of, seen_in
from builder.drawings.plan_view import ABOVE, SIDE, Frame, draw_view
from builder.drawings.rect import Rect
from builder.drawings.shapes import number
from builder.drawings.text_width import wrapped
from builder.drawings.wording import Words
from builder.electrics.figures import Figures
from builder.quantities.showing import System, show_length
from builder.routes.panels import PanelView
from builder.trailer.model import Trailer
from builder.trailer.views import View

NARROW, WIDE = 340.0, 640.0
_TALLEST = {NARROW: 640.0, WIDE: 430.0}
"""How high the trailer may be drawn, in CSS pixels: with its list it must fit a sheet."""
_SHEET = {NARROW: 600.0, WIDE: 880.0}
"""How high a drawing with its list may be before the list stands by itself: a narrow one fits A5."""
_LEAST_PX = 130.0
"""CSS pixels a metre under which a side is drawn in parts on a narrow sheet."""
_LEAST_REACH_M = 0.5
"""What is shorter is drawn as if it were so long: a lone place has no size to scale by."""
_GROWS = 1.6
"""How far a wide drawing grows with its sheet: from A4 to A3."""


@dataclass(frozen=True, slots=True)
class Plan:
    """One view: its name for files and ids, and its sheets in the narrow and in the wide form, each one line of SVG."""

    name: str
    title: str
    narrow: tuple[str, ...]
    wide: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Plans:
    """All drawings to scale, from above first, what their lines and marks mean, and the bundles by their letters."""

    views: tuple[Plan, ...]
    signs: Plan
    bundles: tuple[Bundle, ...]


def plans(trailer: Trailer, figures: Figures, words: Words) -> Plans | None:
    """Return the drawings to scale; None where the file has no places.

    The views from the ends are there where something stands within two feet of that end.
    """
    if not trailer.geometry:
        return None
    bundles = bundles_of(trailer, figures)
    held = bundles, figures.panels
    kinds: dict[str, None] = {}
    found = []
    for name, title, narrow, wide in (
        ("above", words.plan_above, View.ABOVE, View.ALONG),
        ("left", words.plan_left, View.LEFT, View.LEFT),
        ("right", words.plan_right, View.RIGHT, View.RIGHT),
        ("rear", words.plan_rear, View.REAR, View.REAR),
        ("front", words.plan_front, View.FRONT, View.FRONT),
    ):
        small = _sheets(trailer, held, (name, title, narrow), (words, NARROW, kinds))
        if small:
            large = _sheets(trailer, held, (name, title, wide), (words, WIDE, kinds))
            found.append(Plan(name, title, small, large))
    return Plans(tuple(found), _signs(kinds, words), bundles)


def _signs(kinds: Collection[str], words: Words) -> Plan:
    made = []
    for width, form in ((NARROW, "narrow"), (WIDE, "wide")):
        shapes, y = signs_shown(kinds, width, words)
        made.append(_svg(shapes, (width, y), f"plan-signs-{form}", words.plan_signs, ""))
    return Plan("signs", words.plan_signs, (made[0],), (made[1],))


def _sheets(
    trailer: Trailer,
    held: tuple[Sequence[Bundle], Sequence[PanelView]],
    asked: tuple[str, str, View],
    form: tuple[Words, float, dict[str, None]],
) -> tuple[str, ...]:
    """Return the sheets of one view, and note what kinds of lines and marks are on them."""
    name, title, view = asked
    seen = seen_in(trailer, held[0], view, held[1])
    if seen is None:
        return ()
    words, width, kinds = form
    units: System = "metric" if trailer.identity.units == "metric" else "feet"
    sheet = _Sheet(seen, words, width, units, trailer.geometry.body is not None)
    frames = _frames(seen, width)
    found: list[str] = []
    for part, frame in enumerate(frames, start=1):
        which = words.strip.format(part, len(frames)) if len(frames) > 1 else ""
        prefix = f"plan-{name}-{'wide' if width == WIDE else 'narrow'}-{part}"
        found += sheet.drawn(frame, (title, which, prefix), kinds)
    return tuple(found)


def _frames(seen: Seen, width: float) -> list[tuple[float, float, float]]:
    """Return what each part of a view shows: pixels a metre, and from where to where it reaches to the right."""
    left, right, top, bottom = seen.reach
    room = width - 2 * SIDE
    long, high = max(right - left, _LEAST_REACH_M), max(bottom - top, _LEAST_REACH_M)
    parts = 1
    if width == NARROW and seen.view in (View.LEFT, View.RIGHT):
        parts = max(ceil(long * _LEAST_PX / room - 0.05), 1)
    px = min(room * parts / long, _TALLEST[width] / high)
    middle = (left + right) / 2
    step = long / parts
    return [(px, middle - long / 2 + n * step, middle - long / 2 + (n + 1) * step) for n in range(parts)]


@dataclass(frozen=True, slots=True)
class _Sheet:
    """What the sheets of one view have in common."""

    seen: Seen
    words: Words
    width: float
    units: System
    body: bool

    def drawn(
        self, part: tuple[float, float, float], said: tuple[str, str, str], kinds: dict[str, None]
    ) -> Iterator[str]:
        """Yield the sheet of a part with its list, which goes on by itself where it is long.

        ``said`` is the title of the view, which stands above the drawings, which part it is, and how its ids begin.
        """
        title, which, prefix = said
        how = self._how()
        shapes, y = [], EDGE
        if which:
            y += LINE
            shapes.append(_line(EDGE, y, which, "n"))
            title = f"{title}, {which}"
        for told in wrapped(how, self.width - 2 * EDGE, 11, most=5):
            y += LINE
            shapes.append(_line(EDGE, y, told, "m"))
        frame = self._frame(part, y + 4 + ABOVE)
        drawn = draw_view(self.seen, frame, self.words, self.width)
        shapes += [*_within(frame, self.seen.view, [*drawn.shapes, *drawn.texts])]
        kinds |= drawn.kinds
        bar, y = scale_bar(drawn.bottom + 6, frame.px, self.units, self.words)
        rows = rows_of(drawn.numbered, drawn.unnamed, self.words, drawn.unnamed_blocks)
        about = sentence(rows, drawn.lettered, how, self.words)
        yield from self._with_list([*shapes, *bar], y + 4, rows, (prefix, title, about))

    def _with_list(
        self, shapes: list[str], y: float, rows: Sequence[Row], said: tuple[str, str, str]
    ) -> Iterator[str]:
        prefix, title, told = said
        columns = 3 if self.width == WIDE else 2
        whole = list(listed_rows(rows, self.width, columns, _SHEET[self.width]))
        if len(whole) <= 1 and y + sum(high for _, high in whole) <= _SHEET[self.width]:
            for made, high in whole:
                shapes.append(_moved(made, y))
                y += high
            yield _svg(shapes, (self.width, y + 4), prefix, title, told)
            return
        yield _svg(shapes, (self.width, y), prefix, title, told)
        for place, (made, high) in enumerate(whole, start=1):
            named = self.words.plan_list.format(title)
            yield _svg([_moved(made, 4)], (self.width, high + 8), f"{prefix}-list-{place}", named, "")

    def _frame(self, part: tuple[float, float, float], y: float) -> Frame:
        px, start, end = part
        left = self.width / 2 - (end - start) * px / 2
        _, _, top, bottom = self.seen.reach
        room = Rect(left, y, (end - start) * px, (bottom - top) * px)
        return Frame(px, (left - start * px, y - top * px), room)

    def _how(self) -> str:
        """Return how one looks at it, what of it is shown, and what nobody wrote down."""
        words = self.words
        how = {
            View.ABOVE: words.plan_above_how,
            View.ALONG: words.plan_along_how,
            View.LEFT: words.plan_left_how,
            View.RIGHT: words.plan_right_how,
            View.REAR: words.plan_rear_how,
            View.FRONT: words.plan_front_how,
        }[self.seen.view].format(show_length(END_M[self.units], self.units))
        return how if self.body else f"{how} {words.plan_no_body}"


def _within(frame: Frame, view: View, shapes: Sequence[str]) -> Iterator[str]:
    """Yield shapes in a group that tells how their coordinates become metres."""
    x, y = frame.zero
    yield f'<g data-view="{view.value}" data-px="{frame.px:.6f}" data-x="{x:.6f}" data-y="{y:.6f}">'
    yield from shapes
    yield "</g>"


def _moved(shapes: Sequence[str], y: float) -> str:
    return f'<g transform="translate(0 {number(y)})">{"".join(shapes)}</g>'


def _line(x: float, y: float, said: str, name: str) -> str:
    return f'<text class="wd-{name}" x="{number(x)}" y="{number(y)}">{escape(said)}</text> '


def _svg(shapes: Sequence[str], size: tuple[float, float], prefix: str, title: str, told: str) -> str:
    """Return a sheet as one line of SVG; ``title`` is read aloud, ``told`` where one asks for more."""
    width, height = size
    most = width * (_GROWS if width == WIDE else 1.25)
    about = f'<desc id="{prefix}-desc">{escape(told)}</desc>' if told else ""
    described = f' aria-describedby="{prefix}-desc"' if told else ""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="wd" role="group"'
        f' viewBox="0 0 {number(width)} {number(height)}" aria-labelledby="{prefix}-title"{described}'
        f' style="width:100%;max-width:{number(most)}px;height:auto">'
        f'<title id="{prefix}-title">{escape(title)}</title>{about}{"".join(shapes)}</svg>'
    )
