// Runs `rotation`: plans which pair to wear on which day, and when to order the next ones.
#include "cli/job/archive_saving.hpp"
#include "cli/job/dancer_code.hpp"
#include "cli/job/finished_sheets.hpp"
#include "cli/job/rotation_job.hpp"
#include "cli/report/rotation_words.hpp"
#include "cli/report/wear_json.hpp"
#include "cli/surroundings/calendar_day.hpp"
#include "cli/surroundings/target.hpp"
#include "cli/text/message.hpp"
#include "cli/verbs/archive_looking.hpp"
#include "cli/verbs/verbs.hpp"
#include "export/bench/table_sheet.hpp"
#include "export/formats/pdf_writer.hpp"

#include <ostream>

namespace shankline {
namespace {

/// Why nothing is planned.
ExitCode refuse_empty(const Request& request, const RotationJob& job, std::ostream& messages) {
  const std::string& dancer = request.archive.dancer;
  const std::string& file = request.rotation.schedule;
  const Message why =
      dancer.empty()
          ? about_file(file, "no dancer of the archive has a day from " + job.today + " on",
                       "write days that are still to come, and dancers by their codes in the "
                       "archive")
          : about_file(file, "there is no day of " + dancer + " from " + job.today + " on",
                       "write days that are still to come");
  say({why}, messages);
  return ExitCode::bad_input;
}

std::string write_sheet(const RotationJob& job, const Request& request, std::ostream& messages) {
  const bool company = request.archive.dancer.empty();
  SheetSet set =
      table_sheet(company ? company_rotation_page(job) : rotation_page(job, job.dancers.front()),
                  sheet_wish(request, {}));
  finish_sheets(set, request, asked_printer(request), {}, messages);
  const std::string target = output_file(request.output, "rotation.pdf");
  write_pdf(request.output, target, pdf_bytes(set.drawing), Readers::owner);
  return wrote_pages(target, set.drawing.pages.size()) + "\n";
}

} // namespace

ExitCode run_rotation(const Request& request, std::ostream& out, std::ostream& messages) {
  const ArchiveWish& wish = request.archive;
  const RotationWish& rotation = request.rotation;
  const auto schedule = read_schedule_file(rotation.schedule);
  say(schedule.messages, messages);
  if (!schedule.ok()) return ExitCode::bad_input;
  const bool company = wish.dancer.empty();
  RotationJob job;
  bool all_known = true;
  std::string other_code;
  {
    const auto store = open_and_send(wish.file, ArchiveUse::read, messages);
    say_others_rights(wish.file, messages);
    store->with_snapshot([&] {
      all_known = company || store->counted(wish.dancer) > 0;
      if (all_known)
        job = rotation_job(*store, wish.dancer, schedule.content, today(), wish.drying,
                           rotation.lead_days);
      else
        other_code = other_spelling(*store, wish.dancer);
    });
  }
  if (!all_known) return refuse_unknown(wish.dancer, other_code, messages);
  if (job.dancers.empty()) return refuse_empty(request, job, messages);
  // The table of the terminal says it itself.
  if (!job.unknown.empty() && (request.json || request.csv)) {
    Message caution = about_file(rotation.schedule, unknown_words(job), {});
    caution.severity = Severity::caution;
    say({caution}, messages);
  }
  std::string wrote;
  if (!rotation.calendar.empty()) {
    const std::string target = output_file(rotation.calendar, "rotation.ics");
    // It says as much of the dancers as the archive does.
    write_over_its_like(target, calendar_file(rotation_events(job, company), job.today),
                        "BEGIN:VCALENDAR", "a calendar", Readers::owner);
    wrote += wrote_file(target) + "\n";
  }
  if (!request.output.empty()) wrote += write_sheet(job, request, messages);
  if (request.json)
    out << rotation_json(job);
  else if (request.csv)
    out << (company ? company_rotation_csv(job) : rotation_csv(job));
  else
    out << (company ? company_rotation_text(job) : rotation_text(job, job.dancers.front()))
        << (wrote.empty() ? "" : "\n" + wrote);
  return ExitCode::done;
}

} // namespace shankline
