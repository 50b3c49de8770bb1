#pragma once

#include <nlohmann/json_fwd.hpp>

#include "logbook/logbook.h"
#include "logbook/recording.h"
#include "phone/deed.h"

namespace phone {

// Carries the deed out, as the command line and the guides do: {"lines":[{"line","id","says"}],
// "remarks":[..],"told":[what a test came to, a line each],"again":false}. Where the same came
// before it is answered with the lines of then, "again" true. Whatever the deed refuses is thrown;
// Refusal where something else came under this id.
[[nodiscard]] nlohmann::ordered_json take(const Deed& deed, logbook::Logbook& logbook,
                                          logbook::Writer writer);

}  // namespace phone
