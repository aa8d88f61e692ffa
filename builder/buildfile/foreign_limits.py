"""Lowest voltages that do not count: parts behind a converter are not on the 12 V system."""

from __future__ import annotations

from dataclasses import replace

from builder.buildfile.assuming import Assumer
from builder.buildfile.loom import Loom
from builder.buildfile.written import fold

LEAST_V, MOST_V = 9.0, 16.0
"""Between these a section is one of the 12 V system, its charging included (common practice)."""


def drop_foreign_limits(loom: Loom, assumer: Assumer) -> None:
    """Take the assumed lowest voltage from parts that hang on another voltage than the kinds speak of.

    An assumption that no part rests on any more is not made, unless the file itself gives its value.
    """
    foreign = {name for name, section in loom.sections.items() if not LEAST_V <= section.volts <= MOST_V}
    for load in loom.loads:
        part = loom.parts.get(fold(load.part))
        if part is not None and load.section in foreign and part.works_from_assumption:
            loom.parts[fold(load.part)] = replace(part, works_from_v=None, works_from_assumption="")
    rested_on = {part.works_from_assumption for part in loom.parts.values()}
    for id_, made in list(assumer.made.items()):
        if id_.startswith("lowest voltage of ") and id_ not in rested_on and not made.replaced:
            del assumer.made[id_]
