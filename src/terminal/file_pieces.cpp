#include "terminal/file_pieces.h"

#include <fmt/format.h>

#include <filesystem>
#include <system_error>
#include <utility>

#include "failure/failure.h"

namespace terminal {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kPieceBytes = 256 * 1024;

}  // namespace

FilePieces::FilePieces(const Session& session, std::string file)
    : session_(session), file_(std::move(file)), is_held_(file_ == "-") {
  if (is_held_) return;
  const auto path = session.reachable(file_);
  std::error_code ignored;
  if (fs::is_directory(path, ignored)) {
    throw failure::InputError(
        fmt::format("{} is a folder; expected a file; name one that lies in it, such as {}", file_,
                    (fs::path(file_) / "joints.csv").string()));
  }
  stream_.open(path, std::ios::binary);
  if (!stream_.is_open()) check_was_read();
  is_held_ = !fs::is_regular_file(path, ignored);
}

std::string_view FilePieces::next() {
  if (!is_held_) return piece_ = next_of_stream();
  if (given_ == held_.size()) {
    auto piece = file_ == "-" ? session_.input(kPieceBytes) : next_of_stream();
    if (piece.empty()) return {};
    held_bytes_ += piece.size();
    check_can_be_held(held_bytes_);
    held_.push_back(std::move(piece));
  }
  return held_[given_++];
}

void FilePieces::begin_again() {
  given_ = 0;
  if (is_held_) return;
  stream_.clear();
  stream_.seekg(0);
}

std::string FilePieces::whole(const std::function<void(std::string_view piece)>& look) {
  begin_again();
  std::string content;
  for (auto piece = next(); !piece.empty(); piece = next()) {
    look(piece);
    check_can_be_held(content.size() + piece.size());
    content += piece;
    if (is_held_) held_[given_ - 1] = {};
  }
  return content;
}

std::string FilePieces::next_of_stream() {
  std::string piece(kPieceBytes, '\0');
  stream_.read(piece.data(), static_cast<std::streamsize>(piece.size()));
  piece.resize(static_cast<std::size_t>(stream_.gcount()));
  check_was_read();
  return piece;
}

void FilePieces::check_was_read() const {
  if (stream_.is_open() && !stream_.bad()) return;
  throw failure::InputError(
      fmt::format("{} cannot be read; check its name and permissions", file_));
}

void FilePieces::check_can_be_held(std::size_t bytes) const {
  if (bytes <= kMostHeld) return;
  throw failure::InputError(
      fmt::format("{} holds more than {} GiB, and no more is held at once; expected the copy of a "
                  "logbook or a table; a table in a file of its own may be longer",
                  file_ == "-" ? "the input" : file_, kMostHeld >> 30U));
}

}  // namespace terminal
