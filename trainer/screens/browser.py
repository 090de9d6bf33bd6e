"""The program in a browser on the same machine: a page of its own, at an address that nobody can guess."""

from __future__ import annotations

import asyncio
import shlex
import socket
import sys
from collections.abc import Awaitable, Callable
from pathlib import Path
from secrets import compare_digest, token_urlsafe

from aiohttp import web
from textual_serve.server import Server

HOST = "127.0.0.1"
"""Other machines cannot reach it, and what is typed does not leave this one."""
_COOKIE = "slantwise"
_PAGE = Path(__file__).with_name("page")
_REFUSAL = "Open the whole address that slantwise browser has printed."
_Handler = Callable[[web.Request], Awaitable[web.StreamResponse]]


class BrowserServer(Server):
    """Serves the program to whoever has the key: in the address at first, then in a cookie.

    The key is no drill and may come from the system's chance: other people of this machine must not know it.
    """

    def __init__(self, folder: Path, port: int, say: Callable[[str], None]) -> None:
        command = [sys.executable, "-m", "trainer", "--data", str(folder.absolute())]
        super().__init__(shlex.join(command), HOST, port, "Slantwise", templates_path=_PAGE)
        self.key, self._say = token_urlsafe(), say

    @property
    def address(self) -> str:
        """The address to be opened, with the key."""
        return f"{self.public_url}/?key={self.key}"

    def initialize_logging(self) -> None:
        """Keep the terminal for what the person must read."""

    async def on_startup(self, app: web.Application) -> None:
        """Begin to wait until it can be opened: this is called a moment before."""
        self._telling = asyncio.create_task(self._tell())

    async def _tell(self) -> None:
        """Say where it is once it answers."""
        while True:
            try:
                _, writer = await asyncio.open_connection(HOST, self.port)
            except OSError:
                await asyncio.sleep(0.02)
            else:
                break
        writer.close()
        self._say(f"Open this address in a browser: {self.address}")
        self._say("Ctrl+C ends it. Whoever has the address can answer in your name, so keep it to yourself.")

    async def _make_app(self) -> web.Application:
        app = await super()._make_app()
        app.middlewares.append(self._let_in)
        return app

    @web.middleware
    async def _let_in(self, request: web.Request, handler: _Handler) -> web.StreamResponse:
        """Answer those that have the key, and give the cookie to those that had it in the address."""
        named = request.query.get("key")
        given = request.cookies.get(_COOKIE, "") if named is None else named
        if not compare_digest(given.encode(), self.key.encode()):
            return web.Response(status=403, text=_REFUSAL)
        response = await handler(request)
        if named is not None:
            response.set_cookie(_COOKIE, self.key, httponly=True, samesite="Strict")
        return response


def free_port() -> int:
    """Return a port that is free now."""
    with socket.socket() as tried:
        tried.bind((HOST, 0))
        port: int = tried.getsockname()[1]
        return port
