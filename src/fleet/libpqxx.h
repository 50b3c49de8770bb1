#pragma once

#include <pqxx/result>
#include <pqxx/stream_to>
#include <pqxx/transaction_base>
#include <pqxx/version>
#include <string>
#include <vector>

namespace fleet {

// What libpqxx 6.4 and 7.10 name differently; each is called through here.

// The rows that a statement with values for its $1, $2 ... gives.
template <class... Values>
pqxx::result asked_with(pqxx::transaction_base& work, const std::string& statement,
                        const Values&... values) {
#if PQXX_VERSION_MAJOR >= 7
  return work.exec(statement, pqxx::params{values...});
#else
  return work.exec_params(statement, values...);
#endif
}

// Rows of these columns on their way into a table of the schema "fleet".
inline pqxx::stream_to stream_into(pqxx::transaction_base& work, const std::string& table,
                                   const std::vector<std::string>& columns) {
#if PQXX_VERSION_MAJOR >= 7
  const auto& names = work.conn();
  return pqxx::stream_to::raw_table(work, names.quote_table({"fleet", table}),
                                    names.quote_columns(columns));
#else
  return pqxx::stream_to(work, "fleet." + table, columns);
#endif
}

}  // namespace fleet
