"""How wire is run: outside diameters, conduit fill, bends, supports, smallest sizes, distance to screws."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from builder.tables.table import Fact, Known, NoRow, load_table

GXL = "GXL"
THIN_WALL = "ISO 6722 thin wall"
INCH_M = 0.0254


@dataclass(frozen=True, slots=True)
class JamRatio:
    """Between which ratios of bore to cable diameter three cables may jam."""

    low: float
    high: float
    source: str
    known: Known


@dataclass(frozen=True, slots=True)
class MinimumSize:
    """The smallest conductor for a way of running it.

    ``size`` is a gauge or an area as ``unit`` says (``AWG``, ``mm2``). ``length_mm`` is the length beyond
    which the rule for a separate wire holds, or the longest stretch outside the sheath; None if there is
    none.
    """

    size: str
    unit: str
    length_mm: float | None
    source: str
    known: Known


def outside_diameter(wire_type: str, size: str) -> Fact:
    """Return the outside diameter of an insulated wire in mm: nominal for GXL, greatest for ISO 6722.

    ``size`` is the gauge of GXL or the area in mm² of ISO 6722 thin wall, as the table writes it. Raises
    `NoRow` where there is no such wire. Source: makers' data sheets, quoted; 0.35 mm² from memory.
    """
    row = load_table("outside_diameters").find(f"{wire_type} {size}", type=wire_type, size=size)
    return row.fact("diameter_mm", "mm")


def conduit_fill_limit(conductors: int) -> Fact:
    """Return the share of a conduit's bore that so many cables may fill, in percent of the inside area.

    Raises `NoRow` below one cable. Source: NEC Chapter 9 Table 1; one and two read, three or more quoted.
    """
    if conductors < 1:
        raise NoRow(f"a conduit is filled by at least one cable, not by {conductors}")
    asked = str(conductors) if conductors < 3 else "3 or more"
    return load_table("conduit_fill").find(asked, conductors=asked).fact("percent", "percent")


def jam_ratio(conductors: int) -> JamRatio:
    """Return the ratios of conduit bore to cable diameter between which three cables may jam.

    Raises `NoRow` for another number than three. Source: NEC Chapter 9 Table 1 note, quoted.
    """
    row = load_table("jam_ratio").find(f"{conductors} cables", conductors=str(conductors))
    return JamRatio(row.number("low"), row.number("high"), row.source, row.known)


def chassis_return(rule: str) -> Fact:
    """Return whether a rule lets the metal frame be the return: 1 for yes.

    Raises `NoRow` for an unknown rule. Source: NEC 552.10(B)(1) exception, quoted; makers and repairers ask for a
    wire all the same (common practice).
    """
    return load_table("chassis_return").find(rule, rule=rule).fact("allowed", "-")


def bend_radius_multiple(wiring: str) -> Fact:
    """Return the least bend radius as a multiple of the outside diameter.

    Raises `NoRow` for a kind of wiring that ``bend_radius.csv`` lacks. Source: in the row.
    """
    return load_table("bend_radius").find(wiring, wiring=wiring).fact("multiple", "x OD")


def framing_distance(rule: str, member: str, unit: Literal["in", "mm"]) -> Fact:
    """Return a figure that keeps wiring away from screws in framing, in inches or mm.

    ``rule`` is ``bored hole edge distance`` or ``steel plate thickness``. Raises `NoRow` for another rule
    or member than wood. Source: NEC 300.4(A), quoted.
    """
    row = load_table("framing").find(f"{rule}, {member}", rule=rule, member=member, unit=unit)
    return row.fact("value", unit)


def least_edge_m() -> float:
    """Return what wood is left between wires and the face that screws come from, in metres.

    Source: NEC 300.4(A), quoted.
    """
    return framing_distance("bored hole edge distance", "wood", "in").value * INCH_M


def least_plate_m() -> float:
    """Return how thick a steel plate over wires is at least, in metres. Source: NEC 300.4(A), quoted."""
    return framing_distance("steel plate thickness", "wood", "in").value * INCH_M


def support_spacing(domain: str, wiring: str) -> Fact:
    """Return the greatest distance between supports of ``wire`` or ``battery cable``, in mm.

    Raises `NoRow` where the trade (``domain``) has no such row. Source: in the row.
    """
    row = load_table("support_spacing").find(f"{wiring} ({domain})", domain=domain, wiring=wiring)
    return row.fact("spacing_mm", "mm")


def kept_apart(other: str) -> Fact:
    """Return how far low-voltage wiring is kept from ``power wiring``, in inches.

    Raises `NoRow` for anything else. Source: NEC 552.10, quoted; for gas there is no row: its fitter says.
    """
    return load_table("kept_apart").find(other, **{"from": other}).fact("value_in", "in")


def minimum_size(domain: str, wiring: str) -> MinimumSize:
    """Return the smallest conductor that is run ``separate`` or ``in sheath``, or that is the ``frame bond``.

    Raises `NoRow` where the trade (``domain``) has no such row. Source: 33 CFR 183.425, read; ISO
    10133:2012 and NEC 552.10, quoted.
    """
    row = load_table("minimum_sizes").find(f"{wiring} ({domain})", domain=domain, wiring=wiring)
    length = row.cells["length_mm"]
    return MinimumSize(
        row.cells["size"], row.cells["unit"], float(length) if length else None, row.source, row.known
    )
