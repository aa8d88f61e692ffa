"""What is asked back for a wrong word: judged against the words that are possible where it stands.

`synonyms.txt` and `unrelated_words.txt` beside this file were drawn up before the suggestions were written.
"""

from __future__ import annotations

import random
import string
from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from pathlib import Path

import pytest

from builder.buildfile import choices, declared_parts
from builder.buildfile.problems import Problem
from builder.buildfile.resolving import read_build
from builder.buildfile.suggesting import did_you_mean, near_words, nearest, sure_of
from builder.buildfile.telling import nearest_words
from builder.buildfile.telling_words import PLACES
from builder.buildfile.value_words import OneOf
from builder.tables.assumptions import defaults
from builder.tables.wire_colours import colour_words

HERE = Path(__file__).parent
SLIPS_OF_A_WORD = 12
LONG = 7

MODELS = {place: model for model, place in PLACES.items()}
LISTS = {
    one.__metadata__[0].place or one.__metadata__[0].what: one.__metadata__[0]
    for one in vars(choices).values()
    if isinstance(getattr(one, "__metadata__", [None])[0], OneOf) and one is not choices.FormatWord
}
PARTS = (
    "step switch", "step lamp", "galley lamp", "reading lamp", "roof fan", "water pump", "pump switch", "radio",
    "car-side fuse", "solar module", "charge controller", "hatch plug",
)  # fmt: skip
"""The names of the parts of some build, as a path may name them."""


@cache
def known() -> Mapping[str, tuple[str, ...]]:
    """Return the words that are possible at each place."""
    found = {
        place: tuple(info.alias or name for name, info in model.model_fields.items())
        for place, model in MODELS.items()
    }
    found["item"] = tuple(word for word in found["item"] if word != "name")
    found |= {place: tuple(one.words()) for place, one in LISTS.items()}
    return found | {"colour": tuple(colour_words()), "assume": tuple(defaults()), "part name": PARTS}


def offered(place: str, written: str) -> tuple[str, ...]:
    """Return what is asked back for a word at a place; the word itself where it is read as it stands."""
    if place in MODELS:
        return nearest_words(written, MODELS[place])
    if place in LISTS:
        also = LISTS[place].also
        return (also[written],) if written in also else near_words(written, known()[place], place)
    return near_words(written, known()[place], place)


def one_letter(word: str, rng: random.Random) -> Iterator[str]:
    """Return slips of one letter: left out, put in, exchanged, swapped with its neighbour."""
    while True:
        at = rng.randrange(len(word))
        letter = rng.choice(string.ascii_lowercase)
        kind = rng.randrange(4)
        if kind == 0:
            yield word[:at] + word[at + 1 :]
        elif kind == 1:
            yield word[:at] + letter + word[at:]
        elif kind == 2:
            yield word[:at] + letter + word[at + 1 :]
        elif at + 1 < len(word):
            yield word[:at] + word[at + 1] + word[at] + word[at + 2 :]


def slips(word: str, words: Iterable[str], letters: int) -> list[str]:
    """Return some slips of a word that make no other word of the place, the same at every run."""
    rng = random.Random(f"{word} {letters}")  # noqa: S311 - the same slips at every run
    taken = {one.casefold() for one in words} | {""}
    found: list[str] = []
    once = one_letter(word, rng)
    for _ in range(SLIPS_OF_A_WORD):
        slip = next(once)
        for _ in range(letters - 1):
            slip = next(one_letter(slip, rng)) if slip else slip
        if slip.strip() == slip and slip.casefold() not in taken:
            found.append(slip)
    return found


def share_of_slips(letters: int, least: int) -> tuple[float, int, list[str]]:
    told = [
        (place, word, slip, word in offered(place, slip))
        for place, words in known().items()
        for word in words
        if len(word) >= least
        for slip in slips(word, words, letters)
    ]
    missed = [f"{place}: {word} from {slip}" for place, word, slip, right in told if not right]
    return 1 - len(missed) / len(told), len(told), missed


def lines_of(name: str) -> list[str]:
    return [line for line in (HERE / name).read_text().splitlines() if line and not line.startswith("#")]


def unrelated() -> list[str]:
    return [
        word.strip() for line in lines_of("unrelated_words.txt") for word in line.split(",") if word.strip()
    ]


def synonyms() -> list[tuple[str, str, str]]:
    found = []
    for line in lines_of("synonyms.txt"):
        place, _, rest = line.partition(": ")
        pairs = (entry.split(" > ") for entry in rest.split(", "))
        found += [(place, written, wanted) for written, wanted in pairs]
    return found


def test_slips_of_one_letter_and_swaps_are_understood() -> None:
    share, count, missed = share_of_slips(letters=1, least=2)
    assert count > 2_000
    assert share >= 0.98, missed


def test_slips_of_two_letters_in_long_words_are_understood() -> None:
    share, count, missed = share_of_slips(letters=2, least=LONG)
    assert count > 1_000
    assert share >= 0.95, missed


def test_every_synonym_is_understood() -> None:
    listed = synonyms()
    assert len(listed) > 300
    wrong = [
        f"{place}: {written} gives {offered(place, written)}, not {wanted}"
        for place, written, wanted in listed
        if offered(place, written)[:1] != (wanted,) and written not in known()[place]
    ]
    assert wrong == []


def test_a_synonym_that_is_a_word_of_its_place_is_none() -> None:
    assert [one for one in synonyms() if one[1] in known()[one[0]] and one[0] != "colour"] == []


@pytest.mark.parametrize("place", known())
def test_words_that_mean_nothing_here_get_no_suggestion(place: str) -> None:
    words = unrelated()
    assert len(words) > 300
    told = [f"{word}: {near}" for word in words if (near := offered(place, word))]
    assert len(told) <= 0.03 * len(words), told


def told(data: str) -> list[Problem]:
    return list(read_build(data.encode()).problems)


SOUND = """\
format: 1
build: {name: Bean Row, country: US}
battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}
front box: {fuse ways: 6}
parts:
  fan: {kind: fan, draws: 3 A}
circuits:
  fan: {path: [fan: 12 ft]}
"""


@pytest.mark.parametrize(
    ("good", "bad", "asked"),
    [
        ("draws: 3 A", "amps: 3 A", "did you mean “draws”?"),
        ("kind: fan", "kind: ventilator", "did you mean “fan”?"),
        ("to main fuse", "to_main_fuse", "did you mean “to main fuse”?"),
        ("\nfront box:", "\nfrontbox:", "did you mean “front box”?"),
        ("path: [fan: 12 ft]", "path: [fna: 12 ft]", "did you mean “fan”?"),
        ("country: US", "country: America", "did you mean “US”?"),
        ("fan: {path: [fan: 12 ft]}", "fan: {path: [fan: 12 ft], earth: 3 ft}", "did you mean “return”?"),
        ("fan: {path: [fan: 12 ft]}", "fan: {path: [fan: 12 ft], gauge: 16 AWG}", "did you mean “size”?"),
    ],
)
def test_the_word_that_is_meant_is_asked_back_in_the_help(good: str, bad: str, asked: str) -> None:
    assert good in SOUND
    assert [problem.help.startswith(asked) for problem in told(SOUND.replace(good, bad, 1))] == [True]


def test_a_word_that_is_far_from_all_is_not_guessed_at() -> None:
    (problem,) = told(SOUND.replace("kind: fan", "kind: toaster"))
    assert problem.help.startswith("the choices are: ")
    assert nearest("toaster", declared_parts.PartWords.model_fields) is None


def test_words_that_are_equally_near_are_all_named() -> None:
    assert near_words("axt", ("at", "as", "to")) == ("at",)
    assert set(near_words("ax", ("at", "as", "to"))) == {"at", "as"}
    assert did_you_mean(("at", "as")) == "did you mean “at” or “as”?"
    assert did_you_mean(()) == ""


def test_a_word_with_too_many_slips_for_its_length_stands_for_nothing() -> None:
    assert near_words("lxxp", ("lamp",)) == ()
    assert near_words("connxxtor", ("connector",)) == ("connector",)
    assert near_words("x" * 5_000, ("x" * 4_999,)) == ()


@pytest.mark.parametrize(
    ("typed", "meant", "sure"),
    [
        ("lmap", "lamp", True),
        ("7 way blade", "7-way blade", True),
        ("7-wya blade", "7-way blade", True),
        ("6-way blade", "7-way blade", False),
        ("9 in", "7 in", False),
        ("1158", "1157", False),
        ("indicator", "turn", False),
    ],
)
def test_a_word_is_written_unasked_only_where_no_number_and_no_meaning_changes(
    typed: str, meant: str, sure: bool
) -> None:
    assert sure_of(typed, (meant,)) is sure
    assert not sure_of(typed, (meant, "another"))
    assert not sure_of(typed, ())
