"""From a trailer to all its figures."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from builder.electrics.as_laid import as_laid, told_kept
from builder.electrics.beside_plan import (
    chosen_as_planned,
    circuit_changes,
    lamp_changes,
    told_as_chosen,
    wire_changes,
)
from builder.electrics.box_sides import box_sides
from builder.electrics.braking import brake_figures
from builder.electrics.carrying import carried_figures
from builder.electrics.charging import battery_kind, charging_assumptions
from builder.electrics.conductors import ampacity_a, resistance_ohm_per_m, voltage_drop_v, wire_resistance_ohm
from builder.electrics.currents import NOMINAL_V, load_currents, starting_current_a
from builder.electrics.drops import drop_steps, hand_drop_v
from builder.electrics.energy import (
    METER_ERROR,
    energy,
    hours_assumption,
    hours_kinds,
    lowest_voltage,
    on_the_battery,
    usable_share,
)
from builder.electrics.entry_holes import entries
from builder.electrics.figures import (
    CircuitFigures,
    EnergyFigures,
    Figures,
    FuseFigures,
    LoadFigures,
    SizeChoice,
    SupplyFigures,
    WireFigures,
    every_size,
)
from builder.electrics.fusing import fuse_figures
from builder.electrics.groups import Basis, basis_of
from builder.electrics.guards import Flow, Guard, charge_into_box_a, guards_of
from builder.electrics.headroom import Bounds, headroom
from builder.electrics.lamps_required import lamps_required
from builder.electrics.landings import landings, plug_figures, way_figures
from builder.electrics.network import load_paths, loads_on_wires, wire_currents, wires_of
from builder.electrics.new_fuses import new_fuses
from builder.electrics.plug_feeds import plug_feeds
from builder.electrics.plug_grounds import plug_grounds
from builder.electrics.plug_states import plug_states
from builder.electrics.protection import SELECTIVE
from builder.electrics.sizing import Sized, choose_sizes
from builder.electrics.switching import switch_figures
from builder.electrics.with_options import option_figures
from builder.routes.covers import TAPE, covers
from builder.routes.fill import fill
from builder.routes.laid import laid
from builder.routes.runs import Runs, bundle, runs_of
from builder.tables.part_kinds import part_kinds
from builder.trailer.assumed import assumption
from builder.trailer.circuits import Circuit, CircuitKind
from builder.trailer.model import BATTERY, TOW_PLUG, Assumption, Trailer
from builder.trailer.size import Size, by_area


def compute(trailer: Trailer) -> Figures:
    """Return every figure of a trailer. Pure: the same trailer gives the same figures.

    Where something was built otherwise than planned, the figures are of what is built, the plan's beside them. In
    closed walls each wire has the size that it was issued with. What may come later has its own figures under
    ``options``, and is in none of the others.
    """
    laid = as_laid(trailer)
    figures = _beside_plan(laid)
    if laid is not trailer:
        figures = told_kept(trailer, figures, _sizes_today(trailer))
    return (
        replace(figures, options=option_figures(trailer, figures, _figures)) if trailer.options else figures
    )


def _sizes_today(trailer: Trailer) -> dict[str, Size]:
    """Return the size by wire number that would be chosen where none is kept."""
    flow, basis = _flow(trailer, runs_of(trailer))
    sizes = choose_sizes(trailer, flow, basis).sizes
    return {trailer.wires[index].number: size for index, size in sizes.items()}


def _beside_plan(trailer: Trailer) -> Figures:
    if trailer.plan is None:
        return _figures(trailer)
    planned = _figures(trailer.plan)
    built = told_as_chosen(trailer, _figures(chosen_as_planned(trailer, planned)), planned)
    return replace(
        built,
        wire_changes=wire_changes(trailer, built, planned),
        circuit_changes=circuit_changes(trailer, built, planned),
        lamp_changes=lamp_changes(trailer, built, planned),
    )


def _flow(trailer: Trailer, runs: Runs) -> tuple[Flow, Basis]:
    """Return what flows where, whatever the sizes are, and what resistances rest on."""
    paths = load_paths(trailer)
    currents = load_currents(trailer, paths)
    wires_a = wire_currents(paths, currents, len(trailer.wires))
    basis = basis_of(trailer)
    flow = Flow(
        paths,
        loads_on_wires(paths),
        currents,
        wires_a,
        tuple(wire.length_m for wire in trailer.wires),
        charge_into_box_a(paths, currents),
        guards_of(trailer, paths, currents, basis),
        _bundles(trailer, runs, wires_a, basis),
    )
    return flow, basis


def _figures(trailer: Trailer) -> Figures:
    runs = runs_of(trailer)
    flow, basis = _flow(trailer, runs)
    paths, currents, wires_a = flow.paths, flow.loads_a, flow.wires_a
    sized = choose_sizes(trailer, flow, basis)
    wires = {trailer.wires[i].number: _wire(trailer, i, flow, sized.sizes[i], basis) for i in sized.sizes}
    numbers = tuple(wire.number for wire in trailer.wires)
    ohms = tuple(wires[number].resistance_ohm if number in wires else 0.0 for number in numbers)
    loads = tuple(_load(trailer, flow, place, (numbers, ohms)) for place in range(len(paths)))
    fuses = _fuses(trailer, flow, sized.sizes, basis)
    found = energy(trailer, paths, currents)
    switches = switch_figures(trailer, paths, currents)
    states = plug_states(trailer, paths, currents)
    every = every_size(trailer, wires)
    covered = covers(trailer, runs, every)
    holes = entries(trailer, runs, every)
    return Figures(
        wires=wires,
        circuits=_circuits(trailer, flow, loads, fuses, sized),
        fuses=fuses,
        switches=switches,
        supplies=_supplies(trailer, flow),
        ways=way_figures(trailer),
        landings=landings(trailer),
        plug=plug_figures(trailer, wires_a),
        energy=found,
        assumptions=_assumptions(trailer, flow, found),
        headroom=headroom(trailer, flow, Bounds(wires, fuses, loads, switches), basis),
        new_fuses=new_fuses(trailer, basis, fuses),
        lamps_required=lamps_required(trailer),
        plug_states=states,
        plug_grounds=plug_grounds(trailer, states, basis),
        plug_feeds=plug_feeds(trailer, paths, currents, sized.sizes, basis),
        brakes=brake_figures(trailer),
        carried=carried_figures(trailer, wires),
        runs=runs,
        fills=fill(trailer.geometry, runs, every, trailer.shelf),
        clearances=covered.clearances,
        panels=covered.panels,
        hinges=covered.hinges,
        tubes=covered.tubes,
        near_walls=covered.walls,
        near_skins=covered.skins,
        bays=covered.bays,
        laid=laid(trailer, runs, every),
        entries=holes,
        box_sides=box_sides(trailer, runs, holes),
    )


def _bundles(trailer: Trailer, runs: Runs, wires_a: Sequence[float], basis: Basis) -> tuple[int, ...]:
    """Return beside how many wires that carry current each one lies: as assumed, or more where its run shows more."""
    carrying = [wire.number for wire, a in zip(trailer.wires, wires_a, strict=True) if a > 0]
    most = bundle(runs, carrying)
    return tuple(max(basis.bundle, most.get(wire.number, 0)) for wire in trailer.wires)


def _wire(trailer: Trailer, index: int, flow: Flow, size: Size, basis: Basis) -> WireFigures:
    wire = trailer.wires[index]
    table = resistance_ohm_per_m(size, basis.copper_c)
    limit = ampacity_a(size, basis.insulation_c, basis.ambient_c, flow.bundles[index])
    ohm = wire_resistance_ohm(table.ohm_per_m, wire.length_m)
    return WireFigures(
        number=wire.number,
        size=size,
        size_given=wire.size is not None,
        area_mm2=size.area_mm2,
        resistance_ohm=ohm,
        temperature_c=basis.copper_c,
        resistance_source=table.source,
        current_a=flow.wires_a[index],
        ampacity_a=limit.amps,
        table_ampacity_a=limit.table_amps,
        ambient_factor=limit.ambient_factor,
        bundle_factor=limit.bundle_factor,
        bundle=flow.bundles[index],
        ampacity_source=limit.source,
        drop_v=voltage_drop_v(flow.wires_a[index], ohm),
    )


def lowest_v(trailer: Trailer, section: str) -> float:
    """Return the voltage of a section when its supply is low, in volts."""
    if section == BATTERY:
        return lowest_voltage(trailer).value
    if section.startswith(TOW_PLUG):
        return assumption(trailer, "tow supply voltage").value
    return next(s.volts for s in trailer.sections if s.name == section)


def _load(
    trailer: Trailer, flow: Flow, place: int, wires: tuple[tuple[str, ...], tuple[float, ...]]
) -> LoadFigures:
    path = flow.paths[place]
    numbers, ohms = wires
    steps = drop_steps(path, numbers, ohms, flow.wires_a)
    drop_v = hand_drop_v(steps)
    own = {numbers[i] for i in path.wires if trailer.wires[i].circuit == path.load.circuit}
    part = trailer.parts.get(path.load.part)
    kind = part_kinds().get(part.kind) if part else None
    nominal = next(s.volts for s in trailer.sections if s.name == path.load.section)
    low = lowest_v(trailer, path.load.section)
    knows_limit = part is not None and not path.load.charged_from
    return LoadFigures(
        load=path.load,
        current_a=flow.loads_a[place],
        starting_a=starting_current_a(trailer, path, flow.loads_a[place]),
        steps=steps,
        drop_v=drop_v,
        circuit_drop_v=hand_drop_v([step for step in steps if step.wire in own]),
        drop_percent=100.0 * drop_v / nominal,
        advice_percent=kind.advice_percent if kind else 10.0 if part and part.kind == "road lamp" else None,
        lowest_v=low,
        left_v=low - drop_v,
        works_from_v=part.works_from_v if part and knows_limit else None,
        works_from_given=bool(part and part.works_from_v is not None and not part.works_from_assumption),
    )


def _fuses(trailer: Trailer, flow: Flow, sizes: Mapping[int, Size], basis: Basis) -> tuple[FuseFigures, ...]:
    """Return every fuse; the battery's last."""
    done: list[FuseFigures] = []
    for guard in sorted(flow.guards, key=lambda g: g.spot.circuit.kind is CircuitKind.BATTERY):
        sized = [i for i in guard.protects if i in sizes]
        if sized:
            own = guard.spot.circuit.number
            index = min(sized, key=lambda i: (by_area(sizes[i]), trailer.wires[i].circuit != own, i))
            done.append(_fuse(trailer, guard, (index, sizes[index]), basis))
    return tuple(done)


def _fuse(trailer: Trailer, guard: Guard, thinnest: tuple[int, Size], basis: Basis) -> FuseFigures:
    """Return the figures of a fuse: the main fuse at twice the largest behind it where the wire allows that."""
    through = guard.load_a, guard.starting_a
    for times, cautious in ((SELECTIVE, True), (1.0, True), (1.0, False)):
        floor_a = times * guard.floor_a
        made = fuse_figures(trailer, guard.spot, through, thinnest, basis, floor_a, cautious=cautious)
        if made.rating_a is not None:
            break
    return replace(made, reason="twice") if made.reason == "main" and times == SELECTIVE else made


def _circuits(
    trailer: Trailer, flow: Flow, loads: Sequence[LoadFigures], fuses: Sequence[FuseFigures], sized: Sized
) -> dict[int, CircuitFigures]:
    return {
        circuit.number: _circuit(trailer, circuit, flow, (loads, fuses), sized.choices[circuit.number])
        for circuit in trailer.circuits
    }


def _circuit(
    trailer: Trailer,
    circuit: Circuit,
    flow: Flow,
    made: tuple[Sequence[LoadFigures], Sequence[FuseFigures]],
    choice: SizeChoice,
) -> CircuitFigures:
    loads, fuses = made
    own = tuple(load for load in loads if load.load.circuit == circuit.number)
    worst = max(own, key=lambda load: load.drop_percent, default=None)
    through = max((flow.wires_a[i] for i in wires_of(trailer, circuit.number)), default=0.0)
    first = [load for load in own if load.load.section == own[0].load.section]
    load_a = sum(load.current_a for load in first) if own else through
    name = f"way {circuit.way}" if circuit.way is not None else circuit.fuse_part
    return CircuitFigures(
        number=circuit.number,
        load_current_a=load_a,
        starting_current_a=load_a + max((load.starting_a - load.current_a for load in first), default=0.0),
        worst_drop_v=worst.drop_v if worst else choice.worst_drop_v,
        worst_drop_percent=worst.drop_percent if worst else 100.0 * choice.worst_drop_v / NOMINAL_V,
        worst_load=worst.load.part if worst else "",
        size=choice,
        loads=own,
        fuse=next((f for f in fuses if f.circuit == circuit.number and f.name == name), None),
    )


def _supplies(trailer: Trailer, flow: Flow) -> tuple[SupplyFigures, ...]:
    return tuple(
        SupplyFigures(
            section.name,
            section.volts,
            lowest_v(trailer, section.name),
            sum(
                a
                for path, a in zip(flow.paths, flow.loads_a, strict=True)
                if path.load.section == section.name
            ),
        )
        for section in trailer.sections
    )


def _assumptions(trailer: Trailer, flow: Flow, energy_: EnergyFigures | None) -> tuple[Assumption, ...]:
    """Return the assumptions that the figures rest on: general ones, hours of use, then those of single parts."""
    general = [
        "copper temperature",
        "surrounding temperature",
        "wires side by side",
        "drop aimed at",
        "fuse loading",
        "smallest fuse",
        "one kind of wire less",
        "drop allowed in a feed",
        "drop allowed in a return",
        "drop allowed at a switch",
    ]
    if not trailer.shelf.insulation_given:
        general.append("insulation temperature")
    if trailer.tow_plug is not None:
        general += ["tow supply voltage", "road lamp drop aimed at"]
    if trailer.geometry or trailer.geometry.skins:
        general.append(TAPE)
    if trailer.wires or trailer.spares:
        general += ["tail at each end", "wire to spare", "terminals to spare"]
    found = [_as_it_counts(trailer, assumption(trailer, id_)) for id_ in general]
    if trailer.battery is not None:
        found += [
            assumption(trailer, "battery line drop aimed at"),
            lowest_voltage(trailer),
            usable_share(trailer),
        ]
        found.append(assumption(trailer, f"self-discharge of a {battery_kind(trailer)} battery"))
        found += charging_assumptions(trailer, energy_.charging) if energy_ else ()
        found += [assumption(trailer, METER_ERROR)] if energy_ and energy_.kind.rest else []
        on_it = [path for path in flow.paths if on_the_battery(trailer, path.load)]
        kinds = sorted({kind for p in on_it for kind in hours_kinds(trailer, p, flow.paths)})
        found += [made for made in (hours_assumption(trailer, kind) for kind in kinds) if made is not None]
    return (*found, *trailer.assumed)


SIDE_BY_SIDE = "a feed and its return at least; the run of a wire tells what else lies beside it"
"""Why so many wires side by side are assumed where the file has places."""


def _as_it_counts(trailer: Trailer, made: Assumption) -> Assumption:
    """Return an assumption with its reason as it holds where the file says where things are."""
    if trailer.geometry and made.id == "wires side by side" and not made.replaced:
        return replace(made, reason=SIDE_BY_SIDE)
    return made
