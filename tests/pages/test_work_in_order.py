"""Start here of the workshop has its sheets in the order of the work: every sheet that the build has, and no other."""

from __future__ import annotations

from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from builder.pages.manual import PAGES, WORKSHOP, manual_source_of_file

BUILDS = Path(__file__).parents[2] / "example_build"
NO_STEP = {"check", "wrap-labels", "pen-labels"}
"""What check says is looked up, and the sheets of labels are reached from the list of labels."""

FOR_ALL = {"towing", "battery"}
"""Pages of every edition that the work needs: the plug is wired by one, the battery's place made by the other."""


def told(page: object) -> str:
    """Return what a page says, its links and marks left out."""
    return " ".join(BeautifulSoup(str(page), "html.parser").get_text().split())


def steps(build: str) -> tuple[list[str], set[str]]:
    """Return the sheets that the steps lead to, in their order, and the pages that the manual has."""
    files = manual_source_of_file(BUILDS / build / "trailer.yaml", "workshop").files
    after = str(files["index.md"]).split("## The work in order")[1]
    listed = BeautifulSoup(after, "html.parser").select_one("ol.steps")
    assert listed is not None
    links = [str(link["href"]).split(".html")[0] for link in listed.select("a:not(.word)")]
    return links, {path.removesuffix(".md") for path in files if path.endswith(".md")}


@pytest.mark.parametrize("build", ["", "road_lamps", "smallest", "two_plugs"])
def test_each_sheet_of_the_workshop_is_a_step(build: str) -> None:
    links, there = steps(build)
    sheets = {page.path for page in PAGES if page.readers == WORKSHOP} | FOR_ALL
    assert set(links) == (sheets & there) - NO_STEP


def test_walls_are_closed_after_the_tests_that_need_no_supply() -> None:
    links, _ = steps("")
    order = ["shopping", "building-in", "cuts", "pulls", "landings", "towing", "tests", "closing", "tests"]
    written = [*order, "towing", "cuts"]  # the lamps with a car; then what was laid otherwise is written down
    assert [link for link in links if link in order] == written


def test_parts_are_mounted_and_shorts_are_sought_again_once_the_skins_are_on() -> None:
    files = manual_source_of_file(BUILDS / "trailer.yaml", "workshop").files
    after = told(files["index.md"]).split("The work in order")[-1]
    bare = "When the last skin is on, test each wire by itself once more"
    assert after.index("Closing list") < after.index(bare) < after.index("Parts.")
    joined = (
        "Feed against return, when all parts are in and no supply is joined. Then the tests with a supply."
    )
    assert after.index("Parts.") < after.index("Leave each joint within reach") < after.index(joined)
    assert "once when the last skin is on" in told(files["tests.md"])


def test_what_stays_off_while_parts_are_joined_is_named() -> None:
    """A charge controller must find the battery before the module: their ends wait for the test sheet."""
    files = manual_source_of_file(BUILDS / "trailer.yaml", "workshop").files
    after = told(files["index.md"]).split("The work in order")[-1]
    off = after.split("until a line of the test sheet joins it: ")[1].split(".Test sheet")[0]
    assert off == "all that goes on the posts of the battery; 15A, 15D at solar module"
    braked = told(manual_source_of_file(BUILDS / "braked" / "trailer.yaml", "workshop").files["index.md"])
    assert "the leads of breakaway battery" in braked.split("until a line of the test sheet joins it: ")[1]
    lamps = told(manual_source_of_file(BUILDS / "road_lamps" / "trailer.yaml", "workshop").files["index.md"])
    assert "Leave off, each end insulated" not in lamps


def test_the_owner_has_no_such_list() -> None:
    files = manual_source_of_file(BUILDS / "trailer.yaml", "owner").files
    assert "The work in order" not in str(files["index.md"])


def test_without_a_plug_no_step_speaks_of_one(tmp_path: Path) -> None:
    build = tmp_path / "trailer.yaml"
    build.write_text(
        "format: 1\nbuild: {name: Bean Row}\nbattery: {chemistry: agm, capacity: 35 Ah, to front box: 4 ft}\n"
        "front box: {fuse ways: 6}\nparts: {fan: {kind: fan, draws: 1 A}}\ncircuits: {air: {path: [fan: 4 ft]}}\n"
    )
    files = manual_source_of_file(build, "workshop").files
    after = str(files["index.md"]).split("## The work in order")[1]
    assert "towing" not in after
    assert "landings.html" in after
