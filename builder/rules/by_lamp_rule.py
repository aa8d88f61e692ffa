"""What findings on required lamps and reflectors rest on: a row of the lamp rule, and how well it is known."""

from __future__ import annotations

from builder.electrics.lamps_required import RequiredLamp
from builder.rules.finding import Level, Remark, WayOut
from builder.rules.wording import say
from builder.trailer.origin import Origin

ROW_BASIS = "{source}, {clause}; what state or national law adds, ask there"


def lamp_remark(
    origin: Origin, one: RequiredLamp, message: str, help_: str | WayOut, level: Level | None = None
) -> Remark:
    """Return a remark that rests on a row of the lamp rule; from memory it is worth knowing at most.

    ``origin`` is the place in the file; ``message`` and ``help_`` are sentences; ``level`` lowers what the rule
    itself has.
    """
    return Remark(
        origin=origin,
        message=message,
        help=help_,
        known=one.known,
        basis=say(ROW_BASIS, source=one.row.source, clause=one.row.clause),
        level=Level.WORTH if one.known == "memory" else level,
    )
