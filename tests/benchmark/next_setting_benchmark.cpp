// Searches 10,000 invented bolts with the proposed settings and with the baseline "fixed 5 %
// steps", and prints pulls and grades of both. usage: next_setting_benchmark [SEED]

#include <fmt/format.h>

#include <array>
#include <chrono>
#include <cstdlib>

#include "finding/search_simulation.h"

namespace {

constexpr std::uint64_t kBolts = 10'000;

// What the searches of one group of bolts came to.
struct Tally {
  std::size_t bolts = 0;
  std::size_t pulls = 0;
  std::array<std::size_t, 4> grades{};
  std::size_t bracketed = 0;
  std::size_t passed_ceiling = 0;

  void count(const SearchEnd& end) {
    ++bolts;
    pulls += end.pulls;
    ++grades[static_cast<std::size_t>(end.grade)];
    if (end.bracketed) ++bracketed;
    if (end.passed_ceiling) ++passed_ceiling;
  }
  [[nodiscard]] double mean_pulls() const {
    return static_cast<double>(pulls) / static_cast<double>(bolts);
  }
  [[nodiscard]] double share(std::size_t part) const {
    return 100.0 * static_cast<double>(part) / static_cast<double>(bolts);
  }
};

void print_row(std::string_view bolts, std::string_view way, const Tally& tally, double baseline) {
  fmt::print(
      "{:<18} {:<16} {:>6} {:>6.2f} {:>6.2f} {:>9.1f} {:>5.1f} {:>5.1f} {:>5.1f} {:>5.1f} {:>7}\n",
      bolts, way, tally.bolts, tally.mean_pulls(), tally.mean_pulls() / baseline,
      tally.share(tally.bracketed), tally.share(tally.grades[0]), tally.share(tally.grades[1]),
      tally.share(tally.grades[2]), tally.share(tally.grades[3]), tally.passed_ceiling);
}

void print_rows(std::string_view bolts, const Tally& proposed, const Tally& fixed) {
  if (fixed.bolts == 0) return;
  print_row(bolts, "fixed 5 % steps", fixed, fixed.mean_pulls());
  print_row("", "proposed", proposed, fixed.mean_pulls());
}

}  // namespace

int main(int argc, char** argv) {
  const std::uint64_t seed = argc > 1 ? std::strtoull(argv[1], nullptr, 10) : 1;
  std::array<Tally, 3> proposed;
  std::array<Tally, 3> fixed;
  Tally all_proposed;
  Tally all_fixed;
  Tally fine_proposed;
  Tally fine_fixed;
  const auto begin = std::chrono::steady_clock::now();
  for (std::uint64_t number = 0; number < kBolts; ++number) {
    const auto bolt = simulate_bolt(seed, number);
    const auto group = static_cast<std::size_t>(bolt.where);
    proposed[group].count(bolt.proposed);
    fixed[group].count(bolt.fixed);
    all_proposed.count(bolt.proposed);
    all_fixed.count(bolt.fixed);
    if (bolt.proposed.grade == finding::Grade::A && bolt.fixed.grade == finding::Grade::A) {
      fine_proposed.count(bolt.proposed);
      fine_fixed.count(bolt.fixed);
    }
  }
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begin;

  fmt::print("{:<18} {:<16} {:>6} {:>6} {:>6} {:>9} {:>5} {:>5} {:>5} {:>5} {:>7}\n", "true torque",
             "settings", "bolts", "pulls", "ratio", "bracket %", "A %", "B %", "C %", "X %",
             "passed");
  print_rows("below tolerance", proposed[0], fixed[0]);
  print_rows("within tolerance", proposed[1], fixed[1]);
  print_rows("above tolerance", proposed[2], fixed[2]);
  print_rows("all", all_proposed, all_fixed);
  print_rows("grade A both ways", fine_proposed, fine_fixed);
  fmt::print(
      "pulls: mean; ratio: to fixed 5 % steps; passed: searches that passed the ceiling\n"
      "seed {}, {} bolts, {:.2f} s\n",
      seed, kBolts, took.count());
}
