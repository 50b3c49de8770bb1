// The commands that write pages: where they go, and what they never touch.

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "support/catch.h"
#include "support/content_of.h"
#include "support/html_check.h"
#include "support/pictures.h"
#include "support/trial.h"

namespace page_command_test {

namespace {

namespace fs = std::filesystem;

class Cover {
 public:
  Cover() {
    trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("gb1.bolts");
    trial.done("start " + trial.folder().file("gb1.bolts") + " --machine GB-1");
    trial.done("joint J06 --holds cover --size M12x1.75 --grade 8.8 --count 4 --spec '80 N·m'");
  }
  [[nodiscard]] std::string file(const std::string& name) const {
    return trial.folder().file(name);
  }
  Trial trial;
};

}  // namespace

TEST_CASE("a page goes to stdout, or whole into the file named", "[cli][paper]") {
  Cover cover;
  const auto verified = cover.trial.done("verify").out;
  const auto last_hash = verified.substr(verified.find("hash ") + 5, 19);
  for (const std::string command :
       {"sheet", "sequence --html", "report", "labels", "labels --each"}) {
    INFO(command);
    const auto at = command + " --at 2026-06-02T09:00";
    const auto page = cover.trial.done(at).out;
    CHECK(fault_of_page(page) == "");
    CHECK_THAT(page, ContainsSubstring("log to line 3, hash " + last_hash));
    const auto file = cover.file("page.html");
    CHECK(cover.trial.done(at + " --out " + file).out == "written: " + file + "\n");
    CHECK(content_of(file) == page);
    CHECK(cover.trial.done(at + " --json --out " + file).json()["file"] == file);
    CHECK(content_of(file) == page);
    CHECK(cover.trial.run(at + " --json").code == 2);
  }
  // Nothing but the logbook and the page is left in the folder.
  int others = 0;
  for (const auto& entry : fs::directory_iterator(cover.trial.folder().path())) {
    const auto name = entry.path().filename().string();
    if (name != "page.html" && !name.starts_with("gb1.bolts")) ++others;
  }
  CHECK(others == 0);
}

TEST_CASE("what is no page of ours is not written over", "[cli][paper]") {
  Cover cover;
  const auto file = cover.file("notes.html");
  std::ofstream(file) << "my notes";
  const auto refused = cover.trial.run("sheet --out " + file);
  CHECK(refused.code == 1);
  CHECK_THAT(refused.err, ContainsSubstring("--replace-file"));
  CHECK(content_of(file) == "my notes");
  cover.trial.done("sheet --replace-file --out " + file);
  CHECK(fault_of_page(content_of(file)) == "");
}

TEST_CASE("a logbook is never written over by a page", "[cli][paper]") {
  Cover cover;
  const auto before = content_of(cover.file("gb1.bolts"));
  CHECK(cover.trial.run("report --replace-file --out " + cover.file("gb1.bolts")).code == 1);
  for (const auto* part : {"gb1.bolts-wal", "gb1.bolts-shm", "gb1.bolts-journal"}) {
    INFO(part);
    const auto refused = cover.trial.run("report --replace-file --out " + cover.file(part));
    CHECK(refused.code == 1);
    CHECK_THAT(refused.said(), ContainsSubstring("belongs to"));
  }
  CHECK(content_of(cover.file("gb1.bolts")) == before);
}

TEST_CASE("a page that cannot be written leaves nothing", "[cli][paper]") {
  Cover cover;
  const auto lost = cover.trial.run("report --out " + cover.file("missing/report.html"));
  CHECK(lost.code == 2);
  CHECK_THAT(lost.said(), ContainsSubstring("there is no folder"));
  CHECK(cover.trial.run("report --out " + cover.trial.folder().path().string()).code == 1);
  CHECK(cover.trial.run("report --out /dev/null").code == 1);
}

TEST_CASE("whatever writes a file says which, as JSON where that is asked for", "[cli]") {
  Cover cover;
  std::ofstream(cover.file("mark.jpg")) << picture_file("mark.jpg");
  cover.trial.done("photo J06 " + cover.file("mark.jpg") + " --note seat");
  fs::create_directory(cover.file("man"));
  const std::pair<std::string, std::string> writers[] = {
      {"report --out", "r.html"},      {"sheet --out", "s.html"},
      {"labels --out", "l.html"},      {"sequence --html --out", "q.html"},
      {"help --html --out", "h.html"}, {"help --man", "man"},
      {"export --to", "e.json"},       {"export --json-lines --to", "e.jsonl"},
      {"export joints --to", "j.csv"}, {"export photographs --to", "p.csv"},
      {"photo 4 --to", "p.jpg"}};
  for (const auto& [command, name] : writers) {
    INFO(command);
    const auto file = cover.file(name);
    CHECK(cover.trial.done(command + ' ' + file).out == "written: " + file + '\n');
    CHECK(fs::exists(file));
    if (fs::is_regular_file(file)) fs::remove(file);
    const auto told = cover.trial.done(command + ' ' + file + " --json").json();
    CHECK(told ==
          nlohmann::json{{"format", "boltwitness file written"}, {"version", 1}, {"file", file}});
    CHECK(fs::exists(file));
  }
  // What goes to stdout is the answer itself.
  CHECK(cover.trial.run("export joints --json").code == 2);
  CHECK(cover.trial.run("export joints --to - --json").code == 2);
  CHECK(cover.trial.done("export --to - --json").json()["format"] == "boltwitness logbook");
}

TEST_CASE("a folder that is not there is told alike by all that write into one", "[cli]") {
  Cover cover;
  std::ofstream(cover.file("mark.jpg")) << picture_file("mark.jpg");
  cover.trial.done("photo J06 " + cover.file("mark.jpg") + " --note seat");
  const auto missing = cover.file("missing");
  const auto before = content_of(cover.file("gb1.bolts"));
  for (const auto& command :
       {"start " + missing + "/x.bolts --machine GB-2", "backup " + missing,
        "report --out " + missing + "/x.html", "sheet --out " + missing + "/x.html",
        "labels --out " + missing + "/x.html", "sequence --html --out " + missing + "/x.html",
        "help --html --out " + missing + "/x.html", "help --man " + missing,
        "export --to " + missing + "/x.json", "export joints --to " + missing + "/x.csv",
        "export photographs --to " + missing + "/x.csv", "photo 4 --to " + missing + "/x.jpg",
        "report --out " + cover.file("gb1.bolts") + "/x.html"}) {
    INFO(command);
    const auto refused = cover.trial.run(command);
    CHECK(refused.code == 2);
    CHECK(refused.out.empty());
    CHECK_THAT(refused.said(), ContainsSubstring("there is no folder " + missing +
                                                 "; make it first, or plug in what it is on") ||
                                   ContainsSubstring("there is no folder " +
                                                     cover.file("gb1.bolts") + "; make it first"));
  }
  CHECK_FALSE(fs::exists(missing));
  CHECK(content_of(cover.file("gb1.bolts")) == before);
}

TEST_CASE("the file behind a link is the one that is replaced", "[cli][paper]") {
  Cover cover;
  fs::create_directory(cover.file("prints"));
  cover.trial.done("sheet --out " + cover.file("prints/sheet.html"));
  fs::create_symlink(cover.file("prints/sheet.html"), cover.file("latest.html"));
  cover.trial.done("report --out " + cover.file("latest.html"));
  CHECK(fs::is_symlink(cover.file("latest.html")));
  CHECK_THAT(content_of(cover.file("prints/sheet.html")), ContainsSubstring("job report"));
}

TEST_CASE("page options are checked", "[cli][paper]") {
  Cover cover;
  CHECK(cover.trial.run("sheet --page A5").code == 2);
  CHECK(cover.trial.run("sequence --page a4").code == 2);
  CHECK(cover.trial.run("sequence --out x.html").code == 2);
  CHECK(cover.trial.run("sheet J07").code == 1);
  CHECK_THAT(cover.trial.done("sheet --page LETTER").out, ContainsSubstring("size: letter;"));
}

TEST_CASE("a logbook without a joint has nothing to print a form or labels for", "[cli][paper]") {
  Trial trial;
  trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("a.bolts");
  trial.done("start " + trial.folder().file("a.bolts") + " --machine GB-1");
  CHECK(trial.run("sheet").code == 1);
  CHECK(trial.run("labels").code == 1);
  CHECK(fault_of_page(trial.done("report").out) == "");
}

TEST_CASE("labels follow the bags", "[cli][paper]") {
  Cover cover;
  cover.trial.done("out J06/1,3 --bag A1");
  const auto text = text_of_page(cover.trial.done("labels").out);
  CHECK_THAT(text, ContainsSubstring("QR code of J06/1,3") && ContainsSubstring("bag A1"));
  CHECK_THAT(text, ContainsSubstring("QR code of J06/2,4") && ContainsSubstring("bag ____"));
  CHECK_THAT(text, ContainsSubstring("2 of 4"));
}

TEST_CASE("the report shows struck lines struck", "[cli][paper]") {
  Cover cover;
  cover.trial.done("out J06/1 --bag B7");
  cover.trial.done("strike 4 --why 'wrong bag'");
  const auto page = cover.trial.done("report").out;
  CHECK_THAT(page, ContainsSubstring("<del>J06/01 out"));
  CHECK_THAT(page, ContainsSubstring("STRUCK by KB in line 5") && ContainsSubstring("wrong bag"));
}

TEST_CASE("the report has what goes back beside the bolts and what is open", "[cli][paper]") {
  Cover cover;
  cover.trial.done("out J06/1 --broke sheared");
  cover.trial.done("hold-point HV --what 'rails dead' --before J06");
  cover.trial.done("hold-point HV --pass --note '0 V' --by LM");
  cover.trial.done("fluid 'gear oil' --drained '1.2 L'");
  cover.trial.done("fluid 'gear oil' --filled '1 L'");
  cover.trial.done("item CL1 --what 'hose clips' --count 6 --before J06");
  cover.trial.done("item CL1 --back 4");
  const auto text = text_of_page(cover.trial.done("report").out);
  CHECK_THAT(text, ContainsSubstring("rails dead") && ContainsSubstring("passed by LM, ") &&
                       ContainsSubstring("still to go back at least 200 mL"));
  CHECK_THAT(text, ContainsSubstring("CL1: 2 of 6 hose clips not back"));
  CHECK_THAT(text, ContainsSubstring("J06/01: sheared") && ContainsSubstring("to buy"));
  CHECK_THAT(text, ContainsSubstring("J06/1-4: pass 1 open"));
}

TEST_CASE("what is open is no page", "[cli][paper]") {
  Cover cover;
  CHECK(cover.trial.run("sequence --status --html").code == 2);
  CHECK(cover.trial.run("sequence --status --out " + cover.file("open.html")).code == 2);
}

TEST_CASE("a decision stands in the report, and what is settled holds nothing up", "[cli][paper]") {
  Cover cover;
  cover.trial.done("out J06/1 --broke empty");
  cover.trial.done("out J06/2-4");
  const auto text_of = [&](const std::string& command) {
    return text_of_page(cover.trial.done(command).out);
  };
  CHECK_THAT(text_of("report"), ContainsSubstring("OPEN") && ContainsSubstring("1 hold open") &&
                                    ContainsSubstring("double ring: a hold is open"));
  CHECK_THAT(text_of("sequence --html"), ContainsSubstring("Open hold at 1: found empty"));

  cover.trial.done("settle found-empty:J06/01 --as renew --why 'never had one' --with LM");
  const auto report = text_of("report");
  CHECK_THAT(report, ContainsSubstring("renew by KB with LM, ") &&
                         ContainsSubstring(": never had one") &&
                         ContainsSubstring("Not in order: 1 decided and not done."));
  CHECK(report.find("double ring") == std::string::npos);
  CHECK(text_of("sequence --html").find("Open hold") == std::string::npos);
}

}  // namespace page_command_test
