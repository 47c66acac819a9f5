// Reads the bytes of an order file. The name may point to anything, so the kind of file is checked
// first.
#pragma once

#include "cli/text/message.hpp"
#include "cli/yaml/order_document.hpp"
#include "export/formats/whole_file.hpp"

#include <cstddef>
#include <string>
#include <variant>

namespace shankline {

/// Reads a plain file of at most `largest` bytes; "-" is standard input, read to its end. Refuses
/// directories, pipes, sockets and devices without waiting for them.
std::variant<std::string, Message> read_order_text(const std::string& path,
                                                   AtLink at_link = AtLink::follow,
                                                   std::size_t largest = largest_order);

/// The most bytes of a table of comma-separated values.
inline constexpr std::size_t largest_table = std::size_t{1} << 20;

/// Reads a table of comma-separated values like an order, but up to `largest_table` bytes.
std::variant<std::string, Message> read_table_text(const std::string& path);

} // namespace shankline
