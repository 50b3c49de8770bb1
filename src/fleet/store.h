#pragma once

#include <cstddef>
#include <functional>
#include <memory>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "failure/failure.h"
#include "fleet/question.h"
#include "record/job.h"
#include "record/logbook_copy.h"
#include "record/moment.h"

namespace fleet {

// The server could not be reached, or could not do what it was asked. What had been loaded stays.
class ServerError : public failure::Failure {
 public:
  explicit ServerError(const std::string& message) : Failure(failure::kLogbookTrouble, message) {}
};

// A logbook as it was read, to be loaded.
struct Source {
  std::string file;          // its name without the folder
  record::LogbookCopy copy;  // never empty
  record::Job job;
  std::string ends;         // the hashes of the ends of its log, by which its lines are known again
  record::Moment now = {};  // of the day on which it is loaded
};

struct Loaded {
  // New here, had new lines, was worked out anew by this version, or is an older copy of what is
  // here already.
  enum class How { New, Grown, Anew, Older };
  How how = How::New;
  std::size_t lines = 0;      // that it has
  std::size_t new_lines = 0;  // that were not here
};

// What is asked of the fleet.
struct Asked {
  const Question& question;
  std::string machine;              // of this one alone; of all where empty
  record::Moment moment;            // what is overdue then
  std::optional<std::size_t> most;  // so many rows, all where nothing is said
};

struct Answer {
  // Objects with the columns of the view, in their order; moments as record::write_utc writes them.
  nlohmann::ordered_json rows = nlohmann::ordered_json::array();
  std::size_t all = 0;  // how many rows there are
};

// The fleet in the database of a PostgreSQL server. Every member may throw ServerError.
class Store {
 public:
  Store() = default;
  Store(const Store&) = delete;
  Store& operator=(const Store&) = delete;
  virtual ~Store() = default;

  // Whether all of the logbook with this first line is here, as Source::ends has it, worked out by
  // this version.
  [[nodiscard]] virtual bool holds(const std::string& first_id, const std::string& ends) = 0;

  // Adds the lines that are not here yet, some thousands in a transaction, then puts what is worked
  // out of all of them in place of what was there, in one. Whatever stops it, the next load goes
  // on. `share_done` is called now and then with the share of the lines that is done, 0 to 1.
  // Refusal where a line of the same id is another here, where the fleet has lines that this copy
  // has not and the other way round, and for what the server does not take, such as a broken
  // character.
  virtual Loaded load(Source source, const std::function<void(double)>& share_done) = 0;

  [[nodiscard]] virtual Answer ask(const Asked& asked) = 0;

  // The machines of which a logbook is loaded, by name; with one named, only that, in any case.
  [[nodiscard]] virtual std::vector<std::string> machines(const std::string& named) = 0;
};

// Whether an unencrypted connection to another machine may be made.
enum class Unencrypted { Refused, Allowed };

// A server as it was named on the command line, under which option.
struct NamedServer {
  std::string_view option;  // "--to"
  std::string address;      // postgresql://name@server/database, or anything else libpq takes
  Unencrypted unencrypted = Unencrypted::Refused;
};

// Connects and brings the tables there up to date; `version` is that of the program, by which what
// it works out is marked. UsageError where the address is none, holds a password, or asks for a
// connection to another machine without encryption and that is not allowed; ServerError where the
// fleet there is of a later version.
[[nodiscard]] std::unique_ptr<Store> open_to_load(const NamedServer& server,
                                                  const std::string& version);

// The same for asking: changes nothing there. ServerError also where there is no fleet yet.
[[nodiscard]] std::unique_ptr<Store> open_to_ask(const NamedServer& server);

}  // namespace fleet
