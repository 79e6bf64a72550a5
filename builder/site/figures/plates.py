"""The figures of a problem of plates: before and after, filled in step by step."""

from __future__ import annotations

from dataclasses import dataclass, replace

from markupsafe import Markup

from builder.figure import ValueText
from builder.figure.relations import Panel, PanelPart, describe_plates, draw_plates
from builder.lesson import Lesson
from builder.lesson.lesson import TaughtStep
from builder.lesson.relations.display import RelationsDisplay
from builder.problem.relations.model import PlatePart, Plates
from builder.quantity.exact import near_fraction
from builder.quantity.names import Name
from builder.site.figures.pen import INK, Pen
from builder.site.figures.step_figures import StepFigures
from builder.site.markup import symbol_html

BEFORE = ("C0", "Q0", "V0", "U0", "E0")
_USUAL_CHARGES, _MOST_CHARGES = 6, 14


@dataclass(frozen=True)
class PlatesFigures:
    """Draws the figures of one lesson of plates.

    Attributes:
        display: of what is drawn.
        plates: how they are built.
        prefix: starts every id in the figures, unique on the page.
        pen: what draws them.
    """

    display: RelationsDisplay
    plates: Plates
    prefix: str
    pen: Pen = INK

    @classmethod
    def of(cls, lesson: Lesson, prefix: str, plates: Plates, pen: Pen) -> PlatesFigures:
        """What draws the figures of a lesson."""
        assert isinstance(lesson.display, RelationsDisplay)
        return cls(lesson.display, plates, prefix, pen)

    def given(self) -> Markup:
        """The plates as the problem gives them; before and after where a filling is put in."""
        states = [replace(self._panel(state, ()), title=state) for state in self._states]
        return Markup("").join(
            self._drawn(panel, f"given-{at}", "The plates") for at, panel in enumerate(states)
        )

    def in_words(self) -> tuple[Markup, ...]:
        """A sentence for each part of the plates."""
        told = []
        for part in self.plates.parts:
            names = [of for of in (part.kappa, part.size) if of]
            symbols = Markup(" and ").join(
                symbol_html(self.display.symbol(self.display.named(of))) for of in names
                if self._has(of)
            )  # fmt: skip
            what = part.called or ("the metal" if part.metal else "the filling")
            told.append(Markup("Between the plates lies {}{}.").format(
                what, Markup(" with ") + symbols if symbols else ""))  # fmt: skip
        if not told:
            told.append(Markup("Nothing lies between the plates."))
        ends = {
            "connected": "The battery stays connected while it is put in.",
            "removed": "The battery is removed before it is put in.",
        }
        return (*told, *((Markup(ends[self.plates.battery]),) if self.plates.battery else ()))

    def of_step(self, number: int, taught: TaughtStep) -> StepFigures:
        """What is known of the plates after a step; before and after beside each other."""
        drawn = [
            self._drawn(self._panel(state, taught.known), f"step-{number}-{state or 'plates'}",
                        f"The plates {state or ''} at step {number}".replace("  ", " "))
            for state in self._states
        ]  # fmt: skip
        if len(drawn) == 1:
            return StepFigures(Markup(""), drawn[0], ())
        return StepFigures(drawn[0], drawn[1], ())

    @property
    def _states(self) -> tuple[str, ...]:
        return ("before", "after") if self.plates.battery else ("",)

    def _panel(self, state: str, known: tuple[Name, ...]) -> Panel:
        plates, empty = self.plates, state == "before"
        parts = () if empty else tuple(self._part(part, known) for part in plates.parts)
        if not parts:
            parts = (PanelPart((), 1.0, empty=True),)
        if plates.arrangement == "metal" and not empty:
            parts = self._round_metal(parts[0])
        own = [name for name in known if self._belongs(name, state)]
        return Panel(
            title="",
            side_by_side=plates.arrangement == "slabs" and not empty,
            parts=parts,
            driven=self._driven(state),
            source=self._source(state),
            gap=self._text("d"),
            area=self._text("A"),
            charges=self._charges(state, known),
            known=tuple(self._value(name) for name in own),
        )

    def _part(self, part: PlatePart, known: tuple[Name, ...]) -> PanelPart:
        whole = self.plates.arrangement == "whole"
        names = [part.kappa] if whole else [part.kappa, part.size]
        labels = tuple(
            text for of in names if of and self._is_known(of, known)
            for text in (self._text(of),) if text
        )  # fmt: skip
        called = (ValueText(part.called),) if part.called and not part.metal else ()
        return PanelPart((*called, *labels), self._share(part), metal=part.metal, empty=part.rest)

    def _share(self, part: PlatePart) -> float:
        """A part of the gap or area, drawn not thinner than a line of text needs."""
        if self.plates.arrangement == "whole":
            return 1.0
        whole = self._amount("A" if self.plates.arrangement == "slabs" else "d")
        return max(self._amount(part.size) / whole, 0.24)

    def _round_metal(self, metal: PanelPart) -> tuple[PanelPart, ...]:
        rest = PanelPart((), max(1 - metal.share, 0.2) / 2, empty=True)
        return rest, metal, rest

    def _amount(self, of: str) -> float:
        return float(near_fraction(self.display.solution.values[self.display.named(of)]))

    def _driven(self, state: str) -> str:
        if self.plates.battery == "removed" and state == "after":
            return "cut-off"
        voltage = self._has("V0" if self.plates.battery else "V")
        given = voltage and self.display.named("V0" if self.plates.battery else "V")
        return "battery" if given and given in self.display.solution.givens else "terminals"

    def _source(self, state: str) -> ValueText | None:
        of = "V0" if self.plates.battery else "V"
        if self._driven(state) == "battery":
            return self._text(of)
        charge = "Q0" if self.plates.battery else "Q"
        given = self._has(charge) and self.display.named(charge) in self.display.solution.givens
        return self._text(charge) if given and state != "after" else None

    def _charges(self, state: str, known: tuple[Name, ...]) -> int:
        """As many signs as the charge has grown, once that is known."""
        if state != "after" or not self._has("Q") or not self._is_known("Q", known):
            return _USUAL_CHARGES
        ratio = self._amount("Q") / self._amount("Q0")
        return max(2, min(_MOST_CHARGES, round(_USUAL_CHARGES * ratio)))

    def _belongs(self, name: Name, state: str) -> bool:
        if name.of in self._in_parts or "'" in name.of:
            return False
        return not state or (name.of in BEFORE) == (state == "before")

    @property
    def _in_parts(self) -> frozenset[str]:
        return frozenset(part.size for part in self.plates.parts)

    def _is_known(self, of: str, known: tuple[Name, ...]) -> bool:
        if not self._has(of):
            return False
        name = self.display.named(of)
        return name in known or name in self.display.solution.givens

    def _has(self, of: str) -> bool:
        return any(s.name.of == of for s in self.display.solution.problem.quantities)

    def _text(self, of: str) -> ValueText | None:
        return self._value(self.display.named(of)) if self._has(of) else None

    def _value(self, name: Name) -> ValueText:
        shown = self.display.shown(name)
        return ValueText(shown.text, self.display.symbol(name), shown.sign, name.key)

    def _drawn(self, panel: Panel, id: str, title: str) -> Markup:
        return Markup(
            draw_plates(
                panel,
                id_prefix=f"{self.prefix}-{id}",
                title=title,
                description=describe_plates(panel),
                padded=self.pen.padded,
            )
        )
