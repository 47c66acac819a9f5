// A page being laid out: strokes and texts go on, the furniture that all pages share as well.
#pragma once

#include "export/drawing/drawing.hpp"
#include "export/drawing/length_text.hpp"
#include "export/drawing/template.hpp"
#include "export/lettering/typeface.hpp"
#include "geometry/order/order.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace shankline {

/// Data that every sheet of a set needs.
struct SheetContext {
  const Order& order;
  const Typeface& typeface;
  Paper paper;
  Units units = Units::mm;
  std::string digest; ///< short, of the order's text: "4f9c 2107"
  std::size_t pages = 0;
};

/// The paper takes no piece of a part, in words for the fitter; of no paper that can be named.
struct DoesNotFit : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// The rectangle a text covers on the page.
Box text_box(const Text& text, const Typeface& typeface);

struct LabelLine {
  std::string words;
  double size; ///< em, mm
  Weight weight = Weight::regular;
};

/// Distance between the lines of a paragraph, in ems.
inline constexpr double leading = 1.32;

/// Height from above the first line to below the last, mm.
double height_of(const std::vector<LabelLine>& lines);

/// The style of numbered paragraphs, mm.
struct NumberedStyle {
  double size;   ///< em
  double indent; ///< from the number to the words
  double air;    ///< below each
};

class SheetPage {
public:
  static constexpr double margin = 10; ///< more than the unprintable 8

  /// Wider than this, lines of text are hard to follow: a wide roll stays empty on the right.
  static constexpr double text_widest = 297 - 2 * margin;

  /// Begins a text page of the context's paper, or a page of `paper`. The title is the page's
  /// bookmark too.
  SheetPage(const SheetContext& context, std::size_t number, std::string title,
            const std::optional<Paper>& paper = {}, double widest = text_widest);

  const Paper& paper() const { return page_.paper; }

  /// Sets the page's name in a viewer: "board L".
  void label(std::string words) { page_.label = std::move(words); }

  const SheetContext& context() const { return context_; }
  double left() const { return margin; }
  double right() const { return std::min(page_.paper.width - margin, margin + widest_); }
  double bottom() const { return margin; }
  double top() const { return page_.paper.height - margin; }
  double width_of(std::string_view words, double size, Weight weight = Weight::regular) const {
    return context_.typeface.width(words, size, weight);
  }

  void stroke(LineKind kind, Polyline points, bool closed = false);
  void strokes(const std::vector<Stroke>& lines, const Placement& place);
  void rectangle(LineKind kind, const Box& box);
  void text(Point at, std::string words, double size, Weight weight = Weight::regular,
            Align align = Align::left, double angle = 0);

  /// Lines of words below `top`, wrapped to `width`; returns the y below the last line.
  double paragraph(Point top_left, double width, std::string_view words, double size,
                   Weight weight = Weight::regular);

  /// The height of such a paragraph, mm.
  double height_of(std::string_view words, double width, double size,
                   Weight weight = Weight::regular) const;

  /// Paragraphs below `top_left`, a bold number before each; returns the y below the last.
  double numbered(Point top_left, double width, const std::vector<std::string>& items,
                  const NumberedStyle& style);
  double height_of(const std::vector<std::string>& items, double width,
                   const NumberedStyle& style) const;

  /// `size`, or what is smaller by tenths so that the words are no wider than `width`; never below
  /// `least`.
  double fitted_size(std::string_view words, double width, double size, double least,
                     Weight weight = Weight::regular) const;

  /// "page 1 of 3"
  std::string page_of() const;

  /// The strip at the top: a large letter for the foot (or none), title, dancer, pair and date,
  /// digest and page number, and a warning of one or two lines where the order calls for it.
  /// Returns the y below the strip.
  double title_strip(std::string_view letter, std::string_view warning);

  /// Three lines to sign on at the foot of the page, `above` its margin; what is known stands on
  /// them already.
  void signatures(double above, const std::array<std::string, 3>& names,
                  const std::array<std::string, 3>& said = {});

  /// Lines of a label one below the other, centred under `top`; each is set smaller, and shortened
  /// at last, to be no wider than `width`.
  void label_lines(Point top, double width, const std::vector<LabelLine>& lines);

  /// Both bars and the bank card, with the words that go with them.
  Proof proof(Point bar_across_left, Point bar_up_bottom, Point card_corner);

  Page finish() && { return std::move(page_); }
  std::size_t number() const { return number_; }

private:
  void strip_warning(double x, std::string_view warning);

  const SheetContext& context_;
  std::size_t number_; ///< from 0
  double widest_;
  Page page_;
};

/// "M-07 · touring, second pair · 2026-03-14", without what is not given; with another sign between
/// where the middle dot is hard to read.
std::string order_line(const Order& order, std::string_view between = " \u00b7 ");

} // namespace shankline
