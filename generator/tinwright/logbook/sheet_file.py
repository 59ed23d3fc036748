"""The printed sheet of the bench log, typed in as CSV: settings, a line of headings, then one line for each event.

    sheet,P04
    date,2026-11-14
    kitchen,Mill Street
    sealer,bench crank sealer
    line,time,what,can no,to,result,defect,which,way,turns,who,readings,note,struck
    1,9:05 AM,test can,,,good
    2,9:10 AM,sealed,1,12
    3,9:40 AM,adjustment,12,,,,first roller,tighten,1/8,BK

`which` is the can, the lot of lids, the adjuster or the cause that the line is about, or `torn down`. `to` is the last
can of a range; cans of a second run are B1, B2. A line keeps its number for good: `P04-3` is line 3 of sheet P04. The
order of the lines counts, not the time. `follows,P03` says that sheet P03 came first.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from tinwright.benchlog import KINDS, Session
from tinwright.benchlog.sheet import COLUMNS, LINES, SETTINGS
from tinwright.errors import Problem
from tinwright.knowledge.wording import commas_asked, nearest
from tinwright.logbook.checking import MOST_TOLD, checked_event, checked_head
from tinwright.logbook.times import in_the_afternoon, time_typed, turns_typed
from tinwright.seaming import POINTS_NEEDED, parse_percent, parse_reading
from tinwright.store.typed_table import day_typed, typed_rows

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterator, Mapping

    from tinwright.benchlog import Event
    from tinwright.logbook.names import LogNames
    from tinwright.store.typed_table import TypedRow

__all__ = ["BLANK_SHEET", "COLUMNS", "SETTINGS", "read_sheet_text"]

BLANK_SHEET = (
    "# Bench log: one sheet for one sealer on one day. Lines that begin with # are notes.\n"
    f"# what: {', '.join(kind.label.lower() for kind in KINDS.values())}\n"
    "# can no: the counter of the sealer, or the first can of a range; to: the last can of the range.\n"
    "# counter set back: write it on a line of its own; the cans after it are B1, B2 and so on, then C1.\n"
    "# follows: the sheet before this one, such as P03. time: 11/15/2026 9:05 AM for what was decided on another day.\n"
    "# result: good or bad; accept, measure again or reject for a measured check.\n"
    "# which: the can, the lot of lids, the adjuster or the cause that the line is about, or torn down.\n"
    "# readings: seam thickness .055 .056 .054; body hook .078 .077 .079\n"
    "# who: initials or an id of the register. struck: yes for a line that was crossed out.\n"
    "# revision: 2 when the same sheet is typed in again to correct it, then 3 and so on.\n"
    + "".join(f"{name},{'in' if name == 'unit' else '1' if name == 'revision' else ''}\n" for name in SETTINGS)
    + ",".join(COLUMNS)
    + "\n"
    + "".join(f"{line}{',' * (len(COLUMNS) - 1)}\n" for line in range(1, LINES + 1))
)
"""The form with nothing filled in."""

_NUMBER = re.compile(r'\S+(?:\s+[A-Za-z"″%]+)?')
_SHEET = re.compile(r"[A-Za-z0-9]{1,40}")
_CAN = re.compile(r"([A-Za-z]{0,2})(\d{1,7})")
_ALL_LINES = 999_999_999
"""More lines than any sheet has."""
_RANGES = frozenset(name for name, kind in KINDS.items() if "first" in (*kind.needs, *kind.may))
_WHICH: Mapping[str, str] = {
    "set-up": "can",
    "can-change": "can",
    "lid-lot": "lid_lot",
    "adjustment": "adjuster",
    "cause": "cause",
}
_DECISIONS = frozenset({"hold", "release", "discard"})
_COLUMN_OF = {
    "at": "time",
    "kind": "what",
    "can_number": "can no",
    "first": "can no",
    "run": "can no",
    "on": "time",
    "last": "to",
    "direction": "way",
    "by": "who",
    "reason": "note",
    "torn_down": "which",
    "id": "line",
} | dict.fromkeys(_WHICH.values(), "which")
_ENTRY_OF = {"lid lot": "lid_lot"}


def read_sheet_text(
    shown: str, text: str, names: LogNames, latest: dt.date
) -> tuple[str, list[tuple[Session, tuple[Event, ...]]], list[Problem]]:
    """Return the sheet's number, its session with its events, and all that is wrong with it.

    Args:
        shown: how problems name the file.
        text: what is in it.
        names: the names there are.
        latest: last day on which the session can have been.
    """
    sheet = _Sheet(shown, names)
    rows = typed_rows(text)
    has_headings = sheet.read_settings(rows)
    head = sheet.head(latest) if sheet.has_commas else None
    events = tuple(sheet.events(rows, head)) if has_headings else ()
    if has_headings and not events and not sheet.problems:
        sheet.problem("1:1", "expected a line for each event, found none")
    return sheet.settings.get("sheet", ""), [(head, events)] if head else [], sheet.problems


class _Sheet:
    """One sheet while it is read."""

    def __init__(self, shown: str, names: LogNames) -> None:
        self._shown, self._names = shown, names
        self.problems: list[Problem] = []
        self.settings: dict[str, str] = {}
        self.has_commas = True
        self._places: dict[str, str] = {}
        self._seen: dict[str, int] = {}
        self._last = ""
        self._has_runs = False

    def problem(self, place: str, message: str) -> None:
        line, _, column = place.partition(":")
        self.problems.append(Problem(self._shown, int(line), int(column), "", message))

    def read_settings(self, rows: Iterator[TypedRow]) -> bool:
        """Read the lines above the headings, and the headings; say whether there are any."""
        for row in rows:
            if len(self.problems) > MOST_TOLD:
                return False
            if said := commas_asked(row.cell(0), (*SETTINGS, COLUMNS[0])):
                self.problem(row.at(0), said)
                self.has_commas = False
                return False
            name = row.cell(0).lower()
            if name == COLUMNS[0]:
                self._check_headings(row)
                return True
            if name not in SETTINGS:
                expected = f"expected one of {', '.join(SETTINGS)}, or the headings"
                self.problem(row.at(0), f"{expected}, got {name[:40]!r}{nearest(name, SETTINGS)}")
            elif name in self._places:
                self.problem(row.at(0), f"expected {name!r} once, got it again")
            else:
                self.settings[name], self._places[name] = row.cell(1), row.at(min(1, len(row.cells) - 1))
        self.problem("1:1", f"expected a line of headings that begins with {COLUMNS[0]!r}, got none")
        return False

    def _check_headings(self, row: TypedRow) -> None:
        for place, got in enumerate(row.cells):
            expected = COLUMNS[place] if place < len(COLUMNS) else "no more headings"
            if " ".join(got.lower().split()) != expected:
                self.problem(row.at(place), f"expected the heading {expected}, got {got[:40]!r}")

    def head(self, latest: dt.date) -> Session | None:
        """Return the head, or None when something is wrong with it."""
        said = {name: value for name, value in self.settings.items() if value}
        before = len(self.problems)
        sheet = said.pop("sheet", "")
        if not _SHEET.fullmatch(sheet):
            got = repr(sheet[:40]) if sheet else "nothing"
            self.problem(self._place("sheet"), f"sheet: expected its number, such as P04, got {got}")
        for name, allowed in (("method", tuple(POINTS_NEEDED)), ("unit", ("in", "mm"))):
            if said.get(name, allowed[0]).lower() not in allowed:
                got = said[name][:40]
                self.problem(self._place(name), f"{name}: expected {' or '.join(allowed)}, got {got!r}")
        for other in said.get("follows", "").split():
            if not _SHEET.fullmatch(other) or other == sheet:
                expected = f"expected the sheet before this one, such as P03, got {other[:40]!r}"
                self.problem(self._place("follows"), f"follows: {expected}")
        if not re.fullmatch(r"[1-9]\d{0,3}", said.get("revision", "1")):
            self.problem(self._place("revision"), f"revision: expected 1, 2 and so on, got {said['revision'][:40]!r}")
        if specification := said.get("specification"):
            known = self._names.known("specification", specification)
            if known is None:
                self.problem(self._place("specification"), self._names.refusal("specification", specification))
            self.settings["specification"] = known or ""
        day = day_typed(said.get("date", ""))
        values = {_ENTRY_OF.get(name, name): said[name] for name in SETTINGS[1:8] if name in said}
        head, problems = checked_head(values | ({"date": day.isoformat()} if day else {}), self._names, latest)
        for entry, message in problems:
            self.problem(self._place(entry.replace("_", " ")), f"{entry.replace('_', ' ')}: {message}")
        return head if len(self.problems) == before else None

    def _place(self, name: str) -> str:
        return self._places.get(name, "1:1")

    def events(self, rows: Iterator[TypedRow], head: Session | None) -> Iterator[Event]:
        """Yield the events that are sound."""
        key = head.key if head else ("2000-01-01", "", "")
        for row in rows:
            if len(self.problems) > MOST_TOLD:
                return
            if len(row.cells) == 1 and row.cell(0).isdecimal():
                continue  # a line of the form that was not used
            before = len(self.problems)
            values = self._values(row, head)
            event, problems = checked_event(values, key, self._names)
            told = {problem.column for problem in self.problems[before:]}
            for entry, message in problems:
                column = _COLUMN_OF.get(entry, entry)
                place = row.at(COLUMNS.index(column)) if column in COLUMNS else row.at(0)
                if int(place.partition(":")[2]) not in told:
                    self.problem(place, f"{column}: {message}")
            if event is not None and len(self.problems) == before:
                yield event

    def _values(self, row: TypedRow, head: Session | None) -> dict[str, Any]:
        """Return the entries of one line, as a telephone would write them."""
        cells = {name: row.cell(place) for place, name in enumerate(COLUMNS)}
        if len(row.cells) > len(COLUMNS):
            self.problem(row.at(len(COLUMNS)), f"expected {len(COLUMNS)} cells, got another")
        kind = self._names.known("kind", cells["what"]) or ""
        values: dict[str, Any] = {"kind": kind or cells["what"], **self._moment(row, cells["time"])}
        if follows := self.settings.get("follows", "").split():
            values["after"] = " ".join(f"{other}-{_ALL_LINES}" for other in follows)
        values["id"] = f"{self.settings.get('sheet', '') or 'P'}-{self._line(row, cells['line'])}"
        values["revision"] = int(self.settings.get("revision") or 1) if self._revision_is_sound() else 1
        if self._yes(row, "struck"):
            values["struck"] = True
        self._add_cans(row, kind, cells, values)
        self._add_which(row, kind, cells, values, head)
        for column, entry in (("result", "result"), ("defect", "defect"), ("who", "by")):
            if cells[column]:
                values[entry] = cells[column]
        if cells["way"]:
            values["direction"] = cells["way"]
        if cells["turns"]:
            values["turns"] = turns_typed(cells["turns"])
        if cells["note"]:
            values["reason" if kind in _DECISIONS else "note"] = cells["note"]
        self._add_readings(row, cells["readings"], values)
        return values

    def _revision_is_sound(self) -> bool:
        return (self.settings.get("revision") or "1").isdecimal()

    def _line(self, row: TypedRow, text: str) -> str:
        if not text.isdecimal() or not 0 < int(text) < 10_000:
            self.problem(row.at(0), f"line: expected the number of the line, got {text[:40]!r}")
            return "1"
        if text in self._seen:
            self.problem(row.at(0), f"line: {text} already stands in line {self._seen[text]} of the file")
        self._seen[text] = row.line
        return str(int(text))

    def _moment(self, row: TypedRow, text: str) -> dict[str, str]:
        """Read the time, and the day where it is another than that of the sheet."""
        first, _, rest = text.partition(" ")
        day = day_typed(first) if rest else None
        if day is None:
            return {"at": self._time(row, text)}
        at = time_typed(rest.strip())
        if at is None:
            self.problem(row.at(1), f"time: expected a time after the day, such as 1:05 PM, got {rest[:40]!r}")
        is_same = day == day_typed(self.settings.get("date", ""))
        return {"at": at or "00:00"} | ({} if is_same else {"on": day.isoformat()})

    def _time(self, row: TypedRow, text: str) -> str:
        at = time_typed(text)
        if at is None:
            got = repr(text[:40]) if text else "nothing"
            self.problem(row.at(1), f"time: expected a time such as 13:05 or 1:05 PM, got {got}")
            return "00:00"
        if later := in_the_afternoon(text, at, after=self._last):
            expected = f"expected a time after {self._last} (the line above)"
            self.problem(row.at(1), f"time: {expected}, got {text!r}; write {later} if it was in the afternoon")
        self._last = at
        return at

    def _yes(self, row: TypedRow, column: str) -> bool:
        place = COLUMNS.index(column)
        if row.cell(place).lower() not in {"", "yes", "x", "no"}:
            self.problem(row.at(place), f"{column}: expected yes or nothing, got {row.cell(place)[:40]!r}")
        return row.cell(place).lower() in {"yes", "x"}

    def _add_cans(self, row: TypedRow, kind: str, cells: Mapping[str, str], values: dict[str, Any]) -> None:
        numbers: dict[str, int] = {}
        for column in ("can no", "to"):
            if not cells[column]:
                continue
            place = COLUMNS.index(column)
            match = _CAN.fullmatch(cells[column])
            if match is None:
                self.problem(row.at(place), f"{column}: expected the number of a can, got {cells[column][:40]!r}")
                continue
            numbers[column] = int(match[2])
            if match[1] and values.setdefault("run", match[1].upper()) != match[1].upper():
                run = values["run"]
                self.problem(row.at(place), f"{column}: expected a can of run {run}, got {cells[column][:40]!r}")
        first, last = numbers.get("can no"), numbers.get("to")
        self._has_runs = self._has_runs or kind == "new-run" or values.get("run", "A") != "A"
        if self._has_runs and numbers and "run" not in values:
            asked = f"expected the letter of its run, A{first} for the first or B{first} for the second"
            self.problem(row.at(3), f"can no: {asked}, got {cells['can no'][:40]!r}")
        if kind in _RANGES:
            values |= {"first": first} if first is not None else {}
            values |= {"last": last if last is not None else first} if {first, last} != {None} else {}
        else:
            values |= {"can_number": first} if first is not None else {}
            if last is not None:
                self.problem(row.at(4), f"to: expected nothing for {cells['what'][:40]}, got {last}")

    def _add_which(
        self, row: TypedRow, kind: str, cells: Mapping[str, str], values: dict[str, Any], head: Session | None
    ) -> None:
        which = cells["which"]
        if which.lower().replace("-", " ") == "torn down":
            values["torn_down"] = True
        elif kind in _WHICH and (which or kind == "set-up"):
            values[_WHICH[kind]] = which or (head.can if head else "")
        elif which and kind:
            self.problem(
                row.at(7), f"which: expected nothing or torn down for {cells['what'][:40]}, got {which[:40]!r}"
            )

    def _add_readings(self, row: TypedRow, text: str, values: dict[str, Any]) -> None:
        if not text:
            return
        values["method"] = (self.settings.get("method") or next(iter(POINTS_NEEDED))).lower()
        if self.settings.get("specification"):
            values["specification"] = self.settings["specification"]
        unit = (self.settings.get("unit") or "in").lower()
        points = []
        for part in filter(None, (part.strip() for part in text.split(";"))):
            name, numbers = re.fullmatch(r"([^\d.]*)(.*)", part).groups()  # type: ignore[union-attr] # matches any
            dimension = self._names.known("dimension", name.strip(" :="))
            if dimension is None:
                self.problem(row.at(11), f"readings: {self._names.refusal('dimension', name.strip(' :='))}")
                continue
            for place, word in enumerate(_NUMBER.findall(numbers), 1):
                entry = parse_percent(word) if dimension == "tightness" else parse_reading(word, unit)
                if entry.value is None:
                    self.problem(row.at(11), f"readings: {dimension}: {entry.question} Got {word!r}.")
                else:
                    points.append({"dimension": dimension, "point": str(place), "value": float(entry.value)})
        values["readings"] = points
