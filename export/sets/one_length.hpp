// The pages of a set side by side on one length of a roll, so that little paper is lost.
#pragma once

#include "export/drawing/paper.hpp"
#include "export/page/sheet_set.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace shankline {

/// Joins several sets, page after page. Those whose letters need other typefaces than the first's
/// stay out: a document has one lettering. Their places in `sets` go into `left_out`.
SheetSet joined(std::vector<SheetSet> sets, std::vector<std::size_t>& left_out);

/// Lays what stands on each page, with its own proof of scale, side by side on pages of `roll`,
/// each in a frame to cut it apart by. Lines and texts keep their size; nothing is turned. There is
/// one page unless it would be longer than `longest_page`. `roll` must be a roll that the pages
/// were laid out for.
SheetSet on_one_length(SheetSet set, const Paper& roll);

/// "it takes 1240 mm of the roll, 914 wide", of a drawing that was laid like that.
std::string roll_words(const Drawing& drawing);

} // namespace shankline
