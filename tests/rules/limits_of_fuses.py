"""Limits of fuses: what they bear, what hangs on them, how far from the battery they stand."""

from __future__ import annotations

from rule_builds import (
    ALARM,
    BATTERY,
    CHARGE,
    FAN,
    HEATER,
    LAMP,
    MAIN_30,
    PLUG,
    SHORE,
    THICK,
    Limit,
    build,
    changed,
)

from builder.rules.finding import Level

SHARED_RETURN = (
    "parts: {bar: {kind: bar}, lamp: {kind: lamp, draws: 2 W}, fan: {kind: fan, draws: 3 A}}\ncircuits:\n"
    "  light: {size: 14 AWG, path: [bar: 6 ft, lamp: 2 ft]}\n"
    "  fan: {fuse: 15 A, size: 14 AWG, path: [fan: 6 ft], return: {to: bar, length: 2 ft}}\n"
)

FUSE_LIMITS = (
    # FAA AC 43.13-1B Table 11-3: 16 AWG 10 A, 14 AWG 15 A, 12 AWG 20 A; breakers 16 AWG 15 A, 14 AWG 20 A.
    Limit(
        "a fuse on 16 AWG",
        "fuse above wire",
        build(FAN),
        ("fuse: 10 A", "fuse: 15 A"),
        ("fan: {fuse", "15 A"),
        Level.MUST,
        ("15 A fuse", "1A (16 AWG)", "10 A"),
        (
            ("fuse: 10 A", "fuse: 15 A", "fuse: 10 A"),
            ("size: 14 AWG", "fuse: 15 A", "fuse: 15 A, size: 14 AWG"),
        ),
    ),
    Limit(
        "a fuse on 14 AWG",
        "fuse above wire",
        build(changed(FAN, "10 A", "15 A"), shelf="14 AWG"),
        ("15 A", "20 A"),
        ("fan: {fuse", "20 A"),
        Level.MUST,
        ("20 A fuse", "14 AWG", "15 A"),
        (("fuse: 15 A", "20 A", "15 A"), ("size: 12 AWG", "fuse: 20 A", "fuse: 20 A, size: 12 AWG")),
    ),
    Limit(
        "a breaker on 16 AWG goes by the chart's own column",
        "fuse above wire",
        build(
            "parts: {guard breaker: {kind: breaker, rating: 15 A}, fan: {kind: fan, draws: 3 A}}\ncircuits:\n"
            "  fan: {path: [guard breaker: 1 ft, fan: 6 ft]}\n"
        ),
        ("rating: 15 A", "rating: 20 A"),
        ("parts", "guard breaker"),
        Level.MUST,
        ("20 A breaker", "15 A"),
        (
            ("rating: 15 A", "rating: 20 A", "rating: 15 A"),
            ("size: 14 AWG", "fan: {path", "fan: {size: 14 AWG, path"),
        ),
    ),
    # 33 CFR 183.455(c)(1) on 183.425 Table 5: 150 % of 15 A for 16 AWG at 60 °C is 22.5 A.
    Limit(
        "a return that is another circuit's",
        "fuse above wire",
        build(SHARED_RETURN, shelf="16 AWG, 14 AWG"),
        ("light: {size: 14 AWG", "light: {size: 16 AWG"),
        ("fan: {fuse", "15 A"),
        Level.MUST,
        ("15 A fuse of “fan”", "1C (16 AWG)", "10 A"),
        (
            ("fuse: 10 A", "fuse: 15 A", "fuse: 10 A"),
            ("in place of 1C: size: 14 AWG", "light: {size: 16 AWG", "light: {size: 14 AWG"),
        ),
    ),
    Limit(
        "the boat rule, where the file asks for it",
        "fuse above wire",
        build(changed(FAN, "10 A", "20 A"), box="front box: {fuse ways: 4, check against: boat rule}"),
        ("20 A", "25 A"),
        ("fan: {fuse", "25 A"),
        Level.MUST,
        ("25 A fuse", "22.5 A"),
        (("fuse: 20 A", "25 A", "20 A"),),
    ),
    Limit(
        "a metric size goes by the gauge below it",
        "fuse above wire",
        build(changed(FAN, "10 A", "15 A"), shelf="2.5 mm²", more="country: DE"),
        ("15 A", "20 A"),
        ("fan: {fuse", "20 A"),
        Level.MUST,
        ("2.5 mm²", "15 A"),
        (("fuse: 15 A", "20 A", "15 A"), ("size: 4 mm²", "fuse: 20 A", "fuse: 20 A, size: 4 mm²")),
    ),
    Limit(
        "a load that needs its fuse",
        "fuse above wire",
        build(
            "parts: {heater: {kind: heater, "
            "draws: 12 A}}\ncircuits:\n  heater: {fuse: 15 A, size: 14 AWG, path: [heater: 1 ft]}\n"
        ),
        ("size: 14 AWG", "size: 16 AWG"),
        ("heater: {fuse", "15 A"),
        Level.MUST,
        ("16 AWG",),
        (("size: 14 AWG", "size: 16 AWG", "size: 14 AWG"),),
    ),
    # The same chart: a 30 A fuse needs 10 AWG.
    Limit(
        "no fuse between the main fuse and a thin wire",
        "no own fuse",
        build(ALARM, battery=MAIN_30),
        ("size: 10 AWG", "size: 12 AWG"),
        ("alarm: {from", "alarm"),
        Level.MUST,
        ("no fuse of its own", "30 A main fuse", "12 AWG", "20 A"),
        (("fuse: 3 A", "from: main fuse", "from: main fuse, fuse: 3 A"),),
    ),
    Limit(
        "no fuse behind the isolating switch",
        "no own fuse",
        build(changed(ALARM, "main fuse", "isolating switch"), battery=MAIN_30),
        ("size: 10 AWG", "size: 12 AWG"),
        ("alarm: {from", "alarm"),
        Level.MUST,
        ("30 A main fuse",),
        (("fuse: 3 A", "from: isolating switch", "from: isolating switch, fuse: 3 A"),),
    ),
    Limit(
        "a charging line without a fuse at the front box",
        "no own fuse",
        build(SHORE, battery=MAIN_30),
        ("size: 10 AWG", "size: 12 AWG"),
        ("charging: {from", "charging"),
        Level.MUST,
        ("30 A main fuse", "12 AWG"),
        (
            (
                "path: […, charging fuse: 3 ft, front box: 5 in]",
                "path: [front box: 5 ft]",
                "path: [charging fuse: 3 ft, front box: 5 in]",
            ),
        ),
    ),
    # 33 CFR 183.455(b)(1): 7 in.
    Limit(
        "a fuse of its own that stands far along",
        "no own fuse",
        build(
            changed(ALARM, "size: 10 AWG, path: [", "size: 16 AWG, path: [alarm fuse: 7 in, "),
            battery=MAIN_30,
        ),
        ("alarm fuse: 7 in", "alarm fuse: 7.5 in"),
        ("alarm: {from", "alarm fuse"),
        Level.SHOULD,
        ("30 A main fuse",),
        (
            ("at most 7 in", "alarm fuse: 7.5 in", "alarm fuse: 7 in"),
            ("size: 10 AWG", "size: 16 AWG", "size: 10 AWG"),
        ),
    ),
    Limit(
        "a load at its fuse's rating",
        "load above fuse",
        build(changed(HEATER, "8 A", "10 A"), shelf="10 AWG"),
        ("draws: 10 A", "draws: 10.01 A"),
        ("heater: {fuse", "10 A"),
        Level.MUST,
        ("10.01 A", "10 A fuse"),
        (("fuse: 15 A", "fuse: 10 A", "fuse: 15 A"),),
    ),
    # The largest regular blade fuse is 40 A: 80 % of it is 32 A.
    Limit(
        "a charger that no blade fuse carries",
        "load above fuse",
        build(
            changed(SHORE, "size: 10 AWG, path: [front", "size: 6 AWG, path: [end fuse: 3 ft, front").replace(
                "gives: 10 A", "gives: 32 A"
            ),
            battery=changed(MAIN_30, "fuse: 30 A, size: 8 AWG", "fuse: 60 A, size: 4 AWG"),
        ),
        ("gives: 32 A", "gives: 33 A"),
        ("charging: {from", "charging"),
        Level.MUST,
        ("no blade regular fuse is large enough for “charging”", "41.25 A"),
        (("or gives, 1 A less", "gives: 33 A", "gives: 32 A"),),
    ),
    Limit(
        "an assumed load above its fuse is not a must fix",
        "load above fuse",
        build("parts: {heater: {kind: heater}}\ncircuits:\n  heater: {fuse: 4 A, path: [heater: 2 ft]}\n"),
        ("fuse: 4 A", "fuse: 3 A"),
        ("heater: {fuse", "3 A"),
        Level.SHOULD,
        ("4 A", "3 A fuse"),
        (("fuse: 5 A", "fuse: 3 A", "fuse: 5 A"),),
    ),
    Limit(
        "a load at four fifths of its fuse",
        "load above fuse",
        build(HEATER, shelf="14 AWG"),
        ("draws: 8 A", "draws: 8.01 A"),
        ("heater: {fuse", "10 A"),
        Level.WORTH,
        ("8.01 A", "80 %"),
        (("fuse: 15 A", "fuse: 10 A", "fuse: 15 A"),),
    ),
    Limit(
        "a larger fuse needs thicker wire",
        "load above fuse",
        build(HEATER, battery=THICK),
        ("draws: 8 A", "draws: 8.01 A"),
        ("heater: {fuse", "10 A"),
        Level.WORTH,
        ("8.01 A",),
        (
            (
                "fuse: 15 A, and thicker wire in place of 1A: size: 14 AWG",
                "fuse: 10 A",
                "fuse: 15 A, size: 14 AWG",
            ),
        ),
    ),
    # 16 AWG: the older table for recreational vehicles, from memory, allows 8 A, and 7.5 A is the rating below it.
    Limit(
        "no rating between load and wire by a table from memory",
        "load above fuse",
        build(
            "parts: {heater: {kind: heater, draws: 6 A}}\ncircuits:\n  heater: {path: [heater: 2 ft]}\n",
            battery=THICK,
        ),
        ("draws: 6 A", "draws: 6.1 A"),
        ("heater: {path", "heater"),
        Level.SHOULD,
        ("needs a 10 A fuse", "16 AWG", "allows 10 A", "only 8 A"),
        (("size: 14 AWG", "heater: {path", "heater: {size: 14 AWG, path"),),
    ),
    Limit(
        "no rating between load and wire by the chart",
        "load above fuse",
        build(
            "parts: {heater: {kind: heater, draws: 12 A}}\ncircuits:\n  heater: {size: 14 AWG, path: [heater: 1 ft]}\n",
            battery=THICK,
        ),
        ("size: 14 AWG", "size: 16 AWG"),
        ("heater: {size", "heater"),
        Level.MUST,
        ("15 A", "16 AWG", "10 A"),
        (("size: 14 AWG", "size: 16 AWG", "size: 14 AWG"),),
    ),
    Limit(
        "no rating at hand",
        "load above fuse",
        build(
            changed(HEATER, "fuse: 10 A, ", ""),
            shelf="12 AWG",
            box="front box: {fuse ways: 4, fuses on the shelf: [3 A, 10 A]}",
        ),
        ("[3 A, 10 A]", "[3 A]"),
        ("heater: {path", "heater"),
        Level.MUST,
        ("no fuse at hand", "10 A"),
        (("add 10 A to fuses on the shelf", "[3 A]", "[3 A, 10 A]"),),
    ),
    # 33 CFR 183.455(b)(1): 7 in; NEC 552.10(E)(4): 18 in; ABYC E-11.10.1.1: 72 in in a sheath.
    Limit(
        "7 in to the main fuse",
        "battery fuse",
        build(LAMP, battery=changed(BATTERY, "5 in", "7 in")),
        ("to main fuse: 7 in", "to main fuse: 7.5 in"),
        ("battery", "to main fuse"),
        Level.WORTH,
        ("7 1/2 in", "7 in"),
        (("to main fuse: 5 in", "7.5 in", "5 in"),),
    ),
    Limit(
        "no main fuse",
        "battery fuse",
        build(LAMP),
        ("to main fuse: 5 in, ", ""),
        ("battery", "battery"),
        Level.MUST,
        ("no fuse protects “battery line”",),
        (("to main fuse: 5 in", "to front box", "to main fuse: 5 in, to front box"),),
    ),
    Limit(
        "no main fuse in a path",
        "battery fuse",
        build(LAMP, battery=MAIN_30),
        ("main fuse: 5 in, ", ""),
        ("battery", "battery"),
        Level.MUST,
        ("no fuse",),
        (("in a path: [main fuse: 5 in, …]", "path: [", "path: [main fuse: 5 in, "),),
    ),
    Limit(
        "a circuit from the post",
        "battery fuse",
        build(changed(LAMP, "{path: [", "{from: battery, path: [lamp fuse: 7 in, ")),
        ("lamp fuse: 7 in, ", ""),
        ("lamp: {from", "lamp"),
        Level.MUST,
        ("no fuse protects “lamp”",),
        (("path: [lamp fuse: 5 in, …]", "path: [", "path: [lamp fuse: 5 in, "),),
    ),
    Limit(
        "the switch before the main fuse",
        "battery fuse",
        build(
            changed(LAMP, "{path: [", "{from: isolating switch, path: [lamp fuse: 2 in, "),
            battery="battery: {chemistry: agm, capacity: 60 Ah, "
            "path: [isolating switch: 4 in, main fuse: 2 in, front box: 2 ft]}",
        ),
        ("lamp fuse: 2 in", "lamp fuse: 4 in"),
        ("lamp: {from", "lamp fuse"),
        Level.WORTH,
        ("8 in", "7 in"),
        (("within 7 in", "lamp fuse: 4 in", "lamp fuse: 3 in"),),
    ),
    Limit(
        "a branch that no fuse protects",
        "battery fuse",
        build(
            "parts: {lamp: {kind: lamp, draws: 3 W}, meter: {kind: meter}, "
            "joint: {kind: splice}}\ncircuits:\n  lamp: {from: battery, "
            "path: [lamp fuse: 3 in, joint: 1 ft, lamp: 1 ft], branches: [{from: joint, path: [meter: 1 ft]}]}\n"
        ),
        ("lamp fuse: 3 in, joint: 1 ft", "joint: 1 in, lamp fuse: 3 in"),
        ("lamp: {from", "lamp"),
        Level.MUST,
        ("no fuse",),
        (("path: [lamp fuse: 5 in, …]", "joint: 1 in, lamp fuse: 3 in", "lamp fuse: 5 in, joint: 1 in"),),
    ),
    Limit(
        "what charges the battery",
        "battery fuse",
        build(PLUG + CHARGE),
        ("battery: 7 in", "battery: 7.5 in"),
        ("charge: {from", "battery fuse"),
        Level.WORTH,
        ("7 1/2 in",),
        (
            (
                "put “battery fuse” within 7 in of the post: path: […, battery fuse: 2 ft, battery: 5 in]",
                "7.5 in",
                "5 in",
            ),
        ),
    ),
    Limit(
        "a charging line without a fuse",
        "battery fuse",
        build(PLUG + CHARGE),
        ("battery fuse: 2 ft, ", ""),
        ("charge: {from", "charge"),
        Level.MUST,
        ("no fuse protects “charge”",),
        (
            (
                "path: […, charge fuse: 2 ft, battery: 5 in]",
                "battery: 7 in",
                "charge fuse: 2 ft, battery: 5 in",
            ),
        ),
    ),
)
"""The tables that the numbers come from stand above them."""
