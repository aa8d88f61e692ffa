"""The amounts that a build file may hold, with their units and limits: each reads one text."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from typing import Annotated

from pydantic import PlainValidator

from builder import quantities
from builder.buildfile.value_reading import quantity, schema_of
from builder.buildfile.written import Written
from builder.quantities import Draw, Misread

NO_UNIT = "has no unit"
"""How the message of a bare number ends."""
LONGEST_M = 100.0
LONGEST_ROLL_M = 1000.0
LARGEST_AH = 2000.0
MOST_PLACE_M = 30.0
LEAST_FACE_M, MOST_FACE_M = 0.003, 1.5
"""Between them lies what can be measured on a front box; common practice, no source."""


def _read_length(text: str) -> float | Misread:
    found = quantities.read_length(text)
    if isinstance(found, float) and found > LONGEST_M:
        return Misread(
            0, len(text), f"{text} is longer than any wire here", "lengths go up to 100 m (328 ft)"
        )
    return found


def _with_units(read: Callable[[str], float | Misread], *units: str) -> Callable[[str], float | Misread]:
    """Return a reader that offers a bare number with each unit in which the same reader takes it, likeliest first."""

    def wrapped(text: str) -> float | Misread:
        found = read(text)
        bare = isinstance(found, Misread) and found.message.endswith(NO_UNIT) and found.length == len(text)
        fixes = tuple(one for one in (f"{text} {unit}" for unit in units) if isinstance(read(one), float))
        if isinstance(found, Misread) and bare and fixes:
            return replace(found, help="write " + " or ".join(fixes), fixes=fixes)
        return found

    return wrapped


def _read_roll(text: str) -> float | Misread:
    found = quantities.read_length(text)
    if isinstance(found, float) and found > LONGEST_ROLL_M:
        return Misread(
            0, len(text), f"{text} is longer than any roll of wire", "lengths here go up to 1000 m (3280 ft)"
        )
    return found


def _read_face(text: str, least_m: float = LEAST_FACE_M) -> float | Misread:
    found = quantities.read_length(text, zero_ok=least_m == 0)
    if not isinstance(found, float) or least_m <= found <= MOST_FACE_M:
        return found
    limits = "measures of a front box go from 3 mm (1/8 in) up to 1.5 m (59 in)"
    if found > MOST_FACE_M:
        return Misread(0, len(text), f"{text} is larger than any front box", limits)
    return Misread(0, len(text), f"{text} is too small for a wire to land on", limits)


def _read_face_place(text: str) -> float | Misread:
    return _read_face(text, 0.0)


def _between(least_m: float, most_m: float, limits: str) -> Callable[[str], float | Misread]:
    """Return a reader of lengths in metres that tells the limits where a length is not within them."""

    def read(text: str) -> float | Misread:
        found = quantities.read_length(text, zero_ok=least_m == 0)
        if not isinstance(found, float) or least_m <= found <= most_m:
            return found
        return Misread(0, len(text), f"{text} cannot be right here", limits)

    return read


def _measure(least_m: float, most_m: float, limits: str, wanted: str, *units: str) -> PlainValidator:
    """Return the validator of a length between two limits, which offers a bare number with these units."""
    return quantity(_with_units(_between(least_m, most_m, limits), *units), wanted)


def _read_capacity(text: str) -> float | Misread:
    several = re.fullmatch(r"\s*(\d{1,2})\s*[x×*]\s*(\d+(?:\.\d+)?)\s*Ah\s*", text, re.IGNORECASE)
    if several:
        total = int(several.group(1)) * float(several.group(2))
        return Misread(
            0,
            len(text),
            "the capacity is one number",
            f"batteries in parallel add up: write {total:g} Ah",
            (f"{total:g} Ah",),
        )
    found = quantities.read_capacity(text)
    if isinstance(found, float) and found > LARGEST_AH:
        return Misread(
            0, len(text), f"{text} cannot be right for this battery", "capacities go up to 2000 Ah"
        )
    return found


def _read_share(text: str) -> float | Misread:
    if re.fullmatch(r"\s*(?:0?\.\d+|1(?:\.0+)?)\s*", text):
        share = float(text) * 100
        return Misread(0, len(text), f"{text.strip()} has no unit", f"write {share:g} %", (f"{share:g} %",))
    return quantities.read_percent(text)


def count_up_to(most: int) -> PlainValidator:
    """Return the type of a whole number up to a limit that no small trailer passes."""

    def read(text: str) -> int | Misread:
        found = quantities.read_count(text)
        if isinstance(found, int) and found > most:
            return Misread(0, len(text), f"{text} cannot be right here", f"write a number up to {most}")
        return found

    return quantity(read, "a whole number such as 8")


LengthM = Annotated[
    Written[float],
    quantity(_with_units(_read_length, "ft", "in", "m", "cm"), "a length such as 14 ft 6 in"),
    schema_of("a length", "14 ft 6 in", "3.2 m"),
]
ShortM = Annotated[
    Written[float],
    quantity(_with_units(_read_length, "in", "ft", "cm", "m"), "a length such as 6 in"),
    schema_of("a length", "14 ft 6 in", "3.2 m"),
]
"""A length that is mostly a hand's breadth or two, so that a bare number is inches or centimetres more likely."""
RollM = Annotated[
    Written[float],
    quantity(_read_roll, "a length such as 20 ft"),
    schema_of("a length", "20 ft", "6 m"),
]
"""Wire on a roll, which is longer than a wire in a trailer can be."""
FaceM = Annotated[
    Written[float],
    quantity(_with_units(_read_face, "in", "ft", "cm", "mm"), "a length such as 6 1/2 in"),
    schema_of("a length", "6 1/2 in", "165 mm"),
]
"""A measure on the face of the front box."""
FacePlaceM = Annotated[
    Written[float],
    quantity(_with_units(_read_face_place, "in", "ft", "cm", "mm"), "a length such as 1 1/2 in"),
    schema_of("a length", "1 1/2 in", "40 mm"),
]
"""How far from a wall of the front box, which may be nothing."""
PlaceM = Annotated[
    Written[float],
    _measure(
        0.0,
        MOST_PLACE_M,
        "places lie within 30 m (98 ft) of the body's front",
        "a length such as 4 ft 6 in",
        "in",
        "ft",
        "cm",
        "m",
    ),
    schema_of("a length", "4 ft 6 in", "1.2 m"),
]
"""How far a place is from the body's front, its middle or its underside; it may be nothing."""
BoreM = Annotated[
    Written[float],
    _measure(
        0.003, 0.2, "bores go from 3 mm (1/8 in) to 200 mm (7 7/8 in)", "a bore such as 3/4 in", "in", "mm"
    ),
    schema_of("a length", "3/4 in", "20 mm"),
]
SlackM = Annotated[
    Written[float],
    _measure(
        0.0, 3.0, "a hinge loop has up to 3 m (9 ft 10 in) of slack", "a length such as 8 in", "in", "cm"
    ),
    schema_of("a length", "8 in", "200 mm"),
]
FastenerM = Annotated[
    Written[float],
    _measure(0.0, 0.3, "fasteners go in up to 300 mm (11 3/4 in)", "a length such as 1 in", "in", "mm"),
    schema_of("a length", "1 in", "25 mm"),
]
PlateM = Annotated[
    Written[float],
    _measure(
        0.0005,
        0.01,
        "steel plates go from 0.5 mm (1/64 in) to 10 mm (3/8 in)",
        "a thickness such as 1/16 in",
        "in",
        "mm",
    ),
    schema_of("a length", "1/16 in", "1.6 mm"),
]
BendM = Annotated[
    Written[float],
    _measure(
        0.003,
        2.0,
        "bends have a radius from 3 mm (1/8 in) to 2 m (6 ft 6 in)",
        "a radius such as 2 in",
        "in",
        "mm",
    ),
    schema_of("a length", "2 in", "50 mm"),
]
EdgeM = Annotated[
    Written[float],
    _measure(
        0.0,
        0.3,
        "holes are up to 300 mm (11 3/4 in) from the nearest edge",
        "a length such as 1 1/4 in",
        "in",
        "mm",
    ),
    schema_of("a length", "1 1/4 in", "32 mm"),
]
SupportM = Annotated[
    Written[float],
    _measure(
        0.02, 5.0, "supports are 20 mm (3/4 in) to 5 m (16 ft) apart", "a length such as 18 in", "in", "cm"
    ),
    schema_of("a length", "18 in", "450 mm"),
]
MOST_OPEN_DEG = 270.0


def _read_opening(text: str) -> float | Misread:
    found = quantities.read_angle(text)
    if isinstance(found, float) and found > MOST_OPEN_DEG:
        return Misread(0, len(text), f"no hinge opens by {text}", "hinges open up to 270°")
    return found


OpeningDeg = Annotated[
    Written[float], quantity(_read_opening, "an angle such as 100°"), schema_of("an angle", "100°")
]
RiseM = Annotated[
    Written[float],
    _measure(0.0, 10.0, "a part is within 10 m (32 ft) of its place", "a length such as 14 in", "in", "cm"),
    schema_of("a length", "14 in", "350 mm"),
]
LabelM = Annotated[
    Written[float],
    _measure(
        0.005,
        0.3,
        "labels have 5 mm (1/4 in) to 300 mm (11 3/4 in) to write on",
        "a length such as 2 1/2 in",
        "in",
        "mm",
        "cm",
    ),
    schema_of("a length", "2 1/2 in", "60 mm"),
]
DiameterM = Annotated[
    Written[float],
    _measure(
        0.0005,
        0.05,
        "wires are 0.5 mm to 50 mm thick over their insulation",
        "a diameter such as 3.0 mm",
        "mm",
        "in",
    ),
    schema_of("a length", "3.0 mm", "0.12 in"),
]
MassKg = Annotated[
    Written[float],
    quantity(quantities.read_mass, "a mass such as 1400 lb"),
    schema_of("a mass", "1400 lb", "650 kg"),
]
CurrentA = Annotated[
    Written[float],
    quantity(quantities.read_current, "a current such as 5 A"),
    schema_of("a current", "5 A", "12 mA"),
]
DrawText = Annotated[
    Written[Draw],
    quantity(quantities.read_power_or_current, "what it draws, such as 3 W or 0.5 A"),
    schema_of("a power or a current", "3 W", "0.5 A", "1.5 W per ft", "5 W/m"),
]
VoltageV = Annotated[
    Written[float],
    quantity(quantities.read_voltage, "a voltage such as 10.5 V"),
    schema_of("a voltage", "10.5 V"),
]
CapacityAh = Annotated[
    Written[float],
    quantity(_read_capacity, "a capacity such as 35 Ah"),
    schema_of("a capacity", "35 Ah"),
]
LOWEST_INSULATION_C = 60.0
"""The lowest column of 33 CFR 183.425 Table 5; no wire for trailers bears less."""

HIGHEST_INSULATION_C = 200.0
"""Silicone bears 180 to 200 °C, and nothing that is pulled into a trailer more: common practice."""


def _read_insulation(text: str) -> float | Misread:
    found = quantities.read_temperature(text)
    if isinstance(found, Misread) or LOWEST_INSULATION_C <= found <= HIGHEST_INSULATION_C:
        return found
    return Misread(
        0,
        len(text),
        f"no wire's insulation bears as little as {text}"
        if found < LOWEST_INSULATION_C
        else f"no wire's insulation bears as much as {text}",
        "it is printed on the wire: from 60 C up to 200 C",
    )


TemperatureC = Annotated[
    Written[float],
    quantity(_read_insulation, "a temperature such as 105 C"),
    schema_of("a temperature", "105 C"),
]
PercentOf = Annotated[
    Written[float], quantity(_read_share, "a share such as 90 %"), schema_of("a share", "90 %")
]
Count = Annotated[
    Written[int],
    quantity(quantities.read_count, "a whole number such as 8"),
    schema_of("a whole number", "8"),
]
Few = Annotated[Written[int], count_up_to(12), schema_of("a whole number", "3")]
"""How many lamps or reflectors one entry stands for."""
Ways = Annotated[Written[int], count_up_to(60), schema_of("a whole number", "8")]
ConnectorWays = Annotated[Written[int], count_up_to(100), schema_of("a whole number", "6")]
FaceRows = Annotated[Written[int], count_up_to(6), schema_of("a whole number", "2")]
Places = Annotated[Written[int], count_up_to(200), schema_of("a whole number", "12")]
YesNo = Annotated[
    Written[bool], quantity(quantities.read_yes_no, "yes or no"), schema_of("yes or no", "yes", "no")
]
