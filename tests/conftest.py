"""What holds for all tests: property tests are never judged by the clock, which a busy machine would fail."""

from __future__ import annotations

from hypothesis import HealthCheck, settings

settings.register_profile("untimed", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("untimed")
