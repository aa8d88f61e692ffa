"""A valid build file with one thing broken: the problems name that line and no other, and mended it reads again."""

from __future__ import annotations

import copy
import os
import random
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache
from typing import Any

import pytest
from generated_builds import GeneratedBuild, builds
from generated_layout import NAMED, Page, Path, Raw, lay_out
from hypothesis import Phase, given, settings

from builder.buildfile.problems import render_brief
from builder.buildfile.resolving import read_build

SAMPLE, BROKEN = (500, 60) if os.environ.get("WIRING_CI") == "1" else (250, 12)
"""How many builds are generated, and about how many of them each breaker breaks."""
FEWEST = 5


@dataclass(frozen=True, slots=True)
class Broken:
    """A tree with one thing broken, and the path to the line that must be named."""

    tree: dict[str, Any]
    place: Path


Breaker = Callable[[GeneratedBuild, random.Random], Broken | None]
BREAKERS: dict[str, Breaker] = {}


def breaks(breaker: Breaker) -> Breaker:
    """Enter a breaker under its name."""
    BREAKERS[breaker.__name__.strip("_").replace("_", " ")] = breaker
    return breaker


def walk(node: Any, path: Path = ()) -> Iterator[tuple[Path, Any]]:
    """Return every path into a tree with what stands there."""
    yield path, node
    if isinstance(node, dict):
        for key, child in node.items():
            yield from walk(child, (*path, key))
    elif isinstance(node, list | tuple):
        for number, child in enumerate(node):
            yield from walk(child, (*path, number))


def plain(build: GeneratedBuild) -> dict[str, Any]:
    """Return the tree of a build as it may be changed."""
    return copy.deepcopy(dict(build.tree))


def at(tree: Any, path: Path) -> Any:
    """Return what a path leads to."""
    for step in path:
        tree = tree[step]
    return tree


def pick(build: GeneratedBuild, rng: random.Random, wanted: Callable[[Path, Any], bool]) -> Path | None:
    """Return one of the paths that are wanted, or None."""
    found = [path for path, node in walk(build.tree) if path and wanted(path, node)]
    return rng.choice(found) if found else None


def with_value(build: GeneratedBuild, path: Path, value: Any) -> Broken:
    """Return the build with another value at a path."""
    tree = plain(build)
    at(tree, path[:-1])[path[-1]] = value
    return Broken(tree, path)


def renamed(build: GeneratedBuild, path: Path, name: str) -> Broken:
    """Return the build with another key at a path, in the same place."""
    tree = plain(build)
    parent = at(tree, path[:-1])
    entries = [(name if key == path[-1] else key, value) for key, value in parent.items()]
    parent.clear()
    parent.update(entries)
    return Broken(tree, (*path[:-1], name))


def is_word(path: Path) -> bool:
    """Tell whether a path ends at a word of ours, not at a name or at an item of a path."""
    if len(path) == 1 or path[0] in ("waiting", "assume"):
        return False
    if path[0] in NAMED:
        return len(path) > 2 and isinstance(path[-1], str) and not is_item(path) and path[-2] != "draws"
    return isinstance(path[-1], str) and not is_item(path)


def is_item(path: Path) -> bool:
    """Tell whether a path leads to an item of a path, by its name."""
    return len(path) > 2 and isinstance(path[-2], int) and path[-3] == "path" and isinstance(path[-1], str)


def is_length(path: Path, node: Any) -> bool:
    """Tell whether a length stands at a path."""
    named = ("length", "width", "to main fuse", "to front box", "wire", "leads", "lit length")
    return isinstance(node, str) and (is_item(path) or (is_word(path) and path[-1] in named))


@breaks
def misspelt_word(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    path = pick(build, rng, lambda path, _: is_word(path))
    return renamed(build, path, f"{str(path[-1])[:2]}x{str(path[-1])[2:]}") if path else None


@breaks
def unheard_of_word(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    path = pick(
        build,
        rng,
        lambda path, node: (
            isinstance(node, dict) and len(path) == 2 and path[0] in ("parts", "circuits", "road lamps")
        ),
    )
    return with_value(build, (*path, "zeppelin"), "3") if path else None


@breaks
def misspelt_heading(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    heading = rng.choice(list(build.tree))
    return renamed(build, (heading,), heading[:2] + "x" + heading[2:])


@breaks
def unknown_part(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    path = pick(build, rng, lambda path, _: is_item(path) and path[0] == "circuits")
    return renamed(build, path, "zeppelin engine") if path else None


@breaks
def unknown_road_part(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    path = pick(build, rng, lambda path, _: is_item(path) and path[0] == "road lamps" and path[-2] == 0)
    return renamed(build, path, "zeppelin engine") if path else None


@breaks
def part_not_declared(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    """Take out a part that one path names once: the path's line is told."""
    uses = [path for path, _ in walk(build.tree) if is_item(path) and path[0] == "circuits"]
    once = [p for p in uses if p[-1] in build.parts and [q[-1] for q in uses].count(p[-1]) == 1]
    once = [
        p
        for p in once
        if not _named_elsewhere(build, str(p[-1]))
        and not str(p[-1]).casefold().endswith(("fuse", "breaker", "isolating switch"))
    ]
    if not once:
        return None
    path = rng.choice(once)
    tree = plain(build)
    del tree["parts"][path[-1]]
    if not tree["parts"]:
        del tree["parts"]
    return Broken(tree, path)


def _named_elsewhere(build: GeneratedBuild, name: str) -> bool:
    others = [
        p
        for p, node in walk(build.tree)
        if p
        and p[0] != "parts"
        and (node == name or (p[-1] == name and not is_item(p)) or p[-1] == f"draws of {name}")
    ]
    return bool(others) or any(
        is_item(p) and p[0] == "road lamps" and p[-1] == name for p, _ in walk(build.tree)
    )


@breaks
def missing_unit(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    path = pick(build, rng, is_length)
    return with_value(build, path, rng.choice(["14", "3.5", "1 1/2"])) if path else None


@breaks
def comma_in_number(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    path = pick(build, rng, is_length)
    return with_value(build, path, rng.choice(["3,2 m", "1,200 mm", "14,5 ft"])) if path else None


@breaks
def comma_in_number_unquoted(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    """Read as 3.2 m, so not where road lamps that share a wire must give it one length: that is a second fault."""
    path = pick(build, rng, lambda path, node: is_length(path, node) and path[0] != "road lamps")
    return with_value(build, path, Raw("3,2 m")) if path else None


@breaks
def unit_of_another_kind(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    path = pick(build, rng, is_length)
    return with_value(build, path, rng.choice(["14 W", "3 A", "2.5 mm²", "16 AWG"])) if path else None


@breaks
def nothing_long(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    path = pick(build, rng, is_length)
    return with_value(build, path, rng.choice(["0 ft", "-3 m", "0 mm"])) if path else None


@breaks
def wrong_draw(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    path = pick(
        build,
        rng,
        lambda path, node: (
            path[0] == "parts" and path[-1] in ("draws", "draws when idle") and isinstance(node, str)
        ),
    )
    return (
        with_value(build, path, rng.choice(["3", "3 V", "much", "3 watt hours", "2,5 W"])) if path else None
    )


@breaks
def wrong_capacity(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    return (
        with_value(build, ("battery", "capacity"), rng.choice(["35", "35 A", "420 Wh", "big"]))
        if "battery" in build.tree
        else None
    )


@breaks
def wrong_size(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    path = pick(
        build,
        rng,
        lambda path, node: is_word(path) and path[-1] in ("size", "frame bond") and isinstance(node, str),
    )
    return with_value(build, path, rng.choice(["15 AWG", "16", "thick", "3 ft"])) if path else None


@breaks
def unknown_kind(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    path = pick(build, rng, lambda path, _: len(path) == 3 and path[0] == "parts" and path[-1] == "kind")
    return with_value(build, path, rng.choice(["lmap", "zeppelin", "12"])) if path else None


@breaks
def wrong_choice(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    words = (
        "chemistry",
        "country",
        "units",
        "paper",
        "pattern",
        "fuses",
        "check against",
        "sold as",
        "side",
        "as",
        "own switch",
        "own wires",
        "lamps",
    )
    path = pick(
        build,
        rng,
        lambda path, node: (
            (is_word(path) or path == ("road lamps", "lamps")) and path[-1] in words and isinstance(node, str)
        ),
    )
    return with_value(build, path, rng.choice(["zeppelin", "7", "lettre"])) if path else None


@breaks
def wrong_count(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    words = ("fuse ways", "ground bar", "strip", "ways", "way")
    path = pick(build, rng, lambda path, node: is_word(path) and path[-1] in words and isinstance(node, str))
    return with_value(build, path, rng.choice(["8.5", "many", "0", "-1", "8 ft"])) if path else None


@breaks
def unknown_colour(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    words = ("color", "return color", "feed")
    path = pick(build, rng, lambda path, node: is_word(path) and path[-1] in words and isinstance(node, str))
    return with_value(build, path, rng.choice(["rad", "red with blakc", "#ff0000"])) if path else None


@breaks
def unknown_function(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    path = pick(build, rng, lambda path, _: path[0] == "road lamps" and path[-1] == "shows")
    return with_value(build, path, "zeppelin") if path and "draws" not in at(build.tree, path[:-1]) else None


@breaks
def removed_length(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    path = pick(
        build,
        rng,
        lambda path, node: is_item(path) and isinstance(node, str) and path[0] in ("circuits", "road lamps"),
    )
    return Broken(with_value(build, path[:-1], path[-1]).tree, path[:-1]) if path else None


@breaks
def removed_word(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    """Take out a word that must be there: the line of its owner is told."""
    must = {
        "parts": ("kind",),
        "circuits": ("path",),
        "road lamps": ("shows",),
        "spares": ("wire", "to", "from"),
    }
    path = pick(build, rng, lambda path, _: len(path) == 3 and path[-1] in must.get(str(path[0]), ()))
    if path is None:
        return None
    tree = plain(build)
    del at(tree, path[:-1])[path[-1]]
    return Broken(tree, path[:-1]) if at(tree, path[:-1]) else None  # an empty group has no line of its own


@breaks
def nothing_after_the_colon(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    path = pick(build, rng, lambda path, node: (is_word(path) or is_item(path)) and isinstance(node, str))
    return with_value(build, path, None) if path else None


@breaks
def name_written_twice(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    path = pick(
        build,
        rng,
        lambda path, _: len(path) == 2 and path[0] in NAMED and str(path[1]).swapcase() != path[1],
    )
    if path is None or str(path[1]).swapcase().casefold() != str(path[1]).casefold():
        return None
    tree = plain(build)
    tree[str(path[0])][str(path[1]).swapcase()] = at(tree, path)
    return Broken(tree, (path[0], str(path[1]).swapcase()))


@breaks
def unknown_start(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    path = pick(build, rng, lambda path, _: len(path) == 3 and path[0] == "circuits" and path[-1] == "from")
    return (
        with_value(build, path, rng.choice(["zeppelin", "tow plug zeppelin", "battery 2"])) if path else None
    )


@breaks
def unknown_branch_point(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    path = pick(
        build,
        rng,
        lambda path, _: "branches" in path[2:3] and path[-1] == "from" and isinstance(path[-2], int),
    )
    relay = path and "relay" in str(at(build.tree, path))
    return with_value(build, path, "zeppelin") if path and not relay else None


@breaks
def unknown_output(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    path = pick(build, rng, lambda path, _: path[-1] == "output" and isinstance(path[-2], int))
    return with_value(build, path, rng.choice(["9", "zeppelin"])) if path else None


@breaks
def unknown_return(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    path = pick(build, rng, lambda path, _: len(path) == 3 and path[0] == "circuits" and path[-1] == "return")
    if path is None:
        return None
    if rng.random() < 0.5:
        return with_value(build, path, "zeppelin")
    return Broken(with_value(build, path, {"to": "zeppelin", "length": "3 ft"}).tree, (*path, "to"))


@breaks
def way_taken_twice(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    ways = [
        path for path, _ in walk(build.tree) if len(path) == 3 and path[0] == "circuits" and path[-1] == "way"
    ]
    return with_value(build, ways[-1], at(build.tree, ways[0])) if len(ways) > 1 else None


@breaks
def load_wired_twice(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    """Put an item of the first circuit once more at the end of the last one."""
    circuits = list(build.tree.get("circuits", {}))
    if len(circuits) < 2:
        return None
    numbered = sorted(build.circuits, key=lambda circuit: circuit.start != "")
    first, last = numbered[0], numbered[-1]
    twice = first.path[-1]
    if first is last or str(build.parts[twice.part]["kind"]).casefold() == "relay":
        return None
    tree = plain(build)
    path = tree["circuits"][last.name]["path"]
    path.append({twice.part: "3 ft"})
    ends = str(next(iter(path[-2]))) if len(path) > 1 else ""
    return (
        None
        if ends in ("battery", "front box")
        else Broken(tree, ("circuits", last.name, "path", len(path) - 1))
    )


@breaks
def second_two_way_switch_missing(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    for circuit in build.circuits:
        kinds = [str(build.parts.get(leg.part, {}).get("kind", "")).casefold() for leg in circuit.path]
        if kinds.count("two-way switch") == 2 and not circuit.branches:
            tree = plain(build)
            second = len(kinds) - 1 - kinds[::-1].index("two-way switch")
            del tree["circuits"][circuit.name]["path"][second]
            left = kinds.index("two-way switch")  # the one that is left alone is the one that is told
            return Broken(tree, ("circuits", circuit.name, "path", left))
    return None


@breaks
def contact_that_the_plug_has_not(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    if build.tree.get("tow plug", {}).get("pattern") != "4-way flat":
        return None
    path = pick(build, rng, lambda path, _: path[0] == "road lamps" and path[-1] == "shows")
    if path is None or "draws" in at(build.tree, path[:-1]):
        return None
    return Broken(with_value(build, path, ["reverse", "tail"]).tree, (*path, 0))


@breaks
def unknown_assumption(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    return with_value(build, ("assume", "phase of the moon"), "3 %") if "assume" in build.tree else None


@breaks
def assumption_in_another_unit(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    path = pick(build, rng, lambda path, _: len(path) == 2 and path[0] == "assume")
    return with_value(build, path, "3 lb") if path else None


@breaks
def reserved_name(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    return (
        with_value(build, ("parts", rng.choice(["fuse", "battery", "Front Box", "frame"])), {"kind": "lamp"})
        if "parts" in build.tree
        else None
    )


@breaks
def waiting_for_what_is_not_there(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    return with_value(build, ("waiting", "zeppelin"), "ordered") if "waiting" in build.tree else None


@breaks
def part_and_road_lamp_of_one_name(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    if "parts" not in build.tree or "road lamps" not in build.tree:
        return None
    single = [road.name for road in build.road_lamps if road.side != "both"]
    if not single:
        return None
    name = rng.choice(single)
    return Broken(with_value(build, ("parts", name), {"kind": "lamp"}).tree, ("road lamps", name))


@breaks
def drawing_word_on_a_joint(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    joints = [
        name
        for name, words in build.parts.items()
        if str(words["kind"]).casefold() in ("splice", "bar", "connector")
    ]
    return with_value(build, ("parts", rng.choice(joints), "draws"), "3 W") if joints else None


@breaks
def said_twice(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    path = pick(build, rng, lambda path, _: len(path) == 3 and path[0] == "road lamps" and path[-1] == "path")
    return with_value(build, (*path[:-1], "wire"), "3 ft") if path else None


@breaks
def shared_wire_of_two_lengths(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    own = {
        name
        for name, words in build.tree.get("road lamps", {}).items()
        if isinstance(words, dict) and "own wires" in words
    }
    passing = [road for road in build.road_lamps if len(road.path) == 2 and road.name not in own]
    for later in passing:
        way = later.path[0]
        if any(road.path[0] is way for road in passing[: passing.index(later)]):
            return with_value(build, ("road lamps", later.name, "path", 0, way.part), "97 ft")
    return None


@breaks
def bracket_left_open(build: GeneratedBuild, rng: random.Random) -> Broken | None:
    path = pick(
        build,
        rng,
        lambda path, node: len(path) == 2 and path[0] in ("parts", "circuits") and isinstance(node, dict),
    )
    if path is None:
        return None
    whole = Page(build.seed).flow(at(build.tree, path), path)
    return with_value(build, path, Raw(whole[:-1]))


@cache
def sample() -> tuple[GeneratedBuild, ...]:
    """Return generated builds, each of which reads without a problem; the short ones first."""
    found: dict[str, GeneratedBuild] = {}

    @settings(max_examples=SAMPLE, deadline=None, derandomize=True, database=None, phases=[Phase.generate])
    @given(builds())
    def collect(build: GeneratedBuild) -> None:
        assert not read_build(build.data).problems
        found[build.text] = build

    collect()
    return tuple(sorted(found.values(), key=lambda build: len(build.text)))


@cache
def mended_reads(build_text: str) -> bool:
    """Tell whether a build that is whole again reads without a problem."""
    return not read_build(build_text.encode()).problems


def broken_builds(name: str) -> list[tuple[GeneratedBuild, Broken]]:
    """Return some of the builds that this breaker finds something in, broken by it."""
    rng = random.Random(name)  # noqa: S311  the same choices on every run
    found = [(build, broken) for build in sample() if (broken := BREAKERS[name](build, rng)) is not None]
    return found[:: max(1, len(found) // BROKEN)]


@pytest.mark.parametrize("name", BREAKERS)
def test_the_broken_line_is_named_and_no_other(name: str) -> None:
    cases = broken_builds(name)
    assert len(cases) >= FEWEST
    for build, broken in cases:
        page = lay_out(broken.tree, build.seed)
        problems = read_build(("\n".join(page.lines) + "\n").encode()).problems
        line = page.places[broken.place]
        told = render_brief(problems, "build")
        assert {problem.origin.line for problem in problems} == {line}, f"{page.lines[line - 1]}\n{told}"
        assert all(problem.message and problem.help for problem in problems)
        assert mended_reads(build.text)
