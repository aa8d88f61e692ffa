"""Builds as a sensible maker writes them: usual parts, usual lengths, sizes and fuses left to the tool, charging.

Unlike `generated_builds`, which shows every form the file knows in any mixture, these are trailers that somebody
would build. One seed makes one build.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from generated_builds import Branch, GeneratedCircuit, Leg
from generated_layout import lay_out
from generated_spelling import Length, length

Words = dict[str, Any]
"""A group of a build file that can still be changed."""

LEAD_SHARE, LITHIUM_SHARE = 0.25, 0.4
"""A sensible maker's charger, in ampere over the capacity in Ah."""


@dataclass(slots=True)
class OrdinaryBuild:
    """One build: its tree, which a careless habit may change, and the seed that decides its layout."""

    tree: Words
    seed: int

    @property
    def text(self) -> str:
        """The build file."""
        tree: Mapping[str, Any] = {heading: value for heading, value in self.tree.items() if value}
        return "\n".join(lay_out(tree, self.seed).lines) + "\n"


@dataclass(slots=True)
class Bench:
    """One trailer on the maker's bench; ``rng`` decides everything."""

    rng: random.Random
    metric: bool
    long_m: float
    plug: str = ""
    isolated: bool = False
    few_sizes: bool = False
    parts: Words = field(default_factory=dict)
    circuits: dict[str, GeneratedCircuit] = field(default_factory=dict)
    road: Words = field(default_factory=dict)

    def chance(self, share: float) -> bool:
        """Tell whether something with this share of cases is so."""
        return self.rng.random() < share

    def far(self, low: float = 0.3, high: float = 1.0) -> Length:
        """Return a length of wire between two shares of the trailer's length."""
        return length(self.rng, self.metric, low * self.long_m, high * self.long_m)

    def near(self) -> Length:
        """Return the length from one part to the next one."""
        return length(self.rng, self.metric, 0.3, 1.5)

    def inches(self, low: int = 3, high: int = 6) -> Length:
        """Return a length of a few inches."""
        inch = self.rng.randint(low, high)
        metres = round(inch * 0.0254, 2)
        return Length(metres, f"{round(metres * 100)} cm" if self.metric else f"{inch} in")

    def part(self, name: str, kind: str, **words: object) -> str:
        """Describe a part once, under a name with a number behind it where it is taken; return the name."""
        free = next(n for n in (name, *(f"{name} {i}" for i in range(2, 99))) if n not in self.parts)
        self.parts[free] = {"kind": kind} | {word.replace("_", " "): value for word, value in words.items()}
        return free

    def one(self, name: str, kind: str, **words: object) -> str:
        """Describe a part that many circuits share, where it is not yet; return its name."""
        return name if name in self.parts else self.part(name, kind, **words)

    def circuit(
        self,
        name: str,
        path: list[Leg],
        *branches: Branch,
        start: str = "",
        usual_fuse: str = "",
        **words: object,
    ) -> None:
        """Add a circuit; now and then with the fuse that is usual for it, or a size that the maker likes."""
        free = next(n for n in (name, *(f"{name} {i}" for i in range(2, 99))) if n not in self.circuits)
        more: Words = {word.replace("_", " ").strip(): value for word, value in words.items()}
        if not start and "fuse" not in more and usual_fuse and self.chance(0.4):
            more["fuse"] = usual_fuse
        if not start and self.chance(0.2):
            more["size"] = "2.5 mm²" if self.metric else "14 AWG"
        self.circuits[free] = GeneratedCircuit(free, path, list(branches), start, more)


def ordinary_build(seed: int) -> OrdinaryBuild:
    """Return the build of a seed: road lamps alone, a few lamps, or a trailer with all that is usual."""
    rng = random.Random(seed)  # noqa: S311  a seed of our own
    country = rng.choice(["US", "US", "US", "CA", "DE", "GB", "AU", "other"])
    metric = country != "US"
    bench = Bench(rng, metric, rng.uniform(2.8, 4.5), few_sizes=rng.random() < 0.3)
    level = rng.choice(["road lamps", *["lights"] * 3, *["usual"] * 5, *["whole"] * 4])
    plugs = {"AU": ["7-pin Australian"], "US": ["7-way blade", "4-way flat"], "CA": ["7-way blade"]}
    bench.plug = rng.choice(plugs.get(country, ["13-pin", "7-pin 12N"]))
    _road_lamps(bench)
    tree: Words = {
        "format": "1",
        "build": {
            "name": rng.choice(["Heron Field", "Quarry Bend", "Otter Path"]),
            "number": "4",
            "country": country,
        },
        "trailer": {
            "length": length(rng, metric, bench.long_m, bench.long_m + 0.1).text,
            "width": bench.near().text,
        },
        "tow plug": {"pattern": bench.plug, "to front box": length(rng, metric, 1.5, 2.5).text},
    }
    gauges = country in ("US", "CA")
    if level != "road lamps":
        bench.isolated = bench.chance(0.6)
        battery = _battery(bench, gauges=gauges)
        count = {"lights": 3, "usual": 6, "whole": 10}[level]
        for recipe in rng.sample(
            RECIPES[:4] if level == "lights" else RECIPES, min(count, 4 if count == 3 else 99)
        ):
            recipe(bench)
        _alarm(bench)
        _charging(bench, battery)
        tree |= {"battery": battery, "front box": _front_box(bench)}
    tree["wire"] = _wire(bench, gauges=gauges)
    if bench.plug in ("7-way blade", "7-pin Australian") and random.Random(f"brakes {seed}").random() < 0.4:  # noqa: S311
        tree["brakes"] = _brakes(bench)
    tree["parts"], tree["road lamps"] = bench.parts, bench.road
    tree["circuits"] = {name: _changeable(circuit.tree) for name, circuit in bench.circuits.items()}
    if any(words["kind"] == "shore converter" for words in bench.parts.values()):
        tree["mains"] = {"what": "inlet, breaker and one socket", "done by": "a licensed electrician"}
    return OrdinaryBuild(tree, seed)


def _changeable(tree: object) -> Words:
    assert isinstance(tree, dict)
    return tree


def _battery(b: Bench, *, gauges: bool) -> Words:
    path = [{"main fuse": b.inches().text}]
    path += [{"isolating switch": b.near().text}] if b.isolated else []
    words: Words = {
        "chemistry": b.rng.choice(["agm", "agm", "lithium", "gel", "flooded"]),
        "capacity": f"{b.rng.choice([35, 50, 60, 80, 100, 120])} Ah",
        "path": [*path, {"front box": length(b.rng, b.metric, 0.4, 1.6).text}],
        "box": "its own box, vented to the outside",
    }
    if b.chance(0.7):
        words["frame bond"] = "8 AWG" if gauges else "10 mm²"
    if b.chance(0.3):
        words["size"] = "8 AWG" if gauges else "10 mm²"
    return words


def _front_box(b: Bench) -> Words:
    plain = sum(not circuit.start for circuit in b.circuits.values())
    words: Words = {"fuse ways": str(plain + b.rng.randint(1, 4)), "where": "front cabinet"}
    if b.chance(0.7):
        words["fuses"] = b.rng.choice(["blade regular", "blade mini"])
    if b.chance(0.5):
        words |= {"ground bar": "40", "strip": "20"}
    return words


def _wire(b: Bench, *, gauges: bool) -> Words:
    inch, metric = (
        ["16 AWG", "14 AWG", "12 AWG", "10 AWG", "8 AWG"],
        ["1.5 mm²", "2.5 mm²", "4 mm²", "6 mm²", "10 mm²"],
    )
    shelf = (inch if gauges else metric)[: 4 if b.few_sizes else 5]
    words: Words = {"on the shelf": shelf, "feed": "red", "return": "black"}
    words["sold as"] = b.rng.choice(["pair", "single"])
    if b.chance(0.6):
        words["insulation"] = "105 C"
    if b.chance(0.2):
        words |= {"feed": b.rng.choice(["red", "brown"]), "return": "blue" if b.metric else "black"}
    return words


def _road_lamps(b: Bench) -> None:
    behind = (
        [Leg(b.one("hatch plug", "connector", ways="20", rating="15 A"), b.far(0.9, 1.2))]
        if b.chance(0.6)
        else []
    )
    b.road["lamps"] = b.rng.choice(["led", "led", "led", "filament"])

    def lamp(name: str, shows: object, side: str, *on_the_way: Leg) -> None:
        tail = Leg(name, b.near() if on_the_way else b.far(0.8, 1.2))
        b.road[name] = {"shows": shows, "path": [leg.tree for leg in (*on_the_way, tail)]}
        b.road[name] |= {"side": side} if side else {}

    lamp("rear lamp", ["tail", "stop", "turn", *([] if b.metric else ["marker"])], "both", *behind)
    lamp("plate lamp", "plate", "", *behind)
    lamp("front marker", "marker", "both")
    if b.plug in ("13-pin", "7-pin 12N"):
        lamp("fog lamp", "fog", "right", *behind)


def _brakes(b: Bench) -> Words:
    magnets = [b.part(f"{side} brake", "brake magnet") for side in ("left", "right")]
    thick = "4 mm²" if b.metric else "12 AWG"
    b.circuit(
        "brakes",
        [Leg(magnets[0], b.far(0.6, 0.9)), Leg(magnets[1], b.near())],
        start="tow plug brake",
        size=thick,
    )
    return {"kind": "electric", "drum": "10 in", "magnets": "2", "breakaway battery": "5 Ah"}


def _switched_lamp(b: Bench) -> None:
    switch = b.part("wall switch", "switch", **({"rating": "10 A"} if b.chance(0.5) else {}))
    draws = b.rng.choice(["3 W", "5 W", "8 W"])
    lamps = [Leg(b.part("cabin lamp", "lamp", draws=draws), b.near()) for _ in range(b.rng.randint(1, 2))]
    b.circuit("cabin light", [Leg(switch, b.far(0.2, 0.7)), *lamps], usual_fuse="5 A")


def _reading(b: Bench) -> None:
    lamps = [b.part("reading lamp", "lamp", draws="2 W", own_switch="yes") for _ in range(2)]
    color = {"color": b.rng.choice(["orange", "orange with white", "violet"])} if b.chance(0.5) else {}
    b.circuit("reading light", [Leg(lamps[0], b.far(0.2, 0.6)), Leg(lamps[1], b.near())], **color)


def _strip(b: Bench) -> None:
    draws = b.rng.choice(["4.8 W per m", "7 W per m"] if b.metric else ["1.5 W per ft", "2 W per ft"])
    strip = b.part("awning strip", "lamp", draws=draws, lit_length=length(b.rng, b.metric, 0.8, 2.8).text)
    first = b.part("strip dimmer", "dimmer") if b.chance(0.5) else b.part("strip switch", "switch")
    b.circuit("awning light", [Leg(first, b.far(0.1, 0.4)), Leg(strip, b.near())])


def _two_way(b: Bench) -> None:
    switches = [b.part("door switch", "two-way switch") for _ in range(2)]
    lamp = b.part("step lamp", "lamp", draws="3 W")
    b.circuit("step light", [*(Leg(switch, b.far(0.2, 0.5)) for switch in switches), Leg(lamp, b.near())])


def _fan(b: Bench) -> None:
    fan = b.part("roof fan", "fan", draws=b.rng.choice(["1.5 A", "2.2 A", "3 A"]), own_switch="yes")
    b.circuit("roof fan", [Leg(fan, b.far(0.4, 0.9))], usual_fuse="5 A")


def _pump(b: Bench) -> None:
    pump = b.part("water pump", "pump", draws=b.rng.choice(["3 A", "4 A", "5 A"]))
    if b.chance(0.5):
        switch = b.part("pump switch", "switch", rating=b.rng.choice(["15 A", "20 A"]))
        b.circuit("water pump", [Leg(switch, b.far(0.6, 1.0)), Leg(pump, b.near())], usual_fuse="10 A")
        return
    relay = b.part("pump relay", "relay", rating="30 A")
    switch = Leg(b.part("pump switch", "switch"), b.far(0.6, 1.0))
    coil = Branch("fuse", (switch, Leg(relay, b.far(0.6, 1.0), {"as": "coil"})))
    b.circuit("water pump", [Leg(relay, b.near()), Leg(pump, b.far(0.6, 1.0))], coil)


def _phone(b: Bench) -> None:
    converter = b.part("phone converter", "converter", gives="3 A", gives_at="5 V")
    socket = b.part("phone socket", "socket", draws="10 W", at="5 V", works_from="4.7 V")
    b.circuit("phone socket", [Leg(converter, b.far(0.2, 0.6)), Leg(socket, b.inches())])


def _socket(b: Bench) -> None:
    socket = b.part("kitchen socket", "socket", draws=b.rng.choice(["30 W", "45 W", "60 W"]))
    b.circuit("kitchen socket", [Leg(socket, b.far(0.5, 1.0))], usual_fuse="10 A")


def _fridge(b: Bench) -> None:
    draws = {} if b.chance(0.3) else {"draws": "45 W", "works_from": b.rng.choice(["10.4 V", "9.6 V"])}
    b.circuit("cool box", [Leg(b.part("cool box", "fridge", **draws), b.far(0.3, 0.9))], usual_fuse="15 A")


def _heater(b: Bench) -> None:
    b.circuit("air heater", [Leg(b.part("air heater", "air heater", draws="2 A"), b.far(0.2, 0.6))])


def _hatch(b: Bench) -> None:
    plug = b.one("hatch plug", "connector", ways="20", rating="15 A")
    lamp = b.part("hatch lamp", "lamp", draws="5 W")
    path = [Leg(plug, b.far(0.9, 1.2)), Leg(b.part("hatch switch", "switch"), b.near()), Leg(lamp, b.near())]
    b.circuit("hatch light", path, **({"color": "orange with green"} if b.chance(0.4) else {}))


def _awning(b: Bench) -> None:
    receiver = b.part("awning receiver", "receiver", outputs="2", draws_when_idle="12 mA")
    lamps = [b.part("porch lamp", "lamp", draws="6 W") for _ in range(2)]
    second = Branch(receiver, (Leg(lamps[1], b.far(0.5, 0.9)),), {"output": "2"})
    b.circuit("porch light", [Leg(receiver, b.near()), Leg(lamps[0], b.far(0.5, 0.9))], second)


def _meter(b: Bench) -> None:
    b.circuit("tank meter", [Leg(b.part("tank meter", "meter", draws="30 mA"), b.far(0.5, 1.0))])


Recipe = Callable[[Bench], None]
RECIPES: tuple[Recipe, ...] = (
    _switched_lamp, _reading, _strip, _two_way, _fan, _pump, _phone, _socket, _fridge, _heater, _hatch,
    _awning, _meter, _switched_lamp,
)  # fmt: skip


def _alarm(b: Bench) -> None:
    if b.chance(0.5):
        alarm = Leg(b.part("gas alarm", "alarm", draws="80 mA"), b.far(0.2, 0.6))
        if b.isolated:
            b.circuit("gas alarm", [alarm], start="main fuse", fuse="3 A")
        else:
            b.circuit("gas alarm", [alarm], fuse="3 A")


def _charging(b: Bench, battery: Words) -> None:
    """Add what charges the battery; now and then nothing does."""
    share = LITHIUM_SHARE if battery["chemistry"] == "lithium" else LEAD_SHARE
    most_a = share * float(str(battery["capacity"]).split()[0])
    gives = next(f"{a} A" for a in (30, 20, 15, 10, 8, 6) if a <= most_a and not (b.few_sizes and a > 15))
    if b.plug in ("7-way blade", "13-pin") and float(gives.split()[0]) <= 10 and b.chance(0.6):
        charger = b.part("charger", "dc charger", gives=gives)
        path = [
            Leg("car fuse", b.inches()),
            Leg(charger, length(b.rng, b.metric, 1.5, 2.5)),
            *_to_the_battery(b),
        ]
        b.circuit("charge line", path, start="tow plug battery")
    if b.chance(0.5):
        module = b.part("solar module", "solar module", gives=b.rng.choice(["50 W", "100 W"]))
        path = [Leg(b.part("controller", "charge controller"), b.far(0.6, 1.0)), *_to_the_battery(b)]
        b.circuit("solar", path, start=module)
    if b.chance(0.5):
        shore = b.part("shore converter", "shore converter", gives=gives)
        b.circuit("shore charging", [Leg("shore fuse", b.near()), Leg("front box", b.inches())], start=shore)


def _to_the_battery(b: Bench) -> list[Leg]:
    name = next(n for n in (f"battery fuse {i}" for i in range(1, 9)) if n not in b.parts)
    return [Leg(b.part(name, "fuse"), length(b.rng, b.metric, 0.3, 1.2)), Leg("battery", b.inches())]
