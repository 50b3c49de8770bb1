#pragma once

#include <string>

// Starts a logbook and fills it with lines of every kind such as the commands record, some of them
// struck: invented, and the same for the same seed.
void make_random_logbook(const std::string& path, unsigned seed);
