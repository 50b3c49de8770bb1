#include "fastener/part_material.h"

#include <fmt/format.h>

#include <array>
#include <initializer_list>

#include "failure/failure.h"
#include "quantity/ascii.h"
#include "quantity/number_text.h"

namespace fastener {
namespace {

using failure::InputError;
using quantity::Stress;

constexpr std::string_view kAfter2003 = "a supplier's table after VDI 2230 Part 1, 2003";
constexpr std::string_view kAfter1986 = "a supplier's table after VDI 2230, 1986";

struct MaterialRow {
  std::string_view name;
  std::string_view also;  // other names, each between commas
  MaterialKind kind;
  double tensile_mpa;
  double seat_limit_mpa;
  bool confirmed;
  std::string_view source;
};

constexpr std::array kMaterials = {
    MaterialRow{"S235", ",s235jr,st37,", MaterialKind::Steel, 340, 490, true, kAfter2003},
    MaterialRow{"E295", ",st50,", MaterialKind::Steel, 470, 710, true, kAfter2003},
    MaterialRow{"S355", ",s355jo,st52,", MaterialKind::Steel, 510, 760, true, kAfter2003},
    MaterialRow{"C45", ",cq45,", MaterialKind::Steel, 700, 630, false, kAfter2003},
    MaterialRow{"34CrMo4", ",1.7220,", MaterialKind::Steel, 1000, 870, false, kAfter2003},
    MaterialRow{"34CrNiMo6", ",1.6582,", MaterialKind::Steel, 1200, 1080, false, kAfter2003},
    MaterialRow{"38MnSiVS5", ",1.5231,", MaterialKind::Steel, 900, 810, false, kAfter2003},
    MaterialRow{"16MnCr5", ",1.7131,", MaterialKind::Steel, 1000, 900, false, kAfter2003},
    MaterialRow{"X5CrNi18-12", ",1.4303,", MaterialKind::Stainless, 500, 630, true, kAfter2003},
    MaterialRow{"X5CrNiMo17-12-2", ",1.4401,", MaterialKind::Stainless, 510, 460, false,
                kAfter2003},
    MaterialRow{"GJL-150", ",gg15,", MaterialKind::CastIron, 150, 600, true, kAfter1986},
    MaterialRow{"GJL-250", ",gg25,", MaterialKind::CastIron, 250, 900, true, kAfter2003},
    MaterialRow{"GJL-350", ",gg35,", MaterialKind::CastIron, 350, 900, true, kAfter1986},
    MaterialRow{"GJL-400", ",gg40,", MaterialKind::CastIron, 400, 1100, true, kAfter1986},
    MaterialRow{"GJS-400-15", ",ggg40,", MaterialKind::CastIron, 400, 700, false, kAfter2003},
    MaterialRow{"GJS-500-7", ",ggg50,", MaterialKind::CastIron, 500, 900, false, kAfter2003},
    MaterialRow{"GJS-600-3", ",ggg60,", MaterialKind::CastIron, 600, 1000, false, kAfter2003},
    MaterialRow{"EN AW-6082", ",almgsi1f31,", MaterialKind::Aluminium, 290, 260, false, kAfter2003},
    MaterialRow{"AlMgSi1 F28", ",", MaterialKind::Aluminium, 260, 230, false, kAfter2003},
    MaterialRow{"EN AW-5083", ",almg4.5mn,", MaterialKind::Aluminium, 260, 230, false, kAfter2003},
    MaterialRow{"EN AW-7075", ",alznmgcu1.5,", MaterialKind::Aluminium, 540, 410, false,
                kAfter2003},
    MaterialRow{"GK-AlSi9Cu3", ",", MaterialKind::Aluminium, 180, 220, false, kAfter2003},
    MaterialRow{"EN AC-46000", ",gdalsi9cu3,alsi9cu3,alsi9cu3(fe),", MaterialKind::Aluminium, 240,
                290, false, kAfter2003},
    MaterialRow{"EN AC-42000", ",gkalsi7mgwa,alsi7mg,", MaterialKind::Aluminium, 250, 380, false,
                kAfter2003},
    MaterialRow{"AZ91", ",", MaterialKind::Magnesium, 310, 280, false, kAfter2003},
    MaterialRow{"titanium", ",titaniumgrade2,", MaterialKind::Titanium, 390, 300, true, kAfter2003},
    MaterialRow{"TiAl6V4", ",", MaterialKind::Titanium, 890, 890, false, kAfter2003},
};

constexpr std::array kKinds = {MaterialKind::Steel,     MaterialKind::Stainless,
                               MaterialKind::CastIron,  MaterialKind::Aluminium,
                               MaterialKind::Magnesium, MaterialKind::Titanium};

// Small letters without blanks, hyphens and the letters of the standard in front.
std::string bare_material(std::string_view text) {
  std::string letters;
  for (const char c : text) {
    if (c == ' ' || c == '-' || c == '_') continue;
    letters += c == ',' ? '.' : quantity::lower(c);
  }
  for (const std::string_view word : {"en", "aw", "ac"}) {
    if (letters.starts_with(word)) letters.erase(0, word.size());
  }
  return letters;
}

const MaterialRow* find_material(std::string_view text) {
  const auto wanted = bare_material(text);
  if (wanted.empty()) return nullptr;
  const auto listed = fmt::format(",{},", wanted);
  for (const auto& row : kMaterials) {
    if (bare_material(row.name) == wanted || row.also.find(listed) != std::string_view::npos)
      return &row;
  }
  return nullptr;
}

// What follows a word at the front of a text, in any case; nothing where it is not there.
std::optional<std::string_view> after_word(std::string_view text, std::string_view word) {
  if (text.size() < word.size()) return std::nullopt;
  for (std::size_t i = 0; i < word.size(); ++i) {
    if (quantity::lower(text[i]) != word[i]) return std::nullopt;
  }
  return quantity::trimmed(text.substr(word.size()));
}

Stress tensile_of(std::string_view text, std::string_view whole) {
  const auto number = quantity::read_leading_number(text, whole);
  std::string unit;
  for (const char c : number.rest) unit += quantity::lower(c);
  if (number.value > 0.0) {
    if (unit == "mpa" || unit == "n/mm2" || unit == "n/mm²") {
      return Stress::megapascals(number.value);
    }
    if (unit == "ksi") return Stress::kips_per_square_inch(number.value);
  }
  throw InputError(fmt::format(
      "{}: expected a tensile strength above zero in MPa, N/mm2 or ksi after the kind of material",
      quantity::quoted(whole)));
}

std::optional<PartMaterial> by_kind_and_strength(std::string_view text) {
  for (const auto kind : kKinds) {
    const auto rest = after_word(text, name_of(kind));
    if (!rest || rest->empty()) continue;
    const auto tensile = tensile_of(*rest, text);
    return PartMaterial{
        fmt::format("{} {} MPa", name_of(kind), quantity::write_rounded(tensile.in_megapascals())),
        kind,
        tensile,
        std::nullopt,
        false,
        {"as given", HowKnown::Seen}};
  }
  return std::nullopt;
}

}  // namespace

std::string_view name_of(MaterialKind kind) {
  switch (kind) {
    case MaterialKind::Steel:
      return "steel";
    case MaterialKind::Stainless:
      return "stainless";
    case MaterialKind::CastIron:
      return "cast iron";
    case MaterialKind::Aluminium:
      return "aluminium";
    case MaterialKind::Magnesium:
      return "magnesium";
    case MaterialKind::Titanium:
      return "titanium";
  }
  return "";
}

PartMaterial read_part_material(std::string_view text) {
  constexpr std::size_t kLongestText = 60;
  const auto typed = quantity::trimmed(text);
  if (typed.size() <= kLongestText) {
    if (const auto* row = find_material(typed)) {
      return {std::string(row->name),
              row->kind,
              Stress::megapascals(row->tensile_mpa),
              Stress::megapascals(row->seat_limit_mpa),
              row->confirmed,
              {row->source, HowKnown::Seen}};
    }
    if (auto given = by_kind_and_strength(typed)) return *given;
  }
  throw InputError(fmt::format(
      "the material {} is not known; known are {}. Or give its kind with its tensile strength, "
      "such "
      "as \"aluminium 240 MPa\" (steel, stainless, cast iron, aluminium, magnesium, titanium)",
      quantity::quoted(text), known_part_materials()));
}

std::string known_part_materials() {
  std::string names;
  for (const auto& row : kMaterials) {
    if (!names.empty()) names += ", ";
    names += row.name;
  }
  return names;
}

double shear_over_tensile(MaterialKind kind) {
  switch (kind) {
    case MaterialKind::Aluminium:
      return 0.70;
    case MaterialKind::CastIron:
      return 0.90;
    case MaterialKind::Stainless:
      return 0.65;
    case MaterialKind::Steel:
    case MaterialKind::Magnesium:
    case MaterialKind::Titanium:
      break;
  }
  return 0.60;
}

Stress shear_strength(const PartMaterial& material) {
  return material.tensile * shear_over_tensile(material.kind);
}

}  // namespace fastener
