// Texts as they stand in a YAML file, so that the reader of our own files gives them back to the
// last byte, whatever they hold.
#pragma once

#include <string>
#include <string_view>

namespace shankline {

/// A text behind its key, on one line: as it is where that reads back, else in quotation marks.
std::string yaml_scalar(std::string_view text);

/// What stands behind the colon of a key that may hold many lines: a block of indented lines where
/// that reads back, else quotation marks on the same line. With the line end.
std::string yaml_text(std::string_view text);

} // namespace shankline
