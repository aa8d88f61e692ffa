"""A rule's own page: the docstring of its module, taken apart and laid out for a terminal.

The docstring has a first sentence, paragraphs that begin with a heading and a colon (``What:``, ``Why:``,
``Limit:``; where the way out depends on the stage, ``Walls open:`` and ``Walls closed:``), and two build files
after ``Failing example::`` and ``Passing example::``.
"""

from __future__ import annotations

import inspect
import re
import textwrap
from dataclasses import dataclass

from builder.rules.finding import Level, Rule

WIDTH = 88
_HEADED = re.compile(r"(Walls \w+|[A-Z]\w+): +(.*)", re.DOTALL)
_EXAMPLE = re.compile(r"^(Failing|Passing) example::\n\n((?:    .*(?:\n|$)|\n)+)", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class RulePage:
    """One rule's page.

    Attributes:
        name: the rule's name in plain words.
        level: the gravest that its findings may be.
        title: one sentence, what is wrong.
        paragraphs: heading and text of each, in the order of the page; line breaks are not kept.
        failing: a whole build file that the rule speaks about.
        passing: the same, mended.

    """

    name: str
    level: Level
    title: str
    paragraphs: tuple[tuple[str, str], ...]
    failing: str
    passing: str


def page_of(rule: Rule) -> RulePage:
    """Take a rule's docstring apart. Raises KeyError when one of the two examples is missing."""
    text = inspect.cleandoc(rule.page) + "\n"
    examples = {kind: textwrap.dedent(build).strip() + "\n" for kind, build in _EXAMPLE.findall(text)}
    title, *blocks = [block for block in _EXAMPLE.sub("", text).split("\n\n") if block.strip()]
    paragraphs: list[tuple[str, str]] = []
    for block in blocks:
        headed = _HEADED.match(block)
        heading, body = headed.groups() if headed else ("", block)
        paragraphs.append((heading, " ".join(body.split())))
    return RulePage(
        rule.name,
        rule.level,
        " ".join(title.split()),
        tuple(paragraphs),
        examples["Failing"],
        examples["Passing"],
    )


def page_text(page: RulePage) -> str:
    """Lay a rule's page out as plain text of at most 88 columns, its examples as they stand."""
    rows = [f"{page.name} ({page.level.value})", "", filled(page.title)]
    for heading, body in page.paragraphs:
        rows += ["", filled(f"{heading}: {body}" if heading else body)]
    for heading, build in (("Failing example", page.failing), ("Passing example", page.passing)):
        rows += ["", f"{heading}:", "", textwrap.indent(build, "    ").rstrip()]
    return "\n".join(rows) + "\n"


def filled(text: str) -> str:
    """Return a paragraph as plain text of at most 88 columns."""
    return textwrap.fill(without_marks(text), WIDTH, break_long_words=False, break_on_hyphens=False)


def without_marks(text: str) -> str:
    """Return a text without markup: a literal becomes a quotation, emphasis goes."""
    plain = re.sub(r"``(.+?)``", "“\\1”", text)
    return re.sub(r"(?<!\w)\*(\w[^*]*)\*", "\\1", plain)
