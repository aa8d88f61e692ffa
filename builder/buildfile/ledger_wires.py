"""A wire as the ledger keeps it: between which terminals it runs, whatever else the build file changes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from builder.buildfile.written import fold
from builder.trailer.circuits import Circuit, CircuitKind
from builder.trailer.ledger import Group, Use
from builder.trailer.model import FRONT_BOX, TOW_PLUG
from builder.trailer.parts import Form, Part, Terminal
from builder.trailer.wires import Role, Wire

USES: Mapping[Role, Use] = {
    Role.FEED: "feed",
    Role.TRAVELLER: "feed",
    Role.RETURN: "return",
    Role.BOND: "bond",
}
_GROUPS: Mapping[CircuitKind, Group] = {
    CircuitKind.HOUSE: "circuits",
    CircuitKind.FROM: "circuits",
    CircuitKind.TOW: "tow plug",
    CircuitKind.BATTERY: "battery",
}


@dataclass(frozen=True, slots=True)
class Run:
    """What tells one wire of a circuit from another, as far as it is told by the wire's own ends."""

    use: Use
    start: Terminal
    end: Terminal
    behind: frozenset[str]


def group_of(circuit: Circuit) -> Group:
    """Return where a circuit comes from."""
    return _GROUPS[circuit.kind]


def kept_end(parts: Mapping[str, Part], at: Terminal) -> Terminal:
    """Return a terminal without what other wires and the plug's pattern decide: numbers of ways and of contacts."""
    if at.part == FRONT_BOX:
        word = "fuse" if at.pin.startswith("way ") else "strip" if at.pin.startswith("strip") else at.pin
        return Terminal(FRONT_BOX, word)
    if at.part == TOW_PLUG:
        return Terminal(TOW_PLUG, "contact")
    part = parts.get(at.part)
    if part is not None and part.form is Form.THROUGH:
        return Terminal(at.part, at.pin.rpartition(" ")[2])
    if part is not None and part.kind == "road lamp" and at.pin != "−":
        return Terminal(at.part, "+")
    return at


def folded(at: Terminal) -> Terminal:
    """Return a terminal as terminals are compared: names of parts without capitals and double blanks."""
    return Terminal(fold(at.part), at.pin)


def parts_behind(parts: Mapping[str, Part], wires: Sequence[Wire]) -> dict[int, tuple[str, ...]]:
    """Return, by their place, the parts that the wires at a connector serve beyond it, sorted by name.

    A feed is followed through the connector to where it ends, a return to where it comes from.
    """
    leaving: dict[Terminal, list[Wire]] = {}
    coming: dict[Terminal, list[Wire]] = {}
    for wire in wires:
        if wire.role is Role.RETURN:
            coming.setdefault(wire.end, []).append(wire)
        else:
            leaving.setdefault(wire.start, []).append(wire)
    found: dict[int, tuple[str, ...]] = {}
    for place, wire in enumerate(wires):
        back = wire.role is Role.RETURN
        here = wire.start if back else wire.end
        if _is_through(parts, here):
            served = _followed(parts, here, coming if back else leaving, back=back)
            found[place] = tuple(sorted(served, key=lambda name: (fold(name), name)))
    return found


def _is_through(parts: Mapping[str, Part], at: Terminal) -> bool:
    part = parts.get(at.part)
    return part is not None and part.form is Form.THROUGH


def _followed(
    parts: Mapping[str, Part], here: Terminal, wires: Mapping[Terminal, list[Wire]], *, back: bool
) -> set[str]:
    """Return the parts at the far ends of all wires beyond a connector's way, further connectors passed."""
    served: set[str] = set()
    todo, seen = [here], {here}
    while todo:
        at = todo.pop()
        way = at.pin.rpartition(" ")[0]
        for wire in wires.get(Terminal(at.part, f"{way} out"), ()):
            far = wire.start if back else wire.end
            if not _is_through(parts, far):
                served.add(far.part)
            elif far not in seen:
                seen.add(far)
                todo.append(far)
    return served
