"""Frame by frame: every hole that a way has in a frame stands on that frame's sheet, and in its drawing to scale."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from owner_pages import page_of, table, view_of, words_of

from builder.pages.page_frames import frame_files
from builder.pages.rounding import Reader
from builder.pages.view import Edition, View

EXAMPLE = Path(__file__).parents[2] / "example_build" / "trailer.yaml"
FOOT_M = 0.3048
BOX = """format: 1
build: {name: Sloe Bank, country: US}
battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 2 ft}
front box: {fuse ways: 4}
parts: {lamp: {kind: lamp, draws: 3 W}}
circuits:
  lamp: {path: [lamp: 12 ft]}
body: {width: 5 ft, profile: [{back: 0 in, up: 0 in}, {back: 9 ft, up: 0 in}, {back: 9 ft, up: 4 ft}, {back: 0 in, up: 4 ft}]}
places: {front box: {back: 1 ft, left: 26 in, up: 46 in}, lamp: {LAMP, left: 26 in}}
chases: {groove: {through: [front box, lamp]}}
"""  # noqa: E501 - a profile cannot be broken


def workshop(data: bytes) -> View:
    """Return what the workshop's pages of a build are made of."""
    owner = view_of(data)
    return View(owner.trailer, owner.figures, owner.findings, Edition(Reader.WORKSHOP, "TEST-TEST"))


def test_every_hole_of_the_record_stands_on_the_sheet_of_its_frame_alone() -> None:
    view = workshop(EXAMPLE.read_bytes())
    recorded = [
        (hole["frame"], chase["name"], len(hole["wires"]) + len(hole.get("wires_twice", ())))
        for chase in view.record["laid"]
        for hole in chase.get("frames", ())
    ]
    page = page_of(view, "frames")
    printed = []
    for heading in page.find_all("h2"):
        name = heading.get_text().split(",")[0]
        table = heading.find_next("table")
        assert table is not None
        for number, row in enumerate(table.select("tbody tr"), start=1):
            cells = [" ".join(cell.get_text(" ").split()) for cell in row.find_all(["th", "td"])]
            assert cells[0] == str(number)
            chase = next(one for one in view.trailer.geometry.chases if cells[1].startswith(one))
            printed.append((name, chase, int(cells[3].split()[0])))
    assert sorted(printed) == sorted(recorded)
    assert len(frame_files(view)) == len(page.find_all("h2"))


def test_holes_are_drawn_where_the_record_has_them() -> None:
    """Measured by the bar that the drawing itself carries, from the corners of the body cut there."""
    view = workshop(EXAMPLE.read_bytes())
    for cut, svg in zip(view.frame_cuts, frame_files(view).values(), strict=True):
        soup = BeautifulSoup(svg, "html.parser")
        bar = soup.find(attrs={"data-metres": True})
        assert bar is not None
        begins, ends = (float(x) for x in re.findall(r"[ML]([\d.]+) ", str(bar["d"])))
        px = (ends - begins) / float(str(bar["data-metres"]))
        box = next(one for one in soup.find_all("rect") if "wd-s" in (one.get("class") or ()))
        left, low = float(str(box["x"])), float(str(box["y"])) + float(str(box["height"]))
        width_m = float(str(box["width"])) / px
        for hole, dot in zip(cut.holes.holes, soup.find_all(attrs={"data-hole": True}), strict=True):
            right_m = (float(str(dot["cx"])) - left) / px - width_m / 2
            up_m = (low - float(str(dot["cy"]))) / px
            assert (right_m, up_m) == pytest.approx(hole.point_m[1:], abs=0.02)
        assert {re.sub(r"\D", "", one.get_text()) for one in soup.select("text.wd-nr")} == {
            str(n) for n in range(1, len(cut.holes.holes) + 1)
        }


@pytest.mark.parametrize(
    ("frame", "lamp"),
    [
        ("rail: {up: 4 ft, in: left wall}", "back: 8 ft, up: 50 in"),
        ("ribs: {back: 9 ft, in: left wall}", "back: 9 ft 2 in, up: 46 in"),
    ],
)
def test_a_frame_at_the_very_edge_of_the_body_is_cut_all_the_same(frame: str, lamp: str) -> None:
    data = BOX.replace("LAMP", lamp) + f"frames: {{{frame}}}\n"
    view = workshop(data.encode())
    assert len(view.frame_cuts) == 1
    assert "data-hole" in next(iter(frame_files(view).values()))


def test_a_hole_without_its_edge_on_record_is_measured_on_its_own_sheet_too() -> None:
    """As many as the list of all holes has: neither the wood that is left nor plates are on record for them."""
    view = workshop(EXAMPLE.read_bytes())
    asked = [words_of(row) for row in page_of(view, "frames").select("tbody tr")]
    listed = table(page_of(view, "building-in"), "Holes through frames and studs")
    count = sum(row[3] == "measure it" for row in listed)
    assert 0 < count < len(listed)
    assert sum("wood left to the edge: measure it" in told for told in asked) == count
    assert sum("steel plates over it" in told for told in asked) == len(listed) - count
