# ruff: noqa: T201 - a program that prints
"""Try the tests of a room: change its code in one place after another and see whether a test fails.

    pip install mutmut==3.8.1
    nice -n 19 python tests/mutation/mutate.py quantities

Works on a copy under ``mutants/`` and starts from what an earlier run found there: what was killed stays killed
while its function is unchanged, what survived is tried again. Prints how many mutants were made, run and killed,
and each survivor that ``survivors/ROOM.txt`` gives no reason for. Ends with 1 when the share killed is too low or
a survivor has no reason.
"""

from __future__ import annotations

import argparse
import ast
import json
import math
import os
import random
import shutil
import subprocess
import sys
import tomllib
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from contextlib import chdir
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType

from rooms import ROOMS, Room

ROOT = Path(__file__).resolve().parents[2]
HERE = Path(__file__).resolve().parent
COPIED = ("builder", "tests", "themes", "example_build", "pyproject.toml", "mkdocs.yml", "README.md")
QUICKLY = (
    "-p",
    "no:cacheprovider",
    "-p",
    "no:unraisableexception",
    "-p",
    "no:threadexception",
    "-p",
    "no:xdist",
)
QUICKLY += ("-o", "addopts=")
KILLED = {1, 3, 36, 24, -24, 152, 255}  # a failed test, or no end of it
BETWEEN = "ǁ"  # as mutmut joins a class and its method


@dataclass(frozen=True, slots=True)
class Function:
    """A function of the room, as mutmut names it."""

    name: str
    mutated: bool


def main() -> int:
    """Run one room as the command line says."""
    asked = _arguments()
    room = ROOMS[asked.room]
    folder = ROOT / "mutants" / room.name
    if not asked.report:
        _copy(folder)
        _configure(room, folder)
        _mutmut(room, folder, "lay out")
    functions = list(_functions(room))
    if room.formulas:
        functions = [one for one in functions if one.name in _formulas()]
    mutants = _mutants_of(folder, functions, asked.within)
    if asked.unchanged:
        return _try_unchanged(room, folder, mutants)
    drawn = _drawn(mutants, asked)
    if not asked.report:
        _run(room, folder, _to_run(folder, drawn))
        _run(room, folder, _to_run_anew(folder, drawn), anew=True)
    return _report(room, folder, functions, mutants, drawn)


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawTextHelpFormatter)
    parser.add_argument("room", choices=sorted(ROOMS))
    parser.add_argument("--share", type=float, default=1.0, help="run this share of the mutants, drawn")
    parser.add_argument("--seed", type=int, default=1, help="of the draw")
    parser.add_argument(
        "--in", dest="within", default="", help="only functions with this in their dotted name"
    )
    parser.add_argument(
        "--unchanged", action="store_true", help="change nothing: what fails then, fails for nothing"
    )
    parser.add_argument("--report", action="store_true", help="tell of the last run and run nothing")
    return parser.parse_args()


def _copy(folder: Path) -> None:
    for name in COPIED:
        source, target = ROOT / name, folder / name
        if source.is_dir():
            # not the caches of Python; a file that is gone would stay, so the tests are laid out anew
            shutil.rmtree(target, ignore_errors=True)
            shutil.copytree(source, target, ignore=shutil.ignore_patterns("__pycache__"))
        else:
            target.parent.mkdir(parents=True, exist_ok=True)
            shutil.copy2(source, target)
    # mutmut lays new tests over its old copy of them
    shutil.rmtree(folder / "mutants" / "tests", ignore_errors=True)


def _configure(room: Room, folder: Path) -> None:
    left_out = [word for test in room.left_out for word in ("--deselect", test)]
    settings = {
        "source_paths": ["builder"],
        "only_mutate": [f"builder/{room.package}/*"],
        "also_copy": [name for name in COPIED if name not in {"builder", "tests", "pyproject.toml"}],
        "pytest_add_cli_args": ["-p", "anew", *QUICKLY, *left_out],
        "pytest_add_cli_args_test_selection": list(room.tests),
        "timeout_constant": 10.0,
        "timeout_multiplier": 5.0,
        "track_dependencies": False,
        "use_git_change_detection": False,
        "on_dependency_change": "ignore",
    }
    rows = "\n".join(f"{key} = {json.dumps(value)}" for key, value in settings.items())
    with (folder / "pyproject.toml").open("a") as file:
        file.write(f"\n[tool.mutmut]\n{rows}\n")
    tomllib.loads((folder / "pyproject.toml").read_text())


def _functions(room: Room) -> Iterator[Function]:
    """Name the functions of a room, and whether mutmut changes them: it leaves out most decorated ones."""
    for path in sorted((ROOT / "builder" / room.package).glob("*.py")):
        module = ".".join(("builder", room.package, path.stem)).removesuffix(".__init__")
        for node in ast.parse(path.read_text()).body:
            if isinstance(node, ast.FunctionDef):
                yield Function(f"{module}.x_{node.name}", _is_mutated(node))
            elif isinstance(node, ast.ClassDef):
                for inner in node.body:
                    if isinstance(inner, ast.FunctionDef):
                        name = f"{module}.x{BETWEEN}{node.name}{BETWEEN}{inner.name}"
                        yield Function(name, _is_mutated(inner))


def _is_mutated(node: ast.FunctionDef) -> bool:
    plain = {"staticmethod", "classmethod"}
    names = [d.id for d in node.decorator_list if isinstance(d, ast.Name)]
    return not node.decorator_list or (len(node.decorator_list) == 1 and set(names) <= plain and bool(names))


def _mutants_of(folder: Path, functions: list[Function], within: str) -> list[str]:
    """Name the mutants of functions, in an order that does not depend on earlier runs."""
    wanted = {one.name for one in functions if within in one.name.replace(".x_", ".")}
    return sorted(name for name in _codes(folder) if _function_of(name) in wanted)


def _drawn(mutants: list[str], asked: argparse.Namespace) -> list[str]:
    """Draw a share of the mutants: each by itself, so that the share killed of them tells of all."""
    if asked.share >= 1:
        return mutants
    return sorted(random.Random(asked.seed).sample(mutants, max(1, round(asked.share * len(mutants)))))  # noqa: S311


def _codes(folder: Path) -> dict[str, int | None]:
    """Read how each mutant ended."""
    codes: dict[str, int | None] = {}
    for path in sorted((folder / "mutants" / "builder").rglob("*.meta")):
        codes.update(json.loads(path.read_text())["exit_code_by_key"])
    return codes


def _to_run(folder: Path, drawn: list[str]) -> list[str]:
    """Name those of the drawn mutants that have not been killed."""
    codes = _codes(folder)
    return [name for name in drawn if codes[name] not in KILLED]


def _try_unchanged(room: Room, folder: Path, mutants: list[str]) -> int:
    """Run one mutant of each function with the change left out: a test that fails then makes the figures worthless."""
    names = [name for name in mutants if name.endswith("__mutmut_1")]
    before = {name: _codes(folder)[name] for name in names}
    _run(room, folder, names, unchanged=True)
    codes = _codes(folder)
    failed = [name for name in names if codes[name] not in {0, 33}]
    print(f"{len(names)} functions tried unchanged, {len(failed)} failed: {', '.join(failed) or 'none'}")
    _write_codes(folder, before)
    return 1 if failed else 0


def _write_codes(folder: Path, codes: dict[str, int | None]) -> None:
    """Write how mutants ended, as mutmut does."""
    for path in sorted((folder / "mutants" / "builder").rglob("*.meta")):
        kept = json.loads(path.read_text())
        kept["exit_code_by_key"] |= {name: codes[name] for name in kept["exit_code_by_key"] if name in codes}
        path.write_text(json.dumps(kept, indent=4))


def _to_run_anew(folder: Path, drawn: list[str]) -> list[str]:
    """Name the survivors whose function runs at import."""
    at_import = folder / "mutants" / "run_at_import.txt"
    functions = set(at_import.read_text().split()) if at_import.exists() else set()
    return [name for name in _to_run(folder, drawn) if _function_of(name) in functions]


def _function_of(mutant: str) -> str:
    return mutant.partition("__mutmut_")[0]


def _run(room: Room, folder: Path, names: list[str], *, anew: bool = False, unchanged: bool = False) -> None:
    if names:
        more = {"MUTANTS_UNCHANGED": "1" if unchanged else "0", "MUTANTS_ANEW": "1" if anew else "0"}
        _mutmut(room, folder, "run", names, more)


def _mutmut(
    room: Room,
    folder: Path,
    what: str,
    names: Iterable[str] = (),
    more: Mapping[str, str] = MappingProxyType({}),
) -> None:
    environment = os.environ | {
        "MUTANTS_TESTS": " ".join(room.tests),
        "MUTANTS_ONLY_FOR": json.dumps(dict(room.only_for)),
        "PYTHONPATH": str(HERE),
        "HYPOTHESIS_PROFILE": "mutants",
        "PYTHONHASHSEED": "0",
        "PYTHONDONTWRITEBYTECODE": "1",
        "NO_MKDOCS_2_WARNING": "1",
    }
    subprocess.run(
        [sys.executable, str(HERE / "running.py"), what],
        cwd=folder,
        env=environment | more,
        check=True,
        input="\n".join(names).encode(),
        stdout=sys.stderr,
    )


def _report(room: Room, folder: Path, functions: list[Function], mutants: list[str], drawn: list[str]) -> int:
    codes = _codes(folder)
    run = {name: codes[name] for name in drawn if codes[name] is not None}
    print(f"{room.name}: {len(functions)} functions, {len(mutants)} mutants made")
    left_out = sorted(f.name for f in functions if not f.mutated)
    print(f"left out for their decorator: {', '.join(left_out) or 'none'}")
    print(f"{len(drawn)} mutants drawn, {len(run)} of them run")
    whole = len(run) == len(drawn)
    good = _print_share("of all run" if whole else "so far, no fair share", run, room.least, len(mutants))
    return 0 if _print_survivors(room, folder, run) and good and whole else 1


def _print_share(called: str, run: dict[str, int | None], least: float, made: int) -> bool:
    """Print the share killed, and how far the share of all may lie from it in 19 of 20 draws."""
    counted = Counter("killed" if code in KILLED else "survived" for code in run.values())
    no_end = sum(code in KILLED - {1, 3} for code in run.values())
    untested = sum(code in {5, 33} for code in run.values())
    share = counted["killed"] / max(1, len(run))
    print(
        f"{called}: {len(run)} run, {counted['killed']} killed ({no_end} by not ending), {counted['survived']} survived"
        f" ({untested} run by no test): {share:.1%}{_give_or_take(share, len(run), made)}, wanted {least:.0%}"
    )
    return share >= least


def _give_or_take(share: float, drawn: int, made: int) -> str:
    """Return the half of the 95 % interval of a share drawn without putting back (normal approximation)."""
    if not drawn or drawn == made:
        return ""
    spread = math.sqrt(share * (1 - share) / drawn * (made - drawn) / max(1, made - 1))
    return f" give or take {1.96 * spread:.1%}"


def _formulas() -> set[str]:
    sys.path.insert(0, str(ROOT / "tests" / "check_values"))
    from answers import CLASS_A  # noqa: PLC0415 - beside other tests, and only one room needs it

    dotted = (name.rpartition(".") for names in CLASS_A.values() for name in names)
    return {f"{module}.x_{function}" for module, _, function in dotted}


def _print_survivors(room: Room, folder: Path, run: dict[str, int | None]) -> bool:
    listed = _listed(room)
    survived = [name for name, code in run.items() if code not in KILLED]
    found = Counter(_told(folder, name) for name in survived)
    without = found - listed
    reasons = sum((found & listed).values())
    print(
        f"survivors: {reasons} with a reason in {_list_of(room).relative_to(ROOT)}, {without.total()} without"
    )
    for told, count in sorted(without.items()):
        print(f"  {told}" + (f"  ({count} times)" if count > 1 else ""))
    return not without


def _list_of(room: Room) -> Path:
    return HERE / "survivors" / f"{room.package}.txt"


def _listed(room: Room) -> Counter[str]:
    path = _list_of(room)
    lines = path.read_text().splitlines() if path.exists() else []
    return Counter(line.strip() for line in lines if line.startswith("  "))


def _told(folder: Path, mutant: str) -> str:
    """Tell a mutant by its function and the words that were changed, which stand when others are added."""
    from mutmut.mutation.diff_apply import find_mutant, get_diff_for_mutant  # noqa: PLC0415 - no dependency

    with chdir(folder):
        lines = get_diff_for_mutant(mutant, path=find_mutant(mutant).path).splitlines()[2:]
    old = " ".join(line[1:].strip() for line in lines if line.startswith("-"))
    new = " ".join(line[1:].strip() for line in lines if line.startswith("+"))
    function = _function_of(mutant).replace(".x_", ".").replace(f".x{BETWEEN}", ".").replace(BETWEEN, ".")
    return f"{function.removeprefix('builder.')}: {old}  >>  {new}"


if __name__ == "__main__":
    sys.exit(main())
