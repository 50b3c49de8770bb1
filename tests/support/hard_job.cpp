#include "support/hard_job.h"

#include <fmt/format.h>

namespace {

constexpr const char* kLong =
    "cover of the oil gallery on the generator side, under the cable tray and behind the second "
    "handrail, with the four long bolts nearest to the dowel (see sketch)";
constexpr const char* kUnbroken = "Zwischengetriebegehaeusedeckelbefestigungsschraubensicherung";
constexpr const char* kMarkup = "<script>alert(1)</script> & \"quoted\" <b>bold";
constexpr const char* kRightToLeft = "מכסה המסב ליד הגנרטור";

void joint(Trial& trial, const std::string& code, int count, const std::string& layout,
           const std::string& holds) {
  trial.done(fmt::format(
      "joint {} --holds '{}' --size M12x1.75 --length 90mm --grade 8.8 --count {} --layout '{}' "
      "--spec '60 N·m, +60° (55-65)' --source 'GB-1 Shop Manual rev C, {}' --one-time --critical "
      "--recheck '50 running h'",
      code, holds, count, layout, kLong));
}

// Every bolt of it one by one, so that each has a line of its own.
void work_through(Trial& trial, const std::string& code, int count) {
  for (int position = 1; position <= count; ++position) {
    const auto where = fmt::format("{}/{}", code, position);
    trial.done(fmt::format("found {} 50s 55s 5{}s 60o --wrench TW2", where, 6 + position % 4));
    trial.done(fmt::format("out {} --bag '{}' --note 'bolt {}, {}'", where, kRightToLeft, position,
                           position % 8 == 0 ? kMarkup : "a little rust under the head"));
  }
  trial.done(fmt::format("tighten {}/1-{} --pass 1", code, count));
  for (int position = 1; position <= count; ++position) {
    trial.done(
        fmt::format("tighten {}/{} --pass 2 --turned {}°", code, position, 57 + position % 7));
  }
}

}  // namespace

void run_hard_job(Trial& trial) {
  trial.now = record::read_moment("2025-06-01T08:00:00Z");
  const auto log = trial.folder().file("gb1.bolts");
  trial.environment["BOLTWITNESS_LOG"] = log;
  trial.done(fmt::format("start {} --machine 'GB-1 {} {}'", log, kMarkup, kRightToLeft));
  trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2025-03-02");
  joint(trial, "J04", 4, "rectangle 2x2", kMarkup);
  joint(trial, "J16", 16, "rectangle 2x8", kRightToLeft);
  joint(trial, "J24", 24, "line", kLong);
  joint(trial, "J32", 32, "circle", kUnbroken);
  joint(trial, "J48", 48, "rectangle 4x12", kLong);
  joint(trial, "cover-of-the-oil-gallery-west", 120, "circle", kLong);
  trial.done(fmt::format("hold-point HV --what '{}' --wait 10min --before J48", kLong));
  trial.done(fmt::format("item CL1 --what '{}' --count 6 --before J48", kMarkup));
  trial.done(fmt::format("fluid '{}' --drained '1.2 L' --note '{}'", kUnbroken, kLong));
  trial.done("hold-point HV --begin");
  trial.now += std::chrono::minutes(11);
  trial.done("hold-point HV --pass --note '0 V'");
  work_through(trial, "J48", 48);
  trial.done("out J16/1-16 --broke tight --bag A1");
}
