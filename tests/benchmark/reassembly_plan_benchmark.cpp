// Plans a large invented job and orders the positions of large joints, and prints how long each
// takes. usage: reassembly_plan_benchmark [JOINTS [POSITIONS]]

#include <fmt/format.h>

#include <chrono>
#include <cmath>
#include <cstdlib>
#include <numbers>
#include <random>

#include "plan/position_order.h"
#include "plan/reassembly_plan.h"

namespace {

// Entry ids rise and times repeat, as where only the day was given.
record::Stamp stamp(std::int64_t line) {
  record::Stamp stamp;
  stamp.id = fmt::format("01970000-0000-7000-8000-{:012}", line);
  stamp.line = line;
  return stamp;
}

// Every joint waits for up to three that came later in the removal, half of them covered.
record::Job job_of(int joints) {
  std::mt19937 generator(20250520U);
  record::Job job;
  record::Wrench wrench;
  wrench.name = "TW2";
  wrench.scale = record::read_scale("20..200 N·m");
  wrench.graduation = 1.0;
  job.wrenches.push_back({stamp(1), wrench});
  std::int64_t line = 1;
  for (int i = 0; i < joints; ++i) {
    record::Joint joint;
    joint.code = fmt::format("J{}", i);
    joint.size = "M12x1.75";
    joint.grade = "8.8";
    joint.count = 8;
    for (int k = 0; k < 3 && i + 1 < joints; ++k) {
      const auto later =
          i + 1 + static_cast<int>(generator() % static_cast<unsigned>(joints - i - 1));
      (k % 2 == 0 ? joint.after : joint.covers).push_back(fmt::format("J{}", later));
    }
    job.joints.push_back({stamp(++line), joint});
    record::Specified specified;
    specified.joint = joint.code;
    specified.procedure = record::read_specification("80 N·m");
    job.specifications.push_back({stamp(++line), specified});
    record::Removal removal;
    removal.joint = joint.code;
    removal.positions = {1, 2, 3, 4, 5, 6, 7, 8};
    job.removals.push_back({stamp(++line), removal});
  }
  return job;
}

template <class Work>
void time(const std::string& what, Work&& work) {
  const auto begin = std::chrono::steady_clock::now();
  const std::size_t size = work();
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begin;
  fmt::print("{:<44} {:>8} {:>9.3f} s\n", what, size, took.count());
}

}  // namespace

int main(int argc, char** argv) {
  const int joints = argc > 1 ? std::atoi(argv[1]) : 10'000;
  const int positions = argc > 2 ? std::atoi(argv[2]) : 10'000;
  const auto job = job_of(joints);
  time("joints, planned from the records", [&] {
    const auto survey = finding::survey(job);
    std::vector<const finding::JointState*> all;
    for (const auto& joint : survey.joints) all.push_back(&joint);
    return plan::reassembly_plan(job, survey, all, record::read_day("2026-06-01")).joints.size();
  });

  const auto order = [&](const std::string& what, const record::Layout& layout, int count) {
    time(what, [&] { return plan::position_order(layout, count).positions.size(); });
  };
  const int side = static_cast<int>(std::sqrt(positions));
  order("positions on a circle", record::CircleLayout{}, positions);
  order("positions in a line", record::LineLayout{}, positions);
  order("positions of a square grid", record::RectangleLayout{side, side}, side * side);
  std::mt19937 generator(20250520U);
  std::vector<record::Point> scattered;
  std::vector<record::Point> open_ring;  // a gap of a tenth: no cross pattern, one distance for all
  for (int i = 0; i < positions; ++i) {
    const auto coordinate = [&] { return static_cast<double>(generator()) / 1000.0; };
    scattered.push_back({coordinate(), coordinate()});
    const double angle = 1.8 * std::numbers::pi * i / positions;
    open_ring.push_back({1000.0 * std::cos(angle), 1000.0 * std::sin(angle)});
  }
  order("free positions, scattered", record::FreeLayout{scattered}, positions);
  order("free positions on an open ring", record::FreeLayout{open_ring}, positions);
}
