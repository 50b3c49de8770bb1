#include "support/random_logbook.h"

#include <fmt/format.h>

#include <memory>
#include <optional>
#include <random>
#include <vector>

#include "act/photograph_entry.h"
#include "fastener/thread_text.h"
#include "logbook/recording.h"
#include "quantity/length_text.h"
#include "record/address.h"
#include "record/picture.h"
#include "support/pictures.h"

namespace {

// Text as people type it, and as a spreadsheet may stumble over it.
const std::vector<std::string> kTexts = {"bearing cap",
                                         "cover, left",
                                         "=1+2",
                                         "+3",
                                         "-note",
                                         "@cell",
                                         "said \"tight\"",
                                         "a;b",
                                         "Dichtfläche",
                                         "日本",
                                         "it's 5\" across",
                                         "\"",
                                         "1,5",
                                         "when loaded",
                                         "--grade",
                                         "#3 of 7 | 'x'",
                                         "x",
                                         "\u00B5m Maß"};

class Writing {
 public:
  Writing(const std::string& path, unsigned seed) : random_(seed), writer_(first_writer()) {
    record::LogbookStart start;
    start.machine = text();
    start.tolerance_typed = "10%";
    logbook::start_logbook(path, start, writer_);
    logbook_.reset(new logbook::Logbook(logbook::Logbook::open_to_write(path)));
    recording_.emplace(*logbook_, writer_);
  }

  // At one that is there.
  Writing(const std::string& path, unsigned seed, const std::string& device, record::Moment now)
      : random_(seed), writer_{"KB", device, now, now}, at_(now) {
    logbook_.reset(new logbook::Logbook(logbook::Logbook::open_to_write(path)));
    const auto job = logbook_->job();
    for (const auto& entry : job.wrenches) wrenches_.push_back(entry.content);
    for (const auto& entry : job.joints) joints_.push_back(entry.content);
    for (const auto& line : logbook_->history()) {
      const bool is_first = std::holds_alternative<record::LogbookStart>(line.content);
      if (!is_first && !line.struck_by) standing_.push_back(line.stamp.id);
    }
    recording_.emplace(*logbook_, writer_);
  }

  void go_on() {
    for (int i = 0, n = number(1, 8); i < n; ++i) {
      switch (number(0, 9)) {
        case 0:
          wrench(fmt::format("TW{}", number(0, 3)));
          break;
        case 1:
          joint(fmt::format("J{:02}", number(0, 6)));
          break;
        case 2:
          strike_an_earlier_one();
          break;
        case 3:
          decision();
          break;
        default:
          if (!joints_.empty() && !wrenches_.empty()) something();
      }
    }
    recording_->commit();
  }

  void write_everything() {
    for (int i = 0, n = number(1, 3); i < n; ++i) wrench(fmt::format("TW{}", i));
    for (int i = 0, n = number(1, 5); i < n; ++i) joint(fmt::format("J{:02}", i));
    for (int i = 0, n = number(0, 30); i < n; ++i) something();
    recording_->commit();
  }

 private:
  static logbook::Writer first_writer() {
    const auto now = record::read_moment("2026-06-01T08:00:00Z");
    return {"KB", "00000000-0000-4000-8000-000000000001", now, now};
  }

  int number(int least, int most) {
    return std::uniform_int_distribution<int>(least, most)(random_);
  }
  bool chance() { return number(0, 1) == 1; }
  template <class Value>
  Value one_of(const std::vector<Value>& values) {
    return values[static_cast<std::size_t>(number(0, static_cast<int>(values.size()) - 1))];
  }
  std::string text() { return one_of(kTexts); }
  std::string text_or_none() { return chance() ? text() : ""; }

  record::Stamp append(const record::Content& content) {
    at_ += std::chrono::milliseconds(number(0, 90'000));
    return recording_->append(content, one_of<std::string>({"KB", "LM", "k, b", "=b"}), at_);
  }

  // A line that may turn out wrong and is struck then.
  void append_or_strike(const record::Content& content) {
    const auto stamp = append(content);
    if (number(0, 9) == 0) append(record::Strike{stamp.id, text()});
  }

  void wrench(const std::string& name) {
    record::Wrench wrench;
    wrench.name = name;
    const auto unit = one_of<std::string>({"N·m", "ft·lbf", "in·lbf", "Nm", "kgf-m"});
    wrench.scale_typed = one_of<std::string>({"20..200 ", "0-150 ", "5 - 100 "}) + unit;
    wrench.scale = record::read_scale(wrench.scale_typed);
    wrench.graduation_typed = one_of<std::string>({"1 ", "0,5 ", "0.25 "}) + unit;
    wrench.graduation = record::read_graduation(wrench.graduation_typed, wrench.scale);
    wrench.kind =
        one_of<record::WrenchKind>({record::WrenchKind::Setting, record::WrenchKind::Indicating});
    if (chance()) {
      wrench.accuracy_typed = "3,5 %";
      wrench.accuracy = quantity::read_percent(wrench.accuracy_typed);
    }
    wrench.serial = text_or_none();
    if (chance()) wrench.calibrated = record::read_day("2026-03-02");
    wrench.valid_months = number(1, 120);
    append(wrench);
    wrenches_.push_back(wrench);
    if (number(0, 3) > 0) return;
    wrench.calibrated = record::read_day("2026-04-03");
    append(wrench);
  }

  void joint(const std::string& code) {
    record::Joint joint;
    joint.code = code;
    joint.holds = text();
    joint.size = fastener::write_exact(
        fastener::read_thread(one_of<std::string>({"M12x1.75", "M8", "3/8-16"})));
    if (chance()) {
      joint.length_typed = one_of<std::string>({"90mm", "3,5 in", "1.5 in"});
      joint.length = quantity::read_length(joint.length_typed);
    }
    joint.grade = one_of<std::string>({"8.8", "10.9", "unknown", "=8.8"});
    if (chance()) {
      joint.into = "EN AC-46000";
      joint.engaged_typed = "18 mm";
      joint.engaged = quantity::read_length(joint.engaged_typed);
    }
    if (chance()) {
      joint.seat = one_of<std::string>({"GJL-250", "aluminium 240 MPa"});
      joint.face_typed = "2 in";
      joint.face = quantity::read_length(joint.face_typed);
    }
    joint.count = number(1, 12);
    if (joint.count < 3 || chance()) joint.layout = record::LineLayout{};
    joint.one_time = chance();
    joint.critical = chance();
    joint.bench = chance();
    joint.final_when = text_or_none();
    if (!joints_.empty() && chance()) joint.after.push_back(joints_.front().code);
    if (chance()) joint.rechecks.push_back(record::read_recheck_interval("50 running h"));
    if (chance()) joint.rechecks.push_back(record::read_recheck_interval("7 days"));
    append(joint);
    joints_.push_back(joint);
    if (chance()) specification(joint, false);
  }

  void specification(const record::Joint& joint, bool at_positions) {
    record::Specified specified;
    specified.joint = joint.code;
    specified.typed = one_of<std::string>(
        {"80 N·m", "60 ft-lb ±5%", "40 Nm; 60 Nm, +90°", "9-11 N·m", "160 in·lbf", "800 N·m"});
    specified.procedure = record::read_specification(specified.typed);
    specified.source = text_or_none();
    specified.condition = fastener::Condition::Oiled;
    if (at_positions) specified.positions = positions(joint);
    append_or_strike(specified);
  }

  // Some of the joint's positions, at least one.
  std::vector<int> positions(const record::Joint& joint) {
    std::vector<int> some;
    for (int position = 1; position <= joint.count; ++position) {
      if (chance()) some.push_back(position);
    }
    if (some.empty()) some.push_back(number(1, joint.count));
    return some;
  }

  record::Measured finding(const record::Joint& joint) {
    const auto& wrench =
        wrenches_[static_cast<std::size_t>(number(0, static_cast<int>(wrenches_.size()) - 1))];
    record::Measured measured;
    measured.joint = joint.code;
    measured.position = number(1, joint.count);
    measured.wrench = wrench.name;
    measured.unit = wrench.scale.unit;
    measured.readings_typed =
        one_of<std::string>({"30s 35,5s 40o", "30n, 40s 6°; 45 past", "60:short 61.5:on", "25p"});
    measured.readings = record::read_readings(measured.readings_typed, std::nullopt);
    if (chance()) measured.restart = record::Restart::BackedOff;
    if (chance()) measured.neighbours = record::Neighbours::Slack;
    if (chance()) measured.prevailing = quantity::read_torque("1,5 N·m");
    return measured;
  }

  record::Tightening tightening(const record::Joint& joint) {
    record::Tightening work;
    work.joint = joint.code;
    work.positions = positions(joint);
    work.in_order = chance();
    if (work.in_order) std::ranges::reverse(work.positions);
    work.pass = number(1, 4);
    const auto& wrench = wrenches_.front();
    switch (number(0, 4)) {
      case 4:
        work.target.kind = record::PassKind::Loosen;
        work.seen = text_or_none();
        return work;
      case 0:
        work.target = {record::PassKind::Angle, std::nullopt, quantity::Angle::degrees(90)};
        work.turned = quantity::Angle::degrees(number(50, 130) / 1.5);
        return work;
      case 1:
        work.target.kind = record::PassKind::Snug;
        work.skipped_why = text_or_none();
        return work;
      default:
        work.target = {
            record::PassKind::Torque,
            quantity::torque_of(number(1, 900) / 7.0, quantity::TorqueUnit::InchPoundForce),
            std::nullopt};
        work.wrench = wrench.name;
        work.setting = number(200, 900) / 10.0;
        work.unit = wrench.scale.unit;
        return work;
    }
  }

  record::Photograph photograph(const record::Joint& joint) {
    const auto picture = record::read_picture(
        plain_png(number(1, 9), number(1, 9), static_cast<unsigned>(number(0, 255))));
    recording_->keep_photograph(picture.bytes);
    auto photograph = act::photograph_of(picture);
    if (chance()) photograph.joint = joint.code;
    if (!photograph.joint.empty() && chance()) photograph.positions = positions(joint);
    photograph.note = text_or_none();
    return photograph;
  }

  void strike_an_earlier_one() {
    if (standing_.empty()) return;
    const auto at = number(0, static_cast<int>(standing_.size()) - 1);
    append(record::Strike{standing_[static_cast<std::size_t>(at)], text()});
    standing_.erase(standing_.begin() + at);
  }

  void decision() {
    if (joints_.empty()) return;
    record::Disposition disposition;
    disposition.joint = one_of(joints_).code;
    disposition.position = 1;
    disposition.rule = "found low";
    disposition.deviation = fmt::format("found-low:{}/1", disposition.joint);
    disposition.evidence = "0123456789abcdef";
    disposition.judged_on = "found low";
    disposition.decision =
        one_of<record::Decision>({record::Decision::UseAsIs, record::Decision::Renew});
    disposition.reason = text();
    disposition.parts = {{disposition.deviation, 1, disposition.evidence}};
    append(disposition);
  }

  void something() {
    const auto& joint =
        joints_[static_cast<std::size_t>(number(0, static_cast<int>(joints_.size()) - 1))];
    switch (number(0, 13)) {
      case 0:
        return specification(joint, chance());
      case 1: {
        record::Removal removal;
        removal.joint = joint.code;
        removal.positions = positions(joint);
        removal.bag = text_or_none();
        removal.note = text_or_none();
        return append_or_strike(removal);
      }
      case 2:
        return append_or_strike(record::FluidAmount{text(), record::FluidMove::Drained,
                                                    quantity::Volume::millilitres(1200), "1,2 L",
                                                    text_or_none()});
      case 3:
        return append_or_strike(record::CountedItem{"CL1", text(), number(1, 9), joint.code});
      case 4:
        return append_or_strike(record::Renewal{joint.code, positions(joint)});
      case 5:
        return append_or_strike(record::FinalStripe{joint.code, positions(joint), chance(),
                                                    record::read_running_amount("12.5 running h")});
      case 6:
        return append_or_strike(
            record::HoldPoint{"HV", text(), record::read_span_of_time("10 min"), {joint.code}});
      case 7:
        return append_or_strike(
            record::HoldPointStep{"HV", record::HoldPointMove::Passed, text_or_none()});
      case 8:
        return append_or_strike(record::Recheck{
            joint.code, positions(joint), quantity::Angle::degrees(number(1, 70) / 3.0), {}});
      case 9:
        append_or_strike(record::ItemReturn{"CL1", number(1, 9)});
        return;
      case 10:
      case 11:
        return append_or_strike(tightening(joint));
      case 12:
        return append_or_strike(photograph(joint));
      default:
        return append_or_strike(finding(joint));
    }
  }

  std::mt19937 random_;
  logbook::Writer writer_;
  record::Moment at_ = record::read_moment("2026-05-01T06:30:00Z");
  std::unique_ptr<logbook::Logbook> logbook_;
  std::optional<logbook::Recording> recording_;
  std::vector<record::Wrench> wrenches_;
  std::vector<record::Joint> joints_;
  std::vector<std::string> standing_ = {};  // ids of lines that may be struck
};

}  // namespace

void make_random_logbook(const std::string& path, unsigned seed) {
  Writing(path, seed).write_everything();
}

void go_on_at_random(const std::string& path, unsigned seed, const std::string& device,
                     record::Moment now) {
  Writing(path, seed, device, now).go_on();
}
