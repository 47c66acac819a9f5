// An archive's entry: all that the archive keeps of one event, as plain structs. All texts are
// UTF-8; digests and salts are lower-case hexadecimal.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace shankline {

enum class EntryKind {
  cut,        ///< an order, solved and drawn
  note,       ///< a later remark or result about a cut pair
  forgetting, ///< a dancer was forgotten: names the entries that were erased, by their digests
  forgotten,  ///< an erased entry: only its digest is left, so that the chain still holds
};

std::string_view kind_name(EntryKind kind);
/// Returns nullopt if no kind has this name.
std::optional<EntryKind> kind_named(std::string_view name);

/// Returns true if entries of this kind belong to a dancer and are counted for her or him.
bool has_dancer(EntryKind kind);

using EntryId = std::int64_t; ///< 1, 2, 3 … without gaps

/// The part of an entry that lists and searches read; small.
struct EntryHead {
  EntryId id = 0;
  EntryKind kind = EntryKind::cut;
  std::string saved;   ///< UTC, "2026-03-14T09:26:53Z"
  std::string program; ///< version that solved it
  std::string salt;    ///< random, so that an erased entry's digest does not betray its text
  std::string dancer;
  std::int64_t turn = 0; ///< 1, 2, 3 … of this dancer, without gaps; 0 for kinds without a dancer
  std::string pair;
  std::string date;        ///< of the order, YYYY-MM-DD or empty
  std::string alterations; ///< "shank, sides"
  std::string about;       ///< note: digest of the cut; forgetting: digests, a space between two
  std::string summary;     ///< cut: the lines that were ordered, in a few words
  std::string outcome;     ///< note: what happened, JSON
  std::string body;        ///< digest of the EntryBody, empty for none
  std::string before;      ///< hash of the entry before it
  std::string digest;      ///< of all of the above but id, turn and before
  /// note: its words belong to another bench and were withheld, with the salt. The server that
  /// withheld them checked them against the digest.
  bool withheld = false;

  bool operator==(const EntryHead&) const = default;
};

/// Returns true if a board's first cut in this entry follows the rule of the versions before 0.2.0,
/// which put it nearer to the final cut.
bool follows_older_rule(const EntryHead& head);
/// These words are shown wherever such an entry is shown.
inline constexpr std::string_view older_rule_words =
    "This entry is from before version 0.2.0: its first cut follows the older rule. Solve the "
    "order "
    "again before you cut from it.";

/// The part of an entry that is needed to draw a cut again; tens of kilobytes.
struct EntryBody {
  std::string order;    ///< the order's text as given
  std::string options;  ///< paper, units and the other choices, JSON
  std::string solution; ///< JSON, shankline-solution/1
  std::string drawing;  ///< bytes of archive_drawing
  std::string sheets;   ///< SHA-256 of the PDF, which is not compressed

  bool operator==(const EntryBody&) const = default;
};

struct ArchiveEntry {
  EntryHead head;
  EntryBody body;
};

/// The last entry of the chain and its hash.
struct ChainEnd {
  EntryId id = 0;   ///< of the last entry, 0 for an empty archive
  std::string hash; ///< the next entry's `before`

  bool operator==(const ChainEnd&) const = default;
};

} // namespace shankline
