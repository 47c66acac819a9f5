#include "export/typeface.hpp"

#include "export/winansi.hpp"

#include <hpdf.h>
#include <new>

namespace shankline {

struct Typeface::Fonts {
  HPDF_Doc document = nullptr;
  HPDF_Font regular = nullptr;
  HPDF_Font bold = nullptr;
};

Typeface::Typeface() : fonts_(std::make_unique<Fonts>()) {
  fonts_->document = HPDF_New(nullptr, nullptr);
  if (!fonts_->document) throw std::bad_alloc();
  fonts_->regular = HPDF_GetFont(fonts_->document, "Helvetica", "WinAnsiEncoding");
  fonts_->bold = HPDF_GetFont(fonts_->document, "Helvetica-Bold", "WinAnsiEncoding");
  if (!fonts_->regular || !fonts_->bold) throw std::bad_alloc(); // widths would all be zero
}

Typeface::~Typeface() {
  HPDF_Free(fonts_->document);
}

double Typeface::width(std::string_view words, double size, Weight weight) const {
  const std::string bytes = to_winansi(words).bytes;
  const HPDF_Font font = weight == Weight::bold ? fonts_->bold : fonts_->regular;
  const HPDF_TextWidth measured = HPDF_Font_TextWidth(
      font, reinterpret_cast<const HPDF_BYTE*>(bytes.data()), static_cast<HPDF_UINT>(bytes.size()));
  return measured.width * size / 1000.0;
}

std::vector<std::string> Typeface::wrap(std::string_view words, double width_limit, double size,
                                        Weight weight) const {
  // The base fonts know no kerning here: a line is as wide as its words and the spaces between.
  const double space_width = width(" ", size, weight);
  std::vector<std::string> lines;
  std::string line;
  double used = 0;
  while (!words.empty()) {
    const std::size_t space = words.find(' ');
    const std::string_view word = words.substr(0, space);
    words.remove_prefix(space == std::string_view::npos ? words.size() : space + 1);
    const double word_width = width(word, size, weight);
    if (!line.empty() && used + space_width + word_width > width_limit) {
      lines.push_back(std::move(line));
      line.clear();
      used = 0;
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
