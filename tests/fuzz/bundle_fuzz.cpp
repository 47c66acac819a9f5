// Feeds any bytes to the import of bundles, into an archive that has entries already: it must take
// them all or say no and leave the archive as it was, and what it took comes out again.
#include "cli/archive/archive_bundle.hpp"
#include "tests/fuzz/passing_file.hpp"
#include "tests/fuzz/passing_store.hpp"

#include <cstddef>
#include <cstdint>
#include <cstdlib>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  using namespace shankline;
  static tests::PassingStore store;
  const tests::PassingFile bundle({reinterpret_cast<const char*>(bytes), size});
  ArchiveStore& into = store.use();
  const ChainEnd before = into.end();
  try {
    const ArchiveStore::Merged merged = read_bundle(into, bundle.path());
    if (into.end().id != before.id + static_cast<EntryId>(merged.added)) std::abort();
  } catch (const BundleFault& fault) {
    if (into.end() != before || fault.what()[0] == '\0') std::abort();
    return 0;
  }
  if (into.end() == before) return 0;
  std::string again;
  write_bundle(into, {}, [&again](std::string_view piece) { again += piece; });
  const tests::PassingFile exported(again);
  if (read_bundle(into, exported.path()).added != 0) std::abort();
  return 0;
}
