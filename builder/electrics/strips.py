"""What is lost along a lamp strip that is sold by length and fed at one end."""

from __future__ import annotations

from builder.electrics.currents import NOMINAL_V
from builder.trailer.assumed import assumption
from builder.trailer.model import Trailer
from builder.trailer.parts import STRIP_LOSS
from builder.trailer.wires import Load


def along_v(current_a: float, lit_m: float, loss_percent: float) -> float:
    """Return what a strip that is fed at one end loses to its far end, in volts.

    ``current_a`` enters at the near end and leaves evenly along ``lit_m`` metres, so its mean along the strip is
    half of it. ``loss_percent`` is the share of 12 V that 1 A loses along 1 m, out and back. Source: Ohm's law.
    """
    return current_a / 2.0 * lit_m * loss_percent / 100.0 * NOMINAL_V


def strip_loss_v(trailer: Trailer, load: Load, current_a: float) -> float:
    """Return what a load loses along itself in volts, at its current in amperes; 0 for all that is no strip."""
    part = trailer.parts.get(load.part)
    if part is None or part.lit_length_m is None or load.what:
        return 0.0
    return along_v(current_a, part.lit_length_m, assumption(trailer, STRIP_LOSS).value)
