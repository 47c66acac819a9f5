// Where the sheets of an order go.
#pragma once

#include "cli/request.hpp"

#include <string>

namespace shankline {

/// -o as a file, the order's name in -o as a directory, or the order's name with .pdf here.
std::string target_of(const Request& request, const std::string& order);

/// Makes the folder that -o names by a '/' at its end, if it is not there. Throws FileFault.
void make_output_folder(const Request& request);

/// A file beside the sheets: its name is theirs without .pdf, then `suffix`.
std::string beside_target(const std::string& target, const std::string& suffix);

/// "wrote FILE", and "wrote FILE (3 pages)".
std::string wrote_file(const std::string& file);
std::string wrote_pages(const std::string& file, std::size_t pages);

/// "wrote FILE (3 pages): print at 100 %, then lay a bank card on it"
std::string wrote_words(const std::string& target, std::size_t pages);

} // namespace shankline
