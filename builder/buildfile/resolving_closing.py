"""What is said of closing up, resolved: which wires are in, and which bays are closed."""

from __future__ import annotations

from collections.abc import Iterable

from builder.buildfile.problems import Problem, instead, leave_out
from builder.buildfile.suggesting import did_you_mean, near_words
from builder.buildfile.validating import Declared
from builder.buildfile.value_reading import list_words
from builder.buildfile.written import fold
from builder.trailer.bays import EVERYTHING, ClosedBay, Pulled, bays_of
from builder.trailer.model import Trailer
from builder.trailer.places import Geometry

NOT_PULLED = ("no", "not", "not yet", "never", "false")
"""What stands for a date where wires are not in yet."""
NO_PHOTO = ("none", "no")
"""What stands for a photo's name where none was taken."""
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
                    did_you_mean(near) or f"write the name of a circuit or a spare wire, or {EVERYTHING}",
                    mends=(*instead(*near), *leave_out(key.origin)),
                )
            )
    return tuple(found), problems


def resolve_closed(declared: Declared, geometry: Geometry) -> tuple[tuple[ClosedBay, ...], list[Problem]]:
    """Return which bays are closed, by the names that the closing list gives them; and the problem of any other."""
    known = {fold(bay.name): bay.name for bay in bays_of(geometry)}
    found, problems = [], []
    for key, words in declared.closed_bays.items():
        name = known.get(fold(key))
        if name is not None:
            photo = words.photo.value.strip() if words.photo else ""
            without = fold(photo) in NO_PHOTO
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


def _meant(name: str, known: Iterable[str]) -> tuple[str, ...]:
    """Return which bays may be meant: those with a name like it, or those of the wall that it names."""
    names = list(known)
    wall = [one for one in names if fold(one).startswith(f"{fold(name)} bay ")]
    return tuple(wall[:_MOST]) or tuple(near_words(name, names))


def _first(names: Iterable[str]) -> tuple[str, ...]:
    listed = list(names)
    return (*listed[:_MOST], "…") if len(listed) > _MOST else tuple(listed)
