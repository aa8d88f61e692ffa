"""What the pages tell of electric brakes and their breakaway, against the build; nothing where a build has none."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from bs4 import BeautifulSoup, Tag
from owner_pages import page_of, table, told_below, view_of, words_of

from builder.electrics.adapters import other_sockets
from builder.guide.model import StepKind
from builder.lists.testing import Group
from builder.pages.guide_data import title_data
from builder.pages.page_care import FINDERS
from builder.pages.page_stops import guides_page
from builder.pages.rounding import Reader, shown
from builder.pages.templates import render
from builder.pages.view import Edition, View
from builder.tables.brakes import brake_magnet
from builder.trailer.parts import Terminal

ROOT = Path(__file__).parents[2] / "example_build"
PLAIN = {"brake": "electric brakes", "battery": "power from the car"}
BREAKAWAY = "What the breakaway does, how it is tried, what never to do"


@pytest.fixture(scope="module")
def text() -> str:
    return (ROOT / "braked" / "trailer.yaml").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def braked(text: str) -> View:
    return view_of(text.encode())


@pytest.fixture(scope="module")
def unbraked() -> View:
    return view_of((ROOT / "road_lamps" / "trailer.yaml").read_bytes())


def braked_by_the_car_alone(text: str) -> View:
    """Return the braked trailer without its breakaway: neither its parts, nor its circuit, nor its battery."""
    kept = re.sub(r"\n  breakaway:\n(    .*\n)+", "\n", text)
    kept = re.sub(r"\n +breakaway (battery|fuse|switch): .*", "", kept)
    assert "breakaway" not in re.sub(r"#.*|description: .*", "", kept)
    return view_of(kept.encode())


def test_hitching_up_fastens_the_cable_and_the_check_looks_at_the_pin(braked: View) -> None:
    page = page_of(braked, "towing")
    hitch, check = told_below(page, "Hitching up"), told_below(page, "The one-minute check")
    assert "Fasten the chains" in hitch
    assert "Fasten the cable of the breakaway to the car" in hitch
    assert hitch.index("Couple the trailer") < hitch.index("Fasten the cable") < hitch.index("Then plug in")
    assert "Its pin is in, all the way" in check
    assert "Try the brakes before you join other traffic" in check


def test_the_breakaway_is_told_with_its_parts_places_and_figures(braked: View) -> None:
    told = told_below(page_of(braked, "towing"), BREAKAWAY)
    parts, brakes = braked.trailer.parts, braked.figures.brakes
    assert brakes is not None
    for name in ("left brake", "right brake", "breakaway battery"):
        assert name in told
    assert parts["breakaway switch"].where in told
    assert parts["breakaway battery"].where in told
    assert f"{shown(brakes.needed_ah, Reader.OWNER)} Ah" in told
    assert f"{brakes.hold_min:g} min" in told
    out, pin, back = (
        told.index(t) for t in ("Pull the tow plug out", "Pull the pin straight", "Put the pin back")
    )
    assert out < pin < back
    assert told.count("Never ") >= 4
    assert "people who are trained for it" in told


def test_care_charges_tests_and_renews_the_battery_of_the_breakaway(braked: View) -> None:
    page = page_of(braked, "care")
    rows = {str(row["id"]): words_of(row) for row in page.select("tbody tr[id]")}
    season = rows["season-breakaway-battery"]
    for word in ("Charge it", "test it", "end date", "its own paper"):
        assert word in season
    assert "Pin in" in rows["trip-breakaway"]
    assert "Try the brakes" in rows["trip-brakes"]
    assert "trained for it" in rows["season-brakes"]
    assert page.select_one('#season-breakaway a[href="towing.html#breakaway"]') is not None
    assert page_of(braked, "towing").find(id="breakaway") is not None


def test_brakes_without_a_breakaway_are_tried_and_no_pin_is_told(text: str) -> None:
    without_breakaway = braked_by_the_car_alone(text)
    towing, care = page_of(without_breakaway, "towing"), page_of(without_breakaway, "care")
    assert without_breakaway.figures.brakes is not None
    assert "Try the brakes" in words_of(towing)
    assert {row["id"] for row in care.select("tbody tr[id]")} >= {"trip-brakes", "season-brakes"}
    for page in (towing, care):
        assert "breakaway" not in words_of(page).casefold()


def test_the_rows_of_care_are_for_the_parts_of_the_build(braked: View) -> None:
    names = {what: FINDERS[what](braked) for what in ("brakes", "breakaway", "breakaway battery")}
    kinds = {
        "brakes": "brake magnet",
        "breakaway": "breakaway switch",
        "breakaway battery": "breakaway battery",
    }
    for what, kind in kinds.items():
        made = tuple(part.name for part in braked.trailer.parts.values() if part.kind == kind)
        assert names[what] == made
        assert made


def guides_of(view: View, path: str) -> BeautifulSoup:
    """Return a page of guides as parsed HTML."""
    template, data = guides_page(view, path)
    return BeautifulSoup(render(f"pages/{template}.md.jinja", "en", data), "html.parser")


def test_brakes_are_told_apart_by_what_still_works_them(braked: View) -> None:
    """The pedal and the pin, each works or does not: every case but that of nothing wrong has a line of its own."""
    page = guides_of(braked, "stops-together")
    rows = table(page, "What holds the trailer")
    assert [row[:2] for row in rows] == [["nothing", "holds"], ["holds", "nothing"], ["nothing", "nothing"]]
    by_car, by_pin, both = (row[2] for row in rows)
    assert all(name in by_car for name in ("the car", "wire 4A", "wire 4D", "brake splice", "1 (GD)"))
    assert all(name in by_pin for name in ("breakaway fuse", "wire 5A", "wire 5D", "brake splice"))
    assert "brake splice, feed; its return" in both
    assert "wire" not in both
    named = [row[0] for row in table(page, "What is dead together") if row[0].startswith("left brake, right")]
    assert len(named) == len(set(named)) == 4
    for one in braked.guides:
        on = {thing.circuit for thing in one.things if thing.part == "left brake"}
        if one.symptom.value not in ("dead", "dim") or not on or len(one.things) > 4:
            continue
        said = title_data(braked, one, "stops")["things"]["names"][-1]["by"]
        assert said == ("both" if len(on) == 2 else "pedal" if on == {4} else "pin"), one.id


def test_brakes_of_one_supply_need_no_such_table(text: str) -> None:
    one = braked_by_the_car_alone(text)
    page = guides_of(one, "stops-together")
    assert table(page, "What holds the trailer") == []
    assert "(by the pedal)" not in words_of(page)


def test_the_car_is_read_before_anything_in_the_trailer_is_blamed_for_its_brakes(braked: View) -> None:
    brakes = braked.figures.brakes
    assert brakes is not None
    read = 0
    for guide in braked.guides:
        fed = guide.tried is not None and guide.tried.circuit == brakes.circuit
        both = {brakes.circuit, brakes.breakaway} == {t.circuit for t in guide.things}
        if guide.symptom.value != "dead" or not fed or both or len({t.part for t in guide.things}) != 2:
            continue
        points = [step.red for step in guide.steps if step.red is not None]
        assert points[0].beyond == "socket", guide.id
        assert points[0].terminal == Terminal("tow plug", str(brakes.contact))
        read += 1
    assert read == 1


def test_brakes_dead_from_both_supplies_are_no_fault_of_the_car(braked: View) -> None:
    """The breakaway works from its own battery: it is what both share, or two faults, which no voltage rules out."""
    page = guides_of(braked, "stops-together")
    (row,) = (one for one in table(page, "What holds the trailer") if one[:2] == ["nothing", "nothing"])
    assert "the car" not in row[2]
    assert "Nothing from both is not the car alone" in words_of(page)
    on = {(name, circuit) for name in ("left brake", "right brake") for circuit in (4, 5)}
    (guide,) = (
        one
        for one in braked.guides
        if one.symptom.value == "dead" and {(t.part, t.circuit) for t in one.things} == on
    )
    assert {one.cause.value for one in guide.suspects} == {"joint", "else"}
    for step in guide.steps:
        for outcome in step.outcomes if step.kind is StepKind.VOLTS else ():
            ends = [leaf.suspects for leaf in guide.leaves if leaf.id == outcome.to]
            assert all("else" in {one.cause.value for one in suspects} for suspects in ends)


def test_no_probe_and_no_hand_goes_into_a_drum(braked: View) -> None:
    for guide in braked.guides:
        for step in guide.steps:
            for point in (step.red, step.black):
                assert point is None or point.terminal.part not in ("left brake", "right brake"), guide.id
    told = words_of(guides_of(braked, "stops-together"))
    assert "Never open a drum" in told
    assert "Fit a new part of its kind" not in told


def test_what_was_taken_off_or_turned_up_is_put_back(braked: View) -> None:
    for path in ("stops-04-brakes", "stops-05-breakaway", "stops-together"):
        told = words_of(guides_of(braked, path))
        assert (
            "At the end: pin in, then the leads back on the breakaway battery, plus first and minus last"
            in told
        )
        assert "Do not drive before the trailer brakes by the hand control in the car" in told
    gain = words_of(guides_of(braked, "stops-04-brakes"))
    assert (
        gain.index("note its gain")
        < gain.index("turn it up")
        < gain.index("set the gain back to what you noted")
    )


def test_who_finds_no_braking_begins_on_the_first_page(text: str, braked: View, unbraked: View) -> None:
    words = "The trailer brakes badly, or not at all"
    (link,) = (a for a in page_of(braked, "stops").select("a") if words_of(a) == words)
    assert link["href"] == "stops-together.html#brakes"
    assert guides_of(braked, "stops-together").find(id="brakes") is not None
    alone = braked_by_the_car_alone(text)
    (link,) = (a for a in page_of(alone, "stops").select("a") if words_of(a) == words)
    path, _, anchor = str(link["href"]).partition(".html#")
    assert guides_of(alone, path).find(id=anchor) is not None
    assert words not in words_of(page_of(unbraked, "stops"))


def test_with_the_leads_off_the_probe_goes_to_the_lead(braked: View) -> None:
    """The battery's own minus is joined to nothing then, and every reading would be an open line."""
    (guide,) = (one for one in braked.guides if one.fuse == "breakaway fuse")
    page = guides_of(braked, braked.page_of_guide[guide.id])
    for step in guide.steps[1:]:
        assert step.black is not None
        assert step.black.terminal.part == "breakaway battery"
        block = page.find(id=f"{guide.id}-{step.id}")
        assert isinstance(block, Tag)
        assert "Hold the black probe to the minus lead that you took off" in words_of(block)


def test_a_wheel_that_is_tried_has_no_chock(braked: View) -> None:
    steps = told_below(page_of(braked, "towing"), BREAKAWAY)
    order = [steps.index(w) for w in ("Pull the pin straight", "Take the chocks away", "Let the car draw")]
    assert order == sorted(order)
    assert "A helper sits in the car" in steps


def test_nobody_goes_to_the_breakaway_switch_while_the_engine_runs(braked: View) -> None:
    """The switch sits between car and trailer: before each way there the car stands, and the wheels are chocked."""
    steps = [words_of(one) for one in page_of(braked, "towing").select("#breakaway ~ ol.steps > li")]
    runs, chocked = True, False
    ways = 0
    for step in steps[: next(n for n, one in enumerate(steps) if "Then plug in" in one) + 1]:
        if "Engine off, in gear or in park, parking brake set" in step:
            runs = False
        if re.search(r"[Ll]ay (the )?chocks", step):
            assert not runs, step
            chocked = True
        if re.match(r"Pull the (tow plug|pin)|Put the pin back|Charge the battery", step):
            ways += 1
            assert not runs, step
            assert chocked, step
        if "Take the chocks away and step aside" in step:
            chocked = False
        if "the engine started" in step:
            assert not chocked, step
            runs = True
    assert ways == 4
    assert not runs
    assert chocked


def test_each_trip_begins_with_a_charged_battery_of_the_breakaway(braked: View, unbraked: View) -> None:
    rows = {str(row["id"]): words_of(row) for row in page_of(braked, "care").select("tbody tr[id]")}
    assert "Charged" in rows["trip-breakaway-battery"]
    assert "Its battery is charged" in told_below(page_of(braked, "towing"), "The one-minute check")
    assert not page_of(unbraked, "care").select("#trip-breakaway-battery")


def test_what_must_work_before_a_drive_stands_in_one_place(braked: View, unbraked: View) -> None:
    told = told_below(page_of(braked, "stops"), "Do not drive before all this works")
    for words in ("Every road lamp", "by the hand control in the car, and by the pedal", "with its pin out"):
        assert words in told
    plain = told_below(page_of(unbraked, "stops"), "Do not drive before all this works")
    assert "Every road lamp" in plain
    assert "brakes of the trailer" not in plain
    assert "pin" not in plain


def test_no_adapter_is_offered_for_a_socket_without_brakes(braked: View, unbraked: View) -> None:
    page = page_of(braked, "garage")
    rows = {row[0]: row for row in table(page, "What works at another socket")}
    without = [socket.pattern for socket in other_sockets(braked.trailer) if "brake" in socket.lost]
    assert without
    for name, row in rows.items():
        assert ("do not tow this trailer there" in row[-1]) == (name in without)
    told = told_below(page, "At another socket")
    assert f"where the socket brings no brakes: {', '.join(without)}." in told
    assert "do not tow" not in words_of(page_of(unbraked, "garage")).casefold()


def test_the_breakaway_battery_is_charged_by_its_paper_or_renewed(braked: View) -> None:
    for path in (path for path in braked.guide_pages if path.startswith("stops-")):
        assert "sun or power" not in words_of(guides_of(braked, path)), path
    told = words_of(guides_of(braked, "stops-05-breakaway"))
    assert "Charge it as its own paper says, then try again" in told
    assert "end date is past" in told


def test_brakes_that_the_car_feeds_are_read_with_its_controller_at_full(braked: View) -> None:
    made = {guide.id: guide for guide in braked.guides}
    brakes = braked.figures.brakes
    assert brakes is not None
    read = 0
    for path in (path for path in braked.guide_pages if path.startswith("stops-")):
        page = guides_of(braked, path)
        for guide in braked.guide_pages[path]:
            by_car = guide.tried is not None and guide.tried.circuit == brakes.circuit
            for place, one in enumerate(made[guide.id].steps):
                if one.kind not in (StepKind.VOLTS, StepKind.DROP):
                    continue
                step = page.find(id=f"{guide.id}-{one.id}")
                assert isinstance(step, Tag), (guide.id, place)
                assert ("brake controller" in words_of(step)) == by_car, (guide.id, place)
                read += by_car
    assert read > 4
    told = words_of(guides_of(braked, "stops-04-brakes"))
    assert "it has no brake controller" in told
    assert "press the brake pedal" not in told


def test_the_page_tells_the_ohms_of_the_magnets_behind_the_pin(braked: View) -> None:
    (guide,) = (one for one in braked.guides if one.fuse == "breakaway fuse")
    page = guides_of(braked, braked.page_of_guide[guide.id])
    last = guide.steps[-1]
    step = page.find(id=f"{guide.id}-{last.id}")
    assert isinstance(step, Tag)
    said = words_of(step)
    assert last.normal_ohm is not None
    assert f"{shown(last.normal_ohm, Reader.OWNER)} Ω" in said
    assert "pull the pin" in said
    assert "Open line" not in said
    leaf = next(one for one in guide.leaves if len(one.suspects) > 4)
    named = words_of(page.find(id=f"{guide.id}-{leaf.id}"))  # type: ignore[arg-type]
    for suspect in leaf.suspects:
        for name in suspect.wires or (suspect.part,):
            assert name.casefold() in named.casefold()


def test_the_test_sheet_expects_the_ohms_of_the_magnets_at_the_plug(text: str) -> None:
    view = view_of(text.encode())
    view = View(view.trailer, view.figures, view.findings, Edition(Reader.WORKSHOP, "2222-2222"))
    sheet = page_of(view, "tests")
    brakes = view.figures.brakes
    assert brakes is not None
    (line,) = (
        line
        for _, line in view.lists.tests.group(Group.SHORTS)
        if line.circuit == brakes.circuit and line.red == Terminal("tow plug", str(brakes.contact))
    )
    one = brake_magnet("10 in").ohm_low
    assert line.about == pytest.approx(one / 2)
    row = next(
        r
        for r in sheet.select("tr")
        if "left brake, right brake" in words_of(r) and "Resistance" in words_of(r)
    )
    assert f"about {shown(one / 2, Reader.WORKSHOP)} Ω" in words_of(row)
    assert "not near 0" not in words_of(row)


def test_the_garage_measures_contacts_that_cars_wire_differently(braked: View, unbraked: View) -> None:
    rows = {row[0]: row for row in table(page_of(braked, "garage"), "What works at another socket")}
    for socket in other_sockets(braked.trailer):
        _, works, measured, lost, _ = rows[socket.pattern]
        for doubt in socket.doubts:
            assert PLAIN[doubt.function] in measured
            assert f"contact {doubt.contact} may be for" in measured
            assert PLAIN[doubt.function] not in works + lost
    assert rows["6-way round"][2].count("contact") == 2  # brakes and power
    assert rows["5-way flat"][2].count("contact") == 1
    assert rows["4-way flat"][2] == "–"
    assert "Only after measuring" not in words_of(page_of(unbraked, "garage"))


def test_a_trailer_without_brakes_tells_none_of_it(unbraked: View) -> None:
    for name in ("towing", "care"):
        page = page_of(unbraked, name)
        assert "breakaway" not in words_of(page).casefold()
        assert "Try the brakes" not in words_of(page)
        assert not page.select("#trip-brakes, #season-brakes")
