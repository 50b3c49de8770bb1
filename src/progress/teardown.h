#pragma once

#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <utility>

#include "record/job.h"
#include "record/pull.h"

namespace progress {

// How far the teardown of one position has come. A joint may be opened more than once: what was
// done before the position was last tightened is of an earlier teardown and counts no longer.
struct PositionTeardown {
  // The latest; none where still in. Of copies that were apart and do not say the same, what their
  // lines come to (finding/ways_out.h).
  const record::Entry<record::Removal>* removal = nullptr;
  const record::Entry<record::Measured>* finding = nullptr;  // the latest; none where not tested
  // Of the test under way, in the order of time: those that no finding after them has gathered.
  record::Pulls pulls;
  // What `removal` points to where it is no line of its own.
  std::shared_ptr<const record::Entry<record::Removal>> read_together;
};

// By folded joint code and position; one of which nothing is recorded has none.
using Teardown = std::map<std::pair<std::string, int>, PositionTeardown>;

// In one pass over the entries of each kind. It points into `job`.
[[nodiscard]] Teardown teardown_of(const record::Job& job);

// Of one position, whether anything is recorded of it or not.
[[nodiscard]] const PositionTeardown& at(const Teardown& teardown, std::string_view joint,
                                         int position);

// It is out, and tested where there is something to test.
[[nodiscard]] bool is_finished(const PositionTeardown& teardown);

}  // namespace progress
