#pragma once

#include <map>
#include <string>
#include <string_view>
#include <utility>

#include "finding/survey.h"

namespace plan {

// What the lines about one position say of new fasteners, told in the order of time and not of
// entry: one that arrives after the bolt was tightened is not the one in the hole.
struct NewFastener {
  const record::Stamp* arrived = nullptr;  // the last to arrive; none where none did
  bool is_ready = false;                   // it lies there, and nothing was tightened with it
  bool is_in = false;                      // one has gone in since the old one came out
  const record::Stamp* went_in = nullptr;  // when the last new one did; none where none ever did
  // The tightening that put the old one back, none new being there yet; only where one arrived
  // later, and until it comes out again.
  const record::Stamp* old_went_back = nullptr;
  // The same, whether one arrived later or not and whatever was put in its place since then.
  const record::Stamp* old_in = nullptr;
  bool beside_the_old = false;  // tightened while one lay ready, and the old one never came out
};

// By position. A tightening after the fastener came out takes the new one that lies ready; a pass
// that asks for a new one puts it in whatever was in before. Where the specification fits new ones
// between its passes, that pass alone does: those before it are of the old ones.
class NewFasteners {
 public:
  // Points into `job`.
  NewFasteners(const record::Job& job, const finding::Survey& survey);

  // All empty where no new fastener is on record and none was decided.
  [[nodiscard]] const NewFastener& at(std::string_view joint, int position) const;

 private:
  std::map<std::pair<std::string, int>, NewFastener> places_;  // by folded code
};

}  // namespace plan
