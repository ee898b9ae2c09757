"""What all tests share: how Hypothesis looks for examples."""

import os

import pytest
from hypothesis import HealthCheck, settings

# How long an example takes depends on the machine, so no test is judged by it. In CI the examples are the same each
# time, so that a change is not held up by a fault it did not bring; everywhere else new ones are tried at each run.
settings.register_profile("any machine", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.register_profile("ci", settings.get_profile("any machine"), derandomize=True)
settings.load_profile("ci" if os.environ.get("CI") else "any machine")


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Tells which tests with a browser needed their second try, and why (tests/site/conftest.py)."""
    for report in terminalreporter.stats.get("rerun", ()):
        crash = getattr(report.longrepr, "reprcrash", None)
        terminalreporter.line(f"second try: {report.nodeid}: {crash.message if crash else report.longrepr}")
