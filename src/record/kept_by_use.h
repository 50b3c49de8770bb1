#pragma once

#include "record/job.h"

namespace record {

// A joint, hold point or item that was struck in one copy of the logbook, while in another, where
// that was not known, lines were written about it: the strike would take those with it, and all
// that they warn of. It is put back among what counts (Apart::kept), unless another entry of its
// code counts. It goes for good when the lines about it are struck as well. A wrench does not
// count on: what it set is vouched for by nothing then, which is the more cautious.
void keep_what_is_used(Job& job);

}  // namespace record
