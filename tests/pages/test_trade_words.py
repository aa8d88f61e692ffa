"""Trade words: marked in our own texts alone, linked in the best place of a page, and never left marked."""

from __future__ import annotations

import io
import re

import pytest
from babel.messages.pofile import read_po
from bs4 import BeautifulSoup
from generated_builds import GeneratedBuild, builds
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from builder.drawings.engine import Laid
from builder.pages.collecting import template_text
from builder.pages.manual import manual_source
from builder.pages.trade_words import END, START, Marker, TradeWord, marker, read_words
from builder.pages.verdict import judge_build
from builder.pages.word_links import link_words, meaning_with_links, with_cross_links, without_marks

WORDS = read_words("""\
fuse, fuses = A thin metal that melts.
fuse way, fuse ways, =way = One place for a fuse.
ground bar = A bar.
=common = A screw of a fuse.
lonely = Nobody uses it, not even a relay.
relay = It works by a coil.
coil = It moves a relay.
""")
HERE = Marker(WORDS)


def shown(text: str) -> str:
    return HERE.mark(text).replace(START, "[").replace(END, "]")


@pytest.mark.parametrize(
    ("text", "marked"),
    [
        ("Fuses and one fuse way.", "[Fuses] and one [fuse way]."),
        ("the fuse-box and a refuse bin", "the fuse-box and a refuse bin"),
        ("%(fuse)s: fuse %(fuse_way)s", "%(fuse)s: [fuse] %(fuse_way)s"),
        ("Way", "[Way]"),
        ("the way of the current", "the way of the current"),
        ("common", "[common]"),
        ("common practice", "common practice"),
        ("a fuse's leg, the fuse.", "a [fuse]'s leg, the [fuse]."),
        ("nothing", "nothing"),
        ("", ""),
    ],
)
def test_words_are_marked_whole_and_longest_first(text: str, marked: str) -> None:
    assert shown(text) == marked


@pytest.mark.parametrize(
    ("text", "told"), [("fuse: melts", "no meaning"), ("fuse = ", "no meaning"), ("a, b = x\nB = y", "share")]
)
def test_a_list_that_is_wrong_is_refused(text: str, told: str) -> None:
    with pytest.raises(ValueError, match=told):
        read_words(text)


def linked(page: str) -> str:
    """Return a page with [ and ] as marks, once its words are linked; a link is written as {…}."""
    text = page.replace("[", START).replace("]", END)
    made = link_words({"page.md": text}, HERE)[0]["page.md"]
    assert START not in made
    assert END not in made
    return re.sub(r'<a class="word" href="words\.html#word-[\w-]+">([^<]*)</a>', r"{\1}", made)


@pytest.mark.parametrize(
    ("page", "made"),
    [
        ("<p>a [fuse] and a [fuse]</p>", "<p>a {fuse} and a fuse</p>"),
        ("<p>[Fuses], [fuse way]s</p>", "<p>{Fuses}, {fuse way}s</p>"),
        ("# A [fuse]\n\n<p>[fuse]</p>", "# A fuse\n\n<p>{fuse}</p>"),
        ('<p><a href="x.html">[fuse]</a> [fuse]</p>', '<p><a href="x.html">fuse</a> {fuse}</p>'),
        (
            '<div aria-label="[fuse]"><p title="[fuse]">x</p></div>',
            '<div aria-label="fuse"><p title="fuse">x</p></div>',
        ),
        (
            "<table><tr><td>[fuse]</td></tr></table><p>[fuse]</p>",
            "<table><tr><td>fuse</td></tr></table><p>{fuse}</p>",
        ),
        ("<table><tr><td>[fuse]</td></tr></table>", "<table><tr><td>{fuse}</td></tr></table>"),
        (
            "<table><thead><tr><th>[fuse]</th></tr></thead><tbody><tr><td>[fuses]</td></tr></tbody></table>",
            "<table><thead><tr><th>fuse</th></tr></thead><tbody><tr><td>{fuses}</td></tr></tbody></table>",
        ),
        (
            "<table><thead><tr><th>[fuse]</th></tr></thead></table>",
            "<table><thead><tr><th>{fuse}</th></tr></thead></table>",
        ),
        (
            '<div class="caution"><p>[fuse]</p></div><p>[fuse]</p>',
            '<div class="caution"><p>fuse</p></div><p>{fuse}</p>',
        ),
        ('<p><span class="fuse"><b>[fuse]</b></span></p>', '<p><span class="fuse"><b>fuse</b></span></p>'),
        (
            "<details><summary>[fuse]</summary><p>x</p></details>",
            "<details><summary>fuse</summary><p>x</p></details>",
        ),
        ("<svg><text>[fuse]</text></svg><p>[fuse]</p>", "<svg><text>fuse</text></svg><p>{fuse}</p>"),
        ('<p><img alt="[fuse]"><br>[fuse]</p>', '<p><img alt="fuse"><br>{fuse}</p>'),
        ("<p>no word</p>", "<p>no word</p>"),
    ],
)
def test_the_best_place_becomes_the_link(page: str, made: str) -> None:
    assert linked(page) == made


BITS = (
    "[fuse]", "[fuses]", "[relay]", " text &lt;b&gt; ", "<p>", "</p>", "<a href='x'>", "</a>", "<td>", "</td>",
    "<b title='[fuse]'>", "</b>", "<svg>", "</svg>", "<br>", "\n# [relay]\n", "<h2>", "</h2>", "é🔥",
)  # fmt: skip


@given(st.lists(st.sampled_from(BITS), max_size=40))
def test_nothing_but_links_is_added_and_each_word_is_linked_once_at_most(pieces: list[str]) -> None:
    text = "".join(pieces).replace("[", START).replace("]", END)
    pages, used = link_words({"page.md": text}, HERE)
    made = pages["page.md"]
    links = re.findall(r'<a class="word" href="words\.html#([\w-]+)">', made)
    assert len(links) == len(set(links))
    assert sorted(links) == sorted(word.anchor for word in used)
    assert re.sub(r'<a class="word" [^>]*>([^<]*)</a>', r"\1", made) == without_marks(text)


def test_what_explains_a_word_is_explained_too() -> None:
    (relay,) = (word for word in WORDS if word.head == "relay")
    assert [word.head for word in with_cross_links([relay], HERE)] == ["coil", "relay"]
    meaning = meaning_with_links(relay, HERE)
    assert meaning == 'It works by a <a href="#word-coil">coil</a>.'
    own = TradeWord(("fuse",), "A fuse & a <relay>.")
    assert meaning_with_links(own, HERE) == 'A fuse &amp; a &lt;<a href="#word-relay">relay</a>&gt;.'


# ------------------------------------------------------------------ the list of the theme


def theme_texts() -> list[str]:
    """Return the texts of the theme, the list of words itself apart."""
    return [
        str(message.id)
        for message in read_po(io.BytesIO(template_text().encode("utf-8")))
        if message.id and any("word_list" not in place for place, _ in message.locations)
    ]


def test_every_word_of_the_list_is_met_in_the_theme_or_explains_another_one() -> None:
    words = marker("en")
    met = {
        form.casefold()
        for text in theme_texts()
        for form in re.findall(f"{START}(.*?){END}", words.mark(text))
    }
    found = [word for word in words.words if met & {form.removeprefix("=").casefold() for form in word.forms}]
    assert set(words.words) == set(with_cross_links(found, words))


def test_anchors_are_unlike_each_other() -> None:
    anchors = [word.anchor for word in marker("en").words]
    assert len(anchors) == len(set(anchors))


def test_the_marks_are_refused_in_a_build_file() -> None:
    data = f"format: 1\nbuild: {{name: a{START}fuse{END}, country: US}}\n".encode()
    assert judge_build(data, "trailer.yaml").judged is None


@settings(
    max_examples=12,
    deadline=None,
    derandomize=True,
    suppress_health_check=list(HealthCheck),
    phases=(Phase.explicit, Phase.generate),
)
@given(build=builds())
def test_no_mark_is_left_in_any_file(build: GeneratedBuild) -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("builder.drawings.circuit_drawing.engine", lambda: lambda _sources: Laid((), "missing"))
        verdict = judge_build(build.data, "trailer.yaml")
        assert verdict.judged is not None
        source = manual_source(verdict.judged, "2222-2222", "workshop")
    anchors = {
        str(tag["id"]) for tag in BeautifulSoup(str(source.files["words.md"]), "html.parser").select("dt[id]")
    }
    for path, content in source.files.items():
        text = content if isinstance(content, str) else content.decode("utf-8", "ignore")
        assert START not in text, path
        assert END not in text, path
        if path.endswith(".md"):
            assert set(re.findall(r'href="words\.html#([\w-]+)"', text)) <= anchors, path


# what the trade says and a layman may not know; each is met in the owner's texts or in what explains them
TRADE = (
    *(
        "adapter",
        "AGM",
        "Ah",
        "amp",
        "AWG",
        "ball",
        "blade",
        "bond",
        "breaker",
        "capacity",
        "charge controller",
        "charger",
    ),
    *(
        "circuit",
        "coil",
        "connector",
        "contact",
        "converter",
        "coupling",
        "current",
        "DC",
        "dimmer",
        "drop",
        "feed",
    ),
    *(
        "frame",
        "front box",
        "fuse",
        "fuse block",
        "fuse way",
        "gel",
        "ground",
        "ground bar",
        "hitch",
        "holder",
    ),
    *(
        "isolating switch",
        "jack",
        "lead battery",
        "LED",
        "lithium battery",
        "main fuse",
        "mains",
        "meter",
        "minus post",
    ),
    *(
        "mm²",
        "ohm",
        "pin",
        "plate lamp",
        "posts",
        "probe",
        "rating",
        "receiver",
        "relay",
        "remote",
        "resistance",
    ),
    *(
        "return wire",
        "self-discharge",
        "shore lead",
        "side marker",
        "solar module",
        "spare wire",
        "splice",
        "strip",
    ),
    *(
        "supply bar",
        "tail lamp",
        "terminal",
        "tongue",
        "tow plug",
        "tracer",
        "traveller",
        "two-way switch",
        "volt",
        "watt",
    ),
)


def test_every_trade_word_is_explained() -> None:
    forms = {form.removeprefix("=").casefold() for word in marker("en").words for form in word.forms}
    assert [word for word in TRADE if word.casefold() not in forms] == []


MORE = (
    *(
        "ampacity",
        "amperage",
        "bus bar",
        "cell voltage",
        "chassis",
        "conduit",
        "crimp",
        "earth",
        "ferrule",
        "gauge",
    ),
    *(
        "grommet",
        "heat shrink",
        "impedance",
        "insulation",
        "inverter",
        "jumper",
        "load dump",
        "lug",
        "multimeter",
    ),
    *("polarity", "shunt", "sulphation", "thermal", "voltage divider", "watt-hour"),
)
"""Further words of the trade: none may come into a text for the owner before the list explains it."""
OWNERS = re.compile(
    r"themes/manual/(?:pages/(?!tests|labels|shopping|cuts|findings)|guide_words|lamp_check|words|pieces)"
    r"|builder/tables/data/assumptions"
)


def test_no_word_of_the_trade_comes_into_a_text_unexplained() -> None:
    forms = {form.removeprefix("=").casefold() for word in marker("en").words for form in word.forms}
    catalogue = read_po(io.BytesIO(template_text().encode("utf-8")))
    texts = [
        str(one.id) for one in catalogue if one.id and any(OWNERS.match(place) for place, _ in one.locations)
    ]
    assert len(texts) > 400
    met = {word: text for text in texts for word in (*TRADE, *MORE) if re.search(rf"\b{word}\b", text)}
    assert {word: text for word, text in met.items() if word.casefold() not in forms} == {}
