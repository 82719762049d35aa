"""Where the tests find the helpers beside them, and how long property tests run."""

import os

from hypothesis import settings

# no deadline: the machines that run the tests are shared, and no test is about time
settings.register_profile("quick", deadline=None, max_examples=80)
settings.register_profile("thorough", deadline=None, max_examples=10_000)
settings.load_profile(os.environ.get("SAYWRIGHT_EXAMPLES", "quick"))
