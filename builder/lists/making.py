"""From a trailer and its figures to the lists of the workshop."""

from __future__ import annotations

from dataclasses import dataclass

from builder.electrics.figures import Figures
from builder.lists.bare_tests import bare_tests
from builder.lists.built_in import block_items, bridge_items, plate_items, support_items
from builder.lists.charging_tests import charging_tests
from builder.lists.costs import Costs, costs
from builder.lists.crimp_pulls import CrimpPull, crimp_pulls
from builder.lists.cut_list import CutList, cut_list
from builder.lists.dead_tests import loose_ends, nothing_live, short_tests, to_unplug, wire_tests
from builder.lists.grommets import grommet_items, hole_items
from builder.lists.joining import with_steps
from builder.lists.labels import Label, labels
from builder.lists.landing_sheet import BoxPiece, landing_sheet
from builder.lists.live_tests import battery_tests, circuit_tests, road_tests
from builder.lists.parts_needed import part_items
from builder.lists.pieces import (
    connector_items,
    fuse_items,
    label_items,
    shared_terminals,
    splice_items,
    terminal_items,
)
from builder.lists.plug_supply import plug_supply
from builder.lists.pull_plan import PullPlan, pull_plan
from builder.lists.road_items import breakaway_items, bulb_items, reflector_items
from builder.lists.shopping import Shopping
from builder.lists.testing import Sheet
from builder.lists.ways_needed import string_items, strip_items, way_items
from builder.lists.wire_needs import wire_items
from builder.lists.wrap_labels import WrapGroup, wrap_groups
from builder.trailer.model import Trailer


@dataclass(frozen=True, slots=True)
class Lists:
    """What to buy and to cut, how to draw it in, what to write on wires, what lands where, and what to measure."""

    shopping: Shopping
    costs: Costs
    cuts: CutList
    pulls: PullPlan
    labels: tuple[Label, ...]
    wraps: tuple[WrapGroup, ...]
    landings: tuple[BoxPiece, ...]
    crimp_pulls: tuple[CrimpPull, ...]
    tests: Sheet


def make_lists(trailer: Trailer, figures: Figures) -> Lists:
    """Return the lists of a build. Pure: the same trailer gives the same lists."""
    cuts = cut_list(trailer, figures)
    pulls = pull_plan(trailer, figures)
    every, shopping = labels(trailer), _shopping(trailer, figures, cuts, pulls)
    return Lists(
        shopping,
        costs(trailer, shopping),
        cuts,
        pulls,
        every,
        wrap_groups(trailer, figures, every),
        landing_sheet(trailer, figures),
        crimp_pulls(trailer, figures),
        _tests(trailer, figures),
    )


def _shopping(trailer: Trailer, figures: Figures, cuts: CutList, pulls: PullPlan) -> Shopping:
    terminals, open_ends = terminal_items(trailer, figures)
    return Shopping(
        wire=wire_items(cuts),
        ways=(*way_items(trailer, figures), *string_items(trailer, pulls), *strip_items(trailer, figures)),
        items=(
            *terminals,
            *splice_items(trailer, figures),
            *connector_items(trailer, figures),
            *bridge_items(figures),
            *grommet_items(trailer, figures),
            *hole_items(trailer, figures),
            *support_items(trailer, figures),
            *plate_items(trailer, figures),
            *block_items(trailer),
            *fuse_items(trailer, figures),
            *label_items(trailer),
            *bulb_items(trailer),
            *reflector_items(trailer),
            *breakaway_items(trailer),
            *part_items(trailer, figures),
        ),
        open_ends=open_ends,
        shared=shared_terminals(trailer, figures),
    )


def _tests(trailer: Trailer, figures: Figures) -> Sheet:
    """Return the tests in the order of the work: dead tests first, then live ones."""
    road = tuple(road_tests(trailer, figures))
    lines = (
        *nothing_live(trailer),
        *wire_tests(trailer, figures),
        *bare_tests(trailer),
        *short_tests(trailer, figures),
        *loose_ends(trailer),
        *battery_tests(trailer, figures),
        *circuit_tests(trailer, figures),
        *road,
        *charging_tests(trailer, figures),
    )
    return Sheet(
        unplug=to_unplug(trailer),
        fuses_out=any(fuse.device == "fuse" for fuse in figures.fuses),
        lines=with_steps(trailer, figures, lines),
        plug_supply=plug_supply(trailer, road),
    )
