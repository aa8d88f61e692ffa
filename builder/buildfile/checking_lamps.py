"""Road lamps against their bulbs and their plug: too few filaments, and one contact that is used for two things."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from builder.buildfile.declared_road import RoadLampWords
from builder.buildfile.loom import Loom
from builder.buildfile.other_plugs import other_pattern, plugs_with_all, that_have_one
from builder.buildfile.problems import BLANK, Mend, instead, leave_out
from builder.buildfile.resolving_road import Lamp
from builder.buildfile.written import Key, fold
from builder.tables.bulbs import BRIGHT, bulb_names, filaments_of
from builder.tables.tow_plugs import PlugPattern
from builder.trailer.origin import Origin
from builder.trailer.plug_functions import EITHER

_EACH = {False: "{tail: R5W, stop: P21W, turn: PY21W}", True: "{tail: 67, stop: 1156, turn: 1156}"}
"""Bulbs by function: categories of UN Regulation No. 37, and trade numbers of SAE J573."""
_IN_WORDS = {1: "one filament", 2: "two filaments"}
_COUNTS = ("no", "one", "two", "three")


def check_bulbs(loom: Loom, lamps: Sequence[Lamp]) -> None:
    """Keep a problem for every bulb with fewer filaments than the contacts that would feed it.

    Each contact feeds a filament of its own; of two in a bulb one alone is bright enough for stop, turn and the
    like (common practice). How many a bulb has is in the table of bulbs, mostly from memory.
    """
    for lamp in lamps:
        named = {fold(function) for function in lamp.words.bulb}
        bulb = next((written for key, written in lamp.words.bulb.items() if fold(key) == "all"), None)
        groups = [[f for f in functions if f not in named] for _, functions in lamp.by_contact]
        groups = [group for group in groups if group]
        if bulb is None or not groups:
            continue
        bright = sum(bool(BRIGHT.intersection(group)) for group in groups)
        dim = len(groups) - bright
        has = filaments_of(bulb.value)
        if len(groups) <= has and max(bright, dim) <= 1:
            continue
        fed = {function for group in groups for function in group}
        shown = [written.value for written in lamp.words.shows if written.value in fed]
        fits = [
            name
            for name in bulb_names()
            if filaments_of(name) == 2 and name.isdigit() == bulb.value.isdigit()
        ]
        fits = fits if (bright, dim) == (1, 1) else []
        each = _EACH[bulb.value.isdigit()]
        loom.problem(
            bulb.origin,
            "too few filaments",
            f"{bulb.value} has {_IN_WORDS[has]}; {_row(shown)} need {_need(len(groups), bright)}",
            f"name the bulbs for each function, as in bulb: {each}"
            + (f"; bulbs of two filaments: {', '.join(fits)}" if fits else ""),
            instead(*fits, "{" + ", ".join(f"{function}: {BLANK}" for function in shown) + "}"),
        )


def _need(contacts: int, bright: int) -> str:
    count = _COUNTS[contacts] if contacts < len(_COUNTS) else str(contacts)
    return f"{count}, one for each contact" + (
        ", and only one of a bulb's is a bright one" if bright > 1 else ""
    )


def _row(words: Sequence[str]) -> str:
    return " and ".join([", ".join(words[:-1]), words[-1]]) if len(words) > 1 else words[0]


def check_shared_contact(
    loom: Loom, declared: Mapping[Key, RoadLampWords], pattern: PlugPattern, started: Mapping[str, Key]
) -> None:
    """Keep a problem where a contact that is for brakes or for reversing is used for both.

    Args:
        loom: keeps the problem.
        declared: the road lamps.
        pattern: the plug.
        started: the circuits that start at a function of the plug.

    """
    contact = next((one for one in pattern.contacts if {*one.functions} >= EITHER), None)
    if contact is None or "brake" not in started:
        return
    used: list[tuple[Origin, tuple[Mend, ...]]] = []
    for key, words in declared.items():
        shown = next((written for written in words.shows if written.value == "reverse"), None)
        if shown is not None:
            alone = len(words.shows) == 1
            used.append((shown.origin, leave_out(key.origin) if alone else leave_out(shown.origin, "out")))
    if "reverse" in started:
        used.append((started["reverse"].origin, leave_out(started["reverse"].origin)))
    others = plugs_with_all(sorted(EITHER), pattern)
    for origin, out in used:
        loom.problem(
            origin,
            "one contact for two",
            f"contact {contact.number} is either for brakes or for reversing, as the car has it: here it is for "
            f"“{started['brake']}” and for reversing",
            "leave one of the two out, or change the pattern of the plug"
            + that_have_one(others, "a contact for each"),
            (*other_pattern(others, loom.pattern_at), *out),
        )
