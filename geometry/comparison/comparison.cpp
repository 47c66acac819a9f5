#include "geometry/comparison/comparison.hpp"

#include <algorithm>
#include <utility>

namespace shankline {
namespace {

/// Returns the sources of one foot that move the other one too.
std::vector<Source> held_in_common(std::vector<Source> sources, const Shared& shared,
                                   const std::vector<std::string>& by_length) {
  for (Source& source : sources) {
    if (source.shared)
      source.shared = source.name.starts_with("habit of ") ? shared.reader
                      : source.name == "print scale"       ? shared.printer
                                                           : shared.guesses;
    else
      source.shared = shared.same_foot &&
                      std::any_of(by_length.begin(), by_length.end(), [&](const std::string& key) {
                        return source.name.ends_with("." + key);
                      });
  }
  return sources;
}

const DoubtedFigure* find(const std::vector<FigureGroup>& groups, const std::string& key,
                          const std::vector<Source>*& sources) {
  for (const FigureGroup& group : groups)
    for (const DoubtedFigure& figure : group.figures)
      if (figure.key == key) {
        sources = &group.sources;
        return &figure;
      }
  return nullptr;
}

/// Keys of the readings that are estimated from foot length: their error is the same at another
/// time.
std::vector<std::string> estimated_by_length(const std::vector<FigureGroup>& groups) {
  std::vector<std::string> keys;
  for (const FigureGroup& group : groups)
    for (const DoubtedFigure& figure : group.figures)
      if (figure.estimated && (figure.key == "ball_length" || figure.key == "heel_front"))
        keys.push_back(figure.key);
  for (const FigureGroup& group : groups)
    for (const Source& source : group.sources)
      if (const auto at = source.name.find(estimated_mark); at != std::string::npos)
        keys.push_back(source.name.substr(at + 1));
  return keys;
}

/// `other` is the same figure of the other side.
std::string why_missing(const DoubtedFigure* figure, const DoubtedFigure& other) {
  if (figure) return figure->missing;
  switch (other.rank) {
  case FigureRank::knife:
    return "its board is not cut";
  case FigureRank::reading:
    return "not measured";
  case FigureRank::estimate:
    break;
  }
  return "not estimated";
}

class FigurePairs {
public:
  FigurePairs(const std::vector<FigureGroup>& a, const std::vector<FigureGroup>& b,
              const Shared& shared)
      : a_(a), b_(b), shared_(shared) {
    // An estimate in one order only has nothing to cancel against.
    const std::vector<std::string> in_b = estimated_by_length(b);
    for (const std::string& key : estimated_by_length(a))
      if (std::find(in_b.begin(), in_b.end(), key) != in_b.end()) by_length_.push_back(key);
  }

  std::vector<ComparedFigure> all() && {
    for (const FigureGroup& group : a_)
      for (const DoubtedFigure& figure : group.figures)
        pair(figure.key);
    for (const FigureGroup& group : b_)
      for (const DoubtedFigure& figure : group.figures)
        if (!has(figure.key)) pair(figure.key);
    std::stable_sort(
        pairs_.begin(), pairs_.end(),
        [](const ComparedFigure& x, const ComparedFigure& y) { return x.rank < y.rank; });
    return std::move(pairs_);
  }

private:
  bool has(const std::string& key) const {
    return std::any_of(pairs_.begin(), pairs_.end(),
                       [&](const ComparedFigure& pair) { return pair.key == key; });
  }

  void pair(const std::string& key) {
    const std::vector<Source>* sources_of_a = nullptr;
    const std::vector<Source>* sources_of_b = nullptr;
    const DoubtedFigure* a = find(a_, key, sources_of_a);
    const DoubtedFigure* b = find(b_, key, sources_of_b);
    const bool has_a = a && a->missing.empty();
    const bool has_b = b && b->missing.empty();
    if (!has_a && !has_b) return; // nothing to say of either
    if (a && b && a->not_asked_for && b->not_asked_for) return;
    const DoubtedFigure& one = a ? *a : *b;
    ComparedFigure pair;
    pair.key = key;
    pair.name = one.name;
    pair.rank = one.rank;
    pair.unit = one.unit;
    if (has_a) {
      pair.a = a->value.value;
      pair.estimated_a = a->estimated;
    }
    if (has_b) {
      pair.b = b->value.value;
      pair.estimated_b = b->estimated;
    }
    if (!has_a || !has_b) {
      pair.why_not = has_a ? why_missing(b, one) : why_missing(a, one);
      pairs_.push_back(std::move(pair));
      return;
    }
    pair.chosen = a->chosen && b->chosen;
    pair.difference = difference(a->value, held_in_common(*sources_of_a, shared_, by_length_),
                                 b->value, held_in_common(*sources_of_b, shared_, by_length_));
    pair.verdict = told_apart(*pair.difference) ? Verdict::differs : Verdict::not_told_apart;
    pairs_.push_back(std::move(pair));
  }

  const std::vector<FigureGroup>& a_;
  const std::vector<FigureGroup>& b_;
  Shared shared_;
  std::vector<std::string> by_length_;
  std::vector<ComparedFigure> pairs_;
};

Polyline moved(Polyline points, double x) {
  for (Point& p : points)
    p.x -= x;
  return points;
}

ComparedOutline compared(std::string part, std::string aligned, Outline a, Outline b) {
  ComparedOutline both{std::move(part), std::move(aligned), std::move(a), std::move(b), {}, {}};
  both.largest = largest_distance(both.a, both.b);
  if (both.a.closed && both.b.closed) both.area = area_apart(both.a.points, both.b.points);
  return both;
}

/// Compares two boards, aligned at the front, which is not cut. If the front is hidden in the box,
/// they are aligned at the heel end, where the ruler numbers begin.
void compare_boards(const SolvedFoot& a, const SolvedFoot& b, FootComparison& into) {
  const BoardOutline& of_a = a.solution.outline;
  const BoardOutline& of_b = b.solution.outline;
  const bool whole = of_a.closed() && of_b.closed();
  const std::string aligned =
      whole ? "at the board's front" : "at the heel end, the front being in the box";
  into.align_a = whole ? *of_a.length() : 0;
  into.align_b = whole ? *of_b.length() : 0;
  if (whole) {
    into.whole = compared("board", aligned, {moved(a.solution.whole, into.align_a), true},
                          {moved(b.solution.whole, into.align_b), true});
  } else {
    const double front = std::min(of_a.last_station(), of_b.last_station());
    into.whole = compared("board as far as it is known", aligned, {of_a.open_line(front), false},
                          {of_b.open_line(front), false});
  }
  const SolvedPieces& pieces_a = a.solution.pieces;
  const SolvedPieces& pieces_b = b.solution.pieces;
  const std::optional<Piece>& piece_a = whole ? pieces_a.kept : pieces_a.removed;
  const std::optional<Piece>& piece_b = whole ? pieces_b.kept : pieces_b.removed;
  if (!piece_a || !piece_b) return;
  into.kept = compared(whole ? "board that stays" : "board cut away", aligned,
                       {moved(piece_a->outline, into.align_a), true},
                       {moved(piece_b->outline, into.align_b), true});
}

/// The finished wall as it lies flat: sole's edge, wing, new top line, back seam.
Outline flat_side(const SolvedSide& side) {
  const SideWall::HeightLine sole{[](double) { return 0.0; }, [](double) { return 0.0; }};
  Polyline points = side.wall.flat_line(sole, 0, side.wing);
  Polyline top = side.wall.flat_line(side.finished_line(), 0, side.wing);
  points.insert(points.end(), top.rbegin(), top.rend());
  return {std::move(points), true};
}

void compare_sides(const SolvedFoot& a, const SolvedFoot& b, FootComparison& into) {
  if (!a.solution.sides || !b.solution.sides) return;
  const SolvedSides& of_a = *a.solution.sides;
  const SolvedSides& of_b = *b.solution.sides;
  into.medial =
      compared("big-toe side", "at the back seam", flat_side(of_a.medial), flat_side(of_b.medial));
  into.lateral = compared("little-toe side", "at the back seam", flat_side(of_a.lateral),
                          flat_side(of_b.lateral));
}

const FootSolution* solved(const Operand& operand, FootSide side) {
  const auto& foot = operand.solution.foot(side);
  return foot ? &*foot : nullptr;
}

/// The solved foot on this side; it must have been solved.
SolvedFoot foot_of(const Operand& operand, FootSide side) {
  const bool left = side == FootSide::left;
  const auto& solution = left ? operand.solution.left : operand.solution.right;
  const auto& contact = left ? operand.contact.left : operand.contact.right;
  SolvedFoot foot{operand.order,
                  left ? *operand.order.left : *operand.order.right,
                  *solution,
                  contact ? &*contact : nullptr,
                  {}};
  for (const Findings* findings : {&operand.contact.reasons, &operand.contact.cautions})
    for (const Finding& finding : *findings)
      if (!contact && foot.why_no_contact.empty() && finding.key.foot() == side)
        foot.why_no_contact = finding.what;
  return foot;
}

/// Why a foot is not there to be compared; empty if it is.
std::string absent(const Operand& operand, FootSide side, const std::string& where) {
  if (solved(operand, side)) return {};
  const bool given =
      side == FootSide::left ? operand.order.left.has_value() : operand.order.right.has_value();
  return "the " + foot_name(side) + " foot: " + where +
         (given ? " asks for no shank work and no lowered sides on it" : " does not name it");
}

/// The shortest name that tells the two orders apart.
std::string name_of(const Order& order, const Order& other) {
  std::string name;
  const auto add = [&](const std::string& part, const std::string& theirs) {
    if (part == theirs || part.empty()) return;
    if (!name.empty()) name += ", ";
    name += part;
  };
  add(order.dancer, other.dancer);
  add(order.pair, other.pair);
  add(order.date, other.date);
  return name;
}

} // namespace

std::vector<ComparedFigure> compare_figures(const std::vector<FigureGroup>& a,
                                            const std::vector<FigureGroup>& b,
                                            const Shared& shared) {
  return FigurePairs(a, b, shared).all();
}

FootComparison compare(const SolvedFoot& a, const SolvedFoot& b, const Shared& shared) {
  FootComparison found;
  found.side_a = a.solution.side;
  found.side_b = b.solution.side;
  found.figures = compare_figures(foot_figures(a), foot_figures(b), shared);
  compare_boards(a, b, found);
  compare_sides(a, b, found);
  found.a_on_b = cut_alike(b, a);
  found.b_on_a = cut_alike(a, b);
  return found;
}

Comparison compare_feet(const Operand& pair) {
  Comparison found{"left", "right", "left foot", "right foot", shared_by_a_pair, {}, {}};
  for (const FootSide side : {FootSide::left, FootSide::right}) {
    std::string why = absent(pair, side, "the order");
    if (!why.empty()) found.left_out.push_back(std::move(why));
  }
  if (found.left_out.empty())
    found.feet.push_back(
        compare(foot_of(pair, FootSide::left), foot_of(pair, FootSide::right), found.shared));
  return found;
}

Comparison compare_orders(const Operand& a, const Operand& b, bool same_reader) {
  Comparison found{"first", "second", name_of(a.order, b.order), name_of(b.order, a.order), {},
                   {},      {}};
  if (found.name_a.empty()) found.name_a = "first order";
  if (found.name_b.empty()) found.name_b = "second order";
  found.shared.reader =
      same_reader || (!a.order.read_by.empty() && a.order.read_by == b.order.read_by);
  found.shared.same_foot = !a.order.dancer.empty() && a.order.dancer == b.order.dancer;
  for (const FootSide side : {FootSide::left, FootSide::right}) {
    std::string why = absent(a, side, "the first order");
    std::string why_b = absent(b, side, "the second order");
    if (!why.empty() && !why_b.empty()) continue; // nobody asks for it
    if (why.empty() && why_b.empty())
      found.feet.push_back(compare(foot_of(a, side), foot_of(b, side), found.shared));
    else
      found.left_out.push_back(why.empty() ? std::move(why_b) : std::move(why));
  }
  return found;
}

} // namespace shankline
