"""How a chase is built in: its bends, the holes bored for it, its supports, its grommets, and what else lies in it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from builder.trailer.origin import Origin


class Carries(StrEnum):
    """What lies in a chase: low-voltage wires alone, mains alone, or both of them."""

    WIRES = "wires"
    BOTH = "both"
    MAINS = "mains"


@dataclass(frozen=True, slots=True)
class Fittings:
    """What the file says of how a chase is built in; lengths in metres, None where it does not say.

    ``bend_radius_m`` is the smallest radius at which it bends. ``hole_m`` is the diameter of the holes bored for it
    through frames and studs, ``edge_m`` what wood is left between such a hole and the nearest edge.
    ``supports_m`` is how far apart its supports are. ``sheet_at`` names its places at which it passes sheet metal.
    ``grommets`` tells whether the holes have grommets or bushings; ``sealed``, ``strain_relief`` and ``drip_loop``
    are those of the hole where it enters the body. ``divided`` tells whether something lies between mains and the
    other wires. ``near_heat`` is what is hot beside it, in words. ``written`` is where the file says each, by its word.
    """

    bend_radius_m: float | None = None
    hole_m: float | None = None
    edge_m: float | None = None
    supports_m: float | None = None
    sheet_at: tuple[str, ...] = ()
    grommets: bool | None = None
    sealed: bool | None = None
    strain_relief: bool | None = None
    drip_loop: bool | None = None
    carries: Carries = Carries.WIRES
    divided: bool | None = None
    near_heat: str = ""
    pull_string: bool = False
    written: Mapping[str, Origin] = field(default_factory=dict)
