"""Assumptions met while reading: what the file leaves out and the tables fill in."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field

from builder import quantities
from builder.buildfile.problems import Problem, instead
from builder.buildfile.suggesting import did_you_mean, near_words, sure_of
from builder.buildfile.value_reading import list_words
from builder.buildfile.values import HIGHEST_INSULATION_C, LOWEST_INSULATION_C
from builder.buildfile.written import Key, Written, fold
from builder.quantities import Draw, Misread
from builder.tables.assumptions import defaults
from builder.tables.part_kinds import part_kinds
from builder.trailer.model import Assumption
from builder.trailer.origin import Origin


@dataclass(slots=True)
class Assumer:
    """Hands out assumed values and remembers each as an assumption; ``written`` is ``assume:`` of the file.

    ``metric`` tells that lengths of the build are metric.
    """

    written: Mapping[Key, Written[str]]
    metric: bool = False
    made: dict[str, Assumption] = field(default_factory=dict)

    def value(self, assumption: Assumption) -> float:
        """Keep an assumption and return its value, or the one that the file puts in its place."""
        self.made[assumption.id] = self._replaced(assumption)
        return self.made[assumption.id].value

    def _replaced(self, assumption: Assumption) -> Assumption:
        for key, written in self.written.items():
            if fold(key) == fold(assumption.id):
                read = read_in_unit(written.value, assumption.unit)
                if not isinstance(read, Misread):
                    return Assumption(
                        id=assumption.id,
                        about=assumption.about,
                        value=read,
                        unit=assumption.unit,
                        low=assumption.low,
                        high=assumption.high,
                        reason="the maker gives it",
                        known="file",
                        replaced=True,
                        origin=written.origin,
                    )
        return assumption


def read_in_unit(text: str, unit: str) -> float | Misread:
    """Return a text as a number in a unit of the table of assumptions, or what is wrong with it."""
    if unit in {"W", "A"}:
        draw = quantities.read_power_or_current(text)
        if isinstance(draw, Draw):
            wanted = "watts" if unit == "W" else "amperes"
            return (
                draw.value
                if draw.unit == unit
                else Misread(0, len(text), f"{wanted} are wanted", f"write it in {wanted}")
            )
        return draw
    if unit == "wires":
        return quantities.read_count(text.removesuffix("wires").strip())
    readers = {
        "°C": quantities.read_temperature,
        "%": quantities.read_percent,
        "V": quantities.read_voltage,
        "m": quantities.read_length,
        "h": quantities.read_hours,
    }
    return readers[unit](text)


def general() -> dict[str, Assumption]:
    """Return the assumptions that any build can replace: the defaults, and the hours of use of each kind."""
    found = {
        row.id: Assumption(row.id, row.about, row.value, row.unit, row.low, row.high, row.reason, row.known)
        for row in defaults().values()
    }
    for kind in part_kinds().values():
        if kind.hours is not None:
            low, usual, high = kind.hours
            id_ = f"hours of {kind.word}"
            found[id_] = Assumption(id_, id_, usual, "h", low, high, "a day of camping", "practice")
    return found


def check_assume(
    written: Mapping[Key, Written[str]], made: Mapping[str, Assumption], unread: frozenset[str]
) -> list[Problem]:
    """Return what is wrong under ``assume:``; ``made`` are the assumptions met while this build was read.

    ``unread`` are folded names that stand in the file without being read: an assumption may be one of theirs.
    """
    problems = []
    by_fold = {fold(id_): one for id_, one in (general() | dict(made)).items()}
    for key, value in written.items():
        if fold(key) not in by_fold and unread and " of " in key:
            continue  # what is assumed of a part shows only when the part is read
        if fold(key) not in by_fold:
            near = tuple(by_fold[one].id for one in near_words(key, by_fold))
            help_ = did_you_mean(near) or f"the assumptions are: {list_words(defaults(), 30)}"
            problems.append(
                Problem(
                    key.origin,
                    "unknown assumption",
                    f"“{key}” is not an assumption of this build",
                    help_,
                    mends=instead(*near, sure=sure_of(key, near)),
                )
            )
            continue
        one = by_fold[fold(key)]
        read = read_in_unit(value.value, one.unit)
        if isinstance(read, Misread):
            place = Origin(value.origin.line, value.origin.column + read.start, max(read.length, 1))
            mends = instead(*read.fixes, at=value.origin)
            problems.append(Problem(place, "misread value", read.message, read.help, mends=mends))
        elif not reasonable(read, one):
            least, most = reach(one)
            problems.append(
                Problem(
                    value.origin,
                    "out of reach",
                    f"{value.value} cannot be right for “{one.id}”",
                    f"write a value from {least:g} to {most:g} {one.unit}; "
                    f"{one.low:g} to {one.high:g} {one.unit} is usual",
                )
            )
    return problems


FAR = 10
"""How many times beyond its range a replaced assumption may lie before it is taken for a slip."""

FAR_DRAW = 100
"""The same for what one part takes or gives, where the parts of a kind differ more."""


def reach(one: Assumption) -> tuple[float, float]:
    """Return the least and the most that can stand for an assumption, in its unit.

    ``FAR`` or ``FAR_DRAW`` times beyond its usual range, and within what the unit allows on a 12 V trailer
    (common practice).
    """
    if one.unit == "h":
        return 0.0, 24.0
    if one.id == "insulation temperature":
        return LOWEST_INSULATION_C, HIGHEST_INSULATION_C
    if one.unit == "°C":
        return -40.0, 200.0
    if one.unit == "V":
        least = (
            max(1.0, one.low / FAR) if one.low >= 1.0 else one.low / FAR
        )  # a supply, or what is lost on a wire
        return least, min(60.0, one.high * FAR)
    if one.unit in {"A", "W"}:
        return one.low / FAR_DRAW, one.high * FAR_DRAW
    most = 100.0 if one.unit == "%" else math.inf
    return one.low / FAR, min(most, one.high * FAR)


def reasonable(value: float, one: Assumption) -> bool:
    """Tell whether a value can stand for an assumption."""
    least, most = reach(one)
    return least <= value <= most


def replacements(written: Mapping[Key, Written[str]]) -> dict[str, tuple[float, Origin]]:
    """Return the values that ``assume:`` puts in the place of general defaults, by id, with their places."""
    found: dict[str, tuple[float, Origin]] = {}
    for row in general().values():
        for key, value in written.items():
            if fold(key) == fold(row.id):
                read = read_in_unit(value.value, row.unit)
                if not isinstance(read, Misread):
                    found[row.id] = (read, key.origin)
    return found
