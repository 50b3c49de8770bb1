#include "progress/item_count.h"

#include "support/catch.h"

namespace item_count_test {

TEST_CASE("items are counted off and back, whatever the case of their code", "[progress]") {
  record::Job job;
  job.items = {{{}, {"CL1", "clips", 6, "J07"}}, {{}, {"H2", "hoses", 2, ""}}};
  job.item_returns = {{{}, {"cl1", 4}}, {{}, {"CL1", 1}}, {{}, {"GONE", 3}}};
  const auto counts = progress::item_counts(job);
  REQUIRE(counts.size() == 2);
  CHECK(counts[0].off == 6);
  CHECK(counts[0].back == 5);
  CHECK(counts[0].missing() == 1);
  CHECK(counts[1].missing() == 2);
  CHECK(progress::count_of(counts, "h2") == &counts[1]);
  CHECK(progress::count_of(counts, "GONE") == nullptr);
}

TEST_CASE("what comes off once more adds to the count", "[progress]") {
  record::Job job;
  job.items = {{{}, {"CL1", "clips", 6, ""}}, {{}, {"CL1", "clips, new ones", 2, ""}}};
  job.item_returns = {{{}, {"CL1", 6}}};
  const auto counts = progress::item_counts(job);
  REQUIRE(counts.size() == 1);
  CHECK(counts[0].missing() == 2);
  CHECK(counts[0].item->what == "clips, new ones");
}

}  // namespace item_count_test
