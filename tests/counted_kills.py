"""Kill a program at its n-th statement to the database: every moment of a piece of work, each once, on a computer of any speed."""

from __future__ import annotations

import os
import signal
import sys
from typing import TYPE_CHECKING

from sqlalchemy import Engine, event

if TYPE_CHECKING:
    from collections.abc import Callable

__all__ = ["killed_at"]


def killed_at(number: int, work: Callable[[Callable[[str], None]], None]) -> tuple[list[str], bool]:
    """Do some work in a copy of this process that is killed just before a statement, or a commit, of a given number.

    Args:
        number: counted from 1; statements and commits count alike.
        work: gets a function to say what was confirmed.

    Returns:
        What was confirmed, and whether it was killed; not when the work was done before.
    """
    read, write = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(read)
        status = 1
        try:
            _count_down(number)
            work(lambda line: os.write(write, f"{line}\n".encode()) and None)
            status = 0
        except BaseException as error:  # noqa: BLE001 - told by the exit status; the copy must never go on as a test
            sys.stderr.write(f"{error!r}\n")
        finally:
            os._exit(status)
    os.close(write)
    with os.fdopen(read, encoding="utf-8") as said:
        confirmed = said.read().split("\n")[:-1]
    _, status = os.waitpid(child, 0)
    killed = os.WIFSIGNALED(status) and os.WTERMSIG(status) == signal.SIGKILL
    assert killed or os.waitstatus_to_exitcode(status) == 0
    return confirmed, killed


def _count_down(number: int) -> None:
    left = number

    def step(*_: object) -> None:
        nonlocal left
        left -= 1
        if left == 0:
            os.kill(os.getpid(), signal.SIGKILL)

    event.listen(Engine, "before_cursor_execute", step)
    event.listen(Engine, "commit", step)
