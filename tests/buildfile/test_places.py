"""The place that a path of keys and positions leads to."""

from __future__ import annotations

import pytest

from builder.buildfile.nodes import Text
from builder.buildfile.written import Key, find_origin
from builder.trailer.origin import NOWHERE, Origin

PARTS, LAMP, KIND, PATH, FIRST, SECOND = (Origin(line, 1, 4) for line in range(1, 7))
TREE = {
    Key.of("parts", PARTS): {Key.of("lamp", LAMP): {Key.of("kind", KIND): Text("lamp", KIND)}},
    Key.of("path", PATH): [Text("switch", FIRST), {Key.of("step lamp", SECOND): Text("3 ft", SECOND)}],
}


@pytest.mark.parametrize(
    ("path", "place"),
    [
        ((), PARTS),
        (("parts",), PARTS),
        (("parts", "lamp"), LAMP),
        (("parts", "lamp", "kind"), KIND),
        (("parts", "lamp", "kind", "more"), KIND),
        # a part's words may stand behind its one name: the last place on the way, or the word itself
        (("parts", "kind"), KIND),
        (("parts", "draws"), LAMP),
        (("path",), PATH),
        (("path", 0), FIRST),
        (("path", 1), SECOND),
        (("path", 2), PATH),
        (("path", "switch"), PATH),
        (("unknown",), PARTS),
        (("unknown", "lamp"), PARTS),
    ],
)
def test_a_path_leads_to_its_place_or_to_the_last_on_the_way(
    path: tuple[int | str, ...], place: Origin
) -> None:
    assert find_origin(TREE, path) == place


def test_what_has_no_place_is_nowhere() -> None:
    assert find_origin(3, ("parts",)) == NOWHERE
    assert find_origin({}, ("parts",)) == NOWHERE
