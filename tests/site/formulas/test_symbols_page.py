"""The page of a problem whose values are symbols."""

from __future__ import annotations

import re
from html import unescape

from builder.quantity.compact import compact
from builder.quantity.letters import symbol_of
from builder.quantity.personal import as_formula
from builder.quantity.show import show
from builder.site.formulas.math import shown_math, slashed_math
from builder.site.markup import expression_html, told_value
from builder.site.spoken import spoken_number
from tests.site.pages import Markup, html_of, page_of

TWINS = """\
title: Twins and one of double size
scenario: The board runs from {V}; {C3} is larger than {C1.name}.
circuit:
  source: V
  series:
    - C1: C
    - parallel:
        - C2: C
        - C3: 2*C
find: [equivalent, charge, "voltage: C2", "energy: total"]
"""

GAUGE = """\
title: A gauge
scenario: The gauge has {R1}.
circuit:
  source: V
  series:
    - R1: R1
    - R2: R2
find: [equivalent, "voltage: R2"]
"""

C, V = symbol_of("C", "capacitance"), symbol_of("V", "voltage")
RESULT = show(2 * C * V / 3, "charge")


def text_of(html: str) -> str:
    """What is read, without tags."""
    return unescape(re.sub(r"<[^>]+>", "", html))


def test_an_expression_is_written_with_italic_letters() -> None:
    """In running text an expression stands in a line, its letters in italics."""
    letter = '<span class="sw-sym"><i>{}</i></span>'
    assert told_value(RESULT) == f"2{letter.format('C')}{letter.format('V')}/3"
    assert told_value(show(C * 0 + 3, "voltage")) == "3.00\u00a0V"
    mixed = show(12 / (symbol_of("R", "resistance") + 100), "current")
    assert text_of(str(told_value(mixed))) == "(12\u00a0V)/(R + 100\u00a0Ω)"


def test_an_expression_is_a_fraction_in_a_formula() -> None:
    """In an equation its number and letters stand above the line."""
    assert shown_math(RESULT) == (
        "<mrow><mfrac><mrow><mn>2</mn><mo>&#x2062;</mo><mi>C</mi><mo>&#x2062;</mo><mi>V</mi>"
        "</mrow><mn>3</mn></mfrac></mrow>"
    )


def test_a_fraction_at_a_line_is_slanted() -> None:
    """A fraction above or below another line would grow too small, so its own line is slanted."""
    html = html_of(TWINS, "twins")
    numerators = re.findall(r"<mfrac>(<mrow class=\"sw-n\".*?</mrow>)<mrow class=\"sw-n\"", html)
    assert "3CV/4" in {text_of(over).replace("\u2062", "") for over in numerators}
    assert "<mfrac><mrow><mfrac>" not in html
    pair = show(1 / (1 / symbol_of("C1") + 1 / symbol_of("C2")), "")
    assert text_of(slashed_math(pair)).replace("\u2062", "") == "C1C2/(C1+C2)"
    assert slashed_math(show(C * 0 + 3, "voltage")).startswith("<mn>3.00</mn>")


def test_an_expression_is_said_letter_by_letter() -> None:
    """A screen reader hears products and what is below the line."""
    assert spoken_number(RESULT) == "2 times C times V, over 3"
    assert spoken_number(show(C**2 / (C + symbol_of("D", "capacitance")), "capacitance")) == (
        "C squared, over the sum of C and D"
    )


def test_the_page_of_letters_is_sound() -> None:
    """Every tag closes, letters are asked to be typed, every result is marked with its quantity."""
    for text, slug in ((TWINS, "twins"), (GAUGE, "gauge")):
        html = html_of(text, slug)
        markup = Markup(html)
        assert markup.faults == []
        assert "data-expected" in html
        keys = {attributes.get("data-q") for _, attributes in markup.tags}
        assert f"{'capacitance' if slug == 'twins' else 'resistance'}:total" in keys
        assert "≈" not in text_of(html).replace("a rounded one ≈", "")


def test_scenarios_tell_letters_once() -> None:
    """An element of its own letter is told by its name alone, another with its value."""
    assert "The board runs from V; C3 (2C) is larger than C1." in text_of(html_of(TWINS, "twins"))
    assert "The gauge has R1." in text_of(html_of(GAUGE, "gauge"))


def test_givens_are_told() -> None:
    """What stands for any value is listed, with what it is a multiple of."""
    page = page_of(TWINS, "twins")
    html = str(page.filled("parts/opening.html"))
    given = re.findall(r"<li>(.*?)</li>", html.split("sw-given", 1)[1].split("</ul>", 1)[0])
    assert [text_of(item) for item in given] == ["C1 = C", "C2 = C", "C3 = 2C", "V"]


def test_figures_tell_letters_in_italics() -> None:
    """A value beside its symbol is set off by an equals sign; each letter is italic."""
    figure = str(page_of(TWINS, "twins").filled("parts/opening.html"))
    svg = figure[figure.index("<svg") : figure.index("</svg>")]
    texts = [text_of(text) for text in re.findall(r"<text[^>]*>(.*?)</text>", svg)]
    assert {"C3 = 2C", "C1 = C", "V"} <= {text.strip() for text in texts}
    assert (
        "C1, equal to C, in series with the parallel pair C2, equal to C, and C3, equal to 2C, "
        "across a battery of V."
    ) in svg


def test_extremes_have_a_part_of_their_own() -> None:
    """Where an element can change alone, the page says what becomes of the answer."""
    gauge, twins = html_of(GAUGE, "gauge"), html_of(TWINS, "twins")
    assert "the voltage across R2 comes close to V." in text_of(gauge)
    assert "comes close to" not in text_of(twins)


def test_html_and_text_tell_the_same() -> None:
    """The line on a page is the line on a terminal, but for its subscripts."""
    formula = as_formula(1 / (1 / symbol_of("C1") + 1 / symbol_of("C2")))
    shown = show(1 / (1 / symbol_of("C1") + 1 / symbol_of("C2")), "")
    assert compact(formula) == shown.text == "C₁C₂/(C₁ + C₂)"
    assert text_of(str(expression_html(shown))) == "C1C2/(C1 + C2)"  # type: ignore[arg-type]
