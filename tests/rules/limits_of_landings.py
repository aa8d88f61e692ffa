"""Limits of what lands in the front box: wires on a stud, rings on studs, wires through a hole of the box."""

from __future__ import annotations

from rule_builds import LAMP, TWO, Limit, build

from builder.rules.finding import Level

SHARED = (
    "terminal studs: {bar: {STUDS}}\n"
    "parts: {bar: {kind: bar}, lamp: {kind: lamp, draws: 3 W}, fan: {kind: fan, draws: 2 A}}\n"
    "circuits:\n  rear: {path: [bar: 6 ft, lamp: 2 ft], branches: [{from: bar, path: [fan: 2 ft]}]}\n"
)
METERS = (
    "parts:\n  one: {kind: meter, draws: 10 mA}\n  two: {kind: meter, draws: 10 mA}\n"
    "  three: {kind: meter, draws: 10 mA}\n  four: {kind: meter, draws: 10 mA}\n"
)
FROM_THE_POST = METERS + (
    "circuits:\n"
    "  one: {from: battery, fuse: 2 A, path: [one: 8 ft]}\n"
    "  two: {from: battery, fuse: 2 A, path: [two: 8 ft]}\n"
    "  three: {from: battery, fuse: 2 A, path: [three: 8 ft]}\n"
)
FOURTH = "circuits:\n  four: {from: battery, fuse: 2 A, path: [four: 8 ft]}\n"
RINGS = (
    "wire: {on the shelf: [16 AWG], rings: {16 AWG: RING}}\nterminal studs: {ground bar: {size: No. 8}}\n"
    + LAMP
)
HOLE = "entry holes: {left hole: {bore: 9 mm, takes: lamp}}\n" + LAMP

LANDING_LIMITS = (
    # Three wires land on each side: feed, lamp and fan.
    Limit(
        "as many wires as the file allows on a stud",
        "stud too full",
        build(SHARED.replace("STUDS", "most on each: 3")),
        ("most on each: 3", "most on each: 2"),
        ("terminal studs", "2"),
        Level.MUST,
        ("3 wires land on one stud of “bar” (1A, 1B, 1C), and it takes 2",),
        (("count: 2", "most on each: 2", "most on each: 2, count: 2"),),
    ),
    Limit(
        "as many studs as the wires need",
        "stud too full",
        build(SHARED.replace("STUDS", "count: 3, most on each: 1")),
        ("count: 3", "count: 2"),
        ("terminal studs", "1"),
        Level.MUST,
        ("3 wires land on the 2 studs of “bar”, and each takes 1",),
        (("count: 3", "count: 2", "count: 3"),),
    ),
    # The line to the box and three meters: four wires on the post, as common practice allows.
    Limit(
        "four wires on the battery's post",
        "stud too full",
        build(FROM_THE_POST),
        ("circuits:\n", FOURTH),
        ("battery", "60 Ah"),
        Level.SHOULD,
        ("5 wires land on one stud of “battery”", "takes 4"),
        (
            (
                "terminal studs: {battery: {count: 2}}",
                "parts:\n",
                "terminal studs: {battery: {count: 2}}\nparts:\n",
            ),
        ),
    ),
    Limit(
        "two wires under a screw that takes two",
        "stud too full",
        build(
            "terminal studs: {ground bar: {most on each: 2}}\n" + TWO,
            box="front box: {fuse ways: 4, ground bar: 2}",
        ),
        ("ground bar: 2}", "ground bar: 1}"),
        ("terminal studs", "2"),
        Level.MUST,
        ("3 wires land on one stud of “ground bar”", "takes 2"),
        (("ground bar: 2", "ground bar: 1}", "ground bar: 2}"),),
    ),
    Limit(
        "a ring for the screw",
        "ring of another size",
        build(RINGS.replace("RING", "No. 8"), shelf=""),
        ("AWG: No. 8", "AWG: No. 6"),
        ("terminal studs", "No. 8"),
        Level.MUST,
        ("16 AWG (No. 6) do not go on the No. 8 studs of “ground bar”", "1B"),
        (("rings: {16 AWG: [No. 6, No. 8]}", "AWG: No. 6", "AWG: [No. 6, No. 8]"),),
    ),
    Limit(
        "a metric ring that goes with the screw",
        "ring of another size",
        build(RINGS.replace("RING", "[M3.5, M4]"), shelf=""),
        ("[M3.5, M4]", "[M3.5, M5]"),
        ("terminal studs", "No. 8"),
        Level.SHOULD,
        (
            "of the rings at hand for 16 AWG those for M3.5 do not go on the No. 8 studs of “ground bar”",
            "those for M5 are too wide for them",
        ),
        (("[M3.5, M5, No. 8]", "[M3.5, M5]", "[M3.5, M5, No. 8]"),),
    ),
    Limit(
        "rings that are all wider than the screw",
        "ring of another size",
        build(RINGS.replace("RING", "[M4, M6]"), shelf=""),
        ("[M4, M6]", "[M5, M6]"),
        ("terminal studs", "No. 8"),
        Level.SHOULD,
        ("16 AWG (M5, M6) are too wide for the No. 8 studs",),
        (("[M5, M6, No. 8]", "[M5, M6]", "[M5, M6, No. 8]"),),
    ),
    # Two wires of 3.0 mm in 7.62 mm: 2 × 9 / 58.1 = 31.0 %; the table allows 31 %.
    Limit(
        "31 % for two wires through a hole",
        "entry hole full",
        build(HOLE).replace("9 mm", "7.7 mm"),
        ("7.7 mm", "7.6 mm"),
        ("entry holes", "7.6 mm"),
        Level.SHOULD,
        ("2 wires take 31.2 % of “left hole”", "31 %"),
        (("5/16 in", "7.6 mm", "5/16 in"),),
    ),
    Limit(
        "two wires that do not go through a hole",
        "entry hole full",
        build(HOLE).replace("9 mm", "4.3 mm"),
        ("4.3 mm", "4.2 mm"),
        ("entry holes", "4.2 mm"),
        Level.MUST,
        ("do not go through it",),
        (("5/16 in", "4.2 mm", "5/16 in"),),
    ),
)
