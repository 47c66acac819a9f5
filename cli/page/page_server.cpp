#include "cli/page/page_server.hpp"

#include "cli/page/page_shell.hpp"
#include "cli/surroundings/loaded_library.hpp"
#include "cli/surroundings/source_date.hpp"

#include <algorithm>
#include <array>
#include <atomic>
#include <cerrno>
#include <chrono>
#include <cstring>
#include <map>
#include <microhttpd.h>
#include <mutex>
#include <netinet/in.h>
#include <optional>
#include <stdexcept>
#include <sys/random.h>
#include <sys/socket.h>
#include <utility>

namespace shankline {
namespace {

using Clock = std::chrono::steady_clock;

constexpr unsigned most_connections = 32;
constexpr unsigned idle_timeout = 10;       // seconds
constexpr std::size_t head_memory = 24'576; // a connection: 16 KiB of headers, and what they need
constexpr auto longest_request = std::chrono::seconds(10);

/// The functions of libmicrohttpd that are needed here, looked up by name.
class Library : LoadedLibrary {
public:
  decltype(&MHD_start_daemon) start = nullptr;
  decltype(&MHD_stop_daemon) stop = nullptr;
  decltype(&MHD_get_daemon_info) daemon_info = nullptr;
  decltype(&MHD_get_connection_info) connection_info = nullptr;
  decltype(&MHD_lookup_connection_value) value = nullptr;
  decltype(&MHD_create_response_from_buffer) response = nullptr;
  decltype(&MHD_add_response_header) add_header = nullptr;
  decltype(&MHD_queue_response) queue = nullptr;
  decltype(&MHD_destroy_response) destroy = nullptr;

  Library() : LoadedLibrary("libmicrohttpd.so.12") {
    ready_ = loaded() && look_up(start, "MHD_start_daemon") && look_up(stop, "MHD_stop_daemon") &&
             look_up(daemon_info, "MHD_get_daemon_info") &&
             look_up(connection_info, "MHD_get_connection_info") &&
             look_up(value, "MHD_lookup_connection_value") &&
             look_up(response, "MHD_create_response_from_buffer") &&
             look_up(add_header, "MHD_add_response_header") &&
             look_up(queue, "MHD_queue_response") && look_up(destroy, "MHD_destroy_response");
  }
  bool ready() const { return ready_; }

private:
  bool ready_ = false;
};

/// The functions, some of them null where the library is missing.
const Library& functions_found() {
  static const Library loaded;
  return loaded;
}

/// For everything behind the constructor of PageServer, which refuses where the library is missing.
const Library& library() {
  const Library& found = functions_found();
  if (!found.ready()) throw std::logic_error("a page's server needs its library");
  return found;
}

std::string random_token() {
  std::array<unsigned char, 16> bytes{};
  if (::getrandom(bytes.data(), bytes.size(), 0) != static_cast<ssize_t>(bytes.size()))
    throw EnvironmentFault("the system gives no random numbers for the page's token");
  std::string token;
  for (const unsigned char byte : bytes)
    for (const int half : {byte >> 4, byte & 15})
      token += "0123456789abcdef"[half];
  return token;
}

const ShellFile* shell_file(std::string_view path) {
  if (path == "/") path = "/index.html";
  for (const ShellFile& file : page_shell())
    if (file.path == path) return &file;
  return nullptr;
}

/// A request that is being received.
struct Receiving {
  std::string body;
  int refused = 0; ///< a status; what is still sent is not kept then
};

const char* words_of(int status) {
  switch (status) {
  case 403:
    return R"({"error":"this is not the page's own request"})";
  case 404:
    return R"({"error":"nothing is there"})";
  case 405:
    return R"({"error":"not this method"})";
  case 413:
    return R"({"error":"the request is too large"})";
  case 415:
    return R"({"error":"the request is no JSON"})";
  default:
    return R"({"error":"wrong request"})";
  }
}

} // namespace

struct PageServer::Parts {
  const PageAnswers& answers;
  std::string origin;
  std::string token;
  MHD_Daemon* daemon = nullptr;
  std::atomic<Clock::rep> last_request = Clock::now().time_since_epoch().count();
  std::mutex mutex;
  std::map<int, Clock::time_point> open; ///< sockets, and since when

  explicit Parts(const PageAnswers& given) : answers(given), token(random_token()) {}

  void noted(MHD_Connection* connection, bool begins) {
    const auto* info = library().connection_info(connection, MHD_CONNECTION_INFO_CONNECTION_FD);
    if (!info) return;
    const std::lock_guard<std::mutex> lock(mutex);
    if (begins)
      open[info->connect_fd] = Clock::now();
    else
      open.erase(info->connect_fd);
  }

  std::string_view header(MHD_Connection* connection, const char* name) const {
    const char* value = library().value(connection, MHD_HEADER_KIND, name);
    return value ? value : std::string_view();
  }

  static MHD_Result send(MHD_Connection* connection, int status, std::string_view type,
                         std::string_view bytes) {
    const Library& http = library();
    MHD_Response* response =
        http.response(bytes.size(), const_cast<char*>(bytes.data()), MHD_RESPMEM_MUST_COPY);
    if (!response) return MHD_NO;
    const std::string type_text(type);
    constexpr std::array<std::pair<const char*, const char*>, 8> headers{{
        {"Content-Security-Policy",
         "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; "
         "connect-src 'self'; form-action 'none'; base-uri 'none'; frame-ancestors 'none'"},
        {"X-Content-Type-Options", "nosniff"},
        {"Cache-Control", "no-store"},
        {"Referrer-Policy", "no-referrer"},
        {"Cross-Origin-Opener-Policy", "same-origin"},
        {"Cross-Origin-Resource-Policy", "same-origin"},
        {"X-Frame-Options", "DENY"},
        // A request a connection: what has been open for long is slow, and dropped.
        {"Connection", "close"},
    }};
    for (const auto& [name, value] : headers)
      http.add_header(response, name, value);
    http.add_header(response, "Content-Type", type_text.c_str());
    const MHD_Result sent = http.queue(connection, static_cast<unsigned>(status), response);
    http.destroy(response);
    return sent;
  }

  static MHD_Result refuse(MHD_Connection* connection, int status) {
    return send(connection, status, "application/json", words_of(status));
  }

  int refused(MHD_Connection* connection, const char* path, const char* method) const {
    PageRequestHead head;
    head.method = method;
    head.path = path;
    head.host = header(connection, "Host");
    head.origin = header(connection, "Origin");
    head.fetch_site = header(connection, "Sec-Fetch-Site");
    head.content_type = header(connection, "Content-Type");
    head.token = header(connection, "Shankline-Token");
    head.is_known = shell_file(path) != nullptr;
    return refused_head(head, origin, token);
  }

  MHD_Result answer(MHD_Connection* connection, const char* path, const Receiving& request) {
    last_request = Clock::now().time_since_epoch().count();
    if (const ShellFile* file = shell_file(path))
      return send(connection, 200, file->type, file->bytes);
    const PageAnswer answer = answers.to(path, request.body);
    return send(connection, answer.status, answer.type, answer.body);
  }

  /// Called when the headers are there, for every piece of the body, and at its end.
  MHD_Result receive(MHD_Connection* connection, const char* path, const char* method,
                     const char* piece, std::size_t* size, void** state) {
    if (!*state) {
      auto request = std::make_unique<Receiving>();
      request->refused = refused(connection, path, method);
      *state = request.release();
      return MHD_YES;
    }
    auto& request = *static_cast<Receiving*>(*state);
    if (*size > 0) {
      if (request.body.size() + *size > largest_page_body) request.refused = 413;
      if (request.refused == 0) request.body.append(piece, *size);
      if (request.refused == 413) return MHD_NO; // no end of it is waited for
      *size = 0;
      return MHD_YES;
    }
    if (request.refused != 0) return refuse(connection, request.refused);
    return answer(connection, path, request);
  }
};

namespace {

MHD_Result on_request(void* parts, MHD_Connection* connection, const char* path, const char* method,
                      const char*, const char* piece, std::size_t* size, void** state) {
  try {
    return static_cast<PageServer::Parts*>(parts)->receive(connection, path, method, piece, size,
                                                           state);
  } catch (...) { // the library is in C: nothing may be thrown through it
    return MHD_NO;
  }
}

void on_end(void*, MHD_Connection*, void** state, MHD_RequestTerminationCode) {
  delete static_cast<Receiving*>(*state);
  *state = nullptr;
}

void on_connection(void* parts, MHD_Connection* connection, void**,
                   MHD_ConnectionNotificationCode what) {
  try {
    static_cast<PageServer::Parts*>(parts)->noted(connection,
                                                  what == MHD_CONNECTION_NOTIFY_STARTED);
  } catch (...) { // such a connection is dropped by the library's own timeout
  }
}

void say_nothing(void*, const char*, va_list) {}

} // namespace

PageServer::PageServer(const PageAnswers& answers, std::uint16_t port)
    : parts_(std::make_unique<Parts>(answers)) {
  const Library& http = functions_found();
  if (!http.ready())
    throw EnvironmentFault("the page is served with the library libmicrohttpd, and it is not here: "
                           "install it, on Debian as libmicrohttpd12");
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_port = htons(port);
  address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  parts_->daemon = http.start(
      MHD_USE_INTERNAL_POLLING_THREAD | MHD_USE_AUTO | MHD_USE_ERROR_LOG, port, nullptr, nullptr,
      on_request, parts_.get(), MHD_OPTION_EXTERNAL_LOGGER, say_nothing, nullptr,
      MHD_OPTION_SOCK_ADDR, reinterpret_cast<sockaddr*>(&address), MHD_OPTION_CONNECTION_LIMIT,
      most_connections, MHD_OPTION_CONNECTION_TIMEOUT, idle_timeout,
      MHD_OPTION_CONNECTION_MEMORY_LIMIT, head_memory, MHD_OPTION_NOTIFY_COMPLETED, on_end,
      parts_.get(), MHD_OPTION_NOTIFY_CONNECTION, on_connection, parts_.get(), MHD_OPTION_END);
  if (!parts_->daemon)
    throw EnvironmentFault("port " + std::to_string(port) +
                           " of this machine is not free: leave --port out, and one that is free "
                           "is taken");
  const auto* bound = http.daemon_info(parts_->daemon, MHD_DAEMON_INFO_BIND_PORT);
  parts_->origin = "http://127.0.0.1:" + std::to_string(bound ? bound->port : port);
}

PageServer::~PageServer() {
  library().stop(parts_->daemon);
}

const std::string& PageServer::origin() const {
  return parts_->origin;
}

const std::string& PageServer::token() const {
  return parts_->token;
}

void PageServer::drop_slow_ones() {
  const auto now = Clock::now();
  const std::lock_guard<std::mutex> lock(parts_->mutex);
  for (const auto& [socket, since] : parts_->open)
    if (now - since > longest_request) ::shutdown(socket, SHUT_RDWR);
}

double PageServer::idle_seconds() const {
  const Clock::time_point last{Clock::duration(parts_->last_request.load())};
  return std::chrono::duration<double>(Clock::now() - last).count();
}

} // namespace shankline
