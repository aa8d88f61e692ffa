"""From a terminal of the model to the node of a drawing that it sits on, and what is written beside that."""

from __future__ import annotations

from dataclasses import dataclass

from builder.drawings.graph import Node, Pin
from builder.drawings.symbols_contact import LONGEST_OUTPUT
from builder.drawings.terminal_words import also_lines, shared_line, terminal_lines
from builder.drawings.text_width import visible
from builder.drawings.wording import Words
from builder.electrics.figures import Figures
from builder.tables.table import NoRow
from builder.trailer.circuits import Circuit
from builder.trailer.model import BATTERY, FRAME, FRONT_BOX, TOW_PLUG, Trailer
from builder.trailer.parts import Form, Part, Terminal
from builder.trailer.plug_functions import functions_said, shown_in
from builder.trailer.wires import Role, Wire


@dataclass(frozen=True, slots=True)
class Scene:
    """All that the nodes of one circuit's drawing are made from."""

    trailer: Trailer
    figures: Figures
    circuit: Circuit
    wires: tuple[Wire, ...]
    words: Words

    def part(self, name: str) -> Part | None:
        """Return a part of the trailer by its name."""
        return self.trailer.parts.get(name)

    def is_stop(self, name: str) -> bool:
        """Tell whether a part stands in the circuit's own path."""
        return any(stop.part == name for stop in self.circuit.stops)


def pin_of(scene: Scene, terminal: Terminal) -> Pin:
    """Return the node and the pin that a terminal is drawn at."""
    name, pin = terminal.part, terminal.pin
    if name in (FRONT_BOX, TOW_PLUG, FRAME):
        return Pin(f"{name}/{pin}", pin)
    if name == BATTERY:
        source = any(w.start == Terminal(BATTERY, "+") for w in scene.wires)
        charged = any(w.end == Terminal(BATTERY, "+") for w in scene.wires) and not source
        return Pin(name if charged else f"{name}/{pin}", pin)
    part = scene.part(name)
    if part is None:
        return Pin(f"{name}/{pin}", pin)
    return Pin(_node_of(scene, part, pin), pin)


def _node_of(scene: Scene, part: Part, pin: str) -> str:
    name = part.name
    if part.form is Form.THROUGH:
        return f"{name}/{pin.removesuffix(' in').removesuffix(' out')}"
    if part.form is Form.RELAY and scene.is_stop(name):
        return f"{name}/{'coil' if pin.startswith('coil') else 'contact'}"
    if part.form is Form.JOINT or (part.form is Form.SECTION and pin == "out −"):
        return f"{name}/{pin}"
    if part.form is Form.SUPPLY:
        return f"{name}/{pin}" if pin == "−" else name
    if scene.is_stop(name) or _is_lamp(scene, part):
        return name
    return f"{name}/{pin}"


def _is_lamp(scene: Scene, part: Part) -> bool:
    """Tell whether a part is a road lamp: on the drawing of a ground contact it stands without its feed."""
    return part.kind == "road lamp" and any(lamp.name == part.name for lamp in scene.trailer.road_lamps)


def node_at(scene: Scene, terminal: Terminal, key: str) -> Node:
    """Return the node of a terminal, with its texts."""
    boxes = {FRONT_BOX: _in_box, TOW_PLUG: _contact, FRAME: _frame, BATTERY: _battery}
    if terminal.part in boxes:
        return boxes[terminal.part](scene, terminal, key)
    part = scene.part(terminal.part)
    if part is None:
        return Node(key, terminal.part, "terminal", visible(terminal.part), (visible(terminal.pin),))
    return _of_part(scene, part, terminal, key)


def _in_box(scene: Scene, terminal: Terminal, key: str) -> Node:
    words, pin = scene.words, terminal.pin
    where = scene.trailer.front_box.where if scene.trailer.front_box else ""
    if pin.startswith("way "):
        number = pin.removeprefix("way ")
        fuse = next((f for f in scene.figures.fuses if str(f.way) == number), None)
        rating = (
            (amperes(fuse.rating_a) + (f", {fuse.color}" if fuse.color else ""),)
            if fuse and fuse.rating_a
            else ()
        )
        shared = shared_line([wire for _, wire in pins_at(scene, key)], words)
        details = (*rating, words.box, *shared)
        return Node(key, FRONT_BOX, "fuse way", words.way.format(number), details, where=where)
    if pin.startswith("strip: "):
        detail = (visible(pin.removeprefix("strip: ")),)
        return Node(key, FRONT_BOX, "terminal", words.strip_terminal, detail, where=where)
    name = words.ground_bar if pin == "ground bar" else words.supply_bar
    return Node(key, FRONT_BOX, "bar", name, (words.box,), bar=True, where=where)


def _contact(scene: Scene, terminal: Terminal, key: str) -> Node:
    plug = scene.trailer.tow_plug
    details: tuple[str, ...] = ()
    where, said = "", terminal.pin
    if plug is not None:
        try:
            contact = plug.pattern.contact(terminal.pin)
            said = contact.said
            details, where = (functions_said(scene.trailer, contact),), plug.half(contact).where
        except NoRow:
            details, where = (), plug.where
    details += also(scene, (terminal,))
    name = scene.words.contact.format(said)
    return Node(key, TOW_PLUG, "tow plug contact", name, details, where=where)


def _frame(scene: Scene, _: Terminal, key: str) -> Node:
    return Node(key, FRAME, "frame", scene.words.frame)


def _battery(scene: Scene, terminal: Terminal, key: str) -> Node:
    where = scene.trailer.battery.where if scene.trailer.battery else ""
    if key == BATTERY:
        both = Terminal(BATTERY, "+"), Terminal(BATTERY, "−")
        return Node(key, BATTERY, "battery", scene.words.battery, also(scene, both), load=True, where=where)
    name = f"{scene.words.battery} {terminal.pin}"
    return Node(key, BATTERY, "battery post", name, also(scene, (terminal,)), where=where)


def _of_part(scene: Scene, part: Part, terminal: Terminal, key: str) -> Node:
    kind, load, extra = _kind(scene, part, terminal, key)
    joint = part.form is Form.JOINT
    elsewhere = _stands_elsewhere(scene, part)
    lines = (
        () if elsewhere or key.endswith("/out −") else terminal_lines(part, pins_at(scene, key), scene.words)
    )
    details = (*extra, *_ratings(scene, part, key), *lines, *also(scene, _terminals(scene, key)))
    if elsewhere:
        details += _where_else(scene, part.name)
    if part.waiting:
        details += (scene.words.waiting,)
    return Node(
        key,
        part.name,
        kind,
        visible(part.name),
        details,
        bar=part.kind == "bar",
        joint=joint,
        load=load,
        elsewhere=elsewhere,
        waiting=bool(part.waiting),
        outputs=scene.words.outputs if any(len(name) > LONGEST_OUTPUT for name in part.outputs) else "",
        where=part.where,
    )


def _stands_elsewhere(scene: Scene, part: Part) -> bool:
    own = part.form in (Form.SUPPLY, Form.THROUGH) or scene.is_stop(part.name)
    return not own and not _is_lamp(scene, part)


def _kind(scene: Scene, part: Part, terminal: Terminal, key: str) -> tuple[str, bool, tuple[str, ...]]:
    """Return the symbol's kind, whether the node is a load, and the first lines under its name."""
    words, pin = scene.words, terminal.pin
    if part.form is Form.THROUGH:
        way = key.rpartition("/way ")[2]
        return "connector", False, (words.connector_way.format(way),)
    if part.form is Form.JOINT:
        return part.kind, False, (words.back if pin == "return" else words.feed,)
    if _stands_elsewhere(scene, part):
        return "drawn elsewhere", False, (visible(pin),)
    if key.endswith(("/out −", "/−")):
        return "battery post", False, (words.out_minus if pin == "out −" else words.minus,)
    return _kind_on_path(scene, part, key)


def _kind_on_path(scene: Scene, part: Part, key: str) -> tuple[str, bool, tuple[str, ...]]:
    if key.endswith("/coil"):
        return "relay coil", True, _coil_words(scene, part)
    if part.form is Form.RELAY:
        return "relay contact", False, (scene.words.relay_contact,)
    if part.kind == "road lamp":
        return _road_lamp(scene, part)
    return part.kind, part.form is Form.LOAD, ()


def _coil_words(scene: Scene, part: Part) -> tuple[str, ...]:
    others = sorted(
        {
            w.circuit
            for w in scene.trailer.wires
            for t in (w.start, w.end)
            if t.part == part.name and "contact" in t.pin
        }
    )
    if others and scene.circuit.number not in others:
        return (scene.words.coil, scene.words.works_in.format(", ".join(map(str, others))))
    return (scene.words.coil,)


def _road_lamp(scene: Scene, part: Part) -> tuple[str, bool, tuple[str, ...]]:
    shown = [w.end.pin for w in scene.wires if w.end.part == part.name and w.end.pin != "−"]
    if shown:
        return "road lamp", True, tuple(shown_in(scene.trailer.identity.country, what) for what in shown)
    feeds = [w.number for w in scene.trailer.wires if w.end.part == part.name and w.role is Role.FEED]
    return "lamp fed elsewhere", True, (scene.words.fed_by.format(", ".join(feeds)),)


def _ratings(scene: Scene, part: Part, key: str) -> tuple[str, ...]:
    if key != part.name and not key.endswith("/coil"):
        return ()
    lines: list[str] = []
    if part.kind in ("fuse", "breaker"):
        fuse = next((f for f in scene.figures.fuses if f.name == part.name), None)
        rating = fuse.rating_a if fuse else part.rating_a
        lines += [amperes(rating)] if rating else []
    if part.draw is not None:
        taken = f"{part.draw.value:.3g}\u00a0{part.draw.unit}"
        lines.append(scene.words.takes.format(taken) if part.form is Form.GATE else taken)
    if part.kind in ("converter", "dc charger", "charge controller", "shore converter") and part.gives_v:
        lines.append(scene.words.gives.format(f"{part.gives_v:g}\u00a0V"))
    if part.kind == "solar module" and part.gives_w:
        lines.append(f"{part.gives_w:g}\u00a0W")
    return (*lines, scene.words.own_switch) if part.own_switch else tuple(lines)


def amperes(rating_a: float) -> str:
    """Return a rating as printed on the part."""
    return f"{rating_a:g}\u00a0A"


def _terminals(scene: Scene, key: str) -> tuple[Terminal, ...]:
    found = dict.fromkeys(t for w in scene.wires for t in (w.start, w.end))
    return tuple(t for t in found if pin_of(scene, t).node == key)


def also(scene: Scene, terminals: tuple[Terminal, ...]) -> tuple[str, ...]:
    """Return the lines with the wires that land on the same terminals and stand on another drawing."""
    return also_lines(terminals, scene.trailer.wires, [wire.number for wire in scene.wires], scene.words)


def pins_at(scene: Scene, key: str) -> tuple[tuple[str, str], ...]:
    """Return the pins of a node with the number of each wire of the drawing that lands there."""
    return tuple(
        (terminal.pin, wire.number)
        for wire in scene.wires
        for terminal in (wire.start, wire.end)
        if pin_of(scene, terminal).node == key
    )


def _where_else(scene: Scene, name: str) -> tuple[str, ...]:
    numbers = [c.number for c in scene.trailer.circuits if any(stop.part == name for stop in c.stops)]
    return (scene.words.elsewhere.format(", ".join(map(str, numbers[:4]))),) if numbers else ()
