// What is kept of a photograph's file, and what is no photograph whatever it is called.

#include "record/picture.h"

#include <fmt/format.h>

#include "record/picture_bytes.h"
#include "support/catch.h"
#include "support/pictures.h"
#include "support/property.h"
#include "support/published.h"
#include "support/refusal.h"

namespace picture_test {

using Catch::Matchers::Equals;
using record::PictureFormat;
using record::read_picture;
using namespace std::string_literals;

namespace {

std::string refused(const std::string& bytes) {
  return refusal_of([&] { return read_picture(bytes); });
}

void is_of(const std::string& bytes, PictureFormat format, int width, int height) {
  const auto picture = read_picture(bytes);
  CHECK(picture.format == format);
  CHECK(picture.width == width);
  CHECK(picture.height == height);
  // Once read it is the same for ever.
  const bool is_same = read_picture(picture.bytes).bytes == picture.bytes;
  CHECK(is_same);
}

// The SOF0 of tests/pictures/mark.jpg with other sides.
std::string jpeg_of(int width, int height) {
  auto jpeg = picture_file("mark.jpg");
  const auto frame = jpeg.find("\xFF\xC0\x00\x11\x08"s);
  REQUIRE(frame != std::string::npos);
  return jpeg.replace(frame + 5, 4,
                      high_bytes(static_cast<unsigned long>(height), 2) +
                          high_bytes(static_cast<unsigned long>(width), 2));
}

std::string png_of(unsigned long width, unsigned long height) {
  return "\x89PNG\r\n\x1A\n"s +
         png_part("IHDR", high_bytes(width, 4) + high_bytes(height, 4) + "\x08\0\0\0\0"s) +
         png_part("IDAT", "x") + png_part("IEND", "");
}

}  // namespace

TEST_CASE("pictures that a browser wrote are known by their bytes", "[record]") {
  is_of(picture_file("mark.jpg"), PictureFormat::Jpeg, 24, 16);
  is_of(picture_file("mark.png"), PictureFormat::Png, 24, 16);
  is_of(picture_file("mark.webp"), PictureFormat::WebP, 24, 16);
  is_of(picture_file("mark-lossless.webp"), PictureFormat::WebP, 24, 16);
  is_of(plain_png(300, 400, 7), PictureFormat::Png, 300, 400);
  is_of(jpeg_of(4000, 3000), PictureFormat::Jpeg, 4000, 3000);
}

TEST_CASE("the bytes that the standards print are what is written", "[record][published]") {
  // ISO/IEC 15948 (PNG) 5.2 and 11.2.5: the signature, and an IEND chunk whole.
  const auto png = read_picture(plain_png(2, 2, 9)).bytes;
  CHECK_PUBLISHED(Published::FromMemory, png.substr(0, 8),
                  Equals("\x89\x50\x4E\x47\x0D\x0A\x1A\x0A"s));
  CHECK_PUBLISHED(Published::FromMemory, png.substr(png.size() - 12),
                  Equals("\0\0\0\0IEND\xAE\x42\x60\x82"s));
  // ITU-T T.81 table B.1: SOI and EOI; JFIF 1.02: APP0 and its identifier.
  const auto jpeg = read_picture(picture_file("mark.jpg")).bytes;
  CHECK_PUBLISHED(Published::FromMemory, jpeg.substr(0, 4), Equals("\xFF\xD8\xFF\xE0"s));
  CHECK_PUBLISHED(Published::FromMemory, jpeg.substr(6, 5), Equals("JFIF\0"s));
  CHECK_PUBLISHED(Published::FromMemory, jpeg.substr(jpeg.size() - 2), Equals("\xFF\xD9"s));
  // RFC 9649 section 2.4: the header of a WebP file.
  const auto webp = read_picture(picture_file("mark.webp")).bytes;
  CHECK_PUBLISHED(Published::FromMemory, webp.substr(0, 4) + webp.substr(8, 4),
                  Equals("RIFFWEBP"s));
}

TEST_CASE("a picture that says nothing besides is kept byte for byte", "[record]") {
  for (const std::string name : {"mark.jpg", "mark.png", "mark.webp", "mark-lossless.webp"}) {
    INFO(name);
    const auto file = picture_file(name);
    const bool is_same = read_picture(file).bytes == file;
    CHECK(is_same);
  }
}

TEST_CASE("place, time and device are left out, which way up it is stays", "[record]") {
  const auto jpeg = picture_file("mark.jpg");
  const auto from_camera =
      with_segment(with_segment(with_segment(jpeg, 0xE1, "Exif\0\0"s + camera_data(6)), 0xE1,
                                "http://ns.adobe.com/xap/1.0/\0<x:xmpmeta/>"s),
                   0xFE, "shot by Maker-7") +
      "a film behind it, Maker-7";
  const auto webp = picture_file("mark.webp");
  const auto png =
      with_png_part(with_png_part(plain_png(5, 4, 200), png_part("eXIf", camera_data(6))),
                    png_part("tEXt", "Author\0Maker-7"s));
  for (const auto& file : {from_camera, png + "Maker-7"}) {
    const auto kept = read_picture(file).bytes;
    for (const auto* gone : {"Maker-7", "GPS", "xmp", "Author"}) {
      CHECK(kept.find(gone) == std::string::npos);
    }
    const auto tiff = kept.find("MM\0*"s);
    REQUIRE(tiff != std::string::npos);
    CHECK(record::orientation_in(std::string_view(kept).substr(tiff)) == 6);
    const bool is_same = read_picture(kept).bytes == kept;
    CHECK(is_same);
  }
  // Upright, which is as it stands, needs no word.
  const bool is_plain =
      read_picture(with_segment(jpeg, 0xE1, "Exif\0\0"s + camera_data(1))).bytes == jpeg;
  CHECK(is_plain);
}

TEST_CASE("which way up a WebP is stays, and nothing else that it says", "[record]") {
  auto webp = picture_file("mark.webp");
  const auto chunk = [](const std::string& type, const std::string& data) {
    auto size = high_bytes(data.size(), 4);
    std::reverse(size.begin(), size.end());
    return type + size + data + (data.size() % 2 == 0 ? "" : "\0"s);
  };
  webp += chunk("EXIF", camera_data(3)) + chunk("XMP ", "<x:xmpmeta/>");
  auto size = high_bytes(webp.size() - 8, 4);
  std::reverse(size.begin(), size.end());
  webp.replace(4, 4, size);
  const auto kept = read_picture(webp).bytes;
  CHECK(kept.find("Maker-7") == std::string::npos);
  CHECK(kept.find("xmp") == std::string::npos);
  REQUIRE(kept.find("EXIF") != std::string::npos);
  CHECK(record::orientation_in(std::string_view(kept).substr(kept.find("EXIF") + 8)) == 3);
  const bool is_same = read_picture(kept).bytes == kept;
  CHECK(is_same);
}

TEST_CASE("what is no picture is refused whatever it is called", "[record]") {
  CHECK_THAT(refused(""), ContainsSubstring("is empty"));
  for (const std::string text :
       {"<!DOCTYPE html><script>alert(1)</script>", "<svg xmlns='http://www.w3.org/2000/svg'/>",
        "GIF89a", "BM", "%PDF-1.7", "PK\x03\x04", "\x1B[31mred"}) {
    CHECK_THAT(refused(text), ContainsSubstring("is none, whatever its name"));
  }
  CHECK(refused("\x1B[31mred").find('\x1B') == std::string::npos);
  CHECK_THAT(refused("\0\0\0\x18"
                     "ftypheic\0\0\0\0"s),
             ContainsSubstring("HEIC"));
  CHECK_THAT(refused(std::string(record::kMostPhotographBytes + 1, 'x')),
             ContainsSubstring("larger than 8 MiB"));
}

TEST_CASE("a picture that says it is larger than any is refused", "[record]") {
  CHECK_THAT(refused(jpeg_of(60000, 60000)), ContainsSubstring("60000 by 60000"));
  CHECK_THAT(refused(jpeg_of(16385, 1)), ContainsSubstring("16385 by 1"));
  CHECK_THAT(refused(jpeg_of(12000, 12000)), ContainsSubstring("100 million"));
  CHECK_THAT(refused(jpeg_of(0, 16)), ContainsSubstring("no points"));
  CHECK_THAT(refused(jpeg_of(24, 0)), ContainsSubstring("no points"));
  CHECK_THAT(refused(png_of(60000, 60000)), ContainsSubstring("60000 by 60000"));
  CHECK_THAT(refused(png_of(0xFFFFFFFF, 1)), ContainsSubstring("larger than any"));
  CHECK_THAT(refused(png_of(0, 1)), ContainsSubstring("no points"));
}

TEST_CASE("a picture that breaks off anywhere is refused", "[record]") {
  for (const auto& whole : {picture_file("mark.jpg"), picture_file("mark.png"),
                            picture_file("mark.webp"), plain_png(9, 9, 1)}) {
    for (std::size_t size = 0; size < whole.size(); ++size) {
      INFO(whole.substr(0, 4) << " cut to " << size);
      const bool is_refused = !refused(whole.substr(0, size)).empty();
      CHECK(is_refused);
    }
  }
}

TEST_CASE("a picture that contradicts itself or moves is refused", "[record]") {
  const auto jpeg = picture_file("mark.jpg");
  const auto frame = jpeg.find("\xFF\xC0\x00\x11\x08"s);
  auto twice = jpeg;
  CHECK_THAT(refused(twice.insert(frame, jpeg.substr(frame, 19))), ContainsSubstring("says twice"));
  auto lossless = jpeg;
  lossless[frame + 1] = '\xC3';
  CHECK_THAT(refused(lossless), ContainsSubstring("browsers do not show"));
  CHECK_THAT(refused("\xFF\xD8\xFF\xD9"s), ContainsSubstring("before its first point"));
  CHECK_THAT(refused("\xFF\xD8\xFF\xE0\x00\x01"s),
             ContainsSubstring("shorter than its own length"));
  auto other = plain_png(4, 4, 1);
  other[other.size() - 20] ^= 1;
  CHECK_THAT(refused(other), ContainsSubstring("does not fit"));
  CHECK_THAT(refused(with_png_part(plain_png(4, 4, 1), png_part("acTL", "\0\0\0\2\0\0\0\0"s))),
             ContainsSubstring("moves"));
  CHECK_THAT(refused(with_png_part(plain_png(4, 4, 1), png_part("ABCD", ""))),
             ContainsSubstring("browsers do not show"));
  auto moving = picture_file("mark.webp");
  moving[20] = static_cast<char>(moving[20] | 0x02);
  CHECK_THAT(refused(moving), ContainsSubstring("moves"));
}

TEST_CASE("bytes changed anywhere give a sound picture or none", "[record]") {
  const std::vector<std::string> files = {
      picture_file("mark.jpg"), picture_file("mark.png"), picture_file("mark.webp"),
      with_segment(picture_file("mark.jpg"), 0xE1, "Exif\0\0"s + camera_data(8))};
  holds_always("what is kept reads back as itself", [&] {
    auto bytes = files[*rc::gen::inRange<std::size_t>(0, files.size())];
    for (int i = 0, n = *rc::gen::inRange(1, 6); i < n; ++i) {
      bytes[*rc::gen::inRange<std::size_t>(0, bytes.size())] =
          static_cast<char>(*rc::gen::inRange(0, 256));
    }
    record::Picture picture;
    try {
      picture = read_picture(bytes);
    } catch (const failure::InputError&) {
      return;
    }
    RC_ASSERT(picture.width > 0 && picture.height > 0);
    RC_ASSERT(read_picture(picture.bytes).bytes == picture.bytes);
  });
}

}  // namespace picture_test
