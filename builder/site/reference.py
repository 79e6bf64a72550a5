"""The reference pages: formula sheet, glossary and symbol chart of what a unit uses."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass
from functools import cached_property

from markupsafe import Markup

from builder.lesson.formulary import Equality, Sheet, meanings, sheet_symbol, sheets
from builder.lesson.glossary import Word, words
from builder.lesson.kinds import used_in, uses
from builder.problem.model import Problem
from builder.quantity.formula import ReciprocalSum
from builder.quantity.kinds import KINDS
from builder.quantity.names import Name
from builder.site.formulas.math import formula_math, symbol_math
from builder.site.page import render
from builder.site.symbol_chart import symbols

FORMULAS, GLOSSARY, SYMBOLS = (
    "reference/formulas.md",
    "reference/glossary.md",
    "reference/symbols.md",
)
_NOTHING = "There are no problems yet, and so there is nothing to look up."


@dataclass(frozen=True)
class Reference:
    """The reference pages of a unit.

    Attributes:
        problems: in teaching order; what none of them uses is left out.
        style: ``iec`` or ``ieee`` shapes.
        folder: the folder of the problems.
    """

    problems: tuple[Problem, ...]
    style: str = "iec"
    folder: str = "problems"

    @cached_property
    def used(self) -> Collection[str]:
        """What occurs in any of the problems."""
        return used_in(self.problems)

    @cached_property
    def _used(self) -> Mapping[str, frozenset[str]]:
        return {problem.slug: uses(problem) for problem in self.problems}

    def pages(self) -> dict[str, str]:
        """The Markdown of the reference pages, by source path; what they hold enters later."""
        formulas = ["# Formula sheet", "All that this unit calculates with. There is little to "
                    "learn by heart: ask what is shared, and add up the rest."]  # fmt: skip
        for sheet in self._sheets:
            heading = f"{sheet.law.element.capitalize()}s"
            formulas += [f"## {heading}", _place(f"formulas/{sheet.law.value}")]
        formulas += ["## Symbols and units", _place("formulas/units")]
        glossary = ["# Glossary", "The words of these pages, one word for one thing. Each comes "
                    "with a problem in which it is met."]  # fmt: skip
        for word in words(self.used):
            heading = word.word[:1].upper() + word.word[1:]
            glossary += [f"## {heading} {{#{word.anchor}}}", _place(f"glossary/{word.anchor}")]
        chart = ["# Symbol chart", "How to read the figures of this unit.", _place("symbols/chart")]
        pages = {FORMULAS: formulas, GLOSSARY: glossary, SYMBOLS: chart}
        if not self.problems:
            pages = {path: [blocks[0], _NOTHING] for path, blocks in pages.items()}
        return {path: "\n\n".join(blocks) + "\n" for path, blocks in pages.items()}

    def part(self, id: str, address: Callable[[str], str]) -> Markup:
        """One part of a page as HTML.

        Args:
            id: page and part, such as ``glossary/junction``.
            address: gives the address of a page by its source path.
        """
        page, _, what = id.partition("/")
        if page == "formulas" and what == "units":
            return render("reference/units.html", rows=self._rows(), marks=self.used)
        if page == "formulas":
            sheet = next(sheet for sheet in self._sheets if sheet.law.value == what)
            return render("reference/sheet.html", sheet=sheet, maths=equality_math)
        if page == "glossary":
            return self._entry(self._word(what), address)
        return render("reference/symbols.html", symbols=symbols(self.used, self.style))

    def search_words(self, id: str) -> str:
        """What the search is to find at the place of a part."""
        page, _, what = id.partition("/")
        if page == "formulas" and what == "units":
            return ". ".join(
                f"{KINDS[one.kind].noun} {one.unit_name}" for one in meanings(self.used)
            )
        if page == "formulas":
            rules = next(sheet for sheet in self._sheets if sheet.law.value == what).rules
            return ". ".join(f"{rule.called}: {rule.why}" for rule in rules)
        if page == "glossary":
            return self._word(what).means
        return ". ".join(f"{one.called}: {one.means}" for one in symbols(self.used, self.style))

    @cached_property
    def _sheets(self) -> tuple[Sheet, ...]:
        return sheets(self.used)

    def _rows(self) -> list[dict[str, object]]:
        return [
            {
                "symbol": _maths(symbol_math(sheet_symbol(Name(meaning.kind, "")))),
                "noun": KINDS[meaning.kind].noun,
                "unit": KINDS[meaning.kind].unit,
                "meaning": meaning,
            }
            for meaning in meanings(self.used)
        ]

    def _word(self, anchor: str) -> Word:
        return next(word for word in words(self.used) if word.anchor == anchor)

    def _entry(self, word: Word, address: Callable[[str], str]) -> Markup:
        """A word with the first problem in which it is met, or the first that shows it best."""
        met = [one for one in self.problems if not word.needs or word.needs in self._used[one.slug]]
        best = [one for one in met if word.best in self._used[one.slug]]
        example = (best or met)[0]
        place = f"#{word.part}" if word.part else ""
        return render("reference/word.html", word=word, example=example,
                      address=address(f"{self.folder}/{example.slug}.md") + place)  # fmt: skip


def _place(id: str) -> str:
    """What stands in the Markdown where a part will be."""
    return f'<div data-stepwell-made="reference/{id}"></div>'


def _maths(inner: str, attributes: str = "") -> Markup:
    return Markup(f"<math{attributes}>{inner}</math>")


def equality_math(equality: Equality) -> Markup:
    """One line of the formula sheet: C_eq = C₁ + C₂ + C₃."""
    letters = [symbol_math(sheet_symbol(name)) for name in equality.left]
    if isinstance(equality.right, ReciprocalSum):
        letters = [f"<mfrac><mn>1</mn>{letter}</mfrac>" for letter in letters]
    right = formula_math(equality.right, lambda name: symbol_math(sheet_symbol(name)), top=True)
    joined = "<mo>=</mo>".join([*letters, right])
    return _maths(f"<mrow>{joined}</mrow>", ' class="sw-sheet-line" display="block"')
