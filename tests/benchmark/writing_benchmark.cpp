// How long it takes to write, bind and read what lines are made of. Whole commands are measured by
// scripts/bench. usage: writing_benchmark [--benchmark_filter=WORD ...]

#include <SQLiteCpp/SQLiteCpp.h>
#include <benchmark/benchmark.h>
#include <fmt/format.h>
#include <unistd.h>

#include <filesystem>
#include <utility>

#include "exchange/csv.h"
#include "exchange/logbook_json.h"
#include "logbook/canonical_line.h"
#include "logbook/hash_chain.h"
#include "logbook/logbook.h"
#include "logbook/recording.h"
#include "tables/row_marks.h"

namespace {

namespace fs = std::filesystem;

record::Measured some_finding(int position) {
  record::Measured finding;
  finding.joint = "J06";
  finding.position = 1 + position % 10'000;
  finding.wrench = "TW2";
  finding.unit = quantity::TorqueUnit::NewtonMetre;
  finding.readings_typed = "80s 82o 84p";
  finding.readings = record::read_readings(finding.readings_typed, std::nullopt);
  return finding;
}

// A logbook of so many findings, in a file of its own.
class SomeLogbook {
 public:
  explicit SomeLogbook(int findings)
      : path_(fs::temp_directory_path() / fmt::format("writing-{}.bolts", ::getpid())) {
    remove();
    const auto now = record::read_moment("2026-03-02T08:15Z");
    writer_ = {"KB", "00000000-0000-4000-8000-000000000001", now, now};
    record::LogbookStart start;
    start.machine = "gearbox";
    logbook::start_logbook(path_.string(), start, writer_);
    write(findings);
  }
  ~SomeLogbook() { remove(); }
  SomeLogbook(const SomeLogbook&) = delete;
  SomeLogbook& operator=(const SomeLogbook&) = delete;

  void write(int findings) {
    auto logbook = logbook::Logbook::open_to_write(path_.string());
    logbook::Recording recording(logbook, writer_);
    for (int i = 0; i < findings; ++i) recording.append(some_finding(i));
    recording.commit();
  }

  [[nodiscard]] std::string path() const { return path_.string(); }

 private:
  void remove() const {
    for (const auto* end : {"", "-wal", "-shm"}) fs::remove(path_.string() + end);
  }

  fs::path path_;
  logbook::Writer writer_;
};

void write_findings(benchmark::State& state) {
  SomeLogbook logbook(0);
  for (auto _ : state) logbook.write(static_cast<int>(state.range(0)));
  state.SetItemsProcessed(state.iterations() * state.range(0));
}
BENCHMARK(write_findings)->Arg(1)->Arg(1000)->Unit(benchmark::kMillisecond);

void canonical_lines(benchmark::State& state) {
  const SomeLogbook logbook(1000);
  SQLite::Database database(logbook.path());
  for (auto _ : state) {
    logbook::CanonicalLines(database).for_each(
        [](const auto& line) { benchmark::DoNotOptimize(line.text.size()); },
        [](const std::string&, const std::string&) {});
  }
  state.SetItemsProcessed(state.iterations() * 1000);
}
BENCHMARK(canonical_lines)->Unit(benchmark::kMillisecond);

void hash_of_a_line(benchmark::State& state) {
  const std::string text(700, 'x');
  const logbook::Link link{std::string(64, 'a'), std::string(64, 'a'), ""};
  for (auto _ : state) benchmark::DoNotOptimize(logbook::hash_of(link, text));
}
BENCHMARK(hash_of_a_line);

void rows_of_a_table(benchmark::State& state) {
  std::string text = "address,readings,wrench,unit,by,at\r\n";
  for (int i = 0; i < 1000; ++i) {
    text += exchange::write_csv_row(
        {fmt::format("J06/{}", i), "80s 82o 84p", "TW2", "N·m", "KB", "2026-03-02T08:15Z"});
  }
  for (auto _ : state) {
    bool is_given = false;
    exchange::CsvReader reader([&] {
      return std::exchange(is_given, true) ? std::string_view() : std::string_view(text);
    });
    while (const auto* row = reader.next()) benchmark::DoNotOptimize(row->size());
  }
  state.SetBytesProcessed(state.iterations() * static_cast<std::int64_t>(text.size()));
}
BENCHMARK(rows_of_a_table);

void known_rows(benchmark::State& state) {
  for (auto _ : state) {
    tables::RowMarks marks;
    for (int i = 0; i < 10'000; ++i) {
      benchmark::DoNotOptimize(
          marks.add(tables::RowMarks::mark_of(fmt::format("J06/{} 80s 82o 84p TW2", i)), 1));
    }
  }
  state.SetItemsProcessed(state.iterations() * 10'000);
}
BENCHMARK(known_rows);

void copy_as_json(benchmark::State& state) {
  const SomeLogbook some(1000);
  const auto logbook = logbook::Logbook::open_to_read(some.path());
  for (auto _ : state) {
    std::size_t bytes = 0;
    exchange::LogbookJsonWriter writer(
        exchange::LogbookForm::Document, [&](std::string_view piece) { bytes += piece.size(); },
        [&](const std::string& sha256) { return logbook.photograph_with(sha256); });
    logbook.copy(writer);
    benchmark::DoNotOptimize(bytes);
  }
  state.SetItemsProcessed(state.iterations() * 1000);
}
BENCHMARK(copy_as_json)->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();
