"""Symbols of what uses, gives or changes current, and of the ends that current runs to.

Geometry in the manner of IEC 60617, drawn by us (proportions from memory).
"""

from __future__ import annotations

from builder.drawings.shapes import box, circle, letter, line, path
from builder.drawings.symbol import Symbol, spread

Pins = tuple[str, ...]
_DC = "M{0} {1}h12M{0} {2}h2.6m2.1 0h2.6m2.1 0h2.6"


def _leads(height: float, top: float, bottom: float) -> str:
    return line(0, 0, 0, top) + line(0, bottom, 0, height)


def lamp(_: Pins, __: Pins) -> Symbol:
    """Draw a lamp: a circle with a cross to its rim."""
    shapes = _leads(46, 9, 37) + circle(0, 23, 14) + path("M-9.9 13.1L9.9 32.9M9.9 13.1L-9.9 32.9")
    return Symbol(shapes, 15, 15, 46)


def _motor() -> str:
    sign = path(_DC.format(-6, 29, 32.5), "h")
    return _leads(46, 8, 38) + circle(0, 23, 15) + letter(0, 25.5, "M") + sign


def motor(_: Pins, __: Pins) -> Symbol:
    """Draw a motor: a circle with M and the sign of direct current."""
    return Symbol(_motor(), 16, 16, 46)


def fan(_: Pins, __: Pins) -> Symbol:
    """Draw a fan: a motor, and the two blades it turns."""
    blades = path("M22 23C17 15 27 15 22 23C27 31 17 31 22 23")
    return Symbol(_motor() + blades, 16, 26, 46)


def pump(_: Pins, __: Pins) -> Symbol:
    """Draw a pump: a motor, and a circle with the triangle that shows which way it pushes."""
    wheel = circle(25.5, 23, 7.5) + path("M25.5 15.5L32 26.5H19Z", "h")
    return Symbol(_motor() + wheel, 16, 34, 46)


def heater(_: Pins, __: Pins) -> Symbol:
    """Draw a heater: a box that three lines divide."""
    shapes = _leads(46, 6, 40) + box(-7, 6, 14, 34) + path("M-7 14.5H7M-7 23H7M-7 31.5H7")
    return Symbol(shapes, 8, 8, 46)


def brake_magnet(_: Pins, __: Pins) -> Symbol:
    """Draw the magnet of a brake: a winding in a box."""
    shapes = _leads(46, 6, 40) + box(-9, 6, 18, 34) + path("M-9 32L9 14")
    return Symbol(shapes, 10, 10, 46)


def air_heater(_: Pins, __: Pins) -> Symbol:
    """Draw an air heater: a box with a heating element and a fan's blades."""
    shapes = (
        _leads(50, 6, 44) + box(-15, 6, 42, 38) + box(-5, 12, 10, 26) + path("M-5 18.5H5M-5 25H5M-5 31.5H5")
    )
    return Symbol(shapes + path("M17 25C12 17 22 17 17 25C22 33 12 33 17 25"), 16, 28, 50)


def socket(_: Pins, __: Pins) -> Symbol:
    """Draw a socket: two half-round cups that face each other, + above and − below."""
    shapes = _leads(50, 11, 39) + path("M-9 20A9 9 0 0 1 9 20M-9 30A9 9 0 0 0 9 30")
    return Symbol(shapes + path("M-18 12h7M-14.5 8.5v7M-18 38h7", "h"), 19, 11, 50)


def alarm(_: Pins, __: Pins) -> Symbol:
    """Draw an alarm: a dome over its base."""
    shapes = _leads(46, 9, 37) + path("M-14 30A14 21 0 0 1 14 30Z", "f") + line(-14, 30, 14, 30)
    return Symbol(shapes + path("M-6 30V37H6V30"), 16, 16, 46)


def meter(_: Pins, __: Pins) -> Symbol:
    """Draw a meter: a circle with a pointer over its scale."""
    shapes = _leads(46, 9, 37) + circle(0, 23, 14) + path("M-8 23A8.5 8.5 0 0 1 8 23", "h")
    return Symbol(shapes + path("M0 29L6 17"), 15, 15, 46)


def _device(sign: str, height: float = 50) -> Symbol:
    return Symbol(_leads(height, 7, height - 7) + box(-17, 7, 34, height - 14) + sign, 18, 18, height)


def fridge(_: Pins, __: Pins) -> Symbol:
    """Draw a fridge: a box with the star of frost."""
    return _device(path("M0 15V35M-8.7 20L8.7 30M8.7 20L-8.7 30", "h"))


def radio(_: Pins, __: Pins) -> Symbol:
    """Draw a radio: a box with a loudspeaker."""
    return _device(path("M-8 21h5l7-6v20l-7-6h-5ZM8 20a7 7 0 0 1 0 10", "h"))


def appliance(_: Pins, __: Pins) -> Symbol:
    """Draw an appliance of any sort: an empty box."""
    return _device("")


def coil(_: Pins, __: Pins) -> Symbol:
    """Draw the coil of a relay: a box, leads on its long sides."""
    return Symbol(_leads(40, 12, 28) + box(-15, 12, 30, 16), 16, 16, 40)


def _changer(sign: str, bottoms: Pins) -> Symbol:
    """Draw a box with a diagonal from lower left to upper right; the second terminal below is its minus."""
    places = spread(len(bottoms)) if bottoms else ()
    width = max(28.0 + (places[-1] if places else 0.0), 42.0)
    right = width - 14
    shapes = box(-14, 8, width, 42) + line(-14, 50, right, 8) + sign.replace("@", f"{right - 16:.0f}")
    shapes += line(0, 0, 0, 8)
    for x, pin in zip(places, bottoms, strict=True):
        shapes += line(x, 50, x, 58)
        shapes += path(f"M{x + 4:.0f} 55h5", "h") if "−" in pin else ""
    return Symbol(shapes, 15, right + 1, 58, (0.0,), places)


_IN_DC = path("M-10 14h10M-10 18h2.4m1.4 0h2.4m1.4 0h2.4", "h")
_OUT_DC = path("M@ 41h10M@ 45h2.4m1.4 0h2.4m1.4 0h2.4", "h")


def converter(_: Pins, bottoms: Pins) -> Symbol:
    """Draw a converter: direct current in, direct current of another voltage out."""
    return _changer(_IN_DC + _OUT_DC, bottoms)


def charger(_: Pins, bottoms: Pins) -> Symbol:
    """Draw a charger that runs from direct current: a converter with the plates of a battery at its output."""
    return _changer(_IN_DC + path("M@ 41h11m-8 4h5", "h"), bottoms)


def charge_controller(_: Pins, bottoms: Pins) -> Symbol:
    """Draw a charge controller: sun at its input, the plates of a battery at its output."""
    sun = circle(-5, 18, 3, "s") + path("M-5 12.5v-1.5M-5 23.500v1.5M.5 18h1.5M-10.500 18h-1.5", "h")
    return _changer(sun + path("M@ 41h11m-8 4h5", "h"), bottoms)


def shore_converter(_: Pins, __: Pins) -> Symbol:
    """Draw a converter from shore power: alternating current in, direct current out."""
    shapes = (
        box(-19, 2, 38, 40)
        + line(-19, 42, 19, 2)
        + path("M-14 13c2-6 4-6 6 0s4 6 6 0M4 33h10M4 37h2.4m1.4 0h2.4m1.4 0h2.4", "h")
    )
    return Symbol(shapes + line(0, 42, 0, 50), 20, 20, 50)


def solar_module(_: Pins, __: Pins) -> Symbol:
    """Draw a solar module: the plates of a cell in a box, two arrows of light falling on it."""
    shapes = box(-17, 14, 34, 26) + path("M-9 24H9M-4.5 30H4.5") + line(0, 14, 0, 24) + line(0, 30, 0, 48)
    return Symbol(shapes + path("M-22 2L-13 11M-13 6v5h-5M-12 0L-3 9M-3 4v5h-5", "h"), 23, 18, 48)


def battery(_: Pins, __: Pins) -> Symbol:
    """Draw a battery: a long plate for plus, a short one for minus."""
    shapes = _leads(46, 20, 27) + line(-13, 20, 13, 20) + line(-7, 27, 7, 27, "b")
    return Symbol(shapes + path("M-16 12h7M-12.5 8.5v7", "h"), 17, 14, 46)


def post(_: Pins, bottoms: Pins) -> Symbol:
    """Draw the end of a supply: an open circle with + where current comes from it, with − where it ends."""
    if bottoms:
        return Symbol(path("M-4 4h8M0 0v8", "h") + circle(0, 15.5, 5) + line(0, 20.5, 0, 28), 9, 9, 28)
    return Symbol(line(0, 0, 0, 7) + circle(0, 12, 5) + path("M-4 23h8", "h"), 9, 9, 26)


def terminal(tops: Pins, bottoms: Pins) -> Symbol:
    """Draw a terminal: an open circle."""
    shapes = (line(0, 0, 0, 8) if tops else "") + (line(0, 16, 0, 24) if bottoms else "")
    return Symbol(shapes + circle(0, 12, 4.5), 8, 8, 24)


def again(tops: Pins, bottoms: Pins) -> Symbol:
    """Draw what stands elsewhere already: a dashed circle."""
    shapes = (line(0, 0, 0, 7) if tops else "") + (line(0, 21, 0, 28) if bottoms else "")
    return Symbol(shapes + circle(0, 14, 7, "o"), 9, 9, 28)


def joint(_: Pins, __: Pins) -> Symbol:
    """Leave room for a splice or a bar: its dot or line is drawn where its wires meet."""
    return Symbol("", 8, 8, 0)


def frame(_: Pins, __: Pins) -> Symbol:
    """Draw the frame: a stem on a bar with three strokes below."""
    return Symbol(
        line(0, 0, 0, 16) + line(-12, 16, 12, 16) + path("M-8 16L-13 24M0 16L-5 24M8 16L3 24"), 14, 13, 25
    )


def lamp_above(_: Pins, __: Pins) -> Symbol:
    """Draw a lamp whose feed stands on another drawing: its upper lead is dashed."""
    shapes = line(0, 0, 0, 9, "d") + line(0, 37, 0, 46) + circle(0, 23, 14)
    return Symbol(shapes + path("M-9.9 13.1L9.9 32.9M9.9 13.1L-9.9 32.9"), 15, 15, 46)
