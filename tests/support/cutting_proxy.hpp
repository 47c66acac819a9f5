// Stands between a program and a server's socket and cuts their first connection at a chosen step.
#pragma once

#include "tests/support/scratch_directory.hpp"

#include <atomic>
#include <string>
#include <thread>

namespace shankline::tests {

class CuttingProxy {
public:
  enum class Last { lost, delivered }; ///< what becomes of the piece at which it is cut

  /// `server` is the folder of the server's socket. Of the first connection so many pieces, there
  /// and back, are handed on; later connections are left alone. 0: nothing is cut.
  CuttingProxy(const std::string& server, int cut_at, Last last);
  CuttingProxy(const CuttingProxy&) = delete;
  CuttingProxy& operator=(const CuttingProxy&) = delete;
  ~CuttingProxy();

  const std::filesystem::path& folder() const { return scratch_.path(); } ///< of its own socket
  int pieces() const { return pieces_; } ///< of the first connection, so far

private:
  void serve();
  void carry(int program, int server, bool first);

  ScratchDirectory scratch_;
  std::string server_;
  int cut_at_;
  Last last_;
  int listener_ = -1;
  std::atomic<bool> ending_ = false;
  std::atomic<int> pieces_ = 0;
  std::thread thread_;
};

} // namespace shankline::tests
