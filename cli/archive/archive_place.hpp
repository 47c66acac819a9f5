// Finds the archive's file or server.
#pragma once

#include <string>

namespace shankline {

/// `given` if it is not empty; else the first line of shankline/archive under $XDG_CONFIG_HOME or
/// ~/.config, if there is such a file: a path from the root, or a server's address; else
/// shankline/archive.sqlite under $XDG_DATA_HOME, or under ~/.local/share where that is not set to
/// an absolute path (XDG Base Directory Specification 0.8). Throws ArchiveFault when there is no
/// home either, and for a configured line that is neither.
std::string archive_file(const std::string& given);

/// Returns the file whose first line names the archive, if that line is there; else empty. Throws
/// like archive_file.
std::string archive_naming_file();

/// Returns whether a file of any kind is at that place. Returns false if the place is not known,
/// and true for every server.
bool archive_is_there(const std::string& given);

/// Likewise, and whether it holds a single byte; false for a server, which is not asked.
bool archive_is_begun(const std::string& given);

} // namespace shankline
