"""The structure of drawings as text, to be kept and compared: what stands where, and what is joined.

``python tests/drawings/structure.py`` writes the kept files anew; look at each drawing before keeping them.
"""

from __future__ import annotations

import sys
from functools import cache
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path[:0] = [str(ROOT), str(Path(__file__).parent)]

from svg_reading import NAME, Part, copper, parsed, read_strip  # noqa: E402

from builder.buildfile.resolving import read_build  # noqa: E402
from builder.drawings.box_face import box_face  # noqa: E402
from builder.drawings.circuit_drawing import CircuitDrawing, Drawings, circuit_drawings  # noqa: E402
from builder.drawings.plug_face import plug_face  # noqa: E402
from builder.drawings.scaled_face import WIDE, scaled_face  # noqa: E402
from builder.drawings.sheet import WIDTH  # noqa: E402
from builder.electrics.computing import compute  # noqa: E402
from builder.pages.drawing_words import drawing_words  # noqa: E402
from builder.trailer.model import Trailer  # noqa: E402

KEPT = Path(__file__).parent / "goldens"
EXAMPLE, SMALLEST = "trailer.yaml", "smallest/trailer.yaml"
WANTED = (
    (EXAMPLE, "step lights"), (EXAMPLE, "floor lights"), (EXAMPLE, "cabin light"), (EXAMPLE, "awning lights"),
    (EXAMPLE, "water pump"), (EXAMPLE, "hatch light"), (EXAMPLE, "charge line"),
    (EXAMPLE, "road lamps, tail, marker, plate"), (EXAMPLE, "battery line"), (SMALLEST, "*"),
)  # fmt: skip
"""Ten drawings, each of another form; ``*`` is the overview of the whole system."""


@cache
def _drawn(build: str) -> tuple[Trailer, Drawings]:
    trailer = read_build((ROOT / "example_build" / build).read_bytes()).trailer
    if trailer is None:
        raise ValueError(build)
    numbers = [c.number for c in trailer.circuits]
    return trailer, circuit_drawings(trailer, compute(trailer), numbers, lambda *_: "", drawing_words("en"))


@cache
def structures() -> dict[str, str]:
    """Return the structure of each drawing that is kept, by the name of its file."""
    found = {}
    for build, name in WANTED:
        trailer, made = _drawn(build)
        if name == "*":
            drawing = made.overview
        else:
            drawing = made.circuits[next(c.number for c in trailer.circuits if c.name == name)]
        if drawing is None:
            raise ValueError(name)
        file = "the whole smallest build" if name == "*" else name
        found[file.replace(",", "").replace(" ", "_") + ".txt"] = structure(drawing)
    return found | faces()


def faces() -> dict[str, str]:
    """Return the structure of the faces of the example: the box to scale, its landings, both kinds of plug."""
    words = drawing_words("en")
    box, small = (_drawn(build)[0] for build in (EXAMPLE, SMALLEST))
    figures = compute(box)
    scaled = [scaled_face(box, figures, words, width) for width in (WIDTH, WIDE)]
    return {
        "front_box_to_scale.txt": "".join(face_structure(face.svg) for face in scaled if face is not None),
        "front_box_landings.txt": "".join(map(face_structure, box_face(box, figures, lambda _: "", words))),
        "plug_7-way_blade.txt": face_structure(plug_face(box, figures, words)),
        "plug_4-way_flat.txt": face_structure(plug_face(small, compute(small), words)),
    }


def face_structure(svg: str) -> str:
    """Return the title and size of a face, its large shapes, and its texts line by line from above."""
    root = parsed(svg)
    lines = [root[0].text or "", "size " + root.attrib["viewBox"]]
    for shape in root:
        if shape.tag == f"{NAME}rect" and shape.get("height") != "20":
            lines.append("rect " + " ".join(shape.attrib[key] for key in ("x", "y", "width", "height")))
        if shape.tag == f"{NAME}circle":
            lines.append("circle " + " ".join(shape.attrib[key] for key in ("class", "cx", "cy", "r")))
    rows: dict[int, list[tuple[float, str]]] = {}
    for text in root.iter(f"{NAME}text"):
        rows.setdefault(round(float(text.attrib["y"])), []).append((float(text.attrib["x"]), text.text or ""))
    lines += ["text " + " | ".join(said for _, said in sorted(rows[y])) for y in sorted(rows)]
    return "\n".join(lines) + "\n"


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
