#pragma once

#include <cmath>
#include <string>

// A number as a table prints it, and the value of one unit of its last digit: 1 for "120", 0.01
// for "3.85". A table that rounds to nearest is met within half of it.
struct Printed {
  double value;
  double last_digit;

  explicit Printed(const std::string& text)
      : value(std::stod(text)), last_digit(std::pow(10.0, -decimals(text))) {}

 private:
  static double decimals(const std::string& text) {
    const auto point = text.find('.');
    return point == std::string::npos ? 0.0 : static_cast<double>(text.size() - point - 1);
  }
};

// The value of one unit of the third significant digit: 100 for 11600, 0.01 for 3.85.
inline double third_digit(double value) {
  return std::pow(10.0, std::floor(std::log10(value)) - 2.0);
}
