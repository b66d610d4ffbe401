"""The cases whose screen and data are looked at, by name: a pass, a fail, what is open, joints."""

from sample_case import EVERY_KEY, SAMPLE, SMALLEST, changed, set_to

BETWEEN = """
[[hold_down]]
at = "16 in"
count = 1
rated_uplift = "420 lb"
rated_for = "wind"
rated_wood = "Spruce-Pine-Fir"
rated_across_grain = true
rated_source = "a listing of these tests"
into = "framing"
"""
LRFD_722 = changed(('"ASD"', '"LRFD"'), ('"ASCE 7-16"', '"ASCE 7-22"'))
FAILING = set_to(SAMPLE, gap__width='"14 in"', snow__roof='"60 psf"')
CASES = {
    "pass": SAMPLE,
    "lrfd 7-22": LRFD_722,
    "fails": FAILING,
    "open": SMALLEST,
    "three clips": SAMPLE + BETWEEN,
    "no edge tie": SAMPLE.rpartition("[[hold_down]]")[0],
    "every key": EVERY_KEY,
    "joint": SAMPLE
    + 'joint_width = "1/2 in"\njoint_class = 50\nmoisture_change = "6 %"\nclip_slip = "1/8 in"\n'
    + 'below_clearance = "1 in"\n',
    "long name": set_to(SAMPLE, project__name='"A link of a house and a garage, over a band of '
                        'insulation, behind the old orchard, at the far end of the long lane"'),
}  # fmt: skip
