#include "logbook/copies_apart.h"

#include <SQLiteCpp/SQLiteCpp.h>

#include <algorithm>
#include <functional>
#include <unordered_set>
#include <utility>

#include "logbook/every_kind.h"
#include "logbook/hash_chain.h"
#include "logbook/logbook_error.h"

namespace logbook {
namespace {

using record::Apart;

struct BoundLine {
  std::string id;
  std::string hash;
  std::vector<std::string> before;  // hashes
};

using Stretch = std::vector<BoundLine>;

// The lines between those from which copies went apart and those that came after all of them again,
// falling by id within each stretch and from one to the next.
std::vector<Stretch> stretches_apart(SQLite::Database& database) {
  SQLite::Statement joining(database, R"(
      SELECT max(entry_id) FROM line_hash WHERE length(file_before) > 64 AND entry_id < ?)");
  SQLite::Statement row(database, R"(
      SELECT entry_id, hash, file_before FROM line_hash
      WHERE entry_id <= ? ORDER BY entry_id DESC)");
  std::vector<Stretch> stretches;
  std::unordered_set<std::string> awaited;  // named by lines above, and not come to yet
  if (auto ends = end_hashes(database); ends.size() > 1) {
    stretches.emplace_back();
    awaited.insert(ends.begin(), ends.end());
  }
  std::string top = "g";  // above every id
  for (;;) {
    if (awaited.empty()) {
      joining.reset();
      joining.bind(1, top);
      if (!joining.executeStep() || joining.getColumn(0).isNull()) break;
      top = joining.getColumn(0).getString();
    }
    row.reset();
    row.bind(1, top);
    bool is_closed = false;
    while (!is_closed && row.executeStep()) {
      BoundLine line{row.getColumn(0).getString(), row.getColumn(1).getString(),
                     hashes_in(row.getColumn(2).getString())};
      awaited.erase(line.hash);
      const bool is_alone = awaited.empty();
      if (is_alone && line.before.size() < 2) {
        top = line.id;  // they went apart from here
        is_closed = true;
        continue;
      }
      awaited.insert(line.before.begin(), line.before.end());
      if (is_alone) {
        stretches.emplace_back();  // all came together here
      } else {
        stretches.back().push_back(std::move(line));
      }
    }
    if (!is_closed) break;
  }
  return stretches;
}

// Gives the lines of one stretch their chains, from the first on.
class Chains {
 public:
  Chains(int stretch, Apart& apart) : stretch_(stretch), apart_(apart) {}

  void add(const BoundLine& line) {
    std::vector<const Apart::Place*> before;
    for (const auto& hash : line.before) {
      const auto at = places_.find(hash);
      if (at != places_.end()) before.push_back(&at->second);
    }
    Apart::Place place{stretch_, 0, 0, nullptr};
    const auto continued = std::ranges::find_if(before, [&](const auto* each) {
      return lengths_[static_cast<std::size_t>(each->chain)] == each->place + 1;
    });
    if (continued != before.end()) {
      place.chain = (*continued)->chain;
    } else {
      place.chain = static_cast<int>(lengths_.size());
      check_number();
      lengths_.push_back(0);
    }
    place.place = lengths_[static_cast<std::size_t>(place.chain)]++;
    place.seen = seen_by(before, place.chain);
    apart_.add(line.id, place);
    places_.insert_or_assign(line.hash, std::move(place));
  }

 private:
  void check_number() const {
    constexpr std::size_t kMost = 1000;
    if (lengths_.size() < kMost) return;
    throw LogbookError(LogbookError::Kind::Damaged,
                       "this logbook says that more than 1000 copies of it were apart at one time, "
                       "which cannot be; go back to a copy");
  }

  // All that those before it had seen, and they; the same object along a chain.
  static std::shared_ptr<const std::vector<int>> seen_by(
      const std::vector<const Apart::Place*>& before, int chain) {
    if (before.empty()) return nullptr;
    if (before.size() == 1 && before.front()->chain == chain) return before.front()->seen;
    std::vector<int> seen;
    const auto note = [&](std::size_t of, int count) {
      if (seen.size() <= of) seen.resize(of + 1, 0);
      seen[of] = std::max(seen[of], count);
    };
    for (const auto* each : before) {
      if (each->seen != nullptr) {
        for (std::size_t i = 0; i < each->seen->size(); ++i) note(i, (*each->seen)[i]);
      }
      note(static_cast<std::size_t>(each->chain), each->place + 1);
    }
    return std::make_shared<const std::vector<int>>(std::move(seen));
  }

  int stretch_;
  Apart& apart_;
  std::unordered_map<std::string, Apart::Place> places_;  // by hash
  std::vector<int> lengths_;                              // of the chains
};

// The strikes of those times, with what they struck.
void add_struck(SQLite::Database& database, Apart& apart) {
  SQLite::Statement row(database, "SELECT entry_id, struck_id FROM strike ORDER BY entry_id");
  std::vector<std::pair<std::string, std::string>> strikes;  // id of the strike, of what it struck
  while (row.executeStep()) {
    auto id = row.getColumn(0).getString();
    if (apart.has(id)) strikes.emplace_back(std::move(id), row.getColumn(1).getString());
  }
  if (strikes.empty()) return;
  const auto first =
      std::ranges::min_element(strikes, {}, [](const auto& each) { return each.second; });
  std::vector<record::UnreadableLine> unreadable;  // says nothing that could be built upon
  const RowFilter filter{.unreadable = unreadable, .from_id = first->second, .struck_too = true};
  std::unordered_map<std::string, record::HistoryLine> lines;
  for (auto& line : read_every_line(database, filter)) {
    auto id = line.stamp.id;
    lines.emplace(std::move(id), std::move(line));
  }
  std::unordered_map<std::string, record::Stamp> stamps;
  for (const auto& strike : read_rows(database, filter, Rows<record::Strike>{})) {
    stamps.emplace(strike.stamp.id, strike.stamp);
  }
  for (const auto& [id, struck_id] : strikes) {
    const auto by = stamps.find(id);
    const auto struck = lines.find(struck_id);
    if (by == stamps.end() || struck == lines.end()) continue;
    apart.add(Apart::Struck{by->second, struck->second.stamp, struck->second.content});
  }
}

}  // namespace

record::Apart read_apart(SQLite::Database& database) {
  Apart apart;
  int number = 0;
  for (auto& stretch : stretches_apart(database)) {
    Chains chains(number++, apart);
    std::ranges::reverse(stretch);
    for (const auto& line : stretch) chains.add(line);
  }
  if (!apart.is_empty()) add_struck(database, apart);
  return apart;
}

}  // namespace logbook
