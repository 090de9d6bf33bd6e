"""How much of what was learnt is still there after a time."""

from __future__ import annotations

from math import log10


def kept(minutes: float, k: float, c: float) -> float:
    """Return the part from 0 to 1 that is kept after some minutes; all of it in the first.

    The savings function of H. Ebbinghaus, Memory (1885; tr. 1913), section 29, k = 1.84 and c = 1.25.
    """
    lost: float = log10(max(1.0, minutes)) ** c
    return k / (lost + k)
