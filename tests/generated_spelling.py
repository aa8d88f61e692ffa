"""How quantities and names of generated builds are spelt: every way that a maker might write them."""

from __future__ import annotations

import random
from dataclasses import dataclass

INCH_M = 0.0254
"""An inch in metres: exact by international agreement."""


@dataclass(frozen=True, slots=True)
class Length:
    """A length in metres and the words it is written in."""

    metres: float
    text: str


def length(rng: random.Random, metric: bool, low_m: float = 0.3, high_m: float = 8.0) -> Length:
    """Return a length between two lengths in metres, in one of its usual spellings."""
    if metric if rng.random() < 0.9 else not metric:
        return _metric(rng, low_m, high_m)
    quarters = rng.randint(round(low_m / INCH_M), round(high_m / INCH_M)) * 4
    if rng.random() < 0.15:
        quarters += rng.choice([1, 2, 3])
    return Length(quarters / 4 * INCH_M, _feet_and_inches(rng, quarters))


def _metric(rng: random.Random, low_m: float, high_m: float) -> Length:
    centimetres = rng.randint(round(low_m * 100), round(high_m * 100))
    whole, rest = divmod(centimetres, 100)
    spellings = [
        f"{centimetres / 100:g} m",
        f"{centimetres / 100:.2f} m",
        f"{centimetres} cm",
        f"{centimetres * 10} mm",
        f"{centimetres / 100:g}m",
        f"{centimetres / 100:g} metres",
    ]
    if whole and rest:
        spellings.append(f"{whole} m {rest} cm")
    return Length(centimetres / 100, rng.choice(spellings))


def _feet_and_inches(rng: random.Random, quarters: int) -> str:
    feet, rest = divmod(quarters, 48)
    inches, part = divmod(rest, 4)
    fraction = ("", "1/4", "1/2", "3/4")[part]
    small = f"{inches} {fraction}".strip() if inches or not fraction else fraction
    if not feet:
        return rng.choice(
            [f"{small} in", f"{small} inches", f'{small}"', f"{small}in" if not fraction else f"{small} in"]
        )
    if not rest:
        return rng.choice(
            [f"{feet} ft", f"{feet} ft", f"{feet}ft", f"{feet} feet", f"{feet}'", f"{feet * 12} in"]
        )
    spellings = [f"{feet} ft {small} in", f"{feet}' {small}\"", f"{feet} feet {small} inches"]
    if not fraction:
        spellings += [f"{feet}'{small}\"", f"{feet * 12 + inches} in"]
    if rest % 24 == 0:
        spellings += [f"{feet}.5 ft", f"{feet} 1/2 ft"]
    return rng.choice(spellings)


def power(rng: random.Random, watts: float) -> str:
    """Return watts as they may be written."""
    return rng.choice(
        [f"{watts:g} W", f"{watts:g} W", f"{watts:g}W", f"{watts:g} watts", f"{watts / 1000:g} kW"]
    )


def current(rng: random.Random, amperes: float) -> str:
    """Return amperes as they may be written; small ones in milliamperes."""
    milli = f"{round(amperes * 1000, 3):g} mA"
    if amperes < 0.1:
        return rng.choice([milli, milli.replace(" ", ""), f"{amperes:g} A"])
    return rng.choice([f"{amperes:g} A", f"{amperes:g} A", f"{amperes:g}A", f"{amperes:g} amps", milli])


def size(rng: random.Random, metric: bool, heavy: bool = False) -> str:
    """Return a wire size; a heavy one is for the battery's line."""
    if metric:
        value = rng.choice(["10", "16", "25"] if heavy else ["1", "1.5", "2.5", "4", "6"])
        return rng.choice([f"{value} mm²", f"{value} mm2", f"{value}mm²", f"{value} sq mm"])
    value = rng.choice(["8", "6", "4", "1/0"] if heavy else ["18", "16", "14", "12", "10"])
    return rng.choice([f"{value} AWG", f"{value} AWG", f"{value} gauge", f"{value} ga"])


COLOURS = (
    "red", "black", "white", "yellow", "blue", "green", "brown", "orange", "violet", "grey", "pink", "tan",
    "purple",
)  # fmt: skip


def colour(rng: random.Random) -> str:
    """Return a wire colour, sometimes with a tracer."""
    base, tracer = rng.sample(COLOURS, 2)
    spellings = [
        f"{base} with {tracer}",
        f"{base}/{tracer}",
        f"{base} with {tracer} tracer",
        f"{base} with {tracer} stripe",
    ]
    return rng.choice([base, base.capitalize(), rng.choice(spellings)])


WHERE = (
    "left wall, knee high", "above the door", "galley", "under the bunk", "roof, by the vent", "A-frame",
    "rear wall: right", "behind the panel # 3", "in the owner's locker", 'beside the "wet" shelf',
    "küchenseite", "front 💡", "yes", "12",
)  # fmt: skip
_ADJECTIVES = (
    "step", "cabin", "galley", "reading", "awning", "porch", "bunk", "roof", "rear", "front", "left",
    "right", "night",
)  # fmt: skip
_ODD = (
    "{} à côté", "owner's {}", "{}/spare", 'the "good" {}', "<b>{}</b>", "{} | aft", "{} 💡", "{}, aft",
    "{}: warm", "[{}]", "{{{}}}", "# {}", "- {}", "*{}", "&{} & co", "!{}", "%{}", "@{}", "`{}`",
    "{} \\ back", "=SUM({})", "ランプ {}", "лампа {}", "3 {}", "½ {}", "~{}", "? {}", "{} – long", "{}…",
    "$${}$$", "{{% {} %}}", "__{}__", "![{}](x)", "../{}", "‘{}’", "{} # 2", "<script>{}</script>",
    "{} of the small trailer that stands behind the mill by the lane, first of its kind", "Ñandú {}",
)  # fmt: skip
_ODD_WHOLE = (
    "length", "size", "path", "name", "through", "color", "return", "kind", "yes", "null", "1e3", "0326",
    "1:30", "made", "to", "from", "lamps", "circuits", "as", "12 ft", "Straße", "output", "true", "rest",
)  # fmt: skip


@dataclass(slots=True)
class Names:
    """Gives every part, circuit and lamp of one build a name of its own; ``odd`` ones may need quotes."""

    rng: random.Random
    odd: bool
    taken: set[str]
    given_odd: bool = False

    def new(self, noun: str) -> str:
        """Return a name that ends in a noun, or holds it, and that no other thing has."""
        name = f"{self.rng.choice(_ADJECTIVES)} {noun}" if self.rng.random() < 0.7 else noun
        if self.odd and self.rng.random() < 0.4:
            self.given_odd, name = True, self.rng.choice(_ODD).format(name)
        elif self.odd and self.rng.random() < 0.1:
            self.given_odd, name = True, self.rng.choice(_ODD_WHOLE)
        if self.rng.random() < 0.1:
            name = name.capitalize()
        tried, count = name, 1
        while tried.casefold() in self.taken:
            count += 1
            tried = f"{name} {count}"
        self.taken |= {tried.casefold() + ending for ending in ("", " left", " right", " fuse")}
        return tried
