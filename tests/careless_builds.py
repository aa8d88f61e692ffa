"""Builds of a maker with careless habits: an ordinary build, and a few things done in it as they are too often done.

A habit is described by what the maker does, not by the rule that should speak: it may break several at once.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from ordinary_builds import OrdinaryBuild, Words, ordinary_build

Habit = Callable[["Bench"], bool]
"""Changes a build; False where there is nothing in it that the habit could spoil."""


@dataclass(frozen=True, slots=True)
class Bench:
    """A build in the hands of its maker."""

    tree: Words
    rng: random.Random

    @property
    def metric(self) -> bool:
        """Whether the file is written in metres."""
        return self.tree["build"]["country"] != "US"

    @property
    def gauges(self) -> bool:
        """Whether wire is bought by gauge."""
        return self.tree["build"]["country"] in ("US", "CA")

    def parts(self, *kinds: str) -> list[Words]:
        """Return the parts of these kinds."""
        return [words for words in self.tree["parts"].values() if words["kind"] in kinds]

    def circuits(self, *kinds: str, house: bool = True) -> list[Words]:
        """Return the circuits with a part of these kinds in their path; by default those of the fuse block."""
        found = []
        for words in self.tree.get("circuits", {}).values():
            on_it = {self.tree["parts"].get(name, {}).get("kind") for name in names_of(words["path"])}
            if on_it & set(kinds) and not (house and "from" in words):
                found.append(words)
        return found

    def one(self, some: list[Words]) -> Words | None:
        """Return one of some entries; None when there are none."""
        return self.rng.choice(some) if some else None

    def put(self, some: list[Words], **words: object) -> bool:
        """Write words into one of some entries; tell whether there was one."""
        entry = self.one(some)
        if entry is None:
            return False
        entry.update({word.replace("_", " ").strip(): value for word, value in words.items()})
        return True


def names_of(path: list[Any]) -> Iterator[str]:
    """Yield the names of the items of a path."""
    for item in path:
        yield from item


LAMPS = ("lamp",)
STRONG = ("pump", "fridge", "socket")
SWITCHES = ("switch", "relay")


def _any_fuse_at_hand(b: Bench) -> bool:
    return b.put(b.circuits(*LAMPS, *STRONG, "fan"), fuse=b.rng.choice(["20 A", "30 A"]), size=_thin(b))


def _thin(b: Bench) -> str:
    return "16 AWG" if b.gauges else "1.5 mm²"


def _the_smallest_fuse(b: Bench) -> bool:
    return b.put(b.circuits("pump", "fridge", "socket"), fuse="2 A")


def _the_fuse_that_came_with_the_block(b: Bench) -> bool:
    return b.put(b.circuits(*LAMPS, "meter"), fuse="15 A", size="12 AWG" if b.gauges else "4 mm²")


def _a_fuse_from_a_drawer(b: Bench) -> bool:
    return b.put(b.circuits(*LAMPS, *STRONG), fuse=b.rng.choice(["6 A", "8 A", "12 A"]))


def _taps_the_battery_line(b: Bench) -> bool:
    path = [{"clock": "6 ft"}]
    return _adds(
        b, "clock", {"kind": "meter"}, {"from": "main fuse", "size": _thin(b), "path": path}
    ) and _main_30(b)


def _main_30(b: Bench) -> bool:
    b.tree["battery"] |= {"fuse": "30 A", "size": "8 AWG" if b.gauges else "10 mm²"}
    return True


def _adds(b: Bench, name: str, part: Words, circuit: Words) -> bool:
    if "battery" not in b.tree:
        return False
    b.tree["parts"][name] = part
    b.tree["circuits"][name] = circuit
    return True


def _main_fuse_in_the_box(b: Bench) -> bool:
    if "battery" not in b.tree:
        return False
    b.tree["battery"]["path"][0] = {"main fuse": b.rng.choice(["3 ft", "7 ft"])}
    return True


def _no_main_fuse(b: Bench) -> bool:
    if "battery" not in b.tree or any(c.get("from") == "main fuse" for c in b.tree["circuits"].values()):
        return False
    b.tree["battery"]["path"] = b.tree["battery"]["path"][1:]
    return True


def _a_small_block(b: Bench) -> bool:
    plain = [words for words in b.tree.get("circuits", {}).values() if "from" not in words]
    if len(plain) < 2:
        return False
    b.tree["front box"]["fuse ways"] = str(len(plain) - 1)
    return True


def _a_small_connector(b: Bench) -> bool:
    return b.put(b.parts("connector"), ways="2")


def _a_small_ground_bar(b: Bench) -> bool:
    return "front box" in b.tree and b.put([b.tree["front box"]], ground_bar="2")


def _a_weak_connector(b: Bench) -> bool:
    for lamp in b.tree["road lamps"].values():
        if isinstance(lamp, dict) and "hatch plug" in names_of(lamp["path"]):
            b.tree["road lamps"]["lamps"] = "filament"
    return b.put(b.parts("connector"), rating="1 A")


def _lamps_as_they_came(b: Bench) -> bool:
    """Fits what the shop had: clear ones behind, low under the floor."""
    return b.put([b.tree["road lamps"]["rear lamp"]], shines="white", height="10 in")


def _glow_worms(b: Bench) -> bool:
    """Fits lamps that draw next to nothing, from a bag without a sheet."""
    return b.put([b.tree["road lamps"]["rear lamp"]], draws={"turn": "12 mA", "stop": "12 mA"})


def _lamps_from_a_lorry(b: Bench) -> bool:
    return b.put([b.tree["road lamps"]["rear lamp"]], draws={"tail": "2.5 A"})


def _forgets_the_breakaway(b: Bench) -> bool:
    return b.tree.get("brakes", {}).pop("breakaway battery", None) is not None


def _brakes_for_another_day(b: Bench) -> bool:
    """Buys the axle with its brakes, and leaves their wire for later."""
    if "brakes" not in b.tree or "brakes" not in b.tree["circuits"]:
        return False
    b.tree["circuits"].pop("brakes")
    for name in ("left brake", "right brake"):
        b.tree["parts"].pop(name)
    return True


def _all_on_the_hatch(b: Bench) -> bool:
    return b.put([b.tree["road lamps"]["rear lamp"]], on_the_hatch="yes")


def _a_switch_for_signals(b: Bench) -> bool:
    return b.put(b.parts(*SWITCHES), rating=b.rng.choice(["0.1 A", "0.2 A"]))


def _a_weak_converter(b: Bench) -> bool:
    return b.put(b.parts("converter"), gives="1 A")


def _a_part_for_a_lorry(b: Bench) -> bool:
    return b.put(b.parts("lamp", "fan", "fridge"), at="24 V")


def _a_part_that_wants_all(b: Bench) -> bool:
    return b.put(b.parts("fridge", "pump", "air heater"), works_from=b.rng.choice(["11.6 V", "11.9 V"]))


def _a_slip_of_a_unit(b: Bench) -> bool:
    if b.rng.random() < 0.5:
        return b.put([words for words in b.parts("lamp") if "lit length" not in words], draws="3 mW")
    circuit = b.one(b.circuits(*LAMPS, "fan"))
    if circuit is None:
        return False
    name = next(names_of(circuit["path"]))
    circuit["path"][0] = {name: "22 m" if b.metric else "60 ft"}
    return True


def _thin_wire_for_all(b: Bench) -> bool:
    circuit = b.one(b.circuits(*STRONG))
    if circuit is None:
        return False
    circuit["size"] = "18 AWG" if b.gauges else "1 mm²"
    circuit["path"] = [{name: "5 m" if b.metric else "16 ft"} for name in names_of(circuit["path"])]
    return True


def _a_heater_on_lamp_wire(b: Bench) -> bool:
    size = "18 AWG" if b.gauges else "1 mm²"
    path = [{"foot heater": "3 ft"}]
    return _adds(
        b, "foot heater", {"kind": "heater", "draws": "11 A"}, {"size": size, "fuse": "15 A", "path": path}
    )


def _thin_single_wire(b: Bench) -> bool:
    if not b.gauges:
        return False
    b.tree["wire"] |= {"sold as": "single", "on the shelf": ["18 AWG", *b.tree["wire"]["on the shelf"]]}
    return True


def _a_thin_bond(b: Bench) -> bool:
    if "battery" not in b.tree:
        return False
    b.tree["battery"]["frame bond"] = "14 AWG" if b.gauges else "1.5 mm²"
    return True


def _a_battery_under_the_bed(b: Bench) -> bool:
    if "battery" not in b.tree:
        return False
    b.tree["battery"]["chemistry"] = "flooded"
    del b.tree["battery"]["box"]
    return True


def _forgets_a_part(b: Bench) -> bool:
    b.tree["parts"]["forgotten lamp"] = {"kind": "lamp"}
    return True


def _grounds_at_the_frame(b: Bench) -> bool:
    return _bonded(b) and b.put(b.circuits(*LAMPS, *STRONG), return_="frame")


def _bonded(b: Bench) -> bool:
    if "battery" in b.tree:
        b.tree["battery"]["frame bond"] = "8 AWG" if b.gauges else "10 mm²"
    return "battery" in b.tree


def _names_nobody(b: Bench) -> bool:
    if "mains" in b.tree:
        del b.tree["mains"]
    else:
        b.tree["mains"] = {"what": "inlet and one socket"}
    return True


def _a_module_straight_to_the_battery(b: Bench) -> bool:
    path = [{"module fuse": "9 ft"}, {"battery": "5 in"}]
    module: Words = {"kind": "solar module", "gives": "50 W"}
    return _adds(b, "old module", module, {"from": "old module", "path": path})


def _a_large_charger(b: Bench) -> bool:
    return b.put(b.parts("dc charger", "shore converter"), gives=b.rng.choice(["40 A", "50 A"]))


def _a_kettle_on_the_car(b: Bench) -> bool:
    if b.tree["tow plug"]["pattern"] not in ("7-way blade", "13-pin"):
        return False
    size = "6 AWG" if b.gauges else "16 mm²"
    circuit: Words = {"from": "tow plug battery", "size": size, "path": [{"kettle": "5 ft"}]}
    b.tree["parts"]["kettle"] = {"kind": "heater", "draws": "35 A"}
    b.tree["circuits"]["kettle"] = circuit
    return True


def _joins_car_and_battery(b: Bench) -> bool:
    """Lead the car's wire to the battery, with a fuse at the battery alone."""
    if "battery" not in b.tree or b.tree["tow plug"]["pattern"] not in ("7-way blade", "13-pin"):
        return False
    size = "8 AWG" if b.gauges else "10 mm²"
    path = [{"car line fuse": "9 ft"}, {"battery": "5 in"}]
    b.tree["circuits"]["car line"] = {"from": "tow plug battery", "size": size, "path": path}
    return True


def _forgets_a_brake(b: Bench) -> bool:
    """Let the breakaway reach one of the two brakes that the car works, or none."""
    if b.tree["tow plug"]["pattern"] != "7-way blade" or b.parts("brake magnet"):
        return False
    kinds = {"left brake": "brake magnet", "right brake": "brake magnet", "pin": "breakaway switch"}
    b.tree["parts"] |= {name: {"kind": kind} for name, kind in {**kinds, "pack": "breakaway battery"}.items()}
    b.tree["brakes"] = {"kind": "electric", "drum": "10 in", "magnets": "2"}
    size = "10 AWG" if b.gauges else "6 mm²"
    last = b.rng.choice([[], [{"left brake": "9 ft"}]])
    b.tree["circuits"] |= {
        "left brake": {"from": "tow plug brake", "size": size, "path": [{"left brake": "12 ft"}]},
        "right brake": {"from": "tow plug brake", "size": size, "path": [{"right brake": "12 ft"}]},
        "held": {"from": "pack", "fuse": "20 A", "size": size, "path": [{"pin": "1 ft"}, *last]},
    }
    return True


def _one_switch_for_all(b: Bench) -> bool:
    """Feed an alarm from the fuse block, which the isolating switch cuts off."""
    battery = b.tree.get("battery")
    if battery is None:
        return False
    if not any("isolating switch" in item for item in battery["path"]):
        battery["path"].insert(1, {"isolating switch": "1 ft"})
    for words in b.circuits("alarm", house=False):
        words.pop("from", None)
        return True
    return _adds(b, "smoke alarm", {"kind": "alarm"}, {"path": [{"smoke alarm": "6 ft"}]})


def _one_roll_of_wire(b: Bench) -> bool:
    if b.rng.random() < 0.5 and "battery" in b.tree:
        b.tree["wire"]["return"] = b.tree["wire"]["feed"]
        return True
    return b.put(b.circuits(*LAMPS, *STRONG), color=b.tree["wire"]["return"])


def _a_strip_round_the_roof(b: Bench) -> bool:
    strips = [words for words in b.parts("lamp") if "lit length" in words]
    return b.put(strips, lit_length=b.rng.choice(["7 m", "22 ft", "8 m"]))


def _charges_at_home(b: Bench) -> bool:
    chargers = ("dc charger", "charge controller", "shore converter", "solar module")
    if "battery" not in b.tree:
        return False
    kinds = {name: words["kind"] for name, words in b.tree["parts"].items()}
    for name, words in list(b.tree["circuits"].items()):
        if {*names_of(words["path"])} & {"battery", "front box"}:
            del b.tree["circuits"][name]
            for part in names_of(words["path"]):
                b.tree["parts"].pop(part, None)
    b.tree["parts"] = {n: w for n, w in b.tree["parts"].items() if kinds[n] not in chargers}
    return True


def _loses_the_numbers(b: Bench) -> bool:
    """Say that the numbers are issued, and have no file of them."""
    return b.put([b.tree["build"]], numbers="issued")


def _straight_to(b: Bench) -> tuple[Words, str] | None:
    """Return a circuit of the fuse block that leads to one part alone, and the name of that part."""
    lone = [words for words in b.tree["circuits"].values() if "from" not in words and len(words["path"]) == 1]
    found = b.one([words for words in lone if "branches" not in words])
    return (found, *names_of(found["path"])) if found is not None else None


def _measures(b: Bench, part: str, up: str, **chase: object) -> None:
    b.tree["places"] = {"front box": {"back": "1 ft", "up": "1 ft"}, part: {"back": "1 ft", "up": up}}
    b.tree["skins"] = b.tree["panels"] = {}
    b.tree["chases"] = {"pole": {"through": ["front box", part], **chase}} if chase else {}


def _a_slip_of_the_tape(b: Bench) -> bool:
    found = _straight_to(b)
    if found is None or "battery" not in b.tree:
        return False
    _measures(b, found[1], b.rng.choice(["40 ft", "1 ft 2 in"]), kind="groove")
    return True


def _measures_and_draws_no_chase(b: Bench) -> bool:
    found = _straight_to(b)
    if found is None or "battery" not in b.tree:
        return False
    _measures(b, found[1], "4 ft")
    return True


def _a_tube_from_the_scrap_box(b: Bench) -> bool:
    found = _straight_to(b)
    if found is None or "battery" not in b.tree:
        return False
    words, part = found
    words["size"] = "16 AWG" if b.gauges else "1.5 mm²"
    tight, wedged = ("1/4 in", "9 mm") if b.gauges else ("5 mm", "7.2 mm")
    _measures(b, part, "2 ft", kind="conduit", bore=b.rng.choice([tight, wedged, wedged]))
    b.tree["spares"] = {"third": {"from": "front box", "to": part, "wire": "4 ft", "size": words["size"]}}
    return True


def _a_wall_over_the_wire(b: Bench, part: str, back: str = "10 in", corner: str = "10 in") -> list[str]:
    """Lead the wire of a part up a front wall at 1 ft, and return the corners of the face before or behind it."""
    _measures(b, part, "3 ft", kind="groove")
    sides = {"low left": "left", "low right": "right", "high right": "right"}
    for name, side in sides.items():
        b.tree["places"][name] = {"back": back, side: "6 in", "up": "0 in" if "low" in name else "4 ft"}
    b.tree["places"] |= {"high left": {"back": corner, "left": "6 in", "up": "4 ft"}}
    b.tree["places"] |= {"far wall": {"back": "5 ft", "up": "1 ft"}}
    return [*sides, "high left"]


def _screws_from_the_tin(b: Bench) -> bool:
    found = _straight_to(b)
    if found is None or "battery" not in b.tree:
        return False
    corners = _a_wall_over_the_wire(b, found[1])
    b.tree["skins"] = {
        "wall": {"corners": corners, "fasteners go in": "2 in"},
        "second wall": {"corners": corners, "fasteners go in": "1 3/4 in"},
    }
    return True


def _a_wall_measured_by_eye(b: Bench) -> bool:
    found = _straight_to(b)
    if found is None or "battery" not in b.tree:
        return False
    corners = _a_wall_over_the_wire(b, found[1], corner="4 in")
    b.tree["skins"] = {"wall": {"corners": corners, "fasteners go in": "1/2 in"}}
    return True


def _a_lining_from_memory(b: Bench) -> bool:
    found = _straight_to(b)
    if found is None or "battery" not in b.tree:
        return False
    corners = _a_wall_over_the_wire(b, found[1], "1 ft 2 in", "1 ft 2 in")
    b.tree["panels"] = {"lining": {"corners": corners, "behind": "nothing"}}
    return True


def _a_tight_hinge(b: Bench) -> bool:
    found = _straight_to(b)
    if found is None or "battery" not in b.tree:
        return False
    part = found[1]
    b.tree["skins"] = b.tree["panels"] = {}
    b.tree["places"] = {
        "front box": {"back": "1 ft", "up": "1 ft"},
        part: {"back": "1 ft 1 in", "up": "1 ft"},
        "hinge left": {"back": "1 ft", "left": "6 in", "up": "2 ft"},
        "hinge right": {"back": "1 ft", "right": "6 in", "up": "2 ft"},
    }
    hinge = {"hinge": ["hinge left", "hinge right"], "opens": "100°"}
    b.tree["chases"] = {
        "loop": {"kind": "hinge loop", "through": ["front box", part], "slack": "2 in", **hinge}
    }
    return True


def _builds_in_by_eye(b: Bench) -> bool:
    found = _straight_to(b)
    if found is None or "battery" not in b.tree or b.tree.get("chases"):
        return False
    part = found[1]
    bored = {"bend radius": "1/4 in", "holes": "1/2 in", "from the edge": "1/4 in", "supports every": "3 ft"}
    edges = {"passes sheet at": [part], "grommets": "no"}
    beside = {"near heat": "the cooker", "carries": "both", "divided": "no"}
    _measures(b, part, "4 ft", kind="groove", **bored, **edges, **beside)
    return True


def _a_bare_body(b: Bench) -> None:
    """Give the trailer a body like a box, with nothing open in it and no frames."""
    corners = (("0 in", "0 in"), ("9 ft", "0 in"), ("9 ft", "9 ft"), ("0 in", "9 ft"))
    b.tree["openings"] = b.tree["frames"] = {}
    b.tree["body"] = {"width": "1 ft", "profile": [{"back": back, "up": up} for back, up in corners]}


def _a_wire_up_the_front(b: Bench, back: str) -> bool:
    """Lead the wire of a part up near the front wall of such a body; False where there is none to lead."""
    found = _straight_to(b)
    if found is None or "battery" not in b.tree or b.tree.get("chases"):
        return False
    _measures(b, found[1], "3 ft", kind="groove")
    for place in b.tree["places"].values():
        place["back"] = back
    _a_bare_body(b)
    return True


def _a_hole_for_the_plug(b: Bench) -> bool:
    """Lead the plug's cable through the front wall and leave it at that."""
    if b.tree.get("chases"):
        return False
    b.tree["skins"] = b.tree["panels"] = {}
    _a_bare_body(b)
    b.tree["places"] = {
        "front box": {"back": "1 ft", "up": "1 ft"},
        "front wall": {"back": "0 in", "up": "1 ft"},
        "tow plug": {"ahead": "2 ft", "up": "0 in"},
    }
    left = b.rng.choice(["sealed", "strain relief", "drip loop"])
    b.tree["chases"] = {"tongue": {"through": ["tow plug", "front wall", "front box"], left: "no"}}
    return True


def _a_block_in_front_of_the_wire(b: Bench) -> bool:
    """Build a backing block, and above it a window, into the front wall where a wire runs up."""
    if not _a_wire_up_the_front(b, "4 in"):
        return False
    b.tree["backing blocks"] = {
        "rail block": {"in": "front wall", "up": "2 ft", "width": "6 in", "height": "3 in"}
    }
    b.tree["openings"] = {
        "small window": {"in": "front wall", "up": "30 in", "width": "6 in", "height": "3 in"}
    }
    return True


def _a_wish_for_warm_feet(b: Bench) -> bool:
    """Thinks of a heater for later that no wire in the trailer was laid for."""
    if "battery" not in b.tree or "front box" not in b.tree:
        return False
    heater = {"kind": "heater", "draws": b.rng.choice(["18 A", "30 A"]), "own switch": "yes"}
    b.tree["options"] = {
        "warm feet": {
            "parts": {"wished heater": heater},
            "circuits": {"wished heat": {"path": [{"wished heater": "9 ft"}]}},
        }
    }
    return True


def _rings_from_the_tin(b: Bench) -> bool:
    """Land what comes first on whatever stud and ring are at hand."""
    if "battery" not in b.tree or "front box" not in b.tree:
        return False
    size = "16 AWG" if b.gauges else "1.5 mm²"
    other = "14 AWG" if b.gauges else "2.5 mm²"
    b.tree.setdefault("wire", {})["rings"] = {size: "No. 6", other: "No. 6"}
    b.tree["terminal studs"] = {"ground bar": {"size": "5/16 in"}, "battery": {"most on each": "1"}}
    if not b.tree.get("circuits"):
        return True
    name = next(iter(b.tree["circuits"]))
    b.tree["entry holes"] = {"hole": {"bore": b.rng.choice(["5 mm", "3.5 mm"]), "takes": [name]}}
    return True


def _closes_up_without_a_photo(b: Bench) -> bool:
    """Close the front wall over a wire, and take no picture."""
    if not _a_wire_up_the_front(b, "2 in"):
        return False
    b.tree["closed bays"] = {"front wall": {"date": "4 May"}}
    return True


def _a_spool_of_leftovers(b: Bench) -> bool:
    """Has a rest in the drawer that is of no use here."""
    rest = "pink 18 AWG" if b.gauges else "pink 1 mm²"
    b.tree.setdefault("in stock", {}).setdefault("wire", {})[rest] = "3 ft" if b.gauges else "1 m"
    return True


HABITS: tuple[Habit, ...] = (
    _any_fuse_at_hand, _the_smallest_fuse, _the_fuse_that_came_with_the_block, _a_fuse_from_a_drawer,
    _taps_the_battery_line, _main_fuse_in_the_box, _no_main_fuse, _a_small_block, _a_small_connector,
    _lamps_as_they_came, _all_on_the_hatch, _forgets_the_breakaway, _brakes_for_another_day, _glow_worms,
    _lamps_from_a_lorry,
    _a_small_ground_bar, _a_weak_connector, _a_switch_for_signals, _a_weak_converter, _a_part_for_a_lorry,
    _a_part_that_wants_all, _a_slip_of_a_unit, _thin_wire_for_all, _a_heater_on_lamp_wire, _thin_single_wire,
    _a_thin_bond, _forgets_a_part, _grounds_at_the_frame, _names_nobody,
    _a_module_straight_to_the_battery, _a_large_charger, _a_kettle_on_the_car, _one_switch_for_all,
    _one_roll_of_wire, _a_strip_round_the_roof, _charges_at_home, _a_battery_under_the_bed,
    _loses_the_numbers, _joins_car_and_battery, _forgets_a_brake,
    _a_slip_of_the_tape, _measures_and_draws_no_chase, _a_tube_from_the_scrap_box,
    _screws_from_the_tin, _a_wall_measured_by_eye, _a_lining_from_memory, _a_tight_hinge,
    _builds_in_by_eye, _a_hole_for_the_plug, _a_block_in_front_of_the_wire, _a_wish_for_warm_feet, _rings_from_the_tin,
    _closes_up_without_a_photo, _a_spool_of_leftovers,
)  # fmt: skip


HABITS_OF_ONE = 5
"""How many careless habits one maker has: some can only be had with parts that few trailers carry."""


def careless_build(seed: int) -> OrdinaryBuild:
    """Return an ordinary build with a few habits in it, all decided by the seed."""
    build = ordinary_build(seed)
    rng = random.Random(f"careless {seed}")  # noqa: S311  a seed of our own
    bench = Bench(build.tree, rng)
    order = rng.sample(HABITS, len(HABITS))
    found = (habit for habit in order if habit(bench))
    for _ in range(HABITS_OF_ONE):
        next(found, None)
    return build
