"""What belongs to drawings to scale: a length to measure by, what their lines mean, and what the numbers stand for."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import dataclass
from html import escape
from itertools import count

from builder.drawings.plan_lines import KINDS, mark_of
from builder.drawings.plan_seen import Bundle, Spot
from builder.drawings.shapes import box, circle, line, number
from builder.drawings.text_width import text_width, wrapped
from builder.drawings.wording import Words
from builder.quantities.showing import System, show_length
from builder.trailer.model import BATTERY, FRONT_BOX, TOW_PLUG
from builder.trailer.places import ChaseKind

EDGE, LINE = 12.0, 15.0
_MARKS = {"feet": tuple(feet * 0.3048 for feet in (4, 2, 1, 0.5, 0.25)), "metric": (2.0, 1.0, 0.5, 0.2, 0.1)}
"""Round lengths that a drawing is measured by, in metres."""
_LONGEST_MARK = 130.0
_SIGN = 34.0
"""How wide a sign is in the row that tells what lines mean."""
_MOST_LINES = 60
_GAP = 16.0


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the list: what it stands for on the drawing, and what it says."""

    mark: str
    text: str


def scale_bar(y: float, px: float, units: System, words: Words) -> tuple[list[str], float]:
    """Return a length to measure by, and where it ends."""
    mark = next((m for m in _MARKS[units] if m * px <= _LONGEST_MARK), _MARKS[units][-1])
    x, end, at = EDGE, EDGE + mark * px, y + 8
    shapes = [line(x, at, end, at), line(x, at - 5, x, at + 5), line(end, at - 5, end, at + 5)]
    shapes[0] = shapes[0].removesuffix("/>") + f' data-metres="{mark:.4f}"/>'
    said = words.plan_scale.format(show_length(mark, units))
    shapes.append(_text(end + 10, at + 4, said, "m"))
    return shapes, at + 14


def signs_shown(kinds: Collection[str], width: float, words: Words) -> tuple[list[str], float]:
    """Return what lines and marks mean, those of ``kinds`` only, and where that ends.

    ``kinds`` holds kinds of chases and of traces, and the names of what has a mark of its own.
    """
    shapes: list[str] = []
    x, y = EDGE, EDGE
    for kind, sign, said in _signs(words):
        if kind not in kinds:
            continue
        wide = _SIGN + 6 + text_width(said, 11) + _GAP
        if x > EDGE and x + wide - _GAP > width - EDGE:
            x, y = EDGE, y + 20
        shapes += [sign(x, y + 9), _text(x + _SIGN + 6, y + 13, said, "m")]
        x += wide
    return shapes, y + 22


_Sign = Callable[[float, float], str]


def _signs(words: Words) -> Iterator[tuple[str, _Sign, str]]:
    for kind in ChaseKind:
        yield kind.value, _line_sign(kind), chase_words(kind, words)
    yield "empty", _plain("v2 wd-em"), words.plan_empty
    yield FRONT_BOX, _dot_sign((FRONT_BOX,)), words.box
    yield BATTERY, _dot_sign((BATTERY,)), words.battery
    yield TOW_PLUG, _dot_sign((TOW_PLUG,)), words.plan_plug
    yield "part", _dot_sign(("",)), words.plan_part
    yield "place", _dot_sign(()), words.plan_place
    yield "towards", lambda x, y: circle(x + _SIGN / 2, y, 8.5, "ri"), words.plan_towards
    yield "opening", lambda x, y: box(x, y - 6, _SIGN, 12, "op", 0), words.plan_opening
    yield "edge", _plain("eg"), words.plan_edge
    yield "panel", lambda x, y: box(x, y - 6, _SIGN, 12, "pn", 0), words.plan_panel
    yield "frame", _plain("fr"), words.plan_frame
    yield "block", _block_sign, words.plan_block
    yield "side", _plain("d"), words.plan_side


def _block_sign(x: float, y: float) -> str:
    left, right, top, low = (number(value) for value in (x, x + _SIGN, y - 6, y + 6))
    d = f"M{left} {top}H{right}V{low}H{left}ZM{left} {top}L{right} {low}M{right} {top}L{left} {low}"
    return f'<path class="wd-bk" d="{d}"/>'


def chase_words(kind: ChaseKind, words: Words) -> str:
    """Return what a kind of chase is called on the page."""
    return {
        ChaseKind.GROOVE: words.plan_groove,
        ChaseKind.CHANNEL: words.plan_channel,
        ChaseKind.CONDUIT: words.plan_conduit,
        ChaseKind.BAY: words.plan_bay,
        ChaseKind.HINGE: words.plan_hinge,
    }[kind]


def _plain(name: str) -> _Sign:
    return lambda x, y: line(x + 3, y, x + _SIGN - 3, y, name)


def _line_sign(kind: ChaseKind) -> _Sign:
    def sign(x: float, y: float) -> str:
        inner = line(x, y, x + _SIGN, y, "vi") if kind is ChaseKind.CONDUIT else ""
        return line(x, y, x + _SIGN, y, KINDS[kind]) + inner

    return sign


def _dot_sign(parts: tuple[str, ...]) -> _Sign:
    return lambda x, y: mark_of(parts, (x + _SIGN / 2, y))


def rows_of(
    numbered: Sequence[Spot], unnamed: Sequence[str], words: Words, blocks: Sequence[str] = ()
) -> list[Row]:
    """Return what the numbers of a drawing stand for, and which openings and backing blocks have no name on it."""
    order = sorted(dict.fromkeys(numbered), key=lambda spot: int(spot.mark))
    rows = [Row(spot.mark, spot.name + _standing(spot, words)) for spot in order]
    if unnamed:
        rows.append(Row("", words.plan_openings.format(", ".join(dict.fromkeys(unnamed)))))
    if blocks:
        rows.append(Row("", words.plan_blocks.format(", ".join(dict.fromkeys(blocks)))))
    return rows


def _standing(spot: Spot, words: Words) -> str:
    """Return what stands at a place under another name than its own, and what is still to come there."""
    others = [part for part in spot.parts if part != spot.name]
    own = f" ({words.waiting})" if spot.name in spot.waiting else ""
    others += [f"{part} ({words.waiting})" for part in spot.waiting if part != spot.name]
    return own + (f": {', '.join(others)}" if others else "")


def sentence(rows: Sequence[Row], bundles: Sequence[Bundle], how: str, words: Words) -> str:
    """Return what a drawing shows as a text that can be read aloud."""
    told = [f"{row.mark} {row.text}.".strip() for row in rows]
    for bundle in dict.fromkeys(bundles):
        way = words.plan_way.format(
            bundle.chase, chase_words(bundle.kind, words), bundle.places[0], bundle.places[-1]
        )
        held = (*bundle.wires, *beside(bundle, words))
        told.append(f"{bundle.mark} {way}: {', '.join(held) or words.plan_empty}.")
    return " ".join([how, *told])


def beside(bundle: Bundle, words: Words) -> list[str]:
    """Return what lies in a way besides its wires, in words: mains, and a string to pull a wire through."""
    told = ((bundle.mains, words.plan_mains), (bundle.string, words.plan_string))
    return [said for there, said in told if there]


def listed_rows(
    rows: Sequence[Row], width: float, columns: int, most: float
) -> Iterator[tuple[list[str], float]]:
    """Yield the list in pieces no higher than ``most`` CSS pixels, each with its height: its rows run down a column."""
    wide = (width - 2 * EDGE - (columns - 1) * _GAP) / columns
    blocks = [_block(row, wide) for row in rows]
    heights = [high for _, high in blocks]
    every = range(columns, columns * len(blocks) + 1, columns)
    goal = next((high for high in (_column_px(heights, n, most) for n in every) if high < most), most)
    shapes: list[str] = []
    column, y, deepest = 0, 0.0, 0.0
    for place in count():
        if place == len(blocks):
            break
        make, high = blocks[place]
        if y and y + high > goal:
            column, y = column + 1, 0.0
        if column == columns:
            yield shapes, deepest
            shapes, column, y, deepest = [], 0, 0.0, 0.0
        shapes += make(EDGE + column * (wide + _GAP), y)
        y += high
        deepest = max(deepest, y)
    if shapes:
        yield shapes, deepest


def _column_px(heights: Sequence[float], columns: int, most: float) -> float:
    """Return how high columns have to be for a list to fill no more than so many; ``most`` where that is not enough."""
    goal = sum(heights) / columns
    while goal < most:
        used, y = 1, 0.0
        for high in heights:
            used, y = (used + 1, high) if y and y + high > goal else (used, y + high)
        if used <= columns:
            return goal
        goal += 1.0
    return most


def _block(row: Row, wide: float) -> tuple[Callable[[float, float], list[str]], float]:
    mark = max(text_width(row.mark, 12, bold=True) + 8, 26.0) if row.mark else 0.0
    lines = wrapped(row.text, wide - mark, 11, most=_MOST_LINES)

    def made(x: float, y: float) -> list[str]:
        found = [_text(x, y + 12, row.mark, "n")] if row.mark else []
        return found + [_text(x + mark, y + 12 + n * LINE, said, "m") for n, said in enumerate(lines)]

    return made, max(len(lines), 1) * LINE + 4


def _text(x: float, y: float, said: str, name: str) -> str:
    return f'<text class="wd-{name}" x="{number(x)}" y="{number(y)}">{escape(said)}</text> '
