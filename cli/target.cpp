#include "cli/target.hpp"

#include "cli/message.hpp"
#include "export/whole_file.hpp"

#include <filesystem>
#include <system_error>

namespace shankline {

namespace fs = std::filesystem;

std::string target_of(const Request& request, const std::string& order) {
  std::string name = order == "-" ? "order.pdf" : fs::path(order).stem().string() + ".pdf";
  if (request.output.empty()) return name;
  std::error_code error;
  const bool directory = request.output.back() == '/' || fs::is_directory(request.output, error);
  return directory ? (fs::path(request.output) / name).string() : request.output;
}

void make_output_folder(const Request& request) {
  if (request.output.empty() || request.output.back() != '/') return;
  std::error_code error;
  fs::create_directories(request.output, error);
  if (error) throw FileFault(request.output + ": cannot be made: " + error.message());
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
