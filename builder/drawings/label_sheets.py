"""Sheets of labels in millimetres, to be printed at their true size and cut: to wrap round wires, and for a pen."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html import escape

from builder.drawings.text_width import text_width, visible, wrapped

EDGE_MM = 1.5
"""What is left free at both ends of a label's text."""
LINE_LETTERS = 0.875
"""How high letters are set, as a share of the line: 3.5 mm type (2.5 mm capitals) on lines of 4 mm."""
LEAST_LETTERS_MM = 2.8
"""Smaller type is not read on a wire: 2 mm capitals; the least of ISO 3098 is 1.8 mm (from memory)."""
PEN_LETTERS_MM, MOST_LINES = 3.2, 5
MARK_MM = 50.0
"""The length of the line that tells whether the sheet came out at its true size."""
_HEAD_MM, _BAND_MM, _GAP_MM = 9.0, 6.0, 3.0


@dataclass(frozen=True, slots=True)
class SheetSize:
    """How large a sheet is within the margins of a paper, in mm, and how many labels and squares a row has."""

    width: float
    height: float
    columns: int
    squares: int


SHEETS = {
    "A4": SheetSize(177.0, 232.0, 3, 6),
    "letter": SheetSize(177.0, 232.0, 3, 6),
    "A5": SheetSize(118.0, 158.0, 2, 4),
}


@dataclass(frozen=True, slots=True)
class Wrapped:
    """One label to wrap: the texts that it may have, longest first, each as its number and the rest."""

    texts: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Band:
    """Labels of one size, under a line that says what they are for; measures in mm."""

    title: str
    printed: float
    tail: float
    lines: int
    labels: tuple[Wrapped, ...]


@dataclass(frozen=True, slots=True)
class SheetWords:
    """What a sheet says beside its labels: its title for who listens, and what the line to measure is."""

    title: str
    mark: str


def wrap_sheets(bands: Sequence[Band], paper: str, width: float | None, words: SheetWords) -> tuple[str, ...]:
    """Return the sheets of labels to wrap, each an SVG; ``width`` is a label's length in mm, None for three a row."""
    sheet = SHEETS[paper]
    wide = min(width or sheet.width / sheet.columns, sheet.width)
    columns = int(sheet.width / wide + 1e-9)
    pages: list[list[str]] = []
    y = sheet.height
    for band in bands:
        high = band.printed + band.tail
        for start in range(0, len(band.labels), columns):
            head = _BAND_MM if start == 0 or y + high > sheet.height else 0.0
            if y + head + high > sheet.height:
                pages.append([])
                y, head = _HEAD_MM, _BAND_MM
            if head:
                pages[-1].append(_said(0.0, y + 4.2, band.title, 3.2))
                y += head
            for place, label in enumerate(band.labels[start : start + columns]):
                pages[-1] += _wrapped(label, band, (place * wide, y), wide)
            y += high
        y += _GAP_MM
    return tuple(_framed(shapes, sheet, n, words) for n, shapes in enumerate(pages, start=1))


def _wrapped(label: Wrapped, band: Band, at: tuple[float, float], wide: float) -> Iterator[str]:
    """Yield a label: its edge, the end of the printed zone, and its text in each line."""
    x, y = at
    high, line = band.printed + band.tail, band.printed / band.lines
    letters = line * LINE_LETTERS
    yield f'<rect class="wl-cut" x="{_mm(x)}" y="{_mm(y)}" width="{_mm(wide)}" height="{_mm(high)}"/>'
    yield f'<path class="wl-fold" d="M{_mm(x)} {_mm(y + band.printed)}h{_mm(wide)}"/>'
    (number, rest), size = fitting_text(label, wide - 2 * EDGE_MM, letters)
    for place in range(band.lines):
        base = y + place * line + line * 0.76
        yield (
            f'<text x="{_mm(x + EDGE_MM)}" y="{_mm(base)}" font-size="{_mm(size)}">'
            f'<tspan font-weight="700">{escape(number)}</tspan>{escape(" " + rest if rest else "")}</text> '
        )


def fitting_text(label: Wrapped, room: float, letters: float) -> tuple[tuple[str, str], float]:
    """Return the longest text of a label that goes into a room, and how high its letters are; all in mm.

    Letters may be smaller for the whole text, down to `LEAST_LETTERS_MM`. The number alone is made to fit.
    """
    for text in label.texts:
        size = min(letters, letters * room / _width(*text, letters))
        if size >= min(letters, LEAST_LETTERS_MM):
            return text, size
    return label.texts[-1], min(letters, letters * room / _width(*label.texts[-1], letters))


def _width(number: str, rest: str, letters: float) -> float:
    return text_width(number, letters, bold=True) + (text_width(f" {rest}", letters) if rest else 0.0)


def pen_sheets(texts: Sequence[str], paper: str, words: SheetWords) -> tuple[str, ...]:
    """Return sheets of squares to write in with a pen; what to write stands small at the foot of each."""
    sheet = SHEETS[paper]
    side = sheet.width / sheet.squares
    rows = int((sheet.height - _HEAD_MM) / side)
    each = rows * sheet.squares
    pages = []
    for start in range(0, len(texts), each):
        shapes: list[str] = []
        for place, text in enumerate(texts[start : start + each]):
            row, column = divmod(place, sheet.squares)
            shapes += _square(text, column * side, _HEAD_MM + row * side, side)
        pages.append(shapes)
    return tuple(_framed(shapes, sheet, n, words) for n, shapes in enumerate(pages, start=1))


def _square(text: str, x: float, y: float, side: float) -> Iterator[str]:
    yield f'<rect class="wl-cut" x="{_mm(x)}" y="{_mm(y)}" width="{_mm(side)}" height="{_mm(side)}"/>'
    said = wrapped(text, side - 2 * EDGE_MM, PEN_LETTERS_MM, most=MOST_LINES)
    lines = [""] * (MOST_LINES - len(said)) + list(said)  # of one form, whatever is written on it
    foot = y + side - EDGE_MM - (MOST_LINES - 1) * PEN_LETTERS_MM * 1.2
    for place, line in enumerate(lines):
        yield _said(x + EDGE_MM, foot + place * PEN_LETTERS_MM * 1.2, line, PEN_LETTERS_MM)


def _said(x: float, y: float, text: str, size: float) -> str:
    return f'<text x="{_mm(x)}" y="{_mm(y)}" font-size="{_mm(size)}">{escape(visible(text))}</text> '


def _framed(shapes: Sequence[str], sheet: SheetSize, number: int, words: SheetWords) -> str:
    """Return a sheet with a line to measure by at its head, as one line of SVG in millimetres."""
    mark = (
        f'<path class="wl-mark" d="M0.3 1v4M0.3 3h{_mm(MARK_MM)}M{_mm(MARK_MM + 0.3)} 1v4"/>'
        f"{_said(MARK_MM + 3, 4.2, words.mark, 3.2)}"
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="wl" role="img" width="{_mm(sheet.width)}mm"'
        f' height="{_mm(sheet.height)}mm" viewBox="0 0 {_mm(sheet.width)} {_mm(sheet.height)}">'
        f"<title>{escape(words.title % {'n': number})}</title>{mark}{''.join(shapes)}</svg>\n"
    )


def _mm(value: float) -> str:
    """Return millimetres to a hundredth, without zeros at the end."""
    return f"{value:.2f}".rstrip("0").rstrip(".")
