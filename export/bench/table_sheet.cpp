#include "export/bench/table_sheet.hpp"

#include "export/drawing/box.hpp"

#include <algorithm>
#include <numeric>
#include <optional>
#include <utility>

namespace shankline {
namespace {

constexpr double title_size = 5.4;
constexpr double paragraph_size = 3.2;
constexpr double cell_size = 3;
constexpr double head_size = 2.6;
constexpr double column_gap = 4; // between two columns
constexpr double box_side = 4;   // to tick
constexpr double cell_air = 1.2; // above and below the words of a row
constexpr double narrowest = 16;

class TableLayout {
public:
  TableLayout(const SheetContext& context, const TablePage& what, std::size_t number)
      : context_(context), what_(what), number_(number) {}

  std::vector<Page> draw() && {
    begin();
    for (std::size_t i = 0; i < what_.before.size(); ++i)
      say(what_.before[i], i == 0 ? Weight::bold : Weight::regular);
    y_ -= 1;
    if (!what_.rows.empty()) table();
    y_ -= 3;
    for (const std::string& words : what_.after)
      say(words, Weight::regular);
    pages_.push_back(std::move(*page_).finish());
    return std::move(pages_);
  }

private:
  double width() const { return page_->right() - page_->left(); }

  void begin() {
    if (page_) pages_.push_back(std::move(*page_).finish());
    const std::size_t number = pages_.size();
    page_.emplace(context_, number_ + number, what_.title + (number == 0 ? "" : ", continued"));
    page_->label(number == 0 ? "table" : "table " + std::to_string(number + 1));
    y_ = page_->top() - 5;
    page_->text({page_->left(), y_}, what_.title + (number == 0 ? "" : ", continued"), title_size,
                Weight::bold);
    page_->text({page_->right(), y_}, page_->page_of(), head_size, Weight::regular, Align::right);
    y_ -= 4;
  }

  void say(const std::string& words, Weight weight) {
    const double height = page_->height_of(words, width(), paragraph_size, weight) + 1;
    if (y_ - height < page_->bottom()) begin();
    y_ = page_->paragraph({page_->left(), y_}, width(), words, paragraph_size, weight) - 1;
  }

  /// The width that each column would like to have, and then what it gets.
  void share_out() {
    widths_.clear();
    for (std::size_t k = 0; k < what_.columns.size(); ++k) {
      const TableColumn& column = what_.columns[k];
      double wide = page_->width_of(column.head, head_size);
      if (column.box) wide = std::max(wide, box_side);
      for (const TableRow& row : what_.rows)
        if (!column.box)
          wide = std::max(wide, page_->width_of(row.cells[k], cell_size,
                                                row.heavy ? Weight::bold : Weight::regular));
      widths_.push_back(wide + 0.2);
    }
    const double room = width() - column_gap * static_cast<double>(widths_.size() - 1);
    // The widest column is narrowed first.
    while (std::accumulate(widths_.begin(), widths_.end(), 0.0) > room) {
      auto widest = std::max_element(widths_.begin(), widths_.end());
      if (*widest <= narrowest) break;
      *widest = std::max(narrowest, *widest - 1);
    }
  }

  double left_of(std::size_t column) const {
    double x = page_->left();
    for (std::size_t k = 0; k < column; ++k)
      x += widths_[k] + column_gap;
    return x;
  }

  void head() {
    for (std::size_t k = 0; k < what_.columns.size(); ++k) {
      const bool right = what_.columns[k].right;
      page_->text({left_of(k) + (right ? widths_[k] : 0), y_ - 3}, what_.columns[k].head, head_size,
                  Weight::regular, right ? Align::right : Align::left);
    }
    y_ -= 4.4;
    rule();
  }

  void rule() { page_->stroke(LineKind::frame, {{page_->left(), y_}, {page_->right(), y_}}); }

  void table() {
    share_out();
    if (y_ - 14 < page_->bottom()) begin();
    head();
    for (const TableRow& row : what_.rows) {
      const Weight weight = row.heavy ? Weight::bold : Weight::regular;
      std::vector<std::vector<std::string>> cells;
      std::size_t lines = 1;
      for (std::size_t k = 0; k < row.cells.size(); ++k) {
        cells.push_back(what_.columns[k].box
                            ? std::vector<std::string>()
                            : context_.typeface.wrap(row.cells[k], widths_[k], cell_size, weight));
        lines = std::max(lines, cells.back().size());
      }
      const double height =
          std::max(cell_size * leading * static_cast<double>(lines), box_side) + 2 * cell_air;
      if (y_ - height < page_->bottom()) {
        begin();
        head();
      }
      draw_row(cells, weight);
      y_ -= height;
      rule();
    }
  }

  void draw_row(const std::vector<std::vector<std::string>>& cells, Weight weight) {
    for (std::size_t k = 0; k < cells.size(); ++k) {
      const TableColumn& column = what_.columns[k];
      const double x = left_of(k) + (column.right ? widths_[k] : 0);
      if (column.box)
        page_->rectangle(LineKind::frame,
                         {x, y_ - cell_air - box_side, x + box_side, y_ - cell_air});
      double y = y_ - cell_air - cell_size;
      for (const std::string& line : cells[k]) {
        page_->text({x, y + 0.4}, line, cell_size, weight,
                    column.right ? Align::right : Align::left);
        y -= cell_size * leading;
      }
    }
  }

  const SheetContext& context_;
  const TablePage& what_;
  std::size_t number_; ///< of the first page
  std::optional<SheetPage> page_;
  std::vector<Page> pages_;
  std::vector<double> widths_;
  double y_ = 0;
};

} // namespace

std::vector<Page> table_pages(const SheetContext& context, const TablePage& what,
                              std::size_t number) {
  return TableLayout(context, what, number).draw();
}

SheetSet table_sheet(const TablePage& what, const SheetWish& wish) {
  Order nobody; // its note has every word that the page shows, so that a face is found for each
  nobody.note = what.title;
  for (const auto* paragraphs : {&what.before, &what.after})
    for (const std::string& words : *paragraphs)
      nobody.note += " " + words;
  for (const TableRow& row : what.rows)
    for (const std::string& cell : row.cells)
      nobody.note += " " + cell;
  ChosenLettering chosen = lettering_of(nobody, wish.find_faces);
  const Typeface typeface(chosen.lettering);
  SheetContext context{nobody, typeface, wish.paper, Units::mm, {}, 1};
  SheetSet set = named_set(what.title, what.title);
  set.drawing.pages = table_pages(context, what, 0);
  if (set.drawing.pages.size() != context.pages) {
    context.pages = set.drawing.pages.size();
    set.drawing.pages = table_pages(context, what, 0);
  }
  return shown_by(std::move(chosen), std::move(set));
}

} // namespace shankline
