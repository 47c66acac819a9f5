#include "export/work_orders/order_sheet.hpp"

#include "export/templates/sewing_sheet.hpp"
#include "export/wording/caution_words.hpp"
#include "export/wording/foot_words.hpp"
#include "export/wording/line_words.hpp"
#include "export/wording/work_words.hpp"
#include "geometry/numerics/degree.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>
#include <array>
#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace shankline {
namespace {

std::string rule_words(const FootOrder& order, Units units) {
  const ShankWish& wish = *order.alterations.shank;
  if (const auto* reach = std::get_if<ReachRule>(&wish.rule))
    return "reach " + (reach->preset.empty() ? "" : reach->preset + ", ") +
           short_figure(reach->reach, 2);
  if (const auto* keep = std::get_if<KeepRule>(&wish.rule))
    return "keep " + short_figure(100 * keep->keep) + " %" +
           (order.shoe.board.state == BoardState::loose ? "" : " of the outer sole");
  if (const auto* learned = std::get_if<LearnedRule>(&wish.rule))
    return "learned, " + length_text(learned->line->station, units) + " from the back of the heel";
  const auto& mark = std::get<MarkRule>(wish.rule);
  return (mark.carried_over ? "copied from a worn pair, at " : "marked by hand at ") +
         length_text(mark.mark.value(), units);
}

class OrderLayout {
public:
  /// `gaps`: the room between rows, as a share of the usual one.
  OrderLayout(const SheetContext& context, const Solution& solution, const Findings& cautions,
              std::size_t number, double gaps)
      : context_(context), cautions_(cautions), number_(number), gaps_(gaps) {
    const Order& order = context.order;
    if (solution.left) feet_.push_back({&*solution.left, &*order.left});
    if (solution.right) feet_.push_back({&*solution.right, &*order.right});
  }

  std::vector<Page> draw() && {
    new_page("Order");
    if (any([](const FootWork& foot) { return foot.solution->trim.has_value(); })) shank();
    if (any([](const FootWork& foot) { return foot.solution->sides.has_value(); })) sides();
    other_work();
    reading_rows();
    estimates();
    note();
    cautions();
    signatures();
    pages_.push_back(std::move(*page_).finish());
    return std::move(pages_);
  }

private:
  static constexpr double name_column = 62;
  static constexpr double signature_room = 14; ///< kept free at the foot of every page

  void new_page(const char* title) {
    if (page_) pages_.push_back(std::move(*page_).finish());
    page_.emplace(context_, number_ + pages_.size(), title);
    page_->label("order");
    feet_named_ = false;
    y_ = page_->title_strip("", pages_.empty()
                                    ? first_line(gravest_caution(cautions_), context_.units)
                                    : std::string()) -
         9;
  }

  /// Begins a new page if `height` does not fit above the signatures; returns whether it did.
  bool need(double height) {
    if (y_ - height >= page_->bottom() + signature_room) return false;
    new_page("Order, continued");
    return true;
  }

  void leave(double usual_gap) { y_ -= gaps_ * usual_gap; }

  double column(std::size_t foot) const {
    const double width = (page_->right() - page_->left() - name_column) / 2;
    return page_->left() + name_column + width * static_cast<double>(foot);
  }

  void rule() { page_->stroke(LineKind::frame, {{page_->left(), y_}, {page_->right(), y_}}); }

  template <class Test> bool any(const Test& test) const {
    return std::any_of(feet_.begin(), feet_.end(), test);
  }

  void shank() {
    table_head("Three-quarter shank");
    shank_head();
    cut_rows();
    board_row();
  }

  void table_head(const std::string& title) {
    table_ = title;
    feet_named_ = true;
    page_->text({page_->left(), y_}, title, 4.6, Weight::bold);
    for (std::size_t i = 0; i < feet_.size(); ++i)
      page_->text({column(i), y_}, foot_capitals(feet_[i].solution->side), 4.6, Weight::bold);
    y_ -= 3;
    rule();
    y_ -= 5.2;
  }

  /// Draws the rule under a table's last row.
  void end_table() {
    y_ += gaps_;
    rule();
    y_ -= 1;
    leave(3);
  }

  void shank_head() {
    page_->text({page_->left(), y_}, "from the board's heel end, mm", 2.7);
    for (std::size_t i = 0; i < feet_.size(); ++i) {
      const auto names = toe_sides(i);
      for (std::size_t k = 0; k < 3; ++k)
        page_->text({third(i, k), y_}, names[k], 2.5, Weight::regular, Align::centre);
    }
    y_ -= 7.4;
  }

  /// Big-toe sides lie inwards, as on a pair of feet.
  std::array<std::string, 3> toe_sides(std::size_t foot) const {
    const FootSide side = feet_[foot].solution->side;
    return {edge_words(left_edge(side)), "centre", edge_words(right_edge(side))};
  }
  double third(std::size_t foot, std::size_t k) const {
    const double width = (page_->right() - page_->left() - name_column) / 2 - 6;
    return column(foot) + width * (0.16 + 0.34 * static_cast<double>(k));
  }

  void name(const std::string& words, double size = 3.2, Weight weight = Weight::regular) {
    page_->text({page_->left(), y_}, words, size, weight);
  }

  void cut_row(const std::string& words, double size, Weight weight,
               const std::function<const CutLine*(const SolvedTrim&)>& pick) {
    name(words, 3.6, weight);
    for (std::size_t i = 0; i < feet_.size(); ++i) {
      if (!feet_[i].solution->trim) {
        const bool thinned = feet_[i].solution->thinned.has_value();
        page_->text({column(i), y_}, thinned ? "thinned, not cut" : "stays as it is", 3.2);
        continue;
      }
      const CutLine* line = pick(*feet_[i].solution->trim);
      if (!line) {
        page_->text({column(i), y_}, "none: file the board back a little at a time", 2.9);
        continue;
      }
      std::array<double, 3> values{line->lateral, line->centre, line->medial};
      if (feet_[i].solution->side == FootSide::right) std::swap(values[0], values[2]);
      for (std::size_t k = 0; k < 3; ++k) {
        page_->text({third(i, k), y_}, ruler_text(values[k], Rounding::down), size, weight,
                    Align::centre);
        if (context_.units == Units::inch)
          page_->text({third(i, k), y_ - 3.6}, inches(values[k], Rounding::down) + " in", 2.5,
                      Weight::regular, Align::centre);
      }
    }
    y_ -= context_.units == Units::inch ? 12 : 8.6;
  }

  /// Writes the uncertainty of the final line beside the figures of the row above.
  void known_to() {
    const double up = context_.units == Units::inch ? 12 : 8.6;
    for (std::size_t i = 0; i < feet_.size(); ++i)
      if (const auto& trim = feet_[i].solution->trim)
        page_->text({third(i, 2) + 6.5, y_ + up}, final_doubt_words(*trim, Units::mm), 2.8);
  }

  void text_row(const std::string& words, const std::function<std::string(const FootWork&)>& cell) {
    std::vector<std::vector<std::string>> cells;
    std::size_t lines = 0;
    const double width = (page_->right() - page_->left() - name_column) / 2 - 4;
    for (const FootWork& foot : feet_) {
      cells.push_back(context_.typeface.wrap(cell(foot), width, 3.2));
      lines = std::max(lines, cells.back().size());
    }
    if (lines == 0) return;
    if (need(4.4 * static_cast<double>(lines))) {
      const std::string table = table_;
      table_head(table + ", continued");
      table_ = table;
    }
    name(words);
    for (std::size_t i = 0; i < cells.size(); ++i)
      for (std::size_t k = 0; k < cells[i].size(); ++k)
        page_->text({column(i), y_ - 4.4 * static_cast<double>(k)}, cells[i][k], 3.2);
    y_ -= 4.4 * static_cast<double>(lines);
    leave(1.6);
  }

  /// A row of the shank's table; empty for a foot without shank work.
  void shank_row(const std::string& words,
                 const std::function<std::string(const FootWork&)>& cell) {
    text_row(words, [&](const FootWork& foot) {
      return foot.solution->trim ? cell(foot) : std::string();
    });
  }

  std::string length(double mm, Rounding rounding = Rounding::nearest) const {
    return length_text(mm, context_.units, rounding);
  }

  void cut_rows() {
    cut_row("1 first cut off", 5, Weight::bold,
            [](const SolvedTrim& trim) { return trim.first_cut ? &*trim.first_cut : nullptr; });
    cut_row("2 final, only after trying", 4.4, Weight::regular,
            [](const SolvedTrim& trim) { return &trim.final_cut; });
    known_to();
    shank_row("stop band", [&](const FootWork& foot) {
      return stop_words(*foot.solution->trim, context_.units);
    });
    if (any([](const FootWork& foot) { return foot.solution->layers.has_value(); }))
      shank_row("layers cut", [](const FootWork& foot) {
        return foot.solution->layers ? layer_words(foot) : std::string("all");
      });
    const ToleranceWish& wish = context_.order.tolerances;
    shank_row("tolerance of every cut", [&](const FootWork&) {
      return tolerance_text(cut_off_tolerance(wish)) + " of what is cut off";
    });
    shank_row("right place for this dancer", [this](const FootWork& foot) {
      const SolvedTrim& trim = *foot.solution->trim;
      const std::string more = with_inches(repeat_first(trim.gains), context_.units);
      return right_place_words(trim, context_.units) + (more.empty() ? "" : "; " + more);
    });
    shank_row("readings alone would say", [&](const FootWork& foot) {
      const SolvedTrim& trim = *foot.solution->trim;
      return trim.learned ? readings_alone_words(trim, context_.units) : std::string();
    });
    shank_row("keep", [&](const FootWork& foot) { return keep_words(foot, context_); });
    shank_row("witness line", [&](const FootWork& foot) {
      return witness_words(*foot.solution->trim, context_.units);
    });
    shank_row("rule and skew", [this](const FootWork& foot) {
      const SolvedTrim& trim = *foot.solution->trim;
      return rule_words(*foot.order, context_.units) + "; " +
             with_inches(trim.skew_reason, context_.units);
    });
    shank_row("board's end", [&](const FootWork& foot) { return board_end_words(foot, context_); });
  }

  void board_row() {
    shank_row("board", [this](const FootWork& foot) {
      return board_words(*foot.order, context_.units) + ", inset " +
             short_length_text(foot.order->shoe.board.inset->value(), context_.units) +
             (foot.order->shoe.style.empty() ? "" : "; style " + foot.order->shoe.style);
    });
    end_table();
  }

  void sides_row(const std::string& words,
                 const std::function<std::string(const SolvedSides&)>& cell,
                 const std::string& otherwise = {}) {
    text_row(words, [&](const FootWork& foot) {
      return foot.solution->sides ? cell(*foot.solution->sides) : otherwise;
    });
  }

  void sides() {
    y_ -= 4;
    table_head("Sides lowered");
    text_row("lowered by", [this](const FootWork& foot) {
      const std::string words = side_depth_words(foot, context_);
      return words.empty() ? std::string("stay as they are") : words;
    });
    sides_row("lowest height that is kept", [this](const SolvedSides& sides) {
      return "big-toe side " + height_text(sides.medial.low, context_.units) +
             ", little-toe side " + height_text(sides.lateral.low, context_.units);
    });
    text_row("edge", [this](const FootWork& foot) { return side_edge_words(foot, context_); });
    const std::string tucked =
        any([](const FootWork& foot) { return foot.solution->tuck.has_value(); })
            ? "; a tuck is taken in"
            : "";
    sides_row("new top line, wing to wing", [&](const SolvedSides& sides) {
      return length(sides.top_line) + " (was " +
             length(sides.medial.stock_length + sides.lateral.stock_length) + tucked + ")";
    });
    text_row("casing strip", [this](const FootWork& foot) { return casing_words(foot, context_); });
    text_row("drawstring",
             [this](const FootWork& foot) { return drawstring_words(foot, context_); });
    end_table();
  }

  /// Adds a row if at least one foot has this work.
  void work_row(const std::string& words, const std::function<std::string(const FootWork&)>& cell) {
    if (!any([&](const FootWork& foot) { return !cell(foot).empty(); })) return;
    text_row(words, [&](const FootWork& foot) {
      const std::string said = cell(foot);
      return said.empty() ? std::string("none") : said;
    });
  }

  void other_work() {
    const auto asked = [](const FootWork& foot) {
      const FootSolution& solved = *foot.solution;
      return solved.thinned || solved.filler || solved.liner || solved.darning || is_sewn(solved);
    };
    if (!any(asked)) return;
    need(16);
    y_ -= 4;
    table_head(table_.empty() ? "Work" : "Also");
    work_row("board thinned", [&](const FootWork& foot) { return thinned_words(foot, context_); });
    work_row("filler in the heel seat",
             [&](const FootWork& foot) { return filler_words(foot, context_); });
    work_row("liner", [&](const FootWork& foot) { return liner_words(foot, context_); });
    work_row("darning", [&](const FootWork& foot) { return darning_words(foot, context_); });
    work_row("ribbon", [&](const FootWork& foot) { return ribbon_words(foot, context_); });
    work_row("elastic across", [&](const FootWork& foot) { return elastic_words(foot, context_); });
    work_row("heel loop", [&](const FootWork& foot) { return heel_loop_words(foot, context_); });
    work_row("tuck at the back seam",
             [&](const FootWork& foot) { return tuck_words(foot, context_); });
    end_table();
  }

  std::string reading_words(const std::optional<Reading>& reading) const {
    return reading ? short_length_text(reading->value(), context_.units) + mean_words(*reading)
                   : std::string();
  }
  static std::string degree_words(const std::optional<Reading>& reading) {
    return reading ? short_figure(reading->value() / degree) + mean_words(*reading) : std::string();
  }
  static std::string mean_words(const Reading& reading) {
    if (reading.values.size() > 1) return ", mean of " + std::to_string(reading.values.size());
    return {};
  }

  std::string break_words(const ArchBreak& at) const {
    if (at.centre) return reading_words(at.centre);
    std::string words;
    if (at.medial) words = reading_words(at.medial) + " big-toe side";
    if (at.lateral)
      words += (words.empty() ? "" : "; ") + reading_words(at.lateral) + " little-toe side";
    return words;
  }

  /// Shows the readings as they were given, so that the person who signs can see a slip.
  void reading_rows() {
    heading(context_.order.pose == Pose::pointed
                ? "Readings, foot pointed, from the back of the heel"
                : "Readings, on pointe in the shoe, measured from its back seam");
    y_ -= 3.4;
    table_ = "Readings";
    if (!feet_named_) {
      for (std::size_t i = 0; i < feet_.size(); ++i)
        page_->text({column(i), y_}, foot_capitals(feet_[i].solution->side), 3.2, Weight::bold);
      y_ -= 6;
      feet_named_ = true;
    }
    const auto row = [&](const char* words, std::optional<Reading> Foot::*reading) {
      reading_row(words,
                  [&](const FootWork& foot) { return reading_words(foot.order->foot.*reading); });
    };
    row("foot length", &Foot::length);
    row("ball length", &Foot::ball_length);
    row("heel front", &Foot::heel_front);
    reading_row("arch break",
                [this](const FootWork& foot) { return break_words(foot.order->foot.arch_break); });
    row("arch depth", &Foot::arch_depth);
    row("deepest point", &Foot::deepest);
    reading_row("arch bend, degrees",
                [](const FootWork& foot) { return degree_words(foot.order->foot.arch_bend_rad); });
    row("fold", &Foot::fold);
  }

  /// Adds a row if at least one foot has the reading.
  void reading_row(const std::string& words,
                   const std::function<std::string(const FootWork&)>& cell) {
    if (!any([&](const FootWork& foot) { return !cell(foot).empty(); })) return;
    text_row(words, [&](const FootWork& foot) {
      const std::string value = cell(foot);
      return value.empty() ? std::string("not measured") : value;
    });
  }

  void heading(const std::string& words) {
    need(16);
    y_ -= 4;
    leave(1.5);
    page_->text({page_->left(), y_}, words, 3.6, Weight::bold);
    y_ -= 2.2;
  }

  void lines(std::string words) {
    std::replace(words.begin(), words.end(), '\n', ' ');
    constexpr double size = 3.1;
    const double width = page_->right() - page_->left();
    need(page_->height_of(words, width, size));
    y_ = page_->paragraph({page_->left(), y_ - 0.6}, width, words, size);
  }

  void estimates() {
    const std::vector<std::string> found = estimate_lines(feet_, true, context_.units);
    if (found.empty()) return;
    heading("Estimated, not measured");
    for (const std::string& words : found)
      lines(words);
  }

  void note() {
    if (context_.order.note.empty()) return;
    heading("Note");
    lines(context_.order.note);
  }

  void cautions() {
    heading("Cautions");
    if (!context_.order.decided_by.empty())
      lines("Who decides for this dancer: " + context_.order.decided_by + ".");
    for (const CautionLine& caution : caution_lines(cautions_, context_.units))
      lines(caution.words);
    const bool board = any([](const FootWork& foot) { return foot.solution->trim.has_value(); });
    std::string words;
    if (board)
      words = "A cut board cannot be put back. It changes what holds the dancer up. ";
    else if (any([](const FootWork& foot) { return foot.solution->thinned.has_value(); }))
      words = "A thinned board cannot be put back. It changes what holds the dancer up. ";
    if (any([](const FootWork& foot) {
          return foot.solution->sides && foot.order->alterations.sides->edge != SideEdge::folded;
        }))
      words += "Cloth that is cut away does not come back. ";
    words +=
        "Students work only with a teacher or fitter. With growing feet, pain or an injury, ask a "
        "licensed physiotherapist or podiatrist first. ";
    words += board ? "Make the first cut, then try it at the barre with both hands on the barre. "
                   : "Try it at the barre first, with both hands on the barre. ";
    lines(words + "All figures are estimates.");
    if (board)
      lines("The \u00b1 after a figure covers chance errors of the readings and an ordinary habit "
            "of the reader. It does not cover a reader who always marks too far forward: if every "
            "reading is " +
            short_length_text(4, context_.units) +
            " too far, the true place lies inside \u00b1 on 76 of 100 boards, or on 60 "
            "if each reading is taken three times.");
  }

  void signatures() {
    page_->signatures(6,
                      {"readings taken by, date", "cut by, date", "tried and accepted by, date"});
  }

  const SheetContext& context_;
  const Findings& cautions_;
  std::optional<SheetPage> page_;
  std::size_t number_; ///< of the first page
  double gaps_;
  std::vector<Page> pages_;
  std::vector<FootWork> feet_;
  double y_ = 0;
  std::string table_;       ///< whose rows are being written
  bool feet_named_ = false; ///< LEFT and RIGHT stand on this page
};

} // namespace

std::vector<Page> order_sheet(const SheetContext& context, const Solution& solution,
                              const Findings& cautions, std::size_t number) {
  std::vector<Page> pages = OrderLayout(context, solution, cautions, number, 1).draw();
  if (pages.size() == 1) return pages;
  // A further page for a few lines is easily left in the printer.
  for (const double closer : {0.65, 0.3}) {
    std::vector<Page> fewer = OrderLayout(context, solution, cautions, number, closer).draw();
    if (fewer.size() < pages.size()) return fewer;
  }
  return pages;
}

} // namespace shankline
