"""The battery's side: what flows with everything off, a day's use, and nights as a range."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from builder.electrics.charging import LITHIUM, battery_kind, charger_size_a, charging_figures, limits
from builder.electrics.figures import DayUse, Drain, EnergyFigures, KindFigures
from builder.electrics.network import LoadPath, sections_up
from builder.tables import batteries
from builder.tables.part_kinds import part_kinds
from builder.trailer.assumed import assumption
from builder.trailer.model import BATTERY, Assumption, Trailer
from builder.trailer.parts import SWITCHING, Form
from builder.trailer.wires import BREAKAWAY, Load

HOURS_A_WEEK = 24.0 * 7
METER_ERROR = "error of a cheap meter"
"""The assumption that tells it, in percent of the reading."""

ALWAYS_ON = ("alarm", "meter")


def is_lithium(trailer: Trailer) -> bool:
    """Tell whether the house battery is a lithium one."""
    return battery_kind(trailer) == LITHIUM


def usable_share(trailer: Trailer) -> Assumption:
    """Return the share of the capacity that is used before charging, as an assumption in %."""
    return assumption(trailer, f"usable share of a {battery_kind(trailer)} battery")


def lowest_voltage(trailer: Trailer) -> Assumption:
    """Return the voltage of the battery when it is low, as an assumption in V."""
    return assumption(trailer, f"lowest {battery_kind(trailer)} battery voltage")


def hours_assumption(trailer: Trailer, kind: str) -> Assumption | None:
    """Return the hours of use a day of a kind of part, as an assumption; None when it is never on by itself.

    The file's own figure under ``assume`` counts for low, usual and high alike.
    """
    row = part_kinds().get(kind)
    if row is None or row.hours is None:
        return None
    low, usual, high = row.hours
    id_, about = f"hours of {kind}", f"hours of use in a day: {kind}"
    if id_ in trailer.assume:
        value, origin = trailer.assume[id_]
        return Assumption(
            id_,
            about,
            value,
            "h",
            value,
            value,
            "the maker gives it",
            "file",
            replaced=True,
            origin=origin,
        )
    return Assumption(id_, about, usual, "h", low, high, "a day of camping", "practice")


def drawn_from_battery_a(trailer: Trailer, path: LoadPath, current_a: float) -> float | None:
    """Return what a load takes from the battery in amperes, through its converters; None when the car feeds it."""
    if not on_the_battery(trailer, path.load):
        return None
    above = sections_up(trailer, path.load.section)
    amps = current_a
    for here, up in pairwise(above):
        amps = amps * here.volts / (trailer.parts[here.fed_by].efficiency * up.volts)
    return amps


def on_the_battery(trailer: Trailer, load: Load) -> bool:
    """Tell whether the house battery feeds a load, through converters too: the car feeds brakes and road lamps."""
    above = sections_up(trailer, load.section)
    return bool(above) and above[-1].name == BATTERY


def energy(trailer: Trailer, paths: Sequence[LoadPath], currents: Sequence[float]) -> EnergyFigures | None:
    """Return the battery's figures; None without a battery. Currents in amperes, by path."""
    if trailer.battery is None:
        return None
    idle: list[tuple[str, float, tuple[float, float]]] = []
    off: list[tuple[str, float, tuple[float, float]]] = []
    days, drains = [], []
    to_come: dict[str, None] = {}
    for path, current_a in zip(paths, currents, strict=True):
        amps = drawn_from_battery_a(trailer, path, current_a)
        if amps is None or path.load.what in ("input", BREAKAWAY) or path.load.charged_from:
            continue
        waiting = _waiting(trailer, path, paths)
        if waiting:
            to_come |= dict.fromkeys(waiting)
            continue
        if stays_on(trailer, path, paths):
            taken = path.load.part, amps, _spread(trailer, path, amps)
            idle.append(taken)
            drains.append(Drain(path.load.part, path.load.circuit, amps, not _cut_off(trailer, path, paths)))
            if before_isolator(trailer, path, paths):
                off.append(taken)
        days += _day(trailer, path, paths, amps)
    share = usable_share(trailer).value / 100.0
    usable_ah = trailer.battery.capacity_ah * share
    day_ah = tuple(sum(day.use_ah[i] for day in days) for i in range(3))
    idle_range_a, off_range_a = _added(idle), _added(off)
    return EnergyFigures(
        capacity_ah=trailer.battery.capacity_ah,
        usable_ah=usable_ah,
        idle_a=sum(amps for _, amps, _ in idle),
        off_a=sum(amps for _, amps, _ in off),
        idle_range_a=idle_range_a,
        off_range_a=off_range_a,
        idle_parts=tuple(dict.fromkeys(name for name, _, _ in idle)),
        off_parts=tuple(dict.fromkeys(name for name, _, _ in off)),
        weeks_to_half=weeks_to_half(trailer, idle_range_a),
        weeks_to_half_off=weeks_to_half(trailer, off_range_a),
        days=tuple(days),
        day_ah=(day_ah[0], day_ah[1], day_ah[2]),
        nights=(nights(usable_ah, day_ah[2]), nights(usable_ah, day_ah[0])),
        drains=_by_part(drains),
        waiting=tuple(to_come),
        charging=charging_figures(trailer, *_built_in(trailer, paths, currents), share),
        kind=kind_figures(
            trailer.battery.chemistry,
            trailer.battery.capacity_ah,
            assumption(trailer, METER_ERROR).value,
        ),
    )


def _spread(trailer: Trailer, path: LoadPath, amps: float) -> tuple[float, float]:
    """Return the least and the most that a load may take, in amperes: as it is where the file gives its draw."""
    draw = path.load.draw
    made = next((one for one in trailer.assumed if draw is not None and one.id == draw.assumption), None)
    if made is None or not made.value > 0:
        return amps, amps
    low, high = limits(made)
    return amps * low / made.value, amps * high / made.value


def _added(taken: Sequence[tuple[str, float, tuple[float, float]]]) -> tuple[float, float]:
    return sum(low for _, _, (low, _) in taken), sum(high for _, _, (_, high) in taken)


def _waiting(trailer: Trailer, path: LoadPath, paths: Sequence[LoadPath]) -> list[str]:
    """Return the parts that are still to be built in, of a load and of what lies on the way to it."""
    names = (path.load.part, *_passed(trailer, path, paths))
    return [name for name in names if name in trailer.parts and trailer.parts[name].waiting]


def _built_in(
    trailer: Trailer, paths: Sequence[LoadPath], currents: Sequence[float]
) -> tuple[list[LoadPath], list[float]]:
    """Return the paths on which nothing is still to be built in, and their currents: what waits charges nothing."""
    there = [
        (path, amps) for path, amps in zip(paths, currents, strict=True) if not _waiting(trailer, path, paths)
    ]
    return [path for path, _ in there], [amps for _, amps in there]


def _by_part(drains: Sequence[Drain]) -> tuple[Drain, ...]:
    """Return the drains a part each, the largest first."""
    found: dict[str, Drain] = {}
    for one in drains:
        had = found.get(one.part)
        found[one.part] = (
            replace(had, current_a=had.current_a + one.current_a, stays=had.stays or one.stays)
            if had
            else one
        )
    return tuple(sorted(found.values(), key=lambda one: -one.current_a))


REST_STEPS = {"flooded": (100.0, 75.0, 50.0, 0.0), "agm": (100.0, 75.0, 50.0, 25.0)}
"""How full a battery is at the rows of its table of voltages at rest, in percent. Gel and lithium have none."""

HALF, FULL = 50.0, 100.0
FROST_C = 0.0
FROST_STEPS = (100.0, 50.0, 25.0)


def kind_figures(chemistry: str, capacity_ah: float, meter_percent: float) -> KindFigures:
    """Return what tables know of batteries of a chemistry; ``capacity_ah`` in ampere-hours.

    ``meter_percent`` is by how much a cheap meter may be wrong, in percent of its reading.

    Source: the tables of `builder.tables.batteries`, read and quoted; what they lack is left out.
    """
    lithium = chemistry == LITHIUM
    cold = {"agm": batteries.AGM, "lithium": batteries.LITHIUM}.get(chemistry, batteries.LEAD_ACID)
    charge_from = batteries.lowest_temperatures_c("charge")
    return KindFigures(
        rest=tuple(
            (percent, batteries.rest_voltage(chemistry, percent).value)
            for percent in REST_STEPS.get(chemistry, ())
        ),
        unsure_percent=_unsure_percent(chemistry, meter_percent) if chemistry in REST_STEPS else None,
        cold_percent=batteries.capacity_percent(cold, FROST_C).value,
        freezes=tuple((percent, batteries.freezing_point_c(percent).value) for percent in FROST_STEPS)
        if chemistry == "flooded"
        else (),
        charge_from_c=(charge_from[0], charge_from[-1]) if lithium else None,
        charger_a=None
        if lithium
        else (charger_size_a(capacity_ah, "min"), charger_size_a(capacity_ah, "max")),
        store_months=None if lithium else batteries.store_months(chemistry).value,
    )


def _unsure_percent(chemistry: str, meter_percent: float) -> float:
    """Return how far a meter misjudges a half-full battery, in percent of full."""
    full_v = batteries.rest_voltage(chemistry, FULL).value
    reads_v = min(full_v, batteries.rest_voltage(chemistry, HALF).value * (1.0 + meter_percent / 100.0))
    return batteries.full_by_rest_voltage(chemistry, reads_v).value - HALF


def _cut_off(trailer: Trailer, path: LoadPath, paths: Sequence[LoadPath]) -> bool:
    """Tell whether the isolating switch, or the main fuse where there is none, stops what a load takes."""
    line = trailer.battery_line
    on_line = [stop.part for stop in line.stops if stop.part in trailer.parts] if line else []
    switches = [name for name in on_line if trailer.parts[name].kind == "isolating switch"]
    cuts = switches or ([line.fuse_part] if line and line.fuse_part else [])
    return any(name in cuts for name in _passed(trailer, path, paths))


def stays_on(trailer: Trailer, path: LoadPath, paths: Sequence[LoadPath]) -> bool:
    """Tell whether a load draws with every switch off: idle draws, and alarms and meters behind no switch."""
    if path.load.what == "idle":
        return not _behind_switch(trailer, path, paths)
    part = trailer.parts[path.load.part]
    return part.kind in ALWAYS_ON and not part.own_switch and not _behind_switch(trailer, path, paths)


def _upstream(trailer: Trailer, path: LoadPath, paths: Sequence[LoadPath]) -> list[LoadPath]:
    """Return a load's path and, before converters, the paths to their inputs, up to the first supply."""
    chain = [path]
    for section in sections_up(trailer, path.load.section)[:-1]:
        above = (p for p in paths if (p.load.part, p.load.what) == (section.fed_by, "input"))
        chain += [one for one in (next(above, None),) if one is not None]
    return chain


def _behind_switch(trailer: Trailer, path: LoadPath, paths: Sequence[LoadPath]) -> bool:
    return any(
        trailer.parts[name].kind in SWITCHING
        for name in _passed(trailer, path, paths)
        if name in trailer.parts
    )


def before_isolator(trailer: Trailer, path: LoadPath, paths: Sequence[LoadPath]) -> bool:
    """Tell whether a load hangs before the isolating switch, or there is none: it stays live with it off."""
    return not any(
        trailer.parts[name].kind == "isolating switch"
        for name in _passed(trailer, path, paths)
        if name in trailer.parts
    )


def _passed(trailer: Trailer, path: LoadPath, paths: Sequence[LoadPath]) -> list[str]:
    """Return the parts whose feed a load's current passes, through converters too, the load's own part left out."""
    chain = _upstream(trailer, path, paths)
    names = [trailer.wires[wire].start.part for one in chain for wire in one.feeds]
    return [name for name in dict.fromkeys(names) if name != path.load.part]


def hours_kinds(trailer: Trailer, path: LoadPath, paths: Sequence[LoadPath]) -> tuple[str, ...]:
    """Return the kinds of part whose hours of use count for a load, in alphabet: its own, or what its coil switches.

    A lighted switch counts as a lamp; an idle draw has no hours of use.
    """
    part = trailer.parts.get(path.load.part)
    if part is None or path.load.what == "idle":
        return ()
    if path.load.what == "coil" and f"hours of {part.kind}" not in trailer.assume:
        switched = {
            trailer.parts[one.load.part].kind for one in paths if _through_contact(trailer, one, part.name)
        }
        known = sorted(kind for kind in switched if hours_assumption(trailer, kind) is not None)
        if known:
            return tuple(known)
    return (part.kind if part.form in (Form.LOAD, Form.RELAY) else "lamp",)


def _through_contact(trailer: Trailer, path: LoadPath, relay: str) -> bool:
    starts = (trailer.wires[wire].start for wire in path.feeds)
    return path.load.part in trailer.parts and any(
        start.part == relay and start.pin.startswith("contact") for start in starts
    )


def _day(trailer: Trailer, path: LoadPath, paths: Sequence[LoadPath], amps: float) -> list[DayUse]:
    hours = (24.0, 24.0, 24.0)
    if path.load.what != "idle":
        rows = [hours_assumption(trailer, kind) for kind in hours_kinds(trailer, path, paths)]
        known = [(row.low, row.value, row.high) for row in rows if row is not None]
        if not known:
            return []
        # a coil is on as long as the longest of what it switches
        hours = max(k[0] for k in known), max(k[1] for k in known), max(k[2] for k in known)
    low, usual, high = (day_use_ah(amps, one) for one in hours)
    return [DayUse(path.load.part, amps, hours, (low, usual, high))]


def day_use_ah(current_a: float, hours_h: float) -> float:
    """Return what a part takes in a day, in ampere-hours: its current in amperes for so many hours."""
    return current_a * hours_h


def weeks_to_half(trailer: Trailer, idle_range_a: tuple[float, float]) -> tuple[float, float]:
    """Return the weeks until the battery is half empty, fewest and most, with the least and the most idle draw.

    Half the capacity over idle draw in amperes and self-discharge: the most of both gives the fewest weeks, the least
    of both the most. Source: arithmetic.
    """
    if trailer.battery is None:
        return (0.0, 0.0)
    row = assumption(trailer, f"self-discharge of a {battery_kind(trailer)} battery")
    capacity = trailer.battery.capacity_ah
    weeks = []
    for idle_a, percent in zip(reversed(idle_range_a), reversed(limits(row)), strict=True):
        self_a = capacity * percent / 100.0 / (365.25 / 12 * 24)
        weeks.append(capacity / 2 / ((idle_a + self_a) * HOURS_A_WEEK))
    return weeks[0], weeks[1]


def nights(usable_ah: float, day_ah: float) -> float:
    """Return the nights that usable ampere-hours last at so many a day; 0 where nothing is taken.

    Source: arithmetic, the inverse of the steps for sizing a battery that stands alone.
    """
    return usable_ah / day_ah if day_ah > 0 else 0.0
