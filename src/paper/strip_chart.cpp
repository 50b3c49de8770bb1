#include "paper/strip_chart.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include "paper/axis.h"
#include "paper/svg.h"
#include "quantity/number_text.h"
#include "record/address.h"
#include "words/found_value.h"

namespace paper {
namespace {

using finding::Finding;
using quantity::Torque;

constexpr double kWidth = 176.0;
constexpr double kLeft = 20.0;   // for the address
constexpr double kRight = 58.0;  // for the result in words
constexpr double kTop = 3.0;
constexpr double kRow = 9.0;
constexpr double kAxis = 11.0;
constexpr std::size_t kRowsInAPart = 12;

struct Row {
  int position = 0;
  const Finding* finding = nullptr;
};

std::string_view line_word(record::Mark mark) {
  switch (mark) {
    case record::Mark::Short:
      return "line short";
    case record::Mark::On:
      return "line aligned";
    case record::Mark::Past:
      return "line past";
    case record::Mark::NoMove:
      return "no move";
  }
  return "";
}

// The witness mark after a pull, as looked at from above: its upper half on the fastener, its lower
// half on the part. Short: the fastener has still to turn, clockwise; past: it has turned too far.
// No move: the halves as for short, with a bar across.
void draw_mark(Markup& page, double x, double y, record::Mark mark) {
  constexpr double kHalf = 2.1;
  constexpr double kOff = 1.3;
  const double shift = mark == record::Mark::On ? 0.0 : mark == record::Mark::Past ? kOff : -kOff;
  draw_line(page, x + shift, y - kHalf, x + shift, y - 0.2, "mark");
  draw_line(page, x, y + 0.2, x, y + kHalf, "mark");
  if (mark == record::Mark::NoMove) draw_line(page, x + shift - 1.1, y, x + 1.1, y, "mark");
}

class StripChart {
 public:
  StripChart(Markup& page, const finding::JointState& joint, const record::LogbookStart& start)
      : page_(page), joint_(joint), unit_(start.unit) {
    for (const auto& position : joint.positions) {
      if (const auto* finding = position.finding()) rows_.push_back({position.position, finding});
    }
  }

  void draw() {
    if (rows_.empty()) return;
    axis_ = axis_over_all();
    page_.open("figure", {{"class", "wide"},
                          {"role", "group"},
                          {"tabindex", "0"},
                          {"aria-label", "Strip chart of " + joint_.joint->code}});
    for (std::size_t first = 0; first < rows_.size(); first += kRowsInAPart) {
      draw_part(first, std::min(rows_.size(), first + kRowsInAPart));
    }
    draw_legend();
    page_.close();
  }

 private:
  [[nodiscard]] double value(Torque torque) const { return quantity::in_unit(torque, unit_); }
  [[nodiscard]] double x_of(double at) const {
    return kLeft + axis_.share(at) * (kWidth - kLeft - kRight);
  }
  [[nodiscard]] double x_of(Torque torque) const { return x_of(value(torque)); }

  [[nodiscard]] Axis axis_over_all() const {
    double low = value(rows_.front().finding->torque.reference());
    double high = low;
    const auto reach = [&](double at) {
      low = std::min(low, at);
      high = std::max(high, at);
    };
    for (const auto& [position, finding] : rows_) {
      const auto& torque = finding->torque;
      for (const auto& limit : {torque.low, torque.high, torque.best}) {
        if (limit) reach(value(*limit));
      }
      const double spread = torque.best ? value(torque.budget.expanded()) : 0.0;
      reach(std::max(0.0, value(torque.reference()) - spread));
      reach(value(torque.reference()) + spread);
      for (const auto& reading : finding->entry->content.readings) {
        reach(value(record::applied_torque(finding->entry->content, reading.setting)));
      }
      if (!finding->window) continue;
      for (const auto& limit : {finding->window->low, finding->window->high}) {
        if (limit) reach(value(*limit));
      }
    }
    return axis_for(low, high);
  }

  void draw_part(std::size_t first, std::size_t end) {
    const double bottom = kTop + kRow * static_cast<double>(end - first);
    const auto code = joint_.joint->code;
    open_drawing(
        page_, kWidth, bottom + kAxis,
        fmt::format("Found torque against tolerance in {}, {} to {}", quantity::name_of(unit_),
                    record::write_address(code, rows_[first].position),
                    record::write_address(code, rows_[end - 1].position)));
    for (const double tick : axis_.ticks) {
      draw_line(page_, x_of(tick), kTop, x_of(tick), bottom, "grid");
    }
    for (std::size_t i = first; i < end; ++i) {
      draw_row(rows_[i], kTop + kRow * (static_cast<double>(i - first) + 0.5));
    }
    draw_axis(bottom);
    page_.close();
  }

  void draw_axis(double y) {
    draw_line(page_, kLeft, y, kWidth - kRight, y, "axis");
    for (const double tick : axis_.ticks) {
      draw_line(page_, x_of(tick), y, x_of(tick), y + 1.2, "axis");
      draw_text(page_, {x_of(tick), y + 3.2, 3.0, "middle", "plain"},
                quantity::write_rounded(tick));
    }
    draw_text(page_, {(kLeft + kWidth - kRight) / 2.0, y + 8.0, 3.0, "middle", "plain"},
              fmt::format("torque at the fastener, {}", quantity::name_of(unit_)));
  }

  void draw_row(const Row& row, double y) {
    const auto& finding = *row.finding;
    draw_text(page_, {kLeft - 2.0, y, 3.2, "end", "number"}, std::to_string(row.position));
    draw_tolerance(finding, y);
    draw_bracket(finding.torque, y);
    for (const auto& reading : finding.entry->content.readings) {
      draw_mark(page_, x_of(record::applied_torque(finding.entry->content, reading.setting)),
                y - 1.4, reading.mark);
    }
    const double beside = kWidth - kRight + 3.0;
    draw_text(page_, {beside, y - 1.9, 3.2, "start", "number"},
              fmt::format("{}, {}", words::found_words(finding.torque, unit_),
                          finding.window ? finding::word_of(finding.verdict)
                                         : std::string_view("not specified")));
    const auto tightened =
        finding.torque.best
            ? fmt::format("tightened to {}, ",
                          words::tightened_words(finding::tightened_to(finding.torque), unit_))
            : std::string();
    draw_text(page_, {beside, y + 1.9, 3.0, "start", "plain"},
              fmt::format("{}grade {}", tightened, finding::letter_of(finding.graded.grade)));
  }

  // A limit that the specification does not have leaves the band open at that end.
  void draw_tolerance(const Finding& finding, double y) {
    if (!finding.window) return;
    const auto& window = *finding.window;
    const double from = window.low ? x_of(*window.low) : kLeft;
    const double to = window.high ? x_of(*window.high) : kWidth - kRight;
    draw_box(page_, from, y - kRow / 2.0, to - from, kRow, "tolerance");
    for (const auto& limit : {window.low, window.high}) {
      if (limit)
        draw_line(page_, x_of(*limit), y - kRow / 2.0, x_of(*limit), y + kRow / 2.0, "limit");
    }
  }

  void draw_bracket(const finding::FoundTorque& torque, double y) {
    const double line = y + 2.6;
    const double from = torque.low ? x_of(*torque.low) : kLeft;
    const double to = torque.high ? x_of(*torque.high) : kWidth - kRight;
    if (torque.best) {
      const double best = value(*torque.best);
      const double spread = value(torque.budget.expanded());
      draw_line(page_, x_of(std::max(axis_.low, best - spread)), line, x_of(best + spread), line,
                "whisker");
      draw_box(page_, from, line - 0.8, to - from, 1.6, "bracket");
      draw_diamond(x_of(best), line);
      return;
    }
    // One bound: an arrow towards where the torque lies.
    draw_line(page_, from, line, to, line, "whisker");
    const bool above = torque.low.has_value();
    const double tip = above ? to : from;
    const double back = above ? -2.0 : 2.0;
    draw_line(page_, tip, line, tip + back, line - 1.2, "whisker");
    draw_line(page_, tip, line, tip + back, line + 1.2, "whisker");
    const double bound = above ? from : to;
    draw_line(page_, bound, line - 1.6, bound, line + 1.6, "axis");
  }

  void draw_diamond(double x, double y) {
    constexpr double kHalf = 1.5;
    page_.empty(
        "polygon",
        {{"class", "solid"},
         {"points", fmt::format("{},{} {},{} {},{} {},{}", in_drawing(x - kHalf), in_drawing(y),
                                in_drawing(x), in_drawing(y - kHalf), in_drawing(x + kHalf),
                                in_drawing(y), in_drawing(x), in_drawing(y + kHalf))}});
  }

  void draw_legend() {
    open_drawing(page_, kWidth, 7.0, "How to read the chart");
    double x = 3.0;
    for (const auto mark :
         {record::Mark::Short, record::Mark::On, record::Mark::Past, record::Mark::NoMove}) {
      draw_mark(page_, x, 3.5, mark);
      draw_text(page_, {x + 3.0, 3.5, 3.0, "start", "plain"}, line_word(mark));
      x += mark == record::Mark::On ? 26.0 : 22.0;
    }
    draw_box(page_, x, 2.7, 8.0, 1.6, "bracket");
    draw_diamond(x + 4.0, 3.5);
    draw_text(page_, {x + 10.0, 3.5, 3.0, "start", "plain"}, "bracket, best");
    x += 32.0;
    draw_line(page_, x, 3.5, x + 8.0, 3.5, "whisker");
    draw_text(page_, {x + 10.0, 3.5, 3.0, "start", "plain"}, "± U");
    x += 19.0;
    draw_box(page_, x, 1.0, 8.0, 5.0, "tolerance");
    for (const double limit : {x, x + 8.0}) draw_line(page_, limit, 1.0, limit, 6.0, "limit");
    draw_text(page_, {x + 10.0, 3.5, 3.0, "start", "plain"}, "tolerance");
    page_.close();
  }

  Markup& page_;
  const finding::JointState& joint_;
  quantity::TorqueUnit unit_;
  std::vector<Row> rows_;
  Axis axis_;
};

}  // namespace

void draw_strip_chart(Markup& page, const finding::JointState& joint,
                      const record::LogbookStart& start) {
  StripChart(page, joint, start).draw();
}

}  // namespace paper
