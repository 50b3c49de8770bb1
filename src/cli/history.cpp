#include "cli/history.h"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <type_traits>

#include "cli/exit_code.h"
#include "cli/lookup.h"
#include "cli/pending.h"
#include "cli/session.h"
#include "record/address.h"
#include "report/history_report.h"

namespace cli {
namespace {

// A line about positions of a joint.
template <class Content>
concept AboutPositions = requires(const Content& content) {
  content.joint;
  content.positions;
};

// Whether a line speaks of the joint, and of one of the positions where some were named; what is
// said of the joint as a whole concerns each of them.
class Concerns {
 public:
  explicit Concerns(const record::Address& address) : address_(address) {}

  bool operator()(const record::Joint& joint) const { return same(joint.code); }
  bool operator()(const record::Specified& specified) const {
    return same(specified.joint) && (specified.positions.empty() || any_named(specified.positions));
  }
  template <AboutPositions Content>
  bool operator()(const Content& content) const {
    return same(content.joint) && any_named(content.positions);
  }
  bool operator()(const record::Measured& measured) const {
    return same(measured.joint) && (whole_joint() || named(measured.position));
  }
  bool operator()(const record::CountedItem& item) const { return same(item.before); }
  bool operator()(const record::HoldPoint& point) const {
    return std::ranges::any_of(point.joints, [&](const auto& code) { return same(code); });
  }
  template <class Other>
  bool operator()(const Other&) const {
    return false;
  }

 private:
  [[nodiscard]] bool same(const std::string& code) const {
    return record::same_code(code, address_.joint);
  }
  [[nodiscard]] bool whole_joint() const { return address_.positions.empty(); }
  [[nodiscard]] bool any_named(const std::vector<int>& positions) const {
    return whole_joint() ||
           std::ranges::any_of(positions, [&](int position) { return named(position); });
  }
  [[nodiscard]] bool named(int position) const {
    return std::ranges::binary_search(address_.positions, position);
  }

  const record::Address& address_;
};

bool names_a_position(const record::HistoryLine& line) {
  return std::visit(
      []<class Content>(const Content&) {
        return std::is_same_v<Content, record::Measured> ||
               (AboutPositions<Content> && !std::is_same_v<Content, record::Specified>);
      },
      line.content);
}

}  // namespace

void declare_history(CLI::App& app, Pending& pending) {
  auto options = std::make_shared<HistoryOptions>();
  auto* command = app.add_subcommand(
      "history", "Every line as it was entered, with its number, struck ones shown struck");
  command->add_option("ADDRESS", options->address, "Only about this, such as J06 or J06/3")
      ->option_text("JOINT/POSITIONS");
  command->callback([options, &pending] {
    pending.run = [options](const Session& session) { return run_history(*options, session); };
  });
}

int run_history(const HistoryOptions& options, const Session& session) {
  const auto logbook = session.open_to_read();
  auto lines = logbook.history();
  if (!options.address.empty()) {
    const auto address = record::read_address(options.address);
    const Concerns concerns(address);
    std::erase_if(lines, [&](const auto& line) { return !std::visit(concerns, line.content); });
    // Nothing was ever said of it: then it is a name that this logbook does not know.
    if (lines.empty()) (void)joint_or_refuse(logbook, address.joint);
    // Lines that name a position beyond the count are worth seeing; without any it was mistyped.
    const auto joint = logbook.joint(address.joint);
    if (joint && !address.positions.empty() && std::ranges::none_of(lines, names_a_position)) {
      check_positions(joint->content, address.positions);
    }
  }
  session.out() << (session.json() ? report::history_json(lines)
                                   : report::history_text(lines, session.page()));
  return kDone;
}

}  // namespace cli
