"""Parts: what the file says of each, with the blanks of its kind filled in as assumptions."""

from __future__ import annotations

import re
from collections.abc import Mapping

from builder.buildfile.assuming import Assumer
from builder.buildfile.declared_parts import PartWords
from builder.buildfile.misfits import a_kind, misfits
from builder.buildfile.problems import BLANK, Problem, beside, instead, leave_out
from builder.buildfile.suggesting import did_you_mean, near_words
from builder.buildfile.written import Key, Written, fold
from builder.quantities import read_count
from builder.tables.assumptions import defaults
from builder.tables.part_kinds import PartKind, part_kinds
from builder.trailer.model import BATTERY, FRAME, FRONT_BOX, TOW_PLUG, Assumption
from builder.trailer.parts import STRIP_LOSS, Draw, Form, Law, Part

LOW_SYSTEM_V = 9.0
"""Parts for less than this are not on the 12 V system: 5 V from a converter, say."""

_RESERVED = (BATTERY, FRONT_BOX, TOW_PLUG, FRAME, "fuse", "ground bar")
_WAY = re.compile(r"way \d+")
_CHARGER_GIVES = {"dc charger": (5.0, 10.0, 30.0), "shore converter": (10.0, 15.0, 30.0)}


def resolve_parts(
    declared: Mapping[Key, PartWords],
    waiting: Mapping[Key, Written[str]],
    assumer: Assumer,
    unread: frozenset[str],
    circuits: frozenset[str] = frozenset(),
) -> tuple[dict[str, Part], list[Problem]]:
    """Return every part by its folded name, and the problems of parts that do not fit their kind.

    ``unread`` are folded names of parts that are written but have problems of their own, ``circuits`` those of the
    circuits: a name of theirs is no part that waits.
    """
    parts: dict[str, Part] = {}
    problems: list[Problem] = []
    waits = {fold(key): value.value for key, value in waiting.items()}
    for key, words in declared.items():
        if is_reserved(key):
            problems.append(reserved(key))
            continue
        problems += misfits(key, words)
        parts[fold(key)] = _part(key, words, waits.get(fold(key), ""), assumer)
    first = next(iter(declared)).origin if declared else None
    for key in waiting:
        near = near_words(key, map(str, declared))
        if fold(key) not in parts and fold(key) not in unread and "parts" not in unread:
            if fold(key) in circuits and not near:
                problems.append(_circuit_waits(key))
                continue
            problems.append(
                Problem(
                    key.origin,
                    "unknown part",
                    f"“{key}” waits, but is not a part of this file",
                    did_you_mean(near) if near else "add it under parts",
                    mends=(
                        *instead(*near),
                        *beside(f"{key}: {{kind: {BLANK}}}", first),
                    ),
                )
            )
    return parts, problems


def _circuit_waits(key: Key) -> Problem:
    return Problem(
        key.origin,
        "unknown part",
        f"“{key}” waits, and it is a circuit: parts wait, and their wires are in",
        "write the parts of it that are not there yet, each by its name under parts",
        mends=leave_out(key.origin),
    )


def is_reserved(name: str) -> bool:
    """Tell whether a name is kept for one thing of the trailer, or for a way of the fuse block."""
    return fold(name) in _RESERVED or _WAY.fullmatch(fold(name)) is not None


def reserved(key: Key) -> Problem:
    """Return the problem of a name that is kept (see `is_reserved`)."""
    if fold(key) == "fuse":
        return Problem(
            key.origin,
            "reserved name",
            "“fuse” is the circuit's own fuse",
            "call it after what it protects",
            mends=instead("second fuse"),
        )
    if fold(key) not in _RESERVED:
        return Problem(
            key.origin,
            "reserved name",
            f"“{key}” is a place in the fuse block",
            "call it after what it does",
            mends=instead(f"part at {key}"),
        )
    return Problem(
        key.origin,
        "reserved name",
        f"“{key}” names the one {fold(key)} of the trailer",
        f"give this one another name, such as “second {fold(key)}”",
        mends=instead(f"second {fold(key)}"),
    )


def _part(key: Key, words: PartWords, waiting: str, assumer: Assumer) -> Part:
    kind = part_kinds()[words.kind.value]
    name = str(key)
    works, works_id = _works_from(kind, words, assumer)
    idle, idle_id = _idle(name, kind, words, assumer)
    gives_w, gives_a = _gives(name, kind, words, assumer)
    gives_v, gives_v_id = _gives_v(kind, words, assumer)
    return Part(
        name=name,
        kind=kind.word,
        form=Form(kind.form),
        origin=key.origin,
        where=words.where.value if words.where else "",
        draw=_draw(name, kind, words, assumer),
        lit_length_m=_lit_length_m(words, assumer),
        idle_a=idle,
        idle_assumption=idle_id,
        own_switch=bool(words.own_switch and words.own_switch.value),
        outputs=_outputs(kind, words),
        ways=words.ways.value if words.ways else None,
        works_from_v=works,
        works_from_assumption=works_id,
        rating_a=words.rating.value if words.rating else None,
        gives_w=gives_w,
        gives_a=gives_a,
        gives_v=gives_v,
        gives_v_assumption=gives_v_id,
        efficiency=_efficiency(kind, words, assumer),
        lead_length_m=words.leads.value if words.leads else None,
        leads_come_out=words.leads_come_out.value if words.leads_come_out else "",
        opening=words.opening.value if words.opening else "",
        note=words.note.value if words.note else "",
        waiting=waiting,
    )


def _draw(name: str, kind: PartKind, words: PartWords, assumer: Assumer) -> Draw | None:
    law = Law(kind.law)
    if words.draws is not None:
        value = words.draws.value.value
        if words.draws.value.per_m:
            value *= words.lit_length.value if words.lit_length else 1.0
        return Draw(value, words.draws.value.unit, law, words.at.value if words.at else 12.0)
    if kind.draw is None:
        return None
    low, usual, high = kind.draw
    id_ = f"draws of {name}"
    about = f"what {name} takes at 12.0 V"
    reason = f"the file does not say; usual for {a_kind(kind)}"
    value = assumer.value(Assumption(id_, about, usual, kind.draw_unit, low, high, reason, "practice"))
    return Draw(value, kind.draw_unit, law, assumption=id_)


def _lit_length_m(words: PartWords, assumer: Assumer) -> float | None:
    """Return the length of a strip in metres; what it loses along itself is then assumed."""
    if words.lit_length is None:
        return None
    general_default(STRIP_LOSS, assumer)
    return words.lit_length.value


def _idle(name: str, kind: PartKind, words: PartWords, assumer: Assumer) -> tuple[float, str]:
    if words.draws_when_idle is not None:
        return words.draws_when_idle.value, ""
    if not kind.idle_a:
        return 0.0, ""
    id_ = f"idle draw of {name}"
    reason = f"the file does not say; usual for {a_kind(kind)}"
    about = f"what {name} takes all the time"
    usual = kind.idle_a
    return assumer.value(Assumption(id_, about, usual, "A", usual / 4, usual * 4, reason, "practice")), id_


def _works_from(kind: PartKind, words: PartWords, assumer: Assumer) -> tuple[float | None, str]:
    if words.works_from is not None:
        return words.works_from.value, ""
    if kind.works_from_v is None:
        return None, ""
    if words.at is not None and words.at.value < LOW_SYSTEM_V:
        return None, ""  # made for another voltage than the table of kinds speaks of
    one = f"{'an' if kind.word[0] in 'aeiou' else 'a'} {kind.word}"
    id_ = f"lowest voltage of {one}"
    usual = kind.works_from_v
    reason = "parts that the file gives no limit for; usual for the kind"
    about = f"voltage that {one} works from"
    return assumer.value(
        Assumption(id_, about, usual, "V", usual - 1.5, usual + 1.0, reason, "practice")
    ), id_


def _outputs(kind: PartKind, words: PartWords) -> tuple[str, ...]:
    if kind.form != "gate":
        return ()
    if isinstance(words.outputs, list):
        return tuple(name.value for name in words.outputs)
    if words.outputs is None:
        return ()
    count = read_count(words.outputs.value)
    return tuple(str(n) for n in range(1, count + 1)) if isinstance(count, int) and count <= 40 else ()


def _gives(
    name: str, kind: PartKind, words: PartWords, assumer: Assumer
) -> tuple[float | None, float | None]:
    if words.gives is not None:
        value = words.gives.value
        return (value.value, None) if value.unit == "W" else (None, value.value)
    if kind.word == "solar module":
        id_ = f"gives of {name}"
        reason = "the file does not say; usual for a small trailer"
        return assumer.value(
            Assumption(id_, f"what {name} gives in full sun", 100, "W", 30, 200, reason, "practice")
        ), None
    if kind.word in _CHARGER_GIVES:
        low, usual, high = _CHARGER_GIVES[kind.word]
        reason = f"the file does not say; usual for {a_kind(kind)}"
        id_ = f"gives of {name}"
        return None, assumer.value(
            Assumption(id_, f"what {name} gives", usual, "A", low, high, reason, "practice")
        )
    return None, None


def general_default(id_: str, assumer: Assumer) -> float:
    """Return a general assumption, kept as one that this build rests on."""
    row = defaults()[id_]
    value = row.at(metric=assumer.metric)
    return assumer.value(
        Assumption(row.id, row.about, value, row.unit, row.low, row.high, row.reason, row.known)
    )


_GIVES_V = {
    "solar module": "solar voltage",
    "charge controller": "charging voltage",
    "dc charger": "charging voltage",
    "shore converter": "charging voltage",
}


def _gives_v(kind: PartKind, words: PartWords, assumer: Assumer) -> tuple[float | None, str]:
    """Return the voltage that a part gives, with the id of the assumption it rests on; empty when it is given."""
    if words.gives_at is not None:
        return words.gives_at.value, ""
    id_ = _GIVES_V.get(kind.word, "")
    return (general_default(id_, assumer), id_) if id_ else (None, "")


def _efficiency(kind: PartKind, words: PartWords, assumer: Assumer) -> float:
    if words.efficiency is not None:
        return words.efficiency.value / 100.0
    if kind.form == "section":
        return general_default("converter efficiency", assumer) / 100.0
    return 1.0
