"""Names that hold a size or a rating.

Under ``in stock`` wire by colour and size, fuses by rating and kind, terminals by kind and size; under ``wire`` the
sizes of ``outside diameters``.
"""

from __future__ import annotations

import re
from typing import Annotated

from pydantic import PlainValidator, WithJsonSchema
from pydantic_core import PydanticCustomError

from builder import quantities
from builder.buildfile.choices import FUSE_WORDS
from builder.buildfile.nodes import Text
from builder.buildfile.problems import instead
from builder.buildfile.suggesting import did_you_mean, near_words
from builder.buildfile.value_reading import list_words, trouble
from builder.buildfile.value_sizes import read_stud, read_wire_size
from builder.buildfile.value_words import read_colour
from builder.buildfile.written import Key, origin_of
from builder.quantities import Misread
from builder.tables.bulbs import bulb_names
from builder.trailer.color import Color
from builder.trailer.landing_points import StudSize
from builder.trailer.origin import Origin
from builder.trailer.size import Size
from builder.trailer.stock import TERMINAL_KINDS

PAIR = "pair"
_WIRE_HELP = "write colour and size, as in red 16 AWG: 20 ft, or pair 16 AWG: 30 ft"
_FUSE_HELP = "write the rating, as in 5 A: 3, or 40 A blade maxi: 1"
_BORE_HELP = "write its inside diameter, as in 1 1/4 in: 6 ft"
_BULB_HELP = "write one of these:"
_TERMINAL_HELP = "write kind and size of wire, as in ring 16 AWG: 20"
_SIZE_ENDS = re.compile(r"\d\s*(?:awg|mm²|mm2)$", re.IGNORECASE)
"""How the size of wire ends that stands before a stud."""


def wire_named(key: Key) -> tuple[Color | None, Size]:
    """Return the colour and the size that a name of wire holds; the colour is None for pair cable.

    Raises the problem of a name that holds no size, or no colour before it.
    """
    words, size = _split(key, _WIRE_HELP)
    if words.casefold() == PAIR:
        return None, size
    if not words:
        raise _problem(key, f"“{key}” names no colour", _WIRE_HELP)
    return read_colour(Text(words, key.origin, quoted=False)).value, size


def terminal_named(key: Key) -> tuple[str, Size, StudSize | None]:
    """Return the kind, the size of wire and, of rings, the stud that a name of terminals holds, None where it has none.

    Raises the problem of any other name.
    """
    named, stud = _stud_behind(key)
    words, size = _split(named, _TERMINAL_HELP)
    kind = words.casefold().removesuffix("s") if words.casefold() not in TERMINAL_KINDS else words.casefold()
    if kind not in TERMINAL_KINDS:
        near = near_words(kind, TERMINAL_KINDS)
        hint = f"{did_you_mean(near)} " if near else ""
        raise _problem(
            key,
            f"“{words}” is no kind of terminal" if words else f"“{key}” names no kind of terminal",
            f"{hint}the kinds are: {list_words(TERMINAL_KINDS)}",
            *(f"{one} {size}" for one in near),
        )
    if stud is not None and kind != "ring":
        raise _problem(
            key,
            f"“{key}” names a stud, and only rings go on one",
            f"write {kind} {size}",
            f"{kind} {size}",
        )
    return kind, size, stud


def _stud_behind(key: Key) -> tuple[Key, StudSize | None]:
    """Return what stands before the size of a stud at the end of a name, and that size; all and None without one."""
    words = key.split()
    for place in range(1, len(words)):
        before, behind = " ".join(words[:place]), " ".join(words[place:])
        stud = read_stud(behind)
        if isinstance(stud, StudSize) and _SIZE_ENDS.search(before):
            return Key.of(before, key.origin), stud
    return key, None


def fuse_named(key: Key) -> tuple[float, str]:
    """Return the rating in amperes and the kind that a name of fuses holds; the kind is empty where it says none.

    Raises the problem of a name that is neither.
    """
    words = key.split()
    for place in range(len(words), 0, -1):
        rating = quantities.read_current(" ".join(words[:place]))
        if isinstance(rating, float):
            kind = " ".join(words[place:]).casefold()
            if kind and kind not in FUSE_WORDS:
                near = tuple(dict.fromkeys(FUSE_WORDS[one] for one in near_words(kind, FUSE_WORDS)))
                hint = f"{did_you_mean(near)} " if near else ""
                known = list_words(dict.fromkeys(FUSE_WORDS.values()))
                raise _problem(
                    key,
                    f"“{kind}” is no kind of fuse known here",
                    f"{hint}the kinds are: {known}",
                    *(f"{' '.join(words[:place])} {one}" for one in (*near, "")),
                )
            return rating, FUSE_WORDS.get(kind, "")
    raise _problem(key, f"“{key}” is no rating of a fuse", _FUSE_HELP)


def bulb_named(key: Key) -> str:
    """Return the bulb that a name is, as the table of bulbs has it; raises the problem of any other."""
    known = {name.casefold(): name for name in bulb_names()}
    if key.casefold() in known:
        return known[key.casefold()]
    near = [known[one] for one in near_words(key.casefold(), known)]
    raise _problem(
        key,
        f"“{key}” is no bulb known here",
        did_you_mean(near) or f"{_BULB_HELP} {list_words(bulb_names())}",
        *near,
    )


def _split(key: Key, help_: str) -> tuple[str, Size]:
    """Return what stands before the size in a name, and the size: the longest ending that is one."""
    words = key.split()
    for place in range(len(words)):
        size = read_wire_size(" ".join(words[place:]))
        if isinstance(size, Size):
            return " ".join(words[:place]), size
    digit = next((place for place, word in enumerate(words) if word[:1].isdigit()), None)
    if digit is not None:
        misread = read_wire_size(" ".join(words[digit:]))
        if isinstance(misread, Misread):
            colour = " ".join(words[:digit])
            raise _problem(
                key, misread.message, misread.help, *(f"{colour} {one}".strip() for one in misread.fixes)
            )
    raise _problem(key, f"“{key}” holds no size of wire", help_)


def _problem(key: Key, message: str, help_: str, *meant: str) -> PydanticCustomError:
    return trouble(key.origin, "name in stock", message, help_, instead(*(one.strip() for one in meant)))


def _wire_key(value: object) -> Key:
    key = _key(value)
    wire_named(key)
    return key


def _fuse_key(value: object) -> Key:
    key = _key(value)
    fuse_named(key)
    return key


def _bulb_key(value: object) -> Key:
    key = _key(value)
    bulb_named(key)
    return key


def _terminal_key(value: object) -> Key:
    key = _key(value)
    terminal_named(key)
    return key


def _size_key(value: object) -> Key:
    key = _key(value)
    size = read_wire_size(key)
    if isinstance(size, Misread):
        at = Origin(key.origin.line, key.origin.column + size.start, max(size.length, 1))
        raise trouble(at, "misread value", size.message, size.help, instead(*size.fixes, at=key.origin))
    return key


def size_named(key: Key) -> Size:
    """Return the size that a name under ``outside diameters`` is; raises ValueError where it is none."""
    size = read_wire_size(key)
    if isinstance(size, Misread):
        raise ValueError(size.message)
    return size


def _bore_key(value: object) -> Key:
    key = _key(value)
    bore_named(key)
    return key


def bore_named(key: Key) -> float:
    """Return the bore in metres that a name of conduit is; raises the problem of any other."""
    bore = quantities.read_length(key)
    if isinstance(bore, Misread):
        raise _problem(key, f"“{key}” is no bore of a conduit: {bore.message}", _BORE_HELP, *bore.fixes)
    return bore


def _key(value: object) -> Key:
    if isinstance(value, Key):
        return value
    raise trouble(
        origin_of(value),
        "name without a letter",
        "a name is wanted here",
        "write a name and a number behind a colon",
    )


_TEXT = WithJsonSchema({"type": "string"})
WireKey = Annotated[Key, PlainValidator(_wire_key), _TEXT]
FuseKey = Annotated[Key, PlainValidator(_fuse_key), _TEXT]
BulbKey = Annotated[Key, PlainValidator(_bulb_key), _TEXT]
SizeKey = Annotated[Key, PlainValidator(_size_key), _TEXT]
BoreKey = Annotated[Key, PlainValidator(_bore_key), _TEXT]
TerminalKey = Annotated[Key, PlainValidator(_terminal_key), _TEXT]
