#include "fleet/loading.h"

#include <fmt/format.h>

#include <algorithm>
#include <pqxx/nontransaction>
#include <pqxx/transaction>
#include <span>
#include <unordered_map>

#include "fleet/libpqxx.h"
#include "fleet/results.h"
#include "fleet/server_trouble.h"

namespace fleet {
namespace {

constexpr std::size_t kLinesAtOnce = 5000;  // in one transaction
constexpr double kShareOfLines = 0.7;       // of the time that it takes, about

template <std::size_t kColumns>
void copy_rows(pqxx::work& work, const Rows<kColumns>& rows) {
  const std::vector<std::string> columns(rows.columns.begin(), rows.columns.end());
  auto stream = stream_into(work, std::string(rows.table), columns);
  std::array<const char*, kColumns> values{};
  for (const auto& row : rows.rows) {
    std::ranges::transform(row, values.begin(),
                           [](const Cell& cell) { return cell ? cell->c_str() : nullptr; });
    stream << values;
  }
  stream.complete();
}

}  // namespace

Loading::Loading(pqxx::connection& connection, Source source, const std::string& version,
                 const std::function<void(double)>& share_done)
    : connection_(connection),
      source_(std::move(source)),
      version_(version),
      share_done_(share_done) {
  pqxx::nontransaction lock(connection_);
  asked_with(lock, "SELECT pg_advisory_lock(hashtextextended($1, 0))", logbook());
}

Loading::~Loading() {
  try {
    pqxx::nontransaction unlock(connection_);
    unlock.exec("SELECT pg_advisory_unlock_all()");
  } catch (const pqxx::failure&) {
    // The lock has gone with the connection.
  }
}

Loaded Loading::run() {
  try {
    std::size_t others = 0;
    const auto lines = missing(others);
    const auto all = source_.copy.lines.size();
    if (others > 0 && lines.empty()) return {Loaded::How::Older, all, 0};
    if (others > 0) {
      throw failure::Refusal(
          fmt::format("the fleet has {} lines that this copy has not, and the copy {} that the "
                      "fleet has not; make "
                      "the copies one (boltwitness merge), then load that",
                      others, lines.size()));
    }
    add_lines(lines);
    put_results();
    return {lines.size() == all ? Loaded::How::New
            : lines.empty()     ? Loaded::How::Anew
                                : Loaded::How::Grown,
            all, lines.size()};
  } catch (const pqxx::data_exception& error) {
    refuse(error.what());
  } catch (const pqxx::integrity_constraint_violation& error) {
    refuse(error.what());
  }
  return {};
}

void Loading::refuse(const std::string& why) const {
  throw failure::Refusal(fmt::format("the server does not take what it says: {}", said(why)));
}

Loading::Missing Loading::missing(std::size_t& others) {
  std::unordered_map<std::string, std::string> here;
  {
    pqxx::nontransaction look(connection_);
    for (const auto& row : asked_with(look,
                                      "SELECT id, encode(hash, 'hex') FROM fleet.line "
                                      "WHERE logbook = $1",
                                      logbook())) {
      here.emplace(row[0].c_str(), row[1].c_str());
    }
  }
  Missing lines;
  for (const auto& line : source_.copy.lines) {
    const auto known = here.find(line.id);
    if (known == here.end()) {
      lines.push_back(&line);
      continue;
    }
    if (known->second != line.hash.value().hash) {
      throw failure::Refusal(fmt::format(
          "line {} is another in the fleet, by its hash; one of the two was changed since it was "
          "written: hold the file against an older copy (boltwitness verify --against)",
          line.line));
    }
  }
  others = here.size() - (source_.copy.lines.size() - lines.size());
  return lines;
}

void Loading::add_lines(const Missing& lines) {
  for (std::size_t begin = 0; begin < lines.size(); begin += kLinesAtOnce) {
    const auto batch =
        std::span(lines).subspan(begin, std::min(kLinesAtOnce, lines.size() - begin));
    auto rows = no_lines();
    for (const auto* line : batch) add_line(rows, logbook(), *line);
    pqxx::work work(connection_);
    if (begin == 0) {
      asked_with(work,
                 "INSERT INTO fleet.logbook (logbook, machine, file, lines, ends, worked_out_by, "
                 "loaded_at) "
                 "VALUES ($1, $2, $3, 0, '', '', now()) ON CONFLICT DO NOTHING",
                 logbook(), source_.job.start.machine, source_.file);
    }
    copy_rows(work, rows);
    work.commit();
    share_done_(kShareOfLines * static_cast<double>(begin + batch.size()) /
                static_cast<double>(lines.size()));
  }
}

void Loading::put_results() {
  const auto results = work_out(logbook(), std::move(source_.job), source_.now);
  pqxx::work work(connection_);
  results.for_each([&](const auto& rows) {
    asked_with(work, fmt::format("DELETE FROM fleet.{} WHERE logbook = $1", rows.table), logbook());
    copy_rows(work, rows);
  });
  asked_with(work,
             "UPDATE fleet.logbook SET file = $2, lines = $3, ends = $4, worked_out_by = $5, "
             "loaded_at = now() WHERE logbook = $1",
             logbook(), source_.file, source_.copy.lines.size(), source_.ends, version_);
  work.commit();
  share_done_(1.0);
}

}  // namespace fleet
