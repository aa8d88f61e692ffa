"""Two-way switching: which switches of a path belong together, checked before anything is woven."""

from __future__ import annotations

from collections.abc import Sequence

from builder.buildfile.declared_circuits import ItemWords
from builder.buildfile.loom import Loom
from builder.trailer.parts import Form, Part


def switching_holds(loom: Loom, items: Sequence[ItemWords], parts: Sequence[Part]) -> bool:
    """Keep a problem where two-way and four-way switches do not make a row; tell whether they do.

    A row begins and ends with a two-way switch; only four-way switches and connectors stand between.
    """
    ends = [place for place, part in enumerate(parts) if part.kind == "two-way switch"]
    if len(ends) == 1:
        loom.problem(
            items[ends[0]].name.origin,
            "two-way switching",
            f"“{parts[ends[0]].name}” is a two-way switch, and no other one stands on its path",
            "let a second two-way switch stand on the path, or make this one kind: switch",
        )
        return False
    if len(ends) > 2:
        loom.problem(
            items[ends[1]].name.origin,
            "two-way switching",
            f"“{parts[ends[1]].name}” stands between two two-way switches and is a two-way switch too",
            "make the ones in the middle kind: four-way switch",
        )
        return False
    return all(_fits(loom, items[place], part, place, ends) for place, part in enumerate(parts))


def _fits(loom: Loom, item: ItemWords, part: Part, place: int, ends: Sequence[int]) -> bool:
    inside = bool(ends) and ends[0] < place < ends[1]
    if part.kind == "four-way switch" and not inside:
        loom.problem(
            item.name.origin,
            "two-way switching",
            f"“{part.name}” is a four-way switch, and no two-way switch stands before it and behind it",
            "begin and end the row with a two-way switch",
        )
        return False
    if inside and part.form not in (Form.TRAVELLER, Form.THROUGH):
        loom.problem(
            item.name.origin,
            "two-way switching",
            f"“{part.name}” stands between two two-way switches, where only four-way switches and connectors can be",
            "put it before the first two-way switch or after the last one",
        )
        return False
    return True
