#include "logbook/entry_id.h"

#include <sodium.h>

#include <array>
#include <charconv>
#include <cstdint>
#include <string_view>

namespace logbook {
namespace {

// 128 bits in network order.
using Bits = std::array<std::uint8_t, 16>;

Bits random_bits() {
  Bits bits{};
  randombytes_buf(bits.data(), bits.size());
  return bits;
}

void set_version(Bits& bits, unsigned version) {
  bits[6] = static_cast<std::uint8_t>((bits[6] & 0x0FU) | (version << 4U));
  bits[8] = static_cast<std::uint8_t>((bits[8] & 0x3FU) | 0x80U);
}

std::string write(const Bits& bits) {
  constexpr std::string_view kDigits = "0123456789abcdef";
  std::string text;
  text.reserve(36);
  for (std::size_t i = 0; i < bits.size(); ++i) {
    if (i == 4 || i == 6 || i == 8 || i == 10) text += '-';
    text += kDigits[bits[i] >> 4U];
    text += kDigits[bits[i] & 15U];
  }
  return text;
}

Bits read(const std::string& id) {
  Bits bits{};
  std::size_t byte = 0;
  for (std::size_t at = 0; at + 1 < id.size() && byte < bits.size(); at += 2) {
    if (id[at] == '-') ++at;
    std::from_chars(id.data() + at, id.data() + at + 2, bits[byte++], 16);
  }
  return bits;
}

// More than `bits` by a random number of 48 bits that is not zero, stepping over the fixed version
// and variant bits; an overflow of the random part runs on into the time, which keeps the order. By
// a random number, since two copies of one logbook may count on from the same last id, and what
// they write must not bear one id.
Bits counted_on(Bits bits, const Bits& random) {
  constexpr std::array<std::uint8_t, 16> kFree = {0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0x0F, 0xFF,
                                                  0x3F, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF};
  constexpr std::size_t kFirstAdded = 10;
  unsigned carry = 1;
  for (std::size_t i = bits.size(); i-- > 0 && (carry != 0 || i >= kFirstAdded);) {
    const unsigned fixed = bits[i] & static_cast<unsigned>(~kFree[i] & 0xFF);
    const unsigned sum =
        (bits[i] & static_cast<unsigned>(kFree[i])) + carry + (i >= kFirstAdded ? random[i] : 0U);
    bits[i] = static_cast<std::uint8_t>(fixed | (sum & kFree[i]));
    carry = sum > kFree[i] ? 1U : 0U;
  }
  return bits;
}

constexpr std::size_t kTailBegins = 19;
constexpr std::size_t kCheckBegins = 15;
constexpr std::size_t kCheckDigits = 3;

std::uint64_t time_in(const Bits& bits) {
  std::uint64_t milliseconds = 0;
  for (std::size_t i = 0; i < 6; ++i) milliseconds = milliseconds << 8U | bits[i];
  return milliseconds;
}

void set_time(Bits& bits, std::uint64_t milliseconds) {
  for (std::size_t i = 0; i < 6; ++i) {
    bits[i] = static_cast<std::uint8_t>(milliseconds >> (8 * (5 - i)));
  }
}

}  // namespace

std::string next_entry_id(record::Moment now, const std::string& last_id) {
  Bits bits = random_bits();
  const auto milliseconds = static_cast<std::uint64_t>(now.time_since_epoch().count());
  set_time(bits, milliseconds);
  set_version(bits, 7);
  std::string id = write(bits);
  return id > last_id ? id : write(counted_on(read(last_id), bits));
}

bool is_id_tail(std::string_view text) {
  if (text.size() != 17 || text[4] != '-' || std::string_view("89ab").find(text[0]) == text.npos) {
    return false;
  }
  return text.find_first_not_of("0123456789abcdef-") == text.npos &&
         text.find('-', 5) == text.npos && text.find('-') == 4;
}

GivenId given_in(std::string_view id) {
  if (id.size() != 36) return {};
  return {std::string(id.substr(kTailBegins)), std::string(id.substr(kCheckBegins, kCheckDigits))};
}

std::string entry_id_with(record::Moment now, const std::string& last_id, const GivenId& given) {
  Bits time{};
  set_time(time, static_cast<std::uint64_t>(now.time_since_epoch().count()));
  const auto id = [&] { return write(time).substr(0, 14) + "7" + given.check + "-" + given.tail; };
  if (id() > last_id) return id();
  auto milliseconds = time_in(read(last_id));
  set_time(time, milliseconds);
  if (id() <= last_id) set_time(time, ++milliseconds);
  return id();
}

std::string random_id() {
  Bits bits = random_bits();
  set_version(bits, 4);
  return write(bits);
}

}  // namespace logbook
