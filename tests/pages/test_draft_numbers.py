"""What pages, tables and the record say of wire numbers: of drafts, of issued ones, and where both are there."""

from __future__ import annotations

import csv
import io
import json
import re
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from builder.buildfile.issuing import issue
from builder.buildfile.ledger_text import ledger_text
from builder.buildfile.numbered import NumbersFile
from builder.buildfile.resolving import read_build
from builder.pages.manual import content_number, manual_source
from builder.pages.verdict import counted, judge_build

BUILD = """\
format: 1
build: {name: Quarry Bend, country: US}
battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}
front box: {fuse ways: 6, fuses: blade}
tow plug: {pattern: 4-way flat, to front box: 7 ft}
parts:
  fan: {kind: fan, draws: 3 A, own switch: yes}
  step lamp: {kind: lamp, draws: 3 W, own switch: yes}
circuits:
  roof vent: {path: [fan: 12 ft]}
  step light: {path: [step lamp: 14 ft]}
road lamps:
  plate lamp: {shows: plate, wire: 15 ft}
spares:
  rear spare: {from: front box, to: rear wall, wire: 20 ft}
"""
MORE = BUILD.replace("[step lamp: 14 ft]", "[step lamp: 14 ft, fan fuse: 1 ft, door lamp: 3 ft]").replace(
    "  step lamp:", "  door lamp: {kind: lamp, draws: 1 W}\n  step lamp:"
)
STATES = ("draft", "some", "issued")


def numbers_of(build: str) -> NumbersFile:
    trailer = read_build(build.encode()).trailer
    assert trailer is not None
    return NumbersFile("trailer.numbers.csv", ledger_text(issue(trailer).ledger).encode())


def files_of(state: str, edition: str) -> dict[str, str]:
    """Return the texts of the manual of a build whose numbers are drafts, issued, or issued before it grew."""
    build = MORE if state == "some" else BUILD
    numbers = None if state == "draft" else numbers_of(BUILD)
    verdict = judge_build(build.encode(), "trailer.yaml", numbers)
    assert verdict.judged is not None
    made = manual_source(verdict.judged, content_number(build.encode(), numbers), edition)
    return {path: text for path, text in made.files.items() if isinstance(text, str)}


@pytest.fixture(scope="module")
def manuals() -> dict[tuple[str, str], dict[str, str]]:
    return {(state, who): files_of(state, who) for state in STATES for who in ("workshop", "owner")}


Manuals = dict[tuple[str, str], dict[str, str]]


def notes(text: str) -> list[str]:
    page = BeautifulSoup(text, "html.parser")
    return [" ".join(note.get_text().split()) for note in page.select(".draft-note")]


PAGES = [
    "labels.md",
    "wires.md",
    "fuses.md",
    "tests.md",
    "towing.md",
    "garage.md",
    "circuit-02-step-light.md",
]


@pytest.mark.parametrize("page", PAGES)
def test_a_page_of_the_workshop_that_prints_numbers_says_once_that_they_are_drafts(
    page: str, manuals: Manuals
) -> None:
    (note,) = notes(manuals["draft", "workshop"][page])
    assert note.startswith("Draft numbers. The wire numbers on this page can still change.")
    (note,) = notes(manuals["some", "workshop"][page])
    assert note.startswith("Draft numbers: 2C, 2D, 2E.")
    assert notes(manuals["issued", "workshop"][page]) == []


def test_pages_of_guides_say_it_too(manuals: Manuals) -> None:
    guides = [page for page in manuals["draft", "workshop"] if re.fullmatch(r"stops-\d\d-.*\.md", page)]
    assert guides
    for page in guides:
        assert len(notes(manuals["draft", "workshop"][page])) == 1
        assert notes(manuals["issued", "workshop"][page]) == []


def test_the_owner_is_told_to_go_by_the_labels(manuals: Manuals) -> None:
    (note,) = notes(manuals["draft", "owner"]["wires.md"])
    assert "drafts" in note
    (note,) = notes(manuals["some", "owner"]["wires.md"])
    assert "on no label yet: 2C, 2D, 2E" in note
    (note,) = notes(manuals["issued", "owner"]["wires.md"])
    assert "draft" not in note.lower()


def test_in_a_list_of_both_each_draft_says_so_and_nothing_else_does(manuals: Manuals) -> None:
    for page in ("labels.md", "wires.md", "circuit-02-step-light.md"):
        marked = set()
        for mark in BeautifulSoup(manuals["some", "workshop"][page], "html.parser").select(".draft"):
            assert mark.parent is not None
            marked.add(mark.parent.get_text().split()[0])
        assert marked == {"2C", "2D", "2E"}, page
        for state in ("draft", "issued"):
            assert 'class="draft"' not in manuals[state, "workshop"][page]


@pytest.mark.parametrize(("path", "least"), [("data/wires.csv", 12), ("data/labels.csv", 24)])
def test_tables_tell_of_each_number_what_it_is(path: str, least: int, manuals: Manuals) -> None:
    for state in STATES:
        head, *rows = csv.reader(io.StringIO(manuals[state, "workshop"][path]))
        told = head.index("number is")
        assert len(rows) >= least
        for row in rows:
            draft = state == "draft" or (state == "some" and row[0] in {"2C", "2D", "2E"})
            assert row[told] == ("draft" if draft else "issued")


def test_the_record_tells_of_each_wire_circuit_and_spare(manuals: Manuals) -> None:
    for state in STATES:
        record = json.loads(manuals[state, "workshop"]["data/figures.json"])
        drafts = {wire["number"] for wire in (*record["wires"], *record["spares"]) if wire["draft"]}
        every = {wire["number"] for wire in (*record["wires"], *record["spares"])}
        assert drafts == {"draft": every, "some": {"2C", "2D", "2E"}, "issued": set()}[state]
        assert {circuit["draft"] for circuit in record["circuits"]} == {state == "draft"}


def test_the_workshop_manual_carries_a_copy_of_the_numbers(manuals: Manuals) -> None:
    for state in ("some", "issued"):
        copy = manuals[state, "workshop"]["data/wire_numbers.csv"]
        assert copy.encode() == numbers_of(BUILD).data
    assert "data/wire_numbers.csv" not in manuals["draft", "workshop"]
    assert "data/wire_numbers.csv" not in manuals["issued", "owner"]


def test_issued_numbers_change_nothing_but_what_is_said_of_them(manuals: Manuals) -> None:
    """The numbers are those of the drafts, so that pages differ in their notes and the content number alone."""
    for who in ("workshop", "owner"):
        before, after = manuals["draft", who], manuals["issued", who]
        assert before.keys() == after.keys() - {"data/wire_numbers.csv"}
        for path in before:
            if path.startswith("data/") or path == "pictures/lid-code.svg":  # a code of the content number
                continue
            texts = []
            for text in (before[path], after[path]):
                plain = re.sub(r'<p class="draft-note".*?</p>', "", text)
                plain = re.sub(r"\b[2-9A-HJKMNP-TV-Z]{4}-[2-9A-HJKMNP-TV-Z]{4}\b", "CONTENT", plain)
                texts.append(re.sub(r"\n\s*\n+", "\n\n", plain))
            assert texts[0] == texts[1], path


def test_check_says_whether_any_number_is_issued() -> None:
    drafts = judge_build(BUILD.encode(), "t.yaml")
    assert "their numbers drafts" in counted(drafts)
    assert "draft" not in counted(judge_build(BUILD.encode(), "t.yaml", numbers_of(BUILD)))


def test_one_finding_tells_of_all_that_differs() -> None:
    changed = MORE.replace("[fan: 12 ft]}", "[fan: 12 ft], way: 6}").replace("  rear spare", "  tail spare")
    verdict = judge_build(changed.encode(), "t.yaml", numbers_of(BUILD))
    assert verdict.judged is not None
    (finding,) = [one for one in verdict.judged.findings if one.rule == "numbers not issued"]
    assert finding.level.value == "worth knowing"
    assert "4 of" in finding.message
    assert "2C, 2D, 2E, S2" in finding.message
    assert "issued, and on no wire of this file: S1" in finding.message
    assert "“roof vent” was issued on fuse way 1 and is on way 6 here" in finding.message


def test_a_content_number_stands_for_the_numbers_too(tmp_path: Path) -> None:
    data, numbers = BUILD.encode(), numbers_of(BUILD)
    assert content_number(data) == content_number(data, None) != content_number(data, numbers)
