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

import os
import sys
from functools import _lru_cache_wrapper
from pathlib import Path
from types import ModuleType

import pytest
from _pytest.runner import runtestprotocol
from hypothesis import Phase, is_hypothesis_test, settings
from mutmut.state import state

ROOT = Path.cwd()
AT_IMPORT = ROOT / "run_at_import.txt"
COLLECTED: dict[str, pytest.Item] = {}
UNCLEAR = 99

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
def pytest_cmdline_main(config: pytest.Config) -> int | None:
    """Run a mutant's tests, which were collected before the fork; 1 at the first that fails, 0 when none does."""
    mutant = "__mutmut_" in _under_test()
    if mutant and os.environ.get("MUTANTS_UNCHANGED") == "1":
        os.environ["MUTANT_UNDER_TEST"] = _under_test().partition("__mutmut_")[0] + "__mutmut_0"
    anew = os.environ.get("MUTANTS_ANEW") == "1"
    if anew or not mutant:
        config.args = os.environ["MUTANTS_TESTS"].split()
    if anew and mutant:
        for module in _own_modules():
            sys.modules.pop(module.__name__, None)
    if anew or not mutant:
        return None
    _forget_caches()
    tests = _quick_files_first([name for name in config.invocation_params.args if name in COLLECTED])
    try:
        if tests:  # as a session begins
            tests[0].config.pluginmanager.getplugin("capturemanager").start_global_capturing()
        return int(
            any(_fails(item, following) for item, following in zip(tests, [*tests[1:], None], strict=True))
        )
    except BaseException as error:  # what it ended with would pass for a killed mutant
        os.write(2, f"{_under_test()}: {error!r}\n".encode())
        return UNCLEAR


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
