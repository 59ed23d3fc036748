"""The templates of each room, and the files that they show as they are."""

from __future__ import annotations

from contextlib import suppress
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING

from jinja2 import BytecodeCache, Environment, FileSystemBytecodeCache, PackageLoader, StrictUndefined
from markupsafe import Markup

if TYPE_CHECKING:
    from jinja2 import Template
    from jinja2.bccache import Bucket

__all__ = ["asset_of", "compiled_templates", "template_of", "templates_of"]


def templates_of(room: str) -> Environment:
    """Return the templates of a room: what they show is escaped, and a value that is missing is an error.

    Args:
        room: name of the room, such as `paper`; its templates lie in its folder `templates`.
    """
    return Environment(
        loader=PackageLoader(f"tinwright.{room}"),
        autoescape=True,
        auto_reload=False,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        bytecode_cache=compiled_templates(),
    )


def template_of(room: str, name: str) -> Template:
    """Return one template of a room that adds nothing of its own to them; as `templates_of`."""
    return templates_of(room).get_template(name)


def asset_of(room: str, name: str) -> Markup:
    """Return a style sheet or a script of the package's own, for a page to hold as it is.

    Args:
        room: name of the room, such as `site`.
        name: name of a file in its folder `assets`.
    """
    return Markup(files(f"tinwright.{room}").joinpath("assets", name).read_text(encoding="utf-8"))  # noqa: S704 our own


class _Kept(FileSystemBytecodeCache):
    """The library's own cache, which a full or write-protected disk does not make fail.

    A template counts as another one, too, when a filter begins or ends to ask for the context: it is compiled to suit.
    """

    def get_bucket(self, environment: Environment, name: str, filename: str | None, source: str) -> Bucket:
        known = {**environment.filters, **environment.tests, **environment.globals}
        asking = sorted(name for name, function in known.items() if hasattr(function, "jinja_pass_arg"))
        return super().get_bucket(environment, name, filename, f"{source}\n{asking}")

    def dump_bytecode(self, bucket: Bucket) -> None:
        with suppress(OSError):
            super().dump_bytecode(bucket)


@cache
def compiled_templates() -> BytecodeCache | None:
    """Return what keeps compiled templates, in the folder for temporary files that is this user's alone.

    Compiling those of a site takes longer than using them. Each is known by its name and place and checked against its
    text. None where there is no such folder: templates are then compiled anew.
    """
    try:
        return _Kept(pattern="tinwright-%s.cache")
    except (OSError, RuntimeError):
        return None
