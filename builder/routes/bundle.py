"""Wires that lie side by side warm each other."""

from __future__ import annotations

from builder.tables.conductors import bundle_row


def bundle_factor(current_carrying: int) -> float:
    """Return the share of its current that a wire keeps among this many current-carrying ones.

    Feed and return count as one each: a pair alone is 2. One or two 1.0, three 0.70, four to six 0.60,
    seven to 24 0.50, 25 and more 0.40. Raises NoRow below one. Source: 33 CFR 183.425 Table 5 note 2,
    quoted; the rule itself does not ask for it under 50 V, so it stands here as the more cautious habit.
    """
    return bundle_row(current_carrying).value
