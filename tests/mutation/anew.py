"""A pytest plugin for runs under mutmut, so that a mutant is met and nothing else fails.

- mutmut has pytest collect the tests anew for each mutant, by their names. That takes longer than most tests; and
  pytest does not find a name that has a backslash in it, which mutmut takes for a failed test. So the tests that were
  collected before the fork are run.
- mutmut forks each mutant from a process that has run everything. What a cache kept came from the unchanged code and
  would hide the mutant; so the caches are forgotten.
- What ran at import did so unchanged as well. With ``MUTANTS_ANEW=1`` the modules are forgotten too, and every test of
  the room is run. That takes longer, and only what would survive otherwise is run so.
"""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Iterable
from functools import _lru_cache_wrapper
from pathlib import Path
from types import ModuleType

import pytest
from _pytest.runner import runtestprotocol
from hypothesis import Phase, is_hypothesis_test, settings
from mutmut.mutation.trampoline import set_mutant_under_test
from mutmut.runners.harness import PytestRunner
from mutmut.state import state
from mutmut.utils.file_utils import change_cwd

ROOT = Path.cwd()
AT_IMPORT = ROOT / "run_at_import.txt"
COLLECTED: dict[str, pytest.Item] = {}
UNCLEAR = 99
ONLY_FOR: dict[str, list[str]] = json.loads(os.environ.get("MUTANTS_ONLY_FOR", "{}"))

# that an example fails is enough; the search for the smallest one takes minutes
settings.register_profile(
    "mutants",
    deadline=None,
    derandomize=True,
    max_examples=5,
    database=None,
    phases=(Phase.explicit, Phase.generate),
)


def _under_test() -> str:
    return os.environ.get("MUTANT_UNDER_TEST", "")


def run_at_import() -> set[str]:
    """Name the functions that ran while the tests were collected."""
    return set(AT_IMPORT.read_text().split()) if AT_IMPORT.exists() else set()


def _own_modules() -> list[ModuleType]:
    return [
        module
        for module in list(sys.modules.values())
        if (file := getattr(module, "__file__", None)) and Path(file).is_relative_to(ROOT)
    ]


def _forget_caches() -> None:
    for module in _own_modules():
        for kept in vars(module).values():
            if isinstance(kept, _lru_cache_wrapper):
                kept.cache_clear()


@pytest.hookimpl(tryfirst=True)
def pytest_cmdline_main(config: pytest.Config) -> None:
    """Collect the whole room, whichever tests mutmut names."""
    config.args = os.environ["MUTANTS_TESTS"].split()


def run_tests(runner: PytestRunner, *, mutant_name: str | None, tests: Iterable[str]) -> int:
    """Run the tests that mutmut names for a mutant; 1 at the first that fails, 0 when none does."""
    if mutant_name is None:
        return BY_PYTEST(runner, mutant_name=mutant_name, tests=tests)
    if os.environ.get("MUTANTS_UNCHANGED") == "1":
        set_mutant_under_test(mutant_name.partition("__mutmut_")[0] + "__mutmut_0")
    if os.environ.get("MUTANTS_ANEW") == "1":
        for module in _own_modules():
            sys.modules.pop(module.__name__, None)
        about = [file for file in os.environ["MUTANTS_TESTS"].split() if _is_about(file, mutant_name)]
        os.environ["MUTANTS_TESTS"] = " ".join(about)
        return BY_PYTEST(runner, mutant_name=mutant_name, tests=())
    _forget_caches()
    wanted = [name for name in tests if name in COLLECTED and _is_about(name, mutant_name)]
    try:
        return _run_collected(_quick_files_first(wanted))
    except BaseException as error:  # what it ended with would pass for a killed mutant
        os.write(2, f"{mutant_name}: {error!r}\n".encode())
        return UNCLEAR


def _is_about(test: str, mutant: str) -> bool:
    """Tell whether a test is run against a mutant: a file may be there for some modules alone."""
    modules = ONLY_FOR.get(test.partition("::")[0])
    return modules is None or mutant.split(".")[2].startswith(tuple(modules))


BY_PYTEST = PytestRunner.run_tests
PytestRunner.run_tests = run_tests


def _run_collected(tests: list[pytest.Item]) -> int:
    if not tests:
        return 0
    with change_cwd("mutants"):
        # as a session begins
        tests[0].config.pluginmanager.getplugin("capturemanager").start_global_capturing()
        return int(
            any(_fails(item, following) for item, following in zip(tests, [*tests[1:], None], strict=True))
        )


def _quick_files_first(asked: list[str]) -> list[pytest.Item]:
    """Order the tests, asked for from the quickest to the slowest, so that what a file shares is made once."""
    places: dict[str, list[int]] = {}
    for place, name in enumerate(asked):
        places.setdefault(name.partition("::")[0], []).append(place)
    by_file = {file: sum(taken) / len(taken) for file, taken in places.items()}
    wanted = set(asked)
    tests = [item for item in COLLECTED.values() if item.nodeid in wanted]
    return sorted(tests, key=lambda item: (_is_drawn(item), by_file[item.nodeid.partition("::")[0]]))


def _is_drawn(item: pytest.Item) -> bool:
    return is_hypothesis_test(getattr(item, "function", None))


def _fails(item: pytest.Item, following: pytest.Item | None) -> bool:
    reports = runtestprotocol(item, log=False, nextitem=following)
    return any(report.failed for report in reports)


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Drawn examples come last: most mutants fall to a table before them."""
    items.sort(key=_is_drawn)


def pytest_collection_finish(session: pytest.Session) -> None:
    """Keep the tests for the mutants; while mutmut notes which test runs what, keep what ran at import."""
    if not _under_test():  # the run that shows the tests pass
        COLLECTED.update((item.nodeid, item) for item in session.items)
    if _under_test() == "stats":
        AT_IMPORT.write_text("\n".join(sorted(state()._stats | run_at_import())))


@pytest.hookimpl(tryfirst=True)
def pytest_runtest_setup(item: pytest.Item) -> None:
    """While mutmut notes which test runs what: no test profits from the cache of another."""
    if _under_test() == "stats":
        _forget_caches()
