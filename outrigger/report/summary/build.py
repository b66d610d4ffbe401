"""The calculation summary: one document of a design, in its order.

Two pages that stand alone, the arithmetic of the checks that govern, the rest as appendix.
"""

import json
from collections.abc import Mapping, Sequence
from typing import Any

from msgspec import Struct

from outrigger.cases.settings import Override
from outrigger.report import words
from outrigger.report.data import check as data
from outrigger.report.summary import apart, gathered, witness
from outrigger.report.summary import back as summary_back
from outrigger.report.summary import front as summary_front
from outrigger.report.summary import loads as summary_loads
from outrigger.report.summary import marks as summary_marks
from outrigger.report.summary import work as summary_work
from outrigger.report.write.document import Attachment, Chapter, Document
from outrigger.studies.for_summary import Findings

LONGEST_FOOT = 38  # characters of the job's name at the foot of a page
CASE_NAME, RESULT_NAME = "case.toml", "result.json"


class Called(Struct, frozen=True):
    """What stands beside a design: its file and how it was called.

    `text`: the case file, the settings of the command line written into it; `raw`: its tables;
    `overrides`: those settings.
    """

    text: str
    raw: Mapping[str, Any]
    sample: bool = False
    overrides: Sequence[Override] = ()


def build(found: Findings, given: Called) -> Document:
    """The document of a design."""
    result = found.design
    work, on = summary_work.Work(result), gathered.gathered(result)
    job = words.printable(result.case.project.name)
    revision = words.rev(result.case)
    name, which = words.shortened(job, LONGEST_FOOT), words.shortened(revision, 20)
    foot = f"{name}, rev {which}, case {words.digest(result.case.digest)}"
    results = data.as_data(result, given.sample)
    loads = summary_loads.loads(found, work)  # first, since its lines are numbered first
    governing, others = work.checks()
    sections: list[Chapter] = [
        *summary_front.front(found, on, given.overrides, given.sample, work.anchors),
        *summary_front.behind(found),
        *loads,
        *governing,
        *others,
        witness.curves(found),
        *summary_back.back(found, on, given.raw, given.overrides, work),
        *summary_marks.marks(found.laid, given.sample),
        *apart.pages(result, witness.dimensioned(found, given.sample)),
    ]
    return Document(
        title="Outrigger calculation summary",
        job=job,
        foot=f"{foot}, preliminary until adopted, see cover",
        cover_foot=foot,
        sample=words.SAMPLE if given.sample else "",
        sections=sections,
        attachments=(
            Attachment(CASE_NAME, given.text, "application/toml", "The case of this summary."),
            Attachment(
                RESULT_NAME,
                json.dumps(results, indent=1, allow_nan=False),
                "application/json",
                "Every result of this summary, in full precision.",
            ),
        ),
    )
