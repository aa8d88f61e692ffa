"""What was changed, as it was planned and as it is built: both figures side by side."""

from __future__ import annotations

from dataclasses import replace

from builder.electrics.figures import (
    CircuitChange,
    CircuitFigures,
    Figures,
    FuseFigures,
    LampChange,
    WireChange,
)
from builder.trailer.model import Trailer
from builder.trailer.wires import Wire

_SAME_A = 1e-9


def chosen_as_planned(trailer: Trailer, planned: Figures) -> Trailer:
    """Return what is built with the sizes and fuses that were chosen for the plan, where the file gives none.

    A wire in the wall does not get thicker because another one turned out longer.
    """
    sizes = {number: made.size for number, made in planned.wires.items()}
    ways = {f.circuit: f.rating_a for f in planned.fuses if f.way is not None}
    given = {c.fuse_part for c in trailer.circuits if c.given_fuse_a is not None}
    holders = {f.name: f.rating_a for f in planned.fuses if f.way is None}
    return replace(
        trailer,
        wires=tuple(replace(w, size=w.size or sizes.get(w.number)) for w in trailer.wires),
        circuits=tuple(
            replace(c, given_fuse_a=c.given_fuse_a or ways.get(c.number)) for c in trailer.circuits
        ),
        parts={
            name: replace(part, rating_a=part.rating_a or holders[name])
            if name in holders and name not in given
            else part
            for name, part in trailer.parts.items()
        },
    )


def told_as_chosen(trailer: Trailer, built: Figures, planned: Figures) -> Figures:
    """Return figures of what is built that tell why its sizes and fuses were chosen: for the plan, by its figures.

    ``trailer`` is as built, before the plan's sizes and fuses were put in; what the file gives stays as given.
    """
    own = {wire.number for wire in trailer.wires if wire.size is not None}
    given = {c.number for c in trailer.circuits if c.given_fuse_a is not None}
    given |= {c.number for c in trailer.circuits if _rating_a(trailer, c.fuse_part) is not None}
    fuses = tuple(_as_chosen(fuse, planned) if fuse.circuit not in given else fuse for fuse in built.fuses)
    other = {
        wire.circuit
        for wire in trailer.wires
        if wire.number in built.wires and built.wires[wire.number].size != planned.wires[wire.number].size
    }
    by_name = {(fuse.name, fuse.circuit): fuse for fuse in fuses}
    return replace(
        built,
        wires={number: replace(made, size_given=number in own) for number, made in built.wires.items()},
        fuses=fuses,
        circuits={
            number: replace(
                _sized_as_chosen(made, planned.circuits[number]) if number not in other else made,
                fuse=by_name[made.fuse.name, made.fuse.circuit] if made.fuse is not None else None,
            )
            for number, made in built.circuits.items()
        },
    )


def _as_chosen(fuse: FuseFigures, planned: Figures) -> FuseFigures:
    """Return a fuse with the reason that it was chosen for, where it is the one that was chosen and still fits.

    One that no longer does is judged like one that the file gives: nothing else was put in its place.
    """
    same = (f for f in planned.fuses if (f.name, f.circuit) == (fuse.name, fuse.circuit))
    chosen = next(same, None)
    rating_a = fuse.rating_a
    if chosen is None or rating_a is None or chosen.rating_a != rating_a:
        return fuse
    if fuse.needed_a > rating_a + _SAME_A or rating_a > fuse.choice_ceiling_a + _SAME_A:
        return fuse
    return replace(fuse, reason=chosen.reason, given=chosen.given, origin=chosen.origin)


def _sized_as_chosen(made: CircuitFigures, planned: CircuitFigures) -> CircuitFigures:
    """Return a circuit that tells of its size as the plan does, since its wires have the sizes of the plan.

    A circuit without a load of its own, such as the plug's ground, has the drop that its size was chosen by.
    """
    made = replace(made, size=planned.size)
    if made.loads or planned.worst_drop_v == made.worst_drop_v or made.worst_drop_v > 0:
        return made
    return replace(made, worst_drop_v=planned.worst_drop_v, worst_drop_percent=planned.worst_drop_percent)


def _rating_a(trailer: Trailer, name: str) -> float | None:
    part = trailer.parts.get(name)
    return part.rating_a if part is not None else None


def wire_changes(trailer: Trailer, built: Figures, planned: Figures) -> tuple[WireChange, ...]:
    """Return the wires that were changed by their number, in the order of the file."""
    now, then = _wires(trailer), _wires(trailer.plan)
    return tuple(
        WireChange(
            number=change.about,
            length_m=now[change.about].length_m,
            planned_length_m=then[change.about].length_m,
            size=_size(built, now[change.about]),
            planned_size=_size(planned, then[change.about]),
            color=now[change.about].color,
            planned_color=then[change.about].color,
            way=_way(built, change.about),
            planned_way=_way(planned, change.about),
        )
        for change in trailer.changes
        if change.kind == "wire"
    )


def circuit_changes(trailer: Trailer, built: Figures, planned: Figures) -> tuple[CircuitChange, ...]:
    """Return the circuits that changes belong to, with what they came to, in number order.

    One without a load of its own, such as the plug's ground, comes to nothing that could be told; the battery's line
    has its own drop.
    """
    line = trailer.battery_line.number if trailer.battery_line is not None else None
    numbers = sorted(
        number
        for number in {number for change in trailer.changes for number in change.circuits}
        if built.circuits[number].loads or number == line
    )
    return tuple(
        CircuitChange(
            number=number,
            current_a=built.circuits[number].load_current_a,
            planned_current_a=planned.circuits[number].load_current_a,
            drop_v=built.circuits[number].worst_drop_v,
            planned_drop_v=planned.circuits[number].worst_drop_v,
            fuse_a=_fuse_a(built.circuits[number]),
            planned_fuse_a=_fuse_a(planned.circuits[number]),
        )
        for number in numbers
    )


def lamp_changes(trailer: Trailer, built: Figures, planned: Figures) -> tuple[LampChange, ...]:
    """Return what each changed road lamp takes for what it shows, where that is another current than planned."""
    changed = {name for change in trailer.changes for name in change.lamps}
    then = {
        (load.load.part, load.load.what): load.current_a
        for circuit in planned.circuits.values()
        for load in circuit.loads
    }
    return tuple(
        LampChange(load.load.part, load.load.what, load.current_a, planned_a)
        for circuit in built.circuits.values()
        for load in circuit.loads
        if load.load.part in changed
        and abs(load.current_a - (planned_a := then[load.load.part, load.load.what])) > _SAME_A
    )


def _way(figures: Figures, number: str) -> tuple[str, ...]:
    """Return the chases that a wire runs through, each once where it stays in it."""
    run = figures.runs.runs.get(number)
    steps = [step.stretch.chase for step in run.steps] if run is not None else []
    return tuple(name for n, name in enumerate(steps) if n == 0 or steps[n - 1] != name)


def _wires(trailer: Trailer | None) -> dict[str, Wire]:
    return {wire.number: wire for wire in (*trailer.wires, *trailer.spares)} if trailer is not None else {}


def _size(figures: Figures, wire: Wire) -> str:
    made = figures.wires.get(wire.number)
    return str(made.size if made is not None else wire.size)


def _fuse_a(circuit: CircuitFigures) -> float | None:
    return circuit.fuse.rating_a if circuit.fuse is not None else None
