"""A pencil: reads a worked line as it is printed and works it out again."""

from __future__ import annotations

import re
from decimal import Decimal

NUMBER = re.compile(r"\d+(?:\.\d+)?")
TOKEN = re.compile(r"\d+(?:\.\d+)?|[-+·/()]")
UNIT = re.compile(r"\b(?:A|Ah|V|ft|m|h|circular mils)\b|Ω|mm²")
NAME = re.compile(r"^[0-9]+[A-Z]+: ")


class Pencil:
    """Works out sums, products and quotients with brackets, the usual order."""

    def __init__(self, text: str) -> None:
        bare = UNIT.sub(" ", NAME.sub("", text))
        self.tokens = TOKEN.findall(bare)
        left = TOKEN.sub("", bare).strip()
        if left:
            raise ValueError(f"cannot be retyped: {left} in {text}")

    def answer(self) -> Decimal:
        found = self._sum()
        if self.tokens:
            raise ValueError(f"left over: {self.tokens}")
        return found

    def _sum(self) -> Decimal:
        found = self._product()
        while self.tokens and self.tokens[0] in "+-":
            sign = self.tokens.pop(0)
            found += self._product() if sign == "+" else -self._product()
        return found

    def _product(self) -> Decimal:
        found = self._one()
        while self.tokens and self.tokens[0] in "·/":
            sign = self.tokens.pop(0)
            found = found * self._one() if sign == "·" else found / self._one()
        return found

    def _one(self) -> Decimal:
        first = self.tokens.pop(0)
        if first != "(":
            return Decimal(first)
        found = self._sum()
        if self.tokens.pop(0) != ")":
            raise ValueError("a bracket stays open")
        return found


def sides(line: str) -> tuple[str, str]:
    """Return what stands before and behind the equals sign of a worked line."""
    left, _, right = line.rpartition(" = ")
    return left, right


def last_digits_apart(line: str) -> int:
    """Return by how many units of its last printed digit a line's result differs from the line worked out."""
    left, right = sides(line)
    (text,) = Pencil(right).tokens
    unit = Decimal(1).scaleb(-len(text.partition(".")[2]))
    return int(((Pencil(left).answer() - Decimal(text)) / unit).to_integral_value())
