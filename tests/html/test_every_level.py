"""Every level of build gets a manual, and the same build always the same one."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from example_site import EXAMPLE, ROOT, SMALLEST, source_of

LEVELS = {
    "road lamps alone": """\
format: 1
build: {name: Pole Barn, country: US}
tow plug: {pattern: 4-way flat, to front box: 7 ft}
road lamps:
  rear lamp: {shows: [tail, stop, turn], side: both, wire: 16 ft}
  plate lamp: {shows: plate, wire: 17 ft}
""",
    "one lamp": """\
format: 1
build: {name: Pole Barn, country: US}
battery: {chemistry: lithium, capacity: 20 Ah, to main fuse: 5 in, to front box: 1 ft}
front box: {fuse ways: 2}
parts: {lamp: {kind: lamp}}
circuits: {lamp: {path: [lamp: 4 ft]}}
""",
    "metric with a 13-pin plug": """\
format: 1
build: {name: Pole Barn, country: GB}
battery:
  chemistry: gel
  capacity: 60 Ah
  path: [main fuse: 15 cm, isolating switch: 50 cm, front box: 80 cm]
front box: {fuse ways: 6, ground bar: 20, strip: 20}
tow plug: {pattern: 13-pin, to front box: 2 m}
wire: {on the shelf: [1.5 mm², 2.5 mm², 4 mm², 6 mm²], feed: red, return: blue}
parts: {fan: {kind: fan, draws: 2 A, own switch: yes}, charger: {kind: dc charger, gives: 10 A}}
circuits:
  fan: {path: [fan: 3.2 m]}
  charging: {from: tow plug battery, path: [car-side fuse: 20 cm, charger: 2 m, battery fuse: 1 m, battery: 15 cm]}
road lamps:
  lamps: led
  rear lamp: {shows: [tail, stop, turn, fog, reverse], side: both, wire: 4 m}
""",
    "12N": """\
format: 1
build: {name: Pole Barn, country: IE}
tow plug: {pattern: 7-pin 12N, to front box: 2 m}
road lamps: {rear lamp: {shows: [tail, stop, turn, plate], side: left, wire: 4 m}}
""",
}


@pytest.mark.parametrize("edition", ["workshop", "owner"])
@pytest.mark.parametrize("level", LEVELS)
def test_a_level_has_sensible_pages(level: str, edition: str) -> None:
    files = source_of(LEVELS[level], edition).files
    pages = [str(content) for name, content in files.items() if name.endswith(".md")]
    assert len(pages) >= 8
    for page in pages:
        body = page.split("---\n", 2)[2]
        text = " ".join(BeautifulSoup(body, "html.parser").get_text(" ").split())
        for strange in ("None", "..", "()", "%(", "nan", "inf "):
            assert strange not in re.sub(r"\.\.\.", "", text), (level, strange, text[:80])
        assert "<td" not in body or not re.search(r"<td[^>]*>\s*</td>", body), level


def test_the_same_build_gives_the_same_bytes() -> None:
    for path in (EXAMPLE, SMALLEST):
        assert source_of(path.read_bytes()).files == source_of(path.read_bytes()).files


@pytest.mark.parametrize("seeds", [("1", "2")])
def test_neither_hash_seed_nor_folder_nor_file_name_matters(seeds: tuple[str, str], tmp_path: Path) -> None:
    code = (
        "import hashlib, sys; from pathlib import Path; from builder.pages.manual import manual_source_of_file as m; "
        "s = m(Path(sys.argv[1]), 'workshop'); "
        "print(hashlib.sha256(repr((s.title, s.nav, list(s.files.items()))).encode()).hexdigest())"
    )
    told = []
    for seed in seeds:
        folder = tmp_path / f"folder {seed}"
        folder.mkdir()
        copy = folder / f"build-{seed}.yaml"
        copy.write_bytes(EXAMPLE.read_bytes())
        environ = os.environ | {"PYTHONHASHSEED": seed, "PYTHONPATH": str(ROOT)}
        done = subprocess.run(
            [sys.executable, "-c", code, copy.name],
            cwd=folder,
            env=environ,
            capture_output=True,
            text=True,
            check=True,
        )
        told.append(done.stdout)
    assert told[0] == told[1]
