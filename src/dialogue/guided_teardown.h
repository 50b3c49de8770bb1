#pragma once

#include <optional>
#include <string>

#include "record/address.h"
#include "record/measured.h"
#include "terminal/session.h"

namespace dialogue {

struct TeardownGuide {
  std::optional<record::Address> address;  // else it asks for a joint
  std::string wrench;                      // to begin with; else the one used last, else it asks
  std::optional<record::Restart> restart;  // else asked where a pull moved nothing
};

// Leads through the teardown of a joint, one position after the other: how it broke loose, then
// pull by pull to the found torque. Each answer is in the logbook before the next prompt, so
// whatever ends it, the next call goes on with the same test at the same pull. Refusal where a hold
// point stands before the joint or it is not in the logbook.
int guide_teardown(const TeardownGuide& guide, const terminal::Session& session);

}  // namespace dialogue
