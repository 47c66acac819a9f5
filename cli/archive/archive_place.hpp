// Where the archive is.
#pragma once

#include <string>

namespace shankline {

/// `given` if it is not empty; else shankline/archive.sqlite under $XDG_DATA_HOME, or under
/// ~/.local/share where that is not set to an absolute path (XDG Base Directory Specification 0.8).
/// Throws ArchiveFault when there is no home either.
std::string archive_file(const std::string& given);

/// The same, and whether there is a file of any kind; false where the place is not known.
bool archive_is_there(const std::string& given);

/// Likewise, and whether it holds a single byte.
bool archive_is_begun(const std::string& given);

} // namespace shankline
