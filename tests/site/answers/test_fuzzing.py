"""Twenty thousand strings typed into the forms of a page: no fault, no markup, no long wait."""

from __future__ import annotations

import random
from pathlib import Path
from typing import Any

import pytest

from tests.conftest import Open
from tests.site.answers.scripts import JUDGE_ALL, JUDGES, problem_file
from tests.site.answers.table import HOSTILE, QUESTIONS, rows
from tests.site.formulas.test_symbols_page import TWINS
from tests.site.pages import FLASHER

STRINGS = 10_000
"""For each of the two pages, one asking for numbers and one for letters."""

GOOD_LETTERS = ["2CV/3", "2/3 C V", "(2/3)*C*V", "3C1V²/4", "C_1 V/(C1+C2)", "⅔ C·V", "Q = CV/3"]
STRANGE = ("<>&\"'`\\/=()[]{}^*·×+-−.,;:%$#@!?~|_ \t\n\u00a0\u200b\u200f\u202e\u0000\ufeff"
           "₁²⁻⁵½⅔µμΩΩ√∞≈€😀👩‍🔬é߷١９eE10xX")  # fmt: skip
WORDS = (
    "<b>|</form>|<img src=x onerror=alert(1)>|__proto__|constructor|e308|Infinity|NaN|10^|×10^-5|uC"
    "| V|C1|((((|))))|000|1/|//"
).split("|")

# Types all at one go, and looks at what changed after each.
TYPE_ALL = """typed => {
  const allowed = ['B', 'A', 'SPAN', 'I', 'SUB', 'SUP'];
  const ours = ['class', 'href', 'data-q', 'data-of'];
  const form = document.querySelector('.sw-questions form[data-question=typed]');
  const box = form.querySelector('input');
  const reply = form.querySelector('.sw-reply');
  const faults = [];
  let slowest = 0;
  const watch = new MutationObserver(() => {});
  watch.observe(document, {subtree: true, childList: true, attributes: true, characterData: true});
  const before = window.faults.length;
  const begun = performance.now();
  typed.forEach(text => {
    box.value = text;
    watch.takeRecords();
    const start = performance.now();
    form.requestSubmit();
    slowest = Math.max(slowest, performance.now() - start);
    const outside = watch.takeRecords().filter(record => !reply.contains(record.target));
    const strange = [...reply.querySelectorAll('*')].filter(node => !allowed.includes(node.tagName)
      || [...node.attributes].some(each => !ours.includes(each.name)));
    if (outside.length || strange.length || !reply.textContent) {
      faults.push([text, reply.innerHTML]);
    }
  });
  const mean = (performance.now() - begun) / typed.length;
  return {faults: faults.slice(0, 5), slowest, mean, thrown: window.faults.slice(before)};
}"""


def mutated(random_: random.Random, good: list[str]) -> str:
    """A good answer with a few characters put in, taken out or changed; now and then all random."""
    if random_.random() < 0.1:
        return "".join(_any_character(random_) for _ in range(random_.randint(0, 40)))
    text = list(random_.choice(good))
    for _ in range(random_.randint(1, 4)):
        at = random_.randint(0, len(text))
        piece = random_.choice([_any_character(random_), random_.choice(STRANGE),
                                random_.choice(WORDS), str(random_.randrange(10))])  # fmt: skip
        text[at : at + random_.randint(0, 2)] = list(piece)
    return "".join(text) * (random_.randint(2, 300) if random_.random() < 0.01 else 1)


def _any_character(random_: random.Random) -> str:
    code = random_.randrange(0x110000)
    return chr(code) if not 0xD800 <= code < 0xE000 else "\ufffd"


@pytest.mark.parametrize("asks", ["numbers", "letters"])
def test_no_string_does_harm(tmp_path: Path, visit: Open, asks: str) -> None:
    """Nothing is thrown, only the reply changes, to elements of our own, and it comes at once."""
    random_ = random.Random(f"stepwell {asks}")
    text = FLASHER if asks == "numbers" else TWINS
    good = [row[1] for row in rows() if row[2] == "right"] if asks == "numbers" else GOOD_LETTERS
    strings = [typed for typed, _ in HOSTILE if "\ud800" not in typed]
    strings += [mutated(random_, good) for _ in range(STRINGS - len(strings))]
    file = problem_file(tmp_path, text, asks, JUDGES)
    visited = visit(file)
    visited.page.evaluate(
        "window.faults = []; window.onerror = (...told) => { faults.push(told[0]); }"
    )
    found: dict[str, Any] = visited.page.evaluate(TYPE_ALL, strings)
    assert len(strings) == STRINGS
    assert found["thrown"] == []
    assert found["faults"] == []
    # A string alone takes a millisecond; the machine may be busy with other tests.
    assert found["mean"] < 10
    assert found["slowest"] < 2000
    assert visited.errors == []
    assert visited.strays == []


def test_every_question_of_the_table_is_judged_alike_twice(tmp_path: Path, visit: Open) -> None:
    """A verdict depends on nothing but what was typed."""
    page = visit(problem_file(tmp_path, FLASHER, "twice", JUDGES)).page
    table = [[typed, QUESTIONS[question]] for question, typed, _, _ in rows()]
    judge = f"rows => JSON.stringify(({JUDGE_ALL})(rows))"
    assert page.evaluate(judge, table) == page.evaluate(judge, table)
