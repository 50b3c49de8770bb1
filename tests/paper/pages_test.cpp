// Every page as people get it: loaded, printed and looked over in a headless Chromium.

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <sstream>

#include "support/browser.h"
#include "support/catch.h"
#include "support/html_check.h"
#include "support/occurrences.h"
#include "support/sample_job.h"

namespace {

std::string content_of(const std::string& file) {
  std::ostringstream content;
  content << std::ifstream(file, std::ios::binary).rdbuf();
  return content.str();
}

// The pages of the sample job, each as a file.
class SamplePages {
 public:
  SamplePages() {
    run_sample_job(bench_);
    for (const auto& [name, command] : std::vector<std::pair<std::string, std::string>>{
             {"sheet", "sheet"},
             {"sequence", "sequence --html"},
             {"report", "report"},
             {"labels", "labels"},
             {"labels-each", "labels J06 J08 --each"},
             {"sheet-letter", "sheet --page letter"},
             {"sequence-letter", "sequence --html --page letter"},
             {"report-letter", "report --page letter"},
             {"labels-letter", "labels --page letter"}}) {
      files_.emplace_back(name, bench_.folder().file(name + ".html"));
      bench_.done(command + " --at 2025-05-20T08:00 --out " + files_.back().second);
    }
    const auto sequence = bench_.done("sequence --json --at 2025-05-20T08:00").json();
    stages_ = static_cast<int>(sequence.at("joints").size());
  }

  [[nodiscard]] const std::vector<std::pair<std::string, std::string>>& files() const {
    return files_;
  }
  [[nodiscard]] std::string file(const std::string& name) const {
    return bench_.folder().file(name);
  }
  // Rows of the plan: each joint, and once more where its final value waits.
  [[nodiscard]] int stages() const { return stages_; }

 private:
  Bench bench_;
  std::vector<std::pair<std::string, std::string>> files_;
  int stages_ = 0;
};

constexpr int kJoints = 16;
constexpr std::size_t kLabelsOnAPage = 21;  // three by seven below the title
constexpr int kA4Width = 794;               // 210 mm in CSS pixels
constexpr int kPhoneWidth = 360;

// A folder to look at the pages in: BOLTWITNESS_LOOK takes their pictures and prints.
void leave(const std::string& name, const std::string& bytes) {
  if (const char* folder = std::getenv("BOLTWITNESS_LOOK")) {
    std::ofstream(std::string(folder) + "/" + name, std::ios::binary) << bytes;
  }
}

}  // namespace

TEST_CASE("every page loads alone, keeps to its width and prints as many pages as it should",
          "[paper][browser]") {
  const SamplePages pages;
  Browser browser;
  for (const auto& [name, file] : pages.files()) {
    INFO(name);
    CHECK(fault_of_page(content_of(file)) == "");
    for (const int width : {kA4Width, kPhoneWidth}) {
      INFO(width << " pixels wide");
      const auto visit = browser.open(file, width);
      CHECK(visit.requests == std::vector<std::string>{"file://" + file});
      CHECK(visit.complaints == std::vector<std::string>{});
      CHECK(browser.evaluate("document.documentElement.scrollWidth <= window.innerWidth"));
      leave(fmt::format("{}-{}.png", name, width), browser.screenshot());
    }
    const auto pdf = browser.print();
    leave(name + ".pdf", pdf);
    const int printed = pages_of(pdf);
    if (name.starts_with("sheet")) {
      CHECK(printed == kJoints);
    } else if (name.starts_with("sequence")) {
      CHECK(printed == pages.stages() + 1);
    } else if (name.starts_with("labels")) {
      const auto labels = occurrences(content_of(file), "<li>");
      INFO(labels << " labels");
      CHECK(printed == static_cast<int>((labels + kLabelsOnAPage - 1) / kLabelsOnAPage));
    } else {
      CHECK(printed >= kJoints);
      CHECK(printed <= 3 * kJoints);
    }
  }
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

TEST_CASE("a page that holds a request of its own forbids it", "[paper][browser]") {
  const SamplePages pages;
  auto page = content_of(pages.files().front().second);
  page.replace(page.find("</main>"), 7, "<img src=\"http://example.invalid/a.png\"/></main>");
  const TemporaryFolder folder;
  const auto file = folder.file("page.html");
  std::ofstream(file) << page;
  Browser browser;
  const auto visit = browser.open(file, kA4Width);
  CHECK(visit.complaints.size() == 1);
  CHECK_THAT(visit.complaints.front(), ContainsSubstring("Content Security Policy"));
}

TEST_CASE("an independent reader reads every code of the labels", "[paper][browser]") {
  const SamplePages pages;
  const auto file = pages.file("labels.html");
  Browser browser;
  browser.open(file, kA4Width);
  const auto picture = pages.file("labels.png");
  std::ofstream(picture, std::ios::binary) << browser.screenshot(3.0);
  const auto answer = pages.file("codes.txt");
  REQUIRE(std::system(("zbarimg --raw -q -Sdisable -Sqrcode.enable '" + picture + "' > '" + answer +
                       "' 2>/dev/null")
                          .c_str()) == 0);
  std::vector<std::string> read;
  std::ifstream lines(answer);
  for (std::string line; std::getline(lines, line);) read.push_back(line);
  std::ranges::sort(read);
  const auto shown = browser.evaluate(
      "[...document.querySelectorAll('.address')].map(each => each.textContent).sort()");
  CHECK(read == shown.get<std::vector<std::string>>());
  CHECK(read.size() >= kJoints);
}

// Run by scripts/check_pages, which says where axe-core lies.
TEST_CASE("axe-core has no serious finding on any page", "[.axe]") {
  const char* axe = std::getenv("BOLTWITNESS_AXE");
  REQUIRE(axe != nullptr);
  const auto rules = content_of(axe);
  REQUIRE_FALSE(rules.empty());
  const SamplePages pages;
  Browser browser;
  const auto serious_of = [&](const std::string& file) {
    browser.open(file, kA4Width);
    browser.evaluate(rules + "; 0");
    return browser.evaluate(
        "axe.run(document, {resultTypes: ['violations']}).then(result => result.violations.map("
        "each => each.impact + ': ' + each.id + ' at ' + each.nodes[0].target))");
  };
  for (const auto& [name, file] : pages.files()) {
    INFO(name);
    std::vector<std::string> serious;
    for (const auto& finding : serious_of(file).get<std::vector<std::string>>()) {
      WARN(name << ": " << finding);
      if (finding.starts_with("serious") || finding.starts_with("critical")) {
        serious.push_back(finding);
      }
    }
    CHECK(serious == std::vector<std::string>{});
  }
  const TemporaryFolder folder;
  const auto planted = folder.file("planted.html");
  std::ofstream(planted) << "<!DOCTYPE html><html><body><img src='data:,'></body></html>";
  CHECK(serious_of(planted).size() >= 2);
}
