"""A second plug beside the tow plug: nothing written is rewritten, and its contacts feed lamps and circuits."""

from __future__ import annotations

import re

import pytest

from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.electrics.plug_states import STATES
from builder.pages.record import record
from builder.tables.tow_plugs import NoRow, beside, plug_pattern, plug_patterns, second_patterns
from builder.trailer.model import Trailer
from builder.trailer.parts import Terminal

FIRST = """
format: 1
build: {name: Kittiwake, country: GB}
battery: {chemistry: agm, capacity: 70 Ah, to main fuse: 12 cm, to front box: 60 cm}
front box: {fuse ways: 6}
tow plug: {pattern: 7-pin 12N, to front box: 2.4 m}
parts:
  lamp: {kind: lamp, draws: 3 W}
  cool box: {kind: fridge, draws: 90 W}
  charger: {kind: dc charger, gives: 8 A}
circuits:
  lamp: {path: [lamp: 3 m]}
road lamps:
  lamps: led
  rear lamp: {shows: [tail, stop, turn], side: both, wire: 5 m}
"""
SECOND = "second plug: {pattern: 7-pin 12S, to front box: 2.6 m}\n"
MORE = """
  cold: {from: tow plug switched supply, fuse: 15 A, path: [cool box: 4 m]}
  charge: {from: tow plug battery, fuse: 15 A, path: [charger: 1 m, battery fuse: 1 m, battery: 10 cm]}
road lamps:"""


def read(text: str) -> Trailer:
    reading = read_build(text.encode())
    assert reading.trailer is not None, [problem.message for problem in reading.problems]
    return reading.trailer


def both(more: str = MORE) -> Trailer:
    return read(
        FIRST.replace("\nroad lamps:", more) + "  reversing lamp: {shows: reverse, wire: 5 m}\n" + SECOND
    )


def test_a_second_plug_alone_changes_no_wire() -> None:
    assert read(FIRST + SECOND).wires == read(FIRST).wires
    assert read(FIRST + SECOND).circuits == read(FIRST).circuits


def test_what_the_first_plug_lacks_comes_from_the_second() -> None:
    trailer = both()
    starts = {circuit.name: circuit.start for circuit in trailer.circuits}
    assert starts["cold"] == Terminal("tow plug", "12S 6")
    assert starts["charge"] == Terminal("tow plug", "12S 4")
    assert starts["road lamps, reversing lamp"] == Terminal("tow plug", "12S 1")
    sections = {section.name: section for section in trailer.sections}
    assert sections["tow plug 12S 6"].minus == Terminal("tow plug", "12S 7")
    assert sections["tow plug 12S 4"].minus == Terminal("tow plug", "12S 3")
    # the reversing lamp has no earth of its own in the second plug
    assert sections["tow plug 12S 1"].minus == Terminal("tow plug", "3")


def test_each_plug_has_a_cable_of_its_own_length() -> None:
    wires = {(w.start, w.end): w.length_m for w in both().wires}
    lengths = {
        end.pin: length
        for (start, stop), length in wires.items()
        for end in (start, stop)
        if end.part == "tow plug" and "front box" in (start.part, stop.part)
    }
    assert lengths["12S 1"] == pytest.approx(2.6)
    assert lengths["6"] == lengths["3"] == pytest.approx(2.4)


@pytest.mark.parametrize(
    "start", ["tow plug 12S 6", "tow plug 12s 6", "second plug 6", "second plug switched supply"]
)
def test_a_contact_of_the_second_plug_goes_by_number_too(start: str) -> None:
    trailer = both(MORE.replace("from: tow plug switched supply", f"from: {start}"))
    assert next(c.start for c in trailer.circuits if c.name == "cold") == Terminal("tow plug", "12S 6")


@pytest.mark.parametrize(
    ("start", "says"),
    [
        ("tow plug 12S 2", "contact 12S 2 of a 7-pin 12N and 12S plug is reserved"),
        ("tow plug 12S 7", "contact 12S 7 of a 7-pin 12N and 12S plug is a ground"),
        ("second plug fog", "a 7-pin 12S plug has no contact for “fog”"),
        ("second plug 9", "a 7-pin 12S plug has no contact for “9”"),
    ],
)
def test_what_may_not_start_there(start: str, says: str) -> None:
    text = FIRST.replace("\nroad lamps:", MORE.replace("tow plug switched supply", start)) + SECOND
    assert says in next(problem.message for problem in read_build(text.encode()).problems)


def test_a_connector_may_be_called_second_plug() -> None:
    text = FIRST.replace(
        "  lamp: {kind: lamp", "  second plug: {kind: connector, ways: 2}\n  lamp: {kind: lamp"
    )
    trailer = read(text.replace("[lamp: 3 m]", "[second plug: 2 m, lamp: 1 m]"))
    assert "second plug" in trailer.parts


def test_the_currents_of_both_grounds_are_the_sums_of_what_they_serve() -> None:
    trailer = both()
    figures = compute(trailer)
    by_pin = {state.pin: state.amps for state in figures.plug_states}
    for ground in ("3", "12S 3", "12S 7"):
        served = [
            one.pin
            for one in trailer.tow_plug.pattern.contacts  # type: ignore[union-attr]
            if one.pin in by_pin
            and not one.is_ground
            and trailer.tow_plug.pattern.ground_of(one).pin == ground  # type: ignore[union-attr]
        ]
        assert served
        for state in STATES:
            assert by_pin[ground][state] == pytest.approx(sum(by_pin[pin][state] for pin in served))


def test_the_record_names_each_contact_once() -> None:
    made = record(both(), compute(both()), ())
    contacts = [entry["contact"] for entry in made["plug"]]  # type: ignore[index, union-attr, call-overload]
    assert contacts == [1, 2, 3, 4, 5, 6, 7, *(f"12S {number}" for number in range(1, 8))]


def test_a_second_pattern_is_never_a_plug_of_its_own() -> None:
    assert not set(plug_patterns()) & set(second_patterns())
    for name in second_patterns():
        second = plug_pattern(name)
        assert second.beside in plug_patterns()
        joined = beside(plug_pattern(second.beside), second)
        pins = [contact.pin for contact in joined.contacts]
        assert len(set(pins)) == len(pins)
        assert {joined.ground_of(contact).is_ground for contact in joined.contacts} == {True}
        with pytest.raises(NoRow):
            joined.contact("12S 99")
        with pytest.raises(ValueError, match="does not stand beside"):
            beside(plug_pattern("13-pin"), second)


def test_a_function_that_only_a_second_plug_has_is_told_with_it() -> None:
    text = FIRST + "  reversing lamp: {shows: reverse, wire: 5 m}\n"
    (problem,) = read_build(text.encode()).problems
    assert re.search(r"second plug: \{pattern: 7-pin 12S, to front box: [\d.]+ m\}", problem.help)
    assert "13-pin" in problem.help
