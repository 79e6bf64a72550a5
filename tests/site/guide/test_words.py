"""The guide's prose names only what there is, and all there is."""

from __future__ import annotations

import re

import click
import pytest
from mkdocs.__main__ import cli as mkdocs_cli

from builder.cli import COMMANDS, main
from builder.lesson.kinds import KINDS
from builder.plugin import StepwellConfig
from builder.problem import shape
from builder.problem.model import GENERATED, METHODS
from builder.problem.relations.quantities import KIND_WORDS
from builder.site.embed import _EMBEDDABLE as EMBEDDABLE
from builder.site.front import Front
from builder.site.guide.keys import PARTS, sections
from tests.site.guide.texts import BLOCKS, PAGES, codes, in_role

AUTHORS = {path: text for path, text in PAGES.items() if path.startswith("authors/")}
ALL_KEYS = {key for one, *_ in PARTS for key in shape.keys_of(one)}
OPTIONS = {name for name, _ in StepwellConfig._schema}
HOST_KEYS = {"plugins", "site_url", "stepwell", "parts"} | OPTIONS
"""What is typed with a colon and is no key of our files: options of the site, parts of a block."""


@pytest.mark.parametrize("path", PAGES)
def test_every_key_in_the_prose_exists(path: str) -> None:
    """What the prose calls by name and colon is a key of some file."""
    named = {
        match for code in codes(PAGES[path]) for match in re.findall(r"^([a-z][\w-]*):(?!//)", code)
    }
    assert named - ALL_KEYS - HOST_KEYS - _asked_words() == set()


def _asked_words() -> set[str]:
    """What may be asked or measured, each with a colon: charge: total."""
    return {"charge", "voltage", "current", "power", "energy", "potential", "time", "equivalent"}


def test_no_method_no_kind_and_no_question_is_missing() -> None:
    """Every method, every kind of unknown quantity, every generated question has its place."""
    assert set(METHODS) <= set(codes(PAGES["authors/networks.md"]))
    assert set(KIND_WORDS) <= set(codes(PAGES["authors/equations.md"]))
    assert set(GENERATED) <= set(codes(PAGES["authors/words.md"]))
    assert set(EMBEDDABLE) <= set(codes(PAGES["authors/unit.md"]))


def test_every_kind_has_its_page() -> None:
    """The table of kinds leads to as many pages as there are kinds, and more."""
    table = PAGES["authors/index.md"].split("## What goes")[0]
    assert len(re.findall(r"^\|.*\]\((\S+)\.md\)", table, re.MULTILINE)) >= len(KINDS)


def test_the_options_of_the_plugin_are_those_there_are() -> None:
    """The shown options are all that an author may set, with nothing made up."""
    shown = in_role("site")[-2].text + in_role("site")[-1].text + in_role("site")[0].text
    named = set(re.findall(r"^      ([a-z_]+):", shown, re.MULTILINE))
    assert named <= OPTIONS
    assert OPTIONS - named == {"style_page"}


def test_the_parts_of_a_front_page_exist() -> None:
    """What is shown for a front page are the parts that Front makes."""
    (block,) = in_role("front")
    parts = re.findall(r'data-stepwell-made="front/([a-z]+)"', block.text)
    assert parts == ["objectives", "path", "problems"]
    assert all(hasattr(Front, f"_{part}") for part in parts)


def _commands() -> list[list[str]]:
    lines = [line for _, block in BLOCKS if block.language == "sh"
             for line in block.text.splitlines() if line]  # fmt: skip
    lines += [code for text in PAGES.values() for code in codes(text)
              if re.match(r"(stepwell|mkdocs) \w", code)]  # fmt: skip
    return [re.sub(r"^[A-Z_]+=\S+ ", "", line).split() for line in lines]


@pytest.mark.parametrize("words", _commands(), ids=" ".join)
def test_every_command_takes_what_it_is_given(words: list[str]) -> None:
    """Commands named in the guide exist and know the options that are shown with them."""
    if words[:3] == ["python3", "-m", "pip"]:
        return
    group: click.Group = main if words[0] == "stepwell" else mkdocs_cli
    command = group.get_command(click.Context(group), words[1])
    assert command is not None
    known = {option for one in command.params for option in one.opts}
    assert {word for word in words[2:] if word.startswith("--")} <= known


def test_options_in_the_prose_belong_to_some_command() -> None:
    """An option that is named by itself is one of some command."""
    known = {"--strict", "--constraint"}
    for name in COMMANDS:
        command = main.get_command(click.Context(main), name)
        assert command is not None
        known |= {option for one in command.params for option in one.opts}
    named = {word for text in PAGES.values() for code in codes(text) for word in code.split()
             if word.startswith("--")}  # fmt: skip
    assert len(named) > 8
    assert named <= known


def test_the_reference_holds_every_key() -> None:
    """Every key of every part has its entry, with a description, an example and an anchor."""
    listed = [(section.anchor, key.name) for section in sections() for key in section.keys]
    there = [(anchor, key) for one, anchor, *_ in PARTS for key in shape.keys_of(one)]
    assert listed == there
    keys = [key for section in sections() for key in section.keys]
    assert all(len(key.about) > 8 and key.examples for key in keys)
    assert len({key.anchor for key in keys}) == len(keys)
