"""An author's Markdown becomes HTML: no raw HTML, no scripts, formulas as MathML."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache, lru_cache
from xml.etree.ElementTree import Element

from markdown import Markdown
from markdown.extensions import Extension
from markdown.inlinepatterns import InlineProcessor
from markdown.treeprocessors import Treeprocessor
from markupsafe import Markup

from builder.quantity.numerals import article
from builder.site.latex import formula

_PLACEHOLDER = re.compile(
    r"(?:\b(?P<article>[Aa]n?)(?P<gap>\s+))?"
    r"\{(?P<reference>[A-Za-z][A-Za-z0-9_]*(?:\.(?:name|value|charged))?)\}"
)
# A dollar sign after a backslash is one to be read, and neither begins nor ends a formula.
_INLINE = (r"(?<![\\$])\$(?![\s$])", r"(?:\\[^\n]|[^$\\\n])+?", r"(?<!\s)\$(?!\d)")
_DISPLAY = (r"(?<!\\)\$\$", r"(?:\\[\s\S]|[^$\\])+", r"\$\$")
_FORMULA = re.compile(f"{''.join(_DISPLAY)}|{''.join(_INLINE)}")
_BETWEEN = re.compile(rf"({_FORMULA.pattern}|\{{\{{|\}}\}})")
_SENTINEL = re.compile("\ue000(\\d+)\ue001")
_PATH = r"(?![\\/]|\.{0,2}/[\\/])[\w\-./%~+,=@()]*(?:\Z|[#?])"
_SAFE = {
    "href": re.compile(rf"https?:|mailto:|#|{_PATH}", re.IGNORECASE),
    "src": re.compile(_PATH),
}
"""Where a link may lead, and where a picture may come from: never from another host."""

Placeholder = Callable[[str], Markup | None]


class MathsExtension(Extension):
    r"""``$…$`` in Markdown becomes MathML; a dollar sign is written ``\$``."""

    def extendMarkdown(self, md: Markdown) -> None:  # noqa: N802 - name set by Python-Markdown
        """Register the pattern."""
        md.ESCAPED_CHARS.append("$")
        md.inlinePatterns.register(_Maths("{}({}){}".format(*_INLINE), md), "stepwell-maths", 185)
        md.inlinePatterns.register(_DisplayMaths("{}({}){}".format(*_DISPLAY), md),
                                   "stepwell-display-maths", 186)  # fmt: skip


class _Maths(InlineProcessor):
    display = False

    def handleMatch(  # type: ignore[override]  # noqa: N802 - name set by Python-Markdown
        self, m: re.Match[str], data: str
    ) -> tuple[str, int, int]:
        stashed = self.md.htmlStash.store(formula(m.group(1), display=self.display))
        return stashed, m.start(0), m.end(0)


class _DisplayMaths(_Maths):
    display = True


class _SafeLinks(Treeprocessor):
    """Takes away what links and pictures lead to where that is unsafe.

    Links lead to the web or along a path, pictures along a path: a page asks no other host.
    """

    def run(self, root: Element) -> None:
        for node in root.iter():
            for attribute, safe in _SAFE.items():
                target = node.get(attribute)
                if target is not None and ("\\" in target or not safe.match(target)):
                    node.set(attribute, "#")


@cache
def _markdown() -> Markdown:
    md = Markdown(extensions=[MathsExtension(), "sane_lists"], output_format="html")
    md.preprocessors.deregister("html_block")
    md.inlinePatterns.deregister("html")
    md.treeprocessors.register(_SafeLinks(md), "stepwell-safe-links", 0)
    return md


@lru_cache(maxsize=512)
def _converted(text: str) -> str:
    """Markdown as HTML; with other numbers only what fills its placeholders is another."""
    return _markdown().reset().convert(text)


def block(markdown: str, placeholder: Placeholder) -> Markup:
    """Paragraphs and lists of an author's text, with placeholders filled.

    An article before a number follows it: *a {V0} battery* becomes *an 18 V battery*.
    """
    stash: list[Markup] = []

    def keep(match: re.Match[str]) -> str:
        filled = placeholder(match["reference"])
        if filled is None:
            return match.group(0)
        stash.append(filled)
        before = _before(filled, match["article"] or "") + (match["gap"] or "")
        return f"{before}\ue000{len(stash) - 1}\ue001"

    text = re.sub("[\ue000\ue001]", "", markdown)
    kept = "".join(
        {"{{": "{", "}}": "}"}.get(part)
        or (part if _FORMULA.fullmatch(part) else _PLACEHOLDER.sub(keep, part))
        for part in _BETWEEN.split(text)
    )
    html = _converted(kept)
    return Markup(_SENTINEL.sub(lambda match: str(stash[int(match.group(1))]), html))


def _before(filled: Markup, written: str) -> str:
    """The article before what fills a placeholder: as it is said there if that is a number."""
    said = filled.striptags()
    if not written or not said[:1].isdigit():
        return written
    fitting = article(said)
    return fitting.capitalize() if written[0] == "A" else fitting


def inline(markdown: str, placeholder: Placeholder) -> Markup:
    """An author's text of one paragraph, without the paragraph around it."""
    html = block(markdown, placeholder)
    stripped = html.strip()
    if stripped.startswith("<p>") and stripped.count("<p>") == 1 and stripped.endswith("</p>"):
        return Markup(stripped[3:-4])
    return html
