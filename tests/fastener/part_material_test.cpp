#include "fastener/part_material.h"

#include "failure/failure.h"
#include "support/check_values.h"
#include "support/property.h"
#include "support/published.h"

namespace part_material_test {

using fastener::MaterialKind;
using fastener::read_part_material;

TEST_CASE("strength and limit of pressure agree with the published table",
          "[fastener][published]") {
  // Source: seat_limits.csv, a fastener supplier's page after VDI 2230 Part 1 (2003, for three
  // irons 1986), seen; a star marks what the page calls not yet confirmed.
  int checked = 0;
  for (const auto& row : read_check_values("seat_limits.csv")) {
    INFO(row.at("material"));
    const auto material = read_part_material(row.at("material"));
    CHECK_PUBLISHED(Published::Seen, material.tensile.in_megapascals(),
                    WithinRel(std::stod(row.at("rm_mpa")), 1e-12));
    CHECK_PUBLISHED(Published::Seen, material.seat_limit.value().in_megapascals(),
                    WithinRel(std::stod(row.at("pg_mpa")), 1e-12));
    CHECK(material.seat_limit_confirmed == (row.at("star") != "*"));
    ++checked;
  }
  CHECK(checked == 27);
}

TEST_CASE("a material is read however people name it", "[fastener]") {
  const auto name = [](const char* text) { return read_part_material(text).name; };
  for (const auto* text : {"EN AC-46000", "en ac 46000", "AC-46000", "46000", "AlSi9Cu3",
                           "GD-AlSi9Cu3", " enac46000 ", "AlSi9Cu3(Fe)"}) {
    INFO(text);
    CHECK(name(text) == "EN AC-46000");
  }
  CHECK(name("GG 25") == "GJL-250");
  CHECK(name("EN-GJL-250") == "GJL-250");
  CHECK(name("St 37") == "S235");
  CHECK(name("EN AW-6082") == "EN AW-6082");
  CHECK(name("1.4401") == "X5CrNiMo17-12-2");
  const auto given = read_part_material("aluminium 35 ksi");
  CHECK(given.kind == MaterialKind::Aluminium);
  CHECK_THAT(given.tensile.in_kips_per_square_inch(), WithinRel(35.0, 1e-12));
  CHECK_FALSE(given.seat_limit.has_value());
  CHECK(name("Cast iron 250 N/mm2") == "cast iron 250 MPa");
  CHECK(read_part_material("titanium").tensile.in_megapascals() == 390);
}

TEST_CASE("what is no material is refused with what is known", "[fastener]") {
  for (const auto* text : {"", " ", "en", "wood", "aluminium", "aluminium 240", "aluminium 0 MPa",
                           "aluminium 240 bar", "steel -3 MPa", "GJL", "46"}) {
    INFO(text);
    CHECK_THROWS_AS(read_part_material(text), failure::InputError);
  }
  CHECK_THROWS_WITH(read_part_material("pewter"), ContainsSubstring("EN AC-46000"));
  holds_always("any bytes are a material or refused", [] {
    const auto text = *rc::gen::arbitrary<std::string>();
    try {
      const auto material = read_part_material(text);
      RC_ASSERT(read_part_material(material.name).kind == material.kind);
    } catch (const failure::InputError&) {
    }
  });
}

TEST_CASE("every known material reads back and shears below its tensile strength", "[fastener]") {
  const auto all = fastener::known_part_materials();
  std::string_view rest = all;
  int materials = 0;
  while (!rest.empty()) {
    const auto end = std::min(rest.find(", "), rest.size());
    const auto material = read_part_material(rest.substr(0, end));
    CHECK(material.name == rest.substr(0, end));
    CHECK(fastener::shear_strength(material) < material.tensile);
    rest.remove_prefix(std::min(end + 2, rest.size()));
    ++materials;
  }
  CHECK(materials == 27);
}

}  // namespace part_material_test
