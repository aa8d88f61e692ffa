"""The pages that tell car from trailer, and the one for a garage, against the build and the figures."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from bs4 import BeautifulSoup, Tag
from owner_pages import page_of, table, told_below, view_of, words_of

from builder.electrics.plug_states import STATES
from builder.pages.guide_names import driver_turns_on
from builder.pages.page_stops import guides_page
from builder.pages.templates import render
from builder.pages.view import View
from builder.tables.tow_plugs import PlugContact
from builder.trailer.model import TOW_PLUG
from builder.trailer.parts import Terminal

ROOT = Path(__file__).parents[2]
BUILDS = {
    "road lamps": ROOT / "example_build" / "road_lamps" / "trailer.yaml",
    "thirteen pins": ROOT / "example_build" / "thirteen_pins" / "trailer.yaml",
    "two plugs": ROOT / "example_build" / "two_plugs" / "trailer.yaml",
    "braked": ROOT / "example_build" / "braked" / "trailer.yaml",
    "brakes": ROOT / "tests" / "check_values" / "brakes_and_bulbs.yaml",
}


@pytest.fixture(scope="module", params=BUILDS)
def view(request: pytest.FixtureRequest) -> View:
    return view_of(BUILDS[request.param].read_bytes())


def numbers(cell: str) -> str:
    """Return the numbers of contacts without the marks beside them, as ``5, 6`` of ``5 (LT), 6 (RT)``."""
    return re.sub(r" \([^)]*\)", "", cell)


def test_each_lamp_contact_is_tested_with_all_its_lamps_and_no_other_contact_is(view: View) -> None:
    rows = table(page_of(view, "car-or-trailer"), "At the plug of the trailer")
    plug, wanted = view.trailer.tow_plug, {}
    assert plug is not None
    for lamp in view.trailer.road_lamps:
        for _, contact in lamp.contacts:
            wanted.setdefault(plug.said(contact), []).append(lamp.name)
    assert {numbers(row[0]): row[2] for row in rows} == {
        contact: ", ".join(dict.fromkeys(names)) for contact, names in wanted.items()
    }


def test_no_supply_is_put_on_a_contact_that_leads_to_a_battery_or_to_brakes(view: View) -> None:
    page = page_of(view, "car-or-trailer")
    tested = {numbers(row[0]) for row in table(page, "At the plug of the trailer")}
    plug = view.trailer.tow_plug
    assert plug is not None
    for contact in plug.pattern.contacts:
        if set(contact.functions) & {"battery", "switched supply", "brake"}:
            assert contact.said not in tested
            assert f"{contact.said} (" in words_of(page).split("Never put a supply on these contacts:")[1]


def test_the_fuse_of_the_test_lead_carries_every_lamp_circuit(view: View) -> None:
    """3 A is what the trade takes (quoted); more only where lamps take more."""
    text = words_of(page_of(view, "car-or-trailer"))
    amps = float(
        text.split("Use a spare 12 V battery on the ground beside the plug, with a ")[1].split(" A fuse")[0]
    )
    most = max(one.amps["everything"] for one in view.figures.plug_states if one.estimate_a)
    assert amps > most
    assert amps == 3.0 or amps < 2.5 * most


def test_the_garage_reads_what_each_contact_carries_in_each_state(view: View) -> None:
    rows = {numbers(row[0]): row for row in table(page_of(view, "garage"), "The plug, contact by contact")}
    plug = view.trailer.tow_plug
    assert plug is not None
    for one in view.figures.plug_states:
        printed = [float(cell.split()[0]) for cell in rows[plug.said(one.pin)][3:6]]
        assert printed == pytest.approx([one.amps[state] for state in STATES], rel=0.04, abs=0.02)


def test_a_ground_carries_what_comes_back_to_it(view: View) -> None:
    """Kirchhoff's current law at the plug: contacts by the return that the table of plugs gives each."""
    plug = view.trailer.tow_plug
    assert plug is not None
    states = {one.pin: one for one in view.figures.plug_states}
    for ground in (one for one in plug.pattern.contacts if one.is_ground and one.pin in states):
        for state in STATES:
            back = sum(
                one.amps[state]
                for pin, one in states.items()
                if _way_back(plug.pattern.contact(pin)) == ground.pin
            )
            assert states[ground.pin].amps[state] == pytest.approx(back)


def _way_back(contact: PlugContact) -> str | None:
    """Return the ground of a contact by the table; a reversing lamp on a 12S comes back by the lamps' earth, 12N 3."""
    if contact.pin == "12S 1":
        return "3"
    number = contact.return_contact
    return f"{contact.plug} {number}".strip() if number is not None else None


def test_brakes_stand_on_the_garage_page_only_where_the_trailer_has_them(view: View) -> None:
    text = words_of(page_of(view, "garage"))
    assert ("Breakaway battery" in text) == (view.trailer.brakes is not None)


FIVE = """\
format: 1
build: {name: Example, country: US}
tow plug: {pattern: 5-way flat, to front box: 6 ft}
road lamps:
  rear lamp: {shows: [tail, stop, turn], side: both, wire: 12 ft}
  backup lamp: {shows: reverse, side: middle, wire: 12 ft}
"""


def test_a_contact_that_can_be_for_brakes_is_not_fed_even_where_a_lamp_hangs_on_it() -> None:
    """Contact 5 of the 5-way flat is for brakes or for reversing (common practice)."""
    page = page_of(view_of(FIVE.encode()), "car-or-trailer")
    assert {numbers(row[0]) for row in table(page, "At the plug of the trailer")} == {"2", "3", "4"}
    assert "5 (" in words_of(page).split("Never put a supply on these contacts:")[1]


def test_the_weight_and_the_brakes_of_this_trailer_stand_above_the_rules() -> None:
    """1450 lb by the example's file, in pounds since it is built in feet; 1 lb is 0.45359237 kg by definition."""
    data = (ROOT / "example_build" / "trailer.yaml").read_bytes()
    told = told_below(page_of(view_of(data), "garage"), "Must it have brakes?")
    assert "This trailer may weigh 1450 lb loaded" in told
    assert "No brakes were written down for it." in told
    metric = view_of(BUILDS["thirteen pins"].read_bytes())
    weight = metric.trailer.identity.gross_mass_kg
    told = told_below(page_of(metric, "garage"), "Must it have brakes?")
    assert (
        f"may weigh {weight:.0f} kg" if weight else "Nobody wrote down what this trailer may weigh"
    ) in told
    braked = told_below(page_of(view_of(BUILDS["brakes"].read_bytes()), "garage"), "Must it have brakes?")
    assert "It has electric brakes." in braked


def test_a_column_that_no_contact_fills_is_left_out(view: View) -> None:
    """The car's fuses are known for some plugs only."""
    plug = view.trailer.tow_plug
    assert plug is not None
    known = any(one.car_fuse_a for one in plug.pattern.contacts)
    page = page_of(view, "garage")
    assert ("Usual fuse in the car" in page.get_text()) == known
    assert ("The usual fuse in the car is common practice" in page.get_text()) == known


SWITCHES = {
    "turn": "turn signal on",
    "stop": "a foot on the brake",
    "fog": "rear fog lamp",
    "reverse": "reverse gear in",
}


def test_each_row_at_the_socket_says_what_the_driver_turns_on_and_which_reading_comes_and_goes(
    view: View,
) -> None:
    plug = view.trailer.tow_plug
    assert plug is not None
    rows = {
        numbers(row[0]): row for row in table(page_of(view, "car-or-trailer"), "At the socket of the car")
    }
    shown: dict[str, set[str]] = {}
    for lamp in view.trailer.road_lamps:
        for told, at in lamp.contacts:
            shown.setdefault(plug.said(at), set()).update(told.split(", "))
    assert set(rows) <= set(shown)
    for contact, row in rows.items():
        asked = {word for word, said in SWITCHES.items() if said in row[1].split("key on", 1)[1]}
        assert asked == shown[contact] & set(SWITCHES)
        assert ("the car's lamps on" in row[1]) == bool(shown[contact] - set(SWITCHES))
        assert ("comes and goes" in row[3]) == ("turn" in shown[contact])
        assert "key on, engine off" in row[1]


def test_who_passes_both_tests_is_sent_to_what_lies_between(view: View) -> None:
    text = words_of(page_of(view, "car-or-trailer"))
    assert "the car is well" not in text
    assert "The fault is in the car, its socket" not in text
    both = text.split("the socket was right as well:")[1]
    assert both.strip().startswith("then it is the contacts between the two, or a ground")
    assert "reads 12 V even through a rotten contact; a lamp then stays dim or dark" in text


def test_the_table_by_symptom_stands_first_and_asks_for_no_meter(view: View) -> None:
    page = page_of(view, "car-or-trailer")
    rows = table(page, "What do you see?")
    assert page.find("table") is not None
    assert words_of(page.find("table").find("caption")) == "What do you see?"  # type: ignore[union-attr]
    said = " ".join(cell for row in rows for cell in row)
    assert "One lamp" in said
    assert "one side" in said
    assert "then switch on in the car what it feeds. Opens again: the car. Holds: the trailer." in said
    assert not re.search(r"meter|volt|probe", said)
    assert page.select('table a[href="odd-lamps.html"]')
    assert page.select('table a[href="stops.html"]')


def test_the_garage_reads_ampacity_and_largest_fuse_by_their_names(view: View) -> None:
    """The largest fuse is that of FAA AC 43.13-1B Table 11-3, or what the file names; it is below the ampacity."""
    plug = view.trailer.tow_plug
    assert plug is not None
    rows = {row[0]: row for row in table(page_of(view, "garage"), "What comes back by the ground")}
    for ground in view.figures.plug_grounds:
        told = rows[plug.said(ground.pin)][5]
        assert "carries" not in told
        if ground.size is None or ground.largest_fuse_a is None:
            continue
        found = re.search(r"ampacity ([\d.]+) A; largest fuse ([\d.]+) A", told)
        assert found
        assert ground.bears_a is not None
        assert float(found[1]) == pytest.approx(ground.bears_a, rel=0.04)
        assert float(found[2]) == ground.largest_fuse_a < ground.bears_a


def test_the_fuse_for_a_ground_conductor_is_the_one_that_a_circuit_of_its_size_is_allowed() -> None:
    """FAA AC 43.13-1B Table 11-3: 10 AWG, a fuse of 30 A."""
    grounds = view_of(BUILDS["braked"].read_bytes()).figures.plug_grounds
    assert {str(one.size): one.largest_fuse_a for one in grounds} == {"10 AWG": 30.0}


@pytest.mark.parametrize("page", ["towing", "garage"])
def test_black_to_black_is_warned_of_where_one_is_ground_and_the_other_plus(page: str) -> None:
    """By the habit of the trade contact 4 of the 7-way blade is black; the braked trailer's ground is black."""
    view = view_of(BUILDS["braked"].read_bytes())
    here = Terminal(TOW_PLUG, "1")
    assert "black" in {w.color.base for w in view.trailer.wires if here in (w.start, w.end)}
    told = [words_of(one) for one in page_of(view, page).select(".caution")]
    (black,) = (one for one in told if "Black is ground in this trailer" in one)
    assert (
        "Here black lands on contact 1, ground. In a cable it is the plus of contact 4: power from the car."
        in black
    )


def test_no_clash_is_told_of_where_the_ground_has_its_own_colour() -> None:
    for name in ("road lamps", "thirteen pins", "two plugs"):
        text = words_of(page_of(view_of(BUILDS[name].read_bytes()), "towing"))
        assert "in a usual cable" not in text


@pytest.mark.parametrize("build", ["two plugs", "example"])
def test_what_the_charger_takes_and_what_it_gives_have_names(build: str) -> None:
    view = view_of(({**BUILDS, "example": ROOT / "example_build" / "trailer.yaml"})[build].read_bytes())
    text = words_of(page_of(view, "towing"))
    found = re.search(r"It takes ([\d.]+) A at the plug and gives the battery ([\d.]+) A", text)
    assert found
    (line,) = (c for c in view.trailer.circuits if c.name == "charge line")
    gives = next(one.current_a for one in view.figures.circuits[line.number].loads if one.load.charged_from)
    (takes,) = (s.amps["everything"] for s in view.figures.plug_states if s.pin == line.start.pin)
    assert float(found[1]) == pytest.approx(takes, rel=0.05)
    assert float(found[2]) == pytest.approx(gives, rel=0.05)
    assert float(found[1]) > float(found[2])
    assert "more than it gives the battery" in words_of(page_of(view, "garage"))


def test_a_list_of_contacts_has_no_mirror_image() -> None:
    for name in ("two plugs", "thirteen pins"):
        caption = page_of(view_of(BUILDS[name].read_bytes()), "towing").select_one(
            "#tow-plug-face figcaption"
        )
        assert caption is not None
        assert "mirror" not in words_of(caption)


def test_brakes_and_charging_are_warned_of_where_the_plug_has_such_contacts(view: View) -> None:
    plug = view.trailer.tow_plug
    assert plug is not None
    functions = {word for one in plug.pattern.contacts for word in one.functions}
    text = words_of(page_of(view, "car-or-trailer"))
    assert ("On a charging contact it meets a battery" in text) == ("battery" in functions)
    assert ("On a brake contact the trailer brakes" in text) == ("brake" in functions)


def test_brakes_are_spoken_of_on_the_page_about_towing_where_the_trailer_has_them(view: View) -> None:
    text = words_of(page_of(view, "towing"))
    assert ("Brakes of a trailer are work" in text) == (view.trailer.brakes is not None)
    assert bool(re.search(r"It brings no brakes", text)) == (view.trailer.brakes is not None)


def test_lamps_that_one_contact_lights_stand_in_one_line_and_a_lamp_alone_accuses_nobody(view: View) -> None:
    """Kirchhoff by eye: a lit lamp on the same contact shows that the car feeds it; a lamp alone has no witness."""
    page = page_of(view, "car-or-trailer")
    plug = view.trailer.tow_plug
    assert plug is not None
    wanted: dict[str, list[str]] = {}
    for lamp in view.trailer.road_lamps:
        for pin in dict.fromkeys(at for _, at in lamp.contacts):
            wanted.setdefault(plug.said(pin), []).append(lamp.name)
    combined: dict[str, set[str]] = {}
    for lamp in view.trailer.road_lamps:
        for told, at in lamp.contacts:
            combined.setdefault(plug.said(at), set()).update(told.split(", "))
    both = [pin for pin, words in combined.items() if {"stop", "turn"} <= words]
    rows = {numbers(row[0]): row for row in table(page, "Which lamps go together")}
    if both:
        wanted[", ".join(both)] = [name for pin in both for name in wanted[pin]]
        assert "a foot on the brake" in rows[", ".join(both)][1]
        assert not any("brake" in rows[pin][1] for pin in both)
    assert {contact: row[2].removesuffix(", alone").split(", ") for contact, row in rows.items()} == wanted
    alone = {contact for contact, row in rows.items() if row[2].endswith(", alone")}
    assert alone == {contact for contact, names in wanted.items() if len(names) == 1}
    told = told_below(page, "Which lamps go together")
    assert ("another of its line is lit: the trailer." in told) == (len(alone) < len(wanted) - bool(both))
    assert ("The line of the brake has more than one contact" in told) == bool(both)
    assert ("your eyes cannot tell" in told) == bool(alone)
    first = table(page, "What do you see?")[0]
    assert ("alone on its contact, perhaps the car" in first[1]) == bool(alone)


def test_a_lamp_on_a_contact_that_is_never_fed_is_looked_at_all_the_same() -> None:
    rows = table(page_of(view_of(FIVE.encode()), "car-or-trailer"), "Which lamps go together")
    assert ["5", "backup lamp, alone"] in [[row[0], row[2]] for row in rows]


def test_the_socket_is_judged_by_one_voltage_on_all_pages(view: View) -> None:
    """The least that the guides take for good there, and no other figure beside it."""
    least = {
        step.least_v
        for guide in view.guides
        for step in guide.steps
        if step.red is not None and step.red.beyond == "socket"
    }
    assert len(least) == 1
    told = {
        row[3].split(";")[0] for row in table(page_of(view, "car-or-trailer"), "At the socket of the car")
    }
    assert told == {f"{least.pop():.1f} V or more"}


def test_a_flashing_reading_is_told_to_come_and_go(view: View) -> None:
    """A meter cannot stand still on a lamp that flashes: where nothing else lights it, the highest number counts."""
    flash = "With the flashing the reading comes and goes: take the highest number."
    seen = 0
    for path, made in view.guide_pages.items():
        template, data = guides_page(view, path)
        page = BeautifulSoup(render(f"pages/{template}.md.jinja", "en", data), "html.parser")
        for guide in made:
            if guide.tried is None or view.trailer.circuit(guide.tried.circuit).kind.value != "tow":
                continue
            by = driver_turns_on(view, guide.tried)
            for step in guide.steps:
                block = page.find(id=f"{guide.id}-{step.id}")
                assert isinstance(block, Tag)
                if step.kind.value in ("volts", "drop"):
                    flashes = by[0].endswith("turn")
                    assert (flash in words_of(block)) == flashes, (guide.id, step.id)
                    seen += 1
    assert seen


def test_a_contact_is_named_by_its_number_and_the_mark_that_may_stand_in_its_place() -> None:
    """Some plugs have numbers moulded on, others letters: both stand wherever a probe or a clip goes."""
    view = view_of((ROOT / "example_build" / "braked" / "trailer.yaml").read_bytes())
    page = page_of(view, "car-or-trailer")
    assert [row[0] for row in table(page, "At the plug of the trailer")] == ["3 (TM)", "5 (LT)", "6 (RT)"]
    assert {row[1] for row in table(page, "At the plug of the trailer")} == {"contact 1 (GD)"}
    assert [row[0] for row in table(page, "Which lamps go together")][-1] == "5 (LT), 6 (RT)"
    flat = view_of((ROOT / "example_build" / "road_lamps" / "trailer.yaml").read_bytes())
    for name in ("car-or-trailer", "garage", "towing"):
        assert "The numbers count along the row from the end with the ground." in words_of(
            page_of(flat, name)
        )


def test_a_dim_lamp_has_a_line_of_its_own() -> None:
    view = view_of((ROOT / "example_build" / "road_lamps" / "trailer.yaml").read_bytes())
    rows = {row[0]: row for row in table(page_of(view, "car-or-trailer"), "What do you see?")}
    assert "One lamp is dead, all else works" in rows
    assert rows["One lamp is dim"][2] == "Go to that lamp in Something is weak, dim or flickers."
    (link,) = page_of(view, "car-or-trailer").select('a[href="stops.html#dim"]')
    assert link
    assert page_of(view, "stops").select("#dim")


def test_a_phone_that_shows_no_head_of_a_table_still_says_what_a_bare_number_is() -> None:
    """There every row stands as a card: the name of its column is beside each number that a probe or clip goes to."""
    view = view_of((ROOT / "example_build" / "braked" / "trailer.yaml").read_bytes())
    page = page_of(view, "car-or-trailer")
    heads = [one.select_one("tbody th") for one in page.select("table.sheet-stacks.told")]
    assert [str(one["data-label"]) for one in heads if one is not None] == [
        "Contact",
        "Red probe on contact",
        "Plus on contact",
    ]
    assert page_of(view, "garage").select("table.told tbody th[data-label='Red probe on contact']")
