"""What we assumed, and the findings."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from markupsafe import Markup

from builder.pages.escaping import slug
from builder.pages.view import View, step
from builder.rules.finding import Finding
from builder.rules.registry import RULES


def assumed_page(view: View) -> dict[str, Any]:
    """Return what the template of the assumptions is filled with; those that the file replaced stand first."""
    made = sorted(view.figures.assumptions, key=lambda one: not one.replaced)
    return {
        "workshop": view.edition.reads(),
        "assumptions": [
            {
                "id": one.id,
                "about": one.about,
                "value": view.fig(f"assumptions/{step(one.id)}/value", one.unit),
                "range": Markup(" – ").join(
                    (
                        view.fig(f"assumptions/{step(one.id)}/low", "m" if one.unit == "m" else ""),
                        view.fig(f"assumptions/{step(one.id)}/high", one.unit),
                    )
                ),
                "reason": one.reason,
                "known": one.known,
                "replaced": one.replaced,
            }
            for one in made
        ],
    }


def findings_page(view: View) -> dict[str, Any]:
    """Return what the template of the findings is filled with."""
    return {
        "findings": finding_rows(view.findings),
        "rules": [
            {
                "name": rule.name,
                "link": f"check.html#{slug(rule.name)}",
                "what": rule.page.strip().splitlines()[0],
                "count": sum(finding.rule == rule.name for finding in view.findings),
            }
            for rule in RULES
        ],
    }


def finding_rows(findings: Iterable[Finding]) -> list[dict[str, Any]]:
    """Return what a template is given of each finding."""
    return [
        {
            "level": f.level.value,
            "message": f.message,
            "help": f.help,
            "basis": f.basis,
            "line": f.origin.line,
        }
        for f in findings
    ]
