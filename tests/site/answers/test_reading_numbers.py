"""The same number, written in thousands of ways by Python, is read by the page as that number."""

from __future__ import annotations

import random
from fractions import Fraction
from typing import Any

from playwright.sync_api import Browser

from tests.site.answers.scripts import judging_page

SPELLINGS = 6000
# Prefixes of the SI Brochure, 9th edition, table 7.
PREFIXES = {"": 0, "m": -3, "µ": -6, "u": -6, "n": -9, "p": -12, "k": 3, "M": 6, "c": -2, "G": 9}
RAISED = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")
ARABIC = str.maketrans("0123456789", "٠١٢٣٤٥٦٧٨٩")
WIDE = str.maketrans("0123456789", "０１２３４５６７８９")

READ_ALL = """typed => typed.map(text => {
  const answer = stepwell.readAnswer(text, 'C');
  return answer.problem || answer.readings.map(each => [
    each.value.negative, each.value.digits, each.value.order, each.unit && each.unit.dimension]);
})"""


def decimal(whole: int, places: int) -> str:
    """A whole number with its point moved to the left."""
    digits = str(whole).rjust(places + 1, "0")
    return digits if places == 0 else f"{digits[:-places]}.{digits[-places:]}"


def grouped(text: str, mark: str) -> str:
    """The digits before the point in groups of three."""
    whole, point, rest = text.partition(".")
    groups = []
    while len(whole) > 3:
        whole, group = whole[:-3], whole[-3:]
        groups.append(group)
    return mark.join([whole, *reversed(groups)]) + point + rest


def power_of_ten(random_: random.Random, power: int) -> str:
    """A power of ten after a number, as people type it."""
    raised = str(power).translate(RAISED)
    forms = [f"e{power}", f"E{power:+d}", f"×10^{power}", f" × 10^{power}", f"·10{raised}",
             f" x 10^({power})", f" * 10**{power}", f" 10^{power}", f"×10^{{{power}}}",
             f"e{power:03d}", f" ⋅ 10{raised}", f"E{power}".replace("-", "−")]  # fmt: skip
    if power < 0:
        forms.append(f" x 10{power}")
    return random_.choice(forms)


def spelled(random_: random.Random) -> tuple[str, Fraction]:
    """One way to write a charge, and its exact value in coulombs."""
    whole, places = random_.randrange(1, 10 ** random_.randint(1, 9)), random_.randint(0, 7)
    prefix = random_.choice(list(PREFIXES))
    size = Fraction(10) ** PREFIXES[prefix]
    form = random_.randrange(5)
    if form == 0:
        over, under = random_.randrange(1, 5000), 2 ** random_.randint(0, 6) * 5
        text, value = f"{over}/{under}", Fraction(over, under)
    elif form == 1:
        first, over, under = random_.randrange(1, 90), random_.randrange(1, 8), 8
        text, value = f"{first} {over}/{under}", first + Fraction(over, under)
    else:
        text, value = decimal(whole, places), Fraction(whole, 10**places)
        if form == 2:
            text = grouped(text, random_.choice([" ", "'", "\u202f", "\u00a0", "’"]))
        elif form == 3:
            power = random_.randint(-14, 9)
            text, value = text + power_of_ten(random_, power), value * Fraction(10) ** power
        if random_.random() < 0.3:
            text = text.replace(".", ",")
    if random_.random() < 0.1 and text.isascii():
        text = text.translate(random_.choice([ARABIC, WIDE]))
    if random_.random() < 0.2:
        text, value = random_.choice(["-", "−", "–"]) + text, -value
    text = random_.choice(["", "", "", "Q = ", "Q₁=", "≈ "]) + text
    text += random_.choice([" ", " ", "", "\u00a0"]) + prefix + "C"
    return text + random_.choice(["", "", "", ".", " "]), value * size


def read_back(reading: list[Any]) -> Fraction:
    """What the page read, as an exact number."""
    negative, digits, order, _ = reading
    value: Fraction = int(digits or 0) * Fraction(10) ** (order - len(digits))
    return -value if negative else value


def test_thousands_of_spellings_are_read_exactly(chromium: Browser) -> None:
    """Decimals, groups, powers, fractions, other scripts: digit for digit the rational number."""
    random_ = random.Random(20261)
    written = [spelled(random_) for _ in range(SPELLINGS)]
    page = judging_page(chromium)
    found = page.evaluate(READ_ALL, [text for text, _ in written])
    page.context.close()
    wrong = []
    for (text, value), readings in zip(written, found, strict=True):
        fits = isinstance(readings, list) and value in map(read_back, readings)
        if not fits or any(each[3] != [0, 0, 1, 1, 0] for each in readings):
            wrong.append((text, value, readings))
    assert wrong == []


def test_only_a_comma_before_three_digits_has_two_meanings(chromium: Browser) -> None:
    """1,000 is a thousand or one; whatever else is written has one meaning."""
    page = judging_page(chromium)
    typed = {"1,000 C": {1000, 1}, "12,500 C": {12500, Fraction("12.5")}, "1,00 C": {1},
             "0,125 C": {Fraction(1, 8)}, "1.000 C": {1}, "1,000.5 C": {Fraction("1000.5")},
             "1,000,000 C": {10**6}, "1 000 C": {1000}}  # fmt: skip
    found = page.evaluate(READ_ALL, list(typed))
    page.context.close()
    assert [set(map(read_back, each)) for each in found] == list(typed.values())


def test_a_fraction_that_goes_on_is_told_from_one_that_ends(chromium: Browser) -> None:
    """25/3 is read in 24 digits with a last 1 for the rest, as the data of pages has it."""
    page = judging_page(chromium)
    ((third,), (half,)) = page.evaluate(READ_ALL, ["25/3 C", "25/2 C"])
    page.context.close()
    assert third[1:3] == ["8" + "3" * 23 + "1", 1]
    assert half[1:3] == ["125", 2]
