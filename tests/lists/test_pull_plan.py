"""The pull plan: each piece once, as few pulls as can be, in the best order, conduits as full as their wires."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby, permutations

import pytest
from generated_builds import GeneratedBuild, builds
from hypothesis import given, settings
from hypothesis import strategies as st
from listed import BUILDS, EXAMPLE, HEAD, Listed, listed
from placed_builds import placed

from builder.lists.pull_plan import Drawn, Pull, PullPlan
from builder.routes.runs import Run
from builder.trailer.places import ChaseKind
from builder.trailer.size import by_area

SIZES = ("16 AWG", "12 AWG", "8 AWG")
SHELF = f"wire: {{on the shelf: [{', '.join(SIZES)}], sold as: single}}\n"
TREE = (
    HEAD
    + SHELF
    + """parts:
  near lamp: {kind: lamp, draws: 1 W}
  far lamp: {kind: lamp, draws: 1 W}
  side lamp: {kind: lamp, draws: 1 W}
circuits:
  near: {path: [near lamp: {size: 8 AWG}]}
  far: {path: [far lamp]}
  side: {path: [side lamp]}
places:
  battery: {back: 0 in, up: 1 ft}
  front box: {back: 1 ft, up: 1 ft}
  near lamp: {back: 4 ft, up: 1 ft}
  far lamp: {back: 9 ft, up: 1 ft}
  side lamp: {back: 4 ft, right: 2 ft, up: 1 ft}
chases:
  main run: {through: [front box, near lamp, far lamp] KIND}
  spur: {through: [near lamp, side lamp]}
  lead: {through: [battery, front box]}
"""
)


def tree(kind: str = "") -> PullPlan:
    return listed(TREE.replace(" KIND", kind)).lists.pulls


def test_a_shorter_piece_goes_along_and_comes_out_on_the_way() -> None:
    far = next(pull for pull in tree().pulls if pull.end == "far lamp")
    assert far.start == "front box"
    assert far.way_m == pytest.approx(8 * 0.3048)
    out = {number: one.until for one in far.drawn for number in one.piece.wires if not one.whole}
    assert out == {"1A": "near lamp", "1B": "near lamp"}
    assert {number for one in far.drawn if one.whole for number in one.piece.wires} == {"2A", "2B"}


def test_what_is_in_already_comes_first_and_nothing_is_tied_to_it() -> None:
    plan = listed(TREE.replace(" KIND", "") + "pulled: {far: 2 May}\n").lists.pulls
    drawn = [{wire for one in pull.drawn for wire in one.piece.wires} for pull in plan.pulls]
    assert drawn[0] == {"2A", "2B"}
    assert any({"1A", "1B"} <= wires and wires.isdisjoint(drawn[0]) for wires in drawn[1:])


def test_the_longest_goes_first_where_nothing_is_drawn_past_others() -> None:
    ends = [pull.end for pull in tree().pulls if pull.start == "front box"]
    assert ends[:2] == ["far lamp", "side lamp"]


def test_in_a_conduit_the_stiffest_goes_first() -> None:
    text = TREE.replace("  near: {path: [near lamp: {size: 8 AWG}]}", "  near: {path: [near lamp]}")
    text = text.replace("side: {path: [side lamp]}", "side: {path: [side lamp: {size: 8 AWG}]}")
    loose = listed(text.replace(" KIND", "")).lists.pulls
    tube = listed(text.replace(" KIND", ", kind: conduit, bore: 1 in")).lists.pulls
    string = listed(text.replace(" KIND", ", pull string: yes")).lists.pulls
    assert [pull.end for pull in loose.pulls if pull.start == "front box"] == ["far lamp", "side lamp"]
    for plan in (tube, string):
        assert [pull.end for pull in plan.pulls if pull.start == "front box"] == ["side lamp", "far lamp"]


def test_of_ways_that_are_equally_long_the_stiffest_goes_first() -> None:
    text = TREE.replace("spur: {through: [near lamp, side lamp]}", "spur: {through: [front box, side lamp]}")
    text = text.replace("side lamp: {back: 4 ft, right: 2 ft", "side lamp: {back: 1 ft, right: 8 ft")
    text = text.replace("side: {path: [side lamp]}", "side: {path: [side lamp: {size: 12 AWG}]}")
    text = text.replace("{path: [near lamp: {size: 8 AWG}]}", "{path: [near lamp]}").replace(" KIND", "")
    pulls = [pull for pull in listed(text).lists.pulls.pulls if pull.start == "front box"]
    assert [(pull.end, str(pull.thickest)) for pull in pulls] == [
        ("side lamp", "12 AWG"),
        ("far lamp", "16 AWG"),
    ]
    assert pulls[0].way_m == pytest.approx(pulls[1].way_m)


def test_a_pull_names_its_chases_and_their_strings() -> None:
    strung = next(p for p in tree(", pull string: yes").pulls if p.end == "side lamp")
    assert (strung.chases, strung.strings, strung.bare) == (("main run", "spur"), ("main run",), ())
    tube = next(p for p in tree(", kind: conduit, bore: 1 in").pulls if p.end == "side lamp")
    assert (tube.strings, tube.bare) == ((), ("main run",))


def test_a_way_there_and_back_tells_where_it_turns() -> None:
    """The return of the lamp goes by its switch beyond, as the feed does: out past the lamp, and back to it."""
    pulls = {one.piece.wires[0]: pull for pull in listed(EXAMPLE).lists.pulls.pulls for one in pull.drawn}
    there = pulls["1H"]
    assert there.turns == ("kitchen step switch",)
    assert there.through[-5:] == (
        "right foot",
        "right bulkhead",
        "kitchen right wall",
        "right bulkhead",
        "right foot",
    )
    assert set(there.through) == set(there.chases)
    assert all(pull.turns == () for pull in tree().pulls)


def test_fill_grows_with_each_pull_and_counts_by_the_diameters_of_the_file() -> None:
    text = TREE.replace(" KIND", ", kind: conduit, bore: 20 mm").replace(
        "sold as: single}", "sold as: single, outside diameters: {16 AWG: 2 mm, 8 AWG: 6 mm}}"
    )
    fills = {p.end: p.fills[0] for p in listed(text).lists.pulls.pulls if p.fills}
    # far lamp: two wires of 2 mm and two of 6 mm in the first stretch; then two more of 2 mm
    assert fills["far lamp"].fill_percent == pytest.approx(100 * (2 * 4 + 2 * 36) / 400)
    assert fills["side lamp"].fill_percent == pytest.approx(100 * (4 * 4 + 2 * 36) / 400)
    assert [fills[end].wires for end in ("far lamp", "side lamp")] == [4, 6]
    assert fills["side lamp"].limit_percent == 40.0


def test_without_chases_there_is_no_plan() -> None:
    bare = TREE[: TREE.index("chases:")].replace("near lamp: {size: 8 AWG}", "near lamp: 3 ft")
    bare = bare.replace("[far lamp]", "[far lamp: 8 ft]").replace("[side lamp]", "[side lamp: 5 ft]")
    assert listed(bare).lists.pulls == PullPlan()
    assert listed(BUILDS["smallest"]).lists.pulls == PullPlan()


def test_a_piece_of_which_one_part_has_no_known_way_is_not_pulled_by_the_other() -> None:
    """The feed is parted at a switch; no chase leads from the front box to it, and one leads on to the lamp."""
    text = (
        HEAD
        + "wire: {on the shelf: [16 AWG], sold as: pair}\n"
        + "parts: {lamp: {kind: lamp, draws: 3 W}, switch: {kind: switch}}\n"
        + "circuits: {light: {path: [switch: 6 ft, lamp: 6 ft]}}\n"
        + "places:\n  front box: {back: 1 ft, left: 1 ft, up: 2 ft}\n"
        + "  switch: {back: 4 ft, left: 1 ft, up: 2 ft}\n  lamp: {back: 6 ft, left: 1 ft, up: 2 ft}\n"
        + "chases:\n  wall: {through: [switch, lamp], kind: conduit, bore: 1 in}\n"
    )
    build = listed(text)
    assert "1B" in build.figures.runs.runs
    assert build.lists.pulls.pulls == ()
    assert ("1A", "1B", "1C") in [piece.wires for piece in build.lists.pulls.unplaced]


def in_this_order(some: Sequence[str], all_of_them: Sequence[str]) -> bool:
    """Tell whether some names stand among others in the same order."""
    rest = iter(all_of_them)
    return all(name in rest for name in some)


def check_plan(build: Listed) -> None:
    """Hold a plan against the cut list, and every pull against the run of each of its wires."""
    plan, runs = build.lists.pulls, build.figures.runs.runs
    drawn = [one.piece for pull in plan.pulls for one in pull.drawn]
    cut = [piece for spool in build.lists.cuts.spools for piece in spool.pieces]
    cut += [piece for piece, _ in build.lists.cuts.already]
    assert Counter((*drawn, *plan.at_hand, *plan.unplaced)) == Counter(cut)
    assert [pull.number for pull in plan.pulls] == list(range(1, len(plan.pulls) + 1))
    for pull in plan.pulls:
        assert any(one.whole for one in pull.drawn)
        for one in pull.drawn:
            check_piece(pull, one, runs)
    for piece in plan.at_hand:
        assert not any(runs[number].steps for number in piece.wires)
    for piece in plan.unplaced:
        assert not all(number in runs for number in piece.wires)
    check_fills(build)


def check_piece(pull: Pull, one: Drawn, runs: Mapping[str, Run]) -> None:
    """Hold the run of each wire of a piece against the pull that draws it in: it lies in its chases, in their order."""
    for number in one.piece.wires:
        chases = [chase for chase, _ in groupby(step.stretch.chase for step in runs[number].steps)]
        assert in_this_order(chases, pull.through)
    assert one.until in {runs[number].steps[-1].end for number in one.piece.wires if runs[number].steps}
    assert one.until == pull.end or not one.whole


def check_fills(build: Listed) -> None:
    """Hold how full a conduit is after its last pull against how full it is, where the plan has all."""
    plan, runs = build.lists.pulls, build.figures.runs.runs
    aside = {step.stretch for p in plan.unplaced for n in p.wires if n in runs for step in runs[n].steps}
    known = {one.stretch: one.fill_percent for one in build.figures.fills}
    last = {fill.chase: (fill, pull) for pull in plan.pulls for fill in pull.fills}
    for chase, (fill, pull) in last.items():
        steps = [s for one in pull.drawn for n in one.piece.wires for s in runs[n].steps]
        passed = {step.stretch for step in steps if step.stretch.chase == chase}
        percents = [known[stretch] for stretch in passed if stretch not in aside]
        full = [percent for percent in percents if percent is not None]
        if len(full) < len(percents):
            assert fill.fill_percent is None
        elif not passed & aside:
            assert fill.fill_percent == pytest.approx(max(full))


def test_the_example_has_each_piece_once_and_its_conduits_as_full_as_they_are() -> None:
    check_plan(listed(EXAMPLE))


@given(builds())
@settings(deadline=None)
def test_a_generated_build_has_each_piece_once(build: GeneratedBuild) -> None:
    check_plan(listed(placed(build)))


NODES = 5


@st.composite
def small_builds(draw: st.DrawFn) -> str:
    """Draw a build with a few lamps along a tree of chases that all begin at the front box."""
    parents = [draw(st.integers(0, n)) for n in range(NODES)]
    kinds = [
        draw(st.sampled_from(["", ", kind: conduit, bore: 2 in", ", pull string: yes"])) for _ in range(NODES)
    ]
    places = ["  node 0: {back: 1 ft, up: 1 ft}", "  front box: {back: 1 ft, up: 1 ft}"]
    places += [
        f"  node {n + 1}: {{back: {n + 2} ft, right: {draw(st.integers(0, 2))} ft, up: 1 ft}}"
        for n in range(NODES)
    ]
    chases = [
        f"  way {n}: {{through: [node {parent}, node {n + 1}]{kind}}}"
        for n, (parent, kind) in enumerate(zip(parents, kinds, strict=True))
    ]
    lamps = draw(st.lists(st.tuples(st.integers(1, NODES), st.sampled_from(SIZES)), min_size=1, max_size=5))
    parts = [
        f"  lamp {n}: {{kind: lamp, draws: 1 W, place: node {node}}}" for n, (node, _) in enumerate(lamps)
    ]
    circuits = [f"  light {n}: {{path: [lamp {n}: {{size: {size}}}]}}" for n, (_, size) in enumerate(lamps)]
    return "\n".join(
        [HEAD + SHELF + "parts:", *parts, "circuits:", *circuits, "places:", *places, "chases:", *chases, ""]
    )


def groups_of(things: Sequence[int]) -> Iterator[list[list[int]]]:
    """Yield every way to part some things into groups."""
    if not things:
        yield []
        return
    first, *rest = things
    for groups in groups_of(rest):
        yield [[first], *groups]
        for place in range(len(groups)):
            yield [*groups[:place], [first, *groups[place]], *groups[place + 1 :]]


@given(small_builds())
@settings(deadline=None, max_examples=60)
def test_no_other_grouping_takes_fewer_pulls(text: str) -> None:
    build = listed(text)
    plan = build.lists.pulls
    pieces = [one.piece for pull in plan.pulls for one in pull.drawn]
    runs = build.figures.runs.runs
    ways = list(dict.fromkeys(tuple(s.end for s in runs[piece.wires[0]].steps) for piece in pieces))

    def is_one_pull(group: list[int]) -> bool:
        longest = max((ways[n] for n in group), key=len)
        return all(longest[: len(ways[n])] == ways[n] for n in group)

    fewest = min(
        len(groups) for groups in groups_of(range(len(ways))) if all(is_one_pull(group) for group in groups)
    )
    assert len(plan.pulls) == fewest


@given(small_builds())
@settings(deadline=None, max_examples=60)
def test_no_other_order_is_better(text: str) -> None:
    build = listed(text)
    pulls, chases = build.lists.pulls.pulls, build.trailer.geometry.chases
    narrow = {
        name
        for name, chase in chases.items()
        if chase.kind is ChaseKind.CONDUIT or chase.fittings.pull_string
    }
    ranks = {pull.number: (round(pull.way_m * 1000), by_area(pull.thickest)) for pull in pulls}

    def is_allowed(order: Sequence[Pull]) -> bool:
        return not any(
            ranks[late.number][1] > ranks[early.number][1] and narrow & set(early.chases) & set(late.chases)
            for place, early in enumerate(order)
            for late in order[place + 1 :]
        )

    best = max([ranks[pull.number] for pull in order] for order in permutations(pulls) if is_allowed(order))
    assert is_allowed(pulls)
    assert [ranks[pull.number] for pull in pulls] == best
