"""The bridge to MkDocs: generated pages become its files. Nothing else in the package knows MkDocs."""

from __future__ import annotations

import logging
import os
from collections.abc import Callable
from functools import partial
from operator import contains
from pathlib import Path

from mkdocs.commands.build import build as mkdocs_build
from mkdocs.config import base, config_options, load_config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort, MkDocsException, PluginError
from mkdocs.plugins import BasePlugin
from mkdocs.structure.files import File, Files
from mkdocs.structure.pages import Page

from mullbook import workflow
from mullbook.render.site import FOOTER, navigation

Tick = Callable[[str, int], None]


class MullbookConfig(base.Config):
    """Options: `root`, the folder of entries/, schema/ and site_templates/; `studio`, that of a studio."""

    root = config_options.Type(str, default=".")
    studio = config_options.Optional(config_options.Type(str))


class MullbookPlugin(BasePlugin[MullbookConfig]):
    """Checks the entries, then hands MkDocs the generated pages and data."""

    tick: Tick | None = None

    def on_startup(self, *, command: str, dirty: bool) -> None:
        """Being there keeps this object from one build of `serve` to the next, with what it holds."""
        self.maker = workflow.Live() if dirty and command == "serve" else workflow.Once()
        # The engine warns that lists may be stale; here a second process makes them within seconds.
        logging.getLogger("mkdocs.commands.build").addFilter(lambda said: "'dirty'" not in str(said.msg))

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Read and check everything; stop with all problems at once if there are errors."""
        studio = self.config.studio or os.environ.get("MULLBOOK_STUDIO")
        root = Path(config.config_file_path or ".").parent / self.config.root
        roots = workflow.Roots.at(root, Path(studio) if studio else None)
        found = workflow.reported(self.maker, roots)
        if found is None:
            raise PluginError("The entries hold errors; nothing was built.")
        made, self.edited = found
        self.rendered, self.pages = made.files, workflow.parted(made.files)
        os.environ.setdefault("SOURCE_DATE_EPOCH", str(made.stamp))
        config.watch.extend(map(str, self.maker.watched))
        config.extra |= {"mullbook": made.edition, "foot": FOOTER}
        config.site_name = made.edition.get("studio_title", config.site_name)
        config.nav = [{title: path} for title, path in navigation(studio is not None)]
        return config

    def on_files(self, files: Files, /, *, config: MkDocsConfig) -> Files:
        """Add the generated files; the theme's look and scripts, two megabytes, are on no page.

        Pages hold HTML alone, so the engine gets what stands above it: the rest it would take apart for most
        of a build, and put together as it was.
        """
        own = [each for each in files if each.src_dir == config.docs_dir]
        for path, content in self.rendered.items():
            above, _ = self.pages.get(path, (content, ""))
            own.append(file := File.generated(config, path, content=above))
            vars(file)["is_modified"] = partial(contains, self.edited, path)  # asked by `serve --dirty`
        return Files(own)

    def on_page_content(self, html: str, /, *, page: Page, **_: object) -> str:
        """The page as it was written."""
        return self.pages.get(page.file.src_uri, ("", html))[1]

    def on_page_context(self, context: object, /, *, page: Page, **_: object) -> None:
        """Count pages for the progress bar."""
        if self.tick is not None:
            self.tick(page.file.src_uri, len(self.rendered))

    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Make sure that every generated page became a file: a silent loss must not pass."""
        missing = workflow.missing_files(Path(config.site_dir), self.rendered)
        if missing:
            raise PluginError(f"{len(missing)} generated files are missing: {missing[0]} and so on")
        self.maker.finish(Path(config.site_dir), Path(config.docs_dir).parent)


def build_site(config: Path, site: Path, tick: Tick | None = None, studio: Path | None = None) -> None:
    """Build into a folder, as `mkdocs build --strict` does. Raises `NotBuilt`."""
    with workflow.in_words("mkdocs", MkDocsException, Abort):
        loaded = load_config(str(config), site_dir=str(site), strict=True)
        vars(loaded.plugins["mullbook"])["tick"] = tick
        loaded.plugins["mullbook"].config["studio"] = str(studio) if studio else None
        loaded.plugins.on_startup(command="build", dirty=False)
        mkdocs_build(loaded)
