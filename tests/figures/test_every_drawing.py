from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from figures.drawing import SVG, draw, every_drawing, read, texts_of
from tinwright import figures
from tinwright.figures.whole_can import WHOLE_CAN_FAULTS
from tinwright.knowledge.models.machine import Drive
from tinwright.knowledge.models.procedure import Movement
from tinwright.knowledge.models.trouble import Extent, HookFeature, OutsideFeature, SectionFeature

CALLS = every_drawing()
PAINTS = re.compile(r"none|currentColor|var\(--tw-svg-[a-z]+, #[0-9a-f]{6}\)|url\(#x-[a-z]+\)")
HOSTILE = "</title><script>alert(1)</script> \" ' & ]]> \x00\x0b\ud800"


@pytest.mark.parametrize("name", CALLS)
def test_it_names_and_describes_itself(name: str) -> None:
    root = read(draw(CALLS[name]))
    assert root.tag == f"{SVG}svg"
    assert root.attrib["role"] == ("group" if root.findall(f"{SVG}a") else "img")
    assert root.attrib["aria-labelledby"] == "x-t x-d"
    assert [(child.tag, child.attrib["id"], child.text) for child in root[:2]] == [
        (f"{SVG}title", "x-t", "A title"),
        (f"{SVG}desc", "x-d", "Words."),
    ]


@pytest.mark.parametrize("name", CALLS)
def test_it_takes_the_width_it_is_given(name: str) -> None:
    root = read(draw(CALLS[name]))
    assert not {"width", "height", "style"} & set(root.attrib)
    assert all(float(side) > 0 for side in root.attrib["viewBox"].split()[2:])


@pytest.mark.parametrize("name", CALLS)
def test_its_ids_begin_with_the_prefix_and_are_unique(name: str) -> None:
    ids = [element.attrib["id"] for element in read(draw(CALLS[name])).iter() if "id" in element.attrib]
    assert all(known.startswith("x-") for known in ids)
    assert len(set(ids)) == len(ids)


@pytest.mark.parametrize("name", CALLS)
def test_it_holds_no_script_no_style_and_no_color_of_its_own(name: str) -> None:
    for element in read(draw(CALLS[name])).iter():
        assert element.tag.removeprefix(SVG) not in {"script", "style", "image", "use", "foreignObject"}
        assert not any(key.startswith("on") or key == "style" for key in element.attrib)
        for key in ("fill", "stroke"):
            assert PAINTS.fullmatch(element.get(key, "none"))


@pytest.mark.parametrize("name", CALLS)
def test_it_is_the_same_every_time(name: str) -> None:
    assert draw(CALLS[name]) == draw(CALLS[name])


@pytest.mark.parametrize("name", CALLS)
def test_coordinates_have_at_most_two_decimals(name: str) -> None:
    assert not re.search(r"[\d.]*\.\d{3}[\d]*(?! in)(?=[\" ,])", re.sub(r">[^<]*<", "><", draw(CALLS[name])))


@pytest.mark.parametrize("name", CALLS)
def test_hostile_words_stay_words(name: str) -> None:
    svg = draw(CALLS[name], title=HOSTILE, description=HOSTILE)
    root = read(svg)
    assert "<script" not in svg
    assert root[0].text == root[1].text == re.sub("[\x00\x0b\ud800]", "\ufffd", HOSTILE)


@given(st.text(st.characters()))
@settings(max_examples=60)
def test_any_title_gives_a_drawing_that_can_be_read(title: str) -> None:
    assert read(draw(CALLS["hook"], title=title, description=title))[0].tag == f"{SVG}title"


@pytest.mark.parametrize("prefix", ["", "1a", "a b", 'a"b', "a>b", "é"])
def test_a_prefix_that_cannot_begin_an_id_is_refused(prefix: str) -> None:
    with pytest.raises(ValueError, match="id prefix"):
        draw(CALLS["hook"], id_prefix=prefix)


def test_every_drawing_of_a_kind_is_different() -> None:
    alike = ("closeup-", "outside-jump", *(f"outside-{feature}-" for feature in WHOLE_CAN_FAULTS))
    drawn = {name: draw(call) for name, call in CALLS.items() if not name.startswith(alike)}
    plain = {name for name in drawn if name.startswith("outside-plain")}
    others = [svg for name, svg in drawn.items() if name not in plain]
    assert len(set(others)) == len(others)
    assert not {drawn[name] for name in plain} & set(others)


def test_a_whole_can_is_drawn_alike_for_every_extent_and_unlike_every_other_can_even_without_words() -> None:
    for feature in WHOLE_CAN_FAULTS:
        assert len({draw(CALLS[f"outside-{feature}-{extent}"]) for extent in figures.EXTENTS}) == 1
    unnamed = {
        draw(lambda feature=feature, **k: figures.outside_svg(feature, extent="all-round", named=False, **k))
        for feature in WHOLE_CAN_FAULTS
    }
    assert len(unnamed) == len(WHOLE_CAN_FAULTS)


def test_beside_a_whole_can_stands_a_whole_good_can() -> None:
    assert {figures.good_beside(feature) for feature in WHOLE_CAN_FAULTS} == {"sound-can"}
    others = set(figures.OUTSIDE_FEATURES) - set(WHOLE_CAN_FAULTS)
    assert {figures.good_beside(feature) for feature in others - {"no-ridge", "ridge"}} == {"plain"}
    assert {figures.good_beside(feature) for feature in ("no-ridge", "ridge")} == {"ridge"}


def test_every_member_of_the_models_enums_can_be_drawn() -> None:
    assert {str(feature) for feature in SectionFeature} == set(figures.SECTION_FEATURES)
    assert {str(feature) for feature in OutsideFeature} == set(figures.OUTSIDE_FEATURES)
    assert {str(feature) for feature in HookFeature} == set(figures.HOOK_FEATURES)
    assert {str(extent) for extent in Extent} == set(figures.EXTENTS)
    assert {str(drive) for drive in Drive} == set(figures.DRIVES)
    assert {str(move) for move in Movement} == set(figures.MOVES)


def test_members_of_enums_do_as_names() -> None:
    assert draw(lambda **k: figures.section_svg(figures.GOOD_SEAM, feature=SectionFeature.FIN, **k)) == draw(
        CALLS["section-fin"]
    )


@pytest.mark.parametrize(
    "call",
    [
        lambda **k: figures.section_svg(figures.GOOD_SEAM, feature="nothing", **k),
        lambda **k: figures.outside_svg("nothing", extent="one-place", **k),
        lambda **k: figures.outside_svg("droop", extent="nothing", **k),
        lambda **k: figures.hook_svg("nothing", **k),
        lambda **k: figures.operation_svg("third", **k),
        lambda **k: figures.part_svg("nothing", **k),
        lambda **k: figures.moving_svg("nothing", **k),
        lambda **k: figures.assembly_svg("nothing", **k),
    ],
)
def test_unknown_names_are_refused_with_what_was_expected(call: object) -> None:
    with pytest.raises(ValueError, match=r"expected .* got '(nothing|third)'"):
        draw(call)  # type: ignore[arg-type]


def test_exports_are_sorted() -> None:
    assert sorted(figures.__all__) == sorted(set(figures.__all__))
    assert all(hasattr(figures, name) for name in figures.__all__)
    assert list(figures.PART_FIGURES) == sorted(figures.PART_FIGURES)


def test_the_style_sheet_sets_every_color_the_drawings_use() -> None:
    css = (Path(figures.__file__).parent / "assets" / "figures.css").read_text(encoding="utf-8")
    used = set().union(*(re.findall(r"var\((--tw-svg-[a-z]+)", draw(call)) for call in CALLS.values()))
    for block in re.findall(r"\{([^{}]*--tw-svg-ink:[^{}]*)\}", css):
        assert used <= set(re.findall(r"(--tw-svg-[a-z]+):", block))


def test_a_schematic_numbers_its_parts_and_names_them() -> None:
    for drive in figures.DRIVES:
        parts = figures.assembly_parts(drive)
        said = " ".join(texts_of(read(draw(CALLS[f"assembly-{drive}"]))).split())
        assert [number for number, _, _ in parts] == list(range(1, len(parts) + 1))
        assert all(f"{number} {name}" in said for number, _, name in parts)
