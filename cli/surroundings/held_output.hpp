// Holds back the output of a command until all of it is there.
#pragma once

#include <cstddef>
#include <iosfwd>
#include <string>
#include <string_view>

namespace shankline {

/// Takes an output piece by piece and gives it away as a whole. Its beginning is in memory, the
/// rest in a file without a name in the folder for temporary files, so that memory does not grow
/// with it and nothing stays behind.
class HeldOutput {
public:
  HeldOutput() = default;
  HeldOutput(const HeldOutput&) = delete;
  HeldOutput& operator=(const HeldOutput&) = delete;
  ~HeldOutput();

  /// Throws FileFault if the temporary file cannot be written.
  void add(std::string_view piece);
  /// Throws FileFault if the temporary file cannot be read again. Leaves it to the stream to say
  /// that it could not be written to.
  void write_to(std::ostream& out) const;

private:
  void put_into_file();

  std::string waiting_; ///< not yet in the file
  int file_ = -1;       ///< -1 while all of it is in memory
};

} // namespace shankline
