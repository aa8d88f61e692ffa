"""In closed walls each issued wire keeps its size, and what was taken out of use is told of until it is known."""

from __future__ import annotations

import os
from typing import Any

import pytest
from bs4 import BeautifulSoup
from edited_builds import EDITS, Tree, edited
from generated_builds import GeneratedBuild, builds
from generated_layout import lay_out
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from builder.buildfile.issuing import issue, out_of_walls, taken_back
from builder.buildfile.ledger_reading import read_ledger
from builder.buildfile.ledger_text import ledger_text
from builder.buildfile.numbered import NumbersFile, numbered_build
from builder.buildfile.numbering import number_trailer
from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.electrics.figures import Figures
from builder.pages.page_panel import panel_page, panel_pages
from builder.pages.page_ways import ways_page
from builder.pages.page_wires import wires_page
from builder.pages.rounding import Reader
from builder.pages.templates import render
from builder.pages.view import Edition, View
from builder.routes.panels import Open
from builder.rules.finding import Finding
from builder.rules.registry import find
from builder.trailer.ledger import Ledger
from builder.trailer.left import left_wires
from builder.trailer.model import Trailer

EXAMPLES = 60 if os.environ.get("WIRING_CI") == "1" else 12
PHASES = (Phase.explicit, Phase.reuse, Phase.generate)

BUILD = """format: 1
build: {name: Bean Row, country: US, stage: walls closed}
battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}
front box: {fuse ways: 6}
wire: {on the shelf: [16 AWG, 14 AWG, 12 AWG, 10 AWG, 8 AWG]}
parts:
  fan: {kind: fan, draws: 3 A}
  pump: {kind: pump, draws: 4 A}
  lamp: {kind: lamp, draws: 2 W}
circuits:
  fan: {path: [fan: 12 ft]}
  water: {path: [pump: 14 ft]}
  reading: {path: [lamp: 8 ft]}
"""
OPEN = BUILD.replace("walls closed", "walls open")
WITHOUT_PUMP = BUILD.replace("  water: {path: [pump: 14 ft]}\n", "").replace(
    "  pump: {kind: pump, draws: 4 A}\n", ""
)


def issued(text: str, before: Ledger | None = None) -> Ledger:
    """Return the ledger as the command leaves it, through its file."""
    trailer = read_build(text.encode()).trailer
    assert trailer is not None
    if before is not None:
        trailer = number_trailer(trailer, before).trailer
    sizes = {number: wire.size for number, wire in compute(trailer).wires.items()}
    ledger = read_ledger(ledger_text(issue(trailer, sizes).ledger).encode()).ledger
    assert ledger is not None
    return ledger


def judged(text: str, ledger: Ledger) -> tuple[Trailer, Figures, tuple[Finding, ...]]:
    numbers = NumbersFile("trailer.numbers.csv", ledger_text(ledger).encode())
    read = numbered_build(read_build(text.encode()), numbers)
    assert read.trailer is not None, read.problems
    figures = compute(read.trailer)
    return read.trailer, figures, find(read.trailer, figures)


def sizes(text: str, ledger: Ledger) -> dict[str, str]:
    return {number: str(wire.size) for number, wire in judged(text, ledger)[1].wires.items()}


def told(text: str, ledger: Ledger, words: str) -> list[Finding]:
    return [one for one in judged(text, ledger)[2] if words in one.message]


LEDGER = issued(BUILD)
WITHIN = sizes(BUILD, LEDGER)


def test_the_ledger_keeps_the_size_of_each_wire() -> None:
    assert {one.number: str(one.size) for one in LEDGER.wires} == WITHIN
    assert len(set(WITHIN.values())) > 1


def test_a_circuit_that_goes_leaves_the_sizes_of_all_others_in_closed_walls_alone() -> None:
    now = sizes(WITHOUT_PUMP, LEDGER)
    assert now == {number: size for number, size in WITHIN.items() if number in now}
    bare = read_build(WITHOUT_PUMP.encode()).trailer
    assert bare is not None
    fresh = {wire.start.part: str(compute(bare).wires[wire.number].size) for wire in bare.wires}
    kept = {wire.start.part: now[wire.number] for wire in judged(WITHOUT_PUMP, LEDGER)[0].wires}
    assert fresh != kept, "the edit changes no choice, so that this shows nothing"


def test_while_walls_are_open_sizes_follow_the_file() -> None:
    text = OPEN.replace("fan: 12 ft", "fan: 60 ft")
    assert sizes(text, LEDGER)["1A"] != WITHIN["1A"]
    again = issued(text, LEDGER)
    assert {one.number: str(one.size) for one in again.wires} == sizes(text, LEDGER)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("fan: {path: [fan: 12 ft]}", "fan: {path: [fan: {length: 12 ft, size: 8 AWG}]}"),
        ("parts:\n", "changes: {1A: {size: 8 AWG}, 1B: {size: 8 AWG}}\nparts:\n"),
    ],
)
def test_what_the_file_says_of_a_wire_goes_before_what_was_kept(old: str, new: str) -> None:
    now = sizes(BUILD.replace(old, new), LEDGER)
    assert WITHIN["1A"] != "8 AWG"
    assert (now["1A"], now["1B"]) == ("8 AWG", "8 AWG")
    assert now | {"1A": WITHIN["1A"], "1B": WITHIN["1B"]} == WITHIN


def test_beside_a_change_the_plan_keeps_its_sizes_too() -> None:
    text = WITHOUT_PUMP + "changes: {1A: {length: 80 ft}}\n"
    (change,) = judged(text, LEDGER)[1].wire_changes
    assert (change.size, change.planned_size) == (WITHIN["1A"], WITHIN["1A"])


def test_where_today_s_choice_is_thicker_it_should_be_looked_at() -> None:
    text = BUILD.replace("fan: 12 ft", "fan: 40 ft")
    thin = [one for one in judged(text, LEDGER)[1].kept_sizes if one.number == "1A"]
    assert [(str(one.size), one.today.area_mm2 > one.size.area_mm2) for one in thin] == [(WITHIN["1A"], True)]
    (one,) = [one for one in told(text, LEDGER, "would be chosen today") if "1A, 1B" in one.message]
    assert one.level.value == "should fix"
    assert f"{thin[0].size}, where {thin[0].today}" in one.message


def test_where_today_s_choice_is_thinner_it_is_worth_knowing() -> None:
    found = told(WITHOUT_PUMP, LEDGER, "thicker than the")
    assert {one.level.value for one in found} == {"worth knowing"}
    assert all("as issued" in one.message for one in found)


def test_nothing_is_said_where_today_s_choice_is_the_same() -> None:
    assert judged(BUILD, LEDGER)[1].kept_sizes == ()
    assert told(BUILD, LEDGER, "as issued") == []


def test_it_is_told_why_a_kept_size_is_what_it_is() -> None:
    assert {one.size.reason for one in judged(BUILD, LEDGER)[1].circuits.values()} == {"kept"}
    assert "kept" not in {one.size.reason for one in judged(OPEN, LEDGER)[1].circuits.values()}


def test_the_cable_of_the_plug_is_not_told_as_the_size_of_the_road_lamps() -> None:
    """Its wires have sizes of their own, which the file or the plug gives: they are thinner, and not what was kept."""
    text = BUILD.replace("parts:\n", "tow plug: {pattern: 4-way flat, to front box: 7 ft}\nparts:\n") + (
        "road lamps:\n  rear lamp: {shows: [tail, stop, turn], side: both, wire: 14 ft}\n"
    )
    figures = judged(text, issued(text))[1]
    fresh = read_build(text.encode()).trailer
    assert fresh is not None
    told_now = {n: (str(c.size.chosen), c.size.reason) for n, c in figures.circuits.items()}
    chosen = {n: str(c.size.chosen) for n, c in compute(fresh).circuits.items()}
    assert told_now == {number: (size, "kept") for number, size in chosen.items()}


# ------------------------------------------------------------------ a ledger of the first form


def of_form_1(ledger: Ledger) -> bytes:
    """Return a ledger's file as it was before sizes were kept."""
    lines = []
    for line in ledger_text(ledger).splitlines():
        cells = line.split(",")
        if line.startswith("wire,") or (len(cells) > 7 and cells[1] in ("issued", "retired")):
            del cells[2]
        lines.append(",".join(cells))
    return ("\n".join(lines) + "\n").replace("form,2", "form,1").encode()


def test_a_file_of_the_first_form_still_reads_and_gets_its_sizes() -> None:
    old = read_ledger(of_form_1(LEDGER))
    assert old.problems == ()
    assert old.ledger is not None
    assert {one.size for one in old.ledger.wires} == {None}
    assert [one.number for one in old.ledger.wires] == [one.number for one in LEDGER.wires]
    (one,) = told(BUILD, old.ledger, "nothing says which size")
    assert one.level.value == "should fix"
    assert "run wiring-manual number" in one.help
    assert issued(BUILD, old.ledger).wires == LEDGER.wires


def test_with_walls_open_a_file_of_the_first_form_is_no_matter() -> None:
    old = read_ledger(of_form_1(LEDGER)).ledger
    assert old is not None
    assert told(OPEN, old, "nothing says which size") == []


# ------------------------------------------------------------------ for any edits


def text_of(tree: Tree, seed: int) -> str:
    return "\n".join(lay_out(tree, seed).lines) + "\n"


def closed(tree: Tree) -> Tree:
    return {**tree, "build": {**tree["build"], "stage": "walls closed"}}


@given(
    builds(),
    st.lists(st.tuples(st.sampled_from(EDITS), st.integers(0, 10**6)), min_size=1, max_size=5),
)
@settings(max_examples=EXAMPLES, phases=PHASES, deadline=None)
def test_with_walls_closed_no_edit_changes_the_size_of_an_issued_wire(
    build: GeneratedBuild, edits: list[tuple[Any, int]]
) -> None:
    tree: Tree = closed(dict(build.tree))
    ledger = issued(text_of(tree, build.seed))
    laid = {one.number: one.size for one in ledger.wires}
    for turn, (edit, seed) in enumerate(edits):
        after = edited(tree, edit, seed, turn)
        trailer = read_build(text_of(after, build.seed).encode()).trailer
        if trailer is None:
            continue
        tree = after
        now = number_trailer(trailer, ledger).trailer
        figures = compute(now)
        for wire in now.wires:
            if not wire.draft:
                assert figures.wires[wire.number].size == (wire.size or laid[wire.number])
        ledger = issued(text_of(tree, build.seed), ledger)
        kept = {one.number: one.size for one in ledger.wires}
        assert all(kept[w.number] == (w.size or laid[w.number]) for w in now.wires if w.number in laid)
        laid = kept


# ------------------------------------------------------------------ what serves nothing any more


LEFT = {"2A", "2B"}
ENDS = "{from: front box, to: pump, wire: 14 ft}"


def view_of(text: str, ledger: Ledger) -> View:
    trailer, figures, findings = judged(text, ledger)
    return View(trailer, figures, findings, Edition(Reader.OWNER, "2222-2222"))


def test_a_wire_that_goes_while_walls_are_closed_is_left_in_the_wall() -> None:
    ledger = issued(WITHOUT_PUMP, LEDGER)
    assert {one.number for one in ledger.wires if one.left} == LEFT
    assert {one.number for one in issued(WITHOUT_PUMP, ledger).wires if one.left} == LEFT
    for before in (LEDGER, ledger):
        assert {one.number for one in left_wires(judged(WITHOUT_PUMP, before)[0])} == LEFT
    now_open = WITHOUT_PUMP.replace("walls closed", "walls open")
    assert not any(one.left for one in issued(now_open, LEDGER).wires)
    assert left_wires(judged(now_open, LEDGER)[0]) == ()
    assert left_wires(judged(WITHOUT_PUMP, issued(now_open, LEDGER))[0]) == ()


def test_check_names_it_with_ways_out_that_end_it() -> None:
    ledger = issued(WITHOUT_PUMP, LEDGER)
    (one,) = told(WITHOUT_PUMP, ledger, "perhaps still in a closed wall")
    assert one.level.value == "worth knowing"
    assert "between front box and pump: 2A, 2B" in one.message
    assert "spares: {old 2A: {from: front box, to: pump, wire: 10 ft}}" in one.help
    assert told(WITHOUT_PUMP + f"spares: {{old 2A: {ENDS}, old 2B: {ENDS}}}\n", ledger, "perhaps still") == []
    (half,) = told(WITHOUT_PUMP + f"spares: {{old 2A: {ENDS}}}\n", ledger, "perhaps still")
    assert half.message.endswith(": 2B")
    pulled, unknown = out_of_walls(ledger, ["2a", "2B", "1A"])
    assert unknown == ("1A",)
    assert told(WITHOUT_PUMP, pulled, "perhaps still") == []


def test_a_wire_that_comes_back_is_left_nowhere() -> None:
    back, _ = taken_back(issued(WITHOUT_PUMP, LEDGER), ["2"])
    assert not any(one.left or one.retired for one in back.wires)
    assert sizes(BUILD, back) == WITHIN


def test_the_page_of_wires_tells_of_it() -> None:
    html = render("pages/wires.md.jinja", "en", wires_page(view_of(WITHOUT_PUMP, LEDGER)))
    (sheet,) = (
        one
        for one in BeautifulSoup(html, "html.parser").find_all("table")
        if "Wires left in the wall" in one.get_text()
    )
    rows = [
        [cell.get_text(" ", strip=True) for cell in row.find_all(["th", "td"])]
        for row in sheet.select("tbody tr")
    ]
    assert rows == [["2A", "front box", "pump"], ["2B", "pump", "front box"]]
    assert "left in the wall" not in render("pages/wires.md.jinja", "en", wires_page(view_of(BUILD, LEDGER)))


LINED = """format: 1
build: {name: Example, country: US, stage: walls closed}
battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
front box: {fuse ways: 4}
places:
  battery: {back: 0 in, up: 2 ft}
  main fuse: {back: 3 in, up: 2 ft}
  front box: {back: 10 in, up: 2 ft}
  corner: {back: 10 in, left: 2 ft 5 in, up: 2 ft}
  lamp: {back: 6 ft, left: 2 ft 5 in, up: 2 ft}
  fan: {back: 7 ft, left: 2 ft 5 in, up: 2 ft}
  low front: {back: 2 ft, left: 2 ft 3 in, up: 1 ft}
  low rear: {back: 5 ft, left: 2 ft 3 in, up: 1 ft}
  high rear: {back: 5 ft, left: 2 ft 3 in, up: 3 ft}
  high front: {back: 2 ft, left: 2 ft 3 in, up: 3 ft}
chases:
  battery line: {through: [battery, main fuse, front box]}
  cross: {through: [front box, corner]}
  groove: {through: [corner, lamp, fan]}
panels:
  lining: {corners: [low front, low rear, high rear, high front], behind: [groove], also behind: nothing}
parts: {lamp: {kind: lamp, draws: 3 W}, fan: {kind: fan, draws: 1 A}}
circuits:
  lamp: {path: [lamp: 9 ft]}
  fan: {path: [fan: 10 ft]}
"""
UNFANNED = LINED.replace("  fan: {path: [fan: 10 ft]}\n", "").replace(", fan: {kind: fan, draws: 1 A}", "")


def test_where_the_wires_run_tells_of_dead_wires_that_may_lie_in_a_wall() -> None:
    def words(text: str) -> str:
        html = render("pages/ways.md.jinja", "en", ways_page(view_of(text, issued(LINED))))
        return " ".join(BeautifulSoup(html, "html.parser").get_text(" ").split())

    assert "their ways are not on this page: 2A, 2B." in words(UNFANNED)
    assert "serve nothing any more" not in words(LINED)


def test_no_panel_has_a_screw_length_while_a_dead_wire_may_lie_behind_it() -> None:
    ledger = issued(LINED)
    (whole,) = judged(LINED, ledger)[1].panels
    assert whole.screw_m is not None
    view = view_of(UNFANNED, ledger)
    ((path, dead),) = panel_pages(view).items()
    assert dict(dead.missing) == {Open.LEFT: ("2A", "2B")}
    page = BeautifulSoup(render("pages/panel.md.jinja", "en", panel_page(view, path, dead)), "html.parser")
    words = " ".join(page.get_text(" ").split())
    assert "Do not drill or screw into this panel." in words
    assert "they may still lie in the wall: 2A, 2B." in words
    assert "Longest screw" not in words
    ends = "{from: front box, to: fan, wire: 10 ft}"
    entered = UNFANNED + f"spares: {{old 2A: {ends}, old 2B: {ends}}}\n"
    (known,) = judged(entered, ledger)[1].panels
    assert known.screw_m == pytest.approx(whole.screw_m, abs=1e-3)
