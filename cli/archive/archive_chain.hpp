// The chain that ties the archive's entries together. An entry's digest covers what it says; its
// hash covers that digest and the hash of the entry before it, so that no entry can be changed,
// taken out or moved without all later ones showing it. An erased entry keeps its digest, and the
// chain still holds.
//
// Not proof against somebody who can write to the file and works the whole chain out anew: only the
// end of the chain, written down elsewhere, shows that.
#pragma once

#include "cli/archive/archive_entry.hpp"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace shankline {

/// Hexadecimal digits of a digest or a hash.
inline constexpr std::size_t digest_digits = 64;

/// The first entry's hash of the entry before it: a constant, since there is none.
std::string chain_start();

std::string body_digest(const EntryBody& body);

/// Hash of everything that the entry says, without its id, turn, `before` and `digest`.
std::string head_digest(const EntryHead& head);

/// Returns true if an erased entry is empty but for its digest, as it should be.
bool holds_nothing(const EntryHead& forgotten);

/// Hash of an entry, SHA-256 (FIPS 180-4).
std::string chain_hash(std::string_view before, std::string_view digest);

/// Returns true if `newest_first[i]` has the hash that the entry after it carries; the archive's
/// last entry, whether it has the hash of `end`. True where the entry after it is not among them.
/// Their ids follow one another without a gap.
bool is_chained(const std::vector<EntryHead>& newest_first, std::size_t i, const ChainEnd& end);

/// Sixteen random bytes, hexadecimal.
std::string new_salt();

/// Fills in both digests.
void seal(ArchiveEntry& entry);

/// Fills in a salt if there is none, and both digests. A `forgotten` entry keeps its digest.
void complete(ArchiveEntry& entry);

} // namespace shankline
