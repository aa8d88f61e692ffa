"""Names and closed lists of words: what may stand where the build file lets one choose."""

from __future__ import annotations

from typing import Annotated

from pydantic import (
    PlainValidator,
    WithJsonSchema,
)

from builder.buildfile.value_reading import trouble
from builder.buildfile.value_words import OneOf
from builder.buildfile.written import Key, Written, origin_of
from builder.tables.brakes import drums
from builder.tables.bulbs import bulb_names
from builder.tables.part_kinds import part_kinds
from builder.tables.tow_plugs import plug_patterns, second_patterns
from builder.trailer.model import WALLS_CLOSED, WALLS_OPEN


def listed(value: object) -> object:
    """Return a list as it is, and anything else as the only item of one."""
    return value if isinstance(value, list) else [value]


def one_for_all(value: object) -> object:
    """Return names with a value each as they are, and a lone value under the name ``all``."""
    return value if isinstance(value, dict) else {Key.of("all", origin_of(value)): value}


def key_name(value: object) -> Key:
    """Return a name with single blanks; raises the problem of one that cannot be said."""
    if not isinstance(value, Key):
        raise trouble(origin_of(value), "name without a letter", "a name is wanted here", "write a name")
    tidy = " ".join(value.split())
    if not any(letter.isalnum() for letter in tidy):
        raise trouble(
            value.origin,
            "name without a letter",
            f"“{value}” holds no letter or number",
            "give it a name you can say",
        )
    return Key.of(tidy, value.origin)


NameKey = Annotated[Key, PlainValidator(key_name), WithJsonSchema({"type": "string"})]

KindWord = Annotated[Written[str], OneOf("a kind of part", part_kinds, place="kind")]


_COUNTRIES = (
    "US", "CA", "GB", "IE", "DE", "AT", "CH", "NL", "BE", "FR", "IT", "ES", "PT", "SE", "NO", "DK", "FI", "PL",
    "CZ", "AU", "NZ", "other",
)  # fmt: skip
"""Codes of ISO 3166-1."""

Chemistry = Annotated[
    Written[str],
    OneOf(
        "a kind of battery",
        lambda: ("flooded", "agm", "gel", "lithium"),
        {"lifepo4": "lithium", "wet": "flooded"},
        "chemistry",
    ),
]

_FUSES = ("blade mini", "blade regular", "blade maxi")
_SHORT_FUSES = {
    "blade": "blade regular",
    "mini": "blade mini",
    "regular": "blade regular",
    "maxi": "blade maxi",
}
FUSE_WORDS = {word: word for word in _FUSES} | _SHORT_FUSES
"""Every spelling of a kind of fuse, with the kind that it stands for."""

Fuses = Annotated[Written[str], OneOf("a kind of fuse", lambda: _FUSES, _SHORT_FUSES, "fuses")]

Country = Annotated[
    Written[str],
    OneOf(
        "a country code",
        lambda: _COUNTRIES,
        {"usa": "US", "uk": "GB"},
        "country",
    ),
]

Stage = Annotated[
    Written[str],
    OneOf(
        "a stage of the work",
        lambda: (WALLS_OPEN, WALLS_CLOSED),
        {
            "open": WALLS_OPEN,
            "planned": WALLS_OPEN,
            "closed": WALLS_CLOSED,
            "finished": WALLS_CLOSED,
            "in use": WALLS_CLOSED,
        },
        "stage",
    ),
]

RoadFunction = Annotated[
    Written[str],
    OneOf(
        "a function of a road lamp",
        lambda: (
            "tail", "stop", "turn", "marker", "plate", "reverse", "fog", "clearance", "identification",
            "front position",
        ),
        {"brake": "stop", "indicator": "turn", "end outline": "clearance"},
        "function",
        several=True,
    ),
]  # fmt: skip

LampPlace = Annotated[
    Written[str], OneOf("a place along the trailer", lambda: ("front", "middle", "rear"), {"back": "rear"})
]

ReflectorPlace = Annotated[
    Written[str],
    OneOf(
        "a place of a reflector",
        lambda: ("front", "rear", "front side", "middle side", "rear side"),
        {"back": "rear"},
    ),
]

Drum = Annotated[Written[str], OneOf("a drum of brakes", drums, place="drum")]

BrakeKind = Annotated[
    Written[str],
    OneOf("a kind of brakes", lambda: ("electric", "surge"), {"overrun": "surge", "inertia": "surge"}),
]

BulbWord = Annotated[
    Written[str],
    OneOf(
        "a bulb of road lamps",
        bulb_names,
        refused=dict.fromkeys(
            ("led", "leds", "led lamp"),
            "LED lamps have no bulb: take “bulb” out, and write lamps: led under road lamps, or what the lamp draws",
        ),
    ),
]

LightColour = Annotated[
    Written[str],
    OneOf(
        "a colour of a road lamp", lambda: ("red", "amber", "white"), {"yellow": "amber", "orange": "amber"}
    ),
]
"""Amber and yellow are one colour in 49 CFR 571.108 (quoted)."""

CheckAgainst = Annotated[
    Written[str],
    OneOf(
        "a fuse table",
        lambda: ("aircraft chart", "conductor ampacity", "boat rule"),
        {"faa ac 43.13-1b table 11-3": "aircraft chart", "33 cfr 183.455": "boat rule"},
    ),
]

Numbers = Annotated[
    Written[str], OneOf("a state of the wire numbers", lambda: ("issued", "draft"), place="numbers")
]
Units = Annotated[Written[str], OneOf("a set of units", lambda: ("feet", "metric"), place="units")]


Paper = Annotated[Written[str], OneOf("a paper size", lambda: ("letter", "A4", "A5"), place="paper")]

CoilOrContact = Annotated[Written[str], OneOf("coil or contact", lambda: ("coil", "contact"))]


PlugWord = Annotated[Written[str], OneOf("a tow plug", plug_patterns, place="pattern")]

SecondPlugWord = Annotated[
    Written[str], OneOf("a plug that stands beside another", second_patterns, place="pattern")
]

ChaseKindWord = Annotated[
    Written[str],
    OneOf(
        "a kind of chase",
        lambda: ("groove", "channel", "conduit", "open bay", "hinge loop"),
        {
            "bay": "open bay",
            "hinge": "hinge loop",
            "loop": "hinge loop",
            "tube": "conduit",
            "pipe": "conduit",
        },
    ),
]

CarriesWord = Annotated[
    Written[str],
    OneOf(
        "a kind of wiring",
        lambda: ("wires", "mains", "both"),
        {"shore power": "mains", "mains alone": "mains", "mains and wires": "both", "mains too": "both"},
    ),
]

FastenedFrom = Annotated[Written[str], OneOf("a side of a skin or panel", lambda: ("outside", "inside"))]

WallWord = Annotated[
    Written[str],
    OneOf(
        "a side of the body",
        lambda: ("left wall", "right wall", "front wall", "rear wall", "roof", "floor"),
        {
            "left": "left wall",
            "right": "right wall",
            "front": "front wall",
            "rear": "rear wall",
            "back wall": "rear wall",
            "ceiling": "roof",
        },
    ),
]

BoxWallWord = Annotated[
    Written[str],
    OneOf(
        "a wall of the front box",
        lambda: ("left wall", "right wall", "upper wall", "lower wall", "back wall"),
        {
            "left": "left wall",
            "right": "right wall",
            "top": "upper wall",
            "upper": "upper wall",
            "bottom": "lower wall",
            "floor": "lower wall",
            "lower": "lower wall",
            "back": "back wall",
        },
    ),
]

Numbered = Annotated[Written[str], OneOf("a way to number places", lambda: ("along", "across"))]

SoldAs = Annotated[
    Written[str], OneOf("a way that wire is sold", lambda: ("pair", "single"), place="sold as")
]


Side = Annotated[Written[str], OneOf("a side", lambda: ("left", "right", "both", "middle"), place="side")]

FormatWord = Annotated[Written[str], OneOf("a format known here", lambda: ("1",))]
