// Addresses of an archive on a server: "postgresql://bench@host/shankline".
#pragma once

#include <string>
#include <string_view>

namespace shankline {

/// Returns true if what was given names a server and not a file.
bool is_server_address(std::string_view given);

/// The address without any password, as messages show it.
std::string shown_address(std::string_view address);

} // namespace shankline
