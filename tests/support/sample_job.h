#pragma once

#include "support/bench.h"

// Runs every command of samples/gb1 on the bench, which then has the logbook of the sample job
// named in BOLTWITNESS_LOG.
void run_sample_job(Bench& bench);
