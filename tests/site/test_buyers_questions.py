"""What a buyer asks in his first week, each answered in the first screen of a phone, one tap from Start here.

The answers are looked for in the example and in the smallest build. The questions are ours. A question
that only some builds raise names what raises it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from functools import cache

import pytest
from bs4 import BeautifulSoup, Tag
from published import EXAMPLE, SMALLEST, Site, record_of, source_of

from builder.drawings.engine import Laid

FIRST_SCREEN = 760
"""Signs of running text that a phone of 390 by 844 CSS pixels shows at once, headings and gaps counted in."""

QUESTIONS: Mapping[str, tuple[str, str]] = {
    "How do I switch everything off?": ("index.html", r"(?:isolating switch to OFF|off the battery's minus post)"),
    "What stays live then?": ("index.html#off", r"Stays live .*(?:cable from|posts of) the battery"),
    "What goes dead?": ("index.html#off", r"Goes dead .*front box"),
    "Which switch works what?": ("index.html#switches", r"Which switch works what .*Works"),
    "Something is dead. What now?": ("stops.html", r"One thing is dead"),
    "A road lamp is dark": ("stops.html#road", r"The car feeds the road lamps"),
    "Smoke, or a smell of burning?": ("index.html#card", r"Everybody out first"),
    "Which fuse is it?": ("find.html", r"\d A \w+ way \d"),
    "How do I put in a new fuse?": ("fuses.html#replace", r"Push in a new one with the same number"),
    "A new fuse opens too": ("stops.html#again", r"Leave the fuse out until the cause is found"),
    "Which spare fuses do I carry?": ("fuses.html", r"two of each: .*3 A"),
    "A wire has a number on it": ("wires.html", r"1B is wire B of circuit 1|\d+B is wire B of circuit \d+"),
    "Where is the battery?": ("battery.html", r"Where it is (?:on the tongue|not written down)"),
    "How big is the main fuse?": ("battery.html", r"Main fuse .*\d+ A"),
    "How many nights does it last?": ("battery.html", r"lasts from .* to .* nights"),
    "Is the battery low?": ("battery.html#low", r"Lamps get dim"),
    "At which voltage do I charge it?": ("battery.html#volts", r"charge it when it reads 12\.3 V or less"),
    "How do I charge it?": ("battery.html#charge", r"charged from the car, the sun|Nothing in this trailer charges it"),
    "What if it stands for weeks?": ("battery.html#idle", r"half empty after .* weeks"),
    "How do I lay it up?": ("battery.html#store", r"Charge it full"),
    "How do I change the battery?": ("battery.html#out", r"A new one must be of the same kind"),
    "What is to do before winter?": ("care.html#winter", r"off its minus post|Wipe it dry|Let all water out"),
    "Do the lamps work before I drive?": ("towing.html#check", r"Car lamps on"),
    "How do I do that alone?": ("towing.html#alone", r"let a phone film"),
    "My car has another socket": ("towing.html#socket", r"adapter only passes on what both sides have"),
    "I wire a new plug": ("towing.html#contacts", r"Match wires by what they do. Test each one before you join it"),
    "May I drill here?": ("adding.html#drill", r"Do not drill or screw into a closed part"),
    "Can I add a lamp?": ("adding.html#free", r"Fuse ways? [\d, ]+\."),
    "Is there mains in it?": ("index.html#mains-here", r"Mains can kill|there is no mains in this trailer"),
    "Who may work on it?": ("index.html#who", r"licensed person"),
    "What was assumed?": ("assumed.html", r"how long things are on"),
    "A word I do not know": ("words.html", r"words of the trade"),
}  # fmt: skip
RAISED = {
    "The alarm for gas sounds": ("index.html#card", r"gas alarm sounds .*everybody out"),
    "How does the sun charge it?": ("battery.html#charge-solar-module", r"Park where light falls"),
    "A road lamp glows or flickers": ("odd-lamps.html", r"A lamp glows or flickers while it is off"),
    "Is it the car or the trailer?": ("car-or-trailer.html", r"whether the car or the trailer is at fault"),
    "What do I tell a garage?": ("garage.html", r"give it to whoever works on"),
    "Must it have brakes?": ("garage.html#must-brake", r"may weigh|does not say what this trailer may weigh"),
    "What works at another socket?": (
        "garage.html#sockets",
        r"What works at another socket.*4-way flat.*brake lamps",
    ),
    "How does the shore lead charge it?": ("battery.html#charge-shore-converter", r"Plug the shore lead in"),
    "How do I set a breaker back?": ("fuses.html#replace", r"Set it back once.*cool box breaker"),
}
"""Questions that the example raises, and the smallest build does not."""


@cache
def smallest() -> Mapping[str, Tag]:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("builder.drawings.circuit_drawing.engine", lambda: lambda _sources: Laid((), "missing"))
        files = source_of(SMALLEST.read_bytes(), "owner").files
    return {
        path.replace(".md", ".html"): BeautifulSoup(str(text), "html.parser")
        for path, text in files.items()
        if path.endswith(".md")
    }


def first_screen(page: Tag, anchor: str) -> str:
    """Return what a reader sees at once: from the page's start, or from where a link leads in it."""
    told: list[str] = []
    seen = not anchor
    for node in page.descendants:
        if isinstance(node, Tag):
            seen = seen or node.get("id") == anchor
            continue
        if seen and node.find_parent(["svg", "head", "script"]) is None:
            told.append(str(node))
    assert seen, anchor
    text = " ".join(" ".join(told).split())
    return re.sub(r" (?=[.,:;])", "", text.partition("# ")[2] if text.startswith("---") else text)[
        :FIRST_SCREEN
    ]


def pages_of(build: str, owner: Site) -> Iterator[tuple[str, str, str, Tag]]:
    asked = QUESTIONS | RAISED if build == "example" else QUESTIONS
    for question, (address, answer) in asked.items():
        page, _, anchor = address.partition("#")
        yield question, answer, anchor, owner.article(page) if build == "example" else smallest()[page]


@pytest.mark.parametrize("build", ["example", "smallest"])
def test_every_question_is_answered_in_the_first_screen(build: str, owner: Site) -> None:
    unanswered = {
        question: first_screen(page, anchor)
        for question, answer, anchor, page in pages_of(build, owner)
        if not re.search(answer, first_screen(page, anchor), re.DOTALL)
    }
    assert unanswered == {}


@pytest.mark.parametrize("build", ["example", "smallest"])
def test_every_answer_is_a_tap_or_two_from_start_here_or_find_it(build: str, owner: Site) -> None:
    """The page itself by one tap; a place in it by a link there, at Start here, or at the top of that page."""
    site = {name: owner.article(name) for name in owner.pages} if build == "example" else smallest()

    def linked(page: str) -> set[str]:
        return {str(a["href"]) for a in site[page].select("a[href]")}

    near = linked("index.html") | linked("find.html")
    reached = {address.partition("#")[0] for address in near} | {"index.html", "find.html"}
    asked = QUESTIONS | RAISED if build == "example" else QUESTIONS
    for question, (address, _) in asked.items():
        page, _, anchor = address.partition("#")
        assert page in reached, question
        if anchor:
            assert address in near or f"#{anchor}" in linked(page), question


def test_start_here_asks_what_a_buyer_asks(owner: Site) -> None:
    lists = [owner.article("index.html"), smallest()["index.html"]]
    for page in lists:
        asked = [a.get_text() for a in page.select("ul.links a")]
        assert {question for question in QUESTIONS if question in asked} >= {
            "How do I charge it?", "What is to do before winter?", "My car has another socket", "May I drill here?",
            "Which spare fuses do I carry?", "A wire has a number on it", "What was assumed?", "Who may work on it?",
        }  # fmt: skip


def test_no_question_asks_for_what_the_build_lacks() -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("builder.drawings.circuit_drawing.engine", lambda: lambda _sources: Laid((), "missing"))
        road = (
            b"format: 1\nbuild: {name: Gravel Kite, country: US}\ntow plug: {pattern: 4-way flat, to front box: 6 ft}\n"
            b"wire: {on the shelf: [16 AWG]}\nroad lamps:\n  plate lamp: {shows: plate, wire: 15 ft}\n"
        )
        files = source_of(road, "owner").files
    page = BeautifulSoup(str(files["index.md"]), "html.parser")
    asked = " ".join(a.get_text() for a in page.select("ul.links a")).lower()
    assert "road lamp" in asked
    assert [word for word in ("battery", "charge", "spare fuses", "alarm", "mains") if word in asked] == []


def test_builds_with_and_without_mains_say_which(owner: Site) -> None:
    """As far as the file knows: the smallest names none, the example names one."""
    assert not record_of(SMALLEST.read_bytes())["build"].get("mains")
    assert b"\nmains:" in EXAMPLE.read_bytes()
    assert "there is no mains in this trailer" in first_screen(smallest()["index.html"], "mains-here")
    assert "there is no mains" not in owner.article("index.html").get_text()


def test_a_build_without_places_has_lines_to_write_them_in() -> None:
    rows = smallest()["find.html"].select("tbody tr")
    assert rows
    assert all(len(row.select("td:last-child .blank")) == 1 for row in rows)
    text = " ".join(smallest()["index.html"].get_text().split())
    assert "Its place is not written down: have it shown to you." in text
    assert "Take all wires off the battery's minus post" in text
