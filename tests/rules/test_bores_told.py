"""A conduit without a bore: what its wires ask for is told, and a conduit that wide is not too full."""

from __future__ import annotations

import pytest
from limits_of_ways import SPARE, TUBE
from rule_builds import LAMP, build, changed, findings

from builder.rules.finding import Level

RULE = "conduit too full"
NO_BORE = build(changed(TUBE, ", bore: BORE", "") + changed(LAMP, "6 ft", "8 ft"))
CLOSED = ("country: US", "country: US, stage: walls closed")


def with_bore(text: str, bore: str) -> str:
    """Return a build with the bore of its conduit written."""
    return changed(text, "kind: conduit", f"kind: conduit, bore: {bore}")


# 16 AWG is 3.0 mm thick: two ask for sqrt(18 / 0.31) = 7.62 mm, three for sqrt(27 / 0.40) = 8.22 mm
@pytest.mark.parametrize(
    ("text", "count", "bore", "less"),
    [(NO_BORE, 2, "5/16 in", "1/4 in"), (NO_BORE + SPARE, 3, "3/8 in", "5/16 in")],
)
def test_the_bore_that_is_asked_for_is_the_least_that_is_not_too_full(
    text: str, count: int, bore: str, less: str
) -> None:
    (finding,) = findings(text, RULE)
    assert finding.level is Level.WORTH
    assert f"the wires in it ({count}) ask for {bore} at least" in finding.message
    assert f"as in bore: {bore}" in finding.help
    assert findings(with_bore(text, bore), RULE) == ()
    assert [one.level for one in findings(with_bore(text, less), RULE)] == [Level.SHOULD]


def test_once_walls_are_closed_it_is_measured_and_not_exchanged() -> None:
    (finding,) = findings(changed(NO_BORE, *CLOSED), RULE)
    assert "measure its inside diameter" in finding.help
    assert "choose" not in finding.help


def test_a_metric_bore_is_told_in_millimetres() -> None:
    metric = changed(changed(NO_BORE, "country: US", "country: GB"), "16 AWG", "1.5 mm²")
    (finding,) = findings(metric, RULE)
    assert "as in bore: 7 mm" in finding.help  # 2.4 mm thick by ISO 6722: sqrt(11.52 / 0.31) = 6.1 mm
    assert findings(with_bore(metric, "7 mm"), RULE) == ()


def test_an_empty_conduit_and_one_for_mains_ask_for_nothing() -> None:
    assert (
        findings(changed(NO_BORE, "lamp: 8 ft", "other: 8 ft").replace("{lamp: {k", "{other: {k"), RULE) == ()
    )
    groove = "groove: {through: [front box, corner, lamp]}, "
    mains = changed(NO_BORE, "chases: {", "chases: {" + groove)
    mains = changed(mains, "kind: conduit", "kind: conduit, carries: mains")
    mains += "mains: {what: inlet, done by: licensed electrician}\n"
    assert findings(mains, RULE) == ()


def test_where_no_table_has_a_diameter_no_bore_is_told() -> None:
    text = changed(NO_BORE, "16 AWG", "4/0 AWG")
    (finding,) = findings(text, RULE)
    assert "nobody can tell how full its 2 wires make it" in finding.message
    assert "the sizes that no table has: 4/0 AWG" in finding.help
