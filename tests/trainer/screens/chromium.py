"""A browser without a window, driven by its own protocol."""

from __future__ import annotations

import asyncio
import base64
import re
import shutil
import subprocess
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from itertools import count
from pathlib import Path
from typing import Any

from aiohttp import ClientSession, ClientWebSocketResponse

PROGRAM = shutil.which("chromium")
_OPTIONS = (
    "--headless --no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking"
    " --disable-component-update --disable-sync --window-size=1100,700 --remote-debugging-port=0"
)
DEADLINE = 60.0
_VIRTUAL_KEYS = {"Enter": ("\r", 13), "Escape": ("", 27)}


class Page:
    """A page of the browser, and hands for it."""

    def __init__(self, socket: ClientWebSocketResponse) -> None:
        self._socket, self._numbers = socket, count(1)

    async def _ask(self, method: str, **parameters: object) -> Any:
        number = next(self._numbers)
        await self._socket.send_json({"id": number, "method": method, "params": parameters})
        while (answer := await self._socket.receive_json(timeout=DEADLINE)).get("id") != number:
            pass
        return answer["result"]

    async def key(self, name: str) -> None:
        """Press a key: a sign, or one by its name."""
        text, code = _VIRTUAL_KEYS.get(name, (name, ord(name[0].upper())))
        key = {"key": name, "text": text, "windowsVirtualKeyCode": code}
        for kind in ("keyDown", "keyUp"):
            await self._ask("Input.dispatchKeyEvent", type=kind, **key)
        await asyncio.sleep(0.1)

    async def click(self, x: float, y: float) -> None:
        """Click at a place, in dots from the top left corner of the page."""
        place = {"x": x, "y": y, "button": "left", "clickCount": 1}
        for kind in ("mousePressed", "mouseReleased"):
            await self._ask("Input.dispatchMouseEvent", type=kind, **place)
        await asyncio.sleep(0.1)

    async def value(self, script: str) -> Any:
        """Return what a script says."""
        return (await self._ask("Runtime.evaluate", expression=script))["result"].get("value")

    async def until(self, script: str) -> None:
        """Wait until a script says true."""
        end = asyncio.get_running_loop().time() + DEADLINE
        while not await self.value(script):
            assert asyncio.get_running_loop().time() < end, script
            await asyncio.sleep(0.1)

    async def picture(self) -> bytes:
        """Return the page as a PNG file."""
        return base64.b64decode((await self._ask("Page.captureScreenshot"))["data"])


@asynccontextmanager
async def opened(address: str, folder: Path) -> AsyncIterator[Page]:
    """Open an address in a fresh browser, whose files are in a folder."""
    assert PROGRAM
    program = [PROGRAM, *_OPTIONS.split(), f"--user-data-dir={folder}", "about:blank"]
    with subprocess.Popen(program, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True) as process:
        try:
            assert process.stderr
            told = next(line for line in process.stderr if line.startswith("DevTools listening on"))
            (port,) = re.findall(r":([0-9]+)/", told)
            async with ClientSession() as session:
                async with session.get(f"http://127.0.0.1:{port}/json/list") as pages:
                    (first, *_) = [page for page in await pages.json() if page["type"] == "page"]
                async with session.ws_connect(first["webSocketDebuggerUrl"], max_msg_size=0) as socket:
                    page = Page(socket)
                    await page._ask("Emulation.setFocusEmulationEnabled", enabled=True)
                    await page._ask("Page.navigate", url=address)
                    yield page
        finally:
            process.kill()
