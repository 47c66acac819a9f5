// A rotation in words: which pair on which day, when to order, as a table, a page, comma-separated
// values and calendar events.
#pragma once

#include "cli/job/calendar_file.hpp"
#include "cli/job/rotation_job.hpp"
#include "export/bench/table_sheet.hpp"

#include <string>
#include <vector>

namespace shankline {

/// One dancer: a line a day, the pairs, and when to order.
std::string rotation_text(const RotationJob& job, const RotationDancer& dancer);
/// A company: who needs shoes before which day, the most urgent first.
std::string company_rotation_text(const RotationJob& job);

/// Which codes of the schedule the archive does not know; empty where it knows all.
std::string unknown_words(const RotationJob& job);

/// A line a day and dancer: "dancer,day,at,hours,stage,entry,pair,dry,chance_of_too_few"
std::string rotation_csv(const RotationJob& job);
/// A line a dancer: "dancer,pairs,too_few_from,order_by,there_on,order,too_late,worst_before"
std::string company_rotation_csv(const RotationJob& job);

TablePage rotation_page(const RotationJob& job, const RotationDancer& dancer);
TablePage company_rotation_page(const RotationJob& job);

/// Codes and numbers only, no names: one event a day and session, and one on the last day of
/// ordering. Of a company only the latter.
std::vector<CalendarEvent> rotation_events(const RotationJob& job, bool company);

} // namespace shankline
