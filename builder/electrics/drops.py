"""The drop by hand: over each stretch, feed and return, its resistance times all the current beyond it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from builder.electrics.conductors import voltage_drop_v
from builder.electrics.network import LoadPath


@dataclass(frozen=True, slots=True)
class DropStep:
    """One stretch of the hand formula: the wire, its resistance in ohm, its current in amperes, its drop in volts."""

    wire: str
    resistance_ohm: float
    current_a: float
    drop_v: float


def drop_steps(
    path: LoadPath, numbers: Sequence[str], resistances_ohm: Sequence[float], currents_a: Sequence[float]
) -> tuple[DropStep, ...]:
    """Return the stretches of a load's path, from the supply to the load and back; all lists by wire index."""
    return tuple(
        DropStep(
            numbers[wire],
            resistances_ohm[wire],
            currents_a[wire],
            voltage_drop_v(currents_a[wire], resistances_ohm[wire]),
        )
        for wire in path.wires
    )


def hand_drop_v(steps: Sequence[DropStep]) -> float:
    """Return the drop at a load in volts: the sum over its stretches, everything on.

    Source: Ohm's and Kirchhoff's laws, each load taken at its current at 12.0 V.
    """
    return sum(step.drop_v for step in steps)
