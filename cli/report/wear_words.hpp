// Pairs in use and the company at a glance, in words: for the terminal, for a page, and as
// comma-separated values.
#pragma once

#include "cli/job/company_overview.hpp"
#include "cli/job/pair_book.hpp"
#include "export/bench/table_sheet.hpp"
#include "export/drawing/length_text.hpp"

#include <string>
#include <vector>

namespace shankline {

/// "6.5 (2.0 to 12.4)"
std::string left_words(const HoursLeft& left);

/// Returns "A pair is taken to be dry 36 hours after it was worn, …". `hint` says which option
/// changes that.
std::string drying_words(double drying_hours, const std::string& hint);

/// The pairs that somebody may put on, with what is expected of each, and on what that is based.
std::string pairs_text(const std::vector<BookPair>& pairs, const HouseLife& life,
                       double drying_hours, const std::string& today);

std::string overview_text(const CompanyOverview& overview, Units units = Units::mm);
/// A line a row: "what,dancer,entry,day,words,hours,left_least,left_middle,left_most"
std::string overview_csv(const CompanyOverview& overview);
TablePage overview_page(const CompanyOverview& overview, Units units = Units::mm);

} // namespace shankline
