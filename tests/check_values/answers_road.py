"""Answers on road lamps and tow plugs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from asked import NotAnswered

from builder.electrics.braking import brake_current_a, breakaway_charge_ah
from builder.electrics.conductors import voltage_drop_v, wire_resistance_ohm
from builder.electrics.lamps_required import Measures, required_count, required_total
from builder.electrics.lamps_required import rows_for as lamp_rows
from builder.electrics.plug_states import circuit_current_a, estimated_a
from builder.tables.brakes import BREAKAWAY_HOLD, BrakeMagnet, brake_magnet
from builder.tables.bulbs import Bulb, bulb, bulb_current_a, bulb_power_w
from builder.tables.installation import chassis_return, minimum_size
from builder.tables.lamp_rules import LampRule, lamp_rules
from builder.tables.road_lamps import road_lamp_draw
from builder.tables.table import load_table
from builder.tables.tow_plugs import PlugContact, PlugPattern, plug_pattern

if TYPE_CHECKING:
    from answers import Answerer
    from asked import Asked

_RULES = {"FMVSS108": "FMVSS 108", "UNECE48": "UN R48"}
_LAMPS = {
    "FMVSS 108": {
        "backup_lamp": "reversing lamps",
        "clearance_front": "front clearance lamps",
        "clearance_rear": "rear clearance lamps",
        "high_mounted_stop_lamp": "high stop lamp",
        "identification_front": "front identification lamps",
        "identification_rear": "rear identification lamps",
        "license_plate_lamp": "plate lamp",
        "parking_lamp": "parking lamps",
        "rear_turn_signal": "rear turn lamps",
        "reflex_rear": "rear reflectors",
        "reflex_side_front": "front side reflectors",
        "reflex_side_intermediate": "middle side reflectors",
        "reflex_side_rear": "rear side reflectors",
        "side_marker_front": "front side markers",
        "side_marker_intermediate": "middle side markers",
        "side_marker_rear": "rear side markers",
        "stop_lamp": "stop lamps",
        "taillamp": "tail lamps",
    },
    "UN R48": {
        "end_outline": "rear clearance lamps",
        "front_position": "front position lamps",
        "rear_fog": "rear fog lamp",
        "rear_triangle_reflector": "rear triangle reflectors",
        "rear_turn_signal": "rear turn lamps",
        "reversing": "reversing lamps",
        "side_marker": "side markers",
        "stop_lamp": "stop lamps",
        "taillamp": "tail lamps",
    },
}
_CATEGORY_KG = {"O1": 750.0, "O2": 3500.0}
"""The heaviest of each category."""

_KINDS = {"lamp_functions_lit": "lamp", "reflex_reflectors": "reflector"}


def _rule(asked: Asked) -> str:
    return _RULES[asked.word("rule", *_RULES)]


def _lamp(asked: Asked, rule: str) -> str:
    return _LAMPS[rule][asked.word("lamp", *_LAMPS[rule])]


def _measures(asked: Asked) -> Measures:
    inch, pound = 0.0254, 0.45359237
    if asked.has("category"):
        mass = _CATEGORY_KG[asked.word("category", *_CATEGORY_KG)]
        return Measures(asked.number("width_m"), asked.number("length_m"), mass)
    if asked.has("body_width_in"):
        width = max(asked.number("body_width_in"), asked.number("width_over_rigid_fenders_in"))
    else:
        width = asked.number("width_in")
    mass = asked.number("gvwr_lb") * pound if asked.has("gvwr_lb") else None
    return Measures(width * inch, asked.number("length_ft") * 0.3048, mass)


def _count(asked: Asked) -> float:
    rule = _rule(asked)
    return required_count(rule, _lamp(asked, rule), _measures(asked))


def _total(asked: Asked) -> float:
    return required_total(_rule(asked), _KINDS[asked.word("what", *_KINDS)], _measures(asked))


def _row(asked: Asked) -> LampRule:
    rule = _rule(asked)
    lamp = _lamp(asked, rule)
    if asked.has("width_in"):
        measures = Measures(asked.number("width_in") * 0.0254, None, None)
        return next(row for row, _ in lamp_rows(rule, measures) if row.lamp == lamp)
    return next(row for row in lamp_rules(rule) if row.lamp == lamp and row.count)


def _identification(asked: Asked) -> LampRule:
    asked.word("between", "lamp_centres")
    return next(row for row in lamp_rules(_rule(asked)) if row.most_apart_m is not None)


def _mm(metres: float | None) -> float:
    if metres is None:
        raise NotAnswered("the rule has no such limit")
    return metres * 1000.0


_PLUGS = {
    "SAE_J1239_4way": "4-way flat",
    "US_7way_blade": "7-way blade",
    "US_7way_blade_SAE_colours": "7-way blade",
    "US_7way_blade_RV_trade_colours": "7-way blade",
    "ISO_1724_12N": "7-pin 12N",
    "ISO_11446_13pin": "13-pin",
    "AU_7pin": "7-pin Australian",
}
_TOKENS = {
    ("7-pin 12N", "fog"): "rear_fog_or_54g",
    ("7-pin Australian", "tail"): "tail_clearance_side_marker",
    ("7-way blade", "reverse"): "reverse_or_auxiliary",
    ("4-way flat", "tail"): "tail_and_license",
}
_PLAIN_TOKENS = {
    "fog": "rear_fog",
    "brake": "electric_brake",
    "battery": "battery_permanent",
    "switched supply": "battery_ignition_switched",
    "left tail": "left_position_and_plate",
    "right tail": "right_position_and_plate",
    "left stop": "left_stop_turn",
    "right stop": "right_stop_turn",
}


def _pattern(asked: Asked) -> PlugPattern:
    return plug_pattern(_PLUGS[asked.word("connector", *_PLUGS)])


def _contact(asked: Asked) -> PlugContact:
    return _pattern(asked).contact(int(asked.text("contact")))


def _token(pattern: PlugPattern, contact: PlugContact) -> str:
    if contact.is_ground:
        return (
            contact.label.replace("earth", "ground").replace(" ", "_")
            if " for " in contact.label
            else "ground"
        )
    first = contact.functions[0]
    return _TOKENS.get((pattern.name, first)) or _PLAIN_TOKENS.get(first) or first.replace(" ", "_")


def _function(asked: Asked) -> str:
    pattern = _pattern(asked)
    return _token(pattern, pattern.contact(int(asked.text("contact"))))


def _colour(asked: Asked) -> str:
    habit = asked.text("connector").endswith("RV_trade_colours")
    pattern = _pattern(asked)
    token = asked.text("function")
    contacts = [contact for contact in pattern.contacts if _token(pattern, contact) == token]
    if asked.has("contact"):
        contacts = [contact for contact in pattern.contacts if contact.number == int(asked.text("contact"))]
    if len(contacts) != 1 or token not in (_token(pattern, contacts[0]), contacts[0].functions[0]):
        raise NotAnswered(f"no contact of the {pattern.name} is {token}")
    contact = contacts[0]
    if habit:
        return contact.other_base
    return f"{contact.base}/{contact.tracer}" if contact.tracer else contact.base


_STANDARD_AREAS = {"16": 1.0, "18": 0.8}
"""SAE J1239 as tabulated: 16 AWG beside 1 mm², 18 AWG beside 0.8 mm²."""


def _area(asked: Asked) -> float:
    contact = _contact(asked)
    return _STANDARD_AREAS[contact.size] if contact.size_unit == "AWG" else float(contact.size)


def _gauge(asked: Asked) -> float:
    contact = _contact(asked)
    if contact.size_unit != "AWG":
        raise NotAnswered("the contact's wire has no gauge")
    return float(contact.size)


def _return_contact(asked: Asked) -> float:
    back = _contact(asked).return_contact
    if back is None:
        raise NotAnswered("a ground has no return")
    return back


_CIRCUITS = {"battery_permanent": "battery", "electric_brake": "brake", "reverse": "reverse"}


def _has_circuit(asked: Asked) -> bool:
    function = _CIRCUITS[asked.word("function", *_CIRCUITS)]
    return _pattern(asked).contact_for(function) is not None


def _bulb(asked: Asked) -> Bulb:
    return bulb(asked.text("bulb"), asked.word("filament", "major", "minor", "single"))


def _bulb_current(asked: Asked) -> float:
    one = _bulb(asked)
    if one.amps is None or asked.number("design_V") != one.volts:
        raise NotAnswered(f"the list has no current of {one.name} at that voltage")
    return one.amps


def _at_test_voltage(asked: Asked) -> Bulb:
    one = _bulb(asked)
    if asked.number("at_V") != one.volts:
        raise NotAnswered(f"the sheet of {one.name} has another test voltage")
    return one


def _power_max(asked: Asked) -> float:
    one = _at_test_voltage(asked)
    if one.watts is None:
        raise NotAnswered(f"the list has no greatest power of {one.name}")
    return one.watts


def _bulb_power(asked: Asked) -> float:
    at = asked.word("at", "design_voltage", "12.8V")
    one = _bulb(asked)
    if at == "12.8V" and one.volts != 12.8:
        raise NotAnswered(f"{one.name} is stated at another voltage")
    return bulb_power_w(one)


_ESTIMATED = {"stop_turn_lamp": "stop", "taillamp": "tail", "clearance_or_marker_lamp": "marker"}


def _estimating(asked: Asked) -> float:
    asked.word("technology", "filament")
    return road_lamp_draw(_ESTIMATED[asked.word("lamp", *_ESTIMATED)], "filament").usual_a


def _estimate(asked: Asked) -> float:
    asked.word("circuit", "tail")
    return estimated_a({"tail": asked.whole("taillamps"), "marker": asked.whole("clearance_or_marker_lamps")})


def _circuit_limit(asked: Asked) -> float:
    if asked.has("circuit"):
        asked.word("circuit", "running_lights")
        asked.word("connector", "SAE_J1239_4way")
        case = "4-way flat running lights"
    else:
        asked.word("connector", "4way")
        cars = {
            "combined_stop_turn_two_wire": "car with stop and turn on one wire",
            "separate_stop_turn_three_wire": "car with stop and turn apart",
        }
        case = cars[asked.word("tow_vehicle", *cars)]
    return load_table("plug_circuit_limits").find(case, case=case).number("most_a")


_LAMP_GROUPS = (
    ("taillamps", "tail_A"),
    ("marker_clearance_identification_lamps", "marker_A"),
    ("marker_lamps", "marker_A"),
    ("plate_lamps", "plate_A"),
    ("stop_turn_lamps", "stop_turn_A"),
)


def _lamps_a(asked: Asked) -> list[tuple[int, float]]:
    return [(asked.whole(count), asked.number(amps)) for count, amps in _LAMP_GROUPS if asked.has(count)]


def _tail_circuit(asked: Asked) -> float:
    return circuit_current_a(_lamps_a(asked))


def _ground(asked: Asked) -> float:
    pattern = _pattern(asked)
    number = int(asked.text("contact")) if asked.has("contact") and asked.text("contact").isdigit() else None
    asked.maybe("contact")
    fed: list[tuple[int, float]] = _lamps_a(asked)
    if asked.has("at_V"):
        volts = asked.number("at_V")
        fed += [
            (1, asked.number(f"{name}_W") / volts) for name in ("stop", "turn", "position", "plate", "fog")
        ]
    parts = {
        "lamp_total_A": "tail",
        "charge_A": "battery",
        "brake_A": "brake",
        "battery_permanent_A": "battery",
        "battery_switched_A": "switched supply",
    }
    for key, function in parts.items():
        if asked.has(key):
            amps = asked.number(key)
            contact = pattern.contact_for(function)
            if contact is None:
                raise NotAnswered(f"the {pattern.name} plug feeds no {function}")
            if number is None or contact.return_contact == number:
                fed.append((1, amps))
    return circuit_current_a(fed)


_DRUMS = {"7in": "7 in", "10in_12in": "10 in"}


def _magnet(asked: Asked) -> BrakeMagnet:
    return brake_magnet(_DRUMS[asked.word("drum", *_DRUMS)])


def _brakes(asked: Asked) -> float:
    asked.word("magnet", "least_resistance")
    return brake_current_a(_magnet(asked).drum, asked.whole("brakes"), asked.number("at_V"))


def _breakaway(asked: Asked) -> float:
    return breakaway_charge_ah(asked.whole("brakes"), asked.number("A_per_brake"), asked.number("minutes"))


def _hold(asked: Asked) -> float:
    asked.word("rule", "393.43")
    return BREAKAWAY_HOLD.value


def _charge_drop(asked: Asked) -> float:
    asked.word("return", "same_size_wire")
    ohm = wire_resistance_ohm(asked.number("ohm_per_m"), 2.0 * asked.number("one_way_m"))
    return voltage_drop_v(asked.number("current_A"), ohm)


def _bond(asked: Asked) -> float:
    asked.word("rule", "NEC552.10")
    return float(minimum_size("park trailer low voltage", "frame bond").size)


def _frame_return(asked: Asked) -> bool:
    asked.word("rule", "NEC552.10")
    return chassis_return("NEC 552.10").value > 0


ANSWERS: dict[str, dict[str, Answerer]] = {
    "brake_current_total": {"A": _brakes},
    "brake_magnet_resistance_min": {"ohm": lambda asked: _magnet(asked).ohm_low},
    "brake_magnet_resistance_max": {"ohm": lambda asked: _magnet(asked).ohm_high},
    "brake_current_typical": {"A": lambda asked: asked.whole("brakes") * _magnet(asked).typical_a},
    "breakaway_charge": {"Ah": _breakaway},
    "breakaway_hold_min": {"min": _hold},
    "charge_line_drop": {"V": _charge_drop},
    "battery_chassis_bond_min": {"AWG": _bond},
    "chassis_return_allowed": {"bool": _frame_return},
    "bulb_current": {"A": _bulb_current},
    "bulb_power": {"W": _bulb_power},
    "bulb_power_max": {"W": _power_max},
    "bulb_current_max": {"A": lambda asked: bulb_current_a(_at_test_voltage(asked))},
    "estimating_current": {"A": _estimating},
    "estimated_circuit_current": {"A": _estimate},
    "circuit_within_limit": {"bool": lambda asked: _estimate(asked) <= asked.number("limit_A")},
    "tail_circuit_current": {"A": _tail_circuit},
    "ground_current": {"A": _ground},
    "circuit_current_max": {"A": _circuit_limit},
    "required_count": {"count": _count},
    "required_min": {"count": _count},
    "required_flag": {"bool": lambda asked: _count(asked) > 0},
    "required_total": {"count": _total},
    "lamp_colour": {"colour": lambda asked: "|".join(_row(asked).colors)},
    "mount_height_min": {"mm": lambda asked: _mm(_row(asked).lowest_m)},
    "mount_height_max": {"mm": lambda asked: _mm(_row(asked).highest_m)},
    "identification_spacing_min": {"mm": lambda asked: _mm(_identification(asked).apart_m)},
    "identification_spacing_max": {"mm": lambda asked: _mm(_identification(asked).most_apart_m)},
    "pin_function": {"token": _function},
    "wire_colour": {"colour": _colour},
    "wire_area_recommended": {"mm2": _area},
    "wire_gauge": {"AWG": _gauge},
    "return_contact": {"contact": _return_contact},
    "terminal_designation": {"token": lambda asked: _contact(asked).label},
    "has_circuit": {"bool": _has_circuit},
    "centre_contact_is_ground": {"bool": lambda asked: _pattern(asked).contact(7).is_ground},
}

_OF = "builder.electrics.lamps_required."

CLASS_A = {
    "required_count": (_OF + "rows_for",),
    "required_min": (_OF + "rows_for",),
    "required_flag": (_OF + "rows_for",),
    "required_total": (_OF + "rows_for",),
    "brake_current_total": ("builder.electrics.braking.brake_current_a",),
    "breakaway_charge": ("builder.electrics.braking.breakaway_charge_ah",),
    "charge_line_drop": ("builder.electrics.conductors.voltage_drop_v",),
    "bulb_power": ("builder.tables.bulbs.bulb_power_w",),
    "bulb_current_max": ("builder.tables.bulbs.bulb_current_a",),
    "estimated_circuit_current": ("builder.electrics.plug_states.estimated_a",),
    "circuit_within_limit": ("builder.electrics.plug_states.estimated_a",),
    "tail_circuit_current": ("builder.electrics.plug_states.circuit_current_a",),
    "ground_current": ("builder.electrics.plug_states.circuit_current_a",),
}
