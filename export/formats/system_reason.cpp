#include "export/formats/system_reason.hpp"

#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <sys/resource.h>
#include <unistd.h>

namespace shankline {

bool is_out_of_handles(int error) {
  return error == EMFILE || error == ENFILE;
}

std::string system_reason(int error) {
  if (error == ENFILE) return "too many files are open on this machine";
  if (error != EMFILE) return std::strerror(error);
  rlimit limit{};
  if (::getrlimit(RLIMIT_NOFILE, &limit) != 0) return "too many files are open";
  return "too many files are open: only " + std::to_string(limit.rlim_cur) + " are allowed here";
}

std::string system_advice(int error, std::string otherwise) {
  if (error == EMFILE) return "allow more open files, as in  ulimit -n 256, and try again";
  if (error == ENFILE) return "close other programs and try again";
  return otherwise;
}

int why_no_handle() {
  const int probe = ::open("/dev/null", O_RDONLY | O_CLOEXEC);
  if (probe < 0) return is_out_of_handles(errno) ? errno : 0;
  ::close(probe);
  return 0;
}

} // namespace shankline
