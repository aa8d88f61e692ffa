"""The distances between fasteners and wires against measuring point by point, on 200 generated shells."""

from __future__ import annotations

import pytest
from measuring import apart, dot, from_fastener, samples_behind, sub
from shells import Shell, shell

from builder.routes.skins import BEYOND_M, clearances
from builder.routes.tubes import Tube, tubes_of

TAPE_M = 0.01
SHELLS = 200
WITHIN_M = 0.001


def measured(made: Shell, skin: str, tube: Tube) -> float | None:
    """Return the least distance of a tube's surface from a fastener; nothing where one gets in."""
    radius_m = tube.radius_m
    assert radius_m is not None
    reach_m = made.skins[skin].fasteners_m
    wide_m = TAPE_M + radius_m
    found = [
        from_fastener(point, face, reach_m)
        for face in made.faces[skin]
        for point in samples_behind(tube.piece, face, wide_m, reach_m + BEYOND_M)
    ]
    return max(min(found) - radius_m, 0.0) if found else None


@pytest.mark.parametrize("first", range(0, SHELLS, 10))
def test_the_distances_are_those_measured_every_2_mm(first: int) -> None:
    compared = 0
    for seed in range(first, first + 10):
        made = shell(seed)
        tubes = tubes_of(made.geometry, made.runs, made.sizes)
        found = clearances(made.geometry, tubes, TAPE_M)
        assert found.unclear == ()
        by_pair = {(one.skin, one.tube.stretch): one for one in found.found}
        for skin in made.skins:
            for tube in tubes:
                expected = measured(made, skin, tube)
                one = by_pair.get((skin, tube.stretch))
                assert (one is None) == (expected is None), (seed, skin, tube.stretch)
                if one is not None and expected is not None:
                    assert one.left_m is not None
                    assert max(one.left_m, 0.0) == pytest.approx(expected, abs=WITHIN_M), (seed, skin)
                    compared += 1
    assert compared > 20


def test_the_shells_hold_what_is_to_be_measured() -> None:
    """Fasteners that reach wires and that do not, wires partly behind a skin, skins of several faces."""
    reached = clear = partly = bent = 0
    for seed in range(SHELLS):
        made = shell(seed)
        found = clearances(made.geometry, tubes_of(made.geometry, made.runs, made.sizes), TAPE_M).found
        reached += sum(one.reaches for one in found)
        clear += sum(not one.reaches and not one.is_near for one in found)
        partly += sum(one.ends_m - one.begins_m < 0.9 * one.tube.straight_m for one in found)
        bent += sum(one.skin == "roof" for one in found)
    assert min(reached, clear, partly, bent) > 60


def test_a_depth_is_what_a_ruler_says() -> None:
    made = shell(3)
    for one in clearances(made.geometry, tubes_of(made.geometry, made.runs, made.sizes), TAPE_M).found:
        for ring, towards in made.faces[one.skin]:
            depths = [dot(sub(point, ring[0]), towards) for point in one.tube.piece]
            if len(made.faces[one.skin]) == 1:
                assert min(depths) - 1e-9 <= one.depth_m <= max(depths) + 1e-9
        assert 0 <= one.begins_m < one.ends_m <= apart(*one.tube.piece) + 1e-9
