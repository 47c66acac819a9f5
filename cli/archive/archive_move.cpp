#include "cli/archive/archive_move.hpp"

#include "cli/archive/archive_chain.hpp"
#include "cli/surroundings/archive_fault.hpp"

#include <algorithm>
#include <deque>
#include <optional>
#include <utility>

namespace shankline {
namespace {

constexpr std::size_t moved_at_once = 64; // entries in memory
constexpr std::size_t in_one_step = 256;  // entries that are added together

class Move {
public:
  Move(Store& from, const std::string& from_name, Store& to, const std::string& to_name)
      : from_(from), from_name_(from_name), to_(to), to_name_(to_name) {}

  Moved run() && {
    const ChainEnd goal = from_.end();
    ChainEnd at = to_.end();
    moved_.present = std::min(at.id, goal.id);
    require_common_beginning(goal, at);
    read_ = at;
    while (read_.id < goal.id) {
      std::size_t left = in_one_step;
      const Store::Merged merged = to_.add_missing([&]() -> std::optional<ArchiveEntry> {
        if (left-- == 0 || read_.id >= goal.id) return std::nullopt;
        return next();
      });
      moved_.added += static_cast<EntryId>(merged.added);
      if (merged.present > 0 || to_.end() != read_)
        throw ArchiveFault(to_name_ + ": somebody else saved into this archive while it was filled",
                           "let all others wait, and begin again with an empty archive");
    }
    // After the entries: some of them may be older than the forgetting of a code that was given to
    // somebody else, and belong to the chain all the same.
    to_.keep_forgotten(from_.forgotten_codes());
    moved_.end = read_;
    return moved_;
  }

private:
  static std::string hash_at(Store& store, EntryId id) {
    if (id == 0) return chain_start();
    const auto head = store.head(id);
    return head ? chain_hash(head->before, head->digest) : std::string();
  }

  void require_common_beginning(const ChainEnd& goal, const ChainEnd& at) {
    const EntryId common = std::min(goal.id, at.id);
    if (hash_at(from_, common) == hash_at(to_, common)) return;
    throw ArchiveFault(to_name_ + ": holds other entries than " + from_name_,
                       "give an empty archive, or one that an earlier move began; to join two "
                       "archives use export and import");
  }

  ArchiveEntry next() {
    if (waiting_.empty())
      for (ArchiveEntry& entry : from_.as_stored(read_.id, moved_at_once))
        waiting_.push_back(std::move(entry));
    const auto damaged = [this](const std::string& what) {
      throw ArchiveDamaged(from_name_ + ": entry " + std::to_string(read_.id + 1) + " " + what,
                           "run shankline archive audit; bring back a backup");
    };
    if (waiting_.empty() || waiting_.front().head.id != read_.id + 1) damaged("is missing");
    ArchiveEntry entry = std::move(waiting_.front());
    waiting_.pop_front();
    const EntryHead& head = entry.head;
    if (head.withheld)
      throw ArchiveFault(from_name_ + ": entry " + std::to_string(head.id) +
                             " holds words of another bench that are kept from you",
                         "let the keeper move the archive");
    const bool sound =
        head.kind == EntryKind::forgotten ? holds_nothing(head) : head_digest(head) == head.digest;
    if (!sound || (head.kind == EntryKind::cut && body_digest(entry.body) != head.body) ||
        head.before != read_.hash)
      damaged("is not what was saved");
    read_ = {head.id, chain_hash(head.before, head.digest)};
    return entry;
  }

  Store& from_;
  const std::string& from_name_;
  Store& to_;
  const std::string& to_name_;
  Moved moved_;
  ChainEnd read_; ///< the last entry that was taken from there
  std::deque<ArchiveEntry> waiting_;
};

} // namespace

Moved move_archive(Store& from, const std::string& from_name, Store& to,
                   const std::string& to_name) {
  return Move(from, from_name, to, to_name).run();
}

} // namespace shankline
