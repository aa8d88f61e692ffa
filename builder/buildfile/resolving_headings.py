"""The single headings: identity, wire, front box, mains."""

from __future__ import annotations

from collections.abc import Mapping

from builder.buildfile.declared import BuildWords, MainsWords, TrailerWords
from builder.buildfile.declared_parts import FrontBoxWords, WireWords
from builder.buildfile.declared_road import BrakesWords
from builder.buildfile.problems import Problem
from builder.buildfile.stock_keys import size_named
from builder.tables.assumptions import defaults
from builder.trailer.color import Color
from builder.trailer.model import Brakes, FrontBox, Identity, Mains, WireShelf
from builder.trailer.origin import NOWHERE, Origin
from builder.trailer.size import Size, by_area

_FEET_COUNTRIES = ("US",)
_LETTER_COUNTRIES = ("US", "CA")


def country_of(build: BuildWords | None) -> str:
    """Return the country that a build is made for: the United States where the file names none."""
    return build.country.value if build is not None and build.country else "US"


def identity(build: BuildWords, trailer: TrailerWords | None) -> Identity:
    """Return the names and settings that every page carries; units and paper by country where left out."""
    country = country_of(build)
    return Identity(
        name=build.name.value,
        number=build.number.value if build.number else "",
        country=country,
        stage=build.stage.value if build.stage else "",
        units="metric" if is_metric(build) else "feet",
        paper=build.paper.value if build.paper else ("letter" if country in _LETTER_COUNTRIES else "A4"),
        description=build.description.value if build.description else "",
        length_m=trailer.length.value if trailer and trailer.length else None,
        width_m=trailer.width.value if trailer and trailer.width else None,
        gross_mass_kg=trailer.gross_weight.value if trailer and trailer.gross_weight else None,
        width_over_fenders_m=(
            trailer.width_over_fenders.value if trailer and trailer.width_over_fenders else None
        ),
        address=build.address.value.strip() if build.address else "",
        manual_kept=build.manual_kept.value if build.manual_kept else "",
        ask=build.ask.value if build.ask else "",
        numbers_issued=build.numbers.origin if build.numbers and build.numbers.value == "issued" else None,
    )


def check_trailer(words: TrailerWords | None) -> list[Problem]:
    """Return the problem of a width over fenders that is less than the body's own."""
    over, width = (words.width_over_fenders, words.width) if words else (None, None)
    if over is None or width is None or over.value >= width.value:
        return []
    return [
        Problem(
            over.origin,
            "narrower than the body",
            f"the width over fenders, {over.text}, is less than the width, {width.text}",
            "measure both again: over fenders is the widest place of the trailer; take it out where nothing stands out",
        )
    ]


def is_metric(build: BuildWords) -> bool:
    """Tell whether lengths are written in metres: what the file says, else what is usual in its country."""
    if build.units is not None:
        return build.units.value == "metric"
    return build.country is not None and build.country.value not in _FEET_COUNTRIES


def resolve_shelf(
    words: WireWords | None, build: BuildWords | None, places: Mapping[str, Origin]
) -> WireShelf:
    """Return the wire at hand; without a heading the sizes that are usual in the country."""
    metric = build is not None and build.country is not None and build.country.value not in ("US", "CA")
    usual = (
        [Size("mm2", v) for v in ("1.5", "2.5", "4", "6")]
        if metric
        else [Size("AWG", v) for v in ("16", "14", "12", "10")]
    )
    sizes = (
        list(dict.fromkeys(w.value for w in words.on_the_shelf)) if words and words.on_the_shelf else usual
    )
    given = words.insulation.value if words and words.insulation else None
    return WireShelf(
        sizes=tuple(sorted(sizes, key=by_area)),
        insulation_c=given if given is not None else defaults()["insulation temperature"].value,
        insulation_given=given is not None,
        sold_as=words.sold_as.value if words and words.sold_as else "pair",
        feed=words.feed.value if words and words.feed else Color("red"),
        ground=words.return_.value if words and words.return_ else Color("black"),
        origin=places.get("wire", NOWHERE),
        diameters_mm={size_named(key): found.value * 1000 for key, found in words.outside_diameters.items()}
        if words
        else {},
        label_m=words.label_length.value if words and words.label_length else None,
        rings={
            size_named(key): tuple(dict.fromkeys(one.value for one in made))
            for key, made in words.rings.items()
        }
        if words
        else {},
    )


def resolve_box(words: FrontBoxWords | None, places: Mapping[str, Origin]) -> FrontBox | None:
    """Return the front box, or None when the file has none."""
    if words is None:
        return None
    return FrontBox(
        fuse_ways=words.fuse_ways.value,
        fuse_format=words.fuses.value if words.fuses else "blade regular",
        origin=places.get("front box", NOWHERE),
        where=words.where.value if words.where else "",
        ground_bar=words.ground_bar.value if words.ground_bar else None,
        strip=words.strip.value if words.strip else None,
        fuses_on_shelf_a=tuple(sorted({rating.value for rating in words.fuses_on_the_shelf})),
        check_against=words.check_against.value if words.check_against else "",
        ways_origin=words.fuse_ways.origin,
    )


def mains(words: MainsWords | None, places: Mapping[str, Origin]) -> Mains | None:
    """Return what the file says of mains."""
    if words is None:
        return None
    return Mains(words.what.value, words.done_by.value if words.done_by else "", places.get("mains", NOWHERE))


def brakes(words: BrakesWords | None, places: Mapping[str, Origin]) -> Brakes | None:
    """Return what the file says of brakes: two of 10 inch drums where it does not say how many of which."""
    if words is None:
        return None
    return Brakes(
        kind=words.kind.value,
        drum=words.drum.value if words.drum else "10 in",
        magnets=words.magnets.value if words.magnets else 2,
        breakaway_ah=words.breakaway_battery.value if words.breakaway_battery else None,
        where=words.where.value if words.where else "",
        done_by=words.done_by.value if words.done_by else "",
        origin=places.get("brakes", NOWHERE),
    )
