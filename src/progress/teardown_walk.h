#pragma once

#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "progress/teardown.h"
#include "record/address.h"
#include "record/joint.h"

namespace progress {

// The positions of a joint one after the other, for somebody who is led through its teardown.
class TeardownWalk {
 public:
  // Those that are named, else all of the joint. One position named by itself is tested once more
  // where it has been tested already.
  TeardownWalk(const record::Joint& joint, std::vector<int> named);

  [[nodiscard]] const std::string& joint() const { return joint_; }
  [[nodiscard]] const std::vector<int>& positions() const { return positions_; }

  // Where to go on: a test that is under way, else the first position that is neither finished nor
  // skipped. Nothing at the end.
  [[nodiscard]] std::optional<int> next(const Teardown& teardown) const;

  // These have no test to wait for: finished once they are out, but where one is under way.
  void leave_untested(std::set<int> positions) { untested_ = std::move(positions); }

  // Those that are not finished.
  [[nodiscard]] std::vector<int> open(const Teardown& teardown) const;

  // Passes a position by until the walk begins anew.
  void skip(int position);

  // Tests a position once more, whether it has been tested or not, until something is recorded.
  void test_again(int position) { again_ = position; }
  void recorded() { again_.reset(); }

 private:
  [[nodiscard]] bool is_done(const Teardown& teardown, int position) const;

  std::string joint_;
  std::vector<int> positions_;
  std::set<int> skipped_;
  std::set<int> untested_;
  std::optional<int> again_;
};

}  // namespace progress
