#include "export/lettering/typeface.hpp"

#include "export/lettering/base_face.hpp"
#include "export/lettering/code_point.hpp"
#include "export/lettering/composition.hpp"
#include "export/lettering/face_file.hpp"

#include <algorithm>
#include <hpdf.h>
#include <new>
#include <stdexcept>
#include <utility>

namespace shankline {

namespace {

HPDF_Font load(HPDF_Doc document, const FaceFile& face) {
  const char* name = is_collection(face)
                         ? HPDF_LoadTTFontFromFile2(document, face.path.c_str(),
                                                    static_cast<HPDF_UINT>(face.index), HPDF_FALSE)
                         : HPDF_LoadTTFontFromFile(document, face.path.c_str(), HPDF_FALSE);
  const HPDF_Font font = name ? HPDF_GetFont(document, name, "UTF-8") : nullptr;
  if (!font) throw std::runtime_error("a face can no longer be read: " + face.path);
  return font;
}

double text_width(HPDF_Font font, std::string_view bytes) {
  return HPDF_Font_TextWidth(font, reinterpret_cast<const HPDF_BYTE*>(bytes.data()),
                             static_cast<HPDF_UINT>(bytes.size()))
      .width;
}

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

/// Returns true if a word goes on the line of the figure before it: "±1.2", "+0", "−1.5", "mm",
/// "%", "g", "7/16", "in)". A bare "in" is most often the preposition.
bool clings(std::string_view word) {
  for (const std::string_view sign : {"\u00b1", "+", "\u2212"})
    if (word.starts_with(sign)) return true;
  if (word.starts_with("in)")) return true;
  if (!word.empty() && is_digit(word.front()) && word.find('/') != std::string_view::npos)
    return true;
  while (!word.empty() && std::string_view(",.;:)").find(word.back()) != std::string_view::npos)
    word.remove_suffix(1);
  return word == "mm" || word == "%" || word == "g";
}

/// The first word with all that clings to it.
std::string_view taken_together(std::string_view words) {
  std::size_t end = words.find(' ');
  while (end != std::string_view::npos && end > 0 && is_digit(words[end - 1])) {
    const std::size_t next = words.find(' ', end + 1);
    const std::size_t length = next == std::string_view::npos ? next : next - end - 1;
    if (!clings(words.substr(end + 1, length))) break;
    end = next;
  }
  return words.substr(0, end);
}

} // namespace

/// The fonts of the lettering's faces.
struct Typeface::Fonts {
  struct Pair {
    HPDF_Font regular = nullptr;
    HPDF_Font bold = nullptr;
  };
  HPDF_Doc document = HPDF_New(nullptr, nullptr);
  std::vector<Pair> faces; ///< as the lettering's

  Fonts() = default;
  Fonts(const Fonts&) = delete;
  Fonts& operator=(const Fonts&) = delete;
  ~Fonts() { HPDF_Free(document); }
};

Typeface::Typeface(Lettering lettering) : lettering_(std::move(lettering)) {
  if (lettering_.faces.empty()) return;
  fonts_ = std::make_unique<Fonts>();
  const HPDF_Doc document = fonts_->document;
  if (!document) throw std::bad_alloc();
  HPDF_UseUTFEncodings(document);
  for (const Face& face : lettering_.faces) {
    const HPDF_Font regular = load(document, face.regular);
    fonts_->faces.push_back(
        {regular, face.bold == face.regular ? regular : load(document, face.bold)});
  }
}

Typeface::~Typeface() = default;

double Typeface::width(std::string_view words, double size, Weight weight) const {
  const BaseFace& base = base_face(weight);
  if (is_ascii(words)) return base.width(words) * size / 1000.0;
  double thousandths = 0; // of the em
  for (const LetterRun& run : letter_runs(words, lettering_)) {
    if (!run.face) {
      thousandths += base.width(run.bytes);
      continue;
    }
    const Fonts::Pair& face = fonts_->faces[*run.face];
    thousandths += text_width(weight == Weight::bold ? face.bold : face.regular, run.bytes);
  }
  return thousandths * size / 1000.0;
}

/// A word wider than a line, in pieces that are not: as many characters each as a line takes.
std::vector<std::string> Typeface::pieces(std::string_view word, double width_limit, double size,
                                          Weight weight) const {
  std::vector<std::string> pieces(1);
  for (const char32_t character : composed(code_points(word))) { // no mark without its letter
    const std::string longer = pieces.back() + to_utf8(character);
    if (pieces.back().empty() || width(longer, size, weight) <= width_limit)
      pieces.back() = longer;
    else
      pieces.push_back(to_utf8(character));
  }
  return pieces;
}

std::vector<std::string> Typeface::wrap(std::string_view words, double width_limit, double size,
                                        Weight weight) const {
  // The base faces know no kerning here: a line is as wide as its words and the spaces between.
  const double space_width = width(" ", size, weight);
  std::vector<std::string> lines;
  std::string line;
  double used = 0;
  while (!words.empty()) {
    std::string_view word = taken_together(words);
    double word_width = width(word, size, weight);
    if (word_width > width_limit && word.find(' ') != std::string_view::npos) {
      word = word.substr(0, word.find(' '));
      word_width = width(word, size, weight);
    }
    words.remove_prefix(std::min(words.size(), word.size() + 1));
    if (!line.empty() && used + space_width + word_width > width_limit) {
      lines.push_back(std::move(line));
      line.clear();
      used = 0;
    }
    if (word_width > width_limit) {
      std::vector<std::string> parts = pieces(word, width_limit, size, weight);
      line = std::move(parts.back());
      used = width(line, size, weight);
      lines.insert(lines.end(), parts.begin(), parts.end() - 1);
      continue;
    }
    used += (line.empty() ? 0 : space_width) + word_width;
    line.append(line.empty() ? "" : " ").append(word);
  }
  if (!line.empty()) lines.push_back(std::move(line));
  return lines;
}

std::string Typeface::shorten(std::string_view words, double width_limit, double size,
                              Weight weight) const {
  std::string shortened(words);
  if (width(shortened, size, weight) <= width_limit) return shortened;
  const auto continues = [](char c) { return (static_cast<unsigned char>(c) & 0xc0) == 0x80; };
  while (!words.empty() && width(shortened, size, weight) > width_limit) {
    std::size_t end = words.size() - 1;
    while (end > 0 && continues(words[end]))
      --end; // a whole UTF-8 character at a time
    words = words.substr(0, end);
    shortened = std::string(words) + "\u2026";
  }
  return shortened;
}

} // namespace shankline
