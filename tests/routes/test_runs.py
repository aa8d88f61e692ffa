"""Where the wires of a whole build run: by hand, against their bundle counted anew, and without any places."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from plan_build import PLAN_BUILD

from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.electrics.figures import Figures
from builder.routes.network import Stretch
from builder.routes.runs import Runs, bundle, runs_of
from builder.trailer.model import Trailer

FOOT_M = 0.3048
HEAD = """format: 1
build: {name: Example, country: US}
battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 4 ft}
front box: {fuse ways: 6, place: cabinet, rise: 6 in}
wire: {on the shelf: [16 AWG, 14 AWG, 12 AWG, 10 AWG], insulation: 105 C}
"""
PLACES = """places:
  cabinet: {back: 1 ft, up: 2 ft}
  corner: {back: 1 ft, left: 2 ft, up: 2 ft}
  switch: {back: 4 ft, left: 2 ft, up: 2 ft}
  rear: {back: 9 ft, left: 2 ft, up: 2 ft}
  hatch side: {back: 9 ft, left: 2 ft, up: 3 ft}
  hatch lamp: {back: 9 ft, up: 3 ft}
chases:
  cabinet bay: {through: [cabinet, corner], kind: open bay}
  wall: {through: [corner, switch, rear]}
  hinge: {through: [rear, hatch side], kind: hinge loop, slack: 8 in}
  hatch: {through: [hatch side, hatch lamp]}
"""
PARTS = "parts: {switch: {kind: switch}, hatch lamp: {kind: lamp, draws: 3 W, rise: 2 in}}\n"
BARE = HEAD + PLACES + PARTS + "circuits: {hatch: {path: [switch, hatch lamp]}}\n"
UNPLACED = HEAD.replace(", place: cabinet, rise: 6 in", "")
WRITTEN = (
    UNPLACED
    + PARTS.replace(", rise: 2 in", "")
    + "circuits: {hatch: {path: [switch: 7 ft, hatch lamp: 9 ft]}}\n"
)


def read(text: str) -> tuple[Trailer, Figures]:
    reading = read_build(text.encode())
    assert reading.problems == ()
    assert reading.trailer is not None
    return reading.trailer, compute(reading.trailer)


def test_a_bare_name_takes_its_length_from_its_way() -> None:
    """To the switch: 2 ft and 3 ft, 6 in up in the box, 12 in of loop. From it: 5 + 1 + 2 ft, slack 8 in, rise 2 in."""
    trailer, figures = read(BARE)
    feeds = {wire.end.part: wire for wire in trailer.wires if wire.circuit == 1 and wire.role.value == "feed"}
    assert feeds["switch"].length_m == pytest.approx(6.5 * FOOT_M)
    assert feeds["hatch lamp"].length_m == pytest.approx((8 + 10 / 12) * FOOT_M)
    assert {wire.length_source for wire in feeds.values()} == {"worked out"}
    run = figures.runs.runs[feeds["hatch lamp"].number]
    parts = run.way_m, run.rise_m, run.slack_m, run.loop_m, run.tail_m
    assert parts == pytest.approx((8 * FOOT_M, FOOT_M / 6, FOOT_M * 2 / 3, 0.0, 0.1524))
    assert run.length_m == pytest.approx(feeds["hatch lamp"].length_m)
    assert run.cut_m == pytest.approx(run.length_m + 2 * 0.1524)
    assert [step.stretch.chase for step in run.steps] == ["wall", "hinge", "hatch"]


def test_a_return_runs_beside_its_feed_past_the_switch() -> None:
    trailer, figures = read(BARE)
    back = next(wire for wire in trailer.wires if wire.circuit == 1 and wire.role.value == "return")
    run = figures.runs.runs[back.number]
    assert [step.stretch.chase for step in run.steps] == ["cabinet bay", "wall", "wall", "hinge", "hatch"]
    assert back.length_m == pytest.approx((6.5 + 8 + 10 / 12) * FOOT_M)
    assert run.length_m == pytest.approx(back.length_m)
    assert figures.runs.inside[Stretch("wall", 0)] == ("1A", "1C")
    assert figures.runs.inside[Stretch("hinge", 0)] == ("1B", "1C")


def test_through_leads_a_wire_another_way() -> None:
    detour = BARE.replace("chases:\n", "chases:\n  roof: {through: [corner, switch]}\n")
    plain = read(detour)[1].runs.runs["1A"]
    named = read(detour.replace("[switch, hatch", "[switch: {through: wall}, hatch"))[1].runs.runs["1A"]
    assert [step.stretch.chase for step in plain.steps] == ["cabinet bay", "roof"]
    assert [step.stretch.chase for step in named.steps] == ["cabinet bay", "wall"]


def test_without_places_nothing_is_known_of_runs() -> None:
    trailer, figures = read(WRITTEN)
    assert figures.runs == Runs()
    assert figures.fills == ()
    assert {made.bundle for made in figures.wires.values()} == {2}
    assert runs_of(trailer) == Runs()


def test_places_change_nothing_of_what_is_written() -> None:
    """With places beside the same lengths every wire keeps its length, its size and its drop."""
    plain = read(WRITTEN)
    placed = read(WRITTEN.replace(UNPLACED, HEAD + PLACES))
    assert [w.length_m for w in plain[0].wires] == [w.length_m for w in placed[0].wires]
    assert {n: (m.size, m.drop_v, m.ampacity_a) for n, m in plain[1].wires.items()} == {
        n: (m.size, m.drop_v, m.ampacity_a) for n, m in placed[1].wires.items()
    }
    assert set(placed[1].runs.unknown) == {"2A", "2B", "2C"}
    assert placed[1].runs.unknown["2A"].unplaced == ("battery", "main fuse")


def retold(text: str, moved: Callable[[float, float, float], tuple[float, float, float]]) -> str:
    """Return a build whose places are written anew, each moved as it is told, all in inches."""
    head, _, rest = text.partition("places:\n")
    written, _, rest = rest.partition("chases:\n")

    def inches(words: str, key: str) -> float:
        found = re.search(rf"\b{key}: (?:(\d+) ft)? ?(?:(\d+) in)?", words)
        return 12 * int(found[1] or 0) + int(found[2] or 0) if found else 0.0

    lines = []
    for line in written.splitlines():
        name, _, words = line.partition(": {")
        back, right, up = moved(
            inches(words, "back") - inches(words, "ahead"),
            inches(words, "right") - inches(words, "left"),
            inches(words, "up") - inches(words, "down"),
        )
        pairs = ((back, "back", "ahead"), (right, "right", "left"), (up, "up", "down"))
        told = ", ".join(f"{key if far >= 0 else other}: {abs(far):g} in" for far, key, other in pairs)
        lines.append(f"{name}: {{{told}}}")
    return head + "places:\n" + "\n".join(lines) + "\nchases:\n" + rest


def lengths(text: str) -> dict[str, float]:
    trailer, _ = read(text)
    return {wire.number: wire.length_m for wire in (*trailer.wires, *trailer.spares)}


WHOLE = PLAN_BUILD.partition("\nbody:\n")[0] + "\n"


@pytest.mark.parametrize("text", [BARE, WHOLE], ids=["hatch", "plan build"])
def test_mirroring_a_build_or_moving_its_origin_changes_no_length(text: str) -> None:
    here = lengths(text)
    assert lengths(retold(text, lambda back, right, up: (back, right, up))) == pytest.approx(here)
    assert lengths(retold(text, lambda back, right, up: (back, -right, up))) == pytest.approx(here)
    assert lengths(retold(text, lambda back, right, up: (back + 3, right - 2, up + 5))) == pytest.approx(here)


def test_a_chase_that_goes_round_shortens_no_wire() -> None:
    """Each chase but a hinge loop gets a corner far off behind its first place: no wire is shorter than before."""
    here = lengths(WHOLE)
    far = WHOLE.replace("places:\n", "places:\n  far corner: {back: 50 in, up: 90 in}\n", 1)
    longer = 0
    for through in re.findall(
        r"through: \[([\w ]+, [\w ]+)", WHOLE.replace("through: [hatch hinge, hatch plug]", "")
    ):
        first, second = through.split(", ")
        round_about = lengths(
            far.replace(f"through: [{through}", f"through: [{first}, far corner, {second}", 1)
        )
        assert all(round_about[number] >= here[number] - 1e-9 for number in here), through
        longer += round_about != pytest.approx(here)
    assert longer > 5


def many_lamps(count: int) -> str:
    """Return a build with as many lamps behind one another in a wall."""
    names = [f"lamp {n}" for n in range(count)]
    places = "".join(
        f"  {name}: {{back: {3 + n} ft, left: 2 ft, up: 2 ft}}\n" for n, name in enumerate(names)
    )
    return (
        HEAD.replace("fuse ways: 6", "fuse ways: 20")
        + "places:\n  cabinet: {back: 1 ft, up: 2 ft}\n"
        + places
        + f"chases: {{wall: {{through: [cabinet, {', '.join(names)}]}}}}\n"
        + "parts:\n"
        + "".join(f"  {name}: {{kind: lamp, draws: 24 W}}\n" for name in names)
        + "circuits:\n"
        + "".join(f"  {name}: {{path: [{name}]}}\n" for name in names)
    )


@pytest.mark.parametrize("count", [1, 2, 4, 13])
def test_wires_that_lie_together_bear_less(count: int) -> None:
    """Feed and return of each lamp leave the box together: 2, 4, 8 and 26 wires; factors 1, 0.6, 0.5, 0.4 (note 2)."""
    factor = {1: 1.0, 2: 0.6, 4: 0.5, 13: 0.4}[count]
    _, figures = read(many_lamps(count))
    for number in ("1A", "1B"):
        made = figures.wires[number]
        assert (made.bundle, made.bundle_factor) == (2 * count, factor)
        assert made.ampacity_a == pytest.approx(made.table_ampacity_a * made.ambient_factor * factor)
    last = figures.wires[f"{count}A"]
    assert last.bundle == 2 * count
    assert set(figures.runs.inside[Stretch("wall", count - 1)]) == {f"{count}A", f"{count}B"}


def test_a_bundle_makes_a_wire_thicker() -> None:
    """5 A at 60 °C: 16 AWG bears 15 × 0.816 = 12.2 A; among 26 wires 0.4 of that, 4.9 A, and 14 AWG 6.5 A."""
    alone, together = (
        read(
            many_lamps(count)
            .replace("lamp 0: {kind: lamp, draws: 24 W}", "lamp 0: {kind: lamp, draws: 60 W}")
            .replace(", insulation: 105 C", "")
            .replace("back: 3 ft", "back: 1 ft 1 in")
            + "assume: {drop aimed at: 10 %, one kind of wire less: 0 %}\n"
        )[1]
        for count in (1, 13)
    )
    assert str(alone.wires["1A"].size) == "16 AWG"
    assert (str(together.wires["1A"].size), together.circuits[1].size.reason) == ("14 AWG", "ampacity")
    assert together.wires["1A"].current_a <= together.wires["1A"].ampacity_a


def test_only_what_carries_current_counts_in_a_bundle() -> None:
    inside = {Stretch("wall", 0): ("1A", "1B", "S1"), Stretch("wall", 1): ("1A",)}
    assert bundle(Runs(inside=inside), ["1A"]) == {"1A": 1, "1B": 1, "S1": 1}
    assert bundle(Runs(inside=inside), ["1A", "1B"]) == {"1A": 2, "1B": 2, "S1": 2}
    assert bundle(Runs(inside=inside), []) == {"1A": 0, "1B": 0, "S1": 0}


def test_a_spare_wire_runs_where_its_ends_are_places() -> None:
    spare = "spares: {rear spare: {from: front box, to: rear, wire: 12 ft}, other: {from: a, to: b, wire: 3 ft}}\n"
    _, figures = read(BARE + spare)
    assert [step.stretch.chase for step in figures.runs.runs["S1"].steps] == ["cabinet bay", "wall", "wall"]
    assert figures.runs.unknown["S2"].unplaced == ("a", "b")
