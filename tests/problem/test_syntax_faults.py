"""What is told of a file that is no YAML."""

from __future__ import annotations

import pytest

from tests.problem.samples import yaml_faults_of


@pytest.mark.parametrize(
    ("text", "faults"),
    [
        pytest.param(
            "",
            [
                "1:1: found an empty file; expected keys with their values, such as "
                "title: Two lamps. Write the file, or delete it."
            ],
            id="empty",
        ),
        pytest.param(
            "# a note\n",
            [
                "1:1: found an empty file; expected keys with their values, such as "
                "title: Two lamps. Write the file, or delete it."
            ],
            id="only-comments",
        ),
        pytest.param(
            "Two lamps\n",
            [
                '1:1: found only the text "Two lamps"; expected keys with their values, '
                "such as title: Two lamps. Start each line with a key, a colon and a space."
            ],
            id="only-text",
        ),
        pytest.param(
            "- Two lamps\n- core\n",
            [
                "1:1: found a list; expected keys with their values, such as title: Two "
                "lamps. Start each line with a key, a colon and a space."
            ],
            id="a-list",
        ),
        pytest.param(
            "title:Two lamps\nlevel: core\n",
            [
                '1:6: found "title:Two lamps"; expected a space after the colon. Write '
                '"title: Two lamps".'
            ],
            id="no-space-after-colon",
        ),
        pytest.param(
            "title: Two lamps\nlevel:core\ndigits: 3\n",
            ['2:6: found "level:core"; expected a space after the colon. Write "level: core".'],
            id="no-space-later",
        ),
        pytest.param(
            "title: Lamps: two of them\n",
            [
                '1:8: found a text with a colon in it, "Lamps: two of them"; expected a '
                "text between quotes. Put quotes around the text."
            ],
            id="colon-in-text",
        ),
        pytest.param(
            "circuit:\n\tsource: 12 V\n",
            [
                "2:1: found a tab at the start of a line; expected spaces. Indent with "
                "spaces, two for each level."
            ],
            id="tab",
        ),
        pytest.param(
            "title: Two\n\tlamps: 2\n",
            [
                "2:1: found a tab at the start of a line; expected spaces. Indent with "
                "spaces, two for each level."
            ],
            id="tab-after-text",
        ),
        pytest.param(
            'title: "Two lamps\nlevel: core\n',
            [
                '1:8: found a quotation mark (") that is never closed; expected the same '
                'mark again at the end of the text. Add " at the end of the text, or '
                "remove it at the start."
            ],
            id="open-double-quote",
        ),
        pytest.param(
            "title: 'Two lamps\nlevel: core\n",
            [
                "1:8: found a quotation mark (') that is never closed; expected the same "
                "mark again at the end of the text. Add ' at the end of the text, or "
                "remove it at the start."
            ],
            id="open-single-quote",
        ),
        pytest.param(
            "title: 'Two' lamps\n",
            [
                '1:14: found more text after a closing quotation mark, "lamps"; expected '
                "the end of the line. Put the whole text into the other kind of quotes, "
                "and check that no line above misses its closing mark."
            ],
            id="text-after-quote",
        ),
        pytest.param(
            "title: 'The harbour's lamps'\n",
            [
                '1:21: found more text after a closing quotation mark, "s lamps\'"; '
                "expected the end of the line. Put the whole text into the other kind of "
                "quotes, and check that no line above misses its closing mark."
            ],
            id="apostrophe",
        ),
        pytest.param(
            "objectives: [energy, power\nlevel: core\n",
            [
                '1:13: found a "[" that does not end properly; expected commas between '
                'the parts and a "]" at the end. Add the missing comma or "]".'
            ],
            id="open-bracket",
        ),
        pytest.param(
            "circuit: {source: 12 V\nlevel: core\n",
            [
                '1:10: found a "{" that does not end properly; expected commas between '
                'the parts and a "}" at the end. Add the missing comma or "}".'
            ],
            id="open-brace",
        ),
        pytest.param(
            "plan: {C1} comes first\n",
            [
                '1:7: found a text that starts with "{", "{C1} comes first"; expected a '
                "text between quotes. Put quotes around the text."
            ],
            id="starts-with-brace",
        ),
        pytest.param(
            "title: [Two] lamps\n",
            [
                '1:8: found a text that starts with "[", "[Two] lamps"; expected a text '
                "between quotes. Put quotes around the text."
            ],
            id="starts-with-bracket",
        ),
        pytest.param(
            "circuit:\n    source: 12 V\n  series: []\n",
            [
                '3:3: found "series: []" at an indentation that fits no line above; '
                "expected a key below the key above. Move the line left or right until "
                "it lines up with its neighbours."
            ],
            id="key-too-far-left",
        ),
        pytest.param(
            "title: Two lamps\n  level: core\n",
            [
                '2:3: found "level: core" indented below a line that has its value '
                "already; expected a key that lines up with the one above. Indent it "
                "like the line above, or put quotes around a text of several lines."
            ],
            id="key-too-far-right",
        ),
        pytest.param(
            "find:\n  - charge: C1\n    - voltage: C1\n",
            [
                '3:5: found "- voltage: C1" at an indentation that fits no line above; '
                "expected a dash below the dash above. Move the line left or right until "
                "it lines up with its neighbours."
            ],
            id="dash-too-far-right",
        ),
        pytest.param(
            "find: - equivalent\n",
            [
                "1:7: found a dash after a colon on the same line; expected each item of "
                "a list on a line of its own. Move the dash to the next line, or put "
                "quotes around a text that starts with a dash."
            ],
            id="dash-after-colon",
        ),
        pytest.param(
            "level: core\n- energy\n",
            [
                '2:1: found "- energy" at an indentation that fits no line above; '
                "expected a dash below the dash above. Move the line left or right until "
                "it lines up with its neighbours."
            ],
            id="list-beside-keys",
        ),
        pytest.param(
            "title: @harbour\n",
            [
                '1:8: found a text that starts with "@"; expected a text between quotes. '
                "Put quotes around the text."
            ],
            id="at-sign",
        ),
        pytest.param(
            "title: %lamps\n",
            [
                '1:8: found a text that starts with "%"; expected a text between quotes. '
                "Put quotes around the text."
            ],
            id="percent",
        ),
        pytest.param(
            "title: `lamps`\n",
            [
                '1:8: found a text that starts with "`"; expected a text between quotes. '
                "Put quotes around the text."
            ],
            id="backtick",
        ),
        pytest.param(
            "title: *\n",
            [
                '1:8: found a text that starts with "*"; expected a text between quotes. '
                "Put quotes around the text."
            ],
            id="star-alone",
        ),
        pytest.param(
            "title: !a!b lamps\n",
            [
                '1:8: found a text that starts with "!"; expected a text between quotes. '
                "Put quotes around the text."
            ],
            id="odd-tag",
        ),
        pytest.param(
            "level: core\ntwo lamps\ndigits: 3\n",
            [
                '2:1: found "two lamps" without a colon; expected a key, a colon and a '
                "space. Add the colon, or indent the line if it belongs to the text above."
            ],
            id="no-colon",
        ),
        pytest.param(
            'title: "Two \\lamps"\n',
            [
                "1:8: found a backslash in double quotes that YAML does not understand; "
                "expected plain characters. Use single quotes, in which a backslash is a "
                "backslash."
            ],
            id="backslash",
        ),
        pytest.param(
            "scenario: |Two lamps\n  stand here.\n",
            [
                '1:11: found "|Two lamps" on one line; expected the text below its "|" '
                'or ">". Start the text on the next line, indented.'
            ],
            id="text-beside-bar",
        ),
        pytest.param(
            "%lamps\ntitle: Two lamps\n",
            [
                '1:1: found "%lamps" outside the problem; expected a key, a colon and a '
                "space. Delete the line, or put quotes around a text that starts with %."
            ],
            id="directive",
        ),
        pytest.param(
            "title: Two lamps\n...\nlevel: core\n",
            [
                '3:1: found "level: core" after the end of the problem; expected the end '
                "of the file. Delete the dots or the brackets before it, which end the "
                "problem."
            ],
            id="after-the-end",
        ),
    ],
)
def test_syntax_is_told_in_plain_words(text: str, faults: list[str]) -> None:
    """Each mistake is told with its place, what stands there, what should, and what to do."""
    assert yaml_faults_of(text) == [f"problem.yml:{fault}" for fault in faults]
