// One program at a time at one thing on this machine.
#pragma once

#include <string>

namespace shankline {

/// Holds a name while it lives, which no other program on this machine can hold meanwhile. The
/// system keeps the name, and no file: it is free again as soon as the program ends, however it
/// ends. Programs in a container or on another machine do not see each other.
class SoleUse {
public:
  /// `work` is what is done, "ask"; `path` a file, which need not be there. Two paths that lead to
  /// one file by links are one. Throws FileFault where too many files are open. Where this system
  /// has no such names, nobody else is seen.
  SoleUse(const std::string& work, const std::string& path);
  SoleUse(const SoleUse&) = delete;
  SoleUse& operator=(const SoleUse&) = delete;
  ~SoleUse();

  /// Returns false if another program holds the name.
  bool is_mine() const { return mine_; }

private:
  int socket_;
  bool mine_ = true;
};

} // namespace shankline
