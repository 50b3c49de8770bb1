#pragma once

#include <string>

#include "act/correction.h"
#include "act/done.h"
#include "plan/renewal_list.h"
#include "record/address.h"

namespace act {

// New fasteners that have arrived, as typed; without an address all that are to come.
struct ArrivalWords {
  std::string address;
  Correction correction;
};

// True where it is of the joint and, where positions are named, one of them.
[[nodiscard]] bool is_at(const plan::Renewing& renewing, const record::Address& address);

// Records what has arrived, one line a joint. Refusal where nothing is to come, or one that was
// named has its new fastener already.
Done record_arrival(logbook::Logbook& logbook, const logbook::Writer& writer,
                    const ArrivalWords& words);

}  // namespace act
