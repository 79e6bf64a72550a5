"""The kinds of problem that one can start from, in words that a teacher knows."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

FILES = Path(__file__).parent / "files"
"""What is written for a teacher, with room for what they choose."""


@dataclass(frozen=True)
class Kind:
    """A kind of problem to start from.

    Attributes:
        name: as it is typed; also the name of its file.
        what: what such a problem is about, in a few words.
        title: of the ready problem.
        objectives: what it teaches, by the ids that units often use; a unit may have none of them.
    """

    name: str
    what: str
    title: str
    objectives: tuple[str, ...]

    def text(self) -> str:
        """The ready problem, with room for title, level and objectives."""
        return (FILES / "problems" / f"{self.name}.yml").read_text(encoding="utf-8")


KINDS = {
    kind.name: kind
    for kind in (
        Kind("groups", "capacitors in series and in parallel",
             "The board of the cabin light",
             ("see-groups", "merge-parallel", "merge-series", "walk-back", "energy")),
        Kind("resistors", "resistors in series and in parallel",
             "Two lamps on a long cable",
             ("see-groups", "merge-parallel", "merge-series", "walk-back", "power")),
        Kind("letters", "letters in place of numbers",
             "A float light of any size",
             ("merge-series", "merge-parallel", "letters")),
        Kind("unknown", "an element to be found from something measured",
             "The washed-out value",
             ("find-unknown", "power")),
        Kind("network", "a network of any shape, with several sources",
             "Two panels and one pump",
             ("junction-equations",)),
        Kind("equivalent-source", "what two points of a network have to offer",
             "The clamps of the chart table",
             ("equivalent-source",)),
        Kind("switches", "charged capacitors that switches join",
             "Yesterday's charge",
             ("island-charge", "shared-voltage", "energy-lost")),
        Kind("charging", "a capacitor that charges through a resistor",
             "The delay of the horn",
             ("first-and-last", "time-constant", "on-the-way")),
        Kind("equations", "plain equations between quantities",
             "How long the signal lamp lasts",
             ("rearrange",)),
        Kind("plates", "two plates and what fills the gap",
             "A gauge that feels the oil",
             ("filling",)),
    )
}  # fmt: skip


def kind_list() -> str:
    """All kinds with what they are about, a line each."""
    width = max(map(len, KINDS))
    return "\n".join(f"{kind.name:{width}}  {kind.what}" for kind in KINDS.values())
