#include "export/templates/board_page.hpp"

#include "export/wording/foot_words.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>
#include <utility>

namespace shankline {
namespace {

constexpr double around = 2 * SheetPage::margin + 40; // above and below the board
constexpr double least_height = 297;                  // for the words beside it

} // namespace

BoardPage::BoardPage(const SheetContext& context, const FootSolution& foot, double length,
                     std::size_t number, const std::string& warning)
    : context_(context), foot_(foot),
      page_(context, number, left_foot() ? "Board, left foot" : "Board, right foot",
            upright_page(context.paper, std::max(least_height, length + around))) {
  page_.label("board " + foot_letter(foot.side));
  top_ = page_.title_strip(foot_letter(foot.side), warning) - 4;
}

double BoardPage::widest(Edge edge, double from, double to) const {
  double found = 0;
  for (double station = from; station <= to; ++station)
    found = std::max(found, half(edge, station));
  return found;
}

double BoardPage::room_for(double length) const {
  return std::min(top_ - 6 - (page_.bottom() + 6.5), length);
}

void BoardPage::place(std::vector<Stroke> lines) {
  board_ = std::move(lines);
  double medial = 0;
  double lateral = 0;
  for (const Stroke& line : board_)
    for (const Point& p : line.points) {
      medial = std::max(medial, p.y);
      lateral = std::max(lateral, -p.y);
    }
  const double on_left = left_foot() ? lateral : medial;
  const double on_right = left_foot() ? medial : lateral;
  centre_ = page_.left() + 7 + on_left;
  place_ = {{centre_, page_.bottom() + 6.5}, {0, 1}, {left_foot() ? 1.0 : -1.0, 0}};
  column_ = std::min(centre_ + on_right + 14, page_.right() - 98);
  right_ = page_.right();
  constexpr double edge_name = 6; // of a side, beside the board
  if (centre_ + on_right + edge_name > column_)
    throw DoesNotFit("the " + foot_name(foot_.side) + " board, " + figure(on_left + on_right, 0) +
                     " wide, leaves no room beside it for its ruler numbers");
}

void BoardPage::name_ends(double top_station, const std::string& toe_words) {
  page_.text({centre_, place_.origin.y - 4.2}, "HEEL END", 3.2, Weight::bold, Align::centre);
  page_.text({centre_, place_.origin.y + top_station + 2.6}, toe_words, 2.8, Weight::regular,
             Align::centre);
}

void BoardPage::name_sides(double station) {
  const double y = place_.origin.y + station;
  const auto beside = [&](Edge edge) { return widest(edge, station - 14, station + 14); };
  const Edge on_left = left_edge(foot_.side);
  const Edge on_right = right_edge(foot_.side);
  page_.text({centre_ - beside(on_left) - 2.4, y}, edge_words(on_left), side_name_size,
             Weight::regular, Align::centre, 90);
  page_.text({centre_ + beside(on_right) + 4.6, y}, edge_words(on_right), side_name_size,
             Weight::regular, Align::centre, 90);
}

void BoardPage::ruler_stroke(int mm) {
  const double reach = mm % 10 == 0 ? 3.2 : mm % 5 == 0 ? 2.2 : 1.3;
  const double y = place_.origin.y + mm;
  page_.stroke(LineKind::ruler, {{centre_, y}, {centre_ + reach, y}});
}

double BoardPage::notes(const std::string& heading, const std::vector<std::string>& steps,
                        const std::string& caution) {
  constexpr double size = 2.5;
  const double width = page_.right() - 10 - column_;
  const NumberedStyle style{2.6, 4, 0.25};
  const double total =
      page_.height_of(caution, width, size) + 3 + 5.4 + page_.height_of(steps, width, style);
  const double top = page_.bottom() + 8.5 + total;
  page_.text({column_, top - 3.3 * cap_height}, heading, 3.3, Weight::bold);
  const double y = page_.numbered({column_, top - 5.4}, width, steps, style);
  page_.paragraph({column_, y - 3}, width, caution, size);
  return top;
}

} // namespace shankline
