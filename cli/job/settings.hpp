// Settings of a user that hold for every run, from the environment or from a small file. An option
// of the command line beats the environment, which beats the file.
#pragma once

#include "cli/text/message.hpp"

#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace shankline {

enum class SettingKey { paper, units, printer, archive, climate, lead_time };
inline constexpr std::size_t setting_count = 6;

struct SettingGuide {
  SettingKey key;
  std::string_view name;     ///< as in the file: "lead_time"
  std::string_view variable; ///< of the environment: "SHANKLINE_LEAD_TIME"
  std::string_view usual;    ///< what holds where nothing is settled
  std::string_view words;    ///< what it is
};
std::span<const SettingGuide> setting_guides(); ///< in the order of SettingKey

struct Setting {
  std::string value;
  std::string from; ///< "SHANKLINE_PAPER", or the file's name and line
};

struct Settings {
  std::string file; ///< where it is or would be; empty without a home
  bool file_is_there = false;
  std::vector<Message> messages; ///< errors: an unknown key, a value that is not allowed
  std::array<std::optional<Setting>, setting_count> settled;

  const std::optional<Setting>& of(SettingKey key) const {
    return settled[static_cast<std::size_t>(key)];
  }
  bool ok() const { return messages.empty(); }
};

/// The environment and $XDG_CONFIG_HOME/shankline/config.yaml (or ~/.config). Where there is no
/// file this costs one call that fails to open it.
Settings read_settings();

inline constexpr std::size_t largest_settings = std::size_t{16} * 1024; ///< bytes of the file

/// The file's part alone. A file of more than `largest_settings` is an error.
void read_settings_file(std::string_view text, Settings& into);

/// `--printer none` draws for no calibrated printer, even if the settings name one.
inline constexpr std::string_view no_printer = "none";

} // namespace shankline
