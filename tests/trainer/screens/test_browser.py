"""The program on a page of a browser: only for whoever has the key; answers by keys and clicks are kept."""

from __future__ import annotations

import asyncio
import re
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from aiohttp import ClientSession

from progress_store import Settings, open_store
from tests.trainer.cli.calling import log_of
from tests.trainer.screens import chromium
from tests.trainer.screens.playing import MONDAY
from trainer.practice.attempts import floors, levels

SCREEN = "document.querySelector('.xterm-screen')"


@contextmanager
def served(folder: Path) -> Iterator[str]:
    """Serve the program and give the address that it prints."""
    command = [sys.executable, "-m", "trainer", "--data", str(folder), "browser"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True) as process:
        try:
            assert process.stdout
            told = process.stdout.readline()
            (address,) = re.findall(r"http://127\.0\.0\.1:[0-9]+/\?key=\S+", told)
            yield address
        finally:
            process.terminate()
            assert process.wait(timeout=30) == 0


async def test_nobody_gets_in_without_the_key(tmp_path: Path) -> None:
    """The page, its parts and its socket are for the address that was printed, and what it opened."""
    with served(tmp_path) as address:
        root, key = address.split("?key=")
        async with ClientSession() as stranger:
            for path in ("", "?key=", "?key=guess", "static/js/textual.js", "ws"):
                async with stranger.get(root + path) as answer:
                    assert answer.status == 403
                    assert key not in await answer.text()
        async with ClientSession() as person:
            async with person.get(address) as answer:
                assert answer.status == 200
                page = await answer.text()
            assert "Slantwise" in page
            assert set(re.findall(r"(?:https?|wss?)://[^/\"']*", page)) <= {
                root.rstrip("/"),
                root.rstrip("/").replace("http", "ws"),
            }


@pytest.mark.long
@pytest.mark.skipif(chromium.PROGRAM is None, reason="needs Chromium")
async def test_a_round_in_a_browser_is_kept(tmp_path: Path) -> None:
    """One drill is answered by keys, the next with a click on the words of the line below."""
    data = tmp_path / "data"
    with open_store(data, lambda: MONDAY, floors(), levels()) as store:
        store.save_settings(Settings(started=True, go_on_after_right=False))
    with served(data) as address:
        async with chromium.opened(address, tmp_path / "browser") as page:
            await page.until("document.body.classList.contains('-first-byte')")
            await until_kept(page, data, 0)
            await press(page, "Enter", "Enter", "9", ",", "8", "Enter")
            await until_kept(page, data, 1)
            await press(page, "Enter", "9", ",", "8", ",", "7")
            # the words "Enter answer" stand first in the last row
            await page.click(40, float(await page.value(f"{SCREEN}.clientHeight")) - 10)
            await press(page, "0")  # where marks were asked for, the click has said that none is there
            await until_kept(page, data, 2)
            (tmp_path / "answered.png").write_bytes(await page.picture())


async def press(page: chromium.Page, *keys: str) -> None:
    """Press keys as a person does, who sees what each has done before the next."""
    for key in keys:
        await page.key(key)
        await asyncio.sleep(0.6)


async def until_kept(page: chromium.Page, data: Path, answers: int) -> None:
    """Wait until so many answers are kept, and until what they brought is drawn."""
    for _ in range(100):
        await asyncio.sleep(0.2)
        if len(log_of(data)) == answers:
            break
    assert len(log_of(data)) == answers
    await asyncio.sleep(1)
