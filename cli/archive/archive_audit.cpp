#include "cli/archive/archive_audit.hpp"

#include "cli/archive/archive_chain.hpp"

#include <map>
#include <set>
#include <sstream>

namespace shankline {
namespace {

constexpr std::size_t audited_at_once = 64; // entries in memory

class Auditor {
public:
  Auditor(Store& store, const std::string& known) : store_(store), known_(known) {
    audit_.end.hash = chain_start();
    audit_.known_found = known.empty() || known == audit_.end.hash;
  }

  Audit run() && {
    for (std::string& fault : store_.faults_of_store())
      say(0, std::move(fault));
    try {
      read_all();
      compare_ends();
      compare_counts();
      audit_.erasing = store_.is_to_clean();
    } catch (const ArchiveDamaged& fault) {
      say(0, std::string("nothing more can be read: ") + fault.what());
    }
    check_forgotten();
    if (!audit_.known_found)
      say(0, "the chain does not pass through the end that was noted earlier");
    return std::move(audit_);
  }

private:
  void say(EntryId id, std::string what) { audit_.faults.push_back({id, std::move(what)}); }

  void read_all() {
    while (true) {
      const std::vector<ArchiveEntry> entries = store_.as_stored(audit_.end.id, audited_at_once);
      for (const ArchiveEntry& entry : entries)
        take(entry);
      if (entries.size() < audited_at_once) return;
    }
  }

  void take(const ArchiveEntry& entry) {
    const EntryHead& head = entry.head;
    bool follows = true;
    for (EntryId id = audit_.end.id + 1; id < head.id; ++id) {
      say(id, "is missing");
      follows = false;
    }
    check_content(entry);
    if (follows && head.before != audit_.end.hash)
      say(head.id, "does not follow from the entry before it: one of the two was changed or moved");
    count(head);
    audit_.end = {head.id, chain_hash(head.before, head.digest)};
    audit_.known_found = audit_.known_found || audit_.end.hash == known_;
  }

  void check_content(const ArchiveEntry& entry) {
    const EntryHead& head = entry.head;
    if (head.kind == EntryKind::forgotten) {
      forgotten_[head.digest] = head.id;
      if (!holds_nothing(head) || head.turn != 0 || entry.body != EntryBody{})
        say(head.id, "was forgotten and holds something all the same");
      return;
    }
    if (head.withheld)
      ++audit_.withheld;
    else if (head_digest(head) != head.digest)
      say(head.id, "was changed");
    if (head.kind == EntryKind::cut && body_digest(entry.body) != head.body)
      say(head.id, "its order, solution or sheets were changed");
    if (head.kind == EntryKind::forgetting) {
      std::istringstream digests(head.about);
      for (std::string digest; digests >> digest;)
        erased_.insert(digest);
    }
  }

  void count(const EntryHead& head) {
    switch (head.kind) {
    case EntryKind::cut:
      ++audit_.cuts;
      break;
    case EntryKind::note:
      ++audit_.notes;
      break;
    case EntryKind::forgotten:
      ++audit_.forgotten;
      return;
    case EntryKind::forgetting:
      if (head.turn != 0) say(head.id, "is counted among a dancer's entries");
      return;
    }
    if (head.turn != ++turns_[head.dancer])
      say(head.id, "is miscounted among its dancer's entries");
  }

  void compare_ends() {
    const ChainEnd counted = store_.end();
    for (EntryId id = audit_.end.id + 1; id <= counted.id; ++id)
      say(id, "is missing");
    if (counted.id < audit_.end.id)
      say(audit_.end.id, "there are more entries than were counted");
    else if (counted.id == audit_.end.id && counted.hash != audit_.end.hash)
      say(audit_.end.id, "is not the entry that was last saved");
  }

  void compare_counts() {
    for (const auto& [dancer, entries] : turns_)
      if (store_.counted(dancer) != entries) {
        say(0, "the count of a dancer's entries is wrong");
        return;
      }
    if (store_.dancers() != turns_.size()) say(0, "the count of dancers is wrong");
  }

  /// Emptying an entry by hand is not forgetting.
  void check_forgotten() {
    for (const auto& [digest, id] : forgotten_)
      if (!erased_.contains(digest)) say(id, "was emptied, and nothing says that it was forgotten");
  }

  Store& store_;
  const std::string& known_;
  Audit audit_;
  std::map<std::string, std::int64_t> turns_;
  std::map<std::string, EntryId> forgotten_;
  std::set<std::string> erased_;
};

} // namespace

Audit audit(Store& store, const std::string& known) {
  return Auditor(store, known).run();
}

} // namespace shankline
