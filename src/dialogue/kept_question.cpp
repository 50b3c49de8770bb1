#include "dialogue/kept_question.h"

#include "dialogue/line_question.h"
#include "record/typed_text.h"

namespace dialogue {

bool ask_what_is_kept(BenchSitting& sitting, char key,
                      const record::Entry<record::Removal>* removal) {
  if (key != 'g' && key != 'w') return false;
  const bool is_bag = key == 'g';
  const std::string what = is_bag ? "bag" : "note";
  auto answer = ask_line(sitting.session(), what, [&](const std::string& text) {
    return record::read_text(text, "the " + what, is_bag ? 80 : 1000);
  });
  if (answer.stops) sitting.stop();
  if (answer.value) keep(sitting, {is_bag, *std::move(answer.value)}, removal);
  return true;
}

void keep(BenchSitting& sitting, const BagOrNote& said,
          const record::Entry<record::Removal>* removal) {
  if (said.is_bag) sitting.keep_bag(said.text);
  if (removal == nullptr) {
    if (!said.is_bag) sitting.keep_note(said.text);
    return;
  }
  auto now = removal->content;
  (said.is_bag ? now.bag : now.note) = said.text;
  sitting.amend(*removal, now);
}

}  // namespace dialogue
