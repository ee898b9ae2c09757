"""What holds for all tests: property tests are never judged by the clock, which a busy machine would fail."""

from __future__ import annotations

from hypothesis import settings

settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")
