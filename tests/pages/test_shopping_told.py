"""What the shopping list says beside its numbers: what to look at before buying, and what a number leaves open."""

from __future__ import annotations

from pathlib import Path

import pytest
from owner_pages import page_of, table, told_below, view_of, words_of

from builder.pages.rounding import Reader
from builder.pages.shopping_csv import shopping_csv
from builder.pages.view import Edition, View
from builder.trailer.already_in import already_in

EXAMPLE = Path(__file__).parents[2] / "example_build" / "trailer.yaml"


def view(text: str) -> View:
    """Return what the workshop's pages are made of."""
    owner = view_of(text.encode())
    return View(owner.trailer, owner.figures, owner.findings, Edition(Reader.WORKSHOP, "TEST-TEST"))


@pytest.fixture(scope="module")
def example() -> View:
    return view(EXAMPLE.read_text(encoding="utf-8"))


def test_rings_in_stock_are_looked_at_since_a_ring_has_one_hole(example: View) -> None:
    said = "Rings in stock whose stud is not on record are taken off"
    assert said in told_below(page_of(example, "shopping"), "Terminals")
    text = EXAMPLE.read_text(encoding="utf-8").replace("ring 16 AWG: 10, ", "")
    assert said not in told_below(page_of(view(text), "shopping"), "Terminals")


def test_blades_with_two_wires_are_counted_and_told(example: View) -> None:
    page = page_of(example, "shopping")
    rows = {row[0]: row[2] for row in table(page, "Terminals")}
    two = "push-on blade terminal that takes a second one"
    assert {name: used for name, used in rows.items() if name.startswith(two)} == {
        f"{two}, 16 AWG blade of the fuse block": "1",
        f"{two}, 14 AWG blade of the fuse block": "1",
    }
    assert "Counted above are terminals that take a second one." in told_below(page, "Terminals")


def test_a_bought_plug_cable_wants_splices_for_what_is_no_core(example: View) -> None:
    rows = {row[0]: row[2] for row in table(page_of(example, "shopping"), "Ends to look at first")}
    assert rows["end at the tow plug 10 AWG"].endswith(
        "a splice for 2 conductors for each of these, to its core: 14A"
    )
    assert rows["end at the tow plug 16 AWG"] == "nothing, if the plug has screws or comes with its cable"


def test_what_to_look_for_names_what_the_file_knows(example: View) -> None:
    rows = {row[0]: row[2] for row in table(page_of(example, "shopping"), "Parts")}
    assert rows["phone converter"] == "gives 5 V, and 2 A or more"
    assert rows["charge controller"] == "gives 6.25 A or more, for modules of 100 W"
    assert rows["awning receiver"] == "2 outputs, each for 0.625 A or more, for 12 V"
    assert rows["pump relay"] == "rated 8 A or more, with a coil for 12 V"
    assert rows["shore converter"] == "gives 15 A at 13.8 V"
    assert rows["plate lamp"] == "for 12 V plate; white"


def test_what_joins_the_fuse_block_to_its_supply_bar_is_named_and_bought(example: View) -> None:
    """The battery's line is 8 AWG there, the shore converter's wire 10 AWG: the link is as thick as the thicker one."""
    rows = {row[0]: (row[2], row[3]) for row in table(page_of(example, "shopping"), "Parts")}
    assert rows["link from supply bar to fuse block"] == (
        "a short wire or strap of 8 AWG or thicker, with a ring at the bar for 1/4 in and what the block takes; "
        "none where the block hangs on the bar",
        "1",
    )
    said = "Else join them by a short wire or strap of 8 AWG or thicker"
    assert said in told_below(page_of(example, "landings"), "Fuse block")
    assert said in told_below(page_of(example, "fuses"), "What lands where")
    owner = view_of(EXAMPLE.read_bytes())
    assert said not in told_below(page_of(owner, "fuses"), "What lands where")
    bare = view("format: 1\nbuild: {name: Elm, country: US}\n" + LAMP)
    assert all(item.kind != "supply link" for item in bare.lists.shopping.items)


LAMP = "parts: {lamp: {kind: lamp, draws: 3 W}}\nwire: {on the shelf: [16 AWG]}\n"


def test_sheets_of_what_lands_where_say_where_the_other_ends_are_ticked(example: View) -> None:
    said = "are not here: Labels has a row with a tick for every end of every wire."
    assert said in words_of(page_of(example, "landings"))
    here = "Nothing is ticked off here: Labels has a row with a tick for every end of every wire"
    assert here in told_below(page_of(example, "fuses"), "What lands where")
    assert here not in words_of(page_of(view_of(EXAMPLE.read_bytes()), "fuses"))


WAITING = """format: 1
build: {name: Weir Lane, country: US}
battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 2 ft}
front box: {fuse ways: 4}
parts:
  lamp: {kind: lamp, draws: 3 W}
  gate plug: {kind: connector, ways: 2}
  door switch: {kind: switch}
  far bar: {kind: bar}
circuits: {light: {path: [gate plug: 3 ft, far bar: 1 ft, door switch: 6 ft, lamp: 6 ft]}}
waiting: {WHICH: in May}
"""


@pytest.mark.parametrize("which", ["gate plug", "door switch", "far bar", "lamp"])
def test_what_waits_says_so_wherever_it_is_bought(which: str) -> None:
    made = view(WAITING.replace("WHICH", which))
    page = page_of(made, "shopping")
    told = [words_of(row) for row in page.find_all("tr") if "waits: in May" in words_of(row)]
    assert told
    assert all(which in row for row in told)
    assert any(which in row and "waits: in May" in row for row in shopping_csv(made).splitlines())


def test_what_is_in_already_is_told_beside_what_is_needed(example: View) -> None:
    known = already_in(example.trailer)
    lengths: dict[str, float] = {}
    for piece, _ in example.lists.cuts.already:
        assert all(wire in known for wire in piece.wires)
        lengths[piece.sort.words] = lengths.get(piece.sort.words, 0.0) + piece.cut_m
    cut = {wire for spool in example.lists.cuts.spools for piece in spool.pieces for wire in piece.wires}
    assert cut.isdisjoint(known)
    assert lengths["orange with black 16 AWG"] > 17.0
    rows = {row[0]: row[2] for row in table(page_of(example, "shopping"), "Wire")}
    for item in example.lists.shopping.wire:
        assert item.in_m == pytest.approx(lengths.get(item.id, 0.0))
    for row, needed in rows.items():
        there = any(row.startswith(name.rpartition(" ")[0].rpartition(" ")[0]) for name in lengths)
        assert ("are in already" in needed) <= there, row


def test_wires_that_share_a_terminal_of_no_known_kind_are_named(example: View) -> None:
    """Two wires leave the main fuse, and four meet at the first floor lamp: nobody knows yet what these take."""
    told = told_below(page_of(example, "shopping"), "Ends to look at first")
    assert "main fuse: 12A, 21B" in told
    assert "right floor lamp +: 2F, 2G" in told


def test_a_bond_to_the_frame_has_its_bolt(example: View) -> None:
    said = "The bond to the frame wants a bolt as well"
    assert said in words_of(page_of(example, "shopping"))
    assert said not in words_of(page_of(view(WAITING.replace("WHICH", "lamp")), "shopping"))
