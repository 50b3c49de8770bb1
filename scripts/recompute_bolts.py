#!/usr/bin/env python3
"""Recomputes five bolts and five found torques from the written formulas with mpmath (Debian package
python3-mpmath), which shares no code with this project, and compares them with the program.

usage: scripts/recompute_bolts.py build/dev/src/boltwitness     exit code 1 where they differ

Formulas: stress area of ISO 898-1 and ASME B1.1; T = F [P/2pi + mu d2/(2 cos 30) + mu Dkm/2] of
VDI 2230, minus the first part to loosen; von Mises with the plastic section modulus; plausible from
55 % of proof to 90 % of yield; u^2 = (h/sqrt 3)^2 + (w T/sqrt 3)^2 + (m T)^2, U = 2u, and the verdict
by the tolerance against T - U and T + U.
"""

import json
import os
import subprocess
import sys
import tempfile

from mpmath import mp, mpf, pi, sqrt

mp.dps = 30
AGREES = mpf("1e-12")
INCH = mpf("25.4")
INCH_POUND = mpf("4.4482216152605") * INCH / 1000
FOOT_POUND = 12 * INCH_POUND
KSI = mpf("4448.2216152605") / INCH**2
COS_30 = sqrt(3) / 2

# Diameter and pitch in mm or in and threads an inch; proof (or nothing), yield, tensile in MPa or
# ksi; bearing face and hole in mm, or nothing for 1.25 d; friction of thread, of head; torque in N.m.
BOLTS = [
    ("M12x1.75", "8.8", ("12", "1.75"), (580, 640, 800), ("16.63", "13.5"), ("0.08", "0.16"),
     ("0.08", "0.16"), mpf(80), ["--condition", "oiled", "--torque", "80 N·m"]),
    ("M10x1.25", "10.9", ("10", "1.25"), (830, 940, 1040), ("14.63", "11"), ("0.10", "0.16"),
     ("0.10", "0.16"), mpf(70), ["--friction", "0.10..0.16", "--torque", "70 N·m"]),
    ("M16", "A4-70", ("16", "2"), (None, 450, 700), ("22.49", "17.5"), ("0.14", "0.24"),
     ("0.14", "0.24"), mpf(120), ["--condition", "dry", "--torque", "120 N·m"]),
    ("M20", "8.8", ("20", "2.5"), (600, 660, 830), ("28.19", "22"), ("0.10", "0.12"),
     ("0.14", "0.18"), mpf(390), ["--thread-friction", "0.10..0.12", "--head-friction",
                                  "0.14..0.18", "--torque", "390 N·m"]),
    ("3/8-16", "SAE 5", ("0.375", "16"), (85, 92, 120), None, ("0.12", "0.20"),
     ("0.12", "0.20"), 31 * FOOT_POUND, ["--friction", "0.12..0.20", "--torque", "31 ft·lbf"]),
]

# Size, grade, specification, its limits, readings, estimate and half-width, unit, permissible
# deviation in percent, scale, graduation, stated accuracy.
FINDINGS = [
    ("M12x1.75", "8.8", "80 N·m", (72, 88), "70s 75s 80o", 80, "2.5", 1, 4, "20..200 N·m",
     "1 N·m", None),
    ("M10x1.25", "10.9", "70 N·m", (63, 77), "45s 50s 54p", 52, "2", 1, 4, "20..200 N·m",
     "1 N·m", None),
    ("M16", "8.8", "210 N·m ±8%", ("193.2", "226.8"), "240s 250s 260o", 260, "5", 1, 3,
     "80..400 N·m", "2 N·m", "3%"),
    ("M6", "8.8", "9-11 N·m", (9, 11), "8s 8.6s 9o", 9, "0.2", 1, 6, "2..20 N·m", "0.2 N·m", None),
    ("3/8-16", "SAE 5", "31 ft·lbf", ("27.9", "34.1"), "28s 30s 31o", 31, "0.5", FOOT_POUND, 4,
     "10..75 ft·lbf", "0.5 ft·lbf", None),
]

PROGRAM = os.path.abspath(sys.argv[1])
worst = mpf(0)


def run(*words):
    environment = {**os.environ, "BOLTWITNESS_BY": "KB"}
    return subprocess.run([PROGRAM, *words], capture_output=True, text=True, check=True,
                          env=environment).stdout


def compare(what, here, program):
    global worst
    difference = abs(mpf(program) / here - 1)
    worst = max(worst, difference)
    print(f"  {what:22} {mp.nstr(here, 10):>14} {mp.nstr(mpf(program), 10):>14} "
          f"{mp.nstr(difference, 2):>9}")


def bolt(size, grade, thread, stresses, face, thread_friction, head_friction, torque, words):
    metric = size.startswith("M")
    d, p = (mpf(x) for x in thread)
    if not metric:
        d, p = d * INCH, INCH / p
    height = p * sqrt(3) / 2
    d2 = d - height * 3 / 4
    d0 = (d2 + d - height * 17 / 12) / 2 if metric else d - mpf("0.9743") * p
    area = pi / 4 * d0**2
    unit = 1 if metric else KSI
    yielding, tensile = stresses[1] * unit, stresses[2] * unit
    proof = stresses[0] * unit if stresses[0] else mpf("0.85") * yielding
    bearing = (mpf(face[0]) + mpf(face[1])) / 2 if face else mpf("1.25") * d
    low, high = ((mpf(t), mpf(h)) for t, h in zip(thread_friction, head_friction))

    def arm(friction, sign=1):  # in mm
        return sign * p / (2 * pi) + d2 * friction[0] / (2 * COS_30) + bearing * friction[1] / 2

    def twist(friction):
        return sqrt(1 + 3 * (mpf(3) / 2 * d2 / d0 * (p / (pi * d2) + friction[0] / COS_30))**2)

    least, most = torque * 1000 / arm(high), torque * 1000 / arm(low)
    shares = sorted([least / area * twist(high) / yielding, most / area * twist(low) / yielding])
    answer = json.loads(run("bolt", size, "--grade", grade, *words, "--json"))
    print(f"{size} {grade}")
    compare("stress area mm2", area, answer["stress_area_mm2"])
    compare("tensile load N", tensile * area, answer["tensile_load_n"])
    if stresses[0]:
        compare("proof load N", proof * area, answer["proof_load_n"])
    compare("preload low N", least, answer["preload_n"]["low"])
    compare("preload high N", most, answer["preload_n"]["high"])
    compare("share of proof high", most / (proof * area), answer["proof_share"]["high"])
    compare("share of yield low", shares[0], answer["yield_share"]["low"])
    compare("share of yield high", shares[1], answer["yield_share"]["high"])
    compare("loosening low N.m", most * arm(low, -1) / 1000, answer["loosening_nm"]["low"])
    compare("loosening high N.m", least * arm(high, -1) / 1000, answer["loosening_nm"]["high"])
    compare("plausible low N.m", mpf("0.55") * proof * area * arm(low) / 1000,
            answer["plausible_nm"]["low"])
    compare("plausible high N.m",
            mpf("0.9") * yielding * area / twist(high) * arm(high) / 1000,
            answer["plausible_nm"]["high"])


def findings(log):
    run("start", log, "--machine", "GB-1")
    for number, (size, grade, specified, _, readings, *_, scale, graduation,
                 accuracy) in enumerate(FINDINGS, 1):
        stated = ["--accuracy", accuracy] if accuracy else []
        run("wrench", f"TW{number}", "--range", scale, "--graduation", graduation, "--calibrated",
            "2026-01-02", *stated, "--log", log)
        run("joint", f"J{number}", "--holds", "cover", "--size", size, "--grade", grade, "--count",
            "1", "--spec", specified, "--log", log)
        run("found", f"J{number}/1", *readings.split(), "--wrench", f"TW{number}", "--at",
            "2026-03-01T10:00", "--log", log)
    agree = True
    rows = json.loads(run("compare", "--json", "--log", log))["rows"]
    for row, (size, _, _, limits, readings, best, half, unit, percent, *_) in zip(rows, FINDINGS):
        torque, half = best * mpf(unit), mpf(half) * unit
        expanded = 2 * sqrt(half**2 / 3 + (mpf(percent) / 100 * torque)**2 / 3 +
                            (mpf("0.02") * torque)**2)
        low, high = (mpf(limit) * unit for limit in limits)
        verdict = ("low" if torque + expanded < low else "high" if torque - expanded > high else
                   "within" if torque - expanded >= low and torque + expanded <= high else
                   "undecided")
        print(f"{size} {readings}: {verdict}, the program says {row['verdict']}")
        compare("found N.m", torque, row["found"]["best_nm"])
        compare("uncertainty N.m", expanded, row["found"]["uncertainty_nm"])
        agree = agree and verdict == row["verdict"]
    return agree


for each in BOLTS:
    bolt(*each)
with tempfile.TemporaryDirectory() as folder:
    verdicts_agree = findings(os.path.join(folder, "recomputed.bolts"))
print(f"largest relative difference {mp.nstr(worst, 3)}")
sys.exit(0 if verdicts_agree and worst < AGREES else 1)
