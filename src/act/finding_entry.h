#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "act/adapter_words.h"
#include "act/correction.h"
#include "act/done.h"
#include "act/standing.h"
#include "audit/audit.h"
#include "record/address.h"
#include "record/joint.h"
#include "record/measured.h"
#include "record/wrench.h"

namespace act {

// A found-torque test of one fastener, as typed.
struct FindingWords {
  std::string address;
  std::vector<std::string> readings;
  std::string wrench;
  std::string radius;
  std::string restart;
  std::string neighbours;
  std::string prevailing;
  AdapterWords adapter;
  Correction correction;
};

// Which fastener was tested with which wrench, as a person named them.
struct TestedFastener {
  record::Address address;  // of one position
  std::string wrench;
};

// A finding, or a pull of a test that goes on.
struct TestDone {
  Done done;
  int position = 0;
  // The joint with the new finding, to say what it comes to; nothing while the test goes on.
  std::shared_ptr<const Standing> after;

  [[nodiscard]] const record::Stamp& stamp() const { return done.lines.front().stamp; }
  // The finding that was recorded; only where the test has ended.
  [[nodiscard]] const finding::Finding& finding() const;
};

// What the audit has against the joint with the new finding; nothing of one that is within, which
// asks for no cause. Only where the test has ended.
[[nodiscard]] audit::Audit audit_of(const TestDone& test, record::Moment now);

// Makes the finding once joint and wrench are looked up; called while the logbook is held.
using MakeFinding = std::function<record::Measured(const logbook::Logbook&, const record::Joint&,
                                                   const record::Wrench&)>;

// Records the finding in a line of its own; remarks on what is odd about it. Refusal where there is
// no such joint or wrench, InputError where the joint does not have the position or the wrench not
// the settings.
TestDone record_finding(logbook::Logbook& logbook, const logbook::Writer& writer,
                        const TestedFastener& tested, const MakeFinding& make);

// The same from what was typed. InputError where the address is not of one position.
TestDone record_finding(logbook::Logbook& logbook, const logbook::Writer& writer,
                        const FindingWords& words);

// The one fastener that the words name. InputError where they name several.
[[nodiscard]] record::Address tested_address(const FindingWords& words);

// The test as the words have it, which may have no readings yet. OptionError where one of them
// cannot be taken.
[[nodiscard]] record::Measured test_from(const FindingWords& words, const record::Joint& joint,
                                         int position, const record::Wrench& wrench);

// The finding that the words describe. OptionError where one of them cannot be taken, where there
// are no readings, where a setting is not on the wrench's scale, or where the running torque leaves
// nothing to find.
[[nodiscard]] record::Measured finding_from(const FindingWords& words, const record::Joint& joint,
                                            int position, const record::Wrench& wrench);

// A test of the joint's position on the wrench's scale, without readings.
[[nodiscard]] record::Measured test_without_readings(const record::Joint& joint, int position,
                                                     const record::Wrench& wrench);

// InputError where a setting lies beyond an end of the wrench's scale. There is no mark to set it
// to, so such a reading is a typing error and not a finding.
void check_on_scale(const record::Measured& measured, const record::Wrench& wrench);

// OptionError where a setting is not on the wrench's scale, or where the running torque leaves
// nothing to find.
void check_finding(const record::Measured& measured, const record::Wrench& wrench);

// What a test means for a fastener that had been tightened; `job` has the line of it, as this one.
// At most one remark.
[[nodiscard]] std::vector<std::string> remarks_on_tightened(const record::Job& job,
                                                            const std::string& joint, int position,
                                                            const record::Stamp& test);

// What there is to say of a setting between two marks of the scale: most often a slip of the pen or
// of the wrench; it is kept, and held against the grade. At most one remark.
[[nodiscard]] std::vector<std::string> remarks_on_marks(const record::Measured& measured,
                                                        const record::Wrench& wrench);

}  // namespace act
