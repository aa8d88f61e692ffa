"""More builds that rules speak of: sentences and ways out that no limit brings about, by rule and name."""

from __future__ import annotations

from limits_of_covers import HATCH, LINED, TUBE, WALL
from limits_of_lamps import REFLECTORS, USUAL_LAMPS, us_build
from limits_of_ways import TWO_IN_TUBE
from rule_builds import LAMP, build, changed

MIDDLE = changed(
    changed(changed(WALL, "GO", "2 in"), "[front box, lamp]", "[front box, mid, lamp]"),
    "  left: {",
    "  mid: {back: 3 ft, right: 2 ft, up: 2 ft}\n  left: {",
)
METRIC_WALL = changed(changed(WALL, "GO", "40 mm"), "country: US", "country: DE")
# 12.7 mm of conduit and 10 mm of tape before the line: 25.4 mm are left of 48.1 mm
AN_INCH_LEFT = changed(changed(TUBE, "GO", "1 5/8 in"), "BORE", "1 in").replace(
    "right: 2 ft", "right: 612.3 mm"
)
ONE_WAY = changed(changed(HATCH, "SLACK", "4 in"), "lamp: {back: 6 ft, up", "lamp: {back: 6 ft 3 in, up")
METRIC_HATCH = changed(changed(HATCH, "slack: SLACK", "slack: 19 cm"), "country: US", "country: DE")
BARE_AWAY = """\
format: 1
build: {name: Example, country: US}
tow plug: {pattern: 7-way blade, to front box: 7 ft}
brakes: {kind: electric, drum: 10 in, magnets: 2, breakaway battery: 5 Ah}
parts:
  breakaway battery: {kind: breakaway battery}
  alarm: {kind: alarm}
  left brake: {kind: brake magnet}
  right brake: {kind: brake magnet}
circuits:
  brakes: {from: tow plug brake, size: 10 AWG, path: [left brake: 12 ft, right brake: 5 ft]}
  breakaway: {from: breakaway battery, fuse: 20 A, size: 10 AWG, path: [alarm: 9 ft]}
"""
BARE_PLUG = (
    "format: 1\nbuild: {name: Example, country: US}\ntow plug: {pattern: 4-way flat, to front box: 7 ft}\n"
    "brakes: {kind: electric, drum: 10 in, magnets: 2, breakaway battery: 5 Ah}\n"
)
RATED_PLUG = (
    "parts:\n  plug: {kind: connector, ways: 4, rating: 1 A}\n  converter: {kind: converter, gives: 3 A, "
    "gives at: 5 V}\n  socket: {kind: socket, draws: 15 W, at: 5 V}\n"
    "circuits:\n  phone: {path: [plug: 3 ft, converter: 6 ft, socket: 8 in]}\n"
)
ALARMS = build(
    "parts:\n  lamp: {kind: lamp, draws: 3 W}\n  first alarm: {kind: alarm}\n  second alarm: {kind: alarm}\n"
    "  sun: {kind: solar module, gives: 50 W}\n  switch: {kind: switch}\ncircuits:\n  lamp: {path: [lamp: 3 ft]}\n"
    "  first: {from: sun, fuse: 3 A, path: [first alarm: 3 ft]}\n"
    "  second: {from: main fuse, fuse: 3 A, path: [switch: 3 ft, second alarm: 3 ft]}\n"
)
UNWIRED = changed(LAMP, "parts: {", "parts: {spare switch: {kind: switch, rating: 10 A}, ")
ELSEWHERE = changed(LINED, "behind: groove", "behind: [groove]").replace("right: 22 in", "left: 22 in")
SPARE = "spares:\n  rear spare: {from: front box, to: rear wall, wire: 20 ft}\n"
THIN_BRAKES = """\
format: 1
build: {name: Example, country: US}
tow plug: {pattern: 7-way blade, to front box: 7 ft}
brakes: {kind: electric, drum: 10 in, magnets: 2, breakaway battery: 5 Ah}
parts:
  away battery: {kind: breakaway battery}
  away switch: {kind: breakaway switch, rating: 20 A}
  brake splice: {kind: splice}
  left brake: {kind: brake magnet, draws: 3 A}
  right brake: {kind: brake magnet, draws: 3 A}
circuits:
  brakes:
    from: tow plug brake
    size: 12 AWG
    path: [brake splice: 14 ft, left brake: {length: 4 ft, size: 16 AWG}]
    branches: [{from: brake splice, path: [right brake: 4 ft]}]
  breakaway: {from: away battery, fuse: 20 A, size: 12 AWG, path: [away switch: 1 ft, brake splice: 10 ft]}
"""
FROM_MAIN = (
    "parts: {bar: {kind: bar}, lamp: {kind: lamp, draws: 2 W}, heater: {kind: heater, draws: 8 A}}\ncircuits:\n"
    "  light: {size: 18 AWG, path: [bar: 6 ft, lamp: 2 ft]}\n  heater: {from: main fuse, fuse: 15 A, "
    "size: 14 AWG, path: [heater: 6 ft], return: {to: bar, length: 2 ft}}\n"
)
TWO_LINES = """\
format: 1
build: {name: Example, country: DE}
battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 10 cm, to front box: 60 cm}
front box: {fuse ways: 4}
tow plug: {pattern: 13-pin, to front box: 2 m}
parts: {lamp: {kind: lamp, draws: 3 W}}
circuits:
  lamp: {path: [lamp: 3 m]}
  first line: {from: tow plug battery, path: [car fuse: 20 cm, first fuse: 1 m, battery: 10 cm]}
  second line: {from: tow plug switched supply, path: [battery: 10 cm]}
"""
FRONT_REFLECTOR = "  front reflector: {at: front side, side: both, color: amber}\n"
FAR_LAMP = "parts: {far lamp: {kind: lamp, draws: 60 W}}\ncircuits:\n  lamps: {path: [far lamp: 60 ft]}\n"
BREAKER = (
    "parts: {guard breaker: {kind: breaker}, heater: {kind: heater, draws: 60 A}}\n"
    "circuits:\n  heater: {from: battery, path: [guard breaker: 5 in, heater: 2 ft]}\n"
)
FANS = (
    "parts: {small fan: {kind: fan}, fan: {kind: fan, draws: 9 A}}\n"
    "circuits:\n  small: {fuse: 1 A, path: [small fan: 6 ft]}\n  fan: {path: [fan: 6 ft]}\n"
)
LINE_SWITCH = changed(LAMP, "parts: {", "parts: {isolating switch: {kind: isolating switch, rating: 0.1 A}, ")
SWITCHED = "battery: {chemistry: agm, capacity: 9 Ah, path: [main fuse: 5 in, isolating switch: 1 ft, front box: 1 ft]}"
ROW = (
    "parts: {heater: {kind: heater, draws: 12 A}, fan: {kind: fan, draws: 12 A}}\n"
    "circuits:\n  warm: {fuse: 30 A, size: 16 AWG, path: [heater: 6 ft, fan: 2 ft]}\n"
)
TWO_SIZES = (
    "parts: {heater: {kind: heater, draws: 15 A}, fan: {kind: fan, draws: 30 A}}\ncircuits:\n"
    "  warm: {path: [heater: {length: 6 ft, size: 12 AWG}, fan: {length: 2 ft, size: 16 AWG}]}\n"
)
SIZES = "16 AWG, 14 AWG, 12 AWG, 10 AWG"
THREE_LAMPS = (
    "parts: {first: {kind: lamp}, second: {kind: lamp}, third: {kind: lamp}}\ncircuits:\n"
    "  one: {path: [first: 2 ft]}\n  two: {path: [second: 2 ft]}\n  three: {path: [third: 2 ft]}\n"
)


def _fan(fuse: str, draws: str, size: str) -> str:
    return build(
        f"parts: {{fan: {{kind: fan, draws: {draws}}}}}\n"
        f"circuits:\n  fan: {{fuse: {fuse}, size: {size}, path: [fan: 2 ft]}}\n",
        shelf=size,
    )


NO_WAYS = (
    "places:\n  front box: {back: 1 ft, up: 2 ft}\n  corner: {back: 1 ft, left: 2 ft, up: 2 ft}\n"
    "  lamp: {back: 7 ft, left: 2 ft, up: 2 ft}\n  fan: {back: 8 ft, right: 2 ft, up: 2 ft}\n"
    "chases:\n  groove: {through: [front box, corner]}\n"
)
NO_WAY_PARTS = (
    "parts: {fan: {kind: fan, draws: 1 A}, lamp: {kind: lamp, draws: 3 W}}\n"
    "circuits:\n  fan: {path: [fan: 9 ft]}\n  light: {path: [lamp: 9 ft]}\n"
)
REST = (
    "parts:\n  flip: {kind: relay}\n  flip switch: {kind: switch}\n  fan: {kind: fan, draws: 5 A}\n"
    "  rest fan: {kind: fan, draws: 1 A}\ncircuits:\n  air:\n    fuse: 15 A\n    size: 14 AWG\n"
    "    path: [flip: {length: 1 ft, as: contact}, fan: 3 ft]\n    branches:\n"
    "      - {from: flip, output: rest, path: [rest fan: {length: 3 ft, size: 18 AWG}]}\n"
    "      - {from: fuse, path: [flip switch: 1 ft, flip: {length: 1 ft, as: coil}]}\n"
)

MORE_BUILDS = (
    ("breakaway not reaching", "no switch on the breakaway's path", BARE_AWAY),
    ("brakes not fed", "a plug without a contact for them", BARE_PLUG),
    ("connector overloaded", "by what a converter takes", build(RATED_PLUG)),
    ("alarm switched off", "a second alarm, behind one that hangs on the sun alone", ALARMS),
    ("part not wired", "a switch with a rating", build(UNWIRED)),
    ("part not wired", "a relay that is never at rest", build(REST, shelf="18 AWG, 14 AWG")),
    ("panel not as measured", "a chase that runs elsewhere", ELSEWHERE),
    (
        "numbers not issued",
        "spare wires among them",
        build(LAMP + SPARE, more="country: US, numbers: issued"),
    ),
    ("battery fuse", "a line from the car without a fuse", TWO_LINES),
    ("charge line unfused", "the second of two lines from the car", TWO_LINES),
    (
        "conduit too full",
        "a bore of three eighths",
        changed(changed(TWO_IN_TUBE, "9 mm", "7.7 mm"), "16 AWG", "14 AWG"),
    ),
    ("fastener reaches wire", "as deep as the line, on the first of two stretches", MIDDLE),
    (
        "fastener reaches wire",
        "a plate too thin",
        changed(changed(WALL, "GO", "2 in"), "lamp]}", "lamp], plate: 1 mm}"),
    ),
    ("fastener reaches wire", "an inch that is left", AN_INCH_LEFT),
    ("fastener near wire", "in millimetres", METRIC_WALL),
    ("hinge loop too short", "in millimetres", METRIC_HATCH),
    (
        "hinge loop too short",
        "a slack that the file does not give",
        changed(changed(HATCH, "slack: SLACK, ", ""), "90°", "180°"),
    ),
    ("hinge loop too short", "in one of the two ways that it may open", ONE_WAY),
    ("drop above advice", "a size that is not the next", build(FAR_LAMP)),
    (
        "lamp missing",
        "reflectors at the front of the sides",
        changed(us_build(USUAL_LAMPS), FRONT_REFLECTOR, ""),
    ),
    ("lamp missing", "no reflector at all", changed(us_build(USUAL_LAMPS), REFLECTORS, "")),
    ("lamp missing", "turn lamps, in one of two colours", us_build(changed(USUAL_LAMPS, "turn, ", ""))),
    (
        "no way for wire",
        "a second wire on the same gap, and a third on another",
        build(NO_WAYS + NO_WAY_PARTS),
    ),
    ("fuse above wire", "a thin wire at the rest contact of a relay", build(REST, shelf="18 AWG, 14 AWG")),
    ("fuse above wire", "a thin wire of the brakes behind the breakaway's fuse", THIN_BRAKES),
    (
        "fuse above wire",
        "a thin return behind a fuse of the main fuse's side",
        build(FROM_MAIN, shelf="14 AWG"),
    ),
    ("load above fuse", "a breaker that no wire helps", build(BREAKER, shelf=SIZES)),
    ("load above fuse", "a load that is assumed, beside one that is not", build(FANS, shelf="12 AWG")),
    ("switch too small", "the switch of the battery's line", build(LINE_SWITCH, battery=SWITCHED)),
    ("wire overloaded", "all wires of a row", build(ROW, shelf=SIZES)),
    ("wire overloaded", "the wire that is worst off", build(TWO_SIZES, shelf=SIZES)),
    ("fuse not sold", "the next above", _fan("12 A", "8.5 A", "12 AWG")),
    ("fuse not sold", "no kind has it", _fan("33 A", "8.5 A", "16 AWG")),
    ("numbers not issued", "more than are listed", build(THREE_LAMPS, more="country: US, numbers: issued")),
)
"""Rule, what is tried, and the build."""
