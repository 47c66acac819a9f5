// The files of the page itself, as bytes of the program.
#pragma once

#include "cli/page/page_server.hpp"

#include <span>

namespace shankline {

std::span<const ShellFile> page_shell();

} // namespace shankline
