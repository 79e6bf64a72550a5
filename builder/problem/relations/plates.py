"""``plates:`` of a problem: what stands there becomes quantities and relations."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from builder.problem.faults.gathering import all_of
from builder.problem.relations.layers import CONNECTED, REMOVED, Filling, read_filling
from builder.problem.relations.model import Plates, Stated
from builder.problem.relations.plate_values import EXAMPLES, PlateValues, ReadPlates
from builder.problem.shape import PlatesShape, keys_of
from builder.problem.typed import as_map, choice_of, refuse_unknown_keys
from builder.problem.yaml_text.located import Entry, Map, Node, is_usable
from builder.quantity.names import Name

_KEYS = keys_of(PlatesShape)
_KINDS = {"area": "area", "gap": "length", "capacitance": "capacitance", "voltage": "voltage",
          "charge": "charge"}  # fmt: skip


@dataclass
class PlatesReader(PlateValues):
    """Reads ``plates:``."""

    def plates(self, node: Node) -> ReadPlates:
        """Read what stands under ``plates:``."""
        mapping = as_map(node, "an area, a gap and what drives the plates", self.faults)
        if mapping is None:
            return self.read
        refuse_unknown_keys(mapping, _KEYS, self.faults)
        before = len(self.faults)
        battery = self._battery(mapping)
        self._size(mapping, battery)
        self._drive(mapping, battery)
        filling = self._filling(mapping, battery)
        if len(self.faults) > before or filling is None or not is_usable(mapping):
            return self.read
        self.read.plates = Plates(filling.arrangement, filling.parts, battery)
        self.read.equations = list(_equations(mapping, filling, battery))
        self._unknowns(filling, mapping.at, battery)
        return self.read

    def _battery(self, node: Map) -> str:
        entry = node.get("battery")
        chosen = choice_of(entry.value, (CONNECTED, REMOVED), self.faults) if entry else None
        if entry is not None and node.get("filling") is None:
            self.faults.add(entry.key.at, "a battery without a filling",
                            "battery only where a filling is put in",
                            "Add filling: with what is put in, or delete battery.")  # fmt: skip
        return chosen or ""

    def _size(self, node: Map, battery: str) -> None:
        """Area and gap, or the capacitance without a filling."""
        whole = node.get("capacitance")
        sides = [node.get(key) for key in ("area", "gap")]
        if whole is not None and any(sides):
            self.faults.add(whole.key.at, "capacitance beside area or gap",
                            "area and gap, or the capacitance of the empty plates",
                            "Delete one of the two.")  # fmt: skip
        elif whole is not None:
            self.value(whole, "C0", "capacitance", "the capacitance of the empty plates")
        for key, name, means in (("area", "A", "the area of a plate"), ("gap", "d", "the gap")):
            entry = node.get(key)
            if entry is not None:
                self.value(entry, name, _KINDS[key], means)
            elif whole is None:
                self.faults.add(node.at, f'no "{key}"', f"{key}: such as {EXAMPLES[_KINDS[key]]}",
                                f'Add a line with the key "{key}".')  # fmt: skip

    def _drive(self, node: Map, battery: str) -> None:
        voltage, charge = node.get("voltage"), node.get("charge")
        if voltage is not None and charge is not None:
            self.faults.add(charge.key.at, "a charge beside a voltage", "only one of the two",
                            "Delete one of them: it follows from the other.")  # fmt: skip
        before = "0" if battery else ""
        if voltage is not None:
            self.value(voltage, f"V{before}", "voltage", "the voltage of the battery")
        elif charge is not None:
            self.value(charge, f"Q{before}", "charge", "the charge on the plates")
        elif battery:
            self.faults.add(node.at, "a battery without its voltage", "voltage: such as 12 V",
                            'Add a line with the key "voltage".')  # fmt: skip

    def _filling(self, node: Map, battery: str) -> Filling | None:
        entry = node.get("filling")
        if entry is None:
            return Filling("empty", ())
        filling = read_filling(entry, self)
        if filling is not None and node.get("capacitance") and filling.arrangement != "whole":
            self.faults.add(entry.key.at, "a filling in parts, of plates without area and gap",
                            "area: and gap: of the plates",
                            "Give area and gap in place of the capacitance.")  # fmt: skip
            return None
        if filling is not None and node.get("capacitance") is None:
            self._refuse_too_much(entry, filling)
        return filling

    def _refuse_too_much(self, entry: Entry, filling: Filling) -> None:
        """Parts that are together thicker than the gap, or wider than the plates."""
        whole = self.read.stated.get("A" if filling.arrangement == "slabs" else "d")
        if whole is None or whole.value is None or whole.shown is None:
            return
        sizes = [self.read.stated[part.size] for part in filling.parts
                 if part.size in self.read.stated]  # fmt: skip
        total = sum(one.value for one in sizes if one.value is not None)
        metal = any(part.metal for part in filling.parts)
        full = sizes and (total > whole.value or (metal and total == whole.value))
        if full:
            what = "area" if filling.arrangement == "slabs" else "gap"
            told = all_of(one.shown.text for one in sizes if one.shown)
            self.faults.add(entry.key.at, f"{told} in {whole.means} of {whole.shown.text}"
                            if what == "gap" else f"{told} of plates with {whole.shown.text}",
                            f"parts that fit into the {what}",
                            "Make them smaller, or the plates larger." if what == "area"
                            else "Make them thinner, or the gap wider.")  # fmt: skip

    def _unknowns(self, filling: Filling, at: object, battery: str) -> None:
        """What follows from what is given, each with its words."""
        names = [equation.split(" = ")[0] for equation, _ in self.read.equations]
        for name in [*names, "Q", "V", "Q0", "V0"]:
            used = any(name in _words(equation) for equation, _ in self.read.equations)
            if used and name not in self.read.stated:
                kind, means = kind_and_words(name)
                self.read.stated[name] = Stated(Name(kind, name), means=means)


def _words(equation: str) -> list[str]:
    signs = str.maketrans("=*/+-()^", " " * 8)
    return equation.translate(signs).split()


_KIND_OF_LETTER = {"C": "capacitance", "Q": "charge", "V": "voltage", "U": "energy", "W": "energy",
                   "E": "field", "d": "length", "A": "area"}  # fmt: skip
_MEANS = {
    "C": "the capacitance", "Q": "the charge on the plates", "V": "the voltage across the plates",
    "U": "the energy that is stored", "E": "the field strength between the plates",
    "C0": "the capacitance while the gap is empty", "Q0": "the charge before",
    "V0": "the voltage before", "U0": "the energy before", "E0": "the field strength before",
    "DeltaU": "the change of the stored energy", "DeltaQ": "the charge that flows on",
    "W": "the energy that the battery delivers",
    "W_in": "the work that is done on the filling as it is drawn in",
    "V_max": "the highest voltage that the filling stands",
}  # fmt: skip
_OF_PART = {
    "C": "the capacitance of part {of}", "V": "the voltage across layer {of}",
    "E": "the field strength in layer {of}", "d": "what is left of the gap",
    "A": "what is left of the area",
}  # fmt: skip


def kind_and_words(name: str) -> tuple[str, str]:
    """The kind of a quantity of plates by its name, and what it is."""
    letter = name.removeprefix("Delta")[0]
    means = _MEANS.get(name) or _OF_PART[letter].format(of=name[1:])
    return _KIND_OF_LETTER[letter], means


_PLATES = (
    "Between wide plates that are close together the field is the same everywhere, so the "
    "capacitance grows with the area and shrinks with the gap."
)
_PER_LENGTH = "The field is the same all along the gap, so it is the voltage per length."
_HALF = "A capacitor stores half of charge times voltage."
_Q_CV = "Capacitance is charge per voltage."


def _equations(node: Map, filling: Filling, battery: str) -> Iterator[tuple[str, str]]:
    """Every relation that holds, with its reason."""
    sized = node.get("capacitance") is None
    driven = node.get("voltage") is not None or node.get("charge") is not None
    if battery:
        if sized:
            yield "C0 = eps0*A/d", f"{_PLATES} While it is empty, its κ is 1."
        yield "Q0 = C0*V0", _Q_CV
        yield "U0 = Q0*V0/2", _HALF
        if sized:
            yield "E0 = V0/d", _PER_LENGTH
    yield from filling.rest()
    yield from filling.capacitance(from_empty=bool(battery) or not sized)
    if not driven:
        return
    if battery == CONNECTED:
        yield "V = V0", "The battery stays connected and holds the voltage where it was."
    if battery == REMOVED:
        yield "Q = Q0", "The plates are cut off, so their charge has nowhere to go."
    yield "Q = C*V", _Q_CV
    yield "U = Q*V/2", _HALF
    if sized:
        yield from filling.fields()
    yield from _energy(battery)


def _energy(battery: str) -> Iterator[tuple[str, str]]:
    if not battery:
        return
    yield "DeltaU = U - U0", "What is stored after, less what was stored before."
    if battery == REMOVED:
        yield ("W_in = U0 - U", "No battery can give or take anything: what the field has lost was "
               "spent on drawing the filling in.")  # fmt: skip
        return
    yield "DeltaQ = Q - Q0", "The battery brings what is missing."
    yield "W = V0*DeltaQ", "The battery moves that charge through its whole voltage."
    yield ("W_in = W - DeltaU", "What the battery gave and the field did not keep was spent on "
           "drawing the filling in.")  # fmt: skip
