#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "paper/markup.h"
#include "paper/style_sheet.h"
#include "record/moment.h"

namespace paper {

// What stands on every page: of which logbook, as of when.
struct Imprint {
  std::string machine;
  record::Moment printed;
  std::int64_t last_line = 0;            // of the log, when it was printed
  std::vector<std::string> hashes = {};  // of that line and of other ends of the log, whole
  PaperSize size = PaperSize::A4;
};

// Whether a page shows photographs, which stand in it and are fetched from nowhere.
enum class Pictures { None, InThePage };

// A whole page under way: opened with head, style sheet, title and imprint; body() takes what is on
// it. It stands alone: no script, nothing to fetch, and a policy in its head that forbids both.
class Document {
 public:
  Document(std::string_view title, const Imprint& imprint, Pictures pictures = Pictures::None);
  // One about no logbook: `source` names what it is from.
  Document(std::string_view title, std::string_view source, PaperSize size);

  [[nodiscard]] Markup& body() { return markup_; }

  // The next part of a page that is given out while it is written, and so never held as a whole.
  [[nodiscard]] std::string take_so_far();

  // The finished page, or what is left of it.
  [[nodiscard]] std::string take();

 private:
  void begin(std::string_view title, std::string_view source, std::string_view as_of,
             PaperSize size, Pictures pictures);

  Markup markup_;
  bool is_begun_ = false;  // given out in part
};

// True for text that begins as a page of this program does.
[[nodiscard]] bool is_our_page(std::string_view begin);

}  // namespace paper
