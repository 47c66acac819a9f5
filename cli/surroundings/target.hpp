// Output files: their names, the rules for writing over files, and the messages.
#pragma once

#include "export/formats/whole_file.hpp"

#include <string>
#include <string_view>

namespace shankline {

/// `-o -` sends the PDF to standard output.
inline constexpr const char* standard_output = "-";

/// Returns whether a path is another name of this process's standard output, as /dev/stdout and
/// /proc/self/fd/1 are, or a link to one of these. A file that standard output was sent into is
/// none: it has a name of its own.
bool is_own_output(const std::string& path);

/// `wished` (an -o) as a file, `usual` in it as a directory, or `usual` here when it is empty.
std::string output_file(const std::string& wished, const std::string& usual);

/// The order's name without its ending, then `suffix`: "m07" and "-chart.pdf".
std::string named_after(const std::string& order, const std::string& suffix);

/// Makes the folder that `wished` names by a '/' at its end, if it is not there. Throws FileFault.
void make_output_folder(const std::string& wished);

/// Writes a PDF whole, or to standard output, and makes the folder that `wished` names. What is
/// there already and is no PDF, an order above all, stays as it is. Pages about many dancers are
/// for the `owner` alone. Throws FileFault.
void write_pdf(const std::string& wished, const std::string& target, std::string_view bytes,
               Readers readers = Readers::all);

/// Like write_pdf for any kind of file: an existing file is only replaced if it begins with
/// `beginning`; `kind` names such a file in errors: "a PDF".
void write_over_its_like(const std::string& target, std::string_view bytes,
                         std::string_view beginning, const std::string& kind,
                         Readers readers = Readers::all);

/// A file beside the sheets: its name is theirs without .pdf, then `suffix`.
std::string beside_target(const std::string& target, const std::string& suffix);

/// "wrote FILE", and "wrote FILE (3 pages)".
std::string wrote_file(const std::string& file);
std::string wrote_pages(const std::string& file, std::size_t pages);

/// "wrote FILE (3 pages): print at 100 %, then lay a bank card on it"
std::string wrote_words(const std::string& target, std::size_t pages);

} // namespace shankline
