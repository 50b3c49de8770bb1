#pragma once

#include <map>
#include <string>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "record/job.h"

namespace tables {

// Which fasteners were tested, in the logbook and by the rows so far: a second test of one is often
// the first put right, and then both stand.
class TestedPlaces {
 public:
  explicit TestedPlaces(const record::Job& job);

  // One more test; those of a joint that something was tightened in since may be of another
  // teardown and are passed over.
  void add(const record::Measured& test);

  // "J06/03,05 were tested already. ...", for each joint where one was added that had been
  // tested.
  [[nodiscard]] std::vector<std::string> remarks() const;

 private:
  // A bit each, so that a million rows take no more than that.
  std::unordered_map<std::string, std::vector<bool>> tested_;  // by folded code, by position
  std::unordered_set<std::string> has_gone_back_;              // folded codes
  std::map<std::string, std::vector<int>> again_;              // by code
};

}  // namespace tables
