// Feeds any bytes to the import of bundles, into an archive that has entries already: it must take
// them all or say no and leave the archive as it was, and what it took comes out again. The same
// bytes as a file of an outbox: one entry, which comes back as it was kept, or a clear no.
#include "cli/archive/archive_bundle.hpp"
#include "tests/fuzz/passing_file.hpp"
#include "tests/fuzz/passing_store.hpp"

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>

namespace {

using namespace shankline;

void try_one_entry(const std::string& path) {
  std::string kept;
  try {
    kept = bundle_of(read_one_entry(path));
  } catch (const BundleFault& fault) {
    if (fault.what()[0] == '\0') std::abort();
    return;
  }
  const tests::PassingFile again(kept);
  if (bundle_of(read_one_entry(again.path())) != kept) std::abort();
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  static tests::PassingStore store(64);
  const tests::PassingFile bundle({reinterpret_cast<const char*>(bytes), size});
  try_one_entry(bundle.path());
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
