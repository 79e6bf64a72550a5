"""The door to the commands, each of which has a module of its own in ``commands``."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from difflib import get_close_matches
from importlib import import_module
from typing import Any

import click

from builder.pointing import harmless

COMMANDS = {
    "check": "Solve and cross-check problems, and tell what is wrong.",
    "draw": "Draw the circuit of a problem, as SVG or PNG.",
    "key": "Print the answers of every set of fresh numbers.",
    "new": "Make a new problem, ready to be changed.",
    "numbers": "Look for values with which every number comes out clean.",
    "pack": "Put the whole unit into one zip that needs no network.",
    "schema": "Print the JSON Schema by which editors help with YAML.",
    "sheet": "Write a worksheet and the key that matches it.",
    "solve": "Print the worked solution of a problem.",
    "start": "Make a whole new unit, ready to build.",
}
"""What each command does, in a line; the command of that name stands in the module of that name."""


@contextmanager
def _named_signs() -> Iterator[None]:
    """What is said of a wrong call repeats what was typed: in a line, and a terminal obeys none."""
    try:
        yield
    except click.ClickException as error:
        error.message = harmless(error.message)  # type: ignore[misc] # for classes of our own
        raise


class _Commands(click.Group):
    """Commands that are loaded when they are called; their list is known without."""

    def make_context(self, *args: Any, **extra: Any) -> click.Context:
        with _named_signs():
            return super().make_context(*args, **extra)

    def invoke(self, ctx: click.Context) -> Any:
        with _named_signs():
            return super().invoke(ctx)

    def list_commands(self, ctx: click.Context) -> list[str]:
        return sorted(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in COMMANDS:
            return None
        command = getattr(import_module(f"builder.commands.{cmd_name}"), cmd_name)
        assert isinstance(command, click.Command)
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """The command that is meant; for a name that is none, the nearest one is proposed."""
        if args and args[0] not in COMMANDS and not args[0].startswith("-"):
            near = get_close_matches(args[0].lower(), COMMANDS, n=1)
            proposed = f' Did you mean "{near[0]}"?' if near else ""
            ctx.fail(f'There is no command "{harmless(args[0])}".{proposed}')
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl([(name, COMMANDS[name]) for name in self.list_commands(ctx)])


_EXIT_CODES = """\b
Exit codes of all commands:
  0  all is well
  1  something is wrong with what was given, as a fault in a file
  2  the command was called wrongly, as with an option that does not exist
"""


@click.group(
    cls=_Commands, epilog=_EXIT_CODES, context_settings={"help_option_names": ["-h", "--help"]}
)
@click.version_option(package_name="stepwell")
def main() -> None:
    """Circuit problems written in YAML become verified worked examples.

    Example: stepwell start my-unit --title "My unit"

    stepwell COMMAND --help tells more of each command.
    """
