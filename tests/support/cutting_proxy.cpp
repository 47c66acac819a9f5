#include "tests/support/cutting_proxy.hpp"

#include <array>
#include <cstring>
#include <poll.h>
#include <stdexcept>
#include <sys/socket.h>
#include <sys/un.h>
#include <unistd.h>

namespace shankline::tests {
namespace {

sockaddr_un address_in(const std::string& folder) {
  sockaddr_un address{};
  address.sun_family = AF_UNIX;
  const std::string path = folder + "/.s.PGSQL.5432";
  std::memcpy(address.sun_path, path.c_str(),
              std::min(path.size() + 1, sizeof address.sun_path - 1));
  return address;
}

} // namespace

CuttingProxy::CuttingProxy(const std::string& server, int cut_at, Last last)
    : server_(server), cut_at_(cut_at), last_(last),
      listener_(::socket(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0)) {
  const sockaddr_un address = address_in(scratch_.path().string());
  if (::bind(listener_, reinterpret_cast<const sockaddr*>(&address), sizeof address) != 0 ||
      ::listen(listener_, 16) != 0)
    throw std::runtime_error("no socket can be made");
  thread_ = std::thread([this] { serve(); });
}

CuttingProxy::~CuttingProxy() {
  ending_ = true;
  thread_.join();
  ::close(listener_);
}

/// One connection after the other, as a program makes them that goes on after a break.
void CuttingProxy::serve() {
  bool first = true;
  while (!ending_) {
    pollfd waits{listener_, POLLIN, 0};
    if (::poll(&waits, 1, 20) <= 0) continue;
    const int program = ::accept(listener_, nullptr, nullptr);
    const int server = ::socket(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0);
    const sockaddr_un address = address_in(server_);
    if (::connect(server, reinterpret_cast<const sockaddr*>(&address), sizeof address) == 0)
      carry(program, server, first);
    first = false;
    ::close(program);
    ::close(server);
  }
}

void CuttingProxy::carry(int program, int server, bool first) {
  std::array<char, 65536> piece;
  while (!ending_) {
    std::array<pollfd, 2> waits{pollfd{program, POLLIN, 0}, pollfd{server, POLLIN, 0}};
    if (::poll(waits.data(), waits.size(), 20) <= 0) continue;
    for (std::size_t i = 0; i < waits.size(); ++i) {
      if (waits[i].revents == 0) continue;
      const ssize_t size = ::read(waits[i].fd, piece.data(), piece.size());
      if (size <= 0) return;
      const bool cut = first && ++pieces_ == cut_at_;
      if (cut && last_ == Last::lost) return;
      for (ssize_t at = 0; at < size;) {
        const ssize_t written = ::send(waits[1 - i].fd, piece.data() + at,
                                       static_cast<std::size_t>(size - at), MSG_NOSIGNAL);
        if (written <= 0) return;
        at += written;
      }
      if (cut) return;
    }
  }
}

} // namespace shankline::tests
