"""What is said of options: the rules of the trailer with it in speak, and a spare wire has to reach."""

from __future__ import annotations

from rule_builds import Limit, build

from builder.rules.finding import Level

_LIGHT = "parts: {lamp: {kind: lamp, draws: 2 A}}\ncircuits:\n  light: {fuse: 5 A, path: [lamp: 3 ft]}\n"
_BRIGHTER = "options:\n  brighter lamp: {parts: {lamp: {kind: lamp, draws: 5 A}}}\n"
_SECOND = (
    "spares:\n  rear spare: {from: front box, to: rear wall, wire: 9 ft}\n"
    "options:\n  second lamp: {parts: {bed lamp: {kind: lamp, draws: 1 A}}, "
    "circuits: {bed light: {path: [bed lamp: 9 ft]}}, spares: rear spare}\n"
)

_PLACED = (
    "places: {front box: {back: 10 in, up: 2 ft}, shelf: {back: 4 ft, up: 2 ft}, rear: {back: 6 ft, up: 2 ft}}\n"
    "chases: {groove: {through: [front box, shelf, rear]}}\n"
    "spares:\n  rear spare: {from: front box, to: shelf, size: 16 AWG}\n"
    "options:\n  second lamp: {parts: {bed lamp: {kind: lamp, draws: 1 A, place: shelf}}, "
    "circuits: {bed light: {path: [bed lamp]}}, spares: rear spare}\n"
)

OPTION_LIMITS = (
    # a fuse carries its rating: the rule of loads above fuses speaks of the trailer with the other lamp in it
    Limit(
        "another version that takes more than its fuse carries",
        "option not ready",
        build(_LIGHT + _BRIGHTER),
        ("draws: 5 A", "draws: 5.1 A"),
        ("brighter lamp:", "brighter lamp"),
        Level.WORTH,
        ("if you add “brighter lamp”: “light” takes 5.1 A", "more than its 5 A fuse carries"),
        (("fuse: 7.5 A", "fuse: 5 A", "fuse: 7.5 A"),),
    ),
    Limit(
        "a spare wire as long as the wire that it stands for",
        "option not ready",
        build(_LIGHT + _SECOND),
        ("bed lamp: 9 ft", "bed lamp: 9 ft 1 in"),
        ("second lamp:", "second lamp"),
        Level.WORTH,
        ("the spare wire S1 is shorter",),
        (("leave it out of the option", ", spares: rear spare", ""),),
    ),
    Limit(
        "a spare wire that ends where the wire does that it stands for",
        "option not ready",
        build(_LIGHT + _PLACED),
        ("to: shelf,", "to: rear,"),
        ("second lamp:", "second lamp"),
        Level.WORTH,
        (
            "the spare wire S1 runs from “front box” to “rear”",
            "and the wire that it stands for from “front box” to “bed lamp”",
        ),
        (("let the part stand where the spare wire ends", "place: shelf", "place: rear"),),
    ),
)
