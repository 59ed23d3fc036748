"""The command for the people who run the web server."""

from __future__ import annotations

import click

from tinwright.site.hosting import SERVERS, Place, settings_text

__all__ = ["hosting"]


@click.command()
@click.argument("server", type=click.Choice(SERVERS))
@click.option("--path", default="/", show_default=True, help="Address below the host, from slash to slash.")
@click.option("--folder", default="/srv/www/sealing/", show_default=True, help="Folder on the server (nginx).")
@click.option("--framed-by", multiple=True, help="Other site whose pages may show these in a frame; may be repeated.")
def hosting(server: str, path: str, folder: str, framed_by: tuple[str, ...]) -> None:
    """Print the settings for a web server: security policy, types and caching.

    Example: tinwright hosting nginx --path /food/sealing/
    """
    try:
        place = Place(path=path, folder=folder, framed_by=framed_by)
    except ValueError as error:
        raise click.BadParameter(str(error)) from error
    click.echo(settings_text(server, place), nl=False)
