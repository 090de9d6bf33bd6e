"""What is seen and said."""

from __future__ import annotations

VERSION = "0.1.0"
