"""Settings of the property tests: a busy machine is no fault of a formula."""

from __future__ import annotations

from hypothesis import settings

settings.register_profile("science", deadline=None)
settings.load_profile("science")
