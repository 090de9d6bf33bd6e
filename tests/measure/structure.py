"""How the three rooms are built: python -m tests.measure.structure [FOLDER], by default of this tree."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path
from statistics import median

from tests.import_graph import ROOMS, ROOT, file_of, graph_of, in_circles, modules

COUNT_LOADED = """import sys
from contextlib import suppress
from trainer.__main__ import run
sys.argv = ["slantwise", "--version"]
with suppress(SystemExit):
    run()
ours = [name for name in sys.modules if name.split(".")[0] in ("drills", "progress_store", "trainer")]
print(len(ours), len(sys.modules))"""


def main(root: Path) -> None:
    """Print the figures of a tree."""
    texts = {
        name: text
        for room in ROOMS
        for name in modules(room, root)
        if (text := file_of(name, root).read_text(encoding="utf-8")).strip()
    }
    lines = {name: len(text.splitlines()) for name, text in texts.items()}
    longest = max(lines, key=lambda name: lines[name])
    graph = graph_of(root)
    print(f"modules that are not empty   {len(texts)}")
    print(f"lines in all                 {sum(lines.values())}")
    print(f"median module                {median(lines.values()):g} lines")
    print(f"longest module               {lines[longest]} lines ({longest})")
    print(f"lines that import            {sum(map(import_lines, texts.values())) / sum(lines.values()):.1%}")
    print(f"modules in import circles    {len(in_circles(graph))}")
    ours, whole = loaded(root)
    print(f"loaded by --version          {whole} modules, {ours} of ours")


def import_lines(text: str) -> int:
    """Return how many lines the import statements of a module take."""
    imports = [node for node in ast.walk(ast.parse(text)) if isinstance(node, ast.Import | ast.ImportFrom)]
    return sum((node.end_lineno or node.lineno) - node.lineno + 1 for node in imports)


def loaded(root: Path) -> tuple[int, int]:
    """Return how many of our modules, and how many in all, a fresh interpreter holds after --version."""
    done = subprocess.run(
        [sys.executable, "-c", COUNT_LOADED], cwd=root, capture_output=True, text=True, check=True
    )
    ours, whole = done.stdout.split()[-2:]
    return int(ours), int(whole)


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else ROOT)
