#include "export/wording/materials.hpp"

#include "geometry/order/figure.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace shankline {
namespace {

/// The length in whole millimetres, rounded up so that the material is enough.
std::string rounded_up(double length) {
  return figure(std::ceil(length), 0);
}

/// ", 22 wide"
std::string width_words(double width, Units units) {
  return ", " + short_length_text(width, units) + " wide";
}

class Materials {
public:
  explicit Materials(Units units) : units_(units) {}

  void add(const FootWork& foot) {
    add_pieces(*foot.solution);
    add_lengths(*foot.solution, foot.order->alterations);
    if (const auto& darning = foot.solution->darning) {
      yarn_ += darning->yarn;
      grams_ += darning->grams.value_or(0);
    }
  }

  std::vector<std::string> lines() const {
    std::vector<std::string> lines;
    for (const Piece& piece : pieces_)
      lines.push_back(piece.words + " mm" + (units_ == Units::inch ? piece.in_inches : "") + ": " +
                      std::to_string(piece.count) + (piece.count == 1 ? " piece" : " pieces"));
    for (const auto& [material, length] : lengths_)
      if (length > 0)
        lines.push_back(material + ": " + rounded_up(length) + " mm" + in_inches(length));
    if (yarn_ > 0)
      lines.push_back("darning yarn: " + figure(yarn_ / 1000) + " m" +
                      (grams_ > 0 ? ", " + figure(grams_, 2) + " g" : std::string()));
    return lines;
  }

private:
  template <class Amount> using Amounts = std::vector<std::pair<std::string, Amount>>;

  template <class Amount>
  static void add_to(Amounts<Amount>& all, const std::string& name, Amount amount) {
    const auto same = std::find_if(all.begin(), all.end(),
                                   [&](const auto& other) { return other.first == name; });
    if (same == all.end())
      all.emplace_back(name, amount);
    else
      same->second += amount;
  }

  void add_pieces(const FootSolution& foot) {
    if (foot.filler)
      add_piece("soft filler, " + rounded_up(foot.filler->length) + " by " +
                    rounded_up(foot.filler->width) + ", " + short_figure(foot.filler->thickness) +
                    " thick",
                foot.filler->length, foot.filler->width);
    if (foot.liner)
      add_piece("liner, " + rounded_up(foot.liner->length) + " by " + rounded_up(foot.liner->width),
                foot.liner->length, foot.liner->width);
  }

  struct Piece {
    std::string words;
    std::string in_inches; ///< its length and width in inches, printed after `words`
    int count = 1;
  };

  void add_piece(std::string words, double length, double width) {
    for (Piece& piece : pieces_)
      if (piece.words == words) {
        ++piece.count;
        return;
      }
    const auto up = [](double mm) { return inches(std::ceil(mm), Rounding::up); };
    pieces_.push_back({std::move(words), " (" + up(length) + " by " + up(width) + " in)"});
  }

  void add_lengths(const FootSolution& foot, const Alterations& wish) {
    if (foot.sides) {
      const auto& width = foot.sides->casing_width;
      add_to(lengths_, "casing strip" + (width ? width_words(*width, units_) : std::string()),
             foot.sides->casing);
      if (foot.sides->drawstring)
        add_to(lengths_,
               wish.sides->drawstring == Drawstring::elastic ? "drawstring, elastic"
                                                             : "drawstring, cotton",
               *foot.sides->drawstring);
    }
    if (foot.ribbons)
      add_to(lengths_,
             (wish.ribbons->stretch > 0 ? "stretch ribbon" : "ribbon") +
                 width_words(wish.ribbons->width, units_),
             foot.ribbons->cut * foot.ribbons->pieces);
    if (foot.elastics)
      add_to(lengths_, "elastic" + width_words(wish.elastics->width, units_),
             foot.elastics->across.value_or(0) + foot.elastics->loop.value_or(0));
  }

  /// " (17 1/4 in)"; empty if lengths are shown in millimetres only.
  std::string in_inches(double length) const {
    return units_ == Units::inch ? " (" + inches(std::ceil(length), Rounding::up) + " in)"
                                 : std::string();
  }

  Units units_;
  std::vector<Piece> pieces_;
  Amounts<double> lengths_;
  double yarn_ = 0; ///< mm
  double grams_ = 0;
};

} // namespace

std::vector<std::string> material_lines(const std::vector<FootWork>& feet, Units units) {
  Materials materials(units);
  for (const FootWork& foot : feet)
    materials.add(foot);
  return materials.lines();
}

} // namespace shankline
