#include "export/bench/learned_sheet.hpp"

#include "export/drawing/circle.hpp"
#include "export/page/sheet_page.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <optional>
#include <utility>

namespace shankline {
namespace {

constexpr double text_size = 3.2;
constexpr double small = 2.6;
constexpr double row = 5;            // of the table
constexpr double tick_step = 5;      // mm of the foot
constexpr double least_span = 20;    // mm of the foot
constexpr std::size_t few_dots = 60; ///< up to so many, each has its ±

class LearnedLayout {
public:
  LearnedLayout(const SheetContext& context, const LearnedPage& what)
      : context_(context), what_(what) {}

  std::vector<Page> draw() && {
    begin();
    y_ = page_->paragraph({page_->left(), y_}, width(), what_.basis, text_size, Weight::bold) - 3;
    picture();
    for (const std::string& sentence : what_.sentences)
      say(sentence);
    y_ -= 2;
    table();
    y_ -= 2;
    for (const std::string& caution : what_.cautions)
      say(caution);
    pages_.push_back(std::move(*page_).finish());
    return std::move(pages_);
  }

private:
  double width() const { return page_->right() - page_->left(); }

  void begin() {
    if (page_) pages_.push_back(std::move(*page_).finish());
    const std::size_t number = pages_.size();
    page_.emplace(context_, number, number == 0 ? "What was learned" : "What was learned, on");
    page_->label(number == 0 ? "learned" : "learned " + std::to_string(number + 1));
    y_ = page_->top() - 5;
    page_->text({page_->left(), y_},
                number == 0 ? "What was learned"
                            : "What was learned, page " + std::to_string(number + 1),
                5.4, Weight::bold);
    page_->text({page_->right(), y_}, page_->page_of(), small, Weight::regular, Align::right);
    y_ -= 4;
  }

  void room_for(double height) {
    if (y_ - height < page_->bottom()) begin();
  }

  void say(const std::string& words) {
    room_for(page_->height_of(words, width(), text_size) + 1);
    y_ = page_->paragraph({page_->left(), y_}, width(), words, text_size) - 1;
  }

  bool few() const { return what_.dots.size() <= few_dots; }

  /// Good place upwards, predicted place across, both on one scale; a ring a shoe.
  void picture() {
    if (what_.dots.empty()) return;
    scale_axes();
    constexpr double beside = 16; // for the figures of the axis
    side_ = std::min({120.0, width() - beside - 4, y_ - page_->bottom() - 60});
    corner_ = {page_->left() + beside, y_ - 2 - side_};
    axes();
    parallel(LineKind::centre, 0);
    std::vector<double> doubts;
    for (const FoundDot& dot : what_.dots) {
      doubts.push_back(dot.U);
      if (few())
        page_->stroke(LineKind::leader,
                      {at(dot.predicted - dot.U, dot.found), at(dot.predicted + dot.U, dot.found)});
      page_->stroke(LineKind::edge, circle(at(dot.predicted, dot.found), 0.9, 16), true);
    }
    std::nth_element(doubts.begin(), doubts.begin() + std::ssize(doubts) / 2, doubts.end());
    const double usual = doubts[doubts.size() / 2];
    if (!few())
      for (const double off : {-usual, usual})
        parallel(LineKind::paper_trim, off);
    y_ = corner_.y - 15;
    const std::string words =
        "A ring is one shoe" +
        (few() ? std::string("; its line shows the ± of the prediction")
               : "; between the dotted lines lies the usual ± of a prediction, " + figure(usual)) +
        ". On the diagonal the board was right where the line had been.";
    page_->text({page_->left(), y_ + 2.5}, words, page_->fitted_size(words, width(), small, 2.5));
    y_ -= 2;
  }

  void scale_axes() {
    double least = what_.dots[0].found;
    double most = least;
    for (const FoundDot& dot : what_.dots) {
      const double U = few() ? dot.U : 0;
      least = std::min({least, dot.found, dot.predicted - U});
      most = std::max({most, dot.found, dot.predicted + U});
    }
    const double middle = (least + most) / 2;
    const double half = std::max(least_span, most - least + 2) / 2;
    from_ = std::floor((middle - half) / tick_step) * tick_step;
    to_ = std::ceil((middle + half) / tick_step) * tick_step;
  }

  /// Draws the line of boards that are found good `off` mm from their prediction.
  void parallel(LineKind kind, double off) {
    if (std::abs(off) >= to_ - from_) return;
    const double low = from_ - std::min(off, 0.0);
    const double high = to_ - std::max(off, 0.0);
    page_->stroke(kind, {at(low, low + off), at(high, high + off)});
  }

  Point at(double predicted, double found) const {
    const auto place = [this](double value) { return (value - from_) / (to_ - from_) * side_; };
    return {corner_.x + place(predicted), corner_.y + place(found)};
  }

  void axes() {
    page_->rectangle(LineKind::frame, {corner_.x, corner_.y, corner_.x + side_, corner_.y + side_});
    // Fewer figures where they would touch.
    const double step = tick_step * std::ceil(7 / (tick_step / (to_ - from_) * side_));
    for (double value = from_; value <= to_ + 1e-9; value += step) {
      const Point low = at(value, from_);
      page_->stroke(LineKind::ruler, {low, {low.x, low.y + 1.5}});
      page_->text({low.x, low.y - 3.4}, figure(value, 0), small, Weight::regular, Align::centre);
      const Point left = at(from_, value);
      page_->stroke(LineKind::ruler, {left, {left.x + 1.5, left.y}});
      page_->text({left.x - 1.2, left.y - 0.9}, figure(value, 0), small, Weight::regular,
                  Align::right);
    }
    page_->text({corner_.x + side_ / 2, corner_.y - 7.2}, "predicted: the final line, mm", small,
                Weight::regular, Align::centre);
    page_->text({page_->left() + 3, corner_.y + side_ / 2}, "found good, mm", small,
                Weight::regular, Align::centre, 90);
  }

  void table() {
    if (what_.months.empty()) return;
    room_for(row * 3);
    page_->text({page_->left(), y_ - 3}, "How good the lines have been, mm", text_size,
                Weight::bold);
    y_ -= row;
    head();
    for (std::size_t i = 1; i < what_.months.size(); ++i) {
      if (y_ - row < page_->bottom()) {
        begin();
        head();
      }
      line(what_.months[i], i + 1 == what_.months.size() ? Weight::bold : Weight::regular);
    }
  }

  void head() {
    line(what_.months.front(), Weight::regular);
    page_->stroke(LineKind::frame, {{page_->left(), y_}, {page_->right(), y_}});
  }

  void line(const std::vector<std::string>& cells, Weight weight) {
    const double column = width() / static_cast<double>(cells.size());
    for (std::size_t k = 0; k < cells.size(); ++k) {
      const bool first = k == 0;
      const double x =
          page_->left() + column * static_cast<double>(first ? 0 : k + 1) - (first ? 0 : 1);
      page_->text({x, y_ - 3.4}, cells[k],
                  page_->fitted_size(cells[k], column - 1.5, small, 2.5, weight), weight,
                  first ? Align::left : Align::right);
    }
    y_ -= row;
  }

  const SheetContext& context_;
  const LearnedPage& what_;
  std::optional<SheetPage> page_;
  std::vector<Page> pages_;
  double y_ = 0;
  Point corner_;
  double side_ = 0;
  double from_ = 0;
  double to_ = 0;
};

} // namespace

SheetSet learned_sheet(const LearnedPage& what, const SheetWish& wish) {
  Order nobody; // its note has every word that the page shows, so that a face is found for each
  for (const auto* words : {&what.sentences, &what.cautions})
    for (const std::string& one : *words)
      nobody.note += one + " ";
  ChosenLettering chosen = lettering_of(nobody, wish.find_faces);
  const Typeface typeface(chosen.lettering);
  SheetContext context{nobody, typeface, wish.paper, Units::mm, {}, 1};
  SheetSet set = named_set("What was learned", "found places against predicted ones");
  set.drawing.pages = LearnedLayout(context, what).draw();
  if (set.drawing.pages.size() != context.pages) {
    context.pages = set.drawing.pages.size();
    set.drawing.pages = LearnedLayout(context, what).draw();
  }
  return shown_by(std::move(chosen), std::move(set));
}

} // namespace shankline
