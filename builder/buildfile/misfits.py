"""Words that make no sense on a part of its kind: told before anything is made of the part."""

from __future__ import annotations

from builder.buildfile.declared_parts import PartWords
from builder.buildfile.problems import BLANK, Problem, add
from builder.buildfile.written import Key, Written, fold
from builder.quantities import read_count
from builder.tables.part_kinds import PartKind, part_kinds
from builder.trailer.origin import NOWHERE, Origin
from builder.trailer.parts import BREAKAWAY_SWITCH, CHARGE_LIMITER, CONTACTS, ISOLATOR, RELAY

RATED = (
    "fuse", "breaker", *CONTACTS, "dimmer", RELAY, ISOLATOR, BREAKAWAY_SWITCH, CHARGE_LIMITER, "connector",
)  # fmt: skip
"""Kinds that may have a ``rating:``; a connector's is that of each of its ways."""


def a_kind(kind: PartKind) -> str:
    """Return a kind with its article, as in ``an alarm``."""
    return f"{'an' if kind.word[0] in 'aeiou' else 'a'} {kind.word}"


def misfits(key: Key, words: PartWords) -> list[Problem]:
    """Return words that make no sense on a part of this kind."""
    problems = []
    kind = part_kinds()[words.kind.value]
    draw = words.draws
    if draw is not None and draw.value.per_m and words.lit_length is None:
        problems.append(
            Problem(
                draw.origin,
                "missing word",
                f"“{key}” draws so much per length, and its length is not given",
                "add its length, as in lit length: 5 ft",
                mends=add(f"lit length: {BLANK}"),
            )
        )
    if words.lit_length is not None and not (draw is not None and draw.value.per_m):
        problems.append(
            Problem(
                words.lit_length.origin,
                "word does not fit",
                f"the lit length of “{key}” changes nothing, because it does not say what it draws by length",
                "write what it draws by length, as in draws: 1.5 W per ft, or take “lit length” out",
            )
        )
    if draw is not None and kind.form in {"through", "joint", "traveller", "supply"}:
        problems.append(
            Problem(
                draw.origin,
                "word does not fit",
                f"{a_kind(kind)} draws nothing",
                "take “draws” out, or change the kind",
            )
        )
    if words.ways is not None and kind.word != "connector":
        problems.append(
            Problem(
                words.ways.origin,
                "word does not fit",
                f"{a_kind(kind)} has no ways",
                "only a connector has ways",
            )
        )
    if isinstance(words.outputs, Written):
        count = read_count(words.outputs.value)
        if not isinstance(count, int) or count > 40:
            problems.append(
                Problem(
                    words.outputs.origin,
                    "misread value",
                    f"“{words.outputs.value}” is not a number of outputs up to 40",
                    "write a whole number, or the outputs' names in square brackets",
                )
            )
    return [*problems, *_strangers(key, words, kind), *_outputs_twice(words)]


def _strangers(key: Key, words: PartWords, kind: PartKind) -> list[Problem]:
    """Return words that only other kinds of parts have."""
    strangers = (
        (
            words.rating,
            "rating",
            kind.word in RATED,
            "a fuse, a breaker, a connector or what switches",
            "what it takes is written draws",
        ),
        (
            words.outputs,
            "outputs",
            kind.form == "gate",
            "a receiver or a dimmer",
            "branches of its path take its place",
        ),
        (
            words.gives,
            "gives",
            kind.form in ("section", "supply"),
            "a supply or a charger",
            "what it takes is written draws",
        ),
        (
            words.gives_at,
            "gives at",
            kind.form in ("section", "supply"),
            "a supply, a charger or a converter",
            "the voltage that its watts are for is written at",
        ),
        (
            words.efficiency,
            "efficiency",
            kind.form == "section" or kind.word == "shore converter",
            "a converter or a charger",
            "what it takes is written draws",
        ),
    )
    return [
        Problem(
            place_of(value),
            "word does not fit",
            f"“{key}” is {a_kind(kind)}, and only {owner} has “{word}”",
            f"take it out, or change the kind (a receiver has outputs); {way_out}"
            if word == "outputs"
            else f"take it out, or change the kind; {way_out}",
        )
        for value, word, fits, owner, way_out in strangers
        if value is not None and not fits
    ]


def place_of(value: object) -> Origin:
    """Return where a written value, or the first of a list of them, stands."""
    first = value[0] if isinstance(value, list) and value else value
    return first.origin if isinstance(first, Written) else NOWHERE


def _outputs_twice(words: PartWords) -> list[Problem]:
    if not isinstance(words.outputs, list):
        return []
    seen: dict[str, Origin] = {}
    problems = []
    for name in words.outputs:
        if fold(name.value) in seen:
            problems.append(
                Problem(
                    name.origin,
                    "same name",
                    f"the output “{name.value}” stands here twice",
                    "give each its own name",
                )
            )
        seen.setdefault(fold(name.value), name.origin)
    return problems
