"""Care through the year: a row only where its part is there, each with a box to tick, each season in its place."""

from __future__ import annotations

from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from generated_builds import GeneratedBuild, builds
from hypothesis import HealthCheck, given, settings
from owner_pages import below, page_of, table, told_below, view_of, words_of

from builder.pages.lamp_check import lamp_check
from builder.pages.page_care import FINDERS, PERIODS
from builder.pages.view import View
from builder.trailer.wires import Role

ROOT = Path(__file__).parents[2] / "example_build"
EXAMPLE = (ROOT / "trailer.yaml").read_text(encoding="utf-8")

TITLES = {
    "trip": "Each trip",
    "spring": "Each spring",
    "season": "Once a year, before the season",
    "winter": "Before winter",
    "month": "Each month in store",
}
PLACES = (
    "battery", "caps", "tow plug", "road lamp", "ground bar", "frame bond", "mains", "shore lead", "fuse", "fuses out",
    "brakes", "breakaway", "breakaway battery", "cable entry",
)  # fmt: skip
"""Rows for what has no name of its own in the list of parts."""


def care(text: str) -> BeautifulSoup:
    return page_of(view_of(text.encode()), "care")


def rows(page: BeautifulSoup) -> dict[str, str]:
    """Return every row with a box by its id, in words; the lamps' rows have none."""
    return {str(row["id"]): words_of(row) for row in page.select("tbody tr[id]")}


def test_the_example_has_its_rows_under_their_headings() -> None:
    page = care(EXAMPLE)
    assert [words_of(tag) for tag in page.find_all("h2")] == ["The lamps, in one minute", *TITLES.values()]
    for period, title in TITLES.items():
        ids = [str(row["id"]) for tag in below(page, title) for row in tag.select("tbody tr[id]")]
        assert ids, title
        assert all(one.startswith(f"{period}-") for one in ids)
    made = rows(page)
    for one in (
        "trip-tow-plug", "trip-shore-lead", "season-connector", "season-frame-bond", "season-ground-bar",
        "season-waiting", "season-spare", "season-isolating-switch", "season-fan", "winter-pump",
        "winter-drains", "spring-solar-module", "month-battery", "season-mains", "season-fuse",
        "season-cable-entry",
    ):  # fmt: skip
        assert one in made, one
    assert "season-caps" not in made  # its battery is sealed


def test_every_row_has_a_box_to_tick_and_every_season_a_date() -> None:
    page = care(EXAMPLE)
    ticked = page.select("tbody tr")
    assert len(ticked) > 30
    assert all(len(row.select("th .blank-tick")) == 1 for row in ticked)
    for title in TITLES.values():
        lines = [tag for one in below(page, title) for tag in one.select(".blank-line")]
        assert len(lines) == 2, title


def without(text: str, *starts: str) -> str:
    """Return the build file without the lines that begin so."""
    places = ("{back:", "{ahead:")
    kept = [
        line
        for line in text.splitlines()
        if not line.strip().startswith(starts) or any(word in line for word in places)
    ]
    assert len(kept) <= len(text.splitlines()) - len(starts)
    return "\n".join(kept) + "\n"


def test_without_the_alarm_its_rows_and_its_caution_are_gone() -> None:
    before = care(EXAMPLE)
    assert {one for one in rows(before) if one.endswith("-alarm")} == {
        "trip-alarm",
        "spring-alarm",
        "season-alarm",
        "month-alarm",
    }
    assert "With the power off, the alarm cannot warn you." in words_of(before)
    after = care(without(EXAMPLE, "gas alarm:", "gas alarm fuse:"))
    assert set(rows(before)) - set(rows(after)) == {one for one in rows(before) if one.endswith("-alarm")}
    assert set(rows(after)) <= set(rows(before))
    for word in ("alarm", "sleep"):
        assert word not in words_of(after).lower()


@pytest.mark.parametrize(
    ("starts", "gone"),
    [
        (("roof fan:",), {"season-fan"}),
        (("spares:", "rear spare:"), {"season-spare"}),
        (("waiting:",), {"season-waiting"}),
        (("solar module:", "solar:", "charge controller:", "solar fuse:"), {
            "spring-solar-module", "season-solar-module", "winter-solar-module"}),
        (("frame bond:",), {"season-frame-bond"}),
    ],
)  # fmt: skip
def test_a_part_that_goes_takes_just_its_rows_along(starts: tuple[str, ...], gone: set[str]) -> None:
    text = EXAMPLE.replace("assume: {frame bond length: 3 ft 2 in}", "")
    after = care(without(text, *starts))
    assert set(rows(care(text))) - set(rows(after)) == gone


def test_the_lamps_are_checked_by_the_same_steps_as_before_a_drive() -> None:
    view = view_of(EXAMPLE.encode())
    (steps,) = (made for made in page_of(view, "towing").select("ol.steps") if made.select(".blank-tick"))
    told = [words_of(item) for item in steps.select("li")]
    assert len(told) == 6  # lights, left, right, brake, brake with left, all of it
    assert [" ".join(row) for row in table(page_of(view, "care"), "The lamps, in one minute")] == told
    for name, heading in (("care", "The lamps, in one minute"), ("towing", "The one-minute check")):
        assert "Alone?" in told_below(page_of(view, name), heading)


BATTERY = """\
format: 1
build: {{name: Test Row, country: {country}}}
battery: {{chemistry: {chemistry}, capacity: 100 Ah, to main fuse: 5 in, to front box: 4 ft}}
front box: {{fuse ways: 2}}
"""


@pytest.mark.parametrize(
    ("chemistry", "country", "month", "winter"),
    [
        ("agm", "US", "at 12.6 V already", "An empty one freezes sooner than a full one."),
        ("flooded", "GB", "at 12.5 V already", "Full, it freezes at −57 °C; at a quarter at −16 °C already"),
        ("flooded", "US", "at 12.5 V already", "Full, it freezes at −71 °F; at a quarter at 4 °F already"),
        ("gel", "US", "less than last month", "Charge it full."),
        ("lithium", "US", "only at 41 °F or warmer", "Charge it as its own paper says"),
        ("lithium", "FR", "only at 5 °C or warmer", "Charge it as its own paper says"),
    ],
)
def test_the_battery_is_stored_by_its_chemistry(
    chemistry: str, country: str, month: str, winter: str
) -> None:
    made = rows(care(BATTERY.format(chemistry=chemistry, country=country)))
    assert month in made["month-battery"]
    assert winter in made["winter-battery"]
    assert ("season-caps" in made) == (chemistry == "flooded")
    if chemistry == "lithium":
        assert "Charge it full" not in made["winter-battery"]


@pytest.mark.parametrize(
    ("chemistry", "use", "store"), [("agm", "12.3 V", "12.6 V"), ("flooded", "12.2 V", "12.5 V")]
)
def test_when_to_charge_is_one_sentence_on_both_pages(chemistry: str, use: str, store: str) -> None:
    """Half in use, three quarters in store: common practice, by the table of voltages at rest."""
    view = view_of(BATTERY.format(chemistry=chemistry, country="US").encode())
    told = f"In use, charge it when it reads {use} or less. In store, charge it at {store} already."
    battery = page_of(view, "battery")
    for heading in ("See whether it is low", "Lay it up"):
        assert told in told_below(battery, heading)
    assert told in rows(page_of(view, "care"))["month-battery"]
    assert (
        dict(table(battery, "What is left at rest")).items() >= {"Half": use, "Three quarters": store}.items()
    )


ROAD_ONLY = """\
format: 1
build: {name: Gravel Kite, country: US}
tow plug: {pattern: 4-way flat, to front box: 6 ft}
road lamps:
  rear lamp: {shows: [tail, stop, turn], side: both, wire: 14 ft}
"""


def test_road_lamps_alone_have_their_care_without_a_word_of_a_battery() -> None:
    page = care(ROAD_ONLY)
    assert {one.partition("-")[2] for one in rows(page)} == {"tow-plug", "road-lamp"}
    assert table(page, "The lamps, in one minute")
    told = words_of(page).lower()
    for word in ("battery", "charge", "fuse", "alarm", "front box", "switch everything off"):
        assert word not in told, word
    assert page.select(".caution") == []


def test_a_caution_stands_over_the_list_it_is_for() -> None:
    page = care(EXAMPLE)
    for title, hazard in [
        ("Each spring", "The posts of the battery are always live."),
        ("Once a year, before the season", "The posts of the battery are always live."),
        ("Each month in store", "Let each probe touch one post only."),
        ("Before winter", "With the power off, the alarm cannot warn you."),
    ]:
        kinds = [tag.get("class", [""])[0] for tag in below(page, title)]
        assert kinds.index("caution") < kinds.index("table-holder"), title
        assert hazard in told_below(page, title)


def there(view: View, what: str) -> bool:
    """Tell from the model alone whether a build has what a row is about."""
    trailer = view.trailer
    electric = trailer.brakes is not None and trailer.brakes.kind == "electric"
    every = {part.kind for part in trailer.parts.values()}
    away = electric and (
        bool(every & {"breakaway switch", "breakaway battery"}) or trailer.brakes.breakaway_ah is not None
    )
    kinds = {p.kind for p in trailer.parts.values() if p.name not in trailer.unwired and not p.waiting}
    if what in ("alarm", "connector", "pump", "fan", "socket", "solar module"):
        return what in kinds
    return {
        "battery": trailer.battery is not None,
        "caps": trailer.battery is not None and trailer.battery.chemistry == "flooded",
        "tow plug": trailer.tow_plug is not None,
        "cable entry": any(hole.plug and hole.skin for hole in view.figures.laid.passings),
        "brakes": electric,
        "breakaway": away,
        "breakaway battery": away,
        "road lamp": len(trailer.road_lamps) > 0,
        "ground bar": trailer.front_box is not None,
        "frame bond": any(wire.role is Role.BOND for wire in trailer.wires),
        "mains": trailer.mains is not None,
        "shore lead": trailer.mains is not None
        or any(part.kind == "shore converter" for part in trailer.parts.values()),
        "fuse": len(view.figures.fuses) > 0,
        "fuses out": trailer.battery is not None and len(view.figures.fuses) > 0,
        "isolating switch": any(
            trailer.parts[wire.end.part].kind == "isolating switch"
            for wire in trailer.wires
            if trailer.battery_line is not None
            and wire.circuit == trailer.battery_line.number
            and wire.end.part in trailer.parts
        ),
        "charger": bool(kinds & {"converter", "charge controller", "dc charger", "shore converter"}),
        "waiting": any(part.waiting for part in trailer.parts.values()),
        "spare": len(trailer.spares) > 0,
        "drains": view.figures.energy is not None and len(view.figures.energy.idle_parts) > 0,
    }[what]


@given(build=builds())
@settings(max_examples=60, suppress_health_check=list(HealthCheck))
def test_each_row_has_its_part_and_each_part_its_row(build: GeneratedBuild) -> None:
    view = view_of(build.data)
    page = page_of(view, "care")
    wanted = {
        f"{period}-{what.replace(' ', '-')}"
        for period, whats in PERIODS.items()
        for what in whats
        if there(view, what)
    }
    assert set(rows(page)) == wanted
    known = {*view.trailer.parts, *(wire.number for wire in view.trailer.spares)}
    for whats in PERIODS.values():
        for what in whats:
            names = FINDERS[what](view)
            assert set(names or ()) <= known, what
            assert what in PLACES or names is None or names, what
    lit = {name for step in lamp_check(view.trailer) for name in step["lamps"]}
    assert {lamp.name for lamp in view.trailer.road_lamps} <= lit
    if view.trailer.battery is None:
        assert "battery" not in words_of(page).lower()
