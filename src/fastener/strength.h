#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "fastener/grade.h"
#include "fastener/thread.h"
#include "quantity/force.h"
#include "quantity/stress.h"

namespace fastener {

// The least strength that a grade promises at one size.
struct Strength {
  std::optional<quantity::Stress> proof;  // no lasting stretch up to here; some standards give none
  quantity::Stress yield;                 // Rp0.2, or ReL for 4.6 and 5.6
  quantity::Stress tensile;               // Rm
  std::string_view source;                // standard, and "from memory" where it was not seen
  std::optional<std::string> note;        // outside the standard's sizes or kind of thread
};

// Nothing where the grade does not exist at this size (9.8 above M16, SAE 5.2 above 1 in).
// Sources: ISO 898-1:2013 Table 3; SAE J429 and ASTM values as tabulated by Shigley and Mischke,
// Mechanical Engineering Design, 5th ed., and Shigley 9th ed. Tables 8-9 and 8-10; ISO 3506-1.
// Where a source splits a grade by size, a diameter between two of its ranges takes the larger one.
[[nodiscard]] std::optional<Strength> strength_of(Grade grade, const Thread& thread);

// What a person should be told where a marking of metric threads is named for an inch thread or the
// other way round, which is a slip more often than not; nothing where they go together.
[[nodiscard]] std::optional<std::string> marking_mismatch(Grade grade, const Thread& thread);

// What a preload is measured against: the proof stress, or where the standard gives none (A193 B7,
// stainless steel) 0.85 of the yield stress. Source of the 0.85: Shigley 9th ed., section 8-9 (from
// memory).
struct ProofBasis {
  quantity::Stress stress;
  bool from_yield = false;
};
[[nodiscard]] ProofBasis proof_basis(const Strength& strength);

// A stress on the stress area of the thread, for proof, yield and tensile loads.
[[nodiscard]] quantity::Force load_at(quantity::Stress stress, const Thread& thread);

}  // namespace fastener
