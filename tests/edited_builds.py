"""Edits that a maker makes to a build file: each takes the tree of a build and gives the tree after it."""

from __future__ import annotations

import copy
import random
from collections.abc import Callable
from typing import Any

Tree = dict[str, Any]
Edit = Callable[[Tree, random.Random, int], None]

COLOURS = ("green with white", "violet", "brown with white")


def _circuits(tree: Tree) -> Tree:
    return tree.setdefault("circuits", {})


def _paths(tree: Tree) -> list[list[Any]]:
    """Every path of every circuit, branches included."""
    found = []
    for words in _circuits(tree).values():
        found.append(words["path"])
        found += [branch["path"] for branch in words.get("branches", [])]
    return found


def _shuffled(items: Tree, rng: random.Random) -> Tree:
    names = list(items)
    rng.shuffle(names)
    return {name: items[name] for name in names}


def circuit_inserted(tree: Tree, rng: random.Random, turn: int) -> None:
    """Write a new circuit with a lamp and a switch, anywhere among the others."""
    parts = tree.setdefault("parts", {})
    parts[f"new switch {turn}"] = {"kind": "switch"}
    parts[f"new lamp {turn}"] = {"kind": "lamp", "draws": "1 W"}
    entries = list(_circuits(tree).items())
    path = [{f"new switch {turn}": "3 ft"}, {f"new lamp {turn}": "2 ft"}]
    entries.insert(rng.randint(0, len(entries)), (f"new circuit {turn}", {"path": path}))
    tree["circuits"] = dict(entries)


def circuit_removed(tree: Tree, rng: random.Random, turn: int) -> None:
    """Take a circuit out; its parts lie in the workshop."""
    if _circuits(tree):
        del _circuits(tree)[rng.choice(list(_circuits(tree)))]


def file_reordered(tree: Tree, rng: random.Random, turn: int) -> None:
    """Write parts, circuits, road lamps and spare wires in another order."""
    for heading in ("parts", "circuits", "road lamps", "spares"):
        if heading in tree:
            tree[heading] = _shuffled(tree[heading], rng)


def switch_put_between(tree: Tree, rng: random.Random, turn: int) -> None:
    """Put a switch somewhere into a path."""
    if _paths(tree):
        path = rng.choice(_paths(tree))
        tree.setdefault("parts", {})[f"put switch {turn}"] = {"kind": "switch"}
        path.insert(rng.randrange(len(path)), {f"put switch {turn}": "1 ft"})


def connector_put_between(tree: Tree, rng: random.Random, turn: int) -> None:
    """Put a connector somewhere into a path."""
    if _paths(tree):
        path = rng.choice(_paths(tree))
        tree.setdefault("parts", {})[f"put plug {turn}"] = {"kind": "connector", "ways": "12"}
        path.insert(rng.randrange(len(path)), {f"put plug {turn}": "1 ft"})


def end_removed(tree: Tree, rng: random.Random, turn: int) -> None:
    """Take the last item of a path out, or the whole branch."""
    longer = [path for path in _paths(tree) if len(path) > 1]
    if longer:
        rng.choice(longer).pop()


def branch_removed(tree: Tree, rng: random.Random, turn: int) -> None:
    """Take a branch out of a circuit."""
    with_branches = [words for words in _circuits(tree).values() if words.get("branches")]
    if with_branches:
        branches = rng.choice(with_branches)["branches"]
        branches.pop(rng.randrange(len(branches)))


def lamp_added(tree: Tree, rng: random.Random, turn: int) -> None:
    """Hang a lamp on the end of a path."""
    if _paths(tree):
        tree.setdefault("parts", {})[f"more lamp {turn}"] = {"kind": "lamp", "draws": "2 W"}
        rng.choice(_paths(tree)).append({f"more lamp {turn}": "4 ft"})


def branch_added(tree: Tree, rng: random.Random, turn: int) -> None:
    """Hang a lamp on a branch from the fuse, now and then through a connector that is there already."""
    names = list(_circuits(tree))
    if not names:
        return
    tree.setdefault("parts", {})[f"branch lamp {turn}"] = {"kind": "lamp", "draws": "2 W"}
    plugs = [name for name, words in tree["parts"].items() if words.get("kind") == "connector"]
    way = [{rng.choice(plugs): "2 ft"}] if plugs and rng.random() < 0.7 else []
    branch = {"from": "fuse", "path": [*way, {f"branch lamp {turn}": "4 ft"}]}
    _circuits(tree)[rng.choice(names)].setdefault("branches", []).append(branch)


def road_lamp_added(tree: Tree, rng: random.Random, turn: int) -> None:
    """Add a pair of road lamps where there is a plug."""
    if "tow plug" in tree:
        lamps = {f"more marker {turn}": {"shows": "marker", "side": "both", "wire": "4 ft"}}
        tree["road lamps"] = (
            {**lamps, **tree.get("road lamps", {})}
            if rng.random() < 0.5
            else {
                **tree.get("road lamps", {}),
                **lamps,
            }
        )


def road_lamp_removed(tree: Tree, rng: random.Random, turn: int) -> None:
    """Take a road lamp out."""
    names = [name for name in tree.get("road lamps", {}) if name != "lamps"]
    if names:
        del tree["road lamps"][rng.choice(names)]


def lengths_changed(tree: Tree, rng: random.Random, turn: int) -> None:
    """Measure a wire again, and choose another colour for a circuit."""
    if _paths(tree):
        path = rng.choice(_paths(tree))
        item = rng.choice(path)
        name, value = next(iter(item.items()))
        if isinstance(value, dict):
            value["length"] = f"{rng.randint(1, 9)} ft"
        else:
            item[name] = f"{rng.randint(1, 9)} ft"
        words = rng.choice(list(_circuits(tree).values()))
        words["color"] = rng.choice(COLOURS)


def spare_added(tree: Tree, rng: random.Random, turn: int) -> None:
    """Lay a spare wire, written before all others."""
    spare = {f"more spare {turn}": {"from": "front box", "to": "rear wall", "wire": "9 ft"}}
    tree["spares"] = {**spare, **tree.get("spares", {})}


EDITS: tuple[Edit, ...] = (
    circuit_inserted,
    circuit_removed,
    file_reordered,
    switch_put_between,
    connector_put_between,
    end_removed,
    branch_removed,
    lamp_added,
    branch_added,
    road_lamp_added,
    road_lamp_removed,
    lengths_changed,
    spare_added,
)


def edited(tree: Tree, edit: Edit, seed: int, turn: int) -> Tree:
    """Return the tree after an edit; the tree itself stays. ``turn`` makes new names that no other edit makes."""
    after: Tree = copy.deepcopy(tree)
    edit(after, random.Random(seed), turn)  # noqa: S311 - nothing of a secret
    return {
        name: value
        for name, value in after.items()
        if not (name in ("circuits", "road lamps", "spares") and not value)
    }
