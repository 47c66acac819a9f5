// Gives every file of a folder to a fuzzer's target, without the fuzzer: what once failed is tried
// again every day. A folder that holds nothing is a mistake.
//
//   fuzz_kept TARGET FOLDER
#include "tests/fuzz/replay.hpp"

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>

int main(int count, char** words) {
  using shankline::tests::fuzz_targets;
  const auto target =
      std::find_if(fuzz_targets.begin(), fuzz_targets.end(),
                   [&](const auto& known) { return count == 3 && known.name == words[1]; });
  if (target == fuzz_targets.end()) {
    std::printf("usage: fuzz_kept TARGET FOLDER\n");
    return 1;
  }
  int tried = 0;
  for (const auto& entry : std::filesystem::directory_iterator(words[2])) {
    if (!entry.is_regular_file()) continue;
    std::printf("%s\n", entry.path().c_str());
    std::fflush(stdout); // the last name is the one that failed
    std::ifstream file(entry.path(), std::ios::binary);
    const std::string text{std::istreambuf_iterator<char>(file), {}};
    target->run(reinterpret_cast<const std::uint8_t*>(text.data()), text.size());
    ++tried;
  }
  if (tried == 0) std::printf("%s: nothing to try\n", words[2]);
  return tried == 0 ? 1 : 0;
}
