#pragma once

#include <nlohmann/json_fwd.hpp>

// Computes the hashes of a copy of a logbook as JSON anew, from what they are defined to be made of
// (src/logbook/canonical_line.h, hash_chain.h), as a forger would who knows them: each line as what
// its members say now, bound to those before it in the copy as they stand.
void hash_anew(nlohmann::ordered_json& copy);
