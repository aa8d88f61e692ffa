"""Limits of values: what a wire bears, a switch is rated for, a part is made for, and what looks like a slip."""

from __future__ import annotations

from rule_builds import BATTERY, LAMP, PHONE, PLUG, THICK, Limit, build, changed

from builder.rules.finding import Level

HOT = (
    "parts: {heater: {kind: heater, draws: 10 A}}\n"
    "circuits:\n  heater: {size: 18 AWG, fuse: 15 A, path: [heater: 2 ft]}\n"
)
SWITCHED = (
    "parts: {wall switch: {kind: switch, rating: 5 A}, heater: {kind: heater, draws: 5 A}}\n"
    "circuits:\n  heater: {path: [wall switch: 3 ft, heater: 3 ft]}\n"
)
SUN = (
    "parts: {module: {kind: solar module, gives: 50 W}, controller: {kind: charge controller}}\n"
    "circuits:\n  sun: {from: module, path: [controller: 8 ft, battery fuse: 1 ft, battery: 6 in]}\n"
)
CAR = (
    "parts: {charger: {kind: dc charger, gives: 10 A}}\ncircuits:\n  charge: {from: tow plug battery, "
    "size: 10 AWG, path: [line fuse: 5 in, charger: 7 ft, battery fuse: 2 ft, battery: 7 in]}\n"
)
BRAKES = (
    PLUG + "parts: {brakes: {kind: appliance, draws: 30 A}}\n"
    "circuits:\n  brakes: {from: tow plug brake, size: 10 AWG, path: [brakes: 9 ft]}\n"
)

GROUNDS = (
    PLUG + "parts: {heater: {kind: heater, draws: 20 A}, brakes: {kind: appliance, draws: 12.5 A}}\n"
    "circuits:\n  heater: {from: tow plug battery, size: 8 AWG, path: [line fuse: 5 in, heater: 2 ft]}\n"
    "  brakes: {from: tow plug brake, size: 10 AWG, path: [brakes: 9 ft]}\n"
)

DIRECT = (
    "parts: {charger: {kind: dc charger, gives: 10 A}}\ncircuits:\n  charge: {from: tow plug battery, "
    "size: 8 AWG, path: [car-side fuse: 18 in, battery fuse: 7 ft, battery: 5 in]}\n"
)
AWAY = (
    "brakes: {kind: electric, magnets: 2, breakaway battery: 5 Ah}\n"
    "parts: {cell: {kind: breakaway battery}, switch: {kind: breakaway switch}, left: {kind: brake magnet}, "
    "right: {kind: brake magnet}}\ncircuits:\n"
    "  brakes: {from: tow plug brake, size: 10 AWG, path: [left: 12 ft, right: 5 ft]}\n"
    "  away: {from: cell, fuse: 20 A, size: 10 AWG, path: [switch: 1 ft, left: 9 ft]}\n"
)

LINE_SWITCH = changed(LAMP, "parts: {", "parts: {isolating switch: {kind: isolating switch, rating: 30 A}, ")
LINE_OF_30_A = (
    "battery: {chemistry: agm, capacity: 9 Ah, fuse: 30 A, size: 8 AWG, "
    "path: [main fuse: 5 in, isolating switch: 1 ft, front box: 1 ft]}"
)

VALUE_LIMITS = (
    # 33 CFR 183.425 Table 5: 18 AWG bears 10 A at 60 °C; × 0.816 at 40 °C.
    Limit(
        "the table's own figure",
        "wire overloaded",
        build(HOT, battery=THICK),
        ("draws: 10 A", "draws: 10.1 A"),
        ("heater: {size", "heater"),
        Level.MUST,
        ("1A", "18 AWG", "10.1 A", "bears 10 A"),
        (("“heater”: size: 16 AWG", "size: 18 AWG", "size: 16 AWG"),),
    ),
    Limit(
        "the table's figure in warm surroundings",
        "wire overloaded",
        build(changed(HOT, "10 A", "8.1 A"), battery=THICK),
        ("8.1 A", "8.2 A"),
        ("heater: {size", "heater"),
        Level.SHOULD,
        ("8.2 A", "bears 8.16 A"),
        (("“heater”: size: 16 AWG", "size: 18 AWG", "size: 16 AWG"),),
    ),
    Limit(
        "an item with a size of its own",
        "wire overloaded",
        build(
            changed(changed(HOT, "size: 18 AWG, ", ""), "2 ft", "{length: 2 ft, size: 18 AWG}"), battery=THICK
        ),
        ("draws: 10 A", "draws: 10.1 A"),
        ("heater: {fuse", "heater"),
        Level.MUST,
        ("bears 10 A",),
        (("size: 16 AWG, there and at the items", "18 AWG", "16 AWG"),),
    ),
    Limit(
        "road lamps on thin wire",
        "wire overloaded",
        build(
            PLUG + "road lamps:\n  plate lamp: {shows: plate, draws: {plate: 9 A}, "
            "path: [plate lamp: {length: 2 ft, size: 18 AWG}]}\n"
        ),
        ("plate: 9 A", "plate: 10.1 A"),
        ("plate lamp: {shows", "plate lamp"),
        Level.MUST,
        ("18 AWG", "bears 10 A"),
        (("size: 16 AWG at each item", "18 AWG", "16 AWG"),),
    ),
    Limit(
        "the rating of a switch",
        "switch too small",
        build(SWITCHED, battery=THICK),
        ("draws: 5 A", "draws: 5.1 A"),
        ("parts", "wall switch"),
        Level.MUST,
        ("“wall switch”", "5.1 A", "rating is 5 A"),
        (("rating: 5.1 A", "rating: 5 A", "rating: 5.1 A"),),
    ),
    # FAA AC 43.13-1B Table 11-4: a motor at 12 V asks for twice its current.
    Limit(
        "a motor behind a switch",
        "switch too small",
        build(changed(SWITCHED, "kind: heater, draws: 5 A", "kind: fan, draws: 2.5 A")),
        ("2.5 A", "2.6 A"),
        ("parts", "wall switch"),
        Level.SHOULD,
        ("2.6 A of a motor", "5.2 A"),
        (("rating: 5.2 A", "rating: 5 A", "rating: 5.2 A"),),
    ),
    # Common practice: what the main fuse lets pass goes through the switch behind it.
    Limit(
        "a switch in the battery's line",
        "switch too small",
        build(LINE_SWITCH, battery=LINE_OF_30_A),
        ("rating: 30 A", "rating: 29.9 A"),
        ("parts", "isolating switch"),
        Level.SHOULD,
        ("“isolating switch”", "rating of 29.9 A", "lets 30 A pass"),
        (("rating: 30 A", "rating: 29.9 A", "rating: 30 A"),),
    ),
    Limit(
        "a label for a higher voltage",
        "wrong voltage",
        build(changed(LAMP, "3 W", "3 W, at: 16.2 V")),
        ("16.2 V", "16.3 V"),
        ("parts", "lamp"),
        Level.MUST,
        ("is for 16.3 V", "gets 12 V"),
        (("mend its at: 12 V", "16.3 V", "12 V"),),
    ),
    Limit(
        "a part for 12 V behind a converter to 5 V",
        "wrong voltage",
        build(PHONE),
        (", at: 5 V", ""),
        ("parts", "socket"),
        Level.SHOULD,
        ("gets 5 V from “converter”",),
        (("write at: 5 V", "draws: 15 W", "draws: 15 W, at: 5 V"),),
    ),
    Limit(
        "a draw that is very small",
        "unlikely value",
        build(changed(LAMP, "3 W", "50 mW")),
        ("50 mW", "49 mW"),
        ("parts", "lamp"),
        Level.WORTH,
        ("49 mW", "1 to 10 W"),
        (("was W meant", "49 mW", "4 W"),),
    ),
    Limit(
        "a wire far longer than the trailer",
        "unlikely value",
        build("trailer: {length: 10 ft, width: 5 ft}\n" + changed(LAMP, "6 ft", "30 ft")),
        ("30 ft", "31 ft"),
        ("lamp: {path", "lamp"),
        Level.WORTH,
        ("31 ft", "10 ft"),
        (("look at its length", "31 ft", "13 ft"),),
    ),
    # The body is 4 ft wide, and a tape may be off by 10 mm, which is between 3/8 and 1/2 in.
    Limit(
        "a groove outside its wall",
        "unlikely value",
        build(
            "body: {profile: [{back: 0 in, up: 0 in}, {back: 8 ft, up: 0 in}, {back: 8 ft, up: 4 ft}, "
            "{back: 0 in, up: 4 ft}], width: 4 ft}\n"
            "places:\n  front box: {back: 1 ft, right: 1 ft, up: 2 ft}\n"
            "  lamp: {back: 6 ft, right: 2 ft 0 3/8 in, up: 2 ft}\n"
            "chases: {groove: {through: [front box, lamp]}}\n" + changed(LAMP, "6 ft", "8 ft")
        ),
        ("2 ft 0 3/8 in", "2 ft 0 1/2 in"),
        ("lamp: {back", "lamp"),
        Level.WORTH,
        ("“lamp” is 1/2 in outside", "“groove” runs through it"),
        (
            ("measure it again", "2 ft 0 1/2 in", "2 ft"),
            ("kind: channel", "front box, lamp]}}", "front box, lamp], kind: channel}}"),
        ),
    ),
    Limit(
        "a fuse many times its load",
        "fuse far above load",
        build(
            changed(changed(LAMP, "3 W", "18 W"), "{path", "{fuse: 15 A, size: 12 AWG, path"), battery=THICK
        ),
        ("15 A", "20 A"),
        ("lamp: {fuse", "20 A"),
        Level.WORTH,
        ("20 A", "13 times", "1.5 A"),
        (("fuse: 3 A", "fuse: 20 A", "fuse: 3 A"),),
    ),
    Limit(
        "a shelf with nothing between",
        "fuse far above load",
        build(LAMP, box="front box: {fuse ways: 4, fuses on the shelf: [3 A, 40 A]}", shelf="16 AWG, 6 AWG"),
        ("[3 A, 40 A]", "[40 A]"),
        ("lamp: {path", "lamp"),
        Level.WORTH,
        ("40 A",),
        (("add 3 A to fuses on the shelf", "[40 A]", "[3 A, 40 A]"),),
    ),
    Limit(
        "a module without a controller",
        "uncontrolled charging",
        build(SUN),
        ("controller: 8 ft, ", ""),
        ("sun: {from", "battery"),
        Level.SHOULD,
        ("“sun”", "“module”"),
        (("path: [controller: 8 ft", "battery fuse: 1 ft", "controller: 8 ft, battery fuse: 1 ft"),),
    ),
    Limit(
        "a lithium battery on the car itself",
        "uncontrolled charging",
        build(PLUG + CAR, battery=changed(BATTERY, "agm", "lithium")),
        ("charger: 7 ft, ", ""),
        ("charge: {from", "battery"),
        Level.SHOULD,
        ("“charge”", "lithium"),
        (("path: [charger: 8 ft", "battery fuse: 2 ft", "charger: 8 ft, battery fuse: 2 ft"),),
    ),
    # 33 CFR 183.425 Table 5: 10 AWG bears 40 A at 60 °C; × 0.816 at 40 °C. Two wires land on contact 1.
    Limit(
        "more than the plug's one ground carries",
        "plug ground shared",
        build(GROUNDS, battery=THICK),
        ("12.5 A", "13 A"),
        ("tow plug: {", "tow plug"),
        Level.SHOULD,
        ("33 A", "contact 1", "contacts 2, 4", "10 AWG", "carries 32.66 A"),
        (("a charger that takes less", "13 A", "12 A"),),
    ),
    # At most 0.2 V in the ground of lamps: 20 A on 7 ft of 10 AWG are below it, 25 A above.
    Limit(
        "more than lamps should lose in their ground",
        "plug ground shared",
        build(
            changed(GROUNDS, "12.5 A", "1 A")
            + "road lamps: {lamps: led, plate lamp: {shows: plate, wire: 9 ft}}\n",
            battery=THICK,
        ),
        ("draws: 1 A", "draws: 6 A"),
        ("tow plug: {", "tow plug"),
        Level.WORTH,
        ("contact 1", "contacts 2, 3, 4", "10 AWG, loses 0.2"),
        (("a charger that takes less", "draws: 6 A", "draws: 1 A"),),
    ),
    # NEC 552.10(E)(4) as quoted: within 18 in of where a supply joins.
    Limit(
        "a line that car and battery can both feed",
        "charge line unfused",
        build(PLUG + DIRECT, battery=THICK),
        ("car-side fuse: 18 in", "car-side fuse: 19 in"),
        ("charge: {from", "car-side fuse"),
        Level.SHOULD,
        ("“charge”", "1 ft 7 in of wire from the plug", "1 ft 6 in is the most"),
        (
            ("put one within 1 ft 6 in", "19 in", "1 ft"),
            ("a dc charger on the path", "battery fuse: 7 ft", "charger: 7 ft, battery fuse: 1 ft"),
        ),
    ),
    # The file itself: a magnet that the car brakes and the breakaway does not.
    Limit(
        "a breakaway that leaves a brake out",
        "breakaway not reaching",
        build(PLUG + AWAY),
        ("[switch: 1 ft, left: 9 ft]", "[switch: 1 ft]"),
        ("away: {from", "away"),
        Level.SHOULD,
        ("“away” does not reach “left” and “right”",),
        (("let it end at a splice or a magnet", "[switch: 1 ft]", "[switch: 1 ft, right: 9 ft]"),),
    ),
    # The usual fuse of the brake contact of a 7-way blade plug: 20 to 30 A.
    Limit(
        "more than the car's fuse",
        "plug contact overloaded",
        build(BRAKES, battery=THICK),
        ("30 A", "30.5 A"),
        ("brakes: {from", "brakes"),
        Level.SHOULD,
        ("30.5 A", "contact 2", "30 A at most"),
        (("take 30 A at most", "30.5 A", "30 A"),),
    ),
    Limit(
        "numbers that the file alone calls issued",
        "numbers not issued",
        build(LAMP, more="country: US, numbers: draft"),
        ("numbers: draft", "numbers: issued"),
        ("build:", "issued"),
        Level.WORTH,
        ("drafts", "1A"),
        (("numbers: draft", "numbers: issued", "numbers: draft"),),
    ),
)
"""The tables that the numbers come from stand above them."""
