"""How many readers one plain server bears: `python -m tests.bench.readers SITE [SECONDS]`.

Serves a built site with the settings that stand in it, on this machine, and asks for what readers ask for: a
first visit, pages after it, and the whole book once where a device keeps it. Client and server share the
machine, so the figure is low rather than high. Needs nginx; without it nothing is measured.
"""

from __future__ import annotations

import asyncio
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

PORT = 8947
CONNECTIONS = 16
PAGES_A_VISIT = 6
LOADED = re.compile(r'(?:src|href)="([^"#?:]+\.(?:js|css|svg|json))"')
HOUR, DAY = 3600, 86400
BUSY_HOUR = 0.25
"""Part of a day's readers who come in its busiest hour: a school's timetable."""
FREE = 0.5
"""Part of the measured rate that is planned with; the rest is left free."""


@dataclass
class Answers:
    """What came back."""

    count: int = 0
    octets: int = 0
    codes: dict[int, int] = field(default_factory=dict)


@contextmanager
def served(site: Path) -> Iterator[None]:
    """Serve a site with its own nginx settings, one worker process."""
    with tempfile.TemporaryDirectory() as made:
        folder = Path(made)
        folder.chmod(0o755)
        settings = (site / "publishing" / "nginx.conf").read_text("utf-8")
        settings = settings.replace("/srv/mullbook/site", str(site)).replace("listen 80;", f"listen {PORT};")
        paths = "".join(f"{each}_temp_path {folder}/{each};\n" for each in TEMPORARY)
        main = (
            f"daemon off; worker_processes 1; pid {folder}/pid; error_log {folder}/error.log;\n"
            "events { worker_connections 512; }\n"
            "http { include /etc/nginx/mime.types; access_log off; keepalive_requests 10000000;\n"
            f"{paths} {settings} }}\n"
        )
        if os.geteuid() == 0:
            main = f"user root;\n{main}"
        (folder / "nginx.conf").write_text(main, encoding="utf-8")
        running = subprocess.Popen(["nginx", "-c", str(folder / "nginx.conf")], stderr=subprocess.DEVNULL)
        time.sleep(0.5)
        try:
            yield
        finally:
            running.terminate()
            running.wait(10)


TEMPORARY = ("client_body", "proxy", "fastcgi", "uwsgi", "scgi")


async def ask(
    reader: asyncio.StreamReader, writer: asyncio.StreamWriter, path: str, extra: str = ""
) -> tuple[int, int]:
    """One request on an open connection. Returns the status and the octets of the whole answer."""
    writer.write(
        f"GET /{path} HTTP/1.1\r\nHost: mullbook.example\r\nAccept-Encoding: gzip\r\n{extra}\r\n".encode()
    )
    head = await reader.readuntil(b"\r\n\r\n")
    fields = dict(line.split(": ", 1) for line in head.decode().split("\r\n")[1:] if ": " in line)
    length = 0
    if "Content-Length" in fields:
        length = int(fields["Content-Length"])
        await reader.readexactly(length)
    elif fields.get("Transfer-Encoding") == "chunked":
        while size := int((await reader.readline()).strip() or b"0", 16):
            await reader.readexactly(size + 2)
            length += size
        await reader.readline()
    return int(head.split()[1]), len(head) + length


async def asked_over_and_over(paths: list[str], seconds: float, extra: str = "") -> Answers:
    """Ask for paths in turn on all connections until the time is up."""
    answers = Answers()
    end = time.monotonic() + seconds

    async def one(start: int) -> None:
        reader, writer = await asyncio.open_connection("127.0.0.1", PORT)
        at = start
        while time.monotonic() < end:
            code, octets = await ask(reader, writer, paths[at % len(paths)], extra)
            answers.count += 1
            answers.octets += octets
            answers.codes[code] = answers.codes.get(code, 0) + 1
            at += 1
        writer.close()

    await asyncio.gather(*(one(each * 7) for each in range(CONNECTIONS)))
    return answers


async def asked_once(paths: list[str]) -> Answers:
    """Ask for each path once, on one connection."""
    answers = Answers()
    reader, writer = await asyncio.open_connection("127.0.0.1", PORT)
    for path in paths:
        code, octets = await ask(reader, writer, path)
        answers.count += 1
        answers.octets += octets
        answers.codes[code] = answers.codes.get(code, 0) + 1
    writer.close()
    return answers


def loaded_by(site: Path, page: str) -> list[str]:
    """A page and what it loads, as paths from the root."""
    here = (site / page).parent
    text = (site / page).read_text("utf-8")
    found = {(here / each).resolve() for each in LOADED.findall(text)}
    return [page, *sorted(each.relative_to(site.resolve()).as_posix() for each in found if each.is_file())]


def kept_by_a_device(site: Path) -> list[str]:
    """Every file that a device keeps once an edition."""
    script = (site / "sw.js").read_text("utf-8")
    book = json.loads(script[len("const BOOK = ") : script.index(";\n")])
    return list(book["files"])


def main(site: Path, seconds: float) -> None:
    """Measure and print."""
    if shutil.which("nginx") is None:
        print("nginx is not here; nothing was measured.")
        return
    pages = sorted(each.relative_to(site).as_posix() for each in site.glob("pigments/*.html"))
    first = loaded_by(site, "index.html")
    later = [
        each
        for page in pages[:: len(pages) // PAGES_A_VISIT][:PAGES_A_VISIT]
        for each in loaded_by(site, page)
    ]
    visit = [*first, *later]
    with served(site):
        rate = asyncio.run(asked_over_and_over(visit, seconds))
        once = asyncio.run(asked_once(visit))
        whole = asyncio.run(asked_once(kept_by_a_device(site)))
    a_second = rate.count / seconds
    print(f"answers {rate.codes}, {a_second:.0f} requests a second, {rate.octets / seconds / 1e6:.1f} MB/s")
    print(f"a visit of {1 + PAGES_A_VISIT} pages: {once.count} requests, {once.octets / 1e3:.0f} kB")
    print(f"the whole book once a device and edition: {whole.count} requests, {whole.octets / 1e6:.1f} MB")
    for words, requests, octets in (
        ("visits", once.count, once.octets),
        (
            "visits of new devices, which keep the whole book",
            once.count + whole.count,
            once.octets + whole.octets,
        ),
    ):
        a_day = a_second * FREE * HOUR / BUSY_HOUR / requests
        line = octets * a_day * BUSY_HOUR / HOUR * 8 / 1e6
        print(f"{words} a day: {a_day:,.0f}; the line carries {line:.0f} Mbit/s in the busiest hour")


if __name__ == "__main__":
    main(Path(sys.argv[1]), float(sys.argv[2]) if len(sys.argv) > 2 else 10.0)
