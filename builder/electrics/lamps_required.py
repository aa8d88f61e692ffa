"""Which lamps and reflectors this trailer must have, and which of them the file holds."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from builder.tables.lamp_rules import LampRule, Measure, country_rule, lamp_rules
from builder.tables.table import Known
from builder.trailer.model import Identity, Reflector, RoadLamp, Trailer

AMBIGUOUS = ""
"""Where a lamp is along the trailer when the file does not say it and its functions do not tell."""


@dataclass(frozen=True, slots=True)
class Measures:
    """What the rules ask of a trailer: metres over everything rigid, tongue included, and kilograms; None unknown."""

    width_m: float | None
    length_m: float | None
    mass_kg: float | None

    def of(self, measure: Measure) -> float | None:
        """Return a measure by its name in the rules."""
        return {"width": self.width_m, "length": self.length_m, "mass": self.mass_kg}[measure]


@dataclass(frozen=True, slots=True)
class RequiredLamp:
    """One row of the rule that holds for this trailer, or may hold, and what the file has for it.

    ``lacking`` are the measures without which nobody can say whether the row holds: it is empty where it does.
    ``have`` names lamps or reflectors that count for it, one name for each that is wanted or more; ``known`` is
    the weaker of how the row is known and how it is known that the rule holds in this country.

    What the file says of where those sit, in metres: ``heights_m`` above the road and ``ins_m`` from the outermost side
    in, each once and smallest first; ``middles_apart_m`` between the middles of a left and a right one.
    """

    row: LampRule
    known: Known
    lacking: tuple[Measure, ...]
    have: tuple[str, ...]
    heights_m: tuple[float, ...] = ()
    ins_m: tuple[float, ...] = ()
    middles_apart_m: float | None = None

    @property
    def missing(self) -> int:
        """How many the file lacks; 0 where the row may not hold at all."""
        return 0 if self.lacking else max(0, self.row.count - len(self.have))


@dataclass(frozen=True, slots=True)
class LampsRequired:
    """The rule that the trailer is held against, with what it asks; ``rule`` is empty where no rule is known here.

    ``unplaced`` are lamps that count for a row only because the file does not say where along the trailer they are.
    """

    rule: str
    note: str
    required: tuple[RequiredLamp, ...]
    unplaced: tuple[str, ...]
    reflectors_told: bool


def measures_of(identity: Identity) -> Measures:
    """Return the measures that the rules ask for; the width is the larger of body and rigid fenders.

    Source: 49 CFR 571.108 (quoted) and an agency letter of 1993 on fenders (read).
    """
    widths = [width for width in (identity.width_m, identity.width_over_fenders_m) if width is not None]
    return Measures(max(widths, default=None), identity.length_m, identity.gross_mass_kg)


def rows_for(rule: str, measures: Measures) -> tuple[tuple[LampRule, tuple[Measure, ...]], ...]:
    """Return the rows of a rule that hold, each with the measures that are lacking to say so.

    A row whose known measures already rule it out is left out, and so is one that asks for none. Where a measure
    is lacking, of several rows for one lamp the first that may hold stands for all.
    """
    kept: dict[str, tuple[LampRule, tuple[Measure, ...]]] = {}
    for row in lamp_rules(rule):
        values = [(condition, measures.of(condition.measure)) for condition in row.when]
        if not row.count or any(v is not None and not condition.holds(v) for condition, v in values):
            continue
        lacking = tuple(dict.fromkeys(condition.measure for condition, v in values if v is None))
        kept.setdefault(row.lamp, (row, lacking))
    return tuple(kept.values())


def required_count(rule: str, lamp: str, measures: Measures) -> int:
    """Return how many of a lamp or reflector a rule asks for; all measures that it needs must be given.

    Raises ValueError for a lamp that the rule does not speak of, and where a measure is lacking.
    """
    if all(row.lamp != lamp for row in lamp_rules(rule)):
        raise ValueError(f"{rule} does not speak of {lamp}")
    for row, lacking in rows_for(rule, measures):
        if row.lamp == lamp:
            if lacking:
                raise ValueError(f"{lamp} by {rule} needs the {lacking[0]} of the trailer")
            return row.count
    return 0


def required_total(rule: str, kind: str, measures: Measures) -> int:
    """Return how many lamp functions (``lamp``) or reflectors (``reflector``) a rule asks for in all."""
    return sum(row.count for row, lacking in rows_for(rule, measures) if row.kind == kind and not lacking)


def lamps_required(trailer: Trailer) -> LampsRequired:
    """Return what the rule of the trailer's country asks, held against the lamps and reflectors in the file."""
    country = country_rule(trailer.identity.country)
    if country is None:
        return LampsRequired("", "", (), (), _tells_reflectors(trailer))
    pool = _unplaced(trailer.road_lamps)
    unplaced: list[str] = []
    required = []
    for row, lacking in rows_for(country.rule, measures_of(trailer.identity)):
        have = _have(row, trailer)
        free = [name for name, lamp in pool if row.shows in lamp.shows and _could_be_at(row, lamp)]
        short = row.count - len(have)
        if short > 0 and not lacking:
            taken = free[:short]
            pool = [(name, lamp) for name, lamp in pool if name not in taken]
            unplaced += taken
            have += tuple(taken)
        known: Known = "memory" if "memory" in (row.known, country.known) else row.known
        required.append(RequiredLamp(row, known, lacking, have, *_measured(trailer, have)))
    return LampsRequired(
        country.rule, country.note, tuple(required), tuple(unplaced), _tells_reflectors(trailer)
    )


def _measured(
    trailer: Trailer, names: Iterable[str]
) -> tuple[tuple[float, ...], tuple[float, ...], float | None]:
    """Return heights, distances from the side and the distance between the middles of a pair, as far as written."""
    wanted = set(names)
    every: tuple[RoadLamp | Reflector, ...] = (*trailer.road_lamps, *trailer.reflectors)
    found = [one for one in every if one.name in wanted]
    heights = sorted({one.height_m for one in found if one.height_m is not None})
    ins = sorted({one.in_m for one in found if one.in_m is not None})
    by_side = {one.side: one.in_m for one in found if one.in_m is not None}
    width = measures_of(trailer.identity).width_m
    pair = len(found) == 2 and {"left", "right"} == set(by_side)
    apart = width - by_side["left"] - by_side["right"] if width is not None and pair else None
    return tuple(heights), tuple(ins), apart


def _tells_reflectors(trailer: Trailer) -> bool:
    """Tell whether the file speaks of reflectors at all: under their heading, or as built into a lamp."""
    return bool(trailer.reflectors) or any(lamp.reflector for lamp in trailer.road_lamps)


def _have(row: LampRule, trailer: Trailer) -> tuple[str, ...]:
    """Return the names of what surely counts for a row: a housing of three stands three times."""
    if row.kind == "reflector":
        return tuple(
            reflector.name
            for reflector in trailer.reflectors
            if reflects_for(row, reflector.at) and (reflector.triangle or not is_triangle(row))
        ) + tuple(
            lamp.name
            for lamp in trailer.road_lamps
            if lamp.reflector and reflects_for(row, built_in_at(lamp)) and not is_triangle(row)
        )
    return tuple(
        lamp.name
        for lamp in trailer.road_lamps
        if row.shows in lamp.shows and shows_for(row, lamp)
        for _ in range(lamp.count)
    )


def shows_for(row: LampRule, lamp: RoadLamp) -> bool:
    """Tell whether a lamp is where a row wants it, as far as the file says."""
    return row.shows in lamp.shows and (row.at in (lamp.at, "side"))


def reflects_for(row: LampRule, at: str) -> bool:
    """Tell whether a reflector at a place is where a row wants it: at an end of the trailer, or on its sides."""
    return row.kind == "reflector" and bool(at) and row.at in (at, "side" if at.endswith("side") else at)


def is_triangle(row: LampRule) -> bool:
    """Tell whether a row asks for triangles: what is built into a lamp is none."""
    return "triangle" in row.lamp


def built_in_at(lamp: RoadLamp) -> str:
    """Return the place of the reflector in a lamp: a side marker's shines to the side, any other's to its end."""
    return f"{lamp.at} side" if lamp.at and set(lamp.shows) == {"marker"} else lamp.at


def _unplaced(lamps: Iterable[RoadLamp]) -> list[tuple[str, RoadLamp]]:
    return [(lamp.name, lamp) for lamp in lamps if lamp.at == AMBIGUOUS for _ in range(lamp.count)]


def _could_be_at(row: LampRule, lamp: RoadLamp) -> bool:
    return lamp.at == AMBIGUOUS and row.at in ("front", "middle", "rear")
