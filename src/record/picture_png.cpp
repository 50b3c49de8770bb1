#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "quantity/number_text.h"
#include "record/picture_bytes.h"
#include "record/picture_formats.h"

namespace record {
namespace {

using namespace std::string_view_literals;

// What says how the picture looks; of the other ancillary chunks none is kept.
constexpr std::array kKeptChunks = {"PLTE"sv, "IDAT"sv, "tRNS"sv, "cHRM"sv, "gAMA"sv, "iCCP"sv,
                                    "cICP"sv, "sBIT"sv, "sRGB"sv, "bKGD"sv, "pHYs"sv};

constexpr std::size_t kSignature = 8;

// CRC-32 of type and data (ISO/IEC 15948 5.5 and annex D).
std::uint32_t check_sum(std::string_view type_and_data) {
  static const auto table = [] {
    constexpr std::uint32_t kPolynomial = 0xEDB88320;
    std::array<std::uint32_t, 256> sums{};
    for (std::uint32_t byte = 0; byte < sums.size(); ++byte) {
      auto sum = byte;
      for (int bit = 0; bit < 8; ++bit) sum = (sum >> 1U) ^ ((sum & 1U) != 0 ? kPolynomial : 0);
      sums[byte] = sum;
    }
    return sums;
  }();
  std::uint32_t sum = 0xFFFFFFFF;
  for (const char c : type_and_data) {
    sum = table[(sum ^ static_cast<unsigned char>(c)) & 0xFFU] ^ (sum >> 8U);
  }
  return ~sum;
}

std::string png_chunk(std::string_view type, std::string_view data) {
  const auto both = std::string(type).append(data);
  return high_first(static_cast<std::uint32_t>(data.size()), 4) + both +
         high_first(check_sum(both), 4);
}

// Colour types and the depths that they may have (table 11.1).
bool is_depth_of(std::uint32_t colour, std::uint32_t depth) {
  const bool is_byte = depth == 8 || depth == 16;
  const bool is_part = depth == 1 || depth == 2 || depth == 4;
  switch (colour) {
    case 0:
      return is_byte || is_part;
    case 3:
      return is_part || depth == 8;
    case 2:
    case 4:
    case 6:
      return is_byte;
    default:
      return false;
  }
}

class Png {
 public:
  explicit Png(std::string_view bytes) : bytes_(bytes), signature_(bytes_.take(kSignature)) {}

  Picture read() {
    for (auto type = take_chunk(); type != "IEND"sv; type = take_chunk()) {
    }
    if (!has_points_) refuse_picture("ends before its first point");
    picture_.bytes = std::string(signature_) + header_;
    if (orientation_ != 1) picture_.bytes += png_chunk("eXIf", exif_with(orientation_));
    picture_.bytes += kept_ + png_chunk("IEND", "");
    return std::move(picture_);
  }

 private:
  std::string_view take_chunk() {
    const auto length = bytes_.high_first(4);
    const auto both = PictureBytes(bytes_).take(std::size_t{length} + 4);
    const auto type = bytes_.take(4);
    const auto data = bytes_.take(length);
    if (bytes_.high_first(4) != check_sum(both)) {
      refuse_picture(fmt::format("is not what was written: the sum over its part {} does not fit",
                                 quantity::quoted(type)));
    }
    if (header_.empty() != (type == "IHDR"sv)) refuse_picture("does not begin with one header");
    take(type, data);
    return type;
  }

  void take(std::string_view type, std::string_view data) {
    constexpr unsigned kAncillary = 0x20;  // in the first letter (5.4)
    if (type == "IHDR"sv) return take_header(data);
    if (type == "eXIf"sv) orientation_ = orientation_in(data);
    if (type == "acTL"sv) refuse_picture("moves");
    const bool is_kept = std::ranges::find(kKeptChunks, type) != kKeptChunks.end();
    if (!is_kept && type != "IEND"sv && (static_cast<unsigned char>(type[0]) & kAncillary) == 0) {
      refuse_picture(fmt::format("is a PNG of a kind that browsers do not show (part {})",
                                 quantity::quoted(type)));
    }
    has_points_ = has_points_ || (type == "IDAT"sv && !data.empty());
    if (is_kept) kept_ += png_chunk(type, data);
  }

  void take_header(std::string_view data) {
    PictureBytes header(data);
    const auto width = header.high_first(4);
    const auto height = header.high_first(4);
    const auto depth = header.high_first(1);
    const auto colour = header.high_first(1);
    const auto compression = header.high_first(1);
    const auto filter = header.high_first(1);
    const auto interlace = header.high_first(1);
    if (!header.is_empty() || !is_depth_of(colour, depth) || compression != 0 || filter != 0 ||
        interlace > 1) {
      refuse_picture("is a PNG of a kind that browsers do not show");
    }
    constexpr std::uint32_t kLargest = 0x7FFFFFFF;  // (11.2.2)
    if (width > kLargest || height > kLargest) refuse_picture("says that it is larger than any");
    picture_ = {PictureFormat::Png, static_cast<int>(width), static_cast<int>(height), {}};
    header_ = png_chunk("IHDR", data);
  }

  PictureBytes bytes_;
  std::string_view signature_;
  Picture picture_;
  std::string header_;
  int orientation_ = 1;
  std::string kept_;
  bool has_points_ = false;
};

}  // namespace

Picture read_png(std::string_view bytes) { return Png(bytes).read(); }

}  // namespace record
