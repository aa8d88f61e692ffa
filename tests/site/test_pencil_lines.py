"""A reader with a pencil gets what the page prints, line by line, to the last digit."""

from __future__ import annotations

import re
from decimal import Decimal
from math import sqrt

import pytest
from bs4 import Tag
from published import Site, figures_on, text_of
from worked_lines import Pencil, last_digits_apart, sides


def blocks(site: Site) -> list[Tag]:
    return list(site.article("worked.html").select("div.worked"))


def lines_of(block: Tag) -> list[str]:
    return [text_of(line) for line in block.select("p.formula-numbers")]


def name_of(block: Tag) -> str:
    return str(block["aria-label"])


def test_the_factors_of_surroundings_and_wires_side_by_side_can_be_retyped(workshop: Site) -> None:
    """NEC 310.15(B), the square-root formula; 33 CFR 183.425 Table 5 note 2."""
    page = text_of(workshop.article("worked.html"))
    found = re.search(r"√\(\((\d+) − (\d+)\) / \((\d+) − 30\)\) = (\d\.\d+)", page)
    assert found is not None
    hot, around, again, factor = found.groups()
    assert hot == again
    assert float(factor) == pytest.approx(sqrt((int(hot) - int(around)) / (int(hot) - 30)), abs=1e-6)
    assert "1 to 2: 1; 3: 0.7; 4 to 6: 0.6; 7 to 24: 0.5; 25 and more: 0.4" in page
    steps = {2: "1", 3: "0.7", 6: "0.6", 24: "0.5"}
    for block in blocks(workshop):
        if name_of(block).startswith("Wire of "):
            count = int(name_of(block).partition(", ")[2].split()[0])
            line = lines_of(block)[1]
            assert f" · {factor} · {next(said for last, said in steps.items() if count <= last)} = " in line


def test_every_line_gives_its_result_to_the_last_digit(site: Site) -> None:
    lines = [line for block in blocks(site) for line in lines_of(block) if " = " in line]
    assert len(lines) > 200
    assert [line for line in lines if last_digits_apart(line) != 0] == []


def test_a_line_without_a_result_is_that_of_a_fuse_or_of_a_length_of_wire(site: Site) -> None:
    open_lines = {name_of(block) for block in blocks(site) for line in lines_of(block) if " = " not in line}
    assert {name for name in open_lines if not name.startswith("Wire of ")} <= {"Fuse"}
    assert bool(open_lines) == (site.edition == "workshop")


def test_the_resistance_of_a_drop_is_that_of_its_length_of_wire(workshop: Site) -> None:
    """Every wire's own resistance, from the length of its size that the page tells."""
    a_foot = {
        name_of(block).removeprefix("Wire of ").partition(", ")[0]: Decimal(lines_of(block)[0].split()[-2])
        for block in blocks(workshop)
        if name_of(block).startswith("Wire of ")
    }
    assert {wire["size"] for wire in workshop.record["wires"]} == set(a_foot)
    for wire in workshop.record["wires"]:
        ohm = a_foot[wire["size"]] * Decimal(wire["length_m"]) / Decimal("0.3048")
        assert float(ohm) == pytest.approx(wire["resistance_ohm"], rel=1e-5)


def test_what_each_wire_bears_is_told_with_as_many_beside_it_as_its_run_shows(workshop: Site) -> None:
    """Each wire stands in one block: of its size and of the wires beside it, whose line ends in what it bears."""
    told = {}
    for block in (block for block in blocks(workshop) if name_of(block).startswith("Wire of ")):
        bears = Decimal(sides(lines_of(block)[1])[1].split()[0])
        size, _, beside = name_of(block).removeprefix("Wire of ").partition(", ")
        for link in block.select('.worked-beside a[href^="wires.html"]'):
            assert text_of(link) not in told
            told[text_of(link)] = size, int(beside.split()[0]), bears
    wires = [wire for wire in workshop.record["wires"] if wire["length_m"] > 0]
    assert set(told) == {wire["number"] for wire in wires}
    assert len({beside for _, beside, _ in told.values()}) > 3
    for wire in wires:
        size, beside, bears = told[wire["number"]]
        assert (size, beside) == (wire["size"], wire["bundle"])
        assert float(bears) == pytest.approx(wire["ampacity_a"], rel=1e-5)


def test_a_drop_is_the_sum_of_the_lines_above_it_and_the_figure_beside_its_name(site: Site) -> None:
    drops = [block for block in blocks(site) if name_of(block).startswith("Drop at")]
    assert len(drops) > 20
    for block in drops:
        *terms, total = lines_of(block)
        left, right = sides(total)
        assert left.split(" + ") == [sides(term)[1].removesuffix(" V") for term in terms]
        (figure,) = figures_on(block)
        assert abs(Decimal(right.split()[0]) - Decimal(text_of(figure).split()[0])) <= _half(text_of(figure))


def _half(printed: str) -> Decimal:
    number = printed.split(maxsplit=1)[0]
    return Decimal("0.51").scaleb(-len(number.partition(".")[2]))


def test_ranges_are_those_of_the_lines(site: Site) -> None:
    ranges = [block for block in blocks(site) if name_of(block).startswith(("Nights", "Weeks"))]
    assert len(ranges) == 2
    for block in ranges:
        for line, figure in zip(lines_of(block), figures_on(block), strict=True):
            assert abs(Decimal(sides(line)[1]) - Decimal(text_of(figure))) <= _half(text_of(figure))


def test_hours_and_days_of_charging_are_those_of_the_lines(site: Site) -> None:
    names = ("Charging from", "A day of sun on")
    ranges = [block for block in blocks(site) if name_of(block).startswith(names)]
    assert len(ranges) == 4  # from the car, from shore power, and from the sun with its day
    for block in ranges:
        for line, figure in zip(lines_of(block), figures_on(block), strict=True):
            number = Decimal(sides(line)[1].removesuffix(" Ah"))
            assert abs(number - Decimal(text_of(figure))) <= _half(text_of(figure))


def test_a_chosen_fuse_is_no_smaller_than_its_line_asks(workshop: Site) -> None:
    chosen = {fuse["name"] for fuse in workshop.record["fuses"] if not fuse["given"]}
    fuses = [block for block in blocks(workshop) if name_of(block) == "Fuse"]
    checked = 0
    for block in fuses:
        (by_load, *others), (figure,) = lines_of(block), figures_on(block)
        asked = [Decimal(sides(by_load)[1].split()[0]), *(Decimal(line.split()[-2]) for line in others)]
        if str(figure["data-figure"]).split("/")[1] in chosen:
            checked += 1
            assert Decimal(text_of(figure).split()[0]) >= max(asked)
    assert checked > 5


@pytest.mark.parametrize(
    ("line", "apart"),
    [
        ("4A: 0.02 Ω · 3 A = 0.06 V", 0),
        ("0.02 + 0.03 = 0.05 V", 0),
        ("2 · 6 m · 4 A / (56 · 0.36 V) = 2.38 mm²", 0),
        ("10.75 · 3 A · 12 ft / 0.36 V = 1075 circular mils", 0),
        ("4A: 0.02 Ω · 3 A = 0.07 V", -1),
        ("1 / 3 = 0.3335", -2),
    ],
)
def test_the_pencil_works(line: str, apart: int) -> None:
    assert last_digits_apart(line) == apart


def test_the_pencil_refuses_what_nobody_can_retype() -> None:
    with pytest.raises(ValueError, match="cannot be retyped"):
        Pencil("50 Ah / 2 / (0.1 A + …)")
