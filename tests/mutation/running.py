"""Run mutmut on the copy in the working folder: ``lay out`` its mutants, or ``run`` those named on standard input.

mutmut takes its names as arguments and holds each against every mutant there is, by a pattern. For thousands of names
that takes longer than the tests, and more arguments than a system passes on.
"""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Any

from mutmut import __main__ as mutmut
from mutmut.mutation.trampoline import set_mutant_under_test
from mutmut.utils import file_utils


def lay_out() -> None:
    """Write the mutants of every file that has changed; run none."""
    set_mutant_under_test("mutant_generation")
    Path("mutants").mkdir(exist_ok=True)
    file_utils.copy_src_dir()
    file_utils.copy_also_copy_files()
    mutmut.create_mutants(1)


def run(names: list[str]) -> None:
    """Run the mutants of these names."""
    every = mutmut.collect_source_file_mutation_data
    wanted = set(names)

    def named(*, mutant_names: list[str]) -> tuple[list[Any], dict[str, Any]]:
        assert mutant_names == names
        mutants, by_path = every(mutant_names=[])
        return [mutant for mutant in mutants if mutant[1] in wanted], by_path

    mutmut.collect_source_file_mutation_data = named
    mutmut._run(names, 1)


if __name__ == "__main__":
    if sys.argv[1] == "run":
        run(sys.stdin.read().split())
    else:
        lay_out()
