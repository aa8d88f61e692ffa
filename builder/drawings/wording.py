"""The words on the drawings, in one place, so that another language is one more set of them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Words:
    """Every text that a drawing shows or says; ``{}`` stands for a name or a number.

    The texts themselves stand in the theme. Those that begin with ``engine_`` say why nothing is drawn.
    """

    title: str
    strip: str
    way: str
    box: str
    supply_bar: str
    ground_bar: str
    strip_terminal: str
    battery: str
    frame: str
    contact: str
    between: str
    coil: str
    relay_contact: str
    common: str
    pairs: str
    connector_way: str
    feed: str
    back: str
    own_switch: str
    outputs: str
    gives: str
    waiting: str
    elsewhere: str
    also: str
    also_one: str
    shared: str
    takes: str
    works_in: str
    fed_by: str
    above: str
    below: str
    plus: str
    in_: str
    out: str
    in_plus: str
    in_minus: str
    out_plus: str
    on_pin: str
    no_wire: str
    minus: str
    out_minus: str
    through: str
    more: str
    by_wire: str
    sentence: str
    no_end: str
    no_code: str
    unknown: str
    too_wide: str
    spare: str
    overview: str
    face_title: str
    face_bars: str
    face_ways: str
    face_spare: str
    face_strip: str
    face_block: str
    face_strip_name: str
    face_scaled: str
    face_scale: str
    face_nameless: str
    plug_title: str
    plug_free: str
    plug_joint: str
    for_tail: str
    for_marker: str
    for_plate: str
    for_left_tail: str
    for_right_tail: str
    for_left_stop: str
    for_left_turn: str
    for_right_stop: str
    for_right_turn: str
    for_stop: str
    for_turn: str
    for_reverse: str
    for_fog: str
    for_brake: str
    for_battery: str
    for_switched_supply: str
    for_ground: str
    for_reserved: str
    for_clearance: str
    for_identification: str
    for_front_position: str
    rear_view: str
    side_view: str
    front_view: str
    above_road: str
    with_reflector: str
    panel_title: str
    upper_edge: str
    lower_edge: str
    front_edge: str
    rear_edge: str
    left_edge: str
    right_edge: str
    plan_above: str
    plan_above_how: str
    plan_along_how: str
    plan_left: str
    plan_left_how: str
    plan_right: str
    plan_right_how: str
    plan_rear: str
    plan_rear_how: str
    plan_front: str
    plan_front_how: str
    plan_no_body: str
    plan_scale: str
    plan_list: str
    plan_signs: str
    plan_wires: str
    plan_spare: str
    plan_way: str
    plan_groove: str
    plan_channel: str
    plan_conduit: str
    plan_bay: str
    plan_hinge: str
    plan_empty: str
    plan_mains: str
    plan_string: str
    plan_plug: str
    plan_part: str
    plan_place: str
    plan_towards: str
    plan_opening: str
    plan_edge: str
    plan_openings: str
    plan_frame: str
    plan_panel: str
    plan_block: str
    frame_cut: str
    frame_cut_level: str
    plan_blocks: str
    plan_screw: str
    plan_no_screw: str
    plan_side: str
    section: str
    section_bore: str
    section_left: str
    engine_missing: str
    engine_slow: str
    engine_not_started: str
    engine_failed: str
    engine_unreadable: str
    engine_left_out: str

    def functions(self, names: Iterable[str]) -> str:
        """Return what a contact of the tow plug is for, by the words of its functions."""
        return ", ".join(str(getattr(self, f"for_{name.replace(' ', '_')}")) for name in names)

    def edge(self, name: str) -> str:
        """Return what an edge of a panel is called, by its name in the record; empty where it has none."""
        return str(getattr(self, name.replace(" ", "_"))) if name else ""

    def why_not(self, problem: str, detail: str) -> str:
        """Return the sentence for a problem of the layout engine, by its word in ``Laid``."""
        return str(getattr(self, "engine_" + problem.replace(" ", "_"))).format(detail)
