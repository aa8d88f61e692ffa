"""Assumptions in the order of what they would change for the owner."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from builder.electrics.energy import on_the_battery
from builder.electrics.figures import EnergyFigures, Figures
from builder.tables.assumptions import defaults
from builder.trailer.model import BATTERY, Assumption, Trailer

CHANGES = ("nights", "charging", "sizes", "voltage", "lists", "given")
"""What an assumption changes first, what an owner feels most ahead; ``given`` are those that the file replaced."""

DAYS_A_MONTH = 365.25 / 12
HOURS_A_DAY = 24.0
HOURS, IDLE, DRAWS, GIVES, LOWEST = (
    "hours of ",
    "idle draw of ",
    "draws of ",
    "gives of ",
    "lowest voltage of ",
)


@dataclass(frozen=True, slots=True)
class OrderedAssumption:
    """An assumption, a word of `CHANGES`, and its ``swing``: by which share it can move what it changes."""

    assumption: Assumption
    changes: str
    swing: float


def ordered_assumptions(trailer: Trailer, figures: Figures) -> tuple[OrderedAssumption, ...]:
    """Return a build's assumptions, those first that would change most for its owner.

    They stand in the groups of `CHANGES`. In a group the larger ``swing`` leads, then the name. In ``nights`` the
    swing is what the assumption's range moves in a day's use, over the usual day's use, so that hours of what takes
    much outrank hours of what takes little; elsewhere it is the width of the range over the value taken. Nothing is
    computed anew with other assumptions: that would cost a whole build for each.
    """
    found = [_ordered(trailer, figures.energy, one) for one in figures.assumptions]
    return tuple(
        sorted(found, key=lambda one: (CHANGES.index(one.changes), -one.swing, one.assumption.id.casefold()))
    )


def _ordered(trailer: Trailer, energy: EnergyFigures | None, one: Assumption) -> OrderedAssumption:
    if one.replaced:
        return OrderedAssumption(one, "given", 0.0)
    width = (one.high - one.low) / one.value if one.value else 0.0
    changes = _changes(trailer, one.id)
    if changes == "nights" and energy is not None and energy.day_ah[1] > 0:
        return OrderedAssumption(one, changes, _moved(trailer, energy, one, width))
    return OrderedAssumption(one, changes, width)


def _changes(trailer: Trailer, id_: str) -> str:
    """Return what an assumption changes: the table tells it of the general ones, the name of the others."""
    if id_ in defaults():
        return defaults()[id_].changes
    if id_.startswith(LOWEST):
        return "voltage"
    if id_.startswith(GIVES):
        return "charging"
    if id_.startswith(DRAWS) and not _feeds(trailer, id_.removeprefix(DRAWS)):
        return "sizes"  # a road lamp or a brake, which the car feeds
    return "nights"


def _feeds(trailer: Trailer, part: str) -> bool:
    """Tell whether the house battery feeds a part; of one that is on no wire yet it is taken to."""
    mine = [load for load in trailer.loads if load.part == part]
    return part in trailer.parts and (not mine or any(on_the_battery(trailer, load) for load in mine))


def _moved(trailer: Trailer, energy: EnergyFigures, one: Assumption, width: float) -> float:
    """Return by which share of a usual day's use an assumption can move it; the share itself for the usable part."""
    day_ah = energy.day_ah[1]
    if one.id.startswith(HOURS):
        kind = one.id.removeprefix(HOURS)
        mine = [day for day in energy.days if trailer.parts[day.part].kind == kind]
        return sum(day.use_ah[2] - day.use_ah[0] for day in mine) / day_ah
    if one.id.startswith(IDLE):
        return (one.high - one.low) * HOURS_A_DAY / day_ah
    if one.id.startswith(DRAWS):
        return width * _used_ah(energy, [one.id.removeprefix(DRAWS)]) / day_ah
    if one.id.startswith("self-discharge"):
        return energy.capacity_ah * (one.high - one.low) / 100.0 / DAYS_A_MONTH / day_ah
    if one.id == "converter efficiency":
        behind = {load.part for load in trailer.loads if load.section != BATTERY}
        return width * _used_ah(energy, behind) / day_ah
    return width


def _used_ah(energy: EnergyFigures, parts: Iterable[str]) -> float:
    named = set(parts)
    return sum(day.use_ah[1] for day in energy.days if day.part in named)
