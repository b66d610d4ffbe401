"""The bearing area factor to four decimals. NDS 2018 3.10.4."""

from published import printed, rows

from outrigger.wood.bearing import bearing_area_factor

FAR_IN = 12.0  # from the end of the member


def test_cb_by_its_formula():
    """DERIVED; at 4 in the table is recalled to print 1.10 where its formula gives 1.09, and the
    formula is what the program takes."""
    for row in rows("bearing_area"):
        Cb = bearing_area_factor(float(row["l_bearing_in"]), FAR_IN).value
        assert Cb == printed(row["Cb_formula"]), row
