#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "random_job.h"

// What the audit has to name once the fault is in: a deviation of this rule about this joint, and
// about this position where one is given.
struct Expected {
  std::string joint;
  std::optional<int> position = std::nullopt;
};

// A kind of fault as it happens in a workshop. `plant` puts one into a clean job at a random place;
// nothing where this job has no place for it.
struct Fault {
  std::string name;
  std::string rule;
  Stage stage;
  std::function<std::optional<Expected>(record::Job&, Dice&)> plant;
};

// Every kind there is.
const std::vector<Fault>& all_faults();
