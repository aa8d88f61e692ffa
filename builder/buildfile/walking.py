"""A whole path, item by item, with its branches: who is meant, and in which role."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from builder.buildfile.declared import BranchWords, CircuitWords, ItemWords
from builder.buildfile.loom import Loom, Thread
from builder.buildfile.validating import fold
from builder.buildfile.values import nearest
from builder.buildfile.weaving import Tip, leg, step
from builder.trailer.circuits import Stop
from builder.trailer.origin import Origin
from builder.trailer.parts import Form, Part

_IMPLICIT = {"fuse": "fuse", "breaker": "breaker", "isolating switch": "isolating switch"}
_ONCE = {Form.LOAD, Form.GATE, Form.TRAVELLER, Form.SECTION, Form.JOINT, Form.RELAY}


@dataclass(slots=True)
class Walk:
    """One circuit while it is walked: its stops and the tip behind each of them."""

    thread: Thread
    branch_points: frozenset[str]
    stops: list[Stop] = field(default_factory=list)
    tips: dict[str, tuple[Tip, int]] = field(default_factory=dict)


def implicit_part(name: str, origin: Origin) -> Part | None:
    """Return the part that a name means by itself: a fuse, a breaker or the isolating switch."""
    folded = fold(name)
    for ending, kind in _IMPLICIT.items():
        if folded == ending or folded.endswith(" " + ending):
            return Part(name, kind, Form.GATE, origin)
    return None


def find_part(loom: Loom, item: ItemWords) -> Part | None:
    """Return the part that an item names; None, with a problem kept, when there is none."""
    folded = fold(item.name.value)
    part = loom.parts.get(folded)
    if part is None and folded not in loom.broken:
        part = implicit_part(item.name.value, item.name.origin)
        if part is not None:
            loom.parts[folded] = part
    if part is None and folded not in loom.broken:
        near = nearest(folded, loom.parts)
        loom.problem(
            item.name.origin,
            "unknown part",
            f"“{item.name.value}” is not a part of this file",
            f"did you mean “{loom.parts[near].name}”?"
            if near
            else f"add it under parts, as in {item.name.value}: {{kind: lamp}}",
        )
    return part


def walk_path(loom: Loom, walk: Walk, items: Sequence[ItemWords], tip: Tip, parent: int) -> None:
    """Weave a path from a tip; later items are woven even when one of them is unknown."""
    for place, item in enumerate(items):
        part = find_part(loom, item)
        if part is None:
            return  # what follows hangs in the air: its problems would all be this one
        coil = _is_coil(item, part, walk, last=place == len(items) - 1)
        if not _may_be_wired(loom, walk, item, part, coil=coil):
            return
        if item.length is None:
            loom.problem(
                item.name.origin,
                "missing length",
                f"the wire to “{part.name}” has no length",
                f"write how long it is from the item before, as in {part.name}: 12 ft",
            )
        tip = step(loom, walk.thread, tip, item, part, coil=coil)
        walk.stops.append(Stop(part.name, parent, leg(item), item.name.origin, as_coil=coil))
        parent = len(walk.stops) - 1
        if not coil:
            walk.tips[fold(part.name)] = (tip, parent)
    if len(tip.feeds) > 1:
        loom.problem(
            items[-1].name.origin,
            "two-way switching",
            "the path ends between two two-way switches",
            "let a second two-way switch stand in the path, before the lamp",
        )


def _is_coil(item: ItemWords, part: Part, walk: Walk, *, last: bool) -> bool:
    if part.form is not Form.RELAY:
        return False
    if item.as_ is not None:
        return item.as_.value == "coil"
    return last and fold(part.name) not in walk.branch_points


def _may_be_wired(loom: Loom, walk: Walk, item: ItemWords, part: Part, *, coil: bool) -> bool:
    """Refuse a part that is wired already: a path that comes back to it would be a loop."""
    key = fold(part.name) + (" coil" if coil else "")
    first = loom.wired.setdefault(key, item.name.origin)
    if first == item.name.origin or part.form not in _ONCE:
        return True
    here = " of this circuit" if fold(part.name) in walk.tips else ""
    loom.problem(
        item.name.origin,
        "wired twice",
        f"“{part.name}” is already on the path{here} at line {first.line}",
        "to go on from it, write a branch: branches: [{from: " + part.name + ", path: […]}]",
    )
    return False


def walk_circuit(loom: Loom, words: CircuitWords, thread: Thread, tip: Tip) -> tuple[Stop, ...]:
    """Weave a circuit with its branches; return its stops."""
    points = frozenset(fold(branch.from_.value) for branch in words.branches)
    walk = Walk(thread, points)
    walk.tips["fuse"] = (tip, -1)
    walk_path(loom, walk, words.path, tip, -1)
    for branch in words.branches:
        _walk_branch(loom, walk, branch)
    return tuple(walk.stops)


def _walk_branch(loom: Loom, walk: Walk, branch: BranchWords) -> None:
    name = fold(branch.from_.value)
    found = walk.tips.get(name)
    if found is None:
        if name in loom.broken or any(fold(problem.message).find(name) >= 0 for problem in loom.problems):
            return  # said already, where the item itself stands
        known = [loom.parts[key].name for key in walk.tips if key in loom.parts]
        loom.problem(
            branch.from_.origin,
            "unknown branch point",
            f"no item “{branch.from_.value}” stands in the path of this circuit",
            "a branch leaves from fuse" + (", or from " + ", ".join(known) if known else ""),
        )
        return
    tip, parent = found
    if branch.output is not None:
        chosen = _output(loom, branch, tip)
        if chosen is None:
            return
        tip = chosen
    thread = walk.thread
    if branch.return_ is not None:
        thread = replace(
            thread,
            return_to=branch.return_.to.value if branch.return_.to else "",
            return_length_m=branch.return_.length.value if branch.return_.length else None,
            return_origin=branch.from_.origin,
        )
    inner = Walk(thread, walk.branch_points, walk.stops, walk.tips)
    walk_path(loom, inner, branch.path, tip, parent)


def _output(loom: Loom, branch: BranchWords, tip: Tip) -> Tip | None:
    wanted = branch.output
    if wanted is None:
        return tip
    for name, terminal in tip.outputs:
        if fold(name) == fold(wanted.value):
            return replace(tip, feeds=(terminal,))
    names = ", ".join(name for name, _ in tip.outputs)
    loom.problem(
        wanted.origin,
        "unknown output",
        f"“{branch.from_.value}” has no output “{wanted.value}”",
        f"its outputs are: {names}"
        if names
        else "only a receiver, a dimmer or a relay has outputs to choose from",
    )
    return None
