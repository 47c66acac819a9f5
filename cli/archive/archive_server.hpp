// The archive as tables of a PostgreSQL server, 15 or later, that several benches share.
//
// The server numbers and chains the entries while it holds the row that says where the chain ends.
// It reads back what it stored and works the digests out of that before it commits. This program
// verifies what it reads, as it does with a file. An entry carries its digest when it is sent: if
// the connection breaks while it is being committed, it is sent again, and the server keeps the one
// that it has.
#pragma once

#include "cli/archive/archive_any_store.hpp"
#include "cli/archive/archive_file.hpp"

#include <chrono>
#include <memory>
#include <string>

namespace shankline {

/// A dancer was forgotten after this entry was made: the archive does not take it again.
struct DancerForgotten : ArchiveFault {
  using ArchiveFault::ArchiveFault;
};

class ServerStore final : public Store {
public:
  /// `patience`: how long to wait for the server, and for another program that writes. Throws
  /// ServerUnreachable if the server cannot be reached, and ArchiveFault if its database was not
  /// prepared or has tables of another version.
  ServerStore(const std::string& address, ArchiveUse use, std::chrono::milliseconds patience);
  ~ServerStore() override;

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
