"""Names of things that have a price: as the shopping list prints them, and in the shorter words of the build file."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import cache

from pydantic_core import PydanticCustomError

from builder import quantities
from builder.buildfile.choices import FUSE_WORDS
from builder.buildfile.nodes import Text
from builder.buildfile.stock_keys import PAIR, fuse_named, wire_named
from builder.buildfile.suggesting import near_words
from builder.buildfile.value_sizes import read_stud, read_wire_size
from builder.buildfile.value_words import read_colour
from builder.buildfile.written import Key, fold
from builder.tables.bulbs import bulb_names
from builder.tables.part_kinds import part_kinds
from builder.tables.table import NoRow
from builder.tables.wire_colours import colour_words, combination_code
from builder.trailer.color import Color
from builder.trailer.landing_points import StudSize
from builder.trailer.origin import NOWHERE
from builder.trailer.places import ChaseKind
from builder.trailer.prices import CLIP, FLAT_STEEL, FUSE_HOLDER, PULL_STRING, STRAP, in_mm
from builder.trailer.size import Size


@dataclass(frozen=True, slots=True)
class PriceName:
    """What a price is of: ``keys`` are the names that lines of the shopping list go by, in small letters.

    ``shown`` is how it is printed, ``by_length`` tells whether it is sold by length.
    """

    keys: tuple[str, ...]
    shown: str
    by_length: bool = False


_BY_LENGTH = (ChaseKind.CONDUIT.value, ChaseKind.CHANNEL.value, PULL_STRING, FLAT_STEEL)
_PLACE_WORDS = ("screw", "post", "stud", "bolt", "blade", "for")
"""What the second line of a terminal on the list begins with: where it goes."""


def price_named(text: str, parts: Mapping[str, tuple[str, ...]]) -> PriceName | None:
    """Return what a price of this name is of; None where nothing on any shopping list goes by it.

    ``parts`` are the parts of the build by their folded names, each with the names that the list has for it: two for
    a pair of lamps.
    """
    own = parts.get(fold(text))
    if own is not None:
        return PriceName(tuple(name.casefold() for name in own), " ".join(text.split()))
    words = _tidy(text)
    return _wire(words) or _fuse(words) or _kind(words, text)


def nearest_names(text: str, parts: Mapping[str, tuple[str, ...]]) -> tuple[str, ...]:
    """Return the names that a wrong one may stand for, each of them one that `price_named` knows."""
    words = _tidy(text)
    name, tail = words[: _figure_in(words)].strip(), text[_figure_in(text) :].strip()
    known = (*parts, *_singular(), *(colour_words() if tail else ()))
    found = [
        *near_words(words, known),
        *(f"{one} {tail}".strip() for one in near_words(name, known)),
        *(phrase for phrase in _singular() if words.startswith(f"{phrase} ")),
        *near_words(name, known),
    ]
    near = next((one for one in found if price_named(one, parts)), None)
    if near is None:
        return ()
    own = parts.get(near, ())
    return own if len(own) == 1 else (near,)


def _figure_in(name: str) -> int:
    """Return where the first figure of a name stands; its length where it has none."""
    return next((place for place, letter in enumerate(name) if letter.isdigit()), len(name))


def size_meant(text: str) -> str:
    """Return which sizes a wire of a colour may have meant by one that nothing is sold in; empty for other names."""
    words = _tidy(text)
    name, tail = words[: _figure_in(words)].strip(), words[_figure_in(words) :]
    size = read_wire_size(tail) if name in (PAIR, *colour_words()) and tail else None
    return size.help if isinstance(size, quantities.Misread) else ""


def _tidy(text: str) -> str:
    """Return a name in small letters, without the commas and brackets that a table has between its lines."""
    return " ".join(re.sub(r"[,()]", " ", text.casefold()).split())


def _wire(words: str) -> PriceName | None:
    """Return wire by colour and size (``red RD 1.5 mm²``, ``red and white 1.5 mm² (pair)``); None for all else."""
    joined = " and " in words
    named = words.rpartition(" and ")[2].removesuffix(f" {PAIR}")
    found = _read_wire(named)
    if found is None:
        return None
    color, size = found
    pair = joined or color is None or words.endswith(f" {PAIR}")
    shown = f"{PAIR if pair else color} {size}"
    return PriceName((shown.casefold(),), shown, by_length=True)


def _read_wire(words: str) -> tuple[Color | None, Size] | None:
    for said in (words, _without_code(words)):
        try:
            return wire_named(Key.of(said, NOWHERE))
        except PydanticCustomError:
            continue
    return None


def _without_code(words: str) -> str:
    """Return the name of a wire without the code of its colour, which the list prints before the size."""
    match = re.fullmatch(r"(\D+) (\S+) (\d.*)", words)
    if match is None:
        return words
    name, code, size = match.groups()
    try:
        color = read_colour(Text(name, NOWHERE, quoted=False)).value
        same = combination_code(filter(None, (color.base, color.tracer))).casefold() == code
    except (PydanticCustomError, NoRow):
        return words
    return f"{name} {size}" if same else words


def _fuse(words: str) -> PriceName | None:
    """Return fuses by rating and kind, as in ``fuse 3 A`` and ``3 A violet blade, regular``; None for others."""
    said = re.fullmatch(r"(?:(?:blade )?fuses? )?(\d.*?)(?: fuses?)?", words)
    if said is None:
        return None
    colors = set(colour_words()) - set(FUSE_WORDS)
    rest = " ".join(word for word in said.group(1).split() if word not in colors)
    try:
        rating_a, series = fuse_named(Key.of(rest, NOWHERE))
    except PydanticCustomError:
        return None
    shown = f"fuse {rating_a:g} A {series}".rstrip()
    return PriceName((shown.casefold(),), shown)


def _kind(words: str, text: str) -> PriceName | None:
    """Return what goes by the name of its kind, and by a size, bore, bulb or colour behind it."""
    for phrase, kind in _phrases().items():
        if words != phrase and not words.startswith(f"{phrase} "):
            continue
        detail = _DETAILS.get(kind, _nothing)(words[len(phrase) :].strip())
        if detail is not None:
            shown = " ".join(text.split())
            return PriceName((" ".join((kind, *detail.split())).casefold(),), shown, kind in _BY_LENGTH)
    return None


@cache
def _phrases() -> dict[str, str]:
    """Return every word for a kind of thing, one or several, with the kind itself, the longest first."""
    found = _singular()
    found |= {f"{said}s": kind for said, kind in found.items()}
    return dict(sorted(found.items(), key=lambda entry: -len(entry[0])))


def _singular() -> dict[str, str]:
    """Return every word for one of a kind of thing, with the kind itself."""
    own = {kind: kind for kind in part_kinds() if kind != "fuse"}
    return own | {said: kind for kind, more in _SAID.items() for said in (kind, *more)}


_SAID: Mapping[str, tuple[str, ...]] = {
    "ring": ("ring terminal",),
    "push-on": ("push-on terminal", "push-on blade terminal"),
    "push-on for two": (
        "push-on terminal for two",
        "push-on that takes a second one",
        "push-on terminal that takes a second one",
        "push-on blade terminal that takes a second one",
    ),
    "splice": (),
    "contact": ("contact for a connector",),
    "bridge": ("bridge for two positions",),
    "grommet": (),
    "hole grommet": ("grommet or bushing in a hole", "bushing"),
    CLIP: ("clip for wires",),
    STRAP: ("strap", "flat strap or tape"),
    "steel plate": ("steel plate over a hole",),
    "backing block": ("wood for backing blocks",),
    "label": (),
    "bulb": (),
    "fuse": ("blade fuse",),
    FUSE_HOLDER: ("holder", "holder for a fuse"),
    "reflector": (),
    "triangle reflector": (),
    "road lamp": (),
    "front box": (),
    "supply bar": (),
    "fuse block": (),
    "supply link": ("link from supply bar to fuse block",),
    "ground bar": ("earth bar",),
    "strip": ("terminal strip",),
    "battery": (),
    "breakaway battery": (),
    "tow plug": (),
    "second plug": (),
    ChaseKind.CONDUIT.value: (),
    ChaseKind.CHANNEL.value: (),
    PULL_STRING: (),
    FLAT_STEEL: (),
}
"""What the shopping list calls its kinds of things, with the other words for each, as its pages print them."""


def _nothing(rest: str) -> str | None:
    return "" if not rest else None


def _size(rest: str) -> str | None:
    """Return a size of wire as it is printed, or nothing where nothing stands there; None for anything else."""
    size = read_wire_size(rest) if rest else None
    return "" if not rest else str(size) if isinstance(size, Size) else None


def _terminal(rest: str) -> str | None:
    """Return a size of wire alone; where the terminal goes does not change what it is."""
    found = _size_and_more(rest)
    return None if found is None or (found[1] and not _is_place(found[1])) else found[0]


def _ring(rest: str) -> str | None:
    """Return a size of wire, and that of the stud where one is named."""
    found = _size_and_more(rest)
    if found is None:
        return None
    size, more = found
    words = more.split()
    for at in range(len(words) + 1):
        place, said = " ".join(words[:at]), " ".join(words[at:])
        stud = read_stud(said) if said else None
        if (not place or _is_place(place)) and (not said or isinstance(stud, StudSize)):
            return f"{size} {stud or ''}".strip()
    return None


def _is_place(words: str) -> bool:
    return words.split(maxsplit=1)[0] in _PLACE_WORDS


def _size_and_more(rest: str) -> tuple[str, str] | None:
    """Return the size of wire that a text begins with, and what stands behind it; None where it begins with none."""
    words = rest.split()
    for at in (2, 1):
        size = _size(" ".join(words[:at]))
        if size is not None:
            return size, " ".join(words[at:])
    return None


def _splice(rest: str) -> str | None:
    """Return for how many conductors a splice is and the size of the thickest, as far as they are named."""
    match = re.fullmatch(r"(?:for (\d+)(?: conductors?)?)?(.*)", rest)
    size = _size(match.group(2).strip()) if match else None
    if match is None or size is None:
        return None
    return f"{f'for {int(match.group(1))}' if match.group(1) else ''} {size}".strip()


def _bore(rest: str) -> str | None:
    """Return a bore, how wide a channel, a loop or a strap is, or how thick steel is, in millimetres.

    What a channel is for, and how deep it is, tells it apart from no other.
    """
    said = re.sub(r"^inside (.*? wide)\b.*$", r"\1", rest)
    words = r"^(for a hole of|bore|for|loop of|loop)\b|\b(or more|thick|bore|wide|across)$"
    said = re.sub(words, "", said).strip()
    length_m = quantities.read_length(said) if said else None
    return "" if not rest else in_mm(length_m) if isinstance(length_m, float) else None


def _light(rest: str) -> str | None:
    return rest if rest in ("", "red", "amber", "white") else None


def _bulb(rest: str) -> str | None:
    return rest if not rest or rest in (name.casefold() for name in bulb_names()) else None


_DETAILS: Mapping[str, Callable[[str], str | None]] = {
    "ring": _ring,
    **dict.fromkeys(("push-on", "push-on for two"), _terminal),
    **dict.fromkeys(("contact", "supply link"), _size),
    "splice": _splice,
    **dict.fromkeys(
        (ChaseKind.CONDUIT.value, ChaseKind.CHANNEL.value, FLAT_STEEL, "steel plate", "grommet", CLIP, STRAP),
        _bore,
    ),
    **dict.fromkeys(("reflector", "triangle reflector"), _light),
    "bulb": _bulb,
}
"""How what stands behind the name of a kind is read; behind all others stands nothing."""


def parts_by_name(names: Iterable[str], pairs: Iterable[str]) -> dict[str, tuple[str, ...]]:
    """Return the parts of a build by their folded names; a pair of lamps by its own name has those of both."""
    found: dict[str, tuple[str, ...]] = {fold(pair): (f"{pair} left", f"{pair} right") for pair in pairs}
    return found | {fold(name): (name,) for name in names}
