"""The pages for what stops working, parsed, against the guides of the record: both ways."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Any

import pytest
from bs4 import Tag
from published import Site, sheets, text_of
from site_figures import guides_of_page

METER = ("battery", "volts", "drop", "ohms", "rise")


def guides_on(site: Site, page: str) -> list[Mapping[str, Any]]:
    """Return the guides that stand on a page: those of its circuit, or of its group."""
    shared = {"shared": page.removeprefix("stops-").removesuffix(".html")}
    return guides_of_page(site.record, site.guide_pages.get(page, shared))


def pages_of_guides(site: Site) -> list[str]:
    return [page for page in site.pages if page.startswith("stops-")]


def blocks(site: Site) -> Iterator[tuple[str, Mapping[str, Any], Mapping[str, Any], Tag]]:
    """Yield every step of every guide with its block on the page."""
    for page in pages_of_guides(site):
        for guide in guides_on(site, page):
            for step in guide.get("steps", ()):
                block = site.article(page).find(id=f"{guide['id']}-{step['id']}")
                assert isinstance(block, Tag), (page, guide["id"], step["id"])
                yield page, guide, step, block


def test_every_circuit_that_feeds_something_has_its_page(site: Site) -> None:
    numbers = {guide["circuit"] for guide in site.record["guide"] if "circuit" in guide}
    assert {entry["number"] for entry in site.guide_pages.values()} == numbers
    assert len(numbers) > 15


def test_every_guide_has_one_page(site: Site) -> None:
    stand = [guide["id"] for page in pages_of_guides(site) for guide in guides_on(site, page)]
    assert sorted(stand) == sorted(guide["id"] for guide in site.record["guide"])


def test_the_first_page_holds_no_steps_and_leads_to_every_page_of_guides(site: Site) -> None:
    """With no script: by its own links, or by those of the pages that it leads to."""
    assert site.article("stops.html").select(".guide-step") == []
    linked = {str(a["href"]).partition("#")[0] for a in site.article("stops.html").select("a[href]")}
    assert set(pages_of_guides(site)) <= linked


def test_the_pages_hold_every_step_and_every_end_of_the_record_and_no_other(site: Site) -> None:
    for page in pages_of_guides(site):
        shown = [str(tag["id"]) for tag in site.article(page).select(".guide-step[id]")]
        wanted = [
            f"{guide['id']}-{entry['id']}"
            for guide in guides_on(site, page)
            for entry in (*guide.get("steps", ()), *guide["leaves"])
        ]
        assert sorted(shown) == sorted(wanted), page
        heads = [str(tag["id"]) for tag in site.article(page).select(".guide-head[id]")]
        assert set(heads) >= {guide["id"] for guide in guides_on(site, page)}


def test_each_meter_step_names_both_points_with_part_wire_and_place(site: Site) -> None:
    parts = site.judged.trailer.parts
    seen = 0
    for _, guide, step, block in blocks(site):
        told = {
            text_of(dt): dd
            for dt, dd in zip(block.select(".meter dt"), block.select(".meter dd"), strict=True)
        }
        assert set(told) == ({"Red probe", "Black probe", "Expect"} if step["kind"] in METER else set())
        for name, key in (("Red probe", "red"), ("Black probe", "black")):
            if key not in step:
                continue
            seen += 1
            point, text = step[key], text_of(told[name])
            if point["part"] in parts:
                assert text.startswith(point["part"] + ", "), (guide["id"], step["id"])
                assert parts[point["part"]].where in text
            if "wire" in point:
                wire = next(one for one in site.record["wires"] if one["number"] == point["wire"])
                assert f"wire {wire['number']} {wire['color']}" in text
                assert told[name].select_one(f'a[href$="#wire-{wire["number"].lower()}"]') is not None
    assert seen > 300


def with_the_plug_in(guide: Mapping[str, Any], step: Mapping[str, Any]) -> list[str]:
    """Return where a car that feeds its socket only when it sees a trailer is read, after a step in that socket."""
    if step.get("red", {}).get("beyond") != "socket":
        return []
    red = {one["id"]: one.get("red") for one in guide["steps"]}
    good = [one["to"] for one in step["outcomes"] if one["reads"] == "enough"]
    return [to for to in good if (at := red.get(to)) and at.get("beyond") != "socket"]


def test_each_outcome_leads_where_the_record_says(site: Site) -> None:
    for page, guide, step, block in blocks(site):
        links = [str(link["href"]) for link in block.select(".branches a:not([href*='#word-'])")]
        wanted = []
        for outcome in step["outcomes"]:
            inside = any(outcome["to"] == one["id"] for one in (*guide["steps"], *guide["leaves"]))
            wanted.append(f"#{guide['id']}-{outcome['to']}" if inside else f"#{outcome['to']}")
        wanted += [f"#{guide['id']}-{to}" for to in with_the_plug_in(guide, step)]
        assert ["#" + link.partition("#")[2] for link in links] == wanted, (page, guide["id"], step["id"])
        for link in links:
            target, _, anchor = link.partition("#")
            assert site.article(target or page).find(id=anchor) is not None, (page, link)


def test_a_limit_stands_beside_the_points_and_in_the_outcomes(site: Site) -> None:
    for _, guide, step, block in blocks(site):
        if step["kind"] not in ("battery", "volts", "drop"):
            continue
        if "least_of" in step:
            assert text_of(block).count("s much as across the battery, or more") == 2
            continue
        key = "most_v" if step["kind"] == "drop" else "least_v"
        path = next(
            f"guide/{guide['id']}/steps/{place}/{key}"
            for place, one in enumerate(guide["steps"])
            if one["id"] == step["id"]
        )
        shown = [str(tag["data-figure"]) for tag in block.select("[data-figure]")]
        assert shown.count(path) == 2, (guide["id"], step["id"])
        words = text_of(block.select(".meter .expect dd")[0])
        endings = {"least_v": "V or more", "most_v": "V or less, with or without a minus sign"}
        assert words.endswith(endings[key])


def test_a_fuse_is_told_with_way_rating_colour_and_the_same_number_only(site: Site) -> None:
    fuses = {fuse["name"]: fuse for fuse in site.record["fuses"]}
    looked = [(step, block) for _, _, step, block in blocks(site) if step["kind"] == "fuse"]
    assert len(looked) > 15
    for step, block in looked:
        fuse, text = fuses[step["fuse"]], text_of(block)
        assert f"{fuse['rating_a']:g} A" in text
        assert fuse.get("color", "") in text
        assert "Put in only the same number." in text
        assert (f"way {fuse['way']}" if "way" in fuse else fuse["name"]) in text


def test_before_ohms_every_supply_is_listed(site: Site) -> None:
    words = {
        "isolating switch": "isolating switch to OFF",
        "main fuse": "Take this fuse out: ",
        "minus post": "minus post",
        "cover": "Cover the ",
        "pull": "Pull the ",
    }
    checked = 0
    for _, guide, step, block in blocks(site):
        if step["kind"] == "unplug":
            checked += 1
            assert [words[s["how"]] for s in guide["unplug"] if words[s["how"]] not in text_of(block)] == []
    assert checked > 10


def test_with_the_post_bare_the_probe_goes_to_what_came_off_it(site: Site) -> None:
    on_the_post = [
        "what you took off the minus post" in text_of(block)
        for _, _, step, block in blocks(site)
        if step["kind"] == "ohms" and step["black"]["part"] == "battery"
    ]
    assert on_the_post
    assert all(on_the_post)


def test_the_first_page_answers_what_to_do_first(site: Site) -> None:
    article = site.article("stops.html")
    lead = article.select_one("p.lead")
    assert lead is not None
    assert "Everybody out first" in text_of(lead)
    links = article.select("ul.links")[0].select("a")
    assert str(links[0]["href"]) == "index.html#card"
    assert {text_of(link) for link in links} >= {
        *(
            "One thing is dead",
            "Several things are dead",
            "All is dead",
            "Something is weak, dim or flickers",
        ),
        *("A fuse opens again", "Something is hot", "A road lamp is dead", "The wrong road lamp lights"),
    }


def named(site: Site, thing: Mapping[str, Any]) -> str:
    """Return what a reader calls a thing: a lamp that shows one function only goes by its name alone."""
    things = [t for guide in site.record["guide"] if guide["symptom"] == "dead" for t in guide["things"]]
    functions = {t["what"] for t in things if t["part"] == thing["part"] and "what" in t}
    return f"{thing['part']} ({thing['what']})" if len(functions) > 1 else str(thing["part"])


def test_every_part_that_uses_current_is_on_the_first_page_by_its_name(site: Site) -> None:
    names = {text_of(link) for link in site.article("stops.html").select(".links-flow a")}
    for guide in site.record["guide"]:
        for thing in guide["things"]:
            if guide["symptom"] == "dead":
                assert named(site, thing) in names


def test_which_lamps_light_with_what_is_the_records(site: Site) -> None:
    (wrong,) = (guide for guide in site.record["guide"] if guide["symptom"] == "wrong")
    rows = sheets(site.article("stops-wrong.html"))["Which lamps light with what"][1:]
    circuits = list(dict.fromkeys(sorted(thing["circuit"] for thing in wrong["things"])))
    pedal = [row for row in rows if row[0] == "brake lamps" and "," in row[1]]
    assert len(rows) == len(circuits) + len(pedal)
    for row, circuit in zip((row for row in rows if row not in pedal), circuits, strict=True):
        mine = [named(site, thing) for thing in wrong["things"] if thing["circuit"] == circuit]
        assert row[2] == ", ".join(mine)


NEVER = (
    *("bigger fuse", "bridge", "hitch", "measure ohms before", "licensed person", "Never work on gas"),
    *("Never sleep inside",),
)


def test_what_never_to_do_is_told(site: Site) -> None:
    text = text_of(site.article("stops.html"))
    assert [words for words in NEVER if words not in text] == []


TEMPTING = re.compile(
    r"\b(?:bridge|short|jump)\w*\b.{0,30}\bfuse|bigger fuse|larger fuse|hitch|ball as a ground|open a lithium",
    re.IGNORECASE,
)


def test_no_step_asks_for_what_is_never_to_be_done(site: Site) -> None:
    for page in pages_of_guides(site):
        for block in site.article(page).select(".guide-step"):
            assert not TEMPTING.search(text_of(block).replace("Never a bigger one", "")), text_of(block)


@pytest.mark.parametrize("edition", ["owner", "workshop"])
def test_a_circuits_page_and_start_here_lead_to_the_guides(sites: Mapping[str, Site], edition: str) -> None:
    site = sites[edition]
    assert site.article("index.html").select('a[href="stops.html"]')
    with_guides = {entry["number"]: page for page, entry in site.guide_pages.items()}
    for page, entry in site.circuit_pages.items():
        links = {str(link["href"]) for link in site.article(page).select("a[href]")}
        assert (with_guides.get(entry["number"]) in links) == (entry["number"] in with_guides), page
