"""What is told of YAML that says more than a problem may."""

from __future__ import annotations

import pytest

from tests.problem.samples import NEST, changed, faults_of


@pytest.mark.parametrize(
    ("text", "faults"),
    [
        pytest.param(
            "[" * 3000,
            [
                "1:1001: found hundreds of opening brackets inside each other; expected "
                "a few. Check the brackets."
            ],
            id="brackets",
        ),
        pytest.param(
            "title: Two\x00lamps\n",
            [
                "1:11: found an invisible character that is no text (U+0000); expected "
                "text only. Delete the character, or save the file again as plain text."
            ],
            id="nul",
        ),
        pytest.param(
            changed(NEST, "Two lamps", '"Two \\0 lamps"'),
            [
                "1:8: found an escape for a character that is no text (U+0000); expected "
                "text only. Delete the escape."
            ],
            id="escaped-nul",
        ),
        pytest.param(
            "title: Two lamps\nlevel: \x07core\n",
            [
                "2:8: found an invisible character that is no text (U+0007); expected "
                "text only. Delete the character, or save the file again as plain text."
            ],
            id="bell",
        ),
        pytest.param(
            "title: Two\ufefflamps\n",
            [
                "1:11: found an invisible character that is no text (U+FEFF); expected "
                "text only. Delete the character, or save the file again as plain text."
            ],
            id="late-bom",
        ),
        pytest.param(
            f"{NEST}---\n{NEST}",
            [
                '8:1: found a second document (after "---"); expected one problem in a '
                "file. Give each problem a file of its own."
            ],
            id="two-documents",
        ),
        pytest.param(
            NEST + "title: Three lamps\n",
            [
                '8:1: found the key "title" a second time; expected each key once (it '
                "stands on line 1 already). Delete one of the two, or give it another name."
            ],
            id="duplicate-key",
        ),
        pytest.param(
            changed(NEST, "  series", "  source: 9 V\n  series"),
            [
                '4:3: found the key "source" a second time; expected each key once (it '
                "stands on line 3 already). Delete one of the two, or give it another name."
            ],
            id="duplicate-inside",
        ),
        pytest.param(
            changed(NEST, "12 V", "&v 12 V"),
            [
                '3:11: found the anchor "&v"; expected the value alone. Delete it, or '
                "put a text that starts with & between quotes."
            ],
            id="anchor",
        ),
        pytest.param(
            NEST + "plan: *v\n",
            [
                '8:7: found the alias "*v"; expected the value itself. Write the value '
                "out, or put a text that starts with * between quotes."
            ],
            id="alias",
        ),
        pytest.param(
            changed(NEST, "12 V", "!!float 12 V"),
            [
                '3:11: found the tag "!!float"; expected the value alone. Delete it, or '
                "put a text that starts with ! between quotes."
            ],
            id="tag",
        ),
        pytest.param(
            changed(NEST, "12 V", "!!python/object/apply:os.system [ls]"),
            [
                "3:11: found a list with 1 item; expected a source such as 12 V, or with "
                "a name, such as {V0: 12 V}. Write the source's value after the colon.",
                '3:11: found the tag "!!python/object/apply:os.system"; expected the '
                "value alone. Delete it, or put a text that starts with ! between quotes.",
            ],
            id="python-tag",
        ),
        pytest.param(
            NEST + "? [a]\n: b\n",
            [
                "8:3: found a key that is no single word; expected a word before the "
                "colon. Put a text that starts with a bracket or a colon between quotes."
            ],
            id="key-is-a-list",
        ),
        pytest.param(
            NEST + ": b\n",
            [
                '8:1: found ": b" at an indentation that fits no line above; expected a '
                "key below the key above. Move the line left or right until it lines up "
                "with its neighbours."
            ],
            id="empty-key",
        ),
    ],
)
def test_refused_yaml_is_told_in_plain_words(text: str, faults: list[str]) -> None:
    """Each mistake is told with its place, what stands there, what should, and what to do."""
    assert faults_of(text) == [f"problem.yml:{fault}" for fault in faults]
