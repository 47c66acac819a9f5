#include "cli/surroundings/sole_use.hpp"

#include "export/formats/digest.hpp"
#include "export/formats/system_reason.hpp"
#include "export/formats/whole_file.hpp"

#include <algorithm>
#include <cerrno>
#include <cstddef>
#include <filesystem>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/un.h>
#include <system_error>
#include <unistd.h>

namespace shankline {
namespace {

namespace fs = std::filesystem;

/// Returns a name that is the same for every path to the file. The file itself may not be there
/// yet, so it is named by its folder's number and its name in there.
std::string name_of(const std::string& path) {
  std::error_code error;
  // Absolute first: of a relative path whose beginning is not there, nothing would be resolved.
  const fs::path whole = fs::absolute(path, error);
  fs::path file = fs::weakly_canonical(whole, error);
  if (error) file = whole;
  struct stat folder {};
  if (::stat(file.parent_path().c_str(), &folder) != 0) return file.string();
  return std::to_string(folder.st_dev) + ":" + std::to_string(folder.st_ino) + "/" +
         file.filename().string();
}

} // namespace

SoleUse::SoleUse(const std::string& work, const std::string& path)
    : socket_(::socket(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0)) {
  if (socket_ < 0 && is_out_of_handles(errno)) throw file_fault(path, "cannot be reserved", errno);
  if (socket_ < 0) return;
  const std::string name = "shankline-" + work + "-" + sha256(name_of(path));
  sockaddr_un address{};
  address.sun_family = AF_UNIX;
  // The zero in front makes it a name of the kernel's instead of a file's.
  std::copy(name.begin(), name.end(), address.sun_path + 1);
  const std::size_t size = offsetof(sockaddr_un, sun_path) + 1 + name.size();
  static_assert(sizeof address.sun_path > 1 + 10 + 16 + 1 + 64, "work is a short word");
  mine_ = ::bind(socket_, reinterpret_cast<const sockaddr*>(&address),
                 static_cast<socklen_t>(size)) == 0 ||
          errno != EADDRINUSE;
}

SoleUse::~SoleUse() {
  if (socket_ >= 0) ::close(socket_);
}

} // namespace shankline
