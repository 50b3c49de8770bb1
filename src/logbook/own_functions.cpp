#include "logbook/own_functions.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <sqlite3.h>

#include <new>
#include <string>

#include "logbook/digest.h"
#include "logbook/signature.h"

namespace logbook {
namespace {

// The bytes before their number: asking for them may change it.
std::string bytes_in(sqlite3_value* value) {
  const auto* bytes = static_cast<const char*>(sqlite3_value_blob(value));
  const auto count = static_cast<std::size_t>(sqlite3_value_bytes(value));
  return bytes == nullptr ? std::string() : std::string(bytes, count);
}

// No exception may go through the library's own frames.
template <class Work>
void answer(sqlite3_context* context, const Work& work) noexcept {
  try {
    work();
  } catch (const std::bad_alloc&) {
    sqlite3_result_error_nomem(context);
  }
}

void answer_sha256_of(sqlite3_context* context, int, sqlite3_value** values) {
  if (sqlite3_value_type(values[0]) == SQLITE_NULL) return sqlite3_result_null(context);
  answer(context, [&] {
    const auto digits = sha256(bytes_in(values[0]));
    sqlite3_result_text(context, digits.data(), static_cast<int>(digits.size()), SQLITE_TRANSIENT);
  });
}

void answer_signature_fits(sqlite3_context* context, int, sqlite3_value** values) {
  answer(context, [&] {
    const bool fits = signature_fits(bytes_in(values[0]), bytes_in(values[1]), bytes_in(values[2]),
                                     bytes_in(values[3]), bytes_in(values[4]));
    sqlite3_result_int(context, fits ? 1 : 0);
  });
}

using Answer = void (*)(sqlite3_context* context, int count, sqlite3_value** values);

void add_function(SQLite::Database& database, const char* name, int arguments, Answer answer) {
  const int result = sqlite3_create_function_v2(
      database.getHandle(), name, arguments, SQLITE_UTF8 | SQLITE_DETERMINISTIC | SQLITE_INNOCUOUS,
      nullptr, answer, nullptr, nullptr, nullptr);
  if (result != SQLITE_OK) throw SQLite::Exception(database.getHandle(), result);
}

}  // namespace

void add_own_functions(SQLite::Database& database) {
  add_function(database, "sha256_of", 1, answer_sha256_of);
  add_function(database, "signature_fits", 5, answer_signature_fits);
}

}  // namespace logbook
