#include "progress/second_check.h"

#include <algorithm>

#include "record/person.h"

namespace progress {

std::vector<std::string> hands_on(const Progress& progress, std::string_view joint, int position) {
  std::vector<std::string> people;
  const auto add = [&](const std::string& who) {
    if (std::ranges::find(people, who) == people.end()) people.push_back(who);
  };
  for (const auto* step : progress.steps_of(joint, position)) {
    if (step->entry != nullptr) add(step->entry->stamp.by);
  }
  for (const auto* work : progress.done_apart(joint, position)) add(work->stamp.by);
  return people;
}

bool is_same_person(const Progress& progress, std::string_view joint, int position,
                    std::string_view who) {
  return std::ranges::any_of(hands_on(progress, joint, position), [&](const std::string& other) {
    return record::is_same_person(other, who);
  });
}

}  // namespace progress
