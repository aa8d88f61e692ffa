"""Which side of an opening wires must reach: on the circuit's page, where the wires run, and what to build in."""

from __future__ import annotations

from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from example_numbers import numbers_of
from owner_pages import page_of, words_of

from builder.pages.page_circuit import circuit_page
from builder.pages.rounding import Reader
from builder.pages.templates import render
from builder.pages.verdict import judge_build
from builder.pages.view import Edition, View

EXAMPLE = (Path(__file__).parents[2] / "example_build" / "trailer.yaml").read_text()
TOLD = "The wires of roof fan must reach the left side of fan opening: its leads come out there."


def view(text: str = EXAMPLE) -> View:
    judged = judge_build(text.encode(), "trailer.yaml", numbers_of(text.encode())).judged
    assert judged is not None
    return View(judged.trailer, judged.figures, judged.findings, Edition(Reader.WORKSHOP, "2222-2222"))


def circuit_words(seen: View) -> str:
    (circuit,) = (c for c in seen.trailer.circuits if c.name == "roof fan")
    data = {**circuit_page(seen, circuit), "drawing": {"problem": "left out"}}
    return words_of(BeautifulSoup(render("pages/circuit.md.jinja", "en", data), "html.parser"))


def test_the_side_stands_on_the_circuits_page() -> None:
    assert TOLD in circuit_words(view())


def test_the_way_along_the_opening_is_part_of_the_rise() -> None:
    """The fan is measured 9 in left of the middle and its opening is 14 in wide: 2 in to its side."""
    seen = view()
    stand = seen.trailer.geometry.stands["roof fan"]
    assert stand.rise_m == pytest.approx(2 * 0.0254)
    assert f"{TOLD} The way along it, 2 in, is in the rise." in words_of(page_of(seen, "runs"))


def test_what_to_build_in_tells_of_the_leads_too() -> None:
    assert f"{TOLD} Its own leads are 10 in long." in words_of(page_of(view(), "building-in"))


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (
            "leads come out: right",
            "The wires of roof fan must reach its right side: its leads come out there.",
        ),
        ("leads come out: by the cord", "must reach where its leads come out: by the cord."),
    ],
)
def test_without_an_opening_the_side_is_the_parts_own(words: str, told: str) -> None:
    text = EXAMPLE.replace("leads come out: left, opening: fan opening", words)
    assert told in circuit_words(view(text))
