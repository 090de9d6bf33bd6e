"""Print the lowest version that pyproject.toml allows of each requirement, as constraints for pip."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

project = tomllib.loads((Path(__file__).parents[1] / "pyproject.toml").read_text(encoding="utf-8"))["project"]
for requirement in project["dependencies"] + project["optional-dependencies"]["test"]:
    found = re.fullmatch(r"([\w.-]+)>=([\w.]+)(,<[\w.]+)?", requirement)
    if not found:
        raise SystemExit(f"{requirement} names no lowest version")
    print(f"{found[1]}=={found[2]}")
