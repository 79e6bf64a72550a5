"""The table of a page with sets, without a browser: columns, pieces, and what does not fit."""

from __future__ import annotations

import json
import re
from functools import cache

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.problem.fresh import renewed
from builder.quantity.names import Name
from builder.site.fresh import FreshPage, fresh_lessons
from builder.site.fresh.aligning import Aligner, DoesNotFitError
from builder.site.fresh.columns import Columns
from builder.site.fresh.merging import THERE, Merged, Piece
from builder.site.fresh.sets import COMPARED, MOST_SETS, _options_alike, sets_of
from builder.site.fresh.tokens import roots_of, tokens_of
from builder.site.fresh.weighing import first_of, weight_of
from builder.site.page import FRESH, PARTS, ProblemPage
from builder.solution import Solution, solve
from tests.site.pages import FLASHER, UNIT, page_of

TEXTS = st.text(alphabet="C1 is about 4.7 µF, 12 V; 𝑄≈=(a)", max_size=30)


def _read_back(recipe: str, columns: dict[str, object], written: str, at: int) -> str | None:
    """A text of a set by its recipe, as the browser makes it."""
    rows = [str(row).split(str(columns["joint"])) for row in columns["columns"]]  # type: ignore[attr-defined]
    units = written.encode("utf-16-le")
    made, place = b"", 0
    for step in recipe.split(","):
        kept, _, number = step.rpartition("+")
        row = rows[int(number)]
        if row[at] == columns["absent"]:
            return None
        first = "" if row[0] == columns["absent"] else row[0]
        made += units[place : place + 2 * int(kept or 0)] + row[at].encode("utf-16-le")
        place += 2 * int(kept or 0) + len(first.encode("utf-16-le"))
    return (made + units[place:]).decode("utf-16-le")


@given(st.lists(TEXTS, min_size=2, max_size=6).filter(lambda texts: len(set(texts)) > 1))
def test_recipes_make_every_text(texts: list[str]) -> None:
    """From the text as written and the columns comes each set's own text, to the character."""
    columns = Columns()
    recipe = columns.recipe(texts)
    told = columns.written()
    assert [_read_back(recipe, told, texts[0], at) for at in range(len(texts))] == texts


def test_an_attribute_may_be_missing() -> None:
    """What is there in some sets only has a sign of its own where it is not."""
    columns = Columns()
    recipe = columns.recipe(["", None, ""])
    told = columns.written()
    assert [_read_back(recipe, told, "", at) for at in range(3)] == ["", None, ""]


def test_equal_words_are_shipped_once() -> None:
    """A number that stands in several texts has one column, and what is shared has none."""
    columns = Columns()
    first = columns.recipe(["C1, 10 µF, in series", "C1, 15 µF, in series"])
    second = columns.recipe(["Here: 10 µF.", "Here: 15 µF."])
    assert columns.written()["columns"] == ["10|15"]
    assert (first, second) == ("4+0", "6+0")


def test_a_separator_in_a_text_is_no_separator() -> None:
    """Another sign joins the texts then."""
    columns = Columns()
    columns.recipe(["a|b", "c"])
    assert columns.written()["joint"] != "|"


def _merged(*writings: str) -> Merged:
    first, *others = map(tokens_of, writings)
    aligner = Aligner(first, roots_of(first))
    changes = [aligner.change(other, roots_of(other)) for other in others]
    return Merged(first, roots_of(first), changes)


def test_texts_and_attributes_vary() -> None:
    """Each has its column, under the element that it belongs to."""
    merged = _merged('<p>1 <b class="x">2</b> 3</p>', '<p>1 <b class="y">5</b> 4</p>')
    assert merged.targets == {1: {1: [" 3", " 4"]}, 3: {"class": ["x", "y"], 0: ["2", "5"]}}


def test_an_element_more_is_a_piece_of_that_set() -> None:
    """It stands where the set has it, with its text after it, and is shared by sets like it."""
    merged = _merged(
        "<p>a<b>1</b>c</p>", "<p>a<b>1</b> and <i>2</i>c</p>", "<p>a<b>1</b> and <i>3</i>!</p>"
    )
    own, piece = merged.order[1]
    assert (own, isinstance(piece, Piece)) == (3, True)
    assert isinstance(piece, Piece)
    assert merged.targets[1] == {1: ["c", " and ", " and "], 2: ["", "c", "!"]}
    assert piece.targets(2) == {1: {0: ["2", "2", "3"], THERE: [None, "1", "1"]}}


def test_an_element_less_is_absent_in_that_set() -> None:
    """Its place stays, so that it can come back."""
    merged = _merged("<p>a<b>1</b>c</p>", "<p>ac</p>")
    assert merged.targets == {1: {0: ["a", "ac"], 1: ["c", ""]}, 3: {THERE: ["1", None]}}


@pytest.mark.parametrize(
    "other",
    [
        "<div><form><p>1</p></form><form><p>1</p></form></div>",
        "<div></div>",
        '<div><form><p id="b">1</p></form></div>',
        "<p></p>",
        "<div><form><p>1</p><button>2</button></form></div>",
    ],
)
def test_what_a_reader_acts_on_must_stay(other: str) -> None:
    """Forms, fields and ids are set up once, so no set may bring, take or rename one."""
    with pytest.raises(DoesNotFitError):
        _merged("<div><form><p>1</p></form></div>", other)


def test_options_that_say_the_same_do_not_fit() -> None:
    """Two options alike in one question would both be right, or neither."""
    option = '<label class="sw-option"><input> <span>{}</span></label>'
    one, other = option.format("<b>2</b> V"), option.format("2  V")
    assert _options_alike(tokens_of(f"<form>{one}{other}</form>"))
    assert not _options_alike(tokens_of(f"<form>{one}</form><form>{other}</form>"))


@cache
def flasher() -> FreshPage:
    """A page with its sets, made once."""
    return FreshPage.of(page_of(FLASHER))


def _others(page: ProblemPage, *typed: dict[str, str]) -> list[Solution]:
    problem = page.lesson.solution.problem
    kinds = {"C": "capacitance", "V": "voltage"}
    named = [{Name(kinds[of[0]], of): text for of, text in new.items()} for new in typed]
    return [solve(renewed(problem, new, UNIT)) for new in named]


def test_sets_are_counted_from_one_and_none_comes_twice() -> None:
    """The same values again, or those of the page itself, are no other set."""
    page = page_of(FLASHER)
    same, other = {"V0": "12 V"}, {"V0": "24 V"}
    sets = sets_of(page, _others(page, same, other, other, {"V0": "6 V"}))
    assert [one.number for one in sets.lessons] == [1, 2]
    values = [one.lesson.solution.problem.text.count("24 V") for one in sets.lessons]
    assert values == [1, 0]


def _html(page: FreshPage) -> str:
    return "".join(str(page.part(part)) for part in PARTS)


def test_marks_and_table_agree() -> None:
    """As many elements are marked, pieces among them, as the table has slots."""
    html = _html(flasher())
    found = re.search(r"data-fresh-table>(.*?)</script>", html)
    assert found is not None
    table = json.loads(found.group(1))
    pieces = "".join(piece for parent in table["pieces"] for _, piece in parent)
    body = html.replace(found.group(1), "")
    assert (body + pieces).count(" data-v") == len(table["slots"].split(" "))
    assert body.count(" data-x") == len(table["pieces"])
    assert all(len(row.split(table["joint"])) == table["sets"] + 1 for row in table["columns"])
    assert ' data-m="' not in html


def test_no_text_ends_the_table() -> None:
    """Whatever an author writes, the table stays one script element that is data alone."""
    text = FLASHER.replace("A flasher board", "A </script><script>alert(1)</script> board {V0}")
    html = str(FreshPage.of(page_of(text)).part(next(p for p in PARTS if p.id == FRESH)))
    table = html.partition("data-fresh-table>")[2]
    assert table.count("<") == 1
    assert table.endswith("</script>")


def test_the_same_page_twice_has_the_same_bytes() -> None:
    """A build is reproducible."""
    assert _html(FreshPage.of(page_of(FLASHER))) == _html(flasher())


def test_the_key_and_the_page_have_the_same_sets() -> None:
    """Whoever asks for the lessons of the sets gets those that the page offers."""
    lessons = fresh_lessons(page_of(FLASHER).lesson, UNIT)
    offered = flasher().sets.lessons
    assert 20 <= len(lessons) <= MOST_SETS
    texts = [[one.lesson.solution.problem.text for one in each] for each in (lessons, offered)]
    assert texts[0] == texts[1]


def test_a_page_that_would_be_too_heavy_offers_fewer_sets() -> None:
    """The weight grows with the sets, and the first ones are kept."""
    sets = flasher().sets
    few = first_of(sets, 6)
    assert [one.number for one in few.lessons] == [1, 2, 3, 4, 5, 6]
    assert weight_of(few) < weight_of(sets)


def test_the_page_as_written_says_the_same_with_marks() -> None:
    """Marks apart, no word of the page changes where it has sets."""
    tags = re.compile(r"<[^>]*>")
    for part in COMPARED:
        if part.id != FRESH:
            marked, plain = str(flasher().part(part)), str(flasher().page.part(part))
            assert tags.sub("", marked) == tags.sub("", plain)
