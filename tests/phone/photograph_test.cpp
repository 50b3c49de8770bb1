// Photographs from a phone: taken once, shown to those who are paired, refused as on the terminal.

#include <fmt/format.h>

#include <algorithm>
#include <fstream>

#include "phone/served_job.h"
#include "support/pictures.h"

namespace phone_photograph_test {

namespace {

std::string header(const phone::Answer& answer, const std::string& name) {
  const auto found =
      std::ranges::find(answer.headers, name, [](const auto& each) { return each.first; });
  return found == answer.headers.end() ? "" : found->second;
}

std::size_t lines_in(ServedJob& job) {
  return job.trial.done("history --json").json()["lines"].size();
}

}  // namespace

TEST_CASE("a photograph that comes twice from a phone is kept once", "[phone]") {
  ServedJob job;
  phone::Desk desk(job.place());
  TriedPhone phone(desk, "RM");
  const nlohmann::json deed = {{"id", "9abc-0123456789ab"},
                               {"at", 0},
                               {"kind", "photograph"},
                               {"where", "j06/2"},
                               {"note", "the bag"}};
  const auto first = desk.answer(phone.photograph(deed, picture_file("mark.jpg")));
  INFO(first.body);
  REQUIRE(first.status == 200);
  const auto again = desk.answer(phone.photograph(deed, picture_file("mark.jpg")));
  REQUIRE(again.status == 200);
  CHECK(body_of(again)["again"].get<bool>());
  CHECK(body_of(again)["lines"] == body_of(first)["lines"]);
  // The same id with another picture is another deed.
  const auto other = desk.answer(phone.photograph(deed, picture_file("mark.png")));
  CHECK(other.status == 409);
  const auto kept = job.trial.done("photo J06/2 --json").json()["photographs"];
  REQUIRE(kept.size() == 1);
  CHECK(kept[0]["by"] == "RM");
  CHECK(kept[0]["note"] == "the bag");
  CHECK(kept[0]["of"] == "J06/02");
  CHECK(job.trial.done("verify").code == 0);
}

TEST_CASE("a photograph is given out to a paired phone alone, as what it is", "[phone]") {
  ServedJob job;
  phone::Desk desk(job.place());
  TriedPhone phone(desk, "RM");
  for (const auto& [file, type] :
       {std::pair{"mark.jpg", "image/jpeg"}, std::pair{"mark.png", "image/png"},
        std::pair{"mark.webp", "image/webp"}}) {
    INFO(file);
    REQUIRE(phone.keep_photograph("J06/1", picture_file(file)).status == 200);
    const auto row = body_of(phone.get("/api/photographs"))["photographs"][0];
    const auto path = "/api/photograph/" + row["sha256"].get<std::string>();
    const auto answer = phone.get(path);
    CHECK(answer.status == 200);
    CHECK(answer.type == type);
    CHECK(answer.body.size() == row["bytes"].get<std::size_t>());
    CHECK(header(answer, "Cache-Control") == "private, max-age=31536000, immutable");
    CHECK(header(answer, "X-Content-Type-Options") == "nosniff");
    auto stranger = phone.asked("GET", path);
    stranger.cookies.clear();
    const auto none = desk.answer(stranger);
    CHECK(none.status == 401);
    CHECK(header(none, "Cache-Control") == "no-store");
    auto elsewhere = phone.asked("GET", path);
    elsewhere.site = "cross-site";
    CHECK(desk.answer(elsewhere).status == 403);
  }
  for (const auto* none : {"/api/photograph/", "/api/photograph/..", "/api/photograph/0123"}) {
    CHECK(phone.get(none).status == 404);
  }
}

TEST_CASE("a photograph is on the page of what it shows until it is taken back", "[phone]") {
  ServedJob job;
  phone::Desk desk(job.place());
  TriedPhone phone(desk, "RM");
  REQUIRE(phone.keep_photograph("machine", picture_file("mark.webp")).status == 200);
  REQUIRE(phone.keep_photograph("J06", picture_file("mark.png")).status == 200);
  REQUIRE(phone.keep_photograph("J06/2", picture_file("mark.jpg")).status == 200);
  const auto of_position = phone.last_id;
  const auto on = [&](const char* path, const std::map<std::string, std::string>& query = {}) {
    std::vector<std::string> of;
    const auto view = body_of(phone.get(path, query));
    for (const auto& row : view["photographs"]) of.push_back(row["of"]);
    return of;
  };
  using Subjects = std::vector<std::string>;
  CHECK(on("/api/home") == Subjects{"machine"});
  CHECK(on("/api/show", {{"at", "J06"}}) == Subjects{"J06/02", "J06"});
  CHECK(on("/api/show", {{"at", "J06/2"}}) == Subjects{"J06/02", "J06"});
  CHECK(on("/api/show", {{"at", "J06/1"}}) == Subjects{"J06"});
  CHECK(on("/api/photographs") == Subjects{"J06/02", "J06", "machine"});
  CHECK(on("/api/photographs", {{"of", "machine"}}) == Subjects{"machine"});
  CHECK(phone.get("/api/photographs", {{"of", "J99"}}).status == 409);
  CHECK(phone.get("/api/photographs", {{"of", "J06/9"}}).status == 400);
  REQUIRE(phone.tap({{"kind", "undo"}, {"of", of_position}}).status == 200);
  CHECK(on("/api/photographs") == Subjects{"J06", "machine"});
  CHECK(job.trial.done("verify").code == 0);
}

TEST_CASE("a photograph of a deviation goes by its id", "[phone]") {
  ServedJob job;
  job.trial.done("out J06/1 --broke sheared");
  phone::Desk desk(job.place());
  TriedPhone phone(desk, "RM");
  const auto view = body_of(phone.get("/api/photographs"));
  REQUIRE_FALSE(view["deviations"].empty());
  const auto id = view["deviations"][0]["id"].get<std::string>();
  REQUIRE(phone.keep_photograph(id, picture_file("mark.jpg")).status == 200);
  CHECK(body_of(phone.get("/api/photographs", {{"of", id}}))["photographs"].size() == 1);
}

TEST_CASE("what is no photograph is refused as on the command line", "[phone]") {
  ServedJob job;
  phone::Desk desk(job.place());
  TriedPhone phone(desk, "RM");
  const auto before = lines_in(job);
  const auto whole = picture_file("mark.jpg");
  for (const auto& [name, bytes] : std::vector<std::pair<std::string, std::string>>{
           {"text.jpg", "this is text, whatever it is called"},
           {"drawing.svg", "<svg xmlns=\"http://www.w3.org/2000/svg\"><script>x</script></svg>"},
           {"camera.heic", std::string("\0\0\0\x18"
                                       "ftypheic\0\0\0\0mif1heic",
                                       24)},
           {"half.jpg", whole.substr(0, whole.size() / 2)},
           {"wide.png", plain_png(20'000, 2, 90)}}) {
    INFO(name);
    std::ofstream(job.trial.folder().file(name), std::ios::binary) << bytes;
    const auto answer = phone.keep_photograph("J06/1", bytes);
    const auto outcome = job.trial.run("photo J06/1 " + job.trial.folder().file(name));
    CHECK(answer.status == 400);
    CHECK(outcome.code == 2);
    INFO(outcome.err);
    INFO(answer.body);
    CHECK(outcome.said().find(refused(answer)) != std::string::npos);
  }
  const auto large =
      phone.keep_photograph("J06", std::string(record::kMostPhotographBytes + 1, 'x'));
  CHECK(large.status == 400);
  CHECK(refused(large).find("larger than 8 MiB") != std::string::npos);
  CHECK(phone.keep_photograph("J99", whole).status == 409);
  CHECK(phone.keep_photograph("J06/9", whole).status == 400);
  CHECK(phone.keep_photograph("", whole).status == 400);
  CHECK(phone.keep_photograph("J06", "").status == 400);
  CHECK(phone.tap({{"kind", "photograph"}, {"where", "J06"}}).status == 400);
  auto deed =
      phone.photograph({{"id", "9abc-0123456789ab"}, {"kind", "out"}, {"joint", "J06"}}, whole);
  CHECK(desk.answer(deed).status == 400);
  deed.content_type = "application/json";
  CHECK(desk.answer(deed).status == 415);
  CHECK(lines_in(job) == before);
}

}  // namespace phone_photograph_test
