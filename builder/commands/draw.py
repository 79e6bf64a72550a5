"""``stepwell draw``: the figure of a problem's circuit as a picture."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from builder.commands.paths import FilePath
from builder.commands.telling import kilobytes, named, stop, tell
from builder.errors import StepwellError
from builder.lesson import write_lesson
from builder.problem import read_problem
from builder.problem.model import Unit
from builder.problem.unit_of import unit_of
from builder.site.pictures.drawing import draw_alone
from builder.site.pictures.lettered import with_fonts
from builder.site.pictures.photographing import find_photographer, photograph
from builder.site.pictures.writing import place_of, write_picture
from builder.solution import solve

_WIDTH = 1200


@click.command()
@click.argument("file", type=FilePath())
@click.option("--step", type=int, metavar="N",
              help="Draw the circuit after step N; by default as it is given.")  # fmt: skip
@click.option("--png", is_flag=True, help="Make a PNG, by an installed Chromium or Chrome.")
@click.option("--width", type=click.IntRange(50, 4000), metavar="PIXELS",
              help=f"The width of the PNG; {_WIDTH} by default.")  # fmt: skip
@click.option("--font", is_flag=True,
              help="Put the font into the SVG, for browsers and others that read it.")  # fmt: skip
@click.option("--out", type=FilePath(dash=True),
              help="The file to write, or - for the terminal; by default the problem's name with "
              ".svg or .png, in this folder.")  # fmt: skip
@click.option("--force", is_flag=True, help="Overwrite a file that is no picture of Stepwell.")
def draw(file: Path, out: Path | None, **given: Any) -> None:
    """Draw the circuit of the problem in FILE: black on white, for any program.

    An SVG stays sharp at any size, and its texts stay texts. Where a program takes none, make
    a PNG.

    Example: stepwell draw content/problems/flasher-reservoir.yml --step 2 --png
    """
    step, width, font = given["step"], given["width"], given["font"]
    png = given["png"] or (out is not None and out.suffix.lower() == ".png")
    if width is not None and not png:
        raise click.UsageError("--width is of a PNG; add --png. An SVG has no size of its own.")
    if font and png:
        raise click.UsageError("--font is of an SVG; the letters of a PNG are drawn already.")
    if png and out is not None and out.suffix.lower() == ".svg":
        raise click.UsageError(f"--png does not make {out.name}; end the name with .png.")
    try:
        browser = find_photographer() if png else ""
        unit = unit_of(file)
        lesson = write_lesson(solve(read_problem(file, unit=unit)))
        picture = draw_alone(lesson, unit.symbols if unit else Unit.symbols, file, step)
        picture = with_fonts(picture, signs=False) if font else picture
        content = photograph(picture, width or _WIDTH, browser) if png else picture.encode()
        if out == Path("-"):
            click.echo(content, nl=False)
            return
        written = place_of(file, out, step, ".png" if png else ".svg")
        write_picture(content, written, force=given["force"])
    except StepwellError as error:
        stop(error)
    tell(f"{named(written)} ({kilobytes(len(content))})")
