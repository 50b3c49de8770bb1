#include "quantity/base64.h"

#include <array>
#include <cstdint>

namespace quantity {
namespace {

// The 64 of them in the order of their values (table 1).
constexpr std::string_view kBase64Letters =
    "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
constexpr char kBase64Padding = '=';
constexpr std::uint8_t kNoBase64 = 64;

constexpr std::array<std::uint8_t, 256> kBase64Values = [] {
  std::array<std::uint8_t, 256> values{};
  values.fill(kNoBase64);
  for (std::size_t i = 0; i < kBase64Letters.size(); ++i) {
    values[static_cast<unsigned char>(kBase64Letters[i])] = static_cast<std::uint8_t>(i);
  }
  return values;
}();

}  // namespace

std::string write_base64(std::string_view bytes) {
  std::string text;
  text.reserve((bytes.size() + 2) / 3 * 4);
  for (std::size_t at = 0; at < bytes.size(); at += 3) {
    const auto byte = [&](std::size_t i) -> std::uint32_t {
      return at + i < bytes.size() ? static_cast<unsigned char>(bytes[at + i]) : 0U;
    };
    const auto three = byte(0) << 16U | byte(1) << 8U | byte(2);
    text += kBase64Letters[three >> 18U & 63U];
    text += kBase64Letters[three >> 12U & 63U];
    text += at + 1 < bytes.size() ? kBase64Letters[three >> 6U & 63U] : kBase64Padding;
    text += at + 2 < bytes.size() ? kBase64Letters[three & 63U] : kBase64Padding;
  }
  return text;
}

std::optional<std::string> read_base64(std::string_view text) {
  if (text.size() % 4 != 0) return std::nullopt;
  std::size_t padding = 0;
  while (padding < 2 && !text.empty() && text.back() == kBase64Padding) {
    text.remove_suffix(1);
    ++padding;
  }
  std::string bytes;
  bytes.reserve(text.size() / 4 * 3 + 2);
  std::uint32_t bits = 0;
  unsigned count = 0;  // of bits not given out yet
  for (const char letter : text) {
    const auto value = kBase64Values[static_cast<unsigned char>(letter)];
    if (value == kNoBase64) return std::nullopt;
    bits = bits << 6U | value;
    count += 6;
    if (count < 8) continue;
    count -= 8;
    bytes += static_cast<char>(bits >> count & 0xFFU);
  }
  const bool ends_clean = (bits & ((1U << count) - 1U)) == 0;
  return ends_clean ? std::optional(std::move(bytes)) : std::nullopt;
}

}  // namespace quantity
