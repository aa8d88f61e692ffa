"""A converter is asked for more than it gives.

What: everything on behind a converter together takes more than its label says that it gives.

Why: it gets hot, lets its voltage fall, or switches off, and all that hangs on it stops at once.

Limit: ``gives`` of the converter, against the loads behind it with everything on (arithmetic on the file). It
is a *must fix* when the loads that the file states are enough by themselves; with assumed ones it is a *should
fix*.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    parts: {converter: {kind: converter, gives: 2 A, gives at: 5 V}, socket: {kind: socket, draws: 15 W, at: 5 V}}
    circuits:
      phone: {path: [converter: 6 ft, socket: 8 in]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    parts: {converter: {kind: converter, gives: 3 A, gives at: 5 V}, socket: {kind: socket, draws: 15 W, at: 5 V}}
    circuits:
      phone: {path: [converter: 6 ft, socket: 8 in]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures
from builder.rules.finding import Remark
from builder.rules.loading import section_stated_a
from builder.rules.wording import amps, amps_up, is_above, say
from builder.trailer.model import Trailer

TOO_MUCH_SAYS = "“{part}” gives {most}, and with everything on {taken} are taken from it"
TOO_MUCH_HELP = "choose a larger one, gives: {taken}, or hang fewer parts on it"
LABEL_BASIS = "what the file says it gives, and the loads in the file"
ASSUMED_BASIS = "what the file says it gives, and loads that are assumed"


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for every converter that is asked for more than it gives."""
    for supply in figures.supplies:
        part = trailer.parts.get(supply.name)
        if part is None or part.kind != "converter":
            continue  # what charges the battery gives it all that it has
        most_a = part.gives_w / supply.nominal_v if part.gives_w else part.gives_a
        if most_a is None or not is_above(supply.current_a, most_a):
            continue
        stated = is_above(section_stated_a(trailer, figures, part.name), most_a)
        yield Remark(
            origin=part.origin,
            message=say(TOO_MUCH_SAYS, part=part.name, most=amps(most_a), taken=amps_up(supply.current_a)),
            help=say(TOO_MUCH_HELP, taken=amps_up(supply.current_a)),
            known="file" if stated else "practice",
            basis=LABEL_BASIS if stated else ASSUMED_BASIS,
        )
