"""Commands that grade an examination, correct its key, and look at its questions."""

from __future__ import annotations

import contextlib
import re
from dataclasses import replace
from decimal import Decimal
from itertools import count
from pathlib import Path
from typing import TYPE_CHECKING

import click

from tinwright.cli.common import CONTENT, counted, fail, loaded
from tinwright.cli.private import ON, REGISTER, day_of, opened
from tinwright.errors import ContentError, ExamError, QuizError, RecordError

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterator, Mapping, Sequence

    from tinwright.examining.form import ExamForm, ExamKey
    from tinwright.examining.grading import GradedSheet
    from tinwright.examining.responses import Intake
    from tinwright.examining.results import Names
    from tinwright.examining.retakes import RetakePolicy
    from tinwright.register import Register

__all__ = ["analyze", "grade", "rekey"]

_FILE = click.Path(path_type=Path, dir_okay=False)
_KEY_NAME = re.compile(r"(?P<form>.+)\.key(?:-\d+)?\.json")
_FORM = click.option(
    "--form", "form_file", type=_FILE, metavar="FILE", help="The form; looked for beside the key when left out."
)
_QUIZZES = click.option(
    "--quizzes",
    type=click.Path(path_type=Path, file_okay=False),
    default=Path("quizzes"),
    show_default=True,
    help="Folder with the topics, for their titles.",
)


@click.command()
@click.argument("key_file", metavar="KEY", type=_FILE)
@click.argument("responses", nargs=-1, required=True, type=_FILE)
@_FORM
@click.option(
    "--report", type=click.Path(path_type=Path, file_okay=False), metavar="FOLDER", help="Write slips and a table here."
)
@click.option("--no-record", is_flag=True, help="Do not open the register: only show what comes out.")
@click.option("--skip-refused", is_flag=True, help="Grade and record the sound sheets although others are refused.")
@click.option(
    "--retyped",
    is_flag=True,
    help="Let a sheet take the place of that of the same person, form and day.",
)
@click.option(
    "--allowed",
    multiple=True,
    metavar="PERSON=WORDS",
    help="What was allowed to somebody, such as V0001='30 minutes more, large print'.",
)
@CONTENT
@_QUIZZES
@ON
@REGISTER
def grade(
    key_file: Path,
    responses: tuple[Path, ...],
    form_file: Path | None,
    report: Path | None,
    no_record: bool,
    skip_refused: bool,
    retyped: bool,
    allowed: tuple[str, ...],
    content: Path,
    quizzes: Path,
    on: dt.datetime | None,
    place: str | None,
) -> None:
    """Grade answers to a form with its KEY, and enter the results into the register.

    RESPONSES are files saved by the page, or CSV files typed in from paper. When one sheet is refused, nothing is
    recorded. The same answers graded with a corrected key take the place of the first result, which is kept.

    Whoever sits again needs another form, the wait and the coaching that program.yml asks for. A second try is
    graded with its own KEY, in the areas that were missed that day.

    Example: tinwright exam grade volunteer-A.key.json answers.csv --report results
    """
    with _told():
        form, key = _form_and_key(key_file, form_file)
        names = _names(content, quizzes)
        if no_record:
            if key.second_try_of:
                raise ExamError("a second try is graded with the register: it says which areas were missed")
            intake, graded = _graded(form, key, responses, None, day_of(on))
            _tell(intake, graded, skip_refused=skip_refused)
            _write_report(report, graded, form, key, names)
            return
        with opened(place) as register:
            people = {entry.id: entry.name for entry in register.volunteers()}
            intake, graded = _graded(form, key, responses, people, day_of(on))
            intake, graded = _by_the_policy(register, intake, graded, form, key, _policy(content))
            graded = _with_allowances(graded, allowed)
            _tell(intake, graded, skip_refused=skip_refused)
            _check_report(report)
            _record(register, graded, retyped=retyped, public_bank=form.demonstration)
        _write_report(report, graded, form, key, replace(names, people=people))


def _graded(
    form: ExamForm, key: ExamKey, files: Sequence[Path], people: dict[str, str] | None, day: dt.date
) -> tuple[Intake, list[GradedSheet]]:
    from tinwright.examining.form import questions_of  # noqa: PLC0415 - other commands must stay quick
    from tinwright.examining.grading import grade as grade_sheet  # noqa: PLC0415 - as above
    from tinwright.examining.responses import read_responses  # noqa: PLC0415 - as above

    questions = questions_of(form, key)
    intake = read_responses(files, form, questions, people=people, latest=day)
    return intake, [grade_sheet(sheet, questions, key) for sheet in intake.sheets]


def _by_the_policy(
    register: Register,
    intake: Intake,
    graded: Sequence[GradedSheet],
    form: ExamForm,
    key: ExamKey,
    policy: RetakePolicy,
) -> tuple[Intake, list[GradedSheet]]:
    """Refuse what the programme's policy does not allow, and grade a second try in the areas that were missed."""
    from tinwright.examining.form import questions_of  # noqa: PLC0415 - as in `_graded`
    from tinwright.examining.retakes import refusal, second_try_of  # noqa: PLC0415 - as in `_graded`
    from tinwright.examining.second_try import grade_second_try  # noqa: PLC0415 - as in `_graded`

    kept, refused = [], list(intake.refused)
    questions = questions_of(form, key)
    answered = register.item_responses(exam=form.exam) if key.second_try_of else []
    for row in graded:
        person = row.sheet.person
        history, coached = register.sittings(person), register.coachings(person)
        if not key.second_try_of:
            why = refusal(row.sheet, history, coached, policy)
            if why is None:
                kept.append(row)
            else:
                refused.append(f"{row.sheet.place}: {why}")
            continue
        found = second_try_of(row.sheet, key, history, answered, coached, policy)
        if isinstance(found, str):
            refused.append(f"{row.sheet.place}: {found}")
        else:
            kept.append(grade_second_try(row.sheet, questions, key, found))
    return replace(intake, refused=tuple(refused)), kept


def _policy(content: Path) -> RetakePolicy:
    from tinwright.examining.retakes import RetakePolicy, policy_of  # noqa: PLC0415 - as in `_graded`

    return policy_of(loaded(content).programme.policy) if content.is_dir() else RetakePolicy()


def _with_allowances(graded: Sequence[GradedSheet], allowed: Sequence[str]) -> list[GradedSheet]:
    """Note what was allowed to some people at this sitting."""
    given: dict[str, str] = {}
    for text in allowed:
        person, found, words = text.partition("=")
        if not found or not words.strip():
            raise click.BadParameter(f"expected PERSON=WORDS, got {text[:40]!r}", param_hint="--allowed")
        given[person.strip().upper()] = words.strip()
    if strange := sorted(given.keys() - {row.sheet.person for row in graded}):
        raise click.BadParameter(f"no sheet is of {strange[0]}", param_hint="--allowed")
    return [replace(row, allowed=given.get(row.sheet.person)) for row in graded]


def _tell(intake: Intake, graded: Sequence[GradedSheet], *, skip_refused: bool) -> None:
    from tinwright.examining.doubtful_keys import doubtful_keys  # noqa: PLC0415 - as in `_graded`
    from tinwright.examining.results import result_lines  # noqa: PLC0415 - as in `_graded`

    for line in (*intake.refused, *intake.remarks):
        click.echo(line, err=True)
    if intake.refused and not skip_refused:
        raise ExamError(
            f"{counted(len(intake.refused), 'refusal')}; nothing is graded: fix what is refused, or say --skip-refused"
        )
    if not graded:
        raise ExamError("there is no answer sheet to grade")
    for line in result_lines(graded):
        click.echo(line)
    passed = sum(row.passed for row in graded)
    left_out = f", {len(intake.refused)} refused" if intake.refused else ""
    click.echo(f"{counted(len(graded), 'sheet')} graded, {passed} passed{left_out}")
    for line in doubtful_keys(graded):
        click.echo(line)


def _record(register: Register, graded: Sequence[GradedSheet], *, retyped: bool, public_bank: bool) -> None:
    from tinwright.examining.recording import sittings_to_record  # noqa: PLC0415 - as in `_graded`

    before = register.sittings()
    try:
        recorded = register.record_sittings(
            sittings_to_record(graded, before, retyped=retyped, public_bank=public_bank)
        )
    except RecordError as error:
        hint = "; with --retyped these sheets do" if "supersedes" in str(error) and not retyped else ""
        raise RecordError(f"nothing is recorded: {error}{hint}") from error
    known = {row.id for row in before}
    fresh = [row for row in recorded if row.id not in known]
    anew = sum(row.supersedes is not None for row in fresh)
    click.echo(
        f"{counted(len(fresh), 'sitting')} recorded, {anew} of them in place of an earlier one; "
        f"{len(recorded) - len(fresh)} in the register already"
    )


def _check_report(folder: Path | None) -> None:
    from tinwright.store import check_place  # noqa: PLC0415 - as in `_graded`

    if folder is not None:
        check_place(folder / "slips.html")


def _write_report(
    folder: Path | None, graded: Sequence[GradedSheet], form: ExamForm, key: ExamKey, names: Names
) -> None:
    if folder is None:
        return
    from tinwright.examining.results import results_csv, slips_html  # noqa: PLC0415 - as in `_graded`
    from tinwright.store import write_private  # noqa: PLC0415 - as in `_graded`

    _check_report(folder)
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    except OSError as error:
        raise ExamError(f"{folder}: cannot be made: {error.strerror}") from error
    days = "-".join(
        dict.fromkeys(str(row.sheet.taken_on) for row in sorted(graded, key=lambda row: row.sheet.taken_on))
    )
    texts = {"-slips.html": slips_html(graded, form, key, names), "-results.csv": results_csv(graded)}
    stem = _fresh(folder, f"{form.exam}-{form.code}-{days}", texts)
    for end, text in texts.items():
        write_private(folder / f"{stem}{end}", text)
    click.echo(f"{stem}-slips.html and {stem}-results.csv are in {folder}; they hold personal data", err=True)


def _fresh(folder: Path, stem: str, texts: Mapping[str, str]) -> str:
    """Return the start of names under which nothing else stands, so that no earlier results are lost."""
    for number in count(1):
        name = stem if number == 1 else f"{stem}-{number}"
        files = {folder / f"{name}{end}": text for end, text in texts.items()}
        if not any(file.exists() and file.read_bytes() != text.encode() for file, text in files.items()):
            return name
    raise AssertionError


@click.command()
@click.argument("key_file", metavar="KEY", type=_FILE)
@click.option("--item", required=True, help="The item: its id, or its number on the form.")
@click.option("--right", help="The right answer, typed as on an answer sheet: B, A C, or 0.046.")
@click.option("--low", help="For a number, the lowest that counts as right.")
@click.option("--high", help="For a number, the highest that counts as right.")
@click.option("--drop", is_flag=True, help="Count the item as right for everybody.")
@click.option("--reason", required=True, help="Why; it stays in the key.")
@click.option("--output", type=_FILE, help="Where to write it; beside the key, with its revision, when left out.")
@_FORM
@ON
def rekey(
    key_file: Path,
    item: str,
    right: str | None,
    low: str | None,
    high: str | None,
    drop: bool,
    reason: str,
    output: Path | None,
    form_file: Path | None,
    on: dt.datetime | None,
) -> None:
    """Correct a KEY: another right answer, or an item that counts as right for everybody.

    The corrected key is a new file; the old one stays as it is. Grade the same answers with the new key afterward.

    Example: tinwright exam rekey volunteer-A.key.json --item 7 --right B --reason "two answers were swapped"
    """
    if drop == (right is not None):
        raise click.UsageError("expected --right or --drop")
    if drop and (low is not None or high is not None):
        raise click.UsageError("expected --low and --high only with --right")
    with _told():
        from tinwright.examining.correcting import drop_item, find_item, right_answer  # noqa: PLC0415 - see `_graded`
        from tinwright.store import write_private  # noqa: PLC0415 - as in `_graded`

        form, key = _form_and_key(key_file, form_file)
        item_id = find_item(key, item)
        if right is None:
            corrected = drop_item(key, item_id, reason=reason, on=day_of(on))
        else:
            corrected = right_answer(
                form,
                key,
                item_id,
                right,
                reason=reason,
                on=day_of(on),
                low=_number(low, "--low"),
                high=_number(high, "--high"),
            )
        target = output or key_file.with_name(f"{_stem(key_file)}.key-{corrected.revision}.json")
        if target.exists():
            raise ExamError(f"{target}: it is there already; name another file with --output")
        write_private(target, corrected.written())
    click.echo(f"revision {corrected.revision} of the key is in {target}; grade the answers again with it")


@click.command()
@click.option("--exam", required=True, help="Id of the examination.")
@click.option(
    "--forms",
    type=click.Path(path_type=Path, file_okay=False),
    metavar="FOLDER",
    help="Folder with forms and keys: for the options, the cut and the questions' text.",
)
@click.option("--report", type=_FILE, metavar="FILE", help="Write a page with plots.")
@click.option("--csv", "table", type=_FILE, metavar="FILE", help="Write the numbers of each item as CSV.")
@CONTENT
@_QUIZZES
@REGISTER
def analyze(
    exam: str,
    forms: Path | None,
    report: Path | None,
    table: Path | None,
    content: Path,
    quizzes: Path,
    place: str | None,
) -> None:
    """Say which questions to look at, and how far the decisions can be trusted, over all sittings.

    The first sitting of each person counts. Of a form or an item that fewer than 30 people sat no statistic is given;
    shares right of items are drawn toward the judges' ratings, and it says so.

    Example: tinwright exam analyze --exam volunteer --forms exams --report analysis.html
    """
    with _told():
        from tinwright.examining.analysis import analyse_sittings  # noqa: PLC0415 - as in `_graded`
        from tinwright.examining.analysis_report import analysis_csv, analysis_html, analysis_lines  # noqa: PLC0415
        from tinwright.examining.sat_forms import read_forms  # noqa: PLC0415 - as in `_graded`
        from tinwright.store import check_place, write_private  # noqa: PLC0415 - as in `_graded`

        for file in (report, table):
            if file is not None:
                check_place(file)
        known = read_forms(forms, exam) if forms is not None else {}
        with opened(place) as register:
            found = analyse_sittings(exam, register.sittings(), register.item_responses(exam=exam), known)
        for line in analysis_lines(found):
            click.echo(line)
        if report is not None:
            write_private(report, analysis_html(found, _names(content, quizzes)))
            click.echo(f"{report} holds questions of the examination: keep it private", err=True)
        if table is not None:
            write_private(table, analysis_csv(found))


@contextlib.contextmanager
def _told() -> Iterator[None]:
    """Tell any refusal inside in one line, with exit code 1."""
    try:
        yield
    except ModuleNotFoundError as error:
        fail(ExamError(f"examinations need the library {error.name}: install tinwright[office]"))
    except (ExamError, QuizError, RecordError) as error:
        fail(error)


def _form_and_key(key_file: Path, form_file: Path | None) -> tuple[ExamForm, ExamKey]:
    from tinwright.examining.form import read_form, read_key  # noqa: PLC0415 - as in `_graded`

    form = read_form(form_file or key_file.with_name(f"{_stem(key_file)}.form.json"))
    return form, read_key(key_file, form)


def _stem(key_file: Path) -> str:
    named = _KEY_NAME.fullmatch(key_file.name)
    if named is None:
        raise ExamError(f"{key_file}: expected a file named like volunteer-A.key.json")
    return named["form"]


def _number(text: str | None, option: str) -> Decimal | None:
    if text is None:
        return None
    if not re.fullmatch(r"-?\d{0,12}\.?\d{1,12}", text.strip()):
        raise click.BadParameter(f"expected a number such as 0.046, got {text[:40]!r}", param_hint=option)
    return Decimal(text.strip())


def _names(content: Path, quizzes: Path) -> Names:
    """Return the titles of records and topics, as far as the folders with them are there."""
    from tinwright.examining.results import Names  # noqa: PLC0415 - as in `_graded`
    from tinwright.knowledge.bank import load_bank  # noqa: PLC0415 - as in `_graded`

    if not content.is_dir():
        return Names()
    kb = loaded(content)
    topics = {}
    if quizzes.is_dir():
        try:
            topics = {id_: topic.title for id_, topic in load_bank(quizzes, kb).topics.items()}
        except ContentError as error:
            fail(error)
    titles = {f"{kind}/{id_}": getattr(record, "title", "") for (kind, id_), record in kb.records.items()}
    return Names(kb.programme.office, topics, titles)
