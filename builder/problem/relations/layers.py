"""What lies between two plates: one material, layers, slabs side by side, or metal."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from builder.problem.faults.gathering import nearest, one_of
from builder.problem.limits import MOST_PARTS
from builder.problem.relations.model import PlatePart
from builder.problem.relations.plate_values import PlateValues
from builder.problem.shape import FillingShape, PartShape, keys_of
from builder.problem.typed import as_items, as_map, as_text, needed, refuse_unknown_keys
from builder.problem.yaml_text.located import Entry, Items, Map
from builder.quantity.exact import Exact

CONNECTED, REMOVED = "connected", "removed"
_WAYS = ("kappa", "layers", "slabs", "metal")
_WHOLE = "the filling"

_LAYER = (
    "Each layer is a capacitor of its own: a thin sheet of metal could lie on the boundary "
    "without changing anything."
)
_IN_SERIES = (
    "One layer follows on the other: they carry the same charge and share the voltage, as "
    "capacitors in series do."
)
_SLAB = "Each slab lies between the same two plates, with its own part of their area."
_IN_PARALLEL = (
    "All slabs lie between the same two plates and have the same voltage, as capacitors in "
    "parallel do; so their capacitances add."
)
_PLATES = (
    "Between wide plates that are close together the field is the same everywhere, so the "
    "capacitance grows with the area and shrinks with the gap."
)
_KAPPA = (
    "The filling weakens the field of a given charge to 1/κ, so the same charge needs a voltage "
    "κ times smaller: the capacitance is κ times as large."
)
_METAL = "Inside the metal there is no field, so only the rest of the gap counts."
_REST = "What the others leave is air, whose κ is 1 to these digits."
_PER_LENGTH = "The field is the same all along its way, so it is the voltage per length."


@dataclass(frozen=True)
class Filling:
    """What lies between the plates.

    Attributes:
        arrangement: ``empty``, ``whole``, ``layers``, ``slabs`` or ``metal``.
        parts: from the + plate to the − plate, or from left to right.
    """

    arrangement: str
    parts: tuple[PlatePart, ...]

    def capacitance(self, *, from_empty: bool) -> Iterator[tuple[str, str]]:
        """The relations that give the capacitance, with their reasons.

        Args:
            from_empty: whether the capacitance C0 of the empty plates is there to start from.
        """
        match self.arrangement:
            case "empty" if from_empty:
                yield "C = C0", "Nothing is put in between the plates."
            case "empty":
                yield "C = eps0*A/d", _PLATES
            case "whole" if from_empty:
                yield "C = kappa*C0", _KAPPA
            case "whole":
                yield "C = kappa*eps0*A/d", f"{_PLATES} {_KAPPA}"
            case "metal":
                yield "C = eps0*A/(d - t)", _METAL
            case _:
                yield from self._of_parts()

    def _of_parts(self) -> Iterator[tuple[str, str]]:
        layers = self.arrangement == "layers"
        for part in self.parts:
            kappa = f"{part.kappa}*" if part.kappa else ""
            of = f"A/{part.size}" if layers else f"{part.size}/d"
            yield f"C{part.number} = {kappa}eps0*{of}", _LAYER if layers else _SLAB
        if layers:
            total = " + ".join(f"1/C{part.number}" for part in self.parts)
            yield f"C = 1/({total})", _IN_SERIES
        else:
            yield "C = " + " + ".join(f"C{part.number}" for part in self.parts), _IN_PARALLEL

    def rest(self) -> Iterator[tuple[str, str]]:
        """How large the part is that the others leave empty."""
        for part in self.parts:
            if part.rest:
                others = [other.size for other in self.parts if other is not part]
                whole = "d" if self.arrangement == "layers" else "A"
                left = " - ".join([whole, *others])
                yield (
                    f"{part.size} = {left}",
                    "What the others leave is air, whose κ is 1 to these digits.",
                )

    def fields(self) -> Iterator[tuple[str, str]]:
        """The relations that give field strengths."""
        if self.arrangement == "layers":
            for part in self.parts:
                yield (f"V{part.number} = Q/C{part.number}",
                       "The layer carries the charge of the plates.")  # fmt: skip
                yield f"E{part.number} = V{part.number}/{part.size}", _PER_LENGTH
            total = " + ".join(f"V{part.number}" for part in self.parts)
            yield f"V = {total}", "Along the way from plate to plate, the voltages add up."
            return
        yield ("E = V/(d - t)" if self.arrangement == "metal" else "E = V/d"), _PER_LENGTH
        if self.arrangement == "whole" and self.parts[0].strength:
            yield (f"V_max = {self.parts[0].strength}*d",
                   "At that voltage the field is as strong as the filling stands.")  # fmt: skip


def read_filling(entry: Entry, reader: PlateValues) -> Filling | None:
    """Read what stands under ``filling:``."""
    node = as_map(entry.value, "what lies between the plates, such as {kappa: 2.5}", reader.faults)
    if node is None:
        return None
    keys = keys_of(FillingShape)
    refuse_unknown_keys(node, keys, reader.faults)
    ways = [key for key in _WAYS if node.get(key)]
    unknown = [each.key.value for each in node.entries if each.key.value not in keys]
    if not ways and any(nearest(word, keys) in _WAYS for word in unknown):
        return None
    if len(ways) != 1:
        found = f"{' and '.join(ways)} in one filling" if ways else "a filling of nothing"
        reader.faults.add(node.at, found, one_of(_WAYS),
                          "Keep one of them." if ways else "Say what lies there.")  # fmt: skip
        return None
    (way,) = ways
    what = node.get(way)
    assert what is not None
    if way == "metal":
        reader.value(what, "t", "length", "the thickness of the metal")
        return Filling("metal", (PlatePart(1, "t", "", metal=True),))
    if way == "kappa":
        return _whole(node, what, reader)
    return _parts(what, way, reader)


def _whole(node: Map, kappa: Entry, reader: PlateValues) -> Filling:
    called = node.get("called")
    words = as_text(called.value, "what it is called", reader.faults) if called else None
    name = words.value.strip() if words else ""
    reader.value(kappa, "kappa", "ratio", f"κ of {name or _WHOLE}")
    strength = node.get("strength")
    if strength is not None:
        reader.value(strength, "E_max", "field", f"the dielectric strength of {name or _WHOLE}")
    return Filling("whole", (PlatePart(1, "d", "kappa", name, "E_max" if strength else ""),))


def _parts(what: Entry, way: str, reader: PlateValues) -> Filling | None:
    listed = as_items(what.value, f"a list of {way}", reader.faults)
    if listed is None:
        return None
    if not 1 <= len(listed.items) <= MOST_PARTS:
        reader.faults.add(listed.at, f"{len(listed.items)} {way}", f"1 to {MOST_PARTS} {way}",
                          "List each after a dash.")  # fmt: skip
        return None
    parts = [_part(number, item, way, reader) for number, item in _numbered(listed)]
    known = [part for part in parts if part is not None]
    if len(known) < len(parts):
        return None
    return Filling(way, _with_rest(known, way, reader))


def _numbered(listed: Items) -> list[tuple[int, Map]]:
    return [(number, item) for number, item in enumerate(listed.items, 1)]  # type: ignore[misc]


def _part(number: int, item: Map, way: str, reader: PlateValues) -> PlatePart | None:
    size = "thickness" if way == "layers" else "area"
    node = as_map(item, f"{size} and kappa of a part", reader.faults)
    if node is None:
        return None
    keys = tuple(key for key in keys_of(PartShape) if key in (size, "kappa", "called", "strength"))
    refuse_unknown_keys(node, keys, reader.faults)
    letter = "d" if way == "layers" else "A"
    called = node.get("called")
    words = as_text(called.value, "what it is called", reader.faults) if called else None
    name = words.value.strip() if words else f"part {number}"
    measured = needed(node, size, f"{size}: of the part", keys, reader.faults)
    kappa = needed(node, "kappa", "kappa: of its material", keys, reader.faults)
    if measured is None or kappa is None:
        return None
    kind = "length" if way == "layers" else "area"
    reader.value(measured, f"{letter}{number}", kind, f"the {size} of {name}")
    reader.value(kappa, f"kappa{number}", "ratio", f"κ of {name}")
    strength = node.get("strength")
    if strength is not None:
        reader.value(strength, f"E_max{number}", "field", f"the dielectric strength of {name}")
    return PlatePart(number, f"{letter}{number}", f"kappa{number}", words.value if words else "",
                     f"E_max{number}" if strength else "")  # fmt: skip


def _with_rest(parts: list[PlatePart], way: str, reader: PlateValues) -> tuple[PlatePart, ...]:
    """The parts, and one more of what they leave empty."""
    stated = reader.read.stated
    whole = stated.get("d" if way == "layers" else "A")
    sizes: list[Exact] = [stated[part.size].value for part in parts if part.size in stated]
    if whole is None or whole.value is None or any(size is None for size in sizes):
        return tuple(parts)
    if sum(sizes) >= whole.value:
        return tuple(parts)
    number = len(parts) + 1
    letter = "d" if way == "layers" else "A"
    return (*parts, PlatePart(number, f"{letter}{number}", "", "air", rest=True))
