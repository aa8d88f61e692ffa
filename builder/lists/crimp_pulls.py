"""What the crimps of a build must hold: a weight to hang on one, by the size of the wire."""

from __future__ import annotations

from dataclasses import dataclass

from builder.electrics.figures import Figures, every_size
from builder.tables import NoRow
from builder.tables.connections import crimp_pull
from builder.trailer.model import Trailer
from builder.trailer.size import Size, by_area

_KG_IN_LBF = 0.45359237
"""The mass that one pound-force holds up, in kg."""


@dataclass(frozen=True, slots=True)
class CrimpPull:
    """A size of wire, and the mass in kg that a crimp on it must hold for a minute."""

    size: Size
    hung_kg: float


def crimp_pulls(trailer: Trailer, figures: Figures) -> tuple[CrimpPull, ...]:
    """Return each size of wire in a build with the mass that its crimps must hold, the thinnest first.

    A size thinner than the table knows is left out. Source: ABYC E-11 Table XVI.
    """
    found = []
    for size in sorted(set(every_size(trailer, figures.wires).values()), key=by_area):
        try:
            force = crimp_pull(size.area_mm2)
        except NoRow:
            continue
        found.append(CrimpPull(size, force.value * _KG_IN_LBF))
    return tuple(found)
