#include "fleet/server_trouble.h"

#include <fmt/format.h>

namespace fleet {

std::string said(std::string_view what) {
  what = what.substr(0, what.find('\n'));
  for (const auto* front : {"ERROR:  ", "FATAL:  "}) {
    if (what.starts_with(front)) what.remove_prefix(std::string_view(front).size());
  }
  return std::string(what);
}

void throw_trouble(const pqxx::failure& error) {
  throw ServerError(
      fmt::format("the server of the fleet is not to be reached: {}; what was loaded stays there, "
                  "and loading the "
                  "same logbooks again goes on from it",
                  said(error.what())));
}

void throw_trouble(const pqxx::sql_error& error) {
  const auto& state = error.sqlstate();
  if (state == "42501") {
    throw ServerError(fmt::format("the server does not allow this: {}; ask whoever owns the fleet",
                                  said(error.what())));
  }
  if (state == "55P03") {
    throw ServerError(
        "another program is loading the same logbook; wait until it has ended, then load again");
  }
  throw ServerError(fmt::format("the server did not do this: {}; what was loaded before stays",
                                said(error.what())));
}

}  // namespace fleet
