#pragma once

#include <vector>

#include "record/entry.h"

namespace record {

// The lines of one kind in a job, under the name that they have there. Each kind of line says it
// beside its struct, as the one member of its InJob; without it Job does not compile.
template <class Kind>
struct InJob;

}  // namespace record
