#include <fmt/format.h>

#include <optional>

#include "record/picture_bytes.h"
#include "record/picture_formats.h"

namespace record {
namespace {

using namespace std::string_view_literals;

// Markers after ITU-T T.81 table B.1.
enum Marker : unsigned {
  kBaseline = 0xC0,     // SOF0
  kProgressive = 0xC2,  // SOF2; SOF1 between the two
  kHuffman = 0xC4,      // DHT
  kFirstRestart = 0xD0,
  kLastRestart = 0xD7,
  kEndOfImage = 0xD9,
  kStartOfScan = 0xDA,
  kQuantization = 0xDB,  // DQT
  kRestartInterval = 0xDD,
  kJfif = 0xE0,    // APP0
  kExif = 0xE1,    // APP1
  kColour = 0xE2,  // APP2
  kAdobe = 0xEE,   // APP14, which says what the components mean
  kLastApplication = 0xEF,
  kComment = 0xFE,
};

constexpr unsigned kMarkerBegin = 0xFF;
constexpr auto kExifBegin = "Exif\0\0"sv;

std::string segment(unsigned marker, std::string_view content) {
  return high_first(kMarkerBegin << 8U | marker, 2) +
         high_first(static_cast<std::uint32_t>(content.size()) + 2, 2).append(content);
}

class Jpeg {
 public:
  explicit Jpeg(std::string_view bytes) : bytes_(bytes) { (void)bytes_.take(2); }

  Picture read() {
    for (auto marker = next_marker(); marker != kEndOfImage; marker = next_marker()) {
      const auto length = bytes_.high_first(2);
      if (length < 2) refuse_picture("has a segment shorter than its own length");
      take_segment(marker, bytes_.take(length - 2));
      if (marker == kStartOfScan) take_scan();
    }
    if (!has_scan_) refuse_picture("ends before its first point");
    picture_.bytes = "\xFF\xD8" + jfif_;
    if (orientation_.value_or(1) != 1) {
      picture_.bytes += segment(kExif, std::string(kExifBegin) + exif_with(*orientation_));
    }
    picture_.bytes += kept_ + "\xFF\xD9";
    return std::move(picture_);
  }

 private:
  // Fill bytes may stand before one.
  unsigned next_marker() {
    if (bytes_.high_first(1) != kMarkerBegin) refuse_picture("holds bytes where a segment begins");
    auto marker = bytes_.high_first(1);
    while (marker == kMarkerBegin) marker = bytes_.high_first(1);
    return marker;
  }

  void take_segment(unsigned marker, std::string_view content) {
    if (marker >= kBaseline && marker <= kProgressive) return take_frame(marker, content);
    if (marker >= kJfif && marker <= kLastApplication) return take_application(marker, content);
    switch (marker) {
      case kComment:
        return;
      case kStartOfScan:
        if (picture_.width == 0) refuse_picture("shows points before it says how many");
        has_scan_ = true;
        break;
      case kHuffman:
      case kQuantization:
      case kRestartInterval:
        break;
      default:
        refuse_picture(
            fmt::format("is a JPEG of a kind that browsers do not show (marker {:02X})", marker));
    }
    kept_ += segment(marker, content);
  }

  // T.81 B.2.2.
  void take_frame(unsigned marker, std::string_view content) {
    if (picture_.width != 0) refuse_picture("says twice how large it is");
    PictureBytes frame(content);
    const auto precision = frame.high_first(1);
    picture_.height = static_cast<int>(frame.high_first(2));
    picture_.width = static_cast<int>(frame.high_first(2));
    const auto components = frame.high_first(1);
    if (precision != 8 || (components != 1 && components != 3 && components != 4) ||
        frame.rest().size() != 3U * components) {
      refuse_picture("is a JPEG of a kind that browsers do not show");
    }
    if (picture_.width == 0 || picture_.height == 0) refuse_picture("has no points");
    kept_ += segment(marker, content);
  }

  void take_application(unsigned marker, std::string_view content) {
    constexpr std::size_t kJfifLength = 14;  // with the two zeros for a thumbnail of no points
    if (marker == kJfif && content.starts_with("JFIF\0"sv) && content.size() >= kJfifLength) {
      if (jfif_.empty()) {
        jfif_ = segment(kJfif, std::string(content.substr(0, kJfifLength - 2)) + high_first(0, 2));
      }
    } else if (marker == kExif && content.starts_with(kExifBegin)) {
      if (!orientation_) orientation_ = orientation_in(content.substr(kExifBegin.size()));
    } else if ((marker == kColour && content.starts_with("ICC_PROFILE\0"sv)) ||
               (marker == kAdobe && content.starts_with("Adobe"sv))) {
      kept_ += segment(marker, content);
    }
  }

  // Coded points run to the next marker that is none of theirs.
  void take_scan() {
    auto rest = bytes_.rest();
    std::size_t end = 0;
    while (true) {
      end = rest.find(static_cast<char>(kMarkerBegin), end);
      if (end >= rest.size() || end + 1 >= rest.size()) refuse_picture("breaks off");
      const unsigned next = static_cast<unsigned char>(rest[end + 1]);
      const bool is_within = next == 0 || (next >= kFirstRestart && next <= kLastRestart);
      if (!is_within && next != kMarkerBegin) break;
      end += is_within ? 2U : 1U;
    }
    kept_ += bytes_.take(end);
  }

  PictureBytes bytes_;
  Picture picture_;
  std::string jfif_;
  std::optional<int> orientation_;  // of the first Exif segment
  std::string kept_;
  bool has_scan_ = false;
};

}  // namespace

Picture read_jpeg(std::string_view bytes) { return Jpeg(bytes).read(); }

}  // namespace record
