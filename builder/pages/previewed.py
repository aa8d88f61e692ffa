"""What a preview lays over the finished pages: a banner when the file gives no manual, findings beside their page.

Nothing of it is part of a manual source, so nothing of it is ever published.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from markupsafe import Markup

from builder.buildfile.problems import SHOWN_AT_ONCE, Problem, marked_line, visible
from builder.pages.catalogue import LANGUAGE
from builder.pages.page_lists import finding_rows
from builder.pages.rounding import Reader
from builder.pages.templates import render
from builder.pages.theme_files import theme_text
from builder.pages.verdict import Judgement, Verdict
from builder.pages.view import Edition, View
from builder.rules.finding import Finding

START = "index.html"
_FOLDER = "preview"
_OWN_FILES = ("preview/preview.css", "preview/preview.js", "assets/colours.css", "assets/manual.css")


def own_files() -> dict[str, bytes]:
    """Return the style sheets and the script of the preview by their file names."""
    return {path.rpartition("/")[2]: theme_text(path).encode("utf-8") for path in _OWN_FILES}


def findings_of_pages(judged: Judgement) -> dict[str, tuple[Finding, ...]]:
    """Return the findings by the page they concern: a circuit's own page, else the page Start here.

    Pages without a finding are left out; addresses are those of the finished site.
    """
    view = View(judged.trailer, judged.figures, judged.findings, Edition(Reader.WORKSHOP, ""))
    found: dict[str, list[Finding]] = {}
    for finding in judged.findings:
        page = view.pages_of.get(finding.circuit) if finding.circuit is not None else None
        found.setdefault(START if page is None else f"{page}.html", []).append(finding)
    return {page: tuple(findings) for page, findings in found.items()}


def panels(judged: Judgement) -> dict[str, str]:
    """Return the panel of findings of each page that has one, as HTML by the page's address."""
    return {
        page: _render("findings", {"findings": finding_rows(findings), "circuit": page != START})
        for page, findings in findings_of_pages(judged).items()
    }


def problems_banner(verdict: Verdict, kept: bool) -> str:
    """Return the banner of a file with problems; ``kept`` tells whether a manual of before stands below it."""
    shown = verdict.problems[:SHOWN_AT_ONCE]
    more = {
        "problems": [_problem(problem, verdict) for problem in shown],
        "count": len(verdict.problems),
        "more": len(verdict.problems) - len(shown),
    }
    return _banner("problems", verdict.name, kept, more)


def sentence_banner(why: str, name: str, kept: bool, sentence: str = "") -> str:
    """Return the banner of a file that gives no manual for a reason outside its text.

    Args:
        why: ``gone``, ``unreadable`` or ``unmade`` (read, but not published).
        name: the file as the user wrote it.
        kept: whether a manual of before stands below the banner.
        sentence: what is wrong, in words for the maker.

    Returns:
        HTML.

    """
    return _banner(why, name, kept, {"sentence": sentence})


def head_pieces(number: str) -> str:
    """Return what goes into the head of every page; ``number`` stands for all that is shown just now."""
    return _render("head", {"number": number})


def own_page(what: str, number: str, banner: str) -> str:
    """Return a whole page of the preview's own.

    Args:
        what: ``waiting`` for the first manual, ``missing`` from the manual, or ``nothing`` to show.
        number: stands for all that is shown just now.
        banner: HTML, or nothing.

    Returns:
        HTML.

    """
    data = {
        "what": what,
        "language": LANGUAGE,
        "head": Markup(head_pieces(number)),  # noqa: S704 - made by our own template
        "banner": Markup(banner),  # noqa: S704 - made by our own template
    }
    return _render("page", data)


def _banner(why: str, name: str, kept: bool, more: Mapping[str, Any]) -> str:
    plain = {"problems": [], "count": 0, "more": 0, "sentence": ""}
    return _render("banner", {**plain, "why": why, "name": visible(name), "kept": kept, **more})


def _problem(problem: Problem, verdict: Verdict) -> dict[str, str]:
    before, word, after = marked_line(verdict.lines, problem.origin)
    return {
        "place": f"{visible(verdict.name)}:{problem.origin.line}:{problem.origin.column}",
        "message": visible(problem.message),
        "help": visible(problem.help),
        "before": before,
        "word": word,
        "after": after,
    }


def _render(piece: str, data: Mapping[str, Any]) -> str:
    return render(f"{_FOLDER}/{piece}.jinja", LANGUAGE, data)
