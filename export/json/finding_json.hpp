// What was found in an order as JSON, and what a run of the program adds to an order's numbers.
#pragma once

#include "geometry/order/finding.hpp"

#include <string>
#include <vector>

namespace shankline {

/// A finding with its place in a file. Texts may hold anything: what is no UTF-8 becomes U+FFFD.
struct PlacedFinding : Advice {
  Severity severity = Severity::error;
  std::string file; ///< empty when it is about no file
  std::string key;  ///< as the user wrote it; empty for none
  int line = 0;     ///< from 1; 0 when it is about the whole file
  int column = 0;   ///< likewise, in characters
};

/// One JSON object in one line, without a line end. What a finding does not have is null.
std::string finding_line(const PlacedFinding& finding);

/// Which order a document is about, and what became of it.
struct OrderAccount {
  std::string file;                 ///< as it was named; "-" for standard input
  std::string digest;               ///< SHA-256 of its text; empty where it could not be read
  std::vector<std::string> written; ///< paths, in the order of writing
  std::vector<PlacedFinding> findings;
};

/// `document` of solution_json or refused_json with the account's keys behind its format. Throws
/// std::logic_error for another text.
std::string with_account(std::string document, const OrderAccount& account);

/// What is known of an order whether it could be solved or not. Empty texts become null.
struct OrderNames {
  std::string dancer;
  std::string pair;
  std::string date;
};

/// An order that came to nothing, in the form of a solution: its feet are null.
std::string refused_json(const OrderNames& names);

} // namespace shankline
