"""The page As built: each change with the plan beside it, in a build with its numbers."""

from __future__ import annotations

from pathlib import Path

from bs4 import BeautifulSoup
from example_numbers import as_planned
from owner_pages import page_of, told_below

from builder.buildfile.numbered import NumbersFile
from builder.pages.page_as_built import changes_of, has_changes
from builder.pages.rounding import Reader
from builder.pages.verdict import judge_build
from builder.pages.view import Edition, View

EXAMPLE = Path(__file__).parents[2] / "example_build"
CHANGES = """
changes:
  7A: {length: 15 ft, size: 10 AWG, color: blue, note: "round the wheel well", date: 3 May}
  cabin light: {fuse: 5 A}
  water pump: {draws: 5 A, note: another pump was fitted}
  rear lamp: {draws: {stop: 0.5 A, turn: 0.4 A}}
  9A: {through: [right wall]}
  battery: {fuse: 30 A}
"""


def view(more: str = CHANGES) -> View:
    data = as_planned((EXAMPLE / "trailer.yaml").read_bytes()) + more.encode()
    numbers = NumbersFile("trailer.numbers.csv", (EXAMPLE / "trailer.numbers.csv").read_bytes())
    judged = judge_build(data, "trailer.yaml", numbers).judged
    assert judged is not None
    return View(judged.trailer, judged.figures, judged.findings, Edition(Reader.OWNER, "2222-2222"))


def test_what_was_planned_stands_beside_what_is_built() -> None:
    told = told_below(page_of(view(), "as-built"), "What was done otherwise")
    assert "Wire 7A (3 May): round the wheel well" in told
    for row in ("Length 12 ft 15 ft", "Fuse 3 A 5 A", "Size 12 AWG 10 AWG", "Colour violet with white blue"):
        assert row in told
    assert "water pump: another pump was fitted" in told
    assert "rear lamp right takes (brake, turn) 0.35 A 0.5 A" in told
    assert "Fuse 40 A 30 A" in told
    assert "Runs through cabinet upright, shelf, ceiling front cabinet, right wall" in told
    assert "The circuit takes 4.2 A 5.2 A" in told


def test_every_figure_is_that_of_the_record() -> None:
    seen = view()
    marked = page_of(seen, "as-built").find_all(class_="fig")
    assert len(marked) > 10
    for one in marked:
        path = str(one["data-figure"])
        unit = {"a": "A", "v": "V"}.get(path.rpartition("_")[2], "")
        assert str(one) == str(BeautifulSoup(seen.fig(path, unit), "html.parser").span)
    assert seen.record["changes"][0]["about"] == "7A"
    assert (
        seen.value("wire_changes/0/length_m")
        == seen.trailer.wires[[w.number for w in seen.trailer.wires].index("7A")].length_m
    )


def test_a_circuit_tells_its_own_changes() -> None:
    seen = view()
    (circuit,) = (c for c in seen.trailer.circuits if c.name == "roof fan")
    assert [one["about"] for one in changes_of(seen, circuit.number)] == ["7A"]
    assert changes_of(seen, 1) == []


def test_there_is_no_such_page_where_all_is_as_planned() -> None:
    assert has_changes(view())
    assert not has_changes(view(""))
    assert "changes" not in view("").record
