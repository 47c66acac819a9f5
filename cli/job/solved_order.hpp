// One order on the bench: its text read, solved, and everything that was found said.
#pragma once

#include "cli/order_file/order_reader.hpp"
#include "geometry/breaking/pair_contact.hpp"
#include "geometry/solution/solution.hpp"

#include <functional>
#include <iosfwd>
#include <optional>
#include <string>

namespace shankline {

struct SolvedOrder {
  ReadOrder read;
  std::string text;   ///< the file's bytes
  std::string digest; ///< of the text, short
  Solution solution;

  const Order& order() const { return read.order; }
  const FootSolution& solved(FootSide side) const {
    return side == FootSide::left ? *solution.left : *solution.right;
  }
};

/// A verb's own step behind the solver; what it finds goes to `solution.findings` and is said with
/// the rest. It is left out after an error.
using FurtherStep = std::function<void(SolvedOrder&)>;

/// A verb's own step before the solver: it writes into the order what the file leaves to be looked
/// up, and returns the errors. The text of an order that it changed is written anew, so that what
/// is kept of it is what was solved.
using CompletingStep = std::function<Findings(Order&)>;

/// Contact figures, an extra of a cut: what is to be said of them joins the solution's findings.
PairContact estimated_contact(SolvedOrder& solved);

/// "-" is standard input. Errors and cautions go to `messages`; nothing if there is an error.
std::optional<SolvedOrder> solve_order(const std::string& path, std::ostream& messages,
                                       const FurtherStep& further = {},
                                       const CompletingStep& complete = {});

/// Like solve_order, for an order that was already read and perhaps changed.
std::optional<SolvedOrder> solve_read_order(ReadOrder read, std::string text,
                                            std::ostream& messages,
                                            const FurtherStep& further = {});

/// Reads and says what is wrong; nothing if there is an error.
struct OrderText {
  ReadOrder read;
  std::string text;
};
std::optional<OrderText> read_order_file(const std::string& path, std::ostream& messages);

} // namespace shankline
