"""What whoever works on the car's socket reads: the car's fuse, the cable's colours, volts, and what to measure."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from owner_pages import page_of, table, told_below, view_of, words_of

from builder.pages.colour_clashes import colour_swaps, other_cores
from builder.pages.page_circuit import circuit_page
from builder.pages.templates import render
from builder.pages.view import View
from builder.trailer.circuits import CircuitKind
from builder.trailer.model import TOW_PLUG

ROOT = Path(__file__).parents[2] / "example_build"
BUILDS = {
    "example": ROOT / "trailer.yaml",
    **{name: ROOT / name / "trailer.yaml" for name in ("road_lamps", "thirteen_pins", "two_plugs", "braked")},
}
MEASURE = "Measure these at the car's socket by themselves"


@pytest.fixture(scope="module", params=BUILDS)
def view(request: pytest.FixtureRequest) -> View:
    return view_of(BUILDS[request.param].read_bytes())


def build(name: str) -> View:
    return view_of(BUILDS[name].read_bytes())


def plug_rows(view: View, page: str) -> dict[str, list[str]]:
    plug = view.trailer.tow_plug
    assert plug is not None
    caption = {
        "garage": "The plug, contact by contact",
        "towing": f"Contacts of the {plug.pattern.name} plug",
    }[page]
    return {row[0].split(" (")[0]: row for row in table(page_of(view, page), caption)}


@pytest.mark.parametrize("page", ["towing", "garage"])
def test_each_contact_has_its_largest_fuse_beside_the_usual_one(view: View, page: str) -> None:
    plug, rows = view.trailer.tow_plug, plug_rows(view, page)
    assert plug is not None
    assert len(view.figures.plug_feeds) > 2
    for one in view.figures.plug_feeds:
        said = " ".join(rows[plug.said(one.pin)])
        at_most = f"at most {one.largest_fuse_a:g} A"
        assert at_most in said or (page == "garage" and f" {one.largest_fuse_a:g} A" in said), said
        if one.usual_fuse_a is not None:
            low, high = one.usual_fuse_a
            assert (f"{low:g} to {high:g} A" if low != high else f"{high:g} A") in said


@pytest.mark.parametrize("page", ["towing", "garage"])
def test_a_usual_fuse_above_the_wires_is_warned_of_with_its_contacts(view: View, page: str) -> None:
    plug = view.trailer.tow_plug
    assert plug is not None
    wanted = [plug.said(one.pin) for one in view.figures.plug_feeds if one.may_be_too_large]
    told = [words_of(one) for one in page_of(view, page).select(".caution")]
    found = [one for one in told if "A usual fuse in the car can be too large" in one]
    assert len(found) == bool(wanted)
    for one in found:
        assert ", ".join(wanted) in one


def test_the_thin_core_before_a_charge_line_is_named_with_its_fuse() -> None:
    for page in ("towing", "garage"):
        text = words_of(page_of(build("thirteen_pins"), page))
        assert "Contact 9: the wires here bear a fuse of 30 A, from 7A (6 mm²) on." in text
        assert "is usually one of 2.5 mm², and bears 15 A at most." in text
        assert "That is too small a fuse for the 13 A that flow here for hours." in text
        # 13 A are 80 % of 16.25 A: of the usual 15 to 20 A the larger one, and wires for 30 A bear it
        assert "Such a thick core bears the fuse that fits here: 20 A." in text
        assert (
            "brakes" not in text.split("Contact 9: the wires here")[1].split("as thick as the wire here")[0]
        )


def test_where_no_usual_fuse_is_known_the_car_is_looked_at_as_well() -> None:
    for page in ("towing", "garage"):
        told = [words_of(one) for one in page_of(build("road_lamps"), page).select(".caution")]
        (found,) = [one for one in told if "The fuse in the car can be too large for these wires." in one]
        assert "Have the fuses in the car looked at" in found
        assert "Not into the line of the brakes" not in found


def test_no_fuse_is_put_into_the_line_of_brakes() -> None:
    for page in ("towing", "garage"):
        text = words_of(page_of(build("braked"), page))
        assert (
            "Not into the line of the brakes: there the paper of the brake controller tells the fuse" in text
        )
        assert "Not into the line of the brakes" not in words_of(page_of(build("thirteen_pins"), page))


def test_the_garage_has_the_colours_of_a_bought_cable_as_the_page_on_towing_has_them(view: View) -> None:
    both = [page_of(view, page) for page in ("towing", "garage")]
    for caption, wanted in (
        ("Cores with another colour", other_cores(view)),
        ("One colour, two contacts", colour_swaps(view)),
    ):
        towing, garage = (table(page, caption) for page in both)
        assert towing == garage
        assert len(garage) == len(wanted)


def test_volts_say_whether_they_are_lost_one_way_or_there_and_back(view: View) -> None:
    lines = [c for c in view.trailer.circuits if c.kind is CircuitKind.FROM and c.start.part == TOW_PLUG]
    page = page_of(view, "garage")
    if view.figures.plug_grounds:
        assert "volts lost one way, on the way back alone" in words_of(page)
    if not lines:
        return
    told = told_below(page, "What the car feeds beside the lamps")
    for line in lines:
        loads = view.figures.circuits[line.number].loads
        drop = max(one.drop_v for one in loads if one.load.section.startswith(TOW_PLUG))
        said = re.search(
            rf"{re.escape(line.name)}, contact .*?there and back: ([\d.]+) V", told[told.index(line.name) :]
        )
        assert said is not None
        assert float(said[1]) == pytest.approx(drop, rel=0.05)


def test_what_feeds_no_lamp_is_measured_at_the_socket_and_never_fed(view: View) -> None:
    plug = view.trailer.tow_plug
    assert plug is not None
    used = {one.pin for one in view.figures.plug_states}
    wanted = {
        one.said: f"contact {plug.pattern.ground_of(one).said}"
        for one in plug.pattern.contacts
        if one.pin in used and {"battery", "switched supply", "brake"} & set(one.functions)
    }
    page = page_of(view, "garage")
    rows = table(page, MEASURE)
    told = [
        [re.sub(r" \([^)]*\)", "", cell) for cell in (row[0], row[2])] for row in rows
    ]  # without their marks
    assert dict(told) == wanted
    warned = [words_of(one) for one in page.select(".caution") if "feed nothing in" in words_of(one)]
    assert len(warned) == bool(wanted)
    for one in warned:
        brake = any("electric brakes" in row[1] for row in rows)
        assert ("On a brake contact the trailer brakes." in one) is brake


def test_a_sum_of_rounded_figures_is_said_to_be_rounded() -> None:
    """Two magnets of 3.75 A print as 3.8 A each and take 7.5 A."""
    view = build("braked")
    data = {circuit.name: circuit_page(view, circuit) for circuit in view.trailer.circuits}
    data["brakes"]["drawing"] = {"problem": "left out"}
    text = re.sub(r"<[^>]*>", "", render("pages/circuit.md.jinja", "en", data["brakes"]))
    assert "3.8\u00a0A" in text
    assert "7.5\u00a0A" in text
    assert "These figures are rounded, each by itself" in text
    assert not data["reading light"]["sum_rounded"]
    assert "a sum may differ in its last digit" in words_of(page_of(view, "garage"))
