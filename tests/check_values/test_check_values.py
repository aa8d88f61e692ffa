"""Published values, one test a row; each row names its source.

``--check-values DIR`` runs the rows of every CSV file in another folder instead.
"""

from __future__ import annotations

import csv
import importlib
import inspect
import math
import sys
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, fields
from pathlib import Path
from types import FrameType
from typing import Any

import pytest
from answers import ANSWERS, CLASS_A, Answer, answer
from asked import NotAnswered

from builder.electrics import conductors

HERE = Path(__file__).parent


@dataclass(frozen=True)
class CheckValue:
    id: str
    quantity: str
    inputs: str
    value: str
    unit: str
    tolerance: str
    source: str
    clause: str
    how_known: str
    address: str

    def answered(self) -> Answer:
        """Ask for the answer with nothing but the quantity, the inputs and the unit."""
        return answer(self.quantity, split_inputs(self.inputs), self.unit)


def split_inputs(text: str) -> dict[str, str]:
    pairs = [pair.split("=", 1) for pair in text.split(";") if pair]
    inputs = {key.strip(): value.strip() for key, value in pairs}
    if len(inputs) != len(pairs):
        raise NotAnswered(f"an input stands twice in {text}")
    return inputs


def read_rows(folder: Path) -> Iterator[CheckValue]:
    for path in sorted(folder.glob("*.csv")):
        with path.open(encoding="utf-8", newline="") as file:
            reader = csv.DictReader(file)
            assert reader.fieldnames == [field.name for field in fields(CheckValue)], path.name
            for record in reader:
                yield CheckValue(**record)


def agrees(given: Answer, value: str, tolerance: str) -> bool:
    """Compare an answer with a row: yes and no, numbers as numbers, other text letter by letter."""
    if isinstance(given, bool):
        return {"true": True, "1": True, "false": False, "0": False}[value.lower()] is given
    if isinstance(given, str):
        return tolerance == "exact" and given == value
    wanted = float(value)
    kind, _, width = tolerance.partition("=")
    if kind == "exact":
        return math.isclose(
            given, wanted, rel_tol=1e-12
        )  # a product of two table cells may differ in its last bit
    band = {"abs": 1.0, "rel": abs(wanted)}[kind] * float(width)
    return abs(given - wanted) <= band * (1 + 1e-9)


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    if "row" in metafunc.fixturenames:
        rows = list(read_rows(metafunc.config.getoption("check_values") or HERE))
        if not rows:
            raise pytest.UsageError("the folder holds no CSV file with check values")
        metafunc.parametrize("row", rows, ids=lambda row: f"{row.quantity}-{row.id}")


def test_published_value(row: CheckValue) -> None:
    given = row.answered()
    assert agrees(given, row.value, row.tolerance), (
        f"{row.quantity} for {row.inputs}: {row.source} {row.clause} has {row.value} {row.unit} "
        f"({row.tolerance}), here it is {given}"
    )


def test_rows_say_where_they_come_from() -> None:
    rows = list(read_rows(HERE))
    twice = [key for key, count in Counter(row.id for row in rows).items() if count > 1]
    assert not twice
    for row in rows:
        assert row.source, row.id
        assert row.how_known in {"read", "quoted", "memory", "practice"}, row.id
        assert not (row.how_known == "memory" and row.address), row.id


# Values of the same sources that no row holds; each names its own.
UNASKED = [
    ("wire_resistance", "ohm_per_kft=1.98;length_ft=200", "ohm", "0.396"),  # NEC Table 8 times the length
    ("wire_resistance", "rho_ohm_cmil_per_ft=10.09;length_ft=2300;area_cmil=116035", "ohm", "0.2"),
    # Lessons in Electric Circuits vol. I: 14 V, two wires of 15 ohm at 20 °C, 250 ohm, 35 °C: 12.42 V left
    (
        "load_voltage_hot",
        "source_V=14;wire_ohm_20C=15;wires=2;load_ohm=250;alpha_20C=0.004041;temp_C=35",
        "V",
        "12.42",
    ),
    ("short_circuit_current", "source_V=14;wire_ohm_total=30", "A", "0.467"),  # 14 / 30
    # 12 - 0.48 I = 10 / I at the upper root: I = (12 - sqrt(144 - 19.2)) / 0.96
    ("load_current_constant_power", "power_W=10;source_V=12;circuit_length_m=12;mV_per_A_m=40", "A", "0.863"),
    # 2 x 10 m x 10 A / (56 x 0.6 V) = 5.95 mm2
    ("required_area_metric", "power_W=120;nominal_V=12;one_way_m=10;max_drop_V=0.6", "mm2", "5.952"),
    (
        "required_area_metric",
        "current_A=10;one_way_m=10;max_drop_V=0.6;conductivity=56;round_up_to_standard=yes",
        "mm2",
        "6",
    ),
    ("copper_resistivity_20c", "standard=IACS", "ohm-cmil/ft", "10.37"),
    ("copper_temp_coefficient_20c", "formula=1/254.5", "1/degC", "0.00393"),
    ("copper_conductivity_constant", "formula=2*L*I/(56*E);length=one_way_m", "m/(ohm-mm2)", "56"),
    ("bored_hole_edge_distance_min", "member=wood", "in", "1.25"),  # NEC 300.4(A)(1)
    ("bored_hole_edge_distance_min", "member=wood", "mm", "31.8"),
    ("minimum_area_in_sheath", "domain=small_craft_dc", "mm2", "0.75"),  # ISO 10133:2012 7.7
    ("conduit_fill_limit", "conductors=3", "percent", "40"),  # NEC Chapter 9 Table 1
    ("bundle_factor", "current_carrying_conductors=24", "1", "0.5"),  # 33 CFR 183.425 note 2
    ("bundle_factor", "current_carrying_conductors=25", "1", "0.4"),
    ("load_current", "p_w=30;u_v=12", "A", "2.5"),
    ("fuse_min_rating", "i_load_a=8;safety_coefficient=0.8;ambient_factor=1", "A", "10"),
    ("ocp_max_distance_33cfr", "case=source_of_power;sheathed=yes", "in", "40"),  # 33 CFR 183.455(b)(2)
    ("switch_derating_factor", "system_v=12;load=lamp", "-", "5"),  # FAA AC 43.13-1B Table 11-4
]


@pytest.mark.parametrize(("quantity", "inputs", "unit", "value"), UNASKED)
def test_value_that_no_row_holds(quantity: str, inputs: str, unit: str, value: str) -> None:
    given = answer(quantity, split_inputs(inputs), unit)
    assert agrees(given, value, "rel=0.002")


def test_smallest_wire_in_a_sheath() -> None:
    """33 CFR 183.425(d): 18 AWG."""
    assert answer("minimum_gauge_in_sheath", {"domain": "boat_under_50V"}, "AWG") == "18"


@pytest.mark.parametrize(
    ("quantity", "inputs", "unit"),
    [
        ("colour_of_the_moon", "gauge_awg=14", "mm2"),
        ("awg_area_mm2", "gauge_awg=14", "cmil"),
        ("awg_area_mm2", "gauge_awg=14;mood=good", "mm2"),
        ("awg_area_mm2", "size=14", "mm2"),
        ("awg_area_mm2", "gauge_awg=14;gauge_awg=12", "mm2"),
        ("awg_area_mm2", "gauge_awg=5/0", "mm2"),
        ("ampacity_under_50v", "gauge_awg=14;insulation_C=60;ambient_C=50;space=outside_engine", "A"),
        ("ampacity_under_50v", "gauge_awg=14;insulation_C=60;ambient_C=30;space=engine", "A"),
        ("ampacity_under_50v", "gauge_awg=14;insulation_C=61;ambient_C=30;space=outside_engine", "A"),
        ("bend_radius_min_multiple_of_od", "wiring=rope", "x OD"),
        ("fuse_colour", "format=round;rating_a=10", "text"),
        ("fuse_colour", "format=regular;rating_a=11", "text"),
        ("colour_code", "colour=mauve", "code"),
        ("max_ocp_rating_33cfr", "awg=14;insulation_temp_c=70;system_v=12;engine_space=no", "A"),
        ("max_ocp_rating_nec_rv", "awg=8", "A"),
        ("passes_aa", "a=#777777;b=#FFFFFF;kind=poster", "bool"),
    ],
)
def test_what_is_unknown_fails(quantity: str, inputs: str, unit: str) -> None:
    with pytest.raises((NotAnswered, LookupError)):
        answer(quantity, split_inputs(inputs), unit)


@pytest.mark.parametrize(
    ("given", "value", "tolerance", "expected"),
    [
        (39.0, "39", "exact", True),
        (39.001, "39", "exact", False),
        ("2/0", "2/0", "exact", True),
        ("1/0", "2/0", "exact", False),
        ("bk", "BK", "exact", False),
        (True, "1", "exact", True),
        (True, "false", "exact", False),
        (0.985, "0.98", "abs=0.01", True),
        (0.991, "0.98", "abs=0.01", False),
        (102.0, "100", "rel=0.02", True),
        (102.1, "100", "rel=0.02", False),
    ],
)
def test_comparison(given: Answer, value: str, tolerance: str, expected: bool) -> None:
    assert agrees(given, value, tolerance) is expected


def test_computed_quantities_are_all_asked() -> None:
    assert CLASS_A.keys() <= ANSWERS.keys()
    asked = {row.quantity for row in read_rows(HERE)} | {case[0] for case in UNASKED}
    assert CLASS_A.keys() <= asked


def calls_while_answering(row: CheckValue) -> set[Any]:
    seen: set[Any] = set()

    def note(frame: FrameType, event: str, _: object) -> None:
        if event == "call":
            seen.add(frame.f_code)

    before = sys.getprofile()
    sys.setprofile(note)
    try:
        row.answered()
    finally:
        sys.setprofile(before)
    return seen


def forget() -> None:
    """Let what the formulas remember be worked out anew."""
    for one in vars(conductors).values():
        getattr(one, "cache_clear", lambda: None)()


def test_computed_answers_come_from_the_functions_named() -> None:
    """Each row of a computed quantity runs every function that the list names for it."""
    for row in read_rows(HERE):
        for name in CLASS_A.get(row.quantity, ()):
            module, _, function = name.rpartition(".")
            code = inspect.unwrap(getattr(importlib.import_module(module), function)).__code__
            forget()
            assert code in calls_while_answering(row), f"{row.id} never calls {name}"
