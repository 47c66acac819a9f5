// Runs `config`: shows the settings in effect, and where each one comes from.
#include "cli/archive/archive_place.hpp"
#include "cli/job/settings.hpp"
#include "cli/text/text_columns.hpp"
#include "cli/verbs/verbs.hpp"

#include <ostream>

namespace shankline {

ExitCode run_config(const Request&, std::ostream& out, std::ostream& messages) {
  constexpr std::size_t name_width = 11;
  constexpr std::size_t value_width = 20;
  const Settings settings = read_settings();
  say(settings.messages, messages);
  for (const SettingGuide& guide : setting_guides()) {
    const auto& setting = settings.of(guide.key);
    std::string value(setting ? setting->value : guide.usual);
    std::string from = setting ? setting->from : "as usual";
    if (guide.key == SettingKey::archive && !setting)
      if (const std::string naming = archive_naming_file(); !naming.empty()) {
        value = archive_file({});
        from = naming + ":1";
      }
    out << padded(std::string(guide.name), name_width)
        << padded(without_controls(value), value_width) << "  " << without_controls(from) << '\n';
  }
  if (!settings.file.empty())
    out << "file       " << without_controls(settings.file)
        << (settings.file_is_there ? "" : ", which is not there") << '\n';
  return settings.ok() ? ExitCode::done : ExitCode::bad_input;
}

} // namespace shankline
