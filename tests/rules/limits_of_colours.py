"""Limits of colours, of lamp strips, and of alarms that are switched off."""

from __future__ import annotations

from rule_builds import LAMP, MAIN_30, THICK, Limit, build, changed

from builder.rules.finding import Level

SWITCHED = (
    "wire: {on the shelf: [16 AWG], feed: red, return: black}\n"
    "parts: {wall switch: {kind: switch}, lamp: {kind: lamp, draws: 3 W}}\ncircuits:\n"
    "  light: {path: [wall switch: 4 ft, lamp: {length: 6 ft, color: orange}], return color: white}\n"
)
TAIL = (
    "tow plug: {pattern: 7-pin 12N, to front box: 2 m}\n"
    "road lamps:\n  rear lamp: {shows: tail, side: both, wire: 3 m}\n"
)
ALARM = (
    "parts: {gas alarm: {kind: alarm, draws: 80 mA}}\n"
    "circuits:\n  gas alarm: {from: main fuse, fuse: 3 A, path: [gas alarm: 6 ft]}\n"
)
SWITCH_FIRST = (
    "battery: {chemistry: agm, capacity: 60 Ah, "
    "path: [isolating switch: 3 in, main fuse: 2 in, front box: 2 ft]}"
)
STRIP = (
    "parts: {strip: {kind: lamp, draws: 1.5 W per ft, lit length: 15 ft}}\n"
    "circuits:\n  strip: {path: [strip: 6 ft]}\n"
)

COLOUR_LIMITS = (
    Limit(
        "a feed in the colour of the returns",
        "colour of two meanings",
        build(changed(SWITCHED, ", return color: white", ""), shelf=""),
        ("color: orange", "color: black"),
        ("light: {path", "lamp"),
        Level.SHOULD,
        ("black is a feed in “light” (wire 1B) and a return in “light” (wire 1C)", "both land in “lamp”"),
        (("color: red", "color: black", "color: red"),),
    ),
    Limit(
        "a return in the colour of the feeds",
        "colour of two meanings",
        build(SWITCHED, shelf=""),
        ("return color: white", "return color: red"),
        ("light: {path", "light"),
        Level.SHOULD,
        ("red is a feed", "“front box”"),
        (("return color: black", "return color: red", "return color: black"),),
    ),
    Limit(
        "a circuit whose feeds are all in the colour of the returns",
        "colour of two meanings",
        build(
            changed(
                changed(SWITCHED, ", return color: white", ", color: orange"),
                ", color: orange}",
                ", size: 14 AWG}",
            ),
            shelf="",
        ),
        ("color: orange", "color: black"),
        ("light: {path", "light"),
        Level.SHOULD,
        ("black is a feed in “light” (wire 1A)",),
        (("color: red", "color: black", "color: red"),),
    ),
    Limit(
        "a tracer that makes the difference",
        "colour of two meanings",
        build(
            changed(changed(SWITCHED, "orange", "white with black"), ", return: black", ", return: grey"),
            shelf="",
        ),
        ("white with black", "white"),
        ("light: {path", "lamp"),
        Level.SHOULD,
        ("white is a feed",),
        (("color: red", "color: white}", "color: red}"),),
    ),
    Limit(
        "one colour for all wire",
        "colour of two meanings",
        build(changed(SWITCHED, ", return color: white", ""), shelf=""),
        ("return: black", "return: red"),
        ("wire", "wire"),
        Level.SHOULD,
        ("red is a feed", "“front box”"),
        (("return: black under wire", "return: red", "return: black"),),
    ),
    Limit(
        "two wires of one colour that never meet",
        "colour of two meanings",
        build(
            changed(SWITCHED, "{kind: switch}", "{kind: switch}, gauge: {kind: meter}")
            + "  gauge: {from: battery, path: [gauge fuse: 4 in, gauge: 3 ft], return color: grey}\n",
            shelf="",
        ),
        ("return color: grey", "return color: orange"),
        ("light: {path", "lamp"),
        Level.WORTH,
        ("orange is a feed in “light”", "a return in “gauge”"),
        (("color: red", "color: orange}", "color: red}"),),
    ),
    # Contact 7 of ISO 1724, left tail lamps, is black.
    Limit(
        "the colour of a tail lamp for the returns of the house",
        "colour of two meanings",
        build(
            TAIL + "wire: {on the shelf: [1.5 mm²], feed: red, return: white}\n" + LAMP,
            shelf="",
            more="country: GB",
        ),
        ("return: white", "return: black"),
        ("wire", "wire"),
        Level.WORTH,
        ("black is a feed in “road lamps, left tail", "a return in “lamp”", "“front box”"),
        (("return: white under wire", "return: black", "return: white"),),
    ),
    # The ground contact of SAE J1239 is white.
    Limit(
        "the colour of the plug's ground for the feeds of the house",
        "colour of two meanings",
        build(
            "tow plug: {pattern: 4-way flat, to front box: 7 ft}\n"
            "road lamps: {plate lamp: {shows: plate, wire: 9 ft}}\n"
            "wire: {on the shelf: [16 AWG], feed: red, return: black}\n" + LAMP,
            shelf="",
        ),
        ("feed: red", "feed: white"),
        ("wire", "wire"),
        Level.WORTH,
        ("white is a feed in “lamp”", "a return in “road lamps, ground”"),
        (("feed: red under wire", "feed: white", "feed: red"),),
    ),
    Limit(
        "one feed of the house in the colour of the plug's ground",
        "colour of two meanings",
        build(
            "tow plug: {pattern: 4-way flat, to front box: 7 ft}\n"
            "road lamps: {plate lamp: {shows: plate, wire: 9 ft}}\n"
            + changed(LAMP, "{path", "{color: orange, path")
        ),
        ("color: orange", "color: white"),
        ("lamp: {color", "lamp"),
        Level.WORTH,
        ("white is a feed in “lamp”", "a return in “road lamps, ground”"),
        (("color: red", "color: white", "color: red"),),
    ),
    # IEC 60757:2021 5.1.
    Limit(
        "the colours of a protective conductor",
        "colour of two meanings",
        build(changed(SWITCHED, "orange", "green with black"), shelf=""),
        ("green with black", "green with yellow"),
        ("light: {path", "lamp"),
        Level.SHOULD,
        ("wire 1B of “light” is green-and-yellow",),
        (("color: red", "green with yellow", "red"),),
    ),
    Limit(
        "an alarm behind the isolating switch",
        "alarm switched off",
        build(ALARM, battery=MAIN_30),
        ("from: main fuse", "from: isolating switch"),
        ("gas alarm: {from", "gas alarm"),
        Level.SHOULD,
        ("“gas alarm” is dead when “isolating switch” is off",),
        (("from: main fuse, fuse: 3 A", "from: isolating switch", "from: main fuse"),),
    ),
    Limit(
        "an alarm in the fuse block behind the isolating switch",
        "alarm switched off",
        build(ALARM, battery=MAIN_30),
        ("from: main fuse, ", ""),
        ("gas alarm: {fuse", "gas alarm"),
        Level.SHOULD,
        ("“isolating switch”",),
        (("from: main fuse, fuse: 3 A", "fuse: 3 A", "from: main fuse, fuse: 3 A"),),
    ),
    Limit(
        "an isolating switch before the main fuse",
        "alarm switched off",
        build(changed(ALARM, "main fuse", "battery"), battery=SWITCH_FIRST),
        ("from: battery", "from: main fuse"),
        ("gas alarm: {from", "gas alarm"),
        Level.SHOULD,
        ("“isolating switch”",),
        (("from: battery, fuse: 3 A", "from: main fuse", "from: battery"),),
    ),
    Limit(
        "an alarm behind a switch of its own",
        "alarm switched off",
        build(
            changed(
                changed(ALARM, "from: main fuse, ", ""),
                "{gas alarm: {",
                "{night switch: {kind: switch}, gas alarm: {",
            )
        ),
        ("[gas alarm: 6 ft", "[night switch: 2 ft, gas alarm: 6 ft"),
        ("gas alarm: {fuse", "gas alarm"),
        Level.SHOULD,
        ("dead when “night switch” is off",),
        (("fuse: 3 A, path: [gas alarm: …]", "night switch: 2 ft, ", ""),),
    ),
    # 1.5 W per ft: 22.5 W, 1.875 A along 4.572 m; half of it × 4.572 m × 0.24 V is 1.03 V, 8.6 %.
    Limit(
        "10 % at the far end of a strip",
        "strip too long",
        build(STRIP, battery=THICK),
        ("lit length: 15 ft", "lit length: 16 ft"),
        ("parts", "strip"),
        Level.WORTH,
        ("the far end of “strip” loses 10.9 %", "10 % is advised"),
        (("lit length: 15 ft at most", "lit length: 16 ft", "lit length: 15 ft"),),
    ),
    Limit(
        "what a strip works from",
        "strip too long",
        build(changed(STRIP, "15 ft", "22 ft 6 in"), battery=THICK),
        ("22 ft 6 in", "23 ft"),
        ("parts", "strip"),
        Level.SHOULD,
        ("gets 8.89 V when its supply is low", "9.00 V", "2.42 V of it is lost along the strip"),
        (("lit length: 14 ft 6 in at most", "23 ft", "14 ft 6 in"),),
    ),
    Limit(
        "a metric strip",
        "strip too long",
        build(
            changed(changed(STRIP, "1.5 W per ft", "4.8 W/m"), "15 ft", "4.8 m"),
            battery=changed(THICK, "8 AWG", "10 mm²"),
            shelf="2.5 mm²",
            more="country: DE",
        ),
        ("4.8 m", "5 m"),
        ("parts", "strip"),
        Level.WORTH,
        ("10 % is advised",),
        (("lit length: 4.80 m at most", "5 m}", "4.8 m}"),),
    ),
)
"""The tables that the numbers come from stand above them."""
