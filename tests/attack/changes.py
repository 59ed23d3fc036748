"""Bytes changed by chance: what a slip, a broken disk or a joker makes of a file."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import random
    from collections.abc import Sequence

__all__ = ["changed"]

_SMALL = b"0123456789 /()<>[]{}\"'%\\:.,"


def changed(content: bytes, chance: random.Random, words: Sequence[bytes]) -> bytes:
    """Change one to five places of a file.

    Args:
        content: what is in it.
        chance: draws what is changed.
        words: pieces that mean something in such a file; some are put in.
    """
    out = bytearray(content)
    for _ in range(chance.choice((1, 1, 2, 5))):
        at, end = sorted(chance.randrange(len(out) + 1) for _ in range(2))
        end = min(end, at + chance.choice((1, 4, 40, 4000)))
        match chance.randrange(5):
            case 0:
                out[at:end] = bytes(chance.randrange(256) for _ in range(min(end - at, 8)))
            case 1:
                out[at:at] = chance.choice(words)
            case 2:
                out[at:end] = b""
            case 3:
                out[at:at] = out[at:end]
            case 4:
                out[at : at + 1] = chance.choice(_SMALL).to_bytes()
    return bytes(out)
