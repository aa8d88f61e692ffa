"""What a check value asks: its inputs, each of which an answer has to take up."""

from __future__ import annotations

from collections.abc import Mapping


class NotAnswered(Exception):  # noqa: N818
    """A quantity, an input or a word that no answer knows; the row fails."""


class Asked:
    """The inputs of one row. An input that is missing, unknown or never looked at makes the row fail."""

    def __init__(self, inputs: Mapping[str, str]) -> None:
        self._inputs = dict(inputs)
        self._left = set(inputs)

    def has(self, key: str) -> bool:
        """Tell whether an input is given, without taking it up."""
        return key in self._inputs

    def text(self, key: str) -> str:
        """Take up an input as text."""
        if key not in self._inputs:
            raise NotAnswered(f"the input {key} is missing")
        self._left.discard(key)
        return self._inputs[key]

    def number(self, key: str) -> float:
        """Take up an input as a number."""
        return float(self.text(key))

    def whole(self, key: str) -> int:
        """Take up an input as a whole number."""
        return int(self.text(key))

    def word(self, key: str, *known: str) -> str:
        """Take up an input that is one of some words, or anything where none are given."""
        word = self.text(key)
        if known and word not in known:
            raise NotAnswered(f"the word {word} of {key} is unknown")
        return word

    def words(self, key: str) -> list[str]:
        """Take up alternatives that are joined by a bar."""
        return self.text(key).split("|")

    def plain(self, key: str) -> str:
        """Take up a word written with underscores as the tables write it: with spaces."""
        return self.text(key).replace("_", " ")

    def maybe(self, *keys: str) -> None:
        """Take up inputs that only describe the case, where they are given."""
        self._left.difference_update(keys)

    def require_all_taken(self) -> None:
        """Raise where an input was never looked at."""
        if self._left:
            raise NotAnswered(f"unknown inputs: {', '.join(sorted(self._left))}")
