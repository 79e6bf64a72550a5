"""The picture of a circuit that goes along where a page's address is passed on."""

from __future__ import annotations

import re

# The size that the Open Graph previews of most services are cut for; common practice, no source.
WIDTH, HEIGHT = 1200, 630
MARGIN = 70
PAPER, INK, LIGHT = "#fffdf8", "#16263a", "#e69f00"
_SIZE = re.compile(r'width="([\d.]+)" height="([\d.]+)"')


def preview_image(figure: str) -> str:
    """A figure, as large as it fits, on a sheet of paper of its own.

    Args:
        figure: an SVG as ``builder.figure.draw`` makes it.

    Returns:
        A whole SVG file.
    """
    size = _SIZE.search(figure)
    if size is None:
        raise ValueError("a figure without its width and height")
    width, height = float(size[1]), float(size[2])
    scale = min((WIDTH - 2 * MARGIN) / width, (HEIGHT - 2 * MARGIN) / height)
    left, top = (WIDTH - width * scale) / 2, (HEIGHT - height * scale) / 2
    placed = (
        f'x="{left:.1f}" y="{top:.1f}" width="{width * scale:.1f}" height="{height * scale:.1f}"'
    )
    drawing = figure[: size.start()] + placed + figure[size.end() :]
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH}" height="{HEIGHT}" '
        f'viewBox="0 0 {WIDTH} {HEIGHT}" color="{INK}">'
        f'<rect width="{WIDTH}" height="{HEIGHT}" fill="{PAPER}"/>'
        f'<rect width="{WIDTH}" height="12" fill="{INK}"/>'
        f'<rect y="12" width="{WIDTH}" height="5" fill="{LIGHT}"/>{drawing}</svg>\n'
    )
