"""What is said of closing up, resolved: which wires are in, and which bays are closed."""

from __future__ import annotations

import re
from collections.abc import Iterable

from builder.buildfile.problems import BLANK, Problem, instead, leave_out
from builder.buildfile.suggesting import did_you_mean, near_words
from builder.buildfile.validating import Declared
from builder.buildfile.value_reading import list_words
from builder.buildfile.written import Written, fold
from builder.trailer.bays import EVERYTHING, ClosedBay, Pulled, bays_of
from builder.trailer.model import Trailer
from builder.trailer.places import Geometry

NOT_PULLED = ("no", "not", "not yet", "never", "false")
"""What stands for a date where wires are not in yet."""
ANY_PHOTO = ("yes", "true", "taken", "done")
"""What tells that a photo was taken, and not which one."""
NO_PHOTO = ("none", "no")
"""What stands for a photo's name where none was taken."""
_WIRE_NUMBER = re.compile(r"\d+[A-Z]+|S\d+", re.IGNORECASE)
"""How wires are numbered: by their circuit and a letter, spare ones by S."""
_MOST = 6
"""Names that one sentence has room for."""


def resolve_pulled(declared: Declared, trailer: Trailer) -> tuple[tuple[Pulled, ...], list[Problem]]:
    """Return which circuits and spare wires are pulled, by the names of the model; and the problem of any other."""
    names = [circuit.name for circuit in trailer.circuits] + [wire.start.pin for wire in trailer.spares]
    known = {fold(EVERYTHING): EVERYTHING, **{fold(name): name for name in names}}
    found, problems = [], []
    for key, when in declared.pulled.items():
        name = known.get(fold(key))
        if name is not None and fold(when.value) in NOT_PULLED:
            continue
        if name is not None:
            found.append(Pulled(name, when.value, key.origin))
        elif fold(key) not in declared.broken:
            near = near_words(key, names)
            problems.append(
                Problem(
                    key.origin,
                    "pulled and unknown",
                    f"“{key}” is pulled, and no circuit and no spare wire has that name",
                    _pulled_help(key, near),
                    mends=(*instead(*near), *leave_out(key.origin)),
                )
            )
    return tuple(found), problems


def _pulled_help(name: str, near: tuple[str, ...]) -> str:
    """Return the way out for what is pulled: the nearest name, or that a wire has no name here."""
    if _WIRE_NUMBER.fullmatch(name):
        return (
            "circuits and spare wires are named here, and not single wires: "
            f"write the name of the one that {name} belongs to"
        )
    return did_you_mean(near) or f"write the name of a circuit or a spare wire, or {EVERYTHING}"


def resolve_closed(declared: Declared, geometry: Geometry) -> tuple[tuple[ClosedBay, ...], list[Problem]]:
    """Return which bays are closed, by the names that the closing list gives them; and the problem of any other."""
    known = {fold(bay.name): bay.name for bay in bays_of(geometry)}
    found, problems = [], []
    for key, words in declared.closed_bays.items():
        name = known.get(fold(key))
        if name is not None:
            photo = words.photo.value.strip() if words.photo else ""
            without = fold(photo) in NO_PHOTO
            if words.photo and fold(photo) in ANY_PHOTO:
                problems.append(_which_photo(words.photo))
                continue
            found.append(
                ClosedBay(
                    name,
                    "" if without else photo,
                    words.ends_insulated.value if words.ends_insulated else None,
                    key.origin,
                    words.date.value if words.date else "",
                    words.note.value if words.note else "",
                    without,
                )
            )
        elif declared.broken.isdisjoint({"body", "frames", "skins", fold(key)}):
            near = _meant(key, known.values())
            problems.append(
                Problem(
                    key.origin,
                    "unknown bay",
                    f"“{key}” is closed, and no bay of this trailer has that name",
                    (did_you_mean(near) or f"the bays are: {list_words(_first(known.values()))}")
                    if known
                    else "add the heading body with its profile and width, or a skin with corners: these have bays",
                    mends=(*instead(*near), *leave_out(key.origin)),
                )
            )
    return tuple(found), problems


def _which_photo(photo: Written[str]) -> Problem:
    """Return the problem of a photo that was taken, and of which nobody can find out which one it is."""
    return Problem(
        photo.origin,
        "photo without a name",
        f"“{photo.text}” does not say which photo it is",
        "write the name of the photo, as in photo: left-wall-bay-1.jpg, or none where none was taken",
        mends=instead(BLANK),
    )


def _meant(name: str, known: Iterable[str]) -> tuple[str, ...]:
    """Return which bays may be meant: those with a name like it, or those of the wall that it names."""
    names = list(known)
    wall = [one for one in names if fold(one).startswith(f"{fold(name)} bay ")]
    return tuple(wall[:_MOST]) or tuple(near_words(name, names))


def _first(names: Iterable[str]) -> tuple[str, ...]:
    listed = list(names)
    return (*listed[:_MOST], "…") if len(listed) > _MOST else tuple(listed)
