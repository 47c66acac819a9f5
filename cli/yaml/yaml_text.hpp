// Texts as they stand in a YAML file, so that the reader of our own files gives them back to the
// last byte, whatever they hold.
#pragma once

#include <string>
#include <string_view>

namespace shankline {

/// A text behind its key, on one line: as it is where that reads back, else in quotation marks.
std::string yaml_scalar(std::string_view text);

/// Returns the text to write behind the colon of a key that may hold many lines, with the line end:
/// a block of indented lines if that reads back as the same text, otherwise the text in quotation
/// marks on the same line.
std::string yaml_text(std::string_view text);

} // namespace shankline
