#pragma once

#include <string>

#include "record/moment.h"

// Starts a logbook and fills it with lines of every kind such as the commands record, some of them
// struck: invented, and the same for the same seed.
void make_random_logbook(const std::string& path, unsigned seed);

// A sitting at this logbook: some lines more, of any kind, written on this device at this time;
// among them such as strike earlier ones, enter a joint or wrench anew, or decide.
void go_on_at_random(const std::string& path, unsigned seed, const std::string& device,
                     record::Moment now);
