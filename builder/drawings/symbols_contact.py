"""Symbols of what cuts or passes the current: switches, relay contacts, fuses, breakers, connectors.

Geometry in the manner of IEC 60617, drawn by us (proportions from memory); contacts stand as they are with
everything off.
"""

from __future__ import annotations

from html import escape

from builder.drawings.shapes import box, circle, letter, line, path
from builder.drawings.symbol import PITCH, Symbol, spread

Pins = tuple[str, ...]


def _blade(x: float = 0.0, top: float = 14.0, hinge: float = 34.0) -> str:
    """Draw the open blade of a make contact, hinged below."""
    return line(x, hinge, x - 11, top)


def _hand(x: float = 0.0, y: float = 24.0) -> str:
    """Draw the mark of a hand: a dashed line from the blade to a short bar."""
    return line(x - 18, y, x - 7, y, "d") + line(x - 18, y - 6, x - 18, y + 6)


def make_contact(_: Pins, __: Pins) -> Symbol:
    """Draw a make contact: the conductor broken, the blade not touching."""
    return Symbol(line(0, 0, 0, 12) + _blade() + line(0, 34, 0, 46), 12, 4, 46)


def hand_switch(_: Pins, bottoms: Pins) -> Symbol:
    """Draw a switch worked by hand; with a terminal ``−`` it is a lighted one: a lamp sits behind the contact."""
    if "−" not in bottoms:
        return Symbol(line(0, 0, 0, 12) + _blade() + _hand() + line(0, 34, 0, 46), 19, 4, 46)
    shapes = line(0, 0, 0, 12) + _blade() + _hand() + line(0, 34, 0, 62) + line(0, 40, PITCH, 40)
    shapes += line(PITCH, 40, PITCH, 62) + circle(0, 40, 2.2, "k") + _lamp(PITCH, 50, 6.5)
    return Symbol(shapes, 19, PITCH + 8, 62, (0.0,), _placed(bottoms, {"−": PITCH}))


def breakaway_switch(_: Pins, __: Pins) -> Symbol:
    """Draw a make contact held open by a pin on a cord: it closes when the pin is pulled out."""
    pin = line(-18, 24, -7, 24, "d") + circle(-23, 24, 5, "h")
    return Symbol(line(0, 0, 0, 12) + _blade() + line(0, 34, 0, 46) + pin, 30, 4, 46)


def charge_limiter(_: Pins, __: Pins) -> Symbol:
    """Draw what lets no more than so much through: a box with a step that levels out."""
    step = path("M-7 31 L-2 20 L8 20", "h")
    return Symbol(line(0, 0, 0, 12) + box(-12, 12, 24, 24, "f") + step + line(0, 36, 0, 48), 16, 16, 48)


def _placed(pins: Pins, places: dict[str, float]) -> tuple[float, ...]:
    return tuple(places.get(pin, 0.0) for pin in pins)


def _lamp(x: float, y: float, radius: float) -> str:
    arm = radius * 0.7
    return circle(x, y, radius) + path(
        f"M{x - arm:.1f} {y - arm:.1f}L{x + arm:.1f} {y + arm:.1f}"
        f"M{x + arm:.1f} {y - arm:.1f}L{x - arm:.1f} {y + arm:.1f}"
    )


def isolating_switch(_: Pins, __: Pins) -> Symbol:
    """Draw an isolating switch: a make contact with a bar across its fixed end, worked by hand."""
    shapes = line(0, 0, 0, 12) + line(-6, 12, 6, 12) + _blade() + _hand() + line(0, 34, 0, 46)
    return Symbol(shapes, 19, 7, 46)


def breaker(_: Pins, __: Pins) -> Symbol:
    """Draw a circuit breaker: a make contact with a cross at its fixed end and a release box on its blade."""
    shapes = line(0, 0, 0, 12) + path("M-3.5 8.5L3.5 15.5M3.5 8.5L-3.5 15.5") + _blade(top=15)
    return Symbol(shapes + box(-14, 20.5, 8, 7) + line(0, 34, 0, 46), 15, 5, 46)


def fuse(_: Pins, __: Pins) -> Symbol:
    """Draw a fuse: a box with the conductor straight through it."""
    return Symbol(box(-6, 7, 12, 32) + line(0, 0, 0, 46), 7, 7, 46)


def fuse_way(_: Pins, __: Pins) -> Symbol:
    """Draw a way of the fuse block: a tap of the supply bar, and the fuse below it."""
    shapes = line(-16, 2.5, 16, 2.5, "b") + line(0, 2.5, 0, 56) + box(-6, 15, 12, 32) + line(0, 15, 0, 47)
    return Symbol(shapes, 18, 18, 56)


def two_way(tops: Pins, bottoms: Pins) -> Symbol:
    """Draw a two-way switch: one hinge, two fixed ends, the blade resting on one; worked by hand."""
    down = len(bottoms) > 1 or "common" in tops
    edge, end, hinge, far = (0, 12, 36, 48) if not down else (48, 36, 12, 0)
    shapes = line(0, hinge, 0, far) + line(0, hinge, -_SIDE + 2, end + (2 if not down else -2))
    for x in (-_SIDE, _SIDE):
        shapes += line(x, edge, x, end) + circle(x, end, 2.6)
    shapes += circle(0, hinge, 2.6) + _hand(-1, 24)
    if down:
        return Symbol(shapes, 20, _SIDE + 4, 48, (0.0,), _sides(bottoms))
    return Symbol(shapes, 20, _SIDE + 4, 48, _sides(tops), (0.0,))


_SIDE = 14.0


def _sides(pins: Pins) -> tuple[float, ...]:
    """Return where the two sides of a two-way or four-way switch stand, by the number in the pin's name."""
    return tuple(_SIDE if pin.endswith("2") else -_SIDE for pin in pins)


def four_way(tops: Pins, bottoms: Pins) -> Symbol:
    """Draw a four-way switch: two blades straight through, dashed where they lie crosswise; worked by hand."""
    shapes = "".join(line(x, 0, x, 12) + line(x, 12, x, 36) + line(x, 36, x, 48) for x in (-_SIDE, _SIDE))
    shapes += path("M-11 15L11 33M11 15L-11 33", "d") + _hand(-7, 24)
    shapes += "".join(circle(x, y, 2.6) for x in (-_SIDE, _SIDE) for y in (12.0, 36.0))
    return Symbol(shapes, 26, _SIDE + 4, 48, _sides(tops), _sides(bottoms))


def relay_contact(_: Pins, bottoms: Pins) -> Symbol:
    """Draw the contact of a relay: a make contact, or a change-over contact where its rest side is wired."""
    if "contact rest" not in bottoms:
        return make_contact((), ())
    shapes = (
        line(0, 0, 0, 10)
        + line(0, 10, PITCH - 7, 33)
        + line(PITCH, 34, PITCH, 46)
        + line(PITCH, 34, PITCH - 10, 34)
    )
    shapes += line(0, 34, 0, 46)
    return Symbol(shapes, 5, PITCH + 4, 46, (0.0,), _placed(bottoms, {"contact rest": PITCH}))


def receiver(_: Pins, bottoms: Pins) -> Symbol:
    """Draw a receiver: a box with an aerial and a contact it works for each output; ``−`` is its own return."""
    places = spread(len(bottoms))
    width = max(places[-1] if places else 0.0, PITCH) + 28
    shapes = box(-14, 8, width, 40) + line(0, 0, 0, 15)
    outs = [x for x, pin in zip(places, bottoms, strict=True) if pin != "−"]
    if len(outs) > 1:
        shapes += line(0, 15, outs[-1], 15)
    for x in outs:
        shapes += line(x, 15, x, 19) + line(x, 37, x - 7, 22) + line(x, 37, x, 56)
    shapes += "".join(_output(x, pin) for x, pin in zip(places, bottoms, strict=True))
    right = width - 14
    shapes += path(
        f"M{right - 8:.1f} 27V12M{right - 12.5:.1f} 12.5L{right - 8:.1f} 18L{right - 3.5:.1f} 12.5"
    )
    shapes += _minus(places, bottoms, 48, 56)
    return Symbol(shapes, 15, right + 1, 56, (0.0,), places)


def _output(x: float, pin: str) -> str:
    """Write the number of an output beside its lead; a longer name stands under the part's name."""
    name = pin.removeprefix("out ")
    return letter(x + 7, 46, escape(name), "q") if name != pin and len(name) <= LONGEST_OUTPUT else ""


LONGEST_OUTPUT = 2
"""How many signs of an output's name fit into the symbol."""


def dimmer(_: Pins, bottoms: Pins) -> Symbol:
    """Draw a dimmer: a box with a resistor that an arrow crosses; ``−`` is its own return."""
    places = spread(len(bottoms))
    width = max(places[-1] if places else 0.0, 12.0) + 28
    shapes = box(-14, 8, width, 40) + line(0, 0, 0, 17) + box(-4.5, 17, 9, 22) + line(0, 39, 0, 56)
    shapes += path("M-10 36L9 19M9 25V19H3")
    shapes += _minus(places, bottoms, 48, 56)
    return Symbol(shapes, 15, width - 13, 56, (0.0,), places)


def _minus(places: tuple[float, ...], pins: Pins, edge: float, end: float) -> str:
    """Draw the return of a box: its lead, and the sign above it."""
    return "".join(
        line(x, edge, x, end) + line(x - 3.5, edge - 7, x + 3.5, edge - 7, "h")
        for x, pin in zip(places, pins, strict=True)
        if pin == "−"
    )


def contact_pair(tops: Pins, _: Pins) -> Symbol:
    """Draw one way of a connector: the pin of the plug in the cup of the socket.

    The cup is on the side that feeds come from; a return comes from the other side, so its pin stands above its cup.
    """
    if tops and tops[0].endswith(" out"):
        shapes = (
            line(0, 0, 0, 10)
            + box(-2.5, 10, 5, 13, "k", 1)
            + path("M-8 19A8 8 0 0 0 8 19")
            + line(0, 27, 0, 38)
        )
        return Symbol(shapes, 9, 9, 38)
    shapes = (
        line(0, 0, 0, 11) + path("M-8 19A8 8 0 0 1 8 19") + box(-2.5, 15, 5, 13, "k", 1) + line(0, 28, 0, 38)
    )
    return Symbol(shapes, 9, 9, 38)


def tow_contact(_: Pins, bottoms: Pins) -> Symbol:
    """Draw a contact of the tow plug: its pin in the cup on the car, as a source above or as an end below."""
    if bottoms:
        shapes = path("M-9 13A9 9 0 0 1 9 13") + box(-2.5, 8, 5, 13, "k", 1) + line(0, 21, 0, 30)
    else:
        shapes = path("M-9 17A9 9 0 0 0 9 17") + box(-2.5, 9, 5, 13, "k", 1) + line(0, 0, 0, 9)
    return Symbol(shapes, 10, 10, 30)
