"""Limits of how a trailer is wired: thin wire, full connectors, fuses that are sold, charging."""

from __future__ import annotations

from rule_builds import BATTERY, FAN, FRAMED, LAMP, MAIN_30, PLUG, THICK, Limit, build, changed

from builder.rules.finding import Level

ONE = "wire: {on the shelf: [16 AWG], sold as: single, feed: red, return: black}\n"
"""Single wires; with ``shelf=""`` the only heading of the wire."""

PAIRS = "wire: {on the shelf: [18 AWG, 16 AWG], sold as: pair, feed: red, return: black}\n"

SINGLES = PAIRS.replace("pair", "single")

THROUGH = (
    "parts: {hatch plug: {kind: connector, ways: 4, rating: 5 A}, heater: {kind: heater, draws: 5 A}}\n"
    "circuits:\n  heater: {path: [hatch plug: 3 ft, heater: 3 ft]}\n"
)
LIT_BEHIND = (
    PLUG + "parts: {hatch plug: {kind: connector, ways: 4, rating: 6 A}}\nroad lamps:\n"
    "  plate lamp: {shows: plate, draws: {plate: 3 A}, path: [hatch plug: 9 ft, plate lamp: 2 ft]}\n"
    "  rear lamp: {shows: reverse, draws: {reverse: 3 A}, path: [hatch plug: 9 ft, rear lamp: 2 ft]}\n"
)
SUN = (
    "parts: {module: {kind: solar module, gives: 50 W}, controller: {kind: charge controller}}\n"
    "circuits:\n  sun: {from: module, path: [controller: 8 ft, battery fuse: 1 ft, battery: 6 in]}\n"
)
CAR = (
    "parts: {charger: {kind: dc charger}}\ncircuits:\n  charge line: {from: tow plug battery, path: "
    "[car-side fuse: 5 in, charger: 7 ft, battery fuse: 2 ft, battery: 6 in]}\n"
)
SHORE = (
    "mains: {what: inlet, done by: licensed electrician}\nparts: {shore converter: {kind: shore converter, "
    "gives: 24 A}}\ncircuits:\n  charging: {from: shore converter, size: 8 AWG, path: [end fuse: 3 ft, "
    "front box: 5 in]}\n"
)
HOLDER = (
    "parts: {fan fuse: {kind: fuse, rating: 5 A}, fan: {kind: fan, draws: 3 A}}\n"
    "circuits:\n  fan: {from: main fuse, path: [fan fuse: 5 in, fan: 6 ft]}\n"
)

WIRING_LIMITS = (
    # NEC 552.10(C): the bond at least 8 AWG, and not under the battery's lead.
    Limit(
        "a bond of 8 AWG",
        "wire too thin",
        build(LAMP, battery=FRAMED),
        ("frame bond: 8 AWG", "frame bond: 10 AWG"),
        ("battery", "10 AWG"),
        Level.SHOULD,
        ("bond to the frame is 10 AWG", "8 AWG is the smallest"),
        (("frame bond: 8 AWG", "frame bond: 10 AWG", "frame bond: 8 AWG"),),
    ),
    Limit(
        "a bond under the battery's lead",
        "wire too thin",
        build(LAMP, battery=changed(FRAMED, "frame bond: 8 AWG", "size: 4 AWG, frame bond: 4 AWG")),
        ("frame bond: 4 AWG", "frame bond: 6 AWG"),
        ("battery", "6 AWG"),
        Level.SHOULD,
        ("6 AWG, thinner than the battery's own line: 4 AWG",),
        (("frame bond: 4 AWG", "frame bond: 6 AWG", "frame bond: 4 AWG"),),
    ),
    Limit(
        "a metric bond under the battery's lead",
        "wire too thin",
        build(
            LAMP,
            battery=changed(FRAMED, "frame bond: 8 AWG", "size: 6 mm², frame bond: 6 mm²"),
            shelf="1.5 mm²",
            more="country: DE",
        ),
        ("frame bond: 6 mm²", "frame bond: 4 mm²"),
        ("battery", "4 mm²"),
        Level.SHOULD,
        ("4 mm²", "own line: 6 mm²"),
        (("frame bond: 6 mm²", "frame bond: 4 mm²", "frame bond: 6 mm²"),),
    ),
    # 33 CFR 183.425(e): 16 AWG for a wire by itself.
    Limit(
        "a circuit of single wires",
        "wire too thin",
        build(SINGLES + changed(LAMP, "{path", "{size: 16 AWG, path"), battery=THICK, shelf=""),
        ("lamp: {size: 16 AWG", "lamp: {size: 18 AWG"),
        ("lamp: {size", "lamp"),
        Level.WORTH,
        ("wire 1A of “lamp” is 18 AWG", "16 AWG is the smallest"),
        (
            ("size: 16 AWG", "size: 18 AWG", "size: 16 AWG"),
            ("sold as: pair", "sold as: single", "sold as: pair"),
        ),
    ),
    Limit(
        "an item of single wire",
        "wire too thin",
        build(ONE + changed(LAMP, "lamp: 6 ft", "lamp: {length: 6 ft, size: 16 AWG}"), shelf=""),
        ("size: 16 AWG}", "size: 18 AWG}"),
        ("lamp: {path", "lamp"),
        Level.WORTH,
        ("wire 1A of “lamp” is 18 AWG",),
        (("a size of its own: size: 16 AWG", "size: 18 AWG", "size: 16 AWG"),),
    ),
    Limit(
        "road lamps on single wire",
        "wire too thin",
        build(
            ONE + PLUG + "road lamps:\n  plate lamp: {shows: plate, path: [plate lamp: "
            "{length: 9 ft, size: 16 AWG}]}\n",
            shelf="",
        ),
        ("9 ft, size: 16 AWG", "9 ft, size: 18 AWG"),
        ("plate lamp", "plate lamp"),
        Level.WORTH,
        ("18 AWG",),
        (("road lamps give a size of their own: size: 16 AWG", "18 AWG", "16 AWG"),),
    ),
    # a feed in another colour than the pair's, and its return, are bought by themselves
    Limit(
        "a coloured feed where pairs are bought",
        "wire too thin",
        build(PAIRS + changed(LAMP, "{path", "{size: 18 AWG, path"), battery=THICK, shelf=""),
        ("size: 18 AWG, path", "size: 18 AWG, color: blue, path"),
        ("lamp: {size", "lamp"),
        Level.WORTH,
        ("wire 1A of “lamp” is 18 AWG", "16 AWG is the smallest"),
        (("size: 16 AWG", "size: 18 AWG", "size: 16 AWG"), ("leave its colours out", "color: blue, ", "")),
    ),
    # only what is on the shelf is bought as pairs
    Limit(
        "a size that is not on the shelf",
        "wire too thin",
        build(PAIRS.replace("18 AWG, ", "") + changed(LAMP, "{path", "{size: 16 AWG, path"), shelf=""),
        ("size: 16 AWG", "size: 18 AWG"),
        ("lamp: {size", "lamp"),
        Level.WORTH,
        ("wire 1A of “lamp” is 18 AWG", "16 AWG is the smallest"),
        (("size: 16 AWG", "size: 18 AWG", "size: 16 AWG"),),
    ),
    Limit(
        "a feed and a return of other lengths",
        "wire too thin",
        build(
            PAIRS + changed(LAMP, "6 ft]", "6 ft], return: {to: ground bar, length: 6 ft}"),
            battery=THICK,
            shelf="",
        ),
        ("length: 6 ft", "length: 7 ft"),
        ("wire", "wire"),
        Level.WORTH,
        ("18 AWG on the shelf is chosen for 2 wires", "16 AWG is the smallest"),
        (("begin with 16 AWG: not every wire here can be one of a pair", "[18 AWG, 16 AWG]", "[16 AWG]"),),
    ),
    Limit(
        "a shelf of pairs",
        "wire too thin",
        build(PAIRS + LAMP, battery=THICK, shelf=""),
        ("{path: [lamp", "{color: blue, path: [lamp"),
        ("wire", "wire"),
        Level.WORTH,
        ("18 AWG on the shelf is chosen for 2 wires", "16 AWG is the smallest"),
        (("begin with 16 AWG: not every wire here can be one of a pair", "[18 AWG, 16 AWG]", "[16 AWG]"),),
    ),
    Limit(
        "a shelf of single wires",
        "wire too thin",
        build(ONE + LAMP, battery=THICK, shelf=""),
        ("on the shelf: [16 AWG]", "on the shelf: [18 AWG]"),
        ("wire", "wire"),
        Level.WORTH,
        ("18 AWG on the shelf is chosen for 2 wires", "16 AWG"),
        (
            ("take 18 AWG out of on the shelf and begin with 16 AWG", "[18 AWG]", "[16 AWG]"),
            ("sold as: pair", "sold as: single", "sold as: pair"),
        ),
    ),
    Limit(
        "the rating of a connector",
        "connector overloaded",
        build(THROUGH, battery=THICK),
        ("draws: 5 A", "draws: 5.1 A"),
        ("parts", "hatch plug"),
        Level.MUST,
        ("way 1 of “hatch plug” carries 5.1 A", "bears 5 A"),
        (("rating: 5.1 A", "rating: 5 A", "rating: 5.1 A"),),
    ),
    Limit(
        "the way that takes the returns of all lamps",
        "connector overloaded",
        build(LIT_BEHIND, battery="", box=""),
        ("plate: 3 A", "plate: 3.1 A"),
        ("parts", "hatch plug"),
        Level.MUST,
        ("carries 6.1 A", "bears 6 A"),
        (
            ("rating: 6.1 A", "rating: 6 A", "rating: 6.1 A"),
            ("let less hang on that way", "plate: 3.1 A", "plate: 2 A"),
        ),
    ),
    # The usual draw of a heater is 4 A.
    Limit(
        "a connector before an assumed load",
        "connector overloaded",
        build(changed(changed(THROUGH, ", draws: 5 A", ""), "rating: 5 A", "rating: 4 A"), battery=THICK),
        ("rating: 4 A", "rating: 3.9 A"),
        ("parts", "hatch plug"),
        Level.SHOULD,
        ("carries 4 A", "bears 3.9 A"),
        (("rating: 4 A", "rating: 3.9 A", "rating: 4 A"),),
    ),
    Limit(
        "a line that ends before the battery",
        "battery not charged",
        build(SUN),
        (", battery fuse: 1 ft, battery: 6 in", ""),
        ("battery", "60 Ah"),
        Level.WORTH,
        ("nothing charges the battery",),
        (
            (
                "sun: {from: module, path: [controller: 8 ft, battery fuse: 1 ft, battery: 6 in]}",
                "[controller: 8 ft]",
                "[controller: 8 ft, battery fuse: 1 ft, battery: 6 in]",
            ),
        ),
    ),
    Limit(
        "a plug that could charge",
        "battery not charged",
        build(PLUG + CAR),
        (", battery fuse: 2 ft, battery: 6 in", ""),
        ("battery", "60 Ah"),
        Level.WORTH,
        ("nothing charges the battery",),
        (
            (
                "charge line: {from: tow plug battery, path: [car-side fuse: 5 in, charger: 7 ft, battery fuse: 2 ft, "
                "battery: 6 in]}",
                "charger: 7 ft]",
                "charger: 7 ft, battery fuse: 2 ft, battery: 6 in]",
            ),
        ),
    ),
    Limit(
        "shore power alone",
        "battery not charged",
        build(SHORE + LAMP.partition("circuits:\n")[2], battery=MAIN_30).replace(
            "gives: 24 A}}", "gives: 24 A}, lamp: {kind: lamp, draws: 3 W}}"
        ),
        (
            "  charging: {from: shore converter, size: 8 AWG, path: [end fuse: 3 ft, front box: 5 in]}\n",
            "",
        ),
        ("battery", "60 Ah"),
        Level.WORTH,
        ("a full one lasts 24 nights of usual use, or more",),
        (
            (
                "sun: {from: module,",
                "circuits:",
                "circuits:\n  sun: {from: shore converter, path: [end fuse: 3 ft, front box: 5 in]}",
            ),
        ),
    ),
    # 29 CFR 1926.441(a).
    Limit(
        "a battery that gives off gas",
        "battery not vented",
        build(LAMP),
        ("chemistry: agm", "chemistry: flooded"),
        ("battery", "60 Ah"),
        Level.SHOULD,
        ("a flooded one",),
        (("box: own box vented outside", "flooded", "flooded, box: own box vented outside"),),
    ),
    # The usual list of blade fuses.
    Limit(
        "a rating that is not sold",
        "fuse not sold",
        build(FAN),
        ("fuse: 10 A", "fuse: 9 A"),
        ("fan: {fuse", "9 A"),
        Level.SHOULD,
        ("the fuse of “fan” is 9 A", "blade regular fuses"),
        (("fuse: 7.5 A", "fuse: 9 A", "fuse: 7.5 A"),),
    ),
    Limit(
        "a rating of another kind of blade",
        "fuse not sold",
        build(
            changed(changed(FAN, "3 A", "12 A"), "fuse: 10 A", "fuse: 30 A, size: 10 AWG"),
            box="front box: {fuse ways: 4, fuses: blade mini}",
        ),
        ("fuse: 30 A", "fuse: 40 A"),
        ("fan: {fuse", "40 A"),
        Level.SHOULD,
        ("40 A", "blade mini fuses"),
        (("fuse: 30 A", "fuse: 40 A", "fuse: 30 A"),),
    ),
    Limit(
        "a block of a kind that has no such small fuse",
        "fuse not sold",
        build(changed(FAN, "10 A", "5 A"), box="front box: {fuse ways: 4, fuses: blade regular}"),
        ("blade regular", "blade maxi"),
        ("fan: {fuse", "5 A"),
        Level.SHOULD,
        ("5 A", "blade maxi fuses"),
        (("fuses: blade mini under front box", "blade maxi", "blade mini"),),
    ),
    Limit(
        "a holder with a rating that is not sold",
        "fuse not sold",
        build(HOLDER, battery=MAIN_30),
        ("rating: 5 A", "rating: 6 A"),
        ("parts", "fan fuse"),
        Level.SHOULD,
        ("“fan fuse” is 6 A",),
        (("rating: 5 A", "rating: 6 A", "rating: 5 A"),),
    ),
    Limit(
        "a shelf with a rating that is not sold",
        "fuse not sold",
        build(LAMP, box="front box: {fuse ways: 4, fuses on the shelf: [3 A, 5 A]}"),
        ("5 A]", "6 A]"),
        ("front box", "front box"),
        Level.SHOULD,
        ("6 A stands among the fuses on the shelf",),
        (("take 6 A out of fuses on the shelf", ", 6 A", ""),),
    ),
    # 40 % of 60 Ah is 24 A, 30 % is 18 A.
    Limit(
        "a charger at what a lead battery's sheet allows",
        "charger too large",
        build(SHORE, battery=MAIN_30),
        ("gives: 24 A", "gives: 24.1 A"),
        ("parts", "shore converter"),
        Level.SHOULD,
        ("“shore converter” gives 24.1 A", "40 % of the battery's 60 Ah, which is 24 A"),
        (("gives: 18 A", "gives: 24.1 A", "gives: 18 A"),),
    ),
    Limit(
        "a charger at what is advised for a lead battery",
        "charger too large",
        build(changed(SHORE, "24 A", "18 A"), battery=MAIN_30),
        ("gives: 18 A", "gives: 18.1 A"),
        ("parts", "shore converter"),
        Level.WORTH,
        ("30 %", "18 A"),
        (("gives: 18 A", "gives: 18.1 A", "gives: 18 A"),),
    ),
    # 80 % of 15 Ah is 12 A, 50 % is 7.5 A.
    Limit(
        "a charger at what a lithium battery's sheet allows",
        "charger too large",
        build(
            changed(SHORE, "24 A", "12 A"), battery=changed(changed(MAIN_30, "60", "15"), "agm", "lithium")
        ),
        ("gives: 12 A", "gives: 12.1 A"),
        ("parts", "shore converter"),
        Level.SHOULD,
        ("80 %", "12 A"),
        (("gives: 7.5 A", "gives: 12.1 A", "gives: 7.5 A"),),
    ),
    # 50 W at 14.4 V, 90 %: 3.13 A; 30 % of 11 Ah is 3.3 A, of 10 Ah 3 A.
    Limit(
        "a module that gives more than a small battery takes",
        "charger too large",
        build(SUN, battery=changed(BATTERY, "60", "11")),
        ("capacity: 11 Ah", "capacity: 10 Ah"),
        ("parts", "controller"),
        Level.WORTH,
        ("“controller” gives 3.13 A", "10 Ah", "3 A"),
        (("or a larger battery", "10 Ah", "20 Ah"),),
    ),
)
"""The tables that the numbers come from stand above them."""
