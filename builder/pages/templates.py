"""Page templates: one Jinja environment, with every text from the catalogue of the language."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cache
from typing import Any

from jinja2 import BaseLoader, Environment, StrictUndefined, TemplateNotFound
from markupsafe import Markup

from builder.pages.catalogue import Catalogue, catalogue
from builder.pages.escaping import css_string, markdown_text
from builder.pages.theme_files import theme_text


class _ThemeLoader(BaseLoader):
    """Loads templates from the theme, in a checkout and in the wheel alike."""

    def get_source(
        self, environment: Environment, template: str
    ) -> tuple[str, str | None, Callable[[], bool] | None]:
        """Return a template's text; raises TemplateNotFound."""
        del environment
        try:
            return theme_text(template), None, lambda: True
        except (FileNotFoundError, NotADirectoryError):
            raise TemplateNotFound(template) from None


@cache
def environment(language: str, mark: Callable[[str], str] | None = None) -> Environment:
    """Return the environment for a language: everything is escaped unless it is marked as HTML.

    ``mark`` is put over each text of the catalogue before names are filled into it.
    """
    made = Environment(
        loader=_ThemeLoader(),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
        optimized=False,  # each template is filled a few times, so that folding its constants costs more than it saves
        extensions=["jinja2.ext.i18n"],
    )
    texts: Catalogue = catalogue(language)

    def say(text: str) -> str:
        return mark(texts.gettext(text)) if mark else texts.gettext(text)

    made.install_gettext_callables(say, texts.ngettext, newstyle=True)  # type: ignore[attr-defined]
    made.globals["say"] = say  # for texts that come as values: nothing is filled in, a % stays a %
    made.filters["md"] = _heading
    made.filters["cssstr"] = lambda text: Markup(css_string(str(text)))  # noqa: S704 - the string is escaped
    return made


def _heading(text: str) -> Markup:
    """Return a text for a line of Markdown; what the template engine escaped is taken back first."""
    plain = text.unescape() if isinstance(text, Markup) else text
    return Markup(markdown_text(plain))  # noqa: S704 - every sign that could act is an entity


def render(
    template: str, language: str, data: Mapping[str, Any], mark: Callable[[str], str] | None = None
) -> str:
    """Return a template filled with data; runs of blank lines become one. ``mark`` as for `environment`."""
    text = environment(language, mark).get_template(template).render(data)
    lines: list[str] = []
    for line in text.splitlines():
        if line.strip() or (lines and lines[-1]):
            lines.append(line.rstrip())
    return "\n".join(lines).strip() + "\n"
