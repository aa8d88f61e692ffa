"""Battery and daily use: only what this build has, cautions before the hand moves, figures as computed."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from generated_builds import GeneratedBuild, builds
from hypothesis import HealthCheck, given, settings
from owner_pages import below, page_of, table, told_below, view_of, words_of

from builder.pages.manual import PAGES, manual_source
from builder.pages.page_battery import fuses_to_pull, has_battery
from builder.pages.rounding import Reader
from builder.pages.verdict import judge_build
from builder.pages.view import Edition, View

EXAMPLE_BUILDS = Path(__file__).parents[2] / "example_build"
EXAMPLE = (EXAMPLE_BUILDS / "trailer.yaml").read_bytes()

HEAD = """\
format: 1
build: {{name: Test Row, country: {country}}}
battery: {{chemistry: {chemistry}, capacity: 100 Ah, {line}}}
front box: {{fuse ways: 6, where: "inside, under the bed"}}
tow plug: {{pattern: 7-way blade, to front box: 7 ft}}
"""
SHORT = "to main fuse: 5 in, to front box: 4 ft"
SWITCHED = "path: [main fuse: 5 in, isolating switch: 1 ft, front box: 2 ft]"
LAMP = "parts: {lamp: {kind: lamp, draws: 6 W, own switch: yes}}\ncircuits:\n  light: {path: [lamp: 5 ft]}\n"
WAYS_TO_CHARGE = {
    "From the car": "  car: {from: tow plug battery, path: [dc: 5 ft, car fuse: 1 ft, battery: 6 in]}\n",
    "From the sun": "  sun: {from: module, path: [controller: 5 ft, sun fuse: 1 ft, battery: 6 in]}\n",
    "From shore power": "  shore: {from: shore, path: [box fuse: 1 ft, front box: 6 in]}\n",
}
CHARGERS = """\
parts:
  lamp: {kind: lamp, draws: 6 W}
  dc: {kind: dc charger, gives: 10 A}
  module: {kind: solar module, gives: 50 W}
  controller: {kind: charge controller}
  shore: {kind: shore converter, gives: 15 A}
circuits:
  light: {path: [lamp: 5 ft]}
"""


def battery(
    chemistry: str = "agm", rest: str = LAMP, line: str = SHORT, country: str = "US"
) -> BeautifulSoup:
    head = HEAD.format(chemistry=chemistry, line=line, country=country)
    return page_of(view_of((head + rest).encode()), "battery")


NO_BATTERY = b"""\
format: 1
build: {name: Gravel Kite, country: US}
tow plug: {pattern: 4-way flat, to front box: 6 ft}
road lamps:
  rear lamp: {shows: [tail, stop, turn], side: both, wire: 14 ft}
"""


def test_without_a_battery_there_is_no_page_no_link_and_no_word_of_one() -> None:
    verdict = judge_build(NO_BATTERY, "trailer.yaml")
    assert verdict.judged is not None
    source = manual_source(verdict.judged, "2222-2222", "owner")
    assert "battery.md" not in source.files
    assert all(entry.path != "battery.md" for entry in source.nav)
    for path in ("index.md", "care.md"):
        text = str(source.files[path])
        assert "battery" not in text.lower(), path
    assert "care.md" in source.files


def test_the_first_lines_answer_how_long_where_and_what_switches_it_off() -> None:
    page = page_of(view_of(EXAMPLE), "battery")
    first = page.find_all(["p", "dl", "h2"], limit=2)
    assert words_of(first[0]) == (
        "Full, this battery lasts from less than one to 4.2 nights without a charge, as the use may be."
    )
    facts = {words_of(dt): words_of(dt.find_next("dd")) for dt in first[1].find_all("dt")}
    assert facts["Battery"] == "100 Ah, sealed lead battery (AGM)"
    assert facts["Where it is"] == "on the tongue, in the black box behind the jack"
    assert facts["Charged from"] == "the car, the sun, shore power"
    assert facts["Isolating switch"].startswith("outside, front wall")
    assert "40 A" in facts["Main fuse"]


@pytest.mark.parametrize(
    ("capacity", "says"),
    [
        ("10 Ah", "lasts less than one night without a charge"),
        ("100 Ah", "lasts from less than one to 4.2 nights without a charge"),
        ("300 Ah", "lasts from 2.4 to 12 nights without a charge"),
    ],
)
def test_less_than_one_night_is_told_in_words(capacity: str, says: str) -> None:
    """The example takes 12 to 63 Ah a day of half of its battery."""
    assert b"capacity: 100 Ah" in EXAMPLE
    page = page_of(view_of(EXAMPLE.replace(b"capacity: 100 Ah", f"capacity: {capacity}".encode())), "battery")
    assert says in words_of(page)


@pytest.mark.parametrize("ways", [[one] for one in WAYS_TO_CHARGE] + [list(WAYS_TO_CHARGE)], ids=", ".join)
def test_only_the_ways_to_charge_that_are_there_are_told(ways: list[str]) -> None:
    page = battery(rest=CHARGERS + "".join(WAYS_TO_CHARGE[one] for one in ways))
    heads = [words_of(tag) for tag in page.find_all("h3")]
    assert heads == [*ways, "With a charger of its own"]
    assert "Nothing in this trailer charges it" not in words_of(page)


def test_what_waits_is_left_out_of_the_nights_and_named() -> None:
    """The kitchen socket's 20 W are 1.67 A: with it there, 0.72 to 3.9 nights."""
    page = page_of(view_of(EXAMPLE), "battery")
    assert "This is without the parts still waiting: kitchen socket." in words_of(page)
    there = re.sub(rb"(?m)^waiting:.*\n", b"", EXAMPLE)
    assert there != EXAMPLE
    whole = page_of(view_of(there), "battery")
    assert "from less than one to 3.9 nights" in words_of(whole)
    assert "still waiting" not in words_of(whole)


def test_a_battery_that_nothing_charges_is_taken_out_for_it() -> None:
    told = told_below(battery(), "Charge it")
    assert "Nothing in this trailer charges it. Take it out, and charge it on a charger of its own." in told
    assert "made for AGM batteries and gives 10 A to 30 A." in told
    assert "nothing in this trailer" in words_of(battery().find("dl"))


@pytest.mark.parametrize(
    ("line", "told"),
    [
        (SWITCHED, "Leave the isolating switch on and the main fuse in."),
        (SHORT, "Leave the main fuse in."),
    ],
)
@pytest.mark.parametrize("way", WAYS_TO_CHARGE)
def test_a_charge_through_the_front_box_needs_what_stands_before_it(way: str, line: str, told: str) -> None:
    for end in ("battery", "front box"):
        text = re.sub(r"(battery|front box): 6 in", f"{end}: 6 in", WAYS_TO_CHARGE[way])
        page = battery(rest=CHARGERS + text, line=line)
        assert (told in told_below(page, way)) == (end == "front box")
        assert ("Leave the" in told_below(page, way)) == (end == "front box")


def kinds_of_caution(page: BeautifulSoup) -> list[str]:
    return [words_of(tag) for tag in page.select(".hazard")]


def test_cautions_follow_the_chemistry() -> None:
    agm, flooded, lithium = (kinds_of_caution(battery(one)) for one in ("agm", "flooded", "lithium"))
    gas, cold, acid = (
        "A lead battery gives off gas while it charges.",
        "A lithium battery must not be charged in the cold.",
        "The battery holds acid.",
    )
    assert (gas in agm, gas in flooded, gas in lithium) == (True, True, False)
    assert (cold in agm, cold in flooded, cold in lithium) == (False, False, True)
    assert (acid in agm, acid in flooded, acid in lithium) == (False, True, False)
    assert "Leave its caps on." in words_of(battery("flooded"))
    assert "Leave its caps on." not in words_of(battery("agm"))
    assert "Never open it." in words_of(battery("lithium"))
    assert "lithium" not in words_of(battery("agm")).lower()
    assert "lead" not in re.sub(r"shore lead", "", words_of(battery("lithium")).lower())


def order_of(page: BeautifulSoup) -> list[str]:
    """Return cautions, steps and tables of a page in order, each by its first words."""
    found = []
    for tag in page.select(".caution, ol.steps li, .guide-step, .table-holder"):
        hazard = tag.select_one(".hazard")
        found.append("caution: " + words_of(hazard) if hazard is not None else words_of(tag))
    return found


def place(order: list[str], start: str) -> int:
    return next(i for i, one in enumerate(order) if one.startswith(start))


def test_each_caution_stands_before_the_step_it_guards() -> None:
    order = order_of(page_of(view_of(EXAMPLE), "battery"))
    for caution, step in [
        ("caution: The bars in the front box", "2 Set the meter"),
        ("caution: A lead battery gives off gas", "Push the tow plug"),
        ("caution: Mains can kill", "Plug the shore lead in"),
        ("caution: With the power off, gas alarm", "Turn the isolating switch to OFF"),
        ("caution: The posts of the battery", "Take all wires off the minus stud, then"),
        ("caution: A battery is heavy", "Undo what holds it"),
    ]:
        assert place(order, caution) < place(order, step), (caution, step)
    lithium = order_of(battery("lithium", CHARGERS + WAYS_TO_CHARGE["From the car"]))
    assert place(lithium, "caution: A lithium battery must not") < place(lithium, "Push the tow plug")


def test_a_charge_that_nothing_holds_in_check_is_warned_of_before_the_plug_goes_in() -> None:
    bare = "circuits:\n  car: {from: tow plug battery, path: [last fuse: 5 ft, battery: 4 in]}\n"
    order = order_of(battery("lithium", bare))
    assert place(order, "caution: Nothing holds this charge in check.") < place(order, "Push the tow plug")
    assert "Nothing holds this charge" not in words_of(battery("agm", bare))
    sun = (
        "parts: {module: {kind: solar module}}\n"
        "circuits:\n  sun: {from: module, path: [sun fuse: 5 ft, battery: 4 in]}\n"
    )
    order = order_of(battery("agm", sun))
    assert place(order, "caution: Nothing holds this charge in check.") < place(order, "Park where light")


def test_voltages_at_rest_stand_only_where_the_table_is_good_enough() -> None:
    assert table(battery("flooded"), "What is left at rest") == [
        ["Full", "12.7 V"],
        ["Three quarters", "12.5 V"],
        ["Half", "12.2 V"],
        ["Empty: charge it now", "11.9 V"],
    ]
    for chemistry in ("gel", "lithium"):
        assert table(battery(chemistry), "What is left at rest") == []
        assert not re.search(r"\d\s?V\b", words_of(battery(chemistry)))
    assert "write down what it reads" in words_of(battery("gel"))
    assert "voltage of a lithium battery says little" in words_of(battery("lithium"))


def test_signs_are_those_of_parts_that_are_there() -> None:
    told = told_below(battery(), "See whether it is low")
    assert "Lamps get dim" in told
    for word in ("pump", "fan ", "chirp", "fridge"):
        assert word not in told, word
    whole = told_below(page_of(view_of(EXAMPLE), "battery"), "See whether it is low")
    assert "One short chirp now and then" in whole
    assert "The pump runs slowly" in whole


def test_cold_is_told_in_the_degrees_of_the_build() -> None:
    assert "32 °F or at 41 °F" in words_of(battery("lithium"))
    assert "0 °C or at 5 °C" in words_of(battery("lithium", country="DE"))


def test_what_takes_most_counts_what_is_on_day_and_night_and_says_so() -> None:
    page = page_of(view_of(EXAMPLE), "battery")
    rows = table(page, "What takes most in a day")
    assert [row[0] for row in rows][:2] == ["roof fan", "cool box socket"]
    assert rows[0] == ["roof fan", "2.2 Ah", "22 Ah"]  # 2.2 A for 1 to 10 h
    braked = (EXAMPLE_BUILDS / "braked" / "trailer.yaml").read_bytes()
    page = page_of(view_of(braked), "battery")
    rows = table(page, "What takes most in a day")
    assert rows[0] == ["gas alarm day and night", "1.9 Ah", "1.9 Ah"]  # 80 mA for 24 h
    assert rows[1] == ["reading lamp", "0.25 Ah", "1.2 Ah"]  # 3 W at 12 V for 1 to 5 h
    assert "first, as far as they have a switch. Leave an alarm on." in words_of(page)


SUN = (
    "parts: {module: {kind: solar module, gives: 50 W}, controller: {kind: charge controller}}\n"
    "circuits:\n  sun: {from: module, path: [controller: 5 ft, sun fuse: 1 ft, battery: 6 in]}\n"
)


@pytest.mark.parametrize(
    ("country", "told"), [("US", "Elsewhere it may differ"), ("DE", "none in your country was read")]
)
def test_the_least_sun_is_said_to_be_a_month_s_mean_of_two_places(country: str, told: str) -> None:
    """The table of weather is of two places in the US (typical years of a national laboratory, read)."""
    text = words_of(battery(rest=SUN, country=country))
    assert "the mean of a day in the darkest month, and in the brightest" in text
    assert "by the weather of two places in the US" in text
    assert told in text
    assert "darkest day" not in text
    own = words_of(battery(rest=SUN + "assume: {full sun in a day: 2 h}\n", country=country))
    assert "two places" not in own


def test_the_sun_is_not_counted_on_in_winter_by_the_weather_of_another_country() -> None:
    sunny = SUN.replace("50 W", "200 W")
    text = words_of(battery(rest=sunny, country="DE"))
    assert "Do not count on the sun in winter" in text
    assert "may keep the battery full" not in text
    assert "may keep the battery full" in words_of(battery(rest=sunny))
    own = words_of(battery(rest=sunny + "assume: {full sun in a day: 2 h}\n", country="DE"))
    assert "may keep the battery full" in own


def test_the_sun_is_kept_off_a_lithium_battery_on_a_drive_and_off_a_controller_without_battery() -> None:
    alarm = SUN.replace("parts: {", "parts: {gas alarm: {kind: alarm, draws: 80 mA}, ").replace(
        "circuits:\n", "circuits:\n  alarm: {from: battery, path: [alarm fuse: 4 in, gas alarm: 6 ft]}\n"
    )
    told = told_below(battery("lithium", rest=alarm), "Charge it")
    assert (
        "In the cold drive only once the module is parted from its controller by someone who knows." in told
    )
    text = words_of(battery(rest=alarm))
    assert "Cover the solar module before they come off, and until they are back on." in text
    assert "Meanwhile gas alarm cannot warn you: do not sleep inside." in text
    assert "Meanwhile" not in words_of(battery(rest=SUN))


def test_weeks_of_rest_are_told_for_the_least_and_the_most_that_is_assumed() -> None:
    heidewind = page_of(view_of((EXAMPLE_BUILDS / "thirteen_pins" / "trailer.yaml").read_bytes()), "battery")
    text = told_below(heidewind, "What it loses when all is off")
    assert "half empty after 1.2 to 2.1 weeks" in text
    assert "for the least and for the most that it may take" in text
    assert "The weeks are told for the least" not in words_of(battery())


def test_lying_up_the_example_takes_out_just_the_fuses_that_the_switch_does_not_reach() -> None:
    rows = table(page_of(view_of(EXAMPLE), "battery"), "Fuses to take out")
    assert [(row[0], row[1], row[2]) for row in rows] == [
        ("gas alarm fuse", "2 A grey", "gas alarm"),
        ("meter fuse", "2 A grey", "battery meter"),
        ("solar fuse", "10 A red", "charge controller"),
        ("battery fuse", "15 A blue", "dc charger"),
    ]
    idle = {
        row[0]: row[2]
        for row in table(page_of(view_of(EXAMPLE), "battery"), "What takes current with all switches off")
    }
    assert idle["gas alarm"] == "goes on"
    assert idle["awning receiver"] == "stops"


def test_where_no_fuse_ends_it_the_minus_post_is_bared() -> None:
    rest = "parts: {meter: {kind: meter, draws: 10 mA}}\ncircuits:\n  meter: {from: battery, path: [meter: 8 ft]}\n"
    steps = [words_of(tag) for tag in below(battery(rest=rest), "Lay it up")[0].find_all("li")]
    assert any(step.startswith("Take all wires off the battery's minus post.") for step in steps)


def test_no_alarm_no_word_of_sleeping_inside() -> None:
    assert "sleep" not in words_of(battery())
    with_alarm = LAMP.replace("lamp: {kind", "co alarm: {kind: alarm}, lamp: {kind").replace(
        "circuits:\n", "circuits:\n  watch: {path: [co alarm: 5 ft]}\n"
    )
    assert "With the power off, co alarm cannot warn you." in words_of(battery(rest=with_alarm))


NEVER = re.compile(
    r"bridge|bigger fuse|larger fuse|\bshort (?!a|the lead)|hitch|open (?:the|a) pack|continuity",
    re.IGNORECASE,
)


@pytest.mark.parametrize("chemistry", ["flooded", "agm", "gel", "lithium"])
def test_nothing_is_told_that_must_never_be_told(chemistry: str) -> None:
    told = words_of(battery(chemistry, CHARGERS + "".join(WAYS_TO_CHARGE.values())))
    assert NEVER.findall(told) == []


@given(build=builds())
@settings(max_examples=40, suppress_health_check=list(HealthCheck))
def test_every_drain_that_goes_on_has_its_fuse_or_the_post(build: GeneratedBuild) -> None:
    view = view_of(build.data)
    energy = view.figures.energy
    (entry,) = (one for one in PAGES if one.path == "battery")
    assert entry.when(view) == has_battery(view) == (energy is not None)
    if energy is None:
        return
    page = page_of(view, "battery")
    going_on = {one.part for one in energy.drains if one.stays}
    stops = [pull["stops"] for pull in fuses_to_pull(view, energy)]
    pulled = {part for part in going_on if any(part in named for named in stops)}
    assert sum(len(named) for named in stops) <= sum(len(part) + 2 for part in pulled)
    told = told_below(page, "Lay it up")
    assert going_on == pulled or "Take all wires off the battery's minus post." in told
    assert len(page.select("h3")) == (len(energy.charging) + 1 if energy.charging else 0)


def test_what_has_no_switch_is_named() -> None:
    bare = "parts: {lamp: {kind: lamp, draws: 6 W}}\ncircuits:\n  light: {path: [lamp: 5 ft]}\n"
    assert "No switch is recorded for lamp." in words_of(battery(rest=bare))
    assert "No switch is recorded" not in words_of(battery())


THIRTEEN = (EXAMPLE_BUILDS / "thirteen_pins" / "trailer.yaml").read_bytes()


@pytest.mark.parametrize(("name", "heading"), [("battery", "Charge it"), ("care", "Before winter")])
def test_before_frost_each_way_that_charges_lithium_by_itself_is_stopped(name: str, heading: str) -> None:
    told = told_below(page_of(view_of(THIRTEEN), name), heading)
    assert "Cover each solar module (solar module). Do not climb" in told
    assert "Pull the tow plug out of the car." in told
    # the car must not charge it on a cold drive either, and the road lamps need the plug
    assert "take this fuse out first: car-side fuse (inside, front chest" in told
    assert "shore lead" not in told  # it has none


def test_start_here_asks_of_frost_only_where_the_battery_is_lithium_and_charged() -> None:
    asked = [
        page_of(view_of(data), "index").select_one('a[href="battery.html#frost"]') is not None
        for data in (THIRTEEN, EXAMPLE)
    ]
    assert asked == [True, False]


def test_a_meter_on_the_battery_is_read_first() -> None:
    told = told_below(page_of(view_of(EXAMPLE), "battery"), "See whether it is low")
    # the tank meter hangs on the front box and shows no battery
    first = "Read this first, if it shows volts or how full: battery meter (inside, front cabinet door)."
    assert told.startswith(first)
    assert "tank meter" not in told


def test_the_guard_of_a_lithium_battery_silences_the_alarm_and_the_page_says_so_there() -> None:
    told = told_below(page_of(view_of(THIRTEEN), "battery"), "See whether it is low")
    assert "gas alarm goes dead at that moment too: do not sleep inside then" in told
    assert "One short chirp now and then" in told


@pytest.mark.parametrize(
    ("draws", "told"), [("4 mA", "may keep the battery full"), ("4 A", "do not count on the sun")]
)
def test_the_sun_is_held_against_what_goes_on_in_store(draws: str, told: str) -> None:
    meter = f"  watch: {{kind: meter, draws: {draws}}}\ncircuits:\n  watch: {{from: battery, path: [watch: 8 ft]}}\n"
    rest = CHARGERS.replace("circuits:\n", meter) + WAYS_TO_CHARGE["From the sun"]
    assert told in told_below(battery(rest=rest), "What it loses when all is off")


BRAKED = (Path(__file__).parents[2] / "example_build" / "braked" / "trailer.yaml").read_text(encoding="utf-8")


@pytest.mark.parametrize("limited", [True, False])
def test_the_page_warns_of_a_charge_just_where_the_rule_finds_it_unchecked(limited: bool) -> None:
    text = BRAKED if limited else BRAKED.replace("limiter: 7 ft, battery fuse: 1 ft", "battery fuse: 8 ft")
    view = view_of(text.encode())
    said = words_of(page_of(view, "battery"))
    found = [one for one in view.findings if one.rule == "uncontrolled charging"]
    assert bool(found) is not limited
    assert ("Nothing holds this charge in check" in said) is bool(found)
    assert ("Do not charge this way" in said) is bool(found)
    assert ("than this charge limiter lets through: limiter" in said) is limited


def workshop(data: bytes) -> str:
    view = view_of(data)
    edition = Edition(Reader.WORKSHOP, view.edition.number)
    return words_of(page_of(View(view.trailer, view.figures, view.findings, edition), "battery"))


def test_its_place_is_told_to_who_builds_it_and_gas_only_where_there_is_any() -> None:
    told = workshop(EXAMPLE)
    assert "Make its place" in told
    assert "Let its gas out" in told
    assert "33 CFR 183.420" in told
    assert "Make its place" not in words_of(page_of(view_of(EXAMPLE), "battery"))
    lithium = EXAMPLE.replace(b"chemistry: agm", b"chemistry: lithium")
    assert lithium != EXAMPLE
    assert "Let its gas out" not in workshop(lithium)
    european = workshop((EXAMPLE_BUILDS / "thirteen_pins" / "trailer.yaml").read_bytes())
    assert "ISO 10133" in european
    assert "inch" not in european
