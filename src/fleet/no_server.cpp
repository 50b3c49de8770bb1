#include "fleet/store.h"

namespace fleet {
namespace {

[[noreturn]] void refuse() {
  throw failure::UsageError(
      "this boltwitness was built without libpqxx, through which it reaches a PostgreSQL server; "
      "install that (on Debian: apt-get install libpqxx-dev) and build it again");
}

}  // namespace

std::unique_ptr<Store> open_to_load(const NamedServer&, const std::string&) { refuse(); }

std::unique_ptr<Store> open_to_ask(const NamedServer&) { refuse(); }

}  // namespace fleet
