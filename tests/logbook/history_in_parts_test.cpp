#include <algorithm>
#include <iterator>

#include "logbook/logbook.h"
#include "logbook/recording.h"
#include "support/catch.h"
#include "support/random_logbook.h"
#include "support/temporary_folder.h"
#include "words/line_text.h"

namespace history_in_parts_test {

namespace {

using Lines = std::vector<record::HistoryLine>;

std::vector<std::string> told(const Lines& lines) {
  std::vector<std::string> all;
  for (const auto& line : lines) {
    auto text = line.stamp.id + ' ' + words::line_text(line.content);
    if (line.struck_by) text += ' ' + line.struck_by->id + ' ' + line.struck_why;
    for (const auto& again : line.struck_again) text += ' ' + again.by.id + ' ' + again.why;
    all.push_back(std::move(text));
  }
  return all;
}

std::vector<Lines> parts_of(const logbook::Logbook& logbook) {
  std::vector<Lines> parts;
  logbook.history_in_parts([&](Lines part) { parts.push_back(std::move(part)); });
  return parts;
}

Lines together(std::vector<Lines> parts) {
  Lines all;
  for (auto& part : parts) std::ranges::move(part, std::back_inserter(all));
  return all;
}

}  // namespace

TEST_CASE("the parts of a history are the history", "[logbook]") {
  for (unsigned seed = 1; seed <= 12; ++seed) {
    const TemporaryFolder folder;
    const auto path = folder.file("a.bolts");
    make_random_logbook(path, seed);
    go_on_at_random(path, seed, "00000000-0000-4000-8000-000000000001",
                    record::read_moment("2026-06-02T08:00:00Z"));
    INFO(seed);
    const auto logbook = logbook::Logbook::open_to_read(path);
    CHECK(told(together(parts_of(logbook))) == told(logbook.history()));
  }
}

TEST_CASE("a long history comes in parts, each line with its strike of another part",
          "[logbook][slow]") {
  const TemporaryFolder folder;
  const auto path = folder.file("a.bolts");
  const auto now = record::read_moment("2026-06-01T08:00:00Z");
  const logbook::Writer writer{"KB", "00000000-0000-4000-8000-000000000001", now, now};
  record::LogbookStart start;
  start.machine = "GB-1";
  logbook::start_logbook(path, start, writer);
  {
    auto logbook = logbook::Logbook::open_to_write(path);
    logbook::Recording recording(logbook, writer);
    std::vector<std::string> ids;
    for (int i = 0; i < 5100; ++i) {
      ids.push_back(recording.append(record::CountedItem{"CL1", "clip", 1, ""}).id);
    }
    for (const auto line : {0, 4997, 4998, 4999, 5000, 5099}) {
      recording.append(record::Strike{ids[static_cast<std::size_t>(line)], "not there"});
    }
    recording.commit();
  }
  const auto logbook = logbook::Logbook::open_to_read(path);
  const auto parts = parts_of(logbook);
  CHECK(parts.size() == 2);
  for (const auto& part : parts) CHECK(part.size() <= 5000);
  const auto all = together(parts);
  CHECK(std::ranges::count_if(all, [](const auto& line) { return line.struck_by.has_value(); }) ==
        6);
  CHECK(told(all) == told(logbook.history()));
}

}  // namespace history_in_parts_test
