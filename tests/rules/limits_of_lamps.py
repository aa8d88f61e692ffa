"""Limits of road lamps: which a trailer must have by its size, their colours and their heights."""

from __future__ import annotations

from rule_builds import Limit

from builder.rules.finding import Level

_FLAT = "tow plug: {pattern: 4-way flat, to front box: 7 ft}\n"


REFLECTORS = """\
reflectors:
  rear reflector: {at: rear, side: both, color: red}
  side reflector: {at: rear side, side: both, color: red}
  front reflector: {at: front side, side: both, color: amber}
  middle reflector: {at: middle side, side: both, color: amber}
"""
_TRIANGLES = """\
reflectors:
  rear triangle: {at: rear, side: both, color: red, triangle: yes}
  front reflector: {at: front, side: both, color: white}
  side reflector: {at: middle side, side: both, color: amber}
"""


def us_build(lamps: str, size: str = "length: 12 ft, width: 5 ft") -> str:
    head = f"format: 1\nbuild: {{name: Example, country: US}}\ntrailer: {{{size}}}\n"
    return head + _FLAT + REFLECTORS + "road lamps:\n  lamps: led\n" + lamps


USUAL_LAMPS = (
    "  rear lamp: {shows: [tail, stop, turn, marker], side: both, wire: 17 ft}\n"
    "  plate lamp: {shows: plate, wire: 17 ft}\n"
    "  front marker: {shows: marker, side: both, at: front, wire: 5 ft}\n"
)
_WIDE = (
    "  front clearance: {shows: clearance, side: both, at: front, wire: 9 ft}\n"
    "  rear clearance: {shows: clearance, side: both, at: rear, wire: 22 ft}\n"
)


def _metric(lamps: str, size: str) -> str:
    head = f"format: 1\nbuild: {{name: Example, country: DE}}\ntrailer: {{{size}}}\n"
    plug = "tow plug: {pattern: 13-pin, to front box: 2 m}\n"
    return head + plug + _TRIANGLES + "road lamps:\n  lamps: led\n" + lamps


def _braked(battery: str) -> str:
    return (
        "format: 1\nbuild: {name: Example, country: US}\ntow plug: {pattern: 7-way blade, to front box: 7 ft}\n"
        f"brakes: {{kind: electric, drum: 10 in, magnets: 2, breakaway battery: {battery}}}\n"
        "parts: {left brake: {kind: brake magnet}, right brake: {kind: brake magnet}}\n"
        "circuits:\n  brakes: {from: tow plug brake, size: 10 AWG, path: [left brake: 12 ft, right brake: 5 ft]}\n"
    )


_EUROPEAN = (
    "  rear lamp: {shows: [tail, stop, turn], side: both, wire: 5 m}\n"
    "  plate lamp: {shows: plate, side: left, wire: 5 m}\n"
    "  fog lamp: {shows: fog, side: left, wire: 5 m}\n"
)

LAMP_LIMITS = (
    # 49 CFR 571.108 Table I-b: 80 in or more counts as wide, so exactly 80 in does.
    Limit(
        "identification lamps from 80 in of width on",
        "lamp missing",
        us_build(USUAL_LAMPS + _WIDE, "length: 12 ft, width: 79.9 in"),
        ("width: 79.9 in", "width: 80 in"),
        ("tow plug", "tow plug"),
        Level.SHOULD,
        ("FMVSS 108", "rear identification lamps: 3 in red", "has none"),
        (
            (
                "or add one, as in rear identification lamp: {shows: identification, at: rear, side: middle, count: 3",
                "road lamps:\n",
                "road lamps:\n  top bar: {shows: identification, at: rear, count: 3, wire: 20 ft}\n",
            ),
        ),
    ),
    # The overall width takes in rigid fenders (agency letter of 1993, read).
    Limit(
        "fenders make a trailer wide",
        "lamp missing",
        us_build(
            USUAL_LAMPS
            + _WIDE.splitlines()[0]
            + "\n  top bar: {shows: identification, count: 3, wire: 20 ft}\n",
            "length: 14 ft, width: 78 in, width over fenders: 79 in",
        ),
        ("over fenders: 79 in", "over fenders: 82 in"),
        ("tow plug", "tow plug"),
        Level.SHOULD,
        ("rear clearance lamps: 2 in red", "because its fenders reach 80 in though its body does not"),
        (
            (
                "let a lamp there show clearance too",
                "  plate lamp",
                "  rear clearance: {shows: clearance, side: both, at: rear, wire: 22 ft}\n  plate lamp",
            ),
        ),
    ),
    # Table I-b: 30 ft or more.
    Limit(
        "middle markers from 30 ft of length on",
        "lamp missing",
        us_build(USUAL_LAMPS, "length: 359 in, width: 60 in"),
        ("length: 359 in", "length: 30 ft"),
        ("tow plug", "tow plug"),
        Level.SHOULD,
        ("middle side markers: 2 in amber",),
        (
            (
                "middle side marker: {shows: marker, at: middle, side: both, wire: 5 ft}",
                "  plate lamp",
                "  middle marker: {shows: marker, side: both, at: middle, wire: 15 ft}\n  plate lamp",
            ),
        ),
    ),
    # Table I-b: under 6 ft no front side marker, at exactly 6 ft there is one.
    Limit(
        "front markers from 6 ft of length on",
        "lamp missing",
        us_build(
            "".join(USUAL_LAMPS.splitlines(keepends=True)[:2]),
            "length: 71.9 in, width: 48 in",
        ),
        ("length: 71.9 in", "length: 6 ft"),
        ("tow plug", "tow plug"),
        Level.SHOULD,
        ("front side markers: 2 in amber",),
        (
            (
                "at: front",
                "  plate lamp",
                "  front marker: {shows: marker, side: both, at: front, wire: 5 ft}\n  plate lamp",
            ),
        ),
    ),
    # UN R48 as quoted in a guide: side markers on trailers over 6 m long, so not at exactly 6 m.
    Limit(
        "side markers over 6 m of length",
        "lamp missing",
        _metric(_EUROPEAN, "length: 6 m, width: 1.5 m, gross weight: 700 kg"),
        ("length: 6 m", "length: 6.01 m"),
        ("tow plug", "tow plug"),
        Level.SHOULD,
        ("the guide to the British lighting regulations of 1989", "side markers: 2 in amber"),
        (
            (
                "let a lamp there show marker too",
                "  plate lamp",
                "  side marker: {shows: marker, side: both, at: middle, wire: 4 m}\n  plate lamp",
            ),
        ),
    ),
    # UN R48 6.9, from memory: front position lamps over 1.6 m of width; worth knowing only.
    Limit(
        "front position lamps over 1.6 m of width",
        "lamp missing",
        _metric(_EUROPEAN, "length: 4 m, width: 1.6 m, gross weight: 700 kg"),
        ("width: 1.6 m", "width: 1.61 m"),
        ("tow plug", "tow plug"),
        Level.WORTH,
        ("front position lamps: 2 in white",),
        (
            (
                "add a pair, as in front position lamp: {shows: front position, at: front, side: both",
                "  plate lamp",
                "  front lamp: {shows: front position, side: both, wire: 3 m}\n  plate lamp",
            ),
        ),
    ),
    # UN R48 6.4, quoted for O2, which begins above 750 kg.
    Limit(
        "a reversing lamp over 750 kg",
        "lamp missing",
        _metric(_EUROPEAN, "length: 4 m, width: 1.5 m, gross weight: 750 kg"),
        ("gross weight: 750 kg", "gross weight: 751 kg"),
        ("tow plug", "tow plug"),
        Level.SHOULD,
        ("reversing lamps: 1 in white",),
        (("let a lamp there show reverse too", "shows: plate", "shows: [plate, reverse]"),),
    ),
    # Table I-b: 15 to 72 in for tail lamps.
    Limit(
        "a tail lamp at 72 in",
        "lamp at wrong height",
        us_build(USUAL_LAMPS.replace("side: both, wire: 17 ft", "side: both, height: 72 in, wire: 17 ft")),
        ("height: 72 in", "height: 73 in"),
        ("rear lamp", "rear lamp"),
        Level.SHOULD,
        ("6 ft 1 in", "or lower"),
        (("put it between the limits", "height: 73 in", "height: 72 in"),),
    ),
    Limit(
        "a marker at 15 in",
        "lamp at wrong height",
        us_build(USUAL_LAMPS.replace("at: front,", "at: front, height: 15 in,")),
        ("height: 15 in", "height: 14.9 in"),
        ("front marker", "front marker"),
        Level.SHOULD,
        ("front side markers", "or higher"),
        (("put it between the limits", "height: 14.9 in", "height: 15 in"),),
    ),
    # Table I-b: a rear turn lamp may be red or amber, a tail lamp is red.
    Limit(
        "a tail lamp is red",
        "lamp of wrong colour",
        us_build(
            USUAL_LAMPS.replace(
                "side: both, wire: 17 ft", "side: both, shines: {turn: amber, tail: red}, wire: 17 ft"
            )
        ),
        ("tail: red", "tail: amber"),
        ("rear lamp", "rear lamp"),
        Level.SHOULD,
        ("is amber", "tail lamps in red"),
        (("fit one in red", "tail: amber", "tail: red"),),
    ),
    # A maker of towing equipment: up to 4 A through a converter, up to 7.5 A from a car wired for it.
    Limit(
        "a tail circuit at what a converter gives",
        "plug converter overloaded",
        us_build(
            USUAL_LAMPS.replace("side: both, wire: 17 ft", "side: both, draws: {tail: 1.7 A}, wire: 17 ft")
        ),
        ("tail: 1.7 A", "tail: 1.9 A"),
        ("tow plug", "tow plug"),
        Level.WORTH,
        ("contact 2", "through a converter gives 4 A"),
        (("fit LED lamps", "tail: 1.9 A", "tail: 0.1 A"),),
    ),
    Limit(
        "a tail circuit at what any car gives",
        "plug converter overloaded",
        us_build(
            USUAL_LAMPS.replace("side: both, wire: 17 ft", "side: both, draws: {tail: 3.4 A}, wire: 17 ft")
        ),
        ("tail: 3.4 A", "tail: 3.7 A"),
        ("tow plug", "tow plug"),
        Level.SHOULD,
        ("contact 2", "7.5 A a circuit"),
        (("fit LED lamps", "tail: 3.7 A", "tail: 0.1 A"),),
    ),
    # GRE-81-04: 30 mA.
    Limit(
        "a signal at what a lamp check looks for",
        "lamp too weak to see",
        us_build(
            USUAL_LAMPS.replace(
                "side: both, wire: 17 ft", "side: left, draws: {turn: 30 mA, stop: 30 mA}, wire: 17 ft"
            )
        ),
        ("turn: 30 mA, stop: 30 mA", "turn: 20 mA, stop: 29 mA"),
        ("tow plug", "tow plug"),
        Level.WORTH,
        ("29 mA", "30 mA"),
        (("30 mA or more", "turn: 20 mA, stop: 29 mA", "turn: 30 mA"),),
    ),
    # Ohm's law on a parts seller's table: two magnets of 3.2 ohm take 7.5 A, 1.875 Ah in the 15 minutes that
    # 49 CFR 393.43(d) asks for as a digest of state law has it.
    Limit(
        "a breakaway battery that just holds the brakes",
        "breakaway battery small",
        _braked("1.88 Ah"),
        ("breakaway battery: 1.88 Ah", "breakaway battery: 1.87 Ah"),
        ("brakes: {kind", "brakes"),
        Level.SHOULD,
        ("1.87 Ah", "1.9 Ah in the 15 minutes"),
        (("breakaway battery: 5 Ah", "breakaway battery: 1.87 Ah", "breakaway battery: 5 Ah"),),
    ),
    Limit(
        "as many brakes as have a wire",
        "brakes not fed",
        _braked("5 Ah"),
        ("magnets: 2", "magnets: 4"),
        ("brakes: {kind", "brakes"),
        Level.SHOULD,
        ("4 brakes with a magnet", "2 of them"),
        (("write magnets: 2", "magnets: 4", "magnets: 2"),),
    ),
    Limit(
        "a lamp on the hatch",
        "lamp on hatch",
        us_build(USUAL_LAMPS.replace("shows: plate,", "shows: plate, on the hatch: no,")),
        ("on the hatch: no", "on the hatch: yes"),
        ("plate lamp", "plate lamp"),
        Level.WORTH,
        ("nobody behind sees the plate",),
        (("put it on the body beside the hatch", "on the hatch: yes", "on the hatch: no"),),
    ),
)
"""The tables that the numbers come from stand above them."""
