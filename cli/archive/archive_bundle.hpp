// Archives as plain YAML, to be carried elsewhere: a first document that names the format, then one
// document for each entry.
//
// A bundle of a whole archive also carries the end of its chain. Read into an empty archive and
// written again it gives the same bytes.
#pragma once

#include "cli/archive/archive_any_store.hpp"

#include <functional>
#include <stdexcept>
#include <string>
#include <string_view>

namespace shankline {

inline constexpr std::string_view bundle_format = "shankline-archive/1";

/// A fault in a bundle, and its place.
struct BundleFault : std::runtime_error {
  explicit BundleFault(const std::string& what,
                       const char* what_to_do = "bring the bundle as it was exported")
      : std::runtime_error(what), advice(what_to_do) {}
  const char* advice;
};

/// Hands the text to `put` piece by piece; only the entries of `dancer` unless that is empty.
void write_bundle(Store& store, const std::string& dancer,
                  const std::function<void(std::string_view)>& put);

/// Reads all of the file and throws BundleFault unless it is a sound bundle.
void require_bundle(const std::string& path);

/// A bundle of one entry, whose digests are filled in.
std::string bundle_of(const ArchiveEntry& entry);
/// Throws BundleFault unless the file is a sound bundle of one entry.
ArchiveEntry read_one_entry(const std::string& path);

/// Adds the entries that the archive does not have yet; all of them or none. Throws BundleFault and
/// ArchiveFault.
Store::Merged read_bundle(Store& store, const std::string& path);

} // namespace shankline
