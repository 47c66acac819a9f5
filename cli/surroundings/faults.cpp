#include "cli/surroundings/faults.hpp"

#include "cli/surroundings/archive_fault.hpp"
#include "cli/surroundings/source_date.hpp"
#include "cli/text/message.hpp"
#include "export/drawing/corrected_drawing.hpp"
#include "export/formats/whole_file.hpp"
#include "export/page/sheet_page.hpp"

#include <exception>
#include <new>
#include <ostream>
#include <string_view>
#include <unistd.h>

namespace shankline {

void say_out_of_memory() {
  constexpr std::string_view words = "error: out of memory\n"
                                     "  do: close other programs, or cut fewer orders at a time\n";
  // If even this write fails, there is no way left to report it.
  [[maybe_unused]] const auto written = ::write(STDERR_FILENO, words.data(), words.size());
}

ExitCode report_faults(const std::string& name, std::ostream& messages,
                       const std::function<ExitCode()>& work) {
  try {
    return work();
  } catch (const std::bad_alloc&) {
    say_out_of_memory();
    return ExitCode::file_system;
  } catch (const LinkFault& fault) {
    say({plain_error(fault.what(), "delete the link, or put the file itself in its place")},
        messages);
    return ExitCode::file_system;
  } catch (const FileFault& fault) {
    say({plain_error(fault.what(),
                     fault.advice.empty() ? "choose another place with -o" : fault.advice)},
        messages);
    return ExitCode::file_system;
  } catch (const EnvironmentFault& fault) {
    say({plain_error(fault.what())}, messages);
    return ExitCode::bad_usage;
  } catch (const AlreadyReported& said) {
    return said.code;
  } catch (const OffThePage& fault) {
    say({about_file(name, fault.what(), "print on another printer, or on larger paper")}, messages);
    return ExitCode::bad_input;
  } catch (const ArchiveFault& fault) {
    say({plain_error(fault.what(), fault.advice)}, messages);
    return ExitCode::file_system;
  } catch (const DoesNotFit& fault) {
    say({about_file(name, fault.what(), "choose a larger paper with --paper")}, messages);
    return ExitCode::bad_input;
  } catch (const std::exception& fault) {
    say({about_file(name,
                    std::string("a fault of this program, nothing was written: ") + fault.what(),
                    {})},
        messages);
    return ExitCode::bad_input;
  }
}

} // namespace shankline
