"""Build files that are valid by construction, with a description of what they say beside their text."""

from __future__ import annotations

import random
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from generated_layout import Page, Path, Tree, lay_out
from generated_spelling import WHERE, Length, Names, colour, current, length, power, size
from hypothesis import strategies as st

FORMS = (
    "load alone", "own switch", "switch", "lighted switch", "side by side", "branch from item", "from fuse",
    "output", "relay coil", "relay contact", "as", "change-over", "relay over two circuits",
    "receiver outputs", "named outputs", "dimmer", "two-way", "four-way", "connector between two-way",
    "converter", "connector", "splice", "bar", "named return", "return length", "return frame",
    "return ground bar", "branch return", "fuse in path", "breaker in path", "undeclared fuse", "leads",
    "lit length", "draw in watts", "draw in amperes", "draw left out", "idle draw", "at voltage",
    "works from", "from main fuse", "from isolating switch", "from battery", "from solar module",
    "from shore converter", "from tow plug battery", "from tow plug contact", "charge line", "short fuse",
    "fuse given", "way", "circuit size", "circuit colour", "item size", "item colour", "through",
    "terminal", "battery path", "battery short form", "frame bond", "4-way flat", "7-way blade",
    "7-pin 12N", "13-pin", "7-pin Australian", "side both", "side left", "side right", "side middle",
    "side left out", "wire", "road path", "own wires", "road draws", "lamps led", "lamps filament",
    "lamps left out", "spares", "waiting", "assume", "mains", "feet", "metric", "tracer", "odd names",
    "road lamps only", "no road lamps", "where", "note", "box face",
)  # fmt: skip
"""Every path form and word that the strategy is to show in a fair share of its builds."""

LOADS = (
    "lamp", "lamp", "fan", "pump", "socket", "heater", "air heater", "fridge", "alarm", "meter", "radio",
    "appliance",
)  # fmt: skip
KINDS = (
    *dict.fromkeys(LOADS), "switch", "dimmer", "receiver", "isolating switch", "fuse", "breaker",
    "two-way switch", "four-way switch", "relay", "connector", "splice", "bar", "converter",
    "charge controller", "dc charger", "solar module", "shore converter",
)  # fmt: skip
LEAST_WAYS = 12
SECTION_KINDS = ("converter", "charge controller", "dc charger")
"""Parts behind which distances are counted anew, since another supply begins there."""

PLUGS: Mapping[str, tuple[str, str, str]] = {
    "4-way flat": ("tail stop turn marker plate", "tail marker plate", ""),
    "7-way blade": ("tail stop turn marker plate reverse", "tail marker plate reverse", "battery reverse"),
    "7-pin 12N": ("tail stop turn marker plate fog", "tail stop marker plate fog", "fog"),
    "13-pin": (
        "tail stop turn marker plate fog reverse",
        "tail stop marker plate fog reverse",
        "battery switched-supply",
    ),
    "7-pin Australian": ("tail stop turn marker plate reverse", "tail stop marker plate reverse", "reverse"),
}
"""What lamps at a side and in the middle can show, and the contacts that feed something else."""

ASSUMED = {
    "copper temperature": "65 °C",
    "surrounding temperature": "104 °F",
    "wires side by side": "4 wires",
    "drop aimed at": "5 %",
    "fuse loading": "75 %",
    "lowest lead battery voltage": "11.8 V",
    "converter efficiency": "88 %",
    "frame bond length": "2 ft",
    "solar voltage": "18.5 V",
}


@dataclass(frozen=True, slots=True)
class Leg:
    """One item of a path: a part, the wire to it, and further words; ``coil`` for the coil of a relay."""

    part: str
    length: Length
    words: Mapping[str, Tree] = field(default_factory=dict)
    coil: bool = False

    @property
    def tree(self) -> Tree:
        """The item as a build file has it."""
        return {self.part: {"length": self.length.text, **self.words} if self.words else self.length.text}


@dataclass(frozen=True, slots=True)
class Branch:
    """A branch; ``start`` is ``fuse`` or a part of the circuit."""

    start: str
    path: tuple[Leg, ...]
    words: Mapping[str, Tree] = field(default_factory=dict)


@dataclass(slots=True)
class GeneratedCircuit:
    """One circuit; ``start`` is empty where it starts at a fuse in the front box."""

    name: str
    path: list[Leg]
    branches: list[Branch] = field(default_factory=list)
    start: str = ""
    words: dict[str, Tree] = field(default_factory=dict)

    @property
    def legs(self) -> list[Leg]:
        """All items in reading order."""
        return [*self.path, *(leg for branch in self.branches for leg in branch.path)]

    @property
    def returns_named(self) -> bool:
        """Whether a ``return:`` sends returns another way than the feeds came."""
        return "return" in self.words or any("return" in branch.words for branch in self.branches)

    @property
    def tree(self) -> Tree:
        """The circuit as a build file has it."""
        start: dict[str, Tree] = {"from": self.start} if self.start else {}
        branches: list[Tree] = [
            {"from": b.start, **b.words, "path": [leg.tree for leg in b.path]} for b in self.branches
        ]
        more: dict[str, Tree] = {"branches": branches} if branches else {}
        return {**start, "path": [leg.tree for leg in self.path], **more, **self.words}


@dataclass(frozen=True, slots=True)
class GeneratedRoadLamp:
    """One road lamp or pair: what it shows, its side as written (empty where left out), its way from the box."""

    name: str
    shows: tuple[str, ...]
    side: str
    path: tuple[Leg, ...]

    @property
    def lamps(self) -> tuple[str, ...]:
        """The names of the single lamps."""
        return (f"{self.name} left", f"{self.name} right") if self.side == "both" else (self.name,)


@dataclass(frozen=True, slots=True, repr=False)
class GeneratedBuild:
    """A valid build file: its tree, what it says, and the forms and kinds it shows.

    ``behind_rest`` names the loads that are fed only while their relay is at rest; ``battery_reach_m`` tells how
    far from the post each part of the battery's line stands; ``cable_m`` is the length of the tow plug's cable.
    """

    tree: Mapping[str, Tree]
    seed: int
    parts: Mapping[str, Mapping[str, Tree]]
    circuits: tuple[GeneratedCircuit, ...]
    road_lamps: tuple[GeneratedRoadLamp, ...]
    forms: frozenset[str]
    kinds: frozenset[str]
    behind_rest: frozenset[str]
    battery_reach_m: Mapping[str, float]
    cable_m: float

    @property
    def page(self) -> Page:
        """The file's lines, with the line that each word of the tree stands on."""
        return lay_out(self.tree, self.seed)

    @property
    def text(self) -> str:
        """The build file."""
        return "\n".join(self.page.lines) + "\n"

    @property
    def data(self) -> bytes:
        """The build file's bytes."""
        return self.text.encode()

    @property
    def places(self) -> Mapping[Path, int]:
        """The line of every path into the tree."""
        return self.page.places

    def __repr__(self) -> str:
        """Show the file itself where a test fails."""
        return f"GeneratedBuild(seed {self.seed}):\n{self.text}"


@dataclass(slots=True)
class _Maker:
    """One build while it is made; ``rng``, whose seed hypothesis draws, decides everything but its outline."""

    rng: random.Random
    names: Names
    metric: bool
    parts: dict[str, dict[str, Tree]] = field(default_factory=dict)
    forms: set[str] = field(default_factory=set)
    kinds: set[str] = field(default_factory=set)
    behind_rest: set[str] = field(default_factory=set)
    connectors: list[str] = field(default_factory=list)
    asked_ways: dict[str, set[int]] = field(default_factory=dict)
    assume: dict[str, Tree] = field(default_factory=dict)

    def chance(self, share: float) -> bool:
        """Tell whether something with this share of cases is so."""
        return self.rng.random() < share

    def form(self, *names: str) -> None:
        """Note that the build shows these forms."""
        self.forms.update(names)

    def length(self, low_m: float = 0.3, high_m: float = 8.0) -> Length:
        """Return a length."""
        return length(self.rng, self.metric, low_m, high_m)

    def colour(self) -> str:
        """Return a wire colour; note its tracer."""
        word = colour(self.rng)
        if " with " in word or "/" in word:
            self.form("tracer")
        return word

    def part(self, kind: str, noun: str = "", **words: Tree) -> str:
        """Declare a part; return its name."""
        name = self.names.new(noun or kind)
        spelt: dict[str, Tree] = {"kind": kind.capitalize() if self.chance(0.05) else kind}
        spelt |= {word.replace("_", " "): value for word, value in words.items()}
        if self.chance(0.12):
            self.form("where")
            spelt["where"] = self.rng.choice(WHERE)
        if self.chance(0.04):
            self.form("note")
            spelt["note"] = "tested on the bench, works"
        self.parts[name] = spelt
        self.kinds.add(kind)
        return name

    def load(self, **words: Tree) -> str:
        """Declare a load of any kind; return its name."""
        kind = self.rng.choice(LOADS)
        words = {**self._draws(), **words}
        if self.chance(0.12):
            self.form("idle draw")
            words["draws_when_idle"] = current(self.rng, self.rng.choice([0.005, 0.02, 0.15]))
        if self.chance(0.12):
            self.form("works from")
            words["works_from"] = self.rng.choice(["10.5 V", "9 V", "11.0 volts"])
        if self.chance(0.12):
            self.form("leads")
            words |= {
                "leads": self.length(0.1, 0.5).text,
                "leads_come_out": self.rng.choice(["left", "behind, towards the tongue"]),
            }
        return self.part(kind, self.rng.choice([kind, kind, "light"]) if kind == "lamp" else kind, **words)

    def _draws(self) -> dict[str, Tree]:
        way = self.rng.random()
        if way < 0.2:
            self.form("draw left out")
            return {}
        if way < 0.35:
            self.form("lit length")
            draw = self.rng.choice(["1.5 W per ft", "5 W/m", "4.8 W per m", "0.4 A per m", "120 mA per ft"])
            return {"draws": draw, "lit_length": self.length(0.5, 2.0).text}
        if way < 0.7:
            self.form("draw in watts")
            watts: dict[str, Tree] = {
                "draws": power(self.rng, self.rng.choice([1, 2, 3, 4.5, 6, 10, 18, 35, 60]))
            }
            if self.chance(0.25):
                self.form("at voltage")
                watts["at"] = self.rng.choice(["12.8 V", "13.2 V", "12 V"])
            return watts
        self.form("draw in amperes")
        return {"draws": current(self.rng, self.rng.choice([0.02, 0.08, 0.25, 0.5, 1.2, 3, 5, 7.5]))}

    def leg(self, part: str, coil: bool = False, **words: Tree) -> Leg:
        """Return an item of a path, now and then with further words."""
        for share, word, form, value in (
            (0.04, "size", "item size", lambda: size(self.rng, self.metric)),
            (0.04, "color", "item colour", self.colour),
            (
                0.04,
                "through",
                "through",
                lambda: self.rng.choice(["wall groove", ["floor chase", "rear corner"]]),
            ),
        ):
            if self.chance(share):
                self.form(form)
                words[word] = value()
        return Leg(part, self.length(), {word.rstrip("_"): value for word, value in words.items()}, coil)

    def connector(self) -> Leg:
        """Return an item that passes a connector: a new one, or one that other paths pass too."""
        if self.connectors and self.chance(0.4):
            name = self.rng.choice(self.connectors)
        else:
            name = self.part("connector", "hatch plug", ways=str(self.rng.randint(LEAST_WAYS, 24)))
            self.connectors.append(name)
        self.form("connector")
        if self.chance(0.5):
            self.form("terminal")
            asked = self.asked_ways.setdefault(name, set())
            way = self.rng.choice([n for n in range(1, LEAST_WAYS + 1) if n not in asked] or [0])
            if not way:
                return self.leg(name)
            asked.add(way)
            return self.leg(name, terminal=str(way))
        return self.leg(name)

    def circuit(
        self, path: list[Leg], branches: list[Branch] | None = None, start: str = "", **words: Tree
    ) -> GeneratedCircuit:
        """Return a circuit, now and then with words of its own for fuse, size and colours."""
        more: dict[str, Tree] = {}
        if self.chance(0.1) and not start:
            self.form("fuse given")
            more["fuse"] = self.rng.choice(["5 A", "10 A", "15A", "7.5 A"])
        if self.chance(0.08):
            self.form("circuit size")
            more["size"] = size(self.rng, self.metric)
        if self.chance(0.08):
            self.form("circuit colour")
            more |= {"color": self.colour(), "return color": self.colour()}
        if self.chance(0.05):
            self.form("note")
            more["note"] = "Drawn before the walls are closed; see the photo."
        name = self.names.new(self.rng.choice(["light", "circuit", "line", "supply"]))
        return GeneratedCircuit(
            name, path, branches or [], start, {word.rstrip("_"): v for word, v in words.items()} | more
        )


Recipe = Callable[[_Maker], list[GeneratedCircuit]]


def _alone(m: _Maker) -> list[GeneratedCircuit]:
    own = m.chance(0.4)
    m.form("own switch" if own else "load alone")
    return [m.circuit([m.leg(m.load(own_switch="yes") if own else m.load())])]


def _switched(m: _Maker) -> list[GeneratedCircuit]:
    m.form("switch")
    return [m.circuit([m.leg(m.part("switch")), m.leg(m.load())])]


def _lighted_switch(m: _Maker) -> list[GeneratedCircuit]:
    m.form("lighted switch")
    return [m.circuit([m.leg(m.part("switch", draws=current(m.rng, 0.02))), m.leg(m.load())])]


def _side_by_side(m: _Maker) -> list[GeneratedCircuit]:
    m.form("side by side")
    first = [m.leg(m.part("switch"))] if m.chance(0.5) else []
    return [m.circuit([*first, *(m.leg(m.load(own_switch="yes")) for _ in range(m.rng.randint(2, 4)))])]


def _branched(m: _Maker) -> list[GeneratedCircuit]:
    m.form("branch from item")
    path = [m.leg(m.part("switch")), m.connector(), m.leg(m.load())]
    branches = [Branch(m.rng.choice(path).part, (m.leg(m.part("switch")), m.leg(m.load())))]
    if m.chance(0.4):
        branches.append(Branch(m.rng.choice(branches[0].path).part, (m.leg(m.load()),)))
    if m.chance(0.8):
        m.form("branch return")
        branches.append(Branch(path[0].part, (m.leg(m.load()),), {"return": m.length().text}))
    return [m.circuit(path, branches)]


def _relay_on_one_fuse(m: _Maker) -> list[GeneratedCircuit]:
    m.form("from fuse", "relay coil", "relay contact")
    relay = m.part("relay")
    control = Branch("fuse", (m.leg(m.part("switch", draws="20 mA")), m.leg(relay, coil=True)))
    return [m.circuit([m.leg(relay), m.leg(m.load())], [control])]


def _relay_as(m: _Maker) -> list[GeneratedCircuit]:
    m.form("from fuse", "as", "relay coil", "relay contact")
    relay = m.part("relay", draws="0.15 A") if m.chance(0.5) else m.part("relay")
    contact = Branch("fuse", (m.leg(relay, as_="contact"), m.leg(m.load())))
    return [m.circuit([m.leg(m.part("switch")), m.leg(relay, coil=True, as_="coil")], [contact])]


def _change_over(m: _Maker) -> list[GeneratedCircuit]:
    m.form("change-over", "output", "as", "from fuse", "relay coil", "relay contact")
    relay, rest = m.part("relay"), m.load()
    m.behind_rest.add(rest)
    coil = (m.leg(m.part("switch")), m.leg(relay, coil=True, as_="coil"))
    branches = [Branch(relay, (m.leg(rest),), {"output": "rest"}), Branch("fuse", coil)]
    return [m.circuit([m.leg(relay), m.leg(m.load())], branches)]


def _relay_over_two(m: _Maker) -> list[GeneratedCircuit]:
    m.form("relay over two circuits", "relay coil", "relay contact")
    relay = m.part("relay")
    control = m.circuit([m.leg(m.part("switch")), m.leg(relay, coil=True)])
    return [control, m.circuit([m.leg(relay), m.leg(m.load())])]


def _receiver(m: _Maker) -> list[GeneratedCircuit]:
    m.form("output")
    count = m.rng.randint(2, 4)
    outputs = [f"out{n}" if m.chance(0.5) else f"lamp way {n}" for n in range(1, count + 1)]
    named = m.chance(0.5)
    m.form("named outputs" if named else "receiver outputs")
    receiver = m.part("receiver", outputs=list(outputs) if named else str(count))
    chosen = m.rng.sample(range(1, count), m.rng.randint(1, count - 1))
    branches = [
        Branch(receiver, (m.leg(m.load()),), {"output": outputs[n] if named else str(n + 1)}) for n in chosen
    ]
    return [m.circuit([m.leg(receiver), m.leg(m.load())], branches)]


def _dimmer(m: _Maker) -> list[GeneratedCircuit]:
    m.form("dimmer")
    return [
        m.circuit([m.leg(m.part("dimmer")), m.leg(m.load()), *([m.leg(m.load())] if m.chance(0.4) else [])])
    ]


def _two_way(m: _Maker) -> list[GeneratedCircuit]:
    m.form("two-way")
    path = [m.leg(m.part("two-way switch", "door switch"))]
    if m.chance(0.5):
        m.form("four-way")
        path += [m.leg(m.part("four-way switch", "middle switch")) for _ in range(m.rng.randint(1, 2))]
    if m.chance(0.4):
        m.form("connector between two-way")
        path.insert(m.rng.randint(1, len(path)), m.connector())
    path += [m.leg(m.part("two-way switch", "door switch")), m.leg(m.load())]
    branches = [Branch(path[-2].part, (m.leg(m.load()),))] if m.chance(0.3) else []
    return [m.circuit(path, branches)]


def _converter(m: _Maker) -> list[GeneratedCircuit]:
    m.form("converter")
    words: dict[str, Tree] = {"gives_at": m.rng.choice(["5 V", "5 V", "19.5 V"])}
    if m.chance(0.5):
        words |= {"gives": "3 A", "efficiency": m.rng.choice(["85 %", "92%", "90 percent"])}
    first = [m.leg(m.part("switch"))] if m.chance(0.5) else []
    path = [
        *first,
        m.leg(m.part("converter", **words)),
        *([m.connector()] if m.chance(0.3) else []),
        m.leg(m.load()),
    ]
    return [m.circuit(path, [Branch(first[0].part, (m.leg(m.load()),))] if first else [])]


def _connector(m: _Maker) -> list[GeneratedCircuit]:
    loads = [m.leg(m.load()) for _ in range(m.rng.randint(1, 2))]
    return [m.circuit([m.connector(), m.leg(m.part("switch")), *loads])]


def _joint(m: _Maker) -> list[GeneratedCircuit]:
    kind = m.rng.choice(["splice", "bar"])
    m.form(kind, "branch from item")
    joint = m.part(kind, f"roof {kind}")
    first = [m.leg(m.part("switch"))] if m.chance(0.5) else []
    branches = [Branch(joint, (m.leg(m.load()),)) for _ in range(m.rng.randint(1, 3))]
    return [m.circuit([*first, m.leg(joint), m.leg(m.load())], branches)]


def _named_return(m: _Maker) -> list[GeneratedCircuit]:
    kind = m.rng.choice(["splice", "bar"])
    m.form(kind, "named return")
    joint = m.part(kind, f"floor {kind}")
    back: Tree = {"to": joint, "length": m.length().text} if m.chance(0.6) or joint[0].isdigit() else joint
    circuits = [
        m.circuit([m.leg(joint), m.leg(m.load())]),
        m.circuit([m.leg(m.part("switch")), m.leg(m.load())], return_=back),
    ]
    return circuits if m.chance(0.5) else circuits[::-1]


def _other_return(m: _Maker) -> list[GeneratedCircuit]:
    forms = m.rng.sample(["return length", "return frame", "return ground bar"], 2)
    m.form(*forms)
    return [
        m.circuit([m.leg(m.part("switch")), m.leg(m.load())], return_=_way_back(m, form)) for form in forms
    ]


def _way_back(m: _Maker, form: str) -> Tree:
    written = m.length().text
    if form == "return frame":
        return "frame" if m.chance(0.5) else {"to": "frame", "length": written}
    if form == "return ground bar":
        return {"to": "ground bar", "length": written}
    return written if m.chance(0.6) else {"length": written}


def _fuse_in_path(m: _Maker) -> list[GeneratedCircuit]:
    forms = m.rng.sample(["fuse in path", "breaker in path", "undeclared fuse"], 2)
    m.form(*forms)
    return [m.circuit([m.leg(m.part("switch")), m.leg(_fuse(m, form)), m.leg(m.load())]) for form in forms]


def _fuse(m: _Maker, form: str) -> str:
    if form == "undeclared fuse":
        return m.names.new("side") + m.rng.choice([" fuse", " breaker", " isolating switch"])
    return m.part(form.split(maxsplit=1)[0], rating=m.rng.choice(["5 A", "10 A"]))


def _from_battery_line(m: _Maker) -> list[GeneratedCircuit]:
    starts = m.rng.sample(["main fuse", "isolating switch", "battery"], 2)
    m.form(*(f"from {start}" for start in starts), "short fuse")
    return [m.circuit([m.leg(m.load())], start=start, fuse=m.rng.choice(["3 A", "5 A"])) for start in starts]


def _solar(m: _Maker) -> list[GeneratedCircuit]:
    m.form("from solar module")
    module = (
        m.part("solar module", gives="100 W", gives_at="18 V") if m.chance(0.5) else m.part("solar module")
    )
    path = [m.leg(m.part("charge controller")), m.leg(m.part("fuse", rating="15 A")), m.leg("battery")]
    return [m.circuit(path, start=module)]


def _shore(m: _Maker) -> list[GeneratedCircuit]:
    m.form("from shore converter")
    source = m.part("shore converter", gives="10 A") if m.chance(0.5) else m.part("shore converter")
    end = m.rng.choice(["front box", "battery"])
    if m.chance(0.5):
        return [m.circuit([m.leg(m.part("breaker", rating="15 A")), m.leg(end)], start=source)]
    m.form("short fuse")
    return [m.circuit([m.leg(end)], start=source, fuse="15 A")]


def _charge_line(m: _Maker) -> list[GeneratedCircuit]:
    m.form("from tow plug battery", "charge line")
    charger = m.part("dc charger", gives="18 A") if m.chance(0.5) else m.part("dc charger")
    path = [
        m.leg(m.part("fuse", "car-side fuse", rating="25 A")),
        m.leg(charger),
        m.leg(m.part("fuse")),
        m.leg("battery"),
    ]
    return [m.circuit(path, start="tow plug battery")]


def _from_tow_contact(m: _Maker) -> list[GeneratedCircuit]:
    m.form("from tow plug contact", "short fuse")
    return [m.circuit([m.leg(m.load())], start="tow plug ?", fuse="10 A")]


HOUSE: tuple[Recipe, ...] = (
    _alone, _alone, _switched, _lighted_switch, _side_by_side, _branched, _relay_on_one_fuse, _relay_as,
    _change_over, _relay_over_two, _receiver, _receiver, _dimmer, _two_way, _two_way, _converter,
    _connector, _joint, _named_return, _other_return, _other_return, _fuse_in_path, _fuse_in_path,
    _branched,
)  # fmt: skip
SOURCES: tuple[Recipe, ...] = (
    _from_battery_line, _from_battery_line, _solar, _shore, _charge_line, _from_tow_contact,
)  # fmt: skip
_LEVELS = ("road lamps only", "house only", "house only", *["both"] * 7)
MOST_CIRCUITS = 8


@st.composite
def builds(draw: st.DrawFn) -> GeneratedBuild:
    """Return a strategy of valid builds of 1 to 8 circuits, or of road lamps alone."""
    level = draw(st.sampled_from(_LEVELS))
    circuit_count, source_count = draw(st.sampled_from(range(1, 9))), draw(st.sampled_from(range(3)))
    plug = draw(st.sampled_from(sorted(PLUGS)))
    lamp_count = draw(st.sampled_from(range(1, 7)))
    metric, odd = draw(st.booleans()), draw(st.sampled_from([True, False, False, False]))
    seed = draw(st.integers(0, 2**32 - 1))
    rng = random.Random(seed)  # noqa: S311  the seed comes from hypothesis
    taken = {
        "battery",
        "front box",
        "tow plug",
        "frame",
        "fuse",
        "ground bar",
        "main fuse",
        "isolating switch",
        "battery line",
        "lamps",
    }
    maker = _Maker(rng, Names(rng, odd, taken), metric)
    house = rng.sample(HOUSE, circuit_count)
    recipes: list[Recipe] = [] if level == "road lamps only" else [*house, *rng.sample(SOURCES, source_count)]
    rng.shuffle(recipes)
    return _build(maker, level, recipes, plug, lamp_count, seed)


def _build(
    m: _Maker, level: str, recipes: list[Recipe], plug: str, lamp_count: int, seed: int
) -> GeneratedBuild:
    circuits: list[GeneratedCircuit] = []
    for recipe in recipes:
        circuits += recipe(m) if len(circuits) < MOST_CIRCUITS - 1 else []
    feeds = PLUGS[plug][2]
    wanted = {circuit.start for circuit in circuits}
    if ("tow plug battery" in wanted and "battery" not in feeds) or ("tow plug ?" in wanted and not feeds):
        plug = m.rng.choice(["7-way blade", "13-pin"])
    needs_plug = level != "house only" or any(circuit.start.startswith("tow plug") for circuit in circuits)
    circuits = _towed(m, circuits, plug)
    m.form("metric" if m.metric else "feet", *([level] if level == "road lamps only" else []))
    tree: dict[str, Tree] = {"format": "1", "build": _identity(m)}
    if m.chance(0.7):
        tree["trailer"] = {
            "length": m.length(2.5, 6).text,
            "width": m.length(1.4, 2.4).text,
            "gross weight": m.rng.choice(["1400 lb", "640 kg", "750kg", "1,750 lb".replace(",", "")]),
        }
    reach: dict[str, float] = {}
    if circuits:
        _number_ways(m, circuits)
        tree |= {"battery": _battery(m, circuits, reach), "front box": _front_box(m)}
    cable = m.length(1, 4)
    if needs_plug:
        m.form(plug)
        tree["tow plug"] = {"pattern": plug, "to front box": cable.text}
    if m.chance(0.7):
        tree["wire"] = _wire(m)
    road, lamps = _road_lamps(m, plug, lamp_count) if level != "house only" else ({}, ())
    m.form(*([] if road else ["no road lamps"]))
    tree |= {"parts": m.parts, "circuits": {c.name: c.tree for c in circuits}, "road lamps": road}
    tree |= _extras(m)
    if circuits and m.chance(0.25):
        m.form("box face")
        tree["front box face"] = _box_face(m)
    m.form(*(["odd names"] if m.names.given_odd else []))
    forms, kinds = frozenset(m.forms), frozenset(m.kinds)
    tree = {heading: value for heading, value in tree.items() if value}
    return GeneratedBuild(
        tree,
        seed,
        m.parts,
        tuple(circuits),
        lamps,
        forms,
        kinds,
        frozenset(m.behind_rest),
        reach,
        cable.metres,
    )


def _towed(m: _Maker, circuits: list[GeneratedCircuit], plug: str) -> list[GeneratedCircuit]:
    """Let what is fed by the car start at a contact that the plug has."""
    contacts = PLUGS[plug][2].split()
    for circuit in circuits:
        if circuit.start == "tow plug ?":
            circuit.start = f"tow plug {m.rng.choice(contacts).replace('-', ' ')}"
    return circuits


def _identity(m: _Maker) -> Tree:
    country = m.rng.choice(["DE", "GB", "FR", "AU", "CA", "other"] if m.metric else ["US", "usa", "US"])
    words: dict[str, Tree] = {
        "name": m.rng.choice(["Heron Field", "Quarry Bend", "Étang d'Or", "No 7: <Mill>", "Moor | Fen"])
    }
    words |= {"number": m.rng.choice(["3", "07", "A-12"]), "country": country}
    if m.chance(0.3):
        words |= {
            "stage": "walls open",
            "units": "metric" if m.metric else "feet",
            "paper": m.rng.choice(["A4", "letter", "a5"]),
        }
    if m.chance(0.2):
        words["description"] = "An invented trailer, one bed and a galley: see the photos."
    return words


def _number_ways(m: _Maker, circuits: list[GeneratedCircuit]) -> None:
    plain = [circuit for circuit in circuits if not circuit.start]
    if plain and m.chance(0.25):
        m.form("way")
        chosen = m.rng.sample(plain, m.rng.randint(1, len(plain)))
        for circuit, way in zip(chosen, m.rng.sample(range(1, 13), len(chosen)), strict=True):
            circuit.words["way"] = str(way)


def _battery(m: _Maker, circuits: list[GeneratedCircuit], reach: dict[str, float]) -> Tree:
    words: dict[str, Tree] = {"chemistry": m.rng.choice(["agm", "lithium", "flooded", "gel", "LiFePO4"])}
    words["capacity"] = m.rng.choice(["35 Ah", "100Ah", "60 amp hours", "50.5 Ah"])
    fuse, switch, box = m.length(0.1, 0.5), m.length(0.2, 1), m.length(0.5, 3)
    if any(circuit.start == "isolating switch" for circuit in circuits) or m.chance(0.4):
        m.form("battery path")
        m.kinds.add("isolating switch")
        words["path"] = [{"main fuse": fuse.text}, {"isolating switch": switch.text}, {"front box": box.text}]
        reach |= {"main fuse": fuse.metres, "isolating switch": fuse.metres + switch.metres}
    else:
        m.form("battery short form")
        words |= {"to main fuse": fuse.text, "to front box": box.text}
        reach["main fuse"] = fuse.metres
    if "return frame" in m.forms or m.chance(0.3):
        m.form("frame bond")
        words["frame bond"] = size(m.rng, m.metric, heavy=True)
    if m.chance(0.3):
        words |= {"size": size(m.rng, m.metric, heavy=True), "fuse": "40 A", "return": m.length(1, 3).text}
    if m.chance(0.3):
        words |= {"where": m.rng.choice(WHERE), "box": "own box, vented outside"}
    return words


def _front_box(m: _Maker) -> Tree:
    words: dict[str, Tree] = {"fuse ways": str(m.rng.randint(12, 16))}
    if m.chance(0.6):
        words["fuses"] = m.rng.choice(["blade", "mini", "blade maxi", "Blade regular"])
    if m.chance(0.3):
        words |= {"ground bar": "24", "strip": "10", "where": m.rng.choice(WHERE)}
    if m.chance(0.2):
        words["fuses on the shelf"] = ["3 A", "5 A", "7.5 A", "10 A", "15 A", "20 A"]
    if m.chance(0.2):
        words["check against"] = m.rng.choice(["aircraft chart", "boat rule", "conductor ampacity"])
    return words


def _box_face(m: _Maker) -> Tree:
    """Return measures that do not contradict each other, some without a place."""
    words: dict[str, Tree] = {"inside": {"width": m.length(0.75, 1).text, "height": m.length(0.55, 0.8).text}}
    left = 0.02
    for name in ("fuse block", "strip", "ground bar", "supply bar"):
        piece: dict[str, Tree] = {"width": m.length(0.02, 0.06).text, "height": m.length(0.1, 0.3).text}
        if m.chance(0.6):
            piece |= {"from left": m.length(left, left + 0.02).text, "from top": m.length(0.01, 0.1).text}
        if name != "supply bar" and m.chance(0.5):
            piece |= {"rows": str(m.rng.randint(1, 3)), "numbered": m.rng.choice(["along", "across"])}
        if m.chance(0.8):
            words[name] = piece
        left += 0.14
    return words


def _wire(m: _Maker) -> Tree:
    metric, inch = ["1.5 mm²", "2.5 mm2", "4 mm²", "10 mm²"], ["16 AWG", "14 gauge", "12 AWG", "8 AWG"]
    words: dict[str, Tree] = {"on the shelf": (metric if m.metric else inch)[m.rng.randint(0, 2) :]}
    if m.chance(0.7):
        words |= {"sold as": m.rng.choice(["pair", "single"]), "feed": m.colour(), "return": m.colour()}
    if m.chance(0.4):
        words["insulation"] = m.rng.choice(["105 °C", "90 C", "221 °F"])
    return words


def _road_lamps(m: _Maker, plug: str, count: int) -> tuple[dict[str, Tree], tuple[GeneratedRoadLamp, ...]]:
    technology = m.rng.choice(["led", "filament", ""])
    m.form(f"lamps {technology or 'left out'}")
    tree: dict[str, Tree] = {"lamps": technology} if technology else {}
    shared: list[Leg] = []
    lamps = []
    for _ in range(count):
        side = m.rng.choice(["both", "left", "right", "middle", ""])
        m.form(f"side {side or 'left out'}")
        can = PLUGS[plug][0 if side in ("both", "left", "right") else 1].split()
        shows = tuple(m.rng.sample(can, m.rng.randint(1, min(4, len(can)))))
        words: dict[str, Tree] = {
            "shows": shows[0] if len(shows) == 1 and m.chance(0.6) else _spoken(m, shows)
        }
        name = m.names.new("lamp" if m.chance(0.7) else "marker")
        last = Leg(name, m.length())
        path = (last,)
        if m.chance(0.55):
            m.form("road path", "connector")
            if not shared or m.chance(0.2):
                m.connectors.append(m.part("connector", "road plug", ways="14"))
                shared.append(Leg(m.connectors[-1], m.length()))
            path = (m.rng.choice(shared), last)
            words["path"] = [leg.tree for leg in path]
        else:
            m.form("wire")
            words["wire"] = last.length.text
        words |= {"side": side} if side else {}
        if m.chance(0.2):
            m.form("own wires")
            words["own wires"] = "yes"
        if m.chance(0.3):
            m.form("road draws")
            words["draws"] = {
                function: m.rng.choice(["0.6 A", "2.1 A", "5 W", "21 watts"]) for function in shows
            }
        tree[name] = words
        lamps.append(GeneratedRoadLamp(name, shows, side, path))
    return tree, tuple(lamps)


def _spoken(m: _Maker, shows: tuple[str, ...]) -> list[Tree]:
    other = {"stop": "brake", "turn": "indicator"}
    return [other.get(word, word) if m.chance(0.1) else word for word in shows]


def _extras(m: _Maker) -> dict[str, Tree]:
    tree: dict[str, Tree] = {}
    if m.chance(0.25):
        m.form("spares")
        spare = {"from": "front box", "to": m.rng.choice(WHERE), "wire": m.length().text}
        tree["spares"] = {
            m.names.new("spare"): spare
            | ({"size": size(m.rng, m.metric), "color": m.colour()} if m.chance(0.5) else {})
        }
    if m.parts and m.chance(0.25):
        m.form("waiting")
        tree["waiting"] = {m.rng.choice(sorted(m.parts)): "ordered, not here yet"}
    if m.chance(0.2):
        m.form("mains")
        tree["mains"] = {"what": "inlet, breaker and one socket"} | (
            {"done by": "A. Licensed, paper 12"} if m.chance(0.5) else {}
        )
    if m.chance(0.3):
        m.form("assume")
        tree["assume"] = dict(m.rng.sample([*ASSUMED.items(), *_assumed_draws(m)], 2))
    return tree


def _assumed_draws(m: _Maker) -> list[tuple[str, str]]:
    watts = {"lamp", "socket", "fridge", "radio", "appliance"}
    loads = {
        name: str(words["kind"]).lower()
        for name, words in m.parts.items()
        if str(words["kind"]).lower() in LOADS
    }
    return [
        (f"draws of {name}", "7 W" if kind in watts else "0.15 A")
        for name, kind in loads.items()
        if "draws" not in m.parts[name]
    ]
