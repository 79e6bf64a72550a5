"""The door to the commands, each of which has a module of its own in ``commands``."""

from __future__ import annotations

from importlib import import_module

import click

COMMANDS = {
    "check": "Solve and cross-check problems, and tell what is wrong.",
    "key": "Print the answers of every set of fresh numbers.",
    "numbers": "Look for values with which every number comes out clean.",
    "pack": "Put the whole unit into one zip that needs no network.",
    "sheet": "Write a worksheet and the key that matches it.",
    "solve": "Print the worked solution of a problem.",
}
"""What each command does, in a line; the command of that name stands in the module of that name."""


class _Commands(click.Group):
    """Commands that are loaded when they are called; their list is known without."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return sorted(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in COMMANDS:
            return None
        command = getattr(import_module(f"builder.commands.{cmd_name}"), cmd_name)
        assert isinstance(command, click.Command)
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl([(name, COMMANDS[name]) for name in self.list_commands(ctx)])


@click.group(cls=_Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="stepwell")
def main() -> None:
    """Circuit problems written in YAML become verified worked examples."""
