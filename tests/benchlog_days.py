"""Write a day at the bench in few words."""

from __future__ import annotations

from tinwright.benchlog import Event, Session

KEY = Session("2026-11-14", "Mill Street", "bench-crank-sealer").key

_SHORT = {
    "T": ("test-can", {"result": "good"}),
    "T!": ("test-can", {"result": "bad"}),
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


def a_day(text: str) -> list[Event]:
    """Read lines such as `09:10 V 12`: time, what, and the number of a can or a range such as `13-24`.

    `T` is a good test can, `V` a good look, `M` a good measurement, each with `!` a bad one, `M?` measure again. Any
    other word is the kind of an event; `defect` takes the id of the defect at the end.
    """
    return [_an_event(number, line.split()) for number, line in enumerate(text.strip().splitlines(), 1)]


def _an_event(number: int, words: list[str]) -> Event:
    at, word, *rest = words
    kind, entries = _SHORT.get(word, (word, {}))
    entries = dict(entries)
    for part in rest:
        first, _, last = part.partition("-")
        if not first.isdecimal():
            entries["defect"] = part
        elif last or kind in {"sealed", "heated", "hold", "release", "discard", "defect"}:
            entries |= {"first": int(first), "last": int(last or first)}
        else:
            entries["can_number"] = int(first)
    return Event(f"a-{number}", KEY, at, kind, **entries)  # type: ignore[arg-type]
