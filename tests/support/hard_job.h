#pragma once

#include "support/trial.h"

// A job that is hard on a page, on the bench, its logbook named in BOLTWITNESS_LOG: joints of 4,
// 16, 24, 32, 48 and 120 positions, names that are long or look like markup or run from right to
// left, a table of one joint over more than a page.
void run_hard_job(Trial& trial);
