#pragma once

#include <string>

#include "record/content.h"

namespace words {

// What a line about reassembly says; line_text.h has the whole.
[[nodiscard]] std::string say(const record::FluidAmount& fluid);
[[nodiscard]] std::string say(const record::CountedItem& item);
[[nodiscard]] std::string say(const record::ItemReturn& back);
[[nodiscard]] std::string say(const record::HoldPoint& point);
[[nodiscard]] std::string say(const record::HoldPointStep& step);
[[nodiscard]] std::string say(const record::Renewal& renewal);
[[nodiscard]] std::string say(const record::Tightening& tightening);
[[nodiscard]] std::string say(const record::FinalStripe& stripe);
[[nodiscard]] std::string say(const record::Recheck& recheck);

}  // namespace words
