#include "fastener/strength.h"

#include <fmt/format.h>

#include <array>

#include "fastener/thread_geometry.h"
#include "fastener/thread_text.h"

namespace fastener {
namespace {

using quantity::Stress;

enum class Unit { Megapascal, Ksi };

// One row of a strength table: the sizes from the previous row's limit up to `to_mm`.
struct Row {
  Grade grade;
  double to_mm;
  Unit unit;
  double proof;  // 0 where the standard gives none
  double yield;
  double tensile;
  std::string_view source;
};

constexpr double kInch = 25.4;
constexpr double kBeyondAll = 1000.0;
constexpr std::string_view kIso = "ISO 898-1 Table 3";
constexpr std::string_view kIsoRecalled = "ISO 898-1:2013 Table 3 (from memory)";
constexpr std::string_view kSae = "SAE J429, as tabulated in Shigley and Mischke 5th ed.";
constexpr std::string_view kAstm = "ASTM, as tabulated in Shigley and Mischke 5th ed.";
constexpr std::string_view kA307 =
    "ASTM A307 (tensile); proof and yield from Shigley and Mischke 5th ed.";
constexpr std::string_view kA193 = "ASTM A193/A193M (from memory)";
constexpr std::string_view kStainless = "ISO 3506-1";

constexpr std::array kRows = {
    Row{Grade::Class4_6, kBeyondAll, Unit::Megapascal, 225, 240, 400, kIso},
    Row{Grade::Class4_8, kBeyondAll, Unit::Megapascal, 310, 340, 420, kIsoRecalled},
    Row{Grade::Class5_6, kBeyondAll, Unit::Megapascal, 280, 300, 500, kIsoRecalled},
    Row{Grade::Class5_8, kBeyondAll, Unit::Megapascal, 380, 420, 520, kIsoRecalled},
    Row{Grade::Class6_8, kBeyondAll, Unit::Megapascal, 440, 480, 600, kIsoRecalled},
    Row{Grade::Class8_8, 16, Unit::Megapascal, 580, 640, 800, kIso},
    Row{Grade::Class8_8, kBeyondAll, Unit::Megapascal, 600, 660, 830, kIso},
    Row{Grade::Class9_8, 16, Unit::Megapascal, 650, 720, 900, kIso},
    Row{Grade::Class10_9, kBeyondAll, Unit::Megapascal, 830, 940, 1040, kIso},
    Row{Grade::Class12_9, kBeyondAll, Unit::Megapascal, 970, 1100, 1220, kIso},
    Row{Grade::Sae1, 1.5 * kInch, Unit::Ksi, 33, 36, 60, kSae},
    Row{Grade::Sae2, 0.75 * kInch, Unit::Ksi, 55, 57, 74, kSae},
    Row{Grade::Sae2, 1.5 * kInch, Unit::Ksi, 33, 36, 60, kSae},
    Row{Grade::Sae5, 1.0 * kInch, Unit::Ksi, 85, 92, 120, kSae},
    Row{Grade::Sae5, 1.5 * kInch, Unit::Ksi, 74, 81, 105, kSae},
    Row{Grade::Sae5_2, 1.0 * kInch, Unit::Ksi, 85, 92, 120, kSae},
    Row{Grade::Sae7, 1.5 * kInch, Unit::Ksi, 105, 115, 133, kSae},
    Row{Grade::Sae8, 1.5 * kInch, Unit::Ksi, 120, 130, 150, kSae},
    Row{Grade::Sae8_2, 1.0 * kInch, Unit::Ksi, 120, 130, 150, kSae},
    Row{Grade::AstmA307, 1.5 * kInch, Unit::Ksi, 33, 36, 60, kA307},
    Row{Grade::AstmA325, 1.0 * kInch, Unit::Ksi, 85, 92, 120, kAstm},
    Row{Grade::AstmA325, 1.5 * kInch, Unit::Ksi, 74, 81, 105, kAstm},
    Row{Grade::AstmA354Bd, 4.0 * kInch, Unit::Ksi, 120, 130, 150, kAstm},
    Row{Grade::AstmA449, 1.0 * kInch, Unit::Ksi, 85, 92, 120, kAstm},
    Row{Grade::AstmA449, 1.5 * kInch, Unit::Ksi, 74, 81, 105, kAstm},
    Row{Grade::AstmA449, 3.0 * kInch, Unit::Ksi, 55, 58, 90, kAstm},
    Row{Grade::AstmA490, 1.5 * kInch, Unit::Ksi, 120, 130, 150, kAstm},
    Row{Grade::AstmA193B7, 64, Unit::Ksi, 0, 105, 125, kA193},  // 2-1/2 in, and M64 in A193M
    Row{Grade::AstmA193B7, 4.0 * kInch, Unit::Ksi, 0, 95, 115, kA193},
    Row{Grade::A2_50, kBeyondAll, Unit::Megapascal, 0, 210, 500, kStainless},
    Row{Grade::A2_70, kBeyondAll, Unit::Megapascal, 0, 450, 700, kStainless},
    Row{Grade::A2_80, kBeyondAll, Unit::Megapascal, 0, 600, 800, kStainless},
    Row{Grade::A4_50, kBeyondAll, Unit::Megapascal, 0, 210, 500, kStainless},
    Row{Grade::A4_70, kBeyondAll, Unit::Megapascal, 0, 450, 700, kStainless},
    Row{Grade::A4_80, kBeyondAll, Unit::Megapascal, 0, 600, 800, kStainless},
};

Stress stress_in(Unit unit, double value) {
  return unit == Unit::Ksi ? Stress::kips_per_square_inch(value) : Stress::megapascals(value);
}

// The least and the largest size that the grade's standard covers, in words.
struct Coverage {
  double from_mm;
  double to_mm;
  std::string_view words;
};

Coverage coverage_of(Grade grade) {
  switch (grade) {
    case Grade::AstmA325:
    case Grade::AstmA490:
      return {0.5 * kInch, 1.5 * kInch, "the table covers 1/2 to 1-1/2 in"};
    case Grade::AstmA354Bd:
      return {0.25 * kInch, 2.5 * kInch,
              "the standard itself lists less from 2-1/2 in on, 140 ksi tensile (from memory)"};
    case Grade::AstmA193B7:
      return {0.25 * kInch, 4.0 * kInch, "the table covers 1/4 to 4 in"};
    case Grade::A2_50:
    case Grade::A4_50:
      return {1.6, 39.0, "ISO 3506-1 covers M1.6 to M39"};
    case Grade::A2_70:
    case Grade::A2_80:
    case Grade::A4_70:
    case Grade::A4_80:
      return {1.6, 24.0, "above M24 this strength is a matter of agreement with the maker"};
    default:
      break;
  }
  if (family_of(grade) == GradeFamily::IsoClass) {
    return {1.6, 39.0, "ISO 898-1 covers M1.6 to M39"};
  }
  return {0.25 * kInch, 4.0 * kInch, "the standard begins at 1/4 in"};
}

std::optional<std::string> note_on(Grade grade, const Thread& thread) {
  if (auto mismatch = marking_mismatch(grade, thread)) return mismatch;
  const auto coverage = coverage_of(grade);
  const double d = thread.diameter().in_millimetres();
  if (d < coverage.from_mm || d > coverage.to_mm) {
    return fmt::format("{} on {}: {}", name_of(grade), write_exact(thread), coverage.words);
  }
  return std::nullopt;
}

}  // namespace

std::optional<std::string> marking_mismatch(Grade grade, const Thread& thread) {
  const auto family = family_of(grade);
  const bool for_metric = family == GradeFamily::IsoClass;
  const bool for_unified =
      family == GradeFamily::Sae || (family == GradeFamily::Astm && grade != Grade::AstmA193B7);
  if (!(for_metric && !thread.is_metric()) && !(for_unified && thread.is_metric())) {
    return std::nullopt;
  }
  return fmt::format("{} is a marking of {} threads and {} is {}; look at the head again",
                     name_of(grade), for_metric ? "metric" : "inch", write_exact(thread),
                     thread.is_metric() ? "metric" : "inch");
}

std::optional<Strength> strength_of(Grade grade, const Thread& thread) {
  constexpr double kRounding = 1e-9;  // an inch size is not exact in millimetres
  for (const auto& row : kRows) {
    if (row.grade != grade || thread.diameter().in_millimetres() > row.to_mm + kRounding) continue;
    Strength strength{std::nullopt, stress_in(row.unit, row.yield),
                      stress_in(row.unit, row.tensile), row.source, note_on(grade, thread)};
    if (row.proof > 0.0) strength.proof = stress_in(row.unit, row.proof);
    return strength;
  }
  return std::nullopt;
}

ProofBasis proof_basis(const Strength& strength) {
  if (strength.proof) return {*strength.proof, false};
  return {strength.yield * 0.85, true};
}

quantity::Force load_at(Stress stress, const Thread& thread) {
  return stress * stress_area(thread);
}

}  // namespace fastener
