#pragma once

#include <functional>
#include <pqxx/connection>
#include <string>
#include <vector>

#include "fleet/store.h"

namespace fleet {

// One logbook on its way into the fleet (Store::load). Nobody else loads the same one meanwhile.
class Loading {
 public:
  Loading(pqxx::connection& connection, Source source, const std::string& version,
          const std::function<void(double)>& share_done);
  ~Loading();
  Loading(const Loading&) = delete;
  Loading& operator=(const Loading&) = delete;

  [[nodiscard]] Loaded run();

 private:
  using Missing = std::vector<const record::StoredLine*>;
  [[nodiscard]] const std::string& logbook() const { return source_.copy.lines.front().id; }
  // Those of its lines that are not here; `others` are those here that it has not.
  [[nodiscard]] Missing missing(std::size_t& others);
  void add_lines(const Missing& lines);
  void put_results();
  void refuse(const std::string& why) const;

  pqxx::connection& connection_;
  Source source_;
  const std::string& version_;
  const std::function<void(double)>& share_done_;
};

}  // namespace fleet
