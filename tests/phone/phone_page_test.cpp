// The pages of the phone in a browser, as a thumb has them.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <fstream>
#include <functional>
#include <random>

#include "phone/served_here.h"
#include "phone/thumb.h"
#include "quantity/base64.h"
#include "support/pictures.h"

namespace phone_page_test {

namespace {

// How often each line of these words stands in the log.
int lines_with(ServedJob& job, const std::string& words) {
  int count = 0;
  const auto history = job.trial.done("history --json").json();
  for (const auto& line : history["lines"]) {
    if (line["says"].get<std::string>().find(words) == 0 && line["struck"].is_null()) ++count;
  }
  return count;
}

void keep_photograph(ServedJob& job, const std::string& of) {
  const auto file = job.trial.folder().file("mark.jpg");
  std::ofstream(file, std::ios::binary) << picture_file("mark.jpg");
  job.trial.done("photo " + of + " " + file + " --note 'witness marks'");
}

// Gives the page a file as if it had been chosen; its content is an expression.
void choose(Thumb& thumb, const std::string& content, const std::string& name,
            const std::string& type) {
  thumb.until("document.querySelector('input[data-key=album]')");
  thumb.evaluate(
      fmt::format("(async () => {{ const content = await ({}); const files = new DataTransfer();"
                  "files.items.add(new File([content], '{}', {{type: '{}'}}));"
                  "const input = document.querySelector('input[data-key=album]');"
                  "input.files = files.files; input.dispatchEvent(new Event('change')); }})()",
                  content, name, type));
}

// An expression: a JPEG of so many points, of noise where it is to be large.
std::string drawn(int width, int height) {
  return fmt::format(
      "(() => {{ const canvas = document.createElement('canvas'); canvas.width = {}; canvas.height "
      "= {}; const draw = canvas.getContext('2d'); draw.fillStyle = '#357'; draw.fillRect(0, 0, "
      "canvas.width, canvas.height); draw.fillStyle = '#fc3'; draw.fillRect(canvas.width / 3, 0, "
      "40, "
      "canvas.height); return new Promise((done) => canvas.toBlob(done, 'image/jpeg', .9)); }})()",
      width, height);
}

std::string as_bytes(const std::string& bytes) {
  return fmt::format("Uint8Array.from(atob('{}'), (letter) => letter.charCodeAt(0))",
                     quantity::write_base64(bytes));
}

// An expression: a PNG of so many points on each side, black alone (ISO/IEC 15948).
std::string black_png(int side) {
  return fmt::format(
      R"((async () => {{
  const side = {};
  const part = (type, data) => {{
    const bytes = new Uint8Array([...type].map((each) => each.charCodeAt(0)).concat([...data]));
    let sum = ~0;
    for (const byte of bytes) {{
      sum ^= byte;
      for (let bit = 0; bit < 8; ++bit) sum = sum & 1 ? sum >>> 1 ^ 0xedb88320 : sum >>> 1;
    }}
    return [number(data.length), bytes, number(~sum)];
  }};
  const number = (value) => {{
    const bytes = new Uint8Array(4);
    new DataView(bytes.buffer).setUint32(0, value >>> 0);
    return bytes;
  }};
  const rows = new Blob([new Uint8Array(side * (1 + Math.ceil(side / 8)))]);
  const packed = await new Response(
    rows.stream().pipeThrough(new CompressionStream('deflate'))).arrayBuffer();
  return new Blob([new Uint8Array([137, 80, 78, 71, 13, 10, 26, 10]),
    ...part('IHDR', [...number(side), ...number(side), 1, 0, 0, 0, 0]),
    ...part('IDAT', new Uint8Array(packed)), ...part('IEND', [])]);
}})())",
      side);
}

nlohmann::json photographs_of(ServedJob& job, const std::string& of) {
  return job.trial.done("photo " + of + " --json").json()["photographs"];
}

}  // namespace

TEST_CASE("a photograph is scaled by the browser and kept once, the link cut meanwhile",
          "[phone][browser]") {
  ServedJob job;
  ServedHere served(job);
  Thumb thumb(served.port(), served.code());
  thumb.open("#/photographs/J06/2");
  thumb.look("photographs-empty");
  choose(thumb, drawn(3000, 1500), "camera.jpg", "image/jpeg");
  thumb.until("document.querySelector('img.whole').naturalWidth === 2000");
  thumb.look("photographs-taken");
  thumb.evaluate(
      "(() => { const note = document.querySelector('[data-key=note]'); note.value = 'the bag';"
      "note.dispatchEvent(new Event('input')); })()");
  served.cut();
  thumb.tap("Keep it");
  thumb.until("document.getElementById('link').textContent.startsWith('No link. 1 kept here')");
  thumb.until("document.querySelector('.photos img').naturalWidth === 2000");
  thumb.look("photographs-no-link");
  CHECK(photographs_of(job, "J06/2").empty());
  served.serve();
  thumb.open_again();
  thumb.until("document.querySelector('.photos a img').naturalWidth === 2000");
  thumb.until_sent();
  thumb.look("photographs");
  const auto kept = photographs_of(job, "J06/2");
  REQUIRE(kept.size() == 1);
  CHECK(kept[0]["note"] == "the bag");
  CHECK(kept[0]["by"] == "RM");
  CHECK(kept[0]["width"] == 2000);
  CHECK(kept[0]["height"] == 1000);
  CHECK(kept[0]["format"] == "jpeg");

  thumb.open("#/show/J06/2");
  thumb.until("document.querySelector('.photos img').naturalWidth === 2000");
  thumb.evaluate("document.querySelector('.photos a').click()");
  thumb.until("document.querySelector('a.picture img').naturalWidth === 2000");
  thumb.look("photograph");
  thumb.tap("Take it back");
  thumb.until("document.body.innerText.includes('It was taken back')");
  thumb.until_sent();
  CHECK(photographs_of(job, "J06/2").empty());
  CHECK(job.trial.done("verify").code == 0);
}

TEST_CASE("of what a camera says of itself nothing leaves the phone", "[phone][browser]") {
  ServedJob job;
  ServedHere served(job);
  Thumb thumb(served.port(), served.code());
  const auto camera =
      with_segment(picture_file("mark.jpg"), 0xE1, std::string("Exif\0\0", 6) + camera_data(6));
  REQUIRE(camera.find("Maker-7") != std::string::npos);
  thumb.evaluate(
      "(() => { const send = window.fetch; window.sent = ''; window.fetch = (path, options) => {"
      "if (path === '/api/photograph') options.body.text().then((all) => { window.sent = all; });"
      "return send(path, options); }; })()");
  thumb.open("#/photographs/J06");
  choose(thumb, as_bytes(camera), "lying.jpg", "image/jpeg");
  // Turned upright: 16 by 24 of what lies there as 24 by 16.
  thumb.until("document.querySelector('img.whole').naturalHeight === 24");
  thumb.tap("Keep it");
  thumb.until("window.sent !== ''");
  CHECK(thumb.evaluate("window.sent.includes('Maker-7')") == false);
  CHECK(thumb.evaluate("window.sent.includes('Exif')") == false);
  thumb.until("document.querySelector('.photos a')");
  CHECK(photographs_of(job, "J06")[0]["height"] == 24);
}

TEST_CASE("what is no picture is told so on the phone and goes nowhere", "[phone][browser]") {
  ServedJob job;
  ServedHere served(job);
  Thumb thumb(served.port(), served.code());
  thumb.open("#/photographs/J06");
  const auto refused = [&](const std::string& content, const std::string& name,
                           const std::string& type) {
    INFO(name);
    choose(thumb, content, name, type);
    thumb.until(
        fmt::format("document.querySelector('.refused').textContent.startsWith('{}')", name));
  };
  refused("'this is text'", "text.jpg", "image/jpeg");
  refused("'<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"9\" height=\"9\"/>'", "drawing.svg",
          "image/svg+xml");
  refused(as_bytes(std::string("\0\0\0\x18"
                               "ftypheic\0\0\0\0mif1heic",
                               24)),
          "camera.heic", "image/heic");
  thumb.look("photographs-refused");
  refused(black_png(20'000), "huge.png", "image/png");
  CHECK(photographs_of(job, "J06").empty());
  // A file of 30 MB is read and becomes as small as any other.
  choose(thumb,
         fmt::format("({}).then((picture) => new Blob([picture, new Uint8Array(30000000)]))",
                     drawn(2400, 2400)),
         "long.jpg", "image/jpeg");
  thumb.until("document.querySelector('img.whole').naturalWidth === 2000");
  thumb.tap("Keep it");
  thumb.until("document.querySelector('.photos a')");
  CHECK(photographs_of(job, "J06")[0]["bytes"].get<int>() < 2'000'000);
}

TEST_CASE("a joint goes from teardown to stripe by the thumb, the link cut again and again",
          "[phone][browser]") {
  ServedJob job;
  ServedHere served(job);
  Thumb thumb(served.port(), served.code());
  thumb.look("home");
  std::minstd_rand chance(20261128);
  const auto perhaps_cut = [&] {
    if (chance() % 3 != 0) return;
    served.is_cut() ? served.serve() : served.cut();
  };

  thumb.go("#/teardown/J06");
  for (int position = 1; position <= 3; ++position) {
    thumb.until(fmt::format("{}.startsWith('J06/0{}')", kHeading, position));
    thumb.look(fmt::format("break-{}", position));
    thumb.tap("It came loose");
    perhaps_cut();
    thumb.until("document.querySelector('.large')");
    if (!served.is_cut()) thumb.until_sent();
    thumb.look(fmt::format("pull-{}", position));
    // Short until it is near, as a bolt of 80 N·m would be.
    while (true) {
      const double setting =
          thumb.evaluate("parseFloat(document.querySelector('.large').textContent)").get<double>();
      const bool is_on = setting >= 78.0;
      thumb.tap(is_on ? "On" : "Short");
      perhaps_cut();
      if (is_on) break;
      thumb.until(
          fmt::format("parseFloat(document.querySelector('.large').textContent) > {}", setting));
    }
  }
  thumb.until("document.body.innerText.includes('All of it is out and tested.')");
  if (served.is_cut()) served.serve();
  thumb.until("document.getElementById('link').textContent === ''");

  thumb.go("#/tighten/J06");
  for (int step = 0; step < 6; ++step) {
    thumb.until(
        "[...document.querySelectorAll('main button')].some((key) => key.textContent === 'Done')");
    if (step == 0) thumb.look("tighten");
    const auto heading = thumb.evaluate(kHeading).get<std::string>();
    thumb.tap("Done");
    perhaps_cut();
    thumb.until(fmt::format("{} !== {}", kHeading, nlohmann::json(heading).dump()));
  }
  if (served.is_cut()) served.serve();
  thumb.until("document.getElementById('link').textContent === ''");
  thumb.go("#/stripe");
  thumb.tap("Drawn on J06");
  thumb.until("document.body.innerText.includes('No final stripe is due.')");
  thumb.look("stripe");
  thumb.until("document.getElementById('link').textContent === ''");
  thumb.go("#/show/J06/2");
  thumb.until("document.querySelector('circle.bolt.here')");
  thumb.look("show");

  for (int position = 1; position <= 3; ++position) {
    CHECK(lines_with(job, fmt::format("J06/0{} out", position)) == 1);
    CHECK(lines_with(job, fmt::format("J06/0{} pass 1", position)) == 1);
    CHECK(lines_with(job, fmt::format("J06/0{} pass 2", position)) == 1);
  }
  CHECK(lines_with(job, "J06/1-3 final stripe") == 1);
  // Each tap is one line, and there is no other: the tests end in a line of their own kind.
  const auto lines = job.trial.done("history --json").json()["lines"];
  CHECK(static_cast<int>(lines.size()) == 4 + thumb.taps);
  CHECK(job.trial.done("verify").code == 0);
}

TEST_CASE("what was tapped without a link is there when the page is opened again",
          "[phone][browser]") {
  ServedJob job;
  ServedHere served(job);
  Thumb thumb(served.port(), served.code());
  thumb.go("#/teardown/J06");
  thumb.until("document.body.innerText.includes('Draw the mark')");
  served.cut();
  thumb.tap("It came loose");
  thumb.tap("Short");
  thumb.until("document.getElementById('link').textContent.startsWith('No link. 2 kept here')");
  thumb.look("no-link");
  CHECK(lines_with(job, "J06/01") == 0);
  served.serve();
  thumb.open_again();
  // What waits is drawn before the pulls are, so that an empty bar beside them means that all of it
  // was taken; on a page that has drawn nothing yet it is empty too.
  thumb.until("document.querySelector('.pulls')");
  thumb.until("document.getElementById('link').textContent === ''");
  CHECK(lines_with(job, "J06/01 out") == 1);
  CHECK(lines_with(job, "J06/01 pull") == 1);
}

TEST_CASE("an undo that could not be kept can be tapped once more", "[phone][browser]") {
  ServedJob job;
  ServedHere served(job);
  Thumb thumb(served.port(), served.code());
  thumb.go("#/teardown/J06");
  thumb.tap("It came loose");
  thumb.tap("Short");
  thumb.until_sent();
  thumb.evaluate(
      "window.add = IDBObjectStore.prototype.add;"
      "IDBObjectStore.prototype.add = () => { throw new DOMException('', 'QuotaExceededError'); };"
      "0");
  thumb.tap("Undo");
  thumb.until("document.body.innerText.includes('could not be kept by this browser')");
  thumb.evaluate("IDBObjectStore.prototype.add = window.add; 0");
  thumb.tap("Undo");
  thumb.until("!document.querySelector('.pulls')");
  thumb.until_sent();
  CHECK(lines_with(job, "J06/01 out") == 1);
  CHECK(lines_with(job, "J06/01 pull") == 0);
}

TEST_CASE("a refusal is shown where the thumb is, with what to do", "[phone][browser]") {
  ServedJob job;
  ServedHere served(job);
  Thumb thumb(served.port(), served.code());
  thumb.go("#/teardown/J06");
  thumb.until("document.body.innerText.includes('Draw the mark')");
  served.cut();
  job.trial.done("out J06/1");
  thumb.tap("It came loose");
  served.serve();
  thumb.until("document.querySelector('.refused')");
  thumb.look("refused");
  thumb.until("document.body.innerText.includes('is recorded as out already')");
  thumb.tap("Leave it out");
  thumb.until("document.querySelector('.large')");
  CHECK(lines_with(job, "J06/01 out") == 1);
}

TEST_CASE("the setting that is shown stays until it is tapped", "[phone][browser]") {
  ServedJob job;
  job.trial.done("out J06/1-3");
  ServedHere served(job);
  Thumb thumb(served.port(), served.code());
  thumb.go("#/teardown/J06");
  const std::string figure = "parseFloat(document.querySelector('.large').textContent)";
  thumb.until(std::string(kHeading) + ".startsWith('J06/01') && " + figure + " > 0");
  const double shown = thumb.evaluate(figure).get<double>();
  // By what its sibling is found at, the search would begin elsewhere.
  job.trial.done("found J06/3 74s 80o --wrench TW2");
  CHECK(job.trial.done("found J06/1 --wrench TW2 --next --json").json()["next_setting"] != shown);
  thumb.evaluate("void document.querySelector('[data-key=\"fold Positions\"]').click()");
  thumb.until("document.querySelector('[data-key=p3].done')");
  CHECK(thumb.evaluate(figure) == shown);
  thumb.tap("Short");
  thumb.until("document.querySelector('.pulls')");
  thumb.until_sent();
  CHECK(lines_with(job, fmt::format("J06/01 pull {}s", shown)) == 1);
}

TEST_CASE("every page of the phone keeps to its width and its targets to 48 pixels",
          "[phone][browser]") {
  ServedJob job;
  ServedHere served(job);
  Thumb thumb(served.port(), served.code());
  keep_photograph(job, "J06/2");
  for (const auto* hash :
       {"#/", "#/joint/J06", "#/teardown", "#/teardown/J06", "#/tighten/J06", "#/stripe", "#/show",
        "#/show/J06", "#/show/J06/2", "#/photographs", "#/photographs/J06/2", "#/photograph/5"}) {
    INFO(hash);
    thumb.open(hash);
    CHECK(thumb.evaluate("document.documentElement.scrollWidth") == 360);
    CHECK(thumb.evaluate("[...document.querySelectorAll('a, button, summary, select, "
                         "input[type=text], label.tick')]"
                         ".filter((each) => each.getClientRects().length > 0)"
                         ".filter((each) => each.getBoundingClientRect().height < 48 ||"
                         "                  each.getBoundingClientRect().width < 48)"
                         ".map((each) => each.textContent)") == nlohmann::json::array());
  }
}

// The page of an address with all that can be folded out, so that nothing goes unseen.
void open_wholly(Thumb& thumb, const std::string& hash) {
  thumb.open(hash);
  thumb.evaluate(
      "document.querySelectorAll('details').forEach((each) => { each.open = true; }); 0");
  thumb.until("[...document.images].every((each) => each.loading === 'lazy' || each.complete)");
}

// What stands on the pages once something was done: tested, torn down and not to be gone on with.
void do_something(ServedJob& job) {
  job.trial.done(
      "joint J07 --holds 'oil pan' --size M8 --grade 8.8 --count 6 --layout 'rectangle 2x3' --spec "
      "'25 N·m' --covers J06");
  job.trial.done("out J07/1-5");
  job.trial.done("out J07/6 --broke sheared --note 'head gone'");
  job.trial.done("out J06/1 --bag A1");
  job.trial.done("found J06/1 56s 60s 64o --wrench TW2");
  keep_photograph(job, "machine");
  keep_photograph(job, "J06");
  keep_photograph(job, "J06/1");
}

constexpr std::array kWidths = {std::pair{360, 740}, std::pair{1280, 900}};
constexpr std::array kEveryPage = {"#/",
                                   "#/joint/J06",
                                   "#/teardown",
                                   "#/teardown/J06",
                                   "#/teardown/J07",
                                   "#/tighten",
                                   "#/tighten/J06",
                                   "#/stripe",
                                   "#/show",
                                   "#/show/J06",
                                   "#/show/J06/1",
                                   "#/show/J07/6",
                                   "#/show/J99",
                                   "#/photographs",
                                   "#/photographs/J06/1",
                                   "#/photograph/12"};

// "teardown-J06" of "#/teardown/J06".
std::string name_of(std::string hash) {
  hash = hash.substr(2);
  std::ranges::replace(hash, '/', '-');
  return hash.empty() ? "home" : hash;
}

// Opens every page, at each width, by day and in the dark, and hands it over.
void on_every_page(const std::function<void(Thumb&, const std::string& hash, int width,
                                            std::string_view shade)>& look_at) {
  ServedJob job;
  do_something(job);
  ServedHere served(job);
  Thumb thumb(served.port(), served.code());
  for (const auto& [width, height] : kWidths) {
    thumb.browser().resize(width, height);
    for (const bool is_dark : {false, true}) {
      thumb.browser().prefer_dark(is_dark);
      const auto* shade = is_dark ? "dark" : "light";
      for (const auto* hash : kEveryPage) {
        INFO(hash << ", " << width << " pixels, " << shade);
        open_wholly(thumb, hash);
        look_at(thumb, hash, width, shade);
      }
    }
  }
}

TEST_CASE("every page of the phone keeps to its width, narrow and wide, light and dark",
          "[phone][browser]") {
  on_every_page([](Thumb& thumb, const std::string& hash, int width, std::string_view shade) {
    CHECK(thumb.evaluate("document.documentElement.scrollWidth").get<int>() <= width);
    thumb.look(fmt::format("{}-{}-{}", width, shade, name_of(hash)));
  });
}

// Run by scripts/check_pages, which says where axe-core lies.
TEST_CASE("axe-core finds nothing on any page of the phone", "[.axe]") {
  const Axe axe;
  on_every_page([&](Thumb& thumb, const std::string&, int, std::string_view) {
    CHECK(axe.findings_on(thumb.browser()) == std::vector<std::string>{});
  });
}

}  // namespace phone_page_test
