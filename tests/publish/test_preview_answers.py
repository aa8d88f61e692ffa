"""What a preview answers to a request, and what it lays over the pages: all without a process or a socket."""

from __future__ import annotations

import json
from http import HTTPStatus

import pytest
from bs4 import BeautifulSoup, Tag
from example_numbers import numbers_of
from sample_manual import ROOT

from builder.buildfile.ledger_text import ledger_text
from builder.buildfile.numbered import NumbersFile
from builder.buildfile.problems import SHOWN_AT_ONCE
from builder.pages.manual import content_number, manual_source
from builder.pages.previewed import findings_of_pages, panels, problems_banner, sentence_banner
from builder.pages.verdict import Judgement, judge_build
from builder.publish.showing import Request, Shown, answer, dressed, host_is_ours, moved_to, path_of
from builder.rules.page import page_of
from builder.rules.registry import RULES
from builder.trailer.ledger import Ledger

EXAMPLE = (ROOT / "example_build" / "trailer.yaml").read_bytes()
SMALLEST = (ROOT / "example_build" / "smallest" / "trailer.yaml").read_bytes()
PAGE = b"""<!doctype html><html><head><title>Fan</title></head>
<body dir="ltr"><nav><h1>Menu</h1></nav><article class="a">
<h1 id="fan">Fan</h1><p>It turns.</p></article></body></html>"""
MANUAL = {
    "index.html": PAGE.replace(b"Fan", b"Start here"),
    "circuit-03-fan.html": PAGE,
    "assets/manual.css": b"body {}",
    "data/wires.csv": b"number\r\n",
    "search/search_index.js": b"var __index = 1",
}
GOOD = Shown(MANUAL)


def ask(shown: Shown, target: str, method: str = "GET", host: str = "127.0.0.1:8012") -> tuple[int, str, str]:
    made = answer(shown, Request(method, target, [host]))
    return made.status, made.headers.get("Content-Type", ""), made.body.decode()


def judged(text: bytes) -> Judgement:
    numbers = numbers_of(text)
    if b"numbers: issued" in text:
        numbers = NumbersFile("trailer.numbers.csv", ledger_text(Ledger("Example", "")).encode())
    verdict = judge_build(text, "trailer.yaml", numbers)
    assert verdict.judged is not None
    return verdict.judged


def shown_parts(html: str, selector: str) -> list[str]:
    return [found.get_text(" ", strip=True) for found in BeautifulSoup(html, "html.parser").select(selector)]


# requests


@pytest.mark.parametrize(
    ("target", "path"),
    [
        ("/", "index.html"),
        ("/find.html?h=lamp#part-lamp", "find.html"),
        ("/circuit-03-fan.html", "circuit-03-fan.html"),
        ("/assets/a%20b.css", "assets/a b.css"),
        ("/folder/", "folder/index.html"),
        ("/../trailer.yaml", None),
        ("/assets/../../trailer.yaml", None),
        ("/%2e%2e/trailer.yaml", None),
        ("/..%2ftrailer.yaml", None),
        ("/..\\trailer.yaml", None),
        ("/a%00b", None),
        ("/%ff", None),
        ("http://example.org/", None),
        ("example.org:443", None),
        ("*", None),
        ("", None),
    ],
)
def test_a_target_means_one_file_of_the_manual_or_none(target: str, path: str | None) -> None:
    assert path_of(target) == path
    if path is None:
        assert ask(GOOD, target)[0] == HTTPStatus.BAD_REQUEST


@pytest.mark.parametrize(
    "host", ["127.0.0.1", "127.0.0.1:8012", "localhost:9", "LocalHost", "[::1]:8012", "[::1]"]
)
def test_the_machine_s_own_names_are_answered(host: str) -> None:
    assert host_is_ours(host)
    assert ask(GOOD, "/", host=host)[0] == HTTPStatus.OK


@pytest.mark.parametrize(
    "host",
    [
        "example.org",
        "example.org:8012",
        "localhost.example.org",
        "127.0.0.1.example.org",
        "127.0.0.1:8012.example.org",
        "localhost:8012:1",
        "0.0.0.0:8012",
        "[::1",
        "[::2]",
        "::1",
        "",
    ],
)
def test_any_other_host_is_refused_whatever_it_asks(host: str) -> None:
    for target in ("/", "/~preview/number", "/none"):
        status, _, body = ask(GOOD, target, host=host)
        assert status == HTTPStatus.FORBIDDEN
        assert "It turns" not in body
        assert GOOD.number not in body


@pytest.mark.parametrize("hosts", [(), ("127.0.0.1", "example.org"), ("127.0.0.1", "127.0.0.1")])
def test_a_request_names_exactly_one_host(hosts: tuple[str, ...]) -> None:
    assert answer(GOOD, Request("GET", "/", hosts)).status == HTTPStatus.FORBIDDEN


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "CONNECT"])
def test_a_preview_can_only_be_read(method: str) -> None:
    made = answer(GOOD, Request(method, "/", ["localhost"]))
    assert made.status == HTTPStatus.METHOD_NOT_ALLOWED
    assert made.headers["Allow"] == "GET, HEAD"  # RFC 9110, 15.5.6: a 405 names what is allowed
    assert answer(GOOD, Request("HEAD", "/", ["localhost"])).status == HTTPStatus.OK


def test_files_are_served_as_they_are_with_their_kind() -> None:
    kinds = {
        "assets/manual.css": "text/css; charset=utf-8",
        "data/wires.csv": "text/csv; charset=utf-8",
        "search/search_index.js": "text/javascript; charset=utf-8",
    }
    for path, kind in kinds.items():
        assert ask(GOOD, f"/{path}") == (HTTPStatus.OK, kind, MANUAL[path].decode())
    assert ask(GOOD, "/assets/none.css")[:2] == (HTTPStatus.NOT_FOUND, "text/plain; charset=utf-8")


def test_no_answer_is_kept_and_no_other_site_may_use_one() -> None:
    for target in ("/", "/assets/manual.css", "/none.html", "/~preview/number", "/circuit-03-pump.html", "*"):
        headers = answer(GOOD, Request("GET", target, ["localhost"])).headers
        assert headers["Cache-Control"] == "no-store"
        assert headers["Cross-Origin-Resource-Policy"] == "same-origin"
        assert headers["X-Content-Type-Options"] == "nosniff"


def test_the_preview_s_own_files_are_there_and_no_others() -> None:
    assert ask(GOOD, "/~preview/preview.js")[:2] == (HTTPStatus.OK, "text/javascript; charset=utf-8")
    assert ask(GOOD, "/~preview/preview.css")[:2] == (HTTPStatus.OK, "text/css; charset=utf-8")
    assert ask(GOOD, "/~preview/number")[2] == GOOD.number
    assert ask(GOOD, "/~preview/banner.jinja")[0] == HTTPStatus.NOT_FOUND


def test_every_style_sheet_and_script_that_the_preview_s_own_page_names_is_served() -> None:
    page = BeautifulSoup(ask(Shown(), "/")[2], "html.parser")
    named = [str(link["href"]) for link in page.select("link[rel=stylesheet]")]
    named += [str(script["src"]) for script in page.select("script")]
    assert len(named) == 4
    for address in named:
        assert ask(Shown(), address)[0] == HTTPStatus.OK


# what stands on the pages


def test_a_page_is_the_published_one_but_for_what_is_laid_over_it() -> None:
    shown = Shown(MANUAL, {"circuit-03-fan.html": "<aside>look</aside>"}, "<section>wrong</section>")
    page = ask(shown, "/circuit-03-fan.html")[2]
    assert page.index("<section>wrong") == page.index('<body dir="ltr">') + len('<body dir="ltr">')
    assert page.index("<aside>look") == page.index('<h1 id="fan">Fan</h1>') + len('<h1 id="fan">Fan</h1>')
    head = page[page.index("</title>") + len("</title>") : page.index("</head>")]
    assert f'data-shown="{shown.number}"' in head
    for piece in (head, "<section>wrong</section>", "<aside>look</aside>"):
        page = page.replace(piece, "", 1)
    assert page == PAGE.decode()
    assert "<aside>" not in ask(shown, "/")[2]


def test_what_is_no_whole_page_is_left_alone() -> None:
    for piece in (b"", b"<p>", b"<head></head>", b"<body></body>"):
        assert dressed(GOOD, "x.html", piece) == piece


def test_the_number_changes_with_anything_shown_and_with_nothing_else() -> None:
    same = Shown(dict(reversed(MANUAL.items())))
    others = [
        Shown({**MANUAL, "index.html": b"other"}),
        Shown({path: MANUAL[path] for path in list(MANUAL)[1:]}),
        Shown(MANUAL, {"index.html": "x"}),
        Shown(MANUAL, {"find.html": "x"}),
        Shown(MANUAL, banner="x"),
        Shown(),
    ]
    assert same.number == GOOD.number
    assert len({shown.number for shown in (GOOD, *others)}) == 1 + len(others)


def test_before_the_first_manual_every_page_says_what_goes_on() -> None:
    for target in ("/", "/circuit-03-fan.html"):
        status, _, page = ask(Shown(), target)
        assert status == HTTPStatus.SERVICE_UNAVAILABLE
        assert "The manual is being made." in page
        assert f'data-shown="{Shown().number}"' in page
    broken = Shown(banner="<section>wrong</section>")
    assert "<section>wrong" in ask(broken, "/")[2]
    assert "as soon as the file can be read" in ask(broken, "/")[2]


def test_a_circuit_s_page_is_found_again_under_its_new_name_or_number() -> None:
    manual = dict.fromkeys(
        ["circuit-01-pump.html", "circuit-02-fan.html", "circuit-03-con.html", "find.html"], b""
    )
    assert moved_to("circuit-07-fan.html", manual) == "circuit-02-fan.html"
    assert moved_to("circuit-03-radio.html", manual) == "circuit-03-con.html"
    assert moved_to("circuit-07-radio.html", manual) is None
    assert moved_to("wires.html", manual) is None
    assert moved_to("circuit-07-fan.html", {**manual, "circuit-04-fan.html": b""}) is None
    moved = answer(GOOD, Request("GET", "/circuit-03-roof-fan.html", ["localhost"]))
    assert (moved.status, moved.headers["Location"]) == (HTTPStatus.FOUND, "/circuit-03-fan.html")
    status, _, page = ask(GOOD, "/circuit-09-radio.html")
    assert status == HTTPStatus.NOT_FOUND
    assert BeautifulSoup(page, "html.parser").select("main a[href='/']")


# the banner


FUZE = b"""format: 1
build: {name: Quarry Bend, country: US}
parts: {fan: {kind: fan}}
circuits: {fan: {path: [fan: 12 ft], fuze: 3 A}}
"""


def test_the_banner_tells_file_line_column_sentence_and_way_out() -> None:
    verdict = judge_build(FUZE, "my/trailer.yaml")
    (problem,) = verdict.problems
    html = problems_banner(verdict, kept=True)
    (item,) = BeautifulSoup(html, "html.parser").select("li")
    assert "my/trailer.yaml:4:38" in item.get_text()
    assert problem.message in item.get_text()
    assert problem.help in item.get_text()
    assert isinstance(item.pre, Tag)
    assert item.pre.get_text() == FUZE.decode().splitlines()[3]
    assert [mark.get_text() for mark in item.select("mark")] == ["fuze"]
    assert "One problem in my/trailer.yaml." in html
    assert "the last good manual" in html
    assert "the last good manual" not in problems_banner(verdict, kept=False)


def test_the_banner_shows_many_problems_up_to_a_limit_and_counts_the_rest() -> None:
    parts = b"".join(b"  p%d: {kind: toaster}\n" % number for number in range(SHOWN_AT_ONCE + 7))
    verdict = judge_build(b"format: 1\nparts:\n" + parts, "t.yaml")
    html = problems_banner(verdict, kept=True)
    more = len(verdict.problems) - SHOWN_AT_ONCE
    assert len(shown_parts(html, "li")) == SHOWN_AT_ONCE
    assert f"{len(verdict.problems)} problems in t.yaml." in html
    assert f"{more} more problems are not shown here." in html


def test_hostile_text_in_the_banner_is_text() -> None:
    evil = "<script>alert(1)</script>\u202e' onload=x"
    text = f'format: 1\n"{evil}": 1\n'.encode()
    verdict = judge_build(text, '<img src=x onerror="alert(2)">.yaml')
    assert verdict.problems
    for html in (
        problems_banner(verdict, kept=True),
        sentence_banner("unreadable", verdict.name, True, evil),
    ):
        page = BeautifulSoup(html, "html.parser")
        assert not page.select("script, img")
        assert "<script>alert(1)</script>" in page.get_text()
        assert "onerror" in page.get_text()
    assert "\u202e" not in problems_banner(verdict, kept=True)


@pytest.mark.parametrize("why", ["gone", "unreadable", "unmade"])
def test_a_file_that_gives_no_manual_is_named_with_what_to_do(why: str) -> None:
    for kept in (True, False):
        (text,) = shown_parts(sentence_banner(why, "t.yaml", kept, "It is a folder."), "section")
        assert text.startswith("t.yaml ")
        assert ("last good manual" in text) is kept
        assert "by itself" in text
        assert "It is a folder." in text


# findings beside their page


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_each_rule_s_finding_stands_on_one_page_of_the_manual(rule: object) -> None:
    text = page_of(rule).failing.encode()  # type: ignore[arg-type]
    made = judged(text)
    pages = findings_of_pages(made)
    files = manual_source(made, content_number(text), "workshop").files
    assert all(page.replace(".html", ".md") in files for page in pages)
    assert sorted(made.findings, key=repr) == sorted(
        (finding for findings in pages.values() for finding in findings), key=repr
    )
    for page, findings in pages.items():
        numbers = {finding.circuit for finding in findings}
        (number,) = numbers
        assert page == "index.html" if number is None else page.startswith(f"circuit-{number:02d}-")


def test_a_panel_says_what_the_findings_page_says() -> None:
    example = judged(EXAMPLE)
    record = json.loads(str(manual_source(example, "X", "workshop").files["data/figures.json"]))
    made = panels(example)
    told = [text for html in made.values() for text in shown_parts(html, ".finding-title")]
    assert sorted(told) == sorted(finding["message"] for finding in record["findings"])
    for page, html in made.items():
        for finding in findings_of_pages(example)[page]:
            assert finding.help in shown_parts(html, ".preview-findings")[0]
            assert f"line {finding.origin.line}" in html


ROAD_LAMPS = b"""format: 1
build: {name: Quarry Bend, country: US}
tow plug: {pattern: 4-way flat, to front box: 7 ft}
front box: {fuse ways: 2, fuses: blade}
wire: {on the shelf: [16 AWG, 14 AWG]}
road lamps:
  rear lamp: {shows: [tail, stop, turn], side: both, wire: 14 ft}
"""


def test_a_build_without_findings_has_no_panel() -> None:
    quiet = judged(ROAD_LAMPS)
    assert not quiet.findings
    assert panels(quiet) == {}


def test_hostile_names_in_a_panel_are_text() -> None:
    evil = "<img src=x onerror=alert(1)> {{ config }}"
    text = SMALLEST.replace(b"parts:\n", f"parts:\n  '{evil}': {{kind: lamp, draws: 3 W}}\n".encode(), 1)
    made = panels(judged(text))
    assert list(made) == ["index.html"]
    for html in made.values():
        page = BeautifulSoup(html, "html.parser")
        assert evil in page.get_text()
        assert {tag.name for tag in page.find_all()} <= {"div", "details", "summary", "p", "span", "a"}
        assert [link["href"] for link in page.select("a")] == ["/findings.html"]
