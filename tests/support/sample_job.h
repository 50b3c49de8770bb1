#pragma once

#include "support/trial.h"

// Runs what samples/gb1 records on the bench, which then has the logbook of the sample job named in
// BOLTWITNESS_LOG: all of it, or what was done up to a moment such as "2025-05-21T09:10".
void run_sample_job(Trial& trial, std::string_view until = "9999");
