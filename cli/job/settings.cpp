#include "cli/job/settings.hpp"

#include "cli/archive/server_address.hpp"
#include "cli/bench_files/printer_store.hpp"
#include "cli/surroundings/user_folder.hpp"
#include "cli/text/nearest_word.hpp"
#include "cli/text/quantity.hpp"
#include "cli/text/word_list.hpp"
#include "cli/yaml/order_document.hpp"
#include "export/drawing/paper.hpp"
#include "export/formats/system_reason.hpp"
#include "export/formats/whole_file.hpp"

#include <array>
#include <cerrno>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <utility>

namespace shankline {
namespace {

constexpr std::array guides{
    SettingGuide{SettingKey::paper, "paper", "SHANKLINE_PAPER", "a4", "paper of the sheets"},
    SettingGuide{SettingKey::units, "units", "SHANKLINE_UNITS", "mm", "mm, or in for inches too"},
    SettingGuide{SettingKey::printer, "printer", "SHANKLINE_PRINTER", "none",
                 "calibrated printer that sheets are drawn for"},
    SettingGuide{SettingKey::archive, "archive", "SHANKLINE_ARCHIVE", "the usual file",
                 "archive: a file or a server's address"},
    SettingGuide{SettingKey::climate, "climate", "SHANKLINE_CLIMATE", "1",
                 "how much longer shoes take to dry than usual"},
    SettingGuide{SettingKey::lead_time, "lead_time", "SHANKLINE_LEAD_TIME", "not settled",
                 "days from an order to the maker until the pair is there"},
};
static_assert(guides.size() == setting_count);

/// Empty where the value is allowed.
Advice within(const std::string& value, double least, double most, bool whole) {
  const auto read = parse_quantity(value, Quantity::number);
  if (read && *read >= least && *read <= most && (!whole || std::floor(*read) == *read)) return {};
  return {shown(value) + " is not allowed",
          std::string(whole ? "a whole number from " : "") +
              range_text(least, most, Quantity::number),
          "write a plain number"};
}

Advice fault_of(SettingKey key, const std::string& value) {
  switch (key) {
  case SettingKey::paper: {
    const auto paper = read_paper(value);
    return paper ? Advice{} : paper.why();
  }
  case SettingKey::units:
    if (value == "mm" || value == "in") return {};
    return {shown(value) + " is not a unit here", "mm, in", "write one of these"};
  case SettingKey::printer:
    if (is_printer_name(value)) return {};
    return {shown(value) + " is not a printer's name", "letters, figures, '-' and '_'",
            "shankline printer --list shows the calibrated ones"};
  case SettingKey::archive:
    if (value.starts_with('/') || is_server_address(value)) return {};
    return {shown(shown_address(value)) + " is neither a path from the root nor a server's address",
            "/PATH/TO/FILE, postgresql://USER@HOST/DATABASE", "write one of these"};
  case SettingKey::climate:
    return within(value, 0.5, 3, false);
  case SettingKey::lead_time:
    return within(value, 1, 365, true);
  }
  return {};
}

std::optional<SettingKey> key_named(const std::string& name) {
  for (const SettingGuide& guide : guides)
    if (guide.name == name) return guide.key;
  return std::nullopt;
}

void read_environment(Settings& into) {
  for (const SettingGuide& guide : guides) {
    const char* const value = std::getenv(std::string(guide.variable).c_str());
    if (!value || *value == '\0') continue;
    if (Advice fault = fault_of(guide.key, value); !fault.what.empty()) {
      into.messages.push_back(
          {Severity::error, std::string(guide.variable), 0, 0, "", std::move(fault)});
      continue;
    }
    into.settled[static_cast<std::size_t>(guide.key)] = {value, std::string(guide.variable)};
  }
}

/// Returns the file's text, or nullopt if there is no such file. Throws FileFault where too many
/// files are open: what is settled there must not be passed over. The buffer is far larger than any
/// settings.
std::optional<std::string> file_text(const std::string& path) {
  // A stream costs more than all else that a plain cut does here.
  std::FILE* const file = std::fopen(path.c_str(), "re");
  if (!file && is_out_of_handles(errno)) throw file_fault(path, "cannot be read", errno);
  if (!file) return std::nullopt;
  std::string text(largest_settings + 1, '\0'); // one more, so that a longer file is told
  text.resize(std::fread(text.data(), 1, text.size(), file));
  std::fclose(file);
  return text;
}

} // namespace

std::span<const SettingGuide> setting_guides() {
  return guides;
}

void read_settings_file(std::string_view text, Settings& into) {
  if (text.find_first_not_of(" \t\r\n") == std::string_view::npos) return;
  OrderDocument document = parse_order_document(text, into.file, largest_settings, "");
  for (Message& message : document.messages)
    into.messages.push_back(std::move(message));
  if (!document.root) return;
  for (const Member& member : document.root->members) {
    const auto refuse = [&](Advice advice) {
      into.messages.push_back({Severity::error, into.file, member.place.line, member.place.column,
                               member.key, std::move(advice)});
    };
    const auto key = key_named(member.key);
    if (!key) {
      std::vector<std::string> names;
      for (const SettingGuide& guide : guides)
        names.emplace_back(guide.name);
      refuse({shown(member.key) + " is not a key of this file", in_words(names),
              "delete it." + guess_words(member.key, names)});
      continue;
    }
    if (member.value.kind != NodeKind::scalar) {
      refuse({"one value is wanted here", {}, "write " + member.key + ": and the value behind it"});
      continue;
    }
    if (Advice fault = fault_of(*key, member.value.text); !fault.what.empty()) {
      refuse(std::move(fault));
      continue;
    }
    auto& setting = into.settled[static_cast<std::size_t>(*key)];
    if (!setting)
      setting = {member.value.text, into.file + ":" + std::to_string(member.place.line)};
  }
}

Settings read_settings() {
  Settings settings;
  read_environment(settings);
  const auto folder = user_folder("XDG_CONFIG_HOME", ".config");
  if (!folder) return settings;
  settings.file = *folder + "/shankline/config.yaml";
  if (const auto text = file_text(settings.file)) {
    settings.file_is_there = true;
    read_settings_file(*text, settings);
  }
  return settings;
}

} // namespace shankline
