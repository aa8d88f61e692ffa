"""The catalogue's template: every text of the theme, and the two kinds of sentences that stand in the code.

Those two are the rules' pages and the sentences of problems and findings, which stand beside the check that
raises them. A hole in a sentence becomes a name in braces.
"""

from __future__ import annotations

import ast
import io
import re
from collections.abc import Iterable, Iterator
from importlib import resources
from importlib.resources.abc import Traversable

from babel.messages.catalog import Catalog
from babel.messages.pofile import write_po
from jinja2.ext import babel_extract

from builder.pages.theme_files import theme_folder
from builder.tables.assumptions import defaults

RAISERS = {"Problem", "problem", "trouble", "Misread", "Remark", "PublishError"}
"""Calls whose texts a reader sees."""

SENTENCE = re.compile(r"[A-Z_]*(SAYS|HELP|MESSAGE|BASIS)")
"""Names of constants that hold a sentence."""

ROOMS = ("quantities", "buildfile", "rules", "publish")


def template_text() -> str:
    """Return the template of the catalogue as gettext text: the same sources give the same bytes."""
    made = Catalog(project="trailer-wiring-manual", charset="utf-8", fuzzy=False)
    for text, place in sorted(set(_everything())):
        made.add(text, locations=[(place, 0)])
    out = io.BytesIO()
    write_po(out, made, width=110, omit_header=True, include_lineno=False, sort_output=True)
    head = (
        '# Texts of the wiring manual.\nmsgid ""\nmsgstr ""\n"Content-Type: text/plain; charset=UTF-8\\n"\n\n'
    )
    return head + out.getvalue().decode("utf-8")


def _everything() -> Iterator[tuple[str, str]]:
    for default in defaults().values():
        yield from ((text, "builder/tables/data/assumptions.csv") for text in (default.about, default.reason))
    for path, source in _files(theme_folder(), ".jinja"):
        for _, _, text, _ in babel_extract(
            io.BytesIO(source.encode("utf-8")), ("_", "gettext"), (), _OPTIONS
        ):
            found = text if isinstance(text, str) else (text or ("",))[0]
            yield str(found), f"themes/manual/{path}"
    package = resources.files("builder")
    for path, source in _files(package / "pages", ".py"):
        yield from ((text, f"builder/pages/{path}") for text in _page_texts(ast.parse(source)))
    for room in ROOMS:
        for path, source in _files(package / room, ".py"):
            tree = ast.parse(source)
            place = f"builder/{room}/{path}"
            yield from ((text, place) for text in _sentences(tree))
            page = ast.get_docstring(tree)
            if room == "rules" and page and "Failing example" in page:
                yield page, place


_OPTIONS = {"trim_blocks": "true", "lstrip_blocks": "true", "silent": "false"}


def _files(folder: Traversable, ending: str, before: str = "") -> Iterator[tuple[str, str]]:
    for item in sorted(folder.iterdir(), key=lambda entry: entry.name):
        if item.is_dir() and item.name != "__pycache__":
            yield from _files(item, ending, f"{before}{item.name}/")
        elif item.name.endswith(ending):
            yield before + item.name, item.read_text(encoding="utf-8")


def _page_texts(tree: ast.AST) -> Iterator[str]:
    """Yield the titles of pages and what is asked of the catalogue by name."""
    for node in ast.walk(tree):
        if not isinstance(node, ast.Call):
            continue
        name = _called(node)
        if name in ("gettext", "say") and node.args:
            yield from _texts(node.args[:1])
        elif name == "Page" and len(node.args) > 1:
            yield from _texts(node.args[1:2])


def _sentences(tree: ast.AST) -> Iterator[str]:
    """Yield the sentences of problems and findings: texts with a blank in them, holes as names in braces."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and _called(node) in RAISERS:
            given = [*node.args, *(keyword.value for keyword in node.keywords)]
            yield from (text for text in _texts(given) if " " in text)
        elif _is_sentence(node) and isinstance(node, ast.Assign):
            yield from _texts([node.value])


def _is_sentence(node: ast.AST) -> bool:
    if not isinstance(node, ast.Assign) or not isinstance(node.targets[0], ast.Name):
        return False
    return SENTENCE.fullmatch(node.targets[0].id) is not None


def _called(node: ast.Call) -> str:
    if isinstance(node.func, ast.Attribute):
        return node.func.attr
    return node.func.id if isinstance(node.func, ast.Name) else ""


def _texts(nodes: Iterable[ast.expr]) -> Iterator[str]:
    for node in nodes:
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            yield node.value
        elif isinstance(node, ast.JoinedStr):
            yield "".join(_piece(part) for part in node.values)
        elif isinstance(node, ast.BinOp):
            yield from _texts([node.left, node.right])
        elif isinstance(node, ast.IfExp):
            yield from _texts([node.body, node.orelse])


def _piece(part: ast.expr) -> str:
    if isinstance(part, ast.Constant):
        return str(part.value)
    inside = part.value if isinstance(part, ast.FormattedValue) else part
    return "{" + ast.unparse(inside) + "}"
