#include "cli/bench_files/printer_store.hpp"

#include "cli/order_file/bench_file.hpp"
#include "cli/surroundings/source_date.hpp"
#include "cli/surroundings/user_folder.hpp"
#include "cli/text/characters.hpp"
#include "cli/text/message.hpp"
#include "cli/text/word_list.hpp"
#include "export/bench/printer_sheet.hpp"
#include "export/drawing/paper.hpp"
#include "export/formats/whole_file.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <filesystem>
#include <ostream>
#include <sys/stat.h>
#include <system_error>

namespace shankline {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view printer_format = "shankline-printer/1";
constexpr std::string_view suffix = ".yaml";
constexpr TextLimits name_limits{32, false};

template <auto member>
void length(ParseContext& context, const Entry& entry, PrintedLengths& into) {
  if (!expect_scalar(context, entry, "a length in mm")) return;
  const std::string& words = entry.value->text;
  const char* end = words.data() + words.size();
  double value = 0;
  const auto [rest, error] = std::from_chars(words.data(), end, value);
  if (error == std::errc() && rest == end && std::isfinite(value))
    into.*member = value;
  else
    context.error(entry,
                  {.what = shown(words) + " is not a length", .allowed = "mm, such as 164.5"});
}

constexpr Field<PrintedLengths> length_fields[] = {
    {"across", length<&PrintedLengths::across>},
    {"up", length<&PrintedLengths::up>},
    {"rising", length<&PrintedLengths::rising>},
    {"falling", length<&PrintedLengths::falling>},
};

void read_format(ParseContext& context, const Entry& entry, StoredPrinter&) {
  expect_format(context, entry, printer_format, "a calibrated printer");
}

constexpr Field<StoredPrinter> printer_fields[] = {
    {"format", read_format},
    {"name", text_in<&StoredPrinter::name, name_limits>},
    {"paper", text_in<&StoredPrinter::paper, name_limits>},
    {"measured", structure_in<&StoredPrinter::measured, length_fields>},
};

std::string path_of(const std::string& name) {
  return printer_directory() + "/" + name + std::string(suffix);
}

void say_unknown(const std::string& name, std::ostream& messages) {
  const std::string known = joined(printer_names(), ", ");
  Message unknown = plain_error("no printer " + shown(name) + " is calibrated here",
                                "shankline printer -o sheet.pdf, print it, measure it");
  unknown.allowed = known.empty() ? "none is calibrated yet" : known;
  say({unknown}, messages);
}

/// Makes the folder for its owner only, like the files in it.
void make_directory(const std::string& directory) {
  std::error_code error;
  if (fs::is_directory(directory, error)) return;
  fs::create_directories(fs::path(directory).parent_path(), error);
  if (::mkdir(directory.c_str(), 0700) != 0 && !fs::is_directory(directory, error))
    throw FileFault(directory + ": cannot be made");
}

ReadPrinter calibrated(const BenchFile<StoredPrinter>& file) {
  ReadPrinter read{{file.content, {}}, file.messages};
  const auto paper = read_paper(file.content.paper);
  if (file.ok() && !paper)
    read.messages.push_back(
        about_file(file.file, "this paper is not known: " + shown(file.content.paper), ""));
  if (!read.ok()) return read;
  read.printer.calibration = calibrate(calibration_frame(text_page(*paper)), file.content.measured);
  for (const Finding& finding : read.printer.calibration.findings)
    read.messages.push_back(file.place(finding).value_or(
        about_file(file.file, finding.key.text() + ": " + finding.what, finding.advice)));
  return read;
}

} // namespace

ReadPrinter read_printer_text(std::string_view text, const std::string& file_name) {
  return calibrated(
      read_bench_text<StoredPrinter>(text, file_name, printer_fields, printer_format));
}

bool is_printer_name(std::string_view name) {
  const auto is_plain = [](char c) { return is_letter(c) || is_digit(c); };
  return !name.empty() && name.size() <= name_limits.characters && is_plain(name.front()) &&
         std::all_of(name.begin(), name.end(),
                     [&](char c) { return is_plain(c) || c == '-' || c == '_'; });
}

std::string printer_directory() {
  const auto folder = user_folder("XDG_CONFIG_HOME", ".config");
  if (!folder)
    throw EnvironmentFault("there is no place for calibrated printers: neither XDG_CONFIG_HOME nor "
                           "HOME is set");
  return *folder + "/shankline/printers";
}

std::vector<std::string> printer_names() {
  std::vector<std::string> names;
  const std::string directory = printer_directory();
  if (kind_at(directory) == PathKind::nothing) return names;
  std::error_code error;
  for (fs::directory_iterator at(directory, error), end; !error && at != end; at.increment(error)) {
    const std::string file = at->path().filename().string();
    if (!file.ends_with(suffix)) continue;
    std::string name = file.substr(0, file.size() - suffix.size());
    if (is_printer_name(name)) names.push_back(std::move(name));
  }
  if (error) throw file_fault(directory, "cannot be read", error.value());
  std::sort(names.begin(), names.end());
  return names;
}

std::optional<CalibratedPrinter> load_printer(const std::string& name, std::ostream& messages) {
  std::error_code error;
  if (!is_printer_name(name) ||
      fs::symlink_status(path_of(name), error).type() == fs::file_type::not_found) {
    say_unknown(name, messages);
    return std::nullopt;
  }
  ReadPrinter read = calibrated(read_bench_file<StoredPrinter>(path_of(name), printer_fields,
                                                               printer_format, AtLink::refuse));
  read.printer.stored.name = name;
  say(read.messages, messages);
  if (read.ok()) return std::move(read.printer);
  say({about_file(path_of(name), "printer " + name + " cannot be used as it stands here",
                  "calibrate it again: shankline printer " + name +
                      " --measured AB,AD,AC,BD; or: shankline printer " + name + " --forget")},
      messages);
  return std::nullopt;
}

std::string store_printer(const StoredPrinter& printer) {
  std::string path = path_of(printer.name);
  make_directory(printer_directory());
  const PrintedLengths& m = printer.measured;
  write_whole_file(path,
                   "format: " + std::string(printer_format) + "\nname: " + printer.name +
                       "\npaper: " + printer.paper +
                       "\nmeasured: {across: " + short_figure(m.across, 3) +
                       ", up: " + short_figure(m.up, 3) + ", rising: " + short_figure(m.rising, 3) +
                       ", falling: " + short_figure(m.falling, 3) + "}\n",
                   Readers::owner, AtLink::refuse);
  return path;
}

bool forget_printer(const std::string& name) {
  std::error_code error;
  const bool gone = fs::remove(path_of(name), error);
  if (error) throw file_fault(path_of(name), "cannot be removed", error.value());
  return gone;
}

std::string correction_words(const Calibration& calibration) {
  const PageCorrection& c = calibration.correction;
  return "x " + figure(1 / c.x_scale, 3) + " \u00b1" + figure(calibration.scale_x_U, 3) + ", y " +
         figure(1 / c.y_scale, 3) + " \u00b1" + figure(calibration.scale_y_U, 3) + ", skew " +
         figure(-c.skew / degree, 2) + "\u00b0 \u00b1" + figure(calibration.skew_U / degree, 2) +
         "\u00b0";
}

} // namespace shankline
