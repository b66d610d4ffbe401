"""The least and the most of what a case takes, inches where the name says so: beyond them a number
is a slip of the keys."""

LEAST_SPAN_IN = 48.0
STEEPEST = 36.0  # rise over 12
LEAST_RISE_IN = 12.0  # of a wall, or a step between roofs
LEAST_BACK_SPAN_IN = 6.0
LEAST_APART_IN = 1.0  # between two places that hold the member
LEAST_MEAN_HEIGHT_IN = 72.0
MOST_ELEVATION_IN = 180_000.0  # 15,000 ft: higher than any town
LIMITS = (60.0, 2000.0)  # of a droop: what the length is divided by
MEMBER_SPACINGS_IN = (6.0, 120.0)
SHEATHING_IN = (1 / 32, 3.0)  # thickness; of metal at the least
NAIL_SPACINGS_IN = (0.5, 24.0)  # of a panel's own nails
PLATES_IN = (1.5, 12.0)  # widths of a wall's plate: of a 2x4 on edge to a 2x12 flat
BEARINGS_IN = (0.5, 24.0)  # lengths along an outrigger
LEAST_BEHIND_IN, BEHIND_IN = 0.5, 3.0  # wood behind the back clip
# the least that is real, from the trade: the lightest metal roofs, walls, snow of the mild states
LEAST_TRUSS_DEAD_PSF, LEAST_DECK_DEAD_PSF, LEAST_WALL_DEAD_PSF = 5.0, 2.0, 3.0
LEAST_LIVE_PSF, LEAST_SNOW_PSF, LEAST_WIND_PSF = 10.0, 3.0, 5.0
LEAST_SPEED_MPH = 70.0
MOST_CLIP_LB = 3000.0  # of one clip or strap on a piece of 2x lumber
LARGEST_GAP_IN, LARGEST_SPACING_IN = 24.0, 48.0
LEAST_SPACING_IN = 4.0  # nearer, no clip finds room between two
SPACINGS_IN = (12.0, 16.0, 19.2, 24.0)  # marked on a tape
