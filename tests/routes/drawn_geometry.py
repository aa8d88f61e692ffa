"""Small geometries for the tests of ways: a few places at whole feet, and chases among them."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import strategies as st

from builder.trailer.origin import NOWHERE
from builder.trailer.places import Chase, ChaseKind, Geometry, Place

POINTS = st.tuples(st.integers(-2, 4), st.integers(-2, 2), st.integers(0, 3))


def geometry_of(points: dict[str, tuple[float, float, float]], chases: dict[str, list[str]]) -> Geometry:
    """Return places at points, in metres, and grooves through them."""
    return Geometry(
        {name: Place(name, *point, NOWHERE) for name, point in points.items()},
        {name: Chase(name, tuple(through), ChaseKind.GROOVE, NOWHERE) for name, through in chases.items()},
    )


@st.composite
def geometries(draw: st.DrawFn) -> Geometry:
    """Draw two to seven places, no two of them at one point, and one to four chases, a hinge loop now and then."""
    points = draw(st.lists(POINTS, min_size=2, max_size=7, unique=True))
    names = [f"place {n}" for n in range(len(points))]
    chases: dict[str, Chase] = {}
    for number in range(draw(st.integers(1, 4))):
        through = draw(st.permutations(names))[: draw(st.integers(2, min(4, len(names))))]
        slack_m = draw(st.sampled_from([0.0, 0.0, 0.25, 1.5])) if len(through) == 2 else 0.0
        kind = ChaseKind.HINGE if slack_m else ChaseKind.GROOVE
        chases[f"chase {number}"] = Chase(f"chase {number}", tuple(through), kind, NOWHERE, slack_m=slack_m)
    places = {
        name: Place(name, *map(float, point), NOWHERE) for name, point in zip(names, points, strict=True)
    }
    return Geometry(places, chases)


def moved(geometry: Geometry, by: tuple[float, float, float], *, mirrored: bool = False) -> Geometry:
    """Return a geometry measured from another point, or mirrored left for right."""
    side = -1.0 if mirrored else 1.0
    places = {
        name: replace(
            place,
            back_m=place.back_m + by[0],
            right_m=side * place.right_m + by[1],
            up_m=place.up_m + by[2],
        )
        for name, place in geometry.places.items()
    }
    return replace(geometry, places=places)
