"""The program in a terminal of its own, for the tests that need a real one."""

from __future__ import annotations

import fcntl
import os
import pty
import re
import select
import struct
import subprocess
import sys
import termios
from contextlib import suppress
from pathlib import Path
from time import monotonic

DEADLINE = 20.0
ESCAPES = re.compile(rb"\x1b\][^\x07\x1b]*(\x07|\x1b\\)|\x1b\[[0-?]*[ -/]*[@-~]|\x1b.")


class Terminal:
    """A terminal of 80 columns and 24 rows with the program in it."""

    def __init__(self, folder: Path, *words: str) -> None:
        self.handle, inner = pty.openpty()
        fcntl.ioctl(inner, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
        around = {name: value for name, value in os.environ.items() if name not in ("NO_COLOR", "COLORTERM")}
        self.process = subprocess.Popen(
            [sys.executable, "-m", "trainer", *words, "--data", str(folder)],
            stdin=inner,
            stdout=inner,
            stderr=inner,
            env={**around, "TERM": "xterm-256color"},
            start_new_session=True,
        )
        os.close(inner)
        self.written = b""

    def read(self) -> bool:
        """Take in what has been written since; False once the program has closed the terminal."""
        ready, _, _ = select.select([self.handle], [], [], 0.1)
        if not ready:
            return True
        try:
            part = os.read(self.handle, 65536)
        except OSError:  # how Linux tells that the other end is closed
            part = b""
        self.written += part
        return bool(part)

    def wait_for(self, words: str, after: int = 0) -> None:
        """Wait until the words are written, as the screen was drawn after so many bytes."""
        end = monotonic() + DEADLINE
        wanted = words.encode()
        while wanted not in plain(self.written[after:]):
            assert monotonic() < end, plain(self.written[after:]).decode(errors="replace")[-2000:]
            assert self.read(), "the program ended: " + self.written.decode(errors="replace")[-2000:]

    def type(self, keys: str) -> None:
        """Type keys."""
        os.write(self.handle, keys.encode())

    def close(self) -> None:
        """End the program whatever happens, and the terminal."""
        with suppress(ProcessLookupError):
            self.process.kill()
        self.process.wait()
        with suppress(OSError):  # closed already
            os.close(self.handle)

    def status(self) -> int:
        """Read to the end and return the exit status."""
        end = monotonic() + DEADLINE
        while self.process.poll() is None:
            assert monotonic() < end, "the program did not end"
            self.read()
        while select.select([self.handle], [], [], 0)[0] and self.read():
            pass
        return self.process.wait()


def plain(written: bytes) -> bytes:
    """Return what was written without the sequences that move and colour it."""
    return ESCAPES.sub(b"", written)
