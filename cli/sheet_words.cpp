#include "cli/sheet_words.hpp"

#include "cli/message.hpp"

namespace shankline {

void say_unshown(const std::vector<std::string>& unshown, const std::string& file,
                 std::ostream& messages) {
  if (unshown.empty()) return;
  Message message;
  message.severity = Severity::caution;
  message.file = file;
  message.what = "the sheets cannot show these characters, each is a '?' there:";
  for (const std::string& character : unshown)
    message.what += " " + character;
  message.advice = "Western European letters can be shown.";
  say({message}, messages);
}

} // namespace shankline
