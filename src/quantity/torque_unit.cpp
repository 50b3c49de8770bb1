#include "quantity/torque_unit.h"

#include <algorithm>
#include <string>

#include "quantity/ascii.h"
#include "quantity/number_text.h"

namespace quantity {
namespace {

// N·m in one unit.
template <class Real>
Real newton_metres_in(TorqueUnit unit) {
  constexpr auto kPoundForce = static_cast<Real>(4.4482216152605L);  // N
  constexpr auto kKilogramForce = static_cast<Real>(9.80665L);       // N
  constexpr auto kFoot = static_cast<Real>(0.3048L);                 // m
  constexpr auto kInch = static_cast<Real>(0.0254L);                 // m
  switch (unit) {
    case TorqueUnit::NewtonMetre:
      return Real{1};
    case TorqueUnit::NewtonCentimetre:
      return static_cast<Real>(0.01L);
    case TorqueUnit::KilonewtonMetre:
      return Real{1000};
    case TorqueUnit::FootPoundForce:
      return kPoundForce * kFoot;
    case TorqueUnit::InchPoundForce:
      return kPoundForce * kInch;
    case TorqueUnit::KilogramForceMetre:
      return kKilogramForce;
    case TorqueUnit::KilogramForceCentimetre:
      return kKilogramForce / Real{100};
    case TorqueUnit::InchOunceForce:
      return kPoundForce * kInch / Real{16};
  }
  return Real{1};
}

struct Spelling {
  std::string_view folded;
  TorqueUnit unit;
};

// Every accepted spelling after folding: lower case, joints and spaces gone, plural "s" gone.
constexpr Spelling kSpellings[] = {
    {"nm", TorqueUnit::NewtonMetre},
    {"newtonmeter", TorqueUnit::NewtonMetre},
    {"newtonmetre", TorqueUnit::NewtonMetre},
    {"cnm", TorqueUnit::NewtonCentimetre},
    {"ncm", TorqueUnit::NewtonCentimetre},
    {"knm", TorqueUnit::KilonewtonMetre},
    {"ftlbf", TorqueUnit::FootPoundForce},
    {"lbfft", TorqueUnit::FootPoundForce},
    {"ftlb", TorqueUnit::FootPoundForce},
    {"lbft", TorqueUnit::FootPoundForce},
    {"footpound", TorqueUnit::FootPoundForce},
    {"footpoundforce", TorqueUnit::FootPoundForce},
    {"poundfoot", TorqueUnit::FootPoundForce},
    {"poundfeet", TorqueUnit::FootPoundForce},
    {"inlbf", TorqueUnit::InchPoundForce},
    {"lbfin", TorqueUnit::InchPoundForce},
    {"inlb", TorqueUnit::InchPoundForce},
    {"lbin", TorqueUnit::InchPoundForce},
    {"inchpound", TorqueUnit::InchPoundForce},
    {"inchpoundforce", TorqueUnit::InchPoundForce},
    {"poundinch", TorqueUnit::InchPoundForce},
    {"poundinche", TorqueUnit::InchPoundForce},
    {"kgfm", TorqueUnit::KilogramForceMetre},
    {"kgm", TorqueUnit::KilogramForceMetre},
    {"mkg", TorqueUnit::KilogramForceMetre},
    {"mkgf", TorqueUnit::KilogramForceMetre},
    {"kgfcm", TorqueUnit::KilogramForceCentimetre},
    {"kgcm", TorqueUnit::KilogramForceCentimetre},
    {"cmkg", TorqueUnit::KilogramForceCentimetre},
    {"cmkgf", TorqueUnit::KilogramForceCentimetre},
    {"ozfin", TorqueUnit::InchOunceForce},
    {"ozin", TorqueUnit::InchOunceForce},
    {"inoz", TorqueUnit::InchOunceForce},
    {"inozf", TorqueUnit::InchOunceForce},
    {"inchounce", TorqueUnit::InchOunceForce},
    {"ounceinch", TorqueUnit::InchOunceForce},
    {"ounceinche", TorqueUnit::InchOunceForce},
};

// What may stand between the parts of a unit: ASCII joints, and the dots and hyphens that word
// processors put in their place.
constexpr std::string_view kJoints[] = {
    ".", "*", "-", "\u00B7", "\u22C5", "\u2219", "\u2022", "\u2027", "\u2010", "\u2011", "\u2013",
};

// No two of the accepted spellings differ in their joints alone, so joints may go altogether. A
// joint at either end or two in a row make no unit ("N··m", "·Nm"); the full stop of an
// abbreviation may stand after letters, also last ("ft.-lb.").
std::optional<std::string> fold(std::string_view text) {
  enum class Last { Joint, Stop, Letter } last = Last::Joint;
  std::string folded;
  for (text = trimmed(text); !text.empty(); text = trimmed(text)) {
    const auto* joint = std::ranges::find_if(
        kJoints, [&](std::string_view candidate) { return text.starts_with(candidate); });
    if (joint != std::end(kJoints)) {
      text.remove_prefix(joint->size());
      if (last == Last::Joint || (*joint == "." && last == Last::Stop)) return std::nullopt;
      last = *joint == "." ? Last::Stop : Last::Joint;
      continue;
    }
    if (!is_letter(text.front())) return std::nullopt;
    folded += lower(text.front());
    last = Last::Letter;
    text.remove_prefix(1);
  }
  if (last == Last::Joint) return std::nullopt;
  return folded;
}

// "lbs", "lbs·ft" and "foot-pounds" all mean the singular.
void drop_plurals(std::string& folded) {
  if (const auto at = folded.find("lbs"); at != std::string::npos) folded.erase(at + 2, 1);
  if (const auto at = folded.find("pounds"); at != std::string::npos) folded.erase(at + 5, 1);
  if (folded.size() > 2 && folded.ends_with('s')) folded.pop_back();
}

}  // namespace

std::string_view name_of(TorqueUnit unit) {
  switch (unit) {
    case TorqueUnit::NewtonMetre:
      return "N·m";
    case TorqueUnit::NewtonCentimetre:
      return "cN·m";
    case TorqueUnit::KilonewtonMetre:
      return "kN·m";
    case TorqueUnit::FootPoundForce:
      return "ft·lbf";
    case TorqueUnit::InchPoundForce:
      return "in·lbf";
    case TorqueUnit::KilogramForceMetre:
      return "kgf·m";
    case TorqueUnit::KilogramForceCentimetre:
      return "kgf·cm";
    case TorqueUnit::InchOunceForce:
      return "ozf·in";
  }
  return "N·m";
}

double newton_metres_per(TorqueUnit unit) { return newton_metres_in<double>(unit); }

double converted(double value, TorqueUnit from, TorqueUnit to) {
  return static_cast<double>(static_cast<long double>(value) * newton_metres_in<long double>(from) /
                             newton_metres_in<long double>(to));
}

Torque torque_of(double value, TorqueUnit unit) {
  return Torque::newton_metres(value * newton_metres_per(unit));
}

double in_unit(Torque torque, TorqueUnit unit) {
  return torque.in_newton_metres() / newton_metres_per(unit);
}

std::optional<TorqueUnit> read_torque_unit(std::string_view text) {
  auto folded = fold(text);
  if (!folded) return std::nullopt;
  drop_plurals(*folded);
  for (const auto& spelling : kSpellings) {
    if (spelling.folded == *folded) return spelling.unit;
  }
  return std::nullopt;
}

}  // namespace quantity
