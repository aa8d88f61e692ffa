"""The figures that each kind of page must show: paths of the record, with unit, readers and condition."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from string import ascii_uppercase
from typing import Any

import pytest
from published import LISTS, Site, step

from builder.pages.rounding import (
    Reader,
    length,
    meter_volts,
    rating,
    rest,
    sheet_ohms,
    sheet_volts,
    shown,
    temperature,
)
from builder.quantities import show_mass

Entry = Mapping[str, Any]
BOTH = ("owner", "workshop")
COUNTED = (
    "terminals",
    "splices",
    "connectors",
    "bridges",
    "grommets",
    "supports",
    "plates",
    "blocks",
    "fuses",
    "bulbs",
    "reflectors",
    "labels",
)
WORKSHOP = ("workshop",)
CAR_STATES = ("lights", "brake_and_left_turn", "everything")


@dataclass(frozen=True)
class Here:
    """Where a figure would stand: the record, the page's circuit (empty on other pages), what holds the value."""

    record: Entry
    page: Entry
    chain: tuple[Entry, ...]
    edition: str = "workshop"

    @property
    def top(self) -> Entry:
        """The entry of the record's own list, such as one wire."""
        return self.chain[0]

    @property
    def last(self) -> Entry:
        """The entry that holds the value."""
        return self.chain[-1]


def always(_here: Here) -> bool:
    return True


def enough_wires(here: Here) -> bool:
    return bool(here.last["count"] >= here.last["enough_wires"])


def stands_off(here: Here) -> bool:
    """Only where a part stands off its chase, or the plug's cable hangs free."""
    return bool(here.last["more_than_tail"])


def one_of_several(here: Here) -> bool:
    """Only where the supports of a chase are of several sizes."""
    return len(here.chain[-2]["loops"]) > 1


def a_bought_channel(here: Here) -> bool:
    """A channel whose width inside is known: the shopping list tells its length."""
    items = here.record["shopping"]
    return any(
        here.top["name"] in item["names"]
        for item in items
        if item["kind"] == "channel" and "wide_length_m" in item
    )


def another_fuse(here: Here) -> bool:
    """A circuit that is there today, whose fuse would be another one."""
    return bool(here.last["today_fuse_a"] != here.last.get("fuse_a"))


def loads_the_main_fuse(here: Here) -> bool:
    return bool(here.last["load_a"] != here.last["today_load_a"])


def needs_another_main_fuse(here: Here) -> bool:
    return loads_the_main_fuse(here) and bool(here.last["today_rating_a"] != here.last["rating_a"])


def several_nights(key: str, place: int) -> Callable[[Here], bool]:
    """Nights that an option changes, where they are more than one."""
    return lambda here: here.last["nights"] != here.last["today_nights"] and here.last[key][place] >= 1


def another_fuse_built(here: Here) -> bool:
    """A circuit whose fuse was built otherwise than planned."""
    return bool(here.last.get("fuse_a") != here.last.get("planned_fuse_a"))


def reads_otherwise(here: Here) -> bool:
    """A circuit of which an owner sees another figure as built than as planned."""
    reader = Reader.OWNER
    words = ("current_a", "drop_v")
    return any(
        shown(here.last[word], reader) != shown(here.last[f"planned_{word}"], reader) for word in words
    )


def wire_of_this_circuit(here: Here) -> bool:
    """A wire whose number begins with the number of the page's circuit."""
    return bool(here.top["number"].rstrip(ascii_uppercase) == str(here.page["number"]))


def too_few_wires(here: Here) -> bool:
    return not enough_wires(here)


def longer_wires(here: Here) -> bool:
    return enough_wires(here) and here.last["median_percent"] > 0


def in_the_box(here: Here) -> bool:
    return bool(here.top["in_box"])


def is_cut(here: Here) -> bool:
    return bool(here.top["pieces"])


def is_cut_or_told_of(here: Here) -> bool:
    return is_cut(here) or "uncut" in here.top


def this_circuit(here: Here) -> bool:
    return bool(here.top.get("circuit", here.top.get("number")) == here.page["number"])


def _own_fuse(here: Here, circuit: Entry) -> bool:
    return circuit.get("fuse") == here.top["name"]


def page_fuse(here: Here) -> bool:
    return _own_fuse(here, here.page)


def fuse_of_a_circuit(here: Here) -> bool:
    return any(_own_fuse(here, circuit) for circuit in here.record["circuits"])


def reason(word: str, holds: Callable[[Here], bool]) -> Callable[[Here], bool]:
    return lambda here: holds(here) and here.top["reason"] == word


def load_given(holds: Callable[[Here], bool]) -> Callable[[Here], bool]:
    words = ("load", "start", "smallest", "given")
    return lambda here: holds(here) and here.top["reason"] in words


def rated(here: Here) -> bool:
    return "rating_a" in here.top


def page_fuse_or_part(here: Here) -> bool:
    """The circuit's own fuse, and every fuse along its path that is not in the front box."""
    return rated(here) and (page_fuse(here) or ("way" not in here.top and this_circuit(here)))


def size_by_drop(here: Here) -> bool:
    return bool(here.top["size"]["reason"] == "drop")


def not_idle(here: Here) -> bool:
    return here.last.get("what") != "idle"


def twelve_volts(here: Here) -> bool:
    nominal = {supply["name"]: supply["nominal_v"] for supply in here.record["supplies"]}
    return not_idle(here) and bool(nominal[here.last["supply"]] == 12.0)


def taken(here: Here) -> bool:
    """A part's own load; what is left over is the idle draw and the single functions of a part."""
    return here.top["kind"] == "tow" or here.last.get("what", "") in ("", "coil", "own draw", "input")


def charged(here: Here) -> bool:
    """The place of a circuit's loads that is a battery it charges."""
    return here.last.get("what", "").startswith("charged from ")


def charges_nothing(here: Here) -> bool:
    return not any(load.get("what", "").startswith("charged from ") for load in here.top["loads"])


def both(*conditions: Callable[[Here], bool]) -> Callable[[Here], bool]:
    return lambda here: all(holds(here) for holds in conditions)


def pencil_used(here: Here) -> bool:
    return here.last["current_a"] > 0 and here.last["length"] > 0


def contact_used(here: Here) -> bool:
    return "circuit" in here.top


def something_used(here: Here) -> bool:
    return bool(here.top["day_ah"][0] > 0)


def a_night(here: Here) -> bool:
    """What lasts less than one night is told in words."""
    return bool(something_used(here) and here.top["nights"][0] >= 1)


def some_nights(here: Here) -> bool:
    return bool(something_used(here) and here.top["nights"][1] >= 1)


def of_section(*names: str) -> Callable[[Here], bool]:
    return lambda here: here.top["section"] in names


def bought(here: Here) -> bool:
    return here.top["section"] != "open ends"


def kind_of_test(*kinds: str) -> Callable[[Here], bool]:
    return lambda here: here.top["kind"] in kinds


def some(key: str) -> Callable[[Here], bool]:
    return lambda here: bool(here.last[key] > 0)


def on_a_line_from_the_car(here: Here) -> bool:
    """A fuse of a circuit that starts at the tow plug and is no road lamp's."""
    kinds = {circuit["number"]: circuit["kind"] for circuit in here.record["circuits"]}
    from_plug = {wire["circuit"] for wire in here.record["wires"] if wire["from"]["part"] == "tow plug"}
    number = here.top["circuit"]
    return number in from_plug and kinds[number] == "from"


def feeds_lamps(here: Here) -> bool:
    """A contact of the tow plug that road lamps hang on: the trade has an estimate for it."""
    return "estimate_a" in here.top


def feeds_leds(here: Here) -> bool:
    """A circuit of the tow plug with LED lamps alone: bulbs are resistive."""
    laws = [load.get("law") for load in here.top["loads"]]
    return here.top["kind"] == "tow" and bool(laws) and "resistive" not in laws


def concerns(here: Here) -> bool:
    """An owner reads of fuses and switches only where the trailer has them."""
    at_a_switch = here.top["id"] == "drop allowed at a switch"
    if here.edition == "workshop" or not (at_a_switch or here.top["id"] in ("fuse loading", "smallest fuse")):
        return True
    return bool(here.record["fuses"] or (at_a_switch and here.record["switches"]))


def isolated(here: Here) -> bool:
    """An isolating switch in the battery's own line, by its name."""
    line = {circuit["number"] for circuit in here.record["circuits"] if circuit["kind"] == "battery"}
    ends = [wire["to"]["part"] for wire in here.record["wires"] if wire["circuit"] in line]
    return any(part.endswith("isolating switch") for part in ends)


def filled(here: Here) -> bool:
    """The diameters of all wires in the stretch are known."""
    return "fill_percent" in here.last


def parted(here: Here) -> bool:
    """Bays of a wall with frames tell from where to where they reach."""
    return not {"from_frame", "to_frame"}.isdisjoint(here.top)


def screws_may_go_in(here: Here) -> bool:
    """Not at a hinge, and not where it comes to the outside: there no screw goes in at all."""
    chase = next(one for one in here.record["chases"] if one["name"] == here.last["chase"])
    return chase["kind"] != "hinge loop" and here.last["depth_length_m"] > 0.003


def holds_a_wire(here: Here) -> bool:
    return any(one["wires"] for one in here.record["ways"] if one["chase"] == here.top["name"])


def cut_here(here: Here) -> bool:
    """Stretches with the same wires, one after the other, are cut across once: at the first of them."""
    stretches = here.top["stretches"]
    place = next(n for n, one in enumerate(stretches) if one is here.last)
    before = set(stretches[place - 1]["wires"]) if place else None
    return set(here.last["wires"]) != before


def goes_in_where_it_is_cut(here: Here) -> bool:
    """Wires of this size still go in, and the stretch is the first of those that are cut across as one."""
    chase, stretch, size = here.chain
    return (
        size["more_wires"] > 0
        and bool(stretch["wires"])
        and cut_here(Here(here.record, here.page, (chase, stretch)))
    )


def a_conduit_or_bent(here: Here) -> bool:
    """A conduit, or a chase whose own radius the file has."""
    kinds = {chase["name"]: chase["kind"] for chase in here.record["chases"]}
    return kinds[here.top["name"]] == "conduit" or "bend_radius_length_m" in here.top


def bent_and_open(here: Here) -> bool:
    """A conduit that turns both in its pieces and where it is open."""
    return bool(here.top.get("open_deg") and here.top.get("bent_deg"))


def leads_to_a_box_that_nobody_placed(here: Here) -> bool:
    """The first core of the plug's cable, where no word of the file tells where it ends."""
    boxes = [one for one in here.record["boxes"] if one["name"] == "front box"]
    if any("where" in one for one in boxes):
        return False
    cores = [
        wire
        for wire in here.record["wires"]
        if {wire["from"]["part"], wire["to"]["part"]} == {"tow plug", "front box"}
    ]
    return bool(cores) and cores[0] is here.last


def no_front_box(here: Here) -> bool:
    """The file has no front box: its place is where the plug's cable ends."""
    return not here.record["fuses"]


def no_hinge(here: Here) -> bool:
    """What passes a hinge is laid in later."""
    return bool(here.top["kind"] != "hinge loop")


def on_a_chase(here: Here) -> bool:
    """A place that a chase goes through."""
    return any(
        here.top["name"] in (stretch["from"], stretch["to"])
        for chase in here.record["chases"]
        for stretch in chase["stretches"]
    )


def passes_a_frame(here: Here) -> bool:
    return "frames" in here.top


def _frame(here: Here) -> Entry:
    return next(one for one in reversed(here.chain) if "frame" in one)


def in_an_upright_frame(here: Here) -> bool:
    return "back_length_m" in _frame(here)


def in_a_level_frame(here: Here) -> bool:
    return "up_length_m" in _frame(here)


def heads_a_sheet(here: Here) -> bool:
    """The first hole in the order of the record of all that are in one frame."""

    def place(one: Entry) -> tuple[object, ...]:
        return one["frame"], one.get("back_length_m"), one.get("up_length_m")

    holes = [one for chase in here.record["laid"] for one in chase.get("frames", ())]
    return next(one for one in holes if place(one) == place(_frame(here))) is _frame(here)


def first_of_its_size_and_bundle(here: Here) -> bool:
    """The first wire of its size with as many beside it: wires alike are told of together."""
    alike = [
        wire
        for wire in here.record["wires"]
        if (wire["size"], wire["bundle"]) == (here.top["size"], here.top["bundle"]) and wire["length_m"] > 0
    ]
    return bool(alike) and alike[0] is here.top


def run_beside_a_length(here: Here) -> bool:
    """The wire has a run, and a length that does not come from it."""
    return "run" in here.top and here.top.get("length_source") != "worked out"


def unreached(here: Here) -> bool:
    """No fastener reaches the wires of this stretch: then what is left is told."""
    return not here.last["reached"]


def goes_out(here: Here) -> bool:
    return "round_hole_length_m" in here.last


def on_a_way(here: Here) -> bool:
    """The places of all ways, and those round which wires lie off them, from every edge that they are not at."""
    told = [place for way in here.record["ways"] for place in way["places"]]
    told += [one["place"] for one in here.record.get("loose", [])]
    return here.last["side"] != "at" and here.top["name"] in told


def this_panel(here: Here) -> bool:
    """It belongs to the panel of the page."""
    return here.top["name"] == here.page.get("name")


def wires_behind(here: Here) -> bool:
    """Wires are recorded behind the panel of the page."""
    return bool(here.page.get("behind"))


def tape_counts(here: Here) -> bool:
    """Wires are recorded behind the panel of the page, or it is told how far its screws may go, or its own may."""
    own = "held_by" in here.page and (not here.page["whole"] or here.page.get("screw_length_m") == 0)
    return wires_behind(here) or bool(here.page.get("screw_length_m")) or own


def unlike(key: str) -> Callable[[Here], bool]:
    """The two ends of a range differ as they are printed; else one of them is told."""

    def differ(here: Here) -> bool:
        ends = (here.last[key][0], here.last[key][-1])
        return len({shown(end, Reader(here.edition)) for end in ends}) > 1

    return differ


def takes_most(here: Here) -> bool:
    """One of the five parts that take most in a day, those that are on day and night among them."""
    days = [day for day in here.top["day"] if day["use_ah"][1] > 0]
    days.sort(key=lambda day: -day["use_ah"][1])
    return here.last in days[:5]


def usable_share(here: Here) -> bool:
    return here.top["id"].startswith("usable share of") and here.record["energy"]["day_ah"][0] > 0


def of_the_sun(here: Here) -> bool:
    return "sun_day_ah" in here.last


def not_of_the_sun(here: Here) -> bool:
    return not of_the_sun(here)


def the_sun_charges(here: Here) -> bool:
    return any("sun_day_ah" in way for way in here.top["charging"])


def drained(here: Here) -> bool:
    return bool(here.top["drains"])


def main_or_taken_out(here: Here) -> bool:
    """The fuse of the battery's line, and those that end what still takes from the battery."""
    record, name = here.record, here.top["name"]
    main = {circuit.get("fuse") for circuit in record["circuits"] if circuit["kind"] == "battery"}
    return "rating_a" in here.top and (name in main or name in _taken_out(record))


def _taken_out(record: Entry) -> set[str]:
    wires = {wire["number"]: wire for wire in record["wires"]}
    fuses = {fuse["name"] for fuse in record["fuses"]}
    found = set()
    for drain in record["energy"]["drains"]:
        if not drain["stays"]:
            continue
        (circuit,) = (one for one in record["circuits"] if one["number"] == drain["circuit"])
        mine = [load for load in circuit["loads"] if load["part"] == drain["part"]]
        # a converter takes from the battery by its input, a charger by what it takes at night
        steps = [load["steps"] for load in mine if load["supply"] == "battery"]
        feeds = [wires[s["wire"]] for s in steps[0] if wires[s["wire"]]["role"] == "feed"]
        passed = [wire["from"] for wire in feeds]
        names = [end["part"] if end["part"] in fuses else end["terminal"] for end in passed]
        nearest = [name for name in names if name in fuses][-1:]
        # a charger hangs on the fuse towards the battery
        found |= (
            set(nearest)
            or {
                wire["from"]["part"]
                for wire in wires.values()
                if wire["circuit"] == drain["circuit"] and wire["to"]["part"] in ("battery", "front box")
            }
            & fuses
        )
    return found


def percent_full(*percents: float) -> Callable[[Here], bool]:
    return lambda here: here.last["percent"] in percents


def has_room(here: Here) -> bool:
    """Some circuit has a figure of what is left on it; then the page says by which shares."""
    return bool(here.record["headroom"])


def has_box(here: Here) -> bool:
    """A front box: its ways, screws or spare wires are told only with it."""
    return any(box["name"] == "front box" for box in here.record["boxes"])


def _from_car(here: Here, circuit: object) -> bool:
    """A circuit that starts at the tow plug and feeds no road lamp."""
    kinds = {one["number"]: one["kind"] for one in here.record["circuits"]}
    starts = {wire["circuit"] for wire in here.record["wires"] if wire["from"]["part"] == "tow plug"}
    return kinds[circuit] == "from" and circuit in starts


def charged_by_car(here: Here) -> bool:
    return charged(here) and _from_car(here, here.top["number"])


def feeds_a_charger(here: Here) -> bool:
    """A contact of the tow plug that a circuit with a charger starts at."""
    charging = {
        circuit["number"]
        for circuit in here.record["circuits"]
        if circuit["kind"] == "from" and "input" in [load.get("what") for load in circuit["loads"]]
        if any(load.get("what", "").startswith("charged") for load in circuit["loads"])
    }
    return str(here.top["contact"]) in {
        wire["from"]["terminal"]
        for wire in here.record["wires"]
        if wire["circuit"] in charging and wire["from"]["part"] == "tow plug"
    }


def lost_most_on_the_car_line(here: Here) -> bool:
    """The largest drop on the wires up to the load that the car feeds: a charger's input, not what it charges."""
    if not _from_car(here, here.top["number"]):
        return False
    behind_charger = "input" in [load.get("what") for load in here.top["loads"]]
    fed = [load for load in here.top["loads"] if not behind_charger or load.get("what") == "input"]
    return bool(here.last is max(fed, key=lambda load: load["drop_v"]))


def fuse_on_the_car_line(here: Here) -> bool:
    return rated(here) and _from_car(here, here.top["circuit"])


@dataclass(frozen=True)
class Shows:
    """One kind of figure: a path with a star for each entry, its unit (``*`` is the assumption's own)."""

    path: str
    unit: str
    only: Callable[[Here], bool] = always
    readers: tuple[str, ...] = BOTH


def _sizing(here: Callable[[Here], bool], fuse: Callable[[Here], bool]) -> tuple[Shows, ...]:
    """What the sentences on size, fuse and drop show."""
    return (
        Shows("circuits/*/size/next_smaller_drop_v", "V", both(here, size_by_drop)),
        Shows("circuits/*/size/aim_v", "V", both(here, size_by_drop)),
        Shows("fuses/*/load_a", "A", load_given(fuse)),
        Shows("fuses/*/needed_a", "A", reason("load", fuse)),
        Shows("fuses/*/starting_a", "A", reason("start", fuse)),
        Shows("fuses/*/ceiling_a", "A", fuse),
        Shows("circuits/*/loads/*/drop_v", "V", both(here, not_idle)),
    )


def this_guide(here: Here) -> bool:
    return any(here.top["id"] == guide["id"] for guide in _guides(here))


def _guides(here: Here) -> list[Entry]:
    """The guides of the page: those of its circuit, or of a page of no circuit those of its group."""
    return guides_of_page(here.record, here.page)


def guides_of_page(record: Entry, page: Entry) -> list[Entry]:
    """Return the guides of a page: ``page`` is its circuit, or names its group under ``shared``."""
    mine = [guide for guide in record["guide"] if guide.get("circuit") == page.get("number")]
    if "shared" not in page:
        return mine
    groups = {"dead-all": "all", "dim-all": "all", "wrong": "wrong"}
    return [guide for guide in mine if groups.get(guide["id"], "together") == page["shared"]]


def _named_alone(guide: Entry) -> list[Entry]:
    """The suspects that a leaf names alone: only there the spare is told, and after a short none is bought."""
    found = [leaf["suspects"] for leaf in guide["leaves"] if guide["symptom"] != "fuse"]
    return [suspects[0] for suspects in found if len(suspects) == 1]


def _accused(here: Here) -> list[Entry]:
    return [suspect for guide in _guides(here) for suspect in _named_alone(guide)]


def guide_names_fuse(here: Here) -> bool:
    """The circuit's own fuse, and those that a step looks at or a leaf accuses."""
    looked = {
        step.get("fuse")
        for guide in _guides(here)
        for step in guide.get("steps", ())
        if step["kind"] == "fuse"
    }
    accused = {one.get("terminal") or one.get("part") for one in _accused(here) if one["cause"] == "fuse"}
    return rated(here) and (page_fuse(here) or here.top["name"] in looked | accused)


def first_at_the_socket(here: Here) -> bool:
    """The first step of all guides that reads a lamp's contact at the car's socket."""
    pin = here.last.get("red", {}).get("terminal")
    steps = [step for guide in here.record["guide"] for step in guide.get("steps", ())]
    read = [step for step in steps if step.get("red", {}).get("beyond") == "socket" and "least_v" in step]
    first = next((step for step in read if step["red"]["terminal"] == pin), None)
    lit = {str(state["contact"]) for state in here.record["plug_states"] if "estimate_a" in state}
    return first is here.last and pin in lit


def guide_accuses_switch(here: Here) -> bool:
    return any(one["cause"] == "switch" and one["part"] == here.top["name"] for one in _accused(here))


def guide_accuses_load(here: Here) -> bool:
    """A load that a leaf accuses, on the circuit of the guide or on one of its things'."""
    load = here.last.get("part"), here.last.get("what", "")
    for guide in _guides(here):
        mine = any(thing["circuit"] == here.top["number"] for thing in guide["things"])
        accused = [one for one in _named_alone(guide) if one["cause"] == "load"]
        if mine and any((one["part"], one.get("terminal", "")) == load for one in accused):
            return True
    return False


def carries_most(here: Here) -> bool:
    """Of the parts with contacts in them the six that carry most, all their ways together: no load, no supply, no box.

    Of what comes in: feeds, or returns where these are more; one of two travellers; no coil.
    """
    lamps = {load["part"] for c in here.record["circuits"] if c["kind"] == "tow" for load in c["loads"]}
    others = {"battery", "front box", "frame", "tow plug", *lamps}
    sums: dict[str, dict[str, float]] = {}
    for wire in here.record["wires"]:
        end = wire["to"]
        if end["part"] in others or end["terminal"] in ("+", "−") or end["terminal"].startswith("coil"):
            continue
        one = sums.setdefault(end["part"], {})
        if wire["role"] == "traveller":
            one["feed"] = one.get("feed", 0.0) + wire["current_a"] / 2
        else:
            one[wire["role"]] = one.get(wire["role"], 0.0) + wire["current_a"]
    most = {part: max(one.get("feed", 0.0), one.get("return", 0.0)) for part, one in sums.items()}
    ranked = sorted((part for part in most if most[part] > 0), key=lambda part: (-most[part], part))[:6]
    return here.top["part"] in ranked and here.top["current_a"] == pytest.approx(most[here.top["part"]])


def fullest_contact(here: Here) -> bool:
    """The contact of the tow plug that carries most with everything on: the first of them, if several do."""
    most = max(one["everything_a"] for one in here.record["plug_states"])
    return here.top == next(one for one in here.record["plug_states"] if one["everything_a"] == most)


def enough_left(here: Here) -> bool:
    """Less than a watt is told as nothing."""
    return float(here.top["left_w"]) >= 1


def _steps(here: Callable[[Here], bool]) -> tuple[Shows, ...]:
    """What the steps of a guide show: the limits they hold a reading against."""
    return (
        Shows("guide/*/steps/*/least_v", "V", here),
        Shows("guide/*/steps/*/most_v", "V", here),
        Shows("guide/*/steps/*/load_a", "A", here),
    )


PAGES: Mapping[str, tuple[Shows, ...]] = {
    "index": (
        Shows("energy/nights/0", "", a_night),
        Shows("energy/nights/1", "", some_nights),
        Shows("energy/weeks_to_half_off/*", "", isolated),
    ),
    "stops": (
        Shows("carried/*/current_a", "A", carries_most),
        Shows("plug_states/*/everything_a", "A", fullest_contact),
    ),
    "shared": (
        *_steps(this_guide),
        Shows("fuses/*/rating_a", "A", guide_names_fuse),
    ),
    "guide": (
        *_steps(this_guide),
        Shows("fuses/*/rating_a", "A", guide_names_fuse),
        Shows("switches/*/least_rating_a", "A", guide_accuses_switch),
        Shows("circuits/*/loads/*/current_a", "A", guide_accuses_load),
    ),
    "odd-lamps": (Shows("circuits/*/load_current_a", "A", feeds_leds),),
    "car-or-trailer": (
        Shows("plug_states/*/everything_a", "A", feeds_lamps),
        Shows("guide/*/steps/*/least_v", "V", first_at_the_socket),
    ),
    "garage": (
        Shows("build/gross_mass_kg", "kg"),
        Shows("fuses/*/rating_a", "A", on_a_line_from_the_car),
        Shows("plug_states/*/lights_a", "A"),
        Shows("plug_states/*/brake_and_left_turn_a", "A"),
        Shows("plug_states/*/everything_a", "A"),
        *(Shows(f"plug_grounds/*/{state}_a", "A") for state in CAR_STATES),
        *(Shows(f"plug_grounds/*/{state}_v", "V", some("bears_a")) for state in CAR_STATES),
        Shows("plug_grounds/*/bears_a", "A", some("bears_a")),
        Shows("plug_grounds/*/largest_fuse_a", "A", some("largest_fuse_a")),
        Shows("plug_feeds/*/largest_fuse_a", "A"),
        Shows("circuits/*/loads/*/drop_v", "V", lost_most_on_the_car_line),
        Shows("circuits/*/loads/*/current_a", "A", charged_by_car),
    ),
    "lamps": (
        Shows("lamps_required/*/count", ""),
        Shows("lamps_required/*/missing", "", some("missing")),
        Shows("lamps_required/*/lowest_length_m", "length", some("lowest_length_m")),
        Shows("lamps_required/*/highest_length_m", "length", some("highest_length_m")),
        Shows("lamps_required/*/from_side_length_m", "length", some("from_side_length_m")),
        Shows("lamps_required/*/apart_length_m", "length", some("apart_length_m")),
        Shows("lamps_required/*/most_apart_length_m", "length", some("most_apart_length_m")),
        Shows("lamps_required/*/heights_m/*", "length"),
        Shows("lamps_required/*/ins_m/*", "length"),
        Shows("lamps_required/*/middles_apart_length_m", "length", some("middles_apart_length_m")),
    ),
    "findings": (),
    "check": (),
    "signs": (),
    "system": (),
    "shopping": (
        Shows("assumptions/tail at each end/value", "length"),
        Shows("assumptions/wire to spare/value", "%"),
        Shows("assumptions/terminals to spare/value", "%"),
        Shows("shopping/*/buy_length_m", "length"),
        Shows("shopping/*/needed_length_m", "length"),
        Shows("shopping/*/from_stock_length_m", "length", some("from_stock_length_m")),
        Shows("shopping/*/in_already_length_m", "length", some("in_already_length_m")),
        Shows("shopping/*/wired_length_m", "length"),
        Shows("shopping/*/bore_length_m", "length"),
        Shows("shopping/*/loop_length_m", "length"),
        Shows("shopping/*/across_length_m", "length"),
        Shows("chases/*/whole_length_m", "length", a_bought_channel),
        Shows("shopping/*/wide_length_m", "length"),
        Shows("shopping/*/high_length_m", "length"),
        Shows("shopping/*/deep_length_m", "length"),
        Shows("shopping/*/thick_length_m", "length"),
        Shows("shopping/*/built_in_length_m", "length"),
        Shows("shopping/*/tails_length_m", "length"),
        Shows("shopping/*/to_spare_length_m", "length"),
        Shows("shopping/*/from/*/length_m", "length"),
        Shows("shopping/*/from/*/tails_length_m", "length", some("tails_length_m")),
        Shows("shopping/*/buy", "", bought),
        Shows("shopping/*/used", "", of_section(*COUNTED, "open ends")),
        Shows("shopping/*/to_spare", "", of_section(*COUNTED)),
        Shows("shopping/*/from_stock", "", of_section(*COUNTED)),
        Shows("shopping/*/ways", ""),
        Shows("shopping/*/ways_used", ""),
        Shows("shopping/*/conductors", ""),
        Shows("shopping/*/rating_a", "A"),
        Shows("shopping/*/least_rating_a", "A"),
        Shows("shopping/*/takes_a", "A"),
        Shows("shopping/*/gives_a", "A"),
        Shows("shopping/*/gives_w", "W"),
        Shows("shopping/*/gives_v", "V"),
        Shows("shopping/*/gives_least_a", "A"),
        Shows("shopping/*/for_v", "V"),
        Shows("shopping/*/module_w", "W"),
        Shows("energy/capacity_ah", "Ah"),
    ),
    "cuts": (
        Shows("stubs/wires/*/length_m", "length"),
        Shows("stubs/most_length_m", "length"),
        Shows("free_at_plug/*/length_m", "length"),
        Shows("assumptions/tail at each end/value", "length"),
        Shows("assumptions/wire to spare/value", "%"),
        Shows("cuts/*/spool_length_m", "length", is_cut_or_told_of),
        Shows("cuts/*/rest_length_m", "rest", is_cut),
        Shows("cuts/*/pieces/*/length_m", "length"),
        Shows("cuts/*/pieces/*/cut_length_m", "length"),
        Shows("cuts/*/pieces/*/left_length_m", "rest"),
        Shows("in_already/*/length_m", "length"),
        Shows("own_allowance/count", ""),
        Shows("own_allowance/enough_wires", "", too_few_wires),
        Shows("own_allowance/median_percent", "%", longer_wires),
        Shows("own_allowance/most_percent", "%", longer_wires),
        Shows("own_allowance/counted_percent", "%", enough_wires),
    ),
    "pulls": (
        Shows("stubs/wires/*/length_m", "length"),
        Shows("stubs/most_length_m", "length"),
        Shows("free_at_plug/*/length_m", "length"),
        Shows("chases/*/slack_length_m", "length"),
        Shows("pulls/*/pieces/*/free/*/free_length_m", "length", stands_off),
        Shows("assumptions/tail at each end/value", "length"),
        Shows("assumptions/loop at the front box/value", "length"),
        Shows("pulls/*/way_length_m", "length"),
        Shows("pulls/*/fills/*/fill_percent", "%"),
        Shows("pulls/*/fills/*/limit_percent", "%"),
        Shows("laid_by_hand/*/cut_length_m", "length"),
    ),
    "closing": (
        *(
            Shows(f"bays/*/{end}_length_m", "length", parted)
            for end in ("from_back", "to_back", "from_up", "to_up")
        ),
        Shows("bays/*/inside/*/depth_length_m", "length"),
        Shows("bays/*/inside/*/left_length_m", "length", screws_may_go_in),
        Shows("bays/*/inside/*/round_hole_length_m", "length"),
        Shows("laid/*/supports/spacing_length_m", "length", holds_a_wire),
    ),
    "labels": (),
    "landings": (
        Shows("stubs/wires/*/length_m", "length"),
        Shows("stubs/most_length_m", "length"),
        Shows("landing_sheet/*/taken", "", in_the_box),
        Shows("landing_sheet/*/count", "", in_the_box),
        Shows("landing_sheet/*/free", "", in_the_box),
        Shows("crimp_pulls/*/hung_mass_kg", "kg"),
        Shows("entry_holes/*/bore_length_m", "length"),
        Shows("entry_holes/*/left_length_m", "length"),
        Shows("entry_holes/*/top_length_m", "length"),
        Shows("entry_holes/*/fill_percent", "%"),
        Shows("entry_holes/*/limit_percent", "%"),
        Shows("entry_holes/*/more", ""),
    ),
    "wrap-labels": (
        Shows("wrap_labels/*/count", ""),
        Shows("wrap_labels/*/diameter_mm", "mm"),
        Shows("wrap_labels/*/printed_mm", "mm"),
        Shows("wrap_labels/*/tail_mm", "mm"),
        Shows("wrap_labels/*/whole_mm", "mm"),
    ),
    "pen-labels": (),
    "tests": (
        Shows("test_sheet/*/most_ohm", "Ω"),
        Shows("test_sheet/*/least_v", "V"),
        Shows("test_sheet/*/most_v", "V"),
        Shows("test_sheet/*/about_v", "V"),
        Shows("test_sheet/*/below_v", "V"),
        Shows("test_sheet/*/about_a", "A"),
        Shows("test_sheet/*/most_a", "A"),
        Shows("test_sheet/*/current_a", "A"),
        Shows("plug_test/most_current_a", "A"),
        Shows("plug_test/fuse_a", "A"),
    ),
    "find": (
        Shows("fuses/*/rating_a", "A", rated),
        Shows("wires/*/length_m", "length", leads_to_a_box_that_nobody_placed),
    ),
    "fuses": (
        Shows("fuses/*/rating_a", "A", rated),
        Shows("wires/*/length_m", "length", both(no_front_box, leads_to_a_box_that_nobody_placed)),
    ),
    "wires": (
        Shows("wires/*/length_m", "length"),
        Shows("spares/*/length_m", "length"),
        Shows("plug/*/current_a", "A", contact_used),
    ),
    "towing": (
        Shows("plug_feeds/*/largest_fuse_a", "A"),
        Shows("circuits/*/loads/*/current_a", "A", charged_by_car),
        Shows("plug_states/*/everything_a", "A", feeds_a_charger),
        Shows("fuses/*/rating_a", "A", fuse_on_the_car_line),
        Shows("road_lamps/*/height_length_m", "length"),
        Shows("wires/*/length_m", "length", leads_to_a_box_that_nobody_placed),
    ),
    "adding": (
        Shows("headroom/*/left_w", "W", enough_left),
        Shows("headroom/*/fuse_w", "W", readers=WORKSHOP),
        Shows("headroom/*/wire_w", "W", readers=WORKSHOP),
        Shows("headroom/*/drop_w", "W", readers=WORKSHOP),
        Shows("headroom/*/switch_w", "W", readers=WORKSHOP),
        Shows("assumptions/fuse loading/value", "%", has_room),
        Shows("assumptions/drop aimed at/value", "%", has_room),
        Shows("spares/*/length_m", "length", has_box),
        Shows("new_fuses/*/rating_a", "A"),
        Shows("options/*/circuits/*/fuse_a", "A"),
        Shows("options/*/circuits/*/today_fuse_a", "A", another_fuse),
        Shows("options/*/circuits/*/current_a", "A"),
        Shows("options/*/circuits/*/drop_v", "V"),
        Shows("options/*/wires/*/length_m", "length"),
        Shows("options/*/main_fuse/load_a", "A", loads_the_main_fuse),
        Shows("options/*/main_fuse/today_load_a", "A", loads_the_main_fuse),
        Shows("options/*/main_fuse/rating_a", "A", loads_the_main_fuse),
        Shows("options/*/main_fuse/today_rating_a", "A", needs_another_main_fuse),
        Shows("options/*/nights/0", "", several_nights("nights", 0)),
        Shows("options/*/nights/1", "", several_nights("nights", 1)),
        Shows("options/*/today_nights/0", "", several_nights("today_nights", 0)),
        Shows("options/*/today_nights/1", "", several_nights("today_nights", 1)),
    ),
    "as-built": (
        Shows("wire_changes/*/planned_length_m", "length"),
        Shows("wire_changes/*/length_m", "length"),
        Shows("circuit_changes/*/planned_fuse_a", "A", another_fuse_built),
        Shows("circuit_changes/*/fuse_a", "A", another_fuse_built),
        Shows("circuit_changes/*/planned_current_a", "A", reads_otherwise),
        Shows("circuit_changes/*/current_a", "A", reads_otherwise),
        Shows("circuit_changes/*/planned_drop_v", "V", reads_otherwise),
        Shows("circuit_changes/*/drop_v", "V", reads_otherwise),
        Shows("lamp_changes/*/planned_current_a", "A"),
        Shows("lamp_changes/*/current_a", "A"),
    ),
    "words": (),
    "assumed": (
        Shows("assumptions/*/value", "*", concerns),
        Shows("assumptions/*/low", "* alone", concerns),
        Shows("assumptions/*/high", "*", concerns),
    ),
    "circuit": (
        Shows("circuits/*/load_current_a", "A", both(this_circuit, charges_nothing)),
        Shows("circuits/*/loads/*/current_a", "A", both(this_circuit, charged)),
        Shows("circuits/*/loads/*/current_a", "A", both(this_circuit, taken)),
        Shows("circuits/*/loads/*/drop_percent", "%", both(this_circuit, twelve_volts)),
        Shows("fuses/*/rating_a", "A", page_fuse_or_part),
        *_sizing(this_circuit, page_fuse),
        Shows("wire_changes/*/planned_length_m", "length", wire_of_this_circuit),
        Shows("wire_changes/*/length_m", "length", wire_of_this_circuit),
        Shows("circuit_changes/*/planned_fuse_a", "A", both(this_circuit, another_fuse_built)),
        Shows("circuit_changes/*/fuse_a", "A", both(this_circuit, another_fuse_built)),
        Shows("wires/*/length_m", "length", this_circuit),
        Shows("wires/*/current_a", "A", this_circuit, WORKSHOP),
        Shows("wires/*/ampacity_a", "A", this_circuit, WORKSHOP),
        Shows("wires/*/drop_v", "V", this_circuit, WORKSHOP),
        Shows("switches/*/load_a", "A", this_circuit, WORKSHOP),
        Shows("switches/*/least_rating_a", "A", this_circuit, WORKSHOP),
    ),
    "worked": (
        Shows("assumptions/copper temperature/value", ""),
        *_sizing(always, fuse_of_a_circuit),
        Shows("fuses/*/rating_a", "A", both(fuse_of_a_circuit, rated)),
        Shows("circuits/*/size/hand_formula/size", "", pencil_used),
        Shows("wires/*/bundle", "", first_of_its_size_and_bundle, WORKSHOP),
        Shows("energy/day/*/current_a", "A", something_used),
        Shows("energy/day/*/hours/*", "", something_used),
        Shows("energy/day/*/use_ah/*", "", something_used),
        Shows("energy/nights/*", "", something_used),
        Shows("energy/weeks_to_half/*", ""),
        Shows("energy/charging/*/hours_h/*", ""),
        Shows("energy/charging/*/sun_day_ah/*", ""),
        Shows("energy/charging/*/days/*", ""),
    ),
    "battery": (
        Shows("energy/capacity_ah", "Ah"),
        Shows("energy/nights/0", "", a_night),
        Shows("energy/nights/1", "", some_nights),
        Shows("assumptions/*/value", "%", usable_share),
        Shows("energy/kind/cold_percent", "%"),
        Shows("energy/day/*/use_ah/0", "Ah", takes_most),
        Shows("energy/day/*/use_ah/2", "Ah", takes_most),
        Shows("energy/kind/rest/*/rest_v", "V"),
        Shows("energy/kind/unsure_percent", "%"),
        Shows("energy/kind/charger_a/0", "A"),
        Shows("energy/kind/charger_a/1", "A", unlike("charger_a")),
        Shows("energy/kind/charge_from_temperature_c/*", "°C"),
        Shows("energy/kind/store_months", ""),
        Shows("energy/charging/*/current_a/0", "A", not_of_the_sun),
        Shows("energy/charging/*/current_a/1", "A", both(not_of_the_sun, unlike("current_a"))),
        Shows("energy/charging/*/hours_h/0", ""),
        Shows("energy/charging/*/hours_h/1", "", unlike("hours_h")),
        Shows("energy/charging/*/sun_day_ah/0", "Ah"),
        Shows("energy/charging/*/sun_day_ah/1", "Ah", unlike("sun_day_ah")),
        Shows("energy/charging/*/days/0", ""),
        Shows("energy/charging/*/days/1", "", unlike("days")),
        Shows("energy/day_ah/0", "Ah", both(the_sun_charges, something_used)),
        Shows("energy/day_ah/2", "Ah", both(the_sun_charges, something_used, unlike("day_ah"))),
        Shows("energy/drains/*/current_a", "A"),
        Shows("energy/weeks_to_half/0", ""),
        Shows("energy/weeks_to_half/1", "", unlike("weeks_to_half")),
        Shows("energy/weeks_to_half_off/0", "", both(isolated, drained)),
        Shows("energy/weeks_to_half_off/1", "", both(isolated, drained, unlike("weeks_to_half_off"))),
        Shows("fuses/*/rating_a", "A", main_or_taken_out),
    ),
    "scale": (
        Shows("chases/*/stretches/*/fill_percent", "%", cut_here),
        Shows("chases/*/stretches/*/room/*/more_wires", "", goes_in_where_it_is_cut),
    ),
    "building-in": (
        Shows("laid/*/hole_length_m", "length"),
        Shows("laid/*/from_the_edge_length_m", "length"),
        *(
            Shows(f"{hole}/at/{word}_length_m", "length")
            for hole in ("laid/*/frames/*", "holes/*")
            for word in ("back", "ahead", "from_middle", "up", "below")
        ),
        Shows("laid/*/frames/*/least_hole_length_m", "length"),
        Shows("holes/*/least_hole_length_m", "length"),
        Shows("holes/*/above_length_m", "length"),
        Shows("box_holes/*/least_hole_length_m", "length"),
        Shows("laid/*/groove/wide_length_m", "length"),
        Shows("laid/*/groove/deep_length_m", "length"),
        Shows("laid/*/groove/plate_wide_length_m", "length"),
        Shows("laid/*/supports/loops/*/loop_length_m", "length"),
        Shows("laid/*/supports/loops/*/across_length_m", "length"),
        Shows("laid/*/supports/loops/*/count", "", one_of_several),
        Shows("laid/*/pieces/*/piece_length_m", "length"),
        *(
            Shows(f"laid/*/pieces/*/ends/*/{word}_length_m", "length")
            for word in ("back", "ahead", "up", "below", "from_middle")
        ),
        Shows("laid/*/supports/count", ""),
        Shows("laid/*/supports/spacing_length_m", "length"),
        Shows("laid/*/supports/between/*/count", "", some("count")),
        Shows("laid/*/turned_deg", "", a_conduit_or_bent),
        Shows("laid/*/open_deg", "", bent_and_open),
        Shows("laid/*/bent_deg", "", bent_and_open),
        Shows("laid/*/bend_radius_length_m", "length"),
        Shows("laid/*/least_bend_length_m", "length", a_conduit_or_bent),
        Shows("turns/*/angle_deg", ""),
        Shows("turns/*/least_bend_length_m", "length"),
        Shows("beside_mains/*/gap_length_m", "length"),
        Shows("laid_limits/edge_length_m", "length"),
        Shows("laid_limits/mains_gap_length_m", "length"),
        *(
            Shows(f"blocks/*/{word}_length_m", "length")
            for word in ("back", "up", "from_middle", "width", "high", "long", "thick")
        ),
        Shows("chases/*/whole_length_m", "length", no_hinge),
        Shows("chases/*/bore_length_m", "length", no_hinge),
        *(
            Shows(f"places/*/at/{word}_length_m", "length", on_a_chase)
            for word in ("back", "ahead", "from_middle", "up", "below")
        ),
        Shows("stands/*/own_leads_length_m", "length"),
    ),
    "frames": (
        Shows("laid_limits/edge_length_m", "length"),
        Shows("laid/*/frames/*/back_length_m", "length", heads_a_sheet),
        Shows("laid/*/frames/*/up_length_m", "length", heads_a_sheet),
        Shows("laid/*/frames/*/at/back_length_m", "length", in_a_level_frame),
        Shows("laid/*/frames/*/at/up_length_m", "length", in_an_upright_frame),
        Shows("laid/*/frames/*/at/from_middle_length_m", "length"),
        Shows("laid/*/hole_length_m", "length", passes_a_frame),
        Shows("laid/*/frames/*/least_hole_length_m", "length"),
        Shows("laid/*/from_the_edge_length_m", "length", passes_a_frame),
    ),
    "ways": (
        Shows("blocks/*/width_length_m", "length"),
        Shows("blocks/*/high_length_m", "length"),
        Shows("blocks/*/long_length_m", "length"),
        Shows("blocks/*/thick_length_m", "length"),
        Shows("blocks/*/seen/*/far_length_m", "length"),
        Shows("assumptions/error of a tape measure/value", "length"),
        Shows("loose/*/clear_length_m", "length"),
        Shows("ways/*/clear_length_m", "length"),
        Shows("ways/*/areas/*/depth_length_m", "length"),
        Shows("ways/*/linings/*/depth_length_m", "length"),
        Shows("places/*/seen/*/far_length_m", "length", on_a_way),
    ),
    "runs": (
        Shows("chases/*/bore_length_m", "length"),
        Shows("chases/*/slack_length_m", "length"),
        Shows("chases/*/stretches/*/length_m", "length"),
        Shows("chases/*/stretches/*/fill_percent", "%"),
        Shows("chases/*/stretches/*/limit_percent", "%", filled),
        Shows("chases/*/stretches/*/room/*/more_wires", "", some("more_wires")),
        *(
            Shows(f"{wires}/*/run/{part}_length_m", "length", some(f"{part}_length_m"))
            for wires in ("wires", "spares")
            for part in ("way", "rise", "slack", "loop")
        ),
        *(
            Shows(f"{wires}/*/run/{part}_length_m", "length")
            for wires in ("wires", "spares")
            for part in ("run", "tail", "cut")
        ),
        Shows("wires/*/length_m", "length", run_beside_a_length),
        Shows("spares/*/length_m", "length", run_beside_a_length),
        Shows("stands/*/lead_length_m", "length"),
    ),
    "fasteners": (
        Shows("assumptions/error of a tape measure/value", "length"),
        Shows("skins/*/fasteners_length_m", "length"),
        *(Shows(f"skins/*/wires_behind/*/{part}_length_m", "length") for part in ("begins", "ends", "depth")),
        Shows(
            "skins/*/wires_behind/*/left_length_m", "length", both(unreached, lambda here: not goes_out(here))
        ),
        Shows("skins/*/wires_behind/*/round_hole_length_m", "length", goes_out),
        Shows("panels/*/screw_length_m", "length", some("screw_length_m")),
        *(
            Shows(f"hinges/*/{part}_m", "length")
            for part in ("length", "shut_length", "apart_at_most_length", "bend_length", "least_bend_length")
        ),
    ),
    "panel": (
        Shows("assumptions/error of a tape measure/value", "length", tape_counts),
        Shows("panels/*/screw_length_m", "length", this_panel),
        Shows("panels/*/behind/*/screw_length_m", "length", this_panel),
        Shows("panels/*/behind/*/depth_length_m", "length", this_panel),
        Shows("panels/*/behind/*/each_side_length_m", "length", this_panel),
        Shows("panels/*/behind/*/start/*/far_length_m", "length", this_panel),
        Shows("panels/*/behind/*/end/*/far_length_m", "length", this_panel),
        Shows("panels/*/parts/*/at/*/far_length_m", "length", this_panel),
        Shows("panels/*/parts/*/depth_length_m", "length", this_panel),
        Shows("panels/*/parts/*/rise_length_m", "length", this_panel),
    ),
    "care": (
        Shows("energy/kind/rest/*/rest_v", "V", percent_full(50, 75)),
        Shows("energy/kind/charge_from_temperature_c/1", "°C"),
        Shows("energy/kind/freezing/*/temperature_c", "°C", percent_full(100, 25)),
    ),
}
"""What each kind of page shows. Nothing else may stand on it."""


@cache
def expected(site: Site, page: str) -> Mapping[str, str]:
    """Return the text of every figure that a page must show, by path."""
    kind = site.kind(page)
    circuit = site.circuit_pages.get(page) or site.panel_pages.get(page) or site.guide_pages.get(page, {})
    if kind == "shared":
        circuit = {"shared": page.removeprefix("stops-").removesuffix(".html")}
    found = {}
    for shows in PAGES[kind]:
        if site.edition not in shows.readers:
            continue
        for path, chain, value in _places(site.record, shows.path):
            if shows.only(Here(site.record, circuit, chain, site.edition)):
                found[path] = printed(site, path, value, _unit(shows.unit, chain[0]))
    return found


def _unit(unit: str, entry: Entry) -> str:
    if not unit.startswith("*"):
        return unit
    if entry["unit"] == "m":
        return "length"
    return str(entry["unit"]) if unit == "*" else ""


_PRINTED_AS_ON_THE_PART = (
    "/rating_a",
    "/fuse_a",
    "/planned_fuse_a",
    "/today_fuse_a",
    "/today_rating_a",
    "/capacity_ah",
)


def printed(site: Site, path: str, value: Any, unit: str) -> str:
    """Return a figure as the reader of an edition gets it: one rounding, then the unit."""
    if isinstance(value, str):
        return value
    if isinstance(value, int):
        return f"{value} {unit}".strip()
    if unit in ("length", "rest", "kg"):
        tell = {"length": length, "rest": rest, "kg": show_mass}[unit]
        return " ".join(tell(value, site.record["build"]["units"]).split())
    # what was taken for granted is printed to the owner as it was taken
    reader = Reader.WORKSHOP if path.startswith("assumptions/") else Reader(site.edition)
    if path.endswith("/rest_v") or (path.startswith("guide/") and path.endswith("/least_v")):
        return f"{meter_volts(value)} {unit}"
    if unit == "°C" and not path.startswith("assumptions/"):
        return " ".join(temperature(value, site.record["build"]["units"]).split())
    if path.startswith("test_sheet/") and path.endswith(("/most_v", "/about_v", "/below_v")):
        text = sheet_volts(value)
    elif path.startswith("test_sheet/") and path.endswith("/most_ohm"):
        text = sheet_ohms(value)
    else:
        text = rating(value) if path.endswith(_PRINTED_AS_ON_THE_PART) else shown(value, reader)
    return f"{text} {unit}".strip()


def _places(record: Entry, pattern: str) -> Iterator[tuple[str, tuple[Entry, ...], Any]]:
    """Yield each path that fits a pattern, with the entries passed on the way, and its value."""
    head, *steps = pattern.split("/")
    if head in record:
        yield from _walk(head, record[head], steps, (), LISTS.get(head))


def _walk(
    path: str, at: Any, steps: list[str], chain: tuple[Entry, ...], key: str | None
) -> Iterator[tuple[str, tuple[Entry, ...], Any]]:
    chain = (*chain, at) if isinstance(at, dict) else chain
    if not steps:
        yield path, chain, at
    elif steps[0] == "*":
        for place, entry in enumerate(at):
            name = step(entry[key] if key else place)
            yield from _walk(f"{path}/{name}", entry, steps[1:], chain, None)
    elif key:
        every = _walk(path, at, ["*", *steps[1:]], chain, key)
        yield from (found for found in every if found[0].startswith(f"{path}/{steps[0]}/"))
    elif isinstance(at, list):
        yield from _walk(f"{path}/{steps[0]}", at[int(steps[0])], steps[1:], chain, None)
    elif steps[0] in at:
        yield from _walk(f"{path}/{steps[0]}", at[steps[0]], steps[1:], chain, None)
