"""Answers to check values: from a quantity, its inputs and the unit wanted to what the tool says.

Nothing here knows a row's identity, source or value. What the tool computes is answered by the function that
its figures use (`CLASS_A` names them); what it looks up, by the table it reads.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

import answers_colours
import answers_conductors
import answers_energy
import answers_protection
import answers_road
import answers_running
from asked import Asked, NotAnswered

Answer = float | str | bool
Answerer = Callable[[Asked], Answer]

ANSWERS: dict[str, dict[str, Answerer]] = {
    **answers_conductors.ANSWERS,
    **answers_running.ANSWERS,
    **answers_protection.ANSWERS,
    **answers_colours.ANSWERS,
    **answers_energy.ANSWERS,
    **answers_road.ANSWERS,
}
"""By quantity, then by the unit that the answer is wanted in."""

CLASS_A: dict[str, tuple[str, ...]] = {
    **answers_conductors.CLASS_A,
    **answers_running.CLASS_A,
    **answers_protection.CLASS_A,
    **answers_colours.CLASS_A,
    **answers_energy.CLASS_A,
    **answers_road.CLASS_A,
}
"""By quantity that the tool computes, the functions that answer it."""


def answer(quantity: str, inputs: Mapping[str, str], unit: str) -> Answer:
    """Return what the tool says, in the unit wanted.

    Raises `NotAnswered` for an unknown quantity, unit, input or word; what the tool itself raises passes.
    """
    if quantity not in ANSWERS:
        raise NotAnswered(f"the quantity {quantity} is unknown")
    if unit not in ANSWERS[quantity]:
        raise NotAnswered(f"{quantity} is not answered in {unit}")
    asked = Asked(inputs)
    given = ANSWERS[quantity][unit](asked)
    asked.require_all_taken()
    return given
