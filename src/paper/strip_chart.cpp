#include "paper/strip_chart.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include "paper/axis.h"
#include "paper/found_result.h"
#include "paper/mark_shape.h"
#include "paper/svg.h"
#include "quantity/number_text.h"
#include "record/address.h"
#include "words/found_value.h"

namespace paper {
namespace {

using finding::Finding;
using quantity::Torque;

constexpr double kWidth = 104.0;
constexpr double kLeft = 13.0;   // for the number of the position, and of a limit at its left
constexpr double kRight = 11.0;  // for the number of a limit
constexpr double kTop = 7.0;     // as high as the head of the table beside it
constexpr double kRow = 9.0;     // as high as a row of it
constexpr double kAxis = 11.0;
constexpr std::size_t kRowsInAPart = 12;

struct Row {
  int position = 0;
  const Finding* finding = nullptr;
};

void draw_diamond(Markup& page, double x, double y) {
  constexpr double kHalf = 1.2;
  page.empty("polygon", {{"class", "best"},
                         {"points", fmt::format("{},{} {},{} {},{} {},{}", in_drawing(x - kHalf),
                                                in_drawing(y), in_drawing(x), in_drawing(y - kHalf),
                                                in_drawing(x + kHalf), in_drawing(y), in_drawing(x),
                                                in_drawing(y + kHalf))}});
}

// A thin line with an end at both sides.
void draw_spread(Markup& page, double from, double to, double y) {
  draw_line(page, from, y, to, y, "spread");
  for (const double end : {from, to}) draw_line(page, end, y - 0.9, end, y + 0.9, "spread");
}

bool same_limits(const Finding& a, const Finding& b) {
  if (!a.window || !b.window) return a.window.has_value() == b.window.has_value();
  return a.window->low == b.window->low && a.window->high == b.window->high;
}

class StripChart {
 public:
  StripChart(Markup& page, const finding::JointState& joint)
      : page_(page), joint_(joint), unit_(joint.unit) {
    for (const auto& position : joint.positions) {
      if (const auto* finding = position.finding()) rows_.push_back({position.position, finding});
    }
  }

  void draw() {
    if (rows_.empty()) return;
    axis_ = axis_over_all();
    for (std::size_t first = 0; first < rows_.size(); first += kRowsInAPart) {
      const auto end = std::min(rows_.size(), first + kRowsInAPart);
      page_.open("div", {{"class", "chart"}}).open("figure");
      draw_part(first, end);
      page_.close();
      write_table(first, end);
      page_.close();
    }
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
    const auto middle = [&](std::size_t i) {
      return kTop + kRow * (static_cast<double>(i - first) + 0.5);
    };
    for (std::size_t i = first; i < end; ++i) draw_tolerance(*rows_[i].finding, middle(i));
    draw_limits(*rows_[first].finding, kTop - 2.6);
    for (std::size_t i = first; i < end; ++i) {
      if (i > first && !same_limits(*rows_[i].finding, *rows_[i - 1].finding)) {
        draw_limits(*rows_[i].finding, middle(i) - kRow / 2.0 + 1.8);
      }
      draw_row(rows_[i], middle(i));
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
    draw_text(page_, {kLeft - 5.0, y, 3.6, "end", "number"}, fmt::format("{:02}", row.position));
    draw_bracket(finding.torque, y);
    for (const auto& reading : finding.entry->content.readings) {
      draw_mark(page_, x_of(record::applied_torque(finding.entry->content, reading.setting)),
                y - 1.7, reading.mark);
    }
    if (is_outside(finding)) {
      draw_box(page_, 0.4, y - kRow / 2.0 + 0.35, kWidth - 0.4, kRow - 0.7, "frame");
    }
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

  // The limits in figures, outside of their lines; once above all rows that share them.
  void draw_limits(const Finding& finding, double y) {
    if (!finding.window) return;
    const auto& window = *finding.window;
    if (window.low) {
      draw_text(page_, {x_of(*window.low) + 0.3, y, 3.0, "end", "number"},
                quantity::write_rounded(value(*window.low)));
    }
    if (window.high) {
      draw_text(page_, {x_of(*window.high) - 0.3, y, 3.0, "start", "number"},
                quantity::write_rounded(value(*window.high)));
    }
  }

  void draw_bracket(const finding::FoundTorque& torque, double y) {
    const double bar = y + 1.5;
    const double from = torque.low ? x_of(*torque.low) : kLeft;
    const double to = torque.high ? x_of(*torque.high) : kWidth - kRight;
    if (torque.best) {
      const double best = value(*torque.best);
      const double spread = value(torque.budget.expanded());
      draw_box(page_, from, bar - 0.8, to - from, 1.6, "bracket");
      draw_spread(page_, x_of(std::max(axis_.low, best - spread)), x_of(best + spread), y + 3.4);
      draw_diamond(page_, x_of(best), y + 3.4);
      return;
    }
    // One bound: an arrow towards where the torque lies.
    const bool above = torque.low.has_value();
    const double tip = above ? to : from;
    const double back = above ? -2.0 : 2.0;
    draw_line(page_, from, bar, to, bar, "axis");
    draw_line(page_, tip, bar, tip + back, bar - 1.2, "axis");
    draw_line(page_, tip, bar, tip + back, bar + 1.2, "axis");
    const double bound = above ? from : to;
    draw_line(page_, bound, bar - 1.6, bound, bar + 1.6, "axis");
  }

  // Beside the drawing, each row at the height of its position there.
  void write_table(std::size_t first, std::size_t end) {
    page_.open("table").open("thead").open("tr");
    for (const auto& heading : {code_or_at(), fmt::format("found, {}", quantity::name_of(unit_)),
                                std::string("verdict")}) {
      page_.element("th", {{"scope", "col"}}, heading);
    }
    page_.close().close().open("tbody");
    for (std::size_t i = first; i < end; ++i) write_table_row(rows_[i]);
    page_.close().close();
  }

  // The joint over its positions, since a long chart goes on to other pages.
  [[nodiscard]] std::string code_or_at() const {
    constexpr std::size_t kShortRowCode = 5;  // letters that fit there
    const auto& code = joint_.joint->code;
    return code.size() <= kShortRowCode ? code + "/" : "at";
  }

  void write_table_row(const Row& row) {
    const auto& finding = *row.finding;
    page_.open("tr", {{"class", is_outside(finding) ? "outside" : "plain"}});
    page_.element("th", {{"scope", "row"}}, fmt::format("{:02}", row.position));
    page_.open("td");
    page_.element("div", {{"class", "result"}}, words::found_words(finding.torque, unit_));
    if (finding.torque.best) {
      page_.element(
          "div", {{"class", "more"}},
          "tightened to " + words::tightened_words(finding::tightened_to(finding.torque), unit_));
    }
    page_.close().open("td");
    page_.element("div", {{"class", "result"}}, finding::word_of(finding.verdict));
    page_.element("div", {{"class", "more"}},
                  fmt::format("grade {}{}", finding::letter_of(finding.graded.grade),
                              !finding.window ? std::string(", no limits")
                              : finding.ratio ? fmt::format(", ratio {:.2f}", *finding.ratio)
                                              : std::string()));
    page_.close().close();
  }

  Markup& page_;
  const finding::JointState& joint_;
  quantity::TorqueUnit unit_;
  std::vector<Row> rows_;
  Axis axis_;
};

}  // namespace

void draw_strip_chart(Markup& page, const finding::JointState& joint) {
  StripChart(page, joint).draw();
}

// Each shape is a drawing of its own, so that they go on in the next line on a small screen.
void draw_chart_legend(Markup& page) {
  constexpr double kHeight = 7.0;
  constexpr double kMiddle = kHeight / 2.0;
  constexpr double kLetters = 3.0;
  page.element("h2", "How to read the charts").open("figure", {{"class", "legend"}});
  // `draw` draws the shape at the left, `shape` wide; its words follow.
  const auto entry = [&](double width, double shape, std::string_view words, const auto& draw) {
    open_drawing(page, width, kHeight, words);
    draw();
    draw_text(page, {shape + 1.5, kMiddle, kLetters, "start", "plain"}, words);
    page.close();
  };
  for (const auto mark :
       {record::Mark::Short, record::Mark::On, record::Mark::Past, record::Mark::NoMove}) {
    entry(43.5, 5.0, fmt::format("after a pull: {}", line_word(mark)),
          [&] { draw_mark(page, 3.0, kMiddle, mark); });
  }
  entry(31.0, 10.0, "bracket", [&] { draw_box(page, 0.5, kMiddle - 0.8, 9.0, 1.6, "bracket"); });
  entry(32.0, 10.5, "best, ± U", [&] {
    draw_spread(page, 0.5, 10.0, kMiddle);
    draw_diamond(page, 5.25, kMiddle);
  });
  entry(61.0, 10.0, "tolerance between its limits", [&] {
    draw_box(page, 0.5, kMiddle - 2.5, 9.0, 5.0, "tolerance");
    for (const double limit : {0.5, 9.5}) {
      draw_line(page, limit, kMiddle - 2.5, limit, kMiddle + 2.5, "limit");
    }
  });
  entry(40.0, 10.0, "framed: outside",
        [&] { draw_box(page, 0.5, kMiddle - 2.3, 9.0, 4.6, "frame"); });
  page.close();
}

}  // namespace paper
