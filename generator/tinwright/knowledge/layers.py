"""Layers: the folders a program is made of, from the ground up.

`layers.yml` in the content folder lists them: shared knowledge first, a state's on top of it, a county's on top of
that. A content folder without that list is one layer by itself.
"""

from __future__ import annotations

from dataclasses import dataclass
from importlib.resources import files
from importlib.util import find_spec
from pathlib import Path
from typing import TYPE_CHECKING

from tinwright.errors import Problem
from tinwright.knowledge.wording import nearest
from tinwright.knowledge.yaml_source import read_yaml

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

__all__ = ["LIST", "SHARED", "Layer", "layers_of", "own_folder", "where_from"]

LIST = "layers.yml"
"""File of a content folder that lists its layers."""
SCHEMA = "schema"
"""Folder beside the layers with the schemas for editors."""
SHARED = "shared"
"""Name of the knowledge that belongs to every program. It comes with the package."""


@dataclass(frozen=True)
class Layer:
    """One folder of records, pages and pictures."""

    name: str
    """What `layers.yml` calls it."""
    folder: Path
    """Where it lies."""
    shown: str
    """How problems name it, such as `content/sorrel-county`."""

    def show(self, file: Path) -> str:
        """Name a file in it from the folder the educator works in."""
        return f"{self.shown}/{file.relative_to(self.folder).as_posix()}"


def layers_of(root: Path) -> tuple[tuple[Layer, ...], list[Problem]]:
    """Return the layers of a content folder from the ground up, and what is wrong with the list of them."""
    if not (root / LIST).is_file():
        return (Layer(root.name, root, root.name),), []
    listed = read_yaml(root / LIST, f"{root.name}/{LIST}")
    if listed.problems:
        return (), listed.problems
    if (
        not isinstance(listed.value, list)
        or not listed.value
        or not all(isinstance(name, str) for name in listed.value)
    ):
        return (), [listed.problem((), f"expected a list of layers, such as `- {SHARED}`")]
    layers: dict[str, Layer] = {}
    problems = []
    for number, name in enumerate(listed.value):
        layer = _found(root, name)
        if name in layers:
            problems.append(listed.problem((number,), f"the layer {name!r} stands here twice"))
        elif layer is None:
            hint = nearest(name, [SHARED, *_folders(root)])
            problems.append(listed.problem((number,), f"no folder and no installed package is called {name!r}{hint}"))
        else:
            layers[name] = layer
    if not problems:
        problems.extend(_not_listed(root, layers))
    return tuple(layers.values()), problems


def own_folder(root: Path) -> Path:
    """Return the folder of the layer on top, which is the program's own; the content folder itself when it has none."""
    layers, _ = layers_of(root)
    return layers[-1].folder if layers else root


def where_from(names: Sequence[str], layers: Sequence[Layer]) -> str:
    """Say in a sentence which layers a record comes from; nothing where there is only one.

    Args:
        names: the names of those layers, the ground first.
        layers: all layers of the program.
    """
    if not names or len(layers) == 1:
        return ""
    called = {SHARED: "shared knowledge", layers[-1].name: "this program"}
    first, *later = [called.get(name, name) for name in names]
    return f"From {first}{''.join(f', changed by {name}' for name in later)}."


def _not_listed(root: Path, layers: dict[str, Layer]) -> Iterator[Problem]:
    """Yield a problem for each folder or file of records beside the layers: nothing would be read from it."""
    for entry in sorted(root.iterdir()):
        if entry.is_dir() and entry.name[0] != "." and entry.name not in {SCHEMA, *layers}:
            message = f"expected a layer that {LIST} names: put this folder into one of them, or name it there"
        elif entry.suffix in {".yml", ".yaml"} and entry.name != LIST:
            message = "expected records in one of the layers"
        else:
            continue
        yield Problem(f"{root.name}/{entry.name}", 1, 1, "", message)


def _found(root: Path, name: str) -> Layer | None:
    beside = root / name
    if beside.is_dir() and beside.resolve().parent == root.resolve():
        return Layer(name, beside, f"{root.name}/{name}")
    if name == SHARED:
        return Layer(name, _shared_folder(), "tinwright/shared")
    if name.isidentifier() and find_spec(name) is not None:
        folder = Path(str(files(name)))
        return Layer(name, folder, name) if folder.is_dir() else None
    return None


def _shared_folder() -> Path:
    """Find the shared knowledge: in the package once that is built, in `content/shared` of a clone."""
    package = Path(__file__).parents[1]
    built = package / SHARED
    return built if built.is_dir() else package.parents[1] / "content" / SHARED


def _folders(root: Path) -> Iterator[str]:
    return (entry.name for entry in sorted(root.iterdir()) if entry.is_dir())
