"""Road lamps as they are written: what each shows, on which side, and the contacts that feed it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from builder.buildfile.declared import TrailerWords
from builder.buildfile.declared_circuits import ItemWords
from builder.buildfile.declared_road import ReflectorWords, RoadLampWords
from builder.buildfile.loom import Loom
from builder.buildfile.nodes import Text
from builder.buildfile.other_plugs import (
    add_second,
    as_second,
    other_pattern,
    plugs_with,
    second_with,
    that_have_one,
)
from builder.buildfile.problems import BLANK, Problem, add, instead, leave_out
from builder.buildfile.walking import lay_out
from builder.buildfile.written import Key, Written, fold
from builder.tables.tow_plugs import Side
from builder.trailer.model import FRONT_BOX, SECOND_PLUG, Reflector, TowPlug


@dataclass(frozen=True, slots=True)
class Lamp:
    """One road lamp on one side, with the items of its way from the front box."""

    name: str
    side: str
    words: RoadLampWords
    key: Key
    items: tuple[ItemWords, ...]
    by_contact: tuple[tuple[str, tuple[str, ...]], ...]


def road_lamps(loom: Loom, declared: Mapping[Key, RoadLampWords], plug: TowPlug) -> list[Lamp]:
    """Return every lamp, pairs taken apart, each with the contacts that feed it."""
    lamps = []
    for key, words in declared.items():
        for name, one in _pair(key, words.side):
            lamp = _lamp(loom, (key, name, one), words, plug)
            if lamp is not None:
                lamps.append(lamp)
    return lamps


def _lamp(loom: Loom, names: tuple[Key, str, str], words: RoadLampWords, plug: TowPlug) -> Lamp | None:
    key, name, side = names
    items = _items(loom, key, name, words)
    if items is None:
        return None
    contacts: dict[str, list[str]] = {}
    seen: set[str] = set()
    for shown in words.shows:
        if shown.value in seen and side != "right":
            loom.problem(
                shown.origin, "said twice", f"“{key}” shows {shown.value} twice here", "write it once"
            )
        if shown.value in seen:
            continue
        seen.add(shown.value)
        contact = plug.pattern.contact_for(
            shown.value, "left" if side == "left" else "right" if side == "right" else None
        )
        if contact is None:
            _no_contact(loom, (key, words, shown, side), plug)
            continue
        contacts.setdefault(contact.pin, []).append(shown.value)
    in_order = [contact.pin for contact in plug.pattern.contacts if contact.pin in contacts]
    return Lamp(name, side, words, key, items, tuple((pin, tuple(contacts[pin])) for pin in in_order))


def _no_contact(loom: Loom, lamp: tuple[Key, RoadLampWords, Written[str], str], plug: TowPlug) -> None:
    """Keep the problem of a function that no contact feeds: what helps is a side, another plug, or to leave it out."""
    if SECOND_PLUG in loom.broken:
        return  # it may have the contact
    key, words, shown, side = lamp
    by_side = side == "middle" and plug.pattern.contact_for(shown.value, "left") is not None
    which: Side | None = None if side == "middle" else "left"
    others, second = (find(shown.value, plug.pattern, which) for find in (plugs_with, second_with))
    only = len({written.value for written in words.shows}) == 1
    if by_side:
        loom.problem(
            shown.origin,
            "no such contact",
            f"a {plug.pattern.name} plug has no contact for a {shown.value} lamp in the middle",
            "give it a side: left, right or both" + that_have_one(others, "one for the middle"),
            instead("both", at=words.side.origin) if words.side else add("side: both", at=key.origin),
        )
        return
    loom.problem(
        shown.origin,
        "no such contact",
        f"a {plug.pattern.name} plug has no contact for a {shown.value} lamp"
        + (" in the middle" if side == "middle" else ""),
        ("take the lamp out" if only else "take it out of “shows”")
        + ", or change the pattern of the plug"
        + that_have_one(others)
        + as_second(second),
        (
            *other_pattern(others, loom.pattern_at),
            *add_second(second),
            *(leave_out(key.origin) if only else leave_out(shown.origin, "out")),
        ),
    )


def _items(loom: Loom, key: Key, name: str, words: RoadLampWords) -> tuple[ItemWords, ...] | None:
    if words.path and words.wire:
        loom.problem(
            words.wire.origin,
            "said twice",
            f"“{key}” has a path and a wire length",
            "keep one of them: wire is the short form",
        )
        return None
    if words.wire:
        item: ItemWords = ItemWords.model_validate(
            {key: Text(words.wire.text, words.wire.origin, quoted=False)}
        )
        return (item,)
    if not words.path:
        loom.problem(
            key.origin,
            "missing word",
            f"“{key}” has no wire",
            _no_wire_help(key, words),
            add(f"wire: {BLANK}"),
        )
        return None
    last = words.path[-1]
    if fold(last.name.value) not in (fold(key), fold(name)):
        loom.problem(
            last.name.origin,
            "item out of place",
            f"the path of “{key}” ends at “{last.name.value}”",
            f"let its last item be {key}",
            instead(f"{last.name.text}: {BLANK}, {key}", str(key)),
        )
        return None
    names = [*(item.name.value for item in words.path[:-1]), name]
    return tuple(
        lay_out(loom, start, item, end)
        for start, item, end in zip([FRONT_BOX, *names], words.path, names, strict=False)
    )


def check_draws(loom: Loom, declared: Mapping[Key, RoadLampWords]) -> None:
    """Keep a problem for every draw that is given for a function the lamp does not show."""
    for key, words in declared.items():
        shown = {written.value for written in words.shows}
        for function in words.draws:
            if fold(function) not in shown:
                loom.problem(
                    function.origin,
                    "word does not fit",
                    f"“{key}” does not show “{function}”",
                    f"it shows: {', '.join(sorted(shown))}",
                )


def check_shines(loom: Loom, declared: Mapping[Key, RoadLampWords]) -> None:
    """Keep a problem for every colour or bulb that is given for a function the lamp does not show."""
    for key, words in declared.items():
        shown = {written.value for written in words.shows}
        for function in (*words.shines, *words.bulb):
            if fold(function) not in shown | {"all"}:
                loom.problem(
                    function.origin,
                    "word does not fit",
                    f"“{key}” does not show “{function}”",
                    f"it shows: {', '.join(sorted(shown))}",
                )


def check_places(
    declared: Mapping[Key, RoadLampWords | ReflectorWords], trailer: TrailerWords | None
) -> list[Problem]:
    """Return the problems of lamps and reflectors that would be outside the trailer, or past its middle."""
    if trailer is None:
        return []
    widths = [width for width in (trailer.width, trailer.width_over_fenders) if width]
    widest = max(widths, key=lambda width: width.value, default=None)
    problems = []
    for key, words in declared.items():
        far = words.in_from_the_side
        if far and widest and far.value > widest.value / 2 + _HAIR_M:
            problems.append(
                Problem(
                    far.origin,
                    "outside the trailer",
                    f"“{key}” is {far.text} from the side of a trailer {widest.text} wide: past its middle",
                    "measure from the nearer side, or take it out",
                )
            )
        back = words.back_from_the_front
        if back and trailer.length and back.value > trailer.length.value + _HAIR_M:
            problems.append(
                Problem(
                    back.origin,
                    "outside the trailer",
                    f"“{key}” is {back.text} back from the front of a trailer {trailer.length.text} long",
                    "measure from the foremost point, tongue included, or take it out",
                )
            )
    return problems


_HAIR_M = 1e-6
"""What a measure in other units may be over by its rounding."""
_REAR = {"tail", "stop", "turn", "plate", "reverse", "fog", "identification"}
"""Functions that a trailer has at its rear alone (49 CFR 571.108 Table I-b, quoted)."""


def as_it_stands(words: RoadLampWords) -> dict[str, Any]:
    """Return what the file says of where a lamp is, its colours and what is built into it."""
    shown = {written.value for written in words.shows}
    own = "rear" if shown & _REAR else "front" if "front position" in shown else ""
    colors = {fold(function): written.value for function, written in words.shines.items()}
    every = colors.pop("all", "")
    bulbs = {fold(function): written.value for function, written in words.bulb.items()}
    bulb = bulbs.pop("all", "")
    return {
        "at": words.at.value if words.at else own,
        "shines": {function: every for function in sorted(shown) if every} | colors,
        "height_m": words.height.value if words.height else None,
        "in_m": words.in_from_the_side.value if words.in_from_the_side else None,
        "back_m": words.back_from_the_front.value if words.back_from_the_front else None,
        "count": words.count.value if words.count else 1,
        "reflector": words.reflector is not None and words.reflector.value,
        "bulbs": tuple(dict.fromkeys(written.value for written in words.bulb.values())),
        "bulb_of": {function: bulb for function in sorted(shown) if bulb} | bulbs,
        "on_hatch": words.on_the_hatch is not None and words.on_the_hatch.value,
    }


def _no_wire_help(key: Key, words: RoadLampWords) -> str:
    """Return the ways to say how long a lamp's wire is: its length, a path, or the places of both its ends."""
    pair = words.side is not None and words.side.value == "both"
    names = f"{key} left and {key} right" if pair else str(key)
    return (
        f"say under places where {names} and the other ends of the chases are, with path: [{key}], "
        "or write how long it is, as in wire: 5 ft"
    )


def reflectors(declared: Mapping[Key, ReflectorWords]) -> tuple[Reflector, ...]:
    """Return every reflector, pairs taken apart."""
    return tuple(
        Reflector(
            name=name,
            at=words.at.value,
            side=side,
            color=words.color.value if words.color else "",
            origin=key.origin,
            height_m=words.height.value if words.height else None,
            in_m=words.in_from_the_side.value if words.in_from_the_side else None,
            triangle=words.triangle is not None and words.triangle.value,
            back_m=words.back_from_the_front.value if words.back_from_the_front else None,
        )
        for key, words in declared.items()
        for name, side in _pair(key, words.side)
    )


def _pair(key: Key, side: Written[str] | None) -> tuple[tuple[str, str], ...]:
    """Return the name and the side of each: two where the file says both."""
    one = side.value if side else "middle"
    return ((f"{key} left", "left"), (f"{key} right", "right")) if one == "both" else ((str(key), one),)


def technology_of(lamps: Written[str] | None) -> str:
    """Return led or filament: the cautious filament where the file does not say."""
    return lamps.value if lamps else "filament"
