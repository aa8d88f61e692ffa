"""Wires that lie side by side: how they warm each other, and how thick a round bundle of them is."""

from __future__ import annotations

from collections.abc import Sequence
from math import sqrt

from builder.tables.conductors import bundle_row

LOOSE = 1.25
"""A round bundle is so much thicker than one wire as large as all of them together."""


def bundle_factor(current_carrying: int) -> float:
    """Return the share of its current that a wire keeps among this many current-carrying ones.

    Feed and return count as one each: a pair alone is 2. One or two 1.0, three 0.70, four to six 0.60,
    seven to 24 0.50, 25 and more 0.40. Raises NoRow below one. Source: 33 CFR 183.425 Table 5 note 2,
    quoted; the rule itself does not ask for it under 50 V, so it stands here as the more cautious habit.
    """
    return bundle_row(current_carrying).value


def bundle_diameter_mm(diameters_mm: Sequence[float]) -> float:
    """Return how thick a round bundle of wires of these outside diameters in mm is: what a clip or a tie goes round.

    `LOOSE` times the root of the sum of their squares, which leaves a little over a third of it empty; two of them
    side by side at least. Source: wires alike packed as tightly as they go, arithmetic; more in a bundle by hand is
    common practice.
    """
    thickest = sorted(diameters_mm, reverse=True)[:2]
    return max(
        LOOSE * sqrt(sum(mm * mm for mm in diameters_mm)) if len(diameters_mm) > 1 else 0.0, sum(thickest)
    )
