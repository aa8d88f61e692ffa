"""The structure of drawings as text, to be kept and compared: what stands where, and what is joined.

``python tests/drawings/structure.py`` writes the kept files anew; look at each drawing before keeping them.
"""

from __future__ import annotations

import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path[:0] = [str(ROOT), str(Path(__file__).parent)]

from svg_reading import Part, copper, read_strip  # noqa: E402

from builder.buildfile.resolving import read_build  # noqa: E402
from builder.drawings.circuit_drawing import CircuitDrawing, circuit_drawings  # noqa: E402
from builder.electrics.computing import compute  # noqa: E402
from builder.pages.drawing_words import drawing_words  # noqa: E402

KEPT = Path(__file__).parent / "goldens"
EXAMPLE, SMALLEST = "trailer.yaml", "smallest/trailer.yaml"
WANTED = (
    (EXAMPLE, "step lights"), (EXAMPLE, "floor lights"), (EXAMPLE, "cabin light"), (EXAMPLE, "awning lights"),
    (EXAMPLE, "water pump"), (EXAMPLE, "hatch light"), (EXAMPLE, "charge line"),
    (EXAMPLE, "road lamps, tail, marker, plate"), (EXAMPLE, "battery line"), (SMALLEST, "*"),
)  # fmt: skip
"""Ten drawings, each of another form; ``*`` is the overview of the whole system."""


def structures() -> dict[str, str]:
    """Return the structure of each drawing that is kept, by the name of its file."""
    found = {}
    for build, name in WANTED:
        trailer = read_build((ROOT / "example_build" / build).read_bytes()).trailer
        if trailer is None:
            raise ValueError(build)
        numbers = [c.number for c in trailer.circuits]
        words = drawing_words("en")
        made = circuit_drawings(trailer, compute(trailer), numbers, lambda *_: "", words)
        if name == "*":
            drawing = made.overview
        else:
            drawing = made.circuits[next(c.number for c in trailer.circuits if c.name == name)]
        if drawing is None:
            raise ValueError(name)
        file = "the whole smallest build" if name == "*" else name
        found[file.replace(",", "").replace(" ", "_") + ".txt"] = structure(drawing)
    return found


def structure(drawing: CircuitDrawing) -> str:
    """Return each strip of both forms: its parts by level from above, and the groups of wires that are joined."""
    lines = [drawing.title]
    for form, svgs in (("narrow", drawing.narrow), ("wide", drawing.wide)):
        for place, svg in enumerate(svgs, start=1):
            strip = read_strip(svg)
            lines.append(f"{form} {place} of {len(svgs)}")
            parts = sorted(strip.parts, key=_place)
            lines += ["  " + " | ".join(said for said, _ in part.texts) for part in parts]
            lines += sorted("  joined " + " ".join(sorted(names)) for names in copper(strip))
    return "\n".join(lines) + "\n"


def _place(part: Part) -> tuple[float, float]:
    return (part.target[1], part.target[0])


if __name__ == "__main__":
    for file, text in structures().items():
        (KEPT / file).write_text(text, encoding="utf-8")
