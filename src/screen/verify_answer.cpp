#include "screen/verify_answer.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <nlohmann/json.hpp>

#include "record/moment.h"
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
    case Fault::LineBefore:
      return "line-before";
    case Fault::DeviceBefore:
      return "line-before-of-device";
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
    case Fault::RowsOfNoLine:
      return fmt::format("{} holds rows of a line that is not there", misfit.table);
    case Fault::HashOfNoLine:
      return "a hash is there of a line that is not";
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

// Everything that does not fit, a sentence each; the first line that does not comes first.
std::vector<std::string> sentences(const record::Verification& found) {
  std::vector<std::string> all;
  if (found.chain) {
    for (const auto& misfit : found.chain->misfits) all.push_back(in_words(misfit));
    if (found.chain->others > 0) {
      all.push_back(fmt::format("{} more of this kind", found.chain->others));
    }
  }
  for (const auto& signature : found.signatures) {
    if (signature.fits) continue;
    all.push_back(fmt::format(
        "the signature of {} {} does not fit: it was changed, or was given to another log",
        signature.by,
        signature.line == 0 ? std::string("belongs to no line and")
                            : fmt::format("at line {}", signature.line)));
  }
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

std::string where_it_ends(const ChainCheck& chain) {
  return fmt::format("Last line {}, hash {}.", chain.last.line, words::short_hash(chain.last.hash));
}

std::string given_later(const ChainCheck& chain) {
  return fmt::format(
      "{} hashed on {}, when the logbook was brought up to date; what was changed before then does "
      "not show.",
      chain.later == 1 ? "Line 1 was" : fmt::format("Lines 1 to {} were", chain.later),
      record::write_local(record::read_utc(chain.given_later)));
}

std::string in_words(const record::SignatureCheck& signature, const ChainCheck& chain) {
  auto text = fmt::format("Signed up to line {} by {} on {}, key {}", signature.line, signature.by,
                          record::write_local(record::read_utc(signature.at)),
                          words::short_hash(signature.fingerprint));
  // Numbers that do not fit tell nothing of how many there are.
  if (chain.misfits.empty() && chain.last.line > signature.line) {
    const auto after = static_cast<std::size_t>(chain.last.line - signature.line);
    text += fmt::format("; {} came after", words::counted(after, "line"));
  }
  return text + '.';
}

std::string contained_or_not(const ChainCheck& chain, const std::string& against) {
  const auto hash = words::short_hash(against);
  if (chain.sought) {
    return fmt::format("The log that showed {} is contained: it ended with line {}.", hash,
                       chain.sought->line);
  }
  return fmt::format(
      "No line has the hash {}: the log that showed it is not contained in this one, or the hash "
      "was misread.",
      hash);
}

}  // namespace

std::string verification_text(const record::Verification& found, const std::string& against,
                              const words::Page& page) {
  const auto paragraph = [&](const std::string& text) {
    return words::wrapped(text, page.width, "", "");
  };
  std::string text;
  const auto misfits = sentences(found);
  if (misfits.empty() && !found.chain) {
    return paragraph(fmt::format(
        "This logbook is of an earlier version (schema {}): its lines have no hashes yet, and "
        "nothing shows whether they are as they were written. The first command that writes to it "
        "hashes them all, with a copy left beside it.",
        found.schema));
  }
  if (misfits.empty()) {
    text += paragraph(words::strong(
        fmt::format("Nothing was changed: {} their {}, the schema is the program's own, the file "
                    "is sound.",
                    found.chain->lines == 1 ? "1 line fits"
                                            : fmt::format("{} lines fit", found.chain->lines),
                    found.chain->lines == 1 ? "hash" : "hashes"),
        page));
  } else {
    text += paragraph(
        words::strong(fmt::format("This logbook does not fit: {}.", misfits.front()), page));
    for (std::size_t i = 1; i < misfits.size(); ++i) {
      text += words::wrapped(misfits[i], page.width, "- ", "  ");
    }
    if (!found.chain) text += paragraph("The lines themselves were not looked at.");
  }
  if (found.chain) {
    if (misfits.empty()) text += paragraph(where_it_ends(*found.chain));
    if (found.chain->later > 0) text += paragraph(given_later(*found.chain));
    for (const auto& signature : found.signatures) {
      if (signature.fits) text += paragraph(in_words(signature, *found.chain));
    }
    if (!against.empty()) text += paragraph(contained_or_not(*found.chain, against));
  }
  if (!misfits.empty()) text += '\n' + paragraph(kWhatToDo);
  return text;
}

std::string verification_json(const record::Verification& found, const std::string& against) {
  nlohmann::ordered_json json = {{"fits", found.fits()},
                                 {"schema", found.schema},
                                 {"lines", nullptr},
                                 {"last", nullptr},
                                 {"hashed_later", nullptr},
                                 {"against", nullptr},
                                 {"signatures", nlohmann::ordered_json::array()},
                                 {"misfits", nlohmann::ordered_json::array()},
                                 {"says", sentences(found)}};
  if (!found.chain) return json_text(json);
  const auto& chain = *found.chain;
  json["lines"] = chain.lines;
  json["last"] = {{"line", chain.last.line}, {"hash", chain.last.hash}};
  if (chain.later > 0) json["hashed_later"] = {{"lines", chain.later}, {"at", chain.given_later}};
  if (!against.empty()) {
    json["against"] = {
        {"hash", against}, {"contained", chain.sought.has_value()}, {"line", nullptr}};
    if (chain.sought) json["against"]["line"] = chain.sought->line;
  }
  for (const auto& signature : found.signatures) {
    json["signatures"].push_back({{"line", signature.line},
                                  {"by", signature.by},
                                  {"at", signature.at},
                                  {"public_key", signature.public_key},
                                  {"key_fingerprint", signature.fingerprint},
                                  {"fits", signature.fits}});
  }
  for (const auto& misfit : chain.misfits) {
    nlohmann::ordered_json each = {
        {"fault", word_of(misfit.fault)}, {"line", nullptr}, {"says", in_words(misfit)}};
    if (misfit.line != 0) each["line"] = misfit.line;
    json["misfits"].push_back(std::move(each));
  }
  return json_text(json);
}

}  // namespace screen
