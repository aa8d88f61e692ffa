"""Names, sizes and engines that a drawing must stand: it is drawn legibly, or a sentence says why not."""

from __future__ import annotations

import stat
from dataclasses import replace
from pathlib import Path

import pytest
from svg_reading import parsed
from test_circuit_drawings import (
    EXAMPLES,
    ROOT,
    WORDS,
    check,
    check_netlist,
    check_wires,
    example,
    link,
    made,
)

from builder.drawings.circuit_drawing import circuit_drawings, stand_alone
from builder.drawings.circuit_graph import circuit_graph
from builder.drawings.circuit_wires import GREY
from builder.drawings.engine import engine, run_program
from builder.drawings.levels import levels
from builder.trailer.color import Color
from builder.trailer.parts import Terminal
from builder.trailer.wires import Role

HEAD = """
format: 1
build: {name: Hard Case, number: 1, country: US, stage: walls open}
trailer: {length: 12 ft, width: 5 ft, gross weight: 1400 lb}
battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}
front box: {fuse ways: 8, fuses: blade}
wire: {on the shelf: [16 AWG, 14 AWG, 12 AWG, 8 AWG], sold as: pair, feed: red, return: black}
"""
LONG = "the very long name of a lamp that nobody would give it " * 2
NAMES = [
    LONG.strip(),
    "W" * 118,
    "مصباح القراءة الأيسر",
    "灯" * 60,
    'lamp 💡🚐 <b>&amp; "x"</b>',
    "]]> </svg><script>",
]


def build(parts: dict[str, str], path: list[str], branches: list[str] | None = None) -> bytes:
    lines = [HEAD, "parts:"]
    lines += [f"  {quoted(name)}: {words}" for name, words in parts.items()]
    lines += ["circuits:", "  hard case:", f"    path: [{', '.join(path)}]"]
    if branches:
        lines += ["    branches:", *(f"      - {branch}" for branch in branches)]
    return "\n".join(lines).encode()


def quoted(name: str) -> str:
    return "'" + name.replace("'", "''") + "'"


@pytest.mark.parametrize(
    "name", NAMES, ids=["long", "one word", "right to left", "wide", "markup", "end tags"]
)
def test_a_hard_name_is_drawn_and_told_in_full(name: str) -> None:
    trailer, figures, drawings = made(build({name: "{kind: lamp, draws: 2 W}"}, [f"{quoted(name)}: 4 ft"]))
    check(trailer, figures, drawings)
    svg = drawings.circuits[1].narrow[0]
    titles = [e.text or "" for e in parsed(svg).iter("{http://www.w3.org/2000/svg}title")]
    assert any(" ".join(name.split()) in title for title in titles)
    parsed(stand_alone(drawings.circuits[1]))


def test_sixty_loads_on_one_fuse() -> None:
    parts = {f"lamp {n}": "{kind: lamp, draws: 0.2 W}" for n in range(60)}
    paths = [f"{{from: fuse, path: [lamp {n}: {n + 1} ft]}}" for n in range(1, 60)]
    check(*made(build(parts, ["lamp 0: 1 ft"], paths)))


@pytest.mark.parametrize("kind", ["splice", "bar"])
def test_twelve_wires_on_one_part(kind: str) -> None:
    parts = {"middle": f"{{kind: {kind}}}"} | {f"lamp {n}": "{kind: lamp, draws: 1 W}" for n in range(11)}
    paths = [f"{{from: middle, path: [lamp {n}: 2 ft]}}" for n in range(1, 11)]
    check(*made(build(parts, ["middle: 2 ft", "lamp 0: 1 ft"], paths)))


def test_a_receiver_with_twelve_outputs() -> None:
    parts = {"box": "{kind: receiver, outputs: 12, draws when idle: 12 mA}"}
    parts |= {f"lamp {n}": "{kind: lamp, draws: 1 W}" for n in range(1, 13)}
    paths = [f"{{from: box, output: {n}, path: [lamp {n}: 2 ft]}}" for n in range(2, 13)]
    check(*made(build(parts, ["box: 2 ft", "lamp 1: 1 ft"], paths)))


def test_twenty_loads_in_a_row() -> None:
    parts = {f"lamp {n}": "{kind: lamp, draws: 1 W}" for n in range(20)}
    check(*made(build(parts, [f"lamp {n}: 1 ft" for n in range(20)])))


def test_wires_of_several_colours_on_one_splice_do_not_hide_each_other() -> None:
    parts = {"middle": "{kind: splice}"} | {f"lamp {n}": "{kind: lamp, draws: 1 W}" for n in range(3)}
    colours = ["blue", "white with red", "yellow"]
    paths = [f"{{from: middle, path: [lamp {n}: {{length: 2 ft, color: {colours[n]}}}]}}" for n in (1, 2)]
    check(*made(build(parts, ["middle: 2 ft", "lamp 0: {length: 1 ft, color: blue}"], paths)))


def test_a_loop_ends_at_a_repeated_mark() -> None:
    trailer, figures, _ = example(EXAMPLES[1])
    first = next(w for w in trailer.wires if w.circuit == 1 and w.role is Role.FEED)
    back = replace(
        first, number="1Z", start=Terminal("step lamp left", "−"), end=Terminal("step switch left", "in")
    )
    looped = replace(trailer, wires=(*trailer.wires, back))
    graph = circuit_graph(looped, figures, looped.circuit(1), WORDS)
    found = levels(graph)
    assert all(found[leg.start.node] < found[leg.end.node] for leg in graph.legs)
    assert sum(node.repeat for node in graph.nodes.values()) == 1
    drawings = circuit_drawings(looped, figures, [1], link, WORDS)
    check_wires(looped, figures, drawings.circuits[1])


def test_a_colour_without_a_code_stands_in_words() -> None:
    trailer, figures, _ = example(EXAMPLES[1])
    wires = tuple(replace(w, color=Color("plaid", "tan")) if w.number == "1A" else w for w in trailer.wires)
    changed = replace(trailer, wires=wires)
    drawing = circuit_drawings(changed, figures, [1], link, WORDS).circuits[1]
    check_wires(changed, figures, drawing)
    check_netlist(changed, drawing)
    assert any("plaid with tan" in note for note in drawing.notes)
    assert GREY in drawing.narrow[0]
    assert "plaid/tan" in drawing.narrow[0]


def test_an_engine_that_fails_is_one_sentence(tmp_path: Path) -> None:
    scripts = {
        "status": "#!/bin/sh\nexit 3\n",
        "noise": "#!/bin/sh\necho 'Warning: odd' >&2\necho '{}'\n",
        "nothing": "#!/bin/sh\ncat >/dev/null\n",
        "rubbish": '#!/bin/sh\ncat >/dev/null\necho \'{"objects": [{"name": "n0", "pos": "a"}]}\'\n',
    }
    for name, text in scripts.items():
        program = tmp_path / name
        program.write_text(text)
        program.chmod(program.stat().st_mode | stat.S_IXUSR)
        laid = run_program(str(program), ["digraph {}"], 5.0)
        assert laid.layouts == ()
        said = WORDS.why_not(laid.problem, laid.detail)
        assert said.endswith(", so circuits are listed and not drawn.")
        assert "\n" not in said


def test_a_slow_engine_is_stopped(tmp_path: Path) -> None:
    program = tmp_path / "slow"
    program.write_text("#!/bin/sh\nexec sleep 30\n")
    program.chmod(program.stat().st_mode | stat.S_IXUSR)
    laid = run_program(str(program), ["digraph {}"], 0.2)
    assert "more than 0.2 s" in WORDS.why_not(laid.problem, laid.detail)


def test_a_missing_engine_is_one_sentence(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    assert run_program(str(tmp_path / "none"), ["digraph {}"], 1.0).problem == "not started"
    monkeypatch.setenv("PATH", str(tmp_path))
    drawings = made((ROOT / EXAMPLES[1]).read_bytes(), engine("system"))[2]
    assert drawings.circuits == {}
    assert drawings.problem.startswith("The layout engine is not installed")


def test_the_system_engine_helps_where_the_embedded_one_is_missing(monkeypatch: pytest.MonkeyPatch) -> None:
    if not Path("/usr/bin/dot").exists():
        pytest.skip("the system has no dot")
    monkeypatch.setattr("builder.drawings.engine.embedded_program", lambda: None)
    assert engine()(["digraph { a -> b }"]).problem == ""


def test_an_unknown_circuit_is_refused() -> None:
    trailer, figures, _ = example(EXAMPLES[1])
    with pytest.raises(KeyError):
        circuit_drawings(trailer, figures, [99], link, WORDS)
