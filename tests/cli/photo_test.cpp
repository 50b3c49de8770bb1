// photo: what is kept of a photograph, where it is shown, and how it goes from file to file.

#include <fmt/format.h>
#include <sys/stat.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "support/catch.h"
#include "support/content_of.h"
#include "support/forged_logbook.h"
#include "support/html_check.h"
#include "support/occurrences.h"
#include "support/pictures.h"
#include "support/trial.h"

namespace photo_test {

namespace {

namespace fs = std::filesystem;
using namespace std::string_literals;

// A logbook with a joint out of which one fastener came sheared, and pictures beside it.
class Darkroom {
 public:
  Darkroom() {
    trial.environment["BOLTWITNESS_LOG"] = path("gb1.bolts");
    trial.done("start " + path("gb1.bolts") + " --machine GB-1");  // line 1
    trial.done(
        "joint J06 --holds 'bearing cap' --size M12x1.75 --grade 8.8 --count 8 --spec '80 N·m' "
        "--source 'manual p. 12'");                         // 2, 3
    trial.done("out J06/1-3");                              // 4
    trial.done("out J06/4 --broke sheared --note 'head'");  // 5
    write("mark.jpg", picture_file("mark.jpg"));
    write("plain.png", plain_png(40, 30, 90));
  }

  [[nodiscard]] std::string path(const std::string& name) const {
    return trial.folder().file(name);
  }
  void write(const std::string& name, const std::string& bytes) const {
    std::ofstream(path(name), std::ios::binary) << bytes;
  }
  // What is said to a file that is refused, with nothing written.
  std::string refused(const std::string& command, int code = 2) {
    const auto before = trial.done("history --json").out;
    const auto answer = trial.run(command);
    CHECK(answer.code == code);
    CHECK(answer.out.empty());
    CHECK(trial.done("history --json").out == before);
    return answer.said();
  }

  Trial trial;
};

}  // namespace

TEST_CASE("a photograph is kept of the machine, a joint, positions or a deviation",
          "[cli][photo]") {
  Darkroom dark;
  auto& trial = dark.trial;
  CHECK_THAT(trial.done("photo J06/3 " + dark.path("mark.jpg") + " --note 'washer marks'").told(),
             ContainsSubstring("line 6: photograph of J06/03: washer marks; JPEG, 24 by 16, 1 KiB, "
                               "SHA-256 "));
  trial.done("photo j06 " + dark.path("plain.png"));
  trial.done("photo machine " + dark.path("mark.jpg") + " --note 'before it all'");
  trial.done("photo break-loose:J06/4 " + dark.path("plain.png") + " --by LM");
  const auto list = trial.done("photo").told();
  CHECK_THAT(list, ContainsSubstring("4 photographs") && ContainsSubstring("line 7, J06; KB,") &&
                       ContainsSubstring("line 8, machine: before it all; KB,") &&
                       ContainsSubstring("line 9, break-loose:J06/04; LM,") &&
                       ContainsSubstring("boltwitness photo 9 --to FILE"));
  const auto json = trial.done("photo --json").json()["photographs"];
  REQUIRE(json.size() == 4);
  CHECK(json[0]["positions"] == nlohmann::json::array({3}));
  CHECK(json[0]["bytes"] == picture_file("mark.jpg").size());
  CHECK(json[2]["joint"].is_null());
  CHECK(json[3]["joint"] == "J06");
  CHECK(json[3]["positions"] == nlohmann::json::array({4}));
  // Asked for by what they are of.
  CHECK(trial.done("photo J06 --json").json()["photographs"].size() == 3);
  CHECK(trial.done("photo J06/3 --json").json()["photographs"].size() == 2);
  CHECK(trial.done("photo machine --json").json()["photographs"].size() == 1);
  CHECK(trial.done("photo BREAK-LOOSE:J06/04 --json").json()["photographs"].size() == 1);
}

TEST_CASE("show, history and search tell of a photograph", "[cli][photo]") {
  Darkroom dark;
  auto& trial = dark.trial;
  CHECK(trial.run("show J06").told().find("photographs") == std::string::npos);
  trial.done("photo J06/3 " + dark.path("mark.jpg") + " --note 'washer marks'");
  CHECK_THAT(
      trial.run("show J06").told(),
      ContainsSubstring("photographs") && ContainsSubstring("line 6, J06/03: washer marks; KB"));
  CHECK_THAT(trial.run("show J06/3").told(), ContainsSubstring("line 6, J06/03: washer marks; KB"));
  CHECK(trial.run("show J06/2").told().find("washer") == std::string::npos);
  CHECK(trial.run("show J06 --json").json()["photographs"].size() == 1);
  CHECK(trial.run("show J06/2 --json").json()["photographs"].empty());
  CHECK_THAT(trial.done("history J06/3").told(), ContainsSubstring("photograph of J06/03"));
  CHECK_THAT(trial.done("search washer").told(), ContainsSubstring("washer"));
  CHECK_THAT(trial.done("verify").told(), ContainsSubstring("1 photograph fits its own"));
}

TEST_CASE("a photograph is given out again, never over a file", "[cli][photo]") {
  Darkroom dark;
  auto& trial = dark.trial;
  trial.done("photo J06/3 " + dark.path("mark.jpg"));
  const auto out = dark.path("again.jpg");
  CHECK_THAT(trial.done("photo 6 --to " + out).out, ContainsSubstring("written: "));
  const bool is_same = content_of(out) == picture_file("mark.jpg");
  CHECK(is_same);
  CHECK_THAT(dark.refused("photo 6 --to " + out, 1), ContainsSubstring("is there already"));
  CHECK_THAT(dark.refused("photo 6 --to " + dark.path("gb1.bolts-wal"), 1),
             ContainsSubstring("belongs to"));
  CHECK_THAT(dark.refused("photo 5 --to " + dark.path("x.jpg"), 1),
             ContainsSubstring("line 5 is a removal and shows no photograph"));
  CHECK_THAT(dark.refused("photo 99 --to " + dark.path("x.jpg"), 1),
             ContainsSubstring("there is no line 99"));
  CHECK_THAT(dark.refused("photo J06 --to " + dark.path("x.jpg")),
             ContainsSubstring("no line number"));
  // Struck, it can still be looked at.
  trial.done("strike 6 --why 'another bolt'");
  trial.done("photo 6 --to " + dark.path("struck.jpg"));
  CHECK(trial.done("photo").out == "no photograph so far\n");
}

TEST_CASE("a photograph comes in at the input as well", "[cli][photo]") {
  Darkroom dark;
  dark.trial.typed = picture_file("mark.webp");
  CHECK_THAT(dark.trial.done("photo J06 -").told(), ContainsSubstring("WebP, 24 by 16"));
  dark.trial.typed = std::string((std::size_t{8} << 20U) + 1, 'x');
  CHECK_THAT(dark.refused("photo J06 -"), ContainsSubstring("more than 8 MiB"));
}

TEST_CASE("place, time and device do not come into the logbook", "[cli][photo]") {
  Darkroom dark;
  dark.write("phone.jpg",
             with_segment(picture_file("mark.jpg"), 0xE1, "Exif\0\0"s + camera_data(1)));
  const auto told = dark.trial.done("photo J06 " + dark.path("phone.jpg"));
  CHECK_THAT(told.said(),
             ContainsSubstring("bytes of the file were left out: what it said of place"));
  dark.trial.done("photo 6 --to " + dark.path("kept.jpg"));
  const bool is_bare = content_of(dark.path("kept.jpg")) == picture_file("mark.jpg");
  CHECK(is_bare);
  CHECK(content_of(dark.path("gb1.bolts")).find("Maker-7") == std::string::npos);
}

TEST_CASE("what is no photograph is refused and nothing is written", "[cli][photo]") {
  Darkroom dark;
  dark.write("page.jpg", "<!DOCTYPE html><script>alert(1)</script>");
  dark.write("drawing.png", "<svg xmlns='http://www.w3.org/2000/svg' onload='alert(1)'/>");
  dark.write("empty.jpg", "");
  dark.write("cut.jpg", picture_file("mark.jpg").substr(0, 400));
  dark.write("large.jpg", std::string(std::size_t{9} << 20U, '\xFF'));
  dark.write("\x1B[31mred.jpg", "GIF89a");
  REQUIRE(::mkfifo(dark.path("pipe.jpg").c_str(), 0600) == 0);
  CHECK_THAT(dark.refused("photo J06 " + dark.path("page.jpg")), ContainsSubstring("is none"));
  CHECK_THAT(dark.refused("photo J06 " + dark.path("drawing.png")), ContainsSubstring("is none"));
  CHECK_THAT(dark.refused("photo J06 " + dark.path("empty.jpg")), ContainsSubstring("is empty"));
  CHECK_THAT(dark.refused("photo J06 " + dark.path("cut.jpg")), ContainsSubstring("breaks off"));
  CHECK_THAT(dark.refused("photo J06 " + dark.path("large.jpg")),
             ContainsSubstring("more than 8 MiB"));
  CHECK_THAT(dark.refused("photo J06 " + dark.path("pipe.jpg")), ContainsSubstring("is no file"));
  CHECK_THAT(dark.refused("photo J06 " + dark.trial.folder().path().string()),
             ContainsSubstring("is a folder"));
  CHECK_THAT(dark.refused("photo J06 " + dark.path("none.jpg")),
             ContainsSubstring("cannot be read"));
  const auto red = dark.refused("photo J06 " + dark.path("\x1B[31mred.jpg"));
  CHECK(red.find('\x1B') == std::string::npos);
}

TEST_CASE("a polyglot keeps its picture alone", "[cli][photo]") {
  Darkroom dark;
  dark.write("both.jpg", with_segment(picture_file("mark.jpg"), 0xFE, "<script>alert(1)</script>") +
                             "PK\x03\x04<script>alert(2)</script>");
  dark.trial.done("photo J06 " + dark.path("both.jpg"));
  CHECK(content_of(dark.path("gb1.bolts")).find("<script>") == std::string::npos);
}

TEST_CASE("what a photograph is of has to be there", "[cli][photo]") {
  Darkroom dark;
  const auto file = " " + dark.path("mark.jpg");
  CHECK_THAT(dark.refused("photo J07" + file, 1), ContainsSubstring("there is no joint \"J07\""));
  CHECK_THAT(dark.refused("photo J06/9" + file), ContainsSubstring("positions 1 to 8"));
  CHECK_THAT(dark.refused("photo found-low:J06/1" + file, 1),
             ContainsSubstring("the audit names no"));
  CHECK_THAT(dark.refused("photo J06 --note x"), ContainsSubstring("name the file"));
  CHECK_THAT(dark.refused("photo 6 " + dark.path("mark.jpg") + " --to " + dark.path("x")),
             ContainsSubstring("takes its line alone"));
  dark.trial.done("photo J06/3" + file);
  CHECK_THAT(dark.refused("photo J06/3" + file, 1),
             ContainsSubstring("line 6 shows this very photograph of J06/03 already"));
}

TEST_CASE("a photograph's line is put right and keeps what is not said anew", "[cli][photo]") {
  Darkroom dark;
  auto& trial = dark.trial;
  trial.done("photo J06/3 " + dark.path("mark.jpg") + " --note 'washer marks'");
  const auto right = trial.done("photo J06/4 --replace 6 --why 'it is position 4'");
  CHECK_THAT(right.told(), ContainsSubstring("line 8: photograph of J06/04: washer marks; JPEG"));
  CHECK_THAT(right.said(), ContainsSubstring("line 6, now struck, said: photograph of J06/03"));
  trial.done("photo --replace 8 --why 'no marks' --without note");
  CHECK_THAT(trial.done("photo").told(), ContainsSubstring("line 10, J06/04; KB"));
  trial.done("photo J06/4 " + dark.path("plain.png") +
             " --replace 10 --why 'the sharp one' --note sharp");
  CHECK_THAT(trial.done("photo").told(),
             ContainsSubstring("J06/04: sharp; KB") && ContainsSubstring("PNG, 40 by 30"));
  CHECK_THAT(dark.refused("photo J06/4 --replace 4 --why x", 1), ContainsSubstring("is a removal"));
}

TEST_CASE("the report prints the photographs that count", "[cli][photo]") {
  Darkroom dark;
  auto& trial = dark.trial;
  const auto policy = "img-src"s;
  CHECK(trial.done("report").out.find(policy) == std::string::npos);
  trial.done("photo J06/3 " + dark.path("mark.jpg") + " --note 'washer <b>marks</b>'");
  trial.done("photo machine " + dark.path("plain.png"));
  trial.done("photo J06/1 " + dark.path("plain.png"));
  trial.done("strike 8 --why 'out of focus'");
  const auto page = trial.done("report").out;
  CHECK(fault_of_page(page) == "");
  CHECK(occurrences(page, "<img src=\"data:image/jpeg;base64,") == 1);
  CHECK(occurrences(page, "<img src=\"data:image/png;base64,") == 1);
  CHECK(occurrences(page, policy) == 1);
  const auto text = text_of_page(page);
  CHECK_THAT(text, ContainsSubstring("Photographs, J06") &&
                       ContainsSubstring("J06/03: washer <b>marks</b>. KB,") &&
                       ContainsSubstring("Photographs of the machine"));
  const auto bare = trial.done("report --no-photographs").out;
  CHECK(bare.find("<img") == std::string::npos);
  CHECK_THAT(text_of_page(bare), ContainsSubstring("1 photograph left out"));
  const auto file = dark.path("report.html");
  trial.done("report --out " + file);
  CHECK(fault_of_page(content_of(file)) == "");
  CHECK(occurrences(content_of(file), "<img") == 2);
  CHECK(trial.done("labels").out.find("<img") == std::string::npos);
}

TEST_CASE("photographs go into JSON and come back with their hash checked", "[cli][photo]") {
  Darkroom dark;
  auto& trial = dark.trial;
  trial.done("photo J06/3 " + dark.path("mark.jpg") + " --note 'washer marks'");
  trial.done("photo machine " + dark.path("plain.png"));
  const auto copy = dark.path("copy.json");
  trial.done("export --to " + copy);
  const auto other = " --log " + dark.path("other.bolts");
  trial.done("import " + copy + other);
  CHECK(trial.done("export" + other).out == content_of(copy));
  trial.done("photo 6 --to " + dark.path("back.jpg") + other);
  const bool is_same = content_of(dark.path("back.jpg")) == picture_file("mark.jpg");
  CHECK(is_same);
  CHECK(trial.run("verify" + other).code == 0);
  // Another byte, another picture, none at all.
  const auto text = content_of(copy);
  const auto bytes = text.find("\"bytes\":\"", text.find("\"photographs\""));
  const auto refuse = [&](std::string changed, const std::string& why) {
    dark.write("changed.json", changed);
    const auto answer =
        trial.run("import " + dark.path("changed.json") + " --log " + dark.path("bad.bolts"));
    CHECK(answer.code == 2);
    CHECK_THAT(answer.said(), ContainsSubstring(why));
    CHECK_FALSE(fs::exists(dark.path("bad.bolts")));
  };
  auto changed = text;
  changed[bytes + 40] = changed[bytes + 40] == 'A' ? 'B' : 'A';
  refuse(changed, "are not those that its SHA-256 was made of");
  changed = text;
  const auto list = text.find("\"photographs\":[");
  refuse(changed.replace(list, std::string::npos, "\"photographs\":[]}\n"), "not whole");
}

TEST_CASE("photographs lie beside their table and come back from there", "[cli][photo]") {
  Darkroom dark;
  auto& trial = dark.trial;
  trial.done("photo J06/3 " + dark.path("mark.jpg") + " --note '=washer'");
  trial.done("photo machine " + dark.path("plain.png"));
  fs::create_directory(dark.path("out"));
  const auto table = dark.path("out/photographs.csv");
  CHECK_THAT(trial.done("export photographs --to " + table).said(),
             ContainsSubstring("beside it: 2 photographs, each in a file of its own"));
  std::vector<std::string> files;
  for (const auto& entry : fs::directory_iterator(dark.path("out"))) {
    files.push_back(entry.path().filename().string());
  }
  CHECK(files.size() == 3);
  const auto sha = trial.done("photo --json").json()["photographs"][0]["sha256"].get<std::string>();
  const auto name = "photograph-" + sha.substr(0, 16) + ".jpg";
  const bool is_same = content_of(dark.path("out/" + name)) == picture_file("mark.jpg");
  CHECK(is_same);
  CHECK_THAT(content_of(table), ContainsSubstring("where,file,note,by,at\r\nJ06/03," + name + ","));
  // Into another logbook that has the joint.
  const auto other = " --log " + dark.path("other.bolts");
  trial.done("start " + dark.path("other.bolts") + " --machine GB-1");
  trial.done("export joints --to " + dark.path("joints.csv"));
  trial.done("import " + dark.path("joints.csv") + other);
  trial.done("import " + table + other);
  CHECK(trial.done("export photographs" + other).out == content_of(table));
  CHECK(trial.run("verify" + other).code == 0);
  const auto twice = trial.run("import " + table + other);
  CHECK(twice.code == 2);
  CHECK_THAT(twice.said(), ContainsSubstring("says just this already"));
  // Once more into the same folder leaves what is the same and refuses what is another.
  trial.done("export photographs --to " + dark.path("out/again.csv"));
  dark.write("out/" + name, "another");
  CHECK_THAT(dark.refused("export photographs --to " + dark.path("out/third.csv"), 1),
             ContainsSubstring("is there already and another"));
  CHECK_FALSE(fs::exists(dark.path("out/third.csv")));
}

TEST_CASE("nothing is exported where a photograph is not what was kept", "[cli][photo]") {
  Darkroom dark;
  auto& trial = dark.trial;
  trial.done("photo J06 " + dark.path("mark.jpg"));     // line 6
  trial.done("photo J06/3 " + dark.path("plain.png"));  // 7
  const auto [altered, told, of_a_line] = GENERATE(table<const char*, const char*, bool>(
      {{"DELETE FROM photograph_bytes", "is not there any more", true},
       {"UPDATE photograph_bytes SET bytes = x'00'", "is not what was kept", true},
       {"UPDATE photograph SET width_px = 7", "is not such as the line says", true},
       {"INSERT INTO photograph_bytes VALUES (hex(zeroblob(32)), x'00')",
        "a photograph that no line shows", false}}));
  CAPTURE(altered);
  alter(dark.path("gb1.bolts"), altered);
  const auto struck = GENERATE(false, true);
  if (struck && of_a_line) trial.run("strike 6 7 --why 'not there'");
  for (const auto& command : {std::string("export"), std::string("export --json-lines"),
                              "export --to " + dark.path("copy.json")}) {
    CAPTURE(command);
    const auto answer = trial.run(command);
    CHECK(answer.code == 3);
    CHECK(answer.out.empty());
    CHECK_THAT(answer.said(), ContainsSubstring(told) && ContainsSubstring("boltwitness verify"));
    if (of_a_line) CHECK_THAT(answer.said(), ContainsSubstring("the photograph of line "));
  }
  CHECK_FALSE(fs::exists(dark.path("copy.json")));
}

TEST_CASE("where one photograph is gone none is laid beside a table", "[cli][photo]") {
  Darkroom dark;
  auto& trial = dark.trial;
  trial.done("photo J06 " + dark.path("mark.jpg"));
  trial.done("photo J06/3 " + dark.path("plain.png"));
  alter(dark.path("gb1.bolts"),
        "DELETE FROM photograph_bytes WHERE sha256 = (SELECT max(sha256) FROM photograph_bytes)");
  fs::create_directory(dark.path("out"));
  CHECK(trial.run("export photographs --to " + dark.path("out/table.csv")).code == 3);
  CHECK(fs::is_empty(dark.path("out")));
  CHECK(trial.run("export findings --to " + dark.path("out/findings.csv")).code == 0);
}

TEST_CASE("a table takes no file but one that lies beside it", "[cli][photo]") {
  Darkroom dark;
  for (const std::string file : {"../mark.jpg", "/etc/passwd", ".hidden", "", "sub/mark.jpg"}) {
    dark.write("table.csv", "where,file\nJ06," + file + "\n");
    CHECK_THAT(dark.refused("import " + dark.path("table.csv")),
               ContainsSubstring("no name of a file beside the table"));
  }
  dark.write("table.csv", "where,file\nJ06,gb1.bolts\n");
  CHECK_THAT(dark.refused("import " + dark.path("table.csv")),
             ContainsSubstring("column 2 (file)"));
}

TEST_CASE("copies that are merged bring their photographs", "[cli][photo]") {
  Darkroom dark;
  auto& trial = dark.trial;
  fs::copy_file(dark.path("gb1.bolts"), dark.path("phone.bolts"));
  const auto phone = " --log " + dark.path("phone.bolts");
  trial.device = "00000000-0000-4000-8000-000000000002";
  trial.done("photo J06/1 " + dark.path("mark.jpg") + phone);
  trial.done("photo J06/2 " + dark.path("plain.png") + phone);
  trial.device = "00000000-0000-4000-8000-000000000001";
  trial.done("photo J06/3 " + dark.path("mark.jpg"));
  trial.done("merge " + dark.path("phone.bolts"));
  CHECK(trial.done("photo --json").json()["photographs"].size() == 3);
  CHECK_THAT(trial.done("verify").told(), ContainsSubstring("2 photographs fit theirs"));
}

TEST_CASE("a copy that is kept has the photographs", "[cli][photo]") {
  Darkroom dark;
  auto& trial = dark.trial;
  trial.done("photo J06/1 " + dark.path("mark.jpg"));
  fs::create_directory(dark.path("kept"));
  trial.done("backup " + dark.path("kept"));
  for (const auto& entry : fs::directory_iterator(dark.path("kept"))) {
    const auto kept = " --log " + entry.path().string();
    trial.done("photo 6 --to " + dark.path("kept.jpg") + kept);
  }
  const bool is_same = content_of(dark.path("kept.jpg")) == picture_file("mark.jpg");
  CHECK(is_same);
}

}  // namespace photo_test
