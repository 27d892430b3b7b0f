"""Headers for a built site: a content security policy that it obeys, and what caches may keep."""

from __future__ import annotations

import base64
import csv
import hashlib
import io
import re
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from html import escape
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined

FOLDER = "publishing"
PAGE = "publishing.html"
EVERYWHERE = "404.html"
"""A server shows this page at any address, so its policy is that of all pages."""
INLINE_SCRIPT = re.compile(r"<script(?P<attributes>[^>]*)>(?P<text>.*?)</script>", re.DOTALL)
INLINE_STYLE = re.compile(r"<style[^>]*>(?P<text>.*?)</style>", re.DOTALL)
PUT_HERE = re.compile(r'(<pre class="put" data-from="(?P<file>[^"]+)"[^>]*>).*?</pre>', re.DOTALL)
KEEPING = "no-cache"
"""Names stay the same from edition to edition, so a cache asks each time whether the content has changed."""
TYPES = {
    ".html": "text/html; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".css": "text/css; charset=utf-8",
    ".json": "application/json; charset=utf-8",
    ".csv": "text/csv; charset=utf-8",
    ".txt": "text/plain; charset=utf-8",
    ".svg": "image/svg+xml",
    ".png": "image/png",
    ".xml": "application/xml",
    ".gz": "application/gzip",
    ".pdf": "application/pdf",
    ".sqlite": "application/vnd.sqlite3",
}
OTHER_TYPE = "application/octet-stream"
HEADERS = (
    ("X-Content-Type-Options", "nosniff"),
    ("Referrer-Policy", "no-referrer"),
    ("Permissions-Policy", "camera=(), geolocation=(), microphone=(), payment=(), usb=()"),
    ("Cross-Origin-Opener-Policy", "same-origin"),
)
"""Headers that are the same for every file."""
LAST = ("sitemap.xml", "index.html", "sw.js")
"""Put up after all others, in this order: whoever comes in between finds the last edition whole."""


@dataclass(frozen=True, slots=True)
class Inline:
    """Digests of what stands in a page itself, as a policy writes them."""

    scripts: frozenset[str]
    styles: frozenset[str]


@dataclass(frozen=True, slots=True)
class Policies:
    """The content security policy of all pages, and that of each page that carries more."""

    common: str
    own: Mapping[str, str]


def inline_of(page: str) -> Inline:
    """What a policy must allow by its digest in one page.

    >>> sorted(inline_of('<script src="a.js"></script><script>b()</script>').scripts)
    ["'sha256-cf242PFc/kb7xD0Qzhsmd9vvRkc+cWFmbi+k+YvtdKc='"]
    """
    scripts = (
        each["text"]
        for each in INLINE_SCRIPT.finditer(page)
        if "src=" not in each["attributes"] and "json" not in each["attributes"]
    )
    styles = (each["text"] for each in INLINE_STYLE.finditer(page))
    return Inline(frozenset(map(_source, scripts)), frozenset(map(_source, styles)))


def _source(text: str) -> str:
    digest = base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()
    return f"'sha256-{digest}'"


def policy(inline: Inline) -> str:
    """A content security policy: the site's own files, and what stands in its pages by digest.

    Swatches carry their colour as a style attribute, which can change nothing but the element it stands on.
    """
    scripts, styles = (" ".join(["'self'", *sorted(each)]) for each in (inline.scripts, inline.styles))
    return "; ".join(
        (
            "default-src 'none'",
            f"script-src {scripts}",
            f"style-src {styles}",
            "style-src-attr 'unsafe-inline'",
            "img-src 'self' data:",
            "connect-src 'self'",
            "worker-src 'self'",
            "form-action 'self'",
            "base-uri 'none'",
            "frame-ancestors 'none'",
        )
    )


def policies(pages: Mapping[str, str]) -> Policies:
    """The policies of a built site.

    Parameters: `pages`, HTML by path. What stands in more than one page is allowed on all; a page that
    carries more of its own has a policy of its own, so that no other page may run that.
    """
    held = {path: inline_of(text) for path, text in pages.items()}
    counts = Counter(each for inline in held.values() for each in (*inline.scripts, *inline.styles))
    shared = {each for each, count in counts.items() if count > 1}
    everywhere = held.get(EVERYWHERE, Inline(frozenset(), frozenset()))
    shared |= everywhere.scripts | everywhere.styles
    common = Inline(
        frozenset(each for inline in held.values() for each in inline.scripts if each in shared),
        frozenset(each for inline in held.values() for each in inline.styles if each in shared),
    )
    own = {
        path: policy(inline)
        for path, inline in sorted(held.items())
        if not (inline.scripts <= common.scripts and inline.styles <= common.styles)
    }
    return Policies(policy(common), own)


def media_type(path: str) -> str:
    """The type a file is served as.

    >>> media_type("index.html"), media_type("SHA256SUMS")
    ('text/html; charset=utf-8', 'application/octet-stream')
    """
    dot = path.rfind(".")
    return TYPES.get(path[dot:], OTHER_TYPE) if dot > path.rfind("/") else OTHER_TYPE


def object_list(digests: Mapping[str, str], found: Policies) -> str:
    """Every file with what an object store must say of it, in the order to put them up, as CSV.

    Parameters: `digests`, SHA-256 by path; empty for a file whose content follows from the others.
    """
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(("path", "content_type", "cache_control", "policy", "sha256"))
    for path in sorted(digests, key=_turn):
        of = path if path in found.own else "all pages" if path.endswith(".html") else ""
        writer.writerow((path, media_type(path), KEEPING, of, digests[path]))
    return text.getvalue()


def _turn(path: str) -> tuple[int, int, str]:
    """When a file is put up: pages after what they load, the first page last."""
    step = 2 if path in LAST else 1 if path.endswith(".html") else 0
    return step, LAST.index(path) if path in LAST else 0, path


def header_files(templates: Path, found: Policies) -> dict[str, str]:
    """Settings of servers that send these headers, by path from the site's root."""
    environment = Environment(
        loader=FileSystemLoader(templates / "templates" / FOLDER),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    context = {"policies": found, "headers": HEADERS, "keeping": KEEPING}
    return {
        f"{FOLDER}/{name}": environment.get_template(f"{name}.j2").render(context)
        for name in ("nginx.conf", "apache.conf", "headers.txt")
    }


def with_files_put_in(page: str, files: Mapping[str, str]) -> str:
    """A page with the files it shows put in where it says so.

    >>> with_files_put_in('<pre class="put" data-from="a.conf">later</pre>', {"a.conf": "a < b"})
    '<pre class="put" data-from="a.conf">a &lt; b</pre>'
    """
    return PUT_HERE.sub(
        lambda found: f"{found[1]}{escape(files.get(found['file'], 'not made'), quote=False)}</pre>", page
    )
