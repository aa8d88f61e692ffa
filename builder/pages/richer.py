"""Which lines of the build file would bring more to a page: for the maker, at the foot of his own edition."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from builder.drawings.scaled_face import used_pieces
from builder.pages.view import View
from builder.pages.wiring import known_where
from builder.trailer.box_face import PieceName
from builder.trailer.circuits import Circuit
from builder.trailer.parts import Form
from builder.trailer.stock import Stock

_WHOLE = ("spares", "in stock", "places", "body", "openings", "terminal studs", "entry holes")
"""Headings that a build lacks as a whole: the line is all that stands under them."""
MOST = 3
"""More lines than that at once nobody writes."""
_INSIDE = ("width: 12 in, height: 14 in", "width: 300 mm, height: 350 mm")
_BOX_PLACE = ("back: 10 in, up: 2 ft", "back: 250 mm, up: 600 mm")
_OUTLINE = (
    "width: 5 ft, profile: [{back: 0 in, up: 0 in}, {back: 9 ft, up: 0 in}, {back: 9 ft, up: 4 ft}, "
    "{back: 0 in, up: 4 ft}]",
    "width: 1.5 m, profile: [{back: 0 mm, up: 0 mm}, {back: 2.8 m, up: 0 mm}, {back: 2.8 m, up: 1.2 m}, "
    "{back: 0 mm, up: 1.2 m}]",
)
_DOOR = (
    "{in: left wall, back: 3 ft, up: 6 in, width: 26 in, height: 36 in}",
    "{in: left wall, back: 900 mm, up: 150 mm, width: 660 mm, height: 900 mm}",
)
_MEASURED: Mapping[PieceName, tuple[tuple[str, str], tuple[str, str]]] = {
    "supply bar": (
        ("width: 4 in, height: 1/2 in", "from left: 1 in, from top: 1 in"),
        ("width: 100 mm, height: 12 mm", "from left: 25 mm, from top: 25 mm"),
    ),
    "fuse block": (
        ("width: 4 in, height: 6 in, rows: 2", "from left: 1 in, from top: 3 in"),
        ("width: 100 mm, height: 150 mm, rows: 2", "from left: 25 mm, from top: 75 mm"),
    ),
    "strip": (
        ("width: 1 in, height: 5 in", "from left: 8 in, from top: 3 in"),
        ("width: 25 mm, height: 125 mm", "from left: 200 mm, from top: 75 mm"),
    ),
    "ground bar": (
        ("width: 10 in, height: 1/2 in", "from left: 1 in, from top: 11 in"),
        ("width: 250 mm, height: 12 mm", "from left: 25 mm, from top: 280 mm"),
    ),
}
"""Measures to show how they are written, in feet and metric: size, then place."""


@dataclass(frozen=True, slots=True)
class More:
    """Words that the build file lacks: what they would bring (a key of the theme's texts) and where they go.

    They go into the ``entry`` of a ``heading``, or behind the heading itself where ``entry`` is empty.
    ``count`` tells how many entries lack the same.
    """

    brings: str
    heading: str
    entry: str
    words: str
    count: int = 1

    @property
    def line(self) -> str:
        """The line of the build file, what stands in it already shortened to ``…``."""
        gap = " " if self.words.endswith("}") else ""  # two closing braces read like a template's
        begun = "" if self.heading in _WHOLE or self.brings == "box to scale" else "…, "
        return f"{self.entry or self.heading}: {{{begun}{self.words}{gap}}}"


def more_lines(view: View, page: str) -> tuple[More, ...]:
    """Return what the build file could still say for a page, by the page's path; nothing where it says all."""
    numbers = {path: number for number, path in view.pages_of.items()}
    if page in numbers:
        return tuple(_for_circuit(view, view.trailer.circuit(numbers[page])))[:MOST]
    return tuple(_PAGES[page](view))[:MOST] if page in _PAGES else ()


def _for_circuit(view: View, circuit: Circuit) -> Iterator[More]:
    yield from _places(view, {stop.part for stop in circuit.stops})


def _places(view: View, names: set[str] | None = None) -> Iterator[More]:
    """Parts that stand nowhere; ``names`` limits them to a page's own.

    A road lamp's name tells its side, and the battery's line may be written short, without parts of its own.
    """
    trailer = view.trailer
    told = {lamp.name for lamp in trailer.road_lamps}
    if trailer.battery_line is not None:
        told |= {stop.part for stop in trailer.battery_line.stops}
    lacking = [
        name
        for name, part in trailer.parts.items()
        if (names is None or name in names)
        and name not in told
        and part.form is not Form.JOINT
        and not known_where(trailer, name)
    ]
    if lacking:
        yield More("places", "parts", lacking[0], "where: over the door", len(lacking))


def _for_start(view: View) -> Iterator[More]:
    trailer = view.trailer
    if not trailer.identity.description:
        yield More("description", "build", "", "description: one sentence on this trailer")
    if trailer.battery and not trailer.battery.where:
        yield More("battery place", "battery", "", "where: on the tongue")
    if trailer.front_box and not trailer.front_box.where:
        yield More("box place", "front box", "", "where: inside the front wall")
    yield from _places(view)


def _for_fuses(view: View) -> Iterator[More]:
    box = view.trailer.front_box
    if box is None:
        return
    if not box.where:
        yield More("box place", "front box", "", "where: inside the front wall")
    yield from _for_face(view)
    if box.ground_bar is None:
        yield More("screws", "front box", "", "ground bar: 20")
    if box.strip is None and view.trailer.tow_plug is not None:
        yield More("positions", "front box", "", "strip: 12")


def _for_landings(view: View) -> Iterator[More]:
    trailer = view.trailer
    if trailer.front_box is None:
        return
    metric = trailer.identity.units == "metric"
    if not trailer.studs:
        yield More("studs", "terminal studs", "", f"ground bar: {{size: {'M4' if metric else 'No. 8'}}}")
    if not trailer.holes:
        bore = "25 mm" if metric else "1 in"
        yield More("entry holes", "entry holes", "", f"left hole: {{bore: {bore}, in: left wall}}")


def _for_face(view: View) -> Iterator[More]:
    """Measures that would bring the face of the box to scale, one piece after the other."""
    face = view.trailer.box_face
    heading = "front box face"
    metric = view.trailer.identity.units == "metric"
    if face is None:
        yield More("box to scale", heading, "", f"inside: {{{_INSIDE[metric]}}}")
        return
    for name in used_pieces(view.figures):
        size, place = _MEASURED[name][metric]
        if name not in face.pieces:
            yield More("piece to scale", heading, "", f"{name}: {{{size}}}")
        elif face.pieces[name].left_m is None:
            yield More("piece in its place", heading, name, place)


def _for_wires(view: View) -> Iterator[More]:
    if not view.trailer.geometry:
        metric = view.trailer.identity.units == "metric"
        yield More("runs", "places", "", f"front box: {{{_BOX_PLACE[metric]}}}")
    yield from _for_spares(view)


def _for_spares(view: View) -> Iterator[More]:
    if not view.trailer.spares:
        yield More("spares", "spares", "", "rear spare: {from: front box, to: rear wall, wire: 14 ft}")


def _for_towing(view: View) -> Iterator[More]:
    if view.trailer.tow_plug and not view.trailer.tow_plug.where:
        yield More("plug place", "tow plug", "", "where: on its hook on the tongue")
    if view.trailer.tow_plug and view.trailer.tow_plug.second and not view.trailer.tow_plug.second.where:
        yield More("plug place", "second plug", "", "where: on its hook on the tongue")


def _for_battery(view: View) -> Iterator[More]:
    if view.trailer.battery and not view.trailer.battery.where:
        yield More("battery place", "battery", "", "where: on the tongue")
    if view.trailer.battery and not view.trailer.battery.box:
        yield More("battery box", "battery", "", "box: own box with vents to the outside")


def _for_scale(view: View) -> Iterator[More]:
    if view.trailer.geometry.body is None:
        metric = view.trailer.identity.units == "metric"
        yield More("outline", "body", "", _OUTLINE[metric])
    elif not view.trailer.geometry.body.openings:
        yield More("openings", "openings", "", "left door: " + _DOOR[view.trailer.identity.units == "metric"])


def _for_worked(view: View) -> Iterator[More]:
    if not view.trailer.shelf.insulation_given:
        yield More("insulation", "wire", "", "insulation: 105 °C")


def _for_shopping(view: View) -> Iterator[More]:
    if view.trailer.stock == Stock():
        yield More("stock", "in stock", "", "labels: 50")


_PAGES: dict[str, Callable[[View], Iterator[More]]] = {
    "index": _for_start,
    "find": _places,
    "fuses": _for_fuses,
    "wires": _for_wires,
    "scale": _for_scale,
    "towing": _for_towing,
    "battery": _for_battery,
    "stops": _places,
    "adding": _for_spares,
    "shopping": _for_shopping,
    "landings": _for_landings,
    "worked": _for_worked,
}
