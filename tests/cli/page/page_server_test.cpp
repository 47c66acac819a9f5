#include "cli/page/page_server.hpp"

#include "tests/support/places.hpp"
#include "tests/support/process.hpp"
#include "tests/support/scratch_directory.hpp"

#include <gtest/gtest.h>

#include <arpa/inet.h>
#include <chrono>
#include <netinet/in.h>
#include <string>
#include <string_view>
#include <sys/socket.h>
#include <sys/time.h>
#include <thread>
#include <unistd.h>
#include <vector>

namespace shankline::tests::page_server_test {
namespace {

PageRequestHead own_request() {
  PageRequestHead head;
  head.method = "POST";
  head.path = "/live";
  head.host = "127.0.0.1:8081";
  head.origin = "http://127.0.0.1:8081";
  head.fetch_site = "same-origin";
  head.content_type = "application/json";
  head.token = "right";
  return head;
}

int refused(const PageRequestHead& head) {
  return refused_head(head, "http://127.0.0.1:8081", "right");
}

TEST(PageRules, LetThePageItselfIn) {
  EXPECT_EQ(refused(own_request()), 0);
  PageRequestHead plain = own_request();
  plain.origin = {};
  plain.fetch_site = {};
  plain.content_type = "application/json; charset=utf-8";
  EXPECT_EQ(refused(plain), 0) << "a client that sends no such headers, but has the token";
}

TEST(PageRules, RefuseEverybodyElse) {
  const auto with = [](auto PageRequestHead::*member, auto value) {
    PageRequestHead head = own_request();
    head.*member = value;
    return refused(head);
  };
  EXPECT_EQ(with(&PageRequestHead::token, "wrong"), 403);
  EXPECT_EQ(with(&PageRequestHead::token, "righ"), 403);
  EXPECT_EQ(with(&PageRequestHead::token, "rightt"), 403);
  EXPECT_EQ(with(&PageRequestHead::token, ""), 403);
  EXPECT_EQ(with(&PageRequestHead::host, "localhost:8081"), 403) << "only what was printed";
  EXPECT_EQ(with(&PageRequestHead::host, "bench.example:8081"), 403);
  EXPECT_EQ(with(&PageRequestHead::host, "127.0.0.1"), 403);
  EXPECT_EQ(with(&PageRequestHead::origin, "http://127.0.0.1:8082"), 403);
  EXPECT_EQ(with(&PageRequestHead::origin, "null"), 403);
  EXPECT_EQ(with(&PageRequestHead::fetch_site, "cross-site"), 403);
  EXPECT_EQ(with(&PageRequestHead::fetch_site, "same-site"), 403);
  EXPECT_EQ(with(&PageRequestHead::fetch_site, "none"), 403);
  EXPECT_EQ(with(&PageRequestHead::method, "GET"), 405);
  EXPECT_EQ(with(&PageRequestHead::method, "OPTIONS"), 405) << "no leave for other origins";
  EXPECT_EQ(with(&PageRequestHead::content_type, "text/plain"), 415);
  EXPECT_EQ(with(&PageRequestHead::content_type, "application/jsonp"), 415);
  EXPECT_EQ(with(&PageRequestHead::content_type, ""), 415);
}

TEST(PageRules, GiveFilesOfThePageToWhoeverReads) {
  PageRequestHead head;
  head.method = "GET";
  head.path = "/page.css";
  head.host = "127.0.0.1:8081";
  head.fetch_site = "cross-site"; // a link on the file that opens the page
  head.is_known = true;
  EXPECT_EQ(refused(head), 0);
  head.method = "POST";
  EXPECT_EQ(refused(head), 405);
  head.method = "GET";
  head.host = "bench.example:8081";
  EXPECT_EQ(refused(head), 403);
  head.host = "127.0.0.1:8081";
  head.is_known = false;
  head.fetch_site = {};
  EXPECT_EQ(refused(head), 404);
}

/// A client that sends what it is told, byte by byte.
class RawClient {
public:
  explicit RawClient(const std::string& origin) : socket_(::socket(AF_INET, SOCK_STREAM, 0)) {
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_port = htons(static_cast<std::uint16_t>(std::stoi(origin.substr(17))));
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    const timeval patience{20, 0};
    ::setsockopt(socket_, SOL_SOCKET, SO_RCVTIMEO, &patience, sizeof patience);
    connected_ = ::connect(socket_, reinterpret_cast<sockaddr*>(&address), sizeof address) == 0;
  }
  ~RawClient() { ::close(socket_); }
  RawClient(const RawClient&) = delete;
  RawClient& operator=(const RawClient&) = delete;

  bool connected() const { return connected_; }
  bool send(std::string_view bytes) const {
    return ::send(socket_, bytes.data(), bytes.size(), MSG_NOSIGNAL) == std::ssize(bytes);
  }
  /// All that comes until the server closes.
  std::string received() const {
    std::string all;
    char piece[4096];
    for (;;) {
      const ssize_t count = ::recv(socket_, piece, sizeof piece, 0);
      if (count <= 0) return all;
      all.append(piece, static_cast<std::size_t>(count));
    }
  }

private:
  int socket_;
  bool connected_ = false;
};

class PageServing : public testing::Test {
protected:
  PageServing() {
    request_.paper = *read_paper("a4");
    answers_.emplace(request_);
    server_ = std::make_unique<PageServer>(*answers_, std::uint16_t{0});
  }

  std::string head(const std::string& method, const std::string& path, std::size_t length) const {
    return method + " " + path + " HTTP/1.1\r\nHost: " + server_->origin().substr(7) +
           "\r\nContent-Type: application/json\r\nShankline-Token: " + server_->token() +
           "\r\nContent-Length: " + std::to_string(length) + "\r\n\r\n";
  }
  std::string answer(const std::string& bytes) const {
    const RawClient client(server_->origin());
    client.send(bytes);
    return client.received();
  }
  std::string posted(const std::string& path, const std::string& body) const {
    return answer(head("POST", path, body.size()) + body);
  }
  static std::string status(const std::string& answer) {
    return answer.size() < 12 ? answer : answer.substr(9, 3);
  }
  bool still_serves() const { return status(posted("/archive", R"({"do":"nix"})")) == "400"; }

  Request request_;
  std::optional<PageAnswers> answers_;
  std::unique_ptr<PageServer> server_;
};

TEST_F(PageServing, ShellIsServedWithStrictHeaders) {
  const std::string got =
      answer("GET / HTTP/1.1\r\nHost: " + server_->origin().substr(7) + "\r\n\r\n");
  EXPECT_EQ(status(got), "200");
  for (const char* header :
       {"Content-Security-Policy: default-src 'none'; script-src 'self'", "frame-ancestors 'none'",
        "X-Content-Type-Options: nosniff", "Cache-Control: no-store",
        "Referrer-Policy: no-referrer", "Connection: close", "text/html; charset=utf-8"})
    EXPECT_NE(got.find(header), std::string::npos) << header;
  EXPECT_EQ(got.find("Access-Control"), std::string::npos) << "no answers to other origins";
  EXPECT_EQ(got.find(server_->token()), std::string::npos) << "the shell holds no token";
  EXPECT_NE(got.find("<!doctype html>"), std::string::npos);
  EXPECT_EQ(got.find("style="), std::string::npos);
  EXPECT_EQ(got.find("http://"), std::string::npos) << "nothing is fetched from elsewhere";
  EXPECT_EQ(got.find("https://"), std::string::npos);
}

TEST_F(PageServing, RefusesOverTheWireAsTheRulesSay) {
  const std::string host = server_->origin().substr(7);
  EXPECT_EQ(status(posted("/live", "{}")), "400") << "let in, and wrong";
  EXPECT_EQ(status(answer("POST /live HTTP/1.1\r\nHost: " + host +
                          "\r\nContent-Type: application/json\r\nContent-Length: 2\r\n\r\n{}")),
            "403");
  EXPECT_EQ(status(answer("GET / HTTP/1.1\r\nHost: bench.example\r\n\r\n")), "403");
  EXPECT_EQ(status(answer("GET /../etc/passwd HTTP/1.1\r\nHost: " + host + "\r\n\r\n")), "404");
  EXPECT_EQ(status(answer(head("DELETE", "/live", 0))), "405");
  EXPECT_TRUE(still_serves());
}

TEST_F(PageServing, DropsWhatIsTooLargeOrBrokenAndServesOn) {
  const std::string large(largest_page_body + 1, ' ');
  EXPECT_NE(status(posted("/live", large)), "200");
  EXPECT_TRUE(still_serves());
  const std::string fits = "{\"text\":\"" + std::string(largest_page_body - 11, 'x') + "\"}";
  ASSERT_EQ(fits.size(), largest_page_body);
  EXPECT_EQ(status(posted("/live", fits)), "200") << "an order that is too large has findings";
  const std::string many_headers = "GET / HTTP/1.1\r\nHost: " + server_->origin().substr(7) +
                                   "\r\nX-Long: " + std::string(40000, 'a') + "\r\n\r\n";
  EXPECT_NE(status(answer(many_headers)), "200");
  for (const char* garbage : {"\r\n\r\n", "GET\r\n\r\n", "\x16\x03\x01\x02", "GET / HTTP/9\r\n\r\n",
                              "POST /live HTTP/1.1\r\nContent-Length: -5\r\n\r\n"}) {
    const RawClient client(server_->origin());
    client.send(garbage); // and goes away
  }
  EXPECT_TRUE(still_serves());
}

TEST_F(PageServing, UnfinishedRequestsHinderNobodyBelowTheLimit) {
  std::vector<std::unique_ptr<RawClient>> waiting;
  for (int i = 0; i < 28; ++i) {
    waiting.push_back(std::make_unique<RawClient>(server_->origin()));
    waiting.back()->send("POST /live HTTP/1.1\r\nHo");
  }
  EXPECT_TRUE(still_serves());
}

using LongPageServing = PageServing;

TEST_F(LongPageServing, SlowSendersAreDroppedAfterTenSeconds) {
  std::vector<std::unique_ptr<RawClient>> slow;
  for (int i = 0; i < 40; ++i) {
    slow.push_back(std::make_unique<RawClient>(server_->origin()));
    slow.back()->send("POST /live HTTP/1.1\r\nX: ");
  }
  for (int second = 0; second < 13; ++second) {
    std::this_thread::sleep_for(std::chrono::seconds(1));
    for (const auto& client : slow)
      client->send("a"); // never idle
    server_->drop_slow_ones();
  }
  EXPECT_TRUE(still_serves());
}

TEST_F(LongPageServing, AnswersTenThousandRequests) {
  const std::string order = read_file(std::filesystem::path(places::samples) / "plain.yaml");
  std::string text;
  for (const char c : order)
    text += c == '\n' ? std::string("\\n") : c == '"' ? std::string("\\\"") : std::string(1, c);
  const std::string body = "{\"text\":\"" + text + "\"}";
  for (int i = 0; i < 10000; ++i)
    ASSERT_EQ(status(posted("/live", body)), "200") << i;
}

/// The verb itself, with a stand-in for what opens pages on a desktop.
TEST(PageVerb, HandsTheBrowserAFileThatNobodyElseReadsAndEndsWhenItIsTold) {
  const ScratchDirectory scratch;
  write_file(scratch.path() / "bin" / "xdg-open",
             "#!/bin/sh\nstat -c %a \"$1\" >mode\ncat \"$1\" >page\necho \"$*\" >words\n");
  Surroundings here;
  here.directory = scratch.path();
  here.environment = {{"PATH", (scratch.path() / "bin").string() + ":/usr/bin:/bin"},
                      {"HOME", scratch.path().string()},
                      {"XDG_RUNTIME_DIR", scratch.path().string()}};
  const Finished done =
      run_shell("chmod +x bin/xdg-open; '" + places::program +
                    "' page --open >out & server=$!; n=0; "
                    "while [ ! -s words ] && [ $n -lt 200 ]; do sleep 0.05; n=$((n+1)); done; "
                    "kill -TERM $server; kill -TERM $server 2>kills; wait $server",
                here);
  EXPECT_EQ(done.exit_code, 0) << done.err;
  const std::string out = read_file(scratch.path() / "out");
  const std::string address = out.substr(0, out.find('\n'));
  ASSERT_EQ(address.rfind("http://127.0.0.1:", 0), 0u) << out;
  const std::string token = address.substr(address.find('#') + 1);
  EXPECT_EQ(token.size(), 32u);
  EXPECT_EQ(read_file(scratch.path() / "mode"), "600\n");
  EXPECT_NE(read_file(scratch.path() / "page").find(address), std::string::npos);
  EXPECT_EQ(read_file(scratch.path() / "words").find(token), std::string::npos)
      << "the list of processes shows it";
  int left = 0;
  for (const auto& file : std::filesystem::directory_iterator(scratch.path()))
    left += file.path().extension() == ".html";
  EXPECT_EQ(left, 0);
}

TEST(PageVerb, SaysWhenItsPortIsTaken) {
  Request request;
  request.paper = *read_paper("a4");
  const PageAnswers answers(request);
  const PageServer first(answers, 0);
  const Finished second = run({places::program, "page", "--port", first.origin().substr(17)});
  EXPECT_EQ(second.exit_code, 2);
  EXPECT_NE(second.err.find("is not free"), std::string::npos) << second.err;
}

} // namespace
} // namespace shankline::tests::page_server_test
