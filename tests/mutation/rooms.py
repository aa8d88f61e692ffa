"""The rooms whose tests are tried by mutation, each with its own fast tests and the share that must be killed."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Room:
    """A room and how it is tried.

    ``tests`` are the files and folders run against each mutant, ``left_out`` the slow ones among them;
    ``least`` is the share of mutants that must be killed, ``least_in_formulas`` that of the functions which
    answer the published check values.
    """

    name: str
    tests: tuple[str, ...]
    left_out: tuple[str, ...] = ()
    least: float = 0.80
    least_in_formulas: float | None = None


ROOMS = {
    room.name: room
    for room in (
        Room("quantities", ("tests/quantities",), least=0.90),
        Room(
            "electrics",
            ("tests/electrics", "tests/check_values"),
            (
                "tests/electrics/test_against_ngspice.py",
                "tests/electrics/test_oracle_agrees.py::test_every_drop_of_a_generated_build_is_the_oracles",
                "tests/check_values/test_traced.py",
            ),
            least_in_formulas=0.90,
        ),
        Room("rules", ("tests/rules",), ("tests/rules/test_rules_on_generated_builds.py",)),
        Room(
            "buildfile",
            ("tests/buildfile",),
            ("tests/buildfile/test_reading_hostile.py", "tests/buildfile/test_generated_builds.py"),
        ),
    )
}
