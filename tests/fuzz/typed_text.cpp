// What people type: read, written in the program's own words, and read again as the same.

#include "failure/failure.h"
#include "fuzz/target.h"
#include "quantity/length_text.h"
#include "quantity/stated_torque.h"
#include "record/address.h"
#include "record/layout.h"
#include "record/measured.h"
#include "record/shouted_line.h"
#include "record/specification.h"

namespace fuzz {
namespace {

// Runs `work`, to which refusing what it is given is allowed.
template <class Work>
void may_refuse(const Work& work) {
  try {
    work();
  } catch (const failure::Failure&) {
    return;
  }
}

// Reads the text; what was read has to come back from what is written of it.
template <class Read>
void comes_back(std::string_view text, const Read& read) {
  may_refuse([&] {
    const auto value = read(text);
    const auto written = write_exact(value);
    try {
      promise(read(written) == value, "what was written reads back as something else");
    } catch (const failure::Failure&) {
      promise(false, "what was written cannot be read back");
    }
  });
}

}  // namespace

void torque(std::string_view bytes) { comes_back(bytes, quantity::read_torque); }

void length(std::string_view bytes) {
  may_refuse([&] {
    const auto value = quantity::read_length(bytes);
    const auto again = quantity::read_length(quantity::write_exact(value));
    promise(quantity::is_same(again, value), "the length reads back as another");
  });
}

void specification(std::string_view bytes) { comes_back(bytes, record::read_specification); }

void readings(std::string_view bytes) {
  comes_back(bytes,
             [](std::string_view text) { return record::read_readings(text, std::nullopt); });
  // Offsets in mm come back as degrees.
  may_refuse([&] {
    const auto read = record::read_readings(bytes, quantity::Length::millimetres(9));
    record::check_readings(read);
    promise(!record::write_exact(read).empty(), "readings without a text");
  });
}

void shouted_line(std::string_view bytes) {
  static const record::KnownNames known{{"J06", "J1", "case-split", "J16"},
                                        {"TW2", "TW-25", "bar"}};
  may_refuse([&] {
    const auto line = record::read_shouted_line(bytes, known);
    if (!line) return;
    promise(line->address.positions.size() == 1, "a shouted line is about one position");
    promise(record::is_code(line->address.joint), "its joint is none");
  });
}

void address(std::string_view bytes) {
  may_refuse([&] {
    const auto read = record::read_address(bytes);
    const auto again = record::read_address(record::write_address(read.joint, read.positions));
    promise(again.joint == read.joint && again.positions == read.positions,
            "the address reads back as another");
  });
  may_refuse([&] { (void)record::read_address_in_order(bytes); });
}

void layout(std::string_view bytes) {
  comes_back(bytes, record::read_layout);
  may_refuse([&] {
    const auto read = record::read_layout(bytes);
    constexpr int kSome = 12;
    record::check_count(read, kSome);
    promise(record::positions_of(read, kSome).size() == kSome, "a place for each position");
  });
}

}  // namespace fuzz
