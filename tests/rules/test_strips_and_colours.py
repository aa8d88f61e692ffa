"""What a strip loses against a ladder of many lamps, and the printed ways out of strips and colours in any build."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from generated_builds import GeneratedBuild, builds
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from rule_builds import build, findings, read

from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.electrics.strips import along_v
from builder.quantities import read_length
from builder.rules.registry import find
from builder.trailer.color import Color
from builder.trailer.model import Trailer
from builder.trailer.wires import Role

QUIET = list(HealthCheck)


@given(current_a=st.floats(0.1, 8), lit_m=st.floats(0.2, 12), loss_percent=st.floats(0.5, 5))
def test_a_strip_loses_what_a_ladder_of_many_lamps_loses(
    current_a: float, lit_m: float, loss_percent: float
) -> None:
    """Kirchhoff's law, lamp by lamp: each piece of the strip carries what the lamps beyond it take."""
    lamps = 500
    ohm = loss_percent / 100 * 12 * lit_m / lamps
    lost = sum(ohm * current_a * (lamps - passed) / lamps for passed in range(lamps))
    assert along_v(current_a, lit_m, loss_percent) == pytest.approx(lost, rel=0.003)


def test_a_reel_of_five_metres_loses_a_tenth() -> None:
    """5 m of 4.8 W/m, as sold on one reel: 2 A / 2 × 5 m × 0.24 V/(A·m) = 1.2 V of 12 V."""
    assert along_v(2.0, 5.0, 2.0) == pytest.approx(1.2)


def test_the_makers_own_figure_for_the_strip_counts() -> None:
    text = build(
        "parts: {strip: {kind: lamp, draws: 1.5 W per ft, lit length: 12 ft}}\n"
        "circuits:\n  strip: {path: [strip: 6 ft]}\n"
    )
    assert findings(text, "strip too long") == ()
    (finding,) = findings(text + "assume: {loss along a lamp strip: 4 %}\n", "strip too long")
    assert finding.basis.startswith("4 % of 12 V")


def _shorter(trailer: Trailer, name: str, most_m: float) -> Trailer:
    part = trailer.parts[name]
    assert part.draw is not None
    assert part.lit_length_m is not None
    draw = replace(part.draw, value=part.draw.value * most_m / part.lit_length_m)
    loads = tuple(
        replace(load, draw=draw) if load.part == name and not load.what else load for load in trailer.loads
    )
    made = replace(part, draw=draw, lit_length_m=most_m)
    return replace(trailer, parts={**trailer.parts, name: made}, loads=loads)


def _frozen_sizes(trailer: Trailer) -> Trailer:
    """Return a trailer whose wires keep the sizes they have: a shorter strip could be given thinner wire."""
    sizes = compute(trailer).wires
    wires = tuple(replace(wire, size=sizes[wire.number].size) for wire in trailer.wires)
    return replace(trailer, wires=wires)


@settings(max_examples=60, deadline=None, suppress_health_check=QUIET)
@given(builds())
def test_the_lit_length_that_is_named_mends_a_strip_in_any_build(made: GeneratedBuild) -> None:
    assume(read_build(made.data).trailer is not None)
    trailer, _ = read(made.text)
    trailer = _frozen_sizes(trailer)
    for finding in find(trailer, compute(trailer)):
        most = re.search(r"lit length: (.+) at most", finding.help)
        if finding.rule == "strip too long" and most is not None:
            name = next(n for n, part in trailer.parts.items() if part.origin == finding.origin)
            most_m = read_length(most[1])
            assert isinstance(most_m, float)
            mended = _shorter(trailer, name, most_m)
            left = find(mended, compute(mended))
            assert (finding.rule, finding.origin) not in {(f.rule, f.origin) for f in left}


@settings(max_examples=60, deadline=None, suppress_health_check=QUIET)
@given(builds())
def test_the_colour_that_is_named_mends_a_circuit_in_any_build(made: GeneratedBuild) -> None:
    assume(read_build(made.data).trailer is not None)
    trailer, figures = read(made.text)
    for finding in find(trailer, figures):
        free = re.search(r"another colour: (return )?color: (\w+)$", finding.help)
        told = re.match(r"(.+) is a feed in ", finding.message)
        if finding.rule != "colour of two meanings" or free is None or told is None:
            continue
        roles = (Role.RETURN,) if free[1] else (Role.FEED, Role.TRAVELLER)
        named = re.search(r"“(.+)” another colour", finding.help)
        assert named is not None
        number = next(c.number for c in trailer.circuits if c.name == named[1])
        wires = tuple(
            replace(w, color=Color(free[2]))
            if w.circuit == number and w.role in roles and str(w.color) == told[1]
            else w
            for w in trailer.wires
        )
        left = find(replace(trailer, wires=wires), figures)
        assert finding.message not in {f.message for f in left}
