"""The faces of the front box and of the tow plug, as pictures that pages name."""

from __future__ import annotations

from builder.drawings.box_face import box_face
from builder.drawings.lamp_views import rear_view, side_view
from builder.drawings.plug_face import plug_face
from builder.pages.catalogue import LANGUAGE
from builder.pages.drawing_words import drawing_words
from builder.pages.view import View

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
        drawing_words(LANGUAGE),
    )
    return {f"pictures/front-box-{place}.svg": svg for place, svg in enumerate(face, start=1)}


def lamp_views(view: View) -> dict[str, str]:
    """Return the trailer from behind and from the side by path; only what the file gives the measures for."""
    words = drawing_words(LANGUAGE)
    views = {
        "pictures/lamps-from-behind.svg": rear_view(view.trailer, words),
        "pictures/lamps-from-the-side.svg": side_view(view.trailer, words),
    }
    return {file: svg for file, svg in views.items() if svg}


def face_files(view: View) -> dict[str, str]:
    """Return every picture of a face by its path."""
    plug = plug_face(view.trailer, view.figures, drawing_words(LANGUAGE))
    return box_faces(view) | ({PLUG_FACE: plug} if plug else {}) | lamp_views(view)
