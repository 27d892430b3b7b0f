"""The page that checks a stick, opened from the stick: it names what is missing, altered and added."""

from __future__ import annotations

import hashlib
from pathlib import Path

import pytest
from playwright.sync_api import Page

from tests.workflow.test_packing import pack, spoil

WITHOUT_DIGESTS = "Object.defineProperty(globalThis.crypto, 'subtle', { value: undefined });"


@pytest.fixture
def stick(tmp_path: Path) -> Path:
    return pack(tmp_path / "stick")


def found(page: Page, stick: Path, picked: Path | None = None) -> str:
    page.goto((stick / "verify.html").as_uri())
    page.set_input_files("#folder", picked or stick)
    page.locator("#found p").first.wait_for()
    return page.inner_text("#found")


@pytest.fixture(params=["the browser's digests", "our own digests"])
def either_way(request: pytest.FixtureRequest, page: Page) -> Page:
    if request.param == "our own digests":
        page.add_init_script(WITHOUT_DIGESTS)
    return page


def test_a_stick_as_packed_is_whole(either_way: Page, stick: Path) -> None:
    assert "files are here, as they were packed, and none was added." in found(either_way, stick)


def test_one_byte_changed_one_file_missing_and_one_added_are_each_named(
    either_way: Page, stick: Path
) -> None:
    spoil(stick)
    said = found(either_way, stick)
    assert "This copy is not whole: 1 missing, 1 altered, 1 added." in said
    parts = said.replace("\n", " ")
    assert "Missing: 1" in parts and "site/data/catalogue.json" in parts
    assert "Altered: 1" in parts and "site/pigments/ochre.html" in parts
    assert "Added: 1" in parts and "site/pigments/extra.html" in parts


def test_a_spoilt_list_and_a_missing_one_are_named(page: Page, stick: Path) -> None:
    sums = stick / "SHA256SUMS"
    text = sums.read_text("utf-8")
    sums.write_text(text.replace(text[:8], "00000000", 1), encoding="utf-8")
    assert "SHA256SUMS" in found(page, stick)
    sums.unlink()
    assert "1 missing" in found(page, stick)


def test_the_folder_around_the_stick_does_as_well(page: Page, stick: Path) -> None:
    (stick.parent / "holiday.txt").write_text("beside it")
    assert "none was added" in found(page, stick, stick.parent)


def test_another_folder_is_said_to_be_no_copy(page: Page, stick: Path, tmp_path: Path) -> None:
    (tmp_path / "other").mkdir()
    (tmp_path / "other" / "letter.txt").write_text("dear")
    page.goto((stick / "verify.html").as_uri())
    page.set_input_files("#folder", tmp_path / "other")
    page.get_by_text("This folder holds no such copy.").wait_for()


def test_the_start_page_leads_into_the_book(page: Page, stick: Path) -> None:
    page.goto((stick / "START-HERE.html").as_uri())
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    page.get_by_role("link", name="Open the book").click()
    assert page.url == (stick / "site" / "index.html").as_uri()


LENGTHS = [0, 1, 55, 56, 57, 63, 64, 65, 119, 120, 1000, 70_000]


def test_our_own_digest_is_sha_256(page: Page, stick: Path) -> None:
    page.goto((stick / "verify.html").as_uri())
    for length in LENGTHS:
        content = bytes(each * 7 % 256 for each in range(length))
        assert page.evaluate("(bytes) => sha256(Uint8Array.from(bytes))", list(content)) == (
            hashlib.sha256(content).hexdigest()
        ), length
