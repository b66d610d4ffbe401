"""The ask sheet: what is missing, a block a person, with blanks and the key of each."""

from outrigger.report import cautions, words
from outrigger.report.words import wrap
from outrigger.report.write.document import (
    Blank,
    Block,
    Bold,
    Chapter,
    Document,
    Paragraph,
    Runs,
    Table,
)
from outrigger.verdict.asked import Ask, asks
from outrigger.verdict.design import Design

NOTHING = "Nothing is missing."
HOW = (
    "Zero is an answer: none. What nobody knows stays empty; the case stays open there. The "
    "setting beside a question answers it; put the true value in."
)


def lines(design: Design, width: int) -> str:
    """The sheet on screen."""
    people, warned = asks(design), cautions.two_lines(design)
    if not people:
        return "\n".join([NOTHING, *(wrap(text, width) for text in warned)])
    said = [wrap(f"To ask for {words.printable(design.case.project.name)}:", width), ""]
    for who, listed in people.items():
        said.append(f"{words.capital(who)}:")
        for one in listed:
            said.append(wrap(f"{words.capital(one.question)} ______", width, "  "))
            said += [wrap(one.setting, width, "      ")] if one.setting else []
            said += [wrap(f"with it: {one.needs}", width, "      ")] if one.needs else []
        said.append("")
    return "\n".join([*said, wrap(HOW, width), *(wrap(text, width) for text in warned)])


def document(design: Design, sample: bool) -> Document:
    """The sheet as a document of one page or few."""
    project = design.case.project
    job = words.printable(project.name)
    foot = f"{job}, rev {words.rev(design.case)}, {words.digest(design.case.digest)}"
    people = asks(design)
    top: Runs = HOW if people else NOTHING
    return Document(
        title="What is missing, and who has it",
        job=job,
        foot=foot,
        cover_foot=foot,
        sample=words.SAMPLE if sample else "",
        sections=[
            Chapter("", [Paragraph(top)], 2, "how"),
            *(
                Chapter(words.capital(who), [_table(listed)], 2, f"ask-{i}")
                for i, (who, listed) in enumerate(people.items())
            ),
            Chapter("", [Paragraph(one, "small") for one in cautions.two_lines(design)], 2, "end"),
        ],
    )


def _table(listed: list[Ask]) -> Block:
    rows: list[tuple[Runs, ...]] = []
    for one in listed:
        needs = f" With it: {one.needs}." if one.needs else ""
        rows.append(
            (f"{words.capital(one.question)}{needs}", (Blank(0, ""),), (Bold(one.setting),))
        )
    head = ("question", "answer", "setting")
    return Table(head, rows, "lll", (2.6, 1.5, 3.1), "Questions")
