"""Commands for the educator's files: their schemas, the pages made of them, a programme to start with."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from tinwright.advice.item_checks import load_sound_practice
from tinwright.cli.common import CONTENT, cannot_write, counted, fail, loaded, today_utc
from tinwright.errors import TinwrightError, WriteError
from tinwright.knowledge.models.machine import Drive
from tinwright.knowledge.schema import write_schemas
from tinwright.site import build_site, write_site
from tinwright.starter import County, OwnSealer, own_sealer, write_county
from tinwright.starter.laying import refuse_filled

__all__ = ["new", "on_a_terminal", "schema", "write"]


@click.command()
@click.argument("folder", type=click.Path(path_type=Path, file_okay=False), default=Path("content/schema"))
def schema(folder: Path) -> None:
    """Write a JSON Schema for each kind of record, for editors.

    Example: tinwright schema content/schema
    """
    try:
        names = write_schemas(folder)
    except OSError as error:
        cannot_write(folder, error)
    click.echo(f"{counted(len(names), 'schema')} in {folder}")


@click.command()
@click.argument("folder", type=click.Path(path_type=Path, file_okay=False))
@CONTENT
@click.option(
    "--quizzes",
    type=click.Path(path_type=Path, file_okay=False),
    default=Path("quizzes"),
    show_default=True,
    help="Folder with the practice questions; left out when it holds no topics.yml.",
)
@click.option("--directory-urls", is_flag=True, help="Link to pages as folders: droop/ instead of droop.html.")
def write(folder: Path, content: Path, quizzes: Path, directory_urls: bool) -> None:
    """Write the site's Markdown and assets to FOLDER, for any static-site tool.

    Example: tinwright write pages
    """
    today = today_utc()
    kb = loaded(content, today=today)
    try:
        bank = load_sound_practice(quizzes, kb, today=today) if (quizzes / "topics.yml").is_file() else None
        site = build_site(kb, bank=bank, directory_urls=directory_urls)
        written, removed = write_site(site, folder)
    except TinwrightError as error:
        fail(error)
    except OSError as error:
        cannot_write(folder, error)
    total = len(site.pages) + len(site.assets)
    click.echo(f"{counted(total, 'file')} in {folder}: {written} written, {removed} removed, the others unchanged")


@click.command()
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("--county", help="Name of the county, such as 'Fern County'.")
@click.option("--office", help="Name of the office; COUNTY Extension when left out.")
@click.option("--contact", help="How a reader reaches the office.")
@click.option("--altitude", type=click.IntRange(-300, 15000), help="Altitude of the kitchens in feet.")
@click.option("--kitchen", multiple=True, help="Name of a kitchen; once for each.")
@click.option(
    "--sealer",
    multiple=True,
    metavar="'NAME; DRIVE; SIZES'",
    help="A sealer, such as 'Old crank; crank-cam; 307 401'; once for each. Drives: crank-cam, hand-lever, motor.",
)
def new(
    folder: Path,
    county: str | None,
    office: str | None,
    contact: str | None,
    altitude: int | None,
    kitchen: tuple[str, ...],
    sealer: tuple[str, ...],
) -> None:
    """Write a program of your own in FOLDER, on top of the shared knowledge.

    On a terminal it asks for what no option says.

    Example: tinwright new our-kitchen
    """
    try:
        refuse_filled(folder)
        asked = on_a_terminal()
        given = {"county": county, "contact": contact, "altitude": altitude, "kitchen": kitchen, "sealer": sealer}
        missing = [f"--{name}" for name, value in given.items() if value is None or value == ()]
        if missing and not asked:
            raise WriteError(f"{folder}: nothing written; expected {', '.join(missing)} too, or a terminal to ask on")
        county = county or click.prompt("County, such as Fern County")
        if office is None:
            office = click.prompt("Office", default=f"{county} Extension") if asked else f"{county} Extension"
        contact = contact or click.prompt("How to reach the office")
        if altitude is None:
            altitude = click.prompt("Altitude of the kitchens in feet", type=click.IntRange(-300, 15000))
        kitchen = kitchen or _asked_kitchens()
        sealers = tuple(own_sealer(each) for each in sealer) or _asked_sealers()
        own = County(county, office, contact, altitude, kitchen, sealers)
        count = write_county(folder, own, today=today_utc())
    except TinwrightError as error:
        fail(error)
    click.echo(f"{counted(count, 'file')} in {folder}. Next: cd {folder}; tinwright check; mkdocs serve")


def on_a_terminal() -> bool:
    """Say whether somebody is there to answer."""
    return sys.stdin.isatty()


def _asked_kitchens() -> tuple[str, ...]:
    """Ask for the kitchens, until one is left empty."""
    kitchens = [click.prompt("Kitchen")]
    while more := click.prompt("Another kitchen (Enter when there is none)", default="", show_default=False):
        kitchens.append(more)
    return tuple(kitchens)


def _asked_sealers() -> tuple[OwnSealer, ...]:
    """Ask for the sealers, until one is left empty."""
    sealers: list[OwnSealer] = []
    name = click.prompt("Sealer: what you call it")
    while name:
        drive = click.prompt("  How its rollers are brought in", type=click.Choice([drive.value for drive in Drive]))
        try:
            sealers.append(own_sealer(f"{name}; {drive}; {click.prompt('  Its chucks, such as 307 401')}"))
        except TinwrightError as error:
            click.echo(str(error), err=True)
            continue
        name = click.prompt("Another sealer (Enter when there is none)", default="", show_default=False)
    return tuple(sealers)
