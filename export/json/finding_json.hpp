// Writes the findings of an order as JSON, and the keys that a run of the program adds to an
// order's numbers.
#pragma once

#include "geometry/order/finding.hpp"

#include <string>
#include <vector>

namespace shankline {

/// A finding with its place in a file. Texts may hold any bytes; those that are not UTF-8 become
/// U+FFFD.
struct PlacedFinding : Advice {
  Severity severity = Severity::error;
  std::string file; ///< empty when it is about no file
  std::string key;  ///< as the user wrote it; empty for none
  int line = 0;     ///< from 1; 0 when it is about the whole file
  int column = 0;   ///< likewise, in characters
};

/// Returns one JSON object on one line, without a line end. Missing parts of the finding are null.
std::string finding_line(const PlacedFinding& finding);

/// The order that a document is about, and the results of the run.
struct OrderAccount {
  std::string file;                 ///< as it was named; "-" for standard input
  std::string digest;               ///< SHA-256 of its text; empty where it could not be read
  std::vector<std::string> written; ///< paths, in the order of writing
  std::vector<PlacedFinding> findings;
};

/// Returns `document`, made by solution_json or refused_json, with the account's keys after its
/// format. Throws std::logic_error for any other text.
std::string with_account(std::string document, const OrderAccount& account);

/// The names in an order, known even if it could not be solved. Empty texts become null.
struct OrderNames {
  std::string dancer;
  std::string pair;
  std::string date;
};

/// Returns an order that could not be solved in the form of a solution: its feet are null.
std::string refused_json(const OrderNames& names);

} // namespace shankline
