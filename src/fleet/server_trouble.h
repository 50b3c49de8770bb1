#pragma once

#include <pqxx/except>
#include <string>
#include <string_view>
#include <utility>

#include "fleet/store.h"

namespace fleet {

// What the server or libpq says: its first line, without what is said in front of it.
[[nodiscard]] std::string said(std::string_view what);

// What an error of libpqxx means to a person.
[[noreturn]] void throw_trouble(const pqxx::failure& error);
[[noreturn]] void throw_trouble(const pqxx::sql_error& error);

// Runs `work` and turns what libpqxx throws into a ServerError; no error of it leaves the room.
template <class Work>
auto with_server(Work&& work) {
  try {
    return std::forward<Work>(work)();
  } catch (const pqxx::sql_error& error) {
    throw_trouble(error);
  } catch (const pqxx::failure& error) {
    throw_trouble(error);
  }
}

}  // namespace fleet
