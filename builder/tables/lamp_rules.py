"""Which lamps and reflectors a trailer must have: the rows of published rules, each with when it holds."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from typing import Literal

from builder.tables.table import Known, NoRow, Row, load_table

Measure = Literal["width", "length", "mass"]

_IN_BASE = {"in": 0.0254, "ft": 0.3048, "mm": 0.001, "m": 1.0, "kg": 1.0, "lb": 0.45359237}
"""Metres or kilograms in a unit of the table; the inch and the pound are exact by agreement of 1959."""

_CONDITION = re.compile(r"(width|length|mass) (>=|<=|>|<) ([\d.]+) (\w+)")
_QUANTITY = re.compile(r"([\d.]+) (\w+)")
_DOCUMENT = {"FMVSS 108": "49 CFR 571.108", "UN R48": "UN Regulation No. 48"}
"""How the source of a row begins that is taken from the rule itself."""
_HAIR = 1e-6
"""Metres or kilograms by which a measure may miss a limit and still count as exactly at it."""


@dataclass(frozen=True, slots=True)
class Condition:
    """When a row holds: ``measure`` (m or kg) against ``limit`` with a sign, as the rule's own words have it.

    ``text`` is the limit as the rule writes it, such as ``80 in``.
    """

    measure: Measure
    sign: Literal[">=", "<=", ">", "<"]
    limit: float
    text: str

    def is_met_exactly(self, value: float | None) -> bool:
        """Tell whether a measure in m or kg is the limit itself."""
        return value is not None and abs(value - self.limit) <= _HAIR

    def holds(self, value: float) -> bool:
        """Tell whether a measure in m or kg meets it; a hair from the limit counts as exactly at it."""
        if self.is_met_exactly(value):
            return "=" in self.sign
        return value > self.limit if self.sign[0] == ">" else value < self.limit


@dataclass(frozen=True, slots=True)
class LampRule:
    """One row of a rule: how many of a lamp or reflector, where, in which colours, and when.

    Attributes:
        rule: the rule's name, such as ``FMVSS 108``.
        lamp: what is asked for, in words.
        kind: ``lamp`` or ``reflector``.
        shows: the function that a road lamp shows; empty for a reflector and for what is never asked for.
        at: front, middle, rear, side, or front side, middle side, rear side for a reflector on a side.
        count: how many.
        colors: the colours allowed; empty where none is asked for.
        when: all must hold; empty where the row always does.
        lowest_m: least height of the centre above the road, in metres; None where there is no limit.
        highest_m: greatest height, in metres.
        from_side_m: greatest distance from the outer side, in metres.
        apart_m: least distance from one to the next, in metres.
        most_apart_m: greatest distance from one to the next, in metres.
        place: ``traffic side`` for what sits on the middle or on the side of the traffic; else empty.
        source: the document, in words.
        clause: the table or clause in it.
        known: how the row is known.

    """

    rule: str
    lamp: str
    kind: Literal["lamp", "reflector"]
    shows: str
    at: str
    count: int
    colors: tuple[str, ...]
    when: tuple[Condition, ...]
    lowest_m: float | None
    highest_m: float | None
    from_side_m: float | None
    apart_m: float | None
    most_apart_m: float | None
    place: str
    source: str
    clause: str
    known: Known

    @property
    def authority(self) -> str:
        """What a sentence may name as asking for it: the rule, or the document that stands in for the rule here."""
        return self.rule if self.source.startswith(_DOCUMENT[self.rule]) else f"the {self.source}"


@cache
def lamp_rules(rule: str) -> tuple[LampRule, ...]:
    """Return the rows of a rule in the order of the table; raises `NoRow` for an unknown one.

    Source: in the rows: 49 CFR 571.108 Table I-b as transcribed (quoted); UN R48 and British practice, quoted
    or from memory.
    """
    rows = tuple(_rule(row) for row in load_table("lamp_rules").rows if row.cells["rule"] == rule)
    if not rows:
        raise NoRow(f"there is no rule called {rule} among the lamp rules")
    return rows


@dataclass(frozen=True, slots=True)
class CountryRule:
    """The rule that a country's trailers are held against, and how it is known that it is the one."""

    country: str
    rule: str
    note: str
    known: Known


@cache
def country_rule(country: str) -> CountryRule | None:
    """Return the lamp rule of a country (ISO 3166 code), or None where none is known here.

    Source: the rule's own scope for the US (quoted); Canada's follows it (memory); Europe and Great Britain by
    UN R48 and the British regulations (quoted); Australia's is aligned with UN R48 (quoted), its own rows are not
    read.
    """
    for row in load_table("lamp_rule_countries").rows:
        if country in row.cells["countries"].split():
            return CountryRule(country, row.cells["rule"], row.cells["note"], row.known)
    return None


def _rule(row: Row) -> LampRule:
    cells = row.cells
    kind = cells["kind"]
    if kind not in ("lamp", "reflector"):
        raise ValueError(f"lamp_rules.csv: “{kind}” is neither a lamp nor a reflector")
    return LampRule(
        rule=cells["rule"],
        lamp=cells["lamp"],
        kind="lamp" if kind == "lamp" else "reflector",
        shows=cells["shows"],
        at=cells["at"],
        count=int(cells["count"]),
        colors=tuple(cells["colors"].split("|")) if cells["colors"] else (),
        when=tuple(_condition(text) for text in cells["when"].split("; ") if text),
        lowest_m=_metres(cells["lowest"]),
        highest_m=_metres(cells["highest"]),
        from_side_m=_metres(cells["from_side"]),
        apart_m=_metres(cells["apart"]),
        most_apart_m=_metres(cells["most_apart"]),
        place=cells["place"],
        source=row.source,
        clause=cells["clause"],
        known=row.known,
    )


def _condition(text: str) -> Condition:
    found = _CONDITION.fullmatch(text)
    if found is None:
        raise ValueError(f"lamp_rules.csv: “{text}” is no condition")
    measure, sign, number, unit = found.groups()
    limit = float(number) * _IN_BASE[unit]
    return Condition(measure, sign, limit, f"{number} {unit}")  # type: ignore[arg-type]


def _metres(text: str) -> float | None:
    if not text:
        return None
    found = _QUANTITY.fullmatch(text)
    if found is None:
        raise ValueError(f"lamp_rules.csv: “{text}” is no distance")
    return float(found[1]) * _IN_BASE[found[2]]
