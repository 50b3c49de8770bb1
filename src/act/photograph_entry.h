#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "act/correction.h"
#include "act/done.h"
#include "logbook/recording.h"
#include "record/job.h"
#include "record/photograph.h"
#include "record/picture.h"

namespace act {

// A photograph, as typed beside its bytes.
struct PhotographWords {
  std::string where;  // a joint, positions of one, the id of a deviation, or record::kWholeMachine
  std::string note;
  Correction correction;
};

// Where what a photograph shows is looked up.
struct PhotographSubjects {
  std::function<record::Joint(const std::string& code)> joint_or_refuse;
  std::function<record::Job()> job;  // asked for where a deviation is named
  record::Moment now;
};

// What the words say, for a photograph of which nothing but the picture is known. Refusals as
// below.
[[nodiscard]] record::Photograph photograph_from(const PhotographWords& words,
                                                 record::Photograph picture,
                                                 const PhotographSubjects& subjects);

// What a picture says of itself.
[[nodiscard]] record::Photograph photograph_of(const record::Picture& picture);

// Records the photograph in these bytes (record/picture.h), and what of the file was left out. What
// takes the place of an earlier line shows the photograph of that line where no bytes are given,
// and keeps of it what is not said anew. Refusal where the logbook has no such joint or the audit
// names no such deviation, or where the same photograph of the same is there already; InputError
// for a position that there is not and for bytes that are no such picture.
Done record_photograph(logbook::Logbook& logbook, const logbook::Writer& writer,
                       const PhotographWords& words, std::optional<std::string_view> bytes);

// The photographs that count of what is named as when one is entered, of all where nothing is, by
// rising line. Refusal where the logbook has no such joint, or no photograph of a deviation that
// the audit does not name; InputError for a position that there is not.
[[nodiscard]] std::vector<record::Entry<record::Photograph>> photographs_of(
    const logbook::Logbook& logbook, const std::string& where, record::Moment now);

// The photograph that the line of this number shows, struck or not, to be given out. Refusal where
// there is no such line, or it is of another kind.
[[nodiscard]] record::Photograph photograph_of_line(const logbook::Logbook& logbook,
                                                    std::int64_t line);

}  // namespace act
