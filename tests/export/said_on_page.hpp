// The words of a sheet's page, for tests of what it tells a hand to do.
#pragma once

#include "export/page/sheet_set.hpp"

#include <initializer_list>
#include <string>

namespace shankline::tests {

/// The worked order with the doubts of ordinary readings: its line is then square. The worked
/// order itself has no doubts, and so a skew line.
Order doubtful_order();

/// Every sheet of the order on A4 in millimetres, with the maker's page and the dancer's card.
SheetSet every_sheet(const Order& order);

/// All words of the pages of that title, in the order in which they were set.
std::string words_on(const SheetSet& set, const std::string& title);

std::string page_words(const Order& order, const std::string& title);

/// Fails the running test for every part of `said` that is not in `words`, and for every part of
/// `not_said` that is.
void expect_said(const std::string& words, std::initializer_list<const char*> said,
                 std::initializer_list<const char*> not_said = {});

} // namespace shankline::tests
