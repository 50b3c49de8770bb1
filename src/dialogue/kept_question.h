#pragma once

#include "dialogue/bench_sitting.h"

namespace dialogue {

// Asks for the bag (g) or the note (w) of a fastener. Where it is out already its line is recorded
// anew with it, else it waits for the answer how it broke loose; `removal` is nullptr then. False
// where the key is another one.
[[nodiscard]] bool ask_what_is_kept(BenchSitting& sitting, char key,
                                    const record::Entry<record::Removal>* removal);

// The same, said at once: "bag 7".
void keep(BenchSitting& sitting, const BagOrNote& said,
          const record::Entry<record::Removal>* removal);

}  // namespace dialogue
