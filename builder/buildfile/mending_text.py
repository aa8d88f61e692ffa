"""Edits of the text itself, where YAML cannot read it or reads something else than was meant.

Each function behind the tables below knows the problems of one kind and yields what may be meant, the likeliest
first. They may be wrong: `builder.buildfile.mending` tries each before it is offered.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.buildfile.edits import Edit
from builder.buildfile.leaves import Leaf
from builder.buildfile.mending_layout import LAYOUT
from builder.buildfile.mending_marks import MARKS
from builder.buildfile.mending_shapes import SHAPES
from builder.buildfile.problems import Problem

_BY_NAME = {**MARKS, **LAYOUT, **SHAPES}


def text_edits(leaf: Leaf, problem: Problem) -> Iterator[Edit]:
    """Yield what may mend a problem of the text."""
    maker = _BY_NAME.get(problem.name)
    if maker is not None:
        yield from maker(leaf, problem)
