// Every page as people get it: loaded, printed and looked over in a headless Chromium.

#include <fmt/format.h>

#include <algorithm>
#include <fstream>

#include "support/browser.h"
#include "support/catch.h"
#include "support/content_of.h"
#include "support/hard_job.h"
#include "support/html_check.h"
#include "support/looking_over.h"
#include "support/pictures.h"
#include "support/sample_job.h"

namespace pages_test {

namespace {

struct PageFile {
  std::string name;
  std::string file;
  int printed = 0;  // pages that it takes on its paper, counted by eye; 0 where nobody counted
};

// Every kind of page, of the sample job and of one that is hard on a page, on A4 and on Letter:
// the sequence of the sample job before it is put back, its sheet, sequence and labels while it is,
// its report once it is finished.
class Pages {
 public:
  Pages() {
    Trial planned;
    run_sample_job(planned, "2025-05-21T08:00");
    write(planned, "planned", "sequence --html", 12, 13);
    run_sample_job(sample_, "2025-05-21T09:10");
    write(sample_, "sample", "sheet", 10, 10);
    write(sample_, "sample", "sequence --html", 11, 12);
    write(sample_, "sample", "labels", 1, 1);
    write(sample_, "sample", "labels J06 J08 --each", 2, 2);
    Trial finished;
    run_sample_job(finished);
    write(finished, "sample", "report", 20, 21);
    run_hard_job(hard_);
    write(hard_, "hard", "sheet", 13, 14);
    write(hard_, "hard", "sequence --html", 10, 10);
    write(hard_, "hard", "labels", 1, 1);
    write(hard_, "hard", "report", 19, 19);
    write(hard_, "book", "help --html", 0, 0);
  }

  [[nodiscard]] const std::vector<PageFile>& files() const { return files_; }

 private:
  void write(Trial& trial, const std::string& job, const std::string& command, int on_a4,
             int on_letter) {
    const auto verb = command.substr(0, command.find(' '));
    const auto each = command.ends_with("--each") ? "-each" : "";
    for (const std::string size : {"a4", "letter"}) {
      const auto name = fmt::format("{}-{}{}-{}", job, verb, each, size);
      const auto file = folder_.file(name + ".html");
      trial.done(fmt::format("{} --page {} --out {}", command, size, file));
      files_.push_back({name, file, size == "a4" ? on_a4 : on_letter});
    }
  }

  TemporaryFolder folder_;
  Trial sample_;
  Trial hard_;
  std::vector<PageFile> files_;
};

constexpr int kA4Width = 794;  // 210 mm in CSS pixels
constexpr int kPhoneWidth = 360;
constexpr int kDeskWidth = 1280;

// What is wrong with the layout of the page as it stands in the browser: text of a drawing that
// overlaps another or leaves the drawing, and cells, lines and labels that do not hold their text.
constexpr const char* kLayoutFaults = R"js((() => {
  const faults = [];
  const shared = (low, high, other_low, other_high) =>
      Math.min(high, other_high) - Math.max(low, other_low);
  const words = text => text.textContent.slice(0, 40);
  for (const drawing of document.querySelectorAll('svg')) {
    const frame = drawing.getBoundingClientRect();
    const texts = [...drawing.querySelectorAll('text')];
    const boxes = texts.map(text => text.getBoundingClientRect());
    boxes.forEach((box, i) => {
      if (box.left < frame.left - 1 || box.right > frame.right + 1 || box.top < frame.top - 1 ||
          box.bottom > frame.bottom + 1) {
        faults.push('outside its drawing: ' + words(texts[i]));
      }
      for (let j = 0; j < i; ++j) {
        if (shared(box.left, box.right, boxes[j].left, boxes[j].right) > 1 &&
            shared(box.top, box.bottom, boxes[j].top, boxes[j].bottom) > 1) {
          faults.push(words(texts[i]) + ' lies over ' + words(texts[j]));
        }
      }
    });
  }
  for (const box of document.querySelectorAll('td, th, p, li, h1, h2, h3, figcaption')) {
    if (box.scrollWidth > box.clientWidth + 1 || box.scrollHeight > box.clientHeight + 1) {
      faults.push('does not hold its text: ' + words(box));
    }
  }
  // Where a word of the usual length goes on in the next line, its cell is too narrow.
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const node = walker.currentNode;
    if (node.parentElement.closest('svg, .address, .bag')) continue;
    for (const word of node.data.matchAll(/[\p{L}\p{N}]{2,20}(?![\p{L}\p{N}])/gu)) {
      if (/[\p{L}\p{N}]/u.test(node.data[word.index - 1] ?? ' ')) continue;  // the end of a longer one
      const range = document.createRange();
      range.setStart(node, word.index);
      range.setEnd(node, word.index + word[0].length);
      const rows = new Set([...range.getClientRects()].map(row => Math.round(row.top)));
      if (rows.size > 1) faults.push('parted over lines: ' + word[0]);
    }
  }
  // A grade belongs to its size.
  for (const size of document.querySelectorAll('.size')) {
    const range = document.createRange();
    range.selectNodeContents(size);
    if (range.getBoundingClientRect().right > size.closest('li').getBoundingClientRect().right - 2) {
      faults.push('wider than its label: ' + words(size));
    }
  }
  // On paper nothing scrolls: what is too wide there would make the whole page smaller. Neither does
  // it on a small screen: no verdict and no warning is to be out of sight.
  for (const box of document.querySelectorAll('.wide, table, figure, svg')) {
    if (box.scrollWidth > box.clientWidth + 1 ||
        box.getBoundingClientRect().right > window.innerWidth + 1) {
      faults.push('wider than the page: ' + words(box));
    }
  }
  return faults.slice(0, 8);
})())js";

using Strings = std::vector<std::string>;

}  // namespace

TEST_CASE("every page loads alone, holds what is on it and prints as many pages as it should",
          "[paper][browser]") {
  const Pages pages;
  Browser browser;
  for (const auto& [name, file, printed] : pages.files()) {
    INFO(name);
    CHECK(fault_of_page(content_of(file)) == "");
    for (const int width : {kA4Width, kPhoneWidth}) {
      INFO(width << " pixels wide");
      const auto visit = browser.open(file, width);
      CHECK(visit.requests == Strings{"file://" + file});
      CHECK(visit.complaints == Strings{});
      CHECK(browser.evaluate("document.documentElement.scrollWidth <= window.innerWidth"));
      CHECK(browser.evaluate(kLayoutFaults).get<Strings>() == Strings{});
      if (is_looked_at()) {
        leave(fmt::format("{}-{}.png", name, width), browser.screenshot());
      }
    }
    const auto pdf = browser.print();
    if (is_looked_at()) leave(name + ".pdf", pdf);
    if (printed > 0) CHECK(pages_of(pdf) == printed);
  }
}

TEST_CASE("photographs are shown upright on their page and fetched from nowhere",
          "[paper][browser]") {
  Trial trial;
  const auto path = [&](const std::string& name) { return trial.folder().file(name); };
  const auto jpeg = picture_file("mark.jpg");
  const std::pair<std::string, std::string> pictures[] = {
      {"lying.jpg", with_segment(jpeg, 0xE1, std::string("Exif\0\0", 6) + camera_data(6))},
      {"mark.jpg", jpeg},
      {"mark.png", picture_file("mark.png")},
      {"plain.png", plain_png(40, 30, 90)},
      {"mark.webp", picture_file("mark.webp")},
      {"mark-lossless.webp", picture_file("mark-lossless.webp")}};
  trial.environment["BOLTWITNESS_LOG"] = path("gb1.bolts");
  trial.done("start " + path("gb1.bolts") + " --machine GB-1");
  trial.done(
      "joint J06 --holds 'bearing cap' --size M12x1.75 --grade 8.8 --count 8 --spec '80 N·m'");
  for (const auto& [name, bytes] : pictures) {
    std::ofstream(path(name), std::ios::binary) << bytes;
    trial.done("photo J06/3 " + path(name) + " --note 'the washer and its marks, seen from ahead'");
  }
  trial.done("report --out " + path("report.html"));
  Browser browser;
  for (const int width : {kA4Width, kPhoneWidth}) {
    const auto visit = browser.open(path("report.html"), width);
    for (const auto& request : visit.requests) {
      CHECK((request == "file://" + path("report.html") || request.starts_with("data:image/")));
    }
    CHECK(visit.complaints == Strings{});
    CHECK(browser.evaluate(kLayoutFaults).get<Strings>() == Strings{});
    CHECK(browser
              .evaluate("[...document.images].map(each => `${each.naturalWidth} by "
                        "${each.naturalHeight}`)")
              .get<Strings>() ==
          Strings{"16 by 24", "24 by 16", "24 by 16", "40 by 30", "24 by 16", "24 by 16"});
  }
  if (is_looked_at()) leave("photographs.png", browser.screenshot());
}

TEST_CASE("a request that leaves a page and a complaint are noticed", "[paper][browser]") {
  const TemporaryFolder folder;
  const auto file = folder.file("page.html");
  std::ofstream(file) << "<!DOCTYPE html><html><body><img src='http://example.invalid/a.png'>"
                         "<script>console.error('here'); throw 1;</script></body></html>";
  Browser browser;
  const auto visit = browser.open(file, kA4Width);
  CHECK(visit.requests.size() >= 2);
  CHECK(visit.complaints.size() >= 2);
  CHECK(pages_of(browser.print()) == 1);
}

TEST_CASE("text that overlaps, leaves its drawing or is cut is noticed", "[paper][browser]") {
  const TemporaryFolder folder;
  const auto file = folder.file("page.html");
  std::ofstream(file) << "<!DOCTYPE html><html><body><svg width='100' height='20'>"
                         "<text x='5' y='15'>one</text><text x='8' y='15'>two</text>"
                         "<text x='80' y='15'>outside</text></svg>"
                         "<p style='height:5px;overflow:hidden'>cut</p>"
                         "<div style='width:30px;overflow-wrap:anywhere'>retainer plate</div>"
                         "<ul><li style='width:90px;overflow:hidden'><span class='size' "
                         "style='white-space:nowrap'>M12x1.75 x 90mm, 8.8</span></li></ul>"
                         "</body></html>";
  Browser browser;
  browser.open(file, kA4Width);
  const auto faults = browser.evaluate(kLayoutFaults).get<Strings>();
  for (const auto* fault :
       {"two lies over one", "outside its drawing: outside", "does not hold its text: cut",
        "parted over lines: retainer", "wider than its label: M12x1.75 x 90mm, 8.8"}) {
    INFO(fault);
    CHECK(std::ranges::count(faults, fault) == 1);
  }
}

TEST_CASE("a page that holds a request of its own forbids it", "[paper][browser]") {
  Trial trial;
  trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("gb1.bolts");
  trial.done("start " + trial.folder().file("gb1.bolts") + " --machine GB-1");
  auto page = trial.done("report").out;
  page.replace(page.find("</main>"), 7, "<img src=\"http://example.invalid/a.png\"/></main>");
  const auto file = trial.folder().file("page.html");
  std::ofstream(file) << page;
  Browser browser;
  const auto visit = browser.open(file, kA4Width);
  CHECK(visit.complaints.size() == 1);
  CHECK_THAT(visit.complaints.front(), ContainsSubstring("Content Security Policy"));
}

TEST_CASE("an independent reader reads every code of the labels", "[paper][browser]") {
  Trial trial;
  run_sample_job(trial, "2025-05-14T10:00");
  const auto file = trial.folder().file("labels.html");
  trial.done("labels --out " + file);
  Browser browser;
  browser.open(file, kA4Width);
  const auto picture = trial.folder().file("labels.png");
  std::ofstream(picture, std::ios::binary) << browser.screenshot(3.0);
  const auto answer = trial.folder().file("codes.txt");
  REQUIRE(std::system(("zbarimg --raw -q -Sdisable -Sqrcode.enable '" + picture + "' > '" + answer +
                       "' 2>/dev/null")
                          .c_str()) == 0);
  Strings read;
  std::ifstream lines(answer);
  for (std::string line; std::getline(lines, line);) read.push_back(line);
  std::ranges::sort(read);
  const auto shown = browser.evaluate(
      "[...document.querySelectorAll('.address')].map(each => each.textContent).sort()");
  CHECK(read == shown.get<Strings>());
  CHECK(read.size() == 16);
}

// The sizes at which a page is read at arm's length, as the browser has them: in points for
// letters, in millimetres for what is ticked.
TEST_CASE("what the hand needs is large, and stands where it stood before", "[paper][browser]") {
  Trial trial;
  run_sample_job(trial, "2025-05-21T09:10");
  const TemporaryFolder folder;
  const auto file = folder.file("page.html");
  Browser browser;
  const auto open = [&](const std::string& command) {
    trial.done(command + " --out " + file);
    browser.open(file, kA4Width);
  };
  // The smallest of all that the selector finds; nothing found is no size.
  const auto points = [&](const std::string& selector) {
    const auto sizes =
        browser
            .evaluate("[...document.querySelectorAll('" + selector +
                      "')].map(each => parseFloat(getComputedStyle(each).fontSize) * 0.75)")
            .get<std::vector<double>>();
    return sizes.empty() ? 0.0 : std::ranges::min(sizes);
  };
  // All that there are, to a tenth.
  const auto millimetres = [&](const std::string& selector, const std::string& side) {
    return browser
        .evaluate("[...new Set([...document.querySelectorAll('" + selector +
                  "')].map(each => Math.round(each.getBoundingClientRect()." + side +
                  " / 96 * 254) / 10))]")
        .get<std::vector<double>>();
  };
  using Sizes = std::vector<double>;

  open("sequence --html");
  CHECK_THAT(points(".code"), WithinAbs(34.0, 0.01));
  CHECK_THAT(points(".turn-of"), WithinAbs(20.0, 0.01));
  CHECK_THAT(points(".torque"), WithinAbs(20.0, 0.01));
  CHECK_THAT(points(".facts p:not(.holds)"), WithinAbs(10.0, 0.01));
  CHECK_THAT(points(".set:not(.word)"), WithinAbs(26.0, 0.01));
  CHECK_THAT(points(".cells:not(.low) li"), WithinAbs(17.0, 0.01));
  CHECK(millimetres(".cells:not(.low) li", "width") == Sizes{15.0});
  CHECK(millimetres(".cells:not(.low) li", "height") == Sizes{13.0});
  CHECK(millimetres(".top:not(.wide-map) .map svg", "width") == Sizes{80.0});
  CHECK(millimetres(".setting", "left").size() == 1);
  CHECK(millimetres(".cells", "left").size() == 1);
  CHECK_THAT(text_of_page(content_of(file)), ContainsSubstring("6 of 17"));
  CHECK(browser.evaluate("document.querySelectorAll('.turn').length").get<int>() > 80);
  CHECK(browser
            .evaluate(R"js([...document.querySelectorAll('.map svg')].every(map => {
              const rings = [...map.querySelectorAll('.bolt')].map(ring => ring.getBoundingClientRect());
              return [...map.querySelectorAll('.turn')].every(turn => {
                const at = turn.getBoundingClientRect();
                return rings.some(ring => at.left > ring.left && at.right < ring.right &&
                                          at.top > ring.top && at.bottom < ring.bottom + 1);
              });
            }))js")
            .get<bool>());

  // On a small screen the cells have its whole width.
  browser.open(file, kPhoneWidth);
  CHECK(
      browser
          .evaluate("[...document.querySelectorAll('.joint .cells')].filter(cells => { const top = "
                    "cells.children[0].offsetTop; return cells.children.length >= 5 && "
                    "cells.children[4].offsetTop !== top; }).length")
          .get<int>() == 0);

  open("report");
  CHECK_THAT(points(".answer .large"), WithinAbs(26.0, 0.01));
  const auto lowest = [&] {
    return browser
        .evaluate(
            "Math.min(...[...document.querySelectorAll('.legend text')].map(text => "
            "text.getBoundingClientRect().height))")
        .get<double>();
  };
  const double on_paper = lowest();
  browser.open(file, kPhoneWidth);
  CHECK_THAT(lowest(), WithinAbs(on_paper, 0.5));

  // A label that began above its row would leave its line on the page before.
  open("labels");
  CHECK(browser
            .evaluate("[...document.querySelectorAll('.labels li')].every(label => "
                      "getComputedStyle(label).marginTop === '0px')")
            .get<bool>());

  open("sheet");
  CHECK(points(".form .words") >= 11.0);
  CHECK(browser.evaluate("document.querySelectorAll('.datum').length").get<int>() == 2 * 16);
}

// Run by scripts/check_pages, which says where axe-core lies.
TEST_CASE("axe-core finds nothing on any page, on a small screen and on a large one", "[.axe]") {
  const Axe axe;
  const Pages pages;
  Browser browser;
  const auto findings_on = [&](const std::string& file, int width) {
    browser.open(file, width);
    return axe.findings_on(browser);
  };
  for (const auto& page : pages.files()) {
    for (const int width : {kPhoneWidth, kDeskWidth}) {
      INFO(page.name << ", " << width << " pixels wide");
      CHECK(findings_on(page.file, width) == Strings{});
    }
  }
  const TemporaryFolder folder;
  const auto planted = folder.file("planted.html");
  std::ofstream(planted) << "<!DOCTYPE html><html><body><img src='data:,'></body></html>";
  CHECK(findings_on(planted, kDeskWidth).size() >= 2);
}

}  // namespace pages_test
