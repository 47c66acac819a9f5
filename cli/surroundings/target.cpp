#include "cli/surroundings/target.hpp"

#include "cli/text/message.hpp"
#include "export/formats/whole_file.hpp"

#include <filesystem>
#include <fstream>
#include <iterator>
#include <system_error>

namespace shankline {

namespace fs = std::filesystem;

std::string output_file(const std::string& wished, const std::string& usual) {
  if (wished.empty()) return usual;
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
  if (error) throw FileFault(wished + ": cannot be made: " + error.message());
}

void write_over_its_like(const std::string& target, std::string_view bytes,
                         std::string_view beginning, const std::string& kind, Readers readers) {
  std::error_code error;
  if (kind_at(target) == PathKind::file && fs::file_size(target, error) > 0) {
    std::ifstream older(target, std::ios::binary);
    std::string there(beginning.size(), '\0');
    older.read(there.data(), std::ssize(there));
    if (!older.is_open() || older.bad())
      throw FileFault(target + ": is there already, and cannot be read");
    if (there != beginning)
      throw FileFault(target + ": is there already and is not " + kind + ": it was left as it is");
  }
  write_whole_file(target, bytes, readers);
}

void write_pdf(const std::string& wished, const std::string& target, std::string_view bytes) {
  make_output_folder(wished);
  write_over_its_like(target, bytes, "%PDF-", "a PDF");
}

std::string beside_target(const std::string& target, const std::string& suffix) {
  const fs::path sheets(target);
  const bool named_pdf = sheets.extension() == ".pdf";
  return (sheets.parent_path() / (named_pdf ? sheets.stem() : sheets.filename())).string() + suffix;
}

std::string wrote_file(const std::string& file) {
  return "wrote " + without_controls(file);
}

std::string wrote_pages(const std::string& file, std::size_t pages) {
  return wrote_file(file) + " (" + std::to_string(pages) + (pages == 1 ? " page)" : " pages)");
}

std::string wrote_words(const std::string& target, std::size_t pages) {
  return wrote_pages(target, pages) + ": print at 100 %, then lay a bank card on it\n";
}

} // namespace shankline
