// A whole order to start from, and ways to spoil it.
#pragma once

#include "cli/text/message.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace shankline::tests {

/// Every section, both feet.
std::string sketch_order();

/// The sketch with one piece of text replaced; throws std::logic_error when it is not there.
std::string sketch_with(std::string_view piece, std::string_view instead);

/// All messages as text, for failing assertions.
std::string all_text(const std::vector<Message>& messages);

} // namespace shankline::tests
