// Measures the width of a text, so that a sheet can be laid out before it is written.
#pragma once

#include "export/lettering/lettering.hpp"
#include "export/lettering/text_style.hpp"

#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace shankline {

/// The base face, regular and bold, and the faces of a lettering, these from the PDF library's own
/// metrics.
class Typeface {
public:
  explicit Typeface(Lettering lettering = {});
  ~Typeface();
  Typeface(const Typeface&) = delete;
  Typeface& operator=(const Typeface&) = delete;

  const Lettering& lettering() const { return lettering_; }

  /// Millimetres.
  double width(std::string_view words, double size, Weight weight = Weight::regular) const;

  /// Breaks at spaces so that no line is wider than `width`; a word that is (one without spaces at
  /// all, as in Japanese) between characters. A tolerance or unit stays with its figure where a
  /// line takes both.
  std::vector<std::string> wrap(std::string_view words, double width, double size,
                                Weight weight = Weight::regular) const;

  /// The words, shortened with an ellipsis if they are wider than `width`.
  std::string shorten(std::string_view words, double width, double size,
                      Weight weight = Weight::regular) const;

private:
  std::vector<std::string> pieces(std::string_view word, double width, double size,
                                  Weight weight) const;

  struct Fonts;
  Lettering lettering_;
  std::unique_ptr<Fonts> fonts_; ///< null where the lettering has no face
};

/// Above and below the baseline, as fractions of the em: capitals and figures, and descenders.
inline constexpr double cap_height = 0.72;
inline constexpr double descent = 0.21;

} // namespace shankline
