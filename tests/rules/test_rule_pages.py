"""Every rule has a page of the same shape, its two examples do what they say, and it is registered once."""

from __future__ import annotations

import importlib
import pkgutil
import re

import pytest
from rule_builds import findings, marked

from builder import rules
from builder.rules.finding import Level, Rule
from builder.rules.page import RulePage, page_of, page_text
from builder.rules.registry import RULES, SENTENCE_ENDINGS, rule_named, sentences

EVERY_RULE = pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)

MARKED = {
    "fuse above wire": (8, "15 A"),
    "bay closed too early": (10, "left wall"),
    "spool not used": (6, "3 ft"),
    "no own fuse": (8, "alarm"),
    "load above fuse": (8, "5 A"),
    "battery fuse": (3, "battery"),
    "too many circuits": (8, "lamp"),
    "too many wires": (5, "hatch plug"),
    "stud too full": (5, "2"),
    "ring of another size": (6, "No. 8"),
    "entry hole full": (6, "1/4 in"),
    "supply too small": (5, "converter"),
    "too low voltage": (8, "heater"),
    "drop above advice": (8, "water pump"),
    "part not wired": (5, "porch lamp"),
    "frame return": (7, "lamp"),
    "mains unnamed": (3, "mains"),
    "wire overloaded": (5, "plate lamp"),
    "switch too small": (5, "heater switch"),
    "wrong voltage": (5, "lamp"),
    "uncontrolled charging": (9, "battery"),
    "plug contact overloaded": (8, "heater"),
    "plug ground shared": (5, "tow plug"),
    "fuse far above load": (7, "15 A"),
    "unlikely value": (5, "lamp"),
    "connector overloaded": (5, "hatch plug"),
    "alarm switched off": (7, "gas alarm"),
    "wire too thin": (3, "10 AWG"),
    "fuse not sold": (7, "6 A"),
    "charger too large": (6, "charger"),
    "colour of two meanings": (8, "lamp"),
    "strip too long": (5, "strip"),
    "battery not charged": (3, "35 Ah"),
    "battery not vented": (3, "60 Ah"),
    "lamp missing": (4, "tow plug"),
    "lamp of wrong colour": (6, "front marker"),
    "lamp at wrong height": (6, "front marker"),
    "brakes not fed": (4, "brakes"),
    "breakaway battery small": (4, "brakes"),
    "charge line unfused": (7, "battery fuse"),
    "breakaway not reaching": (12, "breakaway"),
    "lamp on hatch": (6, "rear lamp"),
    "plug converter overloaded": (3, "tow plug"),
    "lamp too weak to see": (3, "tow plug"),
    "numbers not issued": (2, "issued"),
    "wire too short": (12, "lamp"),
    "wire longer than way": (12, "lamp"),
    "no way for wire": (13, "lamp"),
    "conduit too full": (6, "1/4 in"),
    "wires may jam": (6, "9.5 mm"),
    "fastener reaches wire": (15, "right wall"),
    "fastener near wire": (15, "right wall"),
    "cover not laid": (15, "right wall"),
    "panel not as measured": (15, "right lining"),
    "hinge loop too short": (13, "loop"),
    "hinge loop bends sharply": (11, "loop"),
    "hinge without connector": (8, "loop"),
    "bend too sharp": (6, "1 in"),
    "hole near edge": (6, "3/8 in"),
    "block in the way": (8, "shelf block"),
    "chase over opening": (8, "groove"),
    "hole without grommet": (6, "no"),
    "supports far apart": (6, "22 in"),
    "cable entry open": (11, "no"),
    "wires beside mains": (13, "mains"),
    "option not ready": (8, "larger fan"),
    "wires near heat": (6, "flue of the heater"),
}
"""The line and the word that each failing example is to be marked at."""


def test_every_module_with_a_check_is_registered_once_under_its_own_name() -> None:
    names = [module.name for module in pkgutil.iter_modules(rules.__path__)]
    modules = [importlib.import_module(f"builder.rules.{name}") for name in names]
    checks = sorted(module.__name__.rpartition(".")[2] for module in modules if hasattr(module, "check"))
    assert sorted(rule.name.replace(" ", "_") for rule in RULES) == checks
    assert sorted(MARKED) == sorted(rule.name for rule in RULES)


def test_a_rule_is_found_by_its_name_however_it_is_typed() -> None:
    assert [rule_named(rule.name.upper().replace(" ", "-")) for rule in RULES] == list(RULES)
    assert rule_named("no such rule") is None


@EVERY_RULE
def test_a_page_says_what_why_and_which_limit(rule: Rule) -> None:
    page = page_of(rule)
    stages = ["Walls open", "Walls closed"]
    assert [heading for heading, _ in page.paragraphs] in (
        ["What", "Why", "Limit"],
        ["What", "Why", "Limit", *stages],
    )
    assert all(len(body) > 20 for _, body in page.paragraphs)
    assert page.title.endswith(".")


@EVERY_RULE
def test_a_limit_names_how_it_is_known(rule: Rule) -> None:
    limit = dict(page_of(rule).paragraphs)["Limit"]
    assert re.search(r"\((?:[^)]*, )?read\b|quoted|common practice|the file|arithmetic on the file", limit)


@EVERY_RULE
def test_the_failing_example_yields_this_finding_alone_at_the_right_word(rule: Rule) -> None:
    text = page_of(rule).failing
    found = findings(text, rule.name)
    assert len(found) == 1
    assert marked(text, found[0]) == MARKED[rule.name]
    assert found[0].level is rule.level


@EVERY_RULE
def test_the_failing_example_fails_in_nothing_else(rule: Rule) -> None:
    """That nothing charges the battery of such a short build is left aside."""
    found = {finding.rule for finding in findings(page_of(rule).failing)}
    assert found - {"battery not charged"} == {rule.name} - {"battery not charged"}


@EVERY_RULE
def test_the_passing_example_yields_none(rule: Rule) -> None:
    assert findings(page_of(rule).passing, rule.name) == ()


@EVERY_RULE
def test_the_passing_example_has_no_must_fix_at_all(rule: Rule) -> None:
    assert [f for f in findings(page_of(rule).passing) if f.level is Level.MUST] == []


@EVERY_RULE
def test_the_examples_differ_in_one_line(rule: Rule) -> None:
    page = page_of(rule)
    pairs = zip(page.failing.splitlines(), page.passing.splitlines(), strict=True)
    assert sum(failing != passing for failing, passing in pairs) == 1


@EVERY_RULE
def test_a_page_fits_a_terminal(rule: Rule) -> None:
    text = page_text(page_of(rule))
    prose = text.partition("Failing example:")[0]
    assert max(map(len, prose.splitlines())) <= 88


def test_sentences_stand_whole_at_the_top_of_their_rules() -> None:
    said = sentences()
    for rule in RULES:
        own = [name for name in said if name.startswith(rule.name.replace(" ", "_") + ".")]
        assert any(name.endswith("_SAYS") for name in own)
        assert any(name.endswith("_HELP") for name in own)
    assert all(name.endswith(SENTENCE_ENDINGS) for name in said)
    for name, sentence in said.items():
        assert not re.search(r"\{\W|\{\}|\{\d", sentence.replace("{{", "").replace("}}", "")), name
        if not name.endswith("_BASIS"):
            assert not sentence.endswith("."), name


def test_a_page_is_laid_out_for_a_terminal() -> None:
    """No markup is left, no line is wider than 88, and neither a long word nor one with a hyphen is cut."""
    long, hyphens = "https://example.org/" + "x" * 80, "-".join(["seven"] * 5)
    words = (
        f"One ``fuse: 5 A`` and *must fix*, 2*3*4. {'word ' * 10}{hyphens} {'word ' * 8}{hyphens} {long} end"
    )
    page = RulePage(
        "a rule", Level.SHOULD, "It is so.", (("What", words), ("", "No heading.")), "a: 1\n", "b: 2\n"
    )
    text = page_text(page)
    assert text.startswith(
        "a rule (should fix)\n\nIt is so.\n\nWhat: One “fuse: 5 A” and must fix, 2*3*4. word"
    )
    assert text.endswith("\n\nNo heading.\n\nFailing example:\n\n    a: 1\n\nPassing example:\n\n    b: 2\n")
    lines = text.splitlines()
    assert max(len(line) for line in lines if long not in line) <= 88
    assert max(len(line) for line in lines if long not in line) > 75
    assert [line for line in lines if long in line] == [long]
    assert text.count(hyphens) == 2
