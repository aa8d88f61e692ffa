"""The circuit drawings of a build: one call of the layout engine for all of them, two more where one was too wide."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from functools import partial

from builder.drawings.circuit_graph import circuit_graph
from builder.drawings.circuit_wires import drawn_wires, has_code, is_known, tag_of
from builder.drawings.describing import Said, sentences, strip_description
from builder.drawings.engine import Engine, engine
from builder.drawings.fold import Folding
from builder.drawings.graph import Graph
from builder.drawings.layers import Layers
from builder.drawings.layout import axes, dot_source
from builder.drawings.legend import signs_of
from builder.drawings.overview_graph import overview_graph
from builder.drawings.painting import Heading, Link, paint
from builder.drawings.placed import Placed
from builder.drawings.routing import MARGIN, route
from builder.drawings.style import own_style
from builder.drawings.text_width import visible
from builder.drawings.wording import Words
from builder.electrics.figures import Figures
from builder.trailer.circuits import Circuit
from builder.trailer.model import Trailer

NARROW, WIDE = 358.0, 700.0
"""The widths of the two forms in CSS pixels: a phone of 390 with its margins, and A4."""

PartLink = Callable[[int, str], str]
"""Gives the address of a part's row on the page of a circuit, by the circuit's number and the part's name."""

OVERVIEW = 0
"""Stands where a circuit's number would: circuits are numbered from 1."""

CALLS = 3
"""How often a drawing may be laid out."""

_TIGHTER = (0.97, 0.85, 1.0)
"""How much of the room that seemed enough is aimed at after each try: the last one must fit."""


_LEAST_AIM = 150.0


@dataclass(frozen=True, slots=True)
class CircuitDrawing:
    """One circuit: its strips in both forms, each one line of SVG, and what they say in words.

    ``wide`` is empty where the narrow form is one strip that serves both. ``parts`` names the parts that link
    to a row of the page; ``notes`` are sentences to stand under the drawing.
    """

    number: int
    title: str
    description: tuple[str, ...]
    narrow: tuple[str, ...]
    wide: tuple[str, ...]
    parts: tuple[str, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Drawings:
    """All drawings by circuit number; ``problem`` says in one sentence why there are none, ``calls`` counts.

    ``overview`` shows the whole system; ``signs`` are the symbols that stand on them, each once, as pictures of
    their own by the legend's word.
    """

    circuits: Mapping[int, CircuitDrawing]
    problem: str = ""
    calls: int = 0
    signs: Mapping[str, str] = field(default_factory=dict)
    overview: CircuitDrawing | None = None


@dataclass(slots=True)
class _Job:
    """One form of one drawing on its way to fit its budget; ``number`` is the circuit's, 0 for the overview."""

    number: int
    title: str
    graph: Graph
    form: str
    budget: float
    aim: float
    folding: Folding
    filled: tuple[Layers, ...]
    placed: tuple[Placed, ...] = ()
    drawn: tuple[Layers, ...] = ()

    @property
    def width(self) -> float:
        return max((strip.width for strip in self.placed), default=0.0)


def circuit_drawings(
    trailer: Trailer,
    figures: Figures,
    wanted: Iterable[int],
    link: PartLink,
    words: Words,
    run: Engine | None = None,
) -> Drawings:
    """Return the drawings of the circuits ``wanted`` by number, in that order.

    ``link`` gives the address of a part's row by the circuit's number and the part's name, empty for none.
    ``run`` is the layout engine, by default the one that comes with the package, else the system's. Raises
    KeyError for an unknown number; an engine that fails is told in ``problem``.
    """
    jobs: list[_Job] = []
    for number in wanted:
        circuit = trailer.circuit(number)
        title = words.title.format(number, visible(circuit.name))
        jobs += _forms(number, title, circuit_graph(trailer, figures, circuit, words), words)
    jobs += _forms(OVERVIEW, words.overview, overview_graph(trailer, figures, words), words)
    problem, calls = _lay_out(jobs, run or engine(), words)
    if problem:
        return Drawings({}, problem, calls)
    pairs = zip(jobs[::2], jobs[1::2], strict=True)
    drawn = {narrow.number: _drawing(trailer, narrow, wide, link, words) for narrow, wide in pairs}
    overview = drawn.pop(OVERVIEW)
    signs = signs_of(node.box for job in jobs for strip in job.placed for node in strip.nodes)
    return Drawings(drawn, "", calls, signs, overview)


def _forms(number: int, title: str, graph: Graph, words: Words) -> list[_Job]:
    made = []
    folding = Folding(graph, words)
    for form, budget in (("narrow", NARROW), ("wide", WIDE)):
        aim = budget - 2 * MARGIN
        made.append(_Job(number, title, graph, form, budget, aim, folding, folding.strips(aim)))
    return made


def _lay_out(jobs: list[_Job], run: Engine, words: Words) -> tuple[str, int]:
    """Lay out all that does not fit yet, at most three times; return what went wrong, and the calls."""
    waiting, calls = [job for job in jobs if job.graph.legs], 0
    while waiting and calls < CALLS:
        laid = run([dot_source(strip) for job in waiting for strip in job.filled])
        calls += 1
        if laid.problem:
            return words.why_not(laid.problem, laid.detail), calls
        layouts = iter(laid.layouts)
        try:
            for job in waiting:
                _keep_better(job, tuple(route(s, axes(s, next(layouts))) for s in job.filled))
        except (KeyError, StopIteration):
            return words.engine_left_out, calls
        waiting = [job for job in waiting if job.width > job.budget]
        for job in waiting:
            _tighten(job, _TIGHTER[calls - 1])
    return "", calls


def _tighten(job: _Job, part: float) -> None:
    """Fill the strips anew, narrower by as much as the engine needed more than the levels' sums said."""
    guess = max(strip.guess() for strip in job.filled)
    goal = guess * min(1.0, job.budget / job.width) * part
    while job.aim > _LEAST_AIM:
        job.aim *= 0.95
        job.filled = job.folding.strips(job.aim)
        if max(strip.guess() for strip in job.filled) <= goal:
            return


def _keep_better(job: _Job, placed: tuple[Placed, ...]) -> None:
    """Keep the narrower of two tries."""
    if not job.placed or max(strip.width for strip in placed) < job.width:
        job.placed, job.drawn = placed, job.filled


def _drawing(trailer: Trailer, narrow: _Job, wide: _Job, part_link: PartLink, words: Words) -> CircuitDrawing:
    link = partial(part_link, narrow.number)
    said = sentences(narrow.graph, words)
    title = narrow.title
    notes = _colour_notes(trailer, trailer.circuit(narrow.number), words) if narrow.number else ()
    if narrow.width > narrow.budget:
        notes += (words.too_wide,)
    same = len(narrow.placed) == 1 and len(wide.placed) == 1 and abs(narrow.width - wide.width) < 1
    return CircuitDrawing(
        narrow.number,
        title,
        tuple(one.text for one in said),
        _painted(narrow, title, said, link, words),
        () if same else _painted(wide, title, said, link, words),
        tuple(dict.fromkeys(node.part for node in narrow.graph.nodes.values())),
        notes,
    )


def _painted(job: _Job, title: str, said: tuple[Said, ...], link: Link, words: Words) -> tuple[str, ...]:
    found = []
    ids, leads = _cross_references(job)
    for place, (filled, strip) in enumerate(zip(job.drawn, job.placed, strict=True), start=1):
        name = title if len(job.placed) == 1 else f"{title}, {words.strip.format(place, len(job.placed))}"
        prefix = f"wd-c{job.number}{job.form[0]}{place}"
        heading = Heading(
            prefix, name, strip_description(filled.graph, said), ids[place - 1], leads[place - 1]
        )
        found.append(paint(strip, heading, link))
    return tuple(found)


def _cross_references(job: _Job) -> tuple[list[dict[str, str]], list[dict[str, str]]]:
    """Return, for each strip, the ids of the parts that stand on several strips, and where each leads.

    The first mark of a part leads to the next one, every later one back to the first.
    """
    places: dict[str, list[tuple[int, str]]] = {}
    for place, strip in enumerate(job.drawn):
        for key in strip.graph.nodes:
            whole = key if key in job.graph.nodes else key.rpartition("@")[0]
            places.setdefault(whole, []).append((place, key))
    ids: list[dict[str, str]] = [{} for _ in job.drawn]
    leads: list[dict[str, str]] = [{} for _ in job.drawn]
    for count, marks in enumerate(places.values(), start=1):
        if len(marks) < 2:
            continue
        stem = f"wd-c{job.number}{job.form[0]}-p{count}"
        for n, (place, key) in enumerate(marks):
            ids[place][key] = f"{stem}-{n}"
            leads[place][key] = f"{stem}-{0 if n else 1}"
    return ids, leads


def _colour_notes(trailer: Trailer, circuit: Circuit, words: Words) -> tuple[str, ...]:
    colours = dict.fromkeys(wire.color for wire in drawn_wires(trailer, circuit))
    notes = []
    for colour in colours:
        if not is_known(colour):
            notes.append(words.unknown.format(visible(str(colour))))
        elif not has_code(colour):
            notes.append(words.no_code.format(visible(str(colour))))
    return tuple(notes)


def stand_alone(drawing: CircuitDrawing) -> str:
    """Return a drawing as one SVG file with a style of its own, its strips one below the other.

    The wide form where there is one. Links inside it lead nowhere outside and are kept as they are.
    """
    pieces = drawing.wide or drawing.narrow
    sizes = [_size(piece) for piece in pieces]
    y, inside = 0.0, []
    for piece, (_, height) in zip(pieces, sizes, strict=True):
        inside.append(
            f'<svg y="{y:g}" ' + piece.removeprefix("<svg ").replace(_styled(piece), _fixed(piece), 1)
        )
        y += height
    width = max((size[0] for size in sizes), default=60.0)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="wd" viewBox="0 0 {width:g} {y:g}" width="{width:g}"'
        f' height="{y:g}"><style>{own_style()}</style>{"".join(inside)}</svg>'
    )


def _size(piece: str) -> tuple[float, float]:
    _, _, width, height = piece.partition('viewBox="')[2].partition('"')[0].split()
    return float(width), float(height)


def _styled(piece: str) -> str:
    return ' style="' + piece.partition(' style="')[2].partition('"')[0] + '"'


def _fixed(piece: str) -> str:
    width, height = _size(piece)
    return f' width="{width:g}" height="{height:g}"'


def spare_wires(trailer: Trailer, figures: Figures, words: Words) -> tuple[str, ...]:
    """Return one sentence for each spare wire: no current flows in it, so it stands on no circuit's drawing."""
    found = []
    for wire in trailer.spares:
        tag = tag_of(wire, figures)
        ends = (visible(wire.start.part), visible(wire.end.part))
        found.append(words.spare.format(wire.number, tag.words, tag.size, *ends))
    return tuple(found)


__all__ = ["NARROW", "WIDE", "CircuitDrawing", "Drawings", "circuit_drawings", "spare_wires", "stand_alone"]
