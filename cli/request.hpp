// What the user asked for on the command line, as a plain struct.
#pragma once

#include "export/length_text.hpp"
#include "export/paper.hpp"

#include <string>
#include <vector>

namespace shankline {

enum class Verb { cut, check, chart };

struct Request {
  Verb verb = Verb::cut;
  std::vector<std::string> orders; ///< files; "-" is standard input
  std::string output;              ///< -o: a file, or a directory; empty for the order's own name
  Paper paper{};
  Units units = Units::mm;
  bool json = false;
  bool lines = false; ///< JSON with every template's lines
  bool quiet = false; ///< errors and cautions only
};

} // namespace shankline
