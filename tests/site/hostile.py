"""A unit whose every text field holds markup and scripts."""

from __future__ import annotations

from pathlib import Path

PAYLOADS = (
    "<script>window.ran=1</script>", "<img src=x onerror=window.ran=2>",
    '"><svg onload=window.ran=3>', "</script><script>window.ran=4</script>", "{{ 7*7 }} ${7*7}",
    "]]> --> </style> </title>", "<a href='javascript:window.ran=5'>j</a>", "' onclick='ran=6' x='",
)  # fmt: skip
LINKS = (
    "[l1](javascript:window.ran=7)", "[l2](data:text/html,x)", "[l3](file:///etc/passwd)",
    "[l4](//evil.example/x)", "[l5](..\\..\\x)", "[l6](/\\evil.example)",
    "![p1](https://evil.example/p.png)", "![p2](//evil.example/p.png)", "![p3](data:image/x,y)",
)  # fmt: skip
LETTERS = ("\u202etfel\u202c \u2066in\u2069 \u200fmark\u200b", "Mehrfachkondensator" * 8)
"""Signs that turn the direction of writing or are not seen, and a very long word."""
CHARACTERS = (
    "&lt;b&gt; &#60;i&#62; &amp;amp;", "\\frac{{a}}{{b}} \\(x\\) $y$", "%5Cn \\u001b[31m",
    "<!-- -- ]]&gt; <![CDATA[ ?>",
)  # fmt: skip
"""What Markdown reads as something else: entities, signs of LaTeX."""
IN_MARKDOWN = " ".join((*PAYLOADS, *LETTERS))
ALL = " ".join((IN_MARKDOWN, *CHARACTERS))


def field(name: str, *, links: bool = False) -> str:
    """A hostile text as a single-quoted YAML value, to be known again by its name."""
    text = f"[{name}] {IN_MARKDOWN} {' '.join(LINKS)}" if links else f"[{name}] {ALL}"
    text = text.replace("{", "{{").replace("}", "}}") if links else text
    return "'" + text.replace("'", "''") + "'"


def words(name: str) -> str:
    """The same where Markdown is read, with links, pictures and braces doubled."""
    return field(name, links=True)


NEST = f"""\
title: {field("title")}
objectives: [hostile]
scenario: {words("scenario")}
plan: {words("plan")}
circuit:
  source: {{V0: 12 V}}
  series:
    - C1: 15 uF
    - parallel:
        - C2: 22 uF
        - C3: 8 uF
find: [equivalent, charge: all]
words:
  merge-C23: {{goal: {words("goal")}, reason: {words("reason")}}}
questions:
  - ask: {words("ask")}
    answer: {{charge: C1}}
  - ask: {words("ask-choice")}
    choices:
      - {{text: {words("right-text")}, right: yes, reply: {words("right-reply")}}}
      - {{text: {words("wrong-text")}, reply: {words("wrong-reply")}}}
vary: {{C1: [10 uF, 15 uF, 20 uF], V0: 6 V to 24 V step 3 V}}
"""

RELATIONS = f"""\
title: {field("title-r")}
objectives: [hostile]
scenario: {words("scenario-r")}
quantities:
  V: {{value: 12 V, is: {field("is-known")}}}
  R: 4 ohm
  I: {{kind: current, is: {field("is-unknown")}}}
relations:
  - {{equation: V = R*I, because: {words("because")}}}
find: [I]
"""

PLATES = f"""\
title: {field("title-p")}
objectives: [hostile]
plates:
  area: 80 cm^2
  gap: 2 mm
  voltage: 12 V
  filling:
    layers:
      - {{thickness: 1 mm, kappa: 4, called: {field("called")}, strength: 9.8 MV/m}}
find: [C, V1]
"""

UNIT = f"""\
title: {field("unit-title")}
objectives:
  hostile: {field("sentence")}
path: [nest, relations, plates]
"""

PROBLEMS = {"nest": NEST, "relations": RELATIONS, "plates": PLATES}


def write_hostile_unit(folder: Path) -> None:
    """The unit, ready for MkDocs, as a site with an address of its own."""
    content = folder / "content"
    (content / "problems").mkdir(parents=True)
    (content / "unit.yml").write_text(UNIT, "utf-8")
    for slug, text in PROBLEMS.items():
        (content / "problems" / f"{slug}.yml").write_text(text, "utf-8")
    lesson = f"---\ntitle: {field('page-title')}\n---\n\n# A lesson\n\n```problem\nnest\n```\n"
    (content / "lesson.md").write_text(lesson, "utf-8")
    front = (
        f"---\ndescription: {field('about')}\nauthor: {field('author')}\n---\n"
        + '# Home\n\n<div data-stepwell-made="front/path"></div>\n\n'
        + ('<div data-stepwell-made="front/objectives"></div>\n\n```problem\nnest\n```\n')
    )
    (content / "index.md").write_text(front, "utf-8")
    (folder / "mkdocs.yml").write_text(
        f"site_name: {field('site-name')}\nsite_url: https://harbour.example/\ndocs_dir: content\n"
        "extra: {generator: false}\nuse_directory_urls: false\n"
        "theme: {name: material, font: false}\n"
        "plugins: [search, offline, stepwell]\nmarkdown_extensions: [attr_list]\n"
        f"site_description: {field('site-about')}\nsite_author: {field('site-author')}\n"
        f"nav: [{{Home: index.md}}, lesson.md, {{{field('section')}: [{{{field('nav')}: "
        "problems/index.md}]}]\nvalidation: {nav: {omitted_files: ignore}}\n",
        "utf-8",
    )
