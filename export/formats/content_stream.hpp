// Writes the drawing of one PDF page as the operators of its content stream.
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace shankline {

/// Operators and operands as in ISO 32000-1, annex A; lengths in points, numbers in decimals
/// without trailing zeros. The library for the file writes the same, a dozen times slower: it
/// clears a buffer for every number. Throws std::invalid_argument for what is not finite or does
/// not fit on any page.
class ContentStream {
public:
  void butt_caps_and_round_joins();
  void line_width(double width);
  void stroke_grey(double grey);
  void dash(std::span<const int> lengths); ///< none: a solid line
  void move_to(double x, double y);
  void line_to(double x, double y);
  void close_path();
  void stroke();

  struct TextPlace {
    double x;
    double y;
    double cosine = 1; ///< of the angle by which the line of text rises
    double sine = 0;
  };
  /// A text object; `font` is the name of a resource of the page, `bytes` are in its encoding.
  void text(std::string_view font, double size, const TextPlace& place, std::string_view bytes);
  /// Continues a text object that the caller begins and ends: shows text after what it already
  /// shows.
  void text_run(std::string_view font, double size, std::string_view bytes);

  /// Returns the bytes written since the last call.
  std::string take();

private:
  void select_font(std::string_view font, double size);
  void show(std::string_view bytes);
  void number(double value, int decimals);
  void operation(std::string_view name);

  std::string bytes_;
};

} // namespace shankline
