#include "record/pull.h"

namespace record {

Measured test_of(const Pulls& pulls) {
  const Pull& first = pulls.front()->content;
  Measured test;
  test.joint = first.joint;
  test.position = first.position;
  test.wrench = first.wrench;
  test.unit = first.unit;
  test.restart = pulls.back()->content.restart;
  for (const auto* pull : pulls) add_readings(test, {pull->content.reading}, pull->content.typed);
  return test;
}

void add_readings(Measured& test, const std::vector<SettingReading>& readings,
                  const std::string& typed) {
  test.readings.insert(test.readings.end(), readings.begin(), readings.end());
  test.readings_typed += (test.readings_typed.empty() ? "" : " ") + typed;
}

}  // namespace record
