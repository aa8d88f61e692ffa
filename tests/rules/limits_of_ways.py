"""Limits of ways: written lengths against the way through the chases, chases that do not meet, full conduits."""

from __future__ import annotations

from rule_builds import LAMP, Limit, build, changed

from builder.rules.finding import Level

PLACES = (
    "places:\n  front box: {back: 1 ft, up: 2 ft}\n  corner: {back: 1 ft, left: 2 ft, up: 2 ft}\n"
    "  lamp: {back: 7 ft, left: 2 ft, up: 2 ft}\n"
)
GROOVE = PLACES + "chases: {groove: {through: [front box, corner, lamp]}}\n"
THROUGH = (
    "parts: {ceiling lamp: {place: lamp, kind: lamp, draws: 3 W}}\n"
    "circuits:\n  light: {path: [ceiling lamp: {length: 9 ft, through: groove}]}\n"
)
HINGE = PLACES + (
    "chases:\n  groove: {through: [front box, corner]}\n"
    "  hinge: {kind: hinge loop, slack: 10 in, through: [corner, lamp]}\n"
)
RISES = changed(LAMP, "draws: 3 W", "rise: 1 ft, draws: 3 W")
TUBE = PLACES + "chases: {tube: {through: [front box, lamp], kind: conduit, bore: BORE}}\n"
TWO_IN_TUBE = build(TUBE.replace("BORE", "9 mm") + changed(LAMP, "6 ft", "8 ft"))
PLUG_PLACES = (
    "tow plug: {pattern: 7-way blade, to front box: 9 ft}\n"
    "places:\n  tow plug: {ahead: 3 ft, up: 2 ft}\n  front box: {back: 4 ft, up: 2 ft}\n"
)
PLUG_GROOVE = PLUG_PLACES + "chases: {beam: {through: [tow plug, front box]}}\n"
PLUG_LINE = (
    "parts: {charger: {kind: dc charger, place: front box, gives: 10 A}}\n"
    "circuits:\n  charge: {from: tow plug battery, size: 8 AWG, "
    "path: [car-side fuse: 1 ft, charger: 6 ft, battery fuse: 2 ft, battery: 7 in]}\n"
)
SPARE = "spares:\n  third: {from: front box, to: lamp, wire: 8 ft, size: 16 AWG}\n"
THREE_IN_TUBE = build(TUBE.replace("BORE", "BIG") + changed(LAMP, "6 ft", "8 ft") + SPARE)

WAY_LIMITS = (
    # 2 ft to the corner and 6 ft along the wall are 8 ft; an inch is left for the tape.
    Limit(
        "the way through a groove",
        "wire too short",
        build(GROOVE + changed(LAMP, "6 ft", "7 ft 11 in")),
        ("7 ft 11 in", "7 ft 10 in"),
        ("lamp: {path", "lamp"),
        Level.MUST,
        ("wire 1A", "7 ft 10 in", "8 ft"),
        (("write 9 ft at least", "7 ft 10 in", "9 ft"),),
    ),
    Limit(
        "the rise to a part",
        "wire too short",
        build(GROOVE + changed(RISES, "6 ft", "9 ft")),
        ("lamp: 9 ft", "lamp: 8 ft 10 in"),
        ("lamp: {path", "lamp"),
        Level.MUST,
        ("its way is 9 ft",),
        (("write 10 ft at least", "8 ft 10 in", "10 ft"),),
    ),
    Limit(
        "the slack that the file gives for a hinge",
        "wire too short",
        build(HINGE + changed(LAMP, "6 ft", "8 ft 10 in")),
        ("8 ft 10 in", "8 ft 8 in"),
        ("lamp: {path", "lamp"),
        Level.MUST,
        ("its way is 8 ft 10 in",),
        (("write 9 ft 10 in at least", "8 ft 8 in", "9 ft 10 in"),),
    ),
    # 8 ft and 1 ft of loop are 9 ft; 1.25 times that and 18 in are 12 ft 9 in.
    Limit(
        "a quarter and 18 in beyond the way",
        "wire longer than way",
        build(GROOVE + changed(LAMP, "6 ft", "12 ft 9 in")),
        ("12 ft 9 in", "12 ft 10 in"),
        ("lamp: {path", "lamp"),
        Level.WORTH,
        ("12 ft 10 in", "9 ft"),
        (("write 9 ft", "12 ft 10 in", "9 ft"),),
    ),
    # 3 ft ahead of the body to 4 ft behind its front are 7 ft; an inch is left for the tape.
    Limit(
        "a line from the plug past a fuse without a place",
        "wire too short",
        build(PLUG_GROOVE + changed(PLUG_LINE, "charger: 6 ft", "charger: 5 ft 11 in")),
        ("5 ft 11 in", "5 ft 10 in"),
        ("charge: {from", "charger"),
        Level.MUST,
        ("wires 1A, 1B from “tow plug” to “charger”", "6 ft 10 in together", "their way is 7 ft"),
        (("write 7 ft at least for them together", "5 ft 10 in", "6 ft"),),
    ),
    Limit(
        "a line from the plug that no chase leads",
        "wire too short",
        build(PLUG_PLACES + changed(PLUG_LINE, "charger: 6 ft", "charger: 5 ft 11 in")),
        ("5 ft 11 in", "5 ft 10 in"),
        ("charge: {from", "charger"),
        Level.MUST,
        ("wires 1A, 1B from “tow plug” to “charger”", "the straight distance is 7 ft"),
        (("write 7 ft at least for them together", "5 ft 10 in", "6 ft"),),
    ),
    Limit(
        "a line from the plug with places at both its ends",
        "wire too short",
        build(PLUG_GROOVE + changed(PLUG_LINE, "car-side fuse: 1 ft, charger: 6 ft", "charger: 6 ft 11 in")),
        ("6 ft 11 in", "6 ft 10 in"),
        ("charge: {from", "charger"),
        Level.MUST,
        ("wire 1A from “tow plug” to “charger” is written as 6 ft 10 in, and its way is 7 ft",),
        (("write 7 ft at least", "6 ft 10 in", "7 ft"),),
    ),
    # 1.25 times 7 ft and 18 in are 10 ft 3 in.
    Limit(
        "a quarter and 18 in beyond the way of a line from the plug",
        "wire longer than way",
        build(PLUG_GROOVE + changed(PLUG_LINE, "charger: 6 ft", "charger: 9 ft 3 in")),
        ("9 ft 3 in", "9 ft 4 in"),
        ("charge: {from", "charger"),
        Level.WORTH,
        ("wires 1A, 1B from “tow plug” to “charger”", "10 ft 4 in together", "7 ft"),
        (("write 7 ft for them together", "9 ft 4 in", "6 ft"),),
    ),
    Limit(
        "chases that meet at a named place",
        "no way for wire",
        build(GROOVE + changed(LAMP, "6 ft", "9 ft")),
        ("[front box, corner, lamp]", "[front box, corner]"),
        ("lamp: {path", "lamp"),
        Level.SHOULD,
        ("“front box” to “lamp”",),
        (("link: {through: [corner, lamp]}", "corner]}}", "corner]}, link: {through: [corner, lamp]}}"),),
    ),
    Limit(
        "a place for what a wire leads to through a chase",
        "no way for wire",
        build(GROOVE + THROUGH),
        ("place: lamp, ", ""),
        ("light: {path", "ceiling lamp"),
        Level.SHOULD,
        ("the way of 1A, 1B is not known, since “ceiling lamp” has no place: “groove” under through",),
        (
            ("as in place: lamp", "kind: lamp", "place: lamp, kind: lamp"),
            (
                "as in ceiling lamp: {back: 4 ft, left: 2 ft, up: 1 ft}, and let a chase run through",
                GROOVE,
                GROOVE.replace("  lamp", "  ceiling lamp").replace("corner, lamp", "corner, ceiling lamp"),
            ),
        ),
    ),
    # Two wires of 3.0 mm in 7.62 mm: 2 × 9 / 58.1 = 31.0 %; the table allows 31 %.
    Limit(
        "31 % for two wires",
        "conduit too full",
        changed(TWO_IN_TUBE, "9 mm", "7.7 mm"),
        ("7.7 mm", "7.6 mm"),
        ("chases:", "7.6 mm"),
        Level.SHOULD,
        ("2 wires take 31.2 %", "31 %"),
        (("5/16 in", "7.6 mm", "5/16 in"),),
    ),
    Limit(
        "two wires that do not go in",
        "conduit too full",
        changed(TWO_IN_TUBE, "9 mm", "4.3 mm"),
        ("4.3 mm", "4.2 mm"),
        ("chases:", "4.2 mm"),
        Level.MUST,
        ("do not go in",),
        (("5/16 in", "4.2 mm", "5/16 in"),),
    ),
    # 9.6 mm over 3.0 mm is 3.2: still between the table's two figures.
    Limit(
        "3.2 times the diameter",
        "wires may jam",
        changed(THREE_IN_TUBE, "BIG", "9.7 mm"),
        ("9.7 mm", "9.6 mm"),
        ("chases:", "9.6 mm"),
        Level.WORTH,
        ("3.2 times",),
        (("above 3.2 times", "9.6 mm", "10 mm"),),
    ),
    Limit(
        "2.8 times the diameter",
        "wires may jam",
        changed(THREE_IN_TUBE, "BIG", "8.3 mm"),
        ("8.3 mm", "8.4 mm"),
        ("chases:", "8.4 mm"),
        Level.WORTH,
        ("2.8 times",),
        (("below 2.8", "8.4 mm", "8.3 mm"),),
    ),
)
