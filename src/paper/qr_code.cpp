#include "paper/qr_code.h"

#include <fmt/format.h>
#include <qrencode.h>

#include <cerrno>
#include <memory>
#include <new>
#include <string>

#include "paper/svg.h"

namespace paper {
namespace {

constexpr int kLargestVersion = 6;  // 41 modules wide
constexpr int kBorder = 4;          // light modules all round, as the standard asks

struct Free {
  void operator()(QRcode* code) const { QRcode_free(code); }
};
using Code = std::unique_ptr<QRcode, Free>;

// The dark modules row by row, neighbours drawn together.
std::string path_of(const CodeMatrix& code) {
  std::string path;
  for (int row = 0; row < code.width; ++row) {
    for (int column = 0; column < code.width; ++column) {
      if (!code.is_dark(row, column)) continue;
      const int from = column;
      while (code.is_dark(row, column)) ++column;
      path += fmt::format("M{} {}h{}v1h-{}z", from + kBorder, row + kBorder, column - from,
                          column - from);
    }
  }
  return path;
}

}  // namespace

std::optional<CodeMatrix> code_matrix(std::string_view text) {
  const auto* bytes = reinterpret_cast<const unsigned char*>(text.data());
  const Code code(QRcode_encodeData(static_cast<int>(text.size()), bytes, 0, QR_ECLEVEL_M));
  if (!code && errno == ENOMEM) throw std::bad_alloc();
  if (!code || code->version > kLargestVersion) return std::nullopt;
  CodeMatrix matrix{code->width, {}};
  const int modules = code->width * code->width;
  for (int i = 0; i < modules; ++i) matrix.dark.push_back((code->data[i] & 1) != 0);
  return matrix;
}

bool draw_qr_code(Markup& page, std::string_view text, double size) {
  const auto code = code_matrix(text);
  if (!code) return false;
  const int modules = code->width + 2 * kBorder;
  page.open("svg", {{"role", "img"},
                    {"class", "qr"},
                    {"viewBox", fmt::format("0 0 {} {}", modules, modules)},
                    {"width", in_drawing(size) + "mm"},
                    {"height", in_drawing(size) + "mm"},
                    {"shape-rendering", "crispEdges"}});
  page.element("title", fmt::format("QR code of {}", text));
  page.empty("path", {{"class", "solid"}, {"d", path_of(*code)}});
  page.close();
  return true;
}

}  // namespace paper
