#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "audit/case.h"
#include "audit/deviation.h"
#include "record/concerns.h"

namespace audit {

// The kinds of lines that a deviation rests on besides the figures that it states: one line more or
// one less at its positions, and a decision on it has to be made again.
class RestsOn {
 public:
  // Any kind about fasteners; another does not compile.
  template <record::AboutFasteners... Each>
  [[nodiscard]] static consteval RestsOn lines_of() {
    RestsOn lines;
    ((lines.kinds_ |= bit_of<Each>()), ...);
    return lines;
  }

  template <class Kind>
  [[nodiscard]] constexpr bool has() const {
    return (kinds_ & bit_of<Kind>()) != 0;
  }

  [[nodiscard]] constexpr RestsOn with(RestsOn other) const {
    other.kinds_ |= kinds_;
    return other;
  }

 private:
  static_assert(record::Kinds::kCount <= 64);
  template <class Kind>
  static consteval std::uint64_t bit_of() {
    return std::uint64_t{1} << record::Kinds::index_of<Kind>();
  }
  std::uint64_t kinds_ = 0;  // a bit each, by its place in the list of kinds
};

// kRestsOn<record::Removal, record::Tightening>
template <record::AboutFasteners... Each>
inline constexpr RestsOn kRestsOn = RestsOn::lines_of<Each...>();

using Deviations = std::vector<Deviation>;

// What a rule looks at: one position, one joint, or the whole job. The first two see one joint at a
// time, and of the others only what they ask for by name. One that looks at the job says in rules.h
// why it has to.
using LooksAtPosition = void (*)(const JointCase&, const finding::PositionState&, Deviations&);
using LooksAtJoint = void (*)(const JointCase&, Deviations&);
using LooksAtJob = void (*)(const Case&, Deviations&);
using Look = std::variant<LooksAtPosition, LooksAtJoint, LooksAtJob>;

// What several alike findings of one joint say together.
using Together = std::string (*)(const Case&, const Deviation& together);

// One rule: a name, what it looks at, the deviations it finds, what those rest on, and how those
// that are alike are told together; nothing where each stands for itself.
struct Rule {
  std::string_view name;
  std::string_view looks_at;
  Look look;
  RestsOn rests_on = {};
  Together together = nullptr;
};

}  // namespace audit
