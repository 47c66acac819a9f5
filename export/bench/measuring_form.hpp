// The measuring page: where each reading is taken, and boxes to write it in by hand.
#pragma once

#include "export/page/sheet_set.hpp"

#include <string>
#include <vector>

namespace shankline {

/// One row of the form; the rows are in the order of measuring.
struct FormRow {
  enum class Entry {
    line,   ///< a text to write on a line, at the head of the page
    choice, ///< one of `words` to tick
    feet,   ///< a box for the left and one for the right foot
    pair,   ///< one box for both shoes
  };
  Entry entry = Entry::pair;
  std::string key; ///< as in the reading guide: tells where on the drawings its number goes
  std::string name;
  std::string how;                     ///< how it is taken, and from where to where
  std::vector<std::string> words{};    ///< of a choice
  std::vector<std::string> meanings{}; ///< of a choice, what its words mean, a line each
};

struct FormPages {
  std::vector<FormRow> foot;  ///< the first page, with the bare foot
  std::vector<FormRow> shoe;  ///< the second, with shoe and board
  std::vector<FormRow> sides; ///< the third, for lowered sides
};

SheetSet measuring_form(const FormPages& rows, const Paper& paper);

} // namespace shankline
