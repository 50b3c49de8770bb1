#include "phone/desk.h"

#include <fmt/format.h>
#include <sys/stat.h>

#include "phone/page_file.h"
#include "phone/served_job.h"
#include "support/content_of.h"

namespace desk_test {

namespace {

nlohmann::json out(int position) {
  return {{"kind", "out"}, {"joint", "J06"}, {"position", position}, {"broke", "normal"}};
}

nlohmann::json pulled(int position, const char* setting, const char* mark) {
  return {{"kind", "pull"},  {"joint", "J06"},     {"position", position},
          {"wrench", "TW2"}, {"setting", setting}, {"mark", mark}};
}

}  // namespace

TEST_CASE("nothing of the logbook is answered to a phone that is not paired", "[phone]") {
  ServedJob job;
  phone::Desk desk(job.place());
  TriedPhone paired(desk, "RM");
  for (const auto* path :
       {"/api/line", "/api/home", "/api/teardown", "/api/show", "/api/nothing"}) {
    auto asked = paired.asked("GET", path);
    asked.cookies = "boltwitness-0=" + std::string(64, 'a') + "; other=1";
    CHECK(desk.answer(asked).status == 401);
    asked.cookies.clear();
    CHECK(desk.answer(asked).status == 401);
  }
  CHECK(paired.get("/api/home").status == 200);
}

TEST_CASE("a code pairs one phone, and who uses it stands in its lines", "[phone]") {
  ServedJob job;
  phone::Desk desk(job.place());
  const auto code = desk.code();
  TriedPhone first(desk, "RM");
  CHECK(desk.code() != code);
  CHECK(first.post("/api/pair", {{"code", code}, {"who", "XY"}}).status == 409);
  CHECK(first.tap(out(1)).status == 200);
  CHECK(job.trial.done("history").told().find("RM: J06/01 out, broke normal") != std::string::npos);
  CHECK(desk.take_news() == std::vector<std::string>{"RM is paired"});
}

TEST_CASE("only the hash of a token is kept, for nobody else to read", "[phone]") {
  ServedJob job;
  phone::Desk desk(job.place());
  TriedPhone phone(desk, "RM");
  const auto file = job.place().folder / "phones.json";
  struct stat status {};
  REQUIRE(::stat(file.c_str(), &status) == 0);
  CHECK((status.st_mode & 0777U) == 0600U);
  const auto token = phone.cookie().substr(phone.cookie().find('=') + 1);
  CHECK(token.size() == 64);
  CHECK(content_of(file).find(token) == std::string::npos);
  CHECK(content_of(file).find("RM") != std::string::npos);
}

TEST_CASE("a phone that is forgotten is out at once", "[phone]") {
  ServedJob job;
  job.trial.environment["XDG_DATA_HOME"] = job.trial.folder().file("data");
  auto place = job.place();
  place.folder = std::filesystem::path(job.trial.folder().file("data")) / "boltwitness";
  phone::Desk desk(place);
  TriedPhone phone(desk, "RM");
  CHECK(phone.get("/api/line").status == 200);
  CHECK(job.trial.done("serve --phones").told().find("RM, paired") == 0);
  CHECK(job.trial.run("serve --forget XY").code == 1);
  CHECK(job.trial.done("serve --forget RM").told() ==
        "1 phone of RM forgotten; it has to be paired anew ");
  CHECK(phone.get("/api/line").status == 401);
}

TEST_CASE("a phone is paired with one logbook", "[phone]") {
  ServedJob job;
  phone::Desk desk(job.place());
  TriedPhone phone(desk, "RM");
  auto place = job.place();
  place.logbook = job.trial.folder().file("other.bolts");
  job.trial.done("start " + place.logbook + " --machine GB-2");
  phone::Desk other(place);
  CHECK(other.answer(phone.asked("GET", "/api/line")).status == 401);
}

TEST_CASE("a page from elsewhere is answered nothing", "[phone]") {
  ServedJob job;
  phone::Desk desk(job.place());
  TriedPhone phone(desk, "RM");
  auto asked = phone.asked("POST", "/api/deed");
  asked.body = R"({"id":"9abc-0123456789ab","kind":"out","joint":"J06","position":1})";
  asked.origin = "http://evil.example";
  CHECK(desk.answer(asked).status == 403);
  asked.origin.clear();
  CHECK(desk.answer(asked).status == 403);
  asked.origin = "http://127.0.0.1:8417";
  asked.site = "cross-site";
  CHECK(desk.answer(asked).status == 403);
  asked.site = "same-origin";
  asked.content_type = "text/plain";
  CHECK(desk.answer(asked).status == 415);
  asked.content_type = "application/json";
  asked.host = "evil.example:8417";
  CHECK(desk.answer(asked).status == 421);
  CHECK(job.trial.done("history").told().find("J06/01 out") == std::string::npos);
}

TEST_CASE("an address of this machine is told from a name that somebody pointed at it", "[phone]") {
  for (const auto* own : {"127.0.0.1:8417", "192.168.1.5", "[::1]:8417", "localhost:8417",
                          "workshop", "workshop.local:8417"}) {
    INFO(own);
    CHECK(phone::is_own_host(own));
  }
  for (const auto* other :
       {"", ":80", "evil.example", "127.0.0.1.evil.example", "a b", "x_y.local"}) {
    INFO(other);
    CHECK_FALSE(phone::is_own_host(other));
  }
}

TEST_CASE("codes cannot be guessed at without end", "[phone]") {
  ServedJob job;
  phone::Desk desk(job.place());
  TriedPhone phone(desk, "RM");
  int refused_for_number = 0;
  for (int i = 0; i < 20; ++i) {
    const auto answer = phone.post("/api/pair", {{"code", "AAAA-AAAA"}, {"who", "XY"}});
    if (answer.status == 429) ++refused_for_number;
  }
  CHECK(refused_for_number >= 14);
}

TEST_CASE("the pages hold no other address, no script in their markup, and are small", "[phone]") {
  std::size_t bytes = 0;
  for (const auto& file : phone::page_files()) {
    INFO(file.name);
    bytes += file.content.size();
    const bool is_drawing = file.name.ends_with(".svg");  // names its namespace
    CHECK((is_drawing || file.content.find("http://") == file.content.npos));
    CHECK(file.content.find("https://") == file.content.npos);
    CHECK(file.content.find("innerHTML") == file.content.npos);
    CHECK(file.content.find(" onclick=") == file.content.npos);
  }
  CHECK(bytes > 10'000);
  CHECK(bytes < 100'000);
  ServedJob job;
  phone::Desk desk(job.place());
  TriedPhone phone(desk, "RM");
  const auto page = phone.get("/");
  CHECK(page.status == 200);
  CHECK(page.type == "text/html; charset=utf-8");
  const auto policy = std::ranges::find(page.headers, "Content-Security-Policy",
                                        [](const auto& header) { return header.first; });
  REQUIRE(policy != page.headers.end());
  CHECK(policy->second.find("unsafe") == std::string::npos);
  for (const auto* none :
       {"/page", "/..", "/../job.bolts", "/job.bolts", "/page/index.html", "//"}) {
    CHECK(phone.get(none).status == 404);
  }
}

TEST_CASE("the same deed that comes twice is taken once and answered as before", "[phone]") {
  ServedJob job;
  phone::Desk desk(job.place());
  TriedPhone phone(desk, "RM");
  auto deed = out(1);
  deed["id"] = "9abc-0123456789ab";
  deed["at"] = 0;
  const auto first = phone.post("/api/deed", deed);
  REQUIRE(first.status == 200);
  CHECK_FALSE(body_of(first)["again"].get<bool>());
  const auto id = body_of(first)["lines"][0]["id"].get<std::string>();
  CHECK(id.ends_with("9abc-0123456789ab"));
  const auto again = phone.post("/api/deed", deed);
  REQUIRE(again.status == 200);
  CHECK(body_of(again)["again"].get<bool>());
  CHECK(body_of(again)["lines"][0]["id"] == id);
  CHECK(body_of(again)["lines"][0]["line"] == body_of(first)["lines"][0]["line"]);

  deed["position"] = 2;
  const auto other = phone.post("/api/deed", deed);
  CHECK(other.status == 409);
  CHECK(refused(other).find("something else was recorded under this id before") == 0);
  CHECK(job.trial.done("verify").code == 0);
}

TEST_CASE("every kind of deed is taken once", "[phone]") {
  ServedJob job;
  phone::Desk desk(job.place());
  TriedPhone phone(desk, "RM");
  int number = 0;
  const auto twice = [&](nlohmann::json deed) {
    job.trial.now += std::chrono::minutes(1);
    INFO(deed.dump());
    deed["id"] = fmt::format("8abc-{:012x}", ++number);
    const auto first = phone.post("/api/deed", deed);
    INFO(first.body);
    REQUIRE(first.status == 200);
    const auto again = phone.post("/api/deed", deed);
    REQUIRE(again.status == 200);
    CHECK(body_of(again)["again"].get<bool>());
    CHECK(body_of(again)["lines"].size() >= 1);
    CHECK(body_of(again)["last_line"] == body_of(first)["last_line"]);
    return deed["id"].get<std::string>();
  };
  for (int position = 1; position <= 3; ++position) {
    twice(out(position));
    twice({{"kind", "keep"}, {"joint", "J06"}, {"position", position}, {"bag", "A1"}});
    twice(pulled(position, "70", "short"));
    twice(pulled(position, "80", "on"));
  }
  const auto undone = twice({{"kind", "tighten"}, {"joint", "J06"}, {"position", 1}, {"pass", 1}});
  twice({{"kind", "undo"}, {"of", undone}});
  for (int pass = 1; pass <= 2; ++pass) {
    for (int position = 1; position <= 3; ++position) {
      twice({{"kind", "tighten"}, {"joint", "J06"}, {"position", position}, {"pass", pass}});
    }
  }
  twice({{"kind", "stripe"}, {"joint", "J06"}, {"positions", "1-3"}, {"wiped", true}});
  twice({{"kind", "look"}, {"joint", "J06"}, {"positions", "1-3"}, {"state", "aligned"}});
  CHECK(job.trial.done("verify").code == 0);
}

TEST_CASE("a refusal says what the command line says", "[phone]") {
  ServedJob job;
  phone::Desk desk(job.place());
  TriedPhone phone(desk, "RM");
  const auto same = [&](const nlohmann::json& deed, const std::string& command) {
    const auto answer = phone.tap(deed);
    const auto outcome = job.trial.run(command);
    INFO(command);
    INFO(answer.body);
    INFO(outcome.err);
    CHECK(answer.status == (outcome.code == 1 ? 409 : 400));
    CHECK(outcome.said() == "boltwitness: " + refused(answer) + " ");
  };
  CHECK(phone.tap(out(1)).status == 200);
  same(out(9), "out J06/9");
  auto nowhere = out(1);
  nowhere["joint"] = "J07";
  same(nowhere, "out J07/1");
  same({{"kind", "stripe"}, {"joint", "J06"}, {"positions", "1"}, {"wiped", true}},
       "stripe J06/1 --wiped");
  same({{"kind", "look"}, {"joint", "J06"}, {"positions", "1"}, {"state", "aligned"}},
       "recheck J06/1 aligned");
  same({{"kind", "check"}, {"joint", "J06"}, {"positions", "1"}}, "tighten J06/1 --check --by RM");
  same({{"kind", "tighten"},
        {"joint", "J06"},
        {"position", 1},
        {"pass", 1},
        {"wrench", "TW2"},
        {"setting", "500"}},
       "tighten J06/1 --pass 1 --wrench TW2 --set 500");
  job.trial.done("hold-point H1 --what 'isolated and proved dead' --before J06");
  job.trial.now += std::chrono::seconds(1);  // it was put up before
  same(out(2), "out J06/2");
}

TEST_CASE("a refusal that asks for an option says what to tap instead", "[phone]") {
  ServedJob job;
  job.trial.done("out J06/1-3");
  job.trial.done("wrench TW9 --range '5..30 N·m' --graduation '1 N·m'");
  job.trial.done(
      "joint J07 --holds cover --size M20x2.5 --grade 8.8 --count 1 --layout line --spec '400 N·m' "
      "--source 'p. 9' --condition oiled");
  job.trial.done("out J07/1");
  phone::Desk desk(job.place());
  TriedPhone phone(desk, "RM");
  for (int pass = 1; pass <= 2; ++pass) {
    job.trial.now += std::chrono::minutes(1);
    REQUIRE(phone.tap({{"kind", "tighten"}, {"joint", "J06"}, {"position", 1}, {"pass", pass}})
                .status == 200);
  }
  for (const auto& [deed, expected] : std::vector<std::pair<nlohmann::json, std::string>>{
           {out(2), "leave this one out"},
           {{{"kind", "check"}, {"joint", "J06"}, {"positions", "1"}}, "on a phone of their own"},
           {{{"kind", "tighten"}, {"joint", "J07"}, {"position", 1}, {"pass", 1}},
            "under Other values"},
           {{{"kind", "tighten"},
             {"joint", "J06"},
             {"position", 2},
             {"pass", 1},
             {"wrench", "TW9"}},
            "under Other values"}}) {
    const auto answer = phone.tap(deed);
    INFO(deed.dump());
    INFO(answer.body);
    CHECK(answer.status >= 400);
    CHECK(refused(answer).find(expected) != std::string::npos);
    CHECK(refused(answer).find("--") == std::string::npos);
  }
}

TEST_CASE("a pull that is dated before the test it belongs to does not jam it", "[phone]") {
  ServedJob job;
  job.trial.done("out J06/1-3");
  phone::Desk desk(job.place());
  TriedPhone one(desk, "RM");
  TriedPhone two(desk, "TS");
  const auto tapped = job.trial.now;
  job.trial.now += std::chrono::minutes(5);
  REQUIRE(one.tap(pulled(1, "50", "short"), job.trial.now).status == 200);
  job.trial.now += std::chrono::minutes(5);
  // It was tapped without a link before the other had begun, and would stand before its pulls.
  for (const auto* mark : {"short", "on"}) {
    const auto late = two.tap(pulled(1, "60", mark), tapped);
    CHECK(late.status == 409);
    CHECK(refused(late).starts_with("J06/01 was pulled"));
  }
  CHECK(two.tap({{"kind", "enter"}, {"joint", "J06"}, {"position", 1}}, tapped).status == 409);
  CHECK(two.tap(pulled(1, "60", "short"), job.trial.now).status == 200);
  job.trial.now += std::chrono::minutes(1);
  REQUIRE(one.tap(pulled(1, "70", "on"), job.trial.now).status == 200);
  const auto row = body_of(one.get("/api/teardown", {{"joint", "J06"}}))["positions"][0];
  CHECK(row["state"] == "done");
  // A pull alone would stand before the end of the test, and count for nothing.
  const auto after = two.tap(pulled(1, "65", "short"), tapped + std::chrono::minutes(6));
  CHECK(after.status == 409);
  CHECK(refused(after).starts_with("the test of J06/01 ended"));
}

TEST_CASE("a pull is of the bolt as it came out last", "[phone]") {
  ServedJob job;
  phone::Desk desk(job.place());
  TriedPhone phone(desk, "RM");
  const auto pull = [&](const char* setting, std::chrono::minutes after) {
    return phone.tap(pulled(1, setting, "short"), job.trial.now + after);
  };
  const auto begun = job.trial.now;
  job.trial.now += std::chrono::minutes(10);
  job.trial.done("out J06/1");
  // Before it came out.
  const auto early = pull("50", std::chrono::minutes(-5));
  CHECK(early.status == 409);
  CHECK(refused(early).starts_with("J06/01 came out"));
  job.trial.now += std::chrono::minutes(10);
  REQUIRE(pull("50", {}).status == 200);
  job.trial.now += std::chrono::minutes(10);
  job.trial.done("tighten J06/1 --pass 1");
  // Tapped before it was tightened again, and sent after: its test has gone with the old tension.
  const auto late = pull("60", std::chrono::minutes(-5));
  CHECK(late.status == 409);
  CHECK(refused(late).starts_with("J06/01 was tightened"));
  // The second time that it comes out.
  job.trial.now += std::chrono::minutes(10);
  job.trial.done("out J06/1");
  for (const auto when :
       {begun - job.trial.now, begun - job.trial.now + std::chrono::minutes(20)}) {
    CHECK(pull("60", std::chrono::floor<std::chrono::minutes>(when)).status == 409);
  }
  REQUIRE(pull("60", {}).status == 200);
  const auto row = body_of(phone.get("/api/teardown", {{"joint", "J06"}}))["positions"][0];
  CHECK(row["readings"].size() == 1);
}

TEST_CASE("a stripe drawn twice is told who drew the first", "[phone]") {
  ServedJob job;
  job.trial.done("out J06/1-3");
  for (int pass = 1; pass <= 2; ++pass) {
    job.trial.now += std::chrono::minutes(1);
    job.trial.done(fmt::format("tighten J06/1-3 --pass {}", pass));
  }
  phone::Desk desk(job.place());
  TriedPhone one(desk, "RM");
  TriedPhone two(desk, "TS");
  const nlohmann::json stripe = {
      {"kind", "stripe"}, {"joint", "J06"}, {"positions", "1-3"}, {"wiped", true}};
  job.trial.now += std::chrono::minutes(1);
  const auto first = one.tap(stripe);
  REQUIRE(first.status == 200);
  CHECK(body_of(first)["remarks"].empty());
  job.trial.now += std::chrono::minutes(1);
  const auto second = two.tap(stripe);
  REQUIRE(second.status == 200);
  CHECK(second.body.find("a final stripe stood at J06/1-3 already, by RM (line ") !=
        std::string::npos);
  CHECK(job.trial.done("stripe J06/1-3 --wiped").said().find("already, by TS (line ") !=
        std::string::npos);
}

TEST_CASE("what a test came to is told in whole sentences", "[phone]") {
  ServedJob job;
  job.trial.done("out J06/1-3");
  phone::Desk desk(job.place());
  TriedPhone phone(desk, "RM");
  REQUIRE(phone.tap(pulled(1, "40", "short")).status == 200);
  job.trial.now += std::chrono::minutes(1);
  const auto answer = phone.tap(pulled(1, "50", "on"));
  REQUIRE(answer.status == 200);
  const auto told = body_of(answer)["told"];
  REQUIRE(told.size() > 1);
  // A sentence that was broken for the terminal would go on in a line of its own.
  INFO(told.dump());
  for (const auto& line : told) {
    const auto text = line.get<std::string>();
    CHECK(text.find('\n') == std::string::npos);
    CHECK_FALSE(text.starts_with(' '));
  }
}

TEST_CASE("what is sent empty where something was to be said is refused", "[phone]") {
  ServedJob job;
  phone::Desk desk(job.place());
  TriedPhone phone(desk, "RM");
  job.trial.done("out J06/1-3");
  const auto before = job.trial.done("history --json").json()["lines"].size();
  const nlohmann::json step = {{"kind", "tighten"}, {"joint", "J06"}, {"position", 1}, {"pass", 1}};
  for (const auto* said : {"skip", "setting", "turned"}) {
    for (const auto* nothing : {"", "   "}) {
      auto deed = step;
      deed[said] = nothing;
      INFO(said);
      const auto answer = phone.tap(deed);
      CHECK(answer.status == 400);
      CHECK(refused(answer).starts_with("say "));
    }
  }
  auto no_pass = step;
  no_pass["pass"] = 0;
  CHECK(phone.tap(no_pass).status == 400);
  CHECK(job.trial.done("history --json").json()["lines"].size() == before);
}

TEST_CASE("a phone does not write into another logbook that lies there now", "[phone]") {
  ServedJob job;
  auto place = job.place();
  phone::Desk desk(place);
  TriedPhone phone(desk, "RM");
  CHECK_FALSE(desk.what_is_lost());
  std::filesystem::remove(place.logbook);
  job.trial.done("start " + place.logbook + " --machine GB-2");
  CHECK(phone.get("/api/line").status == 503);
  const auto answer = phone.tap(out(1));
  CHECK(answer.status == 503);
  CHECK(refused(answer).starts_with("another logbook lies at"));
  CHECK(desk.what_is_lost() == refused(answer));
  CHECK(job.trial.done("history --json").json()["lines"].size() == 1);
}

TEST_CASE("a phone does not write into an older copy that lies there now", "[phone]") {
  ServedJob job;
  auto place = job.place();
  const auto older = job.trial.folder().file("older.bolts");
  std::filesystem::copy_file(place.logbook, older);
  phone::Desk desk(place);
  TriedPhone phone(desk, "RM");
  CHECK(phone.tap(out(1)).status == 200);
  std::filesystem::rename(older, place.logbook);
  const auto answer = phone.tap(out(2));
  CHECK(answer.status == 503);
  CHECK(refused(answer).starts_with("a copy of the logbook without line"));
  CHECK(desk.what_is_lost() == refused(answer));
  CHECK(job.trial.done("history --json").json()["lines"].size() == 4);
}

TEST_CASE("a code that counts no more after many wrong ones is told anew", "[phone]") {
  ServedJob job;
  phone::Desk desk(job.place());
  const auto code = desk.code();
  for (int from = 0; from < 10; ++from) {
    phone::Asked asked;
    asked.method = "POST";
    asked.path = "/api/pair";
    asked.host = "127.0.0.1:8417";
    asked.origin = "http://127.0.0.1:8417";
    asked.content_type = "application/json";
    asked.from = "127.0.0." + std::to_string(from + 1);
    asked.body = R"({"code":"2222-2222","who":"XY"})";
    CHECK(desk.answer(asked).status == 409);
  }
  CHECK(desk.code() != code);
  CHECK(desk.take_news().size() == 1);
}

TEST_CASE("what was tapped is taken back as it was", "[phone]") {
  ServedJob job;
  phone::Desk desk(job.place());
  TriedPhone phone(desk, "RM");
  auto first = out(1);
  first["bag"] = "A1";
  REQUIRE(phone.tap(first).status == 200);
  REQUIRE(phone.tap({{"kind", "keep"}, {"joint", "J06"}, {"position", 1}, {"bag", "B2"}}).status ==
          200);
  const auto kept = phone.last_id;
  const auto bag = [&] {
    return body_of(phone.get("/api/teardown", {{"joint", "J06"}}))["positions"][0]["bag"];
  };
  CHECK(bag() == "B2");
  REQUIRE(phone.tap({{"kind", "undo"}, {"of", kept}}).status == 200);
  CHECK(bag() == "A1");
  CHECK(phone.tap({{"kind", "undo"}, {"of", "9abc-0123456789ab"}}).status == 409);
  CHECK(job.trial.done("verify").code == 0);
}

TEST_CASE("what waited for the link was done when it was tapped", "[phone]") {
  ServedJob job;
  phone::Desk desk(job.place());
  TriedPhone phone(desk, "RM");
  const auto moment = job.trial.now;
  auto deed = out(1);
  deed["id"] = "9abc-0123456789ab";
  deed["at"] = (moment - std::chrono::minutes(20)).time_since_epoch().count();
  REQUIRE(phone.post("/api/deed", deed).status == 200);
  deed = out(2);
  deed["id"] = "9abc-0123456789ac";
  deed["at"] = (moment + std::chrono::hours(3)).time_since_epoch().count();
  REQUIRE(phone.post("/api/deed", deed).status == 200);
  const auto history = job.trial.done("history --json").json()["lines"];
  const auto done_at = [&](const std::string& says) {
    for (const auto& line : history) {
      if (line["says"].get<std::string>().find(says) == 0)
        return line["done_at"].get<std::string>();
    }
    return std::string();
  };
  CHECK(record::read_utc(done_at("J06/01 out")) == moment - std::chrono::minutes(20));
  CHECK(record::read_utc(done_at("J06/02 out")) == moment);
}

TEST_CASE("what was tapped first stays first, however long it was on its way", "[phone]") {
  ServedJob job;
  phone::Desk desk(job.place());
  TriedPhone phone(desk, "RM");
  const auto moment = job.trial.now;
  auto deed = out(1);
  deed["id"] = "9abc-0123456789ab";
  deed["at"] = (moment - std::chrono::milliseconds(1'500)).time_since_epoch().count();
  REQUIRE(phone.post("/api/deed", deed).status == 200);
  deed = out(2);
  deed["id"] = "9abc-0123456789ac";
  deed["at"] = (moment - std::chrono::milliseconds(1'400)).time_since_epoch().count();
  job.trial.now += std::chrono::seconds(30);
  REQUIRE(phone.post("/api/deed", deed).status == 200);
  std::vector<std::string> moments;
  const auto history = job.trial.done("history --json").json();
  for (const auto& line : history["lines"]) {
    if (line["by"] == "RM") moments.push_back(line["done_at"].get<std::string>());
  }
  REQUIRE(moments.size() == 2);
  CHECK(record::read_utc(moments[0]) < record::read_utc(moments[1]));
}

TEST_CASE("two phones and a terminal see each other's lines, and who does it again is told",
          "[phone]") {
  ServedJob job;
  phone::Desk desk(job.place());
  TriedPhone one(desk, "RM");
  TriedPhone two(desk, "TS");
  const auto line = [](TriedPhone& phone) {
    return body_of(phone.get("/api/line"))["last_line"].get<int>();
  };
  const int before = line(two);
  job.trial.done("out J06/1-3");
  CHECK(line(one) == before + 1);
  const nlohmann::json step = {{"kind", "tighten"}, {"joint", "J06"}, {"position", 1}, {"pass", 1}};
  CHECK(one.tap(step).status == 200);
  CHECK(line(two) == before + 2);
  const auto again = two.tap(step);
  REQUIRE(again.status == 200);
  INFO(again.body);
  CHECK(again.body.find("was done at J06/01 already, by RM (line ") != std::string::npos);
  CHECK(line(one) == before + 3);
  const auto named = job.trial.run("audit --all").told();
  CHECK(named.find("pass 1 was done at 1 by RM (line ") != std::string::npos);
  CHECK(named.find("and once more by TS (line ") != std::string::npos);
  CHECK(two.tap(out(1)).status == 200);
  CHECK(one.tap(out(1)).status == 409);
}

TEST_CASE("what the views show is what the terminal leads to", "[phone]") {
  ServedJob job;
  phone::Desk desk(job.place());
  TriedPhone phone(desk, "RM");
  auto view = body_of(phone.get("/api/teardown", {{"joint", "J06"}}));
  CHECK(view["positions"][0]["state"] == "in");
  const auto next = job.trial.done("found J06/1 --wrench TW2 --next --json").json();
  CHECK(view["positions"][0]["ladder"][0]["setting"] == next["next_setting"]);
  CHECK(view["positions"][0]["ladder"][0]["why"] == next["reason"]);
  // The second rung is what is proposed once the first was short.
  REQUIRE(phone.tap(out(1)).status == 200);
  const auto rung = fmt::format("{}", next["next_setting"].get<double>());
  REQUIRE(phone.tap(pulled(1, rung.c_str(), "short")).status == 200);
  const auto second = view["positions"][0]["ladder"][1];
  view = body_of(phone.get("/api/teardown", {{"joint", "J06"}}));
  CHECK(view["positions"][0]["ladder"][0] == second);
  CHECK(view["positions"][0]["readings"].size() == 1);

  job.trial.done("out J06/2,3");
  const auto step = job.trial.done("tighten --json").json()["next"];
  const auto steps = body_of(phone.get("/api/tighten", {{"joint", "J06"}}))["steps"];
  CHECK(steps[0]["position"] == step["position"]);
  CHECK(steps[0]["setting"] == step["setting"]);
  CHECK(steps.size() == 6);
  const auto home = body_of(phone.get("/api/home"));
  CHECK(home["status"] == nlohmann::json::parse(job.trial.run("status --json").out));
  const auto shown = body_of(phone.get("/api/show", {{"at", "J06/1"}}));
  CHECK(shown["position"]["row"] == job.trial.done("show J06/1 --json").json()["row"]);
  CHECK(phone.get("/api/show", {{"at", "J99"}}).status == 409);
  CHECK(phone.get("/api/show", {{"at", "<script>"}}).status == 400);
}

TEST_CASE("a label's code opens its position where phones are served", "[phone]") {
  ServedJob job;
  CHECK(job.trial.done("labels --link http://192.168.1.5:8417")
            .out.find("QR code of http://192.168.1.5:8417/#at=J06/1-3") != std::string::npos);
  CHECK(job.trial.run("labels --link 192.168.1.5").code == 2);
}

}  // namespace desk_test
