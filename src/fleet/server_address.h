#pragma once

#include <string>

#include "fleet/store.h"

namespace fleet {

// What libpq is given to connect with: the address with what else is needed to keep others from
// reading along. A connection that leaves this machine is encrypted, unless the address says how
// else and that is allowed; what the environment (PGHOST, PGSERVICE, PGSSLMODE and so on) and the
// service file say is taken as libpq takes it. UsageError, which never repeats the address, for one
// that is none, that holds a password, or that asks for an unencrypted connection to another
// machine.
[[nodiscard]] std::string connection_options(const NamedServer& server);

}  // namespace fleet
