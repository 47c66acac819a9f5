// What sheets could not show, said in words.
#pragma once

#include <iosfwd>
#include <string>
#include <vector>

namespace shankline {

/// A caution naming the characters that come out as '?'; nothing for none.
void say_unshown(const std::vector<std::string>& unshown, const std::string& file,
                 std::ostream& messages);

} // namespace shankline
