"""What the guides say before a hand goes to what is live, and before an engine is started."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from owner_pages import page_of, view_of, words_of

from builder.guide.model import Guide, Suspect
from builder.pages.page_stops import guides_page
from builder.pages.templates import render
from builder.pages.view import View

ROOT = Path(__file__).parents[2] / "example_build"
BARE = "All wires come off the battery's minus post too, and go back on last."
PLUG = "First pull the tow plug out of the car."
BUILDS = ("braked", "thirteen_pins", "road_lamps")


@cache
def build(name: str) -> View:
    return view_of((ROOT / name / "trailer.yaml").read_bytes())


@cache
def page(name: str, path: str) -> BeautifulSoup:
    view = build(name)
    template, data = guides_page(view, path)
    return BeautifulSoup(render(f"pages/{template}.md.jinja", "en", data), "html.parser")


def blocks(name: str, path: str) -> list[str]:
    """Return what each step and each end of the guides on a page says."""
    return [words_of(one) for one in page(name, path).select(".guide-step")]


def beginning(name: str, path: str, words: str) -> list[str]:
    found = [block for block in blocks(name, path) if words in block[: len(words) + 4]]
    assert found, (name, path, words)
    return found


@pytest.mark.parametrize(
    "what", ["Isolating switch.", "The holder of main fuse.", "Main fuse.", "Wire 16A.", "Wire 16C."]
)
def test_on_the_batterys_own_line_the_minus_post_is_bared_first(what: str) -> None:
    """Before its isolating switch nothing is off while that is: all of the line is live by the battery's own post."""
    for block in beginning("thirteen_pins", "stops-all", what):
        assert BARE in block, block


def test_what_is_listed_to_come_off_reaches_the_line_itself() -> None:
    """The isolating switch parts what hangs on the front box, and nothing of the line before it."""
    said = words_of(page("thirteen_pins", "stops-all"))
    listed = said[said.index("This feeds it") : said.index("Do not sleep inside while")]
    for words in ("Take all wires off", "Pull the tow plug", "Cover the solar module"):
        assert words in listed
    assert "isolating switch to OFF" not in listed


def test_behind_the_front_box_the_minus_post_stays_as_it_is() -> None:
    for path in ("stops-03-roof-fan", "stops-09-road-lamps-left-indicator"):
        assert BARE not in " ".join(blocks("thirteen_pins", path))


@pytest.mark.parametrize(
    ("name", "path"), [("braked", "stops-03-charge-line"), ("thirteen_pins", "stops-07-charge-line")]
)
def test_the_plug_is_out_before_a_fuse_of_the_cars_line_is_pulled(name: str, path: str) -> None:
    """With the plug in, the car feeds the fuse on its side whatever is off in the trailer."""
    parts = build(name).trailer.parts
    fuses = [one for one in blocks(name, path) if "Pull this fuse and look at it" in one]
    assert len(fuses) == 2
    ends = [one for one in blocks(name, path) if "Fit a new one" in one or "holder" in one[:20]]
    for block in (*fuses, *ends):
        assert PLUG in block
    both = [one for one in fuses if parts["car-side fuse"].where not in one]
    assert all(BARE in one for one in both)


@pytest.mark.parametrize(
    ("name", "path"), [("braked", "stops-03-charge-line"), ("thirteen_pins", "stops-07-charge-line")]
)
def test_nobody_puts_leads_on_while_the_engine_runs(name: str, path: str) -> None:
    said = words_of(page(name, path))
    for words in ("Set the parking brake and chock the wheels", "crushes who stands between"):
        assert words in said
    assert said.index("chock the wheels") < said.index("Measure the voltage")
    readings = [one for one in blocks(name, path) if "have it started" in one]
    assert len(readings) >= 3
    for block in readings:
        order = [block.index(w) for w in ("engine off", "Step aside", "have it started", "Stop it before")]
        assert order == sorted(order)
    assert "the engine must run" not in said.casefold()


def test_what_the_car_feeds_while_it_runs_is_read_with_care_too() -> None:
    """Many cars feed a switched supply only while the engine runs: the leads are on before that."""
    said = words_of(page("two_plugs", "stops-04-cool-box"))
    assert "crushes who stands between" in said
    readings = [
        one for one in blocks("two_plugs", "stops-04-cool-box") if "Measure" in one and "Expect" in one
    ]
    volts = [one for one in readings if "Measure ohms" not in one]
    assert volts
    assert all("have it started" in one for one in volts)


@pytest.mark.parametrize("name", BUILDS)
def test_an_engine_is_spoken_of_only_where_the_car_charges(name: str) -> None:
    for path, made in build(name).guide_pages.items():
        charged = any(guide.symptom.value == "charge" for guide in made) and "charge-line" in path
        assert ("have it started" in words_of(page(name, path))) == charged, path


@pytest.mark.parametrize(
    ("path", "title"),
    [
        ("stops-04-cool-box", "Cool box socket gives too little, or comes and goes"),
        ("stops-03-roof-fan", "Roof fan runs slowly, or starts and stops"),
        ("stops-02-kitchen-light", "Kitchen lamp is dim or flickers"),
        ("stops-06-gas-alarm", "Gas alarm loses its light at times, or tells of low power"),
        ("stops-01-reading-lights", "All on this circuit is dim or flickers"),
    ],
)
def test_a_part_shows_too_little_as_its_kind_does(path: str, title: str) -> None:
    assert title in words_of(page("thirteen_pins", path))


@pytest.mark.parametrize("name", BUILDS)
def test_a_new_fuse_that_opens_too_has_a_whole_sentence(name: str) -> None:
    """Each end at a fuse says what to do then: leave it out, and either find out why or ask."""
    seen = 0
    for path in build(name).guide_pages:
        for block in blocks(name, path):
            _, found, rest = block.partition("If the new fuse opens too")
            if found:
                seen += 1
                assert rest.startswith(", leave it out"), rest
                assert "find out why: The fuse opens again" in rest or "have someone look" in rest
    assert seen or name == "road_lamps"


@pytest.mark.parametrize("name", BUILDS)
def test_an_owner_is_not_sent_to_a_file_he_has_not(name: str) -> None:
    view = build(name)
    for one in ("garage", "odd-lamps", "car-or-trailer", "stops", "towing"):
        assert not re.search(r"\b(?:its|the) file\b", words_of(page_of(view, one)), re.IGNORECASE), one


def test_a_fuse_in_a_holder_of_its_own_is_in_no_other_fuse() -> None:
    said = words_of(page("braked", "stops-05-breakaway"))
    assert "Fuse is in" not in said
    assert "Which fuse breakaway fuse (on the tongue, in the black box)" in said


@pytest.mark.parametrize("name", [*BUILDS, "smallest", "two_plugs"])
def test_the_battery_is_read_with_nothing_charging_it(name: str) -> None:
    """A charge lifts its voltage. Only a battery of which a table at rest is known is said to be read by it."""
    view = build(name)
    ways = {
        guide.circuit: view.trailer.circuit(guide.circuit).start for guide in view.guides if guide.circuit
    }
    charged = {ways[g.circuit].part for g in view.guides if g.symptom.value == "charge" and g.circuit}
    energy = view.figures.energy
    for path in view.guide_pages:
        for block in blocks(name, path):
            if "See whether the battery is low" not in block:
                continue
            assert ("Nothing may charge it meanwhile" in block) == bool(charged)
            assert ("the engine is off" in block) == ("tow plug" in charged)
            assert ("no sun is on the module" in block) == ("solar module" in charged)
            assert ("tells how to read it at rest" in block) == bool(energy and energy.kind.rest)


@pytest.mark.parametrize("path", ["stops-07-charge-line", "stops-08-sun"])
def test_a_charger_is_blamed_by_its_own_output(path: str) -> None:
    """What it gives is read before it is called dead: with its source off, then on; a full battery is no fault."""
    view = build("thirteen_pins")
    (guide,) = (one for one in view.guide_pages[path] if one.symptom.value == "charge")
    (rise,) = (step for step in guide.steps if step.kind.value == "rise")
    assert rise.red is not None
    assert rise.black is not None
    charger = rise.red.terminal.part
    assert view.trailer.parts[charger].form.value == "section"
    assert (rise.red.terminal.pin, rise.black.terminal.pin, rise.black.terminal.part) == (
        "out +",
        "out −",
        charger,
    )
    leaves = {leaf.id: leaf.suspects for leaf in guide.leaves}
    ends = {one.reads.value: leaves[one.to] for one in rise.outcomes}
    assert [suspect.part for suspect in ends["stays"]] == [charger]
    assert [suspect.cause.value for suspect in ends["rises"]] == ["else"]
    said = words_of(page("thirteen_pins", path))
    assert "nothing: it charges" in said
    assert "a full battery takes next to nothing" in said


def test_what_is_dim_together_may_hang_on_the_cars_own_ground() -> None:
    for name in BUILDS:
        dim = [guide for guide in build(name).guides if guide.symptom.value == "dim"]
        on_contact = [
            g for g in dim if any(s.cause.value == "plug contact" and s in back(name, g) for s in g.suspects)
        ]
        assert on_contact
        for guide in on_contact:
            assert any(suspect.cause.value == "car ground" for suspect in guide.suspects), guide.id
    assert "the car's own ground at contact 1" in words_of(page("road_lamps", "stops-together"))


def back(name: str, guide: Guide) -> tuple[Suspect, ...]:
    """Return the suspects that are a ground contact of the tow plug."""
    plug = build(name).trailer.tow_plug
    assert plug is not None
    return tuple(
        s for s in guide.suspects if s.pin and s.part == "tow plug" and plug.pattern.contact(s.pin).is_ground
    )


@pytest.mark.parametrize("name", BUILDS)
def test_road_lamps_are_dim_as_lamps_and_a_reading_proves_their_ground(name: str) -> None:
    view = build(name)
    road = set(view.road_things)
    mine = [g for g in view.guides if g.symptom.value == "dim" and road.issuperset(g.things)]
    assert mine
    for guide in mine:
        said = words_of(page(name, view.page_of_guide[guide.id]))
        assert "Weak together: all road lamps" not in said
        assert not re.search(r"(?:Rear lamp|Plate lamp|Front lamp)[^.]{0,20} is weak", said)
        if any(suspect.cause.value == "car ground" for suspect in guide.suspects):
            assert any(step.kind.value == "drop" for step in guide.steps), guide.id


ROAD = "Go well off the road and away from traffic: engine off, parking brake set, wheels chocked."
COUPLED = "The trailer is coupled and on level ground:"
HATCH = "Prop the hatch open first, and shut it before you drive."


@pytest.mark.parametrize("name", [*BUILDS, "smallest", "two_plugs"])
def test_before_the_first_step_the_trailer_is_held_off_the_road(name: str) -> None:
    view = build(name)
    hatch = {lamp.name for lamp in view.trailer.road_lamps if lamp.on_hatch}
    for path, made in view.guide_pages.items():
        said = words_of(page(name, path))
        things = {thing for guide in made for thing in guide.things}
        assert (ROAD in said) == (not things.isdisjoint(view.road_things)), path
        assert (HATCH in said) == any(thing.part in hatch for thing in things), path
        assert (COUPLED in said) == any("brake" in thing.part for thing in things), path
        for words in (ROAD, COUPLED):
            if words in said:
                assert said.index(words) < said.index(
                    "Take the first line" if "Take the first line" in said else "Measure"
                )


def test_the_leads_are_on_before_anybody_touches_a_control() -> None:
    by_car, by_pin = (words_of(page("braked", one)) for one in ("stops-04-brakes", "stops-05-breakaway"))
    both = words_of(page("braked", "stops-together"))
    held = "engine off, parking brake set, wheels chocked on both sides"
    for said in (by_car, by_pin, both):
        assert held in said
    for said in (by_car, both):
        order = [
            said.index(w)
            for w in ("key on, engine off, parking", "Clip the leads on, then come out", "Only then does")
        ]
        assert order == sorted(order)
    assert "the other person" not in by_pin
    assert ["before the pin comes out" in said for said in (by_car, by_pin, both)] == [False, True, True]


@pytest.mark.parametrize("name", [*BUILDS, "two_plugs"])
def test_a_socket_that_waits_for_a_trailer_does_not_make_the_car_guilty(name: str) -> None:
    """A car may feed its socket only when it sees a trailer: such a reading leads on to one with the plug in."""
    view = build(name)
    led_on = 0
    for path, made in view.guide_pages.items():
        shown = page(name, path)
        for guide in made:
            steps = {step.id: step for step in guide.steps}
            for step in guide.steps:
                block = shown.find(id=f"{guide.id}-{step.id}")
                assert block is not None
                said = words_of(block)
                socket = step.red is not None and step.red.beyond == "socket"
                assert ("no trailer is plugged in" in said) == socket
                (good,) = [one.to for one in step.outcomes if one.reads.value == "enough"] or [""]
                red = steps[good].red if good in steps else None
                plugged = socket and red is not None and red.beyond != "socket"
                assert ("the car gives nothing without a trailer step" in said) == plugged
                led_on += plugged
    assert led_on or name == "road_lamps"  # read at the strip first


@pytest.mark.parametrize("name", BUILDS)
def test_a_lamp_that_stays_dark_with_its_voltage_is_itself_at_fault(name: str) -> None:
    lamps = {lamp.name for lamp in build(name).trailer.road_lamps}
    read = 0
    for path, made in build(name).guide_pages.items():
        for guide in made:
            mine = {thing.part for thing in guide.things}
            if guide.symptom.value != "dead" or not mine <= lamps or len(mine) != 1 or len(guide.things) < 2:
                continue
            (lamp,) = mine
            ends = {leaf.id: leaf.suspects for leaf in guide.leaves}
            for step in guide.steps:
                if step.red is None or step.black is None:
                    continue
                if step.red.terminal.part != lamp or step.black.terminal.part != lamp:
                    continue
                (good,) = (one.to for one in step.outcomes if one.reads.value == "enough")
                assert [one.part for one in ends[good]] == [lamp]
                block = page(name, path).find(id=f"{guide.id}-{good}")
                assert block is not None
                assert f"{lamp} itself. Its wires are well: it is the lamp." in words_of(block).replace(
                    lamp.capitalize(), lamp
                )
                read += 1
    assert read >= 2


@pytest.mark.parametrize("name", BUILDS)
def test_open_readings_behind_the_cars_fuse_accuse_no_lamp(name: str) -> None:
    """All reads open: there is no short now. It comes and goes, or it is in the car."""
    view = build(name)
    hatch = {lamp.name for lamp in view.trailer.road_lamps if lamp.on_hatch}
    read = 0
    for path, made in view.guide_pages.items():
        for guide in made:
            if guide.symptom.value != "fuse" or not set(guide.things) <= set(view.road_things):
                continue
            (end,) = (one.to for one in guide.steps[-1].outcomes if one.reads.value == "nothing")
            block = page(name, path).find(id=f"{guide.id}-{end}")
            assert block is not None
            said = words_of(block)
            assert "No short now. It comes and goes, or it is in the car." in said
            assert not any(lamp.name in said for lamp in view.trailer.road_lamps)
            assert ("shut the hatch" in said) == any(thing.part in hatch for thing in guide.things)
            read += 1
    assert read >= 2


@pytest.mark.parametrize("name", BUILDS)
def test_with_the_plug_out_nothing_is_lit(name: str) -> None:
    """At the car's socket a lamp is switched on and not lit; some of what a line names is no line that fits."""
    for path in build(name).guide_pages:
        for block in blocks(name, path):
            if "Pull the plug out of the car first" in block:
                assert "lit from the car" not in block
            if "Take the first line that fits" in block:
                assert "Some of a line, not all of it? Take each thing by itself" in block


@pytest.mark.parametrize("name", ["braked", "thirteen_pins"])
def test_each_guide_for_a_charge_can_end_with_nothing_wrong(name: str) -> None:
    """A voltage that rises is the sign of a charge: by a step at the charger, else across the battery beforehand."""
    seen = 0
    for path, made in build(name).guide_pages.items():
        for guide in made:
            if guide.symptom.value == "charge":
                rises = any(step.kind.value == "rise" for step in guide.steps)
                said = words_of(page(name, path))
                assert ("nothing is wrong, it charges" in said) != rises
                seen += 1
    assert seen


@pytest.mark.parametrize("name", BUILDS)
def test_what_is_weak_begins_with_the_car(name: str) -> None:
    for path, made in build(name).guide_pages.items():
        said = words_of(page(name, path))
        dim = [guide.tried for guide in made if guide.symptom.value == "dim" and guide.tried]
        lamps = [one for one in dim if one in build(name).road_things]
        assert said.count("The car comes first: what its socket gives may be too little.") == len(lamps), path
        if name == "braked" and path == "stops-04-brakes":
            assert "The gain of the brake controller comes first" in said


def test_to_bare_metal_of_the_car_the_wires_own_loss_is_allowed() -> None:
    """Oracle: Ohm's law for the wire between ground bar and plug, with all that comes back on it."""
    view = build("braked")
    steps = [
        step
        for guide in view.guides
        for step in guide.steps
        if step.kind.value == "drop" and step.black is not None and step.black.beyond == "car"
    ]
    assert steps
    wire = view.figures.wires["6A"]
    for step in steps:
        assert step.load_a is not None
        assert step.most_v is not None
        assert step.load_a == pytest.approx(wire.current_a)
        assert step.most_v > 0.1  # more than what its joints may lose
    said = words_of(page("braked", "stops-together"))
    assert "Nothing may charge meanwhile: the engine is off" in said
