"""The long page of every problem: it is there, its example is told so and no otherwise, and its edits mend it."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

import builder.buildfile
from builder.buildfile.edits import apply_edits
from builder.buildfile.mending import NO_EDIT, TRIED_BYTES, edits_of
from builder.buildfile.numbered import NumbersFile, numbered_build
from builder.buildfile.resolving import read_build
from builder.pages.explaining import explained, nearest_name
from builder.pages.problem_pages import page_text, problem_pages
from builder.rules.registry import RULES

PAGES = problem_pages()
WITHOUT_EXAMPLE = {"not readable"}
"""No text is known that comes to it: it is what is said where no other problem of the text fits."""


def names_in_the_reader() -> set[str]:
    """Every name of a problem that stands in the reader's own text."""
    found = set()
    for path in Path(builder.buildfile.__file__).parent.glob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and len(node.args) >= 3:
                called = (
                    node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
                )
                if called in {"Problem", "problem", "trouble"} and isinstance(node.args[1], ast.Constant):
                    found.add(node.args[1].value)
    return found


def test_every_problem_has_a_page_and_every_page_a_problem() -> None:
    names = names_in_the_reader()
    assert len(names) > 80
    assert set(PAGES) == names
    assert list(PAGES) == sorted(PAGES)


def test_no_problem_has_the_name_of_a_rule() -> None:
    assert set(PAGES).isdisjoint(rule.name for rule in RULES)


@pytest.mark.parametrize("name", PAGES)
def test_a_page_says_what_why_and_the_way_out(name: str) -> None:
    page = PAGES[name]
    assert [heading for heading, _ in page.paragraphs] == ["What", "Why", "Way out"]
    assert page.title.endswith(".")
    assert all(len(body) > 10 and body.endswith(".") for _, body in page.paragraphs)
    assert bool(page.example) != (name in WITHOUT_EXAMPLE)
    told = page_text(page)
    assert told.startswith(f"{name} (problem)\n\n")
    assert max(map(len, told.split("Failing example:")[0].splitlines())) <= 88
    assert all(f"    {line}".rstrip() in told for line in page.example.splitlines())
    assert told.isprintable() or set(filter(lambda sign: not sign.isprintable(), told)) == {"\n"}


@pytest.mark.parametrize("name", [name for name in PAGES if name not in WITHOUT_EXAMPLE])
def test_the_example_of_a_page_is_told_by_its_name_alone_and_each_edit_mends_it(name: str) -> None:
    page = PAGES[name]
    data = page.failing
    numbers = None if page.numbers is None else NumbersFile("trailer.numbers.csv", page.numbers)
    reading = numbered_build(read_build(data), numbers)
    assert reading.of_numbers == (numbers is not None)
    assert [problem.name for problem in reading.problems] == [name]
    if len(data) > TRIED_BYTES or name in NO_EDIT:
        return
    (edits,) = edits_of(data, reading.lines, reading.problems)
    assert edits
    for edit in edits:
        after = read_build(apply_edits(data, [edit])).problems
        assert (name, reading.problems[0].message) not in [(one.name, one.message) for one in after], edit


def test_the_names_of_problems_without_an_edit_are_names() -> None:
    assert set(NO_EDIT) <= set(PAGES)


def test_a_page_is_found_whatever_its_capitals_and_hyphens() -> None:
    assert (
        explained("Two Way  Switching")
        == explained("two-way switching")
        == page_text(PAGES["two-way switching"])
    )
    assert explained("unknwon word") is None
    assert nearest_name("unknwon word") == "unknown word"


def test_what_cannot_be_seen_is_written_out_in_an_example() -> None:
    assert "<U+200B>" in PAGES["invisible character"].example
    assert "\u200b".encode() in PAGES["invisible character"].failing
    assert b"\xf6" in PAGES["unreadable bytes"].failing
