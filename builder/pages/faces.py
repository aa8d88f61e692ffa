"""The faces of the front box and of the tow plug, as pictures that pages name."""

from __future__ import annotations

from builder.drawings.box_face import box_face
from builder.drawings.lamp_views import front_view, rear_view, side_view
from builder.drawings.plug_face import plug_face
from builder.drawings.scaled_face import WIDE, ScaledFace, scaled_face
from builder.drawings.sheet import WIDTH
from builder.pages.drawing_words import drawing_words
from builder.pages.view import View

SCALED = {"narrow": "pictures/front-box-scaled.svg", "wide": "pictures/front-box-scaled-wide.svg"}
PLUG_FACE = "pictures/tow-plug.svg"


def box_faces(view: View) -> dict[str, str]:
    """Return the pictures of the front box's face by their paths; nothing where there is no box."""
    pages = {
        way.way: view.trailer.circuit(way.circuit) for way in view.figures.ways if way.circuit is not None
    }
    face = box_face(
        view.trailer,
        view.figures,
        lambda way: view.circuit_link(pages[way]) if way in pages else "",
        drawing_words(view.language),
    )
    return {f"pictures/front-box-{place}.svg": svg for place, svg in enumerate(face, start=1)}


def lamp_views(view: View) -> dict[str, str]:
    """Return the trailer from behind and from the side by path; only what the file gives the measures for."""
    words = drawing_words(view.language)
    views = {
        "pictures/lamps-from-behind.svg": rear_view(view.trailer, words),
        "pictures/lamps-from-ahead.svg": front_view(view.trailer, words),
        "pictures/lamps-from-the-side.svg": side_view(view.trailer, words),
    }
    return {file: svg for file, svg in views.items() if svg}


def scaled_faces(view: View) -> dict[str, ScaledFace]:
    """Return the front box to scale in the narrow and the wide form; nothing where nobody measured it."""
    words = drawing_words(view.language)
    made = {
        form: scaled_face(view.trailer, view.figures, words, width)
        for form, width in (("narrow", WIDTH), ("wide", WIDE))
    }
    return {form: face for form, face in made.items() if face is not None}


def face_files(view: View) -> dict[str, str]:
    """Return every picture of a face by its path."""
    plug = plug_face(view.trailer, view.figures, drawing_words(view.language))
    scaled = {SCALED[form]: face.svg for form, face in scaled_faces(view).items()}
    return box_faces(view) | scaled | ({PLUG_FACE: plug} if plug else {}) | lamp_views(view)
