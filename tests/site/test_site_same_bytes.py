"""The same build gives the same bytes, wherever and however the program runs."""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path

import pytest
from published import EDITIONS, EXAMPLE, ROOT, source_of

from builder.pages.source import ManualSource

PRINT_SUM = """
import hashlib, sys
from pathlib import Path
from builder.pages.manual import manual_source_of_file
for edition in ("workshop", "owner"):
    source = manual_source_of_file(Path(sys.argv[1]), edition)
    told = hashlib.sha256(repr((source.title, source.nav, source.scripts, source.style_sheets)).encode())
    for path, content in source.files.items():
        told.update(path.encode() + b"\\0" + (content if isinstance(content, bytes) else content.encode()))
    print(edition, told.hexdigest())
"""


def digest(source: ManualSource) -> str:
    told = hashlib.sha256(repr((source.title, source.nav, source.scripts, source.style_sheets)).encode())
    for path, content in source.files.items():
        told.update(path.encode() + b"\0" + (content if isinstance(content, bytes) else content.encode()))
    return told.hexdigest()


@pytest.fixture(scope="module")
def here() -> list[str]:
    data = EXAMPLE.read_bytes()
    return [f"{edition} {digest(source_of(data, edition))}" for edition in EDITIONS]


def elsewhere(build: Path, seed: str, folder: Path, more: Sequence[str] = ()) -> list[str]:
    environment = {**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": str(ROOT)}
    done = subprocess.run(
        [sys.executable, *more, "-c", PRINT_SUM, str(build)],
        cwd=folder,
        env=environment,
        capture_output=True,
        text=True,
        check=True,
        timeout=120,
    )
    return done.stdout.splitlines()


def test_twice_in_one_process(here: list[str]) -> None:
    data = EXAMPLE.read_bytes()
    assert [f"{edition} {digest(source_of(data, edition))}" for edition in EDITIONS] == here


@pytest.mark.parametrize("seed", ["1", "20"])
def test_in_another_process_with_another_hash_seed_folder_and_file_name(
    seed: str, tmp_path: Path, here: list[str]
) -> None:
    build = tmp_path / f"a folder {seed}" / "another name é.yml"
    build.parent.mkdir()
    build.write_bytes(EXAMPLE.read_bytes())
    assert elsewhere(build, seed, tmp_path) == here


def test_a_relative_path_gives_the_same(tmp_path: Path, here: list[str]) -> None:
    (tmp_path / "trailer.yaml").write_bytes(EXAMPLE.read_bytes())
    assert elsewhere(Path("trailer.yaml"), "3", tmp_path) == here


def test_another_build_gives_another_sum(here: list[str]) -> None:
    before, after = ("awning lamp: {kind: lamp, draws: " + watts for watts in ("6 W", "7 W"))
    text = EXAMPLE.read_text(encoding="utf-8")
    assert text.count(before) == 1
    data = text.replace(before, after).encode()
    assert f"workshop {digest(source_of(data, 'workshop'))}" not in here
