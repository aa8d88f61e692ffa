"""What the shopping list costs: each price by what is bought, and the sum on page, in table and model alike."""

from __future__ import annotations

import csv
import io
import re
from decimal import Decimal

import pytest
from bs4 import BeautifulSoup
from listed import BUILDS, EXAMPLE, HEAD, listed

from builder.lists.costs import Costs
from builder.pages.page_shopping import shopping_page
from builder.pages.rounding import Reader
from builder.pages.shopping_csv import costs_csv
from builder.pages.templates import render
from builder.pages.verdict import judge_build
from builder.pages.view import Edition, View

FAN = (
    HEAD
    + "wire: {on the shelf: [16 AWG], sold as: single}\n"
    + "parts: {fan: {kind: fan, draws: 1 A}}\ncircuits:\n  fan: {path: [fan: 6 ft], color: orange}\n"
)
PRICES = (
    "prices: {orange 16 AWG: 0.35 USD per ft, fan: 20 USD, label: 0.05 usd, fuse 3 A: 0.5 USD, ring: 0.2 USD, "
    "ring 16 AWG: 0.30 USD, dimmer: 9 USD}\n"
)


def view_of(text: str) -> View:
    judged = judge_build(text.encode(), "trailer.yaml").judged
    assert judged is not None
    return View(judged.trailer, judged.figures, judged.findings, Edition(Reader.WORKSHOP, "2222-2222"))


def test_each_price_counts_what_is_bought_by_hand() -> None:
    """6 ft and two tails of 6 in, a tenth more: 7.7 ft, 8 ft are bought; a fuse and two to carry; one fan."""
    build = listed(FAN + PRICES)
    found = build.lists.costs
    sums = {line.price.name: line.sum for line in found.lines}
    assert found.currency == "USD"
    assert sums["orange 16 AWG"] == pytest.approx(8 * 0.35)
    assert sums["fan"] == pytest.approx(20)
    assert sums["fuse 3 A"] == pytest.approx(3 * 0.5)
    rings = [item for item in build.lists.shopping.section("terminals") if item.kind == "ring"]
    assert len(rings) > 1
    assert sums["ring 16 AWG"] == pytest.approx(sum(item.buy for item in rings) * 0.30)
    assert found.unused == ("ring", "dimmer")  # all rings are of 16 AWG, which has a price of its own
    assert found.total == pytest.approx(sum(sums.values()))


def test_a_price_per_metre_is_the_same_as_one_per_foot() -> None:
    feet = listed(FAN + "prices: {orange 16 AWG: 0.3048 USD per ft}\n").lists.costs
    metres = listed(FAN + "prices: {orange 16 AWG: 1 USD per m}\n").lists.costs
    assert feet.total == metres.total == pytest.approx(8 * 0.3048, abs=0.005)


def test_what_is_in_stock_costs_nothing() -> None:
    there = listed(FAN + PRICES + "in stock: {wire: {orange 16 AWG: 30 ft}, parts: [fan]}\n").lists.costs
    assert {"orange 16 AWG", "part fan"}.isdisjoint(id_ for line in there.lines for id_ in line.ids)
    assert there.unused == ("ring", "dimmer")


@pytest.mark.parametrize("text", BUILDS.values(), ids=BUILDS)
def test_without_prices_nothing_is_told(text: str) -> None:
    build = listed(text)
    assert build.trailer.prices == ()
    assert build.lists.costs == Costs()


def test_every_line_of_the_example_has_a_price_or_is_counted_as_one_without() -> None:
    build = listed(EXAMPLE + "prices: {red 16 AWG: 1 EUR per m, clip: 1 EUR}\n")
    shopping, found = build.lists.shopping, build.lists.costs
    bought = [item for item in shopping.items if item.buy]
    bought_by_length = [item for item in (*shopping.wire, *shopping.ways) if item.buy_m]
    assert sum(len(line.ids) for line in found.lines) + found.open_lines == len(bought) + len(
        bought_by_length
    )


def test_page_table_and_record_have_the_same_sums() -> None:
    view = view_of(FAN + PRICES)
    page = BeautifulSoup(render("pages/shopping.md.jinja", "en", shopping_page(view)), "html.parser")
    rows = [
        [cell.get_text(" ", strip=True) for cell in row.find_all(["th", "td"])]
        for table in page.find_all("table")
        if "What it costs" in table.caption.get_text()
        for row in table.select("tbody tr")
    ]
    table = list(csv.DictReader(io.StringIO(costs_csv(view))))
    told = view.record["costs"]
    assert isinstance(told, dict)
    lines = told["lines"]
    assert (
        [row[0] for row in rows[:-1]] == [row["what"] for row in table[:-1]] == [one["name"] for one in lines]
    )
    assert [row[1] for row in rows[:-1]] == [row["buy"] for row in table[:-1]]
    sums = [Decimal(row[-1]) for row in rows]
    assert sums == [Decimal(row["sum"]) for row in table]
    assert sums[:-1] == [Decimal(f"{one['sum']:.2f}") for one in lines]
    assert sums[-1] == sum(sums[:-1]) == Decimal(f"{told['total']:.2f}")
    assert "Prices of what is not on the list: ring, dimmer." in page.get_text()


def test_a_price_is_of_what_it_names_however_size_and_rating_are_written() -> None:
    loose = FAN + "prices: {Orange 16AWG: 0.35 USD per ft, fuse 3A: 0.5 USD}\n"
    found = listed(loose).lists.costs
    assert found.unused == ()
    assert [line.price.name for line in found.lines] == ["orange 16 AWG", "fuse 3 A"]


def test_a_price_of_parts_of_a_cent_stands_whole_on_the_page() -> None:
    view = view_of(FAN + "prices: {orange 16 AWG: 0.125 USD per ft, fan: 20 USD}\n")
    rows = {row["what"]: row["price"] for row in csv.DictReader(io.StringIO(costs_csv(view)))}
    assert (rows["orange 16 AWG"], rows["fan"]) == ("0.125", "20.00")


LIT = (
    "format: 1\nbuild: {name: Bean Row, country: GB}\n"
    "battery: {chemistry: lithium, capacity: 35 Ah, path: [main fuse: 10 cm, front box: 1.2 m], return: 1 m}\n"
    "front box: {fuse ways: 6, ground bar: 8}\nterminal studs: {ground bar: {size: M5}, supply bar: {size: M6}}\n"
    "tow plug: {pattern: 13-pin, to front box: 2 m}\n"
    "wire: {on the shelf: [1.5 mm², 2.5 mm², 4 mm², 6 mm², 10 mm²], sold as: SOLD, feed: red, return: black}\n"
    "parts: {fan: {kind: fan, draws: 2 A}, oven: {kind: heater, draws: 7 A}, "
    "loft plug: {kind: connector, ways: 4, place: crossing}}\n"
    "circuits: {fan: {path: [loft plug: {through: pipe}, fan: 2 m]}, oven: {path: [oven: 2 m]}}\n"
    "road lamps:\n  lamps: filament\n"
    "  rear lamp: {shows: [tail, stop, turn], side: both, wire: 4 m, bulb: {tail: R5W}}\n"
    "reflectors: {rear triangle: {at: rear, side: both, color: red, triangle: yes, height: 60 cm}}\n"
    "places:\n  front box: {back: 15 cm, left: 50 cm, up: 35 cm}\n  crossing: {back: 195 cm, left: 50 cm, up: 35 cm}\n"
    "chases: {pipe: {through: [front box, crossing], kind: conduit, bore: 32 mm}}\n"
)


def printed(text: str) -> list[str]:
    """Return what the first column of each table of the shopping list prints, each as one name."""
    page = BeautifulSoup(
        render("pages/shopping.md.jinja", "en-GB", shopping_page(view_of(text))), "html.parser"
    )
    found = []
    for table in page.find_all("table"):
        head = table.caption.get_text(" ", strip=True)
        if head in (
            "Ends to look at first",
            "Where each number comes from",
            "What is counted",
            "What it costs",
        ):
            continue
        if head in ("Wire by circuit", "Wire added up"):
            continue
        found += [row.find(["th", "td"]).get_text(" ", strip=True) for row in table.select("tbody tr")]
    return [re.sub(r" \d+ ways, .*", "", name) for name in found]  # what a connector has is not its name


@pytest.mark.parametrize("sold", ["single", "pair"])
def test_every_name_that_the_list_prints_is_that_of_a_price(sold: str) -> None:
    """Each line by the words of its first column: each has a price of its own, and all is priced."""
    build = LIT.replace("SOLD", sold)
    names = printed(build)
    assert any(name.startswith("conduit") for name in names)
    assert any("M5" in name for name in names)
    wires = [line for line in names if re.search(r"^(red|black|yellow|white|blue|brown|green).*mm²", line)]
    lengths = {*wires, *(name for name in names if name.startswith(("conduit", "pull string", "flat steel")))}
    prices = {name: "1 GBP per m" if name in lengths else "1 GBP" for name in names}
    told = build + "prices:\n" + "".join(f'  "{name}": {price}\n' for name, price in prices.items())
    found = listed(told).lists.costs
    assert (found.open_lines, found.unused) == (0, ())
    assert len(found.lines) == len(names)


def test_a_fuse_is_a_fuse_and_a_holder_a_holder() -> None:
    build = LIT.replace("SOLD", "single")
    found = listed(build + "prices: {fuse: 0.30 GBP, fuse holder: 4 GBP}\n")
    fuses = found.lists.shopping.section("fuses")
    sums = {line.price.name: (line.count, line.sum) for line in found.lists.costs.lines}
    bought = sum(item.buy for item in fuses)
    assert len(fuses) > 1
    assert sums == {"fuse": (bought, pytest.approx(bought * 0.30)), "fuse holder": (1, 4.0)}
    rated = listed(build + "prices: {fuse: 0.30 GBP, 3 A: 0.10 GBP, main fuse: 5 GBP, fuse holder: 4 GBP}\n")
    three = next(item.buy for item in fuses if item.rating_a == 3)
    counts = {line.price.name: line.count for line in rated.lists.costs.lines}
    assert counts == {"fuse": bought - three, "fuse 3 A": three, "main fuse": 1}


def test_a_pair_of_lamps_has_one_price_by_its_own_name_and_the_closer_one_counts() -> None:
    build = LIT.replace("SOLD", "single")
    both = listed(build + "prices: {rear lamp: 12 GBP}\n").lists.costs
    assert [(line.price.name, line.count, line.sum) for line in both.lines] == [("rear lamp", 2, 24.0)]
    apart = listed(build + "prices: {rear lamp left: 9 GBP, rear lamp: 12 GBP}\n").lists.costs
    assert {line.price.name: line.sum for line in apart.lines} == {"rear lamp left": 9.0, "rear lamp": 12.0}


def test_a_ring_has_a_price_by_its_stud() -> None:
    build = listed(LIT.replace("SOLD", "single") + "prices: {ring 1.5 mm² M5: 0.4 GBP, ring: 0.2 GBP}\n")
    rings = [item for item in build.lists.shopping.section("terminals") if item.kind == "ring"]
    five = sum(item.buy for item in rings if (item.size, item.stud) == ("1.5 mm²", "M5"))
    counts = {line.price.name: line.count for line in build.lists.costs.lines}
    assert counts == {"ring 1.5 mm² M5": five, "ring": sum(item.buy for item in rings) - five}
    assert five
