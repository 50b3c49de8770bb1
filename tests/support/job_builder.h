#pragma once

#include <optional>
#include <string>

#include "finding/survey.h"

// Builds the records of an invented job for tests of what is computed from them. Every call adds
// one entry; times rise by one minute an entry, from 2026-06-01 08:00 UTC.
class JobBuilder {
 public:
  JobBuilder();

  JobBuilder& wrench(const std::string& name = "TW2", const std::string& scale = "20..200 N·m",
                     const std::string& graduation = "1 N·m",
                     const std::string& calibrated = "2026-03-02");
  JobBuilder& joint(const std::string& code, int count = 4, const std::string& size = "M12x1.75",
                    const std::string& grade = "8.8");
  JobBuilder& specified(const std::string& code, const std::string& text = "80 N·m",
                        const std::string& source = "GB-1 Shop Manual rev C p. 12",
                        fastener::Condition condition = fastener::Condition::Dry);
  JobBuilder& out(const std::string& address,
                  record::BreakLoose broke = record::BreakLoose::Normal);
  JobBuilder& found(const std::string& address, const std::string& readings,
                    const std::string& wrench = "TW2");
  // One pull of a test under way, on TW2.
  JobBuilder& pulled(const std::string& address, const std::string& reading);

  // Positions in one pass that asks for this torque, on TW2 at this setting in N·m.
  JobBuilder& tightened(const std::string& address, int pass, double target_nm, double setting,
                        const std::string& by = "KB");
  // The first pass of positions whose stripe turned.
  JobBuilder& slackened(const std::string& address);
  JobBuilder& striped(const std::string& address, const std::string& counter = "");
  // A later look at the stripes: aligned, or turned by so many degrees.
  JobBuilder& rechecked(const std::string& address, double turned = 0.0,
                        const std::string& counter = "");
  // New fasteners for these have arrived.
  JobBuilder& renewed(const std::string& address);
  // A decision; with `done` the line that says that it was carried out.
  JobBuilder& decided(const std::string& deviation, const std::string& joint,
                      std::optional<int> position, record::Decision decision,
                      const std::string& done = "");

  // The joint entered last, for what the calls above do not set.
  record::Joint& last_joint() { return job_.joints.back().content; }
  std::vector<record::Entry<record::Joint>>& joints() { return job_.joints; }
  record::Specified& last_specified() { return job_.specifications.back().content; }
  record::Removal& last_removal() { return job_.removals.back().content; }
  record::Measured& last_finding() { return job_.findings.back().content; }
  record::Wrench& last_wrench() { return job_.wrenches.back().content; }

  record::Tightening& last_tightening() { return job_.tightenings.back().content; }

  [[nodiscard]] const record::Job& job() const { return job_; }

 private:
  record::Stamp next_stamp();

  record::Job job_;
  int lines_ = 0;
};
