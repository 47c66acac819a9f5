// An archive to be written into again and again, made anew before it grows long.
#pragma once

#include "cli/archive/archive_store.hpp"
#include "tests/support/scratch_directory.hpp"

#include <filesystem>
#include <optional>
#include <string>

namespace shankline::tests {

class PassingStore {
public:
  explicit PassingStore(EntryId longest) : longest_(longest) {}

  ArchiveStore& use() {
    if (store_ && store_->end().id < longest_) return *store_;
    store_.reset();
    for (const auto& file : std::filesystem::directory_iterator(scratch_.path()))
      std::filesystem::remove(file.path());
    store_.emplace((scratch_.path() / "archive.sqlite").string(), ArchiveUse::write);
    return *store_;
  }

private:
  EntryId longest_;
  ScratchDirectory scratch_;
  std::optional<ArchiveStore> store_;
};

} // namespace shankline::tests
