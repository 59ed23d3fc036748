from __future__ import annotations

from dataclasses import is_dataclass

import tinwright.seaming as room


def test_the_public_names_are_sorted_and_there() -> None:
    names = room.__all__
    constants = [name for name in names if name.isupper()]
    classes = [name for name in names if not name.isupper() and name[0].isupper()]
    functions = [name for name in names if name[0].islower()]
    assert names == sorted(constants) + sorted(classes) + sorted(functions)
    assert all(hasattr(room, name) for name in names)


def test_every_public_function_and_class_is_described() -> None:
    for name in room.__all__:
        thing = getattr(room, name)
        if callable(thing):
            assert thing.__doc__


def test_no_public_value_can_be_changed() -> None:
    values = [thing for name in room.__all__ if is_dataclass(thing := getattr(room, name)) and isinstance(thing, type)]
    assert values
    assert [value.__name__ for value in values if not value.__dataclass_params__.frozen] == []  # type: ignore[attr-defined]
