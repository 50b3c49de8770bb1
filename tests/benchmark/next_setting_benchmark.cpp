// Searches 10,000 invented bolts with the proposed settings and with the baseline "fixed 5 %
// steps", and prints pulls and grades of both. usage: next_setting_benchmark [SEED]

#include <fmt/format.h>

#include <array>
#include <chrono>
#include <cstdlib>

#include "finding/search_simulation.h"

namespace {

constexpr std::uint64_t kBolts = 10'000;

// What the searches of one group of bolts came to, both ways.
struct Tally {
  std::size_t bolts = 0;
  std::array<std::size_t, 2> bracketed{};
  std::array<std::size_t, 2> grade_a{};  // by the rising settings alone
  std::array<std::size_t, 2> settled{};  // with narrowing
  std::array<std::size_t, 2> pulls{};
  std::array<std::size_t, 2> passed_ceiling{};
  std::size_t both_settled = 0;
  std::array<std::size_t, 2> pulls_to_grade_a{};  // of the bolts that both ways settled

  void count(const SimulatedBolt& bolt) {
    ++bolts;
    const std::array ends = {bolt.fixed, bolt.proposed};
    for (std::size_t way = 0; way < ends.size(); ++way) {
      const auto& end = ends[way];
      pulls[way] += end.pulls;
      if (end.bracketed) ++bracketed[way];
      if (end.grade == finding::Grade::A) ++grade_a[way];
      if (end.pulls_to_grade_a) ++settled[way];
      if (end.passed_ceiling) ++passed_ceiling[way];
    }
    if (!bolt.fixed.pulls_to_grade_a || !bolt.proposed.pulls_to_grade_a) return;
    ++both_settled;
    pulls_to_grade_a[0] += *bolt.fixed.pulls_to_grade_a;
    pulls_to_grade_a[1] += *bolt.proposed.pulls_to_grade_a;
  }
};

double over(std::size_t part, std::size_t whole) {
  return whole == 0 ? 0.0 : static_cast<double>(part) / static_cast<double>(whole);
}

void print_rows(std::string_view name, const Tally& tally) {
  constexpr std::array kWays = {"fixed 5 % steps", "proposed"};
  for (std::size_t way = 0; way < kWays.size(); ++way) {
    fmt::print(
        "{:<17} {:<15} {:>6} {:>9.1f} {:>8.1f} {:>8.1f} {:>6.2f} {:>6.2f} {:>7.2f} {:>9.2f} "
        "{:>6.2f} {:>6}\n",
        way == 0 ? name : "", kWays[way], tally.bolts,
        100.0 * over(tally.bracketed[way], tally.bolts),
        100.0 * over(tally.grade_a[way], tally.bolts),
        100.0 * over(tally.settled[way], tally.bolts), over(tally.pulls[way], tally.bolts),
        over(tally.pulls[way], tally.pulls[0]), over(tally.pulls[way], tally.grade_a[way]),
        over(tally.pulls_to_grade_a[way], tally.both_settled),
        over(tally.pulls_to_grade_a[way], tally.pulls_to_grade_a[0]), tally.passed_ceiling[way]);
  }
}

}  // namespace

int main(int argc, char** argv) {
  const std::uint64_t seed = argc > 1 ? std::strtoull(argv[1], nullptr, 10) : 1;
  std::array<Tally, 3> where;
  std::array<Tally, 3> where_scale_is_fine;  // graduation at most 1 % of the nominal torque
  Tally all;
  const auto begin = std::chrono::steady_clock::now();
  for (std::uint64_t number = 0; number < kBolts; ++number) {
    const auto bolt = simulate_bolt(seed, number);
    where[static_cast<std::size_t>(bolt.where)].count(bolt);
    if (bolt.graduation <= 0.01) {
      where_scale_is_fine[static_cast<std::size_t>(bolt.where)].count(bolt);
    }
    all.count(bolt);
  }
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begin;

  fmt::print("{:<17} {:<15} {:>6} {:>9} {:>8} {:>8} {:>6} {:>6} {:>7} {:>9} {:>6} {:>6}\n",
             "true torque", "settings", "bolts", "bracket %", "at once", "grade A", "pulls",
             "ratio", "per A", "to gr. A", "ratio", "passed");
  print_rows("below tolerance", where[0]);
  print_rows("within tolerance", where[1]);
  print_rows("above tolerance", where[2]);
  print_rows("all", all);
  fmt::print("on a scale with a graduation of at most 1 % of the nominal torque\n");
  print_rows("below tolerance", where_scale_is_fine[0]);
  print_rows("within tolerance", where_scale_is_fine[1]);
  print_rows("above tolerance", where_scale_is_fine[2]);
  fmt::print(
      "bracket %  both ends found          at once  % of grade A by the rising settings alone\n"
      "grade A    % of grade A, narrowed   pulls    mean until the search stops\n"
      "per A      all pulls for each grade A at once\n"
      "to gr. A   mean of the bolts that both ways settle, narrowing included\n"
      "ratio      to fixed 5 % steps       passed   searches that passed the ceiling\n"
      "seed {}, {} bolts, {:.2f} s\n",
      seed, kBolts, took.count());
}
