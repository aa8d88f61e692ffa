"""Which wires stand on a circuit's drawing, and what is written on each."""

from __future__ import annotations

from builder.drawings.graph import Tag
from builder.drawings.text_width import visible
from builder.electrics.figures import Figures
from builder.electrics.network import neighbours, reach
from builder.tables.table import NoRow
from builder.tables.wire_colours import colour_code, combination_allowed, screen_colour
from builder.trailer.circuits import Circuit
from builder.trailer.color import Color
from builder.trailer.model import Trailer
from builder.trailer.parts import Terminal
from builder.trailer.wires import Role, Wire

GREY = "#8a8f94"
"""What a colour that the tables do not know is drawn in."""


def drawn_wires(trailer: Trailer, circuit: Circuit) -> tuple[Wire, ...]:
    """Return the wires of a circuit's drawing: its own, then the shared returns of its loads.

    Road lamps return on wires of the ground contact's circuit: without them no lamp would show its way back.
    """
    own = tuple(wire for wire in trailer.wires if wire.circuit == circuit.number)
    landed = {wire.start for wire in own} | {wire.end for wire in own}
    lost = [
        load.minus for load in trailer.loads if load.circuit == circuit.number and load.minus not in landed
    ]
    shared = {index for terminal in lost for index in _home(trailer, terminal)}
    return own + tuple(wire for index, wire in enumerate(trailer.wires) if index in shared)


def _home(trailer: Trailer, terminal: Terminal) -> set[int]:
    """Return the returns that lead down from a terminal, through connectors, as long as the circuit stays the same."""
    down = neighbours(trailer, (Role.RETURN,))
    wires = trailer.wires

    def leaving(here: Terminal, circuit: int | None) -> list[tuple[Terminal, int]]:
        return [
            (near, index)
            for near, index in down.get(here, ())
            if index >= 0 and wires[index].start == here and circuit in (None, wires[index].circuit)
        ]

    inside = reach(neighbours(trailer, ()), terminal)
    first = next((index for here in inside for _, index in leaving(here, None)), None)
    if first is None:
        return set()
    circuit = wires[first].circuit
    graph = {
        here: (*leaving(here, circuit), *(step for step in near if step[1] < 0))
        for here, near in down.items()
    }
    return {index for here in reach(graph, terminal) for _, index in leaving(here, circuit)}


def tag_of(wire: Wire, figures: Figures) -> Tag:
    """Return what is written on a wire. The size is the computed one, with its unit."""
    size = figures.wires[wire.number].size if wire.number in figures.wires else wire.size
    color = wire.color
    return Tag(
        number=wire.number,
        color=color_label(color),
        size=str(size).replace(" ", "\u00a0") if size else "",
        base=_screen(color.base),
        tracer=_screen(color.tracer) if color.tracer else "",
        words=visible(str(color)),
    )


def drawn_colors(trailer: Trailer, figures: Figures) -> tuple[Tag, ...]:
    """Return one tag for each colour of wire that the drawings show, in the order of the wires."""
    found: dict[str, Tag] = {}
    for wire in trailer.wires:
        tag = tag_of(wire, figures)
        found.setdefault(tag.words, tag)
    return tuple(found.values())


def wires_shown(trailer: Trailer, figures: Figures) -> dict[str, Tag]:
    """Return what is written on each wire, by its number."""
    return {wire.number: tag_of(wire, figures) for wire in trailer.wires}


def color_label(color: Color) -> str:
    """Return base and tracer with a stroke between: codes of IEC 60757 where it has them, else the words."""
    words = [visible(word) for word in (color.base, color.tracer) if word]
    return "/".join(_codes(words) or words)


def has_code(color: Color) -> bool:
    """Tell whether IEC 60757 has a code for a colour, tracer included."""
    return bool(_codes([word for word in (color.base, color.tracer) if word]))


def is_known(color: Color) -> bool:
    """Tell whether a colour can be shown on a screen as itself."""
    try:
        return all(screen_colour(word) for word in (color.base, color.tracer) if word)
    except NoRow:
        return False


def _codes(words: list[str]) -> list[str]:
    try:
        return [colour_code(word) for word in words] if combination_allowed(words) else []
    except NoRow:
        return []


def _screen(word: str) -> str:
    try:
        return screen_colour(word).lower()
    except NoRow:
        return GREY
