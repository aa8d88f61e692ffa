"""What the owner is given, and what stays in the workshop."""

from __future__ import annotations

import csv
import json
import re
from decimal import Decimal
from pathlib import Path

from published import EXAMPLE, SMALLEST, Site, figures_on, published, sheets, text_of

from builder.pages.problem_pages import problem_pages
from builder.rules.page import page_of
from builder.rules.registry import RULES

WORKSHOP_FILES = {
    "check.html",
    "findings.html",
    "shopping.html",
    "cuts.html",
    "pulls.html",
    "closing.html",
    "labels.html",
    "landings.html",
    "wrap-labels.html",
    "pen-labels.html",
    "lamps.html",
    "tests.html",
    "runs.html",
    "building-in.html",
    "frames.html",
    "fasteners.html",
    "data/figures.json",
    "data/wire_numbers.csv",
    "pictures/lid-code.svg",
}
WORKSHOP_FILES |= {
    f"data/{name}.csv"
    for name in ("wires", "shopping", "cuts", "pulls", "closing", "labels", "landings", "test_sheet")
}
WORKSHOP_FILES |= {f"pictures/wrap-labels-{n}.svg" for n in range(1, 11)}
WORKSHOP_FILES |= {f"pictures/frame-{n}.svg" for n in range(1, 7)}
WORKSHOP_FILES |= {f"pictures/pen-labels-{n}.svg" for n in range(1, 7)}
WORKSHOP_COLUMNS = {"Carries", "Bears", "Drop", "IEC 60757", "Known from"} | {
    "By fuse",
    "By wire",
    "By voltage",
    "By switch",
}
METER_VOLTS = re.compile(r"guide/.*/least_v")
"""What a meter must show at least stands to a tenth of a volt: two figures would pass a battery that is empty."""
WHOLE = ("/gross_mass_kg", "/rating_a", "/length_m", "/hand_formula/size", "/capacity_ah", "/rest_v")
"""Printed as they are on the part, the tape or the meter, whoever reads."""


def files_of(site: Site) -> set[str]:
    return {path.relative_to(site.folder).as_posix() for path in site.folder.rglob("*") if path.is_file()}


def test_the_owners_folder_lacks_just_the_workshops_files(owner: Site, workshop: Site) -> None:
    assert files_of(workshop) - files_of(owner) == WORKSHOP_FILES
    assert files_of(owner) <= files_of(workshop)


def test_the_owners_tables_lack_just_the_workshops_columns(owner: Site, workshop: Site) -> None:
    met = set()
    for page in owner.pages:
        mine, theirs = sheets(owner.article(page)), sheets(workshop.article(page))
        assert set(mine) <= set(theirs), page
        assert page == "fuses.html" or set(mine) == set(theirs), page  # the workshop lands more parts there
        for caption, rows in mine.items():
            assert len(rows) == len(theirs[caption]), (page, caption)
            gone = [name for name in theirs[caption][0] if name not in rows[0]]
            assert set(gone) <= WORKSHOP_COLUMNS, (page, caption)
            assert [name for name in theirs[caption][0] if name not in gone] == rows[0], (page, caption)
            met |= set(gone)
    assert met == WORKSHOP_COLUMNS


SIXTEENTHS = 16


def significant_digits(text: str) -> int:
    digits = Decimal(text).as_tuple().digits
    return len(str(int("".join(map(str, digits)))).rstrip("0")) or 1


def test_the_owner_reads_two_figures_at_most(owner: Site) -> None:
    checked = 0
    for page in owner.pages:
        for figure in figures_on(owner.article(page)):
            path = str(figure["data-figure"])
            if path.endswith(WHOLE) or path.startswith("assumptions/") or METER_VOLTS.fullmatch(path):
                continue
            checked += 1
            number = text_of(figure).split(" ")[0]
            if "/" in number:  # a fraction as a tape measure has it
                assert int(number.split("/")[1]) <= SIXTEENTHS, (page, path)
                continue
            assert significant_digits(number) <= 2, (page, path)
    assert checked > 200


def test_the_workshop_reads_three_somewhere(workshop: Site) -> None:
    texts = [
        text_of(figure) for page in workshop.circuit_pages for figure in figures_on(workshop.article(page))
    ]
    assert any(re.fullmatch(r"0\.\d*[1-9]\d[1-9] V", text) for text in texts)


def test_nothing_of_the_findings_reaches_the_owner(owner: Site) -> None:
    assert owner.record["findings"]
    index = (owner.folder / "search" / "search_index.json").read_text(encoding="utf-8")
    for page in owner.pages:
        text = text_of(owner.pages[page])
        for finding in owner.record["findings"]:
            assert finding["message"] not in text, page
            assert finding["help"] not in text, page
            assert finding["message"] not in index
        assert not owner.pages[page].select(".finding, .must-fix-banner"), page
        assert not re.search(r"\bfindings?\b", text, re.IGNORECASE), page
        assert "trailer.yaml" not in text, page


def test_the_workshop_has_each_finding_on_its_page_and_on_its_circuit(workshop: Site) -> None:
    told = text_of(workshop.article("findings.html"))
    for finding in workshop.record["findings"]:
        assert finding["message"] in told
        pages = [
            page for page, one in workshop.circuit_pages.items() if one["number"] == finding.get("circuit")
        ]
        assert all(finding["message"] in text_of(workshop.article(page)) for page in pages)


def test_each_edition_says_in_its_head_which_it_is(owner: Site, workshop: Site) -> None:
    for page in owner.pages:
        assert "owner's manual" in text_of(owner.article(page))
        assert "owner's manual" not in text_of(workshop.article(page))


def test_a_must_fix_stands_over_every_page_of_the_workshop(tmp_path: Path) -> None:
    text = SMALLEST.read_text(encoding="utf-8")
    before = "reading: {path: [reading lamp: 8 ft]"
    assert text.count(before) == 1
    too_large = text.replace(before, f"{before}, size: 16 AWG, fuse: 30 A")
    site = published(too_large.encode(), "workshop", tmp_path / "manual")
    assert any(finding["level"] == "must fix" for finding in site.record["findings"])
    for page in site.pages:
        (banner,) = site.article(page).select(".must-fix-banner")
        assert "must be fixed" in text_of(banner), page
        link = banner.find("a")
        assert link is not None
        assert str(link["href"]) == "findings.html"


def test_the_wire_list_reads_back_as_the_record_has_it(workshop: Site) -> None:
    text = (workshop.folder / "data" / "wires.csv").read_text(encoding="utf-8")
    head, *rows = list(csv.reader(text.splitlines()))
    assert head[0] == "wire"
    assert {len(row) for row in rows} == {len(head)}
    names = {circuit["number"]: circuit["name"] for circuit in workshop.record["circuits"]}

    def unquoted(cells: list[str]) -> list[str]:
        """A quote before a sign keeps a spreadsheet from running it."""
        return [cell[1:] if re.match(r"'[=+\-@]", cell) else cell for cell in cells]

    assert [unquoted(row) for row in rows] == [
        [
            wire["number"],
            names[wire["circuit"]],
            wire["role"],
            wire["from"]["part"],
            wire["from"]["terminal"],
            wire["to"]["part"],
            wire["to"]["terminal"],
            wire["color"],
            wire.get("tracer", ""),
            wire["size"],
            f"{wire['length_m']:.3f}",
            "draft" if wire["draft"] else "issued",
        ]
        for wire in workshop.record["wires"]
    ] + [
        [
            *(w["number"], "spare", "", w["from"], w["name"], w["to"], w["name"]),
            *(w["color"].partition(" with ")[0], w["color"].partition(" with ")[2], w["size"]),
            f"{w['length_m']:.3f}",
            "draft" if w["draft"] else "issued",
        ]
        for w in workshop.record["spares"]
    ]


def test_the_record_in_the_folder_is_the_record_of_the_build(workshop: Site) -> None:
    assert (
        json.loads((workshop.folder / "data" / "figures.json").read_text(encoding="utf-8")) == workshop.record
    )


def test_the_example_says_that_it_is_invented() -> None:
    assert "It is invented." in EXAMPLE.read_text(encoding="utf-8")


def test_what_check_says_is_told_whole_and_each_rule_leads_there(workshop: Site) -> None:
    told = {str(one["id"]): text_of(one) for one in workshop.article("check.html").select("details")}
    pages = [*(page_of(rule) for rule in RULES), *problem_pages().values()]
    assert len(told) == len(pages)
    for page, text in zip(pages, told.values(), strict=True):
        assert text.startswith(page.name)
        for said in (page.title, *map(" ".join, page.paragraphs)):
            words = re.findall(r"[a-z]{4,}", said.replace("`", " "))
            assert [word for word in words if word not in text] == [], page.name
    examples = [one.get_text() for one in workshop.article("check.html").select("pre")]
    failing = [f"{text}\n" for text in examples[: 2 * len(RULES) : 2]]
    assert failing == [page_of(rule).failing for rule in RULES]
    links = {
        str(link["href"]).partition("#")[2]
        for link in workshop.article("findings.html").select('[href^="check.html#"]')
    }
    assert links <= set(told)
    assert len(links) >= len(RULES)
