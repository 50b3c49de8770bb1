#pragma once

#include <string>
#include <string_view>

// Pictures for tests, made here from the standards without what the program has for them.

// One of tests/pictures, which a Chromium wrote from a canvas of 24 by 16 points: "mark.jpg".
std::string picture_file(const std::string& name);

// A PNG of so many points in one shade (ISO/IEC 15948), its data in stored blocks (RFC 1951 section
// 3.2.4): as large as its points.
std::string plain_png(int width, int height, unsigned shade);

// A chunk of a PNG with the sum over it.
std::string png_part(std::string_view type, std::string_view data);

// The PNG with this part behind its header.
std::string with_png_part(const std::string& png, const std::string& part);

// The JPEG with this segment behind its first two bytes.
std::string with_segment(const std::string& jpeg, unsigned marker, std::string_view content);

// What a camera says of itself and where it is (Exif), lowest byte first: maker "Maker-7", and
// which way up the picture is.
std::string camera_data(unsigned orientation);

// The number as so many bytes, the highest first.
std::string high_bytes(unsigned long number, int count);
