"""Small signs that stand in a line of text: a blade fuse, the end of a wire, the alert triangle.

Each chip is drawn in true colours inside an edge that follows the page (class ``chip-edge``), because white,
yellow and clear vanish on a light page and black vanishes on a dark one. The fall-back attributes serve a
reader who opens the file by itself. A chip never carries meaning alone: the word or number stands beside it.
"""

from __future__ import annotations

import re

EDGE = "#343b45"
PAPER = "#ffffff"
COPPER = "#d08a52"
STEEL = "#b9c0c8"

_HEX = re.compile(r"#[0-9a-f]{6}")


def fuse_chip(colour_hex: str | None) -> str:
    """Draw a blade fuse, 20 by 20 CSS pixels: a body in `colour_hex` (``#rrggbb``) over two steel blades.

    ``None`` is a clear body: the page's own ground with two glints. Returns one line of SVG. Raises
    ValueError where the colour is not ``#rrggbb``. Source: our own drawing; common practice.
    """
    body = "M2 3.2 3.2 2h13.6L18 3.2v5h-1.6v3.6H3.6V8.2H2z"
    blades = _steel("M5 11.8h3.2v5.8l-.8 .8H5.8l-.8-.8zM11.8 11.8H15v5.8l-.8 .8h-1.6l-.8-.8z")
    if colour_hex is None:
        inside = _edge("M7.2 9.4 11 4.6M10.6 9.4l2-2.5", width=1)
        return _svg("chip fuse-chip", 20, 20, f"{blades}{_paper(body)}{inside}{_edge(body)}")
    return _svg("chip fuse-chip", 20, 20, f"{blades}{_fill(body, colour_hex)}{_edge(body)}")


def wire_chip(base_hex: str, tracer_hex: str | None = None, cable_hex: str | None = None) -> str:
    """Draw the end of an insulated wire, 36 by 14 CSS pixels: insulation, tracer, bare copper at the right.

    `base_hex` is the insulation, `tracer_hex` the slanting bands of a tracer, `cable_hex` a cable's outer
    sheath over the left end, all ``#rrggbb``. Returns one line of SVG. Raises ValueError where a colour is
    not ``#rrggbb``. Source: our own drawing; common practice.
    """
    insulation = "M3 2h24.5v10H3a1.5 1.5 0 0 1-1.5-1.5v-7A1.5 1.5 0 0 1 3 2z"
    copper = "M27.5 4.75h6a1 1 0 0 1 1 1v2.5a1 1 0 0 1-1 1h-6z"
    bands = _bands(13 if cable_hex else 4) if tracer_hex else ""
    layers = [
        f'<path d="{copper}" fill="{COPPER}"/>{_edge(copper, width=1)}',
        _fill(insulation, base_hex),
        f"{_fill(bands, tracer_hex)}{_edge(bands, width=0.5)}" if tracer_hex else "",
        _edge(insulation),
    ]
    if cable_hex:
        sheath = "M2.5 .75h8v12.5h-8a1.75 1.75 0 0 1-1.75-1.75v-9A1.75 1.75 0 0 1 2.5 .75z"
        layers.append(f"{_fill(sheath, cable_hex)}{_edge(sheath)}")
    return _svg("chip wire-chip", 36, 14, "".join(layers))


def warning_triangle() -> str:
    """Draw the alert triangle of a signal-word panel, 22 by 20 CSS pixels, as one line of SVG.

    The triangle takes the colour of the panel's lettering and the mark that of the panel (classes
    ``sign-body``, ``sign-mark``). Source: ANSI Z535.4-2007, 4.14, quoted: the triangle stands with DANGER,
    WARNING and CAUTION, never with NOTICE.
    """
    triangle = "M11 1.6 20.9 18.6H1.1z"
    mark = "M9.8 6.8h2.4l-.4 6.2h-1.6zM9.9 14.4h2.2v2.2H9.9z"
    inside = (
        f'<path class="sign-body" d="{triangle}" fill="#000000" stroke="#000000" stroke-width="1.4"'
        f' stroke-linejoin="round"/><path class="sign-mark" d="{mark}" fill="{PAPER}"/>'
    )
    return _svg("chip alert-triangle", 22, 20, inside)


def fuse_chip_file(colour: str) -> str:
    """Return the path of a fuse chip in the manual source, such as ``pictures/fuse-violet.svg``.

    `colour` is the English word of the fuse table; the macro ``fuse_chip`` writes the same path. Source:
    common practice.
    """
    return f"pictures/fuse-{_slug(colour)}.svg"


def wire_chip_file(base: str, tracer: str = "", cable: str = "") -> str:
    """Return the path of a wire chip in the manual source, such as ``pictures/wire-yellow-black.svg``.

    The arguments are English colour words of the insulation, the tracer and a cable's sheath; with a sheath
    the path ends in ``-in-grey.svg``. The macro ``wire_chip`` writes the same path. Source: common practice.
    """
    words = [base, *([tracer] if tracer else []), *(["in", cable] if cable else [])]
    return f"pictures/wire-{_slug(' '.join(words))}.svg"


def _svg(classes: str, width: int, height: int, inside: str) -> str:
    """Wrap shapes into a picture that screen readers pass over, since the words stand beside it."""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="{classes}" width="{width}" height="{height}"'
        f' viewBox="0 0 {width} {height}" aria-hidden="true" focusable="false">{inside}</svg>'
    )


def _fill(path: str, colour_hex: str) -> str:
    """Fill a shape with a colour that belongs to the thing and stays the same on every page."""
    if not _HEX.fullmatch(colour_hex.lower()):
        raise ValueError(f"a colour is written #rrggbb, not {colour_hex!r}")
    return f'<path d="{path}" fill="{colour_hex.lower()}"/>'


def _paper(path: str) -> str:
    """Fill a shape with the page's own ground."""
    return f'<path class="chip-page" d="{path}" fill="{PAPER}"/>'


def _steel(path: str) -> str:
    """Draw bare metal."""
    return f'<path d="{path}" fill="{STEEL}"/>{_edge(path, width=1)}'


def _edge(path: str, width: float = 1.5) -> str:
    """Draw the outline that keeps light colours visible on a light page and dark ones on a dark page."""
    return (
        f'<path class="chip-edge" d="{path}" fill="none" stroke="{EDGE}" stroke-width="{width:g}"'
        ' stroke-linejoin="round" stroke-linecap="round"/>'
    )


def _bands(first: int) -> str:
    """Give the slanting bands of a tracer, in the height of the insulation (2 to 12)."""
    return "".join(f"M{x} 12 {x + 4} 2h2.5L{x + 2.5:g} 12z" for x in range(first, 22, 7))


def _slug(words: str) -> str:
    """Turn colour words into a file name of small letters, digits and hyphens."""
    return "-".join(re.findall(r"[a-z0-9]+", words.lower()))
