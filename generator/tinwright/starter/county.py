"""A county's own layer on top of the shared knowledge: what it says of itself, and nothing that it has not measured."""

from __future__ import annotations

import json
import re
import unicodedata
from dataclasses import dataclass
from importlib.resources import files
from typing import TYPE_CHECKING

from tinwright.errors import ContentError, TinwrightError, WriteError
from tinwright.knowledge import find_problems
from tinwright.knowledge.models import KINDS
from tinwright.knowledge.models.machine import Drive
from tinwright.knowledge.schema import write_schemas
from tinwright.measures import parse_size
from tinwright.starter.laying import lay_whole
from tinwright.starter.sealer_parts import adjusters_of, cautions_of, parts_of, procedures_of

if TYPE_CHECKING:
    import datetime as dt
    from pathlib import Path

__all__ = ["County", "OwnSealer", "own_sealer", "write_county"]

_DRIVES = [drive.value for drive in Drive]


@dataclass(frozen=True)
class OwnSealer:
    """What is known of a sealer before anybody has measured it."""

    name: str
    drive: Drive
    chucks: tuple[str, ...]
    """Diameter codes, such as `307`."""

    @property
    def id(self) -> str:
        """Its name as the name of a file."""
        plain = unicodedata.normalize("NFKD", self.name).encode("ascii", "ignore").decode().lower()
        words = re.sub(r"[^a-z0-9]+", "-", plain).strip("-")
        return words if words[:1].isalpha() else f"sealer-{words}".strip("-")


@dataclass(frozen=True)
class County:
    """What a county says of itself."""

    name: str
    office: str
    contact: str
    altitude_ft: int
    kitchens: tuple[str, ...]
    sealers: tuple[OwnSealer, ...]

    @property
    def title(self) -> str:
        """Name of its program."""
        return f"{self.name} can sealing"


def own_sealer(text: str) -> OwnSealer:
    """Read a sealer from one line, such as `Old crank; crank-cam; 307 401`.

    Raises:
        WriteError: when a part is missing, or the drive or a size cannot be read.
    """
    parts = [part.strip() for part in text.split(";")]
    if len(parts) != 3 or not all(parts):
        raise WriteError(f"expected a sealer as 'NAME; DRIVE; CHUCK SIZES', got {text!r}")
    name, drive, sizes = parts
    if drive not in _DRIVES:
        raise WriteError(f"expected a drive of {', '.join(_DRIVES)}, got {drive!r}")
    chucks = tuple(dict.fromkeys(sizes.replace(",", " ").split()))
    try:
        for size in chucks:
            parse_size(size)
    except TinwrightError as error:
        raise WriteError(f"chuck sizes of {name}: {error}") from error
    if not chucks:
        raise WriteError(f"expected chuck sizes such as '307 401' for {name}, got {sizes!r}")
    return OwnSealer(name, Drive(drive), chucks)


def write_county(folder: Path, county: County, *, today: dt.date) -> int:
    """Write a county's program to a new or empty folder, checked, all of it or nothing.

    Returns:
        How many files were written.

    Raises:
        WriteError: when the folder holds anything already or cannot be written, or two sealers have one name.
        ContentError: when what the county says of itself makes no sound records.
    """
    ids = [sealer.id for sealer in county.sealers]
    if twice := next((id_ for id_ in ids if ids.count(id_) > 1), None):
        raise WriteError(f"expected a name of its own for each sealer, got {twice!r} twice")

    def make(whole: Path) -> int:
        for name, text in _files(county, today).items():
            (whole / name).parent.mkdir(parents=True, exist_ok=True)
            (whole / name).write_text(text, encoding="utf-8", newline="\n")
        write_schemas(whole / "content" / "schema")
        if problems := find_problems(whole / "content", today=today):
            raise ContentError(problems)
        return sum(path.is_file() for path in whole.rglob("*"))

    return lay_whole(folder, make)


def _files(county: County, today: dt.date) -> dict[str, str]:
    """Return each file's text by its path."""
    own = {f"content/ours/sealers/{sealer.id}.yml": _sealer(sealer, today) for sealer in county.sealers}
    return {
        "mkdocs.yml": _settings(county),
        "content/layers.yml": "# What this program is made of, from the ground up.\n- shared\n- ours\n",
        "content/ours/program.yml": _program(county, today),
        **own,
        "content/ours/pages/measure-first.md": _measure_first(county),
        "README.md": _filled("README.md", title=county.title),
        ".gitignore": "/site/\n/private/\n/.venv/\n",
        ".vscode/settings.json": _editor(),
    }


def _filled(name: str, **words: str) -> str:
    """Return a text of the package with the county's words in it."""
    text = (files("tinwright.starter") / "county_files" / name).read_text(encoding="utf-8")
    for key, value in words.items():
        text = text.replace(f"@{key}@", value)
    return text


def _quoted(text: str) -> str:
    """Write any text as YAML, on one line: JSON's strings are YAML's, too."""
    return json.dumps(text, ensure_ascii=False)


def _settings(county: County) -> str:
    named = f"site_name: {_quoted(county.title)}"
    text = re.sub(r"^site_name: .*$", lambda _: named, _filled("mkdocs.yml"), count=1, flags=re.MULTILINE)
    return text.replace("docs_dir: content/pages", "docs_dir: content/ours/pages")


def _program(county: County, today: dt.date) -> str:
    if len(county.kitchens) == 1:
        ids = ", ".join(sealer.id for sealer in county.sealers)
        kitchens = f"  - name: {_quoted(county.kitchens[0])}\n    sealers: [{ids}]"
    else:
        named = [f"  - name: {_quoted(kitchen)}" for kitchen in county.kitchens]
        kitchens = "\n".join(
            ["  # Say which sealers stand where with `sealers: [ID]`; until then all count for each.", *named]
        )
    return _filled(
        "program.yml",
        title=_quoted(county.title),
        office=_quoted(county.office),
        about=_quoted(
            f"{county.office} trains volunteers to run the can sealers: to set up a sealer, judge a seam, fix a "
            "bad one, and say which cans to hold. The program teaches sealing only. It gives no process times."
        ),
        contact=_quoted(county.contact),
        altitude=str(county.altitude_ft),
        kitchens=kitchens,
        today=today.isoformat(),
    )


def _sealer(sealer: OwnSealer, today: dt.date) -> str:
    return _filled(
        "sealer.yml",
        title=_quoted(sealer.name),
        drive=sealer.drive.value,
        chucks="\n".join(f"  - size: {_quoted(size)}" for size in sealer.chucks),
        adjusters="\n".join(
            f"  - adjuster: {adjuster}\n    part: {part}\n"
            f"    tighten: {_quoted(tighten)}\n    loosen: {_quoted(loosen)}"
            for adjuster, part, tighten, loosen in adjusters_of(sealer.drive)
        ),
        parts="\n".join(f"  - {part}" for part in parts_of(sealer.drive)),
        procedures="\n".join(f"  - {procedure}" for procedure in procedures_of(sealer.drive)),
        cautions="\n".join(f"  - {caution}" for caution in cautions_of(sealer.drive)),
        today=today.isoformat(),
    )


def _measure_first(county: County) -> str:
    links = "\n".join(f"- [[sealer/{sealer.id}]]" for sealer in county.sealers)
    return _filled("measure-first.md", sealers=links)


def _editor() -> str:
    schemas = {f"content/schema/{kind}.json": [f"content/*/{model.folder}/*.yml"] for kind, model in KINDS.items()}
    schemas["content/schema/programme.json"] = ["content/*/program.yml"]
    return json.dumps({"yaml.schemas": schemas, "files.eol": "\n"}, indent=2) + "\n"
