"""The independent second method: all relations as one system of polynomials.

Gröbner's basis of the system (B. Buchberger's algorithm as SymPy has it) is solved over the
exact rationals without any order of steps, all its solutions are taken, and those that no
quantity can have are left out. What is then left has to be one solution.
"""

from __future__ import annotations

from collections.abc import Mapping

from sympy import Poly, Rational, Symbol, fraction, groebner, solve_poly_system, together
from sympy.polys.polyerrors import PolynomialError

from builder.problem.relations.model import Relation, RelationsProblem
from builder.problem.relations.quantities import NEVER_NEGATIVE
from builder.quantity.exact import Exact
from builder.quantity.formula import (
    Amount,
    Exp,
    Formula,
    Ln,
    Negative,
    Num,
    Power,
    Product,
    Quotient,
    ReciprocalSum,
    Ref,
    Root,
    Square,
    Sum,
    evaluate,
    parts_of,
)
from builder.quantity.names import Name


def solutions_of(
    problem: RelationsProblem, known: Mapping[Name, Exact]
) -> list[dict[Name, Exact]] | None:
    """All solutions of the whole system that its quantities can have.

    Args:
        problem: what is solved.
        known: the values that it states.

    Returns:
        The value of each unknown, for each solution; None if the system is no system of
        polynomials.
    """
    symbols = {name: Symbol(f"x{at}") for at, name in enumerate(problem.unknowns)}
    values, roots = {**known, **symbols}, list[Symbol]()
    system: list[Exact] = []
    for relation in problem.relations:
        polynomials = _polynomials(relation, values, roots)
        if polynomials is None:
            return None
        system += [polynomial for polynomial in polynomials if polynomial != 0]
    alone, system = _single_unknowns(system)
    # What is found last in a row of relations makes a short basis when it is eliminated first.
    order = [one for one in (*roots, *reversed(symbols.values())) if one not in alone]
    rest = _by_basis(system, order)
    if rest is None:
        return None
    every = [{**alone, **one} for one in rest]
    right = [one for one in every if all(one[root].is_nonnegative for root in roots)]
    named = [{name: one[symbol] for name, symbol in symbols.items()} for one in right]
    return [one for one in named if _can_be(one)]


def _single_unknowns(system: list[Exact]) -> tuple[dict[Symbol, Exact], list[Exact]]:
    """What single linear polynomials tell at once, and the system with that put in.

    Such polynomials belong to any basis; taking them out first only saves time.
    """
    found: dict[Symbol, Exact] = {}
    while True:
        single = next((p for p in system if _linear_in_one(p)), None)
        if single is None:
            return found, system
        (symbol,) = single.free_symbols
        found[symbol] = -single.coeff(symbol, 0) / single.coeff(symbol, 1)
        put = [p.subs(symbol, found[symbol]).expand() for p in system if p is not single]
        system = [p for p in put if p != 0]


def _linear_in_one(polynomial: Exact) -> bool:
    symbols = polynomial.free_symbols
    return len(symbols) == 1 and bool(Poly(polynomial, *symbols).degree() == 1)


def _by_basis(system: list[Exact], order: list[Symbol]) -> list[dict[Symbol, Exact]] | None:
    """All solutions of what is left, by a Gröbner basis; None if SymPy cannot solve it."""
    if not order:
        return [] if system else [{}]
    try:
        basis = groebner(system, *order, order="lex")
        rows = solve_poly_system(basis.exprs, *order) or []
    except (PolynomialError, NotImplementedError):
        return None
    return [dict(zip(order, row, strict=True)) for row in rows]


def _can_be(solution: Mapping[Name, Exact]) -> bool:
    return all(
        value.is_real and (name.quantity not in NEVER_NEGATIVE or value > 0)
        for name, value in solution.items()
    )


def _polynomials(
    relation: Relation, values: dict[Name, Exact], roots: list[Symbol]
) -> list[Exact] | None:
    """What must be zero in a relation, without fractions; None if it is no polynomial.

    A square root becomes one more unknown, whose square is what stood under the root.
    """
    more: list[Exact] = []
    sides = [_evaluated(side, values, roots, more) for side in (relation.left, relation.right)]
    if sides[0] is None or sides[1] is None:
        return None
    cleared = [fraction(together(one))[0].expand() for one in (sides[0] - sides[1], *more)]
    numbers = (atom for one in cleared for atom in one.atoms() if not atom.is_Symbol)
    return cleared if all(isinstance(number, Rational) for number in numbers) else None


def _evaluated(
    formula: Formula, values: dict[Name, Exact], roots: list[Symbol], more: list[Exact]
) -> Exact | None:
    """A formula in symbols, each square root in it as a symbol of its own."""
    match formula:
        case Exp() | Ln():
            return None
        case Power(_, exponent) if exponent.denominator != 1:
            return None
        case Root(base):
            inner = _evaluated(base, values, roots, more)
            if inner is None:
                return None
            roots.append(Symbol(f"r{len(roots)}"))
            more.append(roots[-1] ** 2 - inner)
            return roots[-1]
        case Ref() | Num() | Amount():
            return evaluate(formula, values)
    parts = [_evaluated(part, values, roots, more) for part in parts_of(formula)]
    if any(part is None for part in parts):
        return None
    own = dict(values)
    names = [Name("part", str(at)) for at in range(len(parts))]
    own.update(zip(names, parts, strict=True))
    return evaluate(_over(formula, names), own)


def _over(formula: Formula, names: list[Name]) -> Formula:
    """The outermost operation of a formula, done to named parts."""
    refs = tuple(Ref(name) for name in names)
    match formula:
        case Sum():
            return Sum(refs)
        case Product():
            return Product(refs)
        case ReciprocalSum():
            return ReciprocalSum(refs)
        case Quotient():
            return Quotient(*refs)
        case Power(_, exponent):
            return Power(refs[0], exponent)
        case Negative():
            return Negative(refs[0])
        case Square():
            return Square(refs[0])
        case _:
            raise TypeError(f"{type(formula).__name__} has no place in a relation")
