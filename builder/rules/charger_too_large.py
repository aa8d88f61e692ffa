"""A charger gives more than the battery takes well.

What: one charger gives the battery more current than its capacity allows.

Why: a small battery on a large charger gets hot, gasses or loses its water, and a lithium battery switches itself
off in the middle of the charge.

Limit: a share of the capacity in ampere-hours. Lead: 30 % is what chargers are sized to (quoted), 40 % what a
maker's sheet allows (read). Lithium: 50 % is advised by a maker's sheet and 80 % the most of another one (both
read). Above the larger share it is a *should fix*, above the smaller one worth knowing; so is all where what the
charger gives is assumed. The battery's own sheet decides.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    tow plug: {pattern: 7-way blade, to front box: 7 ft}
    parts: {charger: {kind: dc charger, gives: 18 A}}
    circuits:
      line: {from: tow plug battery, size: 8 AWG, path: [car fuse: 5 in, charger: 7 ft, end fuse: 1 ft, battery: 6 in]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
    front box: {fuse ways: 4}
    tow plug: {pattern: 7-way blade, to front box: 7 ft}
    parts: {charger: {kind: dc charger, gives: 10 A}}
    circuits:
      line: {from: tow plug battery, size: 8 AWG, path: [car fuse: 5 in, charger: 7 ft, end fuse: 1 ft, battery: 6 in]}
"""

from __future__ import annotations

from collections.abc import Iterator
from math import floor
from typing import Literal

from builder.electrics.energy import is_lithium
from builder.electrics.figures import Figures, LoadFigures
from builder.rules.finding import Level, Remark
from builder.rules.wording import amps, amps_up, is_above, say
from builder.tables.charging import charge_limit
from builder.trailer.model import Battery, Trailer
from builder.trailer.parts import Part

TOO_LARGE_SAYS = "“{charger}” gives {current}: more than {share} of the battery's {capacity}, which is {most}"
TOO_LARGE_HELP = (
    "look at the battery's sheet; choose a charger of at most {most}, gives: {most}, or a larger battery"
)


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for every charger that gives the battery more than its capacity allows."""
    if trailer.battery is None:
        return
    told = set()
    for circuit in figures.circuits.values():
        for one in circuit.loads:
            charger = trailer.parts.get(one.load.charged_from)
            if charger is None or charger.name in told:
                continue  # straight from the car: how much flows is the car's affair
            told.add(charger.name)
            remark = _remark(trailer, trailer.battery, one, charger)
            if remark is not None:
                yield remark


def _remark(trailer: Trailer, battery: Battery, one: LoadFigures, charger: Part) -> Remark | None:
    current_a = one.current_a
    chemistry: Literal["lead", "lithium"] = "lithium" if is_lithium(trailer) else "lead"
    most, advised = charge_limit(chemistry, "most"), charge_limit(chemistry, "advised")
    limit = most if is_above(current_a, battery.capacity_ah * most.value / 100) else advised
    most_a = battery.capacity_ah * limit.value / 100
    if not is_above(current_a, most_a):
        return None
    assumed = _is_assumed(trailer, charger)
    grave = limit is most and not assumed
    return Remark(
        origin=charger.origin,
        message=say(
            TOO_LARGE_SAYS,
            charger=charger.name,
            current=amps_up(current_a),
            share=f"{limit.value:g} %",
            capacity=f"{battery.capacity_ah:g} Ah",
            most=_whole(most_a),
        ),
        help=say(TOO_LARGE_HELP, most=_whole(battery.capacity_ah * advised.value / 100)),
        known="practice" if assumed else limit.known,
        basis=limit.source,
        level=Level.SHOULD if grave else Level.WORTH,
        circuit=one.load.circuit,
    )


def _is_assumed(trailer: Trailer, charger: Part) -> bool:
    """Tell whether what a charger gives is assumed: its own figure, or that of the module before it."""
    fed_from = [load.section for load in trailer.loads if (load.part, load.what) == (charger.name, "input")]
    ids = {f"gives of {name}" for name in (charger.name, *fed_from)}
    return any(made.id in ids and not made.replaced for made in trailer.assumed)


def _whole(value: float) -> str:
    """Return amperes as a charger is sold, rounded down: whole ones, below ten to a tenth."""
    return amps(floor(value + 1e-6) if value >= 10 else floor(value * 10 + 1e-6) / 10)
