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
ALL = " ".join(PAYLOADS)


def field(name: str, *, links: bool = False) -> str:
    """A hostile text as a single-quoted YAML value, to be known again by its name."""
    text = f"[{name}] {ALL}" + (f" {' '.join(LINKS)}" if links else "")
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
    front = '# Home\n\n<div data-stepwell-made="front/path"></div>\n\n' + (
        '<div data-stepwell-made="front/objectives"></div>\n\n```problem\nnest\n```\n'
    )
    (content / "index.md").write_text(front, "utf-8")
    (folder / "mkdocs.yml").write_text(
        "site_name: Home\nsite_url: https://harbour.example/\ndocs_dir: content\n"
        "use_directory_urls: false\ntheme: {name: material, font: false}\n"
        "plugins: [search, offline, stepwell]\nmarkdown_extensions: [attr_list]\n"
        "nav: [{Home: index.md}]\nvalidation: {nav: {omitted_files: ignore}}\n",
        "utf-8",
    )
