#pragma once

#include <pqxx/except>
#include <string>
#include <utility>

#include "fleet/store.h"

namespace fleet {

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
