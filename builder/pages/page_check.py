"""What check says: the page of every rule and every problem, the same in each workshop manual."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from html import escape
from typing import Any

from markupsafe import Markup

from builder.pages.escaping import slug
from builder.pages.problem_pages import ProblemPage, problem_pages
from builder.pages.view import View
from builder.rules.page import RulePage, page_of, without_marks
from builder.rules.registry import RULES


def check_page(_view: View) -> dict[str, Any]:
    """Return what the template of the reference is filled with."""
    return {"rules": _rules(), "problems": _problems()}


@cache
def _rules() -> tuple[dict[str, Any], ...]:
    return tuple(_rule(page_of(rule)) for rule in RULES)


@cache
def _problems() -> tuple[dict[str, Any], ...]:
    return tuple(_problem(page) for page in problem_pages().values())


def _rule(page: RulePage) -> dict[str, Any]:
    examples = (("Failing example", page.failing), ("Passing example", page.passing))
    return _entry(page.name, page.title, page.paragraphs, examples) | {"level": page.level.value}


def _problem(page: ProblemPage) -> dict[str, Any]:
    examples = (("Failing example", page.example),) if page.example else ()
    return _entry(page.name, page.title, page.paragraphs, examples)


def _entry(
    name: str, title: str, paragraphs: Sequence[tuple[str, str]], examples: Sequence[tuple[str, str]]
) -> dict[str, Any]:
    return {
        "id": slug(name),
        "name": name,
        "title": without_marks(title),
        "paragraphs": [(heading, without_marks(body)) for heading, body in paragraphs],
        "examples": [(heading, Markup(_code(text))) for heading, text in examples],  # noqa: S704 - it is escaped
    }


def _code(text: str) -> str:
    # On one line of the page: a blank line would end the block that Markdown leaves alone.
    return escape(text.rstrip()).replace("\n", "&#10;")
