#include "fleet/postgres_store.h"

#include <fmt/format.h>

#include <pqxx/nontransaction>
#include <pqxx/transaction>

#include "fleet/libpqxx.h"
#include "fleet/loading.h"
#include "fleet/schema.h"
#include "fleet/server_address.h"
#include "fleet/server_trouble.h"

namespace fleet {
namespace {

int last_step() { return embedded_steps().back().version; }

// Columns of moments end so; every other is as the server writes it.
bool is_moment(const std::string& column) { return column.ends_with("_at"); }

// One row as row_to_json writes it, in the zone UTC.
nlohmann::ordered_json row_of(const char* text) {
  auto row = nlohmann::ordered_json::parse(text);
  for (auto& [column, value] : row.items()) {
    if (is_moment(column) && value.is_string()) {
      value = record::write_utc(record::read_moment(value.get<std::string>()));
    }
  }
  return row;
}

// The step of the tables there; 0 where there is no fleet.
int step_in(pqxx::transaction_base& look) {
  if (look.exec("SELECT to_regclass('fleet.step')")[0][0].is_null()) return 0;
  return look.exec("SELECT coalesce(max(step), 0) FROM fleet.step")[0][0].as<int>();
}

}  // namespace

PostgresStore::PostgresStore(const NamedServer& server, std::string version)
    : version_(std::move(version)), connection_(connection_options(server)) {
  pqxx::nontransaction session(connection_);
  session.exec("SET TimeZone = 'UTC'");
  session.exec("SET DateStyle = 'ISO'");
  session.exec("SET search_path = pg_catalog");
  session.exec("SET lock_timeout = '60s'");
  // A question goes over sixteen shares of several tables: to compile it takes longer than it
  // saves.
  session.exec("SET jit = off");
}

int PostgresStore::step() {
  pqxx::nontransaction look(connection_);
  return step_in(look);
}

void PostgresStore::make_tables() {
  with_server([&] {
    if (step() < last_step()) {
      pqxx::work work(connection_);
      work.exec("SELECT pg_advisory_xact_lock(hashtextextended('boltwitness fleet', 0))");
      const int done = step_in(work);
      for (const auto& each : embedded_steps()) {
        if (each.version <= done) continue;
        work.exec(std::string(each.sql));
        asked_with(work, "INSERT INTO fleet.step (step) VALUES ($1)", each.version);
      }
      work.commit();
    }
  });
  check_tables();
}

void PostgresStore::check_tables() {
  const int there = with_server([&] { return step(); });
  if (there == last_step()) return;
  if (there == 0) {
    throw ServerError(
        "there is no fleet in that database yet; \"boltwitness fleet load --to ADDRESS LOGBOOK "
        "...\" "
        "makes one");
  }
  if (there > last_step()) {
    throw ServerError(
        fmt::format("the fleet there has step {} of its tables, and this program knows {}; use the "
                    "later version "
                    "of boltwitness",
                    there, last_step()));
  }
  throw ServerError(
      fmt::format("the fleet there has step {} of its tables, and this program asks step {}; load "
                  "a logbook with "
                  "this version once",
                  there, last_step()));
}

bool PostgresStore::holds(const std::string& first_id, const std::string& ends) {
  return with_server([&] {
    pqxx::nontransaction look(connection_);
    return !asked_with(look,
                       "SELECT 1 FROM fleet.logbook WHERE logbook = $1 AND ends = $2 AND "
                       "worked_out_by = $3",
                       first_id, ends, version_)
                .empty();
  });
}

Loaded PostgresStore::load(Source source, const std::function<void(double)>& share_done) {
  return with_server(
      [&] { return Loading(connection_, std::move(source), version_, share_done).run(); });
}

Answer PostgresStore::ask(const Asked& asked) {
  return with_server([&] {
    pqxx::read_transaction look(connection_);
    asked_with(look, "SELECT set_config('fleet.moment', $1, true)",
               record::write_utc(asked.moment));
    const auto& question = asked.question;
    const auto rows = asked_with(
        look,
        fmt::format("SELECT row_to_json(v), count(*) OVER () FROM fleet.{} v {} ORDER BY {} {}",
                    question.view,
                    question.of_machines ? "WHERE $1 = '' OR lower(v.machine) = lower($1)"
                                         : "WHERE $1 = ''",
                    question.order,
                    asked.most ? fmt::format("LIMIT {}", *asked.most) : std::string()),
        asked.machine);
    Answer answer;
    for (const auto& row : rows) {
      answer.rows.push_back(row_of(row[0].c_str()));
      answer.all = row[1].as<std::size_t>();
    }
    return answer;
  });
}

std::vector<std::string> PostgresStore::machines(const std::string& named) {
  return with_server([&] {
    pqxx::nontransaction look(connection_);
    std::vector<std::string> names;
    for (const auto& row :
         asked_with(look,
                    "SELECT min(machine) FROM fleet.logbook WHERE $1 = '' OR lower(machine) = "
                    "lower($1) GROUP BY lower(machine) ORDER BY 1",
                    named)) {
      names.emplace_back(row[0].c_str());
    }
    return names;
  });
}

std::unique_ptr<Store> open_to_load(const NamedServer& server, const std::string& version) {
  auto store = with_server([&] { return std::make_unique<PostgresStore>(server, version); });
  store->make_tables();
  return store;
}

std::unique_ptr<Store> open_to_ask(const NamedServer& server) {
  auto store = with_server([&] { return std::make_unique<PostgresStore>(server, std::string()); });
  store->check_tables();
  return store;
}

}  // namespace fleet
