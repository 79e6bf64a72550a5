"""What an author's Markdown may become, and what never gets through."""

from __future__ import annotations

import pytest
from markupsafe import Markup

from builder.site.author_text import block, inline


def nothing(_: str) -> Markup | None:
    """No placeholder is known."""
    return None


@pytest.mark.parametrize(
    ("markdown", "html"),
    [
        ("plain words", "plain words"),
        ("*slowly* and **firmly**", "<em>slowly</em> and <strong>firmly</strong>"),
        ("[the lesson](sharing.md)", '<a href="sharing.md">the lesson</a>'),
        ("[the source](https://example.org/a)", '<a href="https://example.org/a">the source</a>'),
        ("a < b & c", "a &lt; b &amp; c"),
        ("costs 5 \\$", "costs 5 $"),
        ("\\$a and \\$b", "$a and $b"),
        ("\\$x or $x$", '$x or <math display="inline"><mrow><mi>x</mi></mrow></math>'),
    ],
)
def test_markdown_is_rendered(markdown: str, html: str) -> None:
    """Emphasis, links and plain characters come out as HTML."""
    assert inline(markdown, nothing) == html


@pytest.mark.parametrize(
    "hostile",
    [
        "<script>alert(1)</script>",
        "<img src=x onerror=alert(1)>",
        "<svg/onload=alert(1)>",
        "[x](javascript:alert(1))",
        "[x](JaVaScRiPt:alert(1))",
        "[x](&#106;avascript:alert(1))",
        "[x]( javascript:alert(1))",
        "![x](data:text/html;base64,PHNjcmlwdD4=)",
        "[x](vbscript:x)",
        "<a href='javascript:alert(1)'>x</a>",
        "<javascript:alert(1)>",
        "<!-- --><script>x</script>",
        "[x][y]\n\n[y]: javascript:alert(1)",
        "$\\text{<script>alert(1)</script>}$",
        "$<img src=x onerror=alert(1)>$",
        "$\\text{<mi onclick=alert(1)>x</mi>}$",
        "$\\text{<mi onclick='alert(1)'>x</mi>}$",
        "$\\href{javascript:alert(1)}{x}$",
        "`<script>`",
        "<details open ontoggle=alert(1)>",
    ],
)
def test_hostile_text_becomes_harmless(hostile: str) -> None:
    """No element with a script, no handler and no script address gets out of an author's text."""
    from html.parser import HTMLParser

    seen: list[tuple[str, list[tuple[str, str | None]]]] = []

    class Collector(HTMLParser):
        def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
            seen.append((tag, attrs))

    Collector().feed(str(block(hostile, nothing)))
    for tag, attributes in seen:
        assert tag not in ("script", "svg", "iframe", "object", "details")
        for name, value in attributes:
            assert not name.startswith("on")
            if name in ("href", "src"):
                assert value == "#"


def test_placeholders_are_filled_and_braces_escaped() -> None:
    """A known name in braces is filled; doubled braces are plain braces; others stay."""

    def known(name: str) -> Markup | None:
        return Markup("<b>{}</b>").format(name) if name == "C1" else None

    html = inline("{C1} and {{C1}} and {C9} and *{C1}*", known)
    assert html == "<b>C1</b> and {C1} and {C9} and <em><b>C1</b></em>"


def test_formulas_become_mathml() -> None:
    """Dollar signs around a formula give MathML, and money does not."""
    html = inline("So $Q = CV$ holds", nothing)
    assert "<math" in html
    assert "$" not in html
    assert inline("from $5 to $6", nothing) == "from $5 to $6"


def test_braces_inside_a_formula_are_the_formula_s() -> None:
    """A formula keeps its braces even where they could stand for an element."""
    html = inline("{C1}: $V_{C1} = \\frac{{Q}}{C}$", lambda name: Markup("!"))
    assert html.startswith("!: <math")
    assert "!" not in html[2:]


def test_private_characters_cannot_forge_a_placeholder() -> None:
    """The characters that mark filled places are removed from an author's text."""
    assert inline("\ue0000\ue001 {C1}", lambda name: Markup("!")) == "0 !"


@pytest.mark.parametrize(
    ("text", "said", "html"),
    [
        ("a {V0} battery", "18 V", "an 18 V battery"),
        ("an {V0} battery", "24 V", "a 24 V battery"),
        ("A\n{V0} battery", "8.5 V", "An\n8.5 V battery"),
        ("An {V0.value} one, or a {V0} one", "110 V", "A 110 V one, or a 110 V one"),
        ("a {C1}", "C₁ (8 µF)", "a C₁ (8 µF)"),
        ("extra {V0}", "8 V", "extra 8 V"),
        ("a {X}", "", "a {X}"),
    ],
)
def test_an_article_follows_the_number(text: str, said: str, html: str) -> None:
    """With other numbers “a” may have to be “an”, or the other way round."""
    filled = Markup("<b>{}</b>").format(said) if said else None
    assert inline(text, lambda _: filled) == (
        html.replace(said, f"<b>{said}</b>") if said else html
    )  # fmt: skip
