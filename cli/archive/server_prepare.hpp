// Prepares an empty database of a server for an archive.
#pragma once

#include <chrono>
#include <string>
#include <vector>

namespace shankline {

struct Prepared {
  std::vector<std::string> done; ///< what was made or changed, a sentence each; may be empty
  std::string keeper;            ///< the role that may forget, move and prepare
  std::string bench;             ///< the role that may append and read
  std::string reader;            ///< the role that may read
};

/// Makes the roles, tables, functions and rights that are missing; all of them or none. Roles are
/// named after the database. Throws ArchiveFault for a server before version 15, a database that
/// holds something else, one that is not in UTF-8, and for a user who may not make roles.
Prepared prepare_server(const std::string& address, std::chrono::milliseconds patience);

/// `name` as an identifier, in quotation marks.
std::string as_identifier(const std::string& name);

} // namespace shankline
