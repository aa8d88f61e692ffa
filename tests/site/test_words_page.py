"""Words used: each word that a page uses is linked there once and explained; names of the maker never are."""

from __future__ import annotations

import re
from copy import copy

import pytest
from bs4 import BeautifulSoup
from published import Site, source_of, text_of
from test_html_figures import own_texts

from builder.pages.trade_words import TradeWord, marker

PAGE = "words.html"
NAMED = """\
format: 1
build: {{name: Word Wren, country: US}}
battery: {{chemistry: agm, capacity: 60 Ah, to main fuse: 5 in, to front box: 4 ft}}
front box: {{fuse ways: 6, fuses: blade}}
tow plug: {{pattern: 4-way flat, to front box: 6 ft}}
wire: {{on the shelf: [16 AWG, 14 AWG, 8 AWG]}}
parts:
  {0}: {{kind: switch, where: "{0} beside {1}"}}
  {1}: {{kind: lamp, draws: 3 W}}
  {2}: {{kind: fan, draws: 1 A}}
circuits:
  {3}: {{path: [{0}: 6 ft, {1}: 3 ft]}}
  {4}: {{path: [{2}: 6 ft], note: "{1}"}}
road lamps:
  {5}: {{shows: [tail, stop, turn], side: both, wire: 14 ft}}
"""
TRADE = ("traveller", "coil", "relay", "current", "the dimmer and its tracer", "tail lamp")
PLAIN = ("travelmad", "cxil", "relxy", "curxent", "the dimmxr and its trxcer", "taxx lamp")


def links(site: Site, page: str) -> list[str]:
    return [str(link["href"]).partition("#")[2] for link in site.article(page).select("a.word")]


def listed(site: Site) -> dict[str, str]:
    """Return the words of the page by their anchors, in its order."""
    return {str(dt["id"]): text_of(dt) for dt in site.article(PAGE).select("dl.meanings dt")}


def linkable_text(site: Site, page: str) -> str:
    """Return what a page says in our words where a link may stand, word links included."""
    article = copy(site.article(page))
    away = (
        "h1, h2, h3, a:not(.word), svg, caption, summary, .fuse, .wire, .signal, .card, .formula, .page-head"
    )
    for tag in article.select(f"{away}, .list-head, .letters, [data-figure], .draft-note"):
        tag.replace_with(" ¦ ")
    text = " ".join(article.get_text(" ").split())
    names = {" ".join(own.split()) for own in own_texts(site)} - {""}
    mains = site.judged.trailer.mains
    names |= {mains.what, mains.done_by} if mains else set()
    # the record's own labels: a pattern, a supply, and a load with what it is
    plug = site.judged.trailer.tow_plug
    names |= {plug.pattern.name} if plug else set()
    names |= {supply["name"] for supply in site.record["supplies"]}
    geometry = site.judged.trailer.geometry
    names |= {*geometry.places, *geometry.chases}
    if page in ("scale.html", "ways.html"):
        text = re.sub(r"\b[A-Z]{2}\b", "¦", text)  # ways are lettered there: AH is no unit
    loads = (load for circuit in site.record["circuits"] for load in circuit["loads"])
    names |= {f"{load['part']} ({load['what']})" for load in loads if "what" in load}
    for own in sorted(names, key=len, reverse=True):
        text = re.sub(rf"(?<!\w){re.escape(own)}(?!\w)", "¦", text, flags=re.IGNORECASE)
    return text


def words_in(text: str) -> set[str]:
    """Return the anchors of the words in a text, each longer form taken out before a shorter one is looked for."""
    forms: list[tuple[str, TradeWord]] = [
        (form, word) for word in marker("en").words for form in word.forms if not form.startswith("=")
    ]
    found = set()
    for form, word in sorted(forms, key=lambda pair: len(pair[0]), reverse=True):
        text, times = re.subn(rf"(?<![\w-]){re.escape(form)}(?![\w-])", "¦", text, flags=re.IGNORECASE)
        if times:
            found.add(word.anchor)
    return found


def test_every_trade_word_on_a_page_is_linked_there_once(owner: Site) -> None:
    site, seen = owner, 0
    missing = {}
    for page in site.pages:
        if page in (PAGE, "assumed.html", "findings.html"):  # those two tell whole texts of the record
            continue
        found = links(site, page)
        assert len(found) == len(set(found)), page
        missing[page] = words_in(linkable_text(site, page)) - set(found)
        seen += len(found)
    assert {page: words for page, words in missing.items() if words} == {}
    assert seen > 100


def test_each_link_stands_on_a_form_of_its_word(site: Site) -> None:
    forms = {
        word.anchor: {form.removeprefix("=").casefold() for form in word.forms} for word in marker("en").words
    }
    for page in site.pages:
        for link in site.article(page).select("a.word"):
            target, _, anchor = str(link["href"]).partition("#")
            assert target == PAGE
            assert text_of(link).casefold() in forms[anchor], (page, link)


def test_no_word_link_stands_in_a_heading_a_link_or_a_picture(site: Site) -> None:
    for page in site.pages:
        for link in site.article(page).select("a.word"):
            parents = {parent.name for parent in link.parents}
            assert parents.isdisjoint({"a", "svg", "h1", "h2", "h3", "summary", "caption"}), (page, link)


def test_the_words_stand_in_alphabet_and_each_is_met_somewhere(site: Site) -> None:
    words = listed(site)
    heads = [head.casefold() for head in words.values()]
    assert heads == sorted(heads)
    met = {anchor for page in site.pages if page != PAGE for anchor in links(site, page)}
    for dd in site.article(PAGE).select("dl.meanings dd"):
        met |= {str(link["href"]).removeprefix("#") for link in dd.select("a")}
    assert set(words) == met


def test_each_meaning_is_one_sentence_or_two(owner: Site) -> None:
    for dd in owner.article(PAGE).select("dl.meanings dd"):
        assert 1 <= len(re.findall(r"[.](?:\s|$)", text_of(dd))) <= 3, dd
        assert len(text_of(dd).split()) <= 25, dd


def words_of(data: bytes) -> set[str]:
    page = BeautifulSoup(str(source_of(data, "owner").files["words.md"]), "html.parser")
    return {text_of(dt) for dt in page.select("dt")}


def test_only_words_of_this_trailer_are_explained(owner: Site) -> None:
    road_only = words_of(
        b"format: 1\nbuild: {name: A, country: DE}\ntow plug: {pattern: 13-pin, to front box: 2 m}\n"
        b"road lamps:\n  rear lamp: {shows: [tail, stop, turn], side: both, wire: 4 m}\n"
    )
    assert {"tow plug", "mm²", "fuse"} <= road_only
    assert {"isolating switch", "main fuse", "relay", "two-way switch", "Ah"}.isdisjoint(road_only)
    one_lamp = words_of(
        b"format: 1\nbuild: {name: A, country: US}\n"
        b"battery: {chemistry: agm, capacity: 20 Ah, to main fuse: 4 in, to front box: 2 ft}\n"
        b"front box: {fuse ways: 1}\nparts: {lamp: {kind: lamp, draws: 4 W}}\n"
        b"circuits: {light: {path: [lamp: 6 ft]}}\n"
    )
    assert {"tow plug", "strip", "tail lamp", "relay", "mm²"}.isdisjoint(one_lamp)
    assert {"tow plug", "relay", "two-way switch", "isolating switch", "mains"} <= set(listed(owner).values())


@pytest.mark.parametrize("edition", ["owner", "workshop"])
def test_a_name_that_is_a_trade_word_stays_a_name(edition: str) -> None:
    """Parts, circuits and lamps that are called like words of the trade make no link, and hide none."""
    one, other = (source_of(NAMED.format(*names).encode(), edition) for names in (TRADE, PLAIN))
    for path in ("index", "fuses", "wires", "find", "towing", "adding", "worked", "assumed", "words"):
        pages = [BeautifulSoup(str(source.files[f"{path}.md"]), "html.parser") for source in (one, other)]
        told = [[(str(a["href"]), a.get_text()) for a in page.select("a.word, dd a")] for page in pages]
        assert told[0] == told[1], path
        if path == "find":
            heads = [text_of(th) for th in pages[0].select("tbody th")]
            assert {*TRADE[:3], "tail lamp left", "tail lamp right"} <= set(heads)


def test_the_published_page_has_its_anchors(owner: Site) -> None:
    for page in owner.pages:
        for anchor in links(owner, page):
            assert owner.article(PAGE).find(id=anchor) is not None, (page, anchor)
