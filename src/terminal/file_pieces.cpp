#include "terminal/file_pieces.h"

#include <fmt/format.h>

#include <filesystem>
#include <iterator>
#include <system_error>
#include <utility>

#include "failure/failure.h"

namespace terminal {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kPieceBytes = 256 * 1024;

}  // namespace

FilePieces::FilePieces(const Session& session, std::string file) : file_(std::move(file)) {
  if (file_ == "-") {
    content_ = session.input();
    return;
  }
  const auto path = session.reachable(file_);
  std::error_code ignored;
  if (fs::is_directory(path, ignored)) {
    throw failure::InputError(
        fmt::format("{} is a folder; expected a file; name one that lies in it, such as {}", file_,
                    (fs::path(file_) / "joints.csv").string()));
  }
  stream_.open(path, std::ios::binary);
  if (!stream_.is_open()) check_was_read();
  if (fs::is_regular_file(path, ignored)) return;
  content_.emplace(std::istreambuf_iterator<char>(stream_), std::istreambuf_iterator<char>());
  check_was_read();
}

std::string_view FilePieces::next() {
  if (content_) {
    const bool was_given = std::exchange(is_given_, true);
    return was_given ? std::string_view() : std::string_view(*content_);
  }
  piece_.resize(kPieceBytes);
  stream_.read(piece_.data(), static_cast<std::streamsize>(piece_.size()));
  piece_.resize(static_cast<std::size_t>(stream_.gcount()));
  check_was_read();
  return piece_;
}

void FilePieces::begin_again() {
  is_given_ = false;
  if (content_) return;
  stream_.clear();
  stream_.seekg(0);
}

std::string FilePieces::whole() {
  begin_again();
  std::string content;
  for (auto piece = next(); !piece.empty(); piece = next()) content += piece;
  return content;
}

void FilePieces::check_was_read() const {
  if (stream_.is_open() && !stream_.bad()) return;
  throw failure::InputError(
      fmt::format("{} cannot be read; check its name and permissions", file_));
}

}  // namespace terminal
