#include "support/pictures.h"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <stdexcept>

#include "support/places.h"

namespace {

// CRC-32 bit by bit, and Adler-32 as RFC 1950 defines it.
unsigned long crc_of(std::string_view bytes) {
  unsigned long sum = 0xFFFFFFFFUL;
  for (const char c : bytes) {
    sum ^= static_cast<unsigned char>(c);
    for (int bit = 0; bit < 8; ++bit)
      sum = (sum & 1UL) != 0 ? sum >> 1UL ^ 0xEDB88320UL : sum >> 1UL;
  }
  return sum ^ 0xFFFFFFFFUL;
}

unsigned long adler_of(std::string_view bytes) {
  constexpr unsigned long kPrime = 65521;
  unsigned long a = 1;
  unsigned long b = 0;
  for (const char c : bytes) {
    a = (a + static_cast<unsigned char>(c)) % kPrime;
    b = (b + a) % kPrime;
  }
  return b << 16UL | a;
}

std::string low_bytes(unsigned long number, int count) {
  auto bytes = high_bytes(number, count);
  std::ranges::reverse(bytes);
  return bytes;
}

std::string stored(std::string_view bytes) {
  constexpr std::size_t kMost = 65535;
  std::string stream = "\x78\x01";
  const auto sum = adler_of(bytes);
  do {
    const auto block = bytes.substr(0, kMost);
    bytes.remove_prefix(block.size());
    stream += bytes.empty() ? '\x01' : '\0';
    stream += low_bytes(block.size(), 2) + low_bytes(~block.size() & 0xFFFFUL, 2);
    stream += block;
  } while (!bytes.empty());
  return stream + high_bytes(sum, 4);
}

}  // namespace

std::string high_bytes(unsigned long number, int count) {
  std::string bytes;
  for (int i = count - 1; i >= 0; --i) bytes += static_cast<char>(number >> (8 * i) & 0xFFUL);
  return bytes;
}

std::string picture_file(const std::string& name) {
  std::ifstream file(std::string(BOLTWITNESS_PICTURES "/") + name, std::ios::binary);
  if (!file) throw std::runtime_error("there is no picture " + name);
  return {std::istreambuf_iterator<char>(file), {}};
}

std::string png_part(std::string_view type, std::string_view data) {
  const auto both = std::string(type) + std::string(data);
  return high_bytes(data.size(), 4) + both + high_bytes(crc_of(both), 4);
}

std::string plain_png(int width, int height, unsigned shade) {
  std::string rows;
  for (int row = 0; row < height; ++row) {
    rows += '\0';
    rows += std::string(static_cast<std::size_t>(width), static_cast<char>(shade));
  }
  return "\x89PNG\r\n\x1A\n" +
         png_part("IHDR", high_bytes(static_cast<unsigned long>(width), 4) +
                              high_bytes(static_cast<unsigned long>(height), 4) +
                              std::string("\x08\0\0\0\0", 5)) +
         png_part("IDAT", stored(rows)) + png_part("IEND", "");
}

std::string with_png_part(const std::string& png, const std::string& part) {
  constexpr std::size_t kBehindHeader = 8 + 25;
  return png.substr(0, kBehindHeader) + part + png.substr(kBehindHeader);
}

std::string with_segment(const std::string& jpeg, unsigned marker, std::string_view content) {
  return jpeg.substr(0, 2) + '\xFF' + static_cast<char>(marker) +
         high_bytes(content.size() + 2, 2) + std::string(content) + jpeg.substr(2);
}

std::string camera_data(unsigned orientation) {
  const std::string maker("Maker-7\0", 8);
  const auto entry = [](unsigned tag, unsigned type, unsigned count, unsigned long value) {
    return low_bytes(tag, 2) + low_bytes(type, 2) + low_bytes(count, 4) + low_bytes(value, 4);
  };
  constexpr unsigned kEntries = 3;
  constexpr unsigned long kBehind = 8 + 2 + 12 * kEntries + 4;
  return std::string("II*\0", 4) + low_bytes(8, 4) + low_bytes(kEntries, 2) +
         entry(0x010F, 2, 8, kBehind) + entry(0x0112, 3, 1, orientation) +
         entry(0x8825, 4, 1, kBehind + 8) + low_bytes(0, 4) + maker + low_bytes(0, 2) +
         "GPS 48.1374 11.5755";
}
