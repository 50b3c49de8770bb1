#pragma once

#include <cstddef>
#include <string>

// The tests that torture the durability of a logbook run short among the others and long in
// scripts/torture, which sets BOLTWITNESS_TORTURE=long and takes a row from each for its table.

// How many trials: the first number, or in the long form the second.
[[nodiscard]] std::size_t trials(std::size_t in_short, std::size_t in_long);

// What was tried, how often, and what was found: a row of that table, where one is asked for
// (BOLTWITNESS_TORTURE_TABLE, a file). `faults` is how many trials went wrong.
void tell_torture(const std::string& what, std::size_t tried, const std::string& found,
                  std::size_t faults);
