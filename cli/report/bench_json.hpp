// Results of next, match, accept and rack as JSON for other programs.
#pragma once

#include "export/work_orders/rack_shoe.hpp"
#include "geometry/fitting/acceptance_lines.hpp"
#include "geometry/fitting/matched_lines.hpp"
#include "geometry/fitting/next_cut.hpp"
#include "geometry/order/order.hpp"
#include "geometry/solution/reading_account.hpp"
#include "geometry/solution/solution.hpp"

#include <string>
#include <utility>
#include <vector>

namespace shankline {

/// "shankline-next/1". Lines as distances back from the witness line and from the heel end, mm.
/// `worn`: the try was one after wear.
std::string next_json(const Order& order, const FootSolution& foot, const Tried& tried,
                      const NextCut& next, bool worn);

/// "shankline-match/1".
std::string match_json(const Order& order, const MatchedLines& lines);

/// "shankline-acceptance/1".
std::string acceptance_json(const Order& order, const JudgedPair& pair);

/// "shankline-rack/1", shoe by shoe. Cuts from the board's heel end, mm; what is not asked for is
/// null.
class RackJson {
public:
  /// Returns the document's next piece.
  std::string row(const RackShoe& shoe);
  /// Returns its last one.
  std::string end() const;

private:
  bool any_ = false;
};

/// "shankline-readings/1". `in_words` are keys that hold no figure, each with its meaning; without
/// any, the document has no "keys".
std::string readings_json(const std::vector<ReadingAccount>& readings,
                          const std::vector<std::pair<std::string, std::string>>& in_words = {});

} // namespace shankline
