"""A whole path, item by item, with its branches: who is meant, and in which role."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace

from builder.buildfile.breaking_away import meet_brakes, meets_brakes
from builder.buildfile.declared_circuits import BranchWords, CircuitWords, ItemWords
from builder.buildfile.laying_out import check_through, laid_out
from builder.buildfile.loom import Loom, Thread
from builder.buildfile.problems import BLANK, beside, instead, leave_out
from builder.buildfile.suggesting import did_you_mean, near_words
from builder.buildfile.two_way import switching_holds
from builder.buildfile.weaving import Tip, leg, step
from builder.buildfile.written import fold
from builder.trailer.circuits import Stop
from builder.trailer.model import BATTERY, FRONT_BOX, TOW_PLUG
from builder.trailer.origin import Origin
from builder.trailer.parts import Form, Part

_NO_COLON = re.compile(r"(.*?)\s+(\d.*)")
_IMPLICIT = {"fuse": "fuse", "breaker": "breaker", "isolating switch": "isolating switch"}
MOST_OFFERED = 3
MOST_ITEMS = 100
"""Items of one circuit, its branches included: far more than a small trailer has, and few enough to follow."""

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
    meant = _misspelt_fuse(loom, folded) if part is not None else None
    if part is not None and folded != "fuse" and meant is None:
        loom.parts[folded] = part
        return part
    if "parts" not in loom.broken:
        _unknown_part(loom, item, folded)
    return None


def _misspelt_fuse(loom: Loom, folded: str) -> Part | None:
    """Return the fuse or breaker of the file that a name is hardly different from; it is no fuse of its own then."""
    stems = {
        key.rpartition(" ")[0]: part
        for key, part in loom.parts.items()
        if key not in loom.wired and part.kind in _IMPLICIT.values()
    }
    # Two fuses may well have names of one letter's difference, such as left and lift: only long ones are slips.
    near = difflib.get_close_matches(
        folded.rpartition(" ")[0], [stem for stem in stems if stem], n=1, cutoff=0.85
    )
    return stems[near[0]] if near else None


def _unknown_part(loom: Loom, item: ItemWords, folded: str) -> None:
    name, origin = item.name.value, item.name.origin
    if folded == "fuse":
        loom.problem(
            origin,
            "nameless fuse",
            "“fuse” alone is the circuit's own fuse, which the path has behind it already",
            "give a further fuse a name that ends in fuse, as in fan fuse: 1 ft",
            instead("second fuse"),
        )
        return
    if folded.startswith(TOW_PLUG):
        loom.problem(
            origin,
            "item out of place",
            "no path runs to the tow plug: its contacts are supplies",
            "a path can start there, as in from: tow plug battery",
        )
        return
    if folded in loom.road_names:
        loom.problem(
            origin,
            "item out of place",
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
            instead(f"{torn.group(1)}: {torn.group(2)}", sure=True),
        )
        return
    known = loom.guessable()
    near = [loom.parts[one].name for one in near_words(folded, known) or _tails(folded, known)]
    loom.problem(
        origin,
        "unknown part",
        f"“{name}” is not a part of this file",
        did_you_mean(near) or f"add it under parts, as in {name}: {{kind: lamp}}",
        (*instead(*near), *beside(f"{name}: {{kind: {BLANK}}}", loom.first_part)),
    )


def _tails(name: str, known: Iterable[str]) -> list[str]:
    """Return the names that a longer one ends in: ``charger`` for ``dcdc charger``."""
    return [one for one in known if len(one) > 2 and name.endswith(f" {one}")][:MOST_OFFERED]


def walk_path(loom: Loom, walk: Walk, items: Sequence[ItemWords], tip: Tip, parent: int) -> None:
    """Weave a path from a tip. Where an item has a problem the rest is left: all its problems would be this one."""
    parts = [find_part(loom, item) for item in items]
    known = [part for part in parts if part is not None]
    walk.cut = walk.cut or len(known) < len(parts)
    if len(known) < len(parts) and any(part.form is Form.TRAVELLER for part in known):
        return  # which switches belong together shows only when all parts are known
    if len(known) == len(parts) and not switching_holds(loom, items, known):
        walk.cut = True
        return
    for place, (item, part) in enumerate(zip(items, parts, strict=True)):
        if part is None:
            return
        if place and _goes_past(loom, items[place - 1], item):
            walk.cut = True
            return
        woven = _walk_item(loom, walk, (item, part), (tip, parent), last=place == len(items) - 1)
        if woven is None:
            walk.cut = True
            return
        tip, parent = woven


def _walk_item(
    loom: Loom, walk: Walk, named: tuple[ItemWords, Part], before: tuple[Tip, int], *, last: bool
) -> tuple[Tip, int] | None:
    """Weave one item behind a tip and its stop; None, with a problem kept, where its part may not stand here."""
    item, part = named
    tip, parent = before
    coil = _is_coil(loom, item, part, walk, last=last)
    meets = last and meets_brakes(loom, walk.stops, part)
    if not meets and not _may_be_wired(loom, walk, item, part, coil=coil):
        return None
    item = lay_out(loom, tip.feeds[0].part, item, part.name)
    if meets:
        meet_brakes(loom, walk.thread, tip, item, part)
    else:
        tip = step(loom, walk.thread, tip, item, part, coil=coil)
    walk.stops.append(Stop(part.name, parent, leg(item), item.name.origin, as_coil=coil))
    parent = len(walk.stops) - 1
    if part.form is Form.RELAY and not coil:
        loom.contacts.setdefault(fold(part.name), item.name.origin)
    if not coil and not meets:
        walk.tips[fold(part.name)] = (tip, parent)
    return tip, parent


def lay_out(loom: Loom, start: str, item: ItemWords, name: str) -> ItemWords:
    """Return an item with the length of its wire from the part ``start``: as written, or by the way that it takes."""
    loom.problems += check_through(loom.layout, item.through)
    found, problem = laid_out(loom.layout, start, item, name)
    loom.problems += [problem] if problem else []
    return found


def check_relays(loom: Loom) -> None:
    """Keep a problem for every relay whose contact is wired and whose coil is not."""
    for name, origin in loom.contacts.items():
        if f"{name} coil" not in loom.wired and not loom.broken and not loom.problems:
            loom.problem(
                origin,
                "relay without a coil",
                f"the contact of “{loom.parts[name].name}” is wired, and nothing feeds its coil",
                f"add a branch that ends at it, as in branches: [{{from: fuse, path: [switch: 9 ft, {name}: 7 ft]}}]",
            )


def _goes_past(loom: Loom, before: ItemWords, item: ItemWords) -> bool:
    """Refuse an item behind the battery or the front box: a wire from there has its own fuse and circuit."""
    if fold(before.name.value) not in (BATTERY, FRONT_BOX):
        return False
    loom.problem(
        item.name.origin,
        "item out of place",
        f"this path goes on behind “{before.name.value}”, where it ends",
        f"take “{item.name.value}” out here, and give it a circuit of its own",
    )
    return True


def _is_coil(loom: Loom, item: ItemWords, part: Part, walk: Walk, *, last: bool) -> bool:
    if item.terminal is not None and part.form is not Form.THROUGH:
        loom.problem(
            item.terminal.origin,
            "word does not fit",
            f"“{part.name}” is a {part.kind}: only a connector has ways to choose from",
            "take “terminal” out, or change the kind",
        )
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
    here = fold(part.name) in walk.tips
    loom.problem(
        item.name.origin,
        "wired twice",
        f"“{part.name}” is already on the path of this circuit at line {first.line}"
        if here
        else f"“{part.name}” is already on a path at line {first.line}",
        f"to go on from it, write a branch: branches: [{{from: {part.name}, path: […]}}]"
        if here
        else "each part is wired once: take it out here or there, or describe a second one with its own name",
    )
    return False


def walk_circuit(loom: Loom, words: CircuitWords, thread: Thread, tip: Tip) -> tuple[Stop, ...]:
    """Weave a circuit with its branches; return its stops."""
    items = [item for path in (words.path, *(branch.path for branch in words.branches)) for item in path]
    if too_long(loom, items, "circuit"):
        return ()
    points = frozenset(fold(branch.from_.value) for branch in words.branches)
    walk = Walk(thread, points)
    walk.tips["fuse"] = (tip, -1)
    walk_path(loom, walk, words.path, tip, -1)
    for branch in words.branches:
        _walk_branch(loom, walk, branch)
    return tuple(walk.stops)


def too_long(loom: Loom, items: Sequence[ItemWords], what: str) -> bool:
    """Keep a problem where a circuit or a path has more items than may be followed from end to end."""
    if len(items) <= MOST_ITEMS:
        return False
    loom.problem(
        items[MOST_ITEMS].name.origin,
        "path too long",
        f"this {what} has {len(items):,} items; a {what} may have up to {MOST_ITEMS}",
        "part it into several circuits, or leave out what is no part of the wiring",
    )
    return True


def _walk_branch(loom: Loom, walk: Walk, branch: BranchWords) -> None:
    name = fold(branch.from_.value)
    found = walk.tips.get(name)
    if found is None:
        if name in loom.broken or walk.cut:
            return  # said already, where the item itself stands
        _no_branch_point(loom, walk, branch)
        return
    tip, parent = found
    if len(tip.feeds) > 1 or name in (BATTERY, FRONT_BOX):
        loom.problem(
            branch.from_.origin,
            "no branch from there",
            f"no branch can leave from “{branch.from_.value}”, where this path ends"
            if name in (BATTERY, FRONT_BOX)
            else f"no branch can leave from “{branch.from_.value}”, between two two-way switches",
            "give what hangs there a circuit of its own"
            if name in (BATTERY, FRONT_BOX)
            else "let it leave before the first two-way switch or behind the last one",
        )
        return
    if branch.output is not None:
        chosen = _output(loom, branch, tip)
        if chosen is None:
            return
        tip = chosen
    thread = walk.thread
    if branch.return_ is not None:
        if not tip.base.is_start:
            _no_return_of_its_own(loom, branch)
            walk.cut = True
            return
        thread = replace(
            thread,
            return_to=branch.return_.to.value if branch.return_.to else "",
            return_length_m=branch.return_.length.value if branch.return_.length else None,
            return_origin=branch.from_.origin,
        )
    inner = Walk(thread, walk.branch_points, walk.stops, walk.tips)
    walk_path(loom, inner, branch.path, tip, parent)
    walk.cut = walk.cut or inner.cut


def _no_return_of_its_own(loom: Loom, branch: BranchWords) -> None:
    """Keep the problem of a branch that says where its returns go, and leaves from what its returns end at."""
    back, name = branch.return_, branch.from_.value
    written = [one for one in (back.to, back.length) if one is not None] if back is not None else []
    origin = written[0].origin if written else branch.from_.origin
    loom.problem(
        origin,
        "word does not fit",
        f"the returns of this branch end at “{name}”, where its feed leaves",
        "take “return” out; or give what hangs there a circuit of its own, whose return goes where you say",
        leave_out(origin),
    )


def _no_branch_point(loom: Loom, walk: Walk, branch: BranchWords) -> None:
    """Keep the problem of a branch from what is not in the path, or only as a coil."""
    walk.cut = True  # what a later branch names may stand on this one
    name = branch.from_.value
    if any(stop.as_coil and fold(stop.part) == fold(name) for stop in walk.stops):
        loom.problem(
            branch.from_.origin,
            "unknown branch point",
            f"“{name}” stands in the path as a coil, and a branch leaves from a relay's contact",
            f"put its contact on the path as well, as in {name}: {{length: 3 ft, as: contact}}",
        )
        return
    known = ["fuse", *(loom.parts[key].name for key in walk.tips if key in loom.parts)]
    loom.problem(
        branch.from_.origin,
        "unknown branch point",
        f"no item “{name}” stands in the path of this circuit",
        f"a branch can leave from: {', '.join(known)}",
        instead(*(near_words(name, known) or known[:MOST_OFFERED])),
    )


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
        instead(*[name for name, _ in tip.outputs][:MOST_OFFERED]),
    )
    return None
