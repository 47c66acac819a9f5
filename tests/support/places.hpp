// The paths of the program and of the tests' files on this machine. Only this file knows them, so
// that all others compile to the same code wherever the tree stands.
#pragma once

#include <string>

namespace shankline::tests::places {

extern const std::string program;       ///< the built shankline
extern const std::string failing_calls; ///< library that makes calls fail, see tests/faults
extern const std::string source_tree;   ///< its top
extern const std::string samples;       ///< the folder samples/
extern const std::string cases;         ///< tests/cases
extern const std::string kept;          ///< tests/fuzz/kept/order_fuzz

} // namespace shankline::tests::places
