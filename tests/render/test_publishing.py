"""Policies allow what stands in the pages and nothing more; settings say the same in each server's way."""

from __future__ import annotations

import csv
import hashlib
import io
import shutil
import subprocess
from pathlib import Path

import pytest

from mullbook.render.publishing import (
    KEEPING,
    header_files,
    inline_of,
    media_type,
    object_list,
    policies,
    with_files_put_in,
)
from mullbook.workflow.publishing import write_publishing
from tests.conftest import ROOT

TEMPLATES = ROOT / "site_templates"
PAGES = {
    "index.html": "<script>a()</script><script src='x.js'></script>",
    "levels.html": '<script>a()</script><script type="application/json">{"b": 1}</script>',
    "pocket.html": "<style>p{}</style><script>a()</script><script>own()</script>",
    "404.html": "<style>body{}</style>",
}


def test_what_stands_in_several_pages_is_allowed_on_all_and_the_rest_only_where_it_stands() -> None:
    found = policies(PAGES)
    shared, own = inline_of("<script>a()</script>"), inline_of("<script>own()</script>")
    assert next(iter(shared.scripts)) in found.common
    assert next(iter(own.scripts)) not in found.common
    assert set(found.own) == {"pocket.html"}
    assert next(iter(own.scripts)) in found.own["pocket.html"]


def test_the_page_for_unknown_addresses_keeps_its_style_at_any_address() -> None:
    assert next(iter(inline_of(PAGES["404.html"]).styles)) in policies(PAGES).common


def test_a_policy_lets_nothing_come_from_elsewhere() -> None:
    for policy in (policies(PAGES).common, *policies(PAGES).own.values()):
        assert policy.startswith("default-src 'none'; ")
        scripts = policy.partition("script-src ")[2].partition(";")[0]
        assert "unsafe" not in scripts and "http" not in policy and "*" not in policy
        assert policy.count("unsafe-inline") == 1


def test_files_are_put_up_so_that_nobody_meets_half_an_edition() -> None:
    names = ["index.html", "sw.js", "data/find.js", "pigments/ochre.html", "sitemap.xml"]
    listed = object_list({name: f"digest of {name}" for name in names}, policies(PAGES))
    rows = list(csv.DictReader(io.StringIO(listed)))
    assert [row["path"] for row in rows] == [
        "data/find.js",
        "pigments/ochre.html",
        "sitemap.xml",
        "index.html",
        "sw.js",
    ]
    assert rows[1]["content_type"] == "text/html; charset=utf-8" == media_type("x.html")
    assert all(row["sha256"] == f"digest of {row['path']}" for row in rows)


def test_every_setting_carries_the_policies() -> None:
    found = policies(PAGES)
    for name, text in header_files(TEMPLATES, found).items():
        assert found.common in text and found.own["pocket.html"] in text, name
        assert KEEPING in text and "nosniff" in text, name


def test_a_page_shows_the_files_it_names_as_they_are() -> None:
    page = '<pre class="put" data-from="a.conf">later</pre><pre class="put" data-from="b.conf">later</pre>'
    shown = with_files_put_in(page, {"a.conf": "<Files> \\1 & more", "b.conf": "b"})
    assert "&lt;Files&gt; \\1 &amp; more</pre>" in shown and ">b</pre>" in shown


def test_writing_twice_changes_nothing(tmp_path: Path) -> None:
    for name, text in PAGES.items():
        (tmp_path / name).write_text(text)
    (tmp_path / "publishing.html").write_text('<pre class="put" data-from="publishing/nginx.conf">x</pre>')
    write_publishing(tmp_path, TEMPLATES)
    first = {path: path.read_bytes() for path in tmp_path.rglob("*") if path.is_file()}
    rows = csv.DictReader(io.StringIO(first[tmp_path / "publishing" / "objects.csv"].decode()))
    for row in rows:
        if row["path"] not in ("sw.js", "publishing/objects.csv"):
            assert row["sha256"] == hashlib.sha256(first[tmp_path / row["path"]]).hexdigest(), row["path"]
    assert b"Content-Security-Policy" in first[tmp_path / "publishing.html"]
    write_publishing(tmp_path, TEMPLATES)
    assert {path: path.read_bytes() for path in tmp_path.rglob("*") if path.is_file()} == first


@pytest.mark.skipif(shutil.which("nginx") is None, reason="no nginx")
def test_nginx_reads_its_settings(tmp_path: Path) -> None:
    site = header_files(TEMPLATES, policies(PAGES))["publishing/nginx.conf"]
    logs = f"pid {tmp_path}/pid; error_log {tmp_path}/error.log;"
    main = f"{logs} events {{}}\nhttp {{\naccess_log off;\n{site}}}\n"
    (tmp_path / "nginx.conf").write_text(main)
    ran = subprocess.run(
        ["nginx", "-t", "-c", str(tmp_path / "nginx.conf")], capture_output=True, text=True, check=False
    )
    assert ran.returncode == 0, ran.stderr


@pytest.mark.skipif(shutil.which("apache2") is None, reason="no Apache")
def test_apache_reads_its_settings(tmp_path: Path) -> None:
    site = header_files(TEMPLATES, policies(PAGES))["publishing/apache.conf"]
    modules = "".join(
        f"LoadModule {name}_module /usr/lib/apache2/modules/mod_{name}.so\n"
        for name in ("mpm_event", "authz_core", "headers", "deflate", "filter", "dir")
    )
    site = site.replace("/srv/mullbook/site", str(tmp_path))
    logs = f"PidFile {tmp_path}/pid\nErrorLog {tmp_path}/error.log\n"
    main = f"ServerRoot {tmp_path}\nServerName 127.0.0.1\n{logs}Listen 8080\n"
    (tmp_path / "apache.conf").write_text(f"{modules}{main}{site}")
    ran = subprocess.run(
        ["apache2", "-t", "-f", str(tmp_path / "apache.conf")], capture_output=True, text=True, check=False
    )
    assert ran.returncode == 0, ran.stderr
