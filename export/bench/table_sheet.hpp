// A page of rows to hang up or to work from: who needs what, which pair on which day.
#pragma once

#include "export/page/sheet_page.hpp"
#include "export/page/sheet_set.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace shankline {

struct TableColumn {
  std::string head;
  bool right = false; ///< figures stand at the right
  bool box = false;   ///< an empty box to tick in place of words
};

struct TableRow {
  std::vector<std::string> cells; ///< as many as there are columns
  bool heavy = false;             ///< to be seen first
};

struct TablePage {
  std::string title;
  std::vector<std::string> before; ///< paragraphs above the table; the first in heavy letters
  std::vector<TableColumn> columns;
  std::vector<TableRow> rows;
  std::vector<std::string> after; ///< paragraphs below it
};

/// The pages alone, from `number` (0 is the first) of whatever set they are in.
std::vector<Page> table_pages(const SheetContext& context, const TablePage& what,
                              std::size_t number);

/// As many pages as it takes, each with the head of the table. A column is as wide as its longest
/// cell where there is room; else the widest ones are made narrower, and their words go on in more
/// lines.
SheetSet table_sheet(const TablePage& what, const SheetWish& wish);

} // namespace shankline
