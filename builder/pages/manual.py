"""The whole manual: every page of an edition, its assets and its data, as one manual source."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from builder.buildfile.ledger_text import ledger_text
from builder.buildfile.numbered import NumbersFile
from builder.buildfile.problems import Problem
from builder.drawings.label_sheets import SHEETS
from builder.numbers_beside import numbers_beside
from builder.pages.catalogue import LANGUAGE, catalogue
from builder.pages.csv_files import wires_csv
from builder.pages.drawn import Drawn, drawn
from builder.pages.escaping import markdown_text
from builder.pages.faces import face_files
from builder.pages.guide_places import INDEX
from builder.pages.lid_label import lid_files
from builder.pages.page_adding import adding_page
from builder.pages.page_as_built import as_built_page, has_changes
from builder.pages.page_assumed import assumed_page
from builder.pages.page_battery import battery_page, has_battery
from builder.pages.page_building_in import building_in_page, has_framing
from builder.pages.page_car_or_trailer import car_or_trailer_page, has_road_lamps
from builder.pages.page_care import care_page
from builder.pages.page_check import check_page
from builder.pages.page_circuit import circuit_page
from builder.pages.page_closing import closing_csv, closing_page, has_bays
from builder.pages.page_cuts import cuts_csv, cuts_page
from builder.pages.page_fasteners import fasteners_page, has_covers
from builder.pages.page_find import find_page
from builder.pages.page_frames import frame_files, frames_page, has_frames
from builder.pages.page_fuses import fuses_page
from builder.pages.page_garage import garage_page
from builder.pages.page_label_sheets import has_labels, label_sheet_files, pen_page, wrap_page
from builder.pages.page_labels import labels_csv, labels_page
from builder.pages.page_lamps import lamps_page
from builder.pages.page_landings import has_landings, landings_csv, landings_page
from builder.pages.page_lists import findings_page
from builder.pages.page_odd_lamps import has_odd_lamps, odd_lamps_page
from builder.pages.page_panel import panel_files, panel_page, panel_pages
from builder.pages.page_pulls import has_pulls, pulls_csv, pulls_page
from builder.pages.page_runs import has_places, runs_page
from builder.pages.page_scale import scale_files, scale_page
from builder.pages.page_shopping import shopping_page
from builder.pages.page_start import start_page
from builder.pages.page_stops import guides_page, guides_title, stops_page
from builder.pages.page_tests import tests_csv, tests_page
from builder.pages.page_towing import has_tow_plug, towing_page
from builder.pages.page_ways import has_ways, ways_page
from builder.pages.page_wires import wires_page
from builder.pages.page_words import words_page
from builder.pages.page_worked import worked_page
from builder.pages.record import to_text
from builder.pages.richer import more_lines
from builder.pages.rounding import Reader
from builder.pages.shopping_csv import costs_csv, shopping_csv
from builder.pages.source import ManualSource, NavEntry
from builder.pages.templates import render
from builder.pages.theme_files import theme_assets
from builder.pages.trade_words import marker
from builder.pages.verdict import Judgement, answer_text, judge_build
from builder.pages.view import Edition, View
from builder.pages.word_links import link_words
from builder.rules.finding import Level

_ALPHABET = "23456789ABCDEFGHJKMNPQRSTVWXYZ"


class BuildFileProblems(ValueError):  # noqa: N818 - it holds problems, it is not one error
    """A build file has problems; the text tells all of them."""

    def __init__(self, problems: tuple[Problem, ...], text: str) -> None:
        super().__init__(text)
        self.problems = problems


@dataclass(frozen=True, slots=True)
class _Leaf:
    """One page as it is written: its address without an ending, title, template, and what fills it."""

    path: str
    title: str
    template: str
    data: Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Page:
    """One page of the manual: its file, title and template, who reads it, what fills it, which builds have it."""

    path: str
    title: str
    template: str
    readers: tuple[str, ...]
    data: Callable[[View], Mapping[str, Any]]
    when: Callable[[View], bool] = lambda _: True


_RANKS = {
    "stops_circuit": "search: {boost: 0.1}\n",
    "stops_shared": "search: {boost: 0.1}\n",
    "check": "search: {exclude: true}\n",
}
"""How a search ranks pages of a template: a line of their front matter."""

_NUMBERED = frozenset(
    {
        "fuses",
        "towing",
        "garage",
        "stops_circuit",
        "stops_shared",
        "odd_lamps",
        "tests",
        "system",
        "cuts",
        "pulls",
    }
)
"""Templates of pages where somebody looks for a wire by its number, and that have no place of their own for the line
that tells of drafts."""

WORKSHOP = ("workshop",)
"""The readers of a page that the maker alone needs: such pages stand together at the end."""

PAGES = (
    Page("index", "Start here", "start", ("owner",), start_page),
    Page("fuses", "Fuses and the front box", "fuses", ("owner",), fuses_page),
    Page("wires", "Wire colours and numbers", "wires", ("owner",), wires_page),
    Page("scale", "The trailer to scale", "scale", ("owner",), scale_page, has_places),
    Page("ways", "Where the wires run", "ways", ("owner",), ways_page, has_ways),
    Page("find", "Find it", "find", ("owner",), find_page),
    Page("towing", "Towing and road lamps", "towing", ("owner",), towing_page, has_tow_plug),
    Page(
        "car-or-trailer",
        "Is it the car or the trailer?",
        "car_or_trailer",
        ("owner",),
        car_or_trailer_page,
        has_road_lamps,
    ),
    Page("garage", "A page for the garage", "garage", ("owner",), garage_page, has_tow_plug),
    Page("battery", "Battery and daily use", "battery", ("owner",), battery_page, has_battery),
    Page("stops", "If something stops working", "stops", ("owner",), stops_page),
    Page("odd-lamps", "A road lamp behaves oddly", "odd_lamps", ("owner",), odd_lamps_page, has_odd_lamps),
    Page("adding", "Adding something", "adding", ("owner",), adding_page),
    Page("care", "Care through the year", "care", ("owner",), care_page),
    Page("as-built", "As built", "as_built", ("owner",), as_built_page, has_changes),
    Page("worked", "How it was worked out", "worked", ("owner",), worked_page),
    Page("assumed", "What we assumed", "assumed", ("owner",), assumed_page),
    Page("findings", "Findings", "findings", WORKSHOP, findings_page),
    Page("lamps", "Lamps by the rule", "lamps", WORKSHOP, lamps_page, has_tow_plug),
    Page("shopping", "Shopping list", "shopping", WORKSHOP, shopping_page),
    Page("building-in", "Build in while framing", "building_in", WORKSHOP, building_in_page, has_framing),
    Page("frames", "Frame by frame", "frames", WORKSHOP, frames_page, has_frames),
    Page("cuts", "Cut list", "cuts", WORKSHOP, cuts_page),
    Page("labels", "Labels", "labels", WORKSHOP, labels_page),
    Page("wrap-labels", "Labels to wrap round", "wrap_labels", WORKSHOP, wrap_page, has_labels),
    Page("pen-labels", "Labels for a pen", "pen_labels", WORKSHOP, pen_page, has_labels),
    Page("pulls", "Pull plan", "pulls", WORKSHOP, pulls_page, has_pulls),
    Page("runs", "Chases and lengths", "runs", WORKSHOP, runs_page, has_places),
    Page("landings", "What lands where", "landings", WORKSHOP, landings_page, has_landings),
    Page("tests", "Test sheet", "tests", WORKSHOP, tests_page),
    Page("closing", "Closing list", "closing", WORKSHOP, closing_page, has_bays),
    Page("fasteners", "Fasteners and wires", "fasteners", WORKSHOP, fasteners_page, has_covers),
    Page("check", "What check says", "check", WORKSHOP, check_page),
)


SYSTEM = Page("system", "The whole system", "system", ("owner",), lambda _: {})
SIGNS = Page("signs", "Signs in the drawings", "signs", ("owner",), lambda _: {})
"""These two are filled by the drawings themselves; there is none where nothing was drawn."""
WORDS = Page("words", "Words used", "words_used", ("owner",), lambda _: {})
"""Filled by the pages before it: it explains the words that they use."""


def _drawn_pages(drawings: Drawn) -> list[tuple[Page, Mapping[str, Any]]]:
    return [(page, data) for page, data in ((SYSTEM, drawings.overview), (SIGNS, drawings.legend)) if data]


def _with_drawn(pages: list[Page], drawings: Drawn) -> list[Page]:
    """Put the whole system behind the first page, and the signs behind the wires."""
    there = [page for page, _ in _drawn_pages(drawings)]
    found: list[Page] = []
    for page in pages:
        found.append(page)
        found += [
            one for one, after in ((SYSTEM, "index"), (SIGNS, "wires")) if page.path == after and one in there
        ]
    return found


def content_number(data: bytes, numbers: NumbersFile | None = None) -> str:
    """Return the number that tells which print belongs to which file: from the bytes of the build file.

    The file of its numbers counts too, where there is one.

    >>> content_number(b"format: 1")
    'FCD2-43HZ'
    """
    whole = data if numbers is None else data + b"\0" + numbers.data
    number = int.from_bytes(hashlib.sha256(whole).digest()[:8], "big")
    signs = []
    for _ in range(8):
        number, rest = divmod(number, len(_ALPHABET))
        signs.append(_ALPHABET[rest])
    return "".join(signs[:4]) + "-" + "".join(signs[4:])


def manual_source_of_file(path: Path, edition: str) -> ManualSource:
    """Return the manual of a build file in an edition.

    Raises BuildFileProblems when the file has problems, OSError when it cannot be read.
    """
    data = path.read_bytes()
    numbers = numbers_beside(path)
    verdict = judge_build(data, path.name, numbers)
    if verdict.judged is None:
        raise BuildFileProblems(verdict.problems, answer_text(verdict))
    return manual_source(verdict.judged, content_number(data, numbers), edition)


def manual_source(judged: Judgement, content: str, edition: str) -> ManualSource:
    """Return the manual of a judged build: ``content`` is its content number, ``edition`` workshop or owner."""
    view = View(judged.trailer, judged.figures, judged.findings, Edition(Reader(edition), content))
    texts = catalogue(view.language)
    pages = [page for page in PAGES if view.edition.reads(*page.readers) and page.when(view)]
    drawings = drawn(view, view.language)
    titles: dict[str, str] = {}
    written: dict[str, str] = {}
    for leaf in _leaves(view, pages, drawings, texts.gettext):
        titles[leaf.path] = leaf.title
        written[f"{leaf.path}.md"] = _page(view, leaf)
    titles[WORDS.path] = texts.gettext(WORDS.title)
    assets = theme_assets()
    files: dict[str, str | bytes] = {**_with_words(view, written), **assets}
    files["assets/print.css"] = _print_sheet(view, titles)
    files |= view.pictures
    if view.edition.reads():
        files |= lid_files(view) | frame_files(view) | label_sheet_files(view)
    files |= drawings.files
    files |= face_files(view) | panel_files(view) | scale_files(view)
    if view.edition.reads():
        files |= _data(view)
    return ManualSource(
        title=texts.gettext("%(name)s wiring manual") % {"name": view.trailer.identity.name},
        language=LANGUAGE,
        edition=edition,
        content_number=content,
        files=files,
        nav=_nav(view, [*_with_drawn(pages, drawings), WORDS], texts.gettext),
        style_sheets=(*(path for path in assets if path.endswith(".css")), "assets/print.css"),
        scripts=tuple(path for path in assets if path.endswith(".js")),
    )


def _leaves(view: View, pages: Iterable[Page], drawings: Drawn, say: Callable[[str], str]) -> Iterator[_Leaf]:
    """Yield the pages of a manual, all but that of the words."""
    for page in pages:
        yield _Leaf(page.path, say(page.title), page.template, page.data(view))
    for page, told in _drawn_pages(drawings):
        yield _Leaf(page.path, say(page.title), page.template, told)
    for circuit in view.trailer.circuits:
        data = circuit_page(view, circuit) | {"drawing": drawings.circuits[circuit.number]}
        yield _Leaf(view.pages_of[circuit.number], first_upper(circuit.name), "circuit", data)
    for path, panel in panel_pages(view).items():
        yield _Leaf(path, first_upper(panel.panel.name), "panel", panel_page(view, path, panel))
    for path in view.guide_pages:
        template, told = guides_page(view, path)
        yield _Leaf(path, guides_title(view, path, say), template, told)


def _data(view: View) -> dict[str, str]:
    """Return the files of data that the workshop is given, by path: the record, and its lists as tables."""
    tables = {
        "wires": wires_csv,
        "shopping": shopping_csv,
        **({"costs": costs_csv} if view.trailer.prices else {}),
        "cuts": cuts_csv,
        **({"pulls": pulls_csv} if has_pulls(view) else {}),
        **({"closing": closing_csv} if has_bays(view) else {}),
        "landings": landings_csv,
        "labels": labels_csv,
        "test_sheet": tests_csv,
    }
    files = {"data/figures.json": to_text(view.record)}
    files |= {f"data/{name}.csv": made(view) for name, made in tables.items()}
    if view.trailer.ledger is not None:
        files["data/wire_numbers.csv"] = ledger_text(view.trailer.ledger)
    return files


def _with_words(view: View, written: Mapping[str, str]) -> dict[str, str]:
    """Return pages with links to the trade words that they use, and the page that explains these."""
    words = marker(view.language)
    linked, used = link_words(written, words)
    title = catalogue(view.language).gettext(WORDS.title)
    page = _page(view, _Leaf(WORDS.path, title, WORDS.template, words_page(used, words)))
    return {**linked, f"{WORDS.path}.md": page}


def first_upper(name: str) -> str:
    """Return a name as a title: its first letter large, the rest as the maker wrote it."""
    return name[:1].upper() + name[1:]


def _nav(view: View, pages: list[Page], say: Callable[[str], str]) -> tuple[NavEntry, ...]:
    circuits = tuple(
        NavEntry(first_upper(c.name), view.pages_of[c.number] + ".md") for c in view.trailer.circuits
    )
    entries = [
        _stops(view, page, say) if page.path == INDEX else _entry(page, say)
        for page in pages
        if page.readers != WORKSHOP
    ]
    workshop = tuple(_entry(page, say) for page in pages if page.readers == WORKSHOP)
    place = 2 if SYSTEM in pages else 1
    found = (
        *entries[:place],
        NavEntry(say("Circuits"), children=circuits),
        *entries[place:],
        *_panels(view, say),
    )
    return (*found, NavEntry(say("Workshop"), children=workshop)) if workshop else found


def _panels(view: View, say: Callable[[str], str]) -> tuple[NavEntry, ...]:
    panels = tuple(
        NavEntry(first_upper(one.panel.name), f"{path}.md") for path, one in panel_pages(view).items()
    )
    return (NavEntry(say("Behind the panels"), children=panels),) if panels else ()


def _entry(page: Page, say: Callable[[str], str]) -> NavEntry:
    return NavEntry(say(page.title), f"{page.path}.md")


def _stops(view: View, page: Page, say: Callable[[str], str]) -> NavEntry:
    """Return the line of the menu for what to do if something stops: its first page, then those of the guides."""
    guides = (NavEntry(guides_title(view, path, say), f"{path}.md") for path in view.guide_pages)
    return NavEntry(say(page.title), children=(NavEntry(say(page.title), f"{page.path}.md"), *guides))


def _page(view: View, leaf: _Leaf) -> str:
    """Return one page: front matter, head of the page, title, banner where something must be fixed, body."""
    identity = view.trailer.identity
    head = render(
        "head.jinja",
        view.language,
        {
            "identity": identity,
            "owner": view.edition.reader is Reader.OWNER,
            "content": view.edition.number,
            "path": leaf.path,
            "find_link": "" if leaf.path == "find" else "find.html",
            "must_fix": sum(finding.level is Level.MUST for finding in view.findings),
            "numbered": leaf.template in _NUMBERED and bool(view.trailer.wires),
            "drafts": view.drafts(),
        },
    )
    mark = None if leaf.template == WORDS.template else marker(view.language).mark
    body = render(f"pages/{leaf.template}.md.jinja", view.language, leaf.data, mark) + _foot(view, leaf.path)
    before, _, after = head.partition("<!-- title -->")
    # a search for a part finds the part's own circuit first, then the guide that names it in every step
    # what check may say of any build is no answer to a search in the manual of this one
    front = f"---\nhide: [toc]\n{_RANKS.get(leaf.template, '')}---"
    text = f"{front}\n{before.strip()}\n\n# {markdown_text(leaf.title)}\n\n{after.strip()}\n\n{body}"
    return text.replace("\n\n\n", "\n\n")


def _foot(view: View, path: str) -> str:
    """Return the last line of a page of the workshop's edition: what the build file could still say for it."""
    lines = more_lines(view, path) if view.edition.reads() else ()
    return "\n" + render("more.jinja", view.language, {"lines": lines}) if lines else ""


def _print_sheet(view: View, titles: Mapping[str, str]) -> str:
    identity = view.trailer.identity
    return render(
        "print.css.jinja",
        view.language,
        {
            "name": identity.name,
            "number": identity.number,
            "content": view.edition.number,
            "paper": identity.paper,
            "label_sheet": SHEETS[identity.paper],
            "titles": titles,
        },
    )
