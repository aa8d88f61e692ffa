"""Fuses and the front box: what must be bridged, what goes dead without a fuse, what lands outside the box."""

from __future__ import annotations

from published import Site, sheets, text_of

OUTSIDE = "Fuses that are not in the box"


def listed(site: Site) -> list[str]:
    return [text_of(item) for item in site.article("fuses.html").select("ul li")]


def test_strip_positions_of_one_function_are_told_to_be_bridged(site: Site) -> None:
    """From the table itself: each strip position with a wire of the plug's cable begins a group."""
    plug = {text_of(cell) for cell in site.article("wires.html").select("td")}
    assert plug
    strip = [row for row in sheets(site.article("fuses.html"))["Front box"] if row[0].startswith("strip ")]
    groups: list[list[str]] = []
    for place, _, ends in strip:
        if "tow plug" in ends:
            groups.append([])
        groups[-1].append(place.removeprefix("strip "))
    wanted = [f"strip {group[0]} to {group[-1]}" for group in groups if len(group) > 1]
    assert wanted
    assert [item.split(" (")[0] for item in listed(site) if item.startswith("strip ")] == wanted


def test_fuses_outside_the_box_tell_what_goes_dead(site: Site) -> None:
    head, *rows = sheets(site.article("fuses.html"))[OUTSIDE]
    dead = {row[0].removesuffix("clamp off").strip(): row[head.index("Goes dead without it")] for row in rows}
    assert dead["gas alarm fuse"] == "gas alarm"
    assert dead["main fuse"] == "all that the front box feeds, unless shore charging feeds it; gas alarm"
    assert dead["battery fuse"] == "charge line: it stops charging"
    assert dead["cool box breaker"] == "cool box socket"


def test_a_spare_wire_that_ends_in_the_box_is_told_there(site: Site) -> None:
    assert [item for item in listed(site) if item.startswith("S1")] == [
        "S1, its other end: kitchen, behind the panel on the left"
    ]


def test_the_workshop_sees_every_terminal_outside_the_box(workshop: Site, owner: Site) -> None:
    tables = sheets(workshop.article("fuses.html"))
    for name in ("battery", "pump relay", "dc charger", "hatch plug", "right step switch"):
        landed = {wire for row in tables[name][1:] for wire in row[1].split(", ")}
        known = {
            w["number"] for w in workshop.record["wires"] if name in (w["from"]["part"], w["to"]["part"])
        }
        assert landed == known, name
    assert {"battery", "pump relay"}.isdisjoint(sheets(owner.article("fuses.html")))
    assert "hatch plug" in sheets(owner.article("fuses.html"))


def test_a_charger_is_found_with_the_fuses_on_both_its_sides(owner: Site) -> None:
    (row,) = (r for r in sheets(owner.article("find.html"))["Parts in alphabet"] if r[0] == "dc charger")
    assert "car-side fuse" in row[1]
    assert "battery fuse" in row[1]


def test_the_face_of_the_box_shows_every_landing_and_fuse(site: Site) -> None:
    pieces = site.article("fuses.html").select("#front-box-face svg")
    shown = [text_of(text) for svg in pieces for text in svg.find_all("text")]
    landed = [row[1] for row in sheets(site.article("fuses.html"))["Front box"][1:]]
    wires = [wire for cell in landed for wire in cell.split(", ")]
    assert [text for text in shown if text in set(wires)] == wires
    fuses = sorted(
        (fuse for fuse in site.record["fuses"] if "way" in fuse), key=lambda fuse: int(fuse["way"])
    )
    assert [text for text in shown if text.endswith(" A")] == [f"{fuse['rating_a']:g} A" for fuse in fuses]
    links = [site.circuit_pages[str(link["href"])]["number"] for svg in pieces for link in svg.find_all("a")]
    assert links == [fuse["circuit"] for fuse in fuses]


# what the file of the example says: on the battery's line, from its post or its main fuse, or on to its post
AT_THE_BATTERY = {"main fuse", "gas alarm fuse", "meter fuse", "battery fuse", "solar fuse"}


def test_one_rule_tells_where_the_minus_clamp_comes_off_first(site: Site) -> None:
    """The page of all fuses and every step that looks at a fuse say the same."""
    rows = sheets(site.article("fuses.html"))[OUTSIDE][1:]
    names = {row[0].removesuffix("clamp off").strip(): row[0].endswith("clamp off") for row in rows}
    assert {name for name, off in names.items() if off} == AT_THE_BATTERY
    seen = set()
    for page in (page for page in site.pages if page.startswith("stops-")):
        for block in site.article(page).select(".guide-step"):
            text = text_of(block)
            for name, off in names.items():
                if f"Pull this fuse and look at it: {name}." in text:
                    seen.add(name)
                    assert ("The minus clamp comes off the battery too" in text) == off, (page, name)
    assert seen >= {"main fuse", "gas alarm fuse", "car-side fuse", "solar fuse"}
