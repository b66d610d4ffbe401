"""What the second page says, worked out once: what stands on it, and how many checks it has room
for beside that."""

from collections.abc import Sequence

from msgspec import Struct

from outrigger.report import cautions, handed
from outrigger.report.rows import keys, worst_first
from outrigger.report.summary.hand_over import plan_lines, questions
from outrigger.report.write.document import Runs
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design
from outrigger.verdict.envelopes import Most

BY_LOAD = "by-load"
LEAST_ROWS, MOST_ROWS = 4, 15  # of the ratio table on the second page
MOST_LINES = 44  # of all tables there
MOST_QUESTIONS, LEAST_QUESTIONS, FEW_OPEN = 5, 2, 3
LETTERS_OF_UNDER = 135  # in a line under the ratio table
LETTERS_OF_WAY, LETTERS_OF_COMBINATION = 26, 32  # in a line of what the house carries


class Gathered(Struct, frozen=True, eq=False):
    """`rows`: every check, the worst first; `shown`: those of the second page; `most`: what the
    house carries at most; `turned`, `diaphragm`: what it takes besides; `lines`: for the plans;
    `room`: for how many of the questions there is room."""

    design: Design
    rows: Sequence[CheckResult]
    shown: Sequence[CheckResult]
    most: Sequence[tuple[str, list[Most]]]
    turned: Sequence[str]
    diaphragm: Sequence[str]
    lines: Sequence[str]
    questions: Sequence[Runs]
    room: int


def gathered(design: Design) -> Gathered:
    """All that the second page is made of."""
    rows = worst_first(design.rows)
    most, turned = handed.most(design), handed.turned(design)
    diaphragm, lines, asked = handed.diaphragm(design), plan_lines(design), questions(design)
    kept = sum(row.status != "pass" for row in rows)
    room = MOST_QUESTIONS if kept <= FEW_OPEN else LEAST_QUESTIONS
    others = len(turned) + 2 * len(diaphragm) + (len(lines) + min(len(asked), room)) // 2
    others += len(cautions.not_checked(design)) // 3
    for phrase, levels in most:
        said = [len(phrase) / LETTERS_OF_WAY]
        said += [len(one.name) / LETTERS_OF_COMBINATION for one in levels]
        others += 1 + int(max(said))
    shown = rows[: _count(design, rows, max(LEAST_ROWS, kept), MOST_LINES - others)]
    return Gathered(design, rows, shown, most, turned, diaphragm, lines, asked, room)


def _count(design: Design, rows: Sequence[CheckResult], least: int, lines: int) -> int:
    """How many rows there is room for; what fails or is open always stands there."""
    count = min(MOST_ROWS, len(rows))
    while count > least and count + _letters(design, rows[:count]) > lines:
        count -= 1
    return max(count, min(least, len(rows)))


def _letters(design: Design, rows: Sequence[CheckResult]) -> int:
    """Lines that the combinations of these rows take under the table."""
    return sum(1 + len(said) // LETTERS_OF_UNDER for said in under(design, rows))


def under(design: Design, rows: Sequence[CheckResult]) -> list[str]:
    """The combinations of these rows as the standard writes them, and how clips were lowered."""
    listed = "; ".join(f"{key} {text}" for text, key in keys(rows).items())
    clips = " ".join(handed.lowered(design, rows))
    return [text for text in (f"Under: {listed}." if listed else "", clips) if text]


def by_load(design: Design) -> str:
    """Where the loads by source stand: of a layout, over its marks, apart."""
    return "unfactored" if design.mark is None else BY_LOAD


def questions_of(on: Gathered) -> tuple[Sequence[Runs], int]:
    """The questions that there is room for, and how many more there are."""
    if len(on.questions) <= on.room:
        return on.questions, 0
    return on.questions[: on.room - 1], len(on.questions) - on.room + 1
