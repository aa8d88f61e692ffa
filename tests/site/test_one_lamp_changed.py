"""A lamp goes from 3 W to 30 W: what depends on it changes where it stands, and nothing else does."""

from __future__ import annotations

import re
from collections.abc import Mapping
from copy import copy

import pytest
from published import EDITIONS, EXAMPLE, Site, figures_on, normalised, published, text_of, values
from site_figures import expected

BEFORE = "left step lamp: {kind: lamp, draws: 3 W,"
AFTER = "left step lamp: {kind: lamp, draws: 30 W,"

UNTOUCHED = (
    "circuit-13-battery-meter",
    "circuit-14-charge-line",
    "circuit-15-solar",
    "circuit-16-shore-charging",
    "circuit-17-road-lamps-ground",
    "circuit-18-road-lamps-tail-marker-plate",
    "circuit-19-road-lamps-left-stop-left-turn",
    "circuit-20-road-lamps-right-stop-right-turn",
    "stops-13-battery-meter",
    "stops-14-charge-line",
    "stops-18-road-lamps-tail-marker-plate",
)
"""Pages of what shares no wire with the lamp: its current flows through none of theirs."""

PRINTED_TEXTS: Mapping[str, tuple[str, ...]] = {
    "circuit": (
        r"wires/{wire}/size",
        r"circuits/{number}/size/(chosen|smallest_that_fits|reason|next_smaller)",
        r"fuses/{fuse}/(color|reason|thinnest_wire|thinnest_size|rating_a)",
        r"findings/{finding}/(level|message|help|basis)",
    ),
    "wires": (r"wires/[^/]+/size",),
    "fuses": (r"fuses/[^/]+/(color|rating_a)",),
    "find": (r"fuses/[^/]+/(color|rating_a)",),
    "worked": (
        r"circuits/\d+/size/.*",
        r"circuits/\d+/loads/\d+/.*",
        r"fuses/[^/]+/(color|reason|thinnest_wire|thinnest_size|ceiling_source|load_a)",
        r"energy/.*",
    ),
    "battery": (r"energy/day/\d+/use_ah/\d",),  # which parts take most
    "guide": (r"fuses/{fuse}/(color|rating_a)",),
    "stops": (r"carried/[^/]+/part",),
    "assumed": (r"energy/day_ah/\d",),  # what moves a day's use most stands first
    "findings": (r"findings/.*",),
    "shopping": (r"shopping/[^/]+/(id|kind|color|size|place|series|names/\d+|wires/\d+|from/\d+/wires/\d+)",),
    "cuts": (
        r"cuts/[^/]+/(id|spool|kind|color|other_color|size|bought|pieces/\d+/(wires/\d+|circuit|from|to))",
        r"in_already/\d+/(wires/\d+|kind|from|to|why)",
    ),
    "labels": (r"wires/[^/]+/size",),
    "building-in": (
        r"laid/[^/]+/supports/loops/\d+/(from|to)",
    ),  # places with the same bundle stand together
    "closing": (r"bays/[^/]+/(inside|waiting_ends)/.*",),
    "pulls": (r"pulls/\d+/(thickest|pieces/.*)", r"laid_by_hand/.*"),
    "tests": (r"wires/[^/]+/size", r"test_sheet/\d+/(part|parts/\d+|fuse|red/.*|black/.*)"),
    "system": (r"fuses/[^/]+/rating_a",),
    "landings": (r"fuses/[^/]+/rating_a",),  # the face of the box has them
    "wrap-labels": (r"wrap_labels/.*", r"wires/[^/]+/size"),  # labels of a size stand together
    # an option is told with what check would say of it, and with nights where there is more than one
    "adding": (r"headroom/\d+/(limit|part|fuse|wire|switch|left_w)", r"options/.*", r"findings/.*"),
    # a circuit stands there where a reader sees another figure than planned
    "as-built": (r"circuit_changes/\d+/.*",),
}
"""Values of the record that a kind of page tells in words or in worked lines, not as marked figures."""


@pytest.fixture(scope="module")
def brighter(tmp_path_factory: pytest.TempPathFactory) -> Mapping[str, Site]:
    text = EXAMPLE.read_text(encoding="utf-8")
    assert text.count(BEFORE) == 1
    folder = tmp_path_factory.mktemp("brighter")
    data = text.replace(BEFORE, AFTER).encode()
    return {edition: published(data, edition, folder / edition) for edition in EDITIONS}


@pytest.fixture(params=EDITIONS)
def pair(
    request: pytest.FixtureRequest, sites: Mapping[str, Site], brighter: Mapping[str, Site]
) -> tuple[Site, Site]:
    return sites[request.param], brighter[request.param]


def shown(site: Site, page: str) -> dict[str, str]:
    return {str(tag["data-figure"]): text_of(tag) for tag in figures_on(site.article(page))}


def differing(one: Mapping[str, object], other: Mapping[str, object]) -> set[str]:
    return {key for key in {*one, *other} if one.get(key) != other.get(key)}


def changed_texts(before: Site, after: Site, page: str) -> set[str]:
    """Return the changed values of the record that a page tells in words."""
    changed = differing(values(before.record), values(after.record))
    patterns = PRINTED_TEXTS.get(before.kind(page), ())
    circuit = before.circuit_pages.get(page) or before.guide_pages.get(page)
    if circuit is not None:
        patterns = tuple(_of_circuit(before, circuit["number"], pattern) for pattern in patterns)
    if before.kind(page) == "guide":
        told = set(re.findall(r"\b\d+[A-Z]+\b", text_of(before.article(page))))
        patterns += tuple(
            f"wires/{wire['number']}/size" for wire in before.record["wires"] if wire["number"] in told
        )
    if before.kind(page) == "panel":  # its picture shows how wide the wires behind it lie
        behind = {number for one in before.panel_pages[page]["behind"] for number in one["wires"]}
        patterns += tuple(f"wires/{number}/size" for number in behind)
    if before.kind(page) == "shared":
        rated = [path for path in expected(before, page) if path.endswith("/rating_a")]
        patterns += tuple(re.escape(path.removesuffix("rating_a")) + "color" for path in rated)
    if before.edition == "owner":
        patterns = tuple(pattern for pattern in patterns if not pattern.startswith("findings"))
    return {path for path in changed if any(re.fullmatch(pattern, path) for pattern in patterns)}


def _of_circuit(site: Site, number: int, pattern: str) -> str:
    def any_of(name: str, key: str) -> str:
        entries = [entry for entry in site.record[name] if entry.get("circuit") == number]
        return "(" + "|".join(re.escape(str(entry[key])) for entry in entries) + ")"

    found = [place for place, entry in enumerate(site.record["findings"]) if entry.get("circuit") == number]
    return (
        pattern.replace("{number}", str(number))
        .replace("{wire}", any_of("wires", "number"))
        .replace("{fuse}", any_of("fuses", "name"))
        .replace("{finding}", "(" + "|".join(map(str, found)) + ")")
    )


def words_only(site: Site, page: str) -> str:
    """Return a page's text without figures, worked lines and its head."""
    article = copy(site.article(page))
    for tag in article.select("[data-figure], p.formula, .page-head"):
        tag.decompose()
    return text_of(article)


def test_the_same_pages_are_there(pair: tuple[Site, Site]) -> None:
    before, after = pair
    assert set(before.pages) == set(after.pages)


def test_exactly_the_dependent_figures_change_on_exactly_their_pages(pair: tuple[Site, Site]) -> None:
    before, after = pair
    for page in before.pages:
        computed = differing(expected(before, page), expected(after, page))
        assert differing(shown(before, page), shown(after, page)) == computed, page


def test_exactly_the_pages_change_that_show_something_dependent(pair: tuple[Site, Site]) -> None:
    before, after = pair
    changed = {
        page
        for page in before.pages
        if normalised(str(before.article(page))) != normalised(str(after.article(page)))
    }
    dependent = {
        page
        for page in before.pages
        if differing(expected(before, page), expected(after, page)) or changed_texts(before, after, page)
    }
    assert changed == dependent


def test_the_words_of_a_page_change_only_where_they_tell_something_dependent(pair: tuple[Site, Site]) -> None:
    before, after = pair
    for page in before.pages:
        if not changed_texts(before, after, page):
            assert words_only(before, page) == words_only(after, page), page


def test_a_page_that_does_not_depend_stays_byte_for_byte(pair: tuple[Site, Site]) -> None:
    before, after = pair
    for name in UNTOUCHED:
        one, other = (normalised((site.folder / f"{name}.html").read_text(encoding="utf-8")) for site in pair)
        assert one == other, name
    contents = [(site.folder / "index.html").read_text(encoding="utf-8") for site in (before, after)]
    assert contents[0] != contents[1]


def test_the_lamps_circuit_takes_what_a_pencil_gives(pair: tuple[Site, Site]) -> None:
    page = "circuit-01-step-lights.html"
    takes = [shown(site, page)["circuits/1/load_current_a"] for site in pair]
    assert takes[0] == "0.5 A"  # 3 W + 3 W at 12.0 V
    assert takes[1] in ("2.75 A", "2.8 A")  # 30 W + 3 W at 12.0 V


def test_only_the_lamps_own_wires_and_the_batterys_line_carry_more(pair: tuple[Site, Site]) -> None:
    before, after = pair
    currents = [
        {
            path: value
            for path, value in values(site.record).items()
            if re.fullmatch("wires/.*/current_a", path)
        }
        for site in (before, after)
    ]
    # the feed to the lamp and its return, then the battery's line: both its feeds and its return
    assert differing(*currents) == {
        f"wires/{number}/current_a" for number in ["1A", "1B", "1G", "21A", "21B", "21C", "21D"]
    }
