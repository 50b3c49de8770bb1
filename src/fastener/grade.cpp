#include "fastener/grade.h"

#include <algorithm>
#include <array>
#include <string>

#include "quantity/ascii.h"

namespace fastener {
namespace {

struct GradeName {
  Grade grade;
  GradeFamily family;
  std::string_view name;
};

constexpr std::array kNames = {
    GradeName{Grade::Class4_6, GradeFamily::IsoClass, "4.6"},
    GradeName{Grade::Class4_8, GradeFamily::IsoClass, "4.8"},
    GradeName{Grade::Class5_6, GradeFamily::IsoClass, "5.6"},
    GradeName{Grade::Class5_8, GradeFamily::IsoClass, "5.8"},
    GradeName{Grade::Class6_8, GradeFamily::IsoClass, "6.8"},
    GradeName{Grade::Class8_8, GradeFamily::IsoClass, "8.8"},
    GradeName{Grade::Class9_8, GradeFamily::IsoClass, "9.8"},
    GradeName{Grade::Class10_9, GradeFamily::IsoClass, "10.9"},
    GradeName{Grade::Class12_9, GradeFamily::IsoClass, "12.9"},
    GradeName{Grade::Sae1, GradeFamily::Sae, "SAE 1"},
    GradeName{Grade::Sae2, GradeFamily::Sae, "SAE 2"},
    GradeName{Grade::Sae5, GradeFamily::Sae, "SAE 5"},
    GradeName{Grade::Sae5_2, GradeFamily::Sae, "SAE 5.2"},
    GradeName{Grade::Sae7, GradeFamily::Sae, "SAE 7"},
    GradeName{Grade::Sae8, GradeFamily::Sae, "SAE 8"},
    GradeName{Grade::Sae8_2, GradeFamily::Sae, "SAE 8.2"},
    GradeName{Grade::AstmA307, GradeFamily::Astm, "ASTM A307"},
    GradeName{Grade::AstmA325, GradeFamily::Astm, "ASTM A325"},
    GradeName{Grade::AstmA354Bd, GradeFamily::Astm, "ASTM A354 BD"},
    GradeName{Grade::AstmA449, GradeFamily::Astm, "ASTM A449"},
    GradeName{Grade::AstmA490, GradeFamily::Astm, "ASTM A490"},
    GradeName{Grade::AstmA193B7, GradeFamily::Astm, "ASTM A193 B7"},
    GradeName{Grade::A2_50, GradeFamily::Stainless, "A2-50"},
    GradeName{Grade::A2_70, GradeFamily::Stainless, "A2-70"},
    GradeName{Grade::A2_80, GradeFamily::Stainless, "A2-80"},
    GradeName{Grade::A4_50, GradeFamily::Stainless, "A4-50"},
    GradeName{Grade::A4_70, GradeFamily::Stainless, "A4-70"},
    GradeName{Grade::A4_80, GradeFamily::Stainless, "A4-80"},
};

const GradeName& entry_of(Grade grade) {
  return *std::ranges::find(kNames, grade, &GradeName::grade);
}

// Small letters and figures without the words and signs that say nothing: "SAE J429 Gr. 8" -> "8".
std::string bare(std::string_view text) {
  std::string letters;
  for (const char c : text) {
    if (c == ' ' || c == '-' || c == '_') continue;
    letters += c == ',' ? '.' : quantity::lower(c);
  }
  // "SAE J429 grade 5" has them in front, "A193 grade B7" in the middle.
  for (const std::string_view word : {"property", "class", "grade", "gr.", "gr", "cl.", "cl"}) {
    if (const auto at = letters.find(word); at != std::string::npos) letters.erase(at, word.size());
  }
  for (const std::string_view word : {"sae", "j429", "iso", "astm", "8981", "35061"}) {
    if (letters.starts_with(word)) letters.erase(0, word.size());
  }
  return letters;
}

// Whether the words beside the number allow a grade of this family: "class" and "ISO" belong to the
// property classes and stainless steel, "SAE" and "J429" to SAE. "grade" is said of all.
bool words_allow(const std::string& typed, GradeFamily family) {
  const auto says = [&](std::string_view word) { return typed.find(word) != std::string::npos; };
  if (says("class") || says("cl") || says("iso")) {
    return family == GradeFamily::IsoClass || family == GradeFamily::Stainless;
  }
  return family == GradeFamily::Sae || !(says("sae") || says("j429"));
}

}  // namespace

std::optional<Grade> read_grade(std::string_view text) {
  constexpr std::size_t kLongestText = 60;
  if (text.size() > kLongestText) return std::nullopt;
  if (text.starts_with('-')) return std::nullopt;  // "-1" is a slip, not SAE 1
  std::string typed;
  for (const char c : text) typed += quantity::lower(c);
  std::string wanted = bare(text);
  if (wanted == "b7") wanted = "a193b7";
  if (wanted == "a307a") wanted = "a307";
  for (const auto& entry : kNames) {
    if (bare(entry.name) == wanted && words_allow(typed, entry.family)) return entry.grade;
  }
  return std::nullopt;
}

std::string_view name_of(Grade grade) { return entry_of(grade).name; }

GradeFamily family_of(Grade grade) { return entry_of(grade).family; }

BoltMetal metal_of(Grade grade) {
  return family_of(grade) == GradeFamily::Stainless ? BoltMetal::Stainless : BoltMetal::Steel;
}

std::string_view name_of(BoltMetal metal) {
  return metal == BoltMetal::Stainless ? "stainless" : "steel";
}

std::string_view known_grades() {
  static const std::string list = [] {
    std::string names;
    for (const auto& entry : kNames) {
      if (!names.empty()) names += ", ";
      names += entry.name;
    }
    return names;
  }();
  return list;
}

}  // namespace fastener
