"""The circuit drawings, read back from their SVG and held against the model."""

from __future__ import annotations

import re
from functools import cache
from itertools import combinations
from pathlib import Path

import pytest
from generated_builds import GeneratedBuild, builds
from hypothesis import given, settings
from structure import KEPT, structures
from svg_reading import Strip, copper, meet, pieces, read_strip, tags_on, touches

from builder.buildfile.resolving import read_build
from builder.drawings.circuit_drawing import (
    NARROW,
    WIDE,
    CircuitDrawing,
    Drawings,
    circuit_drawings,
    stand_alone,
)
from builder.drawings.circuit_wires import drawn_wires, tag_of
from builder.drawings.engine import Engine, Laid, engine
from builder.electrics.computing import compute
from builder.electrics.figures import Figures
from builder.pages.drawing_words import drawing_words
from builder.trailer.model import Trailer

ROOT = Path(__file__).parents[2] / "example_build"
WORDS = drawing_words("en")
EXAMPLES = ["trailer.yaml", "smallest/trailer.yaml"]


def link(circuit: int, part: str) -> str:
    return "#part-" + re.sub(r"\W+", "-", part)


def made(text: bytes, run: Engine | None = None) -> tuple[Trailer, Figures, Drawings]:
    trailer = read_build(text).trailer
    assert trailer is not None
    figures = compute(trailer)
    return (
        trailer,
        figures,
        circuit_drawings(trailer, figures, [c.number for c in trailer.circuits], link, WORDS, run),
    )


@cache
def example(name: str) -> tuple[Trailer, Figures, Drawings]:
    return made((ROOT / name).read_bytes())


def forms(drawing: CircuitDrawing) -> list[tuple[float, tuple[str, ...]]]:
    return [(NARROW, drawing.narrow), (WIDE, drawing.wide or drawing.narrow)]


def check_wires(trailer: Trailer, figures: Figures, drawing: CircuitDrawing) -> None:
    wires = drawn_wires(trailer, trailer.circuit(drawing.number))
    tags = [tag_of(wire, figures) for wire in wires]
    wanted = sorted(" ".join(f"{t.number} {t.color} {t.size}".split()) for t in tags)
    for _, svgs in forms(drawing):
        strips = [read_strip(svg) for svg in svgs]
        assert sorted(said for strip in strips for said, _ in strip.tags) == wanted
        through = [tags_on(strip, wire) for strip in strips for wire in strip.wires]
        assert all(len(one) == 1 for one in through), [one for one in through if len(one) != 1]
        assert sorted(one[0] for one in through) == wanted


def check_room(strip: Strip) -> None:
    texts = [one for part in (*strip.parts, *strip.notes) for one in part.texts] + strip.tags
    for (a, first), (b, second) in combinations(texts, 2):
        assert not meet(first, second), f"“{a}” runs into “{b}”"
    for said, rect in texts:
        assert rect[0] >= 0, said
        assert rect[1] >= 0, said
        assert rect[2] <= strip.width + 0.5, said
        assert rect[3] <= strip.height, said
    written = [one for part in (*strip.parts, *strip.notes) for one in part.texts]
    for line, half in [*((wire, 3.6) for wire in strip.wires), *((bar, 2.5) for bar in strip.bars)]:
        for piece in pieces(line, half):
            for said, rect in written:
                assert not meet(piece, rect, 0.2), f"a line runs through “{said}”"
    for first_part, second_part in combinations([*strip.parts, *strip.notes], 2):
        assert not meet(first_part.target, second_part.target, 1.0), (first_part.title, second_part.title)
    for part in (*strip.parts, *strip.notes):
        assert part.target[3] - part.target[1] >= 24


def check_symbols(strip: Strip) -> None:
    for part in strip.parts:
        if not part.drawn:
            continue
        x1, y1, x2, y2 = part.target
        sign = (x1 + 1, y1 + 1, min([x2, *(rect[0] for _, rect in part.texts)]) - 4, y2 - 1)
        for wire in strip.wires:
            ends_here = any(x1 <= x <= x2 and y1 - 1 <= y <= y2 + 1 for x, y in (wire[0], wire[-1]))
            if not ends_here:
                assert not any(meet(piece, sign) for piece in pieces(wire, 0.5)), part.title


def check_ends(strip: Strip) -> None:
    """Every wire begins and ends at the lead of a symbol, at a joint, or on another piece of copper."""
    leads = [point for part in strip.parts for point in part.leads]
    lines = [*strip.wires, *strip.bars, *strip.leads]
    for wire in strip.wires:
        for end in (wire[0], wire[-1]):
            at = [*leads, *strip.joints]
            near = any(abs(end[0] - x) < 0.7 and abs(end[1] - y) < 0.7 for x, y in at)
            assert near or any(line is not wire and touches(end, line) for line in lines), end


def check_netlist(trailer: Trailer, drawing: CircuitDrawing) -> None:
    """What the copper of a strip joins is what the model's terminals join among the wires of that strip."""
    wires = {wire.number: wire for wire in drawn_wires(trailer, trailer.circuit(drawing.number))}
    for _, svgs in forms(drawing):
        for svg in svgs:
            strip = read_strip(svg)
            here = [wires[said.split()[0]] for said, _ in strip.tags]
            group = {wire.number: wire.number for wire in here}
            for a, b in combinations(here, 2):
                if {a.start, a.end} & {b.start, b.end}:
                    old, new = group[b.number], group[a.number]
                    group = {name: new if g == old else g for name, g in group.items()}
            wanted: dict[str, set[str]] = {}
            for name, g in group.items():
                wanted.setdefault(g, set()).add(name)
            assert copper(strip) == {frozenset(names) for names in wanted.values()}


def check(trailer: Trailer, figures: Figures, drawings: Drawings) -> None:
    assert drawings.problem == ""
    assert drawings.calls <= 3
    for drawing in drawings.circuits.values():
        check_wires(trailer, figures, drawing)
        check_netlist(trailer, drawing)
        for budget, svgs in forms(drawing):
            for svg in svgs:
                strip = read_strip(svg)
                assert strip.width <= budget or drawing.notes, drawing.title
                check_room(strip)
                check_symbols(strip)
                check_ends(strip)


@pytest.mark.parametrize("name", EXAMPLES)
def test_an_example_is_drawn_as_it_is_wired(name: str) -> None:
    trailer, figures, drawings = example(name)
    assert list(drawings.circuits) == [circuit.number for circuit in trailer.circuits]
    check(trailer, figures, drawings)


@settings(max_examples=25)
@given(builds())
def test_a_generated_build_is_drawn_as_it_is_wired(build: GeneratedBuild) -> None:
    check(*made(build.data))


@pytest.mark.parametrize("name", EXAMPLES)
def test_a_whole_build_takes_few_calls(name: str) -> None:
    calls = []
    real = engine()

    def counted(sources: object) -> Laid:
        calls.append(len(list(sources)))  # type: ignore[call-overload]
        return real(sources)  # type: ignore[arg-type]

    _, _, drawings = made((ROOT / name).read_bytes(), counted)
    assert len(calls) == drawings.calls <= 3
    assert calls[0] >= 2 * len(drawings.circuits)


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_same_build_gives_the_same_bytes(name: str) -> None:
    assert made((ROOT / name).read_bytes())[2].circuits == example(name)[2].circuits


def test_both_engines_give_the_same_structure() -> None:
    system = engine("system")
    if system([]).problem or not Path("/usr/bin/dot").exists():
        pytest.skip("the system has no dot")
    _, _, ours = example(EXAMPLES[0])
    _, _, other = made((ROOT / EXAMPLES[0]).read_bytes(), system)
    assert other.problem == ""
    for number, drawing in ours.circuits.items():
        mine = [read_strip(svg) for svg in drawing.narrow]
        theirs = [read_strip(svg) for svg in other.circuits[number].narrow]
        assert [copper(s) for s in mine] == [copper(s) for s in theirs]
        assert [[p.title for p in s.parts] for s in mine] == [[p.title for p in s.parts] for s in theirs]


@pytest.mark.parametrize(("file", "text"), structures().items())
def test_a_kept_drawing_is_drawn_as_it_was(file: str, text: str) -> None:
    """Where the change is wanted: look at the drawing, then run ``tests/drawings/structure.py``."""
    assert text == (KEPT / file).read_text(encoding="utf-8")


def test_ten_drawings_and_four_faces_are_kept() -> None:
    assert len(list(KEPT.iterdir())) == len(structures()) == 10 + 4


@pytest.mark.parametrize("name", EXAMPLES)
def test_a_drawing_keeps_to_itself(name: str) -> None:
    _, _, drawings = example(name)
    every = [svg for d in drawings.circuits.values() for svg in (*d.narrow, *d.wide)]
    ids = [found for svg in every for found in re.findall(r'\bid="([^"]+)"', svg)]
    assert len(ids) == len(set(ids))
    for svg in every:
        assert "\n" not in svg
        assert not re.search(r"<script|xlink|\bon\w+=|<image|<use|url\(|\bwidth=\"\d+pt", svg)
        assert re.findall(r'https?://[^"]+', svg) == ["http://www.w3.org/2000/svg"]
        assert 'role="group"' in svg
        for href in re.findall(r'href="([^"]+)"', svg):
            assert href.startswith("#part-") or href[1:] in ids


def test_every_part_links_to_its_row() -> None:
    trailer, _, drawings = example(EXAMPLES[0])
    for drawing in drawings.circuits.values():
        addresses = {p.address for svg in drawing.narrow for p in read_strip(svg).parts}
        linked = {address for address in addresses if not address.startswith("#wd-")}
        assert linked == {link(0, part) for part in drawing.parts}
        for stop in trailer.circuit(drawing.number).stops:
            assert link(0, stop.part) in linked


def test_words_tell_every_wire_of_a_circuit() -> None:
    trailer, _, drawings = example(EXAMPLES[0])
    for drawing in drawings.circuits.values():
        said = " ".join(drawing.description)
        for wire in drawn_wires(trailer, trailer.circuit(drawing.number)):
            assert re.search(rf"\b{wire.number}\b", said), (drawing.title, wire.number)


def test_what_goes_on_in_another_strip_leads_there_and_back() -> None:
    _, _, drawings = example(EXAMPLES[0])
    folded = [svgs for d in drawings.circuits.values() for svgs in (d.narrow, d.wide) if len(svgs) > 1]
    assert folded
    for svgs in folded:
        parts = {p.id: (place, p) for place, svg in enumerate(svgs) for p in read_strip(svg).parts if p.id}
        for place, svg in enumerate(svgs):
            strip = read_strip(svg)
            again = [p for p in strip.parts if any("above" in t for t, _ in p.texts)]
            assert all(parts[p.address[1:]][0] < place for p in again)
            assert all(parts[note.address[1:]][0] > place for note in strip.notes)
            assert len(strip.notes) == len([p for p in strip.parts if p.id]) - len(again)


def test_a_part_of_another_circuit_and_its_own_drawing_name_each_other() -> None:
    _, _, drawings = example(EXAMPLES[0])
    bar = next(
        p for svg in drawings.circuits[11].narrow for p in read_strip(svg).parts if "kitchen bar" in p.title
    )
    assert "see circuit 10" in bar.title
    own = [
        p.title
        for svg in drawings.circuits[10].narrow
        for p in read_strip(svg).parts
        if "kitchen bar" in p.title
    ]
    assert any("also wire 11B" in title for title in own)


def test_a_stand_alone_file_carries_its_style() -> None:
    _, _, drawings = example(EXAMPLES[0])
    for drawing in drawings.circuits.values():
        file = stand_alone(drawing)
        read_strip(file)
        assert file.count("<style>") == 1
        assert not re.search(r"@import|url\(|<script", file)
        assert "max-width" not in file
