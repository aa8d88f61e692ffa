"""Figures in sentences: a figure above a limit is never printed as the limit itself, nor one below it."""

from __future__ import annotations

import pytest

from builder.rules.wording import (
    amps,
    amps_down,
    amps_up,
    is_above,
    name_of,
    percent_up,
    say,
    volts,
    volts_down,
)
from builder.trailer.origin import Origin
from builder.trailer.parts import Terminal
from builder.trailer.wires import Load


@pytest.mark.parametrize(
    ("value", "plain", "up", "down"),
    [
        (10.0, "10 A", "10 A", "10 A"),
        (10.001, "10 A", "10.01 A", "10 A"),
        (10.009, "10.01 A", "10.01 A", "10 A"),
        (7.5, "7.5 A", "7.5 A", "7.5 A"),
        (0.25, "0.25 A", "0.25 A", "0.25 A"),
        (100.0, "100 A", "100 A", "100 A"),
        (0.1 + 0.2, "0.3 A", "0.3 A", "0.3 A"),
        (0.7 + 0.1, "0.8 A", "0.8 A", "0.8 A"),
        (0.0, "0 A", "0 A", "0 A"),
    ],
)
def test_amperes(value: float, plain: str, up: str, down: str) -> None:
    """0.1 + 0.2 lies a hair above 0.3, 0.7 + 0.1 a hair below 0.8: noise of the arithmetic, not another figure."""
    assert (amps(value), amps_up(value), amps_down(value)) == (plain, up, down)


@pytest.mark.parametrize(
    ("value", "plain", "down"),
    [(11.5, "11.50 V", "11.50 V"), (11.499, "11.50 V", "11.49 V"), (0.7 + 0.1, "0.80 V", "0.80 V")],
)
def test_volts(value: float, plain: str, down: str) -> None:
    assert (volts(value), volts_down(value)) == (plain, down)


@pytest.mark.parametrize(
    ("value", "up"), [(3.0, "3.0 %"), (3.01, "3.1 %"), (3.1, "3.1 %"), (0.1 + 0.2, "0.3 %")]
)
def test_per_cents(value: float, up: str) -> None:
    assert percent_up(value) == up


def test_a_hair_above_a_limit_is_no_finding() -> None:
    assert not is_above(10, 10)
    assert not is_above(10 * (1 + 1e-10), 10)
    assert is_above(10 * (1 + 1e-8), 10)
    assert not is_above(1e-13, 0)
    assert is_above(1e-11, 0)


def test_a_name_with_braces_stays_as_it_is() -> None:
    assert say("“{name}” is {what}", name="{what}", what="on") == "“{what}” is on"


@pytest.mark.parametrize(("what", "name"), [("", "“rear lamp”"), ("stop", "“rear lamp” (stop)")])
def test_one_of_several_loads_of_a_part(what: str, name: str) -> None:
    plus, minus = Terminal("rear lamp", "plus"), Terminal("rear lamp", "minus")
    load = Load("rear lamp", what, 1, plus, minus, "tow plug", None, Origin(1, 1, 1))
    assert name_of(load) == name
