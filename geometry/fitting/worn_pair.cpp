#include "geometry/fitting/worn_pair.hpp"

#include "geometry/order/figure.hpp"

#include <utility>

namespace shankline {
namespace {

class FootCopier {
public:
  FootCopier(std::string name, const WornFoot& worn, FootOrder& order, Findings& findings)
      : name_(std::move(name)), worn_(worn), order_(order), findings_(findings) {}

  CopiedFoot copy() {
    CopiedFoot copied;
    copied.trim = trim();
    if (worn_.medial || worn_.lateral || worn_.back) sides(copied);
    return copied;
  }

private:
  void error(Key key, std::string what, std::string allowed, std::string advice) {
    findings_.push_back(
        {Severity::error, std::move(key), std::move(what), std::move(allowed), std::move(advice)});
  }

  std::optional<CopiedLine> trim() {
    if (!worn_.board_end && !worn_.heel_end) return {};
    if (!worn_.board_end || !worn_.heel_end) {
      error(name_ + (worn_.board_end ? ".heel_end" : ".board_end"),
            "the board's cut needs both lengths from the platform",
            "board_end on the worn pair, heel_end on the new one",
            worn_.board_end ? "Measure from the new shoe's platform to its board's heel end."
                            : "Measure from the worn shoe's platform to its board's end.");
      return {};
    }
    auto copied = copied_trim(*worn_.board_end, *worn_.heel_end, name_);
    if (!copied) {
      error(name_ + ".board_end",
            "the worn board reaches " + short_figure(worn_.board_end->value()) +
                " from the platform, and the new one no farther (" +
                short_figure(worn_.heel_end->value()) + ")",
            "less than heel_end", "Measure both from the platform's edge along the sole.");
      return {};
    }
    ShankWish wish = order_.alterations.shank.value_or(ShankWish{});
    wish.rule =
        MarkRule{measured(copied->line.value), CarriedOver{copied->mark.u, copied->mark.freedom}};
    order_.alterations.shank = wish;
    return copied;
  }

  void sides(CopiedFoot& copied) {
    if (!order_.shoe.sides) {
      error("shoe." + name_ + ".sides", "copied side heights need the new pair's stock heights",
            "back, low, low_at, wing under shoe: sides",
            "Measure the new, uncut pair's top line, foot in the shoe.");
      return;
    }
    const StockSides& stock = *order_.shoe.sides;
    SideWish wish = order_.alterations.sides.value_or(SideWish{});
    const auto low = [&](const std::optional<StockHeights>& own) {
      return own && own->low ? own->low : stock.low;
    };
    lower(worn_.medial, low(stock.medial), "medial", wish.medial, copied.medial);
    lower(worn_.lateral, low(stock.lateral), "lateral", wish.lateral, copied.lateral);
    std::optional<double> back = wish.back;
    lower(worn_.back, stock.back, "back", back, copied.back);
    wish.back = back.value_or(0);
    order_.alterations.sides = wish;
  }

  void lower(const std::optional<Reading>& worn, const std::optional<double>& stock,
             const std::string& key, std::optional<double>& depth,
             std::optional<CopiedLine>& copied) {
    if (!worn || !stock) return;
    constexpr double as_it_is = 0.5; // mm: no knife takes off less
    const double lower = *stock - worn->value();
    if (lower < -as_it_is) {
      error(name_ + "." + key,
            "the worn side stands at " + short_figure(worn->value()) +
                ", higher than the new one's " + short_figure(*stock),
            "at most " + short_figure(*stock), "Measure both again, foot in the shoe.");
      return;
    }
    copied = copied_height(*worn, key, name_);
    depth = lower < as_it_is ? 0 : lower;
  }

  std::string name_;
  const WornFoot& worn_;
  FootOrder& order_;
  Findings& findings_;
};

std::optional<CopiedFoot> copy_foot(const std::string& name, const std::optional<WornFoot>& worn,
                                    std::optional<FootOrder>& order, Findings& findings) {
  if (!worn) return {};
  if (order) return FootCopier(name, *worn, *order, findings).copy();
  findings.push_back({Severity::error, name, "the order has no " + name + " foot",
                      "the feet that the order names",
                      "Add the foot's readings to the order, or leave it out here."});
  return {};
}

} // namespace

MatchedOrder copy_lines(const Order& order, const WornPair& worn, Findings& findings) {
  MatchedOrder matched{order, {}, {}};
  if (!worn.dancer.empty() && worn.dancer != order.dancer)
    findings.push_back(
        {Severity::error, "dancer",
         "the worn pair is " + worn.dancer + "'s, the order " + order.dancer + "'s",
         "a worn pair of " + order.dancer,
         "Lines are copied for one dancer's feet only: measure a worn pair of hers."});
  matched.left = copy_foot("left", worn.left, matched.order.left, findings);
  matched.right = copy_foot("right", worn.right, matched.order.right, findings);
  return matched;
}

} // namespace shankline
