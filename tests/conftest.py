"""What all tests share: how Hypothesis looks for examples."""

import os

from hypothesis import HealthCheck, settings

# How long an example takes depends on the machine, so no test is judged by it. In CI the examples are the same each
# time, so that a change is not held up by a fault it did not bring; everywhere else new ones are tried at each run.
settings.register_profile("any machine", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.register_profile("ci", settings.get_profile("any machine"), derandomize=True)
settings.load_profile("ci" if os.environ.get("CI") else "any machine")
