// A comparison in words: the same on paper and on a terminal.
#pragma once

#include "export/drawing/length_text.hpp"
#include "geometry/comparison/comparison.hpp"

#include <string>

namespace shankline {

/// "mm", "°", "%"; empty where a number stands alone.
std::string unit_words(FigureUnit unit);

/// "62.0", "62.0 e" for an estimate, "–" where there is none.
std::string operand_words(const ComparedFigure& figure, bool of_a);

/// "−5.0 ±6.5", "+1.0" for wishes; empty where nothing can be compared.
std::string difference_words(const ComparedFigure& figure);

/// True where inches stand below the figure: it is a length, and the units are inches.
bool has_inches(const ComparedFigure& figure, Units units);

/// operand_words and difference_words in inches: "2 7/16" and "−3/16 ±9/32"; empty where there is
/// none. The difference is that of the two figures as shown.
std::string operand_inches(const ComparedFigure& figure, bool of_a);
std::string difference_inches(const ComparedFigure& figure);

/// "differs", "too close to call", "the same"; or why it cannot be compared.
std::string verdict_words(const ComparedFigure& figure);

/// A sentence that names the terms that were taken to cancel.
std::string shared_words(const Shared& shared);

/// "left over right", "left foot, first over second".
std::string overlay_words(const Comparison& comparison, const FootComparison& foot);

} // namespace shankline
