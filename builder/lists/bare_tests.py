"""Each wire by itself while no part is joined: what a screw through it would join it with.

Only what lands early is joined then: the ends in the front box and at the plug, those that belong on one post of the
battery, and those on bars and in splices. A connector is apart, so both its halves have ends of their own.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.lists.testing import Group, Kind, Line, Touch
from builder.trailer.circuits import Circuit
from builder.trailer.model import BATTERY, FRONT_BOX, GROUND_BAR, TOW_PLUG, Trailer
from builder.trailer.parts import Form, Terminal
from builder.trailer.wires import Role, Wire

_LANDED = (FRONT_BOX, TOW_PLUG, BATTERY)


def bare_tests(trailer: Trailer) -> Iterator[Line]:
    """Yield by circuit the ends that between them reach every wire but those of the ground; last the spare wires.

    One end of all wires that are joined already is enough. A return that does not come home by itself is read like a
    feed: a screw through both would not show at the ground bar. Common practice.
    """
    nodes = _nodes(trailer)
    if not nodes:
        return
    homes = {circuit.number: _home(trailer, circuit, nodes) for circuit in trailer.circuits}
    ground = next((home for home in homes.values() if home is not None), nodes[0][0].end)
    rows: dict[int, list[Touch]] = {}
    open_returns: set[str] = set()
    away = [node for node in nodes if not _comes_home(node, homes.get(node[0].circuit) or ground)]
    for node in away:
        if node[0].role is Role.RETURN:
            open_returns.update(end.part for wire in node for end in (wire.start, wire.end))
    for node in away:
        touch = Touch(tuple(wire.number for wire in node), _touched(trailer, node, open_returns))
        rows.setdefault(node[0].circuit, []).append(touch)
    for number, touches in sorted(rows.items()):
        home = homes.get(number) or ground
        yield Line(Group.BARE, Kind.BARE, number, touches[0].at, home, touches=tuple(touches))
    spares = tuple(Touch((wire.number,), wire.start) for wire in trailer.spares)
    if spares:
        yield Line(Group.BARE, Kind.BARE, None, spares[0].at, ground, touches=spares)


def _home(trailer: Trailer, circuit: Circuit, nodes: list[list[Wire]]) -> Terminal | None:
    """Return where the black probe stays for a circuit: the ground bar, else the minus of what feeds it.

    A contact of the plug whose ground is not joined to the bar has its own ground for it (table of plug contacts).
    """
    landed = {end for wire in trailer.wires for end in (wire.start, wire.end)}
    names = [load.section for load in trailer.loads if load.circuit == circuit.number]
    minus = next((one.minus for one in trailer.sections if one.name in names and one.minus in landed), None)
    if GROUND_BAR not in landed or minus is None:
        return GROUND_BAR if GROUND_BAR in landed else minus
    at_bar = next(node for node in nodes if _comes_home(node, GROUND_BAR))
    own = minus.part == TOW_PLUG and not _comes_home(at_bar, minus)
    return minus if own else GROUND_BAR


def _is_joined(trailer: Trailer, at: Terminal) -> bool:
    """Tell whether the ends at a terminal are joined with each other before any part is mounted."""
    part = trailer.parts.get(at.part)
    if part is None:
        return at.part in _LANDED
    return part.form is Form.JOINT and not part.waiting


def _nodes(trailer: Trailer) -> list[list[Wire]]:
    """Return the wires in groups of those that are joined early, in their order."""
    number_of: dict[Terminal, int] = {}
    groups: list[list[Wire]] = []
    for wire in trailer.wires:
        joined = [end for end in (wire.start, wire.end) if _is_joined(trailer, end)]
        met = sorted({number_of[end] for end in joined if end in number_of})
        group = [one for number in met for one in groups[number]] + [wire]
        for number in met:
            groups[number] = []
        groups.append(group)
        ends = (end for one in group for end in (one.start, one.end) if _is_joined(trailer, end))
        number_of.update(dict.fromkeys(ends, len(groups) - 1))
    order = {wire.number: place for place, wire in enumerate(trailer.wires)}
    found = [sorted(group, key=lambda wire: order[wire.number]) for group in groups if group]
    return sorted(found, key=lambda group: order[group[0].number])


def _comes_home(node: list[Wire], home: Terminal) -> bool:
    return any(home in (wire.start, wire.end) for wire in node)


def _touched(trailer: Trailer, node: list[Wire], open_returns: set[str]) -> Terminal:
    """Return the end to touch: in the front box or at the plug where there is one, else where a return ends as well."""
    ends = [end for wire in node for end in (wire.start, wire.end)]
    for name in _LANDED:
        for end in ends:
            if end.part == name:
                return end
    joined = [end for end in ends if _is_joined(trailer, end)]
    if joined:
        return joined[0]
    wire = node[0]
    if wire.role is Role.RETURN:
        return wire.start
    beside = [end for end in (wire.end, wire.start) if end.part in open_returns]
    return beside[0] if beside else wire.end
