#include "terminal/progress_bar.h"

#include <fmt/format.h>

namespace terminal {
namespace {

constexpr std::size_t kBarWidth = 30;
constexpr std::size_t kWordWidth = 18;

}  // namespace

ProgressBar::ProgressBar(const Session& session, std::string what, std::size_t total)
    : ProgressBar(session, std::move(what), total, session.now()) {}

ProgressBar::ProgressBar(const Session& session, std::string what, std::size_t total,
                         record::Moment begun)
    : session_(session), what_(std::move(what)), total_(total), begun_(begun) {}

ProgressBar::~ProgressBar() {
  if (is_shown_) session_.overwrite("");
}

void ProgressBar::step() {
  if (done_ >= total_) return;
  ++done_;
  const auto percent = done_ * 100 / total_;
  if (percent == (done_ - 1) * 100 / total_ || !session_.errors_are_watched()) return;
  if (session_.now() - begun_ < std::chrono::seconds(1)) return;
  show(percent);
}

void ProgressBar::show(std::size_t percent) {
  is_shown_ = true;
  const auto full = percent * kBarWidth / 100;
  session_.overwrite(fmt::format("{:<{}.{}} [{:=<{}}{:<{}}] {:>3} %", what_, kWordWidth, kWordWidth,
                                 "", full, "", kBarWidth - full, percent));
}

}  // namespace terminal
