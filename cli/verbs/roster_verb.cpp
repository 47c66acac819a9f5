// Orders of many dancers from one table of their readings: all of them, or none.
#include "cli/job/order_list.hpp"
#include "cli/order_file/order_text.hpp"
#include "cli/order_file/roster_reader.hpp"
#include "cli/surroundings/target.hpp"
#include "cli/text/message.hpp"
#include "cli/verbs/verbs.hpp"
#include "export/formats/whole_file.hpp"

#include <filesystem>
#include <optional>
#include <ostream>
#include <system_error>
#include <utility>
#include <variant>

namespace shankline {
namespace {

std::optional<std::string> read_text(const std::string& path, std::size_t largest,
                                     std::ostream& messages) {
  auto text = read_order_text(path, AtLink::follow, largest);
  if (const Message* refused = std::get_if<Message>(&text)) {
    say({*refused}, messages);
    return {};
  }
  // cppcheck-suppress returnStdMoveLocal ; it takes the reference for a local
  return std::move(std::get<std::string>(text));
}

/// Orders may have been changed by hand since: none is written over.
bool all_are_free(const std::vector<std::string>& files, std::ostream& messages) {
  std::vector<Message> there;
  for (const std::string& file : files)
    if (kind_at(file) != PathKind::nothing)
      there.push_back(about_file(file, "is there already; nothing was written",
                                 "name another folder with -o, or move this order away"));
  say(there, messages);
  return there.empty();
}

void write_all(const std::vector<std::string>& files, const std::vector<RosterOrder>& orders) {
  std::size_t written = 0;
  try {
    for (; written < files.size(); ++written)
      write_whole_file(files[written], orders[written].text, Readers::owner);
  } catch (const FileFault&) {
    std::error_code ignored;
    for (std::size_t i = 0; i < written; ++i)
      std::filesystem::remove(files[i], ignored);
    throw;
  }
}

} // namespace

ExitCode run_roster(const Request& request, std::ostream& out, std::ostream& messages) {
  const std::string& file = request.orders.front();
  const auto rows = read_text(file, largest_roster, messages);
  const auto common = read_text(request.common, largest_order, messages);
  if (!rows || !common) return ExitCode::bad_input;
  const ReadRoster roster =
      read_roster(*rows, file == "-" ? "standard input" : file, *common, request.common);
  say(roster.messages, messages);
  if (!roster.ok()) {
    say({plain_error("nothing was written: " + std::to_string(roster.messages.size()) +
                         (roster.messages.size() == 1 ? " mistake" : " mistakes"),
                     "correct the roster, and run it again")},
        messages);
    return ExitCode::bad_input;
  }
  const std::string folder = request.output.ends_with('/') ? request.output : request.output + "/";
  std::vector<std::string> files;
  for (const RosterOrder& order : roster.orders)
    files.push_back(folder + order.dancer + ".yaml");
  make_output_folder(folder);
  if (!all_are_free(files, messages)) return ExitCode::file_system;
  write_all(files, roster.orders);
  if (!request.quiet)
    out << "wrote " << files.size() << (files.size() == 1 ? " order" : " orders") << " to "
        << without_controls(folder) << '\n';
  return ExitCode::done;
}

} // namespace shankline
