"""Networks typed in a few lines, and their steps written in one line each."""

from __future__ import annotations

from builder.problem import read_problem_text
from builder.problem.model import NetworkProblem
from builder.quantity.formula import Formula, Negative, Product, Quotient, Solved, Sum
from builder.quantity.names import Name
from builder.solution.network.solve import NetworkSolution, solve_network
from builder.solution.network.step import NetworkStep
from builder.solution.program import Statement
from tests.solution.written import written, written_name

TWO_BATTERIES = """
E1: {emf: 24 V, between: [x, e]}
R1: {resistance: 3 ohm, between: [x, b]}
R2: {resistance: 3 ohm, between: [b, e]}
R3: {resistance: 3 ohm, between: [b, z]}
R4: {resistance: 4 ohm, between: [z, y]}
E2: {emf: 29 V, between: [y, e]}
"""


def problem_of(rows: str, beside: str = "", find: str = "[current]") -> NetworkProblem:
    """The problem of a table of branches, with other keys of the circuit beside it."""
    keys = "".join(f"  {line}\n" for line in beside.splitlines())
    table = "".join(f"    {row}\n" for row in rows.strip().splitlines())
    text = f"title: A bench\ncircuit:\n{keys}  branches:\n{table}find: {find}\n"
    problem = read_problem_text(text, "bench.yml")
    assert isinstance(problem, NetworkProblem)
    return problem


def solved(rows: str, beside: str = "", find: str = "[current]") -> NetworkSolution:
    """The solution of a table of branches."""
    return solve_network(problem_of(rows, beside, find))


def step_of(solution: NetworkSolution, id: str) -> NetworkStep:
    """The step of that id."""
    return next(step for step in solution.every_step if step.id == id)


def signed(formula: Formula) -> str:
    """A formula in one line, signs and brackets included."""
    match formula:
        case Sum(terms):
            first, *rest = map(signed, terms)
            return first + "".join(f" − {t[1:]}" if t[0] == "−" else f" + {t}" for t in rest)
        case Negative(term):
            return f"−{_inside(term)}"
        case Product(factors):
            return "·".join(map(_inside, factors))
        case Quotient(over, under):
            return f"{_inside(over)}/{_inside(under)}"
        case Solved(system, position):
            rows = zip(system.rows, system.right, strict=True)
            told = [f"{', '.join(map(signed, row))} | {signed(right)}" for row, right in rows]
            return f"unknown {position} of ({'; '.join(told)})"
        case _:
            return written(formula)


def _inside(formula: Formula) -> str:
    return f"({signed(formula)})" if isinstance(formula, Sum) else signed(formula)


def lines_of(step: NetworkStep) -> list[str]:
    """Its lines."""
    return [f"{written_name(line.name)} = {signed(line.formula)}" for line in step.lines]


def statements_of(step: NetworkStep) -> list[str]:
    """Its equations."""
    return [_statement(one) for one in step.statements]


def _statement(one: Statement) -> str:
    return f"{one.about}: {signed(one.left)} {one.relation} {signed(one.right)}"


def value(solution: NetworkSolution, quantity: str, of: str) -> object:
    """A value in SI units."""
    return solution.value(Name(quantity, of))
