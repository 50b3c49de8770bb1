#include "screen/verify_answer.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <span>

#include "record/moment.h"
#include "screen/cut_list.h"
#include "screen/json_text.h"
#include "words/short_hash.h"

namespace screen {
namespace {

using record::ChainCheck;
using record::SchemaMisfit;
using Fault = ChainCheck::Fault;

std::string_view word_of(Fault fault) {
  switch (fault) {
    case Fault::Numbers:
      return "numbers";
    case Fault::NoHash:
      return "no-hash";
    case Fault::Changed:
      return "changed";
    case Fault::NoContent:
      return "no-content";
    case Fault::LineBefore:
      return "line-before";
    case Fault::DeviceBefore:
      return "line-before-of-device";
    case Fault::NotAnEnd:
      return "not-an-end";
    case Fault::RowsOfNoLine:
      return "rows-of-no-line";
    case Fault::HashOfNoLine:
      return "hash-of-no-line";
  }
  return "changed";
}

std::string numbers_in_words(const ChainCheck::Misfit& misfit) {
  if (misfit.line <= misfit.before) {
    return fmt::format("line {} stands where the line after line {} should: the order was changed",
                       misfit.line, misfit.before);
  }
  const auto first = misfit.before + 1;
  const auto last = misfit.line - 1;
  return first == last
             ? fmt::format("line {} is not there: it was taken out", first)
             : fmt::format("lines {} to {} are not there: they were taken out", first, last);
}

std::string in_words(const ChainCheck::Misfit& misfit) {
  switch (misfit.fault) {
    case Fault::Numbers:
      return numbers_in_words(misfit);
    case Fault::NoHash:
      return fmt::format("line {} has no hash: boltwitness did not write it", misfit.line);
    case Fault::Changed:
      return fmt::format("line {} was changed: what it says is not what was written", misfit.line);
    case Fault::NoContent:
      return fmt::format("line {} has lost what it said, or holds what is not of its kind",
                         misfit.line);
    case Fault::LineBefore:
      return fmt::format(
          "line {} does not follow the line before it: what stood there when it was written was "
          "changed or taken out, or a line was put in between",
          misfit.line);
    case Fault::DeviceBefore:
      return fmt::format(
          "line {} does not follow the line that its device wrote before it: that one was changed "
          "or taken out, or a line was put in between",
          misfit.line);
    case Fault::NotAnEnd:
      return misfit.line == 0
                 ? std::string(
                       "a line is kept as the last of a merged copy and is not: the list of "
                       "these was altered")
                 : fmt::format(
                       "no line was written after line {}, and no copy was merged that ended "
                       "with it: it was put in, or what came after it was taken out",
                       misfit.line);
    case Fault::RowsOfNoLine:
      return fmt::format("{} holds rows of a line that is not there", misfit.table);
    case Fault::HashOfNoLine:
      return "a hash is there of a line that is not";
  }
  return {};
}

// How to go on is told where nothing else is wrong: who finds more than that writes nothing.
std::string in_words(const record::UnreadableLine& line, const record::Verification& found) {
  const auto wrong = fmt::format("line {} cannot be read ({}): {}", line.line, line.kind, line.why);
  if (!found.is_only_unreadable()) return wrong;
  return fmt::format("{}; {}", wrong, record::how_to_go_on(line, found.what_strikes_do()));
}

std::string in_words(const record::PhotographMisfit& misfit) {
  using PictureFault = record::PhotographMisfit::Fault;
  const auto hash = words::short_hash(misfit.sha256);
  switch (misfit.fault) {
    case PictureFault::Missing:
      return fmt::format("the photograph of line {} (SHA-256 {}) was taken out", misfit.line, hash);
    case PictureFault::Changed:
      return fmt::format("the photograph of line {} (SHA-256 {}) was changed", misfit.line, hash);
    case PictureFault::AnotherPicture:
      return fmt::format("the photograph of line {} (SHA-256 {}) is not such as the line says",
                         misfit.line, hash);
    case PictureFault::OfNoLine:
      return fmt::format("a photograph was put in that no line shows (SHA-256 {})", hash);
  }
  return {};
}

std::string in_words(const SchemaMisfit& misfit) {
  using How = SchemaMisfit::How;
  switch (misfit.how) {
    case How::Missing:
      return fmt::format("the {} {} was taken out", misfit.type, misfit.name);
    case How::Altered:
      return fmt::format("the {} {} was altered", misfit.type, misfit.name);
    case How::Added:
      return fmt::format("the {} {} was put in", misfit.type, misfit.name);
  }
  return {};
}

constexpr std::size_t kMostUnreadable = 20;  // sentences

// Everything that does not fit, a sentence each; the first line that does not comes first. Of the
// lines that cannot be read so many.
std::vector<std::string> sentences(const record::Verification& found, std::size_t most_unreadable) {
  std::vector<std::string> all;
  if (found.chain) {
    for (const auto& misfit : found.chain->misfits) all.push_back(in_words(misfit));
    if (found.chain->others > 0) {
      all.push_back(fmt::format("{} more of this kind", found.chain->others));
    }
  }
  const auto& unreadable = found.unreadable;
  const auto told = shown_of(unreadable.size(), most_unreadable);
  for (std::size_t i = 0; i < told; ++i) all.push_back(in_words(unreadable[i], found));
  if (told < unreadable.size()) {
    all.push_back(fmt::format("{} more lines cannot be read; all: boltwitness verify --json",
                              unreadable.size() - told));
  }
  for (const auto& signature : found.signatures) {
    if (signature.fits) continue;
    all.push_back(
        signature.line == 0
            ? fmt::format("the signature of {} belongs to a line that is not there: the line was "
                          "taken out, or the signature put in",
                          signature.by)
            : fmt::format("the signature of {} at line {} does not fit: it was changed, or was "
                          "given to another log",
                          signature.by, signature.line));
  }
  for (const auto& misfit : found.photographs) all.push_back(in_words(misfit));
  for (const auto& misfit : found.objects) all.push_back(in_words(misfit));
  for (const auto& kind : found.kinds) {
    all.push_back(fmt::format("the table of kinds was altered: {}", kind));
  }
  for (const auto& says : found.unsound) all.push_back("the file is damaged: " + says);
  for (const auto& table : found.orphans) {
    all.push_back(fmt::format("rows of {} belong to what is not there", table));
  }
  return all;
}

constexpr const char* kWhatToDo =
    "What to do: write nothing more to this file and keep it as it is. Go on with the last copy "
    "that verify finds in order, and enter what came after it again. Whether a copy holds what a "
    "printed page showed tells verify --against HASH. What a hash shows and what it does not: "
    "boltwitness help hashes.";

// Where nothing is wrong but lines that cannot be read.
std::string what_to_do_about_lines(const record::Verification& found) {
  if (found.what_strikes_do() == record::Strikes::AreNotEnough) {
    return "What to do: go on with the last copy that verify finds in order, and enter what came "
           "after it again. Every command that reads one of these lines refuses the logbook, and "
           "not "
           "all of them can be struck.";
  }
  return fmt::format(
      "What to do: strike each of these lines and enter it again; until then every command that "
      "reads one of them refuses the logbook. An earlier version of boltwitness wrote what it "
      "could not read again, or somebody changed it{}. Where that may be so, put a copy of the "
      "file as it is aside first: boltwitness help hashes.",
      found.chain ? " and computed the hashes anew" : "");
}

std::string where_it_ends(const ChainCheck& chain) {
  if (chain.ends.size() < 2) {
    return fmt::format("Last line {}, hash {}.", chain.last.line,
                       words::short_hash(chain.last.hash));
  }
  std::string ends;
  for (const auto& end : chain.ends) {
    ends += fmt::format("{}line {}, hash {}", ends.empty() ? "" : "; ", end.line,
                        words::short_hash(end.hash));
  }
  return fmt::format(
      "Copies were merged and nothing was written since, so it ends {} times: {}. The next line "
      "binds them together.",
      chain.ends.size(), ends);
}

std::string photographs_fit(const record::Verification& found) {
  if (found.photographs_kept == 0) return {};
  const auto count = static_cast<std::size_t>(found.photographs_kept);
  return fmt::format("{} {}, ", words::counted(count, "photograph"),
                     count == 1 ? "fits its own" : "fit theirs");
}

std::string given_later(const ChainCheck& chain) {
  const auto which =
      chain.last_later != chain.later
          ? fmt::format("{} of the lines, the last of them line {},", chain.later, chain.last_later)
      : chain.later == 1 ? std::string("Line 1")
                         : fmt::format("Lines 1 to {}", chain.later);
  return fmt::format(
      "{} got {} when the logbook was brought up to date, {}; what was changed until then does not "
      "show.",
      which, chain.later == 1 ? "its hash" : "their hashes",
      chain.last_later < chain.last.line
          ? fmt::format("before line {} was written", chain.last_later + 1)
          : std::string("and none was written since"));
}

std::size_t lines_signed(const record::SignatureCheck& signature) {
  std::int64_t lines = 0;
  for (const auto& run : signature.over) lines += run.last - run.first + 1;
  return static_cast<std::size_t>(lines);
}

// "; not lines 25 to 35, 37: these came from another copy".
std::string lines_not_signed(const record::SignatureCheck& signature) {
  std::vector<std::string> between;
  for (std::size_t i = 1; i < signature.over.size(); ++i) {
    const auto first = signature.over[i - 1].last + 1;
    const auto last = signature.over[i].first - 1;
    between.push_back(first == last ? std::to_string(first) : fmt::format("{} to {}", first, last));
  }
  constexpr std::size_t kMostRuns = 12;
  const auto more = between.size() > kMostRuns ? between.size() - kMostRuns : 0;
  return fmt::format(
      "; not {} {}{}, which another copy brought",
      between.size() == 1 && between.front().find(' ') == std::string::npos ? "line" : "lines",
      fmt::join(std::span(between).first(between.size() - more), ", "),
      more == 0 ? "" : fmt::format(" and {} more runs", more));
}

std::string in_words(const record::SignatureCheck& signature, const ChainCheck& chain) {
  const auto signed_on = fmt::format("by {} on {}, key {}", signature.by,
                                     record::write_local(record::read_utc(signature.at)),
                                     words::short_hash(signature.fingerprint));
  if (signature.over.size() > 1) {
    return fmt::format("Signed {}: {}, the last of them line {} here{}.", signed_on,
                       words::counted(lines_signed(signature), "line"), signature.line,
                       lines_not_signed(signature));
  }
  auto text = fmt::format("Signed up to line {} {}", signature.line, signed_on);
  // Numbers that do not fit tell nothing of how many there are.
  if (chain.misfits.empty() && chain.last.line > signature.line) {
    const auto after = static_cast<std::size_t>(chain.last.line - signature.line);
    text += fmt::format("; {} came after", words::counted(after, "line"));
  }
  return text + '.';
}

std::string numbers_then_and_now(const ChainCheck& chain) {
  const auto then = static_cast<std::int64_t>(chain.lines_of_sought.size());
  const auto last = chain.lines_of_sought.back();
  if (then == last) return fmt::format("it ended with line {}.", last);
  return fmt::format(
      "it ended with line {}, which is line {} now, since {} of merged copies {} before it.", then,
      last, words::counted(static_cast<std::size_t>(last - then), "line"),
      last - then == 1 ? "stands" : "stand");
}

std::string contained_or_not(const ChainCheck& chain, const AskedOfOlder& asked) {
  const auto hash = words::short_hashes(asked.hashes);
  if (chain.sought.size() < asked.hashes.size()) {
    return asked.hashes.size() == 1
               ? fmt::format(
                     "No line has the hash {}: the log that showed it is not contained in this "
                     "one, "
                     "or the hash was misread.",
                     hash)
               : fmt::format(
                     "Not all of {} are hashes of lines: the log that showed them is not contained "
                     "in this one, or one was misread.",
                     hash);
  }
  auto text =
      fmt::format("The log that showed {} is contained: {}", hash, numbers_then_and_now(chain));
  if (asked.line == 0) return text;
  const auto place = static_cast<std::size_t>(asked.line);
  return place > chain.lines_of_sought.size()
             ? fmt::format("{} It had no line {}.", text, asked.line)
             : fmt::format("{} Its line {} is line {} here.", text, asked.line,
                           chain.lines_of_sought[place - 1]);
}

}  // namespace

bool AskedOfOlder::is_found(const record::Verification& found) const {
  if (hashes.empty()) return true;
  return found.chain && found.chain->sought.size() == hashes.size() &&
         static_cast<std::size_t>(line) <= found.chain->lines_of_sought.size();
}

std::string verification_text(const record::Verification& found, const AskedOfOlder& asked,
                              const words::Page& page) {
  const auto paragraph = [&](const std::string& text) {
    return words::wrapped(text, page.width, "", "");
  };
  std::string text;
  const auto misfits = sentences(found, kMostUnreadable);
  if (misfits.empty() && !found.chain) {
    return paragraph(fmt::format(
        "This logbook is of an earlier version (schema {}): its lines have no hashes yet, and "
        "nothing shows whether they are as they were written. The first command that writes to it "
        "hashes them all, with a copy left beside it.",
        found.schema));
  }
  if (misfits.empty()) {
    text += paragraph(words::strong(
        fmt::format("Nothing was changed: {} their {}, {}the schema is the program's own, the file "
                    "is sound.",
                    found.chain->lines == 1 ? "1 line fits"
                                            : fmt::format("{} lines fit", found.chain->lines),
                    found.chain->lines == 1 ? "hash" : "hashes", photographs_fit(found)),
        page));
  } else {
    text += paragraph(
        words::strong(fmt::format("This logbook does not fit: {}.", misfits.front()), page));
    for (std::size_t i = 1; i < misfits.size(); ++i) {
      text += words::wrapped(misfits[i], page.width, "- ", "  ");
    }
    if (!found.chain && found.unreadable.empty()) {
      text += paragraph("The lines themselves were not looked at.");
    }
  }
  if (found.chain) {
    if (misfits.empty()) text += paragraph(where_it_ends(*found.chain));
    if (found.chain->later > 0) text += paragraph(given_later(*found.chain));
    for (const auto& signature : found.signatures) {
      if (signature.fits) text += paragraph(in_words(signature, *found.chain));
    }
    if (!asked.hashes.empty()) text += paragraph(contained_or_not(*found.chain, asked));
  }
  if (!misfits.empty()) {
    text +=
        '\n' + paragraph(found.is_only_unreadable() ? what_to_do_about_lines(found) : kWhatToDo);
  }
  return text;
}

std::string verification_json(const record::Verification& found, const AskedOfOlder& asked) {
  nlohmann::ordered_json json = {{"fits", found.fits()},
                                 {"schema", found.schema},
                                 {"lines", nullptr},
                                 {"last", nullptr},
                                 {"ends", nlohmann::ordered_json::array()},
                                 {"hashed_later", nullptr},
                                 {"against", nullptr},
                                 {"signatures", nlohmann::ordered_json::array()},
                                 {"photographs", found.photographs_kept},
                                 {"misfits", nlohmann::ordered_json::array()},
                                 {"unreadable", nlohmann::ordered_json::array()},
                                 {"says", sentences(found, found.unreadable.size())}};
  for (const auto& line : found.unreadable) {
    json["unreadable"].push_back({{"line", line.line},
                                  {"id", line.id},
                                  {"kind", line.kind},
                                  {"why", line.why},
                                  {"says", in_words(line, found)}});
  }
  if (!found.chain) return json_text(kVerificationFormat, std::move(json));
  const auto& chain = *found.chain;
  json["lines"] = chain.lines;
  json["last"] = {{"line", chain.last.line}, {"hash", chain.last.hash}};
  for (const auto& end : chain.ends) {
    json["ends"].push_back({{"line", end.line}, {"hash", end.hash}});
  }
  if (chain.later > 0) json["hashed_later"] = {{"lines", chain.later}, {"last", chain.last_later}};
  if (!asked.hashes.empty()) {
    const bool is_contained = chain.sought.size() == asked.hashes.size();
    json["against"] = {{"hashes", asked.hashes},
                       {"contained", is_contained},
                       {"line", nullptr},
                       {"was_line", nullptr},
                       {"asked", nullptr}};
    if (is_contained) {
      const auto& lines = chain.lines_of_sought;
      json["against"]["line"] = lines.back();
      json["against"]["was_line"] = lines.size();
      const auto place = static_cast<std::size_t>(asked.line);
      if (place > 0 && place <= lines.size()) {
        json["against"]["asked"] = {{"was_line", asked.line}, {"line", lines[place - 1]}};
      }
    }
  }
  for (const auto& signature : found.signatures) {
    json["signatures"].push_back({{"line", signature.line},
                                  {"by", signature.by},
                                  {"at", signature.at},
                                  {"public_key", signature.public_key},
                                  {"key_fingerprint", signature.fingerprint},
                                  {"fits", signature.fits},
                                  {"over", nlohmann::ordered_json::array()}});
    for (const auto& run : signature.over) {
      json["signatures"].back()["over"].push_back({{"first", run.first}, {"last", run.last}});
    }
  }
  for (const auto& misfit : chain.misfits) {
    nlohmann::ordered_json each = {
        {"fault", word_of(misfit.fault)}, {"line", nullptr}, {"says", in_words(misfit)}};
    if (misfit.line != 0) each["line"] = misfit.line;
    json["misfits"].push_back(std::move(each));
  }
  return json_text(kVerificationFormat, std::move(json));
}

}  // namespace screen
