#include "network/here.h"

#include "network/fleet.h"
#include "network/serve.h"

namespace network {

cli::Network here() { return {.serve = serve, .fleet = ask_or_load, .elsewhere = {}}; }

}  // namespace network
