"""The rooms whose tests are tried by mutation, each with its own fast tests and the share that must be killed."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Room:
    """A room and how it is tried.

    ``package`` is its folder under ``builder``; ``tests`` are the files run against each mutant, without those of
    ``left_out``; ``least`` is the share of mutants that must be killed. ``only_for`` names, for a file of tests that
    runs nearly all of the room, the beginnings of the modules that it is about: it is run against their mutants alone.
    With ``formulas`` only the functions that answer the published check values are changed.
    """

    name: str
    package: str
    tests: tuple[str, ...]
    least: float
    left_out: tuple[str, ...] = ()
    only_for: tuple[tuple[str, tuple[str, ...]], ...] = ()
    formulas: bool = False


EDITS = ("edits", "extents", "leaves", "mending", "suggesting", "synonyms")
"""Modules of the build file's room that make edits."""

BY_CODE = "tests/check_values/test_check_values.py::test_computed_answers_come_from_the_functions_named"
"""Looks at which code runs, and mutmut puts code of its own around every function."""

ROOMS = {
    room.name: room
    for room in (
        Room("quantities", "quantities", ("tests/quantities",), 0.90),
        Room(
            "formulas",
            "electrics",
            ("tests/electrics/test_formulas.py", "tests/check_values/test_check_values.py"),
            0.90,
            (BY_CODE,),
            formulas=True,
        ),
        Room(
            "electrics",
            "electrics",
            ("tests/electrics", "tests/check_values/test_check_values.py"),
            0.80,
            (
                BY_CODE,
                "tests/electrics/test_against_ngspice.py",
                "tests/electrics/test_oracle_agrees.py::test_every_drop_of_a_generated_build_is_the_oracles",
                "tests/electrics/test_headroom.py::test_a_lamp_of_what_is_left_breaks_nothing_and_clearly_more_does",
                "tests/electrics/test_battery_by_hand.py::test_ranges_run_upwards_and_drains_add_up",
            ),
        ),
        Room(
            "rules",
            "rules",
            (
                "tests/rules/test_rules_told.py",
                "tests/rules/test_rule_limits.py",
                "tests/rules/test_rule_pages.py",
                "tests/rules/test_wording.py",
            ),
            0.80,
        ),
        Room(
            "buildfile",
            "buildfile",
            (
                "tests/buildfile/test_assumed.py",
                "tests/buildfile/test_places.py",
                "tests/buildfile/test_broken_told.py",
                "tests/buildfile/test_problems.py",
                "tests/buildfile/test_reading.py",
                "tests/buildfile/test_values_in_a_trailer.py",
                "tests/buildfile/test_example_builds.py",
                "tests/buildfile/test_reference.py",
                "tests/buildfile/test_numbers_file.py",
                "tests/buildfile/test_kind_reference.py",
                "tests/buildfile/test_whole_builds_read.py",
                "tests/buildfile/test_words_printed.py",
                "tests/buildfile/test_slips_told.py",
                "tests/buildfile/test_edits.py",
                "tests/buildfile/test_suggestions.py",
                "tests/buildfile/test_traps.py",
                "tests/buildfile/test_breakaway.py",
                "tests/buildfile/test_second_plug.py",
            ),
            0.80,
            ("tests/buildfile/test_edits.py::test_each_edit_of_each_problem_of_a_broken_build_removes_it",),
            only_for=(
                ("tests/buildfile/test_edits.py", EDITS),
                ("tests/buildfile/test_suggestions.py", ("suggesting", "synonyms", "misfits", "telling")),
                ("tests/buildfile/test_traps.py", ("reading",)),
                ("tests/buildfile/test_breakaway.py", ("breaking_away", "weaving", "walking")),
                (
                    "tests/buildfile/test_second_plug.py",
                    ("resolving_plugs", "resolving_road", "starting_at_plug"),
                ),
            ),
        ),
    )
}
