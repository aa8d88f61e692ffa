"""The parts themselves that the build file names: box, bars, plug, battery, and every part of a path."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from builder.electrics.figures import Figures, FuseFigures
from builder.electrics.landings import ground_screws, strip_positions, supply_wires
from builder.electrics.switching import line_rating_a
from builder.lists.shopping import Item
from builder.trailer.landing_points import GROUND_SCREWS, SUPPLY_STUDS
from builder.trailer.model import BATTERY, FRONT_BOX, SECOND_PLUG, SUPPLY_BAR, TOW_PLUG, TowPlug, Trailer
from builder.trailer.parts import Form, Part
from builder.trailer.size import Size, by_area
from builder.trailer.wires import Role, Wire

SUPPLY_LINK = "supply link"
"""What joins the fuse block to the supply bar."""
GIVING = (Form.SECTION, Form.SUPPLY)
"""Parts that another voltage begins at."""


def part_items(trailer: Trailer, figures: Figures) -> tuple[Item, ...]:
    """Return the headings that are parts, then every part by kind and name.

    Splices and connectors stand in sections of their own. ``ways`` of a bar or strip is what the file gives,
    ``ways_used`` what lands on it; ``rating_a`` of a breaker is its own, of a fuse's holder that of the fuse, with the
    ``size`` of the thickest wire on it. A bar that shares out feed and return is two bars.
    """
    parts = [p for p in trailer.parts.values() if p.form is not Form.THROUGH and p.kind != "splice"]
    ratings = {switch.name: switch.least_rating_a for switch in figures.switches}
    fuses = {fuse.name: fuse for fuse in figures.fuses if fuse.way is None}
    return (
        *_headings(trailer, figures),
        *(
            item
            for part in sorted(parts, key=lambda p: (p.kind, p.name))
            for item in (
                _bars(trailer, figures, part)
                or (_part(trailer, figures, part, fuses.get(part.name), ratings.get(part.name, 0.0)),)
            )
        ),
    )


def _headings(trailer: Trailer, figures: Figures) -> list[Item]:
    """Return the front box, what wires land on in it, the battery and the tow plug.

    The front box as a part in stock has all of that in it.
    """
    found = []
    box, plug = trailer.front_box, trailer.tow_plug
    screws, positions = ground_screws(figures.landings), strip_positions(figures.landings)
    there = int(FRONT_BOX in trailer.stock.parts)
    if box is not None:
        face = trailer.box_face
        room = (face.width_m, face.height_m) if face else (None, None)
        found.append(replace(_heading(FRONT_BOX, there), wide_m=room[0], high_m=room[1]))
        found += _supply_bar(trailer, figures, there)
        ways = sum(way.circuit is not None for way in figures.ways)
        found.append(_heading("fuse block", there, box.fuse_ways, ways, box.fuse_format))
        found += _supply_link(trailer, figures, there)
    given = (box.ground_bar, box.strip) if box else (None, None)
    for kind, places, used in ((GROUND_SCREWS, given[0], screws), ("strip", given[1], positions)):
        if places or used:
            found.append(replace(_heading(kind, there, places, used), stud=_stud(trailer, kind)))
    if trailer.battery is not None:
        found.append(_heading(BATTERY, int(BATTERY in trailer.stock.parts), series=trailer.battery.chemistry))
    if plug is not None:
        found += _plugs(trailer, figures, plug)
    return found


def _supply_bar(trailer: Trailer, figures: Figures, there: int) -> Iterator[Item]:
    """Yield the supply bar: its studs where the file counts them, else the wire ends that it takes."""
    ends = supply_wires(figures.landings)
    studs = trailer.studs.get(SUPPLY_STUDS)
    if ends or studs is not None:
        bar = _heading(SUPPLY_STUDS, there, studs.count if studs else None, ends)
        yield replace(bar, stud=_stud(trailer, SUPPLY_STUDS))


def _supply_link(trailer: Trailer, figures: Figures, there: int) -> Iterator[Item]:
    """Yield what joins the fuse block to the supply bar; nothing without a wire on the bar."""
    size = supply_link(figures)
    if size is not None:
        yield replace(_heading(SUPPLY_LINK, there), size=str(size), stud=_stud(trailer, SUPPLY_STUDS))


def supply_link(figures: Figures) -> Size | None:
    """Return how thick the link from the supply bar to the fuse block is: as the thickest wire on that bar.

    All that the block hands out comes through it, and the fuse of that wire guards it too. Common practice; the link
    has no number, and a block that hangs on its bar needs none.
    """
    bar = SUPPLY_BAR.part, SUPPLY_BAR.pin
    wires = [wire for at in figures.landings if (at.part, at.pin) == bar for wire in at.wires]
    return max((figures.wires[wire].size for wire in wires), key=by_area, default=None)


def _stud(trailer: Trailer, name: str) -> str:
    studs = trailer.studs.get(name)
    return str(studs.size) if studs is not None and studs.size is not None else ""


def _stud_count(trailer: Trailer, name: str) -> int | None:
    studs = trailer.studs.get(name)
    return studs.count if studs is not None else None


def _plugs(trailer: Trailer, figures: Figures, plug: TowPlug) -> Iterator[Item]:
    """Yield the tow plug, and the second one beside it."""
    second = plug.second.pattern if plug.second else None
    for name, pattern in ((TOW_PLUG, plug.pattern), (SECOND_PLUG, second)):
        if pattern is None:
            continue
        mark = pattern.mark if pattern is second else ""
        own = [contact for contact in figures.plug if contact.plug == mark]
        series = second.beside if second and not mark else pattern.name
        used = sum(contact.circuit is not None for contact in own)
        yield _heading(name, int(name in trailer.stock.parts), len(own), used, series)


def _heading(
    kind: str, there: int, ways: int | None = None, ways_used: int | None = None, series: str = ""
) -> Item:
    return Item(
        id=f"box {kind}",
        section="box",
        kind=kind,
        used=1,
        stock=there,
        ways=ways,
        ways_used=ways_used,
        series=series,
    )


def _bars(trailer: Trailer, figures: Figures, part: Part) -> tuple[Item, ...]:
    """Return the bars that a bar of the file is where it has both poles, one for each; nothing for anything else.

    Feed and return on one bar are a short circuit (common practice). Where the file counts its studs, each has as many.
    """
    landed: dict[str, int] = {}
    for at in figures.landings:
        if at.part == part.name:
            landed[at.pin] = landed.get(at.pin, 0) + len(at.wires)
    if part.kind != "bar" or len(landed) == 1:
        return ()
    return tuple(
        Item(
            id=f"part {part.name}: {pin}",
            section="parts",
            kind=part.kind,
            used=1,
            stock=int(place == 0 and part.name in trailer.stock.parts),
            place=pin,
            ways=_stud_count(trailer, part.name),
            ways_used=count,
            stud=_stud(trailer, part.name),
            waits=part.waiting,
            names=(part.name,),
        )
        for place, (pin, count) in enumerate(landed.items())
    )


def _part(trailer: Trailer, figures: Figures, part: Part, fuse: FuseFigures | None, least_a: float) -> Item:
    holder = fuse is not None and fuse.device == "fuse"
    least_a = max(least_a, line_rating_a(trailer, figures, part))
    return Item(
        id=f"part {part.name}",
        section="parts",
        kind=part.kind,
        used=1,
        stock=int(part.name in trailer.stock.parts),
        rating_a=fuse.rating_a if fuse else None,
        least_rating_a=least_a or None,
        takes_a=_takes_a(figures, part),
        gives_a=part.gives_a,
        gives_w=part.gives_w if part.gives_a is None else None,
        gives_v=part.gives_v if part.form in GIVING and not part.gives_v_assumption else None,
        gives_least_a=_gives_least_a(trailer, figures, part),
        for_v=_for_v(figures, part),
        module_w=_module_w(trailer, part) or None,
        series=fuse.series if fuse and holder else "",
        size=_thickest(trailer, figures, part) if holder else "",
        ways=_stud_count(trailer, part.name) if part.kind == "bar" else None,
        stud=_stud(trailer, part.name) if part.kind == "bar" else "",
        ways_used=_ways_used(trailer, figures, part),
        waits=part.waiting,
        reflector=any(lamp.reflector for lamp in trailer.road_lamps if lamp.name == part.name),
        names=(part.name,),
    )


def _ways_used(trailer: Trailer, figures: Figures, part: Part) -> int | None:
    """Return how many ends land on a bar, and how many outputs of a receiver have a wire; None for other parts."""
    if part.form is Form.GATE and _gives_least_a(trailer, figures, part):
        return len({wire.start.pin for wire in _leaving(trailer, part)})
    return _landed(figures, part) if part.kind == "bar" else None


def _leaving(trailer: Trailer, part: Part) -> list[Wire]:
    """Return the feeds that start at a part."""
    return [wire for wire in trailer.wires if wire.start.part == part.name and wire.role is Role.FEED]


def _gives_least_a(trailer: Trailer, figures: Figures, part: Part) -> float | None:
    """Return what must come out of a part with everything on, in amperes; None where the file says what it gives.

    Of a receiver it is what flows out of its most loaded output. Arithmetic on the figures of its wires.
    """
    gate = part.form is Form.GATE and part.outputs
    if not (gate or part.form is Form.SECTION) or part.gives_a is not None or part.gives_w is not None:
        return None
    outputs: dict[str, float] = {}
    for wire in _leaving(trailer, part):
        flow_a = figures.wires[wire.number].current_a
        outputs[wire.start.pin] = outputs.get(wire.start.pin, 0.0) + flow_a
    return max(outputs.values(), default=0.0) or None


def _for_v(figures: Figures, part: Part) -> float | None:
    """Return the voltage that a relay's coil, a receiver or a load of unknown draw is for, in volts."""
    draws = [
        load.load
        for circuit in figures.circuits.values()
        for load in circuit.loads
        if load.load.part == part.name and load.load.draw is not None
    ]
    if part.form is Form.LOAD and _takes_a(figures, part) is None:
        told = draws
    else:
        told = [load for load in draws if load.what == "coil" or part.form is Form.GATE]
    return next((load.draw.at_v for load in told if load.draw is not None), None)


def _module_w(trailer: Trailer, part: Part) -> float:
    """Return what the solar modules give that feed a charge controller, in watts; 0 where that of one is not known."""
    if part.kind != "charge controller":
        return 0.0
    feeds = [wire for wire in trailer.wires if wire.role is Role.FEED]
    met, ahead, given = {part.name}, [part.name], list[float | None]()
    while ahead:
        behind = ahead.pop()
        for name in dict.fromkeys(wire.start.part for wire in feeds if wire.end.part == behind):
            one = trailer.parts.get(name)
            if one is not None and name not in met:
                met.add(name)
                given += [one.gives_w] if one.kind == "solar module" else []
                ahead += [] if one.kind == "solar module" else [name]
    return sum(watts for watts in given if watts is not None) if None not in given else 0.0


def _thickest(trailer: Trailer, figures: Figures, part: Part) -> str:
    """Return the size of the thickest wire at a part; empty where it has none."""
    sizes = [
        figures.wires[wire.number].size
        for wire in trailer.wires
        if part.name in (wire.start.part, wire.end.part) and wire.number in figures.wires
    ]
    return str(max(sizes, key=by_area)) if sizes else ""


def _takes_a(figures: Figures, part: Part) -> float | None:
    """Return what a load takes in amperes, all its functions together; None where its draw was only assumed."""
    if part.form is not Form.LOAD:
        return None
    loads = [
        load for circuit in figures.circuits.values() for load in circuit.loads if load.load.part == part.name
    ]
    known = [load for load in loads if load.load.what != "idle" and load.load.draw is not None]
    if not known or any(load.load.draw is not None and load.load.draw.assumption for load in known):
        return None
    return sum(load.current_a for load in known)


def _landed(figures: Figures, part: Part) -> int:
    return sum(len(at.wires) for at in figures.landings if at.part == part.name)
