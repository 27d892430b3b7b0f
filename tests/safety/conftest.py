"""The project's own entries, read, checked and derived once for all tests on safety."""

from __future__ import annotations

import pytest

from mullbook import workflow
from mullbook.derive.results import Derived
from mullbook.model.catalogue import Catalogue
from mullbook.workflow.checking import Loaded
from tests.conftest import ROOT


@pytest.fixture(scope="session")
def loaded() -> Loaded:
    """All entries; a test on half a catalogue would prove nothing."""
    found = workflow.check(workflow.Roots.at(ROOT))
    assert not found.errors
    return found


@pytest.fixture(scope="session")
def catalogue(loaded: Loaded) -> Catalogue:
    return loaded.catalogue


@pytest.fixture(scope="session")
def derived(loaded: Loaded) -> Derived:
    return loaded.derived
