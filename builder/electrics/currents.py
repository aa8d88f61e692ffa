"""The current of each part at its nominal voltage, and through converters to their inputs."""

from __future__ import annotations

from builder.electrics.conductors import load_current_a
from builder.electrics.network import LoadPath
from builder.tables.part_kinds import part_kinds
from builder.trailer.model import Trailer
from builder.trailer.parts import Draw, Law

NOMINAL_V = 12.0


def draw_current_a(draw: Draw, volts: float = NOMINAL_V) -> float:
    """Return the current in amperes that a draw takes at ``volts``.

    Watts of a constant-power load are over the voltage; those of a resistive load fix a resistance at the
    voltage they are stated for; amperes of a constant current stay, of a constant power or a resistance
    they count at the voltage they are stated for. Source: Ohm's law.
    """
    if draw.unit == "W":
        if draw.law is Law.POWER:
            return load_current_a(draw.value, volts)
        if draw.law is Law.RESISTANCE:
            return load_current_a(draw.value, draw.at_v) * volts / draw.at_v
        return load_current_a(draw.value, draw.at_v)
    if draw.law is Law.POWER:
        return draw.value * draw.at_v / volts
    if draw.law is Law.RESISTANCE:
        return draw.value * volts / draw.at_v
    return draw.value


def converter_input_a(power_w: float, efficiency: float, volts: float) -> float:
    """Return what a converter takes in amperes at ``volts`` while it gives ``power_w`` watts; ``efficiency`` 0 to 1.

    Source: balance of power.
    """
    return load_current_a(power_w / efficiency, volts)


def load_currents(trailer: Trailer, paths: tuple[LoadPath, ...]) -> tuple[float, ...]:
    """Return the current of each path's load in amperes, with everything on, in the order of the paths.

    The input of a converter or charger carries what its output delivers: P_out / (efficiency × V_in).
    A converter chain is worked from its end; one that feeds itself counts as zero at the joint.
    """
    sections = {section.name: section for section in trailer.sections}
    by_section: dict[str, list[int]] = {}
    for index, path in enumerate(paths):
        by_section.setdefault(path.load.section, []).append(index)
    found: dict[int, float] = {}

    def section_power_w(name: str, seen: tuple[str, ...]) -> float:
        if name in seen:
            return 0.0
        return sum(current(index, (*seen, name)) for index in by_section.get(name, ())) * sections[name].volts

    def current(index: int, seen: tuple[str, ...]) -> float:
        if index not in found:
            load = paths[index].load
            volts = sections[load.section].volts
            if load.draw is not None:
                found[index] = draw_current_a(load.draw, volts)
            else:
                power_w = section_power_w(load.part, seen)
                found[index] = converter_input_a(power_w, trailer.parts[load.part].efficiency, volts)
        return found[index]

    return tuple(current(index, ()) for index in range(len(paths)))


def starting_current_a(trailer: Trailer, path: LoadPath, current_a: float) -> float:
    """Return the current in amperes that a load takes while it starts, by the factor of its kind."""
    part = trailer.parts.get(path.load.part)
    kind = part_kinds().get(part.kind) if part else None
    return current_a * (kind.start_factor if kind and not path.load.what else 1.0)
