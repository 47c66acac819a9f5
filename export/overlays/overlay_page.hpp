// Two outlines laid over each other on a page: what the page of boards and that of sides share.
#pragma once

#include "export/drawing/template.hpp"
#include "export/page/sheet_page.hpp"
#include "geometry/comparison/comparison.hpp"

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace shankline {

struct OverlaySheet {
  Page page;
  std::array<Template, 2> parts; ///< each in its own frame
  Proof proof;
};

/// The two feet that are drawn one over the other. Both were compared in `foot`.
struct Overlay {
  const Comparison& comparison;
  const FootComparison& foot;
  const SolvedFoot& a;
  const SolvedFoot& b;
};

/// The marks, the table, the key and the notes.
class OverlayPage {
public:
  OverlayPage(const SheetContext& context, const Overlay& overlay, std::size_t number,
              const std::string& part, const std::optional<Paper>& paper);

protected:
  static constexpr double row_pitch = 4.3;  ///< mm, of tables
  static constexpr double inch_pitch = 3.4; ///< mm, from a row to its inches

  const std::string& name(bool of_a) const {
    return of_a ? overlay_.comparison.short_a : overlay_.comparison.short_b;
  }

  std::string length(double mm) const { return length_text(mm, context_.units); }

  /// The title strip, which says first that nothing is cut from this page; `own_sheets` says from
  /// what it is cut. Returns the y below the strip.
  double heading(const std::string& own_sheets);

  /// Round the place where the outlines are farthest apart, in the frame of the overlay.
  void mark_farthest(const ComparedOutline& outline, const Placement& overlay);

  const ComparedFigure* figure_of(std::string_view key) const;

  /// Returns the height of a row of the table, mm. A length has its inches below it.
  double row_height(const ComparedFigure& figure) const;

  /// Figures in columns; what differs is bold. Returns the y below.
  double table(double left, double right, double y, const std::vector<std::string_view>& keys);

  double key(double left, double right, double y, LineKind kind, const std::string& words,
             Weight weight = Weight::regular);

  double farthest_key(double left, double right, double y, const ComparedOutline& outline,
                      const std::string& where);

  /// Writes the effect of cutting the pair alike, and the grounds for the verdicts, down to
  /// `least`. Cautions are those whose key contains `about` ("shank", "sides"), without those that
  /// contain `elsewhere`.
  double notes(double left, double right, double y, double least, std::string_view about,
               std::string_view elsewhere = {});

  const SheetContext& context_;
  const Overlay& overlay_;
  SheetPage page_;
};

} // namespace shankline
