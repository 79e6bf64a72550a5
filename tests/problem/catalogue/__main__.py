"""Write what is told of every case anew: ``python -m tests.problem.catalogue``.

For those who reword faults: the difference shows every sentence that has changed, to be read
aloud before it is kept.
"""

from __future__ import annotations

import re
import textwrap

import yaml

from tests.problem.catalogue.cases import HERE, case_of, told_of

_TOLD = re.compile(r"  told: \|\n(?:    .*\n|\n(?!- ))*")


def main() -> None:
    """Rewrite the files of the catalogue in place."""
    for file in sorted(HERE.glob("*.yml")):
        text = file.read_text(encoding="utf-8")
        every = [case_of(entry) for entry in yaml.safe_load(text)]
        parts = _TOLD.split(text)
        for at, case in enumerate(every):
            told = textwrap.indent(told_of(case.of, case.text), "    ")
            parts[at] += f"  told: |\n{told}\n"
        file.write_text("".join(parts).rstrip("\n") + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
