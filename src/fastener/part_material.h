#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "fastener/origin.h"
#include "quantity/stress.h"

namespace fastener {

// What a part is made of into which a bolt is screwed, or on which its head sits.
enum class MaterialKind { Steel, Stainless, CastIron, Aluminium, Magnesium, Titanium };

// "steel", "stainless", "cast iron", "aluminium", "magnesium", "titanium".
[[nodiscard]] std::string_view name_of(MaterialKind kind);

struct PartMaterial {
  std::string name;  // "EN AC-46000", or "aluminium 240 MPa" where only the strength was given
  MaterialKind kind = MaterialKind::Steel;
  quantity::Stress tensile;  // Rm, least
  // Pressure under a head that the material bears, pG. Nothing where only the strength was given.
  std::optional<quantity::Stress> seat_limit;
  bool seat_limit_confirmed = false;  // the source marks some as not yet confirmed by research
  Origin origin;
};

// Reads a material by its European or older German name, any case, with or without spaces and
// hyphens (EN AC-46000, AlSi9Cu3, GJL-250, GG 25, S235, St 37, AW-6082, 1.4401), or a kind with its
// tensile strength: "aluminium 240 MPa", "cast iron 250 N/mm2", "steel 60 ksi". InputError names
// what is known.
// Source of strengths and limits: a fastener supplier's page after VDI 2230 Part 1, editions 2003
// and, for GJL-150, GJL-350 and GJL-400, 1986 (seen).
[[nodiscard]] PartMaterial read_part_material(std::string_view text);

// "S235, E295, ..., TiAl6V4".
[[nodiscard]] std::string known_part_materials();

// Shear strength over tensile strength, τB/Rm. Aluminium 0.70 after a supplier's example (seen);
// steel 0.60 as an engagement page takes it (seen); the others from memory of VDI 2230 Part 1, the
// lower end where it gives a span: cast iron 0.90, stainless 0.65, magnesium 0.60, titanium 0.60.
[[nodiscard]] double shear_over_tensile(MaterialKind kind);
[[nodiscard]] quantity::Stress shear_strength(const PartMaterial& material);

}  // namespace fastener
