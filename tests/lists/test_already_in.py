"""What the file has as pulled or measured counts as in, and nothing else does."""

from __future__ import annotations

import pytest
from listed import HEAD, listed

from builder.trailer.already_in import already_in, piece_in

BUILD = HEAD + (
    "parts: {lamp: {kind: lamp, draws: 3 W}, fan: {kind: fan, draws: 1 A}}\n"
    "circuits: {light: {path: [lamp: 6 ft]}, air: {path: [fan: 9 ft]}}\n"
    "spares: {rear spare: {from: front box, to: fan, wire: 8 ft}}\n"
)


@pytest.mark.parametrize(
    ("said", "wires"),
    [
        ("", set()),
        ("pulled: {light: 2 May}\n", {"1A", "1B"}),
        ("pulled: {rear spare: yes}\n", {"S1"}),
        ("pulled: {light: no, air: not yet}\n", set()),
    ],
)
def test_the_wires_of_what_is_told_as_pulled_are_in(said: str, wires: set[str]) -> None:
    assert already_in(listed(BUILD + said).trailer) == dict.fromkeys(wires, "pulled")


def test_everything_is_every_wire() -> None:
    trailer = listed(BUILD + "pulled: {everything: 3 May}\n").trailer
    assert set(already_in(trailer)) == {wire.number for wire in (*trailer.wires, *trailer.spares)}


@pytest.mark.parametrize(
    ("wires", "told"),
    [
        (("1A", "1B"), "pulled"),
        (("1A", "2A"), "pulled"),
        (("2A",), "measured"),
        (("1A", "3A"), ""),
        (("3A",), ""),
    ],
)
def test_a_piece_is_in_once_each_of_its_wires_is(wires: tuple[str, ...], told: str) -> None:
    assert piece_in(wires, {"1A": "pulled", "1B": "pulled", "2A": "measured"}) == told
