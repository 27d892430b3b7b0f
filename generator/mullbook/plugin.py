"""The bridge to MkDocs: generated pages become its files. Nothing else in the package knows MkDocs."""

from __future__ import annotations

import logging
import os
import re
import sys
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

from mkdocs.commands.build import build as mkdocs_build
from mkdocs.config import base, load_config
from mkdocs.config import config_options as opt
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort, MkDocsException, PluginError
from mkdocs.plugins import BasePlugin, event_priority
from mkdocs.structure.files import File, Files
from mkdocs.structure.pages import Page

from mullbook import workflow
from mullbook.render.site import edition_line, navigation
from mullbook.text.report import as_text

log = logging.getLogger("mkdocs.plugins.mullbook")
Tick = Callable[[str, int], None]
UNUSED = re.compile(r"^assets/(javascripts/.*\.map|javascripts/lunr/.*|stylesheets/(main|palette)\..*)$")
"""Files of the theme that no page asks for: source maps, its look, other languages; two megabytes."""


class MullbookConfig(base.Config):
    """Options: `root`, the folder of entries/, schema/ and site_templates/; `studio`, that of a studio."""

    root = opt.Type(str, default=".")
    studio = opt.Optional(opt.Type(str))


class MullbookPlugin(BasePlugin[MullbookConfig]):
    """Checks the entries, then hands MkDocs the generated pages and data."""

    tick: Tick | None = None

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Read and check everything; stop with all problems at once if there are errors."""
        os.environ.setdefault("NO_MKDOCS_2_WARNING", "1")
        studio = self.config.studio or os.environ.get("MULLBOOK_STUDIO")
        root = Path(config.config_file_path or ".").parent / self.config.root
        roots = workflow.Roots.at(root, Path(studio) if studio else None)
        loaded = workflow.check(roots)
        if loaded.problems:
            print(as_text(loaded.problems, loaded.texts), file=sys.stderr)
        if loaded.errors:
            raise PluginError("The entries hold errors; nothing was built.")
        self.rendered = workflow.site_files(loaded, roots)
        checked = loaded.catalogue.latest_check or "1970-01-01"
        stamp = int(datetime.fromisoformat(checked).replace(tzinfo=UTC).timestamp())
        os.environ.setdefault("SOURCE_DATE_EPOCH", str(stamp))
        who = loaded.edition.studio if loaded.edition else None
        config.extra["mullbook"] = edition_line(loaded.catalogue, who)
        if who is not None:
            config.site_name = who.title
        config.nav = [{title: path} for title, path in navigation(who is not None)]
        return config

    def on_files(self, files: Files, /, *, config: MkDocsConfig) -> Files:
        """Add the generated files."""
        for path, content in self.rendered.items():
            files.append(File.generated(config, path, content=content))
        return Files([each for each in files if not UNUSED.search(each.src_uri)])

    def on_page_context(self, context: object, /, *, page: Page, **_: object) -> None:
        """Count pages for the progress bar."""
        if self.tick is not None:
            self.tick(page.file.src_uri, len(self.rendered))

    @event_priority(-110)  # after the plugin that writes the search index as a script
    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Make sure that every generated page became a file: a silent loss must not pass."""
        missing = workflow.missing_files(Path(config.site_dir), self.rendered)
        if missing:
            raise PluginError(f"{len(missing)} generated files are missing: {missing[0]} and so on")
        workflow.finish_site(Path(config.site_dir), Path(config.docs_dir).parent, config.extra["mullbook"])
        log.info("All %d generated files are there.", len(self.rendered))


def build_site(
    config_file: Path, site_dir: Path, tick: Tick | None = None, studio: Path | None = None
) -> None:
    """Build into a folder, as `mkdocs build --strict` does. Raises `NotBuilt`."""
    warnings = logging.StreamHandler()
    warnings.setLevel(logging.WARNING)
    logging.getLogger("mkdocs").addHandler(warnings)
    try:
        config = load_config(str(config_file), site_dir=str(site_dir), strict=True)
        plugin = config.plugins["mullbook"]
        if isinstance(plugin, MullbookPlugin):
            plugin.tick = tick
            plugin.config.studio = str(studio) if studio else None
        config.plugins.on_startup(command="build", dirty=False)
        try:
            mkdocs_build(config)
        finally:
            config.plugins.on_shutdown()
    except (MkDocsException, Abort) as error:
        raise workflow.NotBuilt(str(error)) from error
    finally:
        logging.getLogger("mkdocs").removeHandler(warnings)
