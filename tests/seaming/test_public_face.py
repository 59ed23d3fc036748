from __future__ import annotations

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
