// Gives every file of the named folders to a fuzzer's target, without the fuzzer: what once failed
// is tried again every day. A folder that holds nothing is a mistake.
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size);

int main(int count, char** folders) {
  for (int i = 1; i < count; ++i) {
    int tried = 0;
    for (const auto& entry : std::filesystem::directory_iterator(folders[i])) {
      if (!entry.is_regular_file()) continue;
      std::printf("%s\n", entry.path().c_str());
      std::fflush(stdout); // the last name is the one that failed
      std::ifstream file(entry.path(), std::ios::binary);
      const std::string text{std::istreambuf_iterator<char>(file), {}};
      LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(text.data()), text.size());
      ++tried;
    }
    if (tried == 0) {
      std::printf("%s: nothing to try\n", folders[i]);
      return 1;
    }
  }
  return 0;
}
