"""The hook of mkdocs: says when each step of the build happens; the steps live in their own modules."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING

HERE = Path(__file__).resolve().parent
for place in (HERE.parents[1] / "calculators" / "src", HERE.parent, HERE):
    if str(place) not in sys.path:
        sys.path.insert(0, str(place))

import bundle  # noqa: E402 - found by the path set above, as are the others
import fence  # noqa: E402
import frame  # noqa: E402
import glossary  # noqa: E402
import harden  # noqa: E402
import licences  # noqa: E402
import offline  # noqa: E402
import printed  # noqa: E402
import runtime  # noqa: E402
import teaching  # noqa: E402
import values  # noqa: E402
from house.build import public_url_from_environment  # noqa: E402
from house.say import TroubleError  # noqa: E402
from mkdocs.exceptions import PluginError  # noqa: E402
from mkdocs.plugins import event_priority  # noqa: E402
from rotorhead import head_schema  # noqa: E402

if TYPE_CHECKING:
    from mkdocs.config.defaults import MkDocsConfig
    from mkdocs.structure.files import Files
    from mkdocs.structure.nav import Navigation
    from mkdocs.structure.pages import Page

FENCE = "rotorhead"


def on_config(config: MkDocsConfig) -> MkDocsConfig:
    """Add our fence to Markdown, and the public address if one was given."""
    superfences = config.mdx_configs.setdefault("pymdownx.superfences", {})
    superfences["custom_fences"] = [{"name": FENCE, "class": FENCE, "format": fence.format_fence}]
    try:
        config.site_url = public_url_from_environment()
    except TroubleError as trouble:
        raise PluginError(str(trouble)) from None
    return config


def on_nav(nav: Navigation, config: MkDocsConfig, files: Files) -> Navigation:  # noqa: ARG001
    """A lesson is made of the menu's pages: their names, before the first page is made."""
    teaching.PAGES[:] = [(page.url, str(page.title or page.url)) for page in nav.pages]
    return nav


def on_page_markdown(markdown: str, config: MkDocsConfig, page: Page, files: Files) -> str:  # noqa: ARG001
    """Definitions on tap: the glossary's words at the end of every page's source."""
    return glossary.append(markdown, config)


def on_page_content(html: str, page: Page, config: MkDocsConfig, files: Files) -> str:  # noqa: ARG001
    """The default head's numbers in the running text."""
    return frame.add(values.fill(html), page)


@event_priority(-200)  # after the theme's own last steps: the copy's worker carries the hash of every file
def on_post_build(config: MkDocsConfig) -> None:
    """Everything under assets/hd, then the last touch to every page."""
    site = Path(config.site_dir)
    target = site / harden.ASSETS
    try:
        build = runtime.write(target)
        bundle.write(target, build)
        licences.write(target, build)
        printed.write(site)
        schema = json.dumps(head_schema.schema(), ensure_ascii=False, indent=2) + "\n"
        (target / "head.schema.json").write_text(schema, encoding="utf-8", newline="\n")
        offline.write_manifest(site)
        harden.write(site, config.site_url or "")
        offline.write_worker(site)
    except TroubleError as trouble:
        raise PluginError(str(trouble)) from None
