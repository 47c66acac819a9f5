#include "cli/faults.hpp"

#include "cli/message.hpp"
#include "export/side_sheet.hpp"
#include "export/whole_file.hpp"

#include <exception>
#include <ostream>

namespace shankline {

ExitCode said_faults(const std::string& name, std::ostream& messages,
                     const std::function<ExitCode()>& work) {
  try {
    return work();
  } catch (const FileFault& fault) {
    messages << "error: " << without_controls(fault.what())
             << "\n  do: choose another place with -o\n";
    return ExitCode::file_system;
  } catch (const DoesNotFit& fault) {
    messages << without_controls(name) << ": error: " << fault.what()
             << "\n  do: check the side heights and wing_at\n";
    return ExitCode::bad_input;
  } catch (const std::exception& fault) {
    messages << without_controls(name)
             << ": error: a fault of this program, nothing was written: " << fault.what() << '\n';
    return ExitCode::bad_input;
  }
}

} // namespace shankline
