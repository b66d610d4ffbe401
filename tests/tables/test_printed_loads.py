"""Small tables of ASCE 7-16 and 7-22 and of NDS 11 and 12 as printed, each value from memory: one
wrong cell is one wrong load."""

import pytest
from table_rows import read


def rows(name, *columns):
    return [[row[column] for column in columns] for row in read(name)]


def test_roof_coefficients_of_the_directional_procedure():
    """Figure 27.3-1, Cp at 10, 15, 20, 25, 30, 35 and 45 degrees; 0.0 where the figure has no value
    of that sign."""
    columns = ["t10", "t15", "t20", "t25", "t30", "t35", "t45"]
    found = [" ".join(row) for row in rows("wind_cp", "surface", "h_over_L", *columns)]
    assert found == [
        "windward, suction 0.25 -0.7 -0.5 -0.3 -0.2 -0.2 0.0 0.0",
        "windward, pressure 0.25 -0.18 0.0 0.2 0.3 0.3 0.4 0.4",
        "windward, suction 0.5 -0.9 -0.7 -0.4 -0.3 -0.2 -0.2 0.0",
        "windward, pressure 0.5 -0.18 -0.18 0.0 0.2 0.2 0.3 0.4",
        "windward, suction 1.0 -1.3 -1.0 -0.7 -0.5 -0.3 -0.2 0.0",
        "windward, pressure 1.0 -0.18 -0.18 -0.18 0.0 0.2 0.2 0.3",
        "leeward 0.25 -0.3 -0.5 -0.6 -0.6 -0.6 -0.6 -0.6",
        "leeward 0.5 -0.5 -0.5 -0.6 -0.6 -0.6 -0.6 -0.6",
        "leeward 1.0 -0.7 -0.6 -0.6 -0.6 -0.6 -0.6 -0.6",
        "along, suction 0.5 -0.9 -0.9 -0.9 -0.9 -0.9 -0.9 -0.9",
        "along, suction 1.0 -1.3 -1.3 -1.3 -1.3 -1.3 -1.3 -1.3",
        "along, pressure 0.5 -0.18 -0.18 -0.18 -0.18 -0.18 -0.18 -0.18",
    ]


def test_coefficients_of_the_envelope_procedure():
    """Figure 28.3-1, GCpf of zones 1 to 4 and 1E to 4E."""
    zones = ["z1", "z2", "z3", "z4", "z1E", "z2E", "z3E", "z4E"]
    found = [" ".join(row) for row in rows("wind_gcpf", "load_case", "theta_from", *zones)]
    assert found == [
        "A 0 0.40 -0.69 -0.37 -0.29 0.61 -1.07 -0.53 -0.43",
        "A 20 0.53 -0.69 -0.48 -0.43 0.80 -1.07 -0.69 -0.64",
        "A 30 0.56 0.21 -0.43 -0.37 0.69 0.27 -0.53 -0.48",
        "A 90 0.56 0.56 -0.37 -0.37 0.69 0.69 -0.48 -0.48",
        "B 0 -0.45 -0.69 -0.37 -0.45 -0.48 -1.07 -0.53 -0.48",
    ]


def test_slopes_of_the_figures_of_components():
    """Figures 30.3-1 (walls) and 30.3-2A to 2D (gable roofs): to 7, 20, 27 and 45 degrees."""
    assert {tuple(row) for row in rows("wind_gcp", "figure", "theta_over_deg", "theta_to_deg")} == {
        ("30.3-1", "0", "90"),
        ("30.3-2A", "0", "7"),
        ("30.3-2B", "7", "20"),
        ("30.3-2C", "20", "27"),
        ("30.3-2D", "27", "45"),
    }


def test_snow_factors():
    """Tables 7.3-1 (Ce), 7.3-2 (Ct) and 1.5-2 (Is); 7-22: pm,max of Table 7.3-4."""
    terrain = ["fully exposed", "partially exposed", "sheltered"]
    assert rows("snow_Ce", *terrain) == [
        ["0.9", "1.0", "1.2"],
        ["0.9", "1.0", "1.1"],
        ["0.8", "0.9", "1.0"],
        ["0.7", "0.8", "NA"],
        ["0.7", "0.8", "NA"],
    ]
    assert [ct for (ct,) in rows("snow_Ct", "Ct")] == [
        *("1.0", "1.1", "1.2", "1.3", "0.85"),
        *("1.2", "1.3", "0.85"),
    ]
    assert rows("snow_risk", "Is_716", "pm_max_722_psf") == [
        ["0.8", "25"],
        ["1.0", "30"],
        ["1.1", "35"],
        ["1.2", "40"],
    ]


def test_wind_factors():
    """Tables 26.6-1, 26.10-1 and 26.13-1, 26.11, 27.3.3, 28.3.3 and 30.2.2."""
    found = [value for (value,) in rows("wind_factors", "value")]
    assert found == ["0.85", "0.85", "0.18", "0.55", "16", "0.70", "0.70", "0.80"]
    heights = ["Kz_15ft", "Kz_20ft", "Kz_25ft", "Kz_30ft"]
    for row in read("wind_kz"):
        printed = {"B": "0.57 0.62 0.66 0.70", "C": "0.85 0.90 0.94 0.98"}
        printed |= {"D": "1.03 1.08 1.12 1.16"}
        assert " ".join(row[h] for h in heights) == printed[row["exposure"]]


@pytest.mark.parametrize(
    ("table", "columns", "printed"),
    [
        ("temperature", ["to_100F", "to_125F", "to_150F"], "1.0 0.9 0.9 1.0 0.8 0.7 1.0 0.7 0.5"),
        ("connection_temperature", ["to_100F", "to_125F", "to_150F"], "1.0 0.8 0.7 1.0 0.7 0.5"),
        ("creep", ["Kcr"], "1.5 2.0"),
        (
            "connection_wet_service",
            ["CM"],
            "1.0 0.7 0.4 0.7 1.0 0.7 1.0 0.25 0.25 1.0 1.0 1.0 0.7",
        ),
        ("washers", ["D_washer_in"], "0.734 0.875 1.0 1.25 1.375 1.75 2.0"),
        ("panels", ["G"], "0.50 0.50 0.42"),
        ("steel_sheets", ["gage"], "20 18 16 14 12 11 10 7 3"),
        ("steel_sheets", ["t_in"], "0.036 0.048 0.060 0.075 0.105 0.120 0.134 0.179 0.239"),
        ("clip_steel_safety", ["omega", "phi"], "1.67 0.90 3.00 0.50"),
        ("fastener_rules", ["least_D", "full_D"], "6 10 6 10 4 8"),
    ],
)
def test_factors_of_nds_and_sizes_of_hardware(table, columns, printed):
    """NDS 2.3.2 and 2.3.3, 3.5.2, 11.3.3 and 11.3.4, 12.1, 12.3.3B; ASME B18.21.1; the gages of the
    tables of NDS 12; AISI S100 F2 and J4."""
    assert [cell for row in rows(table, *columns) for cell in row] == printed.split()
