"""All rules, and the one place that runs them."""

from __future__ import annotations

from collections.abc import Iterable

from builder.electrics.figures import Figures
from builder.quantities.examples import in_metric
from builder.rules import (
    alarm_switched_off,
    battery_fuse,
    battery_not_charged,
    battery_not_vented,
    bay_closed_too_early,
    bend_too_sharp,
    block_in_the_way,
    brakes_not_fed,
    breakaway_battery_small,
    breakaway_not_reaching,
    cable_entry_open,
    charge_line_unfused,
    charger_too_large,
    chase_over_opening,
    closed_walls,
    colour_of_two_meanings,
    conduit_too_full,
    connector_overloaded,
    cover_not_laid,
    drop_above_advice,
    entry_hole_full,
    fastener_near_wire,
    fastener_reaches_wire,
    frame_return,
    fuse_above_wire,
    fuse_far_above_load,
    fuse_not_sold,
    hinge_loop_bends_sharply,
    hinge_loop_too_short,
    hinge_without_connector,
    hole_near_edge,
    hole_without_grommet,
    lamp_at_wrong_height,
    lamp_missing,
    lamp_of_wrong_colour,
    lamp_on_hatch,
    lamp_too_weak_to_see,
    load_above_fuse,
    mains_unnamed,
    no_own_fuse,
    no_way_for_wire,
    numbers_not_issued,
    option_not_ready,
    panel_not_as_measured,
    part_not_wired,
    plug_contact_overloaded,
    plug_converter_overloaded,
    plug_ground_shared,
    ring_of_another_size,
    since_issued,
    spool_not_used,
    strip_too_long,
    stud_too_full,
    supply_too_small,
    supports_far_apart,
    switch_too_small,
    too_low_voltage,
    too_many_circuits,
    too_many_wires,
    uncontrolled_charging,
    unlikely_value,
    wire_longer_than_way,
    wire_overloaded,
    wire_too_short,
    wire_too_thin,
    wires_beside_mains,
    wires_may_jam,
    wires_near_heat,
    wrong_voltage,
)
from builder.rules.finding import Finding, Level, Remark, Rule, WayOut
from builder.rules.option_not_ready import told_of_option
from builder.trailer.model import Trailer

_MODULES = (
    (fuse_above_wire, Level.MUST),
    (no_own_fuse, Level.MUST),
    (load_above_fuse, Level.MUST),
    (battery_fuse, Level.MUST),
    (too_many_circuits, Level.MUST),
    (too_many_wires, Level.MUST),
    (stud_too_full, Level.MUST),
    (ring_of_another_size, Level.MUST),
    (too_low_voltage, Level.MUST),
    (supply_too_small, Level.MUST),
    (wire_overloaded, Level.MUST),
    (switch_too_small, Level.MUST),
    (connector_overloaded, Level.MUST),
    (wrong_voltage, Level.MUST),
    (brakes_not_fed, Level.MUST),
    (wire_too_short, Level.MUST),
    (fastener_reaches_wire, Level.MUST),
    (hinge_loop_too_short, Level.MUST),
    (drop_above_advice, Level.SHOULD),
    (part_not_wired, Level.SHOULD),
    (frame_return, Level.SHOULD),
    (mains_unnamed, Level.SHOULD),
    (uncontrolled_charging, Level.SHOULD),
    (charge_line_unfused, Level.SHOULD),
    (plug_contact_overloaded, Level.SHOULD),
    (plug_ground_shared, Level.SHOULD),
    (alarm_switched_off, Level.SHOULD),
    (battery_not_vented, Level.SHOULD),
    (wire_too_thin, Level.SHOULD),
    (fuse_not_sold, Level.SHOULD),
    (charger_too_large, Level.SHOULD),
    (colour_of_two_meanings, Level.SHOULD),
    (strip_too_long, Level.SHOULD),
    (breakaway_battery_small, Level.SHOULD),
    (breakaway_not_reaching, Level.SHOULD),
    (lamp_missing, Level.SHOULD),
    (lamp_of_wrong_colour, Level.SHOULD),
    (lamp_at_wrong_height, Level.SHOULD),
    (conduit_too_full, Level.SHOULD),
    (entry_hole_full, Level.SHOULD),
    (no_way_for_wire, Level.SHOULD),
    (fastener_near_wire, Level.SHOULD),
    (cover_not_laid, Level.SHOULD),
    (panel_not_as_measured, Level.SHOULD),
    (hole_near_edge, Level.SHOULD),
    (block_in_the_way, Level.SHOULD),
    (chase_over_opening, Level.SHOULD),
    (hole_without_grommet, Level.SHOULD),
    (wires_beside_mains, Level.SHOULD),
    (bay_closed_too_early, Level.SHOULD),
    (battery_not_charged, Level.WORTH),
    (lamp_on_hatch, Level.WORTH),
    (plug_converter_overloaded, Level.WORTH),
    (lamp_too_weak_to_see, Level.WORTH),
    (fuse_far_above_load, Level.WORTH),
    (unlikely_value, Level.WORTH),
    (numbers_not_issued, Level.WORTH),
    (wire_longer_than_way, Level.WORTH),
    (wires_may_jam, Level.WORTH),
    (hinge_loop_bends_sharply, Level.WORTH),
    (hinge_without_connector, Level.WORTH),
    (bend_too_sharp, Level.WORTH),
    (supports_far_apart, Level.WORTH),
    (cable_entry_open, Level.WORTH),
    (wires_near_heat, Level.WORTH),
    (spool_not_used, Level.WORTH),
    (option_not_ready, Level.WORTH),
)

RULES: tuple[Rule, ...] = tuple(
    Rule(
        module.__name__.rpartition(".")[2].replace("_", " "),
        level,
        module.check,
        module.__doc__ or "",
        getattr(module, "check_after", None),
    )
    for module, level in _MODULES
)
"""Every rule, gravest first; the name is the module's, with spaces."""

SENTENCE_ENDINGS = ("_SAYS", "_HELP", "_BASIS")
"""How the names of constants end that hold a sentence: the message, the way out, what the limit rests on."""

_DECIDES = {"read", "quoted", "file"}
_ORDER = {level: place for place, level in enumerate(Level)}


def find(trailer: Trailer, figures: Figures) -> tuple[Finding, ...]:
    """Return all findings, gravest first, then by place in the file; what an option would bring is told behind them."""
    today = _found(trailer, figures)
    rule = next(rule for rule in RULES if rule.name == option_not_ready.NAME)
    later = [
        _finding(rule, remark)
        for option, made in zip(trailer.options, figures.options, strict=True)
        for remark in told_of_option(option, _found(made.trailer, made.figures), today)
    ]
    return _sorted((*today, *later))


def _found(trailer: Trailer, figures: Figures) -> tuple[Finding, ...]:
    metric, closed = trailer.identity.units == "metric", trailer.identity.walls_closed
    found = [
        _finding(rule, remark, metric=metric, walls_closed=closed)
        for rule in RULES
        for remark in rule.check(trailer, figures)
    ]
    found += [
        _finding(rule, remark, metric=metric, walls_closed=closed)
        for rule in RULES
        if rule.check_after is not None
        for remark in rule.check_after(trailer, figures, tuple(found))
    ]
    return _sorted(found)


def _sorted(found: Iterable[Finding]) -> tuple[Finding, ...]:
    return tuple(sorted(found, key=lambda f: (_ORDER[f.level], f.origin, f.rule, f.message)))


def _finding(rule: Rule, remark: Remark, *, metric: bool = False, walls_closed: bool = False) -> Finding:
    """Give a remark its level and the way out of its stage.

    What is not read, quoted or in the file itself is never a *must fix*.
    """
    level = remark.level or rule.level
    if level is Level.MUST and remark.known not in _DECIDES:
        level = Level.SHOULD
    way_out = remark.help.at(walls_closed=walls_closed) if isinstance(remark.help, WayOut) else remark.help
    return Finding(
        level,
        rule.name,
        remark.origin,
        remark.message,
        in_metric(way_out) if metric else way_out,
        remark.basis,
        remark.known,
        remark.circuit,
        remark.wires,
    )


def sentences() -> dict[str, str]:
    """Return every sentence that a rule can say, by its rule's name and its constant's, for a translator.

    The texts stand as they are written, with their holes in braces; ``RULES`` holds the pages.
    """
    return {
        f"{module.__name__.rpartition('.')[2]}.{name}": value
        for module in (*(module for module, _ in _MODULES), closed_walls, since_issued)
        for name, value in vars(module).items()
        if name.endswith(SENTENCE_ENDINGS) and isinstance(value, str)
    }


def rule_named(name: str) -> Rule | None:
    """Return the rule of a name, case and dashes aside; None when there is none."""
    wanted = " ".join(name.casefold().replace("-", " ").replace("_", " ").split())
    return next((rule for rule in RULES if rule.name == wanted), None)
