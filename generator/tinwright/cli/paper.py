"""The command that prints: handbook, cards, chart and blank sheets as PDF files."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING, Any
from urllib.parse import quote, urljoin

import click
import yaml

from tinwright.cli.common import CONTENT, cannot_write, counted, fail, known, loaded, write_whole
from tinwright.errors import TinwrightError
from tinwright.knowledge.printed import FOLDER, LIST, Paper, digest, list_text, records_digest
from tinwright.knowledge.wording import nearest

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from tinwright.advice.set_ups import Sheet
    from tinwright.paper import Press, Printed

__all__ = ["paper"]

_KINDS = ("handbook", "set-up", "wall-chart", "adjustment", "inspection", "cautions")
_PRACTICE = "practice"
"""Printed when it is asked for by name only: its key is not for everybody."""
_LONGEST_ADDRESS = 200
"""A longer address makes a QR code too fine to read from a card."""


@click.command()
@click.argument("kind", type=click.Choice((*_KINDS, _PRACTICE)), required=False)
@CONTENT
@click.option("--can", help="Set-up cards of this can only.")
@click.option("--sealer", help="Set-up and adjustment cards of this sealer only.")
@click.option(
    "--out",
    type=click.Path(path_type=Path, file_okay=False),
    default=Path("paper"),
    show_default=True,
    help="Folder to write to.",
)
@click.option("--scenario", help="Practice exercise of this scenario only.")
@click.option("--site-url", help="Address of the site, for QR codes; that of mkdocs.yml when left out.")
def paper(
    kind: str | None,
    content: Path,
    can: str | None,
    sealer: str | None,
    scenario: str | None,
    out: Path,
    site_url: str | None,
) -> None:
    """Print the handbook, cards, wall chart and blank sheets as PDF files; one KIND of them, or all.

    Kinds: handbook; set-up (a card for each can and sealer); wall-chart (11 x 17 in and Letter); adjustment (base and
    rollers of each sealer); inspection (blank sheets); cautions (one page). By name only:
    practice (exercises, and a key to keep from the learners). Those in your layer's
    folder `print` go to the site.

    Example: tinwright paper set-up --can 307x409 --sealer bench-crank-sealer --out print
    """
    if can is not None and kind not in {None, "set-up"}:
        raise click.UsageError(f"--can is for set-up cards, not for {kind}")
    if sealer is not None and kind not in {None, "set-up", "adjustment"}:
        raise click.UsageError(f"--sealer is for set-up and adjustment cards, not for {kind}")
    if scenario is not None and kind != _PRACTICE:
        raise click.UsageError(f"--scenario is for practice, not for {kind or 'all kinds'}")
    if kind is None and (can or sealer):
        kinds: tuple[str, ...] = ("set-up",) if can else ("set-up", "adjustment")
    else:
        kinds = (kind,) if kind else _KINDS
    kb = loaded(content)
    known(kb, "can", can)
    known(kb, "sealer", sealer)
    address = _addresses(site_url, Path("mkdocs.yml"))
    try:
        from tinwright.paper import Press  # noqa: PLC0415 only this command needs it

        press = Press(kb, address=address)
        out.mkdir(parents=True, exist_ok=True)
        papers = []
        to_site = kind != _PRACTICE and out.resolve() == (kb.own / FOLDER).resolve()
        digest_of_records = records_digest(kb)
        printing = _practice(press, scenario) if kind == _PRACTICE else _printed(press, kinds, can, sealer)
        for of_kind, printed in printing:
            write_whole(out / printed.name, printed.content)
            click.echo(f"{out / printed.name}: {printed.title}, {counted(printed.pages, 'page')}")
            papers.append(_paper(printed, of_kind, press, digest_of_records))
        if to_site:
            write_whole(out / LIST, list_text(papers, kb.own))
    except TinwrightError as error:
        fail(error)
    except OSError as error:
        cannot_write(out, error)
    where = f"{out}, for the page Print of the site" if to_site else str(out)
    click.echo(f"{counted(len(papers), 'file')} in {where}")


def _paper(printed: Printed, kind: str, press: Press, records: str) -> Paper:
    return Paper(
        file=printed.name,
        title=printed.title,
        kind=kind,
        pages=printed.pages,
        size=len(printed.content),
        edition=press.edition,
        records=records,
        sha256=digest(printed.content),
        cards=printed.cards,
    )


def _printed(
    press: Press, kinds: tuple[str, ...], can: str | None, sealer: str | None
) -> Iterator[tuple[str, Printed]]:
    """Yield each kind with its documents, each printed when it is asked for."""
    from tinwright import paper as room  # noqa: PLC0415 only this command needs it

    makers: dict[str, Callable[[], Iterator[Printed]]] = {
        "handbook": lambda: iter([room.handbook(press)]),
        "set-up": lambda: _set_up_cards(press, can, sealer),
        "wall-chart": lambda: (room.wall_chart(press, letter=letter) for letter in (False, True)),
        "adjustment": lambda: (
            room.adjustment_cards(press, record) for id_, record in press.kb.sealers.items() if sealer in {None, id_}
        ),
        "inspection": lambda: (
            make(press) for make in (room.seam_readings_sheet, room.visual_check_sheet, room.bench_log_sheet)
        ),
        "cautions": lambda: iter([room.caution_card(press)]),
    }
    for kind in kinds:
        yield from ((kind, printed) for printed in makers[kind]())


def _practice(press: Press, scenario: str | None) -> Iterator[tuple[str, Printed]]:
    """Yield the exercises and their key; of one scenario, when that is asked for."""
    from tinwright.knowledge.scenarios import load_scenarios  # noqa: PLC0415 only this command needs it
    from tinwright.paper import practice_exercises  # noqa: PLC0415 as above

    scenarios = load_scenarios(press.kb)
    if scenario is not None and scenario not in scenarios:
        raise click.ClickException(f"no scenario is called {scenario!r}{nearest(scenario, scenarios)}")
    chosen = [record for id_, record in scenarios.items() if scenario in {None, id_}]
    if not chosen:
        raise click.ClickException("the content has no scenarios for the practice bench")
    yield from ((_PRACTICE, printed) for printed in practice_exercises(press, chosen))


def _set_up_cards(press: Press, can: str | None, sealer: str | None) -> Iterator[Printed]:
    """Yield the card asked for, or a file of cards for each sealer; what cannot be set up only when asked for."""
    from tinwright.advice.set_ups import all_sheets  # noqa: PLC0415 only this command needs it
    from tinwright.paper import set_up_cards  # noqa: PLC0415 as above

    sheets = all_sheets(press.kb)
    if can is not None and sealer is not None:
        sheet = sheets[sealer, can]
        sealer_title = sheet.sealer.title[:1].lower() + sheet.sealer.title[1:]
        title = f"Set-up card, {sheet.can.code} on the {sealer_title}"
        yield set_up_cards(press, [sheet], name=f"set-up-{sealer}-{can}.pdf", title=title)
        return
    left_out = 0
    for id_, record in press.kb.sealers.items():
        if sealer not in {None, id_}:
            continue
        mine = sorted((s for (of, _), s in sheets.items() if of == id_ and can in {None, s.can.id}), key=_by_size)
        works = [sheet for sheet in mine if sheet.works]
        left_out += len(mine) - len(works)
        if works:
            name = f"set-up-{id_}-{can}.pdf" if can else f"set-up-{id_}.pdf"
            yield set_up_cards(press, works, name=name, title=f"Set-up cards, {record.title}")
    if left_out:
        pairs = counted(left_out, "pair")
        click.echo(f"left out: {pairs} of can and sealer that cannot be set up; --can and --sealer print why", err=True)


def _by_size(sheet: Sheet) -> tuple[Any, ...]:
    return sheet.code.diameter_in, sheet.code.height_in, sheet.can.id


def _addresses(site_url: str | None, config: Path) -> Callable[[str], str] | None:
    """Return what turns the uri of a page into its web address; None when no address of a site is known."""
    from tinwright.site.pages_and_assets import address_of  # noqa: PLC0415 only this command needs it

    settings = _settings(config)
    base = site_url if site_url is not None else settings.get("site_url")
    if not base:
        return None
    source = "--site-url" if site_url is not None else f"{config}: site_url"
    if not isinstance(base, str) or not re.fullmatch(r"https?://[^\s\"'<>]+", base) or len(base) > _LONGEST_ADDRESS:
        expected = f"an address of at most {_LONGEST_ADDRESS} characters, such as https://example.org/canning/"
        raise click.ClickException(f"{source}: expected {expected}, got {str(base)[:80]!r}")
    folders = settings.get("use_directory_urls", True) is not False
    start = base if base.endswith("/") else f"{base}/"
    return lambda uri: urljoin(start, quote(address_of(uri, directory_urls=folders)))


class _AnyTag(yaml.SafeLoader):
    """Reads the plain settings of a file whose other settings may have tags of their own."""


_AnyTag.add_multi_constructor("", lambda loader, tag, node: None)  # noqa: ARG005 called by position


def _settings(config: Path) -> dict[str, Any]:
    """Return the plain settings of `mkdocs.yml`; none when there is no such file, or it cannot be read."""
    try:
        found = yaml.load(config.read_text(encoding="utf-8"), Loader=_AnyTag)  # noqa: S506 a safe loader
    except (OSError, UnicodeDecodeError, yaml.YAMLError):
        return {}
    return found if isinstance(found, dict) else {}
