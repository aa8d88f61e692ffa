"""Cutting from spools in stock, against trying every way there is."""

from __future__ import annotations

from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from builder.lists.cutting import cut_from

SPOOLS = st.lists(st.floats(0.1, 12), max_size=3)
PIECES = st.lists(st.floats(0.1, 6), max_size=6)


def used_m(spools: list[float], cuts: list[float], places: list[int | None]) -> list[float]:
    return [sum(c for c, at in zip(cuts, places, strict=True) if at == n) for n in range(len(spools))]


def most_from_stock(spools: list[float], cuts: list[float]) -> float:
    """Return the most metres that can be cut from what is there, by trying every way."""
    best = 0.0
    for places in product([None, *range(len(spools))], repeat=len(cuts)):
        used = used_m(spools, cuts, list(places))
        if all(part <= spool for part, spool in zip(used, spools, strict=True)):
            best = max(best, sum(used))
    return best


@given(SPOOLS, PIECES)
@settings(max_examples=60, deadline=None)
def test_small_cases_use_as_much_of_the_stock_as_any_way_can(spools: list[float], cuts: list[float]) -> None:
    used = sum(used_m(spools, cuts, cut_from(spools, cuts)))
    # lengths are compared in tenths of a millimetre: a piece that fits by less than that may stay out
    eased = most_from_stock(spools, [cut + 2e-4 for cut in cuts])
    assert used >= eased - 2e-4 * len(cuts) - 1e-9


@given(st.lists(st.floats(0.1, 12), max_size=4), st.lists(st.floats(0.01, 8), max_size=25))
@settings(max_examples=60, deadline=None)
def test_no_spool_gives_more_than_it_has(spools: list[float], cuts: list[float]) -> None:
    places = cut_from(spools, cuts)
    assert len(places) == len(cuts)
    for part, spool in zip(used_m(spools, cuts, places), spools, strict=True):
        assert part <= spool + 1e-6


QUARTERS = st.integers(1, 40).map(lambda n: n / 4)


@given(st.lists(QUARTERS, max_size=4), st.lists(QUARTERS, max_size=5))
@settings(max_examples=80, deadline=None)
def test_small_cases_begin_as_few_spools_as_any_way_can(spools: list[float], cuts: list[float]) -> None:
    """Quarters of a metre: no length differs from another by what is rounded."""
    every = (
        used_m(spools, cuts, list(places))
        for places in product([None, *range(len(spools))], repeat=len(cuts))
    )
    fitting = [used for used in every if all(u <= has for u, has in zip(used, spools, strict=True))]
    best = min((-sum(used), sum(part > 0 for part in used)) for used in fitting)
    found = used_m(spools, cuts, cut_from(spools, cuts))
    assert (-sum(found), sum(part > 0 for part in found)) == best


def test_what_plainly_fits_is_not_searched_for() -> None:
    """A thousand pieces and spools that each hold all, then spools of which two are needed."""
    cuts = [1.0 + n / 1000 for n in range(1000)]
    assert cut_from([2000.0] * 3, cuts) == [0] * 1000
    assert set(cut_from([900.0, 100.0, 900.0, 800.0], cuts)) == {0, 2}


def test_a_spool_is_filled_to_the_end_by_many_pieces() -> None:
    """Of forty pieces hardly any four fill 30 m, but those of 7.5 m do; they are the shortest."""
    cuts = [7.51 + (17 * n % 40) * 0.0613 for n in range(36)] + [7.5] * 4
    places = cut_from([30.0], cuts)
    assert sum(used_m([30.0], cuts, places)) > 29.99


def test_two_shorter_pieces_that_fill_a_spool_go_before_the_longest() -> None:
    """Longest first alone would leave 4 m on the spool and buy 10 m."""
    assert cut_from([10.0], [6.0, 5.0, 5.0]) == [None, 0, 0]


def test_as_few_spools_are_begun_as_can_be() -> None:
    assert cut_from([5.0, 9.0], [4.0, 4.5]) == [1, 1]


def test_many_pieces_and_spools_leave_little_behind() -> None:
    """Forty pieces, more than can all be tried: of 60 m in stock at least nine tenths are used."""
    cuts = [1.0 + (7 * n % 40) / 13 for n in range(40)]
    assert sum(cuts) > 60
    used = sum(used_m([30.0, 20.0, 10.0], cuts, cut_from([30.0, 20.0, 10.0], cuts)))
    assert 0.9 * 60 <= used <= 60
