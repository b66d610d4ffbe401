"""What the page says of a case: its words gathered for the template, nothing computed."""

import re
from collections.abc import Container, Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from outrigger.cases import described
from outrigger.cases.faults import Fault
from outrigger.page.form import Link, Links
from outrigger.report import cautions, verdict_words, words
from outrigger.report.screen import first
from outrigger.verdict import notes
from outrigger.verdict.asked import by_person
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.clip_forces import most_pulls
from outrigger.verdict.design import Design
from outrigger.verdict.taken import stated_none
from outrigger.verdict.unknown import in_words

if TYPE_CHECKING:
    from outrigger.layout.layout import LaidOut
    from outrigger.studies.changes import Way

TEMPLATES = Path(__file__).parent
LONGEST_BAR = 1.3  # of a limit; what is more ends there
BAR_WIDE, BAR_TALL = 130, 12  # of the bar's own picture; a limit is 100


@cache
def template(name: str) -> Any:
    """A template of this folder; every text in it is escaped."""
    import jinja2

    environment = jinja2.Environment(
        autoescape=True, undefined=jinja2.StrictUndefined, trim_blocks=True, lstrip_blocks=True
    )
    environment.policies["json.dumps_kwargs"] = {"sort_keys": False}
    return environment.from_string((TEMPLATES / name).read_text(encoding="utf-8"))


def rendered(name: str, /, **values: Any) -> str:
    """A template filled in."""
    return str(template(name).render(**values))


def answer(
    result: Design,
    token: str,
    line: str,
    links: Links,
    places: Sequence[str],
    told: Sequence[str],
) -> str:
    """The answer to a case: section, rows, what is missing; line: its verdict; `links`: to the
    fields, by key; `places`: of the clips; `told`: what moved with an answer."""
    case = result.case
    return rendered(
        "answer.html.j2",
        token=token,
        told=told,
        sample=words.SAMPLE if case.project.invented else "",
        name=words.printable(case.project.name),
        title=words.title(result),
        revision=words.revision(case),
        roofless=[f"The wall {text}." for text in notes.roofless(case)],
        picture=section_said(result, line),
        rows=rows(result),
        elsewhere=verdict_words.at_other_marks(result),
        missing=missing(result, links, places),
        not_covered=result.not_covered,
        house=first.house(result),
        said_none=stated_none(case),
        cautions=[words.capital(one.short) for one in cautions.of_case(result)],
        few=cautions.few(cautions.not_checked(result)),
        not_checked=[words.capital(one.short) for one in cautions.not_checked(result)],
        adopted=words.adopted_line(result.verdict, case.project.invented),
        layout=case.layout is not None,
        bar_wide=BAR_WIDE,
        bar_tall=BAR_TALL,
    )


def verdict(result: Design) -> str:
    """The verdict in a line."""
    return verdict_words.verdict_line(result, result.case.project.invented)


def section_said(result: Design, line: str) -> str:
    """The section in words, for those who do not see it; line: its verdict."""
    return (
        f"Section to scale: {words.title(result)}. {line} Its lengths and ratios stand "
        "in the rows beside it."
    )


def rows(result: Design) -> list[dict[str, Any]]:
    """A row a place and kind, the worst of its layers, with its bar."""
    pulls = most_pulls(result)
    return [
        {
            "place": words.place(row.check.place),
            "what": row.check.kind.name,
            "ratio": "" if row.ratio is None else words.ratio(row.ratio),
            "bar": _bar(row),
            "status": row.status,
            "word": first.word(row),
            "figures": first.figures(result, row, pulls),
        }
        for row in first.worst_of_each(result.rows)
    ]


def _bar(row: CheckResult) -> float | None:
    """How long the bar of a row is; none where it is open, as on the first screen."""
    if row.ratio is None or row.status == "open":
        return None
    return round(100 * min(row.ratio, LONGEST_BAR), 1)


def missing(result: Design, links: Links, places: Sequence[str]) -> list[dict[str, Any]]:
    """What is not given, by who has it, each fact with its question and its field."""
    return [
        {
            "who": words.capital(who),
            "facts": [
                {
                    "name": words.capital(in_words(one)),
                    "question": words.capital(one.question),
                    "link": _link(keyed(one.key, places), links),
                }
                for one in facts
            ],
        }
        for who, facts in by_person(result).items()
    ]


def keyed(key: str, places: Sequence[str]) -> str:
    """A key as fields have it: hold_down[back].count for hold_down[0].count; `places`: of the
    clips, in the order of the file."""

    def named(found: re.Match[str]) -> str:
        i = int(found[1])
        return f"hold_down[{places[i]}]" if i < len(places) else found[0]

    return re.sub(r"hold_down\[(\d+)\]", named, key)


def _link(key: str, links: Links) -> Link | None:
    """The field of a key, or of what stands first in its table; None: there is none."""
    if key == "hold_down":
        key = "hold_down[back].count"
    inside = (name for name in links if name.startswith(f"{key}."))
    return links.get(key) or links.get(next(inside, ""))


def faults(
    found: Sequence[Fault],
    refused: Mapping[str, str],
    given: Container[str],
    links: Links,
    places: Sequence[str],
    untouched: bool,
) -> str:
    """What stands in place of an answer where a file is no case yet, or something typed cannot be
    read; `given`: the keys it states, as faults name them."""
    listed = [{"link": links.get(key), "text": why} for key, why in refused.items()]
    for one in found:
        key = keyed(one.key, places)
        link = _link(key, links)
        text = f"{one.key} {one.text}".strip()
        text = fault_words(one, given) if link else words.printable(f"{_where(one)}{text}")
        if key not in refused:
            listed.append({"link": link, "text": text})
    return rendered("faults.html.j2", untouched=untouched, faults=listed)


def fault_words(fault: Fault, given: Container[str]) -> str:
    """A fault as it stands beside its own field: the question of one that is not given."""
    question = "" if fault.key in given else described.of(fault.key).question
    text = words.capital(question or fault.text.removeprefix("= "))
    return words.printable(f"{_where(fault)}{text}")


def _where(fault: Fault) -> str:
    """The line of a fault that stands in the base: none of the fields of this file has it."""
    return f"{fault.file} line {fault.line}: " if fault.file else ""


def more(result: Design, ways: "Sequence[Way]", laid: "LaidOut | None", token: str) -> str:
    """What takes longer than the answer: what cures it, the marks."""
    from outrigger.report.screen import layout as marks

    cures = [{"words": words.capital(one.words), "then": first.then(one), "settings": one.settings,
              "line": one.setting} for one in ways]  # fmt: skip
    page = None if laid is None else marks.page_data(laid, result.case.project.invented)
    return rendered(
        "more.html.j2",
        title=first.cures_title(result, ways),
        cures=cures,
        marks=page,
        token=token,
    )
