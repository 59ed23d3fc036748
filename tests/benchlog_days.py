"""Write a day at the bench in few words."""

from __future__ import annotations

from tinwright.benchlog import Event, Session

KEY = Session("2026-11-14", "Mill Street", "bench-crank-sealer").key

_SHORT = {
    "T": ("test-can", {"result": "good"}),
    "T!": ("test-can", {"result": "bad"}),
    "D": ("test-can", {"result": "good", "torn_down": True}),
    "D!": ("test-can", {"result": "bad", "torn_down": True}),
    "V": ("visual-check", {"result": "good"}),
    "V!": ("visual-check", {"result": "bad"}),
    "M": ("measured-check", {"result": "accept"}),
    "M?": ("measured-check", {"result": "measure-again"}),
    "M!": ("measured-check", {"result": "reject"}),
    "adjust": ("adjustment", {"adjuster": "first-roller", "direction": "tighten"}),
    "release": ("release", {"reason": "Torn down, all good", "by": "AE"}),
    "size": ("can-change", {"can": "401x411"}),
    "lids": ("lid-lot", {"lid_lot": "B2"}),
}


def a_day(text: str, name: str = "a") -> list[Event]:
    """Read lines such as `09:10 V 12`: time, what, and the number of a can or a range such as `13-24`.

    `T` is a good test can, `D` one torn down, `V` a good look, `M` a good measurement, each with `!` a bad one, `M?`
    measure again. Any other word is the kind of an event; `defect` takes the id of the defect at the end. `B15` is a can
    of the second run, and `after=P04-3` says what others had written.

    Args:
        text: the lines.
        name: who writes them.
    """
    return [_an_event(name, number, line.split()) for number, line in enumerate(text.strip().splitlines(), 1)]


def _an_event(name: str, number: int, words: list[str]) -> Event:
    at, word, *rest = words
    kind, entries = _SHORT.get(word, (word, {}))
    entries = dict(entries)
    for part in rest:
        if part[1:2].isdecimal() and part[0].isupper():
            entries["run"] = part[0]
        first, _, last = part.lstrip("ABC").partition("-")
        if part.startswith("after="):
            entries["after"] = f"{entries.get('after', '')} {part[6:]}".strip()
        elif not first.isdecimal():
            entries["defect"] = part
        elif last or kind in {"sealed", "heated", "hold", "release", "discard", "defect"}:
            entries |= {"first": int(first), "last": int(last or first)}
        else:
            entries["can_number"] = int(first)
    return Event(f"{name}-{number}", KEY, at, kind, **entries)  # type: ignore[arg-type]
