"""What ``explain`` prints: the page of a rule or of a problem, and the list of all their names."""

from __future__ import annotations

from builder.buildfile.suggesting import nearest
from builder.pages import problem_pages
from builder.rules import page as rule_pages
from builder.rules.registry import RULES, rule_named


def explained(name: str) -> str | None:
    """Return the page of a rule or a problem as text, or None where there is none of that name."""
    rule = rule_named(name)
    if rule is not None:
        return rule_pages.page_text(rule_pages.page_of(rule))
    problem = problem_pages.problem_pages().get(_tidy(name))
    return problem_pages.page_text(problem) if problem else None


def list_of_names() -> str:
    """Return the names of all rules and problems, each with what it is about."""
    rules = [rule_pages.page_of(rule) for rule in RULES]
    rows = [f"  {page.name:<20} {page.level.value:<12} {page.title}\n" for page in rules]
    problems = [f"  {page.name:<26} {page.title}\n" for page in problem_pages.problem_pages().values()]
    return (
        "The rules, and how grave each can be:\n"
        + "".join(rows)
        + "\nThe problems that keep a build file from being read:\n"
        + "".join(problems)
    )


def nearest_name(asked: str) -> str | None:
    """Return the name of a rule or a problem that a misspelt one most likely stands for, or None."""
    return nearest(asked, [*(rule.name for rule in RULES), *problem_pages.problem_pages()])


def _tidy(name: str) -> str:
    """Return the problem that is meant whatever its capitals, blanks and hyphens; empty where none is."""
    found = {_plain(page): page for page in problem_pages.problem_pages()}
    return found.get(_plain(name), "")


def _plain(name: str) -> str:
    return " ".join(name.casefold().replace("-", " ").split())
