"""What the plans must say of an example so that what is built is what was checked: each connector
whole, by the words of the file, and nothing that a check leans on left out."""

import tomllib
from pathlib import Path

import pytest

from outrigger.cases.read import read_case
from outrigger.cases.validate import validate
from outrigger.report.summary.hand_over import plan_lines
from outrigger.verdict.design import design

EXAMPLES = Path(__file__).parents[2] / "examples"
LISTED = (
    "each listed for not less than 420 lb uplift and 320 lb sideways (wind, Spruce-Pine-Fir, into "
    "framing through OSB 7/16 in), fastened into framing."
)
BENT = (
    "each of 12 ga steel, 3 of 10d x 1 1/2 in into its side, the top one 2 3/4 in above the deck, "
    "2 of wood screw #10 x 2 1/2 in into the house roof, 3/4 in from its face, fastened into "
    "framing."
)


def lines(name):
    return plan_lines(design(read_case(EXAMPLES / f"{name}.toml")[0]))


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("passes", f"Back clip: 2 to an outrigger, {LISTED}"),
        ("passes", f"House wall: 2 to an outrigger, {LISTED}"),
        ("bent_clips_into_rafters", f"Back clip: 2 to an outrigger, {BENT}"),
        (
            "lag_through_the_outrigger",
            "Back clip: 1 to an outrigger, 1 of lag 3/8 in x 9 in down through it, fastened into "
            "framing.",
        ),
        (
            "straps_over_the_top",
            "Back clip: 1 to an outrigger, each over its top with a foot on each side, each listed "
            "for not less than 560 lb uplift and 320 lb sideways (any duration, Spruce-Pine-Fir, "
            "into framing through OSB 7/16 in), fastened into framing.",
        ),
        (
            "passes",
            "Garage plate tied to each outrigger by 2, each listed for not less than 420 lb uplift "
            "and 200 lb sideways (wind, Spruce-Pine-Fir).",
        ),
        (
            "marks_on_the_plate",
            "Garage plate tied to each outrigger by 2 (1 on the outer face of each piece of a "
            "pair), each listed for not less than 420 lb uplift and 200 lb sideways (wind, "
            "Spruce-Pine-Fir).",
        ),
        ("passes", "A stud of the garage wall over every outrigger."),
    ],
)
def test_each_connector_is_said_whole(name, said):
    assert said in lines(name)


def test_a_listed_screw_goes_down_through_the_piece():
    """It is no clip beside it, whether it is named or not."""
    tables = tomllib.loads((EXAMPLES / "passes.toml").read_text(encoding="utf-8"))
    back = tables["hold_down"][0] | {"kind": "through", "count": 1}
    named = {"deck_fastener": "lag 1/4 in x 9 in", "deck_fasteners": 1}
    for more, said in (({}, "down through it"), (named, "1 of lag 1/4 in x 9 in down through it")):
        tables["hold_down"][0] = back | more
        found = plan_lines(design(validate(tables, "case")))
        assert f"Back clip: 1 to an outrigger, {said}, {LISTED}" in found


def test_screws_down_through_the_plate():
    tables = tomllib.loads((EXAMPLES / "passes.toml").read_text(encoding="utf-8"))
    tables["wall_tie"] = {"fastener": "wood screw #14 x 4 1/2 in", "count": 2}
    said = "Garage plate tied to each outrigger by 2 of wood screw #14 x 4 1/2 in, straight down"
    assert f"{said} through it." in plan_lines(design(validate(tables, "case")))


@pytest.mark.parametrize(
    ("name", "said"),
    [("notched_over_the_wall", "Bottom notch 3/4 in deep, no other; no holes but those of its "),
     ("passes", "No notches; no holes but those of its fasteners.")],
)  # fmt: skip
def test_notches_are_said_with_their_depth(name, said):
    assert said in lines(name)[1]


def test_what_is_not_given_is_not_said_as_given():
    """The first sketch gives no tie, and neither column nor wood of its clips."""
    found = lines("open_first_sketch")
    assert not any(line.startswith("Garage plate tied") for line in found)
    (back,) = [line for line in found if line.startswith("Back clip")]
    assert "(column not given, wood not given)" in back
