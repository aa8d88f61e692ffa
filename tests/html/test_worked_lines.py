"""The worked lines, retyped on a calculator, give the printed result."""

from __future__ import annotations

import math
import re

from example_site import Site

NUMBER = re.compile(r"-?\d+(?:\.\d+)?")


def result_of(left: str) -> float:
    """Work out one side of a printed line: sums, products, quotients, brackets; units and wire numbers left out."""
    text = re.sub(r"^\w+: ", "", left)
    text = re.sub(r"\b(circular mils|Ah|mm²|ft|A|V|h|m)\b|Ω", "", text)
    text = text.replace("·", "*").replace(" ", "").replace("\N{NO-BREAK SPACE}", "")
    assert re.fullmatch(r"[\d.+*/()-]+", text), left
    return float(eval(text, {"__builtins__": {}}))  # noqa: S307 - digits and signs only, checked above


def test_each_printed_line_gives_its_printed_result(site: Site) -> None:
    lines = [line.get_text() for line in site.article("worked.html").select(".formula-numbers")]
    checked = 0
    for line in lines:
        if " = " not in line or "…" in line:
            continue
        left, _, right = line.rpartition(" = ")
        number = NUMBER.search(right)
        assert number, line
        digits = len(number.group().replace(".", "").lstrip("0"))
        value = float(number.group())
        step = 10 ** (math.floor(math.log10(abs(value))) - digits + 1) if value else 1e-9
        assert abs(result_of(left) - value) <= 1.5 * step + 1e-5 * abs(value), line
        checked += 1
    assert checked > 60
