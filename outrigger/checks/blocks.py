"""What holds the blocks between the outriggers, and so the outriggers against tipping over.

Fasteners of the blocks in the deck, else toe-nails at their ends; or by the file's word the pair of
listed clips at the place, without them. Nothing of that given: open.
"""

from msgspec.structs import replace

from outrigger.checks.block_ends import TOE_NAILED, end_rows
from outrigger.checks.blocks_on_deck import deck_rows
from outrigger.checks.loaded_member import LoadedMember
from outrigger.checks.sideways import nothing_acts
from outrigger.checks.tipping import ROLL_OVER, blocked_both, not_blocked, tips, to_blocks
from outrigger.checks.tipping_clips import WAYS, by_pair
from outrigger.formula.check import Check
from outrigger.formula.kind import Link

SAY = f"what holds the blocks? {WAYS}"
END_GRAIN = (
    "nails into the ends of the blocks would be pulled out of end grain, which NDS 12.1.6.1 does "
    'not allow: toe-nails hold (blocking_fastening, driven = "toe-nailed"), or blocking_to_deck'
)
NO_PAIR = (
    'tipping = "clips" needs a pair of them here, one on each side, listed for uplift and sideways '
    "(rated_uplift, rated_lateral), into framing"
)


def rolls(member: LoadedMember) -> list[Check]:
    """Tipping over sideways: what holds the member, or its blocks, at edge and back."""
    found = tips(member, member.main)
    if not found:
        return [nothing_acts(Link(ROLL_OVER, "", ""), "lb-in")]
    if not blocked_both(member.batch):
        return not_blocked(member)
    piece, listed = member.case.outrigger, tips(member, member.clips)
    if piece.tipping == "clips":
        open_ = _open(member, NO_PAIR)
        return [by_pair(clips) or row for row, clips in zip(open_, listed, strict=True)]
    if piece.blocking_to_deck is not None:
        return [row for tip in found for row in deck_rows(tip, piece.blocking_to_deck)]
    ends = piece.blocking_fastening
    if ends is None or ends.driven != TOE_NAILED:
        return _open(member, SAY if ends is None else END_GRAIN)
    both = zip(found, listed, strict=True)
    return [row for tip, clips in both for row in end_rows(tip, clips, ends)]


def _open(member: LoadedMember, why: str) -> list[Check]:
    """The moments that the blocks take, with what is not known."""
    return [replace(row, why=why) for row in to_blocks(member)]
