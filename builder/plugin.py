"""The MkDocs plugin: hooks fetch what they need, call one service and hand on its result."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from mkdocs.config import config_options as option
from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.plugins import BasePlugin, get_plugin_logger
from mkdocs.structure.files import Files, InclusionLevel
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page
from mkdocs.utils import get_relative_url

from builder.errors import StepwellError
from builder.problem.model import Unit
from builder.problem.unit_of import UNIT_FILE
from builder.site.assets import SCRIPTS, SEARCH_SHIM, STYLES, asset_files
from builder.site.author_text import MathsExtension
from builder.site.embed import embed
from builder.site.finished import Making
from builder.site.guide import AUDIENCES, Guide
from builder.site.host_files import add_files, add_pages, leading_out
from builder.site.kept import KeptPages, Store
from builder.site.online import Online
from builder.site.page import TEMPLATES
from builder.site.preview import FaultPages, Preview
from builder.site.preview.panels import STYLE, STYLE_FILE
from builder.site.schema_files import published_schemas
from builder.site.theme_mends import as_characters, characters_of, mended, name_characters
from builder.site.unit_site import UnitSite, read_unit_site


class StepwellConfig(Config):
    """The plugin's options in mkdocs.yml."""

    problems = option.Type(str, default="problems")
    """The folder of the problems, inside the content."""

    fresh = option.Type(bool, default=True)
    """Whether problems' pages offer other numbers; without them a build is quicker."""

    fresh_in_preview = option.Type(bool, default=False)
    """Whether a preview works other numbers out too, and does not only show those that are kept."""

    keep = option.Type(str, default=".cache/stepwell")
    """The folder, beside mkdocs.yml, of finished pages that the next build need not make again."""

    guide = option.ListOfItems(option.Choice(AUDIENCES), default=["students"])
    """For whom the site has pages on its own use: students, authors, publishing."""

    style_page = option.Type(bool, default=False)
    """Whether a page for contributors shows all parts side by side."""


class StepwellPlugin(BasePlugin[StepwellConfig]):
    """Turns the problems of a unit into pages."""

    preview: Preview | None = None
    site: UnitSite
    faulty: FaultPages
    guide: Guide
    online: Online
    told: tuple[str, str]
    files: Files

    def on_startup(self, *, command: str, **_: Any) -> None:
        """See whether this is a preview, which goes on over what is faulty."""
        self.preview = Preview() if command == "serve" else None

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Add styles, scripts and formulas in Markdown; keep every request inside the site."""
        styles = [*STYLES, STYLE] if self.preview else STYLES
        config.extra_css = [*styles, *config.extra_css]
        config.extra_javascript = [*SCRIPTS, *config.extra_javascript]
        config.markdown_extensions = [*config.markdown_extensions, MathsExtension(), "attr_list"]  # type: ignore[list-item]
        # The theme would ask the network for the script by which search works from a folder.
        others = [u for u in config.extra.get("polyfills", []) if "iframe-worker" not in u]
        config.extra["polyfills"] = [*others, SEARCH_SHIM]
        config.theme.dirs.insert(0, str(TEMPLATES / "theme"))
        self.told = config.site_name, config.site_description or ""
        config.site_name = as_characters(config.site_name)
        for name in ("site_description", "site_author"):
            config[name] = as_characters(config[name]) if config[name] else None
        return config

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Solve every problem and add its page, the listings and the assets."""
        self.files = files
        for told in leading_out(files, config):
            get_plugin_logger("stepwell").warning(told)
        self.site = self._read(config)
        self.faulty = FaultPages(self.site, get_plugin_logger("stepwell").warning)
        self.faulty.tell()
        own = (f"{self.config.problems}/", UNIT_FILE)
        for file in files:
            if file.src_uri.startswith(own) and file.src_uri.endswith((".yml", ".yaml")):
                file.inclusion = InclusionLevel.EXCLUDED
        self.guide = Guide(self.config.guide, self.site.unit.symbols, self.config.problems)
        made = self.faulty.pages(self.site.pages(style=self.config.style_page))
        address = "" if self.preview else config.site_url or ""
        self.online = self.site.online(*self.told, address)
        add_pages(files, config, made | self.guide.pages())
        style = {STYLE: STYLE_FILE} if self.preview else {}
        for shipped in (self.online.images(), asset_files(), published_schemas(), style):
            add_files(files, config, shipped)
        return files

    def _read(self, config: MkDocsConfig) -> UnitSite:
        """The unit; in a preview with what is wrong, which else stops the build."""
        store = Store(Path(config.config_file_path or ".").parent / self.config.keep)
        hurried = self.preview is not None and not self.config.fresh_in_preview
        images = bool(config.site_url) and self.preview is None

        def pages(unit: Unit) -> KeptPages:
            making = Making(unit, fresh=self.config.fresh, images=images, hurried=hurried)
            return KeptPages(making, store)

        asked = (Path(config.docs_dir), self.config.problems, config.nav, pages)
        if self.preview:
            return self.preview.read(*asked)
        site: UnitSite = _acted_on(read_unit_site, *asked)
        _acted_on(site.stop)
        return site

    def on_nav(self, nav: Navigation, **_: Any) -> Navigation:
        """Take the titles of the menu for text."""
        name_characters(nav.items)
        return nav

    def on_page_markdown(self, markdown: str, *, page: Page, **_: Any) -> str:
        """Make room for problems embedded in a lesson, and say what a page is about."""
        if about := self.online.description(page.file.src_uri):
            page.meta.setdefault("description", about)
        characters_of(page)
        instead = self.faulty if self.preview else None
        whole = page.file.content_string
        return str(_acted_on(embed, markdown, page.file.src_uri, self.site.slugs, instead, whole))

    def on_page_content(self, html: str, *, page: Page, **_: Any) -> str:
        """Tell the search what it will find in problems."""
        return self.faulty.on_front(self.guide.hint(self.site.hint(html)), page.file.src_uri)

    def on_post_page(self, output: str, *, page: Page, config: MkDocsConfig) -> str:
        """Put problems and listings in their places."""

        def address(path: str) -> str:
            target = self.files.get_file_from_path(path)
            return get_relative_url(target.url if target else path, page.url)

        parts = self.guide.fill(self.site.fill(output, address, page.file.src_uri))
        own = page.meta.get("title") or ""
        filled = mended(self.faulty.fill(parts, address), config.site_name, own)
        title, whole = str(page.title or ""), page.canonical_url or ""
        return self.online.with_preview(filled, page.file.src_uri, title, whole)

    def on_post_template(self, output: str, *, template_name: str, config: MkDocsConfig) -> str:
        """Mend the page that a server shows where there is none."""
        return mended(output, config.site_name) if template_name.endswith(".html") else output


def _acted_on(service: Any, *arguments: Any) -> Any:
    """Call a service; what its user can act on stops the build with its message."""
    try:
        return service(*arguments)
    except StepwellError as error:
        raise PluginError(error.told()) from error
