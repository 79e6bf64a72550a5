"""What a page tells those who find it or pass it on: a description, and a preview of its circuit.

Addresses in such a preview must be whole, so they are written only where the unit's address is
known (``site_url``). The preview image is the circuit's drawing on paper, as SVG: it costs a few
kilobytes, needs no further program and comes out the same on every machine. Services that show
pictures of dots only leave it out and show the words.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from html import unescape
from urllib.parse import urljoin

from markupsafe import Markup

from builder.lesson import Lesson
from builder.lesson.kinds import topic
from builder.site.author_text import block
from builder.site.markup import Writer

LONGEST = 200
_SENTENCE_END = re.compile(r"(?<=[.!?])\s+(?=[A-ZÀ-Þ])")


def plain_scenario(lesson: Lesson) -> str:
    """The scenario as one line of text, with names and values in their places."""
    scenario = block(lesson.solution.problem.scenario, Writer(lesson.display).placeholder)
    return " ".join(unescape(re.sub(r"<[^>]+>", "", str(scenario))).split())


def description(lesson: Lesson) -> str:
    """The first sentence of the scenario, cut at a word where it is very long.

    Where there is no scenario, what the problem asks for is told.
    """
    first = _SENTENCE_END.split(plain_scenario(lesson), maxsplit=1)[0]
    if not first:
        things = topic(lesson.solution.problem)
        return f"A worked example with {things}: {lesson.solution.problem.title}."
    if len(first) <= LONGEST:
        return first
    return first[:LONGEST].rsplit(" ", 1)[0].rstrip(",;:") + "…"


@dataclass(frozen=True)
class Preview:
    """What is shown where a page's address is passed on.

    Attributes:
        title: of the page.
        site: the name of the unit's site.
        description: one sentence.
        address: of the page, whole.
        image: address of its picture, whole; empty if there is none.
        image_says: the picture's text alternative.
    """

    title: str
    site: str
    description: str
    address: str
    image: str = ""
    image_says: str = ""

    def tags(self) -> Markup:
        """The page's ``meta`` elements, as the Open Graph protocol names them."""
        told = {
            "og:type": "article" if self.image else "website",
            "og:site_name": self.site,
            "og:title": self.title,
            "og:description": self.description,
            "og:url": self.address,
            "og:image": self.image,
            "og:image:alt": self.image_says,
        }
        return Markup("").join(
            Markup('<meta property="{}" content="{}">\n').format(property, content)
            for property, content in told.items()
            if content
        )


@dataclass(frozen=True)
class Online:
    """A unit as those see it who have not opened it yet.

    Attributes:
        name: of the unit's site.
        about: the site in a sentence, for pages that have none of their own.
        base: the address of the published site; empty if it has none.
        abouts: what the problems' pages are about, by their source path.
        pictures: their preview images, as SVG, by the same.
    """

    name: str
    about: str
    base: str
    abouts: Mapping[str, str]
    pictures: Mapping[str, str]

    def description(self, path: str) -> str:
        """What a page is about, by its source path; empty where the site's own words must do."""
        return self.abouts.get(path, "")

    def images(self) -> dict[str, str]:
        """The preview images of a published site: SVG by its place in the site."""
        if not self.base:
            return {}
        return {_image_path(path): image for path, image in self.pictures.items() if image}

    def with_preview(self, html: str, path: str, title: str, address: str) -> str:
        """A page with its preview in its head, if the site has an address.

        Args:
            html: the page.
            path: its source path.
            title: its title, as HTML.
            address: its whole address.
        """
        if not self.base:
            return html
        picture = self.pictures.get(path)
        preview = Preview(
            title=Markup(title).striptags(),
            site=self.name,
            description=self.description(path) or self.about,
            address=address,
            image=urljoin(self.base, _image_path(path)) if picture else "",
            image_says="The circuit of the problem" if picture else "",
        )
        return html.replace("</head>", f"{preview.tags()}</head>", 1)


def _image_path(path: str) -> str:
    return path.removesuffix(".md") + ".svg"
