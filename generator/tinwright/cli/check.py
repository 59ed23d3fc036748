"""The command an educator runs after every change: check all records and the question bank."""

from __future__ import annotations

import json
import sys
from dataclasses import asdict, replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from tinwright.advice.item_checks import BankReview, review_bank
from tinwright.advice.practice_scenarios import scenario_problems
from tinwright.cli.common import CONTENT, counted, today_utc
from tinwright.cli.update import side_by_side
from tinwright.errors import ContentError
from tinwright.examining.claims_check import claims_problems
from tinwright.knowledge import load
from tinwright.knowledge.bank import EXAMINATION, load_bank
from tinwright.knowledge.evidence_table import evidence_table
from tinwright.knowledge.loading import open_questions
from tinwright.knowledge.review import overdue, to_calibrate, to_read
from tinwright.knowledge.scenarios import placed_scenarios

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Sequence

    from tinwright.advice.item_checks import GroupScore
    from tinwright.errors import Problem
    from tinwright.knowledge import KnowledgeBase
    from tinwright.knowledge.evidence_table import EvidenceTable
    from tinwright.knowledge.review import Due, Overdue

__all__ = ["check"]


@click.command()
@CONTENT
@click.option(
    "--quizzes",
    type=click.Path(path_type=Path, file_okay=False, exists=True),
    help="Folder of the question bank; `quizzes` beside the records when left out, and nothing when there is none.",
)
@click.option(
    "--examination",
    type=click.Path(path_type=Path, file_okay=False, exists=True),
    help="Folder of the examination items; `examination` in the question bank when left out.",
)
@click.option(
    "--bank", "show_bank", is_flag=True, help="Print what somebody scores who picks by the look of the options."
)
@click.option("--today", type=click.DateTime(["%Y-%m-%d"]), help="The day it is; today when left out.")
@click.option("--strict", is_flag=True, help="Exit with 1 for what is due and for gaps of the bank, too.")
@click.option("--json", "as_json", is_flag=True, help="Print problems, what is due and gaps as JSON.")
def check(
    content: Path,
    quizzes: Path | None,
    examination: Path | None,
    show_bank: bool,
    today: dt.datetime | None,
    strict: bool,
    as_json: bool,
) -> None:
    """Check every record, and list what is overdue for review.

    Seam specifications to be read against the paper and instruments to be calibrated are listed as well. A question
    bank beside the records is checked, too: each item, what no item asks about yet, and whether each examination keeps
    what its blueprint claims of it. A table tells how the
    statements are known: of each grade all of them, those on two or more independent sources (2+), and those on a
    section that was read whole. With --bank it says what test-wise guessing scores: the most careful option, the
    longest, the most precise, the odd one out, the middle number.

    Example: tinwright check --content content
    """
    late: list[Overdue] = []
    due: list[Due] = []
    gaps: tuple[Problem, ...] = ()
    strategies: tuple[GroupScore, ...] = ()
    records = 0
    table: EvidenceTable | None = None
    day = today.date() if today else today_utc()
    questions = open_questions(content)
    try:
        kb = load(content, today=day)
        records = len(kb.records)
        table = evidence_table(kb)
        late, due = overdue(kb, day), [*to_read(kb), *to_calibrate(kb, day)]
        if wrong := list(scenario_problems(kb, placed_scenarios(kb, today=day))):
            raise ContentError(wrong)
        review = _check_bank(kb, quizzes, examination, day)
        problems, gaps, strategies = review.problems, review.gaps, review.strategies if show_bank else ()
    except ContentError as error:
        problems = error.problems
    if as_json:
        found = {
            "problems": [asdict(problem) for problem in problems],
            "overdue": [asdict(row) for row in late],
            "due": [asdict(row) for row in due],
            "gaps": [asdict(gap) for gap in gaps],
            "changed_beneath": [str(question) for question in questions],
            "evidence": asdict(table) if table else None,
            **({"strategies": [asdict(score) for score in strategies]} if show_bank else {}),
        }
        click.echo(json.dumps(found, indent=2, default=str))
    else:
        asked = [f"{question}; `tinwright update` asks what to do\n{side_by_side(question)}" for question in questions]
        _print_check(
            problems, [*asked, *map(str, gaps), *map(str, due), *map(str, late)], records, len(late), len(gaps)
        )
        if table and not problems:
            click.echo(_in_columns(table))
        if strategies:
            click.echo(_strategies_in_columns(strategies))
    too_good = any(group.score.is_too_good for group in strategies)
    sys.exit(1 if problems or (strict and (late or due or gaps or questions or too_good)) else 0)


def _check_bank(kb: KnowledgeBase, quizzes: Path | None, examination: Path | None, today: dt.date) -> BankReview:
    """Review the question bank; nothing is found when there is none.

    Raises:
        ContentError: when the bank cannot be read.
    """
    root = quizzes or kb.root.resolve().parent / "quizzes"
    if not root.is_dir():
        return BankReview((), ())
    if examination is None and (root / EXAMINATION).is_dir():
        examination = root / EXAMINATION
    bank = load_bank(root, kb, examination=examination, today=today)
    review = review_bank(bank, kb, with_examination=examination is not None)
    unmet = claims_problems(bank, sittings=kb.programme.policy.exam_sittings) if examination is not None else ()
    return replace(review, problems=(*review.problems, *unmet))


def _strategies_in_columns(strategies: Sequence[GroupScore]) -> str:
    lines = [
        "",
        "What somebody scores who knows nothing and picks by the look of the options (questions with one answer)",
        f"{'':18}{'':>14}{'questions':>10}{'right':>8}{'guessing':>10}",
    ]
    for group in strategies:
        score = group.score
        said = "  too good: write wrong options that tempt in this way" if score.is_too_good else ""
        lines.append(f"{group.group:24}{score.strategy:>14}{score.items:4}{score.share:8.0%}{score.chance:10.0%}{said}")
    return "\n".join(lines)


def _in_columns(table: EvidenceTable) -> str:
    lines = [
        f"{'':28}{'all statements':>22}{'causes of defects':>26}",
        f"{'how it is known':28}{'all':>8}{'2+':>7}{'whole':>7}{'all':>12}{'2+':>7}{'whole':>7}",
    ]
    for every, links in zip(table.statements, table.causes_of_defects, strict=True):
        lines.append(
            f"{every.label:28}{every.statements:8}{every.two_or_more:7}{every.read_whole:7}"
            f"{links.statements:12}{links.two_or_more:7}{links.read_whole:7}"
        )
    return "\n".join(lines)


def _print_check(problems: Sequence[Problem], rows: list[str], records: int, late: int, gaps: int) -> None:
    for problem in problems:
        click.echo(str(problem), err=True)
    for row in rows:
        click.echo(row)
    if problems:
        click.echo(counted(len(problems), "problem"), err=True)
    else:
        lacking = f", {counted(gaps, 'gap')} in the question bank" if gaps else ""
        click.echo(f"{counted(records, 'record')} checked, no problems, {late} overdue for review{lacking}")
