// Addresses of an archive on a server: "postgresql://bench@host/shankline".
#pragma once

#include <string>
#include <string_view>

namespace shankline {

/// Returns true if what was given names a server and not a file.
bool is_server_address(std::string_view given);

/// The address without any password, as messages show it. Where it cannot be told where a password
/// ends, more is left out. What is no address at all comes back without what may be a password.
std::string shown_address(std::string_view address);

/// The words of a library about an address, without the password. The library quotes pieces of the
/// address. Each quoted piece that `shown_address` does not show becomes "...".
std::string without_password(std::string_view said, std::string_view address);

} // namespace shankline
