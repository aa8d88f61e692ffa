"""What pages say of the plug of this trailer: functions in use, cores and wires, joints, what a hatch hides."""

from __future__ import annotations

import csv
import re
from functools import cache
from pathlib import Path

import pytest
from owner_pages import page_of, table, told_below, view_of, words_of

from builder.buildfile.issuing import issue
from builder.buildfile.numbering import number_trailer
from builder.buildfile.resolving import read_build
from builder.pages.view import View
from builder.trailer.circuits import CircuitKind
from builder.trailer.model import TOW_PLUG, Trailer
from builder.trailer.parts import Terminal

ROOT = Path(__file__).parents[2] / "example_build"
US = (
    "format: 1\nbuild: {name: Bean Row, country: US}\ntow plug: {pattern: 4-way flat, to front box: 7 ft}\n"
    "road lamps:\n  lamps: filament\n"
)


@cache
def example(name: str) -> View:
    return view_of((ROOT / name / "trailer.yaml").read_bytes())


def trailer(text: str) -> Trailer:
    reading = read_build(text.encode())
    assert reading.trailer is not None, [problem.message for problem in reading.problems]
    return reading.trailer


def test_a_circuit_of_the_plug_is_called_by_what_it_does_here_and_keeps_its_numbers_when_that_changes() -> (
    None
):
    before = trailer(US + "  plate lamp: {shows: plate, wire: 9 ft}\n")
    after = (
        US + "  plate lamp: {shows: plate, wire: 9 ft}\n  marker: {shows: marker, side: left, wire: 4 ft}\n"
    )
    assert "road lamps, plate" in [circuit.name for circuit in before.circuits]
    ledger = issue(before).ledger
    kept = number_trailer(trailer(after), ledger).trailer
    assert "road lamps, marker, plate" in [circuit.name for circuit in kept.circuits]
    issued = {(w.number, w.start, w.end.part) for w in before.wires if TOW_PLUG in (w.start.part, w.end.part)}
    assert issued <= {(w.number, w.start, w.end.part) for w in kept.wires if not w.draft}
    assert kept.gone == ()


def test_no_two_contacts_are_called_alike_where_only_one_function_of_each_side_is_used() -> None:
    text = US.replace("4-way flat", "13-pin").replace("7 ft", "2 m")
    names = [c.name for c in trailer(text + "  marker: {shows: marker, side: both, wire: 3 m}\n").circuits]
    assert {"road lamps, left marker", "road lamps, right marker"} <= set(names)
    assert len(names) == len(set(names))


@pytest.mark.parametrize(("country", "word"), [("GB", "indicator"), ("US", "turn"), ("DE", "indicator")])
def test_circuits_are_named_in_the_words_of_the_country(country: str, word: str) -> None:
    text = US.replace("US", country).replace("4-way flat", "13-pin").replace("7 ft", "2 m")
    names = [c.name for c in trailer(text + "  lamp: {shows: turn, side: both, wire: 3 m}\n").circuits]
    assert {f"road lamps, left {word}", f"road lamps, right {word}"} <= set(names)


def test_one_filament_of_a_bulb_counts_once() -> None:
    """SAE J573 (memory): the weak filament of a 1157 takes 0.59 A, whatever it shows."""
    lamp = "  rear lamp: {shows: [tail, stop, turn, marker], side: both, wire: 9 ft, bulb: %s}\n"
    one = view_of((US + lamp % "1157").encode())
    assert {s.number: s.amps["everything"] for s in one.figures.plug_states if s.number > 1} == pytest.approx(
        {2: 2 * 0.59, 3: 2.1, 4: 2.1}
    )
    apart = view_of((US + lamp % "{tail: 67, marker: 194, stop: 1156, turn: 1156}").encode())
    (tail,) = (s for s in apart.figures.plug_states if s.number == 2)
    assert tail.amps["lights"] == pytest.approx(2 * (0.59 + 0.27))


def test_where_several_wires_land_on_a_contact_a_splice_joins_them() -> None:
    view = example("braked")
    rows = table(page_of(view, "towing"), "Contacts of the 7-way blade plug")
    counts = {row[0].split()[0]: len(re.findall(r"\b\d+[A-Z]\b", row[2])) for row in rows}
    assert counts["1"] == 3
    assert {row[0].split()[0] for row in rows if "joined by a splice" in row[2]} == {
        number for number, count in counts.items() if count > 1
    }
    assert "A contact takes one wire end." in words_of(page_of(view, "towing"))
    assert "A contact takes one wire end." not in words_of(page_of(example("road_lamps"), "towing"))
    (landing,) = (at for at in view.figures.landings if at.part == TOW_PLUG and at.splice)
    assert landing.pin == "1"


@pytest.mark.parametrize("name", ["road_lamps", "thirteen_pins", "two_plugs", "braked"])
def test_cores_of_the_cable_are_told_from_the_wires_behind_the_box_and_from_lines_of_their_own(
    name: str,
) -> None:
    view = example(name)
    page = page_of(view, "towing")
    legs = [words_of(leg) for leg in page.select(".ways .leg")]
    cores = {leg.split()[0] for leg in legs if "(core)" in leg}
    at_plug = {w.number: w for w in view.trailer.wires if TOW_PLUG in (w.start.part, w.end.part)}
    lamps = {c.number for c in view.trailer.circuits if c.contact is not None}
    assert cores == {number for number, wire in at_plug.items() if wire.circuit in lamps}
    said = re.search(r"These are no cores of the cable: ([^.]*)\.", words_of(page))
    assert set(said[1].split(", ") if said else ()) == set(at_plug) - cores


def test_a_colour_that_the_place_names_is_not_said_twice() -> None:
    view = view_of((ROOT / "trailer.yaml").read_bytes())
    for row in table(page_of(view, "towing"), "Road lamps"):
        assert not re.search(r"\b(red|amber|white)\b,? \1\b", row[3])
        assert len(re.findall(r"\b(?:red|amber|white)\b", row[3])) == 1


def test_every_lamp_that_an_open_hatch_hides_is_named_with_the_plate() -> None:
    for name in ("thirteen_pins", "road_lamps"):
        view = example(name)
        said = re.search(
            r"Nobody behind sees these while it is open: ([^.]*)\.", words_of(page_of(view, "towing"))
        )
        hidden = [lamp.name for lamp in view.trailer.road_lamps if lamp.on_hatch]
        assert (said[1].split(", ") if said else []) == hidden
        assert ("Nor can the number plate be read" in words_of(page_of(view, "towing"))) == bool(hidden)
        for finding in (one for one in view.findings if one.rule == "lamp on hatch"):
            assert "never stand beside a road with the hatch open" in finding.help


def test_the_finding_names_both_lamps_of_a_pair() -> None:
    messages = [one.message for one in example("thirteen_pins").findings if one.rule == "lamp on hatch"]
    assert sum("“rear lamp left” and “rear lamp right”" in message for message in messages) == 1


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("road_lamps", "for this plug is not known"),
        ("two_plugs", "contacts of the 12S is not known"),
        ("braked", ""),
    ],
)
def test_a_fuse_of_the_car_that_nobody_knows_is_said_to_be_unknown(name: str, said: str) -> None:
    text = words_of(page_of(example(name), "garage"))
    assert ("What fuses cars usually have" in text) == bool(said)
    assert said in text


def test_grounds_that_may_meet_in_a_charger_are_not_called_apart_without_that() -> None:
    two, thirteen = (words_of(page_of(example(name), "garage")) for name in ("two_plugs", "thirteen_pins"))
    assert "may still meet inside car charger" in two
    assert "12N 3" in two.split("may still meet")[0].rpartition("Contacts")[2]
    assert "may still meet" not in thirteen
    assert "No wire of the trailer joins them" in thirteen


def test_the_second_way_back_stands_beside_the_ground_that_is_lost() -> None:
    view = view_of((ROOT / "trailer.yaml").read_bytes())
    rows = table(page_of(view, "odd-lamps"), "Lost here, these go odd together")
    assert [row[0][:9] for row in rows[:2]] == ["Wire 17A", "Tow plug,"]
    assert all("the frame and the hitch" in row[2] for row in rows[:2])
    assert {row[2] for row in rows[2:]} == {"–"}
    assert all(
        len(row) == 2
        for row in table(page_of(example("road_lamps"), "odd-lamps"), "Lost here, these go odd together")
    )


def contacts_of(view: View) -> dict[str, dict[str, str]]:
    """Return the rows of the table of plugs for the plug of a build, by their numbers."""
    assert view.trailer.tow_plug is not None
    data = ROOT.parent / "builder" / "tables" / "data" / "plug_contacts.csv"
    lines = [line for line in data.read_text(encoding="utf-8").splitlines() if not line.startswith("#")]
    name = view.trailer.tow_plug.pattern.name
    return {row["contact"]: row for row in csv.DictReader(lines) if row["pattern"] == name}


def wires_at(view: View, contact: str) -> dict[str, str]:
    """Return the wires on a contact of the plug with their colours, a tracer behind a stroke."""
    at = Terminal(TOW_PLUG, contact)
    return {
        wire.number: f"{wire.color.base}/{wire.color.tracer}".rstrip("/")
        for wire in view.trailer.wires
        if at in (wire.start, wire.end)
    }


@pytest.mark.parametrize("name", [".", "road_lamps", "thirteen_pins"])
def test_a_core_lands_on_the_number_that_the_front_box_has_for_it(name: str) -> None:
    view = example(name)
    box = {row[0]: row[1].split(", ") for row in table(page_of(view, "fuses"), "Front box")}
    page = page_of(view, "towing")
    told = [words_of(leg) for leg in page.select(".ways .leg") if "(core) to" in words_of(leg)]
    assert told
    for leg in told:
        wire, place = leg.split()[0], leg.split("(core) to ")[1]
        (landed,) = (at for at, wires in box.items() if wire in wires)
        assert re.match(rf"{landed}\b", place), leg
    assert page.select('.note a[href="fuses.html#lands"]')


@pytest.mark.parametrize("name", [".", "braked"])
def test_the_cores_of_a_cable_by_habit_get_their_numbers_by_the_contact(name: str) -> None:
    """The other colours are those of the table of plugs, which says how they are known."""
    view = example(name)
    rows = {row[0]: row for row in table(page_of(view, "towing"), "Cores with another colour")}
    for contact, known in contacts_of(view).items():
        other = known["other_base"]
        cores = [n for n, c in wires_at(view, contact).items() if c != other and not _own(view, n)]
        assert (contact in rows) == bool(cores and other)
        if contact in rows:
            assert rows[contact][1].split()[0] in cores
            assert rows[contact][3] == other
    assert {contact: row[3] for contact, row in rows.items()} == {"3": "green", "5": "red", "6": "brown"}


def _own(view: View, number: str) -> bool:
    """Tell whether a wire is the trailer's own, and no core of the plug's cable."""
    wire = next(wire for wire in view.trailer.wires if wire.number == number)
    return view.trailer.circuit(wire.circuit).kind is not CircuitKind.TOW


@pytest.mark.parametrize("name", [".", "thirteen_pins", "braked", "road_lamps"])
def test_a_colour_of_two_contacts_is_told_with_both(name: str) -> None:
    view = example(name)
    plug, wanted = contacts_of(view), set()
    grounds = {contact for contact, row in plug.items() if row["functions"] == "ground"}
    for here in plug:
        for colour in set(wires_at(view, here).values()):
            for there, row in plug.items():
                usual = {row["other_base"], row["base"] if not row["tracer"] else ""} - {""}
                if there != here and colour in usual and (here in grounds) == (there in grounds):
                    how = "by the standard" if colour == row["base"] and not row["tracer"] else "by habit"
                    wanted.add((f"{colour} in the cable {how}", here, there))
    rows = table(page_of(view, "towing"), "One colour, two contacts")
    assert {(row[0], row[2].split()[0], row[3].split()[0]) for row in rows} == wanted
    assert len(rows) == len(wanted)
    assert bool(rows) == (name != "road_lamps")


def test_each_core_is_tested_before_it_is_joined_and_a_lamp_is_lit_after() -> None:
    page = page_of(example("road_lamps"), "towing")
    told = told_below(page, "Test each core before you join it")
    assert "The plug is out of the car." in told
    assert "open line" in told
    (link,) = page.select('a[href="car-or-trailer.html#light"]')
    assert page_of(example("road_lamps"), "car-or-trailer").select("#light")
    assert "before you plug into a car" in words_of(link.parent)  # type: ignore[arg-type]


def test_a_ground_for_some_contacts_works_what_hangs_on_these() -> None:
    rows = {
        row[0]: row
        for row in table(page_of(example("thirteen_pins"), "towing"), "Contacts of the 13-pin plug")
    }
    assert [rows[n][3] for n in ("3", "11", "13")] == [
        "all on these contacts",
        "not used here",
        "all on this contact",
    ]
