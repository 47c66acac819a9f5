#include "cli/surroundings/target.hpp"

#include "cli/text/message.hpp"
#include "export/formats/whole_file.hpp"

#include <cerrno>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <system_error>
#include <unistd.h>

namespace shankline {

namespace fs = std::filesystem;

namespace {

/// Writes past the stream std::cout, so nothing else may go to standard output while a PDF does:
/// buffered text would come later.
void to_standard_output(std::string_view bytes) {
  if (!write_all(STDOUT_FILENO, bytes))
    throw file_fault("standard output", "the PDF could not be written", errno);
}

/// "/proc/4711/fd" and the descriptors of one of its threads.
bool holds_own_descriptors(const fs::path& folder) {
  const fs::path own = "/proc/" + std::to_string(::getpid());
  if (folder == own / "fd" || folder == "/proc/self/fd" || folder == "/dev/fd") return true;
  return folder.filename() == "fd" && folder.parent_path().parent_path() == own / "task";
}

} // namespace

bool is_own_output(const std::string& given) {
  constexpr int most = 40; // links, as the kernel follows
  std::error_code error;
  fs::path path = given;
  for (int i = 0; i < most && fs::is_symlink(path, error); ++i) {
    // /proc/self and /dev/fd are links themselves.
    const fs::path named = path.has_parent_path() ? path.parent_path() : fs::path(".");
    const fs::path folder = fs::canonical(named, error);
    if (holds_own_descriptors(error ? named : folder))
      return path.filename() == std::to_string(STDOUT_FILENO);
    const fs::path next = fs::read_symlink(path, error);
    if (error) return false;
    path = folder / next;
  }
  return false;
}

std::string output_file(const std::string& wished, const std::string& usual) {
  if (wished.empty()) return usual;
  if (wished == standard_output) return wished;
  std::error_code error;
  const bool directory = wished.back() == '/' || fs::is_directory(wished, error);
  return directory ? (fs::path(wished) / usual).string() : wished;
}

std::string named_after(const std::string& order, const std::string& suffix) {
  return (order == "-" ? "order" : fs::path(order).stem().string()) + suffix;
}

void make_output_folder(const std::string& wished) {
  if (wished.empty() || wished.back() != '/') return;
  std::error_code error;
  fs::create_directories(wished, error);
  if (error) throw file_fault(wished, "cannot be made", error.value());
}

void write_over_its_like(const std::string& target, std::string_view bytes,
                         std::string_view beginning, const std::string& kind, Readers readers) {
  std::error_code error;
  if (kind_at(target) == PathKind::file && fs::file_size(target, error) > 0) {
    std::ifstream older(target, std::ios::binary);
    std::string there(beginning.size(), '\0');
    older.read(there.data(), std::ssize(there));
    if (!older.is_open() || older.bad())
      throw file_fault(target, "is there already, and cannot be read", errno);
    if (there != beginning)
      throw FileFault(target + ": is there already and is not " + kind + ": it was left as it is");
  }
  write_whole_file(target, bytes, readers);
}

void write_pdf(const std::string& wished, const std::string& target, std::string_view bytes,
               Readers readers) {
  if (target == standard_output) return to_standard_output(bytes);
  make_output_folder(wished);
  write_over_its_like(target, bytes, "%PDF-", "a PDF", readers);
}

std::string beside_target(const std::string& target, const std::string& suffix) {
  const fs::path sheets(target);
  const bool named_pdf = sheets.extension() == ".pdf";
  return (sheets.parent_path() / (named_pdf ? sheets.stem() : sheets.filename())).string() + suffix;
}

std::string wrote_file(const std::string& file) {
  return "wrote " + (file == standard_output ? "to standard output" : without_controls(file));
}

std::string wrote_pages(const std::string& file, std::size_t pages) {
  return wrote_file(file) + " (" + std::to_string(pages) + (pages == 1 ? " page)" : " pages)");
}

std::string wrote_words(const std::string& target, std::size_t pages) {
  return wrote_pages(target, pages) + ": print at 100 %, then lay a bank card on it\n";
}

} // namespace shankline
