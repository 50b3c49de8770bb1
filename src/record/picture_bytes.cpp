#include "record/picture_bytes.h"

#include <fmt/format.h>

#include "failure/failure.h"

namespace record {
namespace {

constexpr std::uint32_t kOrientationTag = 274;
constexpr std::uint32_t kShort = 3;
constexpr std::uint32_t kMostOrientation = 8;

std::uint32_t number_in(std::string_view bytes, bool is_high_first) {
  std::uint32_t number = 0;
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    const auto byte = bytes[is_high_first ? i : bytes.size() - 1 - i];
    number = number << 8U | static_cast<unsigned char>(byte);
  }
  return number;
}

}  // namespace

void refuse_picture(const std::string& found) {
  throw failure::InputError(fmt::format(
      "this photograph {}; expected a whole JPEG, PNG or WebP as a camera or phone writes it; open "
      "it in a program for pictures and save it as JPEG",
      found));
}

std::string_view PictureBytes::take(std::size_t count) {
  if (count > rest_.size()) refuse_picture("breaks off");
  const auto taken = rest_.substr(0, count);
  rest_.remove_prefix(count);
  return taken;
}

std::uint32_t PictureBytes::high_first(std::size_t count) { return number_in(take(count), true); }
std::uint32_t PictureBytes::low_first(std::size_t count) { return number_in(take(count), false); }

std::string high_first(std::uint32_t number, std::size_t count) {
  std::string bytes;
  for (auto i = count; i-- > 0;) bytes += static_cast<char>(number >> 8U * i & 0xFFU);
  return bytes;
}

std::string low_first(std::uint32_t number, std::size_t count) {
  std::string bytes;
  for (std::size_t i = 0; i < count; ++i) bytes += static_cast<char>(number >> 8U * i & 0xFFU);
  return bytes;
}

int orientation_in(std::string_view exif) {
  const bool is_high_first = exif.starts_with("MM");
  if (!is_high_first && !exif.starts_with("II")) return 1;
  const auto number_at = [&](std::size_t place, std::size_t count) -> std::uint32_t {
    if (place > exif.size() || count > exif.size() - place) return 0;
    return number_in(exif.substr(place, count), is_high_first);
  };
  constexpr std::size_t kEntry = 12;
  const std::size_t directory = number_at(4, 4);
  const auto entries = number_at(directory, 2);
  for (std::size_t i = 0; i < entries; ++i) {
    const auto entry = directory + 2 + kEntry * i;
    if (entry >= exif.size()) break;
    if (number_at(entry, 2) != kOrientationTag || number_at(entry + 2, 2) != kShort) continue;
    const auto orientation = number_at(entry + 8, 2);
    return orientation >= 1 && orientation <= kMostOrientation ? static_cast<int>(orientation) : 1;
  }
  return 1;
}

std::string exif_with(int orientation) {
  return std::string("MM\0*", 4) + high_first(8, 4) + high_first(1, 2) +
         high_first(kOrientationTag, 2) + high_first(kShort, 2) + high_first(1, 4) +
         high_first(static_cast<std::uint32_t>(orientation), 2) + high_first(0, 2) +
         high_first(0, 4);
}

}  // namespace record
