"""A wire is thinner than the smallest that is allowed for its use.

What: the bond to the frame is below 8 AWG, or thinner than the battery's own line; or a wire below 16 AWG runs by
itself, not as a pair in one jacket. Where wire is bought as pairs that is a wire of a size that is not on the shelf, in
another colour than the pair's two, or without one of its size and length beside it by the same way.

Why: the bond carries all that the battery gives when a live wire touches the frame, until a fuse opens. A thin wire
by itself breaks where it bends, is stripped or crimped, and behind a closed wall nobody mends it.

Limit: 8 AWG for the bond, and not under the battery's lead (NEC 552.10(C), quoted: park trailers), is a *should
fix*. 16 AWG for a wire by itself (33 CFR 183.425(e), read: US boats) is worth knowing; NEC 552.10(B) allows 18 AWG
(quoted). Below 18 AWG, or below the 1 mm² that ISO 10133:2012 7.7 asks of a wire by itself (quoted), no size is
read at all. The cable of the tow plug comes with its plug and is not judged.

Walls open: thicker wire, or a pair in one jacket.

Walls closed: new wire that stays in sight; what is in the wall stays until it breaks.

Failing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft, frame bond: 10 AWG}
    front box: {fuse ways: 4}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      light: {path: [lamp: 6 ft]}

Passing example::

    format: 1
    build: {name: Example, country: US}
    battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft, frame bond: 8 AWG}
    front box: {fuse ways: 4}
    parts: {lamp: {kind: lamp, draws: 3 W}}
    circuits:
      light: {path: [lamp: 6 ft]}
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.electrics.figures import Figures
from builder.electrics.pairs import is_side, paired
from builder.rules.closed_walls import new_wire
from builder.rules.finding import Level, Remark, WayOut
from builder.rules.mending import own_size
from builder.rules.wording import say
from builder.tables.installation import MinimumSize, minimum_size
from builder.trailer.circuits import CircuitKind
from builder.trailer.model import TOW_PLUG, Trailer
from builder.trailer.size import Size, by_area
from builder.trailer.wires import Role, Wire

BOND_SAYS = "the bond to the frame is {size}, and {least} is the smallest"
BOND_UNDER_SAYS = "the bond to the frame is {size}, thinner than the battery's own line: {least}"
ALONE_SAYS = "wire {wire} of “{circuit}” is {size} and runs by itself: {least} is the smallest"
SHELF_SAYS = "{size} on the shelf is chosen for {count} wires that run by themselves: {least} is the smallest"
BOND_HELP = "use a thicker one, frame bond: {least}"
CIRCUIT_HELP = "use thicker wire for “{circuit}”: size: {least}; or a pair in one jacket, sold as: pair"
COLORS_HELP = (
    "use thicker wire for “{circuit}”: size: {least}; or leave its colours out: then it runs as a pair"
)
THICKER_HELP = "use thicker wire for “{circuit}”: size: {least}"
ITEM_HELP = "use thicker wire where “{circuit}” gives a size of its own: size: {least}"
LAMPS_HELP = "use thicker wire where the road lamps give a size of their own: size: {least}"
SHELF_HELP = (
    "take {size} out of on the shelf and begin with {least}, or buy pairs in one jacket: sold as: pair"
)

SINGLES_HELP = (
    "take {size} out of on the shelf and begin with {least}: not every wire here can be one of a pair"
)

BOND_CLOSED_HELP = "lay a bond of its own from the ground bar to bare metal of the frame, frame bond: {least}"
SHELF_CLOSED_HELP = "leave those that are in until one of them breaks; then {wire}"
TOW, SHELF = 0, -1
"""Stand for all road lamps, and for all wires that take their size off the shelf, where a circuit's number would."""


def check(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    """Yield a remark for the bond, the shelf, each circuit, and one for all road lamps, with a wire too thin."""
    yield from _bond(trailer, figures)
    least = minimum_size("boat under 50 v", "separate")
    together = paired(trailer, figures)
    kinds = {circuit.number: circuit.kind for circuit in trailer.circuits}
    thin: dict[int, list[Wire]] = {}
    for wire in trailer.wires:
        made = figures.wires.get(wire.number)
        if (
            made is None
            or wire.number in together
            or wire.role is Role.BOND
            or TOW_PLUG in (wire.start.part, wire.end.part)
        ):
            continue
        if made.size.kind == "AWG" and _is_below(made.size, _size(least)):
            group = TOW if kinds[wire.circuit] is CircuitKind.TOW else wire.circuit
            thin.setdefault(group if made.size_given else SHELF, []).append(wire)
    for of, wires in thin.items():
        if of == SHELF:
            yield _of_shelf(trailer, figures, wires, least)
        else:
            yield _alone(trailer, figures, wires[0], least)


def _bond(trailer: Trailer, figures: Figures) -> Iterator[Remark]:
    line = trailer.battery_line
    least = minimum_size("park trailer low voltage", "frame bond")
    line_wires = [wire for wire in trailer.wires if line is not None and wire.circuit == line.number]
    feeds = [wire.number for wire in line_wires if wire.role is Role.FEED]
    sizes = [figures.wires[number].size for number in feeds if number in figures.wires]
    for wire in line_wires:
        if wire.role is not Role.BOND or wire.size is None:
            continue
        lead = max(sizes, key=by_area, default=wire.size)
        short = wire.size.kind == "AWG" and _is_below(wire.size, _size(least))
        if not short and not _is_below(wire.size, lead):
            continue
        wanted = max(lead, _size(least), key=by_area) if short else lead
        yield Remark(
            origin=wire.origin,
            message=say(
                BOND_SAYS if short else BOND_UNDER_SAYS,
                size=wire.size,
                least=_size(least) if short else lead,
            ),
            help=WayOut(say(BOND_HELP, least=wanted), say(BOND_CLOSED_HELP, least=wanted)),
            known=least.known,
            basis=least.source,
            circuit=wire.circuit,
        )


def _size(least: MinimumSize) -> Size:
    return Size("AWG" if least.unit == "AWG" else "mm2", least.size)


def _is_below(size: Size, least: Size) -> bool:
    return size.area_mm2 < least.area_mm2 * (1 - 1e-9)


def _of_shelf(trailer: Trailer, figures: Figures, wires: list[Wire], least: MinimumSize) -> Remark:
    size = figures.wires[wires[0].number].size
    return Remark(
        origin=trailer.shelf.origin,
        message=say(SHELF_SAYS, size=size, count=len(wires), least=_size(least)),
        help=WayOut(
            say(
                SINGLES_HELP if trailer.shelf.sold_as == "pair" else SHELF_HELP,
                size=size,
                least=_size(least),
            ),
            say(SHELF_CLOSED_HELP, wire=new_wire(trailer, _size(least))),
        ),
        known=least.known,
        basis=least.source,
        level=Level.WORTH,
    )


def _help(trailer: Trailer, wire: Wire, size: Size) -> str:
    """Return the way out for a wire of which the circuit gives the size: the shelf's sizes alone come as pairs."""
    pairs = trailer.shelf.sold_as == "pair"
    if size not in trailer.shelf.sizes or (pairs and is_side(trailer, wire)):
        return THICKER_HELP
    return COLORS_HELP if pairs else CIRCUIT_HELP


def _alone(trailer: Trailer, figures: Figures, wire: Wire, least: MinimumSize) -> Remark:
    circuit = trailer.circuit(wire.circuit)
    tow = circuit.kind is CircuitKind.TOW
    size = figures.wires[wire.number].size
    whole = _help(trailer, wire, size)
    help_ = LAMPS_HELP if tow else ITEM_HELP if own_size(trailer, wire) else whole
    return Remark(
        origin=wire.origin,
        message=say(
            ALONE_SAYS,
            wire=wire.number,
            circuit=circuit.name,
            size=size,
            least=_size(least),
        ),
        help=WayOut(say(help_, circuit=circuit.name, least=_size(least)), new_wire(trailer, _size(least))),
        known=least.known,
        basis=least.source,
        level=Level.WORTH,
        circuit=circuit.number,
    )
