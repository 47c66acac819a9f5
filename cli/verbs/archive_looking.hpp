// Runs the actions that read the archive: list, history, show, compare, reprint.
#pragma once

#include "cli/archive/archive_any_store.hpp"
#include "cli/job/request.hpp"
#include "cli/surroundings/exit_code.hpp"
#include "geometry/numerics/result.hpp"

#include <iosfwd>
#include <string>

namespace shankline {

/// Writes an error and what to do about it. Returns ExitCode::bad_input.
ExitCode refuse(const std::string& what, const std::string& advice, std::ostream& messages);
/// Writes an error, what is allowed instead and what to do. Returns ExitCode::bad_input.
ExitCode refuse(const Advice& why, std::ostream& messages);
/// Writes the error for a dancer whom the archive does not know, and names the dancer whose code is
/// the same but for its capitals. Returns ExitCode::bad_input.
ExitCode refuse_unknown(Store& store, const std::string& dancer, std::ostream& messages);
/// Does the same where `other` was looked up already; it may be empty.
ExitCode refuse_unknown(const std::string& dancer, const std::string& other,
                        std::ostream& messages);

/// An entry, or the error in words.
struct FoundEntry {
  EntryHead head;
  std::string fault;  ///< empty where it was found
  std::string advice; ///< what to do about the fault
};
FoundEntry find_entry(Store& store, EntryId id);
/// The entry of that number, if it is a cut.
FoundEntry find_cut(Store& store, EntryId id);

// Call each of these within one Store::with_snapshot, so that its output is of one moment.

ExitCode list_archive(Store& store, const Request& request, std::ostream& out,
                      std::ostream& messages);
ExitCode show_history(Store& store, const Request& request, std::ostream& out,
                      std::ostream& messages);
ExitCode show_entry(Store& store, const Request& request, std::ostream& out,
                    std::ostream& messages);
ExitCode compare_entries(Store& store, const Request& request, std::ostream& out,
                         std::ostream& messages);
ExitCode reprint(Store& store, const Request& request, std::ostream& out, std::ostream& messages);

} // namespace shankline
