"""Problems embedded in a lesson's Markdown."""

from __future__ import annotations

import pytest

from builder.errors import FaultyFile
from builder.site.embed import DEFAULT_PARTS, embed

KNOWN = ("flasher-reservoir", "lantern-ladder")


def test_a_block_becomes_the_places_of_its_parts() -> None:
    """A fenced block that names a problem is replaced by a place for each usual part."""
    out = embed("before\n\n```problem\nflasher-reservoir\n```\n\nafter\n", "lesson.md", KNOWN)
    assert "```" not in out
    for part in DEFAULT_PARTS:
        assert f'<div data-stepwell-part="flasher-reservoir/{part}"></div>' in out
    assert out.startswith("before")
    assert out.rstrip().endswith("after")


def test_parts_can_be_chosen() -> None:
    """Only the parts that a block names are put in its place, in its order."""
    out = embed("~~~problem\nlantern-ladder\nparts: checks, opening\n~~~", "lesson.md", KNOWN)
    assert out.split() == [
        "<div", 'data-stepwell-part="lantern-ladder/checks"></div>',
        "<div", 'data-stepwell-part="lantern-ladder/opening"></div>',
    ]  # fmt: skip


def test_other_blocks_stay_as_they_are() -> None:
    """Code blocks, even ones that show a problem block, are left alone."""
    markdown = "````\n```problem\nnobody\n```\n````\n\n```python\nx = 1\n```"
    assert embed(markdown, "lesson.md", KNOWN) == markdown


@pytest.mark.parametrize(
    ("markdown", "fault"),
    [
        (
            "```problem\nflasher-resevoir\n```",
            'lesson.md:2:1: found "flasher-resevoir"; expected the name of a problem. '
            'Did you mean "flasher-reservoir"?',
        ),
        (
            "text\n\n```problem\n\n```",
            "lesson.md:3:1: found a block without a problem; expected the name of a problem on "
            "the line after it. Name the problem's file without its .yml.",
        ),
        (
            "```problem\nlantern-ladder\n",
            'lesson.md:1:1: found a block that does not end; expected a line "```" after it. '
            "Close the block.",
        ),
        (
            "```problem\nlantern-ladder\n  parts: opening, answers\n```",
            'lesson.md:3:19: found the part "answers"; expected parts of a problem\'s page. Parts '
            "are opening, caution, predict, solution, course, checks, limits, results, watch, "
            "self-check.",
        ),
        (
            "```problem\nlantern-ladder\nflasher-reservoir\n```",
            'lesson.md:3:1: found "flasher-reservoir"; expected nothing, or "parts: …". '
            "Remove this line.",
        ),
        (
            "```problem\nzzz\n```",
            'lesson.md:2:1: found "zzz"; expected the name of a problem. '
            "Name the problem's file without its .yml.",
        ),
    ],
)
def test_faults_name_their_place(markdown: str, fault: str) -> None:
    """A block that cannot be used gives one clear fault with line and column."""
    with pytest.raises(FaultyFile) as caught:
        embed(markdown, "lesson.md", KNOWN)
    assert str(caught.value) == fault
