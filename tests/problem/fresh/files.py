"""Problem files that the tests of fresh numbers share."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from builder.problem import read_problem
from builder.problem.model import Problem

PROBLEMS = Path(__file__).parent.parent.parent.parent / "content" / "problems"
FILES = tuple(sorted(PROBLEMS.glob("*.yml")))


@cache
def problem_in(file: Path) -> Problem:
    """A problem of the demonstration unit, read once."""
    return read_problem(file)


SPELLINGS = {
    "flow": "title: T\ncircuit: {source: {V0: 12 V}, series: [{C1: 10 uF}, {C2: 20 uF}]}\n"
    "find: equivalent\n",
    "quotes": "title: T\ncircuit:\n  source: \"12 V\"\n  series:\n    - C1: '10 uF'\n"
    '    - C2: {capacitance: "20 uF" }   # said twice: 20 uF\nfind: equivalent\n',
    "CRLF": "title: T\r\ncircuit:\r\n  source: 12 V\r\n  series:\r\n    - C1: 10 uF  \r\n"
    "    - C2: 20 uF # 20 uF\r\nfind: equivalent\r\n",
    "beyond the BMP": "title: 𝄞 🛟 ünder\ncircuit:\n  source: 12 V # 🔋\n  series:\n"
    "    - C1: 10 µF\n    - C2: 20 µF\nfind: equivalent\n",
    "byte order mark": "\ufefftitle: T\ncircuit:\n  source: 12 V\n  series:\n"
    "    - C1: 10 uF\n    - C2: 20 uF\nfind: equivalent\n",
    "folded": 'title: T\ncircuit:\n  source: 12\n    V\n  series:\n    - C1: "10\n\n        uF"\n'
    "    - C2: 20 uF\nfind: equivalent\n",
    "line ends of old": "title: T\u2028circuit:\u2028  source: 12 V\u2028  series:\u2028"
    "    - C1: 10 uF\u2028    - C2: 20 uF\u2028find: equivalent\u2028",
    "escapes": 'title: T\ncircuit:\n  source: "12\\x20V"\n  series:\n    - C1: "10 \\u00b5F"\n'
    "    - C2: 20 uF\nfind: equivalent\n",
}
"""The same circuit, each written as another author, or another machine, would."""
