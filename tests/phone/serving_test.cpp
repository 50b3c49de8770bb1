#include "phone/serving.h"

#include <arpa/inet.h>
#include <fmt/format.h>
#include <httplib.h>
#include <openssl/ssl.h>
#include <openssl/x509.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/time.h>
#include <unistd.h>

#include <array>
#include <atomic>
#include <cerrno>
#include <chrono>
#include <thread>

#include "failure/failure.h"
#include "phone/served_job.h"
#include "support/pictures.h"
#include "support/property.h"
#include "support/torture.h"
#include "support/tried_phone.h"

namespace serving_test {

namespace {

using namespace std::chrono_literals;

phone::ServeOptions tried() {
  phone::ServeOptions options;
  options.port = 0;
  options.bounds.begin = 700ms;
  return options;
}

// A bare connection, for what no library would send.
class Raw {
 public:
  explicit Raw(int port, std::chrono::seconds longest = 5s)
      : socket_(::socket(AF_INET, SOCK_STREAM, 0)) {
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_port = htons(static_cast<std::uint16_t>(port));
    ::inet_pton(AF_INET, "127.0.0.1", &address.sin_addr);
    const timeval patience{longest.count(), 0};
    ::setsockopt(socket_, SOL_SOCKET, SO_RCVTIMEO, &patience, sizeof patience);
    ::setsockopt(socket_, SOL_SOCKET, SO_SNDTIMEO, &patience, sizeof patience);
    is_open_ = ::connect(socket_, reinterpret_cast<sockaddr*>(&address), sizeof address) == 0;
  }
  ~Raw() { ::close(socket_); }
  Raw(const Raw&) = delete;
  Raw& operator=(const Raw&) = delete;

  [[nodiscard]] bool is_open() const { return is_open_; }

  bool send(std::string_view bytes) {
    while (!bytes.empty()) {
      const auto sent = ::send(socket_, bytes.data(), bytes.size(), MSG_NOSIGNAL);
      if (sent <= 0) return false;
      bytes.remove_prefix(static_cast<std::size_t>(sent));
    }
    return true;
  }

  // What comes until the other end closes.
  std::string rest() {
    std::string all;
    std::array<char, 4096> buffer{};
    while (true) {
      const auto count = ::recv(socket_, buffer.data(), buffer.size(), 0);
      is_let_go_ = count == 0 || (count < 0 && errno == ECONNRESET);
      if (count <= 0) return all;
      all.append(buffer.data(), static_cast<std::size_t>(count));
    }
  }

  // Whether the other end closed, once the rest was waited for.
  [[nodiscard]] bool is_let_go() const { return is_let_go_; }

 private:
  int socket_;
  bool is_open_ = false;
  bool is_let_go_ = false;
};

bool answers(int port) {
  httplib::Client client("127.0.0.1", port);
  client.set_read_timeout(5s);
  const auto page = client.Get("/");
  return page && page->status == 200;
}

// One phone on a connection of its own, that takes out some bolts, asks in between where the
// logbook stands, and sends each deed once more as if the link had been cut. Returns what was not
// answered as it should be.
class PhoneOnTheNetwork {
 public:
  PhoneOnTheNetwork(int port, const std::string& who, const std::string& code)
      : client_("127.0.0.1", port), origin_(fmt::format("http://127.0.0.1:{}", port)) {
    client_.set_read_timeout(60s);
    client_.set_keep_alive(true);
    const auto paired = post("/api/pair", {{"code", code}, {"who", who}});
    if (!paired || paired->status != 200) throw std::runtime_error(who + " is not paired");
    const auto cookie = paired->get_header_value("Set-Cookie");
    cookie_ = cookie.substr(0, cookie.find(';'));
  }

  std::vector<std::string> takes_out(const std::string& joint, int from, int to) {
    std::vector<std::string> wrong;
    const auto expect = [&](const char* what, int position, const httplib::Result& answer) {
      if (answer && answer->status == 200) return true;
      wrong.push_back(fmt::format("{} {}/{}: {}", what, joint, position,
                                  answer ? answer->body : httplib::to_string(answer.error())));
      return false;
    };
    for (int position = from; position <= to; ++position) {
      const nlohmann::json deed = {
          {"kind", "out"},     {"joint", joint}, {"position", position},
          {"broke", "normal"}, {"at", 0},        {"id", TriedPhone::new_id()}};
      const auto first = post("/api/deed", deed);
      if (!expect("out", position, first)) continue;
      expect("line", position, get("/api/line"));
      const auto second = post("/api/deed", deed);
      if (expect("again", position, second) && ids_in(second) != ids_in(first)) {
        wrong.push_back("answered otherwise: " + second->body);
      }
      expect("joint", position, get("/api/show?at=" + joint));
    }
    return wrong;
  }

 private:
  static std::vector<std::string> ids_in(const httplib::Result& answer) {
    std::vector<std::string> ids;
    const auto body = nlohmann::json::parse(answer->body);
    for (const auto& line : body["lines"]) ids.push_back(line["id"]);
    return ids;
  }
  httplib::Headers headers() const {
    return {{"Cookie", cookie_}, {"Origin", origin_}, {"Sec-Fetch-Site", "same-origin"}};
  }
  httplib::Result post(const std::string& path, const nlohmann::json& body) {
    return client_.Post(path.c_str(), headers(), body.dump(), "application/json");
  }
  httplib::Result get(const std::string& path) { return client_.Get(path.c_str(), headers()); }

  httplib::Client client_;
  std::string origin_;
  std::string cookie_;
};

}  // namespace

TEST_CASE("phones that tap at the same time lose nothing and write nothing twice",
          "[phone][slow]") {
  ServedJob job;
  job.trial.done("joint J07 --holds cover --size M8 --grade 8.8 --count 40 --layout circle");
  const auto lines = [&] {
    return nlohmann::json::parse(job.trial.done("history --json").told())["lines"].size();
  };
  const auto before = lines();
  constexpr int kPhones = 5;
  constexpr int kEach = 8;
  auto options = tried();
  options.bounds.begin = 60s;
  {
    phone::Serving serving(job.place(), options);
    std::vector<std::unique_ptr<PhoneOnTheNetwork>> phones;
    for (int i = 0; i < kPhones; ++i) {
      phones.push_back(std::make_unique<PhoneOnTheNetwork>(serving.port(), fmt::format("P{}", i),
                                                           serving.desk().code()));
    }
    std::vector<std::vector<std::string>> wrong(kPhones);
    std::atomic<int> at_work = kPhones;
    std::vector<std::thread> hands;
    for (std::size_t i = 0; i < kPhones; ++i) {
      hands.emplace_back([&, i] {
        const int from = static_cast<int>(i) * kEach + 1;
        wrong[i] = phones[i]->takes_out("J07", from, from + kEach - 1);
        --at_work;
      });
    }
    // What the terminal of "serve" does meanwhile.
    std::vector<std::string> news;
    while (at_work > 0) {
      for (auto& each : serving.desk().take_news()) news.push_back(std::move(each));
      (void)serving.desk().code();
      std::this_thread::sleep_for(1ms);
    }
    for (auto& hand : hands) hand.join();
    CHECK(news.size() == kPhones);
    for (const auto& each : wrong) CHECK(each == std::vector<std::string>{});
  }
  CHECK(lines() == before + kPhones * kEach);
  CHECK(job.trial.done("verify").code == 0);
}

TEST_CASE("pages are served over a socket, to this machine alone", "[phone]") {
  ServedJob job;
  phone::Serving serving(job.place(), tried());
  CHECK(serving.addresses() ==
        std::vector<std::string>{fmt::format("http://127.0.0.1:{}/", serving.port())});
  httplib::Client client("127.0.0.1", serving.port());
  const auto page = client.Get("/page.js");
  REQUIRE(page);
  CHECK(page->get_header_value("Content-Type") == "text/javascript; charset=utf-8");
  CHECK(page->get_header_value("X-Content-Type-Options") == "nosniff");
  CHECK(client.Get("/api/home")->status == 401);
  CHECK(client.Delete("/api/deed")->status == 405);
  CHECK(client.Get("/../../etc/passwd")->status == 404);
}

TEST_CASE("a second one that serves the logbook is told where it is served", "[phone]") {
  ServedJob job;
  {
    const phone::Serving serving(job.place(), tried());
    try {
      const phone::Serving second(job.place(), tried());
      FAIL("it was served twice");
    } catch (const failure::Refusal& refusal) {
      CHECK(std::string(refusal.what())
                .find(fmt::format("is served already, at http://127.0.0.1:{}/", serving.port())) !=
            std::string::npos);
    }
  }
  CHECK_NOTHROW(phone::Serving(job.place(), tried()));
}

TEST_CASE("a slow request holds nobody up and has its end", "[phone][slow]") {
  ServedJob job;
  phone::Serving serving(job.place(), tried());
  std::vector<std::unique_ptr<Raw>> slow;
  for (int i = 0; i < 20; ++i) {
    slow.push_back(std::make_unique<Raw>(serving.port()));
    REQUIRE(slow.back()->send("GET / HTTP/1.1\r\nHost: 127.0.0.1\r\nX: "));
  }
  CHECK(answers(serving.port()));
  const auto begun = std::chrono::steady_clock::now();
  bool is_let_go = false;
  while (!is_let_go && std::chrono::steady_clock::now() - begun < 8s) {
    std::this_thread::sleep_for(100ms);
    is_let_go = true;
    for (auto& each : slow) is_let_go = !each->send("a") && is_let_go;
  }
  CHECK(is_let_go);
  CHECK(answers(serving.port()));
}

TEST_CASE("one address has so many connections, and the server goes on", "[phone][slow]") {
  ServedJob job;
  phone::Serving serving(job.place(), tried());
  {
    std::vector<std::unique_ptr<Raw>> many;
    for (int i = 0; i < 200; ++i) many.push_back(std::make_unique<Raw>(serving.port()));
    int closed = 0;
    for (auto& each : many) {
      each->send("GET");
      if (each->rest().empty()) ++closed;
      if (closed > 20) break;
    }
    CHECK(closed > 20);
  }
  std::this_thread::sleep_for(1s);
  CHECK(answers(serving.port()));
}

TEST_CASE("a huge request is let go before it fills anything", "[phone]") {
  ServedJob job;
  phone::Serving serving(job.place(), tried());
  Raw huge(serving.port());
  huge.send("POST /api/deed HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: 4000000000\r\n\r\n");
  const std::string chunk(65'536, 'x');
  int sent = 0;
  while (sent < 400 && huge.send(chunk)) ++sent;
  CHECK(sent < 400);
  Raw headers(serving.port());
  headers.send("GET / HTTP/1.1\r\n");
  sent = 0;
  while (sent < 100'000 &&
         headers.send("A: bbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbb\r\n")) {
    ++sent;
  }
  CHECK(sent < 100'000);
  CHECK(answers(serving.port()));
}

TEST_CASE("a length that is no number of bytes is refused, and nothing of it read", "[phone]") {
  ServedJob job;
  phone::Serving serving(job.place(), tried());
  // RFC 9110, section 8.6: digits alone.
  for (const auto* length : {"-1", "+2", "0x10", "2 bytes", "2,2", "1e3", "99999999999999999999"}) {
    INFO(length);
    Raw raw(serving.port());
    raw.send(fmt::format(
        "POST /api/pair HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: {}\r\n\r\n{{}}", length));
    CHECK_THAT(raw.rest(), Catch::Matchers::StartsWith("HTTP/1.1 400 "));
    CHECK(raw.is_let_go());
  }
  CHECK(answers(serving.port()));
}

TEST_CASE("a photograph alone may be long, and only from a phone that is paired", "[phone]") {
  ServedJob job;
  auto options = tried();
  options.bounds.begin = 5s;
  phone::Serving serving(job.place(), options);
  TriedPhone phone(serving.desk(), "RM");
  const auto picture = plain_png(700, 500, 90);
  REQUIRE(picture.size() > 300'000);
  const auto own = fmt::format("http://127.0.0.1:{}", serving.port());
  const auto send = [&](const std::string& path, const std::string& cookie, const std::string& type,
                        const std::string& body) {
    httplib::Client client("127.0.0.1", serving.port());
    const auto answer =
        client.Post(path, {{"Cookie", cookie}, {"Origin", own}}, body, type.c_str());
    return answer ? answer->status : 0;
  };
  const std::string bytes = "application/octet-stream";
  const auto body = R"({"id":"9abc-0123456789ab","kind":"photograph","where":"J06"})"
                    "\n" +
                    picture;
  // Whoever is not paired is cut off where a deed would be, with or without an answer.
  for (const auto status :
       {send("/api/photograph", "", bytes, body), send("/api/deed", phone.cookie(), bytes, body),
        send("/api/pair", "", bytes, body),
        send("/api/photograph", phone.cookie(), "multipart/form-data; boundary=a", body)}) {
    CHECK((status == 0 || (status >= 400 && status < 500)));
  }
  CHECK(job.trial.done("photo --json").json()["photographs"].empty());
  CHECK(send("/api/photograph", phone.cookie(), bytes, body) == 200);
  CHECK(send("/api/photograph", phone.cookie(), bytes, body) == 200);
  const auto kept = job.trial.done("photo --json").json()["photographs"];
  REQUIRE(kept.size() == 1);
  httplib::Client client("127.0.0.1", serving.port());
  const auto path = "/api/photograph/" + kept[0]["sha256"].get<std::string>();
  const auto shown = client.Get(path, {{"Cookie", phone.cookie()}});
  REQUIRE(shown);
  CHECK(shown->get_header_value("Content-Type") == "image/png");
  CHECK(shown->body.size() == kept[0]["bytes"].get<std::size_t>());
  CHECK(client.Get(path)->status == 401);
  const auto too_long = send("/api/photograph", phone.cookie(), bytes, std::string(9 << 20, 'x'));
  CHECK((too_long == 0 || too_long == 413));
  CHECK(answers(serving.port()));
}

TEST_CASE("few photographs are read at once, and who holds them up is let go", "[phone][slow]") {
  ServedJob job;
  auto options = tried();
  options.bounds.begin = 10s;
  options.bounds.photographs_at_once = 2;
  phone::Serving serving(job.place(), options);
  TriedPhone phone(serving.desk(), "RM");
  const auto head = fmt::format(
      "POST /api/photograph HTTP/1.1\r\nHost: 127.0.0.1:{0}\r\nOrigin: http://127.0.0.1:{0}\r\n"
      "Cookie: {1}\r\nContent-Type: application/octet-stream\r\nContent-Length: 8000000\r\n\r\n",
      serving.port(), phone.cookie());
  std::vector<std::unique_ptr<Raw>> slow;
  for (int i = 0; i < 8; ++i) {
    slow.push_back(std::make_unique<Raw>(serving.port(), 60s));
    REQUIRE(slow.back()->send(head + "{"));
  }
  CHECK(answers(serving.port()));
  // Those who waited for a turn are told so, and the first two are let go when their time is up.
  std::size_t told = 0;
  std::size_t let_go = 0;
  for (auto& each : slow) {
    if (each->rest().starts_with("HTTP/1.1 503 ")) ++told;
    if (each->is_let_go()) ++let_go;
  }
  CHECK(told > 0);
  CHECK(let_go == slow.size());
  CHECK(answers(serving.port()));
  CHECK(job.trial.done("photo --json").json()["photographs"].empty());
}

TEST_CASE("what is sent packed is not unpacked", "[phone]") {
  ServedJob job;
  phone::Serving serving(job.place(), tried());
  for (const auto* packing : {"gzip", "deflate", "br"}) {
    httplib::Client client("127.0.0.1", serving.port());
    const auto answer =
        client.Post("/api/pair", {{"Content-Encoding", packing}}, "x", "application/json");
    REQUIRE(answer);
    CHECK(answer->status == 415);
  }
  CHECK(answers(serving.port()));
}

TEST_CASE("malformed and half requests are got over", "[phone][slow][torture]") {
  const auto count = trials(2'000, 10'000);
  ServedJob job;
  auto options = tried();
  options.bounds.begin = 200ms;
  phone::Serving serving(job.place(), options);
  const std::string good =
      "POST /api/deed HTTP/1.1\r\nHost: 127.0.0.1\r\nOrigin: http://127.0.0.1\r\nContent-Type: "
      "application/json\r\nContent-Length: "
      "40\r\n\r\n{\"id\":\"9abc-0123456789ab\",\"kind\":\"out\"}";
  std::uint64_t state = 1;
  const auto random = [&](std::uint64_t below) {
    state = state * 6364136223846793005ULL + 1442695040888963407ULL;
    return (state >> 33U) % below;
  };
  for (std::size_t i = 0; i < count; ++i) {
    auto bad = good.substr(0, 1 + random(good.size()));
    for (auto flips = random(6); flips > 0; --flips) {
      bad[random(bad.size())] = static_cast<char>(random(256));
    }
    Raw raw(serving.port());
    REQUIRE(raw.is_open());
    raw.send(bad);
  }
  CHECK(answers(serving.port()));
  CHECK(job.trial.done("verify").code == 0);
  CHECK(job.trial.done("history").told().find("J06/01 out") == std::string::npos);
  tell_torture("phone: malformed and half requests", count, "it answers after them", 0);
}

TEST_CASE("a path as long as a line may be is refused and takes no stack", "[phone]") {
  ServedJob job;
  phone::Serving serving(job.place(), tried());
  httplib::Client client("127.0.0.1", serving.port());
  const auto page = client.Get('/' + std::string(8'000, 'a'));
  REQUIRE(page);
  CHECK(page->status == 414);
  CHECK(answers(serving.port()));
}

TEST_CASE("a client that never reads its answer holds nobody up", "[phone]") {
  ServedJob job;
  phone::Serving serving(job.place(), tried());
  std::vector<std::unique_ptr<Raw>> many;
  for (int i = 0; i < 10; ++i) {
    many.push_back(std::make_unique<Raw>(serving.port()));
    many.back()->send("GET /page.css HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n");
  }
  CHECK(answers(serving.port()));
}

TEST_CASE("with --tls the certificate is the one whose fingerprint is shown", "[phone]") {
  ServedJob job;
  auto options = tried();
  options.tls = true;
  options.bounds.begin = 10s;
  phone::Serving serving(job.place(), options);
  REQUIRE(serving.certificate());
  struct stat status {};
  REQUIRE(::stat(serving.certificate()->key_file.c_str(), &status) == 0);
  CHECK((status.st_mode & 0777U) == 0600U);

  httplib::SSLClient client("127.0.0.1", serving.port());
  client.set_ca_cert_path(serving.certificate()->file.c_str());
  client.enable_server_certificate_verification(false);
  const auto page = client.Get("/");
  REQUIRE(page);
  CHECK(page->status == 200);
  CHECK(client.Get("/page.js")->body.size() > 1'000);
  // What speaks plainly to it is let go.
  CHECK_FALSE(answers(serving.port()));
  const auto first = serving.certificate()->fingerprint;
  CHECK(first.size() == 95);
  CHECK(phone::own_certificate(job.place().folder).fingerprint == first);
}

}  // namespace serving_test
