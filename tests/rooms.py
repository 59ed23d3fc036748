"""The rooms of the package in their order, which `test_rooms.py` holds them to and `tree.py` prints."""

from __future__ import annotations

ROOMS = (
    *("errors", "given_file", "templates", "remembering"),
    *("measures", "figures", "quizzes", "printing"),
    *("seaming", "practice", "benchlog"),
    "codegen",
    "knowledge",
    "advice",
    *("store", "credentials", "logbook", "register"),
    "browser",
    *("exchange", "paper", "site", "reporting", "examining", "starter", "cli"),
)
"""The rooms, each after those that it may import."""

ALONE = ("examination", "worker")
"""Folders of scripts that no other script shares a page with."""
