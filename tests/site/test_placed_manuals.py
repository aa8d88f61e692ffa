"""Generated builds with all of their geometry on record: the published figures are those of the record."""

from __future__ import annotations

from pathlib import Path
from tempfile import TemporaryDirectory

from generated_builds import GeneratedBuild, builds
from hypothesis import HealthCheck, Phase, given, settings
from placed_builds import placed
from published import Site, figures_on, published, text_of
from site_figures import expected

from builder.buildfile.resolving import read_build
from builder.electrics.computing import compute
from builder.pages.record import record

THOROUGH = settings.get_current_profile_name() == "ci"
QUIET = settings(
    deadline=None,
    derandomize=True,
    suppress_health_check=list(HealthCheck),
    phases=(Phase.explicit, Phase.generate),
)
PAGES = ("ways", "runs", "fasteners", "scale", "panel")


@settings(QUIET, max_examples=5 if THOROUGH else 2)
@given(build=builds())
def test_the_pages_of_places_show_the_figures_of_the_record(build: GeneratedBuild) -> None:
    for edition in ("owner", "workshop"):
        with TemporaryDirectory() as folder:
            site = published(placed(build).encode(), edition, Path(folder, "manual"))
            _held_against_its_record(site)


def _held_against_its_record(site: Site) -> None:
    looked_at = set()
    for page in site.pages:
        if site.kind(page) in PAGES:
            looked_at.add(site.kind(page))
            wanted = expected(site, page)
            shown = {str(one["data-figure"]): text_of(one) for one in figures_on(site.article(page))}
            assert shown == wanted, page
    assert looked_at == {
        "ways",
        "scale",
        "panel",
        *(("runs", "fasteners") if site.edition == "workshop" else ()),
    }


@settings(QUIET, max_examples=60 if THOROUGH else 20)
@given(build=builds())
def test_every_way_of_a_generated_build_is_told_of_somewhere(build: GeneratedBuild) -> None:
    """Whatever its places: no problem, each stretch in just one way, each way in an area, each with what it holds."""
    reading = read_build(placed(build).encode())
    assert reading.trailer is not None, [(one.origin.line, one.message) for one in reading.problems]
    figures = compute(reading.trailer)
    made = record(reading.trailer, figures, ())
    ways = made["ways"]
    assert isinstance(ways, list)
    stretches = [
        (way["chase"], frozenset(ends))
        for way in ways
        for ends in zip(way["places"], way["places"][1:], strict=False)
    ]
    chases = reading.trailer.geometry.chases.values()
    every = [
        (chase.name, frozenset(ends))
        for chase in chases
        for ends in zip(chase.through, chase.through[1:], strict=False)
    ]
    assert sorted(map(str, stretches)) == sorted(map(str, every))
    assert all(way["areas"] for way in ways)
    inside = {wire for way in ways for wire in way["wires"]}
    assert inside == {number for number, run in figures.runs.runs.items() if run.steps}
