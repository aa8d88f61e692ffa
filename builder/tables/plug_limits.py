"""What a circuit of a tow plug may carry, what a contact may be for, what a car must see to take a lamp for healthy."""

from __future__ import annotations

from functools import cache

from builder.tables.table import Fact, load_table


def plug_circuit_limit(case: str) -> Fact:
    """Return the most that one circuit of a plug carries, in ampere.

    ``case`` is as the table has it. Raises `NoRow` for an unknown one. Source: in the row, quoted.
    """
    return load_table("plug_circuit_limits").find(case, case=case).fact("most_a", "A")


LED_SEEN_A = 0.030
"""The least that a standardised LED in place of a 5 W bulb must draw to read as healthy, in ampere.

Source: GRE-81-04, quoted; a car may look for more.
"""

GROUND_DROP_V = 0.2
"""The most that the ground of road lamps should lose at full load, in volts. Source: common practice."""


@cache
def met_on_contact(pattern: str, pin: str) -> tuple[str, ...]:
    """Return all functions that are met on a contact of a socket, by car; none where its pattern settles it.

    Source: in the row, common practice.
    """
    rows = load_table("plug_doubts").rows
    found = (one.cells for one in rows if (one.cells["pattern"], one.cells["contact"]) == (pattern, pin))
    return next((tuple(cells["may_be"].split("|")) for cells in found), ())
