"""What charges the battery: from which supply, with what current, and in how many hours or days."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from builder.electrics.network import LoadPath, sections_up
from builder.tables.batteries import charger_percent
from builder.trailer.assumed import assumption
from builder.trailer.model import BATTERY, SUPPLY_BAR, TOW_PLUG, Assumption, Trailer
from builder.trailer.parts import CHARGE_LIMITER
from builder.trailer.wires import Load

LEAD, LITHIUM = "lead", "lithium"


@dataclass(frozen=True, slots=True)
class ChargingFigures:
    """One way to charge the battery.

    ``supply`` is the part or the plug contact that the current comes from, ``source`` its kind (tow plug, solar
    module, shore converter …), ``charger`` the part that shapes the charge, empty where there is none. ``current_a``
    flows into the battery (a solar module: in full sun), least and most. ``hours`` are those to put back what is
    used before charging; a solar module has ``day_ah``, ampere-hours of a day's sun, and ``days`` instead.
    ``held`` tells whether something holds the charge in check, see `held_in_check`; ``limiters`` are limiters on it.
    ``into_box`` tells that the charge goes through the front box, hence through main fuse and isolating switch.
    """

    circuit: int
    supply: str
    source: str
    charger: str
    into_box: bool
    current_a: tuple[float, float]
    hours: tuple[float, float] | None
    day_ah: tuple[float, float] | None
    days: tuple[float, float] | None
    held: bool
    limiters: tuple[str, ...]


def battery_kind(trailer: Trailer) -> str:
    """Return lead or lithium."""
    lithium = trailer.battery is not None and trailer.battery.chemistry == LITHIUM
    return LITHIUM if lithium else LEAD


def charge_hours(capacity_ah: float, share: float, current_a: float, factor: float) -> float:
    """Return the hours to put back a share (0 to 1) of the capacity at a current in amperes.

    ``factor`` is the time over that of the bare ampere-hours: a lead battery takes the last part slowly.
    Source: vehicle battery notes, hours = 1.6 × Ah × share / A (quoted).
    """
    return factor * capacity_ah * share / current_a


def solar_yield_wh(power_w: float, sun_h: float, losses_percent: float) -> float:
    """Return what a solar module gives in a day, in watt-hours: watts times hours of full sun, less the losses.

    Source: the definition of a peak sun hour, 1 kWh/m² on the module.
    """
    return power_w * sun_h * (1.0 - losses_percent / 100.0)


def charger_size_a(capacity_ah: float, bound: str) -> float:
    """Return the ``min`` or ``max`` current in amperes of a charger that suits a lead battery.

    Source: battery charging note, 10 to 30 % of the capacity at 20 h (quoted).
    """
    return capacity_ah * charger_percent(bound).value / 100.0


def charging_figures(
    trailer: Trailer, paths: Sequence[LoadPath], currents: Sequence[float], usable_share: float
) -> tuple[ChargingFigures, ...]:
    """Return every way to charge the battery, in the order of the circuits; ``usable_share`` 0 to 1 is put back."""
    if trailer.battery is None:
        return ()
    found = []
    for path, current_a in zip(paths, currents, strict=True):
        if not path.load.charged_from or not current_a > 0:
            continue
        supply = supply_of(trailer, path.load.charged_from)
        if supply == BATTERY:
            continue
        found.append(_charging(trailer, path.load, supply, current_a, usable_share))
    return tuple(sorted(found, key=lambda one: one.circuit))


def supply_of(trailer: Trailer, section: str) -> str:
    """Return the supply that a section's current comes from, through its converters and chargers."""
    above = sections_up(trailer, section)
    return above[-1].name if above else section


def _charging(
    trailer: Trailer, load: Load, supply: str, current_a: float, usable_share: float
) -> ChargingFigures:
    section = load.charged_from
    part = trailer.parts.get(supply)
    source = TOW_PLUG if supply.startswith(TOW_PLUG) else part.kind if part else supply
    low_a, high_a = _current_range(trailer, section, supply, current_a)
    if is_limited(trailer, load.circuit):
        low_a, high_a = min(low_a, current_a), min(high_a, current_a)
    hours = day_ah = days = None
    if source == "solar module":
        day_ah = _sun_day_ah(trailer, (low_a, high_a))
        days = _range_of(trailer, usable_share, day_ah)
    else:
        hours = _range_of(trailer, usable_share, (low_a, high_a))
    charger = section if section != supply else ""
    return ChargingFigures(
        load.circuit,
        supply,
        source,
        charger,
        load.plus == SUPPLY_BAR,
        (low_a, high_a),
        hours,
        day_ah,
        days,
        held_in_check(trailer, load),
        _limiters(trailer, load.circuit),
    )


def held_in_check(trailer: Trailer, load: Load) -> bool:
    """Tell whether a battery that is charged has between it and its supply what ends the charge or holds it down.

    A solar module wants a charge controller; a lithium battery on the car a DC charger or a charge limiter; a lead
    battery on the car hangs on the regulator of its alternator. Source: common practice.
    """
    part = trailer.parts.get(load.charged_from)
    if part is not None and part.kind == "solar module":
        return False
    on_the_car = battery_kind(trailer) == LITHIUM and load.charged_from.startswith(TOW_PLUG)
    return not on_the_car or is_limited(trailer, load.circuit)


def is_limited(trailer: Trailer, circuit: int) -> bool:
    """Tell whether a charge limiter stands on the path of a circuit."""
    return bool(_limiters(trailer, circuit))


def _limiters(trailer: Trailer, circuit: int) -> tuple[str, ...]:
    parts = (trailer.parts.get(stop.part) for stop in trailer.circuit(circuit).stops)
    return tuple(part.name for part in parts if part is not None and part.kind == CHARGE_LIMITER)


def _range_of(trailer: Trailer, usable_share: float, rate: tuple[float, float]) -> tuple[float, float] | None:
    """Return the least and the most time to put the share back at a rate in Ah an hour, or in Ah a day."""
    if trailer.battery is None or not rate[0] > 0:
        return None
    extra = assumption(trailer, f"extra charge of a {battery_kind(trailer)} battery")
    least, most = limits(extra)
    capacity_ah = trailer.battery.capacity_ah
    return (
        charge_hours(capacity_ah, usable_share, rate[1], 1.0 + least / 100.0),
        charge_hours(capacity_ah, usable_share, rate[0], 1.0 + most / 100.0),
    )


def _sun_day_ah(trailer: Trailer, current_a: tuple[float, float]) -> tuple[float, float]:
    """Return the least and the most ampere-hours of a day's sun: the darkest and the brightest month.

    As watts give watt-hours, amperes give ampere-hours.
    """
    sun, losses = (
        limits(assumption(trailer, "full sun in a day")),
        limits(assumption(trailer, "solar losses")),
    )
    return (
        solar_yield_wh(current_a[0], sun[0], losses[1]),
        solar_yield_wh(current_a[1], sun[1], losses[0]),
    )


def limits(one: Assumption) -> tuple[float, float]:
    """Return the least and the most of an assumption; the file's own figure counts for both."""
    return (one.value, one.value) if one.replaced else (one.low, one.high)


def _current_range(trailer: Trailer, section: str, supply: str, current_a: float) -> tuple[float, float]:
    """Return the least and the most current in amperes: a stated one as it is, an assumed one by its range."""
    if section == supply and supply.startswith(TOW_PLUG):
        return limits(assumption(trailer, "charging without a charger"))
    if supply in trailer.parts and trailer.parts[supply].kind == "solar module":
        return _solar_range(trailer, section, supply, current_a)
    return _scaled(trailer, section, current_a)


def _scaled(trailer: Trailer, part: str, value: float) -> tuple[float, float]:
    """Return a value that follows what a part gives, at the least and the most that is assumed of the part."""
    made = next((one for one in trailer.assumed if one.id == f"gives of {part}"), None)
    if made is None or not made.value > 0:
        return value, value
    low, high = limits(made)
    return value * low / made.value, value * high / made.value


def _solar_range(trailer: Trailer, section: str, supply: str, current_a: float) -> tuple[float, float]:
    """Return what a module gives in full sun through its charger, which gives no more than its label says."""
    module, charger = trailer.parts[supply], trailer.parts.get(section)
    if module.gives_w is None:
        return current_a, current_a
    volts = next(one.volts for one in trailer.sections if one.name == section)
    through = charger.efficiency if charger and section != supply else 1.0
    low, high = _scaled(trailer, supply, module.gives_w * through / volts)
    if charger is None or section == supply:
        return low, high
    most_a = charger.gives_w / volts if charger.gives_w else charger.gives_a
    return (low, high) if most_a is None else (min(low, most_a), min(high, most_a))


def charging_assumptions(trailer: Trailer, figures: Sequence[ChargingFigures]) -> tuple[Assumption, ...]:
    """Return the assumptions that hours and days of charging rest on; none where nothing charges."""
    if not figures:
        return ()
    ids = [f"extra charge of a {battery_kind(trailer)} battery"]
    if any(one.source == "solar module" for one in figures):
        ids += ["full sun in a day", "solar losses"]
    return tuple(assumption(trailer, id_) for id_ in ids)
