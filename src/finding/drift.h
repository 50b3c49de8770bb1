#pragma once

#include <optional>
#include <string>
#include <vector>

#include "finding/individuals_chart.h"
#include "finding/survey.h"

namespace finding {

// One fastener found in two teardowns of the same kind of machine.
struct DriftRow {
  int position = 0;
  const Finding* here = nullptr;
  const Finding* there = nullptr;
  double ratio = 1.0;    // found here over found there
  bool outside = false;  // of the control band; never where the joints are not alike
  double e_n = 0.0;      // normalized_error of the two
  bool changed = false;  // |e_n| above 1; never where the joints are not alike
};

// A joint that both logbooks have.
struct DriftJoint {
  const JointState* here = nullptr;
  const JointState* there = nullptr;
  std::vector<std::string> differs;  // in words: "size M12x1.75 here, M10x1.5 there"
  std::vector<DriftRow> rows;        // positions with a torque in both
  std::vector<int> in_one;           // positions with a torque in one of the two alone
  std::optional<double> median;      // of the ratios

  [[nodiscard]] bool alike() const { return differs.empty(); }
};

struct Drift {
  std::vector<DriftJoint> joints;  // in the order of this logbook
  std::vector<const JointState*> only_here;
  std::vector<const JointState*> only_there;
  std::size_t charted = 0;               // ratios that the band was made of
  std::optional<IndividualsChart> band;  // nothing with fewer than kLeastForBand of them
};

// Fewer ratios than this give no band (own choice), and fewer than this many a rough one: 20 to 25
// are asked for in practice (common practice, no source).
inline constexpr std::size_t kLeastForBand = 5;
inline constexpr std::size_t kEnoughForBand = 20;

// A torque that can be held against another: one number above zero, and evidence (no bound, not
// grade X).
[[nodiscard]] bool is_usable(const Finding& finding);

// E_n = (x1 - x2)/√(U1² + U2²), with the expanded uncertainties: above 1 or below -1 the two differ
// by more than these explain. Source: ISO/IEC 17043 and ISO 13528 (from memory). It asks nothing of
// the other fasteners, so that one large change shows even where it widens the control band that it
// stands in. Both U must be above zero.
[[nodiscard]] double normalized_error(const FoundTorque& one, const FoundTorque& other);

// Matches joints by code in any case, and positions by number. A torque counts where it is
// usable. Joints whose size, length, grade, count, procedure
// or condition differ are shown and kept out of the band. The band is an individuals chart over all
// other ratios in the order of joints and positions, so that a shift of the whole machine moves its
// centre and one fastener that went its own way stands outside. Points into both surveys.
[[nodiscard]] Drift drift(const Survey& here, const Survey& there);

}  // namespace finding
