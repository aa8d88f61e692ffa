"""The findings."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from builder.pages.escaping import slug
from builder.pages.view import View
from builder.rules.finding import Finding
from builder.rules.registry import RULES


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
