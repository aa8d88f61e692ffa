"""The reference of words: every heading, word, kind and assumption of the build file, from the declaration."""

from __future__ import annotations

import re
import textwrap

from builder.buildfile.kind_reference import WIDTH, hanging, kind_block, kinds_text, plug_text, plugs_text
from builder.buildfile.reference_examples import HEADINGS
from builder.buildfile.reference_words import COLOUR, Group, Word, groups
from builder.buildfile.suggesting import nearest
from builder.buildfile.synonyms import meant_anywhere
from builder.tables.assumptions import Default, defaults
from builder.tables.part_kinds import part_kinds
from builder.tables.tow_plugs import plug_patterns, second_patterns
from builder.tables.wire_colours import colour_words

_INDENT = 22
_INTRO = """\
The headings of a build file and the words below each. What is not needed may be left out.
One word with an example: wiring-manual words WORD. All kinds: wiring-manual words kind.
"""


def reference_text() -> str:
    """Return every word with its kind of value, meaning and what counts where it is left out."""
    return "\n".join([_INTRO, *(_group_text(group) for group in groups())])


def word_text(asked: str) -> str | None:
    """Return what there is to say of a word, a listed value, a kind or an assumption; None for an unknown one."""
    wanted = _folded(asked)
    found = [word for group in groups() for word in group.words if _folded(word.word) == wanted]
    blocks = [_word_block(word) for word in found]
    if any(word.value == COLOUR for word in found):
        blocks.append(_filled(f"the colours: {', '.join(colour_words())}", "") + "\n")
    blocks += [
        _group_text(group)
        for group in groups()
        if _folded(group.title.partition(":")[0]) == wanted and group.title != HEADINGS
    ]
    if wanted == "kind":
        blocks.append(kinds_text())
    if wanted == "tow plug":
        blocks.append(plugs_text())
    if wanted == "second plug":
        blocks += [plug_text(name) for name in second_patterns()]
    blocks += [plug_text(name) for name in (*plug_patterns(), *second_patterns()) if _folded(name) == wanted]
    if wanted == "assume":
        blocks.append(assumptions_text())
    blocks += [kind_block(kind) for kind in part_kinds().values() if _folded(kind.word) == wanted]
    blocks += [_assumption_text(row) for row in defaults().values() if _folded(row.id) == wanted]
    if wanted not in map(_folded, (*part_kinds(), *plug_patterns(), *second_patterns(), "yes", "no")):
        blocks += [
            _choice_block(word, wanted, group) for group in groups() for word in _taking(group, wanted)
        ]
    return "\n".join(blocks) or None


def _taking(group: Group, wanted: str) -> list[Word]:
    """Return the words of a group whose closed list of values holds a folded one."""
    return [word for word in group.words if wanted in map(_folded, _choices(word))]


def _choices(word: Word) -> list[str]:
    listed = word.value.partition(";")[0].partition(": ")[2]
    return listed.split(", ") if listed else []


def _choice_block(word: Word, wanted: str, group: Group) -> str:
    """Say of a value where it is written, and which words beside it speak of it."""
    value = next(choice for choice in _choices(word) if _folded(choice) == wanted)
    heading = word.value.partition(":")[0]
    lines = [
        f"{value} ({heading}; in {group.title})",
        _filled(f"{word.word}: {word.meaning}", "  "),
        f"  as in: {word.word}: {value}",
    ]
    lines += [
        _filled(f"{other.word}: {other.meaning}", "  ")
        for other in group.words
        if other is not word and re.search(rf"\b{re.escape(value)}\b", other.meaning)
    ]
    return "\n".join(lines) + "\n"


def nearest_known(asked: str) -> str | None:
    """Return the known word that an unknown one most likely stands for, or None."""
    known = {_folded(word): word for word in known_words()}
    wanted = _folded(asked)
    near = nearest(wanted, known)
    return meant_anywhere(wanted) or (known[near] if near else None)


def known_words() -> tuple[str, ...]:
    """Return everything that ``word_text`` knows, each once: words, kinds, tow plugs, assumptions."""
    all_words = [word.word for group in groups() for word in group.words]
    return tuple(
        dict.fromkeys([*all_words, *part_kinds(), *plug_patterns(), *second_patterns(), *defaults()])
    )


def assumptions_text() -> str:
    """Return every general assumption with its value, its range, and the reason."""
    head = "What is assumed where the file is silent; assume: puts your own value in its place\n"
    return head + "".join(_assumption_text(row) for row in defaults().values())


def _folded(word: str) -> str:
    return " ".join(word.casefold().replace("-", " ").replace("_", " ").split())


def _group_text(group: Group) -> str:
    head = textwrap.fill(f"{group.title} - {group.note}", WIDTH, subsequent_indent="  ")
    return head + "\n" + "".join(_row(word) for word in group.words)


def _row(word: Word) -> str:
    status = [*(["needed"] if word.needed else []), word.value, *([word.left_out] if word.left_out else [])]
    margin = " " * (_INDENT + 2)
    meaning = textwrap.fill(
        word.meaning, WIDTH, initial_indent=f"  {word.word:<{_INDENT - 1}} ", subsequent_indent=margin
    )
    return meaning + "\n" + _filled("; ".join(status), margin) + "\n"


def _word_block(word: Word) -> str:
    status = "needed" if word.needed else word.left_out or "may be left out"
    return (
        f"{word.word} (in {word.group})\n"
        + _filled(f"{word.meaning}", "  ")
        + "\n"
        + _filled(f"{word.value}; {status}", "  ")
        + f"\n  as in: {word.example}\n"
    )


def _filled(text: str, margin: str) -> str:
    return textwrap.fill(text, WIDTH, initial_indent=margin, subsequent_indent=margin, break_on_hyphens=False)


def _assumption_text(row: Default) -> str:
    metric = f"; {row.metric_value:g} {row.unit} in a metric build" if row.metric_value != row.value else ""
    value = f"{row.value:g} {row.unit}{metric} ({row.low:g} to {row.high:g})"
    return hanging(row.id, f"{value}: {row.about}; {row.reason} [{row.known}]")
