"""The tables of how long things take, in README.md beside this: python -m tests.measure."""

import subprocess
import sys

# each in a process of its own: a child's peak memory counts what its parent had loaded before
for table in ("drills", "layers", "checking"):
    subprocess.run([sys.executable, "-m", f"tests.measure.{table}"], check=True)
    print(flush=True)
