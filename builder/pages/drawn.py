"""The circuit drawings as the pages take them: one file a strip to be put into a page, one file a drawing to keep."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from builder.drawings.circuit_drawing import CircuitDrawing, circuit_drawings, stand_alone
from builder.drawings.circuit_wires import drawn_colors, wires_shown
from builder.drawings.legend import wire_picture
from builder.drawings.overview_graph import circuit_of_box
from builder.pages.drawing_words import drawing_words
from builder.pages.escaping import slug
from builder.pages.page_find import places_of
from builder.pages.view import View, color_code


@dataclass(frozen=True, slots=True)
class Drawn:
    """Every file of the circuit drawings by path, and what pages are told of them.

    ``circuits`` fills the drawing of each circuit's page, by number; ``overview`` the page of the whole system and
    ``legend`` the page of signs, both empty where nothing was drawn.
    """

    files: Mapping[str, str]
    circuits: Mapping[int, Mapping[str, Any]]
    overview: Mapping[str, Any]
    legend: Mapping[str, Any]


def drawn(view: View, language: str) -> Drawn:
    """Return the circuit drawings of a build: one call of the layout engine for all of them.

    Where the engine gives nothing, the pages are told why.
    """
    trailer = view.trailer
    places = places_of(trailer)
    rows = {c.number: {stop.part for stop in c.stops if stop.part in trailer.parts} for c in trailer.circuits}

    def link(circuit: int, part: str) -> str:
        boxed = circuit_of_box(part)
        if boxed is not None:
            return f"{view.pages_of[boxed]}.html"
        if part in rows.get(circuit, ()):
            return f"#{view.part_ids[part]}"
        anchor = view.part_ids.get(part) or (f"place-{slug(part)}" if part in places else "")
        return f"find.html#{anchor}" if anchor else ""

    made = circuit_drawings(trailer, view.figures, rows, link, drawing_words(language))
    if made.problem:
        return Drawn({}, {number: {"problem": made.problem} for number in rows}, {}, {})
    files: dict[str, str] = {}
    told: dict[int, Mapping[str, Any]] = {}
    for number, drawing in made.circuits.items():
        told[number] = _told(files, view.pages_of[number], drawing)
    overview = _told(files, "system", made.overview) if made.overview and made.overview.parts else {}
    signs = {f"pictures/sign-{slug(kind)}.svg": picture for kind, picture in made.signs.items()}
    files |= signs
    colours = []
    tags = wires_shown(trailer, view.figures)
    codes = {tags[wire.number].words: color_code(wire.color) for wire in trailer.wires}
    for shown in drawn_colors(trailer, view.figures):
        picture = f"pictures/drawn-{slug(shown.words)}.svg"
        files[picture] = wire_picture(shown.base, shown.tracer)
        colours.append({"picture": picture, "words": shown.words, "code": codes[shown.words]})
    legend = {"signs": list(zip(made.signs, signs, strict=True)), "colours": colours}
    return Drawn(files, told, overview, legend if made.signs else {})


def _told(files: dict[str, str], page: str, drawing: CircuitDrawing) -> dict[str, Any]:
    """Keep the files of a drawing, and return what its page is told of it."""
    strips = {form: _strips(page, form, drawing) for form in ("narrow", "wide")}
    kept = f"drawings/{page}.svg"
    files |= strips["narrow"] | strips["wide"] | {kept: _kept(page, stand_alone(drawing))}
    return {
        "problem": "",
        "narrow": list(strips["narrow"]),
        "wide": list(strips["wide"]),
        "notes": drawing.notes,
        "file": kept,
    }


def _strips(page: str, form: str, drawing: CircuitDrawing) -> dict[str, str]:
    pieces = drawing.narrow if form == "narrow" else drawing.wide
    return {f"pictures/{page}-{form}-{place}.svg": svg for place, svg in enumerate(pieces, start=1)}


def _kept(page: str, svg: str) -> str:
    """Return a drawing of its own with the links to its parts' rows leading back into the manual."""
    return re.sub(
        r'href="(#part-|[^"#]+\.html)',
        lambda m: f'href="../{page}.html{m[1]}' if m[1][0] == "#" else f'href="../{m[1]}',
        svg,
    )
