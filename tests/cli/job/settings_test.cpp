#include "cli/job/settings.hpp"

#include <gtest/gtest.h>

namespace shankline::tests::settings_test {
namespace {

Settings read(const std::string& text) {
  Settings settings;
  settings.file = "config.yaml";
  read_settings_file(text, settings);
  return settings;
}

TEST(Settings, FileThatIsTooLongIsNotReadInPart) {
  const std::string paper = "paper: letter\n";
  const std::string fits = paper + std::string(largest_settings - paper.size(), '#');
  EXPECT_TRUE(read(fits).ok());
  EXPECT_EQ(read(fits).of(SettingKey::paper)->value, "letter");
  const Settings longer = read(fits + "#");
  ASSERT_EQ(longer.messages.size(), 1u);
  EXPECT_EQ(longer.messages.front().severity, Severity::error);
  EXPECT_FALSE(longer.of(SettingKey::paper));
}

TEST(Settings, UnknownKeyHasItsPlace) {
  const Settings settings = read("paper: a4\npapr: a4\n");
  ASSERT_EQ(settings.messages.size(), 1u);
  EXPECT_EQ(settings.messages.front().line, 2);
  EXPECT_NE(settings.messages.front().advice.find("paper"), std::string::npos);
}

} // namespace
} // namespace shankline::tests::settings_test
