"""An entry with a problem of its own brings no second one: what its path names by itself is not called missing."""

from __future__ import annotations

import pytest

from builder.buildfile.resolving import read_build

PATH = "path: [main fuse: 5 in, isolating switch: 1 ft, front box: 3 ft]"
BUILD = f"""format: 1
build: {{name: Example, country: US}}
battery: {{chemistry: agm, capacity: 60 Ah, {PATH}}}
front box: {{fuse ways: 4}}
terminal studs: {{isolating switch: {{size: 3/8 in}}, main fuse: {{size: 3/8 in}}, fan breaker: {{size: No. 10}}}}
entry holes: {{hole: {{bore: 1 in, takes: [main fuse]}}}}
parts: {{fan: {{kind: fan, draws: 3 A}}, lamp: {{kind: lamp, draws: 3 W}}}}
circuits:
  fan: {{path: [fan: 6 ft], branches: [{{from: fuse, path: [fan breaker: 2 ft, lamp: 6 ft]}}]}}
"""


def told(old: str, new: str) -> list[str]:
    """Return what is told of the build with one word changed."""
    assert old in BUILD
    return [problem.message for problem in read_build(BUILD.replace(old, new, 1).encode()).problems]


def test_the_build_reads() -> None:
    assert told("Example", "Other") == []


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("60 Ah", "60"),
        ("agm", "agn"),
        (PATH, f"size: thick, {PATH}"),
        ("fan: {path", "fan: {fuse: thick, path"),
        ("{from: fuse, path", "{from: fuse, size: thick, path"),
    ],
)
def test_one_slip_is_one_problem(old: str, new: str) -> None:
    messages = told(old, new)
    assert messages
    assert [message for message in messages if "no part of this build" in message] == []


def test_the_short_form_of_the_battery_names_its_fuse() -> None:
    messages = told(f"60 Ah, {PATH}", "60, to main fuse: 5 in, to front box: 3 ft")
    assert [message for message in messages if "main fuse" in message] == []
    assert any("“isolating switch” has terminal studs, and no part" in message for message in messages)


def test_a_part_that_nobody_names_is_still_told() -> None:
    messages = told("60 Ah, path", "60, path")
    assert len(messages) == 1
    messages = told("isolating switch: {size", "other switch: {size")
    assert messages == ["“other switch” has terminal studs, and no part of this build has that name"]
