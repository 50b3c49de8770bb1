#!/usr/bin/python3
"""Writes tests/check_values/line_fit.csv: straight-line fits and Student-t quantiles, computed by
SciPy (Debian package python3-scipy), which shares no code with this project.

usage: scripts/reference_line_fit.py > tests/check_values/line_fit.csv
"""

import csv
import sys

import scipy
from scipy import stats

TOOL = f"SciPy {scipy.__version__}"
CONFIDENCE = 0.95

# Invented readings, except where a name says otherwise: mark offset in degrees, torque in N·m.
DATA_SETS = {
    "three readings": ([12, 6, 3], [60, 70, 75.5]),
    "four readings": ([18, 12, 7, 3], [50, 60, 68, 76]),
    "both sides of the line": ([9, 5, 1, -4], [62, 70, 79, 88]),
    "five readings, scattered": ([20, 15, 11, 6, 2], [41, 49, 60, 63, 74]),
    "uneven steps": ([31, 22.5, 14.2, 13.9, 8.8, 1.1], [12.5, 16, 19.5, 20, 22.25, 25.5]),
    "far from zero": ([340, 335, 331, 326, 322, 317, 314], [101, 103, 104, 107, 108, 111, 112]),
    "ten readings": ([45, 40, 36, 30, 26, 20, 15, 11, 6, 1],
                     [20, 31, 38, 52, 61, 70, 83, 90, 102, 111]),
    "no relation": ([8, 6, 4, 2, 0], [50, 47, 52, 49, 51]),
    "Anscombe 1973, first set": ([10, 8, 13, 9, 11, 14, 6, 4, 12, 7, 5],
                                 [8.04, 6.95, 7.58, 8.81, 8.33, 9.96, 7.24, 4.26, 10.84, 4.82,
                                  5.68]),
}

COLUMNS = ["kind", "name", "x", "y", "degrees_of_freedom", "intercept", "slope",
           "intercept_error", "slope_error", "residual_deviation", "r_squared", "t_quantile",
           "intercept_low", "intercept_high", "tool"]


def quantile(degrees_of_freedom):
    return stats.t.ppf(0.5 + CONFIDENCE / 2, degrees_of_freedom)


def fit_row(name, xs, ys):
    fit = stats.linregress(xs, ys)
    freedom = len(xs) - 2
    squares = sum((y - fit.intercept - fit.slope * x) ** 2 for x, y in zip(xs, ys))
    half_width = quantile(freedom) * fit.intercept_stderr
    return {
        "kind": "fit", "name": name,
        "x": " ".join(map(repr, xs)), "y": " ".join(map(repr, ys)),
        "degrees_of_freedom": freedom,
        "intercept": repr(float(fit.intercept)), "slope": repr(float(fit.slope)),
        "intercept_error": repr(float(fit.intercept_stderr)),
        "slope_error": repr(float(fit.stderr)),
        "residual_deviation": repr(float((squares / freedom) ** 0.5)),
        "r_squared": repr(float(fit.rvalue ** 2)),
        "t_quantile": repr(float(quantile(freedom))),
        "intercept_low": repr(float(fit.intercept - half_width)),
        "intercept_high": repr(float(fit.intercept + half_width)),
        "tool": TOOL,
    }


def main():
    writer = csv.DictWriter(sys.stdout, COLUMNS, lineterminator="\n")
    writer.writeheader()
    for name, (xs, ys) in DATA_SETS.items():
        writer.writerow(fit_row(name, xs, ys))
    for freedom in range(1, 31):
        writer.writerow({"kind": "quantile", "name": f"t at {freedom}",
                         "degrees_of_freedom": freedom,
                         "t_quantile": repr(float(quantile(freedom))), "tool": TOOL})


if __name__ == "__main__":
    main()
