"""Property tests draw the same examples in every run and are not timed one by one."""

from __future__ import annotations

from hypothesis import settings

settings.register_profile("steady", deadline=None, derandomize=True, max_examples=60)
settings.load_profile("steady")
