"""The words of the marks page: phrases of one table, English, and Spanish beside them if asked.

Whatever the page says is a phrase of the table, a number, or the user's own text.
"""

import tomllib
from collections.abc import Sequence
from functools import cache
from pathlib import Path
from typing import Any

from outrigger.actions.places import BACK, EDGE, WALL_LINE
from outrigger.base.errors import InputError
from outrigger.base.quantity import feet_and_inches, tape
from outrigger.cases.batch import on_a_pair, on_one_face
from outrigger.cases.hold_down import BLOCKING, HoldDown, astride, down_through, through
from outrigger.layout import crew
from outrigger.layout.layout import HOUSE_FRAMING, LaidOut, MarkLine
from outrigger.report import words

LANGUAGES = ("en", "es")
Said = dict[str, str]  # en, and es beside it, empty where it is not asked for


@cache
def phrases() -> dict[str, dict[str, str]]:
    """The table of phrases."""
    path = Path(__file__).with_name("phrases.toml")
    return tomllib.loads(path.read_text("utf-8"))


def language(name: str) -> str:
    """A language of the page.

    Raises:
        InputError: none of those in the table.
    """
    if name not in LANGUAGES:
        raise InputError(
            f"--lang {name}: allowed are {', '.join(LANGUAGES)}; es puts Spanish beside the "
            "English words."
        )
    return name


class Speaker:
    """Says a phrase in English, and in another language beside it."""

    def __init__(self, language: str = "en") -> None:
        self.language = language

    def __call__(self, key: str, **given: Any) -> Said:
        """A phrase by its key, with what stands in it."""
        found = phrases()[key]
        other = found[self.language] if self.language != "en" else ""
        return {"en": found["en"].format(**given), "es": other.format(**given)}

    def listed(self, key: str, name: str, several: Sequence[Said]) -> Said:
        """A phrase with others in it, in a row."""
        found = phrases()[key]
        en = found["en"].format(**{name: ", ".join(one["en"] for one in several)})
        if self.language == "en":
            return {"en": en, "es": ""}
        inside = ", ".join(one["es"] for one in several)
        return {"en": en, "es": found[self.language].format(**{name: inside})}


def page(laid: LaidOut, say: Speaker, sample: bool) -> dict[str, Any]:
    """What the marks page says, and how it stands."""
    studs = crew.stud_marks(laid)
    own = _studs_apart(laid, studs)
    pairs = {n: pair for pair in crew.pairs(laid) for n in pair}
    piece = laid.cuts[0]
    layout = laid.case.layout
    assert layout is not None
    heads = ["number", "mark", "feet", "piece", *(["stud"] if own else []), "used", "needs"]
    return {
        "nobody": say("nobody"),
        "sample": say("sample") if sample else {"en": "", "es": ""},
        "verdict": say(laid.design.verdict),
        "engineer": say("engineer"),
        "unread": say("unread") if say.language != "en" else {"en": "", "es": ""},
        "page": say("page"),
        "name": words.printable(laid.case.project.name),
        "revision": words.revision(laid.case),
        "member": _member(laid),
        "count": say(
            "count" if laid.design.verdict == "pass" else "count_uncut",
            pieces=len(laid.lines),
            run=feet_and_inches(float(layout.run)),
            cut=piece.count,
            length=f"{tape(piece.length)}, {feet_and_inches(piece.length)}",
        ),
        "datum_head": say("datum"),
        "rules": [say("from_datum"), say("beyond")],
        "heads": [say(key) for key in heads],
        "studs": own,
        "marks": [
            _mark(laid, line, say, pairs.get(line.number, ()), studs if own else None)
            for line in laid.lines
        ],
        "needs_head": say("what_it_needs"),
        "needs": [*_needs(laid, say), *_openings(laid, say), _studs(laid, say, own)],
        "pattern_head": say("pattern"),
        "pattern_says": [*_blocks(laid, say), *_ties(laid, say), _cut_into(laid, say)],
        **{f"{key}_head": say(key) for key in ("plan", "cuts", "material", "notes")},
        "material_last": say("material_last"),
        "words_of_plan": say("words_of_plan") if say.language != "en" else {"en": "", "es": ""},
        "fails": laid.fails,
    }


def _member(laid: LaidOut) -> str:
    """The lumber, as its stamp names it."""
    wood, piece = laid.design.wood, laid.case.outrigger
    plies = f"{piece.plies} x " if piece.plies > 1 else ""
    return f"{plies}{wood.size.name} {wood.row.species} {wood.row.grade}"


def _mark(
    laid: LaidOut, line: MarkLine, say: Speaker, pair: Sequence[int], studs: Sequence[float] | None
) -> dict[str, Any]:
    """A row of the table of marks."""
    near = float(line.piece.near)
    needs = []
    if line.status == "fail":
        needs.append(say("fails"))
    if others := [n for n in pair if n != line.number]:
        needs.append(say("pair_with", other=", ".join(map(str, others))))
    if line.misses:
        needs.append(say("off", off=tape(max(abs(x) for x in line.misses.values()))))
    return {
        "number": str(line.number),
        "tape": tape(near),
        "feet": feet_and_inches(near),
        "stud": "" if studs is None else tape(studs[line.number - 1]),
        "used": "" if line.governing.ratio is None else words.ratio(line.governing.ratio),
        "needs": needs,
        "box": not laid.fails,
    }


def _needs(laid: LaidOut, say: Speaker) -> list[Said]:
    """What every piece needs, which marks are pairs, which need wood under a clip first."""
    clips = [_clips_at(hold, hold.count, say) for hold in laid.case.hold_down]
    pairs = crew.pairs(laid)
    every = "every_single" if pairs else "every_mark"
    found = [say.listed(every, "clips", clips) if clips else say("no_clips")]
    named = ", ".join("+".join(map(str, pair)) for pair in pairs)
    found += _of_pairs(laid, say, named) if pairs else [say("no_pairs")]
    if any(hold.into == BLOCKING for hold in laid.case.hold_down):
        found.append(say("on_blocks"))
    if crew.framing_unknown(laid):
        found.append(say("framing_unknown"))
    elif missed := crew.missing(laid):
        found.append(say("misses", marks=", ".join(map(str, missed))))
    elif laid.clips:
        found.append(say("land"))
    return found


def _of_pairs(laid: LaidOut, say: Speaker, named: str) -> list[Said]:
    """The pairs, with the clips that fit their pieces; straps that do not are for the engineer."""
    holds = laid.case.hold_down
    found = [say("pairs", pairs=named)]
    clips = [_clips_at(hold, on_a_pair(hold), say) for hold in holds if not through(hold)]
    found += [say.listed("on_outer_face", "clips", clips)] if clips else []
    return found + ([say("pairs_strap")] if any(map(astride, holds)) else [])


AT = {  # by what stands there: at the back, at the house wall, between
    "clip": ("clips_back", "clips_edge", "clips_inside"),
    "strap": ("straps_back", "straps_edge", "straps_inside"),
    "through": ("through_back", "through_edge", "through_inside"),
}


def _clips_at(hold: HoldDown, count: int, say: Speaker) -> Said:
    """How many clips or straps stand at a place, or how many screws go down through the piece."""
    kind = "through" if through(hold) else "strap" if astride(hold) else "clip"
    if through(hold):
        count = down_through(hold)
    back, edge, inside = AT[kind]
    if hold.name in (BACK, EDGE):
        return say(back if hold.name == BACK else edge, count=count)
    return say(inside, count=count, inside=hold.name.removesuffix(" in"))


def _openings(laid: LaidOut, say: Speaker) -> list[Said]:
    openings = laid.case.layout.openings if laid.case.layout else []
    said = [say("opening", start=feet_and_inches(one.start), end=feet_and_inches(one.end))
            for one in openings]  # fmt: skip
    return said + ([say("header")] if any(one.header for one in openings) else [])


def _studs_apart(laid: LaidOut, studs: Sequence[float] | None) -> bool:
    """Whether the studs of the garage have marks of their own, other than the outriggers'."""
    if studs is None:
        return False
    pairs = zip(studs, laid.lines, strict=True)
    return any(tape(at) != tape(float(line.piece.near)) for at, line in pairs)


def _studs(laid: LaidOut, say: Speaker, own: bool) -> Said:
    """Where the studs of the garage wall stand."""
    stated = laid.case.garage_wall.studs_over_outriggers
    if stated is None:
        return say("studs_unknown")
    if not stated:
        return say("studs_free")
    if crew.sloped(laid):
        return say("studs_sloped")
    return say("studs_other" if own else "studs_same")


def _ties(laid: LaidOut, say: Speaker) -> list[Said]:
    """What ties the garage plate to every outrigger, or that it is not given."""
    tie, pairs = laid.case.wall_tie, crew.pairs(laid)
    if tie is None:
        asked = any(one.key == "wall_tie" for one in laid.design.not_given)
        return [say("no_ties")] if asked else []
    fit = tie.count if tie.fastener else on_one_face(tie.count)
    if not pairs or fit == tie.count:
        return [say("ties", count=tie.count)]
    return [say("ties_pairs", count=tie.count, fit=fit)]


def _blocks(laid: LaidOut, say: Speaker) -> list[Said]:
    along = crew.blocks_along(laid)
    if along is None:
        return [say("blocks_unknown")]
    if not along:
        return [say("no_blocks")]
    return [say("blocks", places=", ".join(map(tape, along)))]


def _cut_into(laid: LaidOut, say: Speaker) -> Said:
    piece = laid.case.outrigger
    return say("notches" if piece.top_notch or piece.bottom_notch else "no_holes")


def places(laid: LaidOut, say: Speaker) -> list[tuple[Said, float]]:
    """What stands along one piece, in from its outer end, in order."""
    keys = {WALL_LINE: "wall_line", HOUSE_FRAMING: "face", EDGE: "edge", BACK: "back"}
    found = [(say(keys.get(name, "inside")), x) for name, x in laid.along]
    return [*sorted(found, key=lambda one: one[1]), (say("whole"), laid.cuts[0].length)]
