"""The same build gives the same bytes, wherever and however the program runs."""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path

import pytest
from published import EDITIONS, EXAMPLE, ROOT, source_of

from builder.buildfile.numbered import numbers_name
from builder.pages.source import ManualSource

EVERYTHING = """
import sys
from click.testing import CliRunner
from builder.cli import main

def run(*arguments):
    done = CliRunner().invoke(main, arguments)
    assert done.exit_code == 0, done.output
    return done.stdout_bytes

build, other_name, into = sys.argv[1:]
for name, arguments in (("check", ()), ("check", ("--brief",)), ("check", ("--json",)), ("figures", ())):
    with open(into + "/" + "".join((name, *arguments)), "xb") as file:
        file.write(run(name, build, *arguments))
for edition in ("workshop", "owner"):
    run("publish", other_name, "--into", f"{into}/{edition}", "--edition", edition)
run("source", other_name, "--into", f"{into}/source")
"""
"""Run every command that answers or writes, with what it prints kept in files beside what it writes."""

HERE = {
    "PYTHONHASHSEED": "1",
    "TZ": "Pacific/Kiritimati",
    "LC_ALL": "C.UTF-8",
    "LANGUAGE": "de",
    "COLUMNS": "40",
    "SOURCE_DATE_EPOCH": "1000000000",
    "PYTHONUTF8": "1",
}
THERE = {
    "PYTHONHASHSEED": "4294967295",
    "TZ": "America/Adak",
    "LC_ALL": "C",
    "LANGUAGE": "tr",
    "COLUMNS": "200",
    "PYTHONUTF8": "0",
    "PYTHONCOERCECLOCALE": "0",
}
"""Two machines: days apart, and in one of them a file is not UTF-8 unless it is opened so."""


def digest(source: ManualSource) -> str:
    told = hashlib.sha256(repr((source.title, source.nav, source.scripts, source.style_sheets)).encode())
    for path, content in source.files.items():
        told.update(path.encode() + b"\0" + (content if isinstance(content, bytes) else content.encode()))
    return told.hexdigest()


@pytest.fixture(scope="module")
def here() -> list[str]:
    data = EXAMPLE.read_bytes()
    return [f"{edition} {digest(source_of(data, edition))}" for edition in EDITIONS]


def run_everything(folder: Path, told: Mapping[str, str], name: Path) -> dict[str, bytes]:
    """Run every command in a process of its own, in a folder and with an environment and a file name of its own."""
    (folder / "at home").mkdir(parents=True)
    (folder / "made").mkdir()
    for path in ("trailer.yaml", name):
        (folder / path).write_bytes(EXAMPLE.read_bytes())
        (folder / numbers_name(str(path))).write_bytes(EXAMPLE.with_name("trailer.numbers.csv").read_bytes())
    taken_over = {key: value for key, value in os.environ.items() if key not in {*HERE, *THERE}}
    subprocess.run(
        [sys.executable, "-c", EVERYTHING, "trailer.yaml", str(name), "made"],
        cwd=folder,
        env={**taken_over, **told, "PYTHONPATH": str(ROOT), "HOME": str(folder / "at home")},
        capture_output=True,
        check=True,
    )
    made = folder / "made"
    return {str(path.relative_to(made)): path.read_bytes() for path in made.rglob("*") if path.is_file()}


def test_twice_in_one_process(here: list[str]) -> None:
    data = EXAMPLE.read_bytes()
    assert [f"{edition} {digest(source_of(data, edition))}" for edition in EDITIONS] == here


def test_on_another_machine_at_another_time(tmp_path: Path) -> None:
    one = run_everything(tmp_path / "one", HERE, Path("trailer.yaml"))
    folder = tmp_path / "a much longer name é" / "of a folder"
    other = run_everything(folder, THERE, folder / "another name é.yml")
    assert one.keys() == other.keys()
    assert [name for name in one if one[name] != other[name]] == []
    assert {
        "check",
        "check--json",
        "figures",
        "owner/index.html",
        "source/docs/index.md",
    } <= one.keys()
    assert not [name for name, content in one.items() if str(tmp_path).encode() in content]


def test_another_build_gives_another_sum(here: list[str]) -> None:
    before, after = ("awning lamp: {kind: lamp, draws: " + watts for watts in ("6 W", "7 W"))
    text = EXAMPLE.read_text(encoding="utf-8")
    assert text.count(before) == 1
    data = text.replace(before, after).encode()
    assert f"workshop {digest(source_of(data, 'workshop'))}" not in here
