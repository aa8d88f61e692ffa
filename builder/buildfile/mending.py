"""Edits that mend a problem: each is tried on a copy before it is offered.

What may mend a problem comes from the one who told of it and from what is known of its kind; what is offered are
those edits after which the reader no longer tells of it, and of no new thing that cannot be read.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace

from builder.buildfile.edits import Edit, apply_edits, can_be_edited
from builder.buildfile.leaves import Leaf
from builder.buildfile.mending_entries import (
    TAKE,
    added,
    blanks,
    comments,
    taken_out,
    taken_out_with,
    written,
)
from builder.buildfile.mending_text import text_edits
from builder.buildfile.problems import Problem
from builder.buildfile.resolving import read_build

MOST_OFFERED = 3
MOST_TRIED = 40
TRIED_BYTES = 1_000_000
"""How much is read again at most, so that a large file is answered in good time; what is left gets no edit."""

UNREADABLE = frozenset({
    "anchor", "backslash", "bracket not closed", "colon in a value", "curly quotes", "dash among names",
    "dash behind a name", "dash in brackets", "empty item", "half a character", "line among dashes",
    "line set in wrongly", "list at the top", "mark inside quotes", "merge key", "missing colon", "missing comma",
    "missing name", "missing space after colon", "name is not a text", "nested too deeply", "not readable",
    "quote not closed", "refers to itself", "several documents", "sign at the start", "stray sign", "tab", "tag",
    "text at the top", "text behind brackets", "text behind quotes", "two colons", "unreadable bytes",
    "wrong bracket", "control character", "invisible character", "line separator",
})  # fmt: skip
"""Problems of the text itself, whatever it is about."""

NO_EDIT = {
    "still blank": "only the maker knows what belongs there",
    "file too large": "what may go is the maker's to say",
    "too many entries": "what may go is the maker's to say",
    "numbers file damaged": "only a copy of that file knows what is on the labels",
    "numbers file missing": "only a copy of that file knows what is on the labels",
    "number issued twice": "only the labels tell which wire has the number",
    "change of an unknown wire": "only the label tells which wire was meant",
    "change of a draft": "a number has to be issued first",
    "numbers of another trailer": "whether it is the same trailer is the maker's to say",
}
"""Problems that no edit can mend, each with the reason."""

REVEALING = UNREADABLE | {"comment in a value", "comma in a text", "comma in a number"}
"""Problems that hide what stands behind them: what comes to light there is no fault of the edit."""

HIDING = frozenset({"name written twice"})
"""Problems that hide what stands elsewhere, and nothing in the words that mend them."""

_PLACE = re.compile(r"\b(lines?|column) \d+(?:, \d+)*|byte \d+, ")

_Tier = Callable[[Leaf, Problem], Iterator[Edit]]
_TIERS: tuple[tuple[_Tier, ...], ...] = (
    (written,),
    (text_edits,),
    (added,),
    (taken_out, blanks),
    (taken_out_with,),
    (comments,),
)


@dataclass(slots=True)
class _Trials:
    """Readings of copies, as many as the size of the file allows."""

    data: bytes
    before: Counter[tuple[str, str]]
    left: int
    seen: dict[Edit, tuple[Counter[tuple[str, str]], tuple[Problem, ...]]] = field(default_factory=dict)

    def new_problems(self, edit: Edit, problem: Problem) -> tuple[int, int] | None:
        """Return how many new problems there are in an edit's own text and elsewhere; None where it does not mend.

        Blanks are not counted.

        An edit does not mend either where it leaves something on its own lines that cannot be read.
        """
        if edit not in self.seen:
            if self.left <= 0:
                return None
            self.left -= 1
            after = read_build(apply_edits(self.data, [edit])).problems
            self.seen[edit] = Counter(map(kind_of, after)), after
        counts, after = self.seen[edit]
        mended = kind_of(problem)
        if counts[mended] >= self.before[mended]:
            return None
        new = counts - self.before
        last = edit.line + edit.text.count("\n") + 1
        here = [one for one in after if kind_of(one) in new and edit.line <= one.origin.line <= last]
        if any(one.name in UNREADABLE for one in here):
            return None
        near = sum(one.name != "still blank" and _within(edit, one) for one in here)
        return near, sum(count for (name, _), count in new.items() if name != "still blank") - near


def _within(edit: Edit, problem: Problem) -> bool:
    """Tell whether a problem lies in what an edit has written on its only line; of several lines all count."""
    start, end = problem.origin.column, problem.origin.column + problem.origin.length
    return "\n" in edit.text or (start < edit.column + len(edit.text) and end > edit.column)


def kind_of(problem: Problem) -> tuple[str, str]:
    """Return what makes a problem the same before and after an edit: its name and its sentence, without the places."""
    return problem.name, _PLACE.sub(r"\1", problem.message)


def edits_of(
    data: bytes, lines: Sequence[str], problems: Sequence[Problem], only: Sequence[Problem] | None = None
) -> list[tuple[Edit, ...]]:
    """Return the edits of each problem of a build file, or of ``only`` some of them, the likeliest first.

    Args:
        data: the bytes of the file.
        lines: its lines, as they were read.
        problems: all its problems.
        only: those that are asked for; all where it is None.

    """
    asked = problems if only is None else only
    if not can_be_edited(data):
        return [()] * len(asked)
    leaf = Leaf(data, tuple(lines))
    most = min(MOST_TRIED * max(1, len(asked)), TRIED_BYTES // max(1, len(data)))
    trials = _Trials(data, Counter(map(kind_of, problems)), most)
    return [_edits(leaf, problem, trials) for problem in asked]


def _edits(leaf: Leaf, problem: Problem, trials: _Trials) -> tuple[Edit, ...]:
    if problem.name in NO_EDIT:
        return ()
    tried: dict[Edit, tuple[int, int]] = {}
    for tier in _TIERS:
        every = (edit for maker in tier for edit in maker(leaf, problem))
        for edit in _some(every):
            new = trials.new_problems(edit, problem)
            if new is not None:
                tried.setdefault(edit, new)
        # A part that can be read again brings to light what is wrong with its path, and so on.
        reveals = problem.name in REVEALING | HIDING or tier == (written,)
        good = [edit for edit, new in tried.items() if new[0] == 0 and (new[1] == 0 or reveals)]
        good = list(tried) if problem.name in REVEALING else good
        if good:
            least = min(sum(tried[edit]) for edit in good)
            return _offered([edit for edit in good if sum(tried[edit]) == least])
    return _offered(sorted(tried, key=lambda edit: tried[edit]))


def _offered(edits: Sequence[Edit]) -> tuple[Edit, ...]:
    """Return what is offered of the edits that mend: one where all are matters of spelling, else a few.

    Of several that take something out only the one that takes out least is offered.
    """
    if edits and all(edit.sure for edit in edits):
        return (edits[0],)
    out = [edit for edit in edits if edit.what.startswith(TAKE)]
    few = [edit for edit in edits if edit not in out[1:]]
    if out and few.index(out[0]) >= MOST_OFFERED:
        few = [*few[: MOST_OFFERED - 1], out[0]]
    few = few[:MOST_OFFERED]
    return tuple(replace(edit, sure=False) if len(few) > 1 else edit for edit in few)


def _some(edits: Iterable[Edit]) -> Iterator[Edit]:
    """Yield the edits that differ, up to the most that are tried."""
    seen: set[Edit] = set()
    for edit in edits:
        if edit not in seen and len(seen) < MOST_TRIED:
            seen.add(edit)
            yield edit
