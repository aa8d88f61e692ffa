"""Rules over many builds: they leave a sensible maker in peace, and each of them catches some careless one."""

from __future__ import annotations

from collections import Counter

import pytest
from careless_builds import careless_build
from ordinary_builds import ordinary_build
from rule_builds import findings, read

from builder.buildfile.resolving import read_build
from builder.rules.finding import Finding, Level
from builder.rules.registry import RULES

ORDINARY = range(200)
CARELESS = range(400)
MOST_SHOULD_FIX = 1.5
"""On average in an ordinary build; more would teach its maker to read none of them."""
LEAST_SHARE = 0.01


@pytest.fixture(scope="module")
def ordinary() -> dict[int, tuple[Finding, ...]]:
    """What is found in each ordinary build, by its seed."""
    return {seed: findings(ordinary_build(seed).text) for seed in ORDINARY}


@pytest.fixture(scope="module")
def caught() -> Counter[str]:
    """In how many careless builds each rule has something to say; a few have problems of their own instead."""
    texts = [careless_build(seed).text for seed in CARELESS]
    whole = [text for text in texts if read_build(text.encode()).trailer is not None]
    assert len(whole) > 0.98 * len(texts)
    return Counter(rule for text in whole for rule in {f.rule for f in findings(text)})


def test_ordinary_builds_are_whole_trailers() -> None:
    """Else it would be no merit to find nothing in them."""
    trailers = [read(ordinary_build(seed).text)[0] for seed in ORDINARY]
    assert sum(len(trailer.circuits) for trailer in trailers) / len(trailers) > 9
    assert sum(any(load.charged_from for load in trailer.loads) for trailer in trailers) > len(trailers) / 2
    kinds = {part.kind for trailer in trailers for part in trailer.parts.values()}
    assert {"lamp", "pump", "fridge", "alarm", "connector", "converter", "dc charger", "relay"} <= kinds


def test_an_ordinary_build_has_nothing_that_must_be_fixed(ordinary: dict[int, tuple[Finding, ...]]) -> None:
    grave = [(seed, f.message) for seed, found in ordinary.items() for f in found if f.level is Level.MUST]
    assert grave == []


def test_an_ordinary_build_has_little_that_should_be_fixed(ordinary: dict[int, tuple[Finding, ...]]) -> None:
    counts = Counter(f.rule for found in ordinary.values() for f in found if f.level is Level.SHOULD)
    assert counts.total() <= MOST_SHOULD_FIX * len(ORDINARY), counts


@pytest.mark.parametrize("rule", [rule.name for rule in RULES])
def test_each_rule_catches_at_least_one_careless_build_in_a_hundred(rule: str, caught: Counter[str]) -> None:
    assert caught[rule] >= LEAST_SHARE * len(CARELESS)


def test_a_build_is_the_same_each_time_it_is_made() -> None:
    for seed in (0, 7, 21):
        assert ordinary_build(seed).text == ordinary_build(seed).text
        assert careless_build(seed).text == careless_build(seed).text != ordinary_build(seed).text
