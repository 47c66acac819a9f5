// Feeds any bytes to the reader of a user's configuration, and to what shows a server's address:
// every mistake has words and a place, what is settled is allowed, no end of a password is shown.
#include "cli/archive/server_address.hpp"
#include "cli/job/settings.hpp"
#include "cli/text/quantity.hpp"
#include "export/drawing/paper.hpp"

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>

namespace {

using namespace shankline;

bool is_between(const std::string& value, double least, double most) {
  const auto number = parse_quantity(value, Quantity::number);
  return number && *number >= least && *number <= most;
}

bool is_allowed(SettingKey key, const std::string& value) {
  switch (key) {
  case SettingKey::paper:
    return static_cast<bool>(read_paper(value));
  case SettingKey::units:
    return value == "mm" || value == "in";
  case SettingKey::printer: // it becomes a file's name
    return !value.empty() && value.find_first_of("/.") == std::string::npos;
  case SettingKey::archive:
    return value.starts_with('/') || is_server_address(value);
  case SettingKey::climate:
    return is_between(value, 0.5, 3);
  case SettingKey::lead_time:
    return is_between(value, 1, 365);
  }
  return false;
}

void try_settings(std::string_view text) {
  Settings settings;
  settings.file = "config.yaml";
  read_settings_file(text, settings);
  for (const Message& message : settings.messages) {
    const bool whole_file = message.line == 0 && message.column == 0; // it is too long
    const bool has_place = message.line > 0 && message.column > 0;
    if (!(whole_file || has_place) || message.what.empty() || to_text(message).empty())
      std::abort();
  }
  for (const SettingGuide& guide : setting_guides()) {
    const auto& setting = settings.of(guide.key);
    if (setting && (!is_allowed(guide.key, setting->value) || setting->from.empty())) std::abort();
  }
}

void try_address(const std::string& text) {
  (void)shown_address(text);
  const std::string secret = "<<" + text + ">>";
  const auto is_hidden = [](const std::string& address) {
    const std::string shown = shown_address(address);
    return shown.find("<<") == std::string::npos && shown.find(">>") == std::string::npos;
  };
  if (!is_hidden("postgresql://bench:" + secret + "@host:5433/shankline?sslmode=require"))
    std::abort();
  if (text.find('&') != std::string::npos) return; // a parameter ends there
  for (const std::string begin :
       {"postgresql://host/shankline?", "postgresql://bench@host:5433/shankline?user=b&"})
    if (!is_hidden(begin + "password=" + secret + "&sslmode=require")) std::abort();
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  if (size == 0) return 0;
  const std::string text(bytes + 1, bytes + size);
  if (bytes[0] % 2 == 0)
    try_settings(text);
  else
    try_address(text);
  return 0;
}
