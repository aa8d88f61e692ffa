"""The breakaway's circuit: it ends where the brakes are wired already, so that two supplies feed the same magnets."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from builder.buildfile.declared_circuits import ItemWords
from builder.buildfile.loom import Loom, Thread
from builder.buildfile.weaving import Tip, add_feed, add_return
from builder.buildfile.written import fold
from builder.trailer.circuits import Stop
from builder.trailer.parts import BRAKE_MAGNET, BREAKAWAY_SWITCH, Form, Part, Terminal
from builder.trailer.wires import BREAKAWAY


def has_breakaway_switch(loom: Loom, items: Sequence[ItemWords]) -> bool:
    """Tell whether a breakaway switch stands on a path: its circuit is woven when all others are."""
    parts = (loom.parts.get(fold(item.name.value)) for item in items)
    return any(part is not None and part.kind == BREAKAWAY_SWITCH for part in parts)


def meets_brakes(loom: Loom, stops: Sequence[Stop], part: Part) -> bool:
    """Tell whether the end of a path is where the brakes are wired: a joint or a magnet on the path of another circuit.

    Args:
        loom: what is woven so far.
        stops: the path up to there; only behind a breakaway switch may a second supply join.
        part: the part at the end.

    """
    behind = any(loom.parts[fold(stop.part)].kind == BREAKAWAY_SWITCH for stop in stops)
    own = any(fold(stop.part) == fold(part.name) for stop in stops)
    may = part.kind == BRAKE_MAGNET or (part.form is Form.JOINT and _leads_to_brakes(loom, part))
    return behind and may and not own and fold(part.name) in loom.wired


def _leads_to_brakes(loom: Loom, joint: Part) -> bool:
    """Tell whether a joint is on the path of a circuit with a brake's magnet."""
    circuits = {wire.circuit for wire in loom.feeds if wire.end == Terminal(joint.name, "feed")}
    fed = (loom.parts.get(fold(load.part)) for load in loom.loads if load.circuit in circuits)
    return any(part is not None and part.kind == BRAKE_MAGNET for part in fed)


def meet_brakes(loom: Loom, thread: Thread, tip: Tip, item: ItemWords, part: Part) -> None:
    """Land feed and return of a breakaway on a part of the brakes' own circuit, and let its supply feed their loads."""
    joint = part.form is Form.JOINT
    feed, back = (Terminal(part.name, pin) for pin in (("feed", "return") if joint else ("+", "−")))
    circuit = next((wire.circuit for wire in loom.feeds if wire.end == feed), None)
    add_feed(loom, thread, tip, item, (feed,))
    if joint:
        loom.joints[fold(part.name)].land()
    add_return(loom, thread, back, tip, item)
    sections = {load.section for load in loom.loads if load.circuit == circuit}
    loom.loads += [
        replace(load, what=BREAKAWAY, circuit=thread.circuit, section=tip.section, origin=item.name.origin)
        for load in loom.loads
        if load.section in sections and load.what == "" and load.circuit != thread.circuit
    ]
