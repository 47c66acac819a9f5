#include "cli/report/comparison_table.hpp"

#include "cli/text/text_columns.hpp"
#include "export/wording/comparison_words.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>
#include <vector>

namespace shankline {
namespace {

constexpr std::size_t row_name_width = 32;
constexpr std::size_t value_width = 9;
constexpr std::size_t difference_width = 14;

std::string named(const Order& order) {
  std::string words = order.dancer;
  for (const std::string* part : {&order.pair, &order.date})
    if (!part->empty()) words += (words.empty() ? "" : ", ") + *part;
  return words.empty() ? "order" : words;
}

/// Wraps words; lines after the first are indented by two.
std::string hung(const std::string& words) {
  std::string text;
  for (const std::string& line : wrapped(words, output_columns() - 2))
    text += (text.empty() ? "" : "  ") + line + "\n";
  return text;
}

class ComparisonTable {
public:
  ComparisonTable(const Comparison& comparison, const Operand& a, const Operand& b, Units units)
      : comparison_(comparison), one_order_(&a.order == &b.order), units_(units) {
    if (one_order_) {
      text_ = hung(named(a.order));
    } else {
      text_ = hung("first: " + named(a.order)) + hung("second: " + named(b.order));
    }
  }

  std::string text() && {
    for (const FootComparison& foot : comparison_.feet)
      of_foot(foot);
    text_ += "\n";
    for (const std::string& why : comparison_.left_out)
      text_ += hung("left out: " + why);
    for (const std::string& line :
         wrapped("A difference is " + comparison_.short_a + " minus " + comparison_.short_b +
                     "; \u00b1 is its uncertainty (95 %). The two differ if it is larger than "
                     "that. " +
                     shared_words(comparison_.shared) + " e: estimated, not measured.",
                 output_columns()))
      text_ += line + "\n";
    return std::move(text_);
  }

private:
  void of_foot(const FootComparison& foot) {
    text_ += "\n";
    if (foot.side_a == foot.side_b) text_ += foot.side_a == FootSide::left ? "LEFT\n" : "RIGHT\n";
    static constexpr std::array sections{
        std::pair{FigureRank::knife, "lines, mm, before rounding"},
        std::pair{FigureRank::reading, "readings, mm"},
        std::pair{FigureRank::estimate, "estimates, mm"},
    };
    for (const auto& [rank, title] : sections)
      section(foot, rank, title);
    not_compared(foot);
    outlines(foot);
    alike(foot, true);
    alike(foot, false);
  }

  void section(const FootComparison& foot, FigureRank rank, const char* title) {
    bool begun = false;
    for (const ComparedFigure& figure : foot.figures) {
      if (figure.rank != rank || !figure.difference) continue;
      if (!begun) {
        if (rank != FigureRank::knife) text_ += "\n";
        row(title, comparison_.short_a, comparison_.short_b, "difference", "");
      }
      begun = true;
      row(name_of(figure), operand_words(figure, true), operand_words(figure, false),
          difference_words(figure), verdict_words(figure));
      if (has_inches(figure, units_))
        row("  in inches", operand_inches(figure, true), operand_inches(figure, false),
            difference_inches(figure), "");
    }
  }

  std::string length(double mm) const { return length_text(mm, units_); }

  static std::string name_of(const ComparedFigure& figure) {
    const bool bare = figure.unit == FigureUnit::area || figure.unit == FigureUnit::moment;
    return figure.name + (bare ? ", " + unit_words(figure.unit) : "");
  }

  void row(const std::string& name, const std::string& a, const std::string& b,
           const std::string& difference, const std::string& verdict) {
    std::string line = padded(name, row_name_width) + right_aligned(a, value_width) +
                       right_aligned(b, value_width) + right_aligned(difference, difference_width) +
                       "  " + verdict;
    line.erase(line.find_last_not_of(' ') + 1);
    text_ += line + "\n";
  }

  /// Writes one line for each reason, with all the figures that it concerns.
  void not_compared(const FootComparison& foot) {
    std::vector<std::pair<std::string, std::string>> reasons; ///< reason and figures
    for (const ComparedFigure& figure : foot.figures) {
      if (figure.difference) continue;
      const bool a_only = figure.a.has_value();
      const std::string reason =
          "(" + (a_only ? comparison_.short_b : comparison_.short_a) + ": " + figure.why_not + ")";
      auto found = std::find_if(reasons.begin(), reasons.end(),
                                [&](const auto& known) { return known.first == reason; });
      if (found == reasons.end()) found = reasons.insert(reasons.end(), {reason, ""});
      found->second += (found->second.empty() ? "" : "; ") + figure.name;
    }
    if (!reasons.empty()) text_ += "\n";
    for (const auto& [reason, figures] : reasons)
      text_ += hung("cannot be compared: " + figures + " " + reason);
  }

  void outlines(const FootComparison& foot) {
    text_ += "\n";
    for (const auto* outline : {&foot.whole, &foot.kept, &foot.medial, &foot.lateral})
      if (*outline) text_ += hung(outline_words(**outline));
  }

  std::string outline_words(const ComparedOutline& outline) const {
    std::string words = outline.part + ", laid over each other " + outline.aligned + ": ";
    if (!(outline.largest.distance > 0)) return words + "one and the same outline";
    words += "farthest apart " + length(outline.largest.distance);
    if (outline.area) words += ", " + figure(*outline.area / 100) + " cm\u00b2 in one of them only";
    return words;
  }

  void alike(const FootComparison& foot, bool on_a) {
    const CutAlike& alike = on_a ? foot.b_on_a : foot.a_on_b;
    const std::string& own = on_a ? comparison_.short_a : comparison_.short_b;
    const std::string& other = on_a ? comparison_.short_b : comparison_.short_a;
    if (alike.tried) {
      const double deeper = std::abs(alike.deeper);
      std::string words =
          own + " cut like " + other + ": " + length(alike.board) + " off, " +
          (figure(deeper) == "0.0"
               ? std::string("its own line")
               : length(deeper) + (alike.deeper > 0 ? " past" : " short of") + " its own line") +
          ", " + length(alike.board_left) + " behind the arch break";
      if (alike.heel_pry_left)
        words += "; by estimate heel pry " + figure(100 * *alike.heel_pry_left, 0) + " %, gap " +
                 figure(100 * *alike.heel_gap_left, 0) + " % of uncut";
      text_ += hung(words);
    }
    for (const Finding& caution : alike.cautions) {
      text_ += hung("caution: " + own + ", " + with_inches(caution.what, units_));
      if (!caution.allowed.empty())
        text_ += hung("allowed: " + with_inches(caution.allowed, units_));
    }
  }

  const Comparison& comparison_;
  bool one_order_;
  Units units_;
  std::string text_;
};

} // namespace

std::string comparison_table(const Comparison& comparison, const Operand& a, const Operand& b,
                             Units units) {
  return ComparisonTable(comparison, a, b, units).text();
}

} // namespace shankline
