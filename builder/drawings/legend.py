"""The signs of the drawings one by one, for the page that explains them: drawn by the same code, as they are used."""

from __future__ import annotations

from collections.abc import Iterable

from builder.drawings.measure import Box
from builder.drawings.shapes import casing, circle, core, line, number
from builder.drawings.symbol import Symbol

_EDGE = 3.0
_WIRE_LENGTH, _WIRE_HEIGHT = 64.0, 12.0
_BAR = Symbol(line(-20, 6, 20, 6, "b"), 22, 22, 12)
_JOINT = Symbol(line(0, 0, 0, 24) + circle(0, 12, 5.0, "j"), 6, 6, 24)


def sign_of(box: Box) -> str:
    """Return the word for a sign as the legend names it: the kind, or what a variant of it is called."""
    if box.node.kind == "switch" and "−" in box.bottoms:
        return "lighted switch"
    if box.node.kind == "relay contact" and "contact rest" in box.bottoms:
        return "change-over contact"
    return box.node.kind


def signs_of(boxes: Iterable[Box]) -> dict[str, str]:
    """Return each sign once, by its word, as one line of SVG: the first of its kind that was drawn."""
    found: dict[str, str] = {}
    for box in boxes:
        if box.node.bar:
            found.setdefault("bar", sign_picture(_BAR))
        elif box.node.joint:
            found.setdefault("splice", sign_picture(_JOINT))
        elif box.symbol.shapes:
            found.setdefault(sign_of(box), sign_picture(box.symbol))
    return found


def sign_picture(symbol: Symbol) -> str:
    """Return a symbol as a picture of its own, in its own size."""
    width = symbol.left + symbol.right + 2 * _EDGE
    return _picture((-symbol.left - _EDGE, -_EDGE, width, symbol.height + 2 * _EDGE), symbol.shapes)


def wire_picture(base: str, tracer: str = "") -> str:
    """Return a length of wire as the drawings show it; ``base`` and ``tracer`` are ``#rrggbb``."""
    d = f"M4 {number(_WIRE_HEIGHT / 2)}H{number(_WIRE_LENGTH - 4)}"
    return _picture((0.0, 0.0, _WIRE_LENGTH, _WIRE_HEIGHT), casing(d) + core(d, base, tracer))


def _picture(view: tuple[float, float, float, float], shapes: str) -> str:
    """Return shapes as a picture that stands beside its name: ``view`` is left, top, width and height."""
    _, _, width, height = map(number, view)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="wd" aria-hidden="true" '
        f'viewBox="{" ".join(map(number, view))}" width="{width}" height="{height}">{shapes}</svg>'
    )
