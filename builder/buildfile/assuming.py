"""Assumptions met while reading: what the file leaves out and the tables fill in."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from builder import quantities
from builder.buildfile.problems import Problem
from builder.buildfile.validating import fold
from builder.buildfile.values import list_words, nearest
from builder.buildfile.written import Key, Written
from builder.quantities import Draw, Misread
from builder.tables.assumptions import defaults
from builder.trailer.model import Assumption
from builder.trailer.origin import Origin


@dataclass(slots=True)
class Assumer:
    """Hands out assumed values and remembers each as an assumption; ``written`` is ``assume:`` of the file."""

    written: Mapping[Key, Written[str]]
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
                        reason="the build file says so",
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


def check_assume(written: Mapping[Key, Written[str]], known: Mapping[str, str]) -> list[Problem]:
    """Return what is wrong under ``assume:``; ``known`` maps every assumption id of this build to its unit."""
    problems = []
    by_fold = {fold(id_): (id_, unit) for id_, unit in known.items()}
    for key, value in written.items():
        if fold(key) not in by_fold:
            near = nearest(fold(key), by_fold)
            help_ = (
                f"did you mean “{by_fold[near][0]}”?"
                if near
                else f"the assumptions are: {list_words(defaults(), 30)}"
            )
            problems.append(
                Problem(
                    key.origin, "unknown assumption", f"“{key}” is not an assumption of this build", help_
                )
            )
            continue
        read = read_in_unit(value.value, by_fold[fold(key)][1])
        if isinstance(read, Misread):
            place = Origin(value.origin.line, value.origin.column + read.start, max(read.length, 1))
            problems.append(Problem(place, "misread value", read.message, read.help))
    return problems


def replacements(written: Mapping[Key, Written[str]]) -> dict[str, tuple[float, Origin]]:
    """Return the values that ``assume:`` puts in the place of general defaults, by id, with their places."""
    found: dict[str, tuple[float, Origin]] = {}
    for row in defaults().values():
        for key, value in written.items():
            if fold(key) == fold(row.id):
                read = read_in_unit(value.value, row.unit)
                if not isinstance(read, Misread):
                    found[row.id] = (read, key.origin)
    return found
