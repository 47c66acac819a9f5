// One order on the bench: its text read, solved, and everything that was found said.
#pragma once

#include "cli/job/request.hpp"
#include "cli/order_file/order_reader.hpp"
#include "geometry/breaking/pair_contact.hpp"
#include "geometry/solution/solution.hpp"

#include <functional>
#include <iosfwd>
#include <optional>
#include <string>
#include <utility>

namespace shankline {

/// Where an order is read from.
struct OrderSource {
  /// A file; "-" is standard input.
  OrderSource(std::string path) : name(std::move(path)) {} // a path names a source: not explicit
  /// A text that is here already, and its name in messages.
  OrderSource(std::string named, std::string is_here)
      : name(std::move(named)), text(std::move(is_here)) {}

  std::string name;
  std::optional<std::string> text;
};

struct OrderText {
  ReadOrder read;
  std::string text;
};

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

/// The request's order of that number.
OrderSource order_source(const Request& request, std::size_t number);
/// An order by its name in a list: the text that is here already if the request has one, else a
/// file.
OrderSource order_source(const Request& request, const std::string& name);

/// A verb's own step after the solver. Its findings go to `solution.findings` and are reported with
/// the others. It does not run after an error.
using FurtherStep = std::function<void(SolvedOrder&)>;

/// A verb's own step before the solver: it looks up values that the file leaves open, writes them
/// into the order, and returns the errors. The text of a changed order is written anew, so that the
/// archive keeps the order that was solved.
using CompletingStep = std::function<Findings(Order&)>;

/// Contact figures, an extra of a cut. Their cautions join the solution's findings.
PairContact estimated_contact(SolvedOrder& solved);

/// Reads and solves an order. Errors and cautions go to `messages`.
/// Returns nullopt if there is an error.
/// `as_read`, where it is given, gets what was read, also of an order with errors.
std::optional<SolvedOrder> solve_order(const OrderSource& source, std::ostream& messages,
                                       const FurtherStep& further = {},
                                       const CompletingStep& complete = {},
                                       OrderText* as_read = nullptr);

/// Like solve_order, for an order that was already read and perhaps changed.
std::optional<SolvedOrder> solve_read_order(ReadOrder read, std::string text,
                                            std::ostream& messages,
                                            const FurtherStep& further = {});

/// Reads an order and reports what is wrong; returns nullopt if there is an error.
std::optional<OrderText> read_order_file(const std::string& path, std::ostream& messages);

} // namespace shankline
