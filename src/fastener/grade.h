#pragma once

#include <optional>
#include <string_view>

namespace fastener {

// The strength marking of a bolt, screw or stud.
enum class Grade {
  Class4_6,  // ISO 898-1 property classes
  Class4_8,
  Class5_6,
  Class5_8,
  Class6_8,
  Class8_8,
  Class9_8,
  Class10_9,
  Class12_9,
  Sae1,  // SAE J429 grades
  Sae2,
  Sae5,
  Sae5_2,
  Sae7,
  Sae8,
  Sae8_2,
  AstmA307,
  AstmA325,
  AstmA354Bd,
  AstmA449,
  AstmA490,
  AstmA193B7,
  A2_50,  // ISO 3506-1 austenitic stainless steel
  A2_70,
  A2_80,
  A4_50,
  A4_70,
  A4_80,
};

// Reads what people type, any case, with or without spaces, hyphens or the words class, grade, gr,
// SAE, J429, ASTM, ISO: `8.8`, `class 10,9`, `A2-70`, `a4 80`, `SAE 5`, `gr 8`, `A325`, `B7`,
// `A193 B7`. A bare 1, 2, 5, 5.2, 7, 8 or 8.2 is the SAE grade. A word that names the standard is
// held to it: `class 8` and `ISO 8` are no SAE grade, `SAE 8.8` is no property class. Nothing for
// an unknown text.
[[nodiscard]] std::optional<Grade> read_grade(std::string_view text);

// The one canonical name, which read_grade takes: "8.8", "SAE 5", "ASTM A193 B7", "A2-70".
[[nodiscard]] std::string_view name_of(Grade grade);

// Which threads the grade's standard is written for.
enum class GradeFamily { IsoClass, Sae, Astm, Stainless };
[[nodiscard]] GradeFamily family_of(Grade grade);

// What a bolt is made of, as far as its friction depends on it.
enum class BoltMetal { Steel, Stainless };
[[nodiscard]] BoltMetal metal_of(Grade grade);

// "steel", "stainless".
[[nodiscard]] std::string_view name_of(BoltMetal metal);

// Every grade with its names, for messages and lists: "4.6, 4.8, ..., A4-80".
[[nodiscard]] std::string_view known_grades();

}  // namespace fastener
