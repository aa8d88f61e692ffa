"""Limits of what is in stock: spools from which nothing is cut."""

from __future__ import annotations

from rule_builds import Limit, build

from builder.rules.finding import Level

# 6 ft and two tails of 6 in are 7 ft; a tenth more is 7.7 ft, 7 ft 8.4 in
SPOOL = build(
    "in stock:\n  wire: {orange 16 AWG: 7 ft 8 1/2 in}\n"
    "parts: {lamp: {kind: lamp, draws: 3 W}}\ncircuits:\n  lamp: {path: [lamp: 6 ft], color: orange}\n"
).replace("[16 AWG]", "[16 AWG], sold as: single")

STOCK_LIMITS = (
    Limit(
        "as long as the shortest piece",
        "spool not used",
        SPOOL,
        ("7 ft 8 1/2 in", "7 ft 8 1/4 in"),
        ("wire: {orange", "7 ft 8 1/4 in"),
        Level.WORTH,
        ("the spool of orange 16 AWG", "the shortest piece of it takes 7 ft 9 in"),
        (("measure it again", "7 ft 8 1/4 in", "7 ft 9 in"),),
    ),
    Limit(
        "of a kind that is needed",
        "spool not used",
        SPOOL,
        ("orange 16 AWG: 7", "green 16 AWG: 7"),
        ("wire: {green", "7 ft 8 1/2 in"),
        Level.WORTH,
        ("the spool of green 16 AWG: no wire of this build is of this kind",),
        (
            ("this build needs black 16 AWG, orange 16 AWG, red 16 AWG", "green", "orange"),
            ("take it out of “in stock”", "in stock:\n  wire: {green 16 AWG: 7 ft 8 1/2 in}\n", ""),
        ),
    ),
)
