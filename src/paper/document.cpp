#include "paper/document.h"

#include <fmt/format.h>

#include "words/short_hash.h"

namespace paper {
namespace {

// Every page begins with this, so that it is known again before it is written over.
constexpr std::string_view kBegin =
    "<!DOCTYPE html>\n<!-- a page of boltwitness; write to the logbook, not to this -->\n";

constexpr const char* kPolicy = "default-src 'none'; style-src 'unsafe-inline'";
constexpr const char* kPolicyWithPictures =
    "default-src 'none'; style-src 'unsafe-inline'; img-src data:";

}  // namespace

Document::Document(std::string_view title, const Imprint& imprint, Pictures pictures) {
  begin(title, imprint.machine,
        fmt::format("printed {}, log to line {}, hash {}", record::write_local(imprint.printed),
                    imprint.last_line, words::short_hashes(imprint.hashes)),
        imprint.size, pictures);
}

Document::Document(std::string_view title, std::string_view source, PaperSize size) {
  begin(title, source, {}, size, Pictures::None);
}

void Document::begin(std::string_view title, std::string_view source, std::string_view as_of,
                     PaperSize size, Pictures pictures) {
  const auto footer = fmt::format("{}: {}{}{}", source, title, as_of.empty() ? "" : ", ", as_of);
  markup_.open("html", {{"lang", "en"}}).open("head");
  markup_.empty("meta", {{"charset", "utf-8"}});
  markup_.empty("meta", {{"http-equiv", "Content-Security-Policy"},
                         {"content", pictures == Pictures::None ? kPolicy : kPolicyWithPictures}});
  markup_.empty("meta", {{"name", "viewport"}, {"content", "width=device-width, initial-scale=1"}});
  markup_.element("title", fmt::format("{} - {}", title, source));
  markup_.style(style_sheet(size, footer));
  markup_.close();
  markup_.open("body").open("main");
  markup_.element("h1", fmt::format("{}: {}", source, title));
  if (!as_of.empty()) markup_.element("p", {{"class", "imprint"}}, as_of);
}

std::string Document::take_so_far() {
  const auto begin = is_begun_ ? std::string_view() : kBegin;
  is_begun_ = true;
  return std::string(begin) + markup_.take_so_far();
}

std::string Document::take() {
  markup_.close().close().close();
  const auto begin = is_begun_ ? std::string_view() : kBegin;
  return std::string(begin) + markup_.take();
}

bool is_our_page(std::string_view begin) { return begin.starts_with(kBegin); }

}  // namespace paper
