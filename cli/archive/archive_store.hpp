// Keeps the archive in an SQLite file; no other file knows the database. A file of an earlier
// version is brought up to date when it is opened.
//
// Entries are verified as archive_any_store.hpp says; answers of an index are checked by a second
// count (see archive_schema.hpp). A file whose tables, guards or indexes are not those of its
// version, word for word, is not opened.
#pragma once

#include "cli/archive/archive_any_store.hpp"
#include "cli/archive/archive_file.hpp"

#include <chrono>
#include <memory>
#include <string>

namespace shankline {

class ArchiveStore final : public Store {
public:
  /// `patience`: how long to wait for another program that writes.
  explicit ArchiveStore(const std::string& path, ArchiveUse use,
                        std::chrono::milliseconds patience = std::chrono::seconds(10));
  /// A new archive in a file that has no name yet, which must outlive it. Nobody else can use it.
  explicit ArchiveStore(const ArchiveCopy& copy);
  ~ArchiveStore() override;
  ArchiveStore(ArchiveStore&&) noexcept;
  ArchiveStore& operator=(ArchiveStore&&) noexcept;

  using Store::add;
  std::vector<EntryHead> add(std::vector<ArchiveEntry> entries) override;
  Merged add_missing(const std::function<std::optional<ArchiveEntry>()>& next) override;
  void with_snapshot(const std::function<void()>& reads) override;
  ChainEnd end() override;
  std::optional<EntryHead> head(EntryId id) override;
  EntryBody body(const EntryHead& head) override;
  std::vector<EntryHead> older(EntryId below, std::size_t most) override;
  std::vector<EntryHead> older_of(std::string_view dancer, std::int64_t below,
                                  std::size_t most) override;
  std::size_t forget(std::string_view dancer, const std::string& saved,
                     const std::string& program) override;
  std::vector<ForgottenCode> forgotten_codes() override;
  void keep_forgotten(const std::vector<ForgottenCode>& codes) override;
  bool is_to_clean() override;
  void clean() override;
  void copy_to(const std::string& path) override;
  bool protect() override;
  std::vector<std::string> faults_of_store() override;
  std::vector<ArchiveEntry> as_stored(EntryId above, std::size_t most) override;
  std::int64_t counted(std::string_view dancer) override;
  std::size_t dancers() override;

private:
  struct Database;
  std::unique_ptr<Database> database_;
};

} // namespace shankline
