"""Sheets on paper: what each says, what it keeps back, and that it is PDF/UA-1.

Judges from outside: `page-validation` and `pdfua` (ISO 14289-1), `pypdf` for the words on the page.
"""

from __future__ import annotations

import io
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import page
import pikepdf
import pypdf
import pytest

from examining.exam_banks import lay_bank, made_from
from tinwright.errors import QuizError
from tinwright.examining.practical_sheet import observed_parts, practical_sheet, sealers_of
from tinwright.examining.sheets import answer_sheet, key_sheet, question_sheet, reader_script
from tinwright.knowledge.bank import load_bank
from tinwright.quizzes.questions import letter_of
from tinwright.register import STEPS

if TYPE_CHECKING:
    from tinwright.examining.making import MadeForm
    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.models.examination import Blueprint


@pytest.fixture(scope="module")
def root(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return lay_bank(tmp_path_factory.mktemp("sheets"))


@pytest.fixture(scope="module")
def made(root: Path, kb: KnowledgeBase) -> MadeForm:
    return made_from(root, kb)[1]


@pytest.fixture(scope="module")
def blueprint(root: Path, kb: KnowledgeBase) -> Blueprint:
    return load_bank(root, kb).blueprints["small"]


@pytest.fixture(scope="module")
def sheets(made: MadeForm, blueprint: Blueprint, kb: KnowledgeBase) -> dict[str, bytes]:
    return {
        "questions": question_sheet(made.form, kb),
        "answers": answer_sheet(made.form, kb),
        "key": key_sheet(made, kb),
        "practical": practical_sheet(blueprint, kb.sealers["bench-lever-sealer"], kb),
    }


def pages_of(pdf: bytes) -> list[str]:
    return [" ".join(page.extract_text().split()) for page in pypdf.PdfReader(io.BytesIO(pdf)).pages]


def spoken(pdf: bytes) -> list[str]:
    """What a screen reader says in place of the pictures."""
    with pikepdf.open(io.BytesIO(pdf)) as opened:
        return [str(one.Alt) for one in opened.objects if isinstance(one, pikepdf.Dictionary) and "/Alt" in one]


NAMES = ("questions", "answers", "key", "practical")


@pytest.mark.parametrize("name", NAMES)
def test_each_sheet_is_pdf_ua_by_page_validation(sheets: dict[str, bytes], name: str, tmp_path: Path) -> None:
    file = tmp_path / "sheet.pdf"
    file.write_bytes(sheets[name])
    report = page.validate_pdf(str(file), profile=page.ValidationProfile.PDF_UA_1)
    assert "no failures" in str(report)
    with pikepdf.open(file) as opened:  # the judge must be able to say no
        del opened.Root.MarkInfo
        opened.save(tmp_path / "untagged.pdf")
    bad = page.validate_pdf(str(tmp_path / "untagged.pdf"), profile=page.ValidationProfile.PDF_UA_1)
    assert "no failures" not in str(bad)


@pytest.mark.parametrize("name", NAMES)
def test_each_sheet_is_pdf_ua_by_pdfua(sheets: dict[str, bytes], name: str, tmp_path: Path) -> None:
    (tmp_path / "sheet.pdf").write_bytes(sheets[name])
    done = subprocess.run(
        [Path(sys.executable).with_name("pdfua"), "check", tmp_path / "sheet.pdf"],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stdout
    assert "errors=0 warnings=0" in done.stdout


@pytest.mark.parametrize("name", NAMES)
def test_each_page_is_letter_with_its_number_and_says_that_the_bank_is_a_demonstration(
    sheets: dict[str, bytes], name: str
) -> None:
    pages = pages_of(sheets[name])
    for number, text in enumerate(pages, 1):
        assert f"page {number} of {len(pages)}" in text
        assert "Not for a real examination." in text
    for sheet in pypdf.PdfReader(io.BytesIO(sheets[name])).pages:
        assert [float(side) for side in sheet.mediabox[2:]] == [612, 792]


@pytest.mark.parametrize("name", ["questions", "answers", "key"])
def test_every_page_of_a_form_names_it(sheets: dict[str, bytes], made: MadeForm, name: str) -> None:
    assert all(f"form {made.form.code}" in text for text in pages_of(sheets[name]))


def test_the_questions_stand_on_paper_in_their_order_with_the_letters_of_the_form(
    sheets: dict[str, bytes], made: MadeForm
) -> None:
    text = " ".join(pages_of(sheets["questions"]))
    at = -1
    for number, item in enumerate(made.form.items, 1):
        found = text.find(f"{number}. {item.text}")
        assert found > at
        at = found
        if item.asks in {"one-answer", "several-answers", "order"}:
            for place, choice in enumerate(item.choices):
                assert f"{letter_of(place)} {choice}" in text[at:]


def test_nothing_handed_out_tells_an_answer(sheets: dict[str, bytes], made: MadeForm) -> None:
    """Places have names, drawings are of defects, items have ids: none of it may stand where the answer is asked for."""
    for name in ("questions", "answers"):
        text = " ".join(pages_of(sheets[name]))
        for question in made.questions:
            assert question.id not in text
            assert question.why not in text
            assert all(choice.why not in text for choice in question.choices if choice.why)
        for words in ("0.04321", "Cover hook", "No second operation", "not pressed"):
            assert words not in text
            assert not any(words in said for said in spoken(sheets[name]))
    # the caption of a drawing says what it shows, and that may be the answer: the examiner has it with the key
    caption = "the outside face is round"
    assert not any(caption in said for said in spoken(sheets["questions"]))
    assert any("Ask the examiner to describe it to you." in said for said in spoken(sheets["questions"]))
    assert caption in " ".join(" ".join(pages_of(sheets["key"])).split())


def test_the_key_tells_every_answer_with_its_reason_and_the_pages(sheets: dict[str, bytes], made: MadeForm) -> None:
    text = " ".join(pages_of(sheets["key"]))
    for number, question in enumerate(made.questions, 1):
        after = text[text.index(f"{number}. {question.text}") :]
        if question.asks in {"one-answer", "several-answers", "order", "point"}:
            for place in question.key:
                assert f"{letter_of(place)}: {question.choices[place].text}" in after
        assert question.why in after
        assert "Set the first roller (procedure)" in after
    assert f"{made.key.cut} of {made.form.out_of} points" in text
    assert text.count("critical") >= sum(item.critical for item in made.key.items)


def test_the_practical_sheet_has_every_step_of_this_drive_and_the_parts_of_the_register(
    sheets: dict[str, bytes],
) -> None:
    text = " ".join(pages_of(sheets["practical"]))
    for step in STEPS:
        assert f"({step})" in text
    assert "Fit the roller lever and try it both ways." in text  # of the hand lever alone
    assert "Fit the belt guard" not in text  # of the motor alone
    typed = text.replace(" ", "")  # the command may go over the end of a line
    assert "--drivehand-lever--sealerbench-lever-sealer" in typed
    assert "round pin" not in text, "a gauge of another sealer"
    assert "short feeler strip" in text
    for caution in ("Fingers between roller, chuck and can", "A crank that swings"):
        assert caution in text


def test_the_checklist_of_each_sealer_has_two_pages(kb: KnowledgeBase, blueprint: Blueprint) -> None:
    assert [sealer.id for sealer in sealers_of(kb)] == list(
        dict.fromkeys(id_ for kitchen in kb.programme.kitchens for id_ in kitchen.sealers)
    )
    for sealer in sealers_of(kb):
        assert len(pages_of(practical_sheet(blueprint, sealer, kb))) == 2


def test_a_blueprint_without_a_part_of_the_check_is_refused(kb: KnowledgeBase) -> None:
    names = ("clamp-and-assemble", "set-first-roller", "set-second-roller", "make-test-can", "look-and-feel")
    with pytest.raises(QuizError, match="practical: expected procedures that put the sealer together, set both roll"):
        observed_parts([kb.procedures[name] for name in names])
    with pytest.raises(QuizError, match="set both rollers"):
        observed_parts([kb.procedures[name] for name in (*names[:2], *names[3:], "when-a-check-fails")])


def test_the_same_sheet_has_the_same_bytes(sheets: dict[str, bytes], made: MadeForm, kb: KnowledgeBase) -> None:
    assert question_sheet(made.form, kb) == sheets["questions"]


def test_large_print_is_eighteen_points_and_says_the_same(made: MadeForm, kb: KnowledgeBase) -> None:
    sizes: set[float] = set()

    def seen(text: str, scale: list[float], matrix: list[float], _font: object, size: float) -> None:
        # Text of the page is set in CSS px, three quarters of a point; drawings have a scale of their own.
        if text.strip() and abs(abs(scale[0]) - 0.75) < 1e-6:
            sizes.add(round(abs(matrix[0]) * size * 0.75, 1))

    large = question_sheet(made.form, kb, made.key, large=True)
    words = []
    for sheet in pypdf.PdfReader(io.BytesIO(large)).pages:
        words += sheet.extract_text(visitor_text=seen).split()
    for item in made.form.items:
        assert item.text.split()[-1] in words
    assert {size for size in sizes if size < 18} <= {10.0, 12.0}, "but for the running head and foot"
    assert 18.0 in sizes


def test_the_script_to_be_read_aloud_has_every_choice_and_no_answer(made: MadeForm, kb: KnowledgeBase) -> None:
    text = " ".join(pages_of(reader_script(made.form, kb)))
    for item in made.form.items:
        assert " ".join(item.text.split()) in text
        if item.asks not in {"point", "number"}:
            assert all(choice in text for choice in item.choices)
    assert "Reason why" not in text
    assert "Good of" in text, "choices stand there as on the form"
