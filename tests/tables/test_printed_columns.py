"""Small tables of the NDS 2018, its Supplement and ASCE 7 a second time, column by column, each
value from memory, written before the table was looked at; `-` where memory was not sure."""

from decimal import Decimal

import pytest
from table_rows import read

SIZES = [  # NDS Supplement 1A and 1B; NDS Appendix L2, L3, L4; ASTM F1667 for the ring shanks
    ("dressed_sizes", "dry_in", "1.5 2 2.5 3 3.5 4 1.5 2.5 3.5 4.5 5.5 7.25 9.25 11.25 13.25 15.25 "
     "- - - - -"),
    ("dressed_sizes", "green_in", "1.5625 2.0625 2.5625 3.0625 3.5625 4.0625 1.5625 2.5625 3.5625 "
     "4.625 5.625 7.5 9.5 11.5 13.5 15.5 4.5 5.5 7.5 9.5 11.5"),
    ("lag_screws", "Dr_in", "0.173 0.227 0.265 0.328 0.371 0.471 0.579"),
    ("lag_screws", "tip_in", "0.15625 0.1875 0.21875 0.28125 0.3125 0.40625 0.5"),
    ("lag_screws", "head_in", "0.4375 0.5 0.5625 0.625 0.75 0.9375 1.125"),
    ("lag_screws", "Fyb_psi", "70000 60000 45000 45000 45000 45000 45000"),
    ("wood_screws", "D_in", "0.138 0.151 0.164 0.177 0.190 0.216 0.242 0.268 0.294"),
    ("wood_screws", "Dr_in", "0.113 0.122 0.131 0.142 0.152 0.171 0.196 0.209 0.232"),
    ("wood_screws", "head_in", "0.262 0.287 0.312 0.337 0.363 - - - -"),
    # common 6d to 20d; box 6d to 20d; sinker 8d to 20d; short; ring RSRS-01 to 05
    ("nails", "length_in", "2 2.5 3 3.25 3.5 4 2 2.5 3 3.25 3.5 4 2.375 2.875 3.125 3.25 3.75 - - "
     "2.375 - 2.5 3 3"),
    ("nails", "D_in", "0.113 0.131 0.148 0.148 0.162 0.192 0.099 0.113 0.128 0.128 0.135 0.148 "
     "0.113 0.120 0.135 0.148 0.177 - - 0.113 - 0.131 0.120 0.131"),
    ("nails", "head_in", "0.266 0.281 0.312 0.312 0.344 0.406 0.266 0.297 0.312 0.312 0.344 0.375 "
     "0.266 0.281 0.312 0.344 0.375 - - - - 0.281 0.281 0.281"),
    ("nails", "ring_in", f"{'- ' * 19}1.5 1.5 1.5 1.5 1.5"),
    # steel side plates of the tables of NDS 12; ASTM A653 grade 33, A36
    ("clip_steel", "Fe_psi", "61850 87000"),
    ("clip_steel", "Fy_psi", "33000 36000"),
    ("clip_steel", "Fu_psi", "45000 58000"),
]  # fmt: skip
FACTORS = [  # NDS 2.3.2, 3.3.3, 4.3.8, N1 and N2; Supplement 4A to 4D
    ("load_duration", "CD", "0.9 1.0 1.15 1.25 1.6 2.0 -"),
    ("incising", "Ci", "0.95 0.80 1.00"),
    ("repetitive", "value", "1.15"),
    ("format_conversion", "KF", "2.54 2.70 2.88 2.40 1.67 1.76 3.32"),
    ("format_conversion", "phi", "0.85 0.80 0.75 0.90 0.90 0.85 0.65"),
    ("effective_length", "lu_coefficient_short", "1.33 1.87 2.06 1.80 1.11 1.68 1.54 1.68 1.73 "
     "1.78 1.84 1.84 2.06 -"),
    ("effective_length", "lu_coefficient_long", "0.90 1.44 1.63 1.37 - - - - - - - - 1.63 -"),
    ("effective_length", "d_coefficient_long", "3 3 3 3 - - - - - - - - 3 -"),
    ("effective_length", "lu_coefficient_over_14_3", f"{'- ' * 12}1.84 -"),
    # widths 2-3, 4, 5, 6, 8, 10 at 2-3 in thick; 4, 5, 6, 8, 10 at 4 in; then timbers
    ("flat_use", "Cfu_Fb", "1.0 1.1 1.1 1.15 1.15 1.2 1.0 1.05 1.05 1.05 1.1 0.86 0.74 1.00 -"),
    ("flat_use", "Cfu_E", f"{'1 ' * 11}1.00 0.90 1.00 -"),  # 4.3.1: of lumber, Fb alone
    # widths 2-4, 5, 6, 8, 10, 12, 14, each at 2-3 and 4 in thick; then Stud, Construction and
    # Standard, Utility; Southern Pine; the last three have words or no factor
    ("size_factors", "CF_Fb", "1.5 1.5 1.4 1.4 1.3 1.3 1.2 1.3 1.1 1.2 1.0 1.1 0.9 1.0 1.1 1.0 - "
     "1.0 1.0 0.4 1.0 1.1 0.9 - - -"),
    ("size_factors", "CF_Ft", "1.5 1.5 1.4 1.4 1.3 1.3 1.2 1.2 1.1 1.1 1.0 1.0 0.9 0.9 1.1 1.0 - "
     "1.0 1.0 0.4 1.0 1.0 0.9 - - -"),
    ("size_factors", "CF_Fc", "1.15 1.15 1.1 1.1 1.1 1.1 1.05 1.05 1.0 1.0 1.0 1.0 0.9 0.9 1.05 "
     "1.0 - 1.0 1.0 0.6 1.0 1.0 0.9 - - -"),
    # 4A, 4B, 4C, 4D
    ("wet_service", "Fb", "0.85 0.85 0.85 1.00"),
    ("wet_service", "Ft", "1.0 1.0 1.0 1.00"),
    ("wet_service", "Fv", "0.97 0.97 0.97 1.00"),
    ("wet_service", "Fc_perp", "0.67 0.67 0.67 0.67"),
    ("wet_service", "Fc", "0.8 0.8 0.8 0.91"),
    ("wet_service", "E_Emin", "0.9 0.9 0.9 1.00"),
    ("wet_service", "limit_Fb_CF", "1150 1150 1150 -"),
    ("wet_service", "limit_Fc_CF", "750 750 750 -"),
]  # fmt: skip
LOADS = [  # ASCE 7: C3.1-1, 7.4-1, 26.11-1; 2.4.1, 2.4.5, 2.3.1, 2.3.6 of 7-16, then of 7-22
    ("layer_weights", "psf", "- - 3 7 10 - 16 - - 0.7 - - - - - 2 2.2 2.75 - - - - - - - 10 - - - "
     "-"),
    ("snow_Cs", "knee_other_deg", "30 37.5 45"),
    ("snow_Cs", "knee_slippery_deg", "5 10 15"),
    ("snow_Cs", "zero_at_deg", "70 70 70"),
    ("wind_kz", "alpha", "7.0 9.5 11.5 7.5 9.8 11.5"),
    ("wind_kz", "zg_ft", "1200 900 700 3280 2460 1935"),
    ("wind_kz", "coefficient", "2.01 2.01 2.01 2.41 2.41 2.41"),
    ("load_combinations", "D", "1 1 1 1 1 1 0.6 1 1 0.6 1.4 1.2 1.2 1.2 1.2 0.9 1.2 0.9 "
     "1 1 1 1 1 1 0.6 1 1 0.6 1.4 1.2 1.2 1.2 1.2 0.9 1.2 0.9"),
    ("load_combinations", "L", "0 1 0 0.75 0 0.75 0 0 0.75 0 0 1.6 1 0 1 0 1 0 "
     "0 1 0 0.75 0 0.75 0 0 0.75 0 0 1.6 1 0 1 0 1 0"),
    ("load_combinations", "Lr", "0 0 1 0.75 0 0.75 0 0 0 0 0 0.5 1.6 1.6 0.5 0 0 0 "
     "0 0 1 0.75 0 0.75 0 0 0 0 0 0.5 1.6 1.6 0.5 0 0 0"),
    ("load_combinations", "S", "0 0 1 0.75 0 0.75 0 0 0.75 0 0 0.5 1.6 1.6 0.5 0 0.2 0 "
     "0 0 0.7 0.525 0 0.525 0 0 0.1 0 0 0.3 1.0 1.0 0.3 0 0.15 0"),
    ("load_combinations", "R", "0 0 1 0.75 0 0.75 0 0 0 0 0 0.5 1.6 1.6 0.5 0 0 0 "
     "0 0 1 0.75 0 0.75 0 0 0 0 0 0.5 1.6 1.6 0.5 0 0 0"),
    ("load_combinations", "W", "0 0 0 0 0.6 0.45 0.6 0 0 0 0 0 0 0.5 1 1 0 0 "
     "0 0 0 0 0.6 0.45 0.6 0 0 0 0 0 0 0.5 1 1 0 0"),
    ("load_combinations", "Ev", "0 0 0 0 0 0 0 0.7 0.525 -0.7 0 0 0 0 0 0 1 -1 "
     "0 0 0 0 0 0 0 0.7 0.525 -0.7 0 0 0 0 0 0 1 -1"),
    ("load_combinations", "Eh", "0 0 0 0 0 0 0 0.7 0.525 0.7 0 0 0 0 0 0 1 1 "
     "0 0 0 0 0 0 0 0.7 0.525 0.7 0 0 0 0 0 0 1 1"),
    ("load_combinations", "lam", f"{'- ' * 10}0.6 0.8 0.8 0.8 1.0 1.0 1.0 1.0 "
     f"{'- ' * 10}0.6 0.8 0.8 0.8 1.0 1.0 1.0 1.0"),
    ("load_combinations", "lam_storage", f"{'- ' * 11}0.7 {'- ' * 17}0.7 - - - - - -"),
]  # fmt: skip


def differences(rows, column, printed):
    """Place, printed value, the table's."""
    return [
        (place, one, row[column])
        for place, (one, row) in enumerate(zip(printed.split(), rows, strict=True))
        if one != "-" and Decimal(one) != Decimal(row[column] or "NaN")
    ]


@pytest.mark.parametrize(
    ("table", "column", "printed"), [*SIZES, *FACTORS, *LOADS], ids=lambda text: text.split()[0]
)
def test_each_column_is_the_printed_one(table, column, printed):
    assert differences(read(table), column, printed) == []


def test_distances_of_fasteners():
    """NDS 12.5.1A to 12.5.1E, from 1/4 in on; under it the commentary's tables for wood and for
    steel side plates without lead holes. Edges, rows and withdrawal have one least distance and no
    reduced one."""
    rows = read("fastener_spacing")
    large = [r for r in rows if r["diameter"] == "1/4 and over"]
    small = [r for r in rows if r["note"].startswith("wood side plate, no lead holes")]
    assert differences(large, "full_D", "7 4 4 4 1.5 4 1.5 1.5 1.5 4 4") == []
    assert differences(large, "least_D", "3.5 2 2 3 1.5 4 1.5 1.5 1.5 4 4") == []
    steel = [r for r in rows if r["note"].startswith("steel side plate, no lead holes")]
    assert differences(small, "full_D", "2.5 15 10 15 10 5 2.5") == []
    assert differences(steel, "full_D", "2.5 10 5 10 5 3 2.5") == []
