"""Examples in helps speak the units of the file: nobody with metric wire is told to write feet."""

from __future__ import annotations

import re

import pytest

from builder.buildfile.resolving import read_build
from builder.quantities.examples import in_currency, in_metric, names_in_metric, written_in_metric

METRIC = """\
format: 1
build: {{name: Bean Row, country: DE}}
battery: {{chemistry: agm, capacity: 35 Ah, to main fuse: 12 cm, to front box: 1 m}}
front box: {{fuse ways: 6}}
parts:
  lamp: {{kind: lamp, draws: 3 W}}
circuits:
  light: {path}
"""


@pytest.mark.parametrize(
    ("feet", "metric"),
    [
        (
            "add it, as in path: [step switch: 14 ft, step lamp: 6 ft]",
            "add it, as in path: [step switch: 4.3 m, step lamp: 1.8 m]",
        ),
        ("write a length such as 14 ft 6 in", "write a length such as 4.4 m"),
        ("add it, as in to main fuse: 5 in", "add it, as in to main fuse: 13 cm"),
        (
            "write it as wire: {on the shelf: [16 AWG, 14 AWG]}",
            "write it as wire: {on the shelf: [1.5 mm², 2.5 mm²]}",
        ),
        ("a mass such as 1400 lb", "a mass such as 640 kg"),
        ("a length such as 5 ft 9 in", "a length such as 1.8 m"),
        ("a size such as 20 AWG", "a size such as 20 AWG"),
        ("as in draws: 1.5 W per ft", "as in draws: 5 W per m"),
        ("“15 ft lamp”: take it out", "“15 ft lamp”: take it out"),
        ("write how long it is, as in 15 ft lamp: 5 ft", "write how long it is, as in 15 ft lamp: 1.5 m"),
        ("put “15 ft lamp” in, as in 15 ft", "put “15 ft lamp” in, as in 4.6 m"),
        ("as in conduit: {1 1/4 in: 6 ft}", "as in conduit: {32 mm: 1.8 m}"),
        ("as in height: 6 1/2 in", "as in height: 17 cm"),
        ("as in plate: 1/16 in", "as in plate: 1.6 mm"),
        ("write a length, such as 14 ft 6 in or 4.4 m", "write a length, such as 4.4 m"),
        ("such as 4.50 USD, or 0.35 USD per ft", "such as 4.50 USD, or 1.15 USD per m"),
    ],
)
def test_examples_are_turned_and_nothing_before_them(feet: str, metric: str) -> None:
    assert in_metric(feet) == metric


def test_names_of_wires_and_studs_are_turned_too_where_asked() -> None:
    said = "as in {ring 16 AWG: 20}, rings: [No. 8, 5/16 in] or size: 1 1/4 in"
    assert names_in_metric(said) == "as in {ring 1.5 mm²: 20}, rings: [M4, M8] or size: 1 1/4 in"
    assert names_in_metric("“16 AWG: 5” stands there") == "“16 AWG: 5” stands there"


def test_amounts_have_the_files_currency_behind_the_example_only() -> None:
    assert in_currency("in USD, such as 4.50 USD", "GBP") == "in USD, such as 4.50 GBP"
    assert in_currency("such as 4.50 USD", "") == "such as 4.50 USD"


@pytest.mark.parametrize(
    ("country", "prices", "currency"),
    [
        ("US", "", "USD"),
        ("DE", "", "EUR"),
        ("CH", "", "CHF"),
        ("GB", "", "GBP"),
        ("GB", "label: 1 SEK, ", "SEK"),
    ],
)
def test_a_price_is_asked_for_in_the_currency_of_prices_or_country(
    country: str, prices: str, currency: str
) -> None:
    build = f"format: 1\nbuild: {{name: Bean Row, country: {country}}}\nprices: {{{prices}clip: cheap}}\n"
    (problem,) = read_build(build.encode()).problems
    assert f"such as 4.50 {currency}" in problem.help


@pytest.mark.parametrize(
    "path", ["{}", "{path: [lamp]}", "{path: [lamp: 3 V]}", "{pth: [lamp: 3 m]}", "{path: [lamp: 3]}"]
)
@pytest.mark.parametrize("units", ["country: DE", "country: US, units: metric"])
def test_a_metric_file_is_never_helped_in_feet(path: str, units: str) -> None:
    reading = read_build(METRIC.format(path=path).replace("country: DE", units).encode())
    assert reading.problems
    assert not [p.help for p in reading.problems if re.search(r"\d (?:ft(?! or)|in|AWG|lb)\b", p.help)]


def test_without_a_readable_build_the_files_own_lengths_decide() -> None:
    text = METRIC.format(path="{path: [lamp]}").replace("build: {name: Bean Row, country: DE}\n", "")
    (missing, length) = read_build(text.encode()).problems
    assert "such as 14 ft" not in length.help
    assert " m" in length.help
    assert missing.name == "missing heading"
    assert not written_in_metric(("path: [lamp: 14 ft]  # 3 m, 4 m",))


@pytest.mark.parametrize(
    ("lines", "metric"),
    [
        (("a: 3 m", "b: 4 mm²"), True),
        (("a: 3 m", "b: none"), True),
        (("a: 3 m", "b: 4 ft"), False),
        (("a: 3 m", "b: 4 ft", "c: 2.5 mm2"), True),
        (("a: 3 m, 16 AWG", "b: 4'"), False),
        ((), False),
    ],
)
def test_a_file_is_metric_when_most_of_its_lengths_are(lines: tuple[str, ...], metric: bool) -> None:
    assert written_in_metric(lines) is metric
