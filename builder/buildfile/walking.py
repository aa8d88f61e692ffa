"""A whole path, item by item, with its branches: who is meant, and in which role."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from builder.buildfile.declared import BranchWords, CircuitWords, ItemWords
from builder.buildfile.loom import Loom, Thread
from builder.buildfile.two_way import switching_holds
from builder.buildfile.validating import fold
from builder.buildfile.values import nearest
from builder.buildfile.weaving import Tip, leg, step
from builder.trailer.circuits import Stop
from builder.trailer.model import TOW_PLUG
from builder.trailer.origin import Origin
from builder.trailer.parts import Form, Part

_NO_COLON = re.compile(r"(.*?)\s+(\d.*)")
_IMPLICIT = {"fuse": "fuse", "breaker": "breaker", "isolating switch": "isolating switch"}
_ONCE = {Form.LOAD, Form.GATE, Form.TRAVELLER, Form.SECTION, Form.JOINT, Form.RELAY}


@dataclass(slots=True)
class Walk:
    """One circuit while it is walked: its stops and the tip behind each; ``cut`` when a problem ended a path early."""

    thread: Thread
    branch_points: frozenset[str]
    stops: list[Stop] = field(default_factory=list)
    tips: dict[str, tuple[Tip, int]] = field(default_factory=dict)
    cut: bool = False


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
    if part is not None or folded in loom.broken:
        return part
    part = implicit_part(item.name.value, item.name.origin)
    if part is not None and folded != "fuse":
        loom.parts[folded] = part
        return part
    if "parts" not in loom.broken:
        _unknown_part(loom, item, folded)
    return None


def _unknown_part(loom: Loom, item: ItemWords, folded: str) -> None:
    name, origin = item.name.value, item.name.origin
    if folded == "fuse":
        loom.problem(
            origin,
            "nameless fuse",
            "“fuse” alone is the circuit's own fuse, which the path has behind it already",
            "give a further fuse a name that ends in fuse, as in fan fuse: 1 ft",
        )
        return
    if folded.startswith(TOW_PLUG):
        loom.problem(
            origin,
            "path",
            "no path runs to the tow plug: its contacts are supplies",
            "a path can start there, as in from: tow plug battery",
        )
        return
    if folded in loom.road_names:
        loom.problem(
            origin,
            "path",
            f"“{loom.road_names[folded]}” is a road lamp: the car feeds it through the tow plug",
            "take it out of this path, or give the part of this circuit another name",
        )
        return
    torn = _NO_COLON.fullmatch(name)
    if torn and fold(torn.group(1)) in loom.parts:
        loom.problem(
            origin,
            "missing colon",
            f"no colon stands behind “{torn.group(1)}”",
            f"write {torn.group(1)}: {torn.group(2)}",
        )
        return
    near = nearest(folded, loom.parts)
    loom.problem(
        origin,
        "unknown part",
        f"“{name}” is not a part of this file",
        f"did you mean “{loom.parts[near].name}”?"
        if near
        else f"add it under parts, as in {name}: {{kind: lamp}}",
    )


def walk_path(loom: Loom, walk: Walk, items: Sequence[ItemWords], tip: Tip, parent: int) -> None:
    """Weave a path from a tip. Where an item has a problem the rest is left: all its problems would be this one."""
    parts = [find_part(loom, item) for item in items]
    known = [part for part in parts if part is not None]
    walk.cut = walk.cut or len(known) < len(parts)
    if len(known) == len(parts) and not switching_holds(loom, items, known):
        walk.cut = True
        return
    for place, (item, part) in enumerate(zip(items, parts, strict=True)):
        if part is None:
            return
        coil = _is_coil(loom, item, part, walk, last=place == len(items) - 1)
        if not _may_be_wired(loom, walk, item, part, coil=coil):
            walk.cut = True
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
        if part.form is Form.RELAY and not coil:
            loom.contacts.setdefault(fold(part.name), item.name.origin)
        if not coil:
            walk.tips[fold(part.name)] = (tip, parent)


def check_relays(loom: Loom) -> None:
    """Keep a problem for every relay whose contact is wired and whose coil is not."""
    for name, origin in loom.contacts.items():
        if f"{name} coil" not in loom.wired and not loom.broken and not loom.problems:
            loom.problem(
                origin,
                "relay without a coil",
                f"the contact of “{loom.parts[name].name}” is wired, and nothing feeds its coil",
                f"add a branch that ends at it: branches: [{{from: fuse, path: [switch: 9 ft, {name}: 7 ft]}}]",
            )


def _is_coil(loom: Loom, item: ItemWords, part: Part, walk: Walk, *, last: bool) -> bool:
    if part.form is not Form.RELAY:
        if item.as_ is not None:
            loom.problem(
                item.as_.origin,
                "word does not fit",
                f"“{part.name}” is a {part.kind}: only a relay has coil and contact",
                "take “as” out, or change the kind",
            )
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
        if name in loom.broken or walk.cut:
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
    walk.cut = walk.cut or inner.cut


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
