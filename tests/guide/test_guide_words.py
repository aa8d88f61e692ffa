"""What the guides tell beside their steps: an alarm's own test, how the meter is set, and names told once."""

from __future__ import annotations

import re
from functools import cache

import pytest
from test_readings import EXAMPLE, SMALLEST, files_of, made_of

from builder.guide.model import StepKind, Symptom

IN_WAY = b"""\
format: 1
build: {name: Test Alarm, country: US}
battery: {chemistry: agm, capacity: 35 Ah, path: [main fuse: 6 in, front box: 3 ft]}
front box: {fuse ways: 4}
parts:
  carbon monoxide alarm: {kind: alarm, draws: 60 mA}
  lamp: {kind: lamp, draws: 3 W}
circuits:
  alarm: {path: [carbon monoxide alarm: 5 ft]}
  light: {path: [lamp: 6 ft]}
"""


@cache
def pages_of(data: bytes) -> dict[str, str]:
    """The pages of the guides by path, without their marks."""
    return {
        path: re.sub(r"<[^>]+>", "", str(text))
        for path, text in files_of(data).items()
        if path.startswith("stops") and path.endswith("md")
    }


@pytest.mark.parametrize(("data", "alarm"), [(EXAMPLE, "gas alarm"), (IN_WAY, "carbon monoxide alarm")])
def test_what_mends_an_alarm_ends_at_its_test_button(data: bytes, alarm: str) -> None:
    """A lamp on an alarm shows that it has power, not that it warns: each of its guides asks for its own test."""
    _, made = made_of(data)
    silent = [g for g in made.values() if g.symptom in (Symptom.DEAD, Symptom.DIM, Symptom.FUSE)]
    mine = [g for g in silent if any(thing.part == alarm for thing in g.things)]
    whole = [made[name] for name in ("dead-all", "dim-all")]
    assert {g.id for g in made.values() if g.alarms} == {g.id for g in (*mine, *whole)}
    assert all(g.alarms == (alarm,) for g in (*mine, *whole))
    pages = pages_of(data)
    told = f"Whatever it was, at the end press the test button: {alarm}. It must sound"
    ends = len({g.id for g in (*mine, *whole)})
    assert sum(page.count(told) for page in pages.values()) == ends
    (own,) = (page for path, page in pages.items() if "alarm" in path)
    assert "Fit a new one as they say." in own
    assert own.count("Do not sleep inside before.") == sum(bool(guide.circuit) for guide in mine)


def test_without_an_alarm_no_test_button_is_spoken_of() -> None:
    assert "test button" not in "".join(pages_of(SMALLEST).values())


@pytest.mark.parametrize("data", [EXAMPLE, SMALLEST])
def test_the_meter_is_set_for_ohms_before_the_first_of_them(data: bytes) -> None:
    _, made = made_of(data)
    circuits = {g.circuit for g in made.values() if any(s.kind is StepKind.OHMS for s in g.steps)}
    told = "Set the meter to ohms (Ω), its smallest range"
    with_ohms = 0
    for path, page in pages_of(data).items():
        number = re.match(r"stops-(\d+)", path)
        if number is None or int(number[1]) not in circuits:
            assert told not in page, path
            continue
        with_ohms += 1
        assert "Touch its probes together: it must come down near 0 Ω." in page
        assert "do not go by a beep" in page
        assert page.index(told) < page.index("Hold the probes together first")
        assert "For ohms: range 200 Ω" in page
    assert with_ohms == len(circuits) > 0


@pytest.mark.parametrize("data", [EXAMPLE, SMALLEST])
def test_a_line_of_suspects_names_each_part_once(data: bytes) -> None:
    build, made = made_of(data)
    pages = "".join(pages_of(data).values())
    for name in (*build.trailer.parts, "tow plug"):
        assert not re.search(rf"\b{re.escape(name)}[;,] {re.escape(name)}\b", pages), name
    if data is EXAMPLE:
        assert "the car; tow plug; its contact 1 (GD)" in pages
        leaves = [[s.part for s in leaf.suspects] for leaf in made["wrong"].leaves]
        assert ["hatch plug"] in leaves  # a house lamp behind the same plug tells the plug from its way
