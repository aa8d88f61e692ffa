"""A part is made for another voltage than it gets.

What: the voltage that a part's draw is stated at (``at``) is far from the voltage of what feeds it; or a part
that says nothing hangs on a supply that is not 12 V.

Why: too high a voltage burns it, too low a one leaves it dark.

Limit: a part whose ``at`` is more than 135 % or less than 74 % of its supply's voltage. A battery system of
12 V lies between 10.5 V and 14.7 V, so labels for it are inside. It is a *must fix* where the file gives
``at``; where it is silent, 12 V is taken, and it is a *should fix*.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    parts: {lamp: {kind: lamp, draws: 5 W, at: 24 V}}
    circuits:
      light: {path: [lamp: 6 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    parts: {lamp: {kind: lamp, draws: 5 W, at: 13.8 V}}
    circuits:
      light: {path: [lamp: 6 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.currents import NOMINAL_V
from builder.electrics.figures import Figures
from builder.rules.finding import Level, Remark
from builder.rules.wording import is_above, name_of, say
from builder.trailer.model import Trailer

MOST, LEAST = 1.35, 0.74
"""Shares of the supply's voltage between which a part's label counts as made for it."""

OTHER_SAYS = "{part} is for {made}, and gets {gets}"
OTHER_HELP = "choose one that is made for {gets}, or mend its at: {gets}"
SILENT_SAYS = (
    "{part} counts as made for 12 V, since the file does not say else, and gets {gets} from “{supply}”"
)
SILENT_HELP = "when it is made for that, write at: {gets}; else let 12 V feed it"
VOLTAGE_BASIS = "the voltages in the file"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for every part whose own voltage is far from its supply's."""
    nominal = {supply.name: supply.nominal_v for supply in figures.supplies}
    told = set()
    for circuit in figures.circuits.values():
        for one in circuit.loads:
            load, gets = one.load, nominal[one.load.section]
            part = trailer.parts.get(load.part)
            if load.what not in ("", "own draw", "coil") or part is None or part.draw is None:
                continue
            made = part.draw.at_v
            if part.name in told or not (is_above(made, gets * MOST) or is_above(gets * LEAST, made)):
                continue
            told.add(part.name)
            silent = abs(made - NOMINAL_V) < 1e-9
            yield Remark(
                origin=part.origin,
                message=say(
                    SILENT_SAYS if silent else OTHER_SAYS,
                    part=name_of(load),
                    made=f"{made:g} V",
                    gets=f"{gets:g} V",
                    supply=load.section,
                ),
                help=say(SILENT_HELP if silent else OTHER_HELP, gets=f"{gets:g} V"),
                known="practice" if silent else "file",
                basis=VOLTAGE_BASIS,
                level=Level.SHOULD if silent else Level.MUST,
                circuit=circuit.number,
            )
