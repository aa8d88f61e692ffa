"""Every figure on every page is the figure computed, and no page shows another one."""

from __future__ import annotations

import re
from collections.abc import Iterable
from copy import copy

import pytest
from published import Site, figures_on, resolved, sheets, text_of
from site_figures import PAGES, expected

from builder.pages.problem_pages import problem_pages
from builder.rules.page import page_of
from builder.rules.registry import RULES
from builder.tables.brakes import brake_rules
from builder.tables.tow_plugs import plug_pattern

UNITS = r"A|Ah|V|W|Wh|%|Ω|ft|in|m|mm|mm²|AWG|h|kg|lb|°C|°F|volts?|amps?|amperes?|circular mils"
WITH_UNIT = re.compile(rf"(?<![\w.])[\d.,/]*\d\s+(?:{UNITS})(?!\w)|(?<![\w.])\d[\d.]*(?:%|Ω|mm²|V\b)")
FIXED = {
    # the thickness of a steel plate, which no measure prints finely enough
    "building-in": {"1/2 in", "13 mm", "1/16 in", "1.6 mm"},
    "frames": {"1/16 in", "1.6 mm"},
    "shopping": {"1/2 in", "13 mm"},
    "circuit": {"12 V"},  # the share of it; the voltage of a switch's rating
    "worked": {"12.0 V"},
    "index": {"12 volt"},
    "wrap-labels": {"50 mm", "4 mm"},  # the line to measure by; what of the tail holds on itself
    "battery": {"12 volt", "90 lb"},  # what the rule for boats pushes a battery with
    "towing": {"0 Ω", "200 Ω"},  # what to set the meter to; its probes together
    "words": {"12 volts"},
    "adding": {"12 volt"},
    "tests": {
        "0.1 Ω",
        "0 Ω",
        "200 Ω",
        "12 V",
        "20 V",
        "200 V",
        "10 A",
    },  # what to set the meter to; its leads; a short; what is put on a contact of the plug
    "guide": {"12 V", "12 volt", "20 V", "0 Ω", "200 Ω"},  # what to buy and what to set the meter to
    "stops": {"12 V", "12 volt"},
    "shared": {"12 V", "12 volt"},
    "odd-lamps": {"12 volt"},
    "car-or-trailer": {"12 V", "20 V", "3 A"},  # what to set the meter to; the test lead and its fuse
}
"""Numbers with a unit that stand in the pages' own sentences."""


def test_each_page_shows_its_figures_and_no_other(site: Site) -> None:
    for page in site.pages:
        shown = {str(figure["data-figure"]) for figure in figures_on(site.article(page))}
        assert shown == set(expected(site, page)), page


def test_each_figure_is_the_value_of_the_record_rounded_for_its_reader(site: Site) -> None:
    for page in site.pages:
        wanted = expected(site, page)
        for figure in figures_on(site.article(page)):
            path = str(figure["data-figure"])
            resolved(site.record, path)
            assert text_of(figure) == wanted[path], (page, path)


def test_figures_stand_only_in_the_article(site: Site) -> None:
    for page, parsed in site.pages.items():
        assert len(figures_on(parsed)) == len(figures_on(site.article(page))), page


NOT_IN_THE_EXAMPLE = {
    # none of its switches has a rating in the file
    ("adding", "headroom/*/switch_w"),
    # its box has a place, and so has every part at the end of a wire that runs to it
    *((page, "wires/*/length_m") for page in ("find", "fuses", "towing")),
    # with an option its main fuse stays, and its battery lasts less than one night where all is used much
    ("adding", "options/*/main_fuse/today_rating_a"),
    ("adding", "options/*/nights/0"),
    ("adding", "options/*/today_nights/0"),
    # no fuse of it is chosen by its load alone
    ("circuit", "fuses/*/needed_a"),
    ("worked", "fuses/*/needed_a"),
    # its battery can be switched off, and Start here tells the weeks of rest
    ("index", "energy/weeks_to_half/*"),
    # its battery lasts less than one night where all is used much
    ("index", "energy/nights/0"),
    ("battery", "energy/nights/0"),
    # its conduits turn where they are open, and not in their pieces
    ("building-in", "laid/*/open_deg"),
    ("building-in", "laid/*/bent_deg"),
    # no part behind its panels rises from its place
    ("panel", "panels/*/parts/*/rise_length_m"),
    # both ends of these are printed alike, or its battery is another one
    ("battery", "energy/charging/*/current_a/1"),
    ("battery", "energy/kind/charge_from_temperature_c/*"),
    ("care", "energy/kind/charge_from_temperature_c/1"),
    ("care", "energy/kind/freezing/*/temperature_c"),
    # its spare wire rises to nothing, passes no hinge, and has its length from its way
    *(("runs", f"spares/*/run/{part}_length_m") for part in ("rise", "slack")),
    ("runs", "spares/*/length_m"),
    # nothing of it lies below the underside of its body, and no hole ahead of it
    *(("building-in", f"{one}/at/below_length_m") for one in ("places/*", "holes/*", "laid/*/frames/*")),
    ("building-in", "laid/*/pieces/*/ends/*/below_length_m"),
    *(("building-in", f"{one}/at/ahead_length_m") for one in ("holes/*", "laid/*/frames/*")),
    # all its frames are upright, and mains lies in a chase far from all others
    *(("closing", f"bays/*/{end}_up_length_m") for end in ("from", "to")),
    ("building-in", "beside_mains/*/gap_length_m"),
    # both ends of each piece of its conduit are above the underside of the body
    ("building-in", "laid/*/pieces/*/ends/*/below_length_m"),
    ("frames", "laid/*/frames/*/up_length_m"),
    ("closing", "bays/*/from_up_length_m"),
    ("closing", "bays/*/to_up_length_m"),
    ("frames", "laid/*/frames/*/at/back_length_m"),
    # it has every lamp and reflector that its size asks for, and the US table asks for no place across
    ("lamps", "lamps_required/*/missing"),
    ("lamps", "lamps_required/*/from_side_length_m"),
    ("lamps", "lamps_required/*/apart_length_m"),
    ("lamps", "lamps_required/*/most_apart_length_m"),
    # enough of its wires were measured, and no road lamp was changed
    ("cuts", "own_allowance/enough_wires"),
    ("as-built", "lamp_changes/*/planned_current_a"),
    ("as-built", "lamp_changes/*/current_a"),
}


def test_every_kind_of_page_has_its_list(workshop: Site) -> None:
    assert {workshop.kind(page) for page in workshop.pages} == set(PAGES)
    for kind, shows in PAGES.items():
        pages = [page for page in workshop.pages if workshop.kind(page) == kind]
        met = {path for page in pages for path in expected(workshop, page)}
        for one in shows:
            pattern = re.compile(re.escape(one.path).replace(r"\*", "[^/]+"))
            missing = not any(pattern.fullmatch(path) for path in met)
            assert missing == ((kind, one.path) in NOT_IN_THE_EXAMPLE), (kind, one.path)


def own_texts(site: Site) -> Iterable[str]:
    """Texts that the maker wrote, and those that the record carries whole: reasons, sources, findings."""
    trailer = site.judged.trailer
    yield from (part.where for part in trailer.parts.values())
    yield from (circuit.note for circuit in trailer.circuits)
    yield from trailer.parts
    yield from (circuit.name for circuit in trailer.circuits)
    yield from (part.waiting for part in trailer.parts.values())
    yield trailer.identity.description
    for holder in (trailer.front_box, trailer.battery, trailer.tow_plug):
        yield holder.where if holder else ""
    yield from (str(studs.size) for studs in trailer.studs.values() if studs.size)
    yield from (str(ring) for rings in trailer.shelf.rings.values() for ring in rings)
    for option in trailer.options:
        yield option.name
        yield option.note
    for change in trailer.changes:
        yield from (change.note, change.date)
    for one in site.record["assumptions"]:
        yield from (one["id"], one["about"], one["reason"], one["known"])
    for one in site.record["findings"]:
        yield from (one["message"], one["message"].partition(": ")[2], one["help"], one["basis"])
    yield from (wire["resistance_source"] for wire in site.record["wires"])
    yield from (fuse["ceiling_source"] for fuse in site.record["fuses"])
    for option in site.record.get("options", ()):
        yield from (wire["size"] for wire in option["wires"])
    for name in ("wires", "spares", "new_fuses"):
        yield from (wire["size"] for wire in site.record[name])
    yield from (item["size"] for item in site.record["shopping"] if "size" in item)
    for circuit in site.record["circuits"]:
        size = circuit["size"]
        yield from (size["chosen"], size["smallest_that_fits"], size.get("next_smaller", ""))


def left_over(site: Site, page: str) -> list[str]:
    """Return the numbers with a unit that stand outside figures, worked lines and texts of the maker."""
    article = copy(site.article(page))
    for link in article.select("a.word"):
        link.unwrap()
    article.smooth()
    for tag in [*article.select("[data-figure], p.formula, p.ring, svg")]:
        tag.replace_with(" ¦ ")
    text = " ".join(article.get_text(" ").split())
    for own in sorted({" ".join(text.split()) for text in own_texts(site)}, key=len, reverse=True):
        if own:
            text = re.sub(rf"(?<!\w){re.escape(own)}(?!\w)", "¦", text)
    return [" ".join(found.group().split()) for found in WITH_UNIT.finditer(text)]


def lengths_of_circuit(site: Site, page: str) -> set[str]:
    """Return the lengths of a circuit's wires as they are printed."""
    return {text for path, text in expected(site, page).items() if path.endswith("/length_m")}


def texts_of_check() -> list[str]:
    """Return what the check can say of any build: the same in every manual, with examples of its own."""
    rules = [page_of(rule) for rule in RULES]
    texts = [text for page in rules for text in (page.failing, page.passing, *map(" ".join, page.paragraphs))]
    pages = problem_pages().values()
    texts += [text for page in pages for text in (page.example, *map(" ".join, page.paragraphs))]
    return [" ".join(text.split()) for text in texts]


def texts_of_tables(site: Site) -> list[str]:
    """What the page for a garage takes from tables as it stands: brake rules, and usual fuses in a car."""
    build = site.record["build"]
    return [*(rule.rule for rule in brake_rules(build["country"])), *usual_fuses()]


def usual_fuses() -> list[str]:
    """What cars usually have before the contacts of the example's plug."""
    fuses = [one.car_fuse_a for one in plug_pattern(PLUG_OF_THE_EXAMPLE).contacts if one.car_fuse_a]
    return [f"{amps:g} A" for both in fuses for amps in both]


PLUG_OF_THE_EXAMPLE = "7-way blade"


def test_numbers_with_a_unit_outside_figures_are_only_those_allowed(site: Site) -> None:
    for page in site.pages:
        allowed = set(FIXED.get(site.kind(page), set()))
        if site.kind(page) == "circuit":
            allowed |= {found for text in lengths_of_circuit(site, page) for found in WITH_UNIT.findall(text)}
        if site.kind(page) == "garage":
            allowed |= {"12 V", "20 V", "0.2 V"} | {
                found for text in texts_of_tables(site) for found in WITH_UNIT.findall(text)
            }
        if site.kind(page) == "towing":
            allowed |= {found for text in usual_fuses() for found in WITH_UNIT.findall(text)}
        if site.kind(page) == "check":
            allowed |= {found for text in texts_of_check() for found in WITH_UNIT.findall(text)}
        assert set(left_over(site, page)) <= allowed, page


def test_the_check_for_stray_numbers_finds_one(owner: Site) -> None:
    assert [" ".join(found.split()) for found in WITH_UNIT.findall("it takes 4.2\u00a0A and 3 ft 6 in")] == [
        "4.2 A",
        "3 ft",
        "6 in",
    ]
    fuses = left_over(owner, "fuses.html")
    assert fuses == []


def test_the_way_of_the_current_tells_lengths_of_this_circuit(site: Site) -> None:
    for page in site.circuit_pages:
        steps = [text_of(tag) for tag in site.article(page).select("ol.steps > li > div")]
        known = lengths_of_circuit(site, page)
        for step, name in zip(steps, site.article(page).select("ol.steps li div > b"), strict=True):
            told = step.removeprefix(text_of(name)).strip().removeprefix("A branch: ")
            assert any(told.startswith(f"{length} from ") for length in known), (page, step)


WAY_OF = {
    "left step lamp": "way 1",
    "right step lamp": "way 1",
    "bed floor switch": "way 2",
    "cabin lamp": "way 4",
    "water pump": "way 6",
    "roof fan": "way 7",
    "kitchen socket": "way 12",
    "cool box socket": "cool box breaker, way 12",
    "gas alarm": "gas alarm fuse, main fuse",
    "battery meter": "meter fuse",
    "plate lamp": "in the car",
    "rear lamp left": "in the car",
}
"""Each fuse on the way to a part, read off the example's text: ways are given in the order of the circuits, unless
the text says else."""


@pytest.mark.parametrize("part", sorted(WAY_OF))
def test_find_it_names_the_fuse_that_the_text_gives_a_part(owner: Site, part: str) -> None:
    rows = sheets(owner.article("find.html"))["Parts in alphabet"]
    (fuse,) = (row[1] for row in rows if row[0].split(" waiting:")[0] == part)
    for shown, given in zip(fuse.split(", "), WAY_OF[part].split(", "), strict=True):
        assert shown.endswith(given)
