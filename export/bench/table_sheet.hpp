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

/// Returns only the pages; `number` is the number of the first one in its set, from 0.
std::vector<Page> table_pages(const SheetContext& context, const TablePage& what,
                              std::size_t number);

/// Returns as many pages as the table needs, each with its head. A column is as wide as its longest
/// cell if there is room; else the widest columns are narrowed and their words wrapped.
SheetSet table_sheet(const TablePage& what, const SheetWish& wish);

} // namespace shankline
